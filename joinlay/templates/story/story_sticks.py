"""The story sticks of a plan: which there are, and what lies along each.

For a whole piece: the case's sides and the faces of its partitions, the stiles and mullions, the fronts of each bank (heights);
the width over all; the depth at each kind of drawer. For openings alone: each kind of drawer in its opening, up, across and front
to back. For runners in a case that is there: its sides, each kind of drawer in its opening, its inside width, and its depth.
Every position is that of a placed board or a cut in one, exact, and counts from one end.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, zip_longest
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, Hand, PartKind, Surface
from joinlay.casework.row import place_name
from joinlay.lengths import Fraction
from joinlay.pen.marks import bounds_of
from joinlay.records import dataclass
from joinlay.templates.banks import DrawerBank, whole_piece
from joinlay.templates.piece_axes import PieceAxis, centre_of, reach
from joinlay.templates.story.opening_sticks import (
    across_drawer,
    along_drawer,
    opening_heights,
    opening_sticks,
    pull_centres,
    wood,
)
from joinlay.templates.story.stick import Apex, Centre, Stick, Stretch, StretchKind, merged
from joinlay.templates.story.stick_drawing import draw_stick
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board, Cut
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.row import RowPlace
    from joinlay.jobs.plan import Plan
    from joinlay.templates.banks import WholePiece

__all__ = ["cuts_on_sticks", "sticks_of", "story_sticks"]

_ZERO: Final = Fraction(0)
#: What the case's uprights and the places of screws are called on a stick, and in which lane of widths a runner is drawn.
_UPRIGHT: Final = {PartKind.CASE_SIDE: "side", PartKind.CASE_PARTITION: "partition"}
_SCREWS: Final = {CutUse.SCREW_HOLE: "screw", CutUse.SCREW_SLOT: "screw slot"}
_RUNNER_LANES: Final = {PartKind.GUIDE: 1, PartKind.BEARER: 2}


def story_sticks(plan: Plan) -> tuple[Template, ...]:
    """A strip of paper for each direction of the piece in ``plan``, with everything that lies along it, counted from one end.

    Sticks alike are one, for all their parts. Drawn upright, zero at the foot, the edge to mark from at the left; every position
    counts from one datum, never from the one before it (PR-1; common practice).
    """
    return tuple(_template(stick, plan) for stick in sticks_of(plan))


def sticks_of(plan: Plan) -> tuple[Stick, ...]:
    """The sticks of ``plan`` as data, in the order they are drawn: heights, widths, depths."""
    whole = whole_piece(plan)
    if whole is None:
        return merged(opening_sticks(plan.drawers))
    if whole.is_there:
        (bank,) = whole.banks
        sides = [_upright(whole, bank, hand, upright) for hand, upright in whole.beside(bank).items()]
        alone = opening_heights([drawer.by_itself for drawer in bank.drawers])
        return merged((*sides, *alone, *_inside_widths(whole), *_depth_sticks(whole)))
    return merged((*_height_sticks(whole), *_width_sticks(whole), *_depth_sticks(whole)))


def cuts_on_sticks(plan: Plan) -> frozenset[tuple[str, str]]:
    """The dadoes right across the case's sides and partitions in ``plan``, as (board, cut) by their names: squared over from the
    stick laid on their front edge, they need no other paper (DA-1, PR-11; common practice). None in a case that is there.
    """
    whole = whole_piece(plan)
    if whole is None or whole.is_there:
        return frozenset()
    told = {one.part for stick in _height_sticks(whole) for one in stick.stretches if one.kind is StretchKind.CUT}
    return frozenset(
        (board.name, cut.name)
        for board in whole.uprights
        for cut in board.cuts_of(CutUse.DADO)
        if f"{board.name} {cut.name}" in told and cut.across.start.mm == 0 and cut.across.stop == board.width
    )


def _template(stick: Stick, plan: Plan) -> Template:
    strokes = draw_stick(stick, plan.rule)
    return Template(stick.names, f"story stick of {stick.measures}", strokes, bounds_of(strokes))


def _height_sticks(whole: WholePiece) -> Iterator[Stick]:
    """For each side of the case and face of a partition, each edge of a stile or mullion, and the fronts of each bank.

    All of them count from the lower end: of the board itself, or, for the fronts, from the underside of the frame. Where a stile
    at the bank is as high as the frame, its stick has the fronts too (PR-11).
    """
    for bank in whole.banks:
        for hand, upright in whole.beside(bank).items():
            yield _upright(whole, bank, hand, upright)
    for bank in whole.banks:
        yield from _in_rows(whole, bank)
    for bank in whole.banks:
        for board, edge in _frame_edges(whole, bank):
            yield _stile(whole, bank, board, edge)
    for bank in whole.banks:
        if bank.drawers and not any(_holds_fronts(whole, bank, board) for board, _ in _frame_edges(whole, bank)):
            yield _fronts(whole, bank)


def _holds_fronts(whole: WholePiece, bank: DrawerBank, board: Board) -> bool:
    """Whether the stick of a stile has the fronts too: it is as high as the frame, and neither a base nor a top is told with
    them.
    """
    is_alone = not whole.base and not any(one.role.kind is PartKind.TOP for one in whole.top)
    return bool(bank.drawers) and is_alone and reach(board, PieceAxis.HEIGHT) == whole.frame_reach(PieceAxis.HEIGHT)


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
            middle = sum(reach(drawer.front, PieceAxis.HEIGHT)) / 2
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


def _stick(board: Board, name: str, lies: str, stretches: Sequence[Stretch], centres: Sequence[Centre]) -> Stick:
    low, high = reach(board, PieceAxis.HEIGHT)
    datum, far = board.datum.word(Surface.END), board.datum.word(Surface.FAR_END)
    stretches = [one for one in stretches if one.high > 0 and one.low < high - low]
    return Stick(
        names=(name,),
        kind=board.role.kind,
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


def _upright(whole: WholePiece, bank: DrawerBank, hand: Hand, upright: Board) -> Stick:
    """The inside of a case side, or one face of a partition: its dadoes, its runners, and the rails and stops in front of it."""
    up = _Up(reach(upright, PieceAxis.HEIGHT)[0])
    stretches = [up.cut(upright, cut, cut.name) for cut in upright.cuts_of(CutUse.DADO, CutUse.TOE_NOTCH)]
    for row, number, drawer in bank.rows_at(hand):
        for board in whole.runners_of(drawer, hand):
            # What stands under the bearer further in is drawn beside what lies on the side.
            stretches.append(up.wood(board, board.part, 0, number, row))
        blocks = whole.blocks_of(drawer)
        stretches += (up.wood(board, "stop", 1, number, row) for board in blocks[:1])
    stretches += (up.wood(rail, "rail", 1) for rail in whole.rails(bank))
    # A partition has two sides to mark; its reference face looks to the left, where it is the right-hand wood of its bank.
    is_partition = upright.role.kind is PartKind.CASE_PARTITION
    face = Surface.FAR_FACE if is_partition and hand is Hand.LEFT else Surface.FACE
    word, edge = upright.datum.word(face), upright.datum.word(Surface.EDGE)
    if is_partition:
        return _stick(upright, f"{upright.name}, {word}", f"lay on that face, along the {edge}", stretches, ())
    return _stick(upright, upright.name, f"lay on the {word}, along the {edge}", stretches, ())


def _in_rows(whole: WholePiece, bank: DrawerBank) -> Iterator[Stick]:
    """Both faces of each partition in a row of ``bank``, where runners are fixed on it or shelves lie in it (RO-1, SH-1)."""
    drawers = {drawer.role: drawer for drawer in bank.drawers}
    opens = {bay.number: bay for bay in bank.opens}
    for row in bank.places_by_row():
        for left, right in pairwise(row):
            partition = whole.partition_right_of(left)
            for place, hand in ((left, Hand.RIGHT), (right, Hand.LEFT)):
                if partition is None:
                    continue
                if isinstance(place, int):
                    face = Surface.FAR_FACE if hand is Hand.LEFT else Surface.FACE
                    if any(cut.surface is face for cut in partition.cuts_of(CutUse.DADO)):
                        yield _upright(whole, DrawerBank((), (opens[place],)), hand, partition)
                elif place in drawers and whole.runners_of(drawers[place], hand):
                    yield _upright(whole, DrawerBank(((drawers[place],),)), hand, partition)


def _frame_edges(whole: WholePiece, bank: DrawerBank) -> Iterator[tuple[Board, Surface]]:
    """The frame's uprights at the left and right of a bank, each with the edge that looks into it: a stile's inside edge."""
    uprights = whole.frame_uprights
    left = [board for board in uprights if reach(board, PieceAxis.WIDTH)[1] <= bank.middle][-1]
    right = next(board for board in uprights if reach(board, PieceAxis.WIDTH)[0] >= bank.middle)
    # A mullion's reference edge is at its left.
    yield left, Surface.FAR_EDGE if left.role.kind is PartKind.MULLION else Surface.EDGE
    yield right, Surface.EDGE


def _stile(whole: WholePiece, bank: DrawerBank, board: Board, edge: Surface) -> Stick:
    """One edge of a stile or mullion: where the rails meet it, and the mortises for them; the fronts of its bank in their
    openings.
    """
    up = _Up(reach(board, PieceAxis.HEIGHT)[0])
    low, high = reach(board, PieceAxis.HEIGHT)
    rails = [
        rail for rail in whole.rails(bank) if low <= reach(rail, PieceAxis.HEIGHT)[0] and reach(rail, PieceAxis.HEIGHT)[1] <= high
    ]
    met = {rail.role for rail in rails}
    mortises = [cut for cut in board.cuts_of(CutUse.MORTISE) if cut.role.mate in met and cut.surface is edge]
    stretches = [up.wood(rail, "rail") for rail in rails]
    # Its middle says what it is.
    stretches += (up.cut(board, cut, "", 1) for cut in mortises)
    stretches += up.openings(whole, bank, 0)
    centres = [Centre(centre_of(board, PieceAxis.HEIGHT, cut) - low, "mortise", f"{board.name} {cut.name}") for cut in mortises]
    screws = [cut for cut in board.cuts_of(CutUse.SCREW_HOLE) if cut.surface is edge]
    centres += [Centre(centre_of(board, PieceAxis.HEIGHT, cut) - low, "screw", f"{board.name} {cut.name}") for cut in screws]
    word = board.datum.word(edge)
    name = f"{board.name}, {word}" if board.role.kind is PartKind.MULLION else board.name
    if not _holds_fronts(whole, bank, board):
        return _stick(board, name, f"lay along the {word}", stretches, centres)
    fronts, pulls = _fronts_up(bank, up, 1)
    stick = _stick(board, name, f"lay along the {word}, or hold it up the frame", [*stretches, *fronts], [*centres, *pulls])
    return replace(stick, names=(*stick.names, *_front_names(bank)))


def _fronts_up(bank: DrawerBank, up: _Up, lane: int) -> tuple[list[Stretch], list[Centre]]:
    """The fronts of a bank over each other, and the middles of their holes for pulls."""
    fronts: list[Stretch] = []
    pulls: list[Centre] = []
    for row, number, drawer in bank.rows():
        fronts.append(up.wood(drawer.front, "front", lane, number, row))
        pulls += pull_centres(drawer.front, PieceAxis.HEIGHT, up.zero, number, row)
    return fronts, pulls


def _front_names(bank: DrawerBank) -> tuple[str, ...]:
    return tuple(drawer.front.name for drawer in bank.drawers)


def _fronts(whole: WholePiece, bank: DrawerBank) -> Stick:
    """The fronts of a bank in their openings, with the middle of every pull's hole; the base under them and the top over them
    (BA-1, TO-1).
    """
    zero, top = whole.frame_reach(PieceAxis.HEIGHT)
    stands = [reach(board, PieceAxis.HEIGHT)[0] for board in whole.base]
    boards = [board for board in whole.top if board.role.kind is PartKind.TOP]
    zero, top = min([zero, *stands]), max([top, *(reach(board, PieceAxis.HEIGHT)[1] for board in boards)])
    up = _Up(zero)
    fronts, centres = _fronts_up(bank, up, 0)
    stretches: list[Stretch] = [up.wood(rail, "rail", 1) for rail in whole.rails(bank)]
    recess = [(side, cut) for side in whole.case for cut in side.cuts_of(CutUse.TOE_NOTCH)]
    stretches += (up.cut(side, cut, "recess", 1) for side, cut in recess[:1])
    stretches += (up.wood(board, "base", 1) for board in whole.base[:1] if not recess)
    stretches += (up.wood(board, "top", 1) for board in boards)
    stretches += (*fronts, *up.openings(whole, bank, 1))
    return Stick(
        names=_front_names(bank),
        kind=PartKind.DRAWER_FRONT,
        measures="heights",
        datum=_stands_on(whole) if stands else "underside of the frame",
        far="top of the piece" if boards else "top of the frame",
        lies="hold up the front of the frame",
        length=top - zero,
        stretches=tuple(stretches),
        centres=tuple(centres),
        top="top",
        apex=Apex.FAR,
    )


def _stands_on(whole: WholePiece) -> str:
    """What is under a base: under feet with levellers the floor is wherever those hold it (BA-3)."""
    return "underside of the feet" if any(board.cuts_of(CutUse.LEVELLER_HOLE) for board in whole.base) else "floor"


def _width_sticks(whole: WholePiece) -> Iterator[Stick]:
    """The width over all at the face of the frame, from its left edge.

    In the first lane stiles and fronts, in the second case, guides and drawer sides, in the third bearers and stops. One stick
    shows one drawer of each bank; where drawers of a bank differ in their widths there are more sticks.
    """
    zero, end = whole.frame_reach(PieceAxis.WIDTH)
    fixed = [wood(board, PieceAxis.WIDTH, zero, board.part, 0) for board in whole.frame_uprights]
    fixed += (wood(board, PieceAxis.WIDTH, zero, _UPRIGHT[board.role.kind], 1) for board in whole.uprights)
    kinds = [kinds for bank in whole.banks if (kinds := _kinds(whole, bank, zero, end))]
    if not kinds:
        names = tuple(board.name for board in (*whole.frame_parts(PartKind.RAIL), *whole.uprights))
        yield _across_frame(names=names, length=end - zero, stretches=tuple(fixed), centres=())
    for chosen in zip_longest(*kinds):
        drawers = [stick for stick in chosen if stick is not None]
        yield _across_frame(
            names=tuple(name for stick in drawers for name in stick.names),
            length=end - zero,
            stretches=(*fixed, *(one for stick in drawers for one in stick.stretches)),
            centres=tuple(centre for stick in drawers for centre in stick.centres),
        )


def _inside_widths(whole: WholePiece) -> Iterator[Stick]:
    """Across a case that is there, behind its frame, at each kind of drawer: from the inside of its left side to that of its
    right.
    """
    left, right = (reach(side, PieceAxis.WIDTH) for side in whole.uprights)
    zero, end = left[1], right[0]
    fixed = []
    for board in whole.frame_uprights:
        low, high = reach(board, PieceAxis.WIDTH)
        fixed.append(Stretch(max(low, zero) - zero, min(high, end) - zero, board.part, board.name, 0))
    for stick in _kinds(whole, whole.banks[0], zero, end):
        yield replace(
            stick,
            datum="inside of the left side",
            far="inside of the right side",
            lies="hold across the case, behind the frame",
            stretches=(*fixed, *stick.stretches),
        )


def _across_frame(
    *, names: tuple[str, ...], length: Fraction, stretches: tuple[Stretch, ...], centres: tuple[Centre, ...]
) -> Stick:
    return Stick(
        names=names,
        kind=None,
        measures="widths",
        datum="left edge of the frame",
        far="right edge of the frame",
        lies="hold across the front of the frame",
        length=length,
        stretches=stretches,
        centres=centres,
        top="top",
        apex=Apex.EDGE,
    )


def _kinds(whole: WholePiece, bank: DrawerBank, zero: Fraction, end: Fraction) -> tuple[Stick, ...]:
    """A bank's rows by their widths: each kind once, with all it is for."""
    sticks = []
    for row in bank.by_row:
        widths = [_drawer_widths(whole, drawer, zero) for drawer in row]
        stretches = tuple(one for found, _ in widths for one in found)
        centres = tuple(one for _, found in widths for one in found)
        names = tuple(drawer.name for drawer in row)
        opens = (place for place in bank.places_beside(row[0]) if isinstance(place, int))
        stretches += tuple(one for place in opens for one in _parting_widths(whole, place, zero))
        sticks.append(_across_frame(names=names, length=end - zero, stretches=stretches, centres=centres))
    for places in (row for row in bank.places_by_row() if all(isinstance(place, int) for place in row)):
        stretches = tuple(one for place in places for one in _parting_widths(whole, place, zero))
        sticks.append(_across_frame(names=tuple(map(place_name, places)), length=end - zero, stretches=stretches, centres=()))
    return merged(sticks)


def _drawer_widths(whole: WholePiece, drawer: Drawer, zero: Fraction) -> tuple[tuple[Stretch, ...], tuple[Centre, ...]]:
    stretches = list(across_drawer(drawer, zero))
    for hand in (Hand.LEFT, Hand.RIGHT):
        for board in whole.runners_of(drawer, hand):
            if board.role.kind in _RUNNER_LANES:
                stretches.append(wood(board, PieceAxis.WIDTH, zero, board.part, _RUNNER_LANES[board.role.kind]))
    stretches += (wood(board, PieceAxis.WIDTH, zero, "stop", 2) for board in whole.blocks_of(drawer))
    stretches += _parting_widths(whole, drawer.role, zero)
    return tuple(stretches), tuple(pull_centres(drawer.front, PieceAxis.WIDTH, zero))


def _parting_widths(whole: WholePiece, place: RowPlace, zero: Fraction) -> Iterator[Stretch]:
    """What parts a place of a row from the next: the upright in the frame, and the partition behind it (RO-1)."""
    for parting, word, lane in (
        (whole.mullion_right_of(place), "mullion", 0),
        (whole.partition_right_of(place), "partition", 1),
    ):
        if parting is not None:
            yield wood(parting, PieceAxis.WIDTH, zero, word, lane)


def _depth_sticks(whole: WholePiece) -> Iterator[Stick]:
    """The depth at each drawer, from the face of the frame or the front of a drawer that stands proud of it.

    Frame and case side, then front, back, stop and the case's back, then the drawer's side, then the bearer with its nails or
    screws.
    """
    zero, _ = whole.frame_reach(PieceAxis.DEPTH)
    zero = min([zero, *(reach(drawer.front, PieceAxis.DEPTH)[0] for bank in whole.banks for drawer in bank.drawers)])
    end = max(reach(board, PieceAxis.DEPTH)[1] for board in (*(whole.uprights if whole.is_there else whole.case), *whole.frame))
    for bank in whole.banks:
        backs = [board for board in whole.case if board.role.kind is PartKind.CASE_BACK and not whole.is_there]
        for drawer in bank.drawers:
            stretches = [
                wood(whole.frame_parts(PartKind.STILE, PartKind.RAIL)[0], PieceAxis.DEPTH, zero, "frame", 0),
                wood(whole.uprights[0], PieceAxis.DEPTH, zero, "case side", 0),
                *(wood(board, PieceAxis.DEPTH, zero, "case back", 1) for board in backs),
                *along_drawer(drawer, zero),
                *(wood(board, PieceAxis.DEPTH, zero, "stop", 1) for board in whole.blocks_of(drawer)[:1]),
            ]
            bearer = whole.bearer_of(drawer, Hand.LEFT)
            if bearer is not None:
                stretches.append(wood(bearer, PieceAxis.DEPTH, zero, "bearer", 3))
            yield Stick(
                names=(drawer.name,),
                kind=None,
                measures="depths",
                datum="face of the frame",
                far="case back" if whole.is_there else "back of the case",
                lies="lay along the case, front to back",
                length=end - zero,
                stretches=tuple(stretches),
                centres=() if bearer is None else tuple(_held(whole, bearer, zero)),
                top="front",
                apex=Apex.DATUM,
            )


def _held(whole: WholePiece, bearer: Board, zero: Fraction) -> Iterator[Centre]:
    """The nails through a bearer; or the screw at its front, and the middles of the slots behind it (RN-4)."""
    front, _ = reach(bearer, PieceAxis.DEPTH)
    for n, at in enumerate(whole.nails.get(bearer.role, ()), start=1):
        yield Centre(front + at.mm - zero, "nail", f"{bearer.name} nail {n}")
    for cut in bearer.cuts_of(*_SCREWS):
        yield Centre(centre_of(bearer, PieceAxis.DEPTH, cut) - zero, _SCREWS[cut.role.use], f"{bearer.name} {cut.name}")
