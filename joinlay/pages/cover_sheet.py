"""The cover of a packet: what it is, how it looks, what was found, what is inside, and what to do before the first cut."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.finding_sheets import worst_findings
from joinlay.pages.plain_sheet import Paragraph, PlainPages, fill_frames
from joinlay.pages.printed_sheet import Link
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import fitted, words
from joinlay.pen.marks import Align, Line, Move, Role, Text, bounds_of, moved
from joinlay.pictures.elevation import elevation
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Stroke
    from joinlay.pictures.picture import Picture

__all__ = ["ContentsLine", "cover_sheet"]

_TITLE, _HEAD, _WORD, _SMALL = Fraction(10), Fraction(5), Fraction(7, 2), Fraction(5, 2)
_ROW: Final = Fraction(13, 2)
#: A row of the contents lower than this is set small.
_LEAST_ROW: Final = Fraction(6)
_GAP: Final = Fraction(8)
#: The white above the words at the bottom, and how much of the sheet they may take.
_OVER, _MOST_LOW = Fraction(5), Fraction(3, 5)
_BEFORE: Final = (
    "Print at actual size, with no fitting to the page, and measure the check square on every sheet you mark from.",
    "Measure your stock in three places with callipers. If it is not what the job says, change the job and print again.",
    "Cut a test piece for each set-up before the good wood.",
)
_CAUTIONS: Final = (
    "Routers and saws maim: follow the machine's manual, keep the guards on, use push blocks, unplug to change a cutter, and "
    "protect eyes, ears and lungs. Fix a tall piece to the wall: it can tip onto a child. Nothing here is tested against a "
    "safety standard; local rules and qualified people come first.",
)


@dataclass(frozen=True, slots=True)
class ContentsLine:
    """A chapter in the contents: its ``heading``, the number of its ``first`` sheet, and ``how_many`` it has."""

    heading: str
    first: int
    how_many: int

    @property
    def numbers(self) -> str:
        """``7`` or ``7 to 12``."""
        return str(self.first) if self.how_many == 1 else f"{self.first} to {self.first + self.how_many - 1}"


def cover_sheet(
    plan: Plan,
    says: str,
    contents: Sequence[ContentsLine],
    paper: Paper,
    *,
    left_out: Sequence[tuple[str, str]] = (),
    printer: Printer | None = None,
) -> Sheet:
    """The cover of the packet of ``plan`` on ``paper``, corrected for ``printer``; a printer taken at its word unless given.

    ``says`` is one line on what the piece is. ``contents`` are the chapters in their order; each of its lines leads to its
    chapter. ``left_out`` is what isn't printed unless asked for: what it is, and the word it is asked for by, '' for what
    comes only with everything.
    """
    pages = PlainPages(plan, paper, "cover", printer or Printer())
    left, bottom, right, top = pages.box
    head = top - 26
    said = list(_first(plan, left_out))
    low = bottom + min(_depth(said, right - left), (head - bottom) * _MOST_LOW)
    picture, found, listed = _shared_out(plan, (left, low, right, head - 3))
    strokes: list[Stroke] = [
        Text((left, top - 12), fitted(plan.title, right - left, (_TITLE, _TITLE * Fraction(7, 10), _HEAD), bold=True)),
        Text((left, top - 21), fitted(says, right - left, (_HEAD, _WORD, _SMALL))),
        Line((left, head), (right, head), Role.FRAME),
        *picture,
        *worst_findings(plan, found),
    ]
    inside, links = _contents(contents, listed)
    strokes += inside
    strokes.append(Line((left, low - 3), (right, low - 3), Role.FRAME))
    before, _ = fill_frames(said, ((left, bottom, right, low - _OVER),))
    strokes += before
    (sheet,) = pages.sheets([("", tuple(strokes))])
    return replace(sheet, links=links)


def _shared_out(plan: Plan, box: Box) -> tuple[tuple[Stroke, ...], Box, Box]:
    """The front of the piece as large as can be, and the boxes left for the findings and for the contents.

    A tall piece stands at the left with both beside it; a wide one above with both below.
    """
    left, bottom, right, top = box
    middle, half = left + (right - left) * Fraction(11, 20), bottom + (top - bottom) * Fraction(11, 20)
    under = bottom + (top - bottom) * Fraction(1, 2)
    beside = elevation(plan, (middle - left, top - bottom))
    above = elevation(plan, (right - left, top - under - 2))
    if beside is None or above is None:
        return (), (left, bottom, middle - _GAP, top), (middle, bottom, right, top)
    if above.size[0] > beside.size[0]:
        x = left + (right - left) / 2
        return _placed(above, x - above.size[0] / 2, top), (left, bottom, x - _GAP, under), (x, bottom, right, under - 1)
    return _placed(beside, left, top), (middle + _GAP, half, right, top), (middle + _GAP, bottom, right, half - 3)


def _placed(picture: Picture, left: Fraction, top: Fraction) -> tuple[Stroke, ...]:
    """``picture`` with its upper left corner there."""
    move = Move(left - picture.box[0], top - picture.box[3])
    return tuple(moved(stroke, move) for stroke in picture.strokes)


def _contents(entries: Sequence[ContentsLine], box: Box) -> tuple[list[Stroke], tuple[Link, ...]]:
    """The chapters, one a line, the numbers of their sheets at the right."""
    left, bottom, right, top = box
    strokes: list[Stroke] = [Text((left, top - _HEAD), words("What is inside", _HEAD, bold=True))]
    links = []
    y = top - _HEAD - 4
    row = min(_ROW, (y - bottom) / max(1, len(entries)))
    heights = (_WORD, _SMALL) if row >= _LEAST_ROW else (_SMALL,)
    for entry in entries:
        y -= row
        under = (row - heights[0]) / 2 + Fraction(1, 2)
        strokes.append(Text((left, y + under), fitted(entry.heading, right - left - 24, heights)))
        strokes.append(Text((right, y + under), words(entry.numbers, heights[0]), Align.RIGHT))
        strokes.append(Line((left, y + Fraction(1, 2)), (right, y + Fraction(1, 2)), Role.ROW))
        links.append(Link((left, y + Fraction(1, 2), right, y + row), entry.first))
    return strokes, tuple(links)


def _first(plan: Plan, left_out: Sequence[tuple[str, str]]) -> Iterator[Paragraph]:
    yield Paragraph("Before you start", _HEAD, bold=True)
    for said in (*_BEFORE, *_CAUTIONS):
        yield Paragraph(said, _WORD, above=Fraction(1))
    if left_out:
        told = "; ".join(f"{what} (--chapter {word})" if word else f"{what} (--all)" for what, word in left_out)
        yield Paragraph("Not printed unless you ask", _HEAD, bold=True, above=Fraction(2))
        every = f"All of it: joinlay make {plan.file} --all; its sheets say all before their numbers, and don't go with these"
        yield Paragraph(f"{told[0].upper()}{told[1:]}. {every}", _WORD, above=Fraction(1))


def _depth(said: Sequence[Paragraph], wide: Fraction) -> Fraction:
    """How far up the words at the bottom reach where they are ``wide`` mm, with the white above them."""
    strokes, _ = fill_frames(said, ((Fraction(0), Fraction(-1000), wide, Fraction(0)),))
    return _OVER - bounds_of(strokes)[1] + 1
