"""What to beware of at a setting, in short; the machine's own manual goes before all of it (section 14 of the trade rules)."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.boards import Axis
from joinlay.settings.elements import Guide, Role, ToolKind
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.settings.elements import Stops
    from joinlay.settings.ways import WayToCut

__all__ = ["Caution", "cautions_for"]


class Caution(Enum):
    """A caution, as the sentence that is printed. Our own words."""

    MANUAL = "The machine's manual goes before this card. Guard on; eyes, ears and lungs covered; sleeves and hair tied back."
    UNPLUG = "Unplug before touching cutter or blade."
    WIDEN = "Widen only on the side away from the fence; never let the cutter shave wood that passes between it and the fence."
    WIDEN_BACK = (
        "Widen only towards the straightedge, the far side first: the other way round the cutter "
        "climbs and runs away with the router."
    )
    TONGUE_PASSES = (
        "The tongue runs between fence and cutter: first pass with the cutter's whole width in the wood, then outwards."
    )
    PUSH_BLOCK = "Small part: use a push block or a carrier, and keep both hands a good way from the cutter."
    SQUARE_CARRIER = (
        "The edge on the fence is short: back the work with a square block that runs along the fence, so that it cannot twist."
    )
    TALL = "Stands taller than the fence: screw a tall board to the fence and hold the work in a carrier that straddles it."
    SUNK_CUTTER = (
        "The cutter stands partly in the fence: close the fence, or face it with a board the cutter has cut its own way into."
    )
    BACKING = "The cut runs out across the grain: put a scrap behind it, or the edge breaks away."
    DROP_ON = (
        "The cut begins in the wood: rest the work on the in-feed stop and lower it slowly; lift it only "
        "when the cutter has stopped."
    )
    CLAMPED = "Clamp work and straightedge so that neither can move; both hands on the router until it has stopped."
    SIDE_BY_SIDE = "The guide has a short bearing: clamp the parts side by side between scraps and cut them in one go."
    DADO_SET = "Riving knife and guard may have to come off for a dado set: fit what the manual allows and put them back at once."
    THROUGH_HOLE = "The hole goes right through: clamp a scrap behind it."
    PARING = (
        "Chisel: clamp the work, keep both hands behind the edge and never pare towards yourself; sharp slips "
        "less than blunt. Cover your eyes. "
        "The tool's own instructions go before this card."
    )
    HAND_HELD = "Clamp the work, and keep the other hand behind the edge or bit and clear of where it comes out."
    MORTISER_STILL = "Hold the fence down hard until the cutter is out of the wood again."


#: Machines whose cutter or blade comes up through a table.
_TABLES = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def cautions_for(
    way: WayToCut, stops: Sequence[Stops], *, is_small: bool, is_short: bool, is_tall: bool, is_through: bool, is_pared: bool
) -> tuple[Caution, ...]:
    """The cautions of a setting, the most particular first.

    ``is_small``: a part under the narrow or short measure goes through (MS-6); ``is_short``: its edge on the fence is under the
    short measure; ``is_tall``: one stands taller than the fence; ``is_through``: it comes out at the other side; ``is_pared``:
    round ends are chopped square afterwards.
    """
    if way.machine is MachineKind.BENCH:
        return tuple(_by_hand(way, is_through=is_through))
    return tuple(
        dict.fromkeys(
            [
                *_of_parts(way, is_small=is_small, is_short=is_short, is_tall=is_tall),
                *_of_cut(way, stops, is_through=is_through),
                *([Caution.PARING] if is_pared else []),
                Caution.UNPLUG,
                Caution.MANUAL,
            ]
        )
    )


def _by_hand(way: WayToCut, *, is_through: bool) -> Iterator[Caution]:
    if way.role in (Role.MORTISE, Role.HOLE):
        if is_through:
            yield Caution.THROUGH_HOLE
    elif way.how.feed is Axis.ACROSS:
        yield Caution.BACKING
    yield Caution.HAND_HELD if way.tool.kind in (ToolKind.BRACE, ToolKind.RABBET_PLANE) else Caution.PARING


def _of_parts(way: WayToCut, *, is_small: bool, is_short: bool, is_tall: bool) -> Iterator[Caution]:
    if way.machine is MachineKind.HAND_ROUTER and is_short:
        yield Caution.SIDE_BY_SIDE
    if way.machine not in _TABLES:
        return
    if is_tall:
        yield Caution.TALL
    if is_short:
        yield Caution.SQUARE_CARRIER
    if is_small:
        yield Caution.PUSH_BLOCK


def _of_cut(way: WayToCut, stops: Sequence[Stops], *, is_through: bool) -> Iterator[Caution]:
    if way.machine is MachineKind.MORTISER:
        yield Caution.MORTISER_STILL
        return
    if way.machine is MachineKind.DRILL:
        if is_through:
            yield Caution.THROUGH_HOLE
        return
    if any(stop.begin is not None for stop in stops) and way.machine in _TABLES:
        yield Caution.DROP_ON
    yield from _of_passes(way)
    if way.how.feed is Axis.ACROSS:
        yield Caution.BACKING
    if way.tool.kind is ToolKind.DADO_SET:
        yield Caution.DADO_SET
    if way.machine is MachineKind.HAND_ROUTER:
        yield Caution.CLAMPED


def _of_passes(way: WayToCut) -> Iterator[Caution]:
    """On which side the next pass lies, which belongs to the way of guiding (MS-6)."""
    is_widened = len({each.near_side for each in way.passes}) > 1
    if way.guide is Guide.STRAIGHTEDGE:
        if is_widened:
            yield Caution.WIDEN_BACK
    elif way.role is Role.TONGUE:
        yield Caution.TONGUE_PASSES
    elif way.role in (Role.STEP, Role.SHAPED) and way.passes[0].near_side.mm <= 0 and way.machine in _TABLES:
        yield Caution.SUNK_CUTTER
    elif is_widened:
        yield Caution.WIDEN
