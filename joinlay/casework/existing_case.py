"""Runners for openings that are there, in a case someone else built: worked out from what was measured of it (RN-1 to RN-5).

The case is no part of the plan. Its surfaces stand as they were measured, and the runners, stops and drawers are made to them:
how wide and deep it is inside, how far the openings' edges stand in from its sides, how high its rails are, and, where that is
known, how far it is down to its bottom and up to its top. The boards that stand for it are only as large as was measured: they
end where nothing is known.
"""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, Final

from joinlay.boards import Board, Datum, Hand, PartKind, PartRole, Place
from joinlay.casework.bay import DrawerWish, Slot
from joinlay.casework.case import Cavity
from joinlay.casework.runners import Behind, RunnerMake, Runners, make_runners
from joinlay.casework.stops import StopMake, Stops, make_stops
from joinlay.errors import BadInput
from joinlay.findings import note
from joinlay.lengths import NOTHING, BadSize, dimension, mm
from joinlay.records import dataclass
from joinlay.stock.movement import Seasons, usual_seasons

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import DrawerRole
    from joinlay.casework.assembly import Assembly
    from joinlay.casework.opening import Opening
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["ExistingCase", "Fitted", "OpeningThere", "check_measures", "fit_out"]


@dataclass(frozen=True, slots=True)
class ExistingCase:
    """A case that is there, as measured, and what its runners and stops are to be made of.

    ``sides`` is its wood: whether it moves, and how thick. ``inside_width`` and ``inside_depth`` are behind the frame,
    ``inside_depth`` from the frame's back to the case back. ``left_edge`` and ``right_edge`` are from its sides to the openings;
    of these two and the inside width what is None follows from the others, both edges alike where neither is given. ``rail`` is
    the height of the rails between openings, and of the one under the lowest where ``below`` is None. ``below`` is from the
    lowest opening's lower edge down to the case's bottom, ``above`` from the topmost one's upper edge to its top; None: not
    known, or far away.
    """

    runners: RunnerMake
    sides: Stock
    inside_depth: Dimension
    inside_width: Dimension | None = None
    left_edge: Dimension | None = None
    right_edge: Dimension | None = None
    rail: Dimension | None = None
    below: Dimension | None = None
    above: Dimension | None = None
    stops: StopMake | None = None
    seasons: Seasons = field(default_factory=usual_seasons)


@dataclass(frozen=True, slots=True)
class OpeningThere:
    """An opening that is there, from the top down: its drawer, its size as measured, and what the drawer is to be."""

    drawer: DrawerRole
    opening: Opening
    wish: DrawerWish


@dataclass(frozen=True, slots=True)
class Fitted:
    """An existing case with its runners and stops, its drawers still to come.

    Its zero: X at the inside face of its left side, Y at the face of the frame, Z at its bottom or, where that isn't known, the
    underside of the lowest rail. ``boards`` stand for its wood; none of them is made.
    """

    boards: tuple[Board, ...]
    runners: Runners
    stops: Stops | None
    slots: tuple[Slot, ...]
    behind: Behind
    findings: tuple[Finding, ...]

    @property
    def assemblies(self) -> tuple[Assembly, ...]:
        """Its runners and, where it gets any, its stops: all that is made."""
        return (self.runners.assembly, *((self.stops.assembly,) if self.stops else ()))

    def blocks(self, drawer: DrawerRole) -> tuple[Board, ...]:
        """The stop blocks of a drawer; none where there are to be no stops."""
        return self.stops.of[drawer] if self.stops else ()


def fit_out(case: ExistingCase, openings: Sequence[OpeningThere], shop: Shop) -> Fitted:
    """The runners and stops of ``openings`` over one another in an existing ``case``, and a slot for each drawer.

    They are those that the same case would get as part of a piece: RN-1 to RN-4, ST-1 to ST-4. Raises BadInput where the measures
    don't go together, Refused where a rule can't be met. Source: common practice.
    """
    measured = _Measured.of(case, tuple(openings))
    slots = tuple(measured.slots())
    practice = shop.practice
    runners = make_runners(slots, measured.behind, case.runners, case.sides, practice, case.seasons)
    stops = make_stops(case.stops, slots, runners.of, measured.behind.front, practice) if case.stops else None
    assemblies = (runners.assembly, *((stops.assembly,) if stops else ()))
    findings = (*(found for assembly in assemblies for found in assembly.findings), *_said(case))
    return Fitted(tuple(measured.boards()), runners, stops, slots, measured.behind, findings)


def check_measures(case: ExistingCase, openings: Sequence[OpeningThere]) -> None:
    """Raise BadInput where the measures of ``case`` don't go together or don't suffice for ``openings``, with what to measure
    or leave out.
    """
    _Measured.of(case, tuple(openings))


def _said(case: ExistingCase) -> Iterator[Finding]:
    held = (
        "The bearers are glued at the front only and screwed through the slots behind."
        if case.sides.is_solid
        else "Bearers and kickers are glued and nailed, guides glued to the bearers."
    )
    source = "Noyes" if case.sides.is_solid else "common practice"
    yield note(
        "runners",
        f"{held} Each goes straight in through its opening, then out behind the frame and into its place. "
        f"Measure the case at the front and at the "
        "back, top and bottom: make every strip to the least. Nails are reckoned for a bottom and top as thick as its sides.",
        "RN-4",
        source,
    ).at("runners")


#: Where nothing is measured, a board that stands for the case goes on for so long. It is never told.
_ON: Final = dimension(mm(40))

_LEVEL: Final = Datum("inside face", "front edge", "left end", "outside face", "back edge", "right end")
_BACK: Final = Datum("inside face", "left edge", "bottom end", "outside face", "right edge", "top end")
_STILE: Final = Datum("show face", "inside edge", "bottom end", "back face", "outside edge", "top end")
_RAIL: Final = Datum("show face", "bottom edge", "left end", "back face", "top edge", "right end")

_ONE_CASE: Final = "the openings of one case are alike; write a job for each case, or measure again."


@dataclass(frozen=True, slots=True)
class _Measured:
    """The case worked out: what wasn't measured follows from the rest."""

    case: ExistingCase
    openings: tuple[OpeningThere, ...]
    inside: Dimension
    edges: tuple[Dimension, Dimension]
    behind: Behind

    @classmethod
    def of(cls, case: ExistingCase, openings: tuple[OpeningThere, ...]) -> _Measured:
        first = openings[0].opening
        for other in openings[1:]:
            for size, its, what in (
                (first.width, other.opening.width, "wide"),
                (first.depth, other.opening.depth, "deep"),
            ):
                if size != its:
                    said = (
                        f"the opening of {other.drawer.name} is {{its}} {what}, that of "
                        f"{openings[0].drawer.name} {{size}}; {_ONE_CASE}"
                    )
                    raise BadSize(said, its=its, size=size)
        inside, edges = _across(case, first.width)
        front = (first.depth - case.inside_depth).named("thickness of the frame, as measured", "RN-1", "by geometry")
        if front.mm <= 0:
            raise BadSize(
                "inside-depth is {inside} and the opening's depth, from the face of the frame, is {depth}: that "
                "leaves the frame no thickness. "
                "Measure inside-depth from the back of the frame, so that it is less than {depth}.",
                inside=case.inside_depth,
                depth=first.depth,
            )
        if case.rail is None and (len(openings) > 1 or case.below is None):
            why = (
                "between the openings"
                if len(openings) > 1
                else "under the opening, or below = and how far down the case's bottom is"
            )
            raise BadInput(f"nothing says how high the rail is; write rail = and the height of the rail {why}.")
        return cls(case, openings, inside, edges, Behind(front, case.inside_depth, case.sides.thickness))

    # -- slots ---------------------------------------------------------------------------------------

    @property
    def rail(self) -> Dimension:
        """The height of the rails between openings, and of the lowest."""
        return self.case.rail if self.case.rail is not None else NOTHING

    def floors(self) -> tuple[Dimension, ...]:
        """The level each drawer rides on, from the top down."""
        at, found = self.case.below if self.case.below is not None else self.rail, []
        for one in reversed(self.openings):
            found.append(at.named(f"{one.drawer.name} floor, above {self._zero}", "RN-1", "by geometry"))
            at = at + one.opening.height + self.rail
        return tuple(reversed(found))

    @property
    def _zero(self) -> str:
        return "the underside of the lowest rail" if self.case.below is None else "the case bottom"

    def slots(self) -> Iterator[Slot]:
        """Each opening with what its runners go between."""
        cavity = Cavity(
            NOTHING, self.inside, PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT), PartRole(PartKind.CASE_SIDE, hand=Hand.RIGHT)
        )
        last = len(self.openings) - 1
        for n, (one, floor) in enumerate(zip(self.openings, self.floors(), strict=True)):
            below = self.case.below if n == last and self.case.below is not None else self.rail
            above = self.case.above if n == 0 and self.case.above is not None else self.rail
            if n == 0 and self.case.above is not None:
                above = above.named(f"{one.drawer.name} opening to the case top", "RN-3")
            if n == last and self.case.below is not None:
                below = below.named(f"{one.drawer.name} floor above the case bottom", "RN-3")
            yield Slot(
                drawer=one.drawer,
                bank=1,
                opening=one.opening,
                wish=one.wish,
                left=self.edges[0],
                floor=floor,
                guide_left=self.edges[0].named(f"{one.drawer.name} left guide", "RN-2", "by geometry"),
                guide_right=self.edges[1].named(f"{one.drawer.name} right guide", "RN-2", "by geometry"),
                cavity=cavity,
                below=below,
                above=above,
                uprights=(self._upright(Hand.LEFT), self._upright(Hand.RIGHT)),
                rails=(self._rail_under(n), self._rail_under(n - 1)),
                ground=PartRole(PartKind.CASE_BOTTOM) if n == last and self.case.below is not None else None,
                roof=PartRole(PartKind.CASE_TOP) if n == 0 and self.case.above is not None else None,
                is_there=True,
            )

    def _covers(self, hand: Hand) -> bool:
        """True where the frame stands before the case's side at that hand."""
        return bool(self.edges[hand is Hand.RIGHT])

    def _upright(self, hand: Hand) -> PartRole:
        return PartRole(PartKind.STILE if self._covers(hand) else PartKind.CASE_SIDE, hand=hand)

    def _rail_under(self, n: int) -> PartRole:
        """The rail under opening ``n`` from the top; -1: the one over all of them."""
        if n < 0 or n == len(self.openings) - 1:
            return PartRole(PartKind.RAIL, hand=Hand.TOP if n < 0 else Hand.BOTTOM)
        return PartRole(PartKind.RAIL, self.openings[n].drawer)

    # -- what stands for its wood --------------------------------------------------------------------

    def boards(self) -> Iterator[Board]:
        """Its wood, as far as it was measured."""
        floors, case = self.floors(), self.case
        low = NOTHING
        head = floors[0] + self.openings[0].opening.height
        high = head + (case.above if case.above is not None else case.rail if case.rail is not None else _ON)
        thick, right, back = case.sides.thickness, self.inside, self.behind.front + self.behind.depth
        for hand, x, into in ((Hand.LEFT, NOTHING, "-X"), (Hand.RIGHT, right, "+X")):
            front = self.behind.front if self._covers(hand) else NOTHING
            yield self._board(
                PartRole(PartKind.CASE_SIDE, hand=hand),
                high - low,
                back - front,
                self._side_datum,
                Place.at(x, front, low, "+Z", "+Y", into),
            )
            if self._covers(hand):
                inner = self.edges[0] if hand is Hand.LEFT else right - self.edges[1]
                wide = self.edges[hand is Hand.RIGHT] + thick
                place = Place.at(inner, NOTHING, low, "+Z", into, "+Y")
                yield self._board(PartRole(PartKind.STILE, hand=hand), high - low, wide, _STILE, place, self.behind.front)
        yield self._board(PartRole(PartKind.CASE_BACK), high - low, right, _BACK, Place.at(NOTHING, back, low, "+Z", "+X", "+Y"))
        for kind, there, z, into in ((PartKind.CASE_BOTTOM, case.below, low, "-Z"), (PartKind.CASE_TOP, case.above, high, "+Z")):
            if there is not None:
                place = Place.at(NOTHING, self.behind.front, z, "+X", "+Y", into)
                yield self._board(PartRole(kind), right, self.behind.depth, _LEVEL, place)
        # One that has nothing measured over or under it, as where a drawer rides on the case bottom, goes on a little.
        more = case.rail if case.rail is not None else thick
        tops = [high if high > head else head + more, *floors]
        feet = [head, *(floor - self.rail for floor in floors[:-1]), low if floors[-1] > low else low - more]
        for n, (top, foot) in enumerate(zip(tops, feet, strict=True), start=-1):
            place = Place.at(self.edges[0], NOTHING, foot, "+X", "+Z", "+Y")
            yield self._board(self._rail_under(n), self.openings[0].opening.width, top - foot, _RAIL, place, self.behind.front)

    @property
    def _side_datum(self) -> Datum:
        """The words for a side of it, which begins and ends where something was measured from."""
        low = "underside of the lowest rail" if self.case.below is None else "case bottom"
        high = "wood over the opening" if self.case.above is None else "case top"
        return Datum("inside of the case", "front edge", low, "outside face", "back edge", high)

    def _board(
        self, role: PartRole, length: Dimension, width: Dimension, datum: Datum, place: Place, thickness: Dimension | None = None
    ) -> Board:
        return Board(
            role,
            self.case.sides.name,
            length,
            width,
            self.case.sides.thickness if thickness is None else thickness,
            datum,
            place=place,
        )


def _across(case: ExistingCase, opening: Dimension) -> tuple[Dimension, tuple[Dimension, Dimension]]:
    """The inside width and what the frame covers of it at both sides (RN-2)."""
    left, right, inside = case.left_edge, case.right_edge, case.inside_width
    if inside is None:
        if left is None or right is None:
            raise BadInput(
                "nothing says how wide the case is inside; write inside-width = and what it measures behind the "
                "frame, or left-edge and "
                "right-edge, how far the openings' edges stand in from its sides."
            )
        inside = (left + opening + right).named("case inside width", "RN-2", "by geometry")
    if left is not None and right is not None and left + opening + right != inside:
        raise BadSize(
            "left-edge, the opening and right-edge come to {sum}, but inside-width is {inside}. Measure again, "
            "or leave one of the three out.",
            sum=left + opening + right,
            inside=inside,
        )
    over = inside - opening
    if left is None:
        left = over / 2 if right is None else over - right
    if right is None:
        right = over - left
    for edge, hand in ((left, Hand.LEFT), (right, Hand.RIGHT)):
        if edge.mm < 0:
            raise BadSize(
                "the openings, {opening} wide, reach {past} past the inside of the case at its {hand}, so "
                "drawers would run against it. Measure "
                "again; {most} is as wide as an opening can be there.",
                opening=opening,
                past=-edge,
                hand=hand.value,
                most=opening + left + right if case.left_edge is None and case.right_edge is None else opening + edge,
            )
    return inside, (left, right)
