"""A grooved bar down the middle of a wide drawer's bottom, which halves its span (BO-1): a muntin, as it is called too.

It stands on edge from front to back, ripped from stock whose thickness lies from side to side, and is grooved in both faces at
the height of the bottom's groove, so that two halves of a bottom lie in the sides' grooves and in its own. A stub of its ends,
as high as the bottom is thick, is glued into the grooves of front and back; where the back stands on the bottom it is rabbeted
above, passes under it and is screwed up to it. Its lower edge stays above that of the sides, its upper edge low in the drawer.
"""

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
    JointKind,
    JointRole,
    PartKind,
    PartRole,
    Place,
    Shape,
    Span,
    Surface,
    Taper,
)
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way
from joinlay.casework.drawer_bottom import BOTTOM_DATUM, in_back, in_front, in_side, laid, narrowed
from joinlay.casework.opening import BackHeight
from joinlay.findings import Change, Refused, at_most, figure, refusal, stock_of
from joinlay.joints.fasteners import fastener_for
from joinlay.joints.fits import depth_down
from joinlay.joints.groove import Groove, cut_groove
from joinlay.joints.spans import whole
from joinlay.lengths import NOTHING, Fraction, Length, dimension, largest, mm, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import DrawerRole
    from joinlay.casework.drawer_bottom import BottomSeat
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.casework.opening import DrawerMake
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = [
    "NO_BAR",
    "BarShape",
    "BottomBar",
    "bar_shape",
    "cut_bar",
    "design_bar",
    "fasten_bar",
    "half_role",
    "lay_halves",
    "meet_bar",
    "meet_halves",
]

#: What a job says of a drawer that has no bar though the others have one.
NO_BAR: Final = "none"

_DATUM: Final = Datum("left face", "lower edge", "front end", "right face", "upper edge", "back end")
#: Grooves shallower than this hold no bottom. Source: our own choice.
_LEAST_HOLD: Final = mm(3)
#: Wood left between the two grooves, as a share of the bar's thickness (DA-3).
_BETWEEN: Final = Fraction(1, 3)
#: How much of a drawer's inside width a bar may take. Source: our own choice.
_WIDEST: Final = Fraction(1, 4)


@dataclass(frozen=True, slots=True)
class BarShape:
    """The section of a bar: ``height`` and ``thickness``, a groove ``depth`` deep in each face, ``below`` above its lower edge.

    ``over`` is the bottom's upper face above that edge, ``lift`` the edge itself above the sides', ``between`` the wood that is
    left between the two grooves (BO-1).
    """

    thickness: Dimension
    height: Dimension
    below: Dimension
    over: Dimension
    depth: Dimension
    lift: Dimension
    between: Dimension

    @property
    def is_sound(self) -> bool:
        """True where its grooves are deep enough to hold a bottom, and leave wood under them (BO-1)."""
        return self.depth >= _LEAST_HOLD and self.below.mm > 0

    def fits(self, inside_width: Length, height: Length) -> bool:
        """True where it can stand in a drawer ``inside_width`` wide, with sides ``height`` high (BO-1)."""
        low = self.lift + self.height <= height
        return self.is_sound and low and self.thickness <= inside_width * _WIDEST


def bar_shape(
    name: str, thickness: Dimension, panel: Length, depth: Dimension, offset: Dimension, shop: Shop, *, is_under_back: bool
) -> BarShape:
    """The bar called ``name`` of stock ``thickness`` for a bottom ``panel`` thick, in sides grooved ``depth`` deep, ``offset``
    above their lower edge (BO-1).

    Its grooves are as deep as those, or on the maker's rule what leaves a third of it between them (DA-3), and where a screw goes
    up through that, enough wood beside the screw (LT-11). Source: common practice.
    """
    practice = shop.practice
    lift, rise = practice.length("bottom bar lift"), practice.length("bottom bar rise")
    left = thickness * _BETWEEN
    if is_under_back:
        left = largest(left, practice.length("bottom screw") + 2 * practice.length("keep-out clearance"))
    deep = smallest(depth, depth_down((thickness - left) / 2, shop.rule, dimension(_LEAST_HOLD)))
    below = (offset - lift).named(f"{name} lower edge to its groove", "BO-1", "common practice")
    return BarShape(
        thickness=thickness.named(f"{name} thickness", "BO-1", "the stock's own"),
        height=(below + panel + rise).named(f"{name} height", "BO-1", "common practice"),
        below=below,
        over=below + panel,
        depth=deep,
        lift=lift,
        between=(thickness - 2 * deep).named(f"{name} wood between its grooves", "DA-3", "by geometry"),
    )


@dataclass(frozen=True, slots=True)
class BottomBar:
    """A bar of ``stock`` as it is designed for a drawer: its ``shape``, its two grooves, which are one ``joint``, and how long
    the ``stub`` is that goes into the groove of front or back.
    """

    stock: Stock
    shape: BarShape
    joint: Groove
    stub: Dimension


def design_bar(
    role: DrawerRole, stock: Stock, make: DrawerMake, sizes: DrawerSizes, groove: Groove, offset: Dimension, shop: Shop
) -> BottomBar:
    """The bar of ``stock`` for the drawer ``role``, whose sides are grooved by ``groove``, ``offset`` above their lower edge
    (BO-1).

    Sources: Noyes, Joyce, from memory; figures by common practice. Raises Refused for a drawer too narrow or too low for it,
    stock too thin to be grooved from both sides, and a groove so low that too little wood would be left under it.
    """
    name = PartRole(PartKind.BOTTOM_BAR, role).name
    is_under_back = make.back_height is BackHeight.ON_BOTTOM
    shape = bar_shape(name, stock.thickness, make.bottom.thickness, groove.depth, offset, shop, is_under_back=is_under_back)
    try:
        _refuse_drawer(shape, sizes, shop)
        _refuse_thin(shape, shop, is_under_back=is_under_back)
        _refuse_low_groove(shape, offset, shop)
    except Refused as refused:
        raise refused.at(name) from None
    # What the sides' groove was judged for, its own takes too: the same bottom, no deeper.
    joint = replace(
        groove,
        role=JointRole(JointKind.BOTTOM_BAR, role),
        width=groove.width.named(f"{name} groove width", "GR-1", "common practice"),
        depth=shape.depth.named(f"{name} groove depth", "BO-1, DA-3", "common practice"),
        offset=shape.below,
        findings=(),
    )
    # On the maker's rule, with the tip gap at least before it.
    free = groove.depth - shop.practice.length("tip gap")
    stub = depth_down(free, shop.rule, free / 2).named(f"{name} stub", "BO-1, FR-1", "common practice")
    return BottomBar(stock, shape, joint, stub)


def _refuse_drawer(shape: BarShape, sizes: DrawerSizes, shop: Shop) -> None:
    """Refuse a drawer too narrow to be parted, or too low to have a bar in it (BO-1)."""
    if shape.thickness > (widest := sizes.inside_width * _WIDEST):
        raise refusal(
            "bottom bar",
            "The drawer is {inside} wide inside, and a bar {thick} thick leaves no halves worth having.",
            "Take stock {most} thick at most, or leave the bar out.",
            "BO-1",
            "our own choice",
            inside=sizes.inside_width,
            thick=shape.thickness,
            most=shop.rule.down(widest),
        ).by(stock_of("drawers", "bottom-bar", thickest=widest), Change("drawers", "bottom-bar", NO_BAR))
    top, rise = shape.lift + shape.height, shop.practice.length("bottom bar rise")
    highest = smallest(sizes.side_height, sizes.front_rise + sizes.front_height)
    if top > highest:
        low = rise - (top - highest)
        raise refusal(
            "bottom bar",
            "The bar's upper edge would be {top} above the sides' bottom edge, and the drawer is no higher than {high}.",
            "Leave the bar out, or make the drawer more than {short} higher.",
            "BO-1",
            "by geometry",
            top=top,
            high=highest,
            short=top - highest,
        ).by(
            Change("drawers", "bottom-bar", NO_BAR),
            at_most("practice", "bottom bar rise", low) if shop.rule.down(low).mm > 0 else None,
        )


def _refuse_thin(shape: BarShape, shop: Shop, *, is_under_back: bool) -> None:
    """Refuse stock too thin for a groove in each face (BO-1, DA-3)."""
    if shape.depth >= _LEAST_HOLD:
        return
    practice = shop.practice
    needed = 2 * _LEAST_HOLD.mm / (1 - _BETWEEN)
    if is_under_back:
        beside = practice.length("bottom screw").mm + 2 * practice.length("keep-out clearance").mm
        needed = max(needed, 2 * _LEAST_HOLD.mm + beside)
    least = shop.rule.up(Length(needed))
    why = "for a groove in each face and a screw up into the back" if is_under_back else "to be grooved in both faces"
    raise refusal(
        "bottom bar",
        f"A bar {{thick}} thick is too thin {why}.",
        "Take stock at least {least} thick.",
        "BO-1, DA-3",
        "our own choice",
        thick=shape.thickness,
        least=least,
    ).by(stock_of("drawers", "bottom-bar", thinnest=least), Change("drawers", "bottom-bar", NO_BAR))


def _refuse_low_groove(shape: BarShape, offset: Dimension, shop: Shop) -> None:
    """Refuse a groove in the sides so low that none could be cut into the bar (BO-1, GR-1)."""
    least = shop.practice.length("least groove offset")
    if shape.below >= least / 2:
        return
    higher, lower = shop.rule.up(least + shape.lift), offset - least
    raise refusal(
        "bottom bar",
        "The groove lies {offset} above the sides' bottom edge and the bar's lower edge {lift} above it, so that too little wood "
        "would be left under the bar's own grooves.",
        "Set the groove {higher} above the sides' bottom edge.",
        "BO-1, GR-1",
        "common practice",
        offset=offset,
        lift=shape.lift,
        higher=higher,
    ).by(figure("groove offset", higher), at_most("practice", "bottom bar lift", lower) if lower.mm > 0 else None)


def half_role(role: DrawerRole, hand: Hand) -> PartRole:
    """The half of a bottom at that hand of its bar; no rule."""
    return PartRole(PartKind.DRAWER_BOTTOM, role, hand)


def lay_halves(stock: Stock, bar: BottomBar, sizes: DrawerSizes, opening_width: Length, seat: BottomSeat) -> tuple[Board, Board]:
    """Left and right half of a bottom, placed: each in a groove of its side and of the bar, half the clearance at either end
    (BO-1, GR-2); where the drawer tapers its outer end is planed to a slant (DR-4). Source: by geometry.
    """
    role, shape = sizes.drawer, bar.shape
    name = f"{role.name} bottom half"
    whole = sizes.inside_width + 2 * seat.depth - seat.clearance
    at_front, at_back = (
        ((narrowed(whole, sizes, seat, y) - shape.thickness) / 2 + bar.joint.depth - seat.clearance / 2).named(
            f"{name} length at the {at}", "BO-1, DR-4", "by geometry"
        )
        for y, at in ((seat.front, "front"), (seat.back, "back"))
    )
    length = largest(at_front, at_back) if sizes.taper else at_front
    length = length.named(f"{name} length, side to side", "BO-1, GR-2", "by geometry")
    width = (seat.back - seat.front).named(f"{name} width, front to back", "GR-2", "common practice")
    thickness = stock.thickness.named(f"{name} thickness", "GR-1", "the stock's own")
    off_front, off_back = (
        (length - end).named(f"{name} planed off its outer end at the {at}", "DR-4", "by geometry")
        for end, at in ((at_front, "front"), (at_back, "back"))
    )
    in_bar = shape.thickness / 2 - bar.joint.depth + seat.clearance / 2
    top = seat.offset + stock.thickness
    made = []
    for hand, outer in ((Hand.LEFT, Surface.END), (Hand.RIGHT, Surface.FAR_END)):
        x = opening_width / 2 - in_bar - length if hand is Hand.LEFT else opening_width / 2 + in_bar
        place = Place.at(x, seat.front, top, "+X", "+Y", "-Z")
        tapers = (Taper(outer, off_front, off_back),) if sizes.taper else ()
        made.append(Board(half_role(role, hand), stock.name, length, width, thickness, BOTTOM_DATUM, tapers=tapers, place=place))
    return made[0], made[1]


def cut_bar(bar: BottomBar, sizes: DrawerSizes, opening_width: Length, seat: BottomSeat, front: Board, back: Board) -> Board:
    """The bar, placed and grooved in both faces, with a stub at its front end for the groove of the ``front``; behind with one
    for that of the ``back``, or with a rabbet that lets it pass under it (BO-1). Source: by geometry.
    """
    role, shape = PartRole(PartKind.BOTTOM_BAR, sizes.drawer), bar.shape
    start = seat.front_face - bar.stub
    stop = seat.back_face + bar.stub if back.cuts_of(CutUse.GROOVE) else seat.back
    board = Board(
        role,
        bar.stock.name,
        (stop - start).named(f"{role.name} length", "BO-1", "by geometry"),
        shape.height,
        shape.thickness,
        _DATUM,
        place=Place.at((opening_width - shape.thickness) / 2, start, shape.lift, "+Y", "+Z", "+X"),
    )
    for hand, face in ((Hand.LEFT, Surface.FACE), (Hand.RIGHT, Surface.FAR_FACE)):
        board = cut_groove(bar.joint, board, half_role(sizes.drawer, hand), face=face, which=hand)
    under, over = Span(NOTHING, shape.below), Span(shape.over, shape.height)
    at_front = Span(NOTHING, bar.stub)
    rabbets = [(front, 1, Surface.EDGE, at_front, under), (front, 2, Surface.FAR_EDGE, at_front, over)]
    if back.cuts_of(CutUse.GROOVE):
        at_back = Span(board.length - bar.stub, board.length)
        rabbets += [(back, 1, Surface.EDGE, at_back, under), (back, 2, Surface.FAR_EDGE, at_back, over)]
    else:
        rabbets.append((back, 0, Surface.FAR_EDGE, Span(seat.back_face - start, board.length), over))
    for mate, number, surface, along, across in rabbets:
        use = CutRole(CutUse.RABBET, mate.role, bar.joint.role, mate.role, number)
        board = board.with_cuts(Cut(CutKind.RABBET, surface, along, across, whole(board, Axis.INTO), use))
    return board


def fasten_bar(board: Board, bar: BottomBar, back: Board, shop: Shop) -> tuple[Board, Meeting]:
    """The bar bored for the screw that holds it up to the ``back`` it passes under, and where the two meet (BO-1, DJ-3)."""
    practice, shape = shop.practice, bar.shape
    shank = practice.length("bottom screw")
    (rabbet,) = board.cuts_for(back.role)
    at = rabbet.along.start + back.thickness / 2
    role = CutRole(CutUse.SCREW_HOLE, back.role, bar.joint.role)
    bored = Cut(
        CutKind.HOLE,
        Surface.EDGE,
        Span.about(at, shank),
        Span(NOTHING, shape.over),
        Span.about(shape.thickness / 2, shank),
        role,
        shape=Shape.ROUND,
    )
    screw = fastener_for(FastenerKind.SCREW, shape.over, back.width, shop.rule, shank, practice.length("bottom screw spacing"))
    met = Meeting(
        one=board.role,
        other=back.role,
        facings=(
            Facing("under the", Plane(Surface.FAR_EDGE, rabbet.across.size), Plane(Surface.EDGE), rule="GR-4"),
            Facing("against the", Plane(Surface.FAR_END, rabbet.along.size), Plane(Surface.FACE), rule="BO-1"),
        ),
        closes=(Way.BACK, Way.UP, Way.LEFT, Way.RIGHT),
        tie=Tie.FASTENED,
        joint=bar.joint.role,
        fasteners=1,
        fastener=screw,
        along=(Length(at.mm),),
    )
    return board.with_cuts(bored), met


def meet_bar(board: Board, bar: BottomBar, wood: Board, seat: BottomSeat) -> Meeting:
    """A stub of the bar glued into the groove of front or back, ``wood``: on its lower wall, a tip gap short of its floor, the
    shoulder against the inside face (BO-1).
    """
    (groove,) = wood.cuts_of(CutUse.GROOVE)
    is_front = wood.role.kind is PartKind.DRAWER_FRONT
    end = Surface.END if is_front else Surface.FAR_END
    along = (Way.LEFT, Way.RIGHT) if seat.is_open_in_front or not is_front else ()
    return Meeting(
        one=board.role,
        other=wood.role,
        facings=(
            Facing("on the groove of the", Plane(Surface.EDGE, bar.shape.below), Plane.wall(wood, groove, Surface.FAR_EDGE)),
            Facing("in the", Plane(end), Plane.floor(groove), Length(groove.depth.mm - bar.stub.mm), "BO-1"),
            Facing("against the", Plane(end, bar.stub), Plane(Surface.FACE), rule="BO-1"),
        ),
        closes=(Way.FRONT if is_front else Way.BACK, *along),
        tie=Tie.GLUED,
        joint=bar.joint.role,
        glue=2 * bar.shape.between.mm * bar.stub.mm,
    )


def meet_halves(
    halves: tuple[Board, Board],
    bar: Board,
    front: Board,
    sides: tuple[Board, Board],
    back: Board,
    sizes: DrawerSizes,
    seat: BottomSeat,
    *,
    is_glued: bool,
) -> tuple[Meeting, ...]:
    """Where the two halves meet what is grooved for them, the bar among it (BO-1, GR-2); what lies under a standing back meets
    that by ``fasten_under``. ``is_glued`` at their front where they are solid, so that each moves in its own grooves from there.
    """
    met: list[Meeting] = []
    for half, side in zip(halves, sides, strict=True):
        is_left = half.role.hand is Hand.LEFT
        inner, inwards = (Surface.FAR_END, Way.RIGHT) if is_left else (Surface.END, Way.LEFT)
        (groove,) = (cut for cut in bar.cuts_of(CutUse.GROOVE) if cut.role.mate == half.role)
        gap = Length(seat.clearance.mm / 2)
        in_bar = bar.thickness.mm / 2 - groove.depth.mm + gap.mm
        met.append(in_side(half, side, sizes, seat, in_bar + half.length.mm))
        met.append(
            Meeting(
                one=half.role,
                other=bar.role,
                facings=(laid(bar, groove), Facing("in the", Plane(inner), Plane.floor(groove), gap, "GR-2")),
                closes=(inwards, Way.BACK, Way.FRONT),
                joint=groove.role.joint,
            )
        )
        met.append(in_front(half, front, seat, is_glued=is_glued))
        met += in_back(half, back, seat)
    return tuple(met)
