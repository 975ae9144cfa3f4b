"""A solid case and its frame through the year: what moves against what, and whether drawers and slots have room for it (CK-6,
DR-6, RN-4): on damp days a frame closes an opening a little, while solid sides of a drawer get thicker.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutUse, PartKind, Whole
from joinlay.boards.meeting import Tie
from joinlay.checks.conditions import estimate
from joinlay.checks.play import LOOSE
from joinlay.checks.seasons import quartered, year_of
from joinlay.errors import BadInput
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, Fine, Length, mm
from joinlay.stock import Sheet, Solid

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board, Cut
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["check_case_seasons", "check_damp_play", "check_slots", "frame_year"]

_SOURCE: Final = "Wood Handbook 2010, equations 4-5 and 13-2"
#: How much two parts that are glued across the grain may part company over a year. Source: our own choice, as for drawer
#: fronts.
_STRAINS: Final = mm(3)
#: A slot this much too short is a matter of rounding.
_HAIR: Final = mm("0.05")
_ACROSS_SIDES: Final = (PartKind.CASE_TOP, PartKind.CASE_BOTTOM)


def check_case_seasons(
    others: Sequence[Assembly], drawers: Sequence[Drawer], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> tuple[Finding, ...]:
    """What the solid parts of the case do in a year (CK-6); nothing to say of a case of sheet goods.

    Warned: top and bottom that move over 3 mm more or less, from front to back, than the sides they are let into; a solid back
    that moves over 3 mm between the sides; drawers with less behind them than the sides shrink; bearer slots too short. Else one
    note of what the sides do. ``stocks`` by the name a board carries.
    """
    boards = [board for assembly in others for board in assembly.boards]
    sides = [board for board in boards if board.role.kind is PartKind.CASE_SIDE]
    if not sides:
        return ()
    moved = _year(sides[0], stocks, conditions)
    found = [*_panels(boards, sides[0], stocks, shop, conditions), *_back(boards, stocks, shop, conditions)]
    if moved is not None:
        found += _behind(drawers, moved, shop)
        wood = stocks[sides[0].stock]
        assert isinstance(wood, Solid)
        runners = (board for board in boards if board.role.whole is Whole.RUNNERS)
        found += (finding for board in runners for finding in check_slots(board, wood, conditions))
    return tuple(found)


def check_slots(board: Board, wood: Solid, conditions: Conditions) -> tuple[Finding, ...]:
    """Whether every screw slot of ``board`` is as long as the ``wood`` it is screwed to moves between its hole and there
    (RN-4).
    """
    holes, slots = board.cuts_of(CutUse.SCREW_HOLE), board.cuts_of(CutUse.SCREW_SLOT)
    if not holes:
        return ()
    short = [(cut, lacks) for cut in slots if (lacks := _lacks(cut, holes[0], wood, conditions)) > _HAIR]
    if not short:
        return ()
    cut, lacks = max(short, key=lambda pair: pair[1])
    numbers: dict[str, Length | int | str] = {"slot": cut.name, "lacks": Fine(lacks)}
    what = "Its {slot} is {lacks} too short for what the side moves through the year."
    remedy = "Lengthen it by {lacks} towards the back."
    return (Finding("case movement", Harm.WARN, board.name, what, numbers, "RN-4", _SOURCE, remedy, "{slot} {lacks} too short"),)


def _lacks(slot: Cut, hole: Cut, wood: Solid, conditions: Conditions) -> Length:
    """How much longer the slot should be towards the back; negative where it is long enough.

    It begins where the screw comes to by the driest day, which says where the screw is driven.
    """
    screw, shrinks, grows = slot.span(Axis.INTO).size, *(share.mm / 1000 for share in year_of(wood, mm(1000), conditions))
    driven = (slot.along.start.mm + screw.mm / 2 - hole.along.centre.mm) / (1 - shrinks)
    needed = hole.along.centre.mm + driven * (1 + grows) + screw.mm / 2
    return Length(needed - slot.along.stop.mm)


def _year(board: Board, stocks: Mapping[str, Stock], conditions: Conditions) -> tuple[Length, Length] | None:
    """What a solid board shrinks and grows across its grain; None for sheet goods and woods that aren't in the table."""
    stock = stocks.get(board.stock)
    if not isinstance(stock, Solid):
        return None
    try:
        return year_of(stock, board.width, conditions)
    except BadInput:
        return None


def _panels(
    boards: Sequence[Board], side: Board, stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions
) -> Iterator[Finding]:
    """Top and bottom in the sides' dadoes: both run across the case, so that both move from front to back."""
    mine = sum(_year(side, stocks, conditions) or (), ZERO)
    for board in boards:
        if board.role.kind not in _ACROSS_SIDES:
            continue
        theirs = sum(_year(board, stocks, conditions) or (), ZERO)
        if abs(mine - theirs) <= _STRAINS:
            continue
        more, less = ("sides", "it") if mine > theirs else ("panel", "the sides")
        what = (
            f"Through the year the solid {more} moves {{moves}} more from front to back than {less}, "
            f"and they are glued to each other."
        )
        if more == "sides":
            what = (
                "Through the year the solid sides move {moves} more from front to back than this panel, which is glued into them."
            )
        remedy = "Glue the dado at the front only and leave the rest of it dry."
        ways: tuple[Remedy, ...] = ()
        if board.stock != side.stock:
            ways = (Remedy("make both of one wood", (Change("case", "panels", side.stock),)),)
        numbers: dict[str, Length | int | str] = {"moves": estimate(float(abs(mine - theirs).mm), shop.rule)}
        # The dado that is to stay dry is marked out on the sides.
        parts = (board.name, *(one.name for one in boards if one.role.kind is PartKind.CASE_SIDE))
        mark = "glue its dadoes at the front only"
        yield Finding("case movement", Harm.WARN, board.name, what, numbers, "CK-6, CA-1", _SOURCE, remedy, mark, parts, ways)


def _back(boards: Sequence[Board], stocks: Mapping[str, Stock], shop: Shop, conditions: Conditions) -> Iterator[Finding]:
    """A solid back stands with its grain upright, so that it moves from side to side, where the top holds the case."""
    for board in boards:
        moves = sum(_year(board, stocks, conditions) or (), ZERO)
        if board.role.kind is not PartKind.CASE_BACK or moves <= _STRAINS:
            continue
        what = "The back is solid and moves {moves} from side to side through the year; top and bottom hold the case as it is."
        numbers: dict[str, Length | int | str] = {"moves": estimate(float(moves.mm), shop.rule)}
        remedy = "Make it of boards that lap with a gap between, each nailed along one edge."
        sheets = [stock for stock in stocks.values() if isinstance(stock, Sheet)]
        ways: tuple[Remedy, ...] = ()
        if sheets:
            sheet = min(sheets, key=lambda stock: abs(stock.thickness - board.thickness))
            numbers["sheet"] = sheet.name
            ways = (Remedy("make it of the {sheet} of your stock", (Change("case", "back", sheet.name),)),)
        yield Finding("case movement", Harm.WARN, board.name, what, numbers, "CK-6, RA-1", _SOURCE, remedy, remedies=ways)


def _behind(drawers: Sequence[Drawer], moved: tuple[Length, Length], shop: Shop) -> Iterator[Finding]:
    """The case gets shallower as its sides dry; a drawer that is stopped at the front must not meet its back."""
    if not drawers:
        return
    gaps = {drawer.name: _gap_behind(drawer, shop) for drawer in drawers}
    tightest = min(gaps, key=lambda name: gaps[name])
    shrinks, grows = moved
    numbers: dict[str, Length | int | str] = {
        "shrinks": estimate(float(shrinks.mm), shop.rule),
        "moves": estimate(float((shrinks + grows).mm), shop.rule),
        "gap": Fine(gaps[tightest]),
    }
    if shrinks > gaps[tightest]:
        what = (
            "By the driest day the solid case is {shrinks} shallower, and there is only {gap} behind it: the "
            "back would push its front out."
        )
        least = Length(shop.practice.length("back gap").mm + shrinks.mm - gaps[tightest].mm)
        numbers["give"] = give = shop.rule.up(least)
        way = Remedy("leave {give} behind the drawers", (figure("back gap", give),))
        tight = tuple(name for name, gap in gaps.items() if shrinks > gap)
        yield Finding("case movement", Harm.WARN, tightest, what, numbers, "CK-6, DR-5", _SOURCE, parts=tight, remedies=(way,))
        return
    what = (
        "The solid sides move {moves} from front to back through the year; the drawers have {gap} "
        "behind them, and the bearers' slots let them."
    )
    yield Finding("case movement", Harm.NOTE, "case", what, numbers, "CK-6, RN-4", _SOURCE)


def _gap_behind(drawer: Drawer, shop: Shop) -> Length:
    return Length((drawer.opening.depth - drawer.length - shop.practice.length("front set-back")).mm)


# -- the frame about a drawer, and its sides ------------------------------------------------------------


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
    years = [_year(board, stocks, conditions) or (ZERO, ZERO) for board in near]
    return sum((dry for dry, _ in years), ZERO) / 2, sum((damp for _, damp in years), ZERO) / 2


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
