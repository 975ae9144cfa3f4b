"""The scale sheet: what a maker measures to learn how true a printer prints, both ways and along the diagonals (PR-2, PR-3)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.geometry import corners
from joinlay.lengths import GRADUATIONS, Fraction, Length, Unit, plain_mm
from joinlay.pages.check_square import BAR_HIGH, BAR_LOW, SQUARE, LongBar, bar_length, check_square
from joinlay.pages.packing import BAR_ROOM
from joinlay.pages.printed_sheet import NO_WORDS, Laid, Sheet, bind
from joinlay.pages.printer import Printer
from joinlay.paper import BORDER
from joinlay.pen.dimensioning import DimensionLine
from joinlay.pen.lettering import fitted, words
from joinlay.pen.marks import Align, Line, Move, Polyline, Role, Text, bounds_of, flatten, moved
from joinlay.records import dataclass
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pages.printed_sheet import FootWords
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Mark, Point, Stroke

__all__ = ["ScaleFoot", "bars_on", "rectangle_on", "scale_sheets"]

#: A page of a roll that the sheet is printed on, in mm.
_OF_ROLL: Final = Fraction(300)
#: White around the rectangle, with room for its dimensions.
_WHITE: Final = Fraction(9)
#: How wide the rectangle may be; three quarters as high, so that its diagonals are five quarters: 200, 150, 100 or 50 mm exactly.
_WIDE: Final = (Fraction(160), Fraction(120), Fraction(80), Fraction(40))

_LARGE, _WORD, _SMALL, _TINY = Fraction(7), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
_LEFT: Final = Fraction(3)


def _page(paper: Paper) -> Paper:
    """The page it is drawn on. A border narrower than usual changes nothing, so that one sheet serves for either."""
    page = paper.cut_to(_OF_ROLL) if paper.is_roll else paper
    return replace(page, border=max(page.border, BORDER))


def bars_on(paper: Paper) -> tuple[LongBar, LongBar]:
    """The long bars of the scale sheet for ``paper``: across it, and down it (PR-2)."""
    return _bars(Printer().room(_page(paper)))


def rectangle_on(paper: Paper) -> tuple[Fraction, Fraction]:
    """Width and height in mm of the rectangle on the scale sheet for ``paper``, sides as 4 to 3. BadInput for paper too small."""
    x0, y0, x1, y1 = _rectangle(Printer().room(_page(paper)), paper)
    return x1 - x0, y1 - y0


def scale_sheets(paper: Paper, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """The scale sheet for ``paper``: two long bars, the check square, and a rectangle with its diagonals (PR-2); one sheet.

    With a ``printer`` that was measured it is corrected, to prove the correction (PR-3). Raises BadInput for paper too small.
    """
    asked, page = printer or Printer(), _page(paper)
    area = asked.room(page)
    left, bottom, right, top = area
    level, upright = _bars(area)
    box = _rectangle(area, paper)
    body = (
        *level.drawn(left, top - BAR_HIGH, upright=False),
        *upright.drawn(right - BAR_LOW, bottom, upright=True),
        *flatten(_diagonals(box)),
    )
    template = Template(("scale sheet",), paper.title, body, bounds_of(body))
    diagonal = (box[2] - box[0]) * 5 / 4
    foot = ScaleFoot(paper=paper, printer=asked, level=level, upright=upright, diagonal=diagonal, corner=(left, bottom))
    return bind([Sheet(page, asked, body, foot, (Laid(template, Move()),))])


def _bars(area: Box) -> tuple[LongBar, LongBar]:
    return LongBar(bar_length(area[2] - area[0])), LongBar(bar_length(area[3] - area[1]))


def _rectangle(area: Box, paper: Paper) -> Box:
    """Where the rectangle goes: above the check square, or beside it where it can be larger there."""
    left, bottom, right, top = area[0], area[1], area[2] - BAR_ROOM, area[3] - BAR_ROOM
    above = (left + _WHITE, bottom + SQUARE + _WHITE, right, top)
    beside = (left + SQUARE + 2 * _WHITE, bottom, right, top)
    for wide in _WIDE:
        for x0, y0, x1, y1 in (above, beside):
            if wide <= x1 - x0 and wide * 3 / 4 + _WHITE <= y1 - y0 and right - left >= SQUARE and top - bottom >= SQUARE:
                return (x0, y1 - _WHITE / 3 - wide * 3 / 4, x0 + wide, y1 - _WHITE / 3)
    border = 2 * max(paper.border, BORDER)
    least = tuple(Length(side + border + BAR_ROOM) for side in (SQUARE, SQUARE + 2 * _WHITE + _WIDE[-1] * 3 / 4))
    # There is no job here: the sizes are in the paper's own unit.
    show = plain_mm if paper.unit is Unit.MM else GRADUATIONS["1/64 in"].text
    sizes = " x ".join(show(side) for side in least)
    raise BadInput(f"{paper.title} paper is too small for a scale sheet; the least is {sizes}.")


def _diagonals(box: Box) -> Iterator[Mark]:
    """The rectangle with its diagonals, each with its name, and its sides in figures."""
    x0, y0, x1, y1 = box
    wide, high = x1 - x0, y1 - y0
    yield Polyline(corners(box), Role.CHECK, closed=True, says="rectangle")
    yield Line((x0, y0), (x1, y1), Role.CHECK, "rising diagonal")
    yield Line((x0, y1), (x1, y0), Role.CHECK, "falling diagonal")
    below = y0 + high * 3 / 4 - _WORD * 5 / 2
    yield Text((x0 + wide * 3 / 4 + 2, below), words("rising", _WORD if wide > 100 else _SMALL))
    yield Text((x0 + wide / 4 - 2, below), words("falling", _WORD if wide > 100 else _SMALL), Align.RIGHT)
    yield DimensionLine((x0, y0 - 4), (x1, y0 - 4), Fraction(0), words(f"{wide} mm", _SMALL))
    yield DimensionLine((x0 - 4, y0), (x0 - 4, y1), Fraction(0), words(f"{high} mm", _SMALL))


@dataclass(frozen=True, slots=True)
class ScaleFoot:
    """The check square, and in it what to do.

    ``level`` and ``upright`` are the bars on the sheet, ``diagonal`` the length of its rectangle's in mm, ``corner`` where the
    lower left corner of the square stands.
    """

    paper: Paper
    printer: Printer
    level: LongBar
    upright: LongBar
    diagonal: Fraction
    corner: Point

    def strokes(self, number: int, of: int, mark: str = "", said: FootWords = NO_WORDS) -> tuple[Stroke, ...]:
        """All of it; the sheet stands alone, so its number is not said. Maker and date stand under its name."""
        del number, of, mark
        return tuple(moved(stroke, Move(*self.corner)) for stroke in flatten(self._marks(said.made)))

    def _marks(self, made: str) -> Iterator[Mark]:
        yield from check_square()
        yield Text((_LEFT, Fraction(76)), words("Scale sheet", _LARGE, bold=True))
        if made:
            yield Text((_LEFT, Fraction(145, 2)), fitted(made, Fraction(82), (_TINY,)))
        for at, said in (
            (68, "1  Print at 100 %, no fit to page."),
            (62, "2  Measure between long strokes,"),
            (57, "    and from corner to corner:"),
        ):
            yield _line(at, said)
        rows = (
            ("across", f"{self.level.length} mm or {self.level.inches} in"),
            ("down", f"{self.upright.length} mm or {self.upright.inches} in"),
            ("rising", f"{self.diagonal} mm"),
            ("falling", f"{self.diagonal} mm"),
        )
        for n, (name, drawn) in enumerate(rows):
            y = 50 - n * Fraction(13, 2)
            yield _line(y, name, indent=5)
            yield Line((Fraction(24), y - 1), (Fraction(44), y - 1), Role.FRAME)
            yield Text((Fraction(46), y), fitted(drawn, Fraction(38), (_SMALL,)))
        yield from self._last()
        yield from self._fields()

    def _last(self) -> Iterator[Mark]:
        """What comes of the figures."""
        if self.printer.is_measured:
            yield _line(Fraction(47, 2), "3  Each must be as it says here.")
            said: tuple[str, ...] = (
                f"Corrected for {self.printer.name}, and for no other:",
                self.printer.correction,
                f"as measured on {self.printer.measured}.",
            )
        else:
            yield _line(Fraction(47, 2), "3  Let joinlay know:")
            said = (
                f"joinlay printer add NAME --paper {_quoted(self.paper.name)}",
                "--across .. --down ..",
                "--rising-diagonal .. --falling-diagonal ..",
            )
        for n, line in enumerate(said):
            yield Text((_LEFT + 5, Fraction(37, 2) - n * Fraction(7, 2)), fitted(line, Fraction(77), (_SMALL, _TINY)))

    def _fields(self) -> Iterator[Mark]:
        y, x = Fraction(1), _LEFT
        yield Line((x, y + 9), (x + 82, y + 9), Role.FRAME)
        for n, (label, said, wide) in enumerate(
            (("document", "scale sheet", 34), ("scale", "1:1", 14), ("paper", self.paper.title, 34))
        ):
            if n:
                yield Line((x, y), (x, y + 9), Role.FRAME)
            yield Text((x + 1, y + Fraction(13, 2)), words(label, _TINY))
            yield Text((x + 1, y + Fraction(3, 2)), fitted(said, Fraction(wide - 2), (_WORD, _SMALL, _TINY)))
            x += wide


def _line(y: int | Fraction, said: str, indent: int = 0) -> Text:
    return Text((_LEFT + indent, Fraction(y)), fitted(said, Fraction(82), (_WORD, _SMALL)))


def _quoted(name: str) -> str:
    return f'"{name}"' if " " in name else name
