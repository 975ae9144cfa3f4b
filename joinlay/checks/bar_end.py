"""What the front end of a bottom's bar covers on the inside of a drawer's front (BO-1, PU-1)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import CutUse
from joinlay.findings import Change, Finding, Harm, Remedy
from joinlay.lengths import Length

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer
    from joinlay.shop import Shop

__all__ = ["check_bar_end"]


def check_bar_end(drawer: Drawer, shop: Shop) -> tuple[Finding, ...]:
    """A warning where a hole for a pull comes out behind the end of the bar, so that no screw can be driven there nor a spigot be
    wedged; nothing where they only touch (BO-1, PU-1). The remedies: the hole higher up, or two pulls. By geometry.
    """
    bar, front = drawer.bar, drawer.front
    if bar is None or bar.place is None or front.place is None:
        return ()
    left, top = bar.place.origin[0], bar.place.origin[2] + bar.width.mm
    x, z = front.place.origin[0], front.place.origin[2]
    for hole in front.cuts_of(CutUse.PULL_HOLE):
        beside = x + hole.along.stop.mm <= left or left + bar.thickness.mm <= x + hole.along.start.mm
        if beside or z + hole.across.start.mm >= top:
            continue
        numbers: dict[str, Length | int | str] = {"hole": hole.name, "top": Length(top - z)}
        ways = [Remedy("give it two pulls", (Change("pulls", "count", 2),))]
        # As far down as it may be, and no farther up than its own width.
        down = shop.rule.down(Length(z + front.width.mm - top - hole.across.size.mm / 2))
        if down >= hole.across.size:
            numbers["down"] = down
            words = "set the hole {down} from the top edge of the front"
            ways.insert(0, Remedy(words, (Change("pulls", "from-top", down),)))
        what = "The {hole} comes out behind the end of the bar, which covers the inside of the front up to {top} from its edge."
        mark = "the {hole} meets the bar's end"
        found = Finding("bottom bar", Harm.WARN, front.name, what, numbers, "BO-1, PU-1", "by geometry", mark=mark)
        return (replace(found, remedies=tuple(ways)),)
    return ()
