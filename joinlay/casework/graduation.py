"""Graduation of a bank: how high each opening is, so that openings and rails fill the frame exactly (DR-7).

The same rule serves across a piece, for banks side by side between uprights.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final, Union

from joinlay.errors import BadInput
from joinlay.findings import Change, refusal
from joinlay.lengths import Fraction, Length, chosen, dimension, rounded_to
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.lengths import Dimension, Graduation

__all__ = [
    "ACROSS",
    "IN_A_ROW",
    "UPWARD",
    "Arithmetic",
    "ByShares",
    "Divided",
    "Equal",
    "Geometric",
    "Heights",
    "OneByOne",
    "Rounding",
    "filled",
    "opening_heights",
    "room_for_openings",
]

_SOURCE = "common practice"


@dataclass(frozen=True, slots=True)
class Equal:
    """``count`` openings alike."""

    count: int


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """``count`` openings, each deeper than the one above by ``step`` (a rail's height is usual); negative: shallower."""

    count: int
    step: Dimension


@dataclass(frozen=True, slots=True)
class Geometric:
    """``count`` openings, each ``ratio`` times as deep as the one above (1.1 to 1.25 is usual)."""

    count: int
    ratio: Fraction


@dataclass(frozen=True, slots=True)
class OneByOne:
    """Openings given from the top down; None, once at most, is the one that fills what is left."""

    given: tuple[Dimension | None, ...]

    @property
    def count(self) -> int:
        """How many openings."""
        return len(self.given)


@dataclass(frozen=True, slots=True)
class ByShares:
    """Openings by their ``shares`` of the room: 1, 2, 1 gives the middle one half of it (RO-1)."""

    shares: tuple[Fraction, ...]

    @property
    def count(self) -> int:
        """How many openings."""
        return len(self.shares)


#: How a bank, or a row of one, is divided.
Heights = Union[Equal, Arithmetic, Geometric, OneByOne, ByShares]


@dataclass(frozen=True, slots=True)
class Divided:
    """What is divided, in a maker's words: each opening's ``size``, the wood ``between``, ``whole`` that leaves the room, and
    whether it is ``high`` or ``wide``; and the ``rule`` it goes by.
    """

    size: str
    between: str
    whole: str
    way: str
    less: str
    more: str
    rule: str


#: Those whose openings follow from a rule and are free to land on the marks; alike ones stay alike, and given ones as given.
_SERIES: Final = (Arithmetic, Geometric, ByShares)
#: How an opening of a series came to its mark.
_ON_A_MARK: Final = "on the rule, within a division, so that all fill the room:"

#: A bank by the heights of its rows, a frame by the widths of its banks, a row by the widths of its drawers.
UPWARD: Final = Divided("opening height", "rails", "frame", "high", "lower", "higher", "DR-7")
ACROSS: Final = Divided("opening width", "mullions", "frame", "wide", "narrower", "wider", "DR-7")
IN_A_ROW: Final = Divided("opening width", "mullions", "row", "wide", "narrower", "wider", "RO-1")


@dataclass(frozen=True, slots=True)
class Rounding:
    """Openings brought to the marks of ``rule``; what that leaves over goes to opening ``remainder``, which counts from 0 at the
    top; -1 is the lowest.

    ``remainder`` None: a series lands on the marks where one as good does (FR-1), and nothing else is rounded.
    """

    rule: Graduation
    remainder: int | None = None


def room_for_openings(
    frame: Dimension, first: Dimension, last: Dimension, rails: Sequence[Dimension], named: str = "", *, across: bool = False
) -> Dimension:
    """What a frame leaves for openings: its height less top rail ``first``, bottom rail ``last`` and the ``rails`` between
    (DR-7).

    ``across``: its width less two stiles and the mullions between. Refused where that wood alone takes the whole frame, saying
    what it takes.
    """
    room = frame - first - last
    for rail in rails:
        room = room - rail
    if room.mm <= 0:
        wood, way, more = ("stiles", "wide", "wider") if across else ("rails", "high", "higher")
        raise refusal(
            "graduation",
            f"The {wood} alone take {{wood}} of a frame {{frame}} {way}.",
            f"Make the frame {more} than {{wood}}.",
            "DR-7",
            _SOURCE,
            wood=frame - room,
            frame=frame,
        )
    return room.named(_name(named, "room for openings"), "DR-7", _SOURCE)


def opening_heights(
    heights: Heights,
    room: Dimension,
    *,
    names: Sequence[str],
    rounding: Rounding | None = None,
    divided: Divided = UPWARD,
) -> tuple[Dimension, ...]:
    """The openings from the top down, which together are exactly ``room`` (DR-7).

    ``names`` label the openings (``drawer 3``), one each, and ``divided`` says what is. Source: common practice; the
    geometric series is derived. Raises Refused with the amount over or short and the nearest that fits; BadInput for a count,
    ratio or remainder that isn't one.
    """
    _refuse_count(heights, names)
    exact = _exact(heights, room, divided)
    _refuse_nothing(exact, names, heights, room, divided)
    called = [f"{name} {divided.size}" for name in names]
    if rounding is None or (rounding.remainder is None and not isinstance(heights, _SERIES)):
        return tuple(size.named(name, divided.rule, _SOURCE) for size, name in zip(exact, called, strict=True))
    if rounding.remainder is None:
        return _landed(exact, rounding.rule, room, called, divided.rule)
    rounded = _rounded(exact, rounding.rule, rounding.remainder, room, called, divided.rule)
    _refuse_nothing(rounded, names, heights, room, divided)
    return rounded


def filled(heights: Heights, rails: Sequence[Dimension], first: Dimension, last: Dimension, named: str = "") -> Dimension:
    """The frame that openings given one by one fill exactly, rails included (DR-7), for a maker who begins with the openings.

    Raises BadInput where an opening is left to fill, or where the openings only follow from the frame.
    """
    given = heights.given if isinstance(heights, OneByOne) else (None,)
    if None in given:
        raise BadInput(
            "the height of the frame follows from the openings only where every one of them is given; give the frame's height."
        )
    whole = first + last
    for size in (*rails, *(one for one in given if one is not None)):
        whole = whole + size
    return whole.named(_name(named, "frame height"), "DR-7", _SOURCE)


def _name(named: str, words: str) -> str:
    return f"{named} {words}" if named else words


def _refuse_count(heights: Heights, names: Sequence[str]) -> None:
    if heights.count < 1:
        raise BadInput(f"{heights.count} openings were asked; a bank has at least one.")
    if heights.count != len(names):
        raise BadInput(f"{heights.count} openings were described but {len(names)} named; give one name each.")
    if isinstance(heights, Geometric) and heights.ratio <= 0:
        raise BadInput(f"the ratio of a graduation was {heights.ratio}; it must be more than 0, and 11/10 to 5/4 is usual.")
    if isinstance(heights, ByShares) and min(heights.shares) <= 0:
        raise BadInput(f"a share of {min(heights.shares)} was given; each must be more than 0.")
    if isinstance(heights, OneByOne) and sum(size is None for size in heights.given) > 1:
        raise BadInput("two openings or more were left to fill what remains; one at most can.")


def _exact(heights: Heights, room: Dimension, divided: Divided) -> list[Dimension]:
    count = heights.count
    if isinstance(heights, Equal):
        return [room / count for _ in range(count)]
    if isinstance(heights, Arithmetic):
        first = (room - heights.step * Fraction(count * (count - 1), 2)) / count
        return [first + heights.step * n for n in range(count)]
    if isinstance(heights, OneByOne):
        return _one_by_one(heights, room, divided)
    shares = [heights.ratio**n for n in range(count)] if isinstance(heights, Geometric) else list(heights.shares)
    return [room * (share / sum(shares)) for share in shares]


def _one_by_one(heights: OneByOne, room: Dimension, divided: Divided) -> list[Dimension]:
    rest = room
    for size in heights.given:
        rest = rest if size is None else rest - size
    if None not in heights.given and rest.mm:
        word, amount = ("short", rest) if rest.mm > 0 else ("over", -rest)
        last = heights.given[-1]
        assert last is not None
        nearest = {"nearest": last + rest} if (last + rest).mm > 0 else {}
        raise refusal(
            "graduation",
            f"The openings and {divided.between} are {{amount}} {word}: the openings come to {{sum}}, and the "
            f"{divided.whole} leaves {{room}} for "
            "them.",
            f"Make the frame {{amount}} {divided.less if word == 'short' else divided.more}, leave one opening to fill"
            + (", or make the last one {nearest}." if nearest else "."),
            divided.rule,
            _SOURCE,
            amount=amount,
            sum=room - rest,
            room=room,
            **nearest,
        ).by(Change("case", "width" if divided.way == "wide" else "height", -rest, is_more=True))
    return [rest if size is None else dimension(size) for size in heights.given]


def _refuse_nothing(
    exact: Sequence[Dimension], names: Sequence[str], heights: Heights, room: Dimension, divided: Divided
) -> None:
    """Refuse an opening of zero or less, with what would leave each of them something."""
    least = min(range(len(exact)), key=lambda n: exact[n])
    if exact[least].mm > 0:
        return
    what = f"The opening of {names[least]} would be {{left}} {divided.way}."
    if isinstance(heights, Arithmetic):
        # The smallest opening is nothing at this step; anything nearer to equal fits.
        limit = abs(room * Fraction(2, heights.count * (heights.count - 1)))
        raise refusal(
            "graduation",
            what,
            "Give a step of less than {limit}, either way, or a higher frame.",
            "DR-7",
            _SOURCE,
            left=exact[least],
            limit=limit,
        ).by(Change("bank", "step", limit / 2, toward=-1))
    raise refusal(
        "graduation",
        what,
        f"Make the others together {divided.less} than {{room}}, or the frame more than {{short}} {divided.more}.",
        divided.rule,
        _SOURCE,
        left=exact[least],
        room=room,
        short=-exact[least],
    )


def _rounded(
    exact: Sequence[Dimension], rule: Graduation, remainder: int, room: Dimension, called: Sequence[str], by: str
) -> tuple[Dimension, ...]:
    """Each opening on the rule; the one named for it takes the remainder, so that nothing is lost."""
    count = len(exact)
    if not -count <= remainder < count:
        raise BadInput(f"the remainder was put in opening {remainder + 1}; the bank has openings 1 to {count}.")
    marks = [rounded_to(size, rule).named(name, by, _SOURCE) for size, name in zip(exact, called, strict=True)]
    return _with_rest(marks, remainder % count, room, called, by)


def _landed(
    exact: Sequence[Dimension], rule: Graduation, room: Dimension, called: Sequence[str], by: str
) -> tuple[Dimension, ...]:
    """A series on the marks of the rule, each opening less than one division from its exact size, so that they fill the room and
    grow as was asked (FR-1, derived); as it is where no such series exists, as in a room that lies between two marks.

    Each step is within a division of the step asked for: the odd marks go to the openings that stand farthest over one, the
    lower ones first.
    """
    plain = tuple(size.named(name, by, _SOURCE) for size, name in zip(exact, called, strict=True))
    division = rule.division.mm
    if room.mm % division:
        return plain
    over = [size.mm / division for size in exact]
    marks = [size // 1 for size in over]
    odd = int(sum(over) - sum(marks))
    for n in sorted(range(len(exact)), key=lambda n: (marks[n] - over[n], -n))[:odd]:
        marks[n] += 1
    landed = (chosen(Length(mark * division), _ON_A_MARK, size) for mark, size in zip(marks, exact, strict=True))
    made = tuple(
        was if was == mark else mark.named(was.name, f"{by}, FR-1", _SOURCE) for was, mark in zip(plain, landed, strict=True)
    )
    grown, asked = ([_grows(*two) for two in pairwise(sizes)] for sizes in (made, plain))
    alike_stay_alike = len(set(zip(plain, made, strict=True))) == len(set(plain))
    return made if min(made).mm > 0 and grown == asked and alike_stay_alike else plain


def _grows(one: Length, other: Length) -> int:
    """1 where ``other`` is the larger, -1 where it is the smaller, 0 where they are alike."""
    return (other.mm > one.mm) - (other.mm < one.mm)


def _with_rest(marks: Sequence[Dimension], takes: int, room: Dimension, called: Sequence[str], by: str) -> tuple[Dimension, ...]:
    """The ``marks``, but opening ``takes`` is what the others leave of the room."""
    rest = room
    for n, size in enumerate(marks):
        rest = rest if n == takes else rest - size
    return (*marks[:takes], rest.named(called[takes], by, _SOURCE), *marks[takes + 1 :])
