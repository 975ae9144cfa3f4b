"""A setting drawn at true size, cut through square to the feed: fence, table, cutter, the work, and the waste crossed out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.hatching import Waste
from joinlay.pen.lettering import figures
from joinlay.pen.marks import Align, Line, Polyline, Role, Text
from joinlay.pen.signs import double_line
from joinlay.records import dataclass
from joinlay.settings import Guide
from joinlay.settings import Role as CutRole
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import Board
    from joinlay.lengths import Dimension, Graduation
    from joinlay.pen.marks import Box, Mark, Point
    from joinlay.settings import Setting

__all__ = ["SettingView"]

_ZERO: Final = Fraction(0)
_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)
#: How thick fence and table are drawn, and how far the cutter is drawn past the table.
_FENCE, _TABLE, _SHANK = Fraction(12), Fraction(2), Fraction(4)
#: Wood drawn beyond the cut, where there is any.
_BEYOND: Final = Fraction(9)
#: From fence to cut: the most and the least that is drawn where more is left out, and what is kept of it beside the fence.
_FAR, _LEAST_FAR, _KEPT = Fraction(60), Fraction(20), Fraction(14)
#: Room for the figure beside the wood.
_FIGURE_WIDE: Final = Fraction(20)
#: From the end of the cutter to the dimension below it, and from the wood to the one beside it.
_BELOW, _BESIDE = Fraction(4), Fraction(4)
_STROKE: Final = Fraction(5, 4)
_FIGURE: Final = Fraction(5)
_ZIGZAG: Final = Fraction(3, 2)


@dataclass(frozen=True, slots=True)
class SettingView:
    """The view; zero is where fence and table meet, or where guide or straightedge and wood meet.

    ``board`` is one of the parts; the others of the card are cut alike. Figures stand on ``rule``. The view keeps to ``wide``
    mm where the cut itself isn't wider, and draws no wood more than ``high`` mm up.

    On a table the cutter comes from below; a hand-held tool is drawn above the work. Wood that runs on is broken off, and so is
    the middle of a long way from fence to cut; everything else is true to size. Rules MS-1, PR-1.
    """

    setting: Setting
    board: Board
    rule: Graduation
    wide: Fraction
    high: Fraction

    def spelled(self) -> Iterator[Mark]:
        """The marks of the view: machine, wood, cutter, and the two distances to set."""
        yield from self._machine()
        yield from self._wood()
        yield from self._cutters()
        yield from self._fence_distance()
        yield from self._height()

    # -- where things are: x from the fence, y from the table into the wood --------------------------

    @property
    def _shift(self) -> Fraction:
        """From the surface the setting counts from to zero: none but with a straightedge, which stands somewhere on the wood."""
        offset = self.setting.offset
        return _ZERO if offset is None else offset.mm - self.setting.near_side.mm

    def _x(self, counted: Fraction) -> Fraction:
        """Where a distance counted by the setting is drawn."""
        x = counted + self._shift
        return x - self._left_out if x > _KEPT else x

    @property
    def _left_out(self) -> Fraction:
        """How much of the way from fence to cut is not drawn."""
        cut = self.setting.far_side.mm - self.setting.near_side.mm
        room = self.wide - _FENCE - 6 - cut - _BEYOND - _BESIDE - _FIGURE_WIDE
        return max(self.setting.near_side.mm + self._shift - max(min(room, _FAR), _LEAST_FAR), _ZERO)

    @property
    def _cut(self) -> Box:
        near = max(self.setting.near_side.mm, _ZERO)
        return (self._x(near), _ZERO, self._x(self.setting.far_side.mm), self.setting.height.mm)

    @property
    def _shape(self) -> tuple[Fraction, Fraction] | None:
        """Of a cutter with a corner's shape, how high its teeth begin and how far they stand out past what is below them
        (MS-11).
        """
        shape = self.setting.tool.shape
        return None if shape is None else (self.setting.height.mm - shape.slot.mm, shape.length.mm)

    @property
    def _waste(self) -> tuple[Point, ...]:
        """What is cut away, round from the corner at fence and table."""
        near, low, far, high = self._cut
        if self._shape is None:
            return corners(self._cut)
        below, tongue = self._shape
        tip = max(far - tongue, near)
        return ((near, low), (tip, low), (tip, below), (far, below), (far, high), (near, high))

    @property
    def _sizes(self) -> tuple[Fraction, Fraction]:
        """How far the wood goes from the fence, and from the table."""
        work = self.setting.works[0]
        return self._x(self.board.size(work.fence.axis).mm), self.board.size(work.entry.axis).mm

    @property
    def _seen(self) -> Box:
        """The wood that is drawn."""
        out, up = self._sizes
        left = -_FENCE - 6 if self.setting.guide is Guide.STRAIGHTEDGE else _ZERO
        return (left, _ZERO, min(out, self._cut[2] + _BEYOND), min(up, max(self.high, self._cut[3] + 3)))

    def _sides(self, n: int) -> tuple[Fraction, Fraction]:
        """The two sides of the cutter at fence position ``n``, counted from the nearest."""
        near = self._x(sorted(self.setting.fences)[n].mm)
        return near, near + self.setting.tool.width.mm

    # -- drawing -------------------------------------------------------------------------------------

    def _y(self, up: Fraction) -> Fraction:
        """A hand-held tool comes from above: then the view is turned over."""
        return up if self.setting.machine in _TABLES else -up

    def _points(self, box: Box) -> tuple[Point, ...]:
        return self._flipped(corners(box))

    def _flipped(self, points: Iterable[Point]) -> tuple[Point, ...]:
        return tuple((x, self._y(y)) for x, y in points)

    def _line(self, x0: Fraction, y0: Fraction, x1: Fraction, y1: Fraction, role: Role, says: str = "") -> Line:
        return Line((x0, self._y(y0)), (x1, self._y(y1)), role, says)

    def _machine(self) -> Iterator[Mark]:
        """Fence and table, or guide, in double lines; a fence the cutter is sunk in is hollow there."""
        if self.setting.guide in (Guide.CENTRE_LINE, Guide.GAUGED_LINE):
            return
        low, top = _ZERO, self._seen[3] + 2
        if self.setting.guide is Guide.STRAIGHTEDGE:
            low, top = -_FENCE / 3, _ZERO
        elif self.setting.near_side.mm < 0:
            low = self.setting.height.mm + 2
        yield from self._double((-_FENCE, low, _ZERO, top), "fence")
        if self.setting.machine in _TABLES:
            near, far = self._sides(0)[0] - 2, self._sides(-1)[1] + 2
            for a, b in ((-_FENCE - 4, near), (far, max(self._seen[2], far) + 6)):
                if a < b:
                    yield from self._double((a, -_TABLE, b, _ZERO), "table")

    def _double(self, box: Box, says: str) -> Iterator[Mark]:
        """What guides or carries the work, in double lines."""
        for line in double_line(*box):
            yield replace(line, points=tuple((x, self._y(y)) for x, y in line.points), says=says)

    def _wood(self) -> Iterator[Mark]:
        """The work before it is cut, broken where it runs on, with the waste crossed out."""
        yield Waste(self._flipped(self._waste), says="waste")
        left, low, right, top = self._seen
        out, up = self._sizes
        yield self._line(left, low, right, low, Role.OUTLINE)
        yield self._edge((left, top), (right, top), is_broken=top < up)
        yield self._edge((left, low), (left, top), is_broken=left < 0)
        yield self._edge((right, low), (right, top), is_broken=right < out)
        if self._left_out:
            yield from (self._edge((x, low), (x, top), is_broken=True) for x in (_KEPT, _KEPT + 2))
        near, _, far, high = self._cut
        if self._shape is not None:
            yield Polyline(self._flipped(self._waste[1:]), Role.CUT, says="what stays")
            return
        if near > left:
            yield self._line(near, low, near, high, Role.CUT, "near wall")
        if far < right:
            yield self._line(far, low, far, high, Role.CUT, "far wall")
        yield self._line(near, high, far, high, Role.CUT, "floor")

    def _edge(self, one: Point, two: Point, *, is_broken: bool) -> Mark:
        """An edge of the wood; a zigzag in its middle where the wood goes on."""
        if not is_broken:
            return self._line(*one, *two, Role.OUTLINE)
        (x0, y0), (x1, y1) = one, two
        x, y, z = (x0 + x1) / 2, (y0 + y1) / 2, _ZIGZAG
        turns = ((x, y - z), (x + z, y - z / 2), (x - z, y + z / 2), (x, y + z))
        if y0 == y1:
            turns = ((x - z, y), (x - z / 2, y + z), (x + z / 2, y - z), (x + z, y))
        return Polyline(tuple((px, self._y(py)) for px, py in (one, *turns, two)), Role.BREAK)

    def _cutters(self) -> Iterator[Mark]:
        """The cutter at the fence position nearest the guide, and in a chain line at the farthest where that is another."""
        if self.setting.machine is MachineKind.BENCH:
            return
        high = self.setting.height.mm
        for n, role in ((0, Role.OUTLINE), (-1, Role.LAST))[: len(self.setting.fences)]:
            yield Polyline(self._flipped(self._cutter(*self._sides(n))), role, closed=True, says="cutter")
        near, far = self._sides(0)
        yield self._line((near + far) / 2, -_SHANK - 1, (near + far) / 2, high + 3, Role.CENTRE)

    def _cutter(self, near: Fraction, far: Fraction) -> tuple[Point, ...]:
        """The cutter seen from its side; one with a shape is narrower below its teeth."""
        high = self.setting.height.mm
        if self._shape is None:
            return corners((near, -_SHANK, far, high))
        below, tongue = self._shape
        low = ((near + tongue, below), (near + tongue, -_SHANK), (far - tongue, -_SHANK), (far - tongue, below))
        return ((near, high), (near, below), *low, (far, below), (far, high))

    def _measured(self) -> tuple[Fraction, Dimension]:
        """What is set at the fence: where it ends, as the setting counts, and its size."""
        setting = self.setting
        if setting.offset is not None:
            return setting.near_side.mm, setting.offset
        if setting.role in (CutRole.STEP, CutRole.SHAPED):
            return setting.far_side.mm, setting.far_side
        if setting.role in (CutRole.MORTISE, CutRole.HOLE):
            return setting.centre.mm, setting.centre
        return setting.near_side.mm, setting.near_side

    def _fence_distance(self) -> Iterator[Mark]:
        """The distance to set at the fence, beyond the end of the cutter, its figure to the left of it."""
        counted, distance = self._measured()
        end, y = self._x(counted), -_SHANK - _BELOW
        if end <= 0 or len(self.setting.lines) > 1:
            return
        yield from (self._line(x, -_TABLE - 1, x, y - _STROKE, Role.DIMENSION) for x in (_ZERO, end))
        yield from self._stroked((_ZERO, y), (end, y), "fence distance")
        line = figures(distance, self.rule, _FIGURE)
        yield Text((Fraction(-2), self._y(y) - _FIGURE / 2), line, Align.RIGHT)

    def _height(self) -> Iterator[Mark]:
        """The height of the cutter, beside the wood."""
        x, high = self._seen[2] + _BESIDE, self.setting.height.mm
        yield from (self._line(self._seen[2] + 1, y, x + _STROKE, y, Role.DIMENSION) for y in (_ZERO, high))
        yield from self._stroked((x, _ZERO), (x, high), "height")
        yield Text((x + 3, self._y(high / 2) - _FIGURE / 2), figures(self.setting.height, self.rule, _FIGURE))

    def _stroked(self, one: Point, two: Point, says: str) -> Iterator[Mark]:
        """A dimension line with oblique strokes at both ends (ISO 129-1)."""
        yield self._line(*one, *two, Role.DIMENSION, says)
        for x, y in (one, two):
            at = self._y(y)
            yield Line((x - _STROKE, at - _STROKE), (x + _STROKE, at + _STROKE), Role.DIMENSION)
