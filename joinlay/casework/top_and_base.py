"""What a piece wears and stands on: a top that overhangs, fixed so that solid wood may move, and a plinth or feet (TO-1, BA-1,
BA-3).

Case and frame stand as they would without: the top lies on them, the base under them. The top is held by screws from inside, up
through the case's top panel and strips that fill the room over it, along front and back. A solid top has a third strip midway,
where its screws hold it fast; those in front and behind go through slots, so that it moves both ways by half.
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
from joinlay.errors import BadInput
from joinlay.findings import Change, Remedy, note, refusal, stock_of
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.joints.spans import whole
from joinlay.lengths import NOTHING, Fine, Fraction, Length, largest
from joinlay.records import dataclass
from joinlay.stock import Solid
from joinlay.stock.movement import MOVEMENT_SOURCE, movement_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.casework.case import Case
    from joinlay.casework.face_frame import FrameSizes
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop
    from joinlay.stock import Stock
    from joinlay.stock.movement import Seasons

__all__ = ["BaseMake", "TopMake", "make_base", "make_top"]


@dataclass(frozen=True, slots=True)
class TopMake:
    """A top of ``stock``: how far it overhangs in front, at each end and behind; None: as the practice has it, and flush
    behind.
    """

    stock: Stock
    front: Dimension | None = None
    ends: Dimension | None = None
    back: Dimension | None = None


@dataclass(frozen=True, slots=True)
class BaseMake:
    """A base of ``stock``, ``height`` high.

    A plinth stands ``set_back`` behind the frame's face and within the piece's sides (None: as the practice has it; negative:
    proud). ``foot`` is how wide each of four feet is; None: a plinth. ``has_recess`` sets its front ``toe`` behind the frame's
    face, with room for toes (None: as the practice has it).
    """

    stock: Stock
    height: Dimension
    set_back: Dimension | None = None
    foot: Dimension | None = None
    has_recess: bool = False
    toe: Dimension | None = None


_TOP: Final = Datum("underside", "front edge", "left end", "upper face", "back edge", "right end")
_STRIP: Final = Datum("front face", "lower edge", "left end", "back face", "upper edge", "right end")
_PLINTH: Final = Datum("outside face", "lower edge", "left end", "inside face", "upper edge", "right end")
_PLINTH_SIDE: Final = Datum("outside face", "lower edge", "front end", "inside face", "upper edge", "back end")
_FOOT: Final = Datum("front face", "left edge", "lower end", "back face", "right edge", "upper end")


# -- the top -------------------------------------------------------------------------------------------------


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
    _refuse_step("top", "overhang-top", frame.overhang_top)
    practice, (width, height, depth) = shop.practice, size
    usual = practice.length("top overhang")
    front, ends = (usual if given is None else given for given in (make.front, make.ends))
    back = NOTHING if make.back is None else make.back
    length = (width + 2 * ends).named("top length", "TO-1", usual.source)
    deep = (depth + front + back).named("top width, front to back", "TO-1", usual.source)
    role = PartRole(PartKind.TOP)
    thickness = make.stock.thickness.named(f"{role.name} thickness", "section 0", "as measured")
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
    meetings += _laid(
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
        raise refusal(
            "top", "So deep a top moves the screws at front and back {moves}, more than a strip {thick} thick has room for.",
            "Runner stock of {needed} or more would do, or a top of sheet, or cut on the quarter.", "TO-1, CK-6", MOVEMENT_SOURCE,
            moves=Fine(moves[0] + moves[1]), thick=strips.thickness, needed=reach + shank,
        ).at("top board").by(stock_of("runners", "stock", thinnest=reach + shank))  # fmt: skip


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
        stock.thickness.named(f"{role.name} thickness", "section 0", "as measured"),
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
        dry, damp = (movement_of(stock, way, seasons.workshop, day) for day in (seasons.driest, seasons.dampest))
    except BadInput:
        return None
    return largest(NOTHING, -dry), largest(NOTHING, damp)


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
    strip: Board, panel: Board, middles: Sequence[Dimension], y: Dimension, shank: Dimension, moves: tuple[Dimension, Dimension],
) -> tuple[Board, Board]:  # fmt: skip
    """Strip and panel with a hole for each screw at the ``middles``, or a slot where it moves, one over the other (TO-1)."""
    forward, backward = moves
    is_slot = bool(forward.mm or backward.mm)
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
                (low - _mm(off)).named(f"{name} start", "TO-1, CK-6", MOVEMENT_SOURCE),
                (high - _mm(off)).named(f"{name} stop", "TO-1, CK-6", MOVEMENT_SOURCE),
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
        if board.role.whole is Whole.FRAME and _share(mine, SpaceBox.around(board), 0, 2):
            yield butted((front, Surface.FACE), (board, Surface.FAR_FACE), "behind the", rule="TO-1")
        if board.role.kind is PartKind.CASE_BACK:
            yield butted((back, Surface.FAR_FACE), (board, Surface.FACE), "before the", rule="TO-1")


# -- the base ------------------------------------------------------------------------------------------------


def make_base(
    make: BaseMake,
    size: tuple[Dimension, Dimension, Dimension],
    frame: FrameSizes,
    sides: Stock,
    around: Sequence[Board],
    shop: Shop,
) -> Assembly:
    """The plinth or the four feet under a piece of ``size`` = width, height, depth, whose zero is the underside of its frame
    (BA-1, BA-3).

    ``sides`` is what the case's sides are of: a base is glued to solid ones at the front only. ``around`` are the boards of case
    and frame. Raises Refused where the frame reaches lower than the case, or the base stands inside it.
    """
    _refuse_step("base", "overhang-bottom", frame.overhang_bottom)
    usual = shop.practice.length("plinth set-back")
    set_back = usual if make.set_back is None else make.set_back
    thick = make.stock.thickness
    beyond = frame.overhang + sides.thickness - set_back
    wide = make.foot or thick
    if beyond.mm <= 0 or wide + set_back <= frame.overhang:
        raise (
            refusal(
                "base",
                "The base stands {set_back} within the piece's sides, and the case's sides from {from} to {to}, so "
                "they do not stand on it.",
                "Set it back less than {to}, and so far that it reaches past {from}.",
                "BA-1",
                "by geometry",
                set_back=set_back,
                **{"from": frame.overhang, "to": frame.overhang + sides.thickness},
            )
            .at("base")
            .by(Change("base", "set-back", frame.overhang))
        )
    front = set_back
    if make.has_recess:
        front = shop.practice.length("toe depth") if make.toe is None else make.toe
    made = _feet(make, make.foot, size, set_back) if make.foot is not None else _plinth(make, size, set_back, front)
    meetings = [] if make.foot is not None else _cornered(made, shop)
    for part in made:
        up = Surface.FAR_END if part.role.kind is PartKind.FOOT else Surface.FAR_EDGE
        is_front = part.role.kind is PartKind.BASE_FRONT or (part.role.kind is PartKind.FOOT and part.role.number <= _IN_FRONT)
        tie = Tie.GLUED if is_front or not sides.is_solid else Tie.DRY
        meetings += _laid(part, up, around, SpaceBox.around(part).high[2], "under the", "BA-1", tie)
    return Assembly(Whole.BASE, made, tuple(meetings), (make.height, set_back, front))


#: How many of the four feet are in front: the first ones.
_IN_FRONT: Final = 2


def _plinth(
    make: BaseMake, size: tuple[Dimension, Dimension, Dimension], set_back: Dimension, behind: Dimension
) -> tuple[Board, ...]:
    """Front over the ends of two sides, ``behind`` the frame's face, and back between them, flush with the rear of the piece
    (BA-1, BA-2).
    """
    (width, _, depth), thick = size, make.stock.thickness
    front = (width - 2 * set_back).named("base front length", "BA-1", "common practice")
    side = (depth - behind - thick).named("base side length", "BA-1", "common practice")
    back = (front - 2 * thick).named("base back length", "BA-1", "by geometry")
    for left in (side, back):
        if left.mm <= 0:
            raise refusal("base", f"The {left.name} would be {{left}}.",
                          "Make the piece at least {short} larger that way, or set the base back less.",
                          "BA-1", "by geometry", left=left, short=-left).at("base")  # fmt: skip
    low = -make.height
    right = width - set_back
    return (
        _part(
            make, PartRole(PartKind.BASE_FRONT), front, make.height, _PLINTH, Place.at(set_back, behind, low, "+X", "+Z", "+Y")
        ),
        _part(
            make,
            PartRole(PartKind.BASE_SIDE, hand=Hand.LEFT),
            side,
            make.height,
            _PLINTH_SIDE,
            Place.at(set_back, behind + thick, low, "+Y", "+Z", "+X"),
        ),
        _part(
            make,
            PartRole(PartKind.BASE_SIDE, hand=Hand.RIGHT),
            side,
            make.height,
            _PLINTH_SIDE,
            Place.at(right, behind + thick, low, "+Y", "+Z", "-X"),
        ),
        _part(
            make,
            PartRole(PartKind.BASE_BACK),
            back,
            make.height,
            _PLINTH,
            Place.at(set_back + thick, depth, low, "+X", "+Z", "-Y"),
        ),
    )


def _feet(
    make: BaseMake, wide: Dimension, size: tuple[Dimension, Dimension, Dimension], set_back: Dimension
) -> tuple[Board, ...]:
    """Four blocks, their grain upright: left and right in front, left and right behind."""
    width, _, depth = size
    low, thick = -make.height, make.stock.thickness
    places = ((x, y) for y in (set_back, depth - set_back - thick) for x in (set_back, width - set_back - wide))
    return tuple(
        _part(make, PartRole(PartKind.FOOT, number=n), make.height, wide, _FOOT, Place.at(x, y, low, "+Z", "+X", "+Y"))
        for n, (x, y) in enumerate(places, start=1)
    )


def _part(make: BaseMake, role: PartRole, length: Dimension, width: Dimension, datum: Datum, place: Place) -> Board:
    rule = "BA-3" if role.kind is PartKind.FOOT else "BA-1"
    return Board(
        role,
        make.stock.name,
        length.named(f"{role.name} length", rule),
        width.named(f"{role.name} width", rule),
        make.stock.thickness.named(f"{role.name} thickness", "section 0", "as measured"),
        datum,
        place=place,
    )


def _cornered(plinth: tuple[Board, ...], shop: Shop) -> list[Meeting]:
    """A plinth's corners: glued and nailed through the front into its sides, and through them into the back."""
    front, left, right, back = plinth
    nail = fastener_for(FastenerKind.NAIL, front.thickness, None, shop.rule, spacing=shop.practice.length("corner nail spacing"))
    nails = len(spread(front.width, shop.practice.length("corner nail spacing"), least=2))
    glue = front.width.mm * front.thickness.mm
    pairs = [((side, Surface.END), (front, Surface.FAR_FACE)) for side in (left, right)]
    pairs += [((back, Surface.END), (left, Surface.FAR_FACE)), ((back, Surface.FAR_END), (right, Surface.FAR_FACE))]
    return [
        butted(one, other, "against the", rule="BA-1", tie=Tie.NAILED, glue=glue, fasteners=nails, fastener=nail)
        for one, other in pairs
    ]


# -- both ----------------------------------------------------------------------------------------------------


def _refuse_step(what: str, key: str, overhang: Dimension) -> None:
    """Refuse a top or base for a frame that stands past the case there, so that it would lie on the frame alone."""
    if overhang.mm == 0:
        return
    refused = refusal(
        what,
        f"The frame stands {{overhang}} past the case there, so the {what} would meet the frame alone.",
        "",
        "FF-3, TO-1, BA-1",
        "by geometry",
        overhang=overhang,
    ).at(what)
    raise refused.by(Remedy("make the frame flush there", (Change("frame", key, NOTHING),)))


def _share(one: SpaceBox, other: SpaceBox, *axes: int) -> bool:
    """True where both share more than a line on each of the ``axes``."""
    return all(one.low[axis] < other.high[axis] and other.low[axis] < one.high[axis] for axis in axes)


def _laid(
    part: Board, surface: Surface, around: Iterable[Board], level: Fraction, where: str, rule: str, tie: Tie = Tie.DRY
) -> Iterator[Meeting]:
    """Where ``part`` meets with its ``surface``, at that ``level``, the boards that come up or down to it, over or under it."""
    mine = SpaceBox.around(part)
    for board in around:
        its = SpaceBox.around(board)
        up = level == its.high[2]
        if not (up or level == its.low[2]) or not mine.is_over(its):
            continue
        assert board.place is not None
        place = board.place
        facing = next(one for one in Surface if place.outward(one)[2] * (1 if up else -1) > 0)
        wide, deep = (min(mine.high[n], its.high[n]) - max(mine.low[n], its.low[n]) for n in (0, 1))
        yield butted(
            (part, surface), (board, facing), where, rule=rule, tie=tie, glue=wide * deep if tie is Tie.GLUED else Fraction(0)
        )
