"""Where the parts of one drawer meet: bottom in its grooves, back in its dadoes, and the two corners of the front (CK-8)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import CutUse, Hand, PartKind, Surface
from joinlay.casework.meeting import Meeting, Side, meeting
from joinlay.casework.opening import FrontJoint
from joinlay.lengths import NOTHING, Length, dimension

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board, Cut
    from joinlay.casework.assembly import Drawer
    from joinlay.lengths import Dimension

__all__ = ["bottom_groove", "drawer_meetings"]

_HANDS = ((Hand.LEFT, Surface.END), (Hand.RIGHT, Surface.FAR_END))


def drawer_meetings(drawer: Drawer) -> tuple[Meeting, ...]:
    """Where the parts of one drawer meet, and with what gap (GR-2, LR-3, LR-6 to LR-8, LT-5).

    In a tapered drawer the gap at the back's ends is given at both walls of its dado, and the bottom's at its front and at its back.
    """
    corners = _half_blind(drawer) if drawer.make.front_joint is FrontJoint.HALF_BLIND else _slips(drawer)
    return (*_bottom_in_grooves(drawer), *_back_in_dadoes(drawer), *corners)


def bottom_groove(side: Board) -> Cut:
    """The groove of ``side`` that takes the bottom; IndexError where it has none (GR-1)."""
    return side.cuts_of(CutUse.GROOVE)[0]


# -- the bottom ----------------------------------------------------------------------------------------


def _bottom_in_grooves(drawer: Drawer) -> Iterator[Meeting]:
    bottom = drawer.bottom
    for hand, end in _HANDS:
        side = drawer.side(hand)
        groove = bottom_groove(side)
        wall = Side(side.name, Surface.FAR_EDGE, side.width - groove.across.start)
        yield Meeting(
            f"{bottom.name} on the groove of the {side.name}", Side(bottom.name, Surface.FAR_FACE), wall, NOTHING, "GR-2"
        )
        if not drawer.taper:
            floor = Side(side.name, Surface.FACE, groove.into.stop)
            room = drawer.inside_width / 2 + groove.into.stop - bottom.length / 2
            yield Meeting(f"{bottom.name} in the {side.name}", Side(bottom.name, end), floor, room, "GR-2")
            continue
        # Its end is planed to the side's own slant, so the gap is the same all along.
        front = _behind(side, bottom)
        planed = next(taper.near for taper in bottom.tapers if taper.surface is end)
        room = _half_inside(drawer, side, front) + groove.into.stop - (bottom.length / 2 - planed)
        for where, at in (("front", front), ("back", front + bottom.width)):
            floor = Side(side.name, Surface.FACE, groove.into.stop, at)
            yield Meeting(f"{bottom.name} in the {side.name}, at its {where}", floor, Side(bottom.name, end), room, "GR-2")


def _behind(side: Board, board: Board) -> Dimension:
    """How far behind the front end of ``side`` the foremost plane of ``board`` lies."""
    assert side.place is not None
    assert board.place is not None
    return dimension(Length(board.place.origin[1] - side.place.origin[1]))


def _half_inside(drawer: Drawer, side: Board, at: Dimension) -> Dimension:
    """Half the width inside the drawer, so far along its sides (DR-4)."""
    half = drawer.inside_width / 2
    return half - drawer.taper / 2 * (at / side.length) if drawer.taper else half


# -- the back ------------------------------------------------------------------------------------------


def _back_in_dadoes(drawer: Drawer) -> Iterator[Meeting]:
    """The back's ends over the floors of their dadoes, its outer side against the wall, its inner side with the tongue's fit (LR-2, LR-3, DA-1)."""
    back = drawer.back
    for hand, end in _HANDS:
        side = drawer.side(hand)
        dado = side.cuts_for(back.role)[0]
        rabbets = [cut.into.start for cut in back.cuts_for(side.role)]
        tongue = rabbets[0] if rabbets else back.thickness
        outer = Side(back.name, Surface.FAR_FACE, back.thickness - tongue)
        yield Meeting(
            f"{back.name} against the {side.name}", outer, Side(side.name, Surface.END, dado.along.stop), NOTHING, "DA-1, LR-2"
        )
        inner = Side(side.name, Surface.FAR_END, side.length - dado.along.start)
        fit = dado.along.size - tongue
        yield Meeting(f"{back.name} from the {side.name}", Side(back.name, Surface.FACE), inner, fit, "DA-1, LR-2")
        walls = (("", None),) if not drawer.taper else ((", inside", dado.along.start), (", outside", dado.along.stop))
        for where, at in walls:
            room = _half_inside(drawer, side, at or NOTHING) + dado.into.stop - back.length / 2
            floor = Side(side.name, Surface.FACE, dado.into.stop, at)
            yield Meeting(f"{back.name} in the {side.name}{where}", floor, Side(back.name, end), room, "LR-3")


# -- the front -----------------------------------------------------------------------------------------


def _half_blind(drawer: Drawer) -> Iterator[Meeting]:
    """The side's end against the lip, its inside against the floor of the slot, and the tongue in the side's dado (LR-6 to LR-8)."""
    front = drawer.front
    for hand, end in _HANDS:
        side = drawer.side(hand)
        slot, tip = (cut for cut in front.cuts_of(CutUse.SLOT, CutUse.TONGUE_END) if cut.role.mate == side.role)
        dado = side.cuts_for(front.role)[0]
        lip = Side(front.name, Surface.FACE, slot.into.stop)
        yield Meeting(f"{side.name} against the lip of the front", Side(side.name, Surface.END), lip, NOTHING, "LR-8")
        floor = Side(front.name, end, slot.along.size)
        inside = Side(side.name, Surface.FACE, at=NOTHING)
        yield Meeting(f"{side.name} on the floor of the slot", inside, floor, NOTHING, "LR-7")
        outer = Side(front.name, Surface.FAR_FACE, front.thickness - slot.into.start)
        wall = Side(side.name, Surface.FAR_END, side.length - dado.along.start)
        yield Meeting(f"{front.name} tongue against the {side.name}", outer, wall, NOTHING, "LR-7")
        fit = dado.along.size - slot.into.start
        inner = Side(side.name, Surface.END, dado.along.stop)
        yield Meeting(f"{front.name} tongue from the {side.name}", Side(front.name, Surface.FACE), inner, fit, "LR-8")
        # The tongue reaches past the floor of the slot by what is left of it; the tip gap is the rest of the dado.
        tongue = slot.along.size - tip.along.size
        bed = Side(side.name, Surface.FACE, dado.into.stop, NOTHING)
        yield Meeting(
            f"{front.name} tongue in the {side.name}", bed, Side(front.name, end, tip.along.size), dado.depth - tongue, "LR-6"
        )


def _slips(drawer: Drawer) -> Iterator[Meeting]:
    front = drawer.front
    for slip in drawer.assembly.of_kind(PartKind.LOOSE_TENON):
        hand, n = slip.role.hand, slip.role.number
        assert hand is not None
        side = drawer.side(hand)
        (in_front,) = (cut for cut in front.cuts_of(CutUse.MORTISE) if (cut.role.hand, cut.role.number) == (hand, n))
        (in_side,) = (cut for cut in side.cuts_of(CutUse.MORTISE) if cut.role.number == n)
        room = (in_front.depth + in_side.depth - slip.length) / 2
        floor = Side(front.name, Surface.FACE, in_front.depth)
        yield Meeting(f"{slip.name} in the front", Side(slip.name, Surface.END), floor, room, "LT-5")
        floor = Side(side.name, Surface.END, in_side.depth)
        yield Meeting(f"{slip.name} in the side", Side(slip.name, Surface.FAR_END), floor, room, "LT-5")
    for hand, _ in _HANDS:
        side = drawer.side(hand)
        yield meeting(f"{side.name} against the {front.name}", (side, Surface.END), (front, Surface.FACE), rule="DR-5")
