"""The cutting list: every part once, with its finished, core and rough size, grouped by what it is cut from (CL-1).

Boards that are the same piece of wood share a row: same size, same stock, same wood taken out, whichever way they are turned. A
left and a right drawer side have the same cuts at the same distances, yet one is the other's mirror image and cannot take its
place, unless the cuts happen to be alike end for end, face for face or edge for edge.
"""

from __future__ import annotations

from enum import Enum
from itertools import product
from typing import TYPE_CHECKING

from joinlay.boards import Axis, PartKind, Shape, Surface
from joinlay.boards.names import in_few_words
from joinlay.casework.banding import core_size
from joinlay.errors import nearest_names
from joinlay.findings import warning
from joinlay.lengths import Length
from joinlay.records import dataclass
from joinlay.stock import Sheet

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator, Mapping

    from joinlay.boards import Band, Board, Cut, Taper
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension, Fraction
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = [
    "CuttingList",
    "Grain",
    "Group",
    "Row",
    "Size",
    "Slant",
    "cutting_list",
    "row_remarks",
    "shape_key",
    "slants_of",
    "stock_called",
    "taper_words",
]


class Grain(Enum):
    """Which way the grain of the wood must run in a part."""

    LENGTH = "with the length"
    ANY = "does not matter"


@dataclass(frozen=True, slots=True)
class Size:
    """Length with the grain, width across it, thickness through."""

    length: Dimension
    width: Dimension
    thickness: Dimension


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the list: boards that are truly the same.

    ``number`` counts through the whole list and stands for the row on the sheet layouts. ``names`` are those on the templates.
    ``core`` is None without banding, ``rough`` None for sheet goods, which are sawn to size at once.
    """

    number: int
    board: Board
    names: tuple[str, ...]
    finished: Size
    core: Size | None
    rough: Size | None
    grain: Grain

    @property
    def kind(self) -> PartKind:
        """What kind of part it is."""
        return self.board.role.kind

    @property
    def part(self) -> str:
        """The trade's word for its kind, for people: ``drawer side``."""
        return self.kind.value

    @property
    def bands(self) -> tuple[Band, ...]:
        """The bands of one part, in the order of gluing."""
        return tuple(sorted(self.board.bands, key=lambda band: band.order))

    @property
    def quantity(self) -> int:
        """How many are needed."""
        return len(self.names)

    @property
    def where(self) -> str:
        """Where each one goes, in few words: ``drawer 1 to 4 back``."""
        return in_few_words(self.names)

    @property
    def sawn(self) -> Size:
        """The size to saw: rough for solid wood, else the core where the part is banded, else finished."""
        return self.rough or self.core or self.finished


@dataclass(frozen=True, slots=True)
class Group:
    """Rows cut from one stock at one thickness. ``stock`` is None where the job does not describe it."""

    name: str
    stock: Stock | None
    thickness: Dimension
    rows: tuple[Row, ...]

    @property
    def quantity(self) -> int:
        """How many parts there are in it."""
        return sum(row.quantity for row in self.rows)

    @property
    def is_loose(self) -> bool:
        """True for what goes between two parts, which is listed last."""
        return all(row.kind.is_loose for row in self.rows)

    @property
    def is_tenons(self) -> bool:
        """True for loose tenons, which are milled as strip."""
        return all(row.kind is PartKind.LOOSE_TENON for row in self.rows)


@dataclass(frozen=True, slots=True)
class CuttingList:
    """The groups in the order of the job's stocks, loose tenons last, and what was found."""

    groups: tuple[Group, ...]
    findings: tuple[Finding, ...]

    @property
    def rows(self) -> tuple[Row, ...]:
        """Every row, by number."""
        return tuple(row for group in self.groups for row in group.rows)


def cutting_list(plan: Plan) -> CuttingList:
    """The cutting list of ``plan`` (CL-1; rough sizes after Joyce; core sizes EB-2).

    The grain of a part does not matter where its kind is named in ``plan.on_hand.sawing``, or its sheet has none (MDF,
    hardboard, particleboard). Parts are merged only where one can stand in for the other: same stock, size, cuts, tapers and
    bands, and not mirrored.
    """
    alike: dict[Hashable, list[Board]] = {}
    for board in plan.boards:
        alike.setdefault(shape_key(board), []).append(board)
    grouped: dict[tuple[str, object], list[list[Board]]] = {}
    for boards in _by_kind(list(alike.values())):
        grouped.setdefault((boards[0].stock, boards[0].thickness.mm), []).append(boards)
    order = list(plan.stocks)
    keys = sorted(grouped, key=lambda key: _place_of(grouped[key][0][0], order))
    groups, number = [], 0
    for key in keys:
        stock = stock_called(key[0], plan.stocks)
        rows = []
        for boards in grouped[key]:
            number += 1
            rows.append(_row(number, boards, stock, plan.on_hand.sawing.any_grain, plan.shop.practice))
        groups.append(Group(key[0], stock, rows[0].finished.thickness, tuple(rows)))
    return CuttingList(tuple(groups), tuple(_found(groups, plan)))


def stock_called(name: str, stocks: Mapping[str, Stock]) -> Stock | None:
    """The one of ``stocks`` (by the job's keys) that a board names, by that key or by its own name; None where there is none."""
    return stocks.get(name) or next((stock for stock in stocks.values() if stock.name == name), None)


def _by_kind(rows: list[list[Board]]) -> list[list[Board]]:
    """Rows of one kind of part next to each other, kinds in the order they first come."""
    kinds = list(dict.fromkeys(boards[0].role.kind for boards in rows))
    return sorted(rows, key=lambda boards: kinds.index(boards[0].role.kind))


def _place_of(board: Board, order: list[str]) -> tuple[bool, int]:
    return (board.role.kind.is_loose, order.index(board.stock) if board.stock in order else len(order))


def _row(number: int, boards: list[Board], stock: Stock | None, any_grain: frozenset[str], practice: Practice) -> Row:
    board = boards[0]
    with_it, across_it = (Axis.ACROSS, Axis.ALONG) if board.has_grain_across else (Axis.ALONG, Axis.ACROSS)
    finished = Size(board.size(with_it), board.size(across_it), board.thickness)
    core = None
    if board.bands:
        core = Size(core_size(board, with_it), core_size(board, across_it), board.thickness)
    # A knob's blank is a rough size already, with its own allowances for turning and parting.
    is_rough = stock is not None and stock.is_solid and board.role.kind is not PartKind.KNOB_BLANK
    rough = _rough(board.name, core or finished, practice) if is_rough else None
    names = tuple(each.name for each in boards)
    return Row(number, board, names, finished, core, rough, _grain(board, stock, any_grain))


def _rough(name: str, size: Size, practice: Practice) -> Size:
    """CL-1, after Joyce: longer by 1/2 in and wider by 1/4 in than the part (12 and 6 mm), for solid wood."""
    return Size(
        (size.length + practice.length("rough length allowance")).named(f"{name} rough length", "CL-1", "Joyce"),
        (size.width + practice.length("rough width allowance")).named(f"{name} rough width", "CL-1", "Joyce"),
        size.thickness,
    )


def _grain(board: Board, stock: Stock | None, any_grain: frozenset[str]) -> Grain:
    grainless = isinstance(stock, Sheet) and stock.kind != "plywood"
    return Grain.ANY if grainless or board.role.kind.value in any_grain else Grain.LENGTH


def _found(groups: list[Group], plan: Plan) -> Iterator[Finding]:
    known = ", ".join(plan.stocks) or "none"
    for group in groups:
        if group.stock is None and not group.is_loose:
            yield warning(
                "no stock",
                "{count} parts are of {stock}, which the job does not describe, so they are in the list but on no layout: "
                "{parts}.",
                "Describe {stock} among the stocks, or give the parts one that is there: {known}.",
                "CL-1",
                count=group.quantity,
                stock=group.name,
                parts=in_few_words(name for row in group.rows for name in row.names),
                known=known,
            ).at(group.name)
    kinds = tuple(dict.fromkeys(board.role.kind.value for board in plan.boards))
    for kind in sorted(plan.on_hand.sawing.any_grain.difference(kinds)):
        yield warning(
            "no such part",
            "The grain of {named} was said not to matter, but no part is called that.",
            "Write one of these: {kinds}.",
            "CL-2",
            named=kind,
            kinds=", ".join(nearest_names(kind, kinds) or kinds),
        )


def row_remarks(row: Row, text: Callable[[Length], str], by: str = "×") -> Iterator[str]:
    """Each remark on ``row`` in a few words, lengths by ``text``, sizes with ``by`` between them (CL-1, EB-1, EB-2, DR-4).

    The core is said only where the part is sawn larger still; else it is what is sawn.
    """
    if row.grain is Grain.ANY:
        yield "grain does not matter"
    elif row.board.has_grain_across:
        yield "grain upright: its length here is its height in the piece"
    if row.core is not None and row.rough is not None:
        yield f"core {text(row.core.length)} {by} {text(row.core.width)}"
    if row.bands:
        edges = ", ".join(f"{row.board.datum.word(band.surface)} {band.stock}" for band in row.bands)
        lipping = next((band for band in row.bands if band.width is not None), None)
        strips = (
            "" if lipping is None or lipping.width is None else f"; strips {text(lipping.thickness)} {by} {text(lipping.width)}"
        )
        yield f"{'band' if lipping is None else 'lip'}, in this order: {edges}{strips}"
    if said := taper_words(row.board, text):
        yield said
    if said := planing_words_of(row.board, text):
        yield said


@dataclass(frozen=True, slots=True)
class Slant:
    """How long or wide a tapered board is ``at`` one of its edges or ends, in the maker's words for it, and what is planed off
    there.

    ``across`` is ``long`` or ``wide``, by what the taper changes; ``off`` comes off each of ``planed``, the maker's words for two
    ends or edges.
    """

    across: str
    at: str
    size: Length
    off: Length
    planed: tuple[str, ...]


def slants_of(board: Board) -> Iterator[Slant]:
    """How ``board`` is tapered, the reference edge or end first: two for each of length and width that changes; none for a
    square one (DR-4).
    """
    for axis, across, ends in (
        (Axis.ALONG, "long", (Surface.EDGE, Surface.FAR_EDGE)),
        (Axis.ACROSS, "wide", (Surface.END, Surface.FAR_END)),
    ):
        planed = [taper for taper in board.tapers if taper.surface.axis is axis]
        for taken, end in zip(zip(*((taper.near, taper.far) for taper in planed), strict=True), ends, strict=False):
            # Left and right half of a bottom share a row.
            is_half = board.role.kind is PartKind.DRAWER_BOTTOM and board.role.hand is not None
            names = tuple("outer end" if is_half else board.datum.word(taper.surface) for taper in planed)
            size = Length(board.size(axis).mm - sum(each.mm for each in taken))
            yield Slant(across, board.datum.word(end), size, max(taken), names)


def taper_words(board: Board, text: Callable[[Length], str]) -> str:
    """How ``board`` is planed to a slant, lengths by ``text``; '' for a square one (DR-4).

    ``tapered: 17 3/4 in long at the front edge, 17 23/32 in at the back edge (1/64 in off the left end and the right end
    there)``.
    """
    said: list[str] = []
    for slant in slants_of(board):
        off = f" ({text(slant.off)} off the {' and the '.join(slant.planed)} there)" if slant.off.mm else ""
        said.append(f"{text(slant.size)} {slant.across} at the {slant.at}{off}")
    return f"tapered: {', '.join(said)}" if said else ""


def planing_words_of(board: Board, text: Callable[[Length], str]) -> str:
    """Where and about how much a part that is made full is planed as it is fitted, lengths by ``text``; '' for any other (HF-1).

    ``made full, plane until it goes: about 1/32 in off the outside face, 1/32 in off the top edge``.
    """
    said = [f"{text(off)} off the {board.datum.word(surface)}" for surface, off in board.planed]
    return f"made full, plane until it goes: about {', '.join(said)}" if said else ""


# -- when two boards are the same ----------------------------------------------------------------------

_AXES = tuple(Axis)

#: Which of length, width and thickness are counted from the far end instead. An even number of them is a turn of the board, which
#: changes nothing; an odd number is its mirror image.
_FLIPS = tuple(product((False, True), repeat=3))

_Flips = tuple[bool, ...]


def shape_key(board: Board) -> Hashable:
    """A key that two boards share only where one can stand in for the other (CL-1).

    Equal for boards of one kind, stock and size whose cuts, tapers and bands take the same wood once one of the two is turned
    over or end for end. A mirror image has another key, unless the board is its own mirror image.
    """
    hand = not board.end_on_left
    turns = [flips for flips in _FLIPS if sum(flips) % 2 == hand]
    sizes = tuple(board.size(axis).mm for axis in _AXES)
    return (
        board.role.kind,
        board.stock,
        sizes,
        board.has_round_edges,
        board.has_grain_across,
        _planing(board),
        min(_seen(board, flips) for flips in turns),
    )


def _planing(board: Board) -> tuple[tuple[str, Fraction], ...]:
    """What is planed off it, by the maker's words for the surface: the same for left and right (HF-1)."""
    return tuple((board.datum.word(surface), off.mm) for surface, off in board.planed)


def _seen(board: Board, flips: _Flips) -> tuple[tuple[tuple[object, ...], ...], ...]:
    """Everything that shapes the board, counted from the references that ``flips`` picks, in an order that can be compared."""
    cuts = {_cut_key(board, cut, flips) for cut in board.cuts}
    tapers = {_taper_key(taper, flips) for taper in board.tapers}
    bands = {_band_key(band, flips) for band in board.bands}
    return tuple(tuple(sorted(keys)) for keys in (cuts, tapers, bands))


def _cut_key(board: Board, cut: Cut, flips: _Flips) -> tuple[object, ...]:
    spans: list[Fraction] = []
    for axis, flip in zip(_AXES, flips, strict=True):
        span, size = cut.span(axis), board.size(axis).mm
        spans += [size - span.stop.mm, size - span.start.mm] if flip else [span.start.mm, span.stop.mm]
    # Where the cutter enters matters only to rounded mouths; a square pocket is the wood it takes.
    entered = "" if cut.shape is Shape.SQUARE else cut.surface.axis.value
    return (*spans, cut.shape.value, entered)


def _taper_key(taper: Taper, flips: _Flips) -> tuple[object, ...]:
    ends = (taper.near.mm, taper.far.mm)
    runs_along = taper.surface.axis is Axis.ACROSS
    swapped = flips[_AXES.index(Axis.ALONG if runs_along else Axis.ACROSS)]
    return (_turned(taper.surface, flips).value, *(reversed(ends) if swapped else ends))


def _band_key(band: Band, flips: _Flips) -> tuple[object, ...]:
    return (_turned(band.surface, flips).value, band.stock, band.thickness.mm, band.length.mm)


def _turned(surface: Surface, flips: _Flips) -> Surface:
    return surface.opposite if flips[_AXES.index(surface.axis)] else surface
