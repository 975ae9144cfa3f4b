"""Names beside a picture, each with a line to its part (leader lines, ISO 128-22), or numbers and the names in a list.

Parts of one kind share a name in few words, such as ``drawer 1 to 4 back``, so that it is found in every list.

The problem: names in a column at the right, none over another, whose lines end in their parts where these are in plain sight and
cross no words. The method: every name has a handful of places its line may end at; those with the fewest are set first. A name is
tried level with each of its places, the best first, then a millimetre up and down from there, two, and so on to eighty; the first
level that is free in the column and whose line passes clear of all words is taken. So most lines run level, and the rest slant as
little as can be.

The cost is names times places times levels at worst, each a look at the words; sixteen names with 300 places take one to three
hundredths of a second. Nothing is moved once it stands, so in a crowded column a name may find no level: it is given back, to be
said in a sentence. Two lines may cross each other, but for the most part don't, since both run level.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import islice, product
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand
from joinlay.boards.names import in_few_words
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.lettering import words, wrapped
from joinlay.pen.marks import Fill, Line, Role, Text, text_box
from joinlay.pen.placing import MM, whole
from joinlay.pictures.picture import SMALL
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.pen.marks import Of, Point, Stroke
    from joinlay.pen.placing import Whole
    from joinlay.pictures.sight import Sight
    from joinlay.pictures.wood import Fit

__all__ = ["NameColumn", "Named", "SetNames", "kinds_of", "leader", "named_in"]

#: From one line of a name to the next, and white between two names, in mm.
_STEP, _BETWEEN = Fraction(19, 5), Fraction(6, 5)
#: White between words and a line that passes them, in micrometres.
_WHITE: Final = 600
#: Of one kind of part, how many boards and how many places in them are looked at for the end of a line.
_MOST_BOARDS, _MOST_SPOTS = 10, 20
#: Half the side of the dot a line ends in.
_DOT: Final = Fraction(2, 5)


@dataclass(frozen=True, slots=True)
class Named:
    """Something to name: what is said, and the points of the view its line may end at, in mm of wood, the best first.

    ``of`` are the roles of the parts themselves.
    """

    said: str
    spots: tuple[Point, ...]
    of: tuple[PartRole, ...] = ()


@dataclass(frozen=True, slots=True)
class SetNames:
    """Names that have been set: their ``strokes``, what their ``numbers`` stand for from 1, and those left ``over``.

    There are no numbers where the names themselves stand there.
    """

    strokes: tuple[Stroke, ...]
    numbers: tuple[str, ...]
    over: tuple[str, ...]

    @property
    def unsaid(self) -> tuple[str, ...]:
        """A sentence for those left over; none where all are set."""
        return (f"In the drawing too, but with no room for a line to it: {', '.join(self.over)}.",) if self.over else ()


def kinds_of(boards: Iterable[Board]) -> dict[str, tuple[Board, ...]]:
    """Boards by what they are called in few words: those that only a number or a hand tells apart, together."""
    found: dict[PartRole, list[Board]] = {}
    for board in boards:
        found.setdefault(_kind_of(board.role), []).append(board)
    return {in_few_words(board.name for board in own): tuple(own) for own in found.values()}


def _kind_of(role: PartRole) -> PartRole:
    """The role that stands for all those alike: without its own number, its drawer's, and whether it is at the left or right."""
    return replace(
        role,
        drawer=None if role.drawer is None else replace(role.drawer, number=0),
        hand=None if role.hand in (Hand.LEFT, Hand.RIGHT) else role.hand,
        number=min(role.number, 1),
        of=None if role.of is None else _kind_of(role.of),
    )


def named_in(sight: Sight, boards: Iterable[Board]) -> tuple[Named, ...]:
    """A name for each kind of ``boards`` of which one is seen; its line may end in any of them that is, best at the right."""
    seen = {parted.edge.board.role for parted in sight.edges if parted.seen}
    named = []
    for said, own in kinds_of(board for board in boards if board.role in seen).items():
        # A few of many that are alike, from all over the piece.
        some = own[:: max(1, len(own) // _MOST_BOARDS)]
        each = max(3, _MOST_SPOTS // len(some))
        spots = [spot for board in some for spot in islice(sight.spots(board), each)]
        if spots:
            named.append(Named(said, tuple(sorted(spots, reverse=True)), tuple(board.role for board in own)))
    return tuple(named)


@dataclass(frozen=True, slots=True)
class NameColumn:
    """Names one under the other, their left side at ``left``, at most ``wide``, from ``low`` up to ``high``."""

    left: Fraction
    wide: Fraction
    low: Fraction
    high: Fraction

    def set(self, named: Sequence[Named], fit: Fit, taken: Sequence[Text], *, is_numbered: bool) -> SetNames:
        """The names and their lines, which cross none of the words ``taken``; ``is_numbered``: a number for each name.

        Level lines where there are any, those with the fewest places to choose from first. Those there is no room for are left
        over.
        """
        search = _Search(self, [whole(text_box(text)) for text in taken])
        placed: list[tuple[int, Point, Named]] = []
        over: list[str] = []
        for one in sorted(named, key=lambda one: len({y for _, y in one.spots})):
            found = search.place([fit.point(spot) for spot in one.spots], self._height(one, is_numbered=is_numbered))
            if found is None:
                over.append(one.said)
            else:
                placed.append((*found, one))
        placed.sort(key=lambda place: -place[0])
        strokes: list[Stroke] = []
        for n, (level, spot, one) in enumerate(placed, start=1):
            y = Fraction(level, MM)
            strokes += (*self._lines(str(n) if is_numbered else one.said, y, one.of or None), *leader((self.left - 1, y), spot))
        return SetNames(tuple(strokes), tuple(one.said for *_, one in placed) if is_numbered else (), tuple(over))

    def _height(self, one: Named, *, is_numbered: bool) -> Fraction:
        return (1 if is_numbered else len(self._wrapped(one.said))) * _STEP + _BETWEEN

    def _wrapped(self, said: str) -> list[str]:
        return list(wrapped(said, self.wide, SMALL))

    def _lines(self, said: str, middle: Fraction, of: Of) -> Iterator[Text]:
        lines = self._wrapped(said)
        top = middle + len(lines) * _STEP / 2
        for n, line in enumerate(lines):
            yield Text((self.left, top - n * _STEP - (_STEP + SMALL) / 2), words(line, SMALL), of=of)


class _Search:
    """Looks for levels for names in a column, clear of each other and of the words ``avoided``; all in micrometres."""

    def __init__(self, column: NameColumn, avoided: Sequence[Whole]) -> None:
        self._left, self._low, _, self._high = whole((column.left - 1, column.low, column.left, column.high))
        self._avoided = avoided
        self._taken: list[tuple[int, int]] = []

    def place(self, spots: Sequence[Point], height: Fraction) -> tuple[int, Point] | None:
        """A level for a name of this ``height``, now taken, and which of ``spots`` its line goes to; None where there is none.

        A level line, or the least slanting one.
        """
        high = ceil(height * MM)
        ends = [(spot, whole((*spot, *spot))[:2]) for spot in spots]
        for step in range(80):
            for (spot, (x, level)), sign in product(ends, (1, -1)):
                y = level + sign * step * MM
                if self._is_free(y, high) and not any(_passes((self._left, y, x, level), box) for box in self._avoided):
                    self._taken.append((y, high))
                    return y, spot
        return None

    def _is_free(self, y: int, high: int) -> bool:
        is_within = self._low <= y - high // 2 and y + high // 2 <= self._high
        return is_within and all(2 * abs(y - other) >= high + its for other, its in self._taken)


def _passes(line: Whole, box: Whole) -> bool:
    """Whether a line, given by its two ends, comes nearer to a box than the white around words; in micrometres."""
    x0, y0, x1, y1 = line
    left, bottom, right, top = box[0] - _WHITE, box[1] - _WHITE, box[2] + _WHITE, box[3] + _WHITE
    if max(x0, x1) < left or right < min(x0, x1) or max(y0, y1) < bottom or top < min(y0, y1):
        return False
    sides = [(x1 - x0) * (y - y0) > (y1 - y0) * (x - x0) for x in (left, right) for y in (bottom, top)]
    return any(sides) and not all(sides)


def leader(start: Point, spot: Point) -> Iterator[Stroke]:
    """A line from beside a name to a ``spot`` within the part, where it ends in a dot (ISO 128-22)."""
    x, y = spot
    yield Line(start, spot, Role.DIMENSION)
    yield Fill(corners((x - _DOT, y - _DOT, x + _DOT, y + _DOT)), Fraction(1), Role.DIMENSION)
