"""Fit: how much the clearances may shrink or grow by the thickness of the stock and the maker's cuts (CK-1)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import TYPE_CHECKING

from joinlay.checks.conditions import estimate
from joinlay.findings import Finding, Harm
from joinlay.lengths import ZERO, Length
from joinlay.stock import thickness_spread

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Practice, Shop

__all__ = ["Stack", "check_fit", "height_stack", "width_stack"]


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
    def least_likely(self) -> Length:
        """The clearance less ``likely``: under nothing, the drawer is likely enough to bind."""
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
    """The side play of ``drawer``: it hangs on the opening, the back, two dadoes and two side thicknesses (CK-1).

    Over the back corners, where nothing but the joints sets the width; at the front the sides are flushed with the front's ends.
    """
    cut, spread = practice.length("cutting tolerance"), thickness_spread(drawer.make.sides)
    thickness = Length(drawer.make.sides.thickness.mm)
    side = max(spread.thickest - thickness, thickness - spread.thinnest)
    strays: list[tuple[str, Length]] = [("opening width", cut), ("back length", cut)]
    strays += [(f"{hand} dado depth", cut) for hand in ("left", "right")]
    strays += [(f"{hand} side thickness", side) for hand in ("left", "right")]
    play = (2 * drawer.side_clearance).named(f"{drawer.name} side play closed", "DR-6", "by geometry")
    return Stack(play, tuple(strays))


def height_stack(drawer: Drawer, practice: Practice) -> Stack:
    """The room over the sides of ``drawer``: it hangs on the opening's height and the side's (CK-1)."""
    cut = practice.length("cutting tolerance")
    room = (drawer.opening.height - drawer.board("left side").width).named(
        f"{drawer.name} room over the sides", "DR-3", "by geometry"
    )
    return Stack(room, (("opening height", cut), ("side height", cut)))


def check_fit(drawer: Drawer, shop: Shop) -> tuple[Finding, ...]:
    """Whether ``drawer`` may bind by what its sizes stray: a warning where the root-sum-square takes all its play or room (CK-1).

    Else one note with the least and the most. Play of nothing is no fit at all and left to ``check_play``.
    """
    found = []
    for which, stack in (
        ("side play", width_stack(drawer, shop.practice)),
        ("room over the sides", height_stack(drawer, shop.practice)),
    ):
        if stack.clearance > ZERO and stack.least_likely.mm < 0:
            found.append(_binds(drawer, which, stack, shop))
    if found:
        return tuple(found)
    stack = width_stack(drawer, shop.practice)
    what = "Stock and cuts may take its side play down to {least}; with all of them at their worst "
    what += "it has {worst} to {most}." if stack.least_at_worst.mm > 0 else "it needs planing to fit, or plays {most}."
    return (Finding("fit", Harm.NOTE, drawer.name, what, _numbers(stack, shop.rule), "CK-1", "tolerance stacking"),)


def _numbers(stack: Stack, rule: Graduation) -> dict[str, Length | int | str]:
    shown = {
        "likely": stack.likely, "least": stack.least_likely, "worst": stack.least_at_worst, "most": stack.most_at_worst,
    }  # fmt: skip
    return {
        "clearance": Length(stack.clearance.mm),
        **{name: estimate(float(length.mm), rule) for name, length in shown.items()},
        "biggest": max(stack.strays, key=lambda stray: stray[1])[0],
    }


def _binds(drawer: Drawer, which: str, stack: Stack, shop: Shop) -> Finding:
    what = f"The {which} is {{clearance}}, and what stock and cuts stray comes to {{likely}}: it may bind. Most comes from the {{biggest}}."
    remedy = "Measure the stock, cut to a test piece, or give more clearance; else plan to plane the drawer to fit."
    return Finding("fit", Harm.WARN, drawer.name, what, _numbers(stack, shop.rule), "CK-1", "tolerance stacking", remedy)
