"""A rough estimate of what the loose tenons of a front corner hold against a pull, next to what the pull may be."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand
from joinlay.checks.conditions import GRAVITY, area, weight
from joinlay.checks.racking import FRICTION
from joinlay.checks.weights import drawer_load, drawer_weight
from joinlay.findings import Finding, Harm

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop

__all__ = ["GLUE_SHEAR", "check_corners", "corner_strength", "jerk"]

#: Shear in N/mm2 that a tenon's cheeks bear where they meet rolling grain, low and high: 18 to 28 % of 10 N/mm2 along the grain.
#: Source: Wood Handbook 2010, ch. 5, from memory; good glue is stronger than that.
GLUE_SHEAR: Final = (1.8, 2.8)
#: A jerk on a full drawer that sticks, as a share of the plain friction of its weight. Source: our own choice.
_JERK: Final = 3.0
_SOURCE: Final = "estimate; Wood Handbook ch. 5, from memory"


def corner_strength(drawer: Drawer, hand: Hand) -> tuple[float, float]:
    """Newtons, low and high, that the front corner at that ``hand`` holds against a straight pull: the weaker half of the joint.

    An estimate, not a test: the glued cheeks of its tenons in the front or in the side, whichever are less, times a shear stress
    that stands for plywood and for the front's cross grain. Nothing where the corner has no loose tenons. Rules LT-4, CK-7.
    """
    halves = {wood.role: 0.0 for wood in (drawer.front, drawer.side(hand))}
    for met in drawer.assembly.meetings:
        if met.cheeks and met.one.hand is hand and met.other in halves:
            halves[met.other] += float(met.cheeks)
    cheeks = min(halves.values())
    return cheeks * GLUE_SHEAR[0], cheeks * GLUE_SHEAR[1]


def jerk(drawer: Drawer, conditions: Conditions) -> float:
    """Newtons of a hearty pull on the loaded drawer on rough runners: three times its plain friction, all of it on one corner
    (CK-7).
    """
    loaded = drawer_weight(drawer) + drawer_load(drawer, conditions)
    return _JERK * float(FRICTION["rough"]) * loaded * GRAVITY


def check_corners(drawer: Drawer, shop: Shop, conditions: Conditions) -> tuple[Finding, ...]:
    """What the weaker front corner should hold, as an estimate with its spread; a warning where a hearty pull is more (CK-7).

    Nothing to say of corners without tenons: a locking rabbet holds by its shape, and of one that is only nailed its own design
    says so.
    """
    low, high = min(corner_strength(drawer, hand) for hand in (Hand.LEFT, Hand.RIGHT))
    if not low:
        return ()
    pull = jerk(drawer, conditions)
    numbers = {f: weight(newtons / GRAVITY, shop.rule) for f, newtons in (("low", low), ("high", high), ("pull", pull))}
    numbers["glue"] = area(low / GLUE_SHEAR[0], shop.rule)
    # Whatever is loose between front and sides is named as it is called.
    loose = next(met.one.kind.value for met in drawer.assembly.meetings if met.cheeks and met.other == drawer.front.role)
    what = (
        f"Its {loose}s, with {{glue}} of glue, should hold {{low}} to {{high}} a corner against a straight pull (estimate); "
        "a jerk when full may be {pull}."
    )
    if low >= pull:
        return (Finding("corner strength", Harm.NOTE, drawer.name, what, numbers, "LT-4", _SOURCE),)
    remedy = "More or wider tenons, deeper mortises, or a half-blind locking rabbet."
    return (Finding("corner strength", Harm.WARN, drawer.name, what, numbers, "LT-4", _SOURCE, remedy),)
