"""Whether a free-standing piece would fall forward with its drawers out (CK-5). A caution, never a test to a standard."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.checks.conditions import estimate, weight
from joinlay.checks.play import OUT
from joinlay.checks.weights import board_weight, drawer_load, drawer_weight
from joinlay.findings import Finding, Harm

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.lengths import Length
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["CHILD", "Mass", "check_tipping", "moment_about_foot", "standing_masses", "tipping_load"]

#: A child who climbs or hangs on a drawer, in kilograms. Source: our own choice, to warn by; no standard's test.
CHILD: Final = 27.0
_SOURCE: Final = "moments about the front foot"
#: The caution that always stands, in words that claim nothing.
_ANCHOR: Final = (
    "Anchor it to the wall whatever the figures say: children climb drawers. This is no test to ASTM F2057 or EN 14749; "
    "look there for what a test asks."
)


@dataclass(frozen=True, slots=True)
class Mass:
    """Something heavy: ``kilograms``, and ``behind`` mm behind the front foot (less than nothing: in front of it)."""

    kilograms: float
    behind: float


def moment_about_foot(masses: Iterable[Mass]) -> float:
    """Kilogram-millimetres that hold the piece back; under nothing, it falls forward (CK-5; statics)."""
    return sum(mass.kilograms * mass.behind for mass in masses)


def tipping_load(masses: Iterable[Mass], in_front: float) -> float:
    """Kilograms that tip the piece when they hang ``in_front`` mm before its front foot; nothing where it falls by itself (CK-5)."""
    return max(moment_about_foot(masses), 0.0) / in_front


def standing_masses(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], out: Sequence[bool], load: Sequence[float]
) -> tuple[Mass, ...]:
    """Every mass of the piece behind its front foot, each drawer ``out`` (two-thirds of its length) or shut, with its ``load`` in kg.

    The front foot is the foremost point of the case and frame. The load lies evenly in its drawer.
    """
    foot = _foot(others)
    masses = [
        Mass(board_weight(board, stocks), _middle(board) - foot)
        for assembly in others
        for board in assembly.boards
        if board.place is not None
    ]
    for drawer, is_out, loaded in zip(drawers, out, load, strict=True):
        shift = float((drawer.length * OUT).mm) if is_out else 0.0
        masses += [
            Mass(board_weight(board, stocks), _middle(board) - foot - shift) for board in drawer.assembly.boards if board.place is not None
        ]  # fmt: skip
        masses.append(Mass(loaded, _middle(drawer.board("bottom")) - foot - shift))
    return tuple(masses)


def _middle(board: Board) -> float:
    assert board.place is not None
    return float(board.place.point(board.length / 2, board.width / 2, board.thickness / 2)[1])


def _foot(others: Sequence[Assembly]) -> float:
    return min(_foremost(board) for assembly in others for board in assembly.boards if board.place is not None)


def _foremost(board: Board) -> float:
    assert board.place is not None
    place = board.place
    directions = ((place.along, board.length), (place.across, board.width), (place.into, board.thickness))
    steps = [float(way[1] * size.mm) for way, size in directions]
    return float(place.origin[1]) + sum(step for step in steps if step < 0)


def check_tipping(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> tuple[Finding, ...]:
    """Whether the piece stands with its drawers out (CK-5); nothing where the job has no case or no drawer.

    Warned: empty drawers all out tip it; one full drawer out with the rest empty tips it; or a child's weight (27 kg, our own choice) on the front
    of one drawer does. Always the caution to anchor it, unless the maker says that it will be.
    """
    if not drawers or not any(board.place is not None for assembly in others for board in assembly.boards):
        return ()
    empty = [0.0] * len(drawers)
    full = [drawer_load(drawer, conditions) for drawer in drawers]
    all_out = moment_about_foot(standing_masses(others, drawers, stocks, [True] * len(drawers), empty))
    one_full, hung = _one_out(others, drawers, stocks, full)
    numbers: dict[str, Length | int | str] = {
        "hung": weight(hung, shop.rule), "child": weight(CHILD, shop.rule), "piece": weight(_total(others, drawers, stocks), shop.rule),
        "out": estimate(float((drawers[0].length * OUT).mm), shop.rule),
    }  # fmt: skip
    what = _verdict(all_out, one_full, hung)
    if conditions.is_anchored:
        return (Finding("tipping", Harm.NOTE, "the piece", f"{what} It is to be anchored.", numbers, "CK-5", _SOURCE),)
    stands = all_out > 0 and one_full > 0 and hung >= CHILD
    harm = Harm.NOTE if stands else Harm.WARN
    return (Finding("tipping", harm, "the piece", what, numbers, "CK-5", _SOURCE, _ANCHOR),)


def _verdict(all_out: float, one_full: float, hung: float) -> str:
    if one_full <= 0:
        return "Free-standing ({piece} empty), it falls forward with one full drawer pulled out and the others empty."
    if all_out <= 0:
        return "Free-standing ({piece} empty), it falls forward with all its empty drawers pulled out."
    if hung < CHILD:
        return "Free-standing ({piece} empty), it falls forward when {hung} hangs on one open drawer; a child may be {child}."
    return "Free-standing ({piece} empty), it takes {hung} on the front of one open drawer to tip it."


def _one_out(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], full: Sequence[float]
) -> tuple[float, float]:
    """The least moment with one full drawer out and the rest empty, and the least load on the front of one empty open drawer."""
    foot = _foot(others)
    moments, loads = [], []
    for n, drawer in enumerate(drawers):
        out = [n == m for m in range(len(drawers))]
        moments.append(
            moment_about_foot(
                standing_masses(others, drawers, stocks, out, [full[m] if m == n else 0.0 for m in range(len(full))])
            )
        )
        reach = float((drawer.length * OUT).mm) - (_foremost(drawer.board("front")) - foot)
        loads.append(tipping_load(standing_masses(others, drawers, stocks, out, [0.0] * len(full)), reach))
    return min(moments), min(loads)


def _total(others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock]) -> float:
    boards = [board for assembly in others for board in assembly.boards]
    return sum(board_weight(board, stocks) for board in boards) + sum(drawer_weight(drawer) for drawer in drawers)
