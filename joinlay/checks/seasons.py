"""Solid parts through the year: what swells until it binds, what shrinks until it rattles (CK-6, GR-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, Hand, PartKind
from joinlay.boards.names import in_few_words
from joinlay.casework.opening import BackHeight
from joinlay.checks.conditions import estimate
from joinlay.errors import BadInput
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, Fine, Length, mm
from joinlay.records import dataclass
from joinlay.stock import Solid, movement_of
from joinlay.stock.movement import in_range

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["check_seasons", "quartered", "room_to_swell", "year_of"]

_SOURCE = "Wood Handbook 2010, equations 4-5 and 13-2"
#: How much a solid front and sides of sheet may part company over a year before their glue minds. Source: our own choice.
_STRAINS = mm(3)
#: Said where a day is drier or damper than the coefficients serve.
_OTHER_WOOD = "Sheet goods in its place would not move."
_OUTSIDE = " One of those days lies outside the 6 to 14 % of moisture that the figures serve, so take it as rough."
#: What is said of each kind of part; the two sides are looked at once for both.
_BOTH: Final = {
    PartKind.DRAWER_FRONT: "front",
    PartKind.DRAWER_SIDE: "sides",
    PartKind.DRAWER_BACK: "back",
    PartKind.DRAWER_BOTTOM: "bottom",
}


def year_of(stock: Solid, width: Length, conditions: Conditions) -> tuple[Length, Length]:
    """What a part of ``stock``, ``width`` across the grain in the workshop, shrinks by the driest day and grows by the dampest
    (CK-6).

    Both as lengths of zero or more, exact. BadInput where the species isn't in the table.
    """
    seasons = conditions.seasons
    dry = movement_of(stock, width, seasons.workshop, seasons.driest)
    damp = movement_of(stock, width, seasons.workshop, seasons.dampest)
    return max(Length(-dry.mm), ZERO), max(Length(damp.mm), ZERO)


def room_to_swell(drawer: Drawer, board: Board, shop: Shop) -> Length:
    """How much wider ``board`` of the drawer may get before it binds: up to the opening's top for front, sides and back; to the
    rear for the bottom, whose front is held.

    A bottom under a standing back has the gap behind the drawer, one in a grooved back what its groove leaves (CK-6, GR-2).
    """
    if board.role.kind is PartKind.DRAWER_BOTTOM:
        return _behind_bottom(drawer, shop)
    top = board.place.point(ZERO, board.width, ZERO)[2] if board.place is not None else board.width.mm
    side = drawer.side(Hand.LEFT).place
    bearer = side.origin[2] if side is not None else ZERO.mm
    planed = ZERO if drawer.make.planed is None else drawer.make.planed.top
    return Length(drawer.opening.height.mm - (top - bearer) + planed.mm)


def _behind_bottom(drawer: Drawer, shop: Shop) -> Length:
    front, bottom, back = drawer.front.place, drawer.bottom.place, drawer.back.place
    if front is None or bottom is None or back is None:
        return ZERO
    board = drawer.bottom
    edge = bottom.origin[1] + board.width.mm
    if drawer.make.back_height is BackHeight.ON_BOTTOM:
        rear = front.origin[1] - drawer.front.thickness.mm + drawer.length.mm
        gap = drawer.opening.depth - drawer.length - shop.practice.length("front set-back")
        return Length(rear - edge + gap.mm)
    grooves = drawer.back.cuts_of(CutUse.GROOVE)
    return Length(back.origin[1] + grooves[0].into.stop.mm - edge) if grooves else ZERO


@dataclass(frozen=True, slots=True)
class _Moves:
    """One solid part of a drawer and what it does in a year."""

    board: Board
    shrinks: Length
    grows: Length
    room: Length

    @property
    def is_flat(self) -> bool:
        """True for the bottom, which moves from front to back."""
        return self.board.role.kind is PartKind.DRAWER_BOTTOM

    @property
    def over(self) -> Length:
        """By how much it swells past its room; negative where it has some left."""
        return self.grows - self.room


def check_seasons(drawer: Drawer, shop: Shop, conditions: Conditions, closing: Length = ZERO) -> tuple[Finding, ...]:
    """What the solid parts of ``drawer`` do in a year; nothing to say of sheet goods (CK-6).

    ``closing`` is what the opening loses in height by the dampest day, where the frame's rails swell too. Warned: parts that
    swell past their room by the dampest day, a bottom that shrinks out of its groove by the driest, and a solid front glued to
    sides of sheet that moves over 3 mm. Swelling that just fills the room is no warning. Else a note of the part that moves most.
    """
    moving, found = [], []
    for board, stock in _parts(drawer):
        if not isinstance(stock, Solid):
            continue
        try:
            shrinks, grows = year_of(stock, board.width, conditions)
        except BadInput as unknown:
            found.append(_unknown(board, str(unknown)))
            continue
        room = room_to_swell(drawer, board, shop)
        moves = _Moves(board, shrinks, grows, room)
        moving.append(moves if moves.is_flat else replace(moves, room=room - closing))
    upright = [moves for moves in moving if not moves.is_flat]
    flat = [moves for moves in moving if moves.is_flat]
    found += [_told(drawer, moves, shop, conditions) for moves in (upright, flat) if moves]
    return (*found, *_falls_out(drawer, flat, shop), *_cross_grain(drawer, shop, conditions))


def _parts(drawer: Drawer) -> tuple[tuple[Board, Stock], ...]:
    make = drawer.make
    return (
        (drawer.front, make.front),
        (drawer.side(Hand.LEFT), make.sides),
        (drawer.back, make.back),
        (drawer.bottom, make.bottom),
    )


def _unknown(board: Board, why: str) -> Finding:
    what = "How it moves isn't worked out: {why}"
    return Finding("wood movement", Harm.NOTE, board.name, what, {"why": why}, "CK-6", _SOURCE)


def _told(drawer: Drawer, moving: list[_Moves], shop: Shop, conditions: Conditions) -> Finding:
    """One finding for the parts that move one way: the worst one's figures, and every part that binds by name."""
    worst = max(moving, key=lambda moves: moves.over)
    flat = worst.is_flat
    way = "from front to back" if flat else "in height"
    numbers = _numbers(worst, shop)
    seasons = conditions.seasons
    mark = "swells {grows} front to back, {room} free" if flat else "top edge swells {grows}, {room} free"
    outside = "" if in_range(seasons.driest) and in_range(seasons.dampest) else _OUTSIDE
    if worst.over.mm > 0:
        binding = [moves.board.role.kind for moves in moving if moves.over.mm > 0]
        parts = ", ".join(_BOTH[kind] for kind in binding)
        about = tuple(board.name for kind in binding for board in drawer.assembly.of_kind(kind))
        what = f"Solid, {way} it swells {{grows}} by the dampest day, and the room for it is {{room}}.{outside}"
        ways = _ways_out(drawer, [moves for moves in moving if moves.over.mm > 0], worst, shop, numbers)
        where = f"{drawer.name} {parts}"
        return Finding("wood movement", Harm.WARN, where, what, numbers, "CK-6", _SOURCE, _OTHER_WOOD, mark, about, ways)
    what = f"Solid, {way} it swells {{grows}} by the dampest day ({{room}} free) and shrinks {{shrinks}} by the driest.{outside}"
    if flat and drawer.make.back_height is BackHeight.ON_BOTTOM:
        what += " Glue it at the front only; slots at the back let it move {moves}."
    where = in_few_words(board.name for board in drawer.bottoms) if flat else worst.board.name
    return Finding("wood movement", Harm.NOTE, where, what, numbers, "CK-6", _SOURCE, mark=mark)


def _numbers(moves: _Moves, shop: Shop) -> dict[str, Length | int | str]:
    shown = {"grows": moves.grows, "shrinks": moves.shrinks, "moves": moves.grows + moves.shrinks}
    return {
        **{name: estimate(float(length.mm), shop.rule) for name, length in shown.items()},
        "room": Fine(max(moves.room, ZERO)),
    }


def quartered(stock: Stock) -> tuple[Change, ...]:
    """What has ``stock`` cut on the quarter, which moves less (CK-6); nothing for one that is so already, or no solid wood."""
    if not isinstance(stock, Solid) or stock.cut == "quarter":
        return ()
    return (Change(f"stock.{stock.name}", "cut", "quarter"),)


def _ways_out(
    drawer: Drawer, binding: list[_Moves], worst: _Moves, shop: Shop, numbers: dict[str, Length | int | str]
) -> tuple[Remedy, ...]:
    """Room for what swells, wood that swells less, or both; and for a bottom in a grooved back the way to build it."""
    stocks = {board.name: stock for board, stock in _parts(drawer)}
    wood = tuple(dict.fromkeys(change for moves in binding for change in quartered(stocks[moves.board.name])))
    ways = [Remedy("have the wood cut on the quarter, which moves less", wood)] if wood else []
    if worst.is_flat and drawer.make.back_height is BackHeight.FULL:
        lower = (Change("drawers", "back-height", "on bottom"),)
        return (Remedy("let the back stand on the bottom, glue that at the front only and slot its screws", lower), *ways)
    if worst.is_flat:
        gap, name, what = shop.practice.length("back gap").mm, "back gap", "leave {give} behind the drawer"
    else:
        gap, name, what = drawer.top_room.mm, "top clearance", "give it {give} of clearance at the top"
    numbers["give"] = give = shop.rule.up(Length(gap + worst.over.mm))
    ways.insert(0, Remedy(what, (figure(name, give),)))
    if wood:
        # Half of it: on the quarter most woods move about half as much.
        numbers["some"] = some = shop.rule.up(Length(gap + worst.over.mm / 2))
        both = what.replace("{give}", "{some}")
        ways.append(Remedy(f"{both} and have the wood cut on the quarter", (figure(name, some), *wood)))
    return tuple(ways)


def _falls_out(drawer: Drawer, flat: list[_Moves], shop: Shop) -> tuple[Finding, ...]:
    """A bottom held at the front that shrinks out of the groove in the back (GR-2)."""
    bottom, back = drawer.bottom, drawer.back
    if not flat or not back.cuts_of(CutUse.GROOVE) or bottom.place is None or back.place is None:
        return ()
    held = Length(bottom.place.origin[1] + bottom.width.mm - back.place.origin[1])
    if flat[0].shrinks < held:
        return ()
    what = "Solid, it shrinks {shrinks} by the driest day, and only {held} of it is in the groove of the back."
    numbers: dict[str, Length | int | str] = {"shrinks": estimate(float(flat[0].shrinks.mm), shop.rule), "held": Fine(held)}
    wood = quartered(drawer.make.bottom)
    ways = (
        Remedy("let the back stand on the bottom, glued at the front only", (Change("drawers", "back-height", "on bottom"),)),
        *((Remedy("have the bottom cut on the quarter, which moves less", wood),) if wood else ()),
    )
    about = tuple(board.name for board in drawer.bottoms)
    where = in_few_words(about)
    return (Finding("wood movement", Harm.WARN, where, what, numbers, "CK-6, GR-2", _SOURCE, parts=about, remedies=ways),)


def _cross_grain(drawer: Drawer, shop: Shop, conditions: Conditions) -> tuple[Finding, ...]:
    """A solid front glued to sides of sheet, which don't move with it (CK-6)."""
    make, front = drawer.make, drawer.front
    if not isinstance(make.front, Solid) or isinstance(make.sides, Solid):
        return ()
    try:
        moves = sum(year_of(make.front, front.width, conditions), ZERO)
    except BadInput:
        return ()
    if moves <= _STRAINS:
        return ()
    what = "The front is solid and moves {moves} through the year; the sides it is glued to don't."
    wood = quartered(make.front)
    ways = (Remedy("have the front cut on the quarter, which moves less", wood),) if wood else ()
    return (
        Finding(
            "wood movement",
            Harm.WARN,
            front.name,
            what,
            {"moves": estimate(float(moves.mm), shop.rule)},
            "CK-6",
            _SOURCE,
            "Make front and sides of one sort: both solid, or both of sheet.",
            "it moves {moves} in a year, the sides do not",
            remedies=ways,
        ),
    )
