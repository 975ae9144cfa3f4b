"""A board as blocks with hollows in them, and how much wood two boards can share at most (CK-8).

Most parts that lie in each other's box are a tongue in its groove, a panel in its dado, a tenon in its mortise: what one takes
up there has been cut out of the other. That is told by comparing numbers, in a hundredth of the time in which a geometry kernel
finds out the same. What this reckoning leaves over need not be wood, where something is round or slanted; then the kernel is
asked.

A block is never smaller than the wood it stands for, and a hollow never larger than what is cut out, so nothing in the way is
missed. Lengths become floats here, each from its exact place in the piece, so planes that meet have the same number.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Shape
from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, Place

__all__ = ["Block", "Box", "blocks_of", "most_shared", "moved", "swept_by"]

#: The lowest corner and the highest, in mm in the piece: x, y, z and x, y, z.
Box = tuple[float, float, float, float, float, float]

#: By how much less than a mortise a tenon may be called smaller, in mm: some thousand times what floats lose.
_HAIR = 1e-10

#: The other two axes of each.
_ACROSS = ((1, 2), (0, 2), (0, 1))


@dataclass(frozen=True, slots=True)
class Block:
    """Wood within ``box`` and in none of the ``hollows``.

    ``slots`` are hollows with half-round ends, each with the axis it goes down, 0 to 2; ``rounded`` is the axis along which the
    block itself is half round at both its narrow sides, None for one with corners.
    """

    box: Box
    hollows: tuple[Box, ...] = ()
    slots: tuple[tuple[Box, int], ...] = ()
    rounded: int | None = None


def blocks_of(board: Board) -> tuple[Block, ...]:
    """The blocks of a placed ``board`` (CK-8): one, or two where it leans: as far as it is held square, and the rest of it with
    all the room that it may lean in.
    """
    place = board.place
    assert place is not None
    length, width, thickness = (size.mm for size in board.sizes)
    if not place.leans:
        return (_block(board, place, length),)
    straight = [Fraction(int(part)) for part in place.along]
    run = next(n for n, part in enumerate(straight) if part)
    none = Fraction(0)
    ends = [place.spot(at, across, into) for at in (none, length) for across in (none, width) for into in (none, thickness)]
    low, high = [float(min(at)) for at in zip(*ends, strict=True)], [float(max(at)) for at in zip(*ends, strict=True)]
    joint = place.square_for
    if not joint:
        return (Block(_box(low, high)),)
    square = replace(place, along=(straight[0], straight[1], straight[2]))
    from_here = float(place.origin[run] + straight[run] * joint)
    if straight[run] > 0:
        low[run] = from_here
    else:
        high[run] = from_here
    return (_block(board, square, joint), Block(_box(low, high)))


def _block(board: Board, place: Place, length: Fraction) -> Block:
    """``board`` from its reference end for ``length``, standing square."""

    def put(a: Fraction, b: Fraction, c: Fraction, d: Fraction, e: Fraction, f: Fraction) -> Box:
        one, other = place.spot(a, c, e), place.spot(b, d, f)
        pairs = [(float(p), float(q)) for p, q in zip(one, other, strict=True)]
        return _box([min(pair) for pair in pairs], [max(pair) for pair in pairs])

    def run(axis: Axis) -> int:
        return next(n for n, part in enumerate(place.direction(axis)) if part)

    none, hollows, slots = Fraction(0), list[Box](), list[tuple[Box, int]]()
    for cut in board.cuts:
        along, across, into = cut.spans
        gone = put(along.start.mm, along.stop.mm, across.start.mm, across.stop.mm, into.start.mm, into.stop.mm)
        if cut.shape is Shape.SQUARE:
            hollows.append(gone)
        else:
            slots.append((gone, run(cut.surface.axis)))
    box = put(none, length, none, board.width.mm, none, board.thickness.mm)
    return Block(box, tuple(hollows), tuple(slots), run(Axis.ALONG) if board.has_round_edges else None)


def moved(blocks: Iterable[Block], x: float, y: float, z: float) -> tuple[Block, ...]:
    """The same blocks shifted, by mm (CK-8)."""

    def shifted(box: Box) -> Box:
        a, b, c, d, e, f = box
        return (a + x, b + y, c + z, d + x, e + y, f + z)

    return tuple(
        Block(
            shifted(one.box), tuple(map(shifted, one.hollows)), tuple((shifted(box), n) for box, n in one.slots), one.rounded
        )
        for one in blocks
    )  # fmt: skip


def swept_by(blocks: Iterable[Block], axis: int, far: float) -> tuple[Block, ...]:
    """All the room that the blocks take up while they go ``far`` mm along an axis, 0 to 2, or back along it where that is
    less than 0 (PT-2).

    A hollow stays one where no wood comes through it: where it is open at the end that comes last.
    """

    def drawn_out(box: Box) -> Box:
        low, high = list(box[:3]), list(box[3:])
        if far < 0:
            low[axis] += far
        else:
            high[axis] += far
        return _box(low, high)

    def left(own: Box, hollow: Box) -> Box | None:
        at_low, at_high = hollow[axis] <= own[axis], hollow[axis + 3] >= own[axis + 3]
        if at_low and at_high:
            return drawn_out(hollow)
        return hollow if (at_high if far < 0 else at_low) else None

    return tuple(
        Block(
            drawn_out(one.box),
            tuple(stays for hollow in one.hollows if (stays := left(one.box, hollow))),
            tuple((stays, n) for slot, n in one.slots if n == axis and (stays := left(one.box, slot))),
            one.rounded if one.rounded == axis else None,
        )
        for one in blocks
    )


def most_shared(some: Sequence[Block], others: Sequence[Block]) -> float:
    """The volume, in cubic mm, beyond which ``some`` and ``others`` share none: 0 where they certainly share nothing (CK-8)."""
    volume = 0.0
    for one in some:
        for other in others:
            common = _common(one.box, other.box)
            if common and not (_goes_in(one, other, common) or _goes_in(other, one, common)):
                rest = [common]
                for hollow in (*one.hollows, *other.hollows):
                    if rest and _common(common, hollow):
                        rest = [left for box in rest for left in _less(box, hollow)]
                volume += sum((d - a) * (e - b) * (f - c) for a, b, c, d, e, f in rest)
    return volume


def _goes_in(strip: Block, holed: Block, common: Box) -> bool:
    """True where all of a rounded ``strip`` that lies in the other's box is in a slot of it.

    Both are half round at their ends: the strip is in the slot where the two points it is rounded about are no further from the
    line between the slot's than its radius is smaller.
    """
    axis = strip.rounded
    if axis is None:
        return False
    one, other = _ACROSS[axis]
    for slot, down in holed.slots:
        if down == axis and slot[axis] <= common[axis] and slot[axis + 3] >= common[axis + 3]:
            mine, its = _spine(strip.box, one, other), _spine(slot, one, other)
            room = its[4] - mine[4] + _HAIR
            if room >= 0 and all(_off(mine[n], mine[n + 1], its) <= room * room for n in (0, 2)):
                return True
    return False


def _spine(box: Box, one: int, other: int) -> tuple[float, float, float, float, float]:
    """The points that what is half round at both ends is rounded about, and the radius."""
    a, b, c, d = box[one], box[other], box[one + 3], box[other + 3]
    if c - a > d - b:
        radius, middle = (d - b) / 2, (b + d) / 2
        return a + radius, middle, c - radius, middle, radius
    radius, middle = (c - a) / 2, (a + c) / 2
    return middle, b + radius, middle, d - radius, radius


def _off(x: float, y: float, spine: tuple[float, float, float, float, float]) -> float:
    """How far a point is from the line between two that lie on one axis, times itself."""
    a, b, c, d, _ = spine
    across, up = max(a - x, 0.0, x - c), max(b - y, 0.0, y - d)
    return across * across + up * up


def _common(one: Box, other: Box) -> Box | None:
    """The box that both share, None where they share no more than a surface."""
    a, b, c, d, e, f = one
    u, v, w, x, y, z = other
    low, high = (max(a, u), max(b, v), max(c, w)), (min(d, x), min(e, y), min(f, z))
    return (*low, *high) if low[0] < high[0] and low[1] < high[1] and low[2] < high[2] else None


def _less(box: Box, hollow: Box) -> Iterator[Box]:
    """``box`` less what it shares with ``hollow``, in boxes."""
    gone = _common(box, hollow)
    if gone is None:
        yield box
        return
    low, high = list(box[:3]), list(box[3:])
    for n in range(3):
        if low[n] < gone[n]:
            yield _box(low, [gone[n] if m == n else high[m] for m in range(3)])
            low[n] = gone[n]
        if gone[n + 3] < high[n]:
            yield _box([gone[n + 3] if m == n else low[m] for m in range(3)], high)
            high[n] = gone[n + 3]


def _box(low: Sequence[float], high: Sequence[float]) -> Box:
    return (low[0], low[1], low[2], high[0], high[1], high[2])
