"""A drawer in an inset opening, worked out to the last offset and placed closed in it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Board, Datum, Hand, JointKind, JointRole, PartKind, PartRole, Place, Surface
from joinlay.casework.assembly import Assembly, Drawer
from joinlay.casework.bottom_bar import BottomBar, cut_bar, design_bar, fasten_bar, lay_halves, meet_bar, meet_halves
from joinlay.casework.corners import BackCorner, FrontCorner, GrooveLines, Wanted, design_back, design_front
from joinlay.casework.drawer_bottom import BottomSeat, behind_bottom, fasten_under, groove_offset, lay_bottom, meet_bottom
from joinlay.casework.drawer_sizes import DrawerSizes, size_drawer
from joinlay.casework.opening import BackHeight, BottomReach
from joinlay.findings import Change, Remedy, figure, refusal, warning
from joinlay.joints.groove import Groove, cut_groove, design_groove
from joinlay.lengths import NOTHING, Fraction, Length, rounded_up, smallest
from joinlay.records import dataclass
from joinlay.shop import usual_practice
from joinlay.stock.movement import usual_seasons

if TYPE_CHECKING:
    from joinlay.boards import DrawerRole
    from joinlay.boards.meeting import Meeting
    from joinlay.casework.opening import DrawerMake, Opening
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop, TenonStock
    from joinlay.stock import Stock
    from joinlay.stock.movement import Seasons

__all__ = ["plan_drawer"]

#: What is left of a drawer's height above its bottom, as a share of its sides', before it is warned that it holds little. Source:
#: our own choice.
_LEAST_INSIDE: Final = Fraction(1, 3)

_FRONT = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")
_SIDE = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")
_BACK = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")


def plan_drawer(
    role: DrawerRole,
    opening: Opening,
    make: DrawerMake,
    shop: Shop,
    *,
    tenon: TenonStock | None = None,
    seasons: Seasons | None = None,
) -> Drawer:
    """Work out the drawer ``role`` for ``opening``: five boards and its loose tenons, cut and placed.

    DR-1 to DR-6, GR-1 to GR-4 and the corner joints' own rules; every default comes from ``shop.practice``. ``tenon`` is the
    tenon stock for the front corners, None for LT-1 to choose; ``seasons`` the air it will stand in, None for a heated house.
    Raises Refused where a rule can't be met.
    """
    _refuse_upright(role, make)
    sizes = size_drawer(role, opening, make, shop.practice)
    wanted = Wanted(role, make, sizes, shop, tenon=tenon)
    back_corner = design_back(make.back_joint, wanted)
    grooves = _Grooves.design(role, make, sizes, back_corner, shop)
    front_corner = design_front(make.front_joint, replace(wanted, groove=grooves.lines))
    side_length = sizes.set_back + sizes.length - front_corner.side_front
    if back_corner.laps:
        side_length -= back_corner.laps
    side_length = side_length.named(f"{role.name} side length", front_corner.LENGTH_RULE, "by geometry")
    box = _Box(
        role=role,
        opening=opening,
        make=make,
        sizes=sizes,
        front_corner=front_corner,
        back_corner=back_corner,
        grooves=grooves,
        side_length=side_length,
        shop=shop,
        seasons=usual_seasons() if seasons is None else seasons,
        bar=None if make.bar is None else design_bar(role, make.bar, make, sizes, grooves.joint, grooves.offset, shop),
    )
    box.refuse_reach()
    box.refuse_cramped()
    boards, meetings = box.made()
    return Drawer(
        assembly=Assembly(role, boards, meetings, box.dimensions(), box.findings()),
        opening=opening,
        make=make,
        length=sizes.length,
        inside_width=sizes.inside_width,
        side_clearance=sizes.side_clearance,
        top_clearance=sizes.top_clearance,
        bottom_clearance=sizes.front_rise,
        taper=sizes.taper,
    )


def _refuse_upright(role: DrawerRole, make: DrawerMake) -> None:
    """Refuse a solid front with its grain upright, which would move from side to side in an opening and on a box that don't."""
    if make.has_upright_grain and make.front.is_solid:
        refused = refusal(
            "wood movement",
            "Its front is solid, and with the grain upright it would swell and shrink from side to side; its opening does not.",
            "",
            "CK-6, CL-2",
            "Wood Handbook 2010, equation 13-2",
        ).at(role.name)
        ways = (Remedy("leave its grain from side to side", (Change("drawers", "front-grain", "from side to side"),)),)
        raise refused.by(*ways)


@dataclass(frozen=True, slots=True)
class _Grooves:
    """One groove for the bottom, cut into every part at one height: ``offset`` above the sides' bottom edge, ``in_front`` above
    the front's.
    """

    joint: Groove
    offset: Dimension
    in_front: Dimension
    findings: tuple[Finding, ...]

    @property
    def lines(self) -> GrooveLines:
        return GrooveLines(self.offset, self.joint.width, self.joint.depth)

    @classmethod
    def design(cls, role: DrawerRole, make: DrawerMake, sizes: DrawerSizes, corner: BackCorner, shop: Shop) -> _Grooves:
        name = role.name
        offset = groove_offset(make.bottom, sizes.front_rise, shop).named(
            f"{name} groove offset in the sides", "GR-1", "common practice"
        )
        # The front's edge stands above the sides', so the same height is a smaller offset there (DR-2).
        in_front = (offset - sizes.front_rise).named(f"{name} groove offset in the front", "DR-2", "by geometry")
        _refuse_groove_outside(offset, in_front, make.bottom.thickness, sizes, shop)
        grooved = [make.sides.thickness, make.front.thickness]
        if make.back_height is BackHeight.FULL:
            grooved.append(2 * corner.groove_limit)
        joint = design_groove(
            into=smallest(*grooved),
            panel=make.bottom.thickness,
            shop=shop,
            offset=in_front,
            is_judged_later=True,
            role=JointRole(JointKind.BOTTOM_GROOVE, role),
        )
        shallow = _shallow(offset, make.bottom.thickness, sizes, shop)
        return cls(joint, offset, in_front, (*joint.findings, *([shallow.at(name)] if shallow else [])))


def _refuse_groove_outside(offset: Dimension, in_front: Dimension, bottom: Dimension, sizes: DrawerSizes, shop: Shop) -> None:
    """Refuse a groove that lies under the front or over the top of front or sides (GR-1, DR-2)."""
    usually = figure("groove offset", usual_practice(shop.rule.unit).length("groove offset"))
    if in_front.mm <= 0:
        raise refusal(
            "bottom groove",
            "a groove {offset} above the sides' bottom edge misses the front, which stands {rise} above it",
            "Set the groove offset to more than {rise}; 3/8 in or 10 mm is usual.",
            "DR-2",
            "by geometry",
            offset=offset,
            rise=sizes.front_rise,
        ).by(usually)
    high = smallest(sizes.side_height, sizes.front_rise + sizes.front_height) - offset - bottom
    if high.mm <= 0:
        raise refusal(
            "bottom groove",
            "the bottom's upper face would be {top} above the sides' bottom edge, and the drawer is no higher than {height}",
            "Make the drawer more than {short} higher, or the groove offset smaller.",
            "GR-1",
            "by geometry",
            top=offset + bottom,
            height=offset + bottom + high,
            short=rounded_up(-high, shop.rule),
        ).by(usually)


def _shallow(offset: Dimension, bottom: Dimension, sizes: DrawerSizes, shop: Shop) -> Finding | None:
    """Warn of a groove so high that little of the drawer is left above its bottom, if the usual one would leave more (GR-1)."""
    usual = usual_practice(shop.rule.unit).length("groove offset")
    inside = Length((sizes.side_height - offset - bottom).mm)
    if inside >= sizes.side_height * _LEAST_INSIDE or offset <= usual:
        return None
    found = warning(
        "shallow drawer",
        "With the groove {offset} above the sides' bottom edge only {inside} of sides {height} high is left above the bottom.",
        "",
        "GR-1",
        "our own choice",
        offset=offset,
        inside=inside,
        height=sizes.side_height,
        usual=usual,
    )
    return replace(
        found, remedies=(Remedy("put the groove lower, {usual} above the sides' bottom edge", (figure("groove offset", usual),)),)
    )


@dataclass(frozen=True, slots=True)
class _Box:
    """Everything known of one drawer, from which its boards are made."""

    role: DrawerRole
    opening: Opening
    make: DrawerMake
    sizes: DrawerSizes
    front_corner: FrontCorner
    back_corner: BackCorner
    grooves: _Grooves
    side_length: Dimension
    shop: Shop
    seasons: Seasons
    bar: BottomBar | None = None

    def refuse_reach(self) -> None:
        """Refuse a bottom that is to slide in under a back that it is grooved into (DJ-3)."""
        if self._is_back_grooved and self.make.bottom_reach is not BottomReach.BACK:
            refused = refusal(
                "drawer bottom",
                "The bottom is to reach the ends of the sides, and the back is as high as they are, so it stands in its way.",
                "",
                "DJ-3",
                "Noyes; Wheeler",
            ).at(self.role.name)
            ways = (Remedy("let the back stand on the bottom", (Change("drawers", "back-height", BackHeight.ON_BOTTOM.value),)),)
            raise refused.by(*ways)

    def refuse_cramped(self) -> None:
        """Refuse a drawer too short for its front and back, or tapered to nothing (DR-4, DR-5)."""
        back_face = self.front_corner.side_front + self.back_corner.inside_face(self.side_length)
        room = back_face - self.sizes.set_back - self.make.front.thickness
        if room.mm <= 0:
            raise refusal(
                "drawer size",
                "front and back leave {room} between them: the drawer is too short for both",
                "Make the opening more than {short} deeper.",
                "DR-5",
                "by geometry",
                room=room,
                short=-room,
            )
        if self.sizes.taper >= self.sizes.inside_width:
            raise refusal(
                "drawer size",
                "a taper of {taper} takes the whole inside width, {inside}",
                "Write 0 to 1/16 in, or to 1.5 mm.",
                "DR-4",
                "common practice",
                taper=self.sizes.taper,
                inside=self.sizes.inside_width,
            ).by(figure("taper", NOTHING))

    def made(self) -> tuple[tuple[Board, ...], tuple[Meeting, ...]]:
        """Its boards, cut and placed, and where they meet."""
        at_front = self.front_corner.join(self._front(), self._side(Hand.LEFT), self._side(Hand.RIGHT), self.sizes)
        at_back = self.back_corner.join(self._back(), at_front.left, at_front.right, self.sizes)
        seat = self._bottom_seat()
        front, left, right, back = self._grooved(at_front.end, at_back.left, at_back.right, at_back.end)
        left, right = (_held_square(side, self.front_corner.holds_square) for side in (left, right))
        lay = self._halves if self.bar is not None else self._whole_bottom
        under, met = lay(seat, front, (left, right), back)
        return (
            (front, left, right, back, *under, *at_front.loose, *at_back.loose),
            (*at_front.meetings, *at_back.meetings, *met),
        )

    def _whole_bottom(
        self, seat: BottomSeat, front: Board, sides: tuple[Board, Board], back: Board
    ) -> tuple[tuple[Board, ...], tuple[Meeting, ...]]:
        """A bottom of one board, and where it meets what is around it (GR-2, DJ-3)."""
        bottom = lay_bottom(self.make.bottom, self.sizes, self.opening.width, seat)
        met = meet_bottom(bottom, front, sides, back, self.sizes, seat, is_glued=self._is_bottom_glued)
        if self._is_back_grooved:
            return (bottom,), met
        bottom, under = fasten_under(bottom, back, self.make.bottom, seat, self.shop, self.seasons)
        return (bottom,), (*met, under)

    def _halves(
        self, seat: BottomSeat, front: Board, sides: tuple[Board, Board], back: Board
    ) -> tuple[tuple[Board, ...], tuple[Meeting, ...]]:
        """A bottom of two halves with the bar between, and where they meet each other and what is around them (BO-1)."""
        assert self.bar is not None
        halves = lay_halves(self.make.bottom, self.bar, self.sizes, self.opening.width, seat)
        bar = cut_bar(self.bar, self.sizes, self.opening.width, seat, front, back)
        met = [meet_bar(bar, self.bar, front, seat)]
        met += meet_halves(halves, bar, front, sides, back, self.sizes, seat, is_glued=self._is_bottom_glued)
        if self._is_back_grooved:
            return (*halves, bar), (*met, meet_bar(bar, self.bar, back, seat))
        stock, shop = self.make.bottom, self.shop
        left, right = (fasten_under(half, back, stock, seat, shop, self.seasons, bar) for half in halves)
        bored, under = fasten_bar(bar, self.bar, back, shop)
        return (left[0], right[0], bored), (*met, left[1], right[1], under)

    def _front(self) -> Board:
        inside_face = self.sizes.set_back + self.make.front.thickness
        place = Place.at(self.sizes.side_clearance, inside_face, self.sizes.front_rise, "+X", "+Z", "-Y")
        board = self._board(
            PartKind.DRAWER_FRONT, self.make.front, self.sizes.front_width, self.sizes.front_height, _FRONT, place
        )
        return replace(board, has_grain_across=self.make.has_upright_grain)

    def _side(self, hand: Hand) -> Board:
        inner = self.sizes.side_clearance + self.make.sides.thickness
        x, into, inward = (inner, "-X", "+X") if hand is Hand.LEFT else (self.opening.width - inner, "+X", "-X")
        lean = (inward, (self.sizes.taper / 2) / self.side_length)
        place = Place.at(x, self.front_corner.side_front, NOTHING, "+Y", "+Z", into, lean)
        return self._board(PartKind.DRAWER_SIDE, self.make.sides, self.side_length, self.sizes.side_height, _SIDE, place, hand)

    def _back(self) -> Board:
        length = self.back_corner.back_length(self.sizes, self.side_length)
        foot, height = NOTHING, self.sizes.side_height
        if not self._is_back_grooved:
            foot = self.grooves.offset + self.make.bottom.thickness
            height = (self.sizes.side_height - self.grooves.offset - self.make.bottom.thickness).named(
                f"{self.role.name} back height", "GR-4", "Noyes; Wheeler"
            )
        inside_face = self.front_corner.side_front + self.back_corner.inside_face(self.side_length)
        place = Place.at((self.opening.width - length) / 2, inside_face, foot, "+X", "+Z", "+Y")
        return self._board(PartKind.DRAWER_BACK, self.make.back, length, height, _BACK, place)

    def _board(
        self,
        kind: PartKind,
        stock: Stock,
        length: Dimension,
        width: Dimension,
        datum: Datum,
        place: Place,
        hand: Hand | None = None,
    ) -> Board:
        role = PartRole(kind, self.role, hand)
        thickness = stock.thickness.named(f"{role.name} thickness", "", "the stock's own")
        return Board(role, stock.name, length, width, thickness, datum, place=place, planed=self._planed(kind))

    def _planed(self, kind: PartKind) -> tuple[tuple[Surface, Dimension], ...]:
        """Where a part that is made full is planed as the drawer is fitted, never at the edges it rides on (HF-1)."""
        planed = self.make.planed
        if planed is None:
            return ()
        found = {
            PartKind.DRAWER_FRONT: (
                (Surface.END, planed.sides),
                (Surface.FAR_END, planed.sides),
                (Surface.FAR_EDGE, planed.top),
                (Surface.EDGE, planed.bottom),
            ),
            PartKind.DRAWER_SIDE: ((Surface.FAR_FACE, planed.sides), (Surface.FAR_EDGE, planed.top)),
        }.get(kind, ((Surface.FAR_EDGE, planed.top),))
        return tuple((surface, off) for surface, off in found if off)

    @property
    def _is_bottom_glued(self) -> bool:
        return self.make.bottom.is_solid and not self._is_back_grooved

    @property
    def _is_back_grooved(self) -> bool:
        return self.make.back_height is BackHeight.FULL

    def _grooved(self, front: Board, left: Board, right: Board, back: Board) -> tuple[Board, Board, Board, Board]:
        joint, offset = self.grooves.joint, self.grooves.offset
        # Beside a bar each side has its own half; front and back, which have both, are told the left one.
        for_left, for_right = (
            PartRole(PartKind.DRAWER_BOTTOM, self.role, None if self.bar is None else hand) for hand in (Hand.LEFT, Hand.RIGHT)
        )
        # GR-3: in the front the groove begins where the bottom does, hidden behind the sides' ends.
        through = joint.depth <= self.front_corner.hides_groove
        hidden = NOTHING if through else self.make.sides.thickness - joint.depth
        front = cut_groove(joint, front, for_left, offset=self.grooves.in_front, start=hidden, stop=hidden)
        # In the sides it may run out at the front, which is covered, and must run out at the back where the bottom slides in.
        stop = self.back_corner.groove_stop if self._is_back_grooved else NOTHING
        left = cut_groove(joint, left, for_left, offset=offset, stop=stop)
        right = cut_groove(joint, right, for_right, offset=offset, stop=stop)
        if self._is_back_grooved:
            back = cut_groove(joint, back, for_left, offset=offset)
        return front, left, right, back

    def _bottom_seat(self) -> BottomSeat:
        half = self.sizes.bottom_clearance / 2
        depth, opens = self.grooves.joint.depth, self.front_corner.opens_groove
        front_face = self.sizes.set_back + self.make.front.thickness
        back_face = self.front_corner.side_front + self.back_corner.inside_face(self.side_length)
        about = back_face - front_face + 2 * depth
        behind = behind_bottom(self.make.bottom, about, depth, half, self.shop.rule, self.seasons)
        if self._is_back_grooved:
            back = back_face + (depth - behind)
        elif self.make.bottom_reach is BottomReach.ENDS:
            back = self.front_corner.side_front + self.side_length
        else:
            back = back_face + self.make.back.thickness
        return BottomSeat(
            joint=self.grooves.joint.role,
            depth=depth,
            offset=self.grooves.offset,
            clearance=self.sizes.bottom_clearance,
            front=front_face - depth + half,
            back=back,
            front_face=front_face,
            back_face=back_face,
            side_front=self.front_corner.side_front,
            side_length=self.side_length,
            is_open_in_front=opens is not None and depth >= opens,
        )

    def dimensions(self) -> tuple[Dimension, ...]:
        """Its numbers worth asking for beside those of the boards."""
        sizes = self.sizes
        return (sizes.length, sizes.inside_width, sizes.side_clearance, sizes.top_clearance, sizes.front_rise, sizes.joint_line)

    def findings(self) -> tuple[Finding, ...]:
        return (*self.front_corner.findings, *self.back_corner.findings, *self.grooves.findings)


def _held_square(side: Board, reach: Length) -> Board:
    """A side that leans, with how far from its front end the front corner holds it square (DR-4)."""
    assert side.place is not None
    return replace(side, place=replace(side.place, square_for=reach.mm)) if side.place.leans else side
