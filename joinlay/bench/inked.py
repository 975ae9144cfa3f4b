"""Marks as SVG within a page: no style of their own, so that the page's rules may stay strict, and each mark with what it stands for."""

from __future__ import annotations

import json
from functools import lru_cache
from math import cos, radians, sin
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from joinlay.lengths import Dimension, decimal_text
from joinlay.pen.marks import Arc, Fill, Line, Polyline, bounds_of, pieces_of, text_box

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.lengths import Fraction
    from joinlay.pen.marks import Of, Point, Stroke, Text

__all__ = ["inked"]

#: Decimals of a millimetre on the screen.
_PLACES = 3
#: White around a drawing, in mm.
_MARGIN = 3


def inked(strokes: Sequence[Stroke], title: str, told: str, key: str, areas: Sequence[Fill] = ()) -> Markup:
    """``strokes`` as an ``svg`` element with ``title`` and what is ``told`` of it for those who can't see it; ``key`` is a word for its ids.

    ``areas`` are where parts can be pressed, the nearest last. What a mark is of stands in it: ``data-part`` has the names of parts,
    ``data-why`` the name of a number. 1 unit is 1 mm on paper; how large it is shown is the page's business.
    """
    left, bottom, right, top = bounds_of(strokes)
    box = (left - _MARGIN, -top - _MARGIN, right - left + 2 * _MARGIN, top - bottom + 2 * _MARGIN)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="group" viewBox="{" ".join(map(_n, box))}" '
        f'aria-labelledby="{key}-title {key}-told" preserveAspectRatio="xMidYMid meet">',
        f'<title id="{key}-title">{escape(title)}</title><desc id="{key}-told">{escape(told)}</desc>',
        *(f'<polygon class="part"{_part(area.of)} points="{_points(area.points)}"/>' for area in areas),
        *(element for stroke in strokes for element in _element(stroke)),
        "</svg>",
    ]
    return Markup("\n").join(Markup(line) for line in lines)


def _element(stroke: Stroke) -> Iterator[str]:
    if isinstance(stroke, Line):
        (x1, y1), (x2, y2) = stroke.start, stroke.end
        yield f'<line {_about(stroke)} x1="{_n(x1)}" y1="{_n(-y1)}" x2="{_n(x2)}" y2="{_n(-y2)}"/>'
    elif isinstance(stroke, Polyline):
        yield f'<{"polygon" if stroke.closed else "polyline"} {_about(stroke)} points="{_points(stroke.points)}"/>'
    elif isinstance(stroke, Fill):
        yield f'<polygon class="area" fill="{_tone(stroke.ink)}" points="{_points(stroke.points)}"/>'
    elif isinstance(stroke, Arc):
        yield _arc(stroke)
    else:
        yield from _told(stroke)


def _told(text: Text) -> Iterator[str]:
    """Words; a figure whose number has a name can be pressed, and so can the name of a part, on all the room they take."""
    of = text.of
    if of is None or (isinstance(of, Dimension) and not of.name):
        yield from _text(text)
        return
    said = escape(text.plain)
    if isinstance(of, Dimension):
        yield f'<g class="why" data-why="{escape(of.name)}" role="button" tabindex="0" aria-label="{said}: {escape(of.name)}. Why?">'
    else:
        yield f'<g class="called"{_part(of)}>'
    left, low, right, high = text_box(text)
    yield f'<rect x="{_n(left - 1)}" y="{_n(-high - 1)}" width="{_n(right - left + 2)}" height="{_n(high - low + 2)}"/>'
    yield from _text(text)
    yield "</g>"


def _part(of: Of) -> str:
    """Which parts a mark is of, by name, as a list for the page's script."""
    if of is None or isinstance(of, Dimension):
        return ""
    names = [role.name for role in (of if isinstance(of, tuple) else (of,))]
    return f' data-part="{escape(json.dumps(names))}"'


def _arc(arc: Arc) -> str:
    (x, y), r = arc.centre, _n(arc.radius)
    if arc.sweep >= 360:
        return f'<circle {_about(arc)} cx="{_n(x)}" cy="{_n(-y)}" r="{r}"/>'
    ends = []
    for angle in (arc.start, arc.start + arc.sweep):
        turn = radians(angle)
        ends.append(f"{float(x) + float(arc.radius) * cos(turn):.3f} {-float(y) - float(arc.radius) * sin(turn):.3f}")
    return f'<path {_about(arc)} d="M {ends[0]} A {r} {r} 0 {int(arc.sweep > 180)} 0 {ends[1]}"/>'


def _text(text: Text) -> Iterator[str]:
    for piece, (x, y) in pieces_of(text):
        weight = ' class="bold"' if piece.bold else ""
        turn = f' transform="rotate({-90 * text.turn.value} {_n(x)} {_n(-y)})"' if text.turn.value else ""
        size = f'font-size="{_n(piece.em)}" textLength="{_n(piece.width)}" lengthAdjust="spacingAndGlyphs"'
        yield f'<text{weight} fill="{_tone(text.ink)}" {size} x="{_n(x)}" y="{_n(-y)}"{turn}>{escape(piece.text)}</text>'


def _tone(ink: Fraction) -> str:
    return f"#{round(255 * (1 - ink)):02x}" + f"{round(255 * (1 - ink)):02x}" * 2


def _about(stroke: Stroke) -> str:
    return f'class="{stroke.role.value}"{_part(stroke.of)}'


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(-y)}" for x, y in points)


@lru_cache(maxsize=65536)
def _n(number: Fraction) -> str:
    return decimal_text(number, _PLACES)
