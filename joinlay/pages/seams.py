"""Seams between tiles: where they fall, so that nothing is parted that is marked from or read, and their register marks (PR-4).

The problem: a drawing is cut across so that each tile fits its sheet, no more tiles than need be, and the overlap of two
neighbours, 10 mm wide, crosses neither a joint mark nor words, but has white enough for two register marks. The method goes
from tile to tile. Each ends somewhere between the least that leaves no tile more to make and the most its sheet holds. In that
stretch the stops are listed whose overlap touches nothing to keep off, from the last (the longest tile) back: just before each
thing in the way, and every 3 mm. The first of the ten longest where both register marks lie on nothing is taken. Where there is
none the claims are lowered one by one: white beside the marks is given up, then short words, then a clear place for the
register marks; words that would stand whole on neither tile are parted last.

The cost is the stops tried times the strokes near each, some thousands of boxes for a story stick. Each seam is chosen for
itself, so a choice is never taken back for the sake of the next; a drawing that is full all along gets a seam through its
marks, at full length.
"""

from __future__ import annotations

from collections import defaultdict
from enum import Enum
from itertools import pairwise
from math import ceil, floor
from string import ascii_uppercase
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import Align, Arc, Line, Polyline, Role, Text, box_around
from joinlay.pen.placing import MM, Room, whole
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.pen.marks import Box, Stroke

__all__ = [
    "OVERLAP",
    "Parting",
    "Seams",
    "Span",
    "count_tiles",
    "match_letters",
    "next_stop",
    "registers",
    "seams_across",
    "spans_of",
    "with_boxes",
]

#: How much two neighbours have in common, in mm.
OVERLAP: Final = Fraction(10)
#: Strokes longer than this along the way can't be kept off every seam.
_LONG: Final = Fraction(40)
#: Words longer than this can't be kept off every seam: a title along a strip is shorter.
_LONG_WORDS: Final = Fraction(120)
#: White kept between a seam and the joint marks and words beside it, where there is a choice.
_CLEAR: Final = Fraction(2)
#: No tile is smaller than this along the way.
_LEAST: Final = Fraction(40)
_RING, _ARM = Fraction(2), Fraction(3)
#: The height of a match letter, and the widest of them.
_LETTER, _SMALL, _WIDE_LETTER = Fraction(7, 2), Fraction(5, 2), "W"
#: From a ring to the letter above it: J and Q reach below their line.
_ABOVE: Final = Fraction(3, 2)
#: Stops are looked for this close to each other, in mm, and so many of them are looked at more closely.
_STRIDE, _TRIES = 3, 10
#: So many places along a seam are tried for a register mark.
_SPOTS: Final = 60

#: From where to where on one axis, in mm.
Span = tuple[Fraction, Fraction]
#: What a stroke takes up, in mm, and whether it is words.
_Side = tuple["Box", bool]
#: Where no seam should fall: never if it can be helped, and wherever there is a choice.
_KeepOff = tuple[list[Span], list[Span]]


def count_tiles(size: Fraction, room: Fraction) -> int:
    """How many tiles a length of ``size`` mm takes where each has ``room`` mm, neighbours overlapping."""
    return 1 if size <= room else ceil((size - OVERLAP) / (room - OVERLAP))


def match_letters() -> Iterator[str]:
    """A, B .. Z, AA, AB ..: no two seams share one."""
    yield from ascii_uppercase
    for first in match_letters():
        yield from (first + letter for letter in ascii_uppercase)


def with_boxes(strokes: Iterable[Stroke]) -> list[tuple[Stroke, Box]]:
    """``strokes``, each with its box."""
    return [(stroke, box_around(stroke)) for stroke in strokes]


def seams_across(drawn: Sequence[tuple[Stroke, Box]], box: Box, axis: int) -> Seams:
    """The seams that part what is ``drawn``, strokes with their boxes, along ``axis``: 0 from left to right, 1 upwards (PR-4).

    It fills ``box``.
    """
    sides = defaultdict[int, list[_Side]](list)
    for stroke, bounds in drawn:
        for side in _sides(stroke, bounds):
            for n in range(floor(side[axis] / OVERLAP), floor(side[axis + 2] / OVERLAP) + 1):
                sides[n].append((side, isinstance(stroke, Text)))
    return Seams(_keep_off(drawn, axis), sides, (box[1 - axis], box[3 - axis]), is_upright=axis == 0)


def _keep_off(drawn: Sequence[tuple[Stroke, Box]], axis: int) -> _KeepOff:
    """Where no seam should fall: words that would stand whole on neither of its tiles; and short words and joint marks."""
    straddled, touched = [], []
    for stroke, box in drawn:
        low, high = box[axis], box[axis + 2]
        if isinstance(stroke, Text) and OVERLAP < high - low <= _LONG_WORDS:
            # They may reach into the overlap, but not out of it on both sides.
            straddled.append((low + OVERLAP, high - OVERLAP))
        if stroke.role in (Role.CUT, Role.TEXT, Role.DATUM) and high - low <= _LONG:
            touched.append((low, high))
    return straddled, touched


def spans_of(low: Fraction, high: Fraction, room: Fraction, seams: Seams) -> list[Span]:
    """From where to where each tile goes, in order, of a drawing from ``low`` to ``high`` with ``room`` for each; in mm (PR-4).

    Each is as long as it can be with its overlap clear of what ``seams`` keep off.
    """
    spans: list[Span] = []
    start = low
    keep_off = seams.keep_off if high - low > room else ([], [])
    while high - start > room:
        # The last tile must be worth handling, and no tile is added for the sake of a clear seam.
        most = min(start + room, high - _LEAST + OVERLAP)
        least = start + max(2 * OVERLAP, high - start - (count_tiles(high - start, room) - 1) * (room - OVERLAP))
        stop = _clear(least, most, keep_off, seams)
        spans.append((start, stop))
        start = stop - OVERLAP
    return [*spans, (start, high)]


def next_stop(start: Fraction, room: Fraction, high: Fraction, seams: Seams) -> tuple[Fraction, Parting]:
    """Where a strip that begins at ``start`` and has ``room`` ends, of a drawing that ends at ``high`` (PR-4).

    For the sake of a clear seam it may be as short as a quarter of the room; a last strip worth handling is left. The second is
    what the seam parts.
    """
    if high - start <= room:
        return high, Parting.NOTHING
    most = min(start + room, high - _LEAST + OVERLAP)
    least, (straddled, touched) = min(most, start + max(_LEAST, room / 4)), seams.keep_off
    stop = _clear(least, most, (straddled, touched), seams)
    if not _stops(stop, stop, straddled) or not seams.spots(stop, _WIDE_LETTER)[1]:
        # Words lie across it too where a register mark would have to stand on some.
        return stop, Parting.WORDS
    return stop, Parting.NOTHING if _stops(stop, stop, touched) else Parting.MARKS


class Parting(Enum):
    """What lies across a seam; the marks of an overlap are on both of its tiles, words that reach past it are whole on
    neither.
    """

    NOTHING = "nothing"
    MARKS = "marks"
    WORDS = "words"


@dataclass(frozen=True, slots=True)
class Seams:
    """Seams one way across a drawing; ``other`` is from where to where a seam runs, ``keep_off`` where none should fall.

    ``sides`` has what the strokes take up by the stretches it lies in, each as long as an overlap, counted from nought.
    """

    keep_off: _KeepOff
    sides: Mapping[int, Sequence[_Side]]
    other: Span
    is_upright: bool

    def spots(self, stop: Fraction, letter: str) -> tuple[list[Span], bool]:
        """The first and last place along the overlap that ends at ``stop`` for a register mark and its letter.

        They lie on nothing, or at least on no words; where all is full, at its very ends. The second is True where both lie on
        nothing.
        """
        (low, high), start = self.other, stop - OVERLAP
        box = (start, low, stop, high) if self.is_upright else (low, start, high, stop)
        near = [
            (whole(b), is_words)
            for n in range(floor(start / OVERLAP), floor(stop / OVERLAP) + 1)
            for b, is_words in self.sides.get(n, ())
            if b[0] <= box[2] and box[0] <= b[2] and b[1] <= box[3] and box[1] <= b[3]
        ]
        rooms = (Room(side for side, _ in near), Room(side for side, is_words in near if is_words))
        # On an upright seam there is room for a letter only above its ring; on one that lies there is, beside it.
        beside = 1 + set_line(words(letter, _height(letter), bold=True)).width
        wide, tall = 2 * _ARM + (0 if self.is_upright else beside), 2 * _ARM + (_ABOVE + _LETTER if self.is_upright else 0)
        long = high - low - (tall if self.is_upright else wide)
        steps = range(0, max(1, int(long) + 1), max(1, int(long) // _SPOTS))
        middle = (start + stop) / 2
        found, is_clear = [], True
        x, y = (middle, low + _ARM) if self.is_upright else (low + _ARM, middle)
        a, b, c, d = whole((x - _ARM, y - _ARM, x - _ARM + wide, y - _ARM + tall))
        for order in (steps, steps[::-1]):
            boxes = [(a, b + n * MM, c, d + n * MM) if self.is_upright else (a + n * MM, b, c + n * MM, d) for n in order]
            free = ((tried, n) for tried, room in enumerate(rooms) for n, one in enumerate(boxes) if room.is_free(one, MM // 2))
            tried, n = next(free, (len(rooms), 0))
            is_clear = is_clear and not tried
            for room in rooms:
                room.take(boxes[n])
            found.append((x, y + order[n]) if self.is_upright else (x + order[n], y))
        return found, is_clear


def _clear(least: Fraction, most: Fraction, keep_off: _KeepOff, seams: Seams) -> Fraction:
    """The last stop from ``least`` to ``most`` whose overlap, the 10 mm before it, touches nothing and has room for its marks.

    Else the last one that straddles no words and has that room; else one without that room; else ``most``.
    """
    straddled, touched = keep_off
    apart = [(low - _CLEAR, high + _CLEAR) for low, high in touched]
    # Only words can make a register mark hard to read, and be made hard to read by one.
    tries = _TRIES if straddled or touched else 0
    looked_at: set[Fraction] = set()
    first: Fraction | None = None
    for spans in (apart, touched, []):
        stops = _stops(least, most, (*straddled, *spans))
        if first is None and stops:
            first = stops[0]
        for stop in stops[:tries]:
            if stop not in looked_at and seams.spots(stop, _WIDE_LETTER)[1]:
                return stop
            looked_at.add(stop)
    return most if first is None else first


def _stops(least: Fraction, most: Fraction, spans: Sequence[Span]) -> list[Fraction]:
    """Stops whose overlap is clear of ``spans``, the last first: just before each of them, and every few millimetres."""
    spans = [(a, b) for a, b in spans if a < most and least - OVERLAP < b]
    tries = {most, *(a for a, _ in spans), *(most - n for n in range(0, int(most - least) + 1, _STRIDE))}
    clear = (stop for stop in tries if least <= stop <= most and not any(a < stop and stop - OVERLAP < b for a, b in spans))
    return sorted(clear, reverse=True)


def registers(spans: Sequence[Span], seams: Seams, letters: Iterator[str]) -> Iterator[Stroke]:
    """Two register marks in each overlap of ``spans``, as far apart as there is room for, with one of ``letters`` each (PR-4).

    They are drawn once, to be clipped with the rest: each neighbour shows what falls on it.
    """
    for (_, stop), _ in pairwise(spans):
        letter = next(letters)
        for spot in seams.spots(stop, letter)[0]:
            yield from _register(*spot, letter, is_upright=seams.is_upright)


def _sides(stroke: Stroke, bounds: Box) -> Iterator[Box]:
    """What a stroke takes up: an outline only its sides, not what they enclose."""
    if isinstance(stroke, Polyline):
        points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
        yield from ((min(a, c), min(b, d), max(a, c), max(b, d)) for (a, b), (c, d) in pairwise(points))
    else:
        yield bounds


def _height(letter: str) -> Fraction:
    """Two letters are set smaller, so that they need no more room than one."""
    return _LETTER if len(letter) == 1 else _SMALL


def _register(x: Fraction, y: Fraction, letter: str, *, is_upright: bool) -> Iterator[Stroke]:
    """A ring with a cross through it, and the letter to the right; above it on a seam that stands upright."""
    yield Arc((x, y), _RING, Fraction(0), Fraction(360), Role.REGISTER)
    yield Line((x - _ARM, y), (x + _ARM, y), Role.REGISTER, f"register {letter}")
    yield Line((x, y - _ARM), (x, y + _ARM), Role.REGISTER, f"register {letter}")
    said = words(letter, _height(letter), bold=True)
    if is_upright:
        yield Text((x, y + _ARM + _ABOVE), said, Align.MIDDLE, role=Role.REGISTER)
    else:
        yield Text((x + _ARM + 1, y - _LETTER / 2), said, role=Role.REGISTER)
