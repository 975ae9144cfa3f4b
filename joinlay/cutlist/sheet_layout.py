"""Sheet layouts for a plan: every part of sheet goods laid on offcuts first, then on as few whole sheets as can be found (CL-2)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards.names import in_few_words
from joinlay.cutlist.columns import stack_fronts
from joinlay.cutlist.cutting_list import Grain
from joinlay.cutlist.layout import OffcutLimits, lay_out
from joinlay.cutlist.pattern import Blank, Layout, Piece
from joinlay.findings import note, warning
from joinlay.lengths import ZERO, dimension
from joinlay.stock import Sheet

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.cutlist.columns import Stack
    from joinlay.cutlist.cutting_list import CuttingList, Group
    from joinlay.findings import Finding
    from joinlay.jobs.on_hand import OnHand
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Length

__all__ = ["offcut_limits", "pieces_of", "sheet_layouts"]


def sheet_layouts(plan: Plan, parts: CuttingList) -> tuple[Layout, ...]:
    """A layout for each stock of sheet goods among ``parts``, in the order of the list (CL-2).

    The kerf is the shop's saw's; the trim of whole sheets is ``edge trim`` of the practice table; offcuts are used to their edges.
    Fronts of a bank are kept in one column unless ``plan.on_hand.sawing`` says not to.
    """
    groups: dict[str, list[Group]] = {}
    for group in parts.groups:
        if isinstance(group.stock, Sheet):
            groups.setdefault(group.stock.name, []).append(group)
    boards = {board.name: board for board in plan.boards}
    return tuple(_layout(plan, name, same, boards) for name, same in groups.items())


def pieces_of(groups: Sequence[Group]) -> list[Piece]:
    """Every part of ``groups`` as a piece to saw."""
    return [
        Piece(name, row.number, row.sawn.length, row.sawn.width, row.grain is Grain.ANY)
        for group in groups
        for row in group.rows
        for name in row.names
    ]


def offcut_limits(plan: Plan) -> OffcutLimits:
    """The smallest offcut worth keeping, from the practice table (CL-2)."""
    return OffcutLimits(plan.shop.practice.length("shortest offcut"), plan.shop.practice.length("narrowest offcut"))


def _layout(plan: Plan, name: str, groups: Sequence[Group], boards: Mapping[str, Board]) -> Layout:
    stock = groups[0].stock
    assert isinstance(stock, Sheet)
    kerf, sawing = plan.shop.saw.kerf, plan.on_hand.sawing
    whole = Blank(name, stock.length, stock.width, plan.shop.practice.length("edge trim"), is_whole=True)
    pieces = pieces_of(groups)
    has_grain = any(not piece.any_grain for piece in pieces)
    have = _offcuts(plan.on_hand, [key for key, each in plan.stocks.items() if each == stock], has_grain=has_grain)
    stacks = stack_fronts(pieces, boards, whole, kerf) if sawing.fronts_together else ()
    laid = lay_out(pieces, have, whole, kerf, sawing.first_cut, offcut_limits(plan), stacks)
    found = [*_too_large(laid.left_out, (*have, whole), name), *_no_grain(have), *_broken_columns(stacks)]
    if stacks and laid.whole > laid.least_whole:
        loose = lay_out(pieces, have, whole, kerf, sawing.first_cut, offcut_limits(plan))
        found += _cost_of_columns(laid.whole - loose.whole)
    return Layout(
        name, stock.thickness, kerf, sawing.first_cut, laid.sheets, laid.least_whole, laid.left_out, laid.unused, tuple(found)
    )  # fmt: skip


def _offcuts(on_hand: OnHand, names: Sequence[str], *, has_grain: bool) -> list[Blank]:
    """What is on hand of one stock, each piece on its own, the smallest first so that large ones are kept."""
    blanks = []
    for have in on_hand.sheets:
        if have.stock in names:
            numbers = [have.name] if have.count == 1 else [f"{have.name}, {n} of {have.count}" for n in range(1, have.count + 1)]
            blanks += [Blank(n, have.length, have.width, ZERO, grain_known=have.grain_known or not has_grain) for n in numbers]
    return sorted(blanks, key=lambda blank: blank.length.mm * blank.width.mm)


def _too_large(left_out: Sequence[Piece], blanks: Sequence[Blank], stock: str) -> Iterator[Finding]:
    """Say of each part that fits nothing how large it is, and how large it might be."""
    for piece in left_out:
        room = max(blanks, key=lambda blank: (blank.is_whole, blank.length.mm * blank.width.mm))
        long, wide = (dimension(size - 2 * room.trim) for size in (room.length, room.width))
        if not piece.any_grain and _fits(piece.width, piece.length, blanks):
            remedy = "It would fit with its grain the other way: say that its grain does not matter, if it does not."
        else:
            remedy = "Use a larger sheet, make the part smaller, or join it from narrower pieces."
        yield warning(
            "part too large",
            "It is {length} by {width}, and the most a sheet of {stock} gives, edges trimmed, is {long} by {wide}.",
            remedy,
            "CL-2",
            length=piece.length,
            width=piece.width,
            stock=stock,
            long=long,
            wide=wide,
        ).at(piece.name)


def _fits(length: Length, width: Length, blanks: Sequence[Blank]) -> bool:
    return any(length + 2 * blank.trim <= blank.length and width + 2 * blank.trim <= blank.width for blank in blanks)


def _no_grain(blanks: Sequence[Blank]) -> Iterator[Finding]:
    unknown = [blank.name for blank in blanks if not blank.grain_known]
    if unknown:
        yield note(
            "offcut without grain",
            "Which way its grain runs is not said, so only parts whose grain does not matter are cut from it. "
            "Say grain = \"length\" or grain = \"width\" to use it for the rest.",
            "CL-2",
        ).at(in_few_words(unknown))  # fmt: skip


def _broken_columns(stacks: Sequence[Stack]) -> Iterator[Finding]:
    for stack in stacks:
        if stack.parted_from:
            yield note(
                "fronts in two columns",
                "The fronts from here down begin a new column, as no sheet is large enough for all; the grain breaks below {above}.",
                "CL-2",
                above=stack.parted_from,
            ).at(stack.pieces[0].name)


def _cost_of_columns(more: int) -> Iterator[Finding]:
    if more > 0:
        yield note(
            "fronts together",
            "To keep the fronts of a bank in one column takes {more}. Say fronts-together = false if their grain need not run on.",
            "CL-2",
            more="one sheet more" if more == 1 else f"{more} sheets more",
        )
