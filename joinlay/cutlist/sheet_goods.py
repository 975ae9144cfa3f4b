"""Sheet goods laid out for a plan: every part on offcuts first, then on as few whole sheets as can be found (CL-2).

The fronts of one bank are cut from one column of the sheet, top to bottom, so that the grain runs on from front to front; upright
grain too. What that costs in sheets is found by laying everything a second time without.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import PartKind
from joinlay.boards.names import in_few_words
from joinlay.cutlist.layouts import FrontColumn, lay_out, offcut_limits, parts_to_saw
from joinlay.cutlist.pattern import Blank, Layout, PartToSaw
from joinlay.findings import note, warning
from joinlay.lengths import ZERO, Length, dimension
from joinlay.stock import Sheet

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board, DrawerRole
    from joinlay.cutlist.cutting_list import CuttingList, Group
    from joinlay.cutlist.pattern import CutSheet
    from joinlay.findings import Finding
    from joinlay.jobs.on_hand import OnHand
    from joinlay.jobs.plan import Plan

__all__ = ["run_words", "sheet_layouts", "stack_fronts"]


def sheet_layouts(plan: Plan, parts: CuttingList) -> tuple[Layout, ...]:
    """A layout for each stock of sheet goods among ``parts``, in the order of the list (CL-2).

    The kerf is the shop's saw's; the trim of whole sheets is ``edge trim`` of the practice table; offcuts are used to their
    edges. Fronts of a bank are kept in one column unless ``plan.on_hand.sawing`` says not to.
    """
    groups: dict[str, list[Group]] = {}
    for group in parts.groups:
        if isinstance(group.stock, Sheet):
            groups.setdefault(group.stock.name, []).append(group)
    boards = {board.name: board for board in plan.boards}
    return tuple(_layout(plan, name, same, boards) for name, same in groups.items())


def _layout(plan: Plan, name: str, groups: Sequence[Group], boards: Mapping[str, Board]) -> Layout:
    stock = groups[0].stock
    assert isinstance(stock, Sheet)
    kerf, sawing = plan.shop.saw.kerf, plan.on_hand.sawing
    whole = Blank(name, stock.length, stock.width, plan.shop.practice.length("edge trim"), is_whole=True)
    pieces = parts_to_saw(groups)
    has_grain = any(not piece.any_grain for piece in pieces)
    have = _offcuts(plan.on_hand, [key for key, each in plan.stocks.items() if each == stock], has_grain=has_grain)
    stacks = stack_fronts(pieces, boards, plan.rows, whole, kerf) if sawing.fronts_together else ()
    laid = lay_out(pieces, have, whole, kerf, sawing.first_cut, offcut_limits(plan), stacks)
    found = [*_too_large(laid.left_out, (*have, whole), name, boards), *_no_grain(have), *_broken_columns(stacks)]
    if stacks and laid.whole > laid.least_whole:
        loose = lay_out(pieces, have, whole, kerf, sawing.first_cut, offcut_limits(plan))
        found += _cost_of_columns(laid.whole - loose.whole)
    return Layout(
        stock=name,
        thickness=stock.thickness,
        kerf=kerf,
        first_cut=sawing.first_cut,
        sheets=laid.sheets,
        least_whole=laid.least_whole,
        left_out=laid.left_out,
        unused=laid.unused,
        findings=tuple(found),
        runs=tuple(tuple(piece.name for piece in stack.pieces) for stack in stacks if len(stack.pieces) > 1),
    )


def run_words(layout: Layout, sheet: CutSheet) -> tuple[str, ...]:
    """Of each run of fronts on ``sheet``, in which order they come off it and what for; nothing where it has none (CL-2).

    ``One run, so that the figure goes on from front to front: drawer 4 front, drawer 5 front, from left to right in the drawing.
    ...``
    """
    laid = {each.piece.name: each.panel for each in sheet.pieces}
    said = []
    for run in layout.runs:
        if not all(name in laid for name in run):
            continue
        first, last = laid[run[0]], laid[run[-1]]
        if first.across.mm == last.across.mm:
            way = "from left to right" if first.along.mm < last.along.mm else "from right to left"
        else:
            way = "from the bottom up" if first.across.mm < last.across.mm else "from the top down"
        said.append(
            f"One run, so that the figure goes on from front to front: {', '.join(run)}, {way} in the drawing. "
            f"Draw one large triangle across "
            "them all before they are sawn apart."
        )
    return tuple(said)


def _offcuts(on_hand: OnHand, names: Sequence[str], *, has_grain: bool) -> list[Blank]:
    """What is on hand of one stock, each piece on its own, the smallest first so that large ones are kept."""
    blanks = []
    for have in on_hand.sheets:
        if have.stock in names:
            numbers = [have.name] if have.count == 1 else [f"{have.name}, {n} of {have.count}" for n in range(1, have.count + 1)]
            blanks += [Blank(n, have.length, have.width, ZERO, grain_known=have.grain_known or not has_grain) for n in numbers]
    return sorted(blanks, key=lambda blank: blank.length.mm * blank.width.mm)


def _too_large(
    left_out: Sequence[PartToSaw], blanks: Sequence[Blank], stock: str, boards: Mapping[str, Board]
) -> Iterator[Finding]:
    """Say of each part that fits nothing how large it is, and how large it might be."""
    for piece in left_out:
        room = max(blanks, key=lambda blank: (blank.is_whole, blank.length.mm * blank.width.mm))
        long, wide = (dimension(size - 2 * room.trim) for size in (room.length, room.width))
        if not piece.any_grain and _fits(piece.width, piece.length, blanks):
            remedy = "It would fit with its grain the other way: say that its grain does not matter, if it does not."
        elif _is_whole_bottom(boards.get(piece.name)) and _fits(piece.length / 2, piece.width, blanks):
            # Each half is shorter than half of it by some of the bar (BO-1).
            remedy = (
                "Part it by a grooved bar down its middle (bottom-bar = and its stock), use a larger sheet, or make it smaller."
            )
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


def _is_whole_bottom(board: Board | None) -> bool:
    return board is not None and board.role.kind is PartKind.DRAWER_BOTTOM and board.role.hand is None


def _fits(length: Length, width: Length, blanks: Sequence[Blank]) -> bool:
    return any(length + 2 * blank.trim <= blank.length and width + 2 * blank.trim <= blank.width for blank in blanks)


def _no_grain(blanks: Sequence[Blank]) -> Iterator[Finding]:
    unknown = [blank.name for blank in blanks if not blank.grain_known]
    if unknown:
        yield note(
            "offcut without grain",
            "Which way its grain runs is not said, so only parts whose grain does not matter are cut from it. "
            'Say grain = "length" or grain = "width" to use it for the rest.',
            "CL-2",
        ).at(in_few_words(unknown))


def _broken_columns(stacks: Sequence[FrontColumn]) -> Iterator[Finding]:
    for stack in stacks:
        if stack.parted_from:
            yield note(
                "fronts in two columns",
                "The fronts from here down begin a new column, since no sheet is large enough for all of them; "
                "the grain breaks below {above}.",
                "CL-2",
                above=stack.parted_from,
            ).at(stack.pieces[0].name)


def _cost_of_columns(more: int) -> Iterator[Finding]:
    if more > 0:
        yield note(
            "fronts together",
            "To keep the fronts of a bank in one column takes {more}. "
            "Say fronts-together = false if their grain need not run on.",
            "CL-2",
            more="one sheet more" if more == 1 else f"{more} sheets more",
        )


def stack_fronts(
    pieces: Sequence[PartToSaw],
    boards: Mapping[str, Board],
    banks: Sequence[Sequence[Sequence[DrawerRole]]],
    sheet: Blank,
    kerf: Length,
) -> tuple[FrontColumn, ...]:
    """The columns to cut the fronts among ``pieces`` in, a ``kerf`` between two, each no larger than a whole ``sheet``.

    ``boards`` are the boards by name; ``banks`` say which drawers stand above one another: the rows of each from the top down,
    each row from the left. Drawers side by side are cut from one strip, end to end as they stand. Pieces that are no fronts, may
    be turned, or stand alone in their bank are left to lie anywhere. A bank too tall for the sheet is broken where it must be.
    Source: common practice.
    """
    room = (sheet.length - 2 * sheet.trim, sheet.width - 2 * sheet.trim)
    fronts = {boards[piece.name].role.drawer: piece for piece in pieces if _is_kept(boards[piece.name], piece)}
    stacks: list[FrontColumn] = []
    for bank in banks:
        above = [row[0] for row in bank if len(row) == 1]
        runs = [(above, True), *((row, False) for row in bank if len(row) > 1)]
        for run, is_down in runs:
            standing = [fronts[drawer] for drawer in run if drawer in fronts]
            for upright in (False, True):
                alike = [front for front in standing if _is_upright(boards[front.name]) is upright]
                stacks.extend(_broken(alike, room, kerf, across=is_down is not upright))
    return tuple(stack for stack in stacks if len(stack.pieces) > 1 or stack.parted_from)


def _is_kept(board: Board, piece: PartToSaw) -> bool:
    """True for a front whose grain matters."""
    return board.role.kind is PartKind.DRAWER_FRONT and not piece.any_grain


def _is_upright(board: Board) -> bool:
    """True where the grain of a front runs up and down in the piece."""
    stands = board.place is not None and abs(board.place.along[2]) > abs(board.place.along[0])
    return stands is not board.has_grain_across


def _broken(bank: Sequence[PartToSaw], room: tuple[Length, Length], kerf: Length, *, across: bool) -> list[FrontColumn]:
    """The bank in as few columns as fit, filled from the top."""
    stacks: list[FrontColumn] = []
    run: list[PartToSaw] = []
    parted_from = ""
    for piece in bank:
        longer = FrontColumn((*run, piece), across, parted_from)
        if run and (longer.length(kerf) > room[0] or longer.width(kerf) > room[1]):
            stacks.append(FrontColumn(tuple(run), across, parted_from))
            parted_from, run = run[-1].name, []
        run.append(piece)
    return [*stacks, FrontColumn(tuple(run), across, parted_from)] if run else stacks
