"""The face frame: stiles, rails between them, uprights between banks, on loose tenons (FF-1 to FF-3)."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Board, Datum, Hand, JointKind, JointRole, PartKind, PartRole, Place, Surface, Whole
from joinlay.boards.meeting import butted
from joinlay.casework.assembly import Assembly
from joinlay.findings import Change, Refused, warning
from joinlay.joints.loose_tenon import Seat, Use, cut_mortises, design_loose_tenon, meet_mortise
from joinlay.lengths import NOTHING, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards.meeting import Meeting
    from joinlay.casework.bay import Bay
    from joinlay.findings import Finding
    from joinlay.joints.loose_tenon import LooseTenon
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop
    from joinlay.stock import Stock

__all__ = ["FrameMake", "FrameSizes", "make_frame"]


@dataclass(frozen=True, slots=True)
class FrameMake:
    """What a face frame is made of, and its widths; None: the maker's usual ones.

    ``overhang`` is how far it stands proud of the case at each side, ``overhang_top`` and ``overhang_bottom`` above and below
    (FF-3; nothing: flush). ``scribe`` is what each stile is made wider and stands farther out, to be planed to the wall (SC-1).
    """

    stock: Stock
    stile: Dimension | None = None
    mullion: Dimension | None = None
    top_rail: Dimension | None = None
    bottom_rail: Dimension | None = None
    rail: Dimension | None = None
    overhang: Dimension | None = None
    overhang_top: Dimension = NOTHING
    overhang_bottom: Dimension = NOTHING
    scribe: Dimension = NOTHING

    def sizes(self, practice: Practice) -> FrameSizes:
        """Every width given or usual (FF-1, FF-3)."""

        def one(given: Dimension | None, rule: str) -> Dimension:
            size = given if given is not None else practice.length(rule)
            return size.named(f"face frame {rule.removeprefix('frame ')}", "FF-3" if "overhang" in rule else "FF-1")

        stile, overhang = one(self.stile, "stile width"), one(self.overhang, "frame overhang")
        if self.scribe:
            stile = (stile + self.scribe).named("face frame stile width, with what is scribed away", "SC-1", "common practice")
            overhang = (overhang + self.scribe).named("face frame overhang, with what is scribed away", "SC-1", "common practice")
        return FrameSizes(
            thickness=self.stock.thickness.named("face frame thickness", "", "the stock's own"),
            stile=stile,
            mullion=one(self.mullion, "mullion width"),
            top_rail=one(self.top_rail, "top rail height"),
            bottom_rail=one(self.bottom_rail, "bottom rail height"),
            rail=one(self.rail, "rail height"),
            overhang=overhang,
            overhang_top=self.overhang_top,
            overhang_bottom=self.overhang_bottom,
        )


@dataclass(frozen=True, slots=True)
class FrameSizes:
    """The widths of a frame's members and its overhangs, all known."""

    thickness: Dimension
    stile: Dimension
    mullion: Dimension
    top_rail: Dimension
    bottom_rail: Dimension
    rail: Dimension
    overhang: Dimension
    overhang_top: Dimension
    overhang_bottom: Dimension


_STILE = Datum("show face", "inside edge", "bottom end", "back face", "outside edge", "top end")
_MULLION = Datum("show face", "left edge", "bottom end", "back face", "right edge", "top end")
_RAIL = Datum("show face", "bottom edge", "left end", "back face", "top edge", "right end")
_TENON = Datum("cheek", "near edge", "near end", "far cheek", "far edge", "far end")

_LEFT_STILE = PartRole(PartKind.STILE, hand=Hand.LEFT)
_RIGHT_STILE = PartRole(PartKind.STILE, hand=Hand.RIGHT)
_BOTTOM_RAIL = PartRole(PartKind.RAIL, hand=Hand.BOTTOM)
_TOP_RAIL = PartRole(PartKind.RAIL, hand=Hand.TOP)


def make_frame(
    make: FrameMake, sizes: FrameSizes, width: Dimension, height: Dimension, bays: Sequence[Bay], shop: Shop
) -> Assembly:
    """Cut and place the frame ``width`` by ``height`` around ``bays``: its show face at Y = 0, its left edge at X = 0, its
    underside at Z = 0.

    FF-2: rails stand between the stiles, loose tenons centred in the thickness, each as far from the rail's edges as a shoulder
    asks. Raises Refused, with the member named, where a rail is too low for any tenon. Source: common practice.
    """
    return _FrameMaker(make=make, sizes=sizes, width=width, height=height, bays=tuple(bays), shop=shop).made()


@dataclass(slots=True)
class _Member:
    """A rail, or an upright between banks, with what its two ends run into."""

    board: Board
    at_start: PartRole
    at_stop: PartRole


class _FrameMaker:
    """Gathers the boards of one frame; every mortise is put on both its boards at once."""

    def __init__(
        self, make: FrameMake, sizes: FrameSizes, width: Dimension, height: Dimension, bays: tuple[Bay, ...], shop: Shop
    ) -> None:
        self._make, self._sizes, self._bays, self._shop = make, sizes, bays, shop
        self._width, self._height = width, height
        self._boards: dict[PartRole, Board] = {}
        self._slips: list[Board] = []
        self._meetings: list[Meeting] = []
        self._findings: dict[str, Finding] = {}
        self._undersides = self._measure_undersides()
        self._lefts = self._measure_lefts()
        self._crossed = {role for bay in bays for role in _crossed_rails(bay)}

    def made(self) -> Assembly:
        for board in self._uprights():
            self._boards[board.role] = board
        for member in self._members():
            self._boards[member.board.role] = member.board
            self._join(member)
        found = (*self._thin(), *(finding.at("face frame") for finding in self._findings.values()))
        boards = (*self._boards.values(), *self._slips)
        return Assembly(Whole.FRAME, boards, tuple(self._meetings), self._dimensions(), found)

    # -- boards --------------------------------------------------------------------------------------

    def _uprights(self) -> Iterator[Board]:
        stile, length = self._sizes.stile, self._height
        right = (self._width - stile).named("face frame left edge to the right stile", "FF-2")
        left_place = Place.at(stile, NOTHING, NOTHING, "+Z", "-X", "+Y")
        right_place = Place.at(right, NOTHING, NOTHING, "+Z", "+X", "+Y")
        yield self._board(_LEFT_STILE, length, stile, _STILE, left_place)
        yield self._board(_RIGHT_STILE, length, stile, _STILE, right_place)

    def _members(self) -> Iterator[_Member]:
        """Top and bottom rail, then the uprights between banks, then the rails of each bank and the uprights in its rows."""
        sizes = self._sizes
        length = (self._width - 2 * sizes.stile).named("face frame top and bottom rail length", "FF-2", "common practice")
        top = (self._height - sizes.top_rail).named("face frame underside to the top rail", "FF-2")
        for role, width, z in ((_BOTTOM_RAIL, sizes.bottom_rail, NOTHING), (_TOP_RAIL, sizes.top_rail, top)):
            place = Place.at(sizes.stile, NOTHING, z, "+X", "+Z", "+Y")
            yield _Member(self._board(role, length, width, _RAIL, place), _LEFT_STILE, _RIGHT_STILE)
        upright = (top - sizes.bottom_rail).named("face frame mullion length", "FF-2", "common practice")
        for bay in self._bays[1:]:
            place = Place.at(bay.left - sizes.mullion, NOTHING, sizes.bottom_rail, "+Z", "+X", "+Y")
            role = _mullion(bay.number - 1)
            yield _Member(self._board(role, upright, sizes.mullion, _MULLION, place), _BOTTOM_RAIL, _TOP_RAIL)
        for bay in self._bays:
            yield from self._rails(bay)
        for bay in self._bays:
            yield from self._in_rows(bay)

    def _rails(self, bay: Bay) -> Iterator[_Member]:
        left = _LEFT_STILE if bay.number == 1 else _mullion(bay.number - 1)
        right = _RIGHT_STILE if bay.number == len(self._bays) else _mullion(bay.number)
        for row in bay.rows[:-1]:
            place = Place.at(bay.left, NOTHING, row.floor - bay.rail, "+X", "+Z", "+Y")
            yield _Member(self._board(row.under(PartKind.RAIL), bay.width, bay.rail, _RAIL, place), left, right)

    def _in_rows(self, bay: Bay) -> Iterator[_Member]:
        """The uprights between openings side by side, from the rail under them to the one over them (RO-1)."""
        rails = [_TOP_RAIL, *(row.under(PartKind.RAIL) for row in bay.rows[:-1]), _BOTTOM_RAIL]
        for row, over, under in zip(bay.rows, rails, rails[1:], strict=False):
            for role in row.partings(PartKind.MULLION):
                place = Place.at(self._lefts[role], NOTHING, row.floor, "+Z", "+X", "+Y")
                yield _Member(self._board(role, row.height, bay.mullion, _MULLION, place), under, over)

    def _board(self, role: PartRole, length: Dimension, width: Dimension, datum: Datum, place: Place) -> Board:
        name = role.name
        return Board(
            role,
            self._make.stock.name,
            length.named(f"{name} length", "FF-2"),
            width.named(f"{name} width", "FF-1"),
            self._sizes.thickness,
            datum,
            place=place,
        )

    # -- joints --------------------------------------------------------------------------------------

    def _join(self, member: _Member) -> None:
        """Both ends of a member, mortised, with the slips between."""
        role = member.board.role
        for surface, into in ((Surface.END, member.at_start), (Surface.FAR_END, member.at_stop)):
            self._mortise(self._joint(self._boards[role], self._boards[into]), role, surface, into)

    def _joint(self, member: Board, into: Board) -> LooseTenon:
        # Rails may meet an upright from both sides at one height, and uprights a rail, so each has half of it.
        is_shared = into.role.kind is PartKind.MULLION or into.role in self._crossed
        depth = into.width / 2 if is_shared else into.width
        try:
            return design_loose_tenon(
                end_thickness=member.thickness,
                face_thickness=depth,
                line=member.width,
                shop=self._shop,
                use=Use.FRAME,
                is_solid=self._make.stock.is_solid,
                role=JointRole(JointKind.FRAME, member.role),
            )
        except Refused as refused:
            if member.role.kind is not PartKind.MULLION:
                raise
            raise _of_a_mullion(refused, self._shop.practice.length("mullion width")) from None

    def _mortise(self, joint: LooseTenon, role: PartRole, surface: Surface, other: PartRole) -> None:
        member, into = self._boards[role], self._boards[other]
        middle = joint.from_reference_face
        hand = _hand(role, surface)
        in_end = Seat(surface, Axis.ACROSS, start=NOTHING, centre=middle)
        self._boards[role] = cut_mortises(joint, member, in_end, joint.depth_in_end, mate=other, which=hand)
        edge = self._edge(into, member)
        start = self._along(into, member)
        in_edge = Seat(edge, Axis.ALONG, start=start, centre=middle)
        self._boards[other] = cut_mortises(joint, into, in_edge, joint.depth_in_face, mate=role, which=role)
        self._meetings.append(butted((member, surface), (into, edge), "with its shoulder on the", rule="FF-2", joint=joint.role))
        self._add_slips(joint, member, surface, hand, into, edge)
        for finding in joint.findings:
            self._findings.setdefault(finding.kind + finding.what, finding)

    def _edge(self, into: Board, member: Board) -> Surface:
        """The edge of ``into`` that ``member`` runs into."""
        if into.role.kind is PartKind.STILE:
            return Surface.EDGE
        assert into.place is not None
        assert member.place is not None
        if member.role.kind is PartKind.MULLION:
            return Surface.FAR_EDGE if member.place.origin[2] > into.place.origin[2] else Surface.EDGE
        return Surface.FAR_EDGE if member.place.origin[0] > into.place.origin[0] else Surface.EDGE

    def _along(self, into: Board, member: Board) -> Dimension:
        """Where the member's reference edge lies along the board it runs into, from that board's reference end."""
        if member.role.kind is PartKind.MULLION:
            return self._lefts[member.role] - self._lefts[into.role]
        under = self._undersides[member.role]
        return under - self._sizes.bottom_rail if into.role.kind is PartKind.MULLION else under

    def _measure_undersides(self) -> dict[PartRole, Dimension]:
        """The undersides of all rails, above the frame's."""
        at: dict[PartRole, Dimension] = {_BOTTOM_RAIL: NOTHING, _TOP_RAIL: self._height - self._sizes.top_rail}
        for bay in self._bays:
            at |= {row.under(PartKind.RAIL): row.floor - bay.rail for row in bay.rows[:-1]}
        return at

    def _measure_lefts(self) -> dict[PartRole, Dimension]:
        """The left ends of all rails, and the left edges of the uprights between stiles, from the frame's left edge."""
        at: dict[PartRole, Dimension] = {_BOTTOM_RAIL: self._sizes.stile, _TOP_RAIL: self._sizes.stile}
        at |= {_mullion(bay.number - 1): bay.left - self._sizes.mullion for bay in self._bays[1:]}
        for bay in self._bays:
            at |= {row.under(PartKind.RAIL): bay.left for row in bay.rows[:-1]}
            for row in bay.rows:
                after = zip(row.partings(PartKind.MULLION), row.lefts[1:], strict=True)
                at |= {role: left - bay.mullion for role, left in after}
        return at

    def _add_slips(self, joint: LooseTenon, member: Board, surface: Surface, hand: Hand, into: Board, edge: Surface) -> None:
        for n, centre in enumerate(joint.centres, start=1):
            slip = self._slip(joint, member, surface, centre, PartRole(PartKind.LOOSE_TENON, None, hand, n, member.role))
            self._slips.append(slip)
            # The slip lies along the member, its far end towards the member's far end.
            towards, away = (Surface.END, Surface.FAR_END) if surface is Surface.END else (Surface.FAR_END, Surface.END)
            self._meetings.append(meet_mortise(joint, n - 1, slip, towards, into, edge))
            self._meetings.append(meet_mortise(joint, n - 1, slip, away, member, surface))

    def _slip(self, joint: LooseTenon, member: Board, surface: Surface, centre: Dimension, role: PartRole) -> Board:
        """A loose tenon in the member's own directions, so its place follows from the member's."""
        assert member.place is not None
        start = (
            joint.glue_room - joint.depth_in_face
            if surface is Surface.END
            else member.length - joint.depth_in_end + joint.glue_room
        )
        corner = member.place.point(start, centre - joint.tenon_width / 2, joint.from_reference_face - joint.tenon_thickness / 2)
        return Board(
            role,
            "loose tenon strip",
            joint.tenon_length,
            joint.tenon_width,
            joint.tenon_thickness,
            _TENON,
            place=replace(member.place, origin=corner),
            has_round_edges=True,
        )

    # -- findings ------------------------------------------------------------------------------------

    def _thin(self) -> Iterator[Finding]:
        least = self._shop.practice.length("thinnest frame")
        if self._sizes.thickness < least:
            yield warning(
                "face frame",
                "The frame is {thickness} thick; {least} is the least that is usual.",
                "Use stock of {least} or more.",
                "FF-1",
                least.source,
                thickness=self._sizes.thickness,
                least=least,
            ).at("face frame")

    def _dimensions(self) -> tuple[Dimension, ...]:
        rails = [size for bay in self._bays for size in (bay.left, bay.width, *bay.floors, *bay.heights)]
        parted = [size for bay in self._bays for row in bay.rows if row.is_parted for size in (*row.lefts[1:], *row.widths)]
        return (self._width, self._height, *rails, *parted)


def _of_a_mullion(refused: Refused, usual: Dimension) -> Refused:
    """A rail's refusal in the words of an upright: what is too low for a tenon is too narrow there (FF-2)."""
    found = refused.finding
    if "lowest" not in found.numbers:
        return refused
    what = "A mullion {line} wide leaves no room for a tenon between its shoulders of {shoulder}."
    lowest = found.numbers["lowest"]
    assert isinstance(lowest, Length)
    told = replace(found, what=what, remedy="The narrowest mullion that holds one is {lowest} wide.", remedies=())
    return Refused(told).by(*(Change("frame", "mullion", width) for width in (lowest, usual)))


def _crossed_rails(bay: Bay) -> Iterator[PartRole]:
    """The rails that uprights meet from both edges at one place, or so near that both mortises need the same wood (RO-1)."""
    for row, below in pairwise(bay.rows):
        if any(abs(one - other) < 2 * bay.mullion for one in row.lefts[1:] for other in below.lefts[1:]):
            yield row.under(PartKind.RAIL)


def _mullion(number: int) -> PartRole:
    return PartRole(PartKind.MULLION, number=number)


def _hand(member: PartRole, surface: Surface) -> Hand:
    """Which end of a rail, or of a mullion, ``surface`` is."""
    hands = (Hand.BOTTOM, Hand.TOP) if member.kind is PartKind.MULLION else (Hand.LEFT, Hand.RIGHT)
    return hands[surface.is_far]
