"""Which way cutter and wood pass one another, by the way of guiding: what turns how, where the guide lies, which wall may come last (MS-6).

Order of passes and direction of walk follow from the guide alone, never from the cut; each guide has one row here.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.lengths import inches
from joinlay.settings.elements import Guide
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.lengths import Dimension, Length

__all__ = ["SPEEDS", "Feeding", "Hand", "Turn", "Wall", "feeding_of", "router_speed"]


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

    ``datum`` is the hand on which the surface lies that the setting counts from, for one who looks the way the cutter travels through the
    wood. ``turn`` is None for a blade, which turns upright and climbs by neither wall.
    """

    datum: Hand
    turn: Turn | None

    @property
    def fresh(self) -> Wall:
        """The wall that a widening pass may cut, so that it cuts against the feed. Rule MS-6; derived.

        A cutter that turns clockwise moves forward at its left, with its own travel, so that the wood there comes to meet it: that wall is
        against the feed, and the right one climbs. Turning the other way it is the right one. A saw widens away from its fence, or the work
        would be pinched between fence and blade.
        """
        if self.turn is None:
            return Wall.FAR
        against = Hand.LEFT if self.turn is Turn.CLOCKWISE else Hand.RIGHT
        return Wall.NEAR if against is self.datum else Wall.FAR

    def in_order(self, near_sides: Iterable[Dimension]) -> tuple[Dimension, ...]:
        """Places of the cutter, counted from the datum to its near side, in the order to cut them: the fresh wall last. Rules DA-5, MS-6."""
        return tuple(sorted(near_sides, reverse=self.fresh is Wall.NEAR))


#: At a table the fence is behind the work and the work goes from right to left: the cutter travels through it from left to right, the
#: fence on its left. An edge guide is pulled against its edge where that lies on the right, a base pushed against a straightedge on the
#: left. A straightedge stands between the cut and the surface measured from. What is cut to a line has that surface where an edge guide has it.
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
