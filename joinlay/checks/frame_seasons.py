"""The opening through the year: a solid frame closes it a little on damp days, while solid sides get thicker (CK-6, DR-6)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.checks.play import LOOSE
from joinlay.checks.seasons import year_of
from joinlay.errors import BadInput
from joinlay.findings import Finding, Harm
from joinlay.lengths import ZERO, Fine, Length
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["check_damp_play", "frame_year"]

_SOURCE: Final = "Wood Handbook 2010, equations 4-5 and 13-2"
_UPRIGHTS: Final = ("stile", "mullion")


def frame_year(
    others: Sequence[Assembly], stocks: Mapping[str, Stock], conditions: Conditions
) -> tuple[tuple[Length, Length], tuple[Length, Length]]:
    """How much an opening opens by the driest day and closes by the dampest, in width and then in height (CK-6).

    Each member of the frame moves half to either side, so that an opening between two alike changes by one of them; the widest upright and the
    widest rail are taken. Nothing where the frame isn't solid.
    """
    return (_of_members(others, stocks, conditions, upright=True), _of_members(others, stocks, conditions, upright=False))


def _of_members(
    others: Sequence[Assembly], stocks: Mapping[str, Stock], conditions: Conditions, *, upright: bool
) -> tuple[Length, Length]:
    dry, damp = ZERO, ZERO
    for board in (board for assembly in others if assembly.name == "face frame" for board in assembly.boards):
        stock = stocks.get(board.stock)
        is_upright = any(word in board.name for word in _UPRIGHTS)
        if not isinstance(stock, Solid) or is_upright is not upright or board.part == "loose tenon":
            continue
        try:
            shrinks, grows = year_of(stock, board.width, conditions)
        except BadInput:
            continue
        dry, damp = max(dry, shrinks), max(damp, grows)
    return dry, damp


def check_damp_play(drawer: Drawer, closing: tuple[Length, Length], shop: Shop, conditions: Conditions) -> tuple[Finding, ...]:
    """Whether a drawer with solid sides, or in a solid frame, still moves sideways on the dampest day and doesn't rattle on the driest (CK-6).

    ``closing`` is what its opening opens and closes in width. Warned: no play left on the dampest day, or over 5 mm on the driest where it had
    less to begin with. Play that just lasts is no warning, and nothing is said of what stays sound.
    """
    play = 2 * drawer.side_clearance
    dries, swells = closing
    if isinstance(drawer.make.sides, Solid):
        try:
            shrinks, grows = year_of(drawer.make.sides, drawer.make.sides.thickness, conditions)
        except BadInput:
            return ()
        dries, swells = dries + 2 * shrinks, swells + 2 * grows
    damp, dry = Length((play - swells).mm), Length((play + dries).mm)
    numbers: dict[str, Length | int | str] = {
        "play": Fine(play), "swells": Fine(swells), "dry": Fine(dry), "more": shop.rule.up(max(Length(-damp.mm / 2), ZERO)),
    }  # fmt: skip
    if play.mm > 0 > damp.mm:
        what = "By the dampest day its sides and the frame swell {swells}, and it has {play} of side play: it may bind."
        remedy = "Give {more} more clearance at each side, or quarter-sawn sides."
        return (Finding("wood movement", Harm.WARN, drawer.name, what, numbers, "CK-6, DR-6", _SOURCE, remedy),)
    if dry > LOOSE >= play:
        what = "By the driest day its side play grows from {play} to {dry}, and it will rattle."
        remedy = "Less side clearance, or quarter-sawn sides."
        return (Finding("wood movement", Harm.WARN, drawer.name, what, numbers, "CK-6, DR-6", _SOURCE, remedy),)
    return ()
