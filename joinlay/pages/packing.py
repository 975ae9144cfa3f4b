"""Packing: sheets of paper being filled, and where on them the next template goes.

The problem is to lay rectangles on few sheets, in about the order of the work and the right way up where that costs nothing.
The method is that of the largest free boxes: the room left on a sheet is kept as every box that is free and in no larger free
box, and these may overlap. Each template goes into one of them, on the first sheet that has one, and is cut out of all of them;
what is left of each, at most four smaller boxes, is kept unless another holds it. A long thin template that fits nowhere whole
asks for the longest strip that is free.

To lay a template costs time with the square of the free boxes, of which a sheet has a few dozen. A template that is laid is
never moved again, and no other order is tried here, so the sheets are few but not proved fewest; ``lay_out`` fills a stack of
sheets twice, loosely and close, and keeps the one that takes less paper. All boxes are rectangles: a template never lies in the
hollow of another.
"""

from __future__ import annotations

from dataclasses import field, replace
from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import BadSize, Fraction, Length
from joinlay.pages.check_square import BAR_HIGH, BAR_LOW, SQUARE, LongBar, bar_length
from joinlay.pen.marks import Move, Polyline, Role, Text, Turn, moved, text_box
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.pages.printed_sheet import Laid
    from joinlay.pages.printer import Printer
    from joinlay.pages.tile_maps import TileMap
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Stroke

__all__ = ["BAR_ROOM", "GAP", "ROUND", "Cutout", "FreeRoom", "OpenSheet", "SheetStack", "Spot", "Strip"]


#: Paper left between two templates, and from each to the line that it is cut out along (PR-10): two such lines never meet, and at
#: the edge of what can be printed, where nothing stands beyond, the line runs along that.
GAP, ROUND = Fraction(4), Fraction(1)
#: What a long bar takes with the white beside it.
BAR_ROOM: Final = BAR_HIGH + BAR_LOW + GAP
#: The least room for a template beside the check square, in mm.
_LEAST: Final = Fraction(40)
#: A strip is worth while where it is at least so large a part of the longest on an empty sheet.
_SHARE: Final = Fraction(2, 5)


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on a sheet: the lower left corner, and whether the cutout lies turned a quarter."""

    x: Fraction
    y: Fraction
    is_turned: bool


@dataclass(frozen=True, slots=True)
class Strip:
    """A long free place on a sheet: its upper left corner, its length and width in mm, and whether it runs up the sheet."""

    left: Fraction
    top: Fraction
    length: Fraction
    thick: Fraction
    is_upright: bool

    def cut_to(self, length: Fraction) -> Box:
        """The box of its first ``length`` mm, from the upper left."""
        wide, high = (self.thick, length) if self.is_upright else (length, self.thick)
        return (self.left, self.top - high, self.left + wide, self.top)


class FreeRoom:
    """The room left on a sheet, as the largest boxes that are free; they may overlap each other.

    What is placed goes as high up as it can, then as far left, and is turned a quarter only where it fits no other way. Packed
    close, it goes where the least is left beside it, turned or not.
    """

    __slots__ = ("_boxes", "_is_close")

    def __init__(self, boxes: Iterable[Box], *, is_close: bool = False) -> None:
        """Begin with ``boxes``, in the sheet's mm, free; ``is_close`` to pack close."""
        self._boxes: list[Box] = list(boxes)
        self._is_close = is_close

    @property
    def boxes(self) -> tuple[Box, ...]:
        """The largest free boxes."""
        return tuple(self._boxes)

    def place(self, width: Fraction, height: Fraction) -> Spot | None:
        """Room for a rectangle of this size in mm, taken at once; None where there is none."""
        fitting: list[tuple[Fraction, bool, Fraction, Fraction]] = []
        for is_turned in (False, True):
            wide, high = (height, width) if is_turned else (width, height)
            for left, bottom, right, top in self._boxes:
                beside, below = right - left - wide, top - bottom - high
                if beside >= 0 and below >= 0:
                    fitting.append((min(beside, below) if self._is_close else Fraction(0), is_turned, -top, left))
        if not fitting:
            return None
        _, is_turned, top, left = min(fitting)
        wide, high = (height, width) if is_turned else (width, height)
        self.take((left, -top - high, left + wide, -top))
        return Spot(left, -top - high, is_turned)

    def strip(self, thick: Fraction, most: Fraction) -> Strip | None:
        """The longest strip that is free, ``thick`` mm wide and at most ``most`` long; None where there is none."""
        return next(iter(self.strips(thick, most)), None)

    def strips(self, thick: Fraction, most: Fraction) -> list[Strip]:
        """Every strip that is free, ``thick`` mm wide and at most ``most`` long, the longest first.

        Of two alike the upright one, then the highest, then the one furthest left. None is taken yet.
        """
        strips = []
        for left, bottom, right, top in self._boxes:
            for is_upright, wide, long in ((True, right - left, top - bottom), (False, top - bottom, right - left)):
                if thick <= wide:
                    strips.append(Strip(left, top, min(long, most), thick, is_upright))
        return sorted(strips, key=lambda one: (one.length, one.is_upright, one.top, -one.left), reverse=True)

    def take(self, taken: Box) -> None:
        """Note that the box ``taken``, and the gap around it, is free no longer."""
        x0, y0, x1, y1 = (taken[0] - GAP, taken[1] - GAP, taken[2] + GAP, taken[3] + GAP)
        left: list[Box] = []
        for a, b, c, d in self._boxes:
            if x1 <= a or c <= x0 or y1 <= b or d <= y0:
                left.append((a, b, c, d))
                continue
            rests = ((a, b, x0, d), (x1, b, c, d), (a, b, c, y0), (a, y1, c, d))
            left += [box for box in rests if box[0] < box[2] and box[1] < box[3]]
        self._boxes = [
            box for n, box in enumerate(left) if not any(_holds(o, box, first=m < n) for m, o in enumerate(left) if m != n)
        ]


def _holds(outer: Box, inner: Box, *, first: bool) -> bool:
    """True where ``inner`` lies in ``outer``; of two equal boxes only the first holds the other."""
    inside = outer[0] <= inner[0] and outer[1] <= inner[1] and outer[2] >= inner[2] and outer[3] >= inner[3]
    return inside and (first or outer != inner)


@dataclass(slots=True)
class OpenSheet:
    """A sheet being filled. ``foot`` is the lower left corner of its check square, ``low`` the lowest place taken on it.

    ``waiting`` are strokes that come to lie on it by a move; they are moved when the sheet is cut, since everything is laid twice
    and only one of the two ways is kept.
    """

    room: FreeRoom
    strokes: list[Stroke]
    foot: tuple[Fraction, Fraction]
    low: Fraction
    laid: list[Laid] = field(default_factory=list)
    maps: list[TileMap] = field(default_factory=list)
    waiting: list[tuple[Callable[[], Sequence[Stroke]], Move]] = field(default_factory=list)

    def drawn(self) -> list[Stroke]:
        """Every stroke on it, where it lies."""
        laid = (_readable(moved(stroke, move)) for strokes, move in self.waiting for stroke in strokes())
        return [*self.strokes, *laid]


@dataclass(frozen=True, slots=True)
class Cutout:
    """What has to go on one sheet in one place: a template or a tile of one, in its own millimetres.

    ``strokes`` gives what is drawn of it, once it stays where it lies.
    """

    laid: Laid
    strokes: Callable[[], Sequence[Stroke]]
    box: Box
    map: TileMap | None = None


class SheetStack:
    """The sheets laid so far, on one ``paper``; a check square on each and two long bars on the first (PR-2).

    On a roll the check square stands at the head of the sheet, which grows downwards.
    """

    def __init__(self, paper: Paper, printer: Printer, *, is_close: bool = False) -> None:
        """Begin with no sheet; ``is_close`` where templates may be turned to save paper.

        BadInput for paper with no room for the check square and a template, saying what would do.
        """
        self.paper, self.printer, self.is_close = paper, printer, is_close
        self.area = printer.room(paper)
        self.sheets: list[OpenSheet] = []
        #: Whether anything was put where there was room, turned or not.
        self.has_put = False
        wide, high = self.area[2] - self.area[0], self.area[3] - self.area[1]
        # With the bars there must be room for the square; without them, for a template above or beside it too.
        short, long = sorted((wide, high))
        if short < SQUARE + BAR_ROOM or long < SQUARE + GAP + _LEAST:
            raise _too_small(paper, printer)

    @property
    def used(self) -> tuple[int, Fraction]:
        """How much paper is used: how many sheets, and, of a roll, how many millimetres."""
        return len(self.sheets), sum(
            (self.area[3] - one.low for one in self.sheets), Fraction(0)
        ) if self.paper.is_roll else Fraction(0)

    def empty(self, *, with_bars: bool = False) -> OpenSheet:
        """A sheet with its check square, and with the long bars."""
        left, bottom, right, top = self.area
        strokes: list[Stroke] = []
        room = FreeRoom([self.area], is_close=self.is_close)
        low = top
        if with_bars:
            level, upright = LongBar(bar_length(right - left)), LongBar(bar_length(top - bottom))
            strokes += level.drawn(left, top - BAR_HIGH, upright=False)
            top -= BAR_ROOM
            low = top - upright.length if self.paper.is_roll else bottom
            # Its words stand to the left of the upright bar.
            strokes += upright.drawn(right - BAR_LOW, low, upright=True)
            room = FreeRoom([(left, bottom, right, top)], is_close=self.is_close)
            room.take((right - BAR_HIGH - BAR_LOW, low if self.paper.is_roll else bottom, right, top))
            right -= BAR_ROOM
        foot = (right - SQUARE, top - SQUARE if self.paper.is_roll else bottom)
        room.take((*foot, foot[0] + SQUARE, foot[1] + SQUARE))
        return OpenSheet(room, strokes, foot, min(low, foot[1]))

    def put(self, cutout: Cutout, first: int = 0) -> int:
        """Lay ``cutout`` on the first sheet with room, from number ``first`` (from 0) on, or on a new one; gives its number."""
        x0, y0, x1, y1 = cutout.box
        self.has_put = True
        at, spot = self._room_for(x1 - x0, y1 - y0, first)
        self.lay(cutout, at, (spot.x, spot.y), is_turned=spot.is_turned)
        return at

    def lay(self, cutout: Cutout, at: int, corner: tuple[Fraction, Fraction], *, is_turned: bool) -> None:
        """Lay ``cutout`` on sheet number ``at`` with its lower left ``corner`` there, in room that was taken before."""
        x0, y0, x1, y1 = cutout.box
        sheet = self.sheets[at]
        x, y = corner
        move = Move(x + y1, y - x0, 1) if is_turned else Move(x - x0, y - y0)
        sheet.laid.append(replace(cutout.laid, move=move))
        sheet.waiting.append((cutout.strokes, move))
        far = (x + y1 - y0, y + x1 - x0) if is_turned else (x + x1 - x0, y + y1 - y0)
        sheet.strokes.append(self._round((x, y, *far), cutout.laid.title))
        sheet.low = min(sheet.low, y)
        if cutout.map is not None:
            sheet.maps.append(cutout.map)

    def _round(self, box: Box, title: str) -> Polyline:
        """The one line that what lies in ``box`` is cut out along with all its words (PR-10); no farther out than can be
        printed.
        """
        left, bottom, right, top = self.area
        x0, y0, x1, y1 = box
        drawn = (max(left, x0 - ROUND), max(bottom, y0 - ROUND), min(right, x1 + ROUND), min(top, y1 + ROUND))
        return Polyline(corners(drawn), Role.ROUND, closed=True, says=f"round {title}")

    def strips(self, thick: Fraction, most: Fraction, first: int) -> Iterator[tuple[int, Strip]]:
        """Free strips that are worth while, ``thick`` mm wide and at most ``most`` long, each after the number of its sheet.

        They are looked for from sheet number ``first`` on, sheet by sheet, the longest first; at last there are those of a new
        sheet, which is added if it comes to that. One is worth while where it is at least two fifths as long as the longest of an
        empty sheet. None is taken yet.
        """
        on_empty = self.empty().room.strip(thick, self.area[2] + self.area[3])
        least = min(most, on_empty.length * _SHARE) if on_empty else most
        for at in range(first, len(self.sheets)):
            yield from ((at, strip) for strip in self.sheets[at].room.strips(thick, most) if strip.length >= least)
        while True:
            # The very first sheet may be too small for it because of its bars.
            self._open()
            found = self.sheets[-1].room.strips(thick, most)
            yield from ((len(self.sheets) - 1, strip) for strip in found)
            if found:
                return

    def begin(self) -> None:
        """Open the first sheet, with its bars, where there is none yet."""
        if not self.sheets:
            self._open()

    def _open(self) -> None:
        self.sheets.append(self.empty(with_bars=not self.sheets))

    def _room_for(self, width: Fraction, height: Fraction, first: int) -> tuple[int, Spot]:
        for at in range(first, len(self.sheets)):
            spot = self.sheets[at].room.place(width, height)
            if spot is not None:
                return at, spot
        # The very first sheet may be too small for it because of its bars.
        self._open()
        return self._room_for(width, height, len(self.sheets) - 1)

    def cut(self) -> Iterator[tuple[OpenSheet, Paper]]:
        """Every sheet with its paper: of a roll, as long as what is on it."""
        bottom, top = self.area[1], self.area[3]
        for sheet in self.sheets:
            if not self.paper.is_roll:
                yield OpenSheet(sheet.room, sheet.drawn(), sheet.foot, sheet.low, sheet.laid, sheet.maps), self.paper
                continue
            down = Move(Fraction(0), bottom - sheet.low)
            page = self.paper.cut_to(2 * self.paper.border + (top - sheet.low) * max(self.printer.down, Fraction(1)))
            laid = [replace(one, move=replace(one.move, up=one.move.up + down.up)) for one in sheet.laid]
            strokes = [moved(_no_lower(stroke, sheet.low), down) for stroke in sheet.drawn()]
            yield OpenSheet(sheet.room, strokes, down.point(sheet.foot), bottom, laid, sheet.maps), page


def _readable(stroke: Stroke) -> Stroke:
    """The same stroke; a line of text that would stand on its head is turned round where it is."""
    if not isinstance(stroke, Text) or stroke.turn is not Turn.LEFT:
        return stroke
    left, bottom, right, top = text_box(stroke)
    x, y = stroke.anchor
    return replace(stroke, anchor=(left + right - x, bottom + top - y), turn=Turn.RIGHT)


def _no_lower(stroke: Stroke, low: Fraction) -> Stroke:
    """The same stroke; a line to cut along stops at ``low``, where a roll is cut."""
    if not isinstance(stroke, Polyline) or stroke.role is not Role.ROUND:
        return stroke
    return replace(stroke, points=tuple((x, max(low, y)) for x, y in stroke.points))


def _too_small(paper: Paper, printer: Printer) -> BadSize:
    sides = (SQUARE + BAR_ROOM, SQUARE + GAP + _LEAST)
    across, down = max(printer.across, Fraction(1)), max(printer.down, Fraction(1))
    wide, high = (Length(side * max(across, down) + 2 * paper.border) for side in sides)
    too_small = (
        "{paper} paper is too small for the check square and a template beside it; the least is {wide} "
        "x {high}, so use A4 or letter."
    )
    return BadSize(too_small, paper=paper.title, wide=wide, high=high)
