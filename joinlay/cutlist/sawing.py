"""From a packing to the cuts that saw it out, in the order to make them, edges trimmed on the way.

The problem: a packing says where each piece lies, and the order it was found in is no order to saw in.

How it works: a packing is a tree of panels, each parted by one cut into a near and a far one. The tree is walked from the whole
blank: parallel cuts across one panel come one after the other, so that the fence or the stop is set for one kind of cut at a
time; then each panel they made is sawn up in turn. A raw edge is trimmed off just before the first cut that counts from it. A
column (pieces kept together) is one item of the packing and is parted here.

Whole numbers throughout, in the packing's units; here sizes are without the kerf, as they lie on the wood. It costs one step
for each cut.
"""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, NamedTuple, Union

from joinlay.cutlist.pattern import Keeps
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.cutlist.guillotine import Item, Laying

__all__ = ["Column", "Region", "Sawn", "Stroke", "saw_out"]


class Region(NamedTuple):
    """A rectangle: near corner, size along, size across."""

    along: int
    across: int
    length: int
    width: int

    def start(self, *, across: bool) -> int:
        """Where it begins, across or along."""
        return self.across if across else self.along

    def size(self, *, across: bool) -> int:
        """How far it reaches, across or along."""
        return self.width if across else self.length

    def between(self, start: int, stop: int, *, across: bool) -> Region:
        """The same rectangle reaching from ``start`` to ``stop`` across, or along."""
        if across:
            return self._replace(across=start, width=stop - start)
        return self._replace(along=start, length=stop - start)

    @property
    def is_empty(self) -> bool:
        """True where there is no wood in it."""
        return self.length <= 0 or self.width <= 0


class Stroke(NamedTuple):
    """A cut right across ``panel``: a rip (True) or a crosscut, its kerf beginning ``at`` from the panel's near edge or end."""

    is_rip: bool
    panel: Region
    at: int
    keeps: Keeps


class Column(NamedTuple):
    """Pieces laid in one item, one after the other with a kerf between: across the sheet (``across``) or along it.

    ``parts`` are number, length and width of each, kerf included.
    """

    across: bool
    parts: tuple[tuple[int, int, int], ...]


@dataclass(slots=True)
class Sawn:
    """The strokes in order, where each numbered piece lies, and the panels that are left."""

    strokes: list[Stroke] = field(default_factory=list)
    laid: dict[int, Region] = field(default_factory=dict)
    rests: list[Region] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _OnePiece:
    number: int
    region: Region


@dataclass(frozen=True, slots=True)
class _Divide:
    """Cut ``region`` with a rip or crosscut into ``near`` and ``far``; ``size`` is the near part's, kerf included."""

    is_rip: bool
    region: Region
    size: int
    near: _Goal
    far: _Goal


#: What is to become of a region: a piece, a cut through it, or (a bare region) whatever the packing says of it.
_Goal = Union[_OnePiece, _Divide, Region]


def saw_out(
    steps: Sequence[Laying], blank: Region, columns: Mapping[int, Column], *, kerf: int, trim: int, rip_first: bool
) -> Sawn:
    """Saw ``blank`` (its real size, trim included) up as ``steps`` say, blocks among them; regions of the steps have a kerf on
    each size.

    ``columns`` are the items that hold several pieces, by number. ``kerf`` is one cut's, ``trim`` what comes off each raw edge.
    ``rip_first`` says which way a single piece is freed of its trim first.
    """
    work = _Sawyer({_region_of(step): step for step in steps}, columns, kerf, trim, rip_first)
    usable = Region(0, 0, blank.length - 2 * trim + kerf, blank.width - 2 * trim + kerf)
    work.saw(blank, usable)
    return work.sawn


def _region_of(step: Laying) -> Region:
    space = step.space
    return Region(space.along, space.across, space.length, space.width)


@dataclass(slots=True)
class _Sawyer:
    """Saws one blank up; ``sawn`` grows as it goes."""

    steps: Mapping[Region, Laying]
    columns: Mapping[int, Column]
    kerf: int
    trim: int
    rip_first: bool
    sawn: Sawn = field(default_factory=Sawn)

    def saw(self, panel: Region, goal: _Goal) -> None:
        """Saw ``panel`` until every piece that ``goal`` asks for is free."""
        todo = [(panel, goal)]
        while todo:
            panel, goal = todo.pop()
            goal = self._opened(goal)
            if isinstance(goal, _Divide):
                # Last in, first out: turned round, so that the panel nearest the corner comes first.
                todo.extend(reversed(self._divided(panel, goal)))
            elif isinstance(goal, _OnePiece):
                self._free(panel, goal)
            elif not panel.is_empty:
                self.sawn.rests.append(panel)

    def _divided(self, panel: Region, goal: _Divide) -> list[tuple[Region, _Goal]]:
        """Every parallel cut that ``goal`` begins with, made; the panels that come of them, each with its own goal."""
        is_rip, made = goal.is_rip, []
        panel = self._trimmed(panel, goal.region, is_rip=is_rip)
        rest: _Goal = goal
        while isinstance(rest, _Divide) and rest.is_rip == is_rip:
            near, panel = self._cut(panel, rest.size - self.kerf, is_rip=is_rip, keeps=Keeps.BOTH)
            made.append((near, rest.near))
            rest = self._opened(rest.far)
        return [*made, (panel, rest)]

    def _free(self, panel: Region, goal: _OnePiece) -> None:
        """Trim off whatever still hangs on the piece's edges."""
        for is_rip in (self.rip_first, not self.rip_first):
            panel = self._trimmed(panel, goal.region, is_rip=is_rip)
            size = goal.region.size(across=is_rip) - self.kerf
            if panel.size(across=is_rip) > size:
                panel, _ = self._cut(panel, size, is_rip=is_rip, keeps=Keeps.NEAR)
        self.sawn.laid[goal.number] = panel

    def _trimmed(self, panel: Region, goal: Region, *, is_rip: bool) -> Region:
        """The panel without the raw edge, if it still has one where the goal begins."""
        waste = goal.start(across=is_rip) + self.trim - panel.start(across=is_rip)
        return self._cut(panel, waste - self.kerf, is_rip=is_rip, keeps=Keeps.FAR)[1] if waste > 0 else panel

    def _cut(self, panel: Region, size: int, *, is_rip: bool, keeps: Keeps) -> tuple[Region, Region]:
        self.sawn.strokes.append(Stroke(is_rip, panel, size, keeps))
        start = panel.start(across=is_rip)
        stop = start + panel.size(across=is_rip)
        near = panel.between(start, start + size, across=is_rip)
        return near, panel.between(start + size + self.kerf, stop, across=is_rip)

    def _opened(self, goal: _Goal) -> _Goal:
        """A bare region turned into what the packing lays there; as it is where that is nothing."""
        if not isinstance(goal, Region) or goal not in self.steps:
            return goal
        step = self.steps[goal]
        item = step.item
        long, wide = (item.width, item.length) if step.turned else (item.length, item.width)
        inside: _Goal = self._inside(item, goal._replace(length=long, width=wide))
        for is_rip in (not step.rip_first, step.rip_first):
            inside = self._cut_off(goal, inside, long, wide, is_rip=is_rip, is_last=is_rip is step.rip_first)
        return inside

    def _cut_off(self, region: Region, inside: _Goal, long: int, wide: int, *, is_rip: bool, is_last: bool) -> _Goal:
        """``inside`` with one cut more round it; the cut made first is wrapped last and runs across the whole region."""
        size = wide if is_rip else long
        within = region if is_last else region._replace(length=long) if is_rip else region._replace(width=wide)
        if size == within.size(across=is_rip):
            return inside
        start = within.start(across=is_rip)
        far = within.between(start + size, start + within.size(across=is_rip), across=is_rip)
        return _Divide(is_rip, within, size, inside, far)

    def _inside(self, item: Item, region: Region) -> _Goal:
        if item.number < 0:
            # A block: its panel is freed first, and then sawn up by itself.
            return region
        column = self.columns.get(item.number)
        return _OnePiece(item.number, region) if column is None else _stacked(column, region)


def _stacked(column: Column, region: Region) -> _Goal:
    """The cuts that part a column into its pieces, one after the other, those shorter than the column crosscut last."""
    across = column.across
    begins = [region.start(across=across)]
    for part in column.parts:
        begins.append(begins[-1] + (part[2] if across else part[1]))
    goal: _Goal | None = None
    for n in reversed(range(len(column.parts))):
        piece = _strip(column, n, region.between(begins[n], begins[n + 1], across=across))
        size = begins[n + 1] - begins[n]
        rest = region.between(begins[n], begins[-1], across=across)
        goal = piece if goal is None else _Divide(across, rest, size, piece, goal)
    return goal if goal is not None else region


def _strip(column: Column, n: int, strip: Region) -> _Goal:
    """PartToSaw ``n`` of a column, crosscut (or ripped) from its ``strip`` where it does not fill it."""
    number, long, wide = column.parts[n]
    piece = _OnePiece(number, strip._replace(length=long, width=wide))
    start, size = strip.start(across=not column.across), piece.region.size(across=not column.across)
    if size == strip.size(across=not column.across):
        return piece
    far = strip.between(start + size, start + strip.size(across=not column.across), across=not column.across)
    return _Divide(not column.across, strip, size, piece, far)
