"""From the inside out: the opening for a drawer that must hold something, or whose front is given, and the piece around it
(CO-1).

What the drawer is made of is laid around its inside step by step, the other way round from ``size_drawer``, so that the drawer
planned for the opening has the very figure that was asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.casework.corners import Wanted, design_back
from joinlay.casework.drawer_bottom import groove_offset
from joinlay.casework.drawer_sizes import size_drawer
from joinlay.casework.graduation import Arithmetic, Equal, Geometric
from joinlay.casework.opening import Opening
from joinlay.errors import BadInput
from joinlay.lengths import NOTHING, Fraction, dimension, largest, mm
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import DrawerRole
    from joinlay.casework.graduation import Heights
    from joinlay.casework.opening import DrawerMake
    from joinlay.joints.rabbet import Rabbet
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = [
    "OutwardsWish",
    "filled_by",
    "opening_depth_around",
    "opening_height_around",
    "opening_width_around",
    "piece_depth_around",
]

_RULE, _SOURCE = "CO-1", "by geometry"


@dataclass(frozen=True, slots=True)
class OutwardsWish:
    """What a drawer must hold, ``width``, ``height`` and ``depth`` with ``room`` to spare in each of them; or the size of its
    finished front, ``front_width`` and ``front_height``. None: that isn't asked for.
    """

    width: Dimension | None = None
    height: Dimension | None = None
    depth: Dimension | None = None
    room: Dimension = NOTHING
    front_width: Dimension | None = None
    front_height: Dimension | None = None

    @property
    def gives_width(self) -> bool:
        """True where the opening's width follows from it."""
        return self.width is not None or self.front_width is not None

    @property
    def gives_height(self) -> bool:
        """True where the opening's height follows from it."""
        return self.height is not None or self.front_height is not None


def opening_width_around(drawer: DrawerRole, wish: OutwardsWish, make: DrawerMake, shop: Shop) -> Dimension:
    """The opening's width: what lies in the drawer, its room and taper, two sides and two clearances; or its front and two
    clearances (CO-1).

    BadInput where ``wish`` gives no width.
    """
    practice, name = shop.practice, drawer.name
    clear = practice.length("side clearance")
    if wish.width is None:
        if wish.front_width is None:
            raise BadInput(f"{name} was asked for from the inside out without a width; give what lies in it, or its front.")
        return (wish.front_width + 2 * clear).named(f"{name} opening width", _RULE, _SOURCE)
    inside = wish.width + wish.room if wish.room else wish.width
    taper = practice.length("taper")
    # It is narrowest at the end it tapers to.
    inside = inside + taper if taper.mm > 0 else inside
    inside = inside.named(f"{name} inside width that holds it", _RULE, _SOURCE)
    return (inside + 2 * make.sides.thickness + 2 * clear).named(f"{name} opening width", _RULE, _SOURCE)


def opening_height_around(drawer: DrawerRole, wish: OutwardsWish, make: DrawerMake, shop: Shop) -> Dimension:
    """The opening's height: what lies in the drawer and its room, over the bottom and its groove's offset, and the top clearance;
    or its front and both clearances (CO-1). BadInput where ``wish`` gives no height, or the sides' height is asked for as well.
    """
    practice, name = shop.practice, drawer.name
    top, rise = practice.length("top clearance"), practice.length("bottom clearance of the front")
    if wish.height is None:
        if wish.front_height is None:
            raise BadInput(f"{name} was asked for from the inside out without a height; give what lies in it, or its front.")
        return (wish.front_height + rise + top).named(f"{name} opening height", _RULE, _SOURCE)
    if make.side_height is not None:
        raise BadInput(
            f"the height inside {name} gives its sides' height, and side-height is written as well; leave one of them out."
        )
    inside = (wish.height + wish.room if wish.room else wish.height).named(f"{name} inside height that holds it", _RULE, _SOURCE)
    if make.bar is not None:
        # It lies on the bar, which stands higher than the bottom (BO-1).
        inside = inside + practice.length("bottom bar rise")
    offset = groove_offset(make.bottom, rise, shop)
    side = (inside + make.bottom.thickness + offset).named(f"{name} side height around it", _RULE, _SOURCE)
    return (side + top).named(f"{name} opening height", _RULE, _SOURCE)


def opening_depth_around(
    drawer: DrawerRole, wish: OutwardsWish, width: Dimension, height: Dimension, make: DrawerMake, shop: Shop
) -> Dimension:
    """The opening's depth: what lies in the drawer and its room, front and back, what its sides reach past the back, and the gaps
    (CO-1).

    ``width`` and ``height`` are the opening's. Raises BadInput where ``wish`` gives no depth, Refused where no back corner can be
    made.
    """
    practice, name = shop.practice, drawer.name
    if wish.depth is None:
        raise BadInput(f"{name} was asked for from the inside out without a depth; give what lies in it.")
    inside = (wish.depth + wish.room if wish.room else wish.depth).named(f"{name} inside depth that holds it", _RULE, _SOURCE)
    # How far the sides reach past the back hangs on the corner and on nothing of the depth, so any drawer of this width tells it.
    tried = Opening(width, height, inside + dimension(mm(1000)))
    corner = design_back(make.back_joint, Wanted(drawer, make, size_drawer(drawer, tried, make, practice), shop))
    length = inside + make.front.thickness + make.back.thickness + corner.set_in + corner.laps
    length = length.named(f"{name} length around it, front included", _RULE, _SOURCE)
    gap, set_back = practice.length("back gap"), practice.length("front set-back")
    return (length + set_back + gap).named(f"{name} opening depth", _RULE, _SOURCE)


def filled_by(
    heights: Heights, first: Dimension, rails: Sequence[Dimension], top_rail: Dimension, bottom_rail: Dimension
) -> Dimension:
    """The height of a frame around a bank whose topmost opening is ``first``, divided by ``heights`` (CO-1, DR-7).

    Where they get shallower downwards, ``first`` is the lowest: every drawer holds what is asked for. BadInput for heights given
    one by one.
    """
    count = heights.count
    if isinstance(heights, Equal):
        room = first * count
    elif isinstance(heights, Arithmetic):
        steps = Fraction(count * (count - 1), 2)
        room = first * count + (-heights.step if heights.step.mm < 0 else heights.step) * steps
    elif isinstance(heights, Geometric):
        ratio = heights.ratio if heights.ratio >= 1 else 1 / heights.ratio
        room = first * sum((ratio**n for n in range(count)), Fraction(0))
    else:
        raise BadInput("the heights of this bank are given one by one, so its height inside can't be; leave one of them out.")
    whole = top_rail + bottom_rail + room
    for rail in rails:
        whole = whole + rail
    return whole.named("piece height over all", _RULE, _SOURCE)


def piece_depth_around(openings: Sequence[Dimension], rabbet: Rabbet) -> Dimension:
    """The depth over all of a piece whose deepest opening, from the frame's face to the case's back, is the largest of
    ``openings``: with the rabbet for the back (CO-1, RA-1).
    """
    deepest = largest(*openings) if len(openings) > 1 else openings[0]
    return (deepest + rabbet.width).named("piece depth over all", _RULE, _SOURCE)
