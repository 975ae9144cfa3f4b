"""The bottom of a drawer, the grooves it lies in (GR-1 to GR-4), and the screws that hold it under a standing back (DJ-3)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import (
    Axis,
    Board,
    Cut,
    CutKind,
    CutRole,
    CutUse,
    Datum,
    Hand,
    PartKind,
    PartRole,
    Place,
    Shape,
    Span,
    Surface,
    Taper,
)
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way, butted
from joinlay.errors import BadInput
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.joints.spans import whole
from joinlay.lengths import NOTHING, Fraction, Length, chosen, rounded_up
from joinlay.records import dataclass
from joinlay.stock import Solid
from joinlay.stock.movement import MOVEMENT_SOURCE, movement_of, year_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import JointRole
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Shop
    from joinlay.stock import Stock
    from joinlay.stock.movement import Seasons

__all__ = [
    "BOTTOM_DATUM",
    "BottomSeat",
    "behind_bottom",
    "fasten_under",
    "groove_offset",
    "in_back",
    "in_front",
    "in_side",
    "laid",
    "lay_bottom",
    "meet_bottom",
    "narrowed",
]

BOTTOM_DATUM: Final = Datum("upper face", "front edge", "left end", "lower face", "back edge", "right end")


@dataclass(frozen=True, slots=True)
class BottomSeat:
    """The room the grooves leave for a bottom.

    ``joint`` is the grooves', ``depth`` that of those in the sides, ``offset`` from the sides' bottom edge to the groove.
    ``front`` and ``back`` are how far back, from the face of the frame, the bottom's two edges lie, ``front_face`` and
    ``back_face`` how far the insides of the drawer's front and back; ``clearance`` is in all, half of it at each side.
    ``side_front`` is where the sides begin, ``side_length`` how long they are: what the taper runs over. ``is_open_in_front``
    where the corners open the ends of the front's groove.
    """

    joint: JointRole | None
    depth: Dimension
    offset: Dimension
    clearance: Dimension
    front: Dimension
    back: Dimension
    front_face: Dimension
    back_face: Dimension
    side_front: Dimension
    side_length: Dimension
    is_open_in_front: bool


def behind_bottom(
    stock: Stock, width: Length, depth: Dimension, usual: Dimension, rule: Graduation, seasons: Seasons
) -> Dimension:
    """What a bottom about ``width`` from front to back leaves free in a groove ``depth`` deep in the back: ``usual``, or room to
    swell.

    GR-2: a solid bottom is held at the front and swells into the back's groove, so that the room is what it grows by the dampest
    day, up to the next mark on ``rule``; where it would then shrink out of the groove by the driest day no room helps, and it is
    as for a sheet. Source: common practice; CK-6.
    """
    if not isinstance(stock, Solid):
        return usual
    try:
        grows, shrinks = (
            movement_of(stock, width, seasons.workshop, seasons.dampest), movement_of(stock, width, seasons.driest,
            seasons.workshop),
        )  # fmt: skip
    except BadInput:
        return usual
    room = rounded_up(grows, rule)
    if room <= usual or room + shrinks >= depth:
        return usual
    return room.named("room for the bottom to swell in", "GR-2, CK-6", "common practice")


def groove_offset(bottom: Stock, rise: Dimension, shop: Shop) -> Dimension:
    """The sides' bottom edge to the groove: as the maker asks, else the usual, or what a thick bottom needs below it in the front
    (GR-1, DR-2).

    ``rise`` is how far the front's bottom edge stands above the sides'. Source: common practice.
    """
    usual = shop.practice.length("groove offset")
    needed = bottom.thickness + shop.practice.length("panel fit") + rise
    if usual.origin != "default" or needed <= usual:
        return usual
    return rounded_up(needed, shop.rule)


def lay_bottom(stock: Stock, sizes: DrawerSizes, opening_width: Length, seat: BottomSeat) -> Board:
    """The bottom of a drawer, placed in its grooves.

    GR-2: as wide as the inside of the drawer and both grooves, less the clearance; DR-4: it narrows with the taper, so its two
    ends are planed to a slant. Its length runs from side to side, its width from front to back. Source: common practice.
    """
    role = PartRole(PartKind.DRAWER_BOTTOM, sizes.drawer)
    at_front = sizes.inside_width + 2 * seat.depth - seat.clearance
    width_at = [narrowed(at_front, sizes, seat, y) for y in (seat.front, seat.back)]
    front_width = width_at[0].named(f"{role.name} width at the front", "GR-2", "common practice")
    back_width = width_at[1].named(f"{role.name} width at the back", "GR-2, DR-4", "common practice")
    length = max(front_width, back_width).named(f"{role.name} length, side to side", "GR-2", "common practice")
    width = (seat.back - seat.front).named(f"{role.name} width, front to back", "GR-2", "common practice")
    off_front, off_back = (
        ((length - end) / 2).named(f"{role.name} planed off each end at the {at}", "DR-4", "by geometry")
        for end, at in ((front_width, "front"), (back_width, "back"))
    )
    tapers = (Taper(Surface.END, off_front, off_back), Taper(Surface.FAR_END, off_front, off_back)) if sizes.taper else ()
    place = Place.at((opening_width - length) * Fraction(1, 2), seat.front, seat.offset + stock.thickness, "+X", "+Y", "-Z")
    return Board(
        role,
        stock.name,
        length,
        width,
        stock.thickness.named(f"{role.name} thickness", "GR-1", "the stock's own"),
        BOTTOM_DATUM,
        tapers=tapers,
        place=place,
    )


def narrowed(width: Dimension, sizes: DrawerSizes, seat: BottomSeat, y: Dimension) -> Dimension:
    """``width`` where the sides begin, less what the taper takes by ``y`` from the face of the frame; more, where that lies
    before them (DR-4).
    """
    if not sizes.taper:
        return width
    run = y - seat.side_front
    taken = sizes.taper.mm * (run / seat.side_length)
    before = run.mm < 0
    way = (seat.side_front - y if before else run).named(
        f"{sizes.drawer.name} bottom's edge {'before' if before else 'behind'} the front of the sides", "GR-2", "by geometry"
    )
    share = chosen(Length(abs(taken)), "the taper's share for that way along the side:", sizes.taper, way, seat.side_length)
    return width - share if taken >= 0 else width + share


def fasten_under(
    bottom: Board, back: Board, stock: Stock, seat: BottomSeat, shop: Shop, seasons: Seasons, bar: Board | None = None
) -> tuple[Board, Meeting]:
    """The bottom bored for the screws that hold it up to the ``back`` that stands on it, and where the two meet (DJ-3); of a half
    between its side and the ``bar``.

    A sheet has holes. Solid wood, held at its front, has slots as long as the screw is thick and the wood behind its front moves;
    one that would leave less than half a screw of wood behind it runs out at the back edge. Sources: Noyes; Wheeler; CK-6.
    """
    practice = shop.practice
    shank, spacing = practice.length("bottom screw"), practice.length("bottom screw spacing")
    middle = (seat.back_face + back.thickness / 2 - seat.front).named(
        f"{bottom.name} front edge to its screws", "DJ-3", "by geometry"
    )
    grows = shrinks = NOTHING
    by = ("DJ-3", "common practice")
    if isinstance(stock, Solid):
        by = ("DJ-3, CK-6", MOVEMENT_SOURCE)
        grows, shrinks = _moved_behind(stock, middle, seasons, shank)
    first, run = _under(bottom, back, bar)
    places = [Length(first + place.mm) for place in spread(run, spacing)]
    start, stop = middle - shank / 2 - grows, middle + shank / 2 + shrinks
    is_open = isinstance(stock, Solid) and stop + shank / 2 > bottom.width
    use = CutUse.SCREW_SLOT if isinstance(stock, Solid) else CutUse.SCREW_HOLE
    for n, place in enumerate(places, start=1):
        role = CutRole(use, back.role, number=n if len(places) > 1 else 0)
        name = f"{bottom.name} {role.name}"
        across = Span(
            start.named(f"{name} start", *by),
            bottom.width if is_open else stop.named(f"{name} stop", *by),
        )
        cut = Cut(
            CutKind.SLOT if isinstance(stock, Solid) else CutKind.HOLE,
            Surface.FAR_EDGE if is_open else Surface.FAR_FACE,
            Span.about(place, shank),
            across,
            whole(bottom, Axis.INTO),
            role,
            shape=Shape.SQUARE if is_open else Shape.ROUND_ENDS if isinstance(stock, Solid) else Shape.ROUND,
        )
        bottom = bottom.with_cuts(cut)
    screw = fastener_for(FastenerKind.SCREW, bottom.thickness, back.width, shop.rule, shank, spacing)
    under = butted((bottom, Surface.FACE), (back, Surface.EDGE), "under the", rule="GR-4")
    return bottom, replace(under, tie=Tie.FASTENED, fasteners=len(places), fastener=screw)


def _under(bottom: Board, back: Board, bar: Board | None) -> tuple[Fraction, Length]:
    """From the bottom's left end to where it lies under the back and beside the bar, and how long that is."""
    assert bottom.place is not None
    assert back.place is not None
    left = bottom.place.origin[0]
    start, stop = back.place.origin[0], back.place.origin[0] + back.length.mm
    if bar is not None:
        assert bar.place is not None
        near = bar.place.origin[0]
        start, stop = (start, near) if bottom.role.hand is Hand.LEFT else (near + bar.thickness.mm, stop)
    return start - left, Length(stop - start)


def _moved_behind(stock: Solid, behind: Length, seasons: Seasons, usual: Dimension) -> tuple[Dimension, Dimension]:
    """What solid wood ``behind`` its fixed front grows by the dampest day and shrinks by the driest; of a wood that isn't in the
    table ``usual`` each way.
    """
    try:
        shrinks, grows = year_of(stock, behind, seasons)
    except BadInput:
        return usual, usual
    return grows, shrinks


def meet_bottom(
    bottom: Board, front: Board, sides: tuple[Board, Board], back: Board, sizes: DrawerSizes, seat: BottomSeat, *, is_glued: bool
) -> tuple[Meeting, ...]:
    """Where the bottom meets what is grooved for it (GR-2, DR-4); one under a standing back meets that by ``fasten_under``, and
    ``is_glued`` at its front where it is solid, so that it moves from there (GR-2, PT-7).

    It lies on the lower walls of its grooves and has room at its ends and edges. It closes into each groove square to it, or
    along it from where the groove is open.
    """
    return (*(in_side(bottom, side, sizes, seat) for side in sides), in_front(bottom, front, seat, is_glued=is_glued),
            *in_back(bottom, back, seat))  # fmt: skip


def in_front(bottom: Board, front: Board, seat: BottomSeat, *, is_glued: bool) -> Meeting:
    """A bottom, or a half of one, in the groove of the front, ``is_glued`` or not (GR-2, PT-7)."""
    (groove,) = front.cuts_of(CutUse.GROOVE)
    at_front = Facing("in the", Plane(Surface.EDGE), Plane.floor(groove), Length(seat.clearance.mm / 2), "GR-2")
    # A half has as much of the groove's two walls as it is long.
    walls = 2 * (groove.wall_area if bottom.role.hand is None else bottom.length.mm * groove.depth.mm)
    return Meeting(
        one=bottom.role,
        other=front.role,
        facings=(laid(front, groove), at_front),
        closes=(Way.FRONT, Way.LEFT, Way.RIGHT) if seat.is_open_in_front else (Way.FRONT,),
        tie=Tie.GLUED if is_glued else Tie.DRY,
        joint=seat.joint,
        glue=walls if is_glued else Fraction(0),
    )


def in_back(bottom: Board, back: Board, seat: BottomSeat) -> tuple[Meeting, ...]:
    """A bottom, or a half of one, in the groove of the back; none where the back has none (GR-2)."""
    grooves = back.cuts_of(CutUse.GROOVE)
    if not grooves:
        return ()
    assert back.place is not None
    behind = Length(back.place.origin[1] + grooves[0].depth.mm - seat.back.mm)
    at_back = Facing("in the", Plane(Surface.FAR_EDGE), Plane.floor(grooves[0]), behind, "GR-2")
    return (
        Meeting(
            one=bottom.role,
            other=back.role,
            facings=(laid(back, grooves[0]), at_back),
            closes=(Way.BACK, Way.LEFT, Way.RIGHT),
            joint=seat.joint,
        ),
    )


def laid(wood: Board, groove: Cut) -> Facing:
    """The bottom's lower face on the lower wall of its groove (GR-2)."""
    return Facing("on the groove of the", Plane(Surface.FAR_FACE), Plane.wall(wood, groove, Surface.FAR_EDGE), rule="GR-2")


def in_side(bottom: Board, side: Board, sizes: DrawerSizes, seat: BottomSeat, reach: Fraction | None = None) -> Meeting:
    """A bottom, or a half of one, in the groove of a side (GR-2, DR-4).

    ``reach`` is how far its end lies from the drawer's middle before it is planed, in mm; None: half of its length.
    """
    (groove,) = side.cuts_of(CutUse.GROOVE)
    is_left = side.role.hand is Hand.LEFT
    ways = [Way.LEFT if is_left else Way.RIGHT]
    # The front end of the groove is open until the front is on. Where the sides lean, the bottom's wide end passes between their
    # narrow ends only if its clearance makes up for that.
    if sizes.taper.mm >= -seat.clearance.mm:
        ways.append(Way.BACK)
    if sizes.taper.mm <= seat.clearance.mm and groove.along.stop == side.length:
        ways.append(Way.FRONT)
    half = bottom.length.mm / 2 if reach is None else reach
    facings = (laid(side, groove), *_ends(bottom, side, groove, sizes, seat, half))
    return Meeting(one=bottom.role, other=side.role, facings=facings, closes=tuple(ways), joint=seat.joint)


def _ends(
    bottom: Board, side: Board, groove: Cut, sizes: DrawerSizes, seat: BottomSeat, half_bottom: Fraction
) -> Iterator[Facing]:
    """The room at one end: all along the same, for it is planed to the slant of a side that leans."""
    end = Surface.END if side.role.hand is Hand.LEFT else Surface.FAR_END
    depth = groove.into.stop.mm
    if not sizes.taper:
        yield Facing("in the", Plane(end), Plane.floor(groove), Length(sizes.inside_width.mm / 2 + depth - half_bottom), "GR-2")
        return
    along = seat.front.mm - seat.side_front.mm
    planed = next(taper.near for taper in bottom.tapers if taper.surface is end)
    half_inside = sizes.inside_width.mm / 2 - sizes.taper.mm / 2 * (along / side.length.mm)
    room = Length(half_inside + depth - half_bottom + planed.mm)
    for where, at in (("front", along), ("back", along + bottom.width.mm)):
        yield Facing(f"in, at its {where}, the", Plane(end), Plane.floor(groove, Length(at)), room, "GR-2")
