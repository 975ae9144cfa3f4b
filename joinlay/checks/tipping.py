"""Whether a free-standing piece would fall forward with its drawers out (CK-5). A caution, never a test to a standard."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
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

__all__ = ["CHILD", "Mass", "PulledDrawer", "Standing", "check_tipping", "standing", "tipping_loads"]

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

    def tipping_load(self, out: Collection[int]) -> float:
        """Kilograms that tip the piece, hung on the farthest front of the drawers numbered ``out``, all of them empty; 0 where it falls by itself."""
        return max(self.moment(out), 0.0) / max(self.drawers[n].reach for n in out)

    def least_load(self, count: int) -> float:
        """The tipping load with the ``count`` drawers out that hold it back least (CK-5)."""
        ways = combinations(range(len(self.drawers)), count) if count <= 2 else [self._worst(count)]
        return min(self.tipping_load(out) for out in ways)

    def _worst(self, count: int) -> tuple[int, ...]:
        """The drawers whose pulling out costs most."""
        costs = {n: drawer.empty.kilograms * drawer.out for n, drawer in enumerate(self.drawers)}
        return tuple(sorted(costs, key=lambda n: -costs[n])[:count])

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
        load = Mass(drawer_load(drawer, conditions), _y(drawer.bottom, 0.5) - foot)
        front = drawer.front
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


def tipping_loads(piece: Standing) -> dict[int, float]:
    """Kilograms on the front that tip the piece with one, two and all of its drawers out and empty, by how many are out (CK-5)."""
    count = len(piece.drawers)
    return {out: piece.least_load(out) for out in sorted({1, min(2, count), count})}


def check_tipping(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> tuple[Finding, ...]:
    """Whether the piece stands with its drawers out (CK-5); nothing where the job has no case or no drawer.

    Warned: empty drawers, one, two or all of them out, tip it; one full drawer out with the rest empty tips it; or a child's weight (27 kg, our
    own choice) on the front of one drawer does. Always the caution to anchor it, unless the maker says that it will be; nothing of a piece
    that is built in.
    """
    if conditions.stands is Stands.BUILT_IN or not drawers:
        return ()
    if not any(board.place is not None for assembly in others for board in assembly.boards):
        return ()
    piece = standing(others, drawers, stocks, conditions)
    hung = tipping_loads(piece)
    one_full = min(piece.moment(out={n}, full={n}) for n in range(len(drawers)))
    numbers: dict[str, Length | int | str] = {"child": weight(CHILD, shop.rule), "piece": weight(piece.kilograms, shop.rule)}
    numbers |= {_called(count, len(drawers)): weight(load, shop.rule) for count, load in hung.items()}
    what = f"Free-standing ({{piece}} empty), {_verdict(hung, one_full)}"
    if conditions.stands is Stands.ANCHORED:
        what += " It is to be anchored to the wall, and must not be used before it is."
        return (Finding("tipping", Harm.NOTE, "the piece", what, numbers, "CK-5", _SOURCE),)
    stands = min(hung.values()) > 0 and one_full > 0 and hung[1] >= CHILD
    harm = Harm.NOTE if stands else Harm.WARN
    return (Finding("tipping", harm, "the piece", what, numbers, "CK-5", _SOURCE, _ANCHOR),)


def _called(count: int, of: int) -> str:
    """What the tipping load with so many drawers out is called among the numbers: ``one``, ``two``, ``all``."""
    return "one" if count == 1 else "all" if count == of else "two"


def _verdict(hung: Mapping[int, float], one_full: float) -> str:
    """The worst of it in words; ``hung`` is the tipping load by how many empty drawers are out, of which the last is all of them."""
    most = max(hung)
    if one_full <= 0:
        return "it falls forward with one full drawer pulled out and the others empty."
    falls = min((count for count, load in hung.items() if load <= 0), default=0)
    if falls:
        with_out = "all its empty drawers" if falls == most else {1: "one empty drawer", 2: "two empty drawers"}[falls]
        return f"it falls forward by itself with {with_out} pulled out."
    more = (["{two} with two open"] if most > 2 else []) + (["{all} with all"] if most > 1 else [])
    others = f", {', '.join(more)}" if more else ""
    if hung[1] < CHILD:
        return f"it falls forward when {{one}} hangs on the front of one open drawer{others}; a child may be {{child}}."
    return f"it takes {{one}} on the front of one open drawer to tip it{others}."
