"""The two ends of a story stick: the one everything is counted from, and the far one with the cabinetmaker's triangle."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.blocks import stacked
from joinlay.pen.lettering import fitted, set_line, words
from joinlay.pen.marks import Align, Fill, Line, Polyline, Role, Text
from joinlay.pen.signs import BAR
from joinlay.templates.story.stick import Apex, Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark, Point
    from joinlay.templates.story.stick import Stick

__all__ = ["FAR_ROOM", "datum_end", "far_end", "triangle"]

#: Paper past the far end, for its words and the triangle.
FAR_ROOM: Final = Fraction(14)
_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
_LEAD: Final = Fraction(1)
_BLACK: Final = Fraction(1)
_ZERO: Final = Fraction(0)
#: The triangle: half its base, and its height.
_HALF, _TALL = Fraction(7, 2), Fraction(7)
#: The pointers under the heavy bar: half as wide as they are, and how high.
_POINT: Final = (Fraction(2), Fraction(7, 2))


def datum_end(stick: Stick, width: Fraction) -> Iterator[Mark]:
    """A heavy bar under zero, pointers that touch it, and the name of the end."""
    yield Fill(((_ZERO, -BAR), (width, -BAR), (width, _ZERO), (_ZERO, _ZERO)), _BLACK)
    half, tall = _POINT
    for x in (half + 1, width - half - 1):
        y = -BAR - 1
        yield Fill(((x, y), (x - half, y - tall), (x + half, y - tall)), _BLACK)
    y = -BAR - _LEAD
    shown = "grey is wood, hatched is cut" if any(one.kind is Kind.CUT for one in stick.stretches) else "grey is wood"
    lies = [words(line, _SMALL) for said in (stick.lies, shown) for line in _parted(said, width - 2, _SMALL, bold=False)]
    for line in (*_in_lines(stick.datum.upper(), width - 4 * half - 4), words("count from here", _SMALL), *lies):
        set_out = set_line(line)
        y -= set_out.rise
        yield Text((width / 2, y), line, Align.MIDDLE)
        y -= set_out.fall + _LEAD


def far_end(stick: Stick, width: Fraction, top: Fraction) -> Iterator[Mark]:
    """The far end's line, its name above ``top``, and the triangle whose apex shows how the piece stands."""
    yield Line((_ZERO, stick.length), (width if top == stick.length else Fraction(2), stick.length), Role.OUTLINE, stick.far)
    said = words(stick.top, _SMALL, bold=True)
    middle = (width - 3 - _HALF, top + FAR_ROOM / 2)
    yield Polyline(triangle(middle, stick.apex), Role.OUTLINE, closed=True, says="triangle")
    line = set_line(said)
    yield Text((middle[0] - _HALF - 1, middle[1] - line.rise / 2), said, Align.RIGHT)
    block = stacked(_in_lines(stick.far.upper(), width - 2 * _HALF - line.width - 8))
    yield from block.marks(Fraction(2), top + (FAR_ROOM - block.height) / 2)


def triangle(middle: Point, apex: Apex) -> tuple[Point, Point, Point]:
    """The cabinetmaker's triangle about ``middle``, its apex up, down or to the edge at the left."""
    x, y = middle
    half, tall = _HALF, _TALL / 2
    return {
        Apex.FAR: ((x - half, y - tall), (x + half, y - tall), (x, y + tall)),
        Apex.DATUM: ((x - half, y + tall), (x + half, y + tall), (x, y - tall)),
        Apex.EDGE: ((x + tall, y - half), (x + tall, y + half), (x - tall, y)),
    }[apex]


def _in_lines(said: str, room: Fraction) -> list[Content]:
    """``said`` in bold, in as few lines as go into ``room``; smaller where it would take more than two."""
    for high in (_WORD, _SMALL):
        lines = _parted(said, room, high, bold=True)
        if len(lines) <= 2 and all(set_line(words(line, high, bold=True)).width <= room for line in lines):
            break
    return [fitted(line, room, (high,), bold=True) for line in lines]


def _parted(said: str, room: Fraction, high: Fraction, *, bold: bool) -> list[str]:
    """``said`` parted between words into lines that go into ``room``, where its words do."""
    lines: list[str] = []
    for word in said.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and set_line(words(longer, high, bold=bold)).width <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
