"""Strokes as SVG at true size: width and height in millimetres, and a viewBox in millimetres, so that 1 unit is 1 mm."""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians, sin
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from joinlay.lengths import Fraction, decimal_text
from joinlay.pen.marks import PENS, Arc, Fill, Line, Polyline, Role, bounds_of, pieces_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.marks import Box, Point, Stroke, Text
    from joinlay.templates import Template

__all__ = ["strokes_svg", "template_svg"]

#: Decimals of a millimetre: a hundredth of a thousandth, well under what a file of points keeps.
_PLACES = 5
#: Blank around a template, so that no line is cut in half by the edge of the picture.
_MARGIN = 2


def template_svg(template: Template, mark: str = "") -> bytes:
    """A template by itself, 2 mm of white around it, with its title for screen readers; the plan's ``mark`` under it (PR-7)."""
    return strokes_svg(template.marked(mark), template.title, told=f"plan mark {mark}" if mark else "")


def strokes_svg(strokes: Sequence[Stroke], title: str, box: Box | None = None, told: str = "") -> bytes:
    """``strokes`` as an SVG file called ``title``, of what lies in ``box``, in mm (unless given, their own bounds and a margin).

    ``told`` is what it says of itself beside its title. In ``strokes`` and ``box`` y runs up, as on every drawing;
    the same strokes give the same bytes.
    """
    if box is None:
        left, bottom, right, top = bounds_of(strokes)
        box = (left - _MARGIN, bottom - _MARGIN, right + _MARGIN, top + _MARGIN)
    wide, high = _n(box[2] - box[0]), _n(box[3] - box[1])
    view = f"{_n(box[0])} {_n(-box[3])} {wide} {high}"
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="{view}">',
        f"<title>{escape(title)}</title>",
        *([f"<desc>{escape(told)}</desc>"] if told else []),
        *_style(strokes),
        *(element for stroke in strokes for element in _element(stroke)),
        "</svg>",
    ]
    return ("\n".join(lines) + "\n").encode()


def _style(strokes: Sequence[Stroke]) -> Iterator[str]:
    """Line types of the roles that are used, one class each."""
    used = {stroke.role for stroke in strokes}
    yield "<style>"
    yield "line, polyline, polygon, path, circle { fill: none; stroke: black }"
    yield "text { font-family: 'DejaVu Sans', sans-serif } .bold { font-weight: bold }"
    for role in Role:
        if role in used:
            pen = PENS[role]
            dash = f"; stroke-dasharray: {' '.join(map(_n, pen.dash))}" if pen.dash else ""
            yield f".{role.value} {{ stroke-width: {_n(pen.weight)}{dash} }}"
    yield ".area { stroke: none }"
    yield "</style>"


def _element(stroke: Stroke) -> Iterator[str]:
    if isinstance(stroke, Line):
        (x1, y1), (x2, y2) = stroke.start, stroke.end
        yield f'<line {_about(stroke)} x1="{_n(x1)}" y1="{_n(-y1)}" x2="{_n(x2)}" y2="{_n(-y2)}"/>'
    elif isinstance(stroke, Polyline):
        yield f'<{"polygon" if stroke.closed else "polyline"} {_about(stroke)} points="{_points(stroke.points)}"/>'
    elif isinstance(stroke, Fill):
        yield f'<polygon class="area" style="fill: {_tone(stroke.ink)}"{_says(stroke)} points="{_points(stroke.points)}"/>'
    elif isinstance(stroke, Arc):
        yield _arc(stroke)
    else:
        yield from _text(stroke)


def _arc(arc: Arc) -> str:
    (x, y), r = arc.centre, _n(arc.radius)
    if arc.sweep >= 360:
        return f'<circle {_about(arc)} cx="{_n(x)}" cy="{_n(-y)}" r="{r}"/>'
    ends = []
    for angle in (arc.start, arc.start + arc.sweep):
        turn = radians(angle)
        ends.append(
            f"{float(x) + float(arc.radius) * cos(turn):.{_PLACES}f} {-float(y) - float(arc.radius) * sin(turn):.{_PLACES}f}"
        )
    large = int(arc.sweep > 180)
    return f'<path {_about(arc)} d="M {ends[0]} A {r} {r} 0 {large} 0 {ends[1]}"/>'


def _text(text: Text) -> Iterator[str]:
    """One text element for each piece of type; its length is given too, so that another typeface takes no more room."""
    tone = _tone(text.ink)
    for piece, (x, y) in pieces_of(text):
        weight = ' class="bold"' if piece.bold else ""
        turn = f' transform="rotate({-90 * text.turn.value} {_n(x)} {_n(-y)})"' if text.turn.value else ""
        size = f'font-size="{_n(piece.em)}" textLength="{_n(piece.width)}" lengthAdjust="spacingAndGlyphs"'
        yield f'<text{weight} fill="{tone}" {size} x="{_n(x)}" y="{_n(-y)}"{turn}>{escape(piece.text)}</text>'


def _tone(ink: Fraction) -> str:
    grey = round(255 * (1 - ink))
    return f"#{grey:02x}{grey:02x}{grey:02x}"


def _about(stroke: Stroke) -> str:
    return f'class="{stroke.role.value}"{_says(stroke)}'


def _says(stroke: Stroke) -> str:
    return f" data-says={quoteattr(stroke.says)}" if stroke.says else ""


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(-y)}" for x, y in points)


@lru_cache(maxsize=65536)
def _n(number: Fraction) -> str:
    return decimal_text(number, _PLACES)
