"""Laying templates on sheets: small ones share a sheet, large ones are tiled, and every sheet has its check square."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from joinlay.drawings.marks import Move, Text, Turn, moved, text_box
from joinlay.errors import BadInput
from joinlay.lengths import Unit
from joinlay.pages.measures import BAR_HIGH, BAR_LOW, SQUARE, LongBar, bar_length
from joinlay.pages.packing import GAP, FreeRoom
from joinlay.pages.paper import Printer
from joinlay.pages.sheet import Laid, Sheet, bind
from joinlay.pages.tiling import count_tiles, match_letters, tile
from joinlay.pages.title_block import Foot, TileMap

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from fractions import Fraction

    from joinlay.drawings.marks import Box, Stroke
    from joinlay.drawings.template import Template
    from joinlay.pages.packing import Spot
    from joinlay.pages.paper import Paper

__all__ = ["lay_out"]


@dataclass(slots=True)
class _Open:
    """A sheet being filled."""

    room: FreeRoom
    strokes: list[Stroke]
    foot: tuple[Fraction, Fraction]
    laid: list[Laid] = field(default_factory=list)
    maps: list[TileMap] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Piece:
    """What has to go on one sheet in one place: a template or a tile of one."""

    laid: Laid
    strokes: tuple[Stroke, ...]
    box: Box
    map: TileMap | None = None


def lay_out(
    templates: Iterable[Template], paper: Paper, *, title: str, file: str, unit: Unit, printer: Printer | None = None
) -> tuple[Sheet, ...]:
    """Sheets with ``templates`` in their order, each as far forward as there is room for it.

    ``title`` and ``file`` (the job's, no folder) stand at the foot of each sheet, with what is on it and the ``unit`` of the figures.
    PR-1: nothing is scaled. PR-2: a check square on each sheet, two long bars on the first. PR-4: what does not fit is tiled.
    Raises BadInput for paper too small for the check square and a template beside it.
    """
    asked = printer or Printer()
    desk = _Desk(paper, asked)
    for template in templates:
        at = 0
        for piece in desk.pieces(template):
            # Tiles keep their order: none goes on a sheet before the last one's.
            at = desk.put(piece, at)
    sheets = []
    for sheet in desk.sheets:
        parts = tuple(one.title for one in sheet.laid)
        foot = Foot(
            title, parts, paper, file, "inches" if unit is Unit.INCH else "mm", sheet.foot, tuple(sheet.maps), printer=asked
        )
        sheets.append(Sheet(paper, asked, tuple(sheet.strokes), foot, tuple(sheet.laid)))
    return bind(sheets)


class _Desk:
    """The sheets laid so far."""

    def __init__(self, paper: Paper, printer: Printer) -> None:
        self.area = printer.room(paper)
        self.paper = paper
        self.sheets: list[_Open] = []
        self.letters = match_letters()
        if min(self.area[2] - self.area[0], self.area[3] - self.area[1]) < SQUARE + 4 * GAP:
            raise BadInput(f"{paper.title} paper is too small for the check square and a template beside it; use A4 or letter.")

    def _fresh(self) -> _Open:
        """A new sheet with its foot, and the long bars where it is the first."""
        left, bottom, right, top = self.area
        strokes: list[Stroke] = []
        if not self.sheets:
            level, upright = LongBar(bar_length(right - left)), LongBar(bar_length(top - bottom))
            strokes += level.drawn(left, top - BAR_HIGH, upright=False)
            top -= BAR_HIGH + BAR_LOW + GAP
            # Its words stand to the left of the upright bar.
            strokes += upright.drawn(right - BAR_LOW, bottom, upright=True)
            right -= BAR_HIGH + BAR_LOW + GAP
        foot = (right - SQUARE, bottom)
        room = FreeRoom([(left, bottom, right, top)])
        room.take((foot[0], foot[1], right, bottom + SQUARE))
        return _Open(room, strokes, foot)

    def pieces(self, template: Template) -> Iterator[_Piece]:
        """The template whole, or cut into tiles where it goes on no sheet."""
        width, height = template.size
        boxes = self._later_boxes()
        if any(_fits(width, height, box) or _fits(height, width, box) for box in boxes):
            yield _Piece(Laid(template, Move()), template.strokes, template.box)
            return
        rooms = [size for box in boxes for size in ((box[2] - box[0], box[3] - box[1]), (box[3] - box[1], box[2] - box[0]))]
        wide, high = min(rooms, key=lambda room: _worth(template.size, room))
        tiles = tile(template.strokes, wide, high, title=template.title, letters=self.letters)
        windows = tuple(one.window for one in tiles)
        for n, one in enumerate(tiles, start=1):
            yield _Piece(Laid(template, Move(), n, len(tiles)), one.strokes, one.window, TileMap(windows, n))

    def _later_boxes(self) -> tuple[Box, ...]:
        """The free boxes of a sheet with a check square and no bars."""
        _, bottom, right, _ = self.area
        room = FreeRoom([self.area])
        room.take((right - SQUARE, bottom, right, bottom + SQUARE))
        return room.boxes

    def put(self, piece: _Piece, first: int) -> int:
        """Lay ``piece`` on the first sheet with room for it, from number ``first`` (from 0) on, or on a new one; gives that sheet's number.

        The very first sheet may be too small for it because of its bars.
        """
        x0, y0, x1, y1 = piece.box
        at, spot = self._room_for(x1 - x0, y1 - y0, first)
        sheet = self.sheets[at]
        move = Move(spot.x + y1, spot.y - x0, 1) if spot.is_turned else Move(spot.x - x0, spot.y - y0)
        sheet.laid.append(replace(piece.laid, move=move))
        sheet.strokes += (_readable(moved(stroke, move)) for stroke in piece.strokes)
        if piece.map is not None:
            sheet.maps.append(piece.map)

        return at

    def _room_for(self, width: Fraction, height: Fraction, first: int) -> tuple[int, Spot]:
        for at in range(first, len(self.sheets)):
            spot = self.sheets[at].room.place(width, height)
            if spot is not None:
                return at, spot
        self.sheets.append(self._fresh())
        return self._room_for(width, height, len(self.sheets) - 1)


def _readable(stroke: Stroke) -> Stroke:
    """The same stroke; a line of text that would stand on its head is turned round where it is."""
    if not isinstance(stroke, Text) or stroke.turn is not Turn.LEFT:
        return stroke
    left, bottom, right, top = text_box(stroke)
    x, y = stroke.anchor
    return replace(stroke, anchor=(left + right - x, bottom + top - y), turn=Turn.RIGHT)


def _worth(size: tuple[Fraction, Fraction], room: tuple[Fraction, Fraction]) -> tuple[int, int, Fraction]:
    """How well tiles of ``room`` suit a template, the least best: few of them, its shorter side whole, long ones."""
    across, up = count_tiles(size[0], room[0]), count_tiles(size[1], room[1])
    return across * up, across if size[0] < size[1] else up, -max(room)


def _fits(width: Fraction, height: Fraction, box: Box) -> bool:
    return width <= box[2] - box[0] and height <= box[3] - box[1]
