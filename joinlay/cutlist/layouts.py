"""Parts laid on what is on hand and on whole sheets: from exact lengths to whole numbers, through the search, and back (CL-2).

How it goes: the least common multiple of all denominators turns every length into a whole number, so that the search is quick
and still exact. ``search`` finds which part lies where, ``sawing`` the cuts that free them; both are turned back into lengths.
Parts that are the same then take their names in the order they come off the saw.
"""

from __future__ import annotations

from dataclasses import replace
from math import lcm
from typing import TYPE_CHECKING

from joinlay.boards.names import natural
from joinlay.cutlist.cutting_list import Grain
from joinlay.cutlist.fewest import least_sheets
from joinlay.cutlist.guillotine import Bin, Item
from joinlay.cutlist.pattern import Blank, CutSheet, Direction, LaidPiece, Panel, PartToSaw, SawCut
from joinlay.cutlist.sawing import Column, Region, saw_out
from joinlay.cutlist.search import search
from joinlay.jobs.on_hand import FirstCut
from joinlay.lengths import Fraction, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.cutlist.cutting_list import Group
    from joinlay.cutlist.guillotine import Packing
    from joinlay.cutlist.sawing import Sawn
    from joinlay.jobs.plan import Plan

__all__ = ["FrontColumn", "LaidOut", "OffcutLimits", "lay_out", "offcut_limits", "parts_to_saw"]


@dataclass(frozen=True, slots=True)
class OffcutLimits:
    """The smallest offcut worth keeping: its longer side at least ``shortest``, its shorter one ``narrowest``."""

    shortest: Length
    narrowest: Length

    def keep(self, panel: Panel) -> bool:
        """True for a panel worth keeping."""
        sizes = (panel.length, panel.width)
        return max(sizes) >= self.shortest and min(sizes) >= self.narrowest


def offcut_limits(plan: Plan) -> OffcutLimits:
    """The smallest offcut worth keeping in the shop of ``plan``, from its practice table (CL-2)."""
    return OffcutLimits(plan.shop.practice.length("shortest offcut"), plan.shop.practice.length("narrowest offcut"))


def parts_to_saw(groups: Sequence[Group]) -> list[PartToSaw]:
    """Every part of ``groups``, to be sawn at the size its row says."""
    return [
        PartToSaw(name, row.number, row.sawn.length, row.sawn.width, row.grain is Grain.ANY)
        for group in groups
        for row in group.rows
        for name in row.names
    ]


@dataclass(frozen=True, slots=True)
class FrontColumn:
    """Pieces cut one after the other from one column, a kerf between.

    ``across`` True: they lie above one another across the sheet, as fronts do whose grain runs from side to side; False: end to
    end, for fronts with upright grain. ``parted_from`` is the last piece before, where the column had to be broken.
    """

    pieces: tuple[PartToSaw, ...]
    across: bool
    parted_from: str = ""

    def length(self, kerf: Length) -> Length:
        """How much of the sheet's length it takes, with a ``kerf`` between pieces."""
        sizes = [piece.length for piece in self.pieces]
        return max(sizes) if self.across else _end_to_end(sizes, kerf)

    def width(self, kerf: Length) -> Length:
        """How much of the sheet's width it takes, with a ``kerf`` between pieces."""
        sizes = [piece.width for piece in self.pieces]
        return _end_to_end(sizes, kerf) if self.across else max(sizes)


def _end_to_end(sizes: Sequence[Length], kerf: Length) -> Length:
    return sum(sizes[1:], Length(sizes[0].mm)) + kerf * (len(sizes) - 1)


@dataclass(frozen=True, slots=True)
class LaidOut:
    """What came of it: sheets that are cut, what could not be laid, blanks not needed, and the bound on whole sheets."""

    sheets: tuple[CutSheet, ...]
    left_out: tuple[PartToSaw, ...]
    unused: tuple[Blank, ...]
    least_whole: int

    @property
    def whole(self) -> int:
        """How many whole sheets are cut into."""
        return sum(sheet.blank.is_whole for sheet in self.sheets)


def lay_out(
    pieces: Sequence[PartToSaw],
    on_hand: Sequence[Blank],
    whole: Blank | None,
    kerf: Length,
    first_cut: FirstCut,
    keep: OffcutLimits,
    stacks: Sequence[FrontColumn] = (),
) -> LaidOut:
    """Lay ``pieces`` on the blanks ``on_hand`` first, then on as few ``whole`` ones as can be found; None: no more to be had.

    Cuts run right across, with ``kerf`` between pieces and the blanks' trim off every edge a piece would lie against.
    ``first_cut`` says which way a whole sheet is cut first, ``keep`` which offcuts are worth keeping. ``stacks`` are columns of
    some of the pieces, kept together. Every piece is laid once or is among ``left_out`` (CL-2).
    """
    work = _WholeNumbers.of(pieces, on_hand, whole, kerf, stacks)
    first_rip = {FirstCut.RIP: True, FirstCut.CROSSCUT: False, FirstCut.EITHER: None}[first_cut]
    bins = [work.bin(blank) for blank in on_hand]
    sheet = work.bin(whole) if whole is not None else None
    packing = search(work.items, bins, sheet, first_rip=first_rip)
    # What fits no sheet at all says nothing of how many the rest needs; and the bound is for any layout, columns or none.
    placed = [work.item(n) for step in packing.steps for n in work.numbers_in(step.item.number)]
    least = least_sheets(placed, bins, sheet) if sheet is not None else 0
    blanks = [*on_hand, *([whole] * packing.opened if whole is not None else [])]
    used = {step.space.bin for step in packing.steps}
    cut = [work.cut(packing, n, blank, keep, rip_first=first_rip is not False) for n, blank in enumerate(blanks) if n in used]
    # What is on hand first, as it comes; then whole sheets, the fullest first, so that the last leaves the most.
    cut.sort(key=lambda each: (each.blank.is_whole, -each.used if each.blank.is_whole else 0))
    left_out = [work.pieces[n] for item in packing.left_out for n in work.numbers_in(item.number)]
    sheets, rest = _named_in_order(cut, left_out, frozenset(piece.name for stack in stacks for piece in stack.pieces))
    return LaidOut(sheets, rest, tuple(blank for n, blank in enumerate(blanks) if n not in used), least)


def _named_in_order(
    sheets: Sequence[CutSheet], left_out: Sequence[PartToSaw], kept: frozenset[str]
) -> tuple[tuple[CutSheet, ...], tuple[PartToSaw, ...]]:
    """Parts that are the same take their names in the order they come off the saw; those in ``kept`` columns keep their own."""
    alike: dict[tuple[object, ...], list[PartToSaw]] = {}
    for piece in (*(laid.piece for sheet in sheets for laid in sheet.pieces), *left_out):
        if piece.name not in kept:
            alike.setdefault(_kind(piece), []).append(piece)
    waiting = {kind: sorted(pieces, key=lambda piece: natural(piece.name), reverse=True) for kind, pieces in alike.items()}

    def named(piece: PartToSaw) -> PartToSaw:
        return piece if piece.name in kept else waiting[_kind(piece)].pop()

    renamed = [replace(sheet, pieces=tuple(replace(laid, piece=named(laid.piece)) for laid in sheet.pieces)) for sheet in sheets]
    return tuple(renamed), tuple(sorted(map(named, left_out), key=lambda piece: natural(piece.name)))


def _kind(piece: PartToSaw) -> tuple[object, ...]:
    return (piece.row, piece.length.mm, piece.width.mm, piece.any_grain)


@dataclass(frozen=True, slots=True)
class _WholeNumbers:
    """The pieces in whole numbers: every length times ``scale``. Items past the pieces are columns."""

    pieces: tuple[PartToSaw, ...]
    items: tuple[Item, ...]
    columns: dict[int, Column]
    kerf: int
    scale: int

    @classmethod
    def of(
        cls,
        pieces: Sequence[PartToSaw],
        on_hand: Sequence[Blank],
        whole: Blank | None,
        kerf: Length,
        stacks: Sequence[FrontColumn],
    ) -> _WholeNumbers:
        blanks = [*on_hand, *([whole] if whole is not None else [])]
        lengths = [kerf, *_sizes(pieces), *_sizes(blanks), *(blank.trim for blank in blanks)]
        scale = lcm(*(length.mm.denominator for length in lengths))

        def number(length: Length) -> int:
            return int(length.mm * scale)

        cut = number(kerf)
        where = {piece.name: n for n, piece in enumerate(pieces)}
        columns: dict[int, Column] = {}
        items: list[Item] = []
        for n, stack in enumerate(stacks, start=len(pieces)):
            parts = [(where[p.name], number(p.length) + cut, number(p.width) + cut) for p in stack.pieces]
            columns[n] = Column(stack.across, tuple(parts))
            items.append(Item(n, number(stack.length(kerf)) + cut, number(stack.width(kerf)) + cut, turnable=False))
        stacked = {number for column in columns.values() for number, *_ in column.parts}
        for n, piece in enumerate(pieces):
            if n not in stacked:
                items.append(Item(n, number(piece.length) + cut, number(piece.width) + cut, piece.any_grain))
        return cls(tuple(pieces), tuple(items), columns, cut, scale)

    def number(self, length: Length) -> int:
        return int(length.mm * self.scale)

    def length(self, number: int) -> Length:
        return Length(Fraction(number, self.scale))

    def bin(self, blank: Blank) -> Bin:
        length, width = (self.number(size - 2 * blank.trim) + self.kerf for size in (blank.length, blank.width))
        return Bin(length, width, only_turnable=not blank.grain_known)

    def item(self, number: int) -> Item:
        """PartToSaw ``number`` by itself."""
        piece = self.pieces[number]
        return Item(number, self.number(piece.length) + self.kerf, self.number(piece.width) + self.kerf, piece.any_grain)

    def numbers_in(self, number: int) -> list[int]:
        """The pieces of an item: itself, or those of a column."""
        column = self.columns.get(number)
        return [number] if column is None else [part for part, *_ in column.parts]

    def cut(self, packing: Packing, n: int, blank: Blank, keep: OffcutLimits, *, rip_first: bool) -> CutSheet:
        """Blank number ``n`` of ``packing``, sawn out."""
        steps = [step for step in (*packing.steps, *packing.blocks) if step.space.bin == n]
        panel = Region(0, 0, self.number(blank.length), self.number(blank.width))
        sawn = saw_out(steps, panel, self.columns, kerf=self.kerf, trim=self.number(blank.trim), rip_first=rip_first)
        turned = {step.item.number for step in steps if step.turned}
        laid = (LaidPiece(self.pieces[number], self._panel(region), number in turned) for number, region in sawn.laid.items())
        offcuts = [panel for panel in map(self._panel, sawn.rests) if keep.keep(panel)]
        offcuts.sort(key=lambda panel: -panel.area)
        return CutSheet(blank, tuple(laid), tuple(self._cuts(sawn)), tuple(offcuts))

    def _cuts(self, sawn: Sawn) -> Iterable[SawCut]:
        for n, stroke in enumerate(sawn.strokes, start=1):
            direction = Direction.RIP if stroke.is_rip else Direction.CROSSCUT
            yield SawCut(n, direction, self._panel(stroke.panel), self.length(stroke.at), stroke.keeps)

    def _panel(self, region: Region) -> Panel:
        return Panel(*(self.length(number) for number in region))


def _sizes(things: Iterable[PartToSaw | Blank]) -> Iterable[Length]:
    for thing in things:
        yield from (thing.length, thing.width)
