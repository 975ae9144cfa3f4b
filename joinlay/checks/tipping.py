"""Whether a free-standing piece would fall forward with its drawers out (CK-5). A caution, never a test to a standard."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.checks.conditions import Stands, weight
from joinlay.checks.play import OUT
from joinlay.checks.weights import board_weight, drawer_load
from joinlay.findings import Finding, Harm

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.lengths import Length
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["CHILD", "Mass", "PulledDrawer", "Standing", "check_tipping", "standing"]

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

    @property
    def moment(self) -> float:
        """Kilogram-millimetres with which it holds the piece back."""
        return self.kilograms * self.behind


@dataclass(frozen=True, slots=True)
class PulledDrawer:
    """A drawer by its masses when shut: itself ``empty`` and the ``load`` that lies evenly in it; how far ``out`` it comes, in mm, and how
    far its front then stands before the foot (``reach``).
    """

    empty: Mass
    load: Mass
    out: float
    reach: float


@dataclass(frozen=True, slots=True)
class Standing:
    """A free-standing piece by its masses about its front foot, the foremost point of case and frame."""

    case: Mass
    drawers: tuple[PulledDrawer, ...]

    def moment(self, out: Collection[int] = (), full: Collection[int] = ()) -> float:
        """What holds the piece back with the drawers numbered ``out`` pulled and those numbered ``full`` loaded; from 0 (CK-5; statics).

        Under nothing it falls forward.
        """
        held = self.case.moment
        for n, drawer in enumerate(self.drawers):
            masses = (drawer.empty, drawer.load) if n in full else (drawer.empty,)
            shift = drawer.out if n in out else 0.0
            held += sum(mass.moment - mass.kilograms * shift for mass in masses)
        return held

    def tipping_load(self, n: int) -> float:
        """Kilograms that tip the piece, hung on the front of drawer ``n``, it alone pulled and all empty; 0 where it falls by itself."""
        return max(self.moment({n}), 0.0) / self.drawers[n].reach

    @property
    def kilograms(self) -> float:
        """What it weighs empty."""
        return self.case.kilograms + sum(drawer.empty.kilograms for drawer in self.drawers)


def standing(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], conditions: Conditions
) -> Standing:
    """The piece as masses: each board's weight at its middle, each drawer two-thirds of its length out where it is pulled (CK-5).

    It turns about its front foot, which stands ``feet_back`` of the conditions behind the foremost point of case and frame.
    """
    placed = [board for assembly in others for board in assembly.boards if board.place is not None]
    foot = min(_y(board, 0.0) for board in placed) + float(conditions.feet_back.mm)
    pulled = []
    for drawer in drawers:
        out = float((drawer.length * OUT).mm)
        load = Mass(drawer_load(drawer, conditions), _y(drawer.board("bottom"), 0.5) - foot)
        front = drawer.board("front")
        reach = out - (min(_y(front, 0.0), _y(front, 1.0)) - foot)
        pulled.append(PulledDrawer(_together(drawer.assembly.boards, stocks, foot), load, out, reach))
    return Standing(_together(placed, stocks, foot), tuple(pulled))


def _together(boards: Iterable[Board], stocks: Mapping[str, Stock], foot: float) -> Mass:
    weighed = [(board_weight(board, stocks), _y(board, 0.5) - foot) for board in boards if board.place is not None]
    kilograms = sum(heavy for heavy, _ in weighed)
    return Mass(kilograms, sum(heavy * behind for heavy, behind in weighed) / kilograms if kilograms else 0.0)


def _y(board: Board, share: float) -> float:
    """How far back the board lies: its foremost point (0), its middle (0.5) or its rearmost (1)."""
    assert board.place is not None
    place = board.place
    sizes = ((place.along, board.length), (place.across, board.width), (place.into, board.thickness))
    steps = [float(way[1]) * float(size.mm) for way, size in sizes if way[1]]
    low = sum(step for step in steps if step < 0)
    return float(place.origin[1]) + low + share * (sum(steps) - 2 * low)


def check_tipping(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> tuple[Finding, ...]:
    """Whether the piece stands with its drawers out (CK-5); nothing where the job has no case or no drawer.

    Warned: empty drawers all out tip it; one full drawer out with the rest empty tips it; or a child's weight (27 kg, our own choice) on the front
    of one drawer does. Always the caution to anchor it, unless the maker says that it will be.
    """
    if not drawers or not any(board.place is not None for assembly in others for board in assembly.boards):
        return ()
    piece = standing(others, drawers, stocks, conditions)
    each = range(len(drawers))
    all_out = piece.moment(out=each)
    one_full = min(piece.moment(out={n}, full={n}) for n in each)
    hung = min(piece.tipping_load(n) for n in each)
    numbers: dict[str, Length | int | str] = {
        "hung": weight(hung, shop.rule), "child": weight(CHILD, shop.rule), "piece": weight(piece.kilograms, shop.rule),
    }  # fmt: skip
    what = _verdict(all_out, one_full, hung)
    if conditions.stands is Stands.BUILT_IN:
        return ()
    if conditions.stands is Stands.ANCHORED:
        what += " It is to be anchored to the wall, and must not be used before it is."
        return (Finding("tipping", Harm.NOTE, "the piece", what, numbers, "CK-5", _SOURCE),)
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
