"""Which way cutter and wood pass one another, by the way of guiding: what turns how, where the guide lies, which wall may come
last (MS-6).

Order of passes and direction of walk follow from the guide alone, never from the cut; each guide has one row here, and one in
words.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.lengths import inches
from joinlay.records import dataclass
from joinlay.settings.elements import Guide, Role
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.lengths import Dimension, Length
    from joinlay.settings.setting import Setting

__all__ = [
    "SPEEDS",
    "Feeding",
    "Hand",
    "Turn",
    "Wall",
    "feed_in_short",
    "feed_sentence",
    "feed_words",
    "feeding_of",
    "router_speed",
    "way_sentence",
]


class Turn(Enum):
    """How a router cutter turns, seen from above the wood and table."""

    CLOCKWISE = "clockwise"  #: hand-held, its shank up
    COUNTER_CLOCKWISE = "counter-clockwise"  #: under a table, its shank down


class Hand(Enum):
    """A side, for one who looks the way the cutter travels through the wood."""

    LEFT = "left"
    RIGHT = "right"


class Wall(Enum):
    """A wall of the cut, by its distance from the surface that the setting counts from."""

    NEAR = "near wall"
    FAR = "far wall"


@dataclass(frozen=True, slots=True)
class Feeding:
    """How a guide has the cutter pass through the wood.

    ``datum`` is the hand on which the surface lies that the setting counts from, for one who looks the way the cutter travels
    through the wood. ``turn`` is None for a blade, which turns upright and climbs by neither wall.
    """

    datum: Hand
    turn: Turn | None

    @property
    def fresh(self) -> Wall:
        """The wall that a widening pass may cut, so that it cuts against the feed. Rule MS-6; derived.

        A cutter that turns clockwise moves forward at its left, with its own travel, so that the wood there comes to meet it:
        that wall is against the feed, and the right one climbs. Turning the other way it is the right one. A saw widens away from
        its fence, or the work would be pinched between fence and blade.
        """
        if self.turn is None:
            return Wall.FAR
        against = Hand.LEFT if self.turn is Turn.CLOCKWISE else Hand.RIGHT
        return Wall.NEAR if against is self.datum else Wall.FAR

    def in_order(self, near_sides: Iterable[Dimension]) -> tuple[Dimension, ...]:
        """Places of the cutter, counted from the datum to its near side, in the order to cut them: the fresh wall last. Rules
        DA-5, MS-6.
        """
        return tuple(sorted(near_sides, reverse=self.fresh is Wall.NEAR))


#: At a table the fence is behind the work and the work goes from right to left: the cutter travels through it from left to right,
#: the fence on its left. An edge guide is pulled against its edge where that lies on the right, a base pushed against a
#: straightedge on the left. A straightedge stands between the cut and the surface measured from. What is cut to a line has that
#: surface where an edge guide has it.
_FEEDINGS: Final = {
    (MachineKind.ROUTER_TABLE, Guide.FENCE): Feeding(Hand.LEFT, Turn.COUNTER_CLOCKWISE),
    (MachineKind.TABLE_SAW, Guide.FENCE): Feeding(Hand.LEFT, None),
    (MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE): Feeding(Hand.RIGHT, Turn.CLOCKWISE),
    (MachineKind.HAND_ROUTER, Guide.CENTRE_LINE): Feeding(Hand.RIGHT, Turn.CLOCKWISE),
    (MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE): Feeding(Hand.LEFT, Turn.CLOCKWISE),
}  # fmt: skip


def feeding_of(machine: MachineKind, guide: Guide) -> Feeding | None:
    """The way of feeding that belongs to ``machine`` with ``guide`` (MS-6).

    None for what goes straight in at its full width and never widens a cut: mortiser and drill, and for hand tools.
    """
    return _FEEDINGS.get((machine, guide))


#: Largest diameter and revolutions a minute at most (D7: a common table).
SPEEDS: Final = ((inches(1), 24_000), (inches(2), 18_000), (inches("2 1/2"), 16_000), (inches("3 1/2"), 12_000))


def router_speed(diameter: Length) -> int | None:
    """Revolutions a minute at most for a cutter of ``diameter``; None where it is wider than the table goes.

    Rule MS-9. Source: a common speed table (check value D7); a lower limit marked on the cutter stands over it.
    """
    return next((speed for widest, speed in SPEEDS if diameter <= widest), None)


# -- which way to walk or feed, by the way of guiding alone --------------------------------------------------


#: In few words; as a sentence begins; what the cutter's turning does to the guide; where the wall lies that a later pass cuts.
_WAYS: Final = {
    (MachineKind.ROUTER_TABLE, Guide.FENCE): (
        "right to left, fence behind",
        "Feed from right to left with the fence behind the work",
        "the cutter, turning counter-clockwise from above, presses the work to the fence",
        "the wall away from the fence, against the cutter's turning",
    ),
    (MachineKind.TABLE_SAW, Guide.FENCE): (
        "from the front, against the teeth",
        "Push from the front of the table and stand to one side of the blade",
        "the teeth come down towards you, so the blade can neither pull the work in nor lift it",
        "on the side away from the fence, and nothing is pinched between fence and blade",
    ),
    (MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE): (
        "away from you, guide on your right",
        "Push the router away from you with the guide on your right",
        "the cutter, turning clockwise from above, pulls the guide to the work",
        "the wall on your left, against the cutter's turning",
    ),
    (MachineKind.HAND_ROUTER, Guide.CENTRE_LINE): (
        "away from you, side counted from on your right",
        "Clamp a straightedge for the base on your left and push the router away from you, the side counted from on your right",
        "the cutter, turning clockwise from above, presses the base to the straightedge",
        "the wall on your left, against the cutter's turning",
    ),
    (MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE): (
        "away from you, straightedge on your left",
        "Push the router away from you with the straightedge on your left",
        "the cutter, turning clockwise from above, presses the base to it",
        "the wall on your left, against the cutter's turning",
    ),
}  # fmt: skip

#: Where the first of several passes lies, by the wall that comes last and what the cut is.
_FIRST: Final = {
    Wall.FAR: {Role.STEP: "the edge first", Role.SHAPED: "the shallowest first"},
    Wall.NEAR: {Role.TONGUE: "the outer side first"},
}
#: What a wall is near to, where that isn't called as the guide is.
_COUNTED_FROM: Final = {Guide.EDGE_GUIDE: "guide", Guide.CENTRE_LINE: "side counted from"}
_WALL_FIRST: Final = {Wall.FAR: "the wall nearer the {guide} first", Wall.NEAR: "the wall farther from the {guide} first"}


def feed_words(setting: Setting) -> str:
    """Which way, for a column: ``away from you, straightedge on your left``; '' for what goes straight in and for hand tools.
    Rule MS-6.
    """
    said = _WAYS.get((setting.machine, setting.guide))
    return "" if said is None else said[0]


def feed_in_short(setting: Setting) -> str:
    """Which way to walk or feed, to be read at a glance: ``Feed right to left, fence behind``; which wall first where the cut is
    widened.

    '' for what goes straight in and for hand tools; ``feed_sentence`` says why. Rules DA-5, MS-6.
    """
    feeding = feeding_of(setting.machine, setting.guide)
    if feeding is None:
        return ""
    verb = "Feed" if setting.machine is MachineKind.ROUTER_TABLE else "Push"
    way = f"{verb} {feed_words(setting)}"
    return way if len(setting.fences) == 1 else f"{way}, {_first_pass(feeding, setting.guide, setting.role)}"


def feed_sentence(setting: Setting) -> str:
    """Which way to walk or feed and why, as one sentence without its stop; '' for what goes straight in and for hand tools.
    Rules DA-5, MS-6.
    """
    return way_sentence(setting.machine, setting.guide, setting.role, is_widened=len(setting.fences) > 1)


def way_sentence(machine: MachineKind, guide: Guide, role: Role, *, is_widened: bool) -> str:
    """The same for any cut that ``machine`` makes with ``guide``; ``is_widened`` where it takes passes side by side. Rules
    DA-5, MS-6.
    """
    feeding = feeding_of(machine, guide)
    if feeding is None:
        return ""
    _, way, holds, fresh = _WAYS[machine, guide]
    if not is_widened:
        return f"{way}: {holds}"
    return f"{way}, {_first_pass(feeding, guide, role)}: each later pass then cuts {fresh}"


def _first_pass(feeding: Feeding, guide: Guide, role: Role) -> str:
    """Where the first of several passes lies: ``the wall nearer the fence first``."""
    return _FIRST[feeding.fresh].get(role, _WALL_FIRST[feeding.fresh]).format(guide=_COUNTED_FROM.get(guide, guide.value))
