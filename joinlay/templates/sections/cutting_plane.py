"""Joints cut through: the plane square to a joint's run, and what of both boards lies in it near the joint."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind, Place
from joinlay.geometry import shared_box
from joinlay.lengths import Fraction
from joinlay.templates.piece_axes import PieceAxis, reach

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, Cut, Vector
    from joinlay.pen.marks import Box

__all__ = ["JointSection", "SectionPart", "sections_of"]

_RUNNING: Final = (CutKind.DADO, CutKind.GROOVE, CutKind.RABBET, CutKind.SLOT)
#: Where along a joint it may be cut through.
_SHARES: Final = tuple(Fraction(share) for share in ("1/2", "2/5", "3/5", "1/3", "2/3", "1/4", "3/4", "1/8", "7/8"))
#: What a joint is called after the first of these cuts it has.
_WORDS: Final = {CutKind.DADO: "dado", CutKind.GROOVE: "groove", CutKind.SLOT: "slot", CutKind.RABBET: "rabbet"}
#: How much wood is shown round the cuts of a joint, in mm.
_AROUND: Final = Fraction(15)


@dataclass(frozen=True, slots=True)
class SectionPart:
    """One board in the section: its ``wood`` and its ``cuts`` as boxes within the window, in mm.

    ``goes_on`` are the sides of the window (left, bottom, right, top) where the board goes on past it.
    """

    board: Board
    wood: Box
    cuts: tuple[Box, ...]
    goes_on: tuple[bool, bool, bool, bool]


@dataclass(frozen=True, slots=True)
class JointSection:
    """A joint cut through, counted from the lower left of its window, in mm.

    ``kind`` is the trade's word for it. ``parts`` are the board that is cut into first, then the one that goes in or meets it.
    ``seen`` says how the section is looked at: from above, from the front, from the left.
    """

    kind: str
    seen: str
    parts: tuple[SectionPart, SectionPart]

    @property
    def likeness(self) -> tuple[object, ...]:
        """The same for joints that are cut alike, mirrored or not."""
        right = max(part.wood[2] for part in self.parts)
        top = max(part.wood[3] for part in self.parts)

        def turned(box: Box, *, x: bool, y: bool) -> Box:
            a, b, c, d = box
            a, c = (right - c, right - a) if x else (a, c)
            b, d = (top - d, top - b) if y else (b, d)
            return (a, b, c, d)

        flips = (
            tuple(
                (part.board.stock, turned(part.wood, x=x, y=y), tuple(sorted(turned(cut, x=x, y=y) for cut in part.cuts)))
                for part in self.parts
            )
            for x in (False, True)
            for y in (False, True)
        )
        return (self.kind, self.seen, min(flips))


def sections_of(boards: Iterable[Board]) -> Iterator[JointSection]:
    """A section for each two of ``boards``, in order, that meet in a dado, groove, rabbet or locking rabbet (LR, DA, RA, GR)."""
    named = {board.name: board for board in boards if board.place is not None}
    done: set[frozenset[str]] = set()
    for board in named.values():
        for cut in board.cuts:
            pair = frozenset((board.name, cut.mate))
            if cut.kind in _RUNNING and cut.mate in named and pair not in done:
                done.add(pair)
                section = _section(board, named[cut.mate])
                if section is not None:
                    yield section


def _section(one: Board, two: Board) -> JointSection | None:
    cuts = {board.name: _running(board, other) for board, other in ((one, two), (two, one))}
    # The board that is cut into stands first: one with a dado or groove before one with a rabbet only.
    first, second = sorted((one, two), key=lambda board: min((_rank(cut) for cut in cuts[board.name]), default=9))
    run = _run_of(first, cuts[first.name][0])
    joint = [(board, cut) for board in (first, second) for cut in cuts[board.name] if _run_of(board, cut) is run]
    at = _plane(run, joint)
    placed = [_squared(board, joint, run) for board in (first, second)]
    ways = tuple(way for way in PieceAxis if way is not run)
    spans = [[reach(_squared(board, joint, run), way, cut) for board, cut in joint] for way in ways]
    (lefts, rights), (lows, highs) = (tuple(zip(*span, strict=True)) for span in spans)
    window = (min(lefts) - _AROUND, min(lows) - _AROUND, max(rights) + _AROUND, max(highs) + _AROUND)
    parts = [_part(board, run, at, ways, window) for board in placed]
    if None in parts:
        return None
    left, bottom = min(part.wood[0] for part in parts if part), min(part.wood[1] for part in parts if part)
    moved = [_moved(part, left, bottom) for part in parts if part]
    seen = {PieceAxis.HEIGHT: "from above", PieceAxis.DEPTH: "from the front", PieceAxis.WIDTH: "from the left"}[run]
    return JointSection(_kind(first, joint), seen, (moved[0], moved[1]))


def _running(board: Board, other: Board) -> list[Cut]:
    return [cut for cut in board.cuts if cut.kind in _RUNNING and cut.mate == other.name]


def _rank(cut: Cut) -> int:
    return {CutKind.DADO: 0, CutKind.GROOVE: 0, CutKind.SLOT: 1, CutKind.RABBET: 2}[cut.kind]


def _run_of(board: Board, cut: Cut) -> PieceAxis:
    """The way of the piece in which a cut runs: its longest side."""
    longest = max(Axis, key=lambda axis: cut.span(axis).size.mm)
    assert board.place is not None
    return _way(board.place.direction(longest))


def _way(direction: Vector) -> PieceAxis:
    return max(PieceAxis, key=lambda way: abs(direction[way.value]))


def _plane(run: PieceAxis, joint: Sequence[tuple[Board, Cut]]) -> Fraction:
    """Where to cut through: half-way along what all the cuts of the joint share, or near it, clear of all else that is cut."""
    spans = [reach(board, run, cut) for board, cut in joint]
    low, high = max(low for low, _ in spans), min(high for _, high in spans)
    own = {(board.name, cut) for board, cut in joint}
    boards = {board.name: board for board, _ in joint}.values()
    others = [reach(board, run, cut) for board in boards for cut in board.cuts if (board.name, cut) not in own]
    # What runs on past both ends of the joint can't be kept clear of, and belongs to the profile.
    crossing = [(a, b) for a, b in others if not (a <= low and high <= b)]
    tries = [low + (high - low) * share for share in _SHARES]
    return next((at for at in tries if not any(a <= at <= b for a, b in crossing)), tries[0])


def _squared(board: Board, joint: Sequence[tuple[Board, Cut]], run: PieceAxis) -> Board:
    """A leaning board stood square where the joint is: over the width of a joint the lean of a tapered drawer is nothing."""
    place = board.place
    assert place is not None
    if sum(1 for size in place.along if size) == 1:
        return board
    own = [cut for other, cut in joint if other.name == board.name]
    along = own[0].along.centre.mm if own and _run_of(board, own[0]) is run else board.length.mm / 2
    way = _way(place.along)
    straight = [Fraction(0)] * 3
    straight[way.value] = place.along[way.value]
    x, y, z = (place.origin[n] + along * (place.along[n] - straight[n]) for n in range(3))
    return replace(board, place=Place((x, y, z), (straight[0], straight[1], straight[2]), place.across, place.into))


def _part(board: Board, run: PieceAxis, at: Fraction, ways: tuple[PieceAxis, ...], window: Box) -> SectionPart | None:
    (x0, x1), (y0, y1) = (reach(board, way) for way in ways)
    wood = shared_box((x0, y0, x1, y1), window)
    if wood is None:
        return None
    cuts = []
    for cut in board.cuts:
        low, high = reach(board, run, cut)
        if low < at < high:
            (a0, a1), (b0, b1) = (reach(board, way, cut) for way in ways)
            box = shared_box((a0, b0, a1, b1), wood)
            if box is not None:
                cuts.append(box)
    goes_on = (x0 < wood[0], y0 < wood[1], wood[2] < x1, wood[3] < y1)
    return SectionPart(board, wood, tuple(cuts), goes_on)


def _moved(part: SectionPart, left: Fraction, bottom: Fraction) -> SectionPart:
    def shifted(box: Box) -> Box:
        return (box[0] - left, box[1] - bottom, box[2] - left, box[3] - bottom)

    return replace(part, wood=shifted(part.wood), cuts=tuple(map(shifted, part.cuts)))


def _kind(first: Board, joint: Sequence[tuple[Board, Cut]]) -> str:
    kinds = {cut.kind for _, cut in joint}
    if first.part.startswith("drawer") and CutKind.DADO in kinds and CutKind.SLOT in kinds:
        return "half-blind locking rabbet"
    if first.part.startswith("drawer") and {CutKind.DADO, CutKind.RABBET} <= kinds:
        return "locking rabbet"
    return next((word for kind, word in _WORDS.items() if kind in kinds), "joint")
