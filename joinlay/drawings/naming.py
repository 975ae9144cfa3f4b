"""Names beside a picture of the piece, each with a line to its part (ISO 128-22); or numbers, and the names in a list.

Parts of one kind share a name in few words, such as ``drawer 1 to 4 back``, so that it is found in every list.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.drawings.chains import spread
from joinlay.drawings.lettering import words, wrapped
from joinlay.drawings.marks import Fill, Line, Role, Text, text_box
from joinlay.drawings.outlines import corners
from joinlay.drawings.placing import whole

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.drawings.marks import Point, Stroke
    from joinlay.drawings.placing import Whole
    from joinlay.drawings.sight import Sight
    from joinlay.drawings.wood import Fit

__all__ = ["SMALL", "Column", "Named", "SetNames", "kinds_of", "leader", "named_in"]

#: The height of names in mm, and from one line of them to the next.
SMALL: Final = Fraction(5, 2)
_STEP, _BETWEEN = Fraction(19, 5), Fraction(6, 5)
#: White between words and a line that passes them, in micrometres.
_WHITE: Final = 600
#: Half the side of the dot a line ends in.
_DOT: Final = Fraction(2, 5)


@dataclass(frozen=True, slots=True)
class Named:
    """Something to name: what is said, and the points its line may end at, the best first."""

    said: str
    spots: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class SetNames:
    """Names that have been set: their ``strokes``, what their ``numbers`` stand for from 1, and those left ``over``.

    There are no numbers where the names themselves stand there.
    """

    strokes: tuple[Stroke, ...]
    numbers: tuple[str, ...]
    over: tuple[str, ...]


def kinds_of(boards: Iterable[Board]) -> dict[str, tuple[Board, ...]]:
    """Boards by what they are called in few words: those whose names differ only in numbers together, in their order. No rule."""
    found: dict[str, list[Board]] = {}
    for board in boards:
        found.setdefault(re.sub(r"\d+", "#", board.name), []).append(board)
    return {in_few_words(board.name for board in own): tuple(own) for own in found.values()}


def named_in(sight: Sight, fit: Fit, boards: Iterable[Board]) -> list[Named]:
    """A name for each kind of ``boards`` of which one is seen; its line may end in the first of them that is. No rule."""
    seen = {parted.edge.board.name for parted in sight.edges if parted.seen}
    named = []
    for said, own in kinds_of(board for board in boards if board.name in seen).items():
        spots = next((found for board in own if (found := tuple(map(fit.point, sight.spots(board))))), ())
        if spots:
            named.append(Named(said, spots))
    return named


@dataclass(frozen=True, slots=True)
class Column:
    """Names one under the other, their left side at ``left``, at most ``wide``, from ``low`` up to ``high``."""

    left: Fraction
    wide: Fraction
    low: Fraction
    high: Fraction

    def set(self, named: Sequence[Named], taken: Sequence[Text], *, is_numbered: bool) -> SetNames:
        """The names and their lines, which cross none of the words ``taken``; ``is_numbered``: a number for each name.

        Those there is no room for are left over.
        """
        avoided = [whole(text_box(text)) for text in taken]
        over: list[str] = []
        blocks = sorted(named, key=lambda one: (-one.spots[0][1], one.spots[0][0]))
        while (middles := self._middles(blocks, is_numbered=is_numbered)) is None:
            over.append(blocks.pop().said)
        strokes: list[Stroke] = []
        numbers: list[str] = []
        ceiling = self.high
        for n, (one, y) in enumerate(zip(blocks, middles, strict=True)):
            half = self._height(one, is_numbered=is_numbered) / 2
            below = middles[n + 1] + self._height(blocks[n + 1], is_numbered=is_numbered) / 2 if n + 1 < len(blocks) else self.low
            found = self._line_to(one, [y, *_about(y, below + half, ceiling - half)], avoided)
            if found is None:
                over.append(one.said)
                continue
            level, spot = found
            ceiling = level - half
            numbers.append(one.said)
            said = str(len(numbers)) if is_numbered else one.said
            strokes += (*self._lines(said, level), *leader((self.left - 1, level), spot))
        return SetNames(tuple(strokes), tuple(numbers) if is_numbered else (), tuple(over))

    def _line_to(self, one: Named, levels: Iterable[Fraction], avoided: Sequence[Whole]) -> tuple[Fraction, Point] | None:
        """The first of ``levels`` from which a line crosses no words on its way to the part."""
        for y in levels:
            for spot in one.spots:
                line = whole((self.left - 1, y, *spot))
                if not any(_passes(line, box) for box in avoided):
                    return y, spot
        return None

    def _middles(self, blocks: Sequence[Named], *, is_numbered: bool) -> list[Fraction] | None:
        return spread([(one.spots[0][1], self._height(one, is_numbered=is_numbered)) for one in blocks], self.low, self.high)

    def _height(self, one: Named, *, is_numbered: bool) -> Fraction:
        return (1 if is_numbered else len(self._wrapped(one.said))) * _STEP + _BETWEEN

    def _wrapped(self, said: str) -> list[str]:
        return list(wrapped(said, self.wide, SMALL))

    def _lines(self, said: str, middle: Fraction) -> Iterator[Text]:
        lines = self._wrapped(said)
        top = middle + len(lines) * _STEP / 2
        for n, line in enumerate(lines):
            yield Text((self.left, top - n * _STEP - (_STEP + SMALL) / 2), words(line, SMALL))


def _passes(line: Whole, box: Whole) -> bool:
    """Whether a line, given by its two ends, comes nearer to a box than the white around words; in micrometres."""
    x0, y0, x1, y1 = line
    left, bottom, right, top = box[0] - _WHITE, box[1] - _WHITE, box[2] + _WHITE, box[3] + _WHITE
    if max(x0, x1) < left or right < min(x0, x1) or max(y0, y1) < bottom or top < min(y0, y1):
        return False
    sides = [(x1 - x0) * (y - y0) > (y1 - y0) * (x - x0) for x in (left, right) for y in (bottom, top)]
    return any(sides) and not all(sides)


def _about(y: Fraction, low: Fraction, high: Fraction) -> list[Fraction]:
    """Other levels from ``low`` to ``high``, those near ``y`` first."""
    levels = [y + sign * step for step in range(1, 25) for sign in (1, -1)]
    return [level for level in levels if low <= level <= high]


def leader(start: Point, spot: Point) -> Iterator[Stroke]:
    """A line from beside a name to a ``spot`` within the part, where it ends in a dot (ISO 128-22)."""
    x, y = spot
    yield Line(start, spot, Role.DIMENSION)
    yield Fill(corners((x - _DOT, y - _DOT, x + _DOT, y + _DOT)), Fraction(1), Role.DIMENSION)
