"""A sawyer who knows nothing of how a layout was found: makes its cuts one by one and sees whether the pieces come out."""

from collections import Counter
from collections.abc import Sequence

from joinlay.cutlist.pattern import CutSheet, Direction, Panel, PartToSaw
from joinlay.jobs.on_hand import FirstCut
from joinlay.lengths import ZERO, Length

__all__ = ["check_every_piece_once", "check_sheet"]


def check_sheet(sheet: CutSheet, kerf: Length, first_cut: FirstCut) -> None:
    """Saw ``sheet`` up as its cuts say; fail where a piece doesn't come out whole, to size and with its grain."""
    blank = sheet.blank
    _check_inside_and_apart(sheet, kerf)
    _check_grain_and_sizes(sheet)
    lying = Counter([Panel(ZERO, ZERO, blank.length, blank.width)])
    for n, cut in enumerate(sheet.cuts, start=1):
        assert cut.number == n
        assert lying[cut.panel] == 1, f"cut {n} is through a panel that no cut has made: {cut.panel}"
        lying -= Counter([cut.panel])
        for panel in _halves(cut.panel, cut.direction, cut.at, kerf):
            lying[panel] += 1
    for laid in sheet.pieces:
        assert lying[laid.panel] == 1, f"{laid.piece.name} does not come out"
        lying -= Counter([laid.panel])
    for offcut in sheet.offcuts:
        assert lying[offcut] == 1, f"the offcut {offcut} does not come out"
        lying -= Counter([offcut])
    _check_first_cuts(sheet, first_cut)


def check_every_piece_once(pieces: Sequence[PartToSaw], sheets: Sequence[CutSheet], left_out: Sequence[PartToSaw]) -> None:
    """Every piece is laid once, or left out, and nothing else is."""
    laid = [laid.piece.name for sheet in sheets for laid in sheet.pieces]
    assert Counter([*laid, *(piece.name for piece in left_out)]) == Counter(piece.name for piece in pieces)


def _halves(panel: Panel, direction: Direction, at: Length, kerf: Length) -> list[Panel]:
    if direction is Direction.RIP:
        near = Panel(panel.along, panel.across, panel.length, at)
        far = Panel(panel.along, panel.across + at + kerf, panel.length, panel.width - at - kerf)
        size = panel.width
    else:
        near = Panel(panel.along, panel.across, at, panel.width)
        far = Panel(panel.along + at + kerf, panel.across, panel.length - at - kerf, panel.width)
        size = panel.length
    assert ZERO - kerf < at < size, f"a cut at {at} does not touch a panel of {size}"
    return [half for half in (near, far) if half.length > ZERO and half.width > ZERO]


def _check_inside_and_apart(sheet: CutSheet, kerf: Length) -> None:
    blank = sheet.blank
    panels = [laid.panel for laid in sheet.pieces]
    for panel in panels:
        assert panel.along >= blank.trim
        assert panel.across >= blank.trim
        assert panel.along + panel.length + blank.trim <= blank.length
        assert panel.across + panel.width + blank.trim <= blank.width
    for n, one in enumerate(panels):
        for other in panels[n + 1 :]:
            gaps = (
                other.along - one.along - one.length,
                one.along - other.along - other.length,
                other.across - one.across - one.width,
                one.across - other.across - other.width,
            )
            assert max(gaps) >= kerf, f"no kerf between {one} and {other}"


def _check_grain_and_sizes(sheet: CutSheet) -> None:
    for laid in sheet.pieces:
        piece = laid.piece
        assert piece.any_grain or (not laid.turned and sheet.blank.grain_known), f"{piece.name} lies across the grain"
        long, wide = (piece.width, piece.length) if laid.turned else (piece.length, piece.width)
        assert (laid.panel.length, laid.panel.width) == (long, wide), f"{piece.name} is not the size asked for"


def _check_first_cuts(sheet: CutSheet, first_cut: FirstCut) -> None:
    """Cuts the long way of the whole sheet all come before any other, and the others only part what those have made."""
    if first_cut is FirstCut.EITHER:
        return
    first = Direction.RIP if first_cut is FirstCut.RIP else Direction.CROSSCUT
    blank = sheet.blank
    if first is Direction.RIP:
        across_it_all = [cut.direction is first and cut.panel.length == blank.length for cut in sheet.cuts]
        whole = [cut for cut in sheet.cuts if cut.direction is not first and cut.panel.width == blank.width]
        spans = any(laid.panel.width + 2 * blank.trim == blank.width for laid in sheet.pieces)
    else:
        across_it_all = [cut.direction is first and cut.panel.width == blank.width for cut in sheet.cuts]
        whole = [cut for cut in sheet.cuts if cut.direction is not first and cut.panel.length == blank.length]
        spans = any(laid.panel.length + 2 * blank.trim == blank.length for laid in sheet.pieces)
    assert not whole or spans, f"{whole[0]} is made on a whole sheet"
    if not spans:
        assert across_it_all == sorted(across_it_all, reverse=True)
