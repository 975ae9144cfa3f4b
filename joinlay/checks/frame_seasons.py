"""The opening through the year: a solid frame closes it a little on damp days, while solid sides get thicker (CK-6, DR-6)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis
from joinlay.boards.meeting import Tie
from joinlay.checks.play import LOOSE
from joinlay.checks.seasons import quartered, year_of
from joinlay.errors import BadInput
from joinlay.findings import Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, Fine, Length
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["check_damp_play", "frame_year"]

_SOURCE: Final = "Wood Handbook 2010, equations 4-5 and 13-2"


def frame_year(
    drawer: Drawer, others: Sequence[Assembly], stocks: Mapping[str, Stock], conditions: Conditions
) -> tuple[tuple[Length, Length], tuple[Length, Length]]:
    """How much the drawer's opening opens by the driest day and closes by the dampest, in width and then in height (CK-6).

    Each member of the frame beside it moves half to either side. Nothing where the frame isn't solid, or where there is none.
    """
    members = {board.role: board for assembly in others for board in assembly.boards}
    around: dict[Axis, list[Board]] = {Axis.ALONG: [], Axis.ACROSS: []}
    for met in drawer.tied(Tie.CLEARS):
        if met.one == drawer.front.role and met.other in members:
            around[met.facings[0].one.surface.axis].append(members[met.other])
    return _moved(around[Axis.ALONG], stocks, conditions), _moved(around[Axis.ACROSS], stocks, conditions)


def _moved(near: Sequence[Board], stocks: Mapping[str, Stock], conditions: Conditions) -> tuple[Length, Length]:
    years = [_year(board, stocks, conditions) for board in near]
    return sum((dry for dry, _ in years), ZERO) / 2, sum((damp for _, damp in years), ZERO) / 2


def _year(board: Board, stocks: Mapping[str, Stock], conditions: Conditions) -> tuple[Length, Length]:
    stock = stocks.get(board.stock)
    try:
        return year_of(stock, board.width, conditions) if isinstance(stock, Solid) else (ZERO, ZERO)
    except BadInput:
        return ZERO, ZERO


def check_damp_play(drawer: Drawer, closing: tuple[Length, Length], shop: Shop, conditions: Conditions) -> tuple[Finding, ...]:
    """Whether a drawer with solid sides, or in a solid frame, still moves sideways on the dampest day and doesn't rattle on the
    driest (CK-6).

    ``closing`` is what its opening opens and closes in width. Warned: no play left on the dampest day, or over 5 mm on the driest
    where it had less to begin with. Play that just lasts is no warning, and nothing is said of what stays sound.
    """
    play = 2 * drawer.side_room
    dries, swells = closing
    if isinstance(drawer.make.sides, Solid):
        try:
            shrinks, grows = year_of(drawer.make.sides, drawer.make.sides.thickness, conditions)
        except BadInput:
            return ()
        dries, swells = dries + 2 * shrinks, swells + 2 * grows
    damp, dry = Length((play - swells).mm), Length((play + dries).mm)
    numbers: dict[str, Length | int | str] = {"play": Fine(play), "swells": Fine(swells), "dry": Fine(dry)}
    wood = quartered(drawer.make.sides)
    ways = [Remedy("have the sides cut on the quarter, which move less", wood)] if wood else []
    if play.mm > 0 > damp.mm:
        what = "By the dampest day its sides and the frame swell {swells}, and it has {play} of side play: it may bind."
        numbers["give"] = give = shop.rule.up(Length(drawer.side_clearance.mm - damp.mm / 2))
        ways.insert(0, Remedy("give it {give} of clearance at each side", (figure("side clearance", give),)))
        return (Finding("wood movement", Harm.WARN, drawer.name, what, numbers, "CK-6, DR-6", _SOURCE, remedies=tuple(ways)),)
    if dry > LOOSE >= play:
        what = "By the driest day its side play grows from {play} to {dry}, and it will rattle."
        numbers["give"] = give = shop.rule.down(Length(drawer.side_clearance.mm - (dry.mm - LOOSE.mm) / 2))
        if give > ZERO:
            ways.insert(0, Remedy("give it {give} of clearance at each side", (figure("side clearance", give),)))
        return (Finding("wood movement", Harm.WARN, drawer.name, what, numbers, "CK-6, DR-6", _SOURCE, remedies=tuple(ways)),)
    return ()
