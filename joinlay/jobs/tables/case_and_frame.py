"""``[case]``, ``[frame]`` and ``[stops]``: what stands around the drawers and, with its banks and runners, makes a piece."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Annotated

from pydantic import Field, model_validator

from joinlay.boards import DrawerRole
from joinlay.boards.fastener import FastenerKind
from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.face_frame import FrameMake, FrameSizes
from joinlay.casework.graduation import Heights, OneByOne, Rounding
from joinlay.casework.outwards import (
    filled_by,
    opening_depth_around,
    opening_height_around,
    opening_width_around,
    piece_depth_around,
)
from joinlay.casework.piece import Bank, PieceSpec, within_room
from joinlay.casework.runners import RunnerMake
from joinlay.casework.stops import StopMake
from joinlay.errors import BadInput
from joinlay.jobs.tables.drawers import BankEntry, DrawerEntry, DrawersEntry
from joinlay.jobs.tables.filler import FillerEntry
from joinlay.jobs.tables.given import (
    Entry,
    Gap,
    Given,
    Size,
    StockName,
    dimension_of,
    dimension_or_none,
    dimension_or_zero,
    one_of,
)
from joinlay.jobs.tables.runners import RunnersEntry
from joinlay.jobs.tables.top_and_base import BaseEntry, TopEntry, less_top_and_base
from joinlay.jobs.tables.within import Within
from joinlay.joints.rabbet import design_rabbet
from joinlay.lengths import Dimension, Graduation, Length, dimension, largest, mm
from joinlay.shop import Shop, TenonStock
from joinlay.stock import Stock

__all__ = [
    "BankEntry",
    "CaseEntry",
    "FrameEntry",
    "PieceTables",
    "RoomEntry",
    "StopsEntry",
    "piece_spec",
]

Dadoes = Annotated[Given[bool], one_of({"through": False, "stopped": True})]
Fastening = Annotated[Given[FastenerKind], one_of({"nails": FastenerKind.NAIL, "screws": FastenerKind.SCREW})]
Fitted = Annotated[Given[bool], one_of({"blocks": True, "none": False})]


class RoomEntry(Entry):
    """The room a piece goes into, and what is to be left free ``beside`` it at each side, ``above`` and ``behind`` it."""

    width: Size
    height: Size
    depth: Size
    beside: Gap | None = None
    above: Gap | None = None
    behind: Gap | None = None

    def sizes(self) -> tuple[Dimension, Dimension, Dimension]:
        """Width, height and depth over all of the piece that fits it."""
        room = tuple(dimension_of(getattr(self, key), f"room {key}") for key in ("width", "height", "depth"))
        free = {
            key: dimension_or_zero(getattr(self, key), f"free space {key} the piece") for key in ("beside", "above", "behind")
        }
        return within_room((room[0], room[1], room[2]), **free)


class CaseEntry(Entry):
    """The case: its sizes over all, frame included, or the ``room`` it goes into; and what it is made of."""

    width: Size | None = None
    height: Size | None = None
    depth: Size | None = None
    room: Within[RoomEntry] | None = None
    sides: StockName
    panels: StockName | None = None
    back: StockName
    bottom_offset: Size | None = None
    top_offset: Size | None = None
    back_inset: Size | None = None
    back_held: Fastening | None = None
    dadoes: Dadoes | None = None

    @model_validator(mode="after")
    def _has_its_sizes(self) -> "CaseEntry":
        written = [key for key in ("width", "height", "depth") if getattr(self, key) is not None]
        if self.room is not None and written:
            raise BadInput(f"the room gives the piece its sizes, and {written[0]} is written as well; leave one of them out.")
        return self

    def sizes(self) -> tuple[Dimension | None, Dimension | None, Dimension | None]:
        """Width, height and depth over all; None for one that isn't written, and so must follow from what lies in the drawers
        (CO-1).
        """
        if self.room is not None:
            return self.room.sizes()
        return (
            dimension_or_none(self.width, "piece width over all"),
            dimension_or_none(self.height, "piece height over all"),
            dimension_or_none(self.depth, "piece depth over all"),
        )

    def make(self, stocks: Mapping[str, Stock]) -> CaseMake:
        """What it is made of, out of the job's ``stocks`` by name; panels of the sides' stock where none is named."""
        sides = stocks[self.sides.value]
        return CaseMake(
            sides,
            sides if self.panels is None else stocks[self.panels.value],
            stocks[self.back.value],
            dimension_or_none(self.bottom_offset, "case bottom offset"),
            dimension_or_none(self.top_offset, "case top offset"),
            has_stopped_dadoes=self.dadoes is not None and self.dadoes.value,
            back_inset=dimension_or_none(self.back_inset, "case back inset"),
            back_held=None if self.back_held is None else self.back_held.value,
        )


class FrameEntry(Entry):
    """The face frame: its stock and, where they differ from the usual, its widths and overhangs."""

    stock: StockName
    stile: Size | None = None
    mullion: Size | None = None
    top_rail: Size | None = None
    bottom_rail: Size | None = None
    rail: Size | None = None
    overhang: Gap | None = None
    scribe: Gap | None = None
    overhang_top: Gap | None = None
    overhang_bottom: Gap | None = None

    def make(self, stocks: Mapping[str, Stock]) -> FrameMake:
        """What the frame is made of, out of the job's ``stocks`` by name."""
        return FrameMake(
            stocks[self.stock.value],
            stile=dimension_or_none(self.stile, "stile width"),
            mullion=dimension_or_none(self.mullion, "mullion width"),
            top_rail=dimension_or_none(self.top_rail, "top rail height"),
            bottom_rail=dimension_or_none(self.bottom_rail, "bottom rail height"),
            rail=dimension_or_none(self.rail, "rail height"),
            overhang=dimension_or_none(self.overhang, "frame overhang"),
            scribe=dimension_or_zero(self.scribe, "what is scribed away"),
            overhang_top=dimension_or_zero(self.overhang_top, "frame overhang at the top"),
            overhang_bottom=dimension_or_zero(self.overhang_bottom, "frame overhang at the bottom"),
        )


class StopsEntry(Entry):
    """Stop blocks on a strip behind each rail, of the runners' stock unless another is named; ``kind`` "none": no stops."""

    kind: Fitted | None = None
    stock: StockName | None = None
    thickness: Size | None = None
    sag: Gap | None = None

    def make(self, runner: Stock, stocks: Mapping[str, Stock]) -> StopMake | None:
        """The stops, of the ``runner`` stock or of one of the job's ``stocks`` by name; None where there are to be none."""
        if self.kind is not None and not self.kind.value:
            return None
        stock = runner if self.stock is None else stocks[self.stock.value]
        return StopMake(
            stock, dimension_or_none(self.thickness, "stop block height"), dimension_or_zero(self.sag, "sag of a loaded bottom")
        )


class PieceTables(Entry):
    """The tables of a job that describe the piece around its drawers; all of them, or none."""

    case: Within[CaseEntry] | None = None
    frame: Within[FrameEntry] | None = None
    bank: Annotated[list[Within[BankEntry]], Field(max_length=8)] | None = None
    runners: Within[RunnersEntry] | None = None
    stops: Within[StopsEntry] | None = None
    top: Within[TopEntry] | None = None
    base: Within[BaseEntry] | None = None
    filler: Within[FillerEntry] | None = None


def piece_spec(
    tables: PieceTables,
    every: DrawersEntry,
    stocks: Mapping[str, Stock],
    shop: Shop,
    tenon_of: Callable[[Given[Length]], TenonStock],
) -> PieceSpec | None:
    """The piece that ``tables`` describe, its rails as high as FF-1 has them unless told; None where they describe none.

    ``every`` is what ``[drawers]`` says; ``stocks`` are the job's by name. ``shop`` has the practice of all drawers in it;
    ``tenon_of`` gives the shop's tenon stock of a thickness. Raises BadInput where a table is missing, or some banks have a
    width and more than one has none.
    """
    if tables.case is None and tables.frame is None and tables.bank is None:
        if (needless := next((key for key in ("top", "base", "filler") if getattr(tables, key)), None)) is not None:
            raise BadInput(f"a [{needless}] belongs to a whole piece, and this job has openings alone; leave it out.")
        return None
    rides = tables.runners is not None or not any(bank.count for bank in tables.bank or ())
    if tables.case is None or tables.frame is None or not tables.bank or not rides:
        missing = next(key for key in ("case", "frame", "bank", "runners") if not getattr(tables, key))
        raise BadInput(f"the piece lacks its [{missing}]; a whole piece has [case], [frame], [[bank]] and [runners].")
    if tables.runners is not None and tables.runners.measured:
        key = tables.runners.measured[0]
        raise BadInput(f"{key} under [runners] is measured of a case that is there, and this job makes its own; leave it out.")
    if tables.filler is not None:
        _refuse_two_ways_to_the_wall(tables.frame, tables.case)
    top = None if tables.top is None else tables.top.make(stocks)
    base = None if tables.base is None else tables.base.make(stocks, shop.practice)
    frame = tables.frame.make(stocks)
    # Where nothing runs, nothing is made of it.
    runners = RunnerMake(frame.stock) if tables.runners is None else tables.runners.make(stocks, stocks[tables.case.sides.value])
    runner = runners.stock
    rail = frame.sizes(shop.practice).rail
    banks, first, first_open = [], 1, 1
    for part in tables.bank:
        banks.append(_bank(part, (first, first_open), rail, every, stocks, shop, tenon_of))
        first += part.count
        first_open += part.open_count
    stops = (tables.stops or StopsEntry()).make(runner, stocks)
    case = tables.case.make(stocks)
    around = _Outwards(tables.bank, banks, every, frame.sizes(shop.practice), case, shop)
    written = tables.case.sizes()
    if tables.case.room is not None:
        written = less_top_and_base(tables.case.room.sizes(), top, base, tables.filler, shop)
    width, height, depth = around.sizes(written)
    return PieceSpec(
        width=width,
        height=height,
        depth=depth,
        frame=frame,
        case=case,
        banks=tuple(banks),
        runner=runner,
        stops=stops,
        widths=_widths([around.bank_width(n) for n in range(len(banks))]),
        top=top,
        base=base,
        filler=None if tables.filler is None else tables.filler.make(frame.stock, stocks),
        guide=runners.guide,
        kicker=runners.kicker,
        nail=runners.nail,
        screw=runners.screw,
    )


def _refuse_two_ways_to_the_wall(frame: FrameEntry, case: CaseEntry) -> None:
    """Refuse a filler beside stiles that are scribed to the wall themselves, or where the gap is to stay open."""
    if frame.scribe is not None and frame.scribe.value.mm:
        raise BadInput("scribe under [frame] lets the stiles reach the walls, and a [filler] is there to do that; leave one out.")
    if case.room is not None and case.room.beside is not None and case.room.beside.value.mm:
        raise BadInput("beside is left free between piece and walls, and a [filler] closes that; leave one of them out.")


def _bank(
    part: BankEntry,
    firsts: tuple[int, int],
    rail: Dimension,
    every: DrawersEntry,
    stocks: Mapping[str, Stock],
    shop: Shop,
    tenon_of: Callable[[Given[Length]], TenonStock],
) -> Bank:
    """One bank; ``firsts`` are the numbers of its topmost drawer and of its topmost open bay."""
    first, first_open = firsts
    own = DrawerEntry.model_construct(**{field: getattr(part, field) for field in DrawersEntry.model_fields})
    tenon = own.found("tenon", every)
    wishes = []
    for n in range(first, first + part.count):
        name = DrawerRole(n).name
        practice, planed = own.fitted(own.practice(shop.practice, name), every)
        make = own.make_of(name, every, stocks, planed)
        wish = DrawerWish(make, replace(shop, practice=practice), tenon_of(tenon) if tenon else None)
        wishes.append(wish)
    between = dimension_or_none(part.rail, "rail height")
    return Bank(
        heights=part.division(first, between if between is not None else rail, first_open),
        drawers=tuple(wishes),
        rounding=_rounding(part, every, shop.rule),
        rail=between,
        rows=part.row_wishes(first, first_open, stocks),
        mullion=dimension_or_none(part.mullion, "width of the mullions in a row"),
    )


def _rounding(part: BankEntry, every: DrawersEntry, rule: Graduation) -> Rounding | None:
    """How the openings come to the maker's rule (FR-1); None where what lies in the drawers, or their fronts,
    gives them (CO-1).
    """
    if part.remainder is not None:
        return Rounding(rule, part.remainder.value)
    is_around = any(one is not None for said in (part, every) for one in (said.inside, said.front_size))
    return None if is_around else Rounding(rule)


def _widths(given: Sequence[Dimension | None]) -> Heights | None:
    """How the width is divided: None, alike, where no bank says."""
    if not any(given):
        return None
    if sum(one is None for one in given) > 1:
        raise BadInput("some banks have a width and more than one has none; leave one at most to take what is left.")
    return OneByOne(tuple(given))


class _Outwards:
    """The piece around what lies in its drawers: the sizes over all that aren't written (CO-1)."""

    def __init__(
        self,
        entries: Sequence[BankEntry],
        banks: Sequence[Bank],
        every: DrawersEntry,
        frame: FrameSizes,
        case: CaseMake,
        shop: Shop,
    ) -> None:
        self._entries, self._banks, self._frame, self._case, self._shop = entries, banks, frame, case, shop
        self._first = [DrawerRole(1 + sum(bank.count for bank in entries[:n])) for n in range(len(entries))]
        self._wishes = [
            (entry if entry.inside or entry.front_size else every).outwards(first.name)
            for entry, first in zip(entries, self._first, strict=True)
        ]

    def sizes(
        self, written: tuple[Dimension | None, Dimension | None, Dimension | None]
    ) -> tuple[Dimension, Dimension, Dimension]:
        """Width, height and depth over all: as ``written``, or from the inside out. BadInput where one is both, or neither."""
        asked = (
            [n for n, wish in enumerate(self._wishes) if wish.gives_width],
            [n for n, wish in enumerate(self._wishes) if wish.gives_height],
            [n for n, wish in enumerate(self._wishes) if wish.depth is not None],
        )
        for key, size, banks in zip(("width", "height", "depth"), written, asked, strict=True):
            drawers = [n for n in banks if self._banks[n].drawers]
            if size is not None and drawers:
                raise BadInput(
                    f"the piece's {key} follows from what lies in its drawers, and is written under [case] as "
                    f"well; leave one of them out."
                )
            if size is None and not drawers:
                raise BadInput(
                    f'{key} is missing; write width, height and depth over all, room = {{ width = "40", ... }}, or inside = '
                    "and what must lie in each drawer."
                )
        width, height, depth = written
        return (
            self._width() if width is None else width,
            self._height(asked[1]) if height is None else height,
            self._depth(asked[2]) if depth is None else depth,
        )

    def bank_width(self, n: int) -> Dimension | None:
        """The width of a bank's openings: as written, around what lies in its drawers, or None: it takes what is left."""
        entry, bank, wish = self._entries[n], self._banks[n], self._wishes[n]
        if not wish.gives_width or not bank.drawers:
            return dimension_or_none(entry.width, f"bank {n + 1} opening width asked for")
        if entry.width is not None:
            raise BadInput(
                f"the width of bank {n + 1} follows from what lies in its drawers, and is written as well; leave one of them out."
            )
        if any(row.widths is not None for row in bank.rows):
            raise BadInput(
                f"a row of bank {n + 1} has widths of its own, so what lies in its drawers can't give them; "
                f"leave one of them out."
            )
        each, most = self._opening_width(n), bank.most_side_by_side
        mullion = bank.mullion if bank.mullion is not None else self._frame.mullion
        wide = each * most + mullion * (most - 1) if most > 1 else each
        return wide.named(f"bank {n + 1} opening width around its drawers", "CO-1", "by geometry")

    def _opening_width(self, n: int) -> Dimension:
        made = self._banks[n].drawers[0]
        return opening_width_around(self._first[n], self._wishes[n], made.make, made.shop)

    def _opening_height(self, n: int) -> Dimension:
        made = self._banks[n].drawers[0]
        return opening_height_around(self._first[n], self._wishes[n], made.make, made.shop)

    def _width(self) -> Dimension:
        whole = 2 * self._frame.stile
        for n in range(len(self._banks)):
            bank = self.bank_width(n)
            if bank is None:
                raise BadInput(
                    f"the piece's width is worked out around its drawers, and bank {n + 1} says none; give it a width, or inside."
                )
            whole = whole + bank if n == 0 else whole + self._frame.mullion + bank
        return whole.named("piece width over all", "CO-1", "by geometry")

    def _height(self, asked: Sequence[int]) -> Dimension:
        """Around the bank that is the highest; the others then have more room than they asked for."""
        heights = []
        for n in asked:
            bank = self._banks[n]
            if not bank.drawers:
                continue
            if any(row.open is not None and not row.left_open for row in bank.rows):
                raise BadInput(
                    f"bank {n + 1} has an open bay, whose height nothing says; write height under [case] in place of that inside."
                )
            rail = bank.rail if bank.rail is not None else self._frame.rail
            rails = [rail] * (bank.heights.count - 1)
            heights.append(filled_by(bank.heights, self._opening_height(n), rails, self._frame.top_rail, self._frame.bottom_rail))
        return largest(*heights).named("piece height over all", "CO-1", "by geometry") if len(heights) > 1 else heights[0]

    def _depth(self, asked: Sequence[int]) -> Dimension:
        """Around the deepest drawer, whose sides reach past its back by what the corner there asks."""
        rabbet = design_rabbet(into=self._case.sides.thickness, panel=self._case.back.thickness, shop=self._shop)
        depths = []
        for n in asked:
            if self._banks[n].drawers:
                made = self._banks[n].drawers[0]
                # Any opening that holds a drawer tells how far its sides reach past its back.
                tried = dimension(mm(1000))
                depths.append(opening_depth_around(self._first[n], self._wishes[n], tried, tried, made.make, made.shop))
        return piece_depth_around(depths, rabbet)
