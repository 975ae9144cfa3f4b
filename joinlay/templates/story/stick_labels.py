"""What is written on a story stick: names inside their stretch where they fit, all else in rows beside the ticks.

The problem. A stick shows every position at true size, and positions may lie less than a millimetre apart; yet each needs its
figure, and each stretch and centre its name, in lettering that can be read in the hand. No name may be crossed by a tick.

The method. A name stands inside its stretch, in the longest part that no tick crosses, where that part is long enough for it. One
that finds no room gets a row beside the stick, with a line that leads to it from its stretch; and since that line may cross the
part where another name stood, the names are placed anew with it, until none is left without room. Then the rows, which are the
figure of every tick and the names that stand outside, are spread (``pen.placing``): in the order of what they speak of, each as
near to it as the others let it. They are set large, or small where large rows would fill more than three quarters of the stick or
be too wide.

The cost. Each round takes at least one name outside, so there are at most as many rounds as names, in practice two or three; a
round sorts the positions. Spreading goes through the rows once.

What it can't do. Rows are not set smaller still: where there are too many, they reach past the far end of the stick, and the
paper is as long as they need. A word wider than a row may be is cut short.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import replace
from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction, Length
from joinlay.pen.blocks import stacked
from joinlay.pen.lettering import figures, fitted, set_line, words, wrapped
from joinlay.pen.placing import spread
from joinlay.records import dataclass
from joinlay.templates.template import FIGURE, SMALL, WORD

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.lettering import Content
    from joinlay.templates.story.stick import Stick, Stretch

__all__ = ["Inside", "LabelRow", "Labels", "label"]

#: Heights of figures and of names: the larger ones where the rows take no more than this share of the stick and none is too wide.
_SIZES: Final = ((FIGURE, WORD), (WORD, SMALL))
_SHARE: Final = Fraction(3, 4)
#: The widest a row may be, and white kept between two rows and at both ends of a name inside its stretch.
_WIDEST: Final = Fraction(28)
_WHITE: Final = Fraction(9, 10)
#: A part of a stretch as long as this has its name too; one twice as long has it twice.
_AGAIN: Final = Fraction(90)


@dataclass(frozen=True, slots=True)
class Inside:
    """A name that stands inside its stretch, reading along the stick, with its ``middle``."""

    stretch: Stretch
    middle: Fraction
    content: Content


@dataclass(frozen=True, slots=True)
class LabelRow:
    """A row of words: it speaks of the position ``at`` and stands with its middle at ``middle``.

    ``lane`` is that of the stretch it names; None for the figure of a tick.
    """

    at: Fraction
    middle: Fraction
    block: Block
    lane: int | None = None


@dataclass(frozen=True, slots=True)
class Labels:
    """All the words of a stick but its title and ends."""

    inside: tuple[Inside, ...]
    rows: tuple[LabelRow, ...]

    @property
    def width(self) -> Fraction:
        """The room the widest row takes across the stick, in mm."""
        return max((row.block.width for row in self.rows), default=Fraction(0))

    @property
    def top(self) -> Fraction:
        """How far up the highest row reaches, in mm."""
        return max((row.middle + row.block.height / 2 for row in self.rows), default=Fraction(0))


def label(stick: Stick, rule: Graduation) -> Labels:
    """The figure of every position of ``stick`` on ``rule`` (MS-2), every stretch's and centre's name, none on another."""
    ticks = list(stick.places)
    outside: dict[Stretch, Fraction] = {}
    inside: list[Inside] = []
    # A name that finds no room gets a line to its row, and that line may take another name's room; so until nothing changes.
    while True:
        lines = sorted({*ticks, *outside.values()})
        placed = {one: list(_inside(stick, one, lines)) for one in stick.stretches if one.word and one not in outside}
        homeless = [one for one, names in placed.items() if not names]
        if not homeless:
            inside = [name for names in placed.values() for name in names]
            break
        outside |= {one: _spot(stick, one, ticks) for one in homeless}
    return Labels(tuple(inside), tuple(_rows(stick, ticks, outside, rule)))


def _gaps(stick: Stick, stretch: Stretch, lines: Sequence[Fraction]) -> list[tuple[Fraction, Fraction]]:
    """The parts of a stretch that none of ``lines``, which rise, crosses, the longest first."""
    low, high = stick.seen(stretch)
    within = [low, *lines[bisect_right(lines, low) : bisect_left(lines, high)], high]
    return sorted(pairwise(within), key=lambda gap: gap[0] - gap[1])


def _spot(stick: Stick, stretch: Stretch, ticks: Sequence[Fraction]) -> Fraction:
    """Where the line to a name's row begins: clear of every tick."""
    low, high = _gaps(stick, stretch, ticks)[0]
    return (low + high) / 2


def _inside(stick: Stick, stretch: Stretch, lines: Sequence[Fraction]) -> Iterator[Inside]:
    """A stretch's name in its longest part, and again in every other long one, so that no tile of a long stick is without it."""
    content = words(stretch.label, SMALL)
    for n, (low, high) in enumerate(_gaps(stick, stretch, lines)):
        if set_line(content).width + 2 * _WHITE > high - low or (n and high - low < _AGAIN):
            return
        times = ceil((high - low) / (2 * _AGAIN))
        for turn in range(times):
            yield Inside(stretch, low + (high - low) * Fraction(2 * turn + 1, 2 * times), content)


def _rows(stick: Stick, ticks: Sequence[Fraction], outside: Mapping[Stretch, Fraction], rule: Graduation) -> list[LabelRow]:
    """The rows in the larger lettering if that will do, spread."""
    rows: list[LabelRow] = []
    for figure, word in _SIZES:
        rows = sorted(_asked(stick, ticks, outside, rule, figure=figure, word=word), key=lambda row: row.at)
        takes = sum(row.block.height + _WHITE for row in rows)
        if takes <= _SHARE * stick.length and all(row.block.width <= _WIDEST for row in rows):
            break
    middles = spread([row.at for row in rows], [row.block.height + _WHITE for row in rows], Fraction(0))
    return [replace(row, middle=middle) for row, middle in zip(rows, middles, strict=True)]


def _asked(
    stick: Stick,
    ticks: Sequence[Fraction],
    outside: Mapping[Stretch, Fraction],
    rule: Graduation,
    *,
    figure: Fraction,
    word: Fraction,
) -> Iterator[LabelRow]:
    """Every row beside what it speaks of, before they are spread; figures and words as high as asked."""
    centres = {centre.at: centre.label for centre in stick.centres}
    for at in ticks:
        lines: list[Content] = [figures(Length(at), rule, figure)]
        if at in centres:
            lines.append(fitted(centres[at], _WIDEST, (SMALL,), bold=True))
        yield LabelRow(at, at, stacked(lines))
    for stretch, spot in outside.items():
        yield LabelRow(spot, spot, stacked(_name(stretch.label, word)), stretch.lane)


def _name(said: str, high: Fraction) -> list[Content]:
    """A name in one line, as ``high`` as that allows; in lines of the smaller lettering where it is too wide."""
    line = next((line for size in (high, SMALL) if set_line(line := words(said, size)).width <= _WIDEST), None)
    return [line] if line is not None else [fitted(part, _WIDEST, (SMALL,)) for part in wrapped(said, _WIDEST, SMALL)]
