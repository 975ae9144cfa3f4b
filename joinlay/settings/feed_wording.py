"""Which way to walk or feed, and why, in the maker's words; by the way of guiding alone (MS-6)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.settings.elements import Guide, Role
from joinlay.settings.feeding import Wall, feeding_of
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from joinlay.settings.setting import Setting

__all__ = ["feed_sentence", "feed_words", "way_sentence"]

#: In few words; as a sentence begins; what the cutter's turning does to the guide; where the wall lies that a later pass cuts.
_WAYS: Final = {
    (MachineKind.ROUTER_TABLE, Guide.FENCE): (
        "right to left, fence behind",
        "Feed from right to left with the fence behind the work",
        "the cutter, turning counter-clockwise from above, presses the work to the fence",
        "the wall away from the fence, against the cutter's turning",
    ),
    (MachineKind.TABLE_SAW, Guide.FENCE): (
        "from the front, against the teeth",
        "Push from the front of the table and stand to one side of the blade",
        "the teeth come down towards you, so the blade can neither pull the work in nor lift it",
        "on the side away from the fence, and nothing is pinched between fence and blade",
    ),
    (MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE): (
        "away from you, guide on your right",
        "Push the router away from you with the guide on your right",
        "the cutter, turning clockwise from above, pulls the guide to the work",
        "the wall on your left, against the cutter's turning",
    ),
    (MachineKind.HAND_ROUTER, Guide.CENTRE_LINE): (
        "away from you, side counted from on your right",
        "Clamp a straightedge for the base on your left and push the router away from you, the side counted from on your right",
        "the cutter, turning clockwise from above, presses the base to the straightedge",
        "the wall on your left, against the cutter's turning",
    ),
    (MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE): (
        "away from you, straightedge on your left",
        "Push the router away from you with the straightedge on your left",
        "the cutter, turning clockwise from above, presses the base to it",
        "the wall on your left, against the cutter's turning",
    ),
}  # fmt: skip

#: Where the first of several passes lies, by the wall that comes last and what the cut is.
_FIRST: Final = {
    Wall.FAR: {Role.STEP: "the edge first"},
    Wall.NEAR: {Role.TONGUE: "the outer side first"},
}
_WALL_FIRST: Final = {Wall.FAR: "the wall nearer the {guide} first", Wall.NEAR: "the wall farther from the {guide} first"}


def feed_words(setting: Setting) -> str:
    """Which way, for a column: ``away from you, straightedge on your left``; '' for what goes straight in and for hand tools. Rule MS-6."""
    said = _WAYS.get((setting.machine, setting.guide))
    return "" if said is None else said[0]


def feed_sentence(setting: Setting) -> str:
    """Which way to walk or feed and why, as one sentence without its stop; '' for what goes straight in and for hand tools. Rules DA-5, MS-6."""
    return way_sentence(setting.machine, setting.guide, setting.role, is_widened=len(setting.fences) > 1)


def way_sentence(machine: MachineKind, guide: Guide, role: Role, *, is_widened: bool) -> str:
    """The same for any cut that ``machine`` makes with ``guide``; ``is_widened`` where it takes passes side by side. Rules DA-5, MS-6."""
    feeding = feeding_of(machine, guide)
    if feeding is None:
        return ""
    _, way, holds, fresh = _WAYS[machine, guide]
    if not is_widened:
        return f"{way}: {holds}"
    named = "side counted from" if guide is Guide.CENTRE_LINE else guide.value.split()[-1]
    first = _FIRST[feeding.fresh].get(role, _WALL_FIRST[feeding.fresh]).format(guide=named)
    return f"{way}, {first}: each later pass then cuts {fresh}"
