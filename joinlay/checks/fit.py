"""Fit: how much the clearances may shrink or grow by the thickness of the stock and the maker's cuts (CK-1)."""

from __future__ import annotations

from math import isqrt
from typing import TYPE_CHECKING

from joinlay.boards import PartKind
from joinlay.boards.meeting import Tie
from joinlay.checks.play import guide_play, height_gap, kicker_gap, side_play
from joinlay.findings import Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, Fine, Fraction, Length, dimension
from joinlay.records import dataclass
from joinlay.stock import thickness_spread

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop

__all__ = ["Stack", "check_fit", "guide_stack", "height_stack", "kicker_stack", "width_stack"]


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
        """True where the root-sum-square takes more than there is: its square is compared, so that what just lasts is no fault (CK-1)."""
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


def width_stack(drawer: Drawer, practice: Practice) -> Stack:
    """The side play of ``drawer`` at the frame: it hangs on the opening, the back, two dadoes and two side thicknesses (CK-1).

    Over the back corners, where nothing but the joints sets the width; at the front the sides are flushed with the front's ends.
    The play is the least on its way out (DR-6).
    """
    least = min(side_play(drawer, ZERO), side_play(drawer, drawer.length))
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


def height_stack(drawer: Drawer, practice: Practice) -> Stack:
    """The room over the sides of ``drawer``: it hangs on the opening's height and the side's (CK-1)."""
    cut = practice.length("cutting tolerance")
    return Stack(height_gap(drawer), (("opening height", cut), ("side height", cut)))


def kicker_stack(drawer: Drawer, gap: Length, practice: Practice) -> Stack:
    """The ``gap`` under what the sides kick against: it hangs on the opening, on the strips that are over it, and the side's height (CK-1, RN-3).

    That is a kicker on the bearer above or under the case top, that bearer alone, or the case top itself.
    """
    cut = practice.length("cutting tolerance")
    room = dimension(gap).named(f"{drawer.name} room under the kicker", "RN-3", "by geometry")
    return Stack(room, tuple((part, cut) for part in ("opening height", *_over_the_sides(drawer), "side height")))


def _over_the_sides(drawer: Drawer) -> tuple[str, ...]:
    """What lies between the sides and the rail or panel that carries it, in words."""
    kinds = {met.other.kind for met in drawer.tied(Tie.KICKS)}
    if PartKind.CASE_TOP in kinds:
        return ("place of the case top",)
    return ("bearer above",) if PartKind.BEARER in kinds else ("bearer or case top that carries the kicker", "kicker height")


def check_fit(drawer: Drawer, shop: Shop) -> tuple[Finding, ...]:
    """Whether ``drawer`` may bind by what its sizes stray: a warning where the root-sum-square takes all its play or room (CK-1).

    At the frame, and between the guides and under the kicker where it stands in a piece: one warning a direction, for the
    tightest. Else one note with the least and the most side play, where it is least. No play at all is no fit at all and left to
    ``check_play``.
    """
    practice, between, under = shop.practice, guide_play(drawer), kicker_gap(drawer)
    sideways = [("side play at the frame", width_stack(drawer, practice))]
    upwards = [("room over the sides at the frame", height_stack(drawer, practice))]
    if between is not None:
        sideways.append(("play between its guides", guide_stack(drawer, between, practice)))
    if under is not None:
        upwards.append(("room under its kicker", kicker_stack(drawer, under, practice)))
    found = []
    for ways, by in ((sideways, "side clearance"), (upwards, "top clearance")):
        tight = [way for way in ways if way[1].clearance > ZERO and way[1].may_bind]
        if tight:
            found.append(_binds(drawer, *min(tight, key=_tightness), shop, by))
    if found:
        return tuple(found)
    which, stack = min(sideways, key=_tightness)
    what = f"Stock and cuts that stray may take its {which} down to {{least}}; all at their worst, "
    what += "it has {worst} to {most}." if stack.least_at_worst.mm > 0 else "it needs planing to fit, or plays {most}."
    return (Finding("fit", Harm.NOTE, drawer.name, what, _numbers(stack), "CK-1", "tolerance stacking"),)


def _tightness(way: tuple[str, Stack]) -> Length:
    return way[1].least_likely


def _numbers(stack: Stack) -> dict[str, Length | int | str]:
    return {
        "clearance": Fine(stack.clearance), "likely": Fine(stack.likely), "least": Fine(stack.least_likely),
        "worst": Fine(stack.least_at_worst),
        "most": Fine(stack.most_at_worst),
        "biggest": max(stack.strays, key=lambda stray: stray[1])[0],
    }  # fmt: skip


def _binds(drawer: Drawer, which: str, stack: Stack, shop: Shop, by: str) -> Finding:
    """Half of what is lacking must be given at each side, all of it at the top; either way a clearance that the maker's rule shows."""
    what = f"The {which} is {{clearance}}, and what stock and cuts stray comes to {{likely}}: it may bind. Most comes from the {{biggest}}."
    remedy = "Measure the stock and cut to a test piece, or plan to plane the drawer to fit."
    lacks = -stack.least_likely.mm
    given, where = drawer.side_clearance.mm + lacks / 2, "at each side"
    if by == "top clearance":
        given, where = drawer.top_clearance.mm + lacks, "at the top"
    give = shop.rule.up(Length(given))
    numbers = {**_numbers(stack), "give": give}
    way = Remedy(f"give it {{give}} of clearance {where}", (figure(by, give),))
    return Finding("fit", Harm.WARN, drawer.name, what, numbers, "CK-1", "tolerance stacking", remedy, remedies=(way,))
