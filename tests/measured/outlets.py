"""One template out of three files, read back by readers that aren't ours and brought to one shape: what is drawn, in millimetres.

``Read`` holds the straight strokes (as pairs of ends), the arcs (as their two ends and middle) and the words with the point where
each begins, y up, all from the template's own zero point.
"""

from collections import defaultdict
from dataclasses import dataclass, field
from io import BytesIO, StringIO
from itertools import pairwise
from math import cos, radians, sin
from typing import Any

import ezdxf
import pdfplumber
from reportlab.graphics.shapes import Circle, Group, Line, Path, Polygon, PolyLine, String
from reportlab.lib.utils import isStr
from svglib.svglib import svg2rlg

from joinlay.documents.dxf import template_dxf
from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.svg import template_svg
from joinlay.lengths import Fraction
from joinlay.pages import Printer, Sheet
from joinlay.paper import Paper
from joinlay.pen.marks import Move, moved
from tests.measured.reading import MM

#: Blank around a template in its SVG, and on the page it is printed on for these tests, in mm.
_SVG_MARGIN, _PAGE_MARGIN = 2, 20


@dataclass
class Read:
    """What a reader found."""

    segments: list[Any] = field(default_factory=list)
    arcs: list[Any] = field(default_factory=list)
    words: list[Any] = field(default_factory=list)

    def runs(self, points, closed=False):
        """Add the straight strokes from point to point."""
        ends = [*points, points[0]] if closed and points[0] != points[-1] else points
        self.segments += [(*one, *two) for one, two in pairwise(ends)]

    def curve(self, pieces):
        """Add an arc given as Bezier pieces (four points each)."""
        half, odd = divmod(len(pieces), 2)
        middle = _middle(pieces[half]) if odd else pieces[half][0]
        self.arcs.append((*pieces[0][0], *middle, *pieces[-1][3]))

    def arc(self, centre, r, start, sweep):
        """Add an arc given by its circle and angles in degrees."""
        x, y = centre
        ends = [(x + r * cos(radians(a)), y + r * sin(radians(a))) for a in (start, start + sweep / 2, start + sweep)]
        self.arcs.append(tuple(n for point in ends for n in point))


def _middle(piece):
    return tuple((a + 3 * b + 3 * c + d) / 8 for a, b, c, d in zip(*piece, strict=True))


# -- DXF ----------------------------------------------------------------------------------------------


def read_dxf(template):
    """The template's DXF as another library reads it."""
    drawing = ezdxf.read(StringIO(template_dxf(template).decode()))
    assert drawing.units == 4  # millimetres
    found = Read()
    marks: Any = drawing.modelspace()
    for mark in marks:
        kind = mark.dxftype()
        if kind == "LINE":
            found.runs([tuple(mark.dxf.start)[:2], tuple(mark.dxf.end)[:2]])
        elif kind == "LWPOLYLINE":
            found.runs([tuple(point) for point in mark.get_points("xy")], mark.closed)
        elif kind == "HATCH":
            found.runs([tuple(vertex)[:2] for vertex in mark.paths[0].vertices], closed=True)
        elif kind == "CIRCLE":
            found.arc(tuple(mark.dxf.center)[:2], mark.dxf.radius, 0, 360)
        elif kind == "ARC":
            sweep = (mark.dxf.end_angle - mark.dxf.start_angle) % 360
            found.arc(tuple(mark.dxf.center)[:2], mark.dxf.radius, mark.dxf.start_angle, sweep)
        else:
            assert kind == "TEXT"
            found.words.append((mark.plain_text(), *tuple(mark.dxf.insert)[:2]))
    return found


# -- SVG ----------------------------------------------------------------------------------------------


def read_svg(template):
    """The template's SVG as another library reads it, which gives it in points from the lower left corner."""
    left, bottom = (float(n) - _SVG_MARGIN for n in template.box[:2])
    found = Read()
    _shapes(svg2rlg(BytesIO(template_svg(template))), lambda x, y: (x * MM + left, y * MM + bottom), found)
    return found


def _shapes(group, put, found):
    for shape in group.contents:
        if isinstance(shape, Group):
            a, b, c, d, e, f = shape.transform
            _shapes(shape, lambda x, y, m=(a, b, c, d, e, f): put(m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]), found)
        elif isinstance(shape, Line):
            found.runs([put(shape.x1, shape.y1), put(shape.x2, shape.y2)])
        elif isinstance(shape, Polygon | PolyLine):
            found.runs([put(*pair) for pair in zip(*[iter(shape.points)] * 2, strict=True)], isinstance(shape, Polygon))
        elif isinstance(shape, Circle):
            centre, edge = put(shape.cx, shape.cy), put(shape.cx + shape.r, shape.cy)
            found.arc(centre, abs(edge[0] - centre[0]), 0, 360)
        elif isinstance(shape, Path):
            _path(shape, put, found)
        else:
            assert isinstance(shape, String), shape
            assert isStr(shape.text)
            found.words.append((shape.text, *put(shape.x, shape.y)))


def _path(path, put, found):
    points = iter([put(*pair) for pair in zip(*[iter(path.points)] * 2, strict=True)])
    pieces, at = [], None
    for operator in path.operators:
        assert operator in (0, 2), "our paths are arcs only"
        if operator == 0:
            at = next(points)
        else:
            pieces.append((at, next(points), next(points), next(points)))
            at = pieces[-1][3]
    found.curve(pieces)


# -- PDF ----------------------------------------------------------------------------------------------


class Footless:
    """No foot at all."""

    def strokes(self, number, of, mark="", said=None):
        return ()


def read_pdf(template):
    """The template's page, as large as the template needs, as another library reads it."""
    wide, high = (size + 2 * _PAGE_MARGIN for size in template.size)
    move = Move(_PAGE_MARGIN - template.box[0], _PAGE_MARGIN - template.box[1])
    strokes = tuple(moved(stroke, move) for stroke in template.strokes)
    page = Sheet(Paper("large", "large", Fraction(wide), Fraction(high)), Printer(), strokes, Footless(), ())
    found = Read()
    with pdfplumber.open(BytesIO(sheets_pdf((page,), title="one template"))) as document:
        only = document.pages[0]
        tall = float(only.height)

        def put(x, y):
            return (x * MM - float(move.right), (tall - y) * MM - float(move.up))

        for shape in (*only.lines, *only.curves, *only.rects):
            _drawn(shape, put, found)
        for letter in only.chars:
            found.words.append(
                (letter["text"], letter["matrix"][4] * MM - float(move.right), letter["matrix"][5] * MM - float(move.up))
            )
    return found


def _drawn(shape, put, found):
    pieces, at = [], None
    if any(step[0] == "c" for step in shape["path"]):
        for operator, *points in shape["path"]:
            placed = [put(*point) for point in points]
            if operator == "c":
                pieces.append((at, *placed))
            at = placed[-1] if placed else at
        found.curve(pieces)
    else:
        found.runs([put(*point) for point in shape["pts"]], closed=shape["fill"] or shape["path"][-1][0] == "h")


# -- comparing ----------------------------------------------------------------------------------------


def unmatched(one, two, near):
    """The marks of ``one`` that ``two`` doesn't have within ``near`` mm, each of ``two`` used once; a stroke may run either
    way round.
    """
    rooms = defaultdict(list)
    for mark in two:
        rooms[_room(mark)].append(mark)
    left = []
    for mark in one:
        x, y = _room(mark)
        around = [(x + i, y + j) for i in (0, -1, 1) for j in (0, -1, 1)]
        found = next(((room, other) for room in around for other in rooms.get(room, ()) if _alike(mark, other, near)), None)
        if found is None:
            left.append(mark)
        else:
            rooms[found[0]].remove(found[1])
    return left


def _ends(mark):
    """The ends of a stroke, or the start of a word."""
    return mark[1:] if isinstance(mark[0], str) else mark


def _room(mark):
    numbers = _ends(mark)
    return tuple(round((numbers[n] + numbers[n - 2]) / 2) for n in (0, 1))


def _alike(one, two, near):
    if isinstance(one[0], str) and one[0] != two[0]:
        return False
    ends, others = _ends(one), _ends(two)
    turned = tuple(n for i in range(len(others) - 2, -1, -2) for n in others[i : i + 2])
    return any(all(abs(a - b) < near for a, b in zip(ends, way, strict=True)) for way in (others, turned))
