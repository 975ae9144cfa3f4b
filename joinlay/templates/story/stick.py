"""A story stick as data: what lies where along it, counted from its one end."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import TYPE_CHECKING

from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable

    from joinlay.boards import PartKind

__all__ = ["Apex", "Centre", "Stick", "Stretch", "StretchKind", "merged"]


class StretchKind(Enum):
    """What takes a stretch of the stick."""

    WOOD = "wood"
    CUT = "cut"  #: a dado or a mortise: wood to be taken away
    OPENING = "opening"  #: room between two rails or stiles


class Apex(Enum):
    """Which way the cabinetmaker's triangle points: it says how the piece stands when the stick lies on it."""

    FAR = "far"  #: away from the end it is counted from
    DATUM = "datum"  #: towards that end
    EDGE = "edge"  #: towards the edge that is marked from


@dataclass(frozen=True, slots=True)
class Stretch:
    """From ``low`` to ``high``, in mm from the end of the stick, lies ``word`` of drawer ``drawer`` ('': it belongs to none).

    ``part`` is the board, or the board and its cut, that has this place in the plan. ``lane`` is where it is drawn across the
    stick, 0 at the edge that is marked from. ``row`` is the drawer's place in its bank, from 1 at the top.
    """

    low: Fraction
    high: Fraction
    word: str
    part: str
    lane: int = 0
    kind: StretchKind = StretchKind.WOOD
    drawer: str = ""
    row: int = 0

    @property
    def label(self) -> str:
        """``bearer 3``."""
        return f"{self.word} {self.drawer}".strip()


@dataclass(frozen=True, slots=True)
class Centre:
    """The middle of a hole or a mortise, ``at`` mm from the end of the stick; the rest as for a stretch."""

    at: Fraction
    word: str
    part: str
    drawer: str = ""
    row: int = 0

    @property
    def label(self) -> str:
        """``pull 3``."""
        return f"{self.word} {self.drawer}".strip()


@dataclass(frozen=True, slots=True)
class Stick:
    """One stick for the boards ``names``: it ``measures`` heights, say, from the ``datum`` end, ``length`` mm to the ``far`` end.

    ``kind`` is what kind of part those are; None where they are whole drawers. ``lies`` says how to lay it on the wood.
    ``stretches`` and ``centres`` are what lies along it. ``top`` is what the triangle's apex stands for (``top``, ``front``), and
    ``apex`` where it points.
    """

    names: tuple[str, ...]
    kind: PartKind | None
    measures: str
    datum: str
    far: str
    lies: str
    length: Fraction
    stretches: tuple[Stretch, ...]
    centres: tuple[Centre, ...]
    top: str
    apex: Apex

    def seen(self, stretch: Stretch) -> tuple[Fraction, Fraction]:
        """What of ``stretch`` lies on the stick, in mm: a rail may reach past the end of a partition."""
        return max(Fraction(0), stretch.low), min(self.length, stretch.high)

    @property
    def places(self) -> dict[Fraction, tuple[str, ...]]:
        """Every position on the stick from its end on, and what of the plan lies there; the stick's own ends with no words."""
        found: dict[Fraction, list[str]] = {Fraction(0): [], self.length: []}
        for stretch in self.stretches:
            for at in (stretch.low, stretch.high):
                if 0 <= at <= self.length:
                    found.setdefault(at, []).append(stretch.part)
        for centre in self.centres:
            found.setdefault(centre.at, []).append(centre.part)
        return {at: tuple(found[at]) for at in sorted(found)}

    @property
    def lanes(self) -> int:
        """How many lanes its stretches take."""
        return max((stretch.lane for stretch in self.stretches), default=0) + 1


def merged(sticks: Iterable[Stick]) -> tuple[Stick, ...]:
    """Those of ``sticks`` that differ only in whose they are become one, for all of them, in the order they come.

    Where their drawers have different numbers, what belongs to a drawer is named by its row in the bank.
    """
    alike: dict[Hashable, list[Stick]] = {}
    for stick in sticks:
        alike.setdefault(_likeness(stick), []).append(stick)
    return tuple(_one(group) for group in alike.values())


def _one(group: list[Stick]) -> Stick:
    first = group[0]
    names = tuple(dict.fromkeys(name for stick in group for name in stick.names))
    if len({_numbers(stick) for stick in group}) == 1:
        return replace(first, names=names)
    stretches = tuple(replace(one, drawer=f"row {one.row}") if one.drawer else one for one in first.stretches)
    centres = tuple(replace(one, drawer=f"row {one.row}") if one.drawer else one for one in first.centres)
    return replace(first, names=names, stretches=stretches, centres=centres)


def _numbers(stick: Stick) -> tuple[str, ...]:
    return (*(stretch.drawer for stretch in stick.stretches), *(centre.drawer for centre in stick.centres))


def _likeness(stick: Stick) -> Hashable:
    return (
        replace(stick, names=(), stretches=(), centres=()),
        frozenset((one.low, one.high, one.word, one.lane, one.kind, one.row) for one in stick.stretches),
        frozenset((one.at, one.word, one.row) for one in stick.centres),
    )
