"""The sticks of heights: for the case's sides, the stiles of the frame, and the fronts down a bank."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import CutKind, Surface
from joinlay.templates.piece_axes import PieceAxis, centre_of, reach
from joinlay.templates.story.stick import Apex, Centre, Stick, Stretch, StretchKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board, Cut
    from joinlay.lengths import Fraction
    from joinlay.templates.banks import DrawerBank, WholePiece

__all__ = ["height_sticks", "pull_centres"]


def height_sticks(whole: WholePiece) -> Iterator[Stick]:
    """For each side of the case and face of a partition, each edge of a stile or mullion, and the fronts of each bank.

    All of them count from the lower end: of the board itself, or, for the fronts, from the underside of the frame.
    """
    for bank in whole.banks:
        for hand, upright in zip(("left", "right"), whole.beside(bank), strict=True):
            yield _upright(whole, bank, hand, upright)
    for bank in whole.banks:
        for board, edge in _frame_edges(whole, bank):
            yield _stile(whole, bank, board, edge)
    for bank in whole.banks:
        yield _fronts(whole, bank)


@dataclass(frozen=True, slots=True)
class _Up:
    """Measures heights from ``zero``, in mm of the piece."""

    zero: Fraction

    def wood(self, board: Board, word: str, lane: int = 0, drawer: str = "", row: int = 0) -> Stretch:
        low, high = reach(board, PieceAxis.HEIGHT)
        return Stretch(low - self.zero, high - self.zero, word, board.name, lane, drawer=drawer, row=row)

    def cut(self, board: Board, cut: Cut, word: str, lane: int = 0) -> Stretch:
        low, high = reach(board, PieceAxis.HEIGHT, cut)
        return Stretch(low - self.zero, high - self.zero, word, f"{board.name} {cut.name}", lane, StretchKind.CUT)

    def openings(self, whole: WholePiece, bank: DrawerBank, lane: int) -> Iterator[Stretch]:
        """The room between each two rails, named by the drawer that fills it."""
        rails = [reach(rail, PieceAxis.HEIGHT) for rail in whole.rails(bank)]
        for row, number, drawer in bank.rows():
            middle = sum(reach(drawer.board("front"), PieceAxis.HEIGHT)) / 2
            below = max(high for _, high in rails if high <= middle)
            above = min(low for low, _ in rails if low >= middle)
            yield Stretch(
                below - self.zero,
                above - self.zero,
                word="opening",
                part=f"{drawer.name} opening",
                lane=lane,
                kind=StretchKind.OPENING,
                drawer=number,
                row=row,
            )


def _stick(board: Board, names: tuple[str, ...], lies: str, stretches: Sequence[Stretch], centres: Sequence[Centre]) -> Stick:
    low, high = reach(board, PieceAxis.HEIGHT)
    datum, far = board.datum.word(Surface.END), board.datum.word(Surface.FAR_END)
    stretches = [one for one in stretches if one.high > 0 and one.low < high - low]
    return Stick(
        names=names,
        measures="heights",
        datum=datum,
        far=far,
        lies=lies,
        length=high - low,
        stretches=tuple(stretches),
        centres=tuple(centres),
        top="top",
        apex=Apex.FAR,
    )


def _upright(whole: WholePiece, bank: DrawerBank, hand: str, upright: Board) -> Stick:
    """The inside of a case side, or one face of a partition: its dadoes, its runners, and the rails and stops in front of it."""
    up = _Up(reach(upright, PieceAxis.HEIGHT)[0])
    stretches = [up.cut(upright, cut, cut.name) for cut in upright.cuts if cut.kind is CutKind.DADO]
    for row, number, drawer in bank.rows():
        for board in whole.runners_of(drawer, hand):
            # What stands under the bearer further in is drawn beside what lies on the side.
            stretches.append(up.wood(board, board.part, 0, number, row))
        blocks = whole.blocks_of(drawer)
        stretches += (up.wood(board, "stop", 1, number, row) for board in blocks[:1])
    stretches += (up.wood(rail, "rail", 1) for rail in whole.rails(bank))
    # A partition has two sides to mark; its reference face looks to the left, where it is the right-hand wood of its bank.
    face = Surface.FAR_FACE if upright.part == "case partition" and hand == "left" else Surface.FACE
    word, edge = upright.datum.word(face), upright.datum.word(Surface.EDGE)
    if upright.part == "case partition":
        return _stick(upright, (f"{upright.name}, {word}",), f"lay on that face, along the {edge}", stretches, ())
    return _stick(upright, (upright.name,), f"lay on the {word}, along the {edge}", stretches, ())


def _frame_edges(whole: WholePiece, bank: DrawerBank) -> Iterator[tuple[Board, str]]:
    """The frame's uprights at the left and right of a bank, each with the word for the edge that looks into the bank."""
    uprights = sorted(whole.frame_parts("stile", "mullion"), key=lambda board: reach(board, PieceAxis.WIDTH))
    left = [board for board in uprights if reach(board, PieceAxis.WIDTH)[1] <= bank.middle][-1]
    right = next(board for board in uprights if reach(board, PieceAxis.WIDTH)[0] >= bank.middle)
    yield left, "right edge" if left.part == "mullion" else ""
    yield right, "left edge" if right.part == "mullion" else ""


def _stile(whole: WholePiece, bank: DrawerBank, board: Board, edge: str) -> Stick:
    """One edge of a stile or mullion: where the rails meet it, and the mortises for them."""
    up = _Up(reach(board, PieceAxis.HEIGHT)[0])
    low, high = reach(board, PieceAxis.HEIGHT)
    rails = [
        rail for rail in whole.rails(bank) if low <= reach(rail, PieceAxis.HEIGHT)[0] and reach(rail, PieceAxis.HEIGHT)[1] <= high
    ]
    met = {rail.name for rail in rails}
    side = {"left edge": Surface.EDGE, "right edge": Surface.FAR_EDGE}.get(edge, Surface.EDGE)
    mortises = [cut for cut in board.cuts if cut.kind is CutKind.MORTISE and cut.mate in met and cut.surface is side]
    stretches = [up.wood(rail, "rail") for rail in rails]
    # Its middle says what it is.
    stretches += (up.cut(board, cut, "", 1) for cut in mortises)
    stretches += up.openings(whole, bank, 0)
    centres = [Centre(centre_of(board, PieceAxis.HEIGHT, cut) - low, "mortise", f"{board.name} {cut.name}") for cut in mortises]
    name = f"{board.name}, {edge}" if edge else board.name
    return _stick(board, (name,), f"lay along the {board.datum.word(side)}", stretches, centres)


def _fronts(whole: WholePiece, bank: DrawerBank) -> Stick:
    """The fronts of a bank in their openings, with the middle of every pull's hole."""
    zero, top = whole.frame_reach(PieceAxis.HEIGHT)
    up = _Up(zero)
    stretches: list[Stretch] = [up.wood(rail, "rail", 1) for rail in whole.rails(bank)]
    centres: list[Centre] = []
    for row, number, drawer in bank.rows():
        front = drawer.board("front")
        stretches.append(up.wood(front, "front", 0, number, row))
        centres += pull_centres(front, PieceAxis.HEIGHT, zero, number, row)
    stretches += up.openings(whole, bank, 1)
    return Stick(
        names=tuple(drawer.board("front").name for drawer in bank.drawers),
        measures="heights",
        datum="underside of the frame",
        far="top of the frame",
        lies="hold up the front of the frame",
        length=top - zero,
        stretches=tuple(stretches),
        centres=tuple(centres),
        top="top",
        apex=Apex.FAR,
    )


def pull_centres(front: Board, way: PieceAxis, zero: Fraction, number: str = "", row: int = 0) -> Iterator[Centre]:
    """The middles of the holes for pulls in ``front``, from ``zero`` in mm of the piece, one for each place (PU-3).

    ``number`` and ``row`` are the drawer's, as a stretch has them.
    """
    found: dict[Fraction, str] = {}
    for cut in front.cuts:
        if cut.kind is CutKind.HOLE:
            found.setdefault(centre_of(front, way, cut) - zero, f"{front.name} {cut.name}")
    yield from (Centre(at, "pull", part, number, row) for at, part in sorted(found.items()))
