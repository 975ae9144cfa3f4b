"""Boards, stocks and plans to make lists of."""

from dataclasses import replace

from joinlay.boards import Board, Cut, CutKind, Datum, PartKind, Place, Shape, Span, Surface, Whole
from joinlay.casework.assembly import Assembly
from joinlay.cutlist.cutting_list import CuttingList, Row
from joinlay.jobs.on_hand import NOTHING_ON_HAND
from joinlay.jobs.plan import Plan
from joinlay.lengths import GRADUATIONS, Unit, dimension, inches, mm, read_length, written
from joinlay.shop import Saw, usual_shop
from joinlay.stock import Sheet, Solid
from tests import by_hand

DATUM = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")


def size(text: str, unit: Unit = Unit.INCH):
    return written(read_length(text, unit), "size", "a test")


def ply(name: str = "ply", thickness: str = "1/2", kind: str = "plywood", sheet: tuple[str, str] = ("96", "48")) -> Sheet:
    return Sheet(name, size(thickness), None, size(sheet[0]), size(sheet[1]), kind)


def cherry(name: str = "cherry", nominal: str = "1", measured: str | None = "13/16") -> Solid:
    return Solid(name, size(nominal), None if measured is None else size(measured), "black cherry")


def board(name: str, length="20", width="4", stock="ply", thickness="1/2", part="drawer side", cuts=(), **more) -> Board:
    return by_hand.board(name, part, stock, size(length), size(width), size(thickness), DATUM, cuts=tuple(cuts), **more)


def groove(offset: str = "3/8", wide: str = "1/4", deep: str = "1/4", length: str = "20", start: str = "0") -> Cut:
    edge = size(offset)
    across, into = Span(edge, edge + size(wide)), Span.of(inches(0), size(deep))
    return by_hand.cut(
        CutKind.GROOVE, Surface.FACE, Span.of(size(start), size(length)), across, into, "bottom groove", "bottom", "groove"
    )


def mortise(at: str, across: str = "1", name: str = "mortise 1") -> Cut:
    along = Span.about(size(at), mm(6))
    return by_hand.cut(
        CutKind.MORTISE,
        Surface.FACE,
        along,
        Span.about(size(across), mm(18)),
        Span.of(mm(0), mm(9)),
        name,
        "front",
        "front corner",
        Shape.ROUND_ENDS,
    )


def left(made: Board) -> Board:
    """Placed as a left side stands."""
    return replace(made, place=Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", "-X"))


def right(made: Board) -> Board:
    """Placed as a right side stands: the mirror image of a left one."""
    return replace(made, place=Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", "+X"))


def front(
    number: int, up: str, length: str = "18", width: str = "5", stock: str = "ply", along: str = "+X", x: str = "0"
) -> Board:
    """A drawer front standing ``up`` above the floor."""
    across = "+Z" if along == "+X" else "+X"
    place = Place.at(size(x), mm(0), size(up), along, across, "-Y" if along == "+X" else "+Y")
    return board(f"drawer {number} front", length, width, stock, part="drawer front", place=place)


def tenon(name: str, length: str = "1", width: str = "1/2", thickness: str = "5/32") -> Board:
    return board(name, length, width, "loose tenon strip", thickness, "loose tenon", has_round_edges=True)


def one_bank(boards):
    """Every drawer that has a front among ``boards`` above the next, the lowest number uppermost."""
    drawers = {made.role.drawer for made in boards if made.role.kind is PartKind.DRAWER_FRONT}
    return (tuple((drawer,) for drawer in sorted(drawers, key=lambda drawer: drawer.number)),)


def make_plan(
    *boards: Board,
    stocks=None,
    unit: Unit = Unit.INCH,
    on_hand=NOTHING_ON_HAND,
    kerf=None,
    practice=None,
    drawers=(),
    banks=None,
    meetings=(),
) -> Plan:
    stocks = stocks if stocks is not None else {"ply": ply()}
    shop = usual_shop(unit)
    if kerf is not None:
        shop = replace(shop, saw=Saw(dimension(kerf)))
    if practice is not None:
        shop = replace(shop, practice=shop.practice.but({name: dimension(figure) for name, figure in practice.items()}))
    rule = GRADUATIONS["1/32 in" if unit is Unit.INCH else "0.5 mm"]
    others = (Assembly(Whole.CASE, tuple(boards), tuple(meetings)),)
    return Plan(
        title="chest",
        file="chest.toml",
        unit=unit,
        rule=rule,
        shop=shop,
        stocks=stocks,
        drawers=tuple(drawers),
        others=others,
        findings=(),
        paper="letter",
        on_hand=on_hand,
        rows=one_bank(boards) if banks is None else banks,
    )


def row_of(parts: CuttingList, name: str) -> Row:
    """The row that the part called ``name`` stands in."""
    return next(row for row in parts.rows if name in row.names)
