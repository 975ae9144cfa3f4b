"""A top that lies on the piece and overhangs it, fixed so that solid wood may move (TO-1).

Case and frame stand as they would without. The top is held by screws from inside, up through the case's top panel and strips that
fill the room over it, along front and back. A solid top has a third strip midway, where its screws hold it fast; those in front
and behind go through slots, so that it moves both ways by half.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import (
    Axis,
    Board,
    Cut,
    CutKind,
    CutRole,
    CutUse,
    Datum,
    Hand,
    PartKind,
    PartRole,
    Place,
    Shape,
    Span,
    Surface,
    Whole,
)
from joinlay.boards.extent import SpaceBox
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Meeting, Tie, butted
from joinlay.casework.assembly import Assembly
from joinlay.casework.over_and_under import laid, refuse_step, share
from joinlay.errors import BadInput
from joinlay.findings import note, refusal, stock_of
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.joints.spans import whole
from joinlay.lengths import NOTHING, Fine, Fraction, Length, largest
from joinlay.records import dataclass
from joinlay.stock import Solid
from joinlay.stock.movement import MOVEMENT_SOURCE, year_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.case import Case
    from joinlay.casework.face_frame import FrameSizes
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop
    from joinlay.stock import Stock
    from joinlay.stock.movement import Seasons

__all__ = ["TopMake", "make_top"]


@dataclass(frozen=True, slots=True)
class TopMake:
    """A top of ``stock``: how far it overhangs in front, at each end and behind; None: as the practice has it, and flush
    behind.
    """

    stock: Stock
    front: Dimension | None = None
    ends: Dimension | None = None
    back: Dimension | None = None

    def overhang_at_ends(self, practice: Practice) -> Dimension:
        """How far it overhangs at each end, given or usual (TO-1)."""
        return practice.length("top overhang") if self.ends is None else self.ends


_TOP: Final = Datum("underside", "front edge", "left end", "upper face", "back edge", "right end")
_STRIP: Final = Datum("front face", "lower edge", "left end", "back face", "upper edge", "right end")


def make_top(
    make: TopMake,
    strips: Stock,
    size: tuple[Dimension, Dimension, Dimension],
    case: Case,
    frame: FrameSizes,
    around: Sequence[Board],
    shop: Shop,
    seasons: Seasons,
) -> tuple[Assembly, Case]:
    """The top and its strips, and the ``case`` with its top panel bored for the screws (TO-1; Noyes; Wheeler).

    ``size`` is the piece's width, height and depth, frame included; ``strips`` is what the strips are ripped from; ``around`` are
    the boards of case and frame. Raises Refused where the frame stands higher than the case.
    """
    refuse_step("top", "overhang-top", frame.overhang_top)
    practice, (width, height, depth) = shop.practice, size
    usual = practice.length("top overhang")
    front, ends = (usual if given is None else given for given in (make.front, make.ends))
    back = NOTHING if make.back is None else make.back
    length = (width + 2 * ends).named("top length", "TO-1", usual.source)
    deep = (depth + front + back).named("top width, front to back", "TO-1", usual.source)
    role = PartRole(PartKind.TOP)
    thickness = make.stock.thickness.named(f"{role.name} thickness", "", "the stock's own")
    place = Place.at(-ends, -front, height, "+X", "+Y", "+Z")
    top = Board(role, make.stock.name, length, deep, thickness, _TOP, place=place)
    sizes = case.sizes
    panel = case.assembly.part(PartRole(PartKind.CASE_TOP))
    shank = practice.length("top screw")
    screw = fastener_for(
        FastenerKind.SCREW, panel.thickness + sizes.top_offset, thickness, shop.rule, shank, practice.length("top screw spacing")
    )
    room = (shank / 2 + practice.length("keep-out clearance")).named("top screw to a dado beside it", "TO-1, LT-11")
    middles = [
        _beside_dadoes(cavity.left + at, panel, room)
        for cavity in case.cavities
        for at in spread(cavity.right - cavity.left, practice.length("top screw spacing"))
    ]
    boards, meetings = [], list[Meeting]()
    first, last = sizes.front, sizes.back - strips.thickness
    places = (first, (first + last) / 2, last) if make.stock.is_solid else (first, last)
    fast = (places[len(places) // 2] + strips.thickness / 2).named(
        "fast screws of the top behind the face of the frame", "TO-1", "by geometry"
    )
    for number, y in enumerate(places, start=1):
        middle = (y + strips.thickness / 2).named(
            f"top screws of strip {number} behind the face of the frame", "TO-1", "by geometry"
        )
        moves = _moves(make.stock, middle, fast, seasons)
        _refuse_long_slot(shank, moves, strips)
        strip = _strip(number, strips, y, case)
        strip, panel = _bored(strip, panel, middles, middle, shank, moves)
        under = butted(
            (strip, Surface.EDGE),
            (panel, Surface.FAR_FACE),
            "on the",
            rule="TO-1",
            tie=Tie.GLUED,
            glue=strip.length.mm * strip.thickness.mm,
        )
        held = butted(
            (top, Surface.FACE),
            (strip, Surface.FAR_EDGE),
            "on the",
            rule="TO-1",
            tie=Tie.FASTENED,
            fasteners=len(middles),
            fastener=screw,
        )
        beside = (
            butted((strip, end), (PartRole(PartKind.CASE_SIDE, hand=hand), Surface.FACE), "against the", rule="TO-1")
            for end, hand in ((Surface.END, Hand.LEFT), (Surface.FAR_END, Hand.RIGHT))
        )
        boards.append(strip)
        meetings += [under, held, *beside]
    found = SpaceBox.around(top)
    meetings += laid(
        top, Surface.FACE, (board for board in (*around, *boards) if board not in boards), found.low[2], "on the", "TO-1"
    )
    meetings += _touching_frame(boards, around)
    assembly = Assembly(Whole.TOP, (top, *boards), tuple(meetings), (front, ends, back), _said(make.stock, deep, seasons))
    return assembly, replace(case, assembly=_with(case.assembly, panel))


def _beside_dadoes(x: Dimension, panel: Board, room: Dimension) -> Dimension:
    """Where a screw asked for at ``x`` from the left goes through the case's top ``panel``: ``room`` clear of a partition's
    dado at least.
    """
    assert panel.place is not None
    off = _mm(panel.place.origin[0])
    for cut in panel.cuts:
        low, high = cut.along.start + off - room, cut.along.stop + off + room
        if low < x < high:
            return low if x - low <= high - x else high
    return x


def _refuse_long_slot(shank: Dimension, moves: tuple[Dimension, Dimension], strips: Stock) -> None:
    """Refuse a strip that a screw's slot would run out of."""
    reach = shank + 2 * largest(*moves)
    if reach >= strips.thickness:
        raise (
            refusal(
                "top",
                "So deep a top moves the screws at front and back {moves}, more than a strip {thick} thick has room for.",
                "Runner stock of {needed} or more would do, or a top of sheet, or cut on the quarter.",
                "TO-1, CK-6",
                MOVEMENT_SOURCE,
                moves=Fine(moves[0] + moves[1]),
                thick=strips.thickness,
                needed=reach + shank,
            )
            .at("top board")
            .by(stock_of("runners", "stock", thinnest=reach + shank))
        )


def _strip(number: int, stock: Stock, y: Dimension, case: Case) -> Board:
    """A strip on the case's top panel, from side to side."""
    sizes, role = case.sizes, PartRole(PartKind.TOP_STRIP, number=number)
    panel = case.assembly.part(PartRole(PartKind.CASE_TOP))
    place = Place.at(sizes.inside_left, y, sizes.ceiling + panel.thickness, "+X", "+Z", "+Y")
    return Board(
        role,
        stock.name,
        sizes.inside_width.named(f"{role.name} length", "TO-1"),
        sizes.top_offset.named(f"{role.name} width", "TO-1"),
        stock.thickness.named(f"{role.name} thickness", "", "the stock's own"),
        _STRIP,
        place=place,
    )


def _moves(stock: Stock, at: Dimension, fast: Dimension, seasons: Seasons) -> tuple[Dimension, Dimension]:
    """How far a screw ``at`` some way behind the frame's face moves to the front and to the back, where a top of solid wood is
    held ``fast`` (CK-6).

    Nothing for a sheet. Of a wood that isn't in the table it is a fiftieth of the way each way, more than any wood moves.
    """
    if not isinstance(stock, Solid) or at == fast:
        return NOTHING, NOTHING
    way = at - fast if at > fast else fast - at
    shrinks, grows = _year(stock, way, seasons) or (way / 50, way / 50)
    return (shrinks, grows) if at > fast else (grows, shrinks)


def _year(stock: Solid, way: Dimension, seasons: Seasons) -> tuple[Dimension, Dimension] | None:
    """What that much of it shrinks by the driest day and grows by the dampest; None for a wood that isn't in the table."""
    try:
        return year_of(stock, way, seasons)
    except BadInput:
        return None


def _said(stock: Stock, deep: Dimension, seasons: Seasons) -> tuple[Finding, ...]:
    """How a solid top moves and is held, and that it is no part of the case's glue."""
    year = _year(stock, deep, seasons) if isinstance(stock, Solid) else None
    if year is None:
        return ()
    what = (
        "Solid, from front to back it moves {moves} through the year: screwed fast along its middle, through "
        "slots in front and behind, and not "
        "glued."
    )
    return (note("top", what, "TO-1, CK-6", MOVEMENT_SOURCE, moves=Fine(year[0] + year[1])).at("top board"),)


def _bored(
    strip: Board,
    panel: Board,
    middles: Sequence[Dimension],
    y: Dimension,
    shank: Dimension,
    moves: tuple[Dimension, Dimension],
) -> tuple[Board, Board]:
    """Strip and panel with a hole for each screw at the ``middles``, or a slot where it moves, one over the other (TO-1)."""
    forward, backward = moves
    is_slot = bool(forward.mm or backward.mm)
    by = ("TO-1, CK-6", MOVEMENT_SOURCE) if is_slot else ("TO-1", "common practice")
    use, kind, shape = (
        (CutUse.SCREW_SLOT, CutKind.SLOT, Shape.ROUND_ENDS) if is_slot else (CutUse.SCREW_HOLE, CutKind.HOLE, Shape.ROUND)
    )
    for n, x in enumerate(middles, start=1):
        low, high = y - shank / 2 - forward, y + shank / 2 + backward
        for board in (strip, panel):
            assert board.place is not None
            at, off = board.place.origin[0], board.place.origin[1]
            mate = PartRole(PartKind.TOP)
            role = CutRole(use, mate, which=strip.role if board is panel else None, number=n)
            name = f"{board.name} {role.name}"
            span = Span(
                (low - _mm(off)).named(f"{name} start", *by),
                (high - _mm(off)).named(f"{name} stop", *by),
            )
            along = Span.about(x - _mm(at), shank)
            cut = (
                Cut(kind, Surface.EDGE, along, whole(board, Axis.ACROSS), span, role, shape=shape)
                if board is strip
                else Cut(kind, Surface.FACE, along, span, whole(board, Axis.INTO), role, shape=shape)
            )
            if board is strip:
                strip = board.with_cuts(cut)
            else:
                panel = board.with_cuts(cut)
    return strip, panel


def _mm(at: Fraction) -> Length:
    return Length(at)


def _with(assembly: Assembly, board: Board) -> Assembly:
    """``assembly`` with ``board`` in the place of its own of that role."""
    return replace(assembly, boards=tuple(board if own.role == board.role else own for own in assembly.boards))


def _touching_frame(strips: Sequence[Board], around: Sequence[Board]) -> Iterator[Meeting]:
    """The front strip behind the members of the frame that it reaches, the back one before the case's back."""
    front, back = strips[0], strips[-1]
    mine = SpaceBox.around(front)
    for board in around:
        if board.role.whole is Whole.FRAME and share(mine, SpaceBox.around(board), 0, 2):
            yield butted((front, Surface.FACE), (board, Surface.FAR_FACE), "behind the", rule="TO-1")
        if board.role.kind is PartKind.CASE_BACK:
            yield butted((back, Surface.FAR_FACE), (board, Surface.FACE), "before the", rule="TO-1")
