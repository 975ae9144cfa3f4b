"""Whether a free-standing piece would fall forward with its drawers out (CK-5). A caution, never a test to a standard."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, PartKind, Whole
from joinlay.boards.extent import extent
from joinlay.checks.conditions import Stands, estimate, weight
from joinlay.checks.weights import board_weight, drawer_load
from joinlay.findings import Change, Finding, Harm, Remedy
from joinlay.lengths import Fraction, inches
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.lengths import Length
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = [
    "AS_FAR",
    "CHILD",
    "LIGHT",
    "LOW",
    "NEAR",
    "Mass",
    "PulledDrawer",
    "Standing",
    "check_tipping",
    "standing",
    "tipping_loads",
]

#: A child who climbs or hangs on a drawer, in kilograms: 60 lb. Source: CK-5, to warn by; no standard's test.
CHILD: Final = 60 * 0.45359237
#: How much of a drawer's length it comes out before it falls from its runners: the last tenth holds it. Source: our own choice.
AS_FAR: Final = Fraction(9, 10)
#: What pulls it over, as a share of what holds it back: from here on it is within a fifth of tipping. Source: CK-5.
NEAR: Final = 0.8
#: A piece both lower and lighter than this (30 lb, in kilograms) is only noted. Source: CK-5; compare the scope of ASTM F2057.
LOW: Final = inches(27)
LIGHT: Final = 30 * 0.45359237
_SOURCE: Final = "moments about the front foot"
#: The caution that always stands, in words that claim nothing.
_ANCHOR: Final = (
    "Anchor it to the wall whatever the figures say: children climb drawers. "
    "This is no test to ASTM F2057 or EN 14749; look there for what a test asks."
)


_SAY_SO: Final = 'once it will be anchored, write stands = "anchored" under [use]'


@dataclass(frozen=True, slots=True)
class Mass:
    """Something heavy: ``kilograms``, and ``behind`` mm behind the front foot (negative: in front of it)."""

    kilograms: float
    behind: float

    @property
    def moment(self) -> float:
        """Kilogram-millimetres with which it holds the piece back."""
        return self.kilograms * self.behind


@dataclass(frozen=True, slots=True)
class PulledDrawer:
    """A drawer by its masses when shut: itself ``empty`` and the ``load`` that lies evenly in it; how far ``out`` it comes, in
    mm, and how far its front then stands before the foot (``reach``).
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

    def pull(self, out: Collection[int] = (), full: Collection[int] = (), child: int | None = None) -> float:
        """What pulls the piece over, as a share of what holds it back; at 1 it falls forward (CK-5; statics).

        The drawers numbered ``out`` are pulled, those numbered ``full`` loaded, and a child hangs on the front edge of the one
        numbered ``child``. All that lies behind the foot holds it back, all before it pulls.
        """
        moments = [self.case.moment]
        for n, drawer in enumerate(self.drawers):
            masses = (drawer.empty, drawer.load) if n in full else (drawer.empty,)
            shift = drawer.out if n in out else 0.0
            moments += [mass.moment - mass.kilograms * shift for mass in masses]
        if child is not None:
            moments.append(-CHILD * self.drawers[child].reach)
        held = sum(moment for moment in moments if moment > 0)
        return -sum(moment for moment in moments if moment < 0) / held if held else float("inf")

    @property
    def all_full(self) -> float:
        """The pull with all drawers out and loaded (CK-5)."""
        return self.pull(range(len(self.drawers)), range(len(self.drawers)))

    @property
    def all_empty(self) -> float:
        """The pull with all drawers out and empty (CK-5)."""
        return self.pull(range(len(self.drawers)))

    @property
    def with_child(self) -> float:
        """The worst pull of a child on the front edge of one drawer, the others shut and all empty (CK-5)."""
        return max(self.pull({n}, child=n) for n in range(len(self.drawers)))

    def moment(self, out: Collection[int] = (), full: Collection[int] = ()) -> float:
        """What holds the piece back with the drawers numbered ``out`` pulled and those numbered ``full`` loaded; from 0 (CK-5;
        statics).

        Under nothing it falls forward.
        """
        held = self.case.moment
        for n, drawer in enumerate(self.drawers):
            masses = (drawer.empty, drawer.load) if n in full else (drawer.empty,)
            shift = drawer.out if n in out else 0.0
            held += sum(mass.moment - mass.kilograms * shift for mass in masses)
        return held

    def tipping_load(self, out: Collection[int]) -> float:
        """Kilograms that tip the piece, hung on the farthest front of the drawers numbered ``out``, all of them empty; 0 where it
        falls by itself.
        """
        return max(self.moment(out), 0.0) / max(self.drawers[n].reach for n in out)

    def least_load(self, count: int) -> float:
        """The tipping load with the ``count`` drawers out that hold it back least (CK-5)."""
        if count > 2:
            return self.tipping_load(self._worst(count))
        # What is left after each is pulled, worked out once: a hundred drawers have thousands of pairs.
        shut, reach = self.moment(), [drawer.reach for drawer in self.drawers]
        costs = [drawer.empty.kilograms * drawer.out for drawer in self.drawers]
        ways = combinations(range(len(self.drawers)), count)
        return min(max(shut - sum(costs[n] for n in out), 0.0) / max(reach[n] for n in out) for out in ways)

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
    """The piece as masses: each board's weight at its middle, each drawer nine tenths of its length out where it is pulled
    (CK-5).

    It turns about its front foot, which stands ``feet_back`` of the conditions behind the foremost point of its base, or without
    one of case and frame (BA-1).
    """
    placed = [board for assembly in others for board in assembly.boards if board.place is not None]
    stands_on = [board for board in placed if board.role.whole is Whole.BASE]
    stands_on = stands_on or [board for board in placed if board.role.whole is not Whole.TOP]
    # On levellers it stands on the pads in the middle of its feet (BA-3).
    foot = min(_y(board, 0.5 if board.cuts_of(CutUse.LEVELLER_HOLE) else 0.0) for board in stands_on) + float(
        conditions.feet_back.mm
    )
    pulled = []
    for drawer in drawers:
        out = float((drawer.length * AS_FAR).mm)
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
    """Kilograms on the front that tip the piece with one, two and all of its drawers out and empty, by how many are out
    (CK-5).
    """
    count = len(piece.drawers)
    return {out: piece.least_load(out) for out in sorted({1, min(2, count), count})}


def _of_shelves_alone(others: Sequence[Assembly], conditions: Conditions) -> tuple[Finding, ...]:
    """The caution for shelves without a drawer, which nothing pulls over but who climbs them (CK-5)."""
    shelves = (PartKind.SHELF, PartKind.LOOSE_SHELF)
    if conditions.stands is Stands.ANCHORED or not any(assembly.of_kind(*shelves) for assembly in others):
        return ()
    what = (
        "It has no drawer that could tip it as it is pulled, but shelves are climbed too. Anchor it to the "
        "wall, and put what is heavy low."
    )
    return (Finding("tipping", Harm.NOTE, "the piece", what, {}, "CK-5", _SOURCE),)


def check_tipping(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> tuple[Finding, ...]:
    """Whether the piece stands with its drawers out (CK-5); nothing where the job has no case, or neither drawer nor shelf.

    Warned where it tips, or comes within a fifth of tipping, with all drawers out as far as they go before they fall, loaded or
    empty, or with one of them so far out and a child's weight on its front edge. A piece both low and light is only noted, and so
    is one that the maker will anchor; for every other the caution to anchor it stands, and nothing is said of a piece that is
    built in.
    """
    if conditions.stands is Stands.BUILT_IN:
        return ()
    if not drawers:
        return _of_shelves_alone(others, conditions)
    placed = [board for assembly in others for board in assembly.boards if board.place is not None]
    if not any(assembly.of is Whole.CASE for assembly in others):
        return ()
    piece = standing(others, drawers, stocks, conditions)
    hung = {count: load for count, load in tipping_loads(piece).items() if load > 0}
    longest = max(drawer.length for drawer in drawers)
    numbers: dict[str, Length | int | str] = {
        "child": weight(CHILD, shop.rule), "piece": weight(piece.kilograms, shop.rule), "drawers": len(drawers),
        "out": estimate(float((longest * AS_FAR).mm), shop.rule),
    }  # fmt: skip
    numbers |= {_called(count, len(drawers)): weight(load, shop.rule) for count, load in hung.items()}
    what = f"Free-standing ({{piece}} empty), {_verdict(piece)} {_loads_words(hung, len(drawers))}".rstrip()
    if conditions.stands is Stands.ANCHORED:
        what += " It is to be anchored to the wall, and must not be used before it is."
        return (Finding("tipping", Harm.NOTE, "the piece", what, numbers, "CK-5", _SOURCE),)
    is_small = extent(placed)[2] < LOW and piece.kilograms < LIGHT
    may_tip = max(piece.all_full, piece.all_empty, piece.with_child) >= NEAR
    if is_small and may_tip:
        what += " It is lower than {low} and lighter than {light}, so this is only noted."
        numbers |= {"low": LOW, "light": weight(LIGHT, shop.rule)}
    harm = Harm.WARN if may_tip and not is_small else Harm.NOTE
    ways = (Remedy(_SAY_SO, (Change("use", "stands", "anchored"),)),) if harm is Harm.WARN else ()
    caution = _ANCHOR if ways else f"{_ANCHOR} {_SAY_SO[0].upper()}{_SAY_SO[1:]}."
    return (Finding("tipping", harm, "the piece", what, numbers, "CK-5", _SOURCE, caution, remedies=ways),)


def _called(count: int, of: int) -> str:
    """What the tipping load with so many drawers out is called among the numbers: ``one``, ``two``, ``all``."""
    return "one" if count == 1 else "all" if count == of else "two"


def _verdict(piece: Standing) -> str:
    """What the piece does with so many drawers so far out, full, empty, and with a child on one: where it falls first, where it
    stands last.
    """
    alone = len(piece.drawers) == 1
    every, one = ("its drawer {out} out", "it") if alone else ("all {drawers} drawers {out} out", "only one")
    full, empty, child = (_does(pull) for pull in (piece.all_full, piece.all_empty, piece.with_child))
    cases: dict[str, list[str]] = {word: [] for word in (_FALLS, _NEARLY, _STANDS)}
    if full == empty:
        cases[full].append(f"{every}, full or empty")
    else:
        cases[full].append(f"{every} and full")
        cases[empty].append(f"{every} and empty")
    cases[child].append(f"{one} {{out}} out, empty, and a child's {{child}} on its front edge")
    said = ". It ".join(f"{word} with {', and with '.join(of)}" for word, of in cases.items() if of)
    first, out, rest = said.partition("{out} out")
    return f"it {first}{out}{rest.replace(out, 'so far out')}. {_SO_FAR}"


_FALLS: Final = "falls forward"
_NEARLY: Final = "comes within a fifth of falling"
_STANDS: Final = "stands"
_SO_FAR: Final = "So far a drawer goes before it falls from its runners."


def _does(pull: float) -> str:
    if pull >= 1:
        return _FALLS
    return _NEARLY if pull >= NEAR else _STANDS


def _loads_words(hung: Mapping[int, float], of: int) -> str:
    """What tips it on the front of a drawer, by how many are out and empty; nothing for so many as it falls with by itself."""
    if 1 not in hung:
        return ""
    said = ["{one} on the front of one open drawer tips it"]
    said += ["{two} with two open"] if 2 in hung and of > 2 else []
    said += ["{all} with all"] if of in hung and of > 1 else []
    return f"Empty, {', '.join(said)}."
