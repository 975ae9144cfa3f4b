"""Solid wood cut from boards on hand: defects cut out first, then parts crosscut and ripped from the clear lengths (CL-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards.names import in_few_words
from joinlay.cutlist.layout import lay_out
from joinlay.cutlist.pattern import Blank, CutSheet, Direction, Keeps, Layout, Panel, SawCut
from joinlay.cutlist.sheet_layout import offcut_limits, pieces_of
from joinlay.findings import note
from joinlay.jobs.on_hand import BoardOnHand, FirstCut
from joinlay.lengths import ZERO, Length
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.cutting_list import CuttingList, Group
    from joinlay.cutlist.pattern import LaidPiece, Piece
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan

__all__ = ["board_layouts", "clear_lengths"]


def board_layouts(plan: Plan, parts: CuttingList) -> tuple[Layout, ...]:
    """A layout for each solid stock of which there are boards on hand; parts that find no room are left out, to be bought.

    Parts are cut at their rough sizes. Every board is crosscut first, as solid wood is: at its defects, then to rough lengths, which
    are then ripped. No whole boards are added, so ``least_whole`` is 0 (CL-2).
    """
    layouts = []
    for stock in dict.fromkeys(group.stock for group in parts.groups if isinstance(group.stock, Solid)):
        names = {stock.name, *(key for key, each in plan.stocks.items() if each == stock)}
        boards = [each for have in plan.on_hand.boards if have.stock in names for each in _each(have)]
        if boards:
            # A part thicker than the boards is to be glued up or bought; solid_needs says so.
            groups = [group for group in parts.groups if group.stock == stock and group.thickness <= stock.thickness]
            if groups:
                layouts.append(_layout(plan, stock, groups, boards))
    return tuple(layouts)


def clear_lengths(board: BoardOnHand, kerf: Length) -> tuple[tuple[tuple[Length, Length], ...], tuple[SawCut, ...]]:
    """Where the clear lengths of ``board`` start and stop, and the crosscuts that part them from the defects, in order.

    A cut takes its kerf from the defect's side, so no clear wood is lost to it, save where a defect is thinner than the kerf.
    """
    clear: list[tuple[Length, Length]] = []
    cuts: list[SawCut] = []
    start, end = Length(0), Length(board.length.mm)

    def crosscut(at: Length, keeps: Keeps) -> None:
        """Cut what is left of the board at ``at``, counted from the board's end."""
        panel = Panel(start, ZERO, end - start, Length(board.width.mm))
        cuts.append(SawCut(len(cuts) + 1, Direction.CROSSCUT, panel, at - start, keeps))

    for defect in sorted(board.defects, key=lambda defect: defect.start):
        if defect.stop <= start:
            continue
        if defect.start > start:
            clear.append((start, Length(defect.start.mm)))
            crosscut(defect.start, Keeps.NEAR if defect.stop >= end else Keeps.BOTH)
            start = defect.start + kerf
        if start < defect.stop < end:
            crosscut(defect.stop - kerf, Keeps.FAR)
        start = max(start, Length(defect.stop.mm))
    if start < end:
        clear.append((start, end))
    return tuple(clear), tuple(cuts)


def _each(have: BoardOnHand) -> Iterator[BoardOnHand]:
    """Boards that are alike, one by one."""
    for n in range(1, have.count + 1):
        yield replace(have, name=have.name if have.count == 1 else f"{have.name}, {n} of {have.count}", count=1)


def _layout(plan: Plan, stock: Solid, groups: Sequence[Group], boards: Sequence[BoardOnHand]) -> Layout:
    kerf, keep = plan.shop.saw.kerf, offcut_limits(plan)
    sections: list[Blank] = []
    of: dict[str, tuple[BoardOnHand, Length]] = {}
    for board in boards:
        for start, stop in clear_lengths(board, kerf)[0]:
            name = f"{board.name} from {start.mm}"
            sections.append(Blank(name, stop - start, board.width, ZERO))
            of[name] = (board, start)
    # The smallest first, so that long clear lengths are kept for long parts.
    sections.sort(key=lambda blank: blank.length.mm * blank.width.mm)
    pieces = pieces_of(groups)
    laid = lay_out(pieces, sections, None, kerf, FirstCut.CROSSCUT, keep)
    sawn = {sheet.blank.name: sheet for sheet in laid.sheets}
    cut = []
    for board in boards:
        own = [(start, sawn[name]) for name, (whose, start) in of.items() if whose == board and name in sawn]
        if own:
            cut.append(_whole_board(board, own, kerf))
    used = {sheet.blank.name for sheet in cut}
    unused = tuple(_blank(board) for board in boards if board.name not in used)
    found = tuple(_short(laid.left_out, len(pieces)))
    return Layout(stock.name, stock.thickness, kerf, FirstCut.CROSSCUT, tuple(cut), 0, laid.left_out, unused, found)


def _blank(board: BoardOnHand) -> Blank:
    return Blank(board.name, board.length, board.width, ZERO)


def _whole_board(board: BoardOnHand, sections: Sequence[tuple[Length, CutSheet]], kerf: Length) -> CutSheet:
    """The cuts that clear the board of its defects, then those of each clear length, numbered through."""
    cuts = list(clear_lengths(board, kerf)[1])
    pieces: list[LaidPiece] = []
    offcuts: list[Panel] = []
    for start, section in sections:
        cuts += [
            replace(cut, number=len(cuts) + n, panel=_shifted(cut.panel, start)) for n, cut in enumerate(section.cuts, start=1)
        ]
        pieces += [replace(laid, panel=_shifted(laid.panel, start)) for laid in section.pieces]
        offcuts += [_shifted(panel, start) for panel in section.offcuts]
    offcuts.sort(key=lambda panel: -panel.area)
    defects = tuple(Panel(Length(each.start.mm), ZERO, each.stop - each.start, Length(board.width.mm)) for each in board.defects)
    return CutSheet(_blank(board), tuple(pieces), tuple(cuts), tuple(offcuts), defects)


def _shifted(panel: Panel, along: Length) -> Panel:
    return replace(panel, along=panel.along + along)


def _short(left_out: Sequence[Piece], all_of_them: int) -> Iterator[Finding]:
    if left_out:
        yield note(
            "boards run out",
            "The boards on hand hold {held} of {count} parts; wood for the rest is on the list of what to buy: {parts}.",
            "CL-2",
            held=all_of_them - len(left_out),
            count=all_of_them,
            parts=in_few_words(piece.name for piece in left_out),
        )
