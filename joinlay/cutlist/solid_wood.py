"""Solid wood: what thickness to ask for, how much to buy, and how parts are cut from the boards on hand (CL-2).

It is sold rough, by the board foot or the cubic metre, and bought with something over for waste. Boards on hand are crosscut
first, as solid wood is: defects are cut out, and parts are crosscut and then ripped from the clear lengths, each laid out like
a small sheet.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.assembly.glue_words import runs_of
from joinlay.boards import Surface
from joinlay.boards.names import in_few_words
from joinlay.checks.lumber_check import LUMBER_KINDS
from joinlay.cutlist.chosen_boards import joints_in
from joinlay.cutlist.clear_wood import boards_there, clear_lengths
from joinlay.cutlist.cutting_list import stock_called
from joinlay.cutlist.glued_up import boards_to_saw, strip_widths
from joinlay.cutlist.layouts import lay_out, offcut_limits
from joinlay.cutlist.pattern import Blank, CutSheet, Layout, Panel
from joinlay.findings import note
from joinlay.jobs.on_hand import BoardOnHand, FirstCut
from joinlay.lengths import ZERO, Fraction, Length, Unit
from joinlay.records import dataclass
from joinlay.stock import Solid
from joinlay.stock.lumber import Lumber, lumber_for

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Band
    from joinlay.cutlist.chosen_boards import Joints
    from joinlay.cutlist.cutting_list import CuttingList, Group
    from joinlay.cutlist.pattern import LaidPiece, PartToSaw
    from joinlay.findings import Finding
    from joinlay.jobs.on_hand import BoardOnHand
    from joinlay.jobs.plan import Plan
    from joinlay.stock import Stock

__all__ = [
    "CUBIC_METRES",
    "SolidNeed",
    "board_feet",
    "board_layouts",
    "cubic_metres",
    "lipping_stock",
    "solid_needs",
]


def board_feet(length: Length, width: Length, thickness: Length) -> Fraction:
    """Board feet in a piece of this rough ``length``, ``width`` and ``thickness``.

    144 cubic inches each; under an inch thick counts as an inch (D6, NHLA).
    """
    return length.inches * width.inches * max(thickness.inches, Fraction(1)) / 144


def cubic_metres(length: Length, width: Length, thickness: Length) -> Fraction:
    """Cubic metres in a piece of this rough ``length``, ``width`` and ``thickness``. Source: by geometry."""
    return length.mm * width.mm * thickness.mm / 10**9


#: What solid wood is bought by where the job is in millimetres, and in inches.
CUBIC_METRES: Final = "cubic metres"
_BOARD_FEET: Final = "board feet"


@dataclass(frozen=True, slots=True)
class SolidNeed:
    """Solid wood of one stock: ``net`` in the parts at their rough sizes, ``on_hand`` of it from boards the maker has.

    ``widest`` is the widest board of a part that is glued up from several, as sawn (PN-1); None: none is.
    ``buy`` is the rest with the waste added. All in ``unit``: ``board feet`` or ``cubic metres``.
    """

    stock: Solid
    lumber: Lumber
    unit: str
    net: Fraction
    on_hand: Fraction
    buy: Fraction
    findings: tuple[Finding, ...] = ()
    widest: Length | None = None


def solid_needs(plan: Plan, parts: CuttingList, layouts: Sequence[Layout] = ()) -> tuple[SolidNeed, ...]:
    """What ``plan`` needs of each solid stock of its ``parts``; ``layouts`` are those on boards on hand (CL-2).

    Board feet where the job is in inches (144 cubic inches of sawn thickness, D6), cubic metres where it is in millimetres.
    Waste is a share of the rough sizes, added to them: 20 % for our own choice.
    """
    needs, joints = [], joints_in(plan, parts)
    lipped = (lipping_stock(band, plan.stocks) for row in parts.rows for band in row.bands)
    stocks = [
        *(group.stock for group in parts.groups if isinstance(group.stock, Solid)),
        *(stock for stock in lipped if stock is not None),
    ]
    for stock in dict.fromkeys(stocks):
        groups = [group for group in parts.groups if group.stock == stock]
        held = {laid.piece.name for each in layouts if each.stock == stock.name for sheet in each.sheets for laid in sheet.pieces}
        needs.append(_need(plan, stock, groups, held, parts, joints))
    return tuple(needs)


def lipping_stock(band: Band, stocks: Mapping[str, Stock]) -> Solid | None:
    """The solid stock of the job's that a lipping is ripped from; None for banding, and for wood that the job doesn't describe
    (EB-4).
    """
    found = None if band.width is None else stock_called(band.stock, stocks)
    return found if isinstance(found, Solid) else None


def _lippings(plan: Plan, stock: Solid, parts: CuttingList, lumber: Lumber) -> Fraction:
    """What is ripped from ``stock`` as lipping, the kerf beside each strip with it (EB-4)."""
    volume, kerf, total = board_feet if plan.unit is Unit.INCH else cubic_metres, plan.shop.saw.kerf, Fraction(0)
    for row in parts.rows:
        for band in row.bands:
            if lipping_stock(band, plan.stocks) == stock:
                assert band.width is not None
                total += row.quantity * volume(band.length, band.thickness + kerf, max(lumber.thickness, band.width))
    return total


def _need(plan: Plan, stock: Solid, groups: Sequence[Group], held: set[str], parts: CuttingList, joints: Joints) -> SolidNeed:
    lumber = lumber_for(stock, plan.unit)
    net = on_hand = Fraction(0)
    volume = board_feet if plan.unit is Unit.INCH else cubic_metres
    rows = {row.number: row for group in groups for row in group.rows}
    for piece in boards_to_saw(groups, plan.shop.practice, joints):
        each = volume(piece.length, piece.width, max(lumber.thickness, rows[piece.row].sawn.thickness))
        net += each
        on_hand += each if piece.name in held else 0
    net += _lippings(plan, stock, parts, lumber)
    buy = (net - on_hand) * (1 + plan.shop.practice.ratio("solid wood waste"))
    unit = _BOARD_FEET if plan.unit is Unit.INCH else CUBIC_METRES
    strips = [
        width for row in rows.values() if len(widths := strip_widths(row, plan.shop.practice, joints)) > 1 for width in widths
    ]
    return SolidNeed(stock, lumber, unit, net, on_hand, buy, tuple(_of_lumber(plan, stock)), max(strips, default=None))


def _of_lumber(plan: Plan, stock: Solid) -> Iterator[Finding]:
    """What the checks have said of this ``stock``: parts that no lumber of it is thick enough for."""
    return (finding for finding in plan.findings if finding.kind in LUMBER_KINDS and finding.numbers.get("stock") == stock.name)


def board_layouts(plan: Plan, parts: CuttingList) -> tuple[Layout, ...]:
    """A layout for each solid stock of ``plan`` with boards on hand; ``parts`` that find no room are left out, to be bought.

    Parts are cut at their rough sizes. Every board is crosscut first, as solid wood is: at its defects, then to rough lengths,
    which are then ripped. No whole boards are added, so ``least_whole`` is 0 (CL-2).
    """
    layouts, joints = [], joints_in(plan, parts)
    for stock in dict.fromkeys(group.stock for group in parts.groups if isinstance(group.stock, Solid)):
        boards = boards_there(plan, stock)
        if boards:
            # A part thicker than the boards is to be glued up or bought; solid_needs says so.
            groups = [group for group in parts.groups if group.stock == stock and group.thickness <= stock.thickness]
            if groups:
                layouts.append(_board_layout(plan, stock, groups, boards, joints))
    return tuple(layouts)


def _board_layout(plan: Plan, stock: Solid, groups: Sequence[Group], boards: Sequence[BoardOnHand], joints: Joints) -> Layout:
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
    pieces = boards_to_saw(groups, plan.shop.practice, joints)
    laid = lay_out(pieces, sections, None, kerf, FirstCut.CROSSCUT, keep)
    sawn = {sheet.blank.name: sheet for sheet in laid.sheets}
    cut = []
    for board in boards:
        own = [(start, sawn[name]) for name, (whose, start) in of.items() if whose == board and name in sawn]
        if own:
            cut.append(_whole_board(board, own, kerf))
    used = {sheet.blank.name for sheet in cut}
    unused = tuple(_blank(board) for board in boards if board.name not in used)
    found = (
        *_short(laid.left_out, len(pieces)),
        *_chosen(plan, groups, joints, () if laid.left_out else unused),
        *_of_no_use(laid.left_out, unused),
    )
    return Layout(
        stock=stock.name,
        thickness=stock.thickness,
        kerf=kerf,
        first_cut=FirstCut.CROSSCUT,
        sheets=tuple(cut),
        least_whole=0,
        left_out=laid.left_out,
        unused=unused,
        findings=found,
    )


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


def _short(left_out: Sequence[PartToSaw], all_of_them: int) -> Iterator[Finding]:
    if left_out:
        yield note(
            "boards run out",
            "The boards on hand hold {held} of {count} parts; wood for the rest is on the list of what to buy: {parts}.",
            "CL-2",
            held=all_of_them - len(left_out),
            count=all_of_them,
            parts=in_few_words(piece.name for piece in left_out),
        )


def _chosen(plan: Plan, groups: Sequence[Group], joints: Joints, spare: Sequence[Blank]) -> Iterator[Finding]:
    """Say which wide parts are glued up from boards as wide as those on hand, how wide each then is, and which boards are to
    ``spare`` (PN-1).
    """
    chosen = [row for group in groups for row in group.rows if row.board.name in joints]
    if not chosen:
        return
    alike: dict[tuple[str, ...], list[str]] = {}
    for row in chosen:
        widths = [plan.rule.text(plan.rule.up(width)) for width in strip_widths(row, plan.shop.practice, joints)]
        alike.setdefault((row.board.datum.word(Surface.EDGE), *widths), []).extend(row.names)
    said = [
        f"{in_few_words(names)} from {len(widths)}, from the {edge} {runs_of(widths)}, as sawn"
        for (edge, *widths), names in alike.items()
    ]
    what, numbers = "Glued up from boards as wide as those on hand: {how}.", {"how": "; ".join(said)}
    if spare:
        what += " Not needed: {spare}."
        numbers["spare"] = in_few_words(blank.name for blank in spare)
    yield note("boards chosen", what, "PN-1", "common practice", **numbers)


def _of_no_use(left_out: Sequence[PartToSaw], unused: Sequence[Blank]) -> Iterator[Finding]:
    """Say why boards lie there while wood is bought: they are too short or too narrow for any part that is wanting (CL-2)."""
    if not left_out:
        return
    said: dict[str, list[Blank]] = {"short": [], "narrow": [], "short for some and too narrow": []}
    for blank in unused:
        if all(blank.length < piece.length for piece in left_out):
            said["short"].append(blank)
        elif all(blank.width < piece.width for piece in left_out):
            said["narrow"].append(blank)
        else:
            said["short for some and too narrow"].append(blank)
    for what, blanks in said.items():
        if blanks:
            yield note(
                "boards of no use",
                f"Too {what} for any part that is to be bought: {{boards}}.",
                "CL-2",
                boards=in_few_words(blank.name for blank in blanks),
            )
