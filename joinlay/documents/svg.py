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

__all__ = ["arc_element", "number_text", "points_text", "strokes_svg", "template_svg", "text_elements", "tone_of"]

#: Decimals of a millimetre: a hundredth of a thousandth, well under what a file of points keeps.
_PLACES = 5
#: Blank around a template, so that no line is cut in half by the edge of the picture.
_MARGIN = 2


def template_svg(template: Template, mark: str = "", made: str = "") -> bytes:
    """A template by itself, 2 mm of white around it, with its title for screen readers.

    Under it the plan's ``mark`` (PR-7), and who ``made`` it and when, as ``made_words`` has it.
    """
    return strokes_svg(
        template.marked(mark, made), template.title, told="; ".join(filter(None, (mark and f"plan mark {mark}", made)))
    )


def strokes_svg(strokes: Sequence[Stroke], title: str, box: Box | None = None, told: str = "") -> bytes:
    """``strokes`` as an SVG file called ``title``, of what lies in ``box``, in mm (unless given, their own bounds and a margin).

    ``told`` is what it says of itself beside its title. In ``strokes`` and ``box`` y runs up, as on every drawing;
    the same strokes give the same bytes.
    """
    if box is None:
        left, bottom, right, top = bounds_of(strokes)
        box = (left - _MARGIN, bottom - _MARGIN, right + _MARGIN, top + _MARGIN)
    wide, high = number_text(box[2] - box[0]), number_text(box[3] - box[1])
    view = f"{number_text(box[0])} {number_text(-box[3])} {wide} {high}"
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
            dash = f"; stroke-dasharray: {' '.join(map(number_text, pen.dash))}" if pen.dash else ""
            yield f".{role.value} {{ stroke-width: {number_text(pen.weight)}{dash} }}"
    yield ".area { stroke: none }"
    yield "</style>"


def _element(stroke: Stroke) -> Iterator[str]:
    if isinstance(stroke, Line):
        (x1, y1), (x2, y2) = stroke.start, stroke.end
        yield (
            f'<line {_about(stroke)} x1="{number_text(x1)}" y1="{number_text(-y1)}" x2="{number_text(x2)}" '
            f'y2="{number_text(-y2)}"/>'
        )
    elif isinstance(stroke, Polyline):
        yield f'<{"polygon" if stroke.closed else "polyline"} {_about(stroke)} points="{points_text(stroke.points)}"/>'
    elif isinstance(stroke, Fill):
        yield f'<polygon class="area" style="fill: {tone_of(stroke.ink)}"{_says(stroke)} points="{points_text(stroke.points)}"/>'
    elif isinstance(stroke, Arc):
        yield arc_element(stroke, _about(stroke))
    else:
        yield from text_elements(stroke)


def arc_element(arc: Arc, about: str) -> str:
    """``arc`` as an element, a circle where it goes round; ``about`` are its attributes beside where it lies."""
    (x, y), r = arc.centre, number_text(arc.radius)
    if arc.sweep >= 360:
        return f'<circle {about} cx="{number_text(x)}" cy="{number_text(-y)}" r="{r}"/>'
    ends = []
    for angle in (arc.start, arc.start + arc.sweep):
        turn = radians(angle)
        ends.append(
            f"{float(x) + float(arc.radius) * cos(turn):.{_PLACES}f} {-float(y) - float(arc.radius) * sin(turn):.{_PLACES}f}"
        )
    large = int(arc.sweep > 180)
    return f'<path {about} d="M {ends[0]} A {r} {r} 0 {large} 0 {ends[1]}"/>'


def text_elements(text: Text) -> Iterator[str]:
    """One text element for each piece of type; its length is given too, so that another typeface takes no more room."""
    tone = tone_of(text.ink)
    for piece, (x, y) in pieces_of(text):
        weight = ' class="bold"' if piece.bold else ""
        turn = f' transform="rotate({-90 * text.turn.value} {number_text(x)} {number_text(-y)})"' if text.turn.value else ""
        size = f'font-size="{number_text(piece.em)}" textLength="{number_text(piece.width)}" lengthAdjust="spacingAndGlyphs"'
        yield f'<text{weight} fill="{tone}" {size} x="{number_text(x)}" y="{number_text(-y)}"{turn}>{escape(piece.text)}</text>'


def tone_of(ink: Fraction) -> str:
    """The grey of so much ``ink``, 0 white and 1 black: ``#808080``."""
    grey = round(255 * (1 - ink))
    return f"#{grey:02x}{grey:02x}{grey:02x}"


def _about(stroke: Stroke) -> str:
    return f'class="{stroke.role.value}"{_says(stroke)}'


def _says(stroke: Stroke) -> str:
    return f" data-says={quoteattr(stroke.says)}" if stroke.says else ""


def points_text(points: Sequence[Point]) -> str:
    """``points`` as SVG has them, y downwards."""
    return " ".join(f"{number_text(x)},{number_text(-y)}" for x, y in points)


@lru_cache(maxsize=65536)
def number_text(number: Fraction) -> str:
    """A length in mm as SVG has it."""
    return decimal_text(number, _PLACES)
