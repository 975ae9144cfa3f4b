"""Fit: how much the clearances may shrink or grow by the thickness of the stock and the maker's cuts (CK-1)."""

from __future__ import annotations

from math import isqrt
from typing import TYPE_CHECKING

from joinlay.boards import PartKind
from joinlay.boards.meeting import Tie
from joinlay.checks.play import guide_play, height_gap, kicker_gap, side_play
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, Fine, Fraction, Length, dimension
from joinlay.records import dataclass
from joinlay.stock import thickness_spread

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer
    from joinlay.checks.conditions import Finish
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop

__all__ = ["Room", "Stack", "check_fit", "guide_stack", "height_stack", "kicker_stack", "rooms", "width_stack"]


@dataclass(frozen=True, slots=True)
class Stack:
    """A clearance, and how far each size it hangs on may stray either way.

    ``strays`` pairs the size, in words, with its plus-or-minus. ``at_worst`` adds them up; ``likely`` is their root-sum-square.
    """

    clearance: Dimension
    strays: tuple[tuple[str, Length], ...]

    @property
    def at_worst(self) -> Length:
        """All the strays together, should every one go the wrong way."""
        return sum((stray for _, stray in self.strays), ZERO)

    @property
    def likely(self) -> Length:
        """The root of the sum of the strays' squares, up to the next 0.001 mm: what some of them going each way comes to."""
        squares = sum((stray.mm**2 for _, stray in self.strays), Fraction(0)) * 10**6
        whole = squares.numerator // squares.denominator
        root = isqrt(whole)
        return Length(Fraction(root if root * root == squares else root + 1, 1000))

    @property
    def may_bind(self) -> bool:
        """True where the root-sum-square takes more than there is: its square is compared, so that what just lasts is no fault
        (CK-1).
        """
        return self.clearance <= ZERO or sum((stray.mm**2 for _, stray in self.strays), Fraction(0)) > self.clearance.mm**2

    @property
    def least_likely(self) -> Length:
        """The clearance less ``likely``: where it is negative, the drawer is likely enough to bind."""
        return Length((self.clearance - self.likely).mm)

    @property
    def least_at_worst(self) -> Length:
        """The clearance less ``at_worst``."""
        return Length((self.clearance - self.at_worst).mm)

    @property
    def most_at_worst(self) -> Length:
        """The clearance and ``at_worst``."""
        return Length((self.clearance + self.at_worst).mm)


@dataclass(frozen=True, slots=True)
class Room:
    """One of the places where a drawer has room to move: ``where`` in words, ``is_upwards`` for what lies over its sides, and its
    ``stack`` (CK-1).
    """

    where: str
    is_upwards: bool
    stack: Stack


def width_stack(drawer: Drawer, practice: Practice, film: Length = ZERO) -> Stack:
    """The side play of ``drawer`` at the frame: it hangs on the opening, the back, two dadoes and two side thicknesses (CK-1).

    Over the back corners, where nothing but the joints sets the width; at the front the sides are flushed with the front's ends.
    The play is the least on its way out (DR-6). ``film`` is what the finish puts on each face: there are four, two in each gap
    (PT-11).
    """
    least = min(side_play(drawer, ZERO), side_play(drawer, drawer.length))
    if film.mm:
        least = least - 4 * film
    play = least.named(f"{drawer.name} least side play", "DR-6", "by geometry")
    return Stack(play, (("opening width", practice.length("cutting tolerance")), *_box_strays(drawer, practice)))


def guide_stack(drawer: Drawer, play: Length, practice: Practice) -> Stack:
    """The ``play`` of the drawer between its guides: it hangs on the case's inside width, both guides and the box (CK-1,
    RN-2).
    """
    cut = practice.length("cutting tolerance")
    guides = tuple((f"{hand} guide", cut) for hand in ("left", "right"))
    room = dimension(play).named(f"{drawer.name} play between the guides", "RN-2", "by geometry")
    return Stack(room, (("case inside width", cut), *guides, *_box_strays(drawer, practice)))


def _box_strays(drawer: Drawer, practice: Practice) -> tuple[tuple[str, Length], ...]:
    """How far the sizes that make the box's width may stray."""
    cut, spread = practice.length("cutting tolerance"), thickness_spread(drawer.make.sides)
    thickness = Length(drawer.make.sides.thickness.mm)
    side = max(spread.thickest - thickness, thickness - spread.thinnest)
    dadoes = [(f"{hand} dado depth", cut) for hand in ("left", "right")]
    return (("back length", cut), *dadoes, *((f"{hand} side thickness", side) for hand in ("left", "right")))


def height_stack(drawer: Drawer, practice: Practice, film: Length = ZERO) -> Stack:
    """The room over the sides of ``drawer``: it hangs on the opening's height and the side's (CK-1).

    ``film`` is what the finish puts on each of the two faces (PT-11).
    """
    cut = practice.length("cutting tolerance")
    gap = height_gap(drawer)
    if film.mm:
        gap = (gap - 2 * film).named(f"{drawer.name} gap over the sides, finished", "PT-11", "our own choice")
    return Stack(gap, (("opening height", cut), ("side height", cut)))


def kicker_stack(drawer: Drawer, gap: Length, practice: Practice) -> Stack:
    """The ``gap`` under what the sides kick against: it hangs on the opening, on the strips that are over it, and the side's
    height (CK-1, RN-3).

    That is a kicker on the bearer above or under a panel of the case, that bearer alone, or the panel itself.
    """
    cut = practice.length("cutting tolerance")
    room = dimension(gap).named(f"{drawer.name} room under the kicker", "RN-3", "by geometry")
    return Stack(room, tuple((part, cut) for part in ("opening height", *_over_the_sides(drawer), "side height")))


def _over_the_sides(drawer: Drawer) -> tuple[str, ...]:
    """What lies between the sides and the rail or panel that carries it, in words."""
    kinds = {met.other.kind for met in drawer.tied(Tie.KICKS)}
    for panel in (PartKind.CASE_TOP, PartKind.DUST_PANEL, PartKind.SHELF):
        if panel in kinds:
            return (f"place of the {panel.value}",)
    return ("bearer above",) if PartKind.BEARER in kinds else ("bearer or panel that carries the kicker", "kicker height")


def rooms(drawer: Drawer, practice: Practice, finish: Finish | None = None) -> tuple[Room, ...]:
    """Where ``drawer`` has room to move, sideways first: at the frame, and between its guides and under its kicker where it
    stands in a piece (CK-1).

    A ``finish`` that builds a film takes its thickness off every gap at the frame, on both faces; guides, kickers and sides stay
    bare, for wax (PT-11).
    """
    film = practice.length("finish film") if finish is not None and finish.builds else ZERO
    between, under = guide_play(drawer), kicker_gap(drawer)
    found = [Room("side play at the frame", is_upwards=False, stack=width_stack(drawer, practice, film))]
    if between is not None:
        found.append(Room("play between its guides", is_upwards=False, stack=guide_stack(drawer, between, practice)))
    found.append(Room("room over the sides at the frame", is_upwards=True, stack=height_stack(drawer, practice, film)))
    if under is not None:
        found.append(Room("room under its kicker", is_upwards=True, stack=kicker_stack(drawer, under, practice)))
    return tuple(found)


def check_fit(drawer: Drawer, shop: Shop, finish: Finish | None = None) -> tuple[Finding, ...]:
    """Whether ``drawer`` may bind by what its sizes stray: a warning where the root-sum-square takes all its play or room (CK-1).

    At the frame, and between the guides and under the kicker where it stands in a piece: one warning a direction, for the
    tightest. Else one note with the least and the most side play, where it is least. No play at all is no fit at all and left to
    ``check_play``, unless it is the film of the ``finish`` that takes it (PT-11).
    """
    found = []
    every = rooms(drawer, shop.practice, finish)
    for is_upwards, by in ((False, "side clearance"), (True, "top clearance")):
        tight = [
            room
            for room in every
            if room.is_upwards is is_upwards
            and room.stack.may_bind
            and (room.stack.clearance > ZERO or (finish is not None and finish.builds))
        ]
        if tight:
            found.append(_binds(drawer, min(tight, key=_tightness), shop, by, finish))
    if found:
        return tuple(found)
    tightest = min((room for room in every if not room.is_upwards), key=_tightness)
    which, stack = tightest.where, tightest.stack
    what = f"Stock and cuts that stray may take its {which} down to {{least}}; all at their worst, "
    what += "it has {worst} to {most}." if stack.least_at_worst.mm > 0 else "it needs planing to fit, or plays {most}."
    return (Finding("fit", Harm.NOTE, drawer.name, what, _numbers(stack), "CK-1", "tolerance stacking"),)


def _tightness(room: Room) -> Length:
    return room.stack.least_likely


def _numbers(stack: Stack) -> dict[str, Length | int | str]:
    return {
        "clearance": Fine(stack.clearance), "likely": Fine(stack.likely), "least": Fine(stack.least_likely),
        "worst": Fine(stack.least_at_worst),
        "most": Fine(stack.most_at_worst),
        "biggest": max(stack.strays, key=lambda stray: stray[1])[0],
    }  # fmt: skip


def _binds(drawer: Drawer, room: Room, shop: Shop, by: str, finish: Finish | None) -> Finding:
    """Half of what is lacking must be given at each side, all of it at the top; either way a clearance that the maker's rule
    shows.
    """
    stack = room.stack
    is_filmed = finish is not None and finish.builds and "frame" in room.where
    what = (
        f"The {room.where} is {{clearance}}{', the film of the finish taken off' if is_filmed else ''}, and "
        f"what stock and cuts stray comes to "
    )
    what += "{likely}: it may bind. Most comes from the {biggest}."
    remedy = "Measure the stock and cut to a test piece, or plan to plane the drawer to fit."
    lacks = -stack.least_likely.mm
    given, where = drawer.side_clearance.mm + lacks / 2, "at each side"
    if by == "top clearance":
        given, where = drawer.top_clearance.mm + lacks, "at the top"
    give = shop.rule.up(Length(given))
    numbers = {**_numbers(stack), "give": give}
    ways = [Remedy(f"give it {{give}} of clearance {where}", (figure(by, give),))]
    if is_filmed:
        ways.append(Remedy("finish it with oil or wax, which build nothing", (Change("use", "finish", "oil"),)))
    rule = "CK-1, PT-11" if is_filmed else "CK-1"
    return Finding("fit", Harm.WARN, drawer.name, what, numbers, rule, "tolerance stacking", remedy, remedies=tuple(ways))
