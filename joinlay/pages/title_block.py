"""The foot of a sheet of templates: the check square, and in it what to do first, what the signs mean, and the title block.

The fields are those of ISO 7200. Beside them stand small maps of tiled drawings: which of their tiles are on this sheet, and
where they belong.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pages.check_square import check_square
from joinlay.pages.printed_sheet import NO_WORDS
from joinlay.pages.seams import OVERLAP
from joinlay.pen.hatching import Hatch, Waste
from joinlay.pen.lettering import fitted, words, wrapped
from joinlay.pen.marks import Align, Fill, Line, Move, Polyline, Role, Text, flatten, moved
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.pages.printed_sheet import FootWords
    from joinlay.pages.printer import Printer
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Mark, Point, Stroke

__all__ = ["Sign", "TemplateFoot", "TileMap", "signs_on", "tile_maps"]


_SMALL: Final = Fraction(5, 2)
_WORD: Final = Fraction(7, 2)
#: Room inside the dimension lines of the check square.
_LEFT, _TOP = Fraction(3), Fraction(85)
_ROW: Final = Fraction(4)
_STEP: Final = Fraction(18, 5)
#: How long a line of them may be.
_PARTS_WIDE: Final = Fraction(78)
#: Parts that are listed, and those where the printer is named too.
_MOST_PARTS, _MOST_BESIDE = 4, 3
#: Where the maps of tiles stand.
_MAP: Final = (Fraction(58), Fraction(111, 2), Fraction(83), Fraction(72))
#: The letters of field names and of maps.
_TINY: Final = Fraction(9, 5)
#: How many maps there are at most.
_MOST_MAPS: Final = 2
#: The least side of a tile on a map that has room for its number.
_CELL: Final = Fraction(13, 4)
#: A tile of a strip, where the strip is too long to be drawn in proportion, and the white between two rows of them.
_MAP_WIDE: Final = Fraction(4)
_MAP_ROW: Final = Fraction(5, 4)


class Sign(Enum):
    """A sign that the foot of a sheet explains, with its one meaning in the whole packet (PR-8), the most telling first."""

    WASTE = "taken away"
    WOOD = "wood in its place"
    SECTION = "wood cut through"
    FOLD = "fold over the edge"
    HIDDEN = "under the surface"


#: The line type that a sign is known by; a tone of grey has none.
_SIGN_OF: Final = {Role.WASTE: Sign.WASTE, Role.HATCH: Sign.SECTION, Role.FOLD: Sign.FOLD, Role.HIDDEN: Sign.HIDDEN}
#: Black ink is for bars and pointers, white for letters.
_BLACK: Final = Fraction(1)


def signs_on(strokes: Iterable[Stroke]) -> tuple[Sign, ...]:
    """The signs among ``strokes``, in the order they are explained; no others, and each once (PR-8)."""
    found = {Sign.WOOD if isinstance(one, Fill) and 0 < one.ink < _BLACK else _SIGN_OF.get(one.role) for one in strokes}
    return tuple(sign for sign in Sign if sign in found)


@dataclass(frozen=True, slots=True)
class TemplateFoot:
    """Everything the foot of one sheet says but its number.

    ``parts`` is what is on it, a line each; ``unit`` the word for that of the figures, ``corner`` where the lower left corner
    of its check square stands, ``maps`` the tiles on it, ``signs`` those it explains (PR-8), ``document`` the kind of document (ISO 7200).
    """

    title: str
    parts: tuple[str, ...]
    paper: Paper
    file: str
    unit: str
    corner: Point
    maps: tuple[TileMap, ...] = ()
    signs: tuple[Sign, ...] = ()
    document: str = "template"
    printer: Printer | None = None

    def strokes(self, number: int, of: int, mark: str = "", said: FootWords = NO_WORDS) -> tuple[Stroke, ...]:
        """The check square and all that stands in it, on sheet ``number`` of ``of`` (PR-2; fields of ISO 7200); the plan's ``mark`` (PR-7).

        ``said`` is what it says besides: maker and date stand beside the name of the field of parts.
        """
        return tuple(
            moved(stroke, Move(*self.corner)) for stroke in flatten(self._marks(said.numbered(number, of), mark, said.made))
        )

    def _marks(self, number: str, mark: str, made: str) -> Iterator[Mark]:
        yield from check_square()
        y = _TOP
        for said in ("Print at 100 %, no fit to page.", "Then measure this square."):
            y -= Fraction(11, 2)
            yield Text((_LEFT, y), words(said, _WORD, bold=True))
        yield from self._signs(y - Fraction(13, 2))
        yield from tile_maps(self.maps, _MAP)
        yield from self._fields(number, mark, made)

    def _signs(self, y: Fraction) -> Iterator[Mark]:
        """What the signs on the templates mean, one line each."""
        for n, sign in enumerate(self.signs):
            yield _drawn(sign, y - n * _ROW)
            yield Text((_LEFT + 13, y - n * _ROW), words(sign.value, _SMALL))
        said = (f"Figures in {self.unit}. A + or − after one:", "a hair more, or less; the lines are exact.")
        for n, line in enumerate(said, start=max(4, len(self.signs))):
            yield Text((_LEFT, y - n * _ROW), words(line, _SMALL))

    def _rows(self, number: str, mark: str) -> tuple[tuple[tuple[str, Sequence[str], int], ...], ...]:
        """The fields with their names, what they hold in lines, and their widths; the lowest row first."""
        sheet, scale, paper = (number,), ("1:1",), (self.paper.title,)
        title, file, document, parts = (self.title,), (self.file or "—",), (self.document,), (("part", self._parts(), 80),)
        if self.printer is not None and self.printer.is_measured:
            made_for = (f"{self.printer.name}, measured {self.printer.measured}", self.printer.correction)
            top = (
                (("title", title, 35), ("job file", file, 24), ("plan mark", (mark,), 21))
                if mark
                else (("title", title, 42), ("job file", file, 38))
            )
            return (
                (("corrected for this printer: measure on that printer only", made_for, 80),),
                (("sheet", sheet, 20), ("scale", scale, 12), ("document", document, 24), ("paper", paper, 24)),
                parts,
                top,
            )
        if mark:
            return (
                (("job file", file, 52), ("paper", paper, 28)),
                (("sheet", sheet, 21), ("scale", scale, 12), ("document", document, 24), ("plan mark", (mark,), 23)),
                parts,
                (("title", title, 80),),
            )
        return (
            (("job file", file, 52), ("paper", paper, 28)),
            (("sheet", sheet, 28), ("scale", scale, 24), ("document", document, 28)),
            parts,
            (("title", title, 80),),
        )

    def _fields(self, number: str, mark: str, made: str) -> Iterator[Mark]:
        """The title block proper, from the bottom up."""
        y = Fraction(2)
        for row in self._rows(number, mark):
            high = max(_high(lines) for _, lines, _ in row)
            x = _LEFT
            yield Line((x, y + high), (x + 80, y + high), Role.FRAME)
            for n, (label, lines, wide) in enumerate(row):
                if n:
                    yield Line((x, y), (x, y + high), Role.FRAME)
                yield from _cell(label, lines, x + (1 if n else 0), y, Fraction(wide - 2), high)
                if label == "part" and made:
                    yield Text((x + wide, y + high - Fraction(27, 10)), fitted(made, Fraction(wide - 8), (_TINY,)), Align.RIGHT)
                x += wide
            y += high

    def _parts(self) -> tuple[str, ...]:
        if not self.parts:
            return ("none: measure the two long bars",)
        most = _MOST_BESIDE if self.printer is not None and self.printer.is_measured else _MOST_PARTS
        for height in (_SMALL, _TINY):
            told = [tuple(wrapped(part, _PARTS_WIDE, height)) for part in self.parts]
            if sum(map(len, told)) <= most:
                return tuple(line for lines in told for line in lines)
        # Each that is named is named whole (PR-9).
        kept: list[str] = []
        for n, lines in enumerate(told):
            if n and len(kept) + len(lines) > most - 1:
                return (*kept, f"and {len(told) - n} more")
            kept += lines
        return tuple(kept)


def _high(lines: Sequence[str]) -> Fraction:
    return Fraction(17, 2) if len(lines) == 1 else 4 + len(lines) * _STEP


def _cell(label: str, lines: Sequence[str], x: Fraction, y: Fraction, wide: Fraction, high: Fraction) -> Iterator[Text]:
    """A field: its small name at the top, what it holds below."""
    yield Text((x, y + high - Fraction(27, 10)), words(label, _TINY))
    heights = (_WORD, _SMALL, _TINY) if len(lines) == 1 else (_SMALL, _TINY)
    for n, line in enumerate(lines):
        yield Text((x, y + Fraction(7, 5) + (len(lines) - 1 - n) * _STEP), fitted(line, wide, heights))


def _sample(y: Fraction) -> tuple[tuple[Fraction, Fraction], ...]:
    return corners((_LEFT, y - Fraction(1, 2), _LEFT + 10, y + 3))


def _drawn(sign: Sign, y: Fraction) -> Mark:
    """A sample of ``sign``."""
    if sign is Sign.WASTE:
        return Waste(_sample(y))
    if sign is Sign.SECTION:
        return Hatch(_sample(y))
    if sign is Sign.WOOD:
        return Fill(_sample(y), Fraction(1, 8), Role.CUT)
    return _stroke(y, Role.FOLD if sign is Sign.FOLD else Role.HIDDEN)


def _stroke(y: Fraction, role: Role) -> Line:
    middle = y + Fraction(5, 4)
    return Line((_LEFT, middle), (_LEFT + 10, middle), role)


@dataclass(frozen=True, slots=True)
class TileMap:
    """Which tile of which drawing a sheet holds: the ``windows`` of all in the drawing's mm, and this one's ``number`` from 1."""

    windows: tuple[Box, ...]
    number: int


def tile_maps(maps: Sequence[TileMap], room: Box) -> Iterator[Mark]:
    """Small maps, side by side in the box ``room``, of the tiled drawings on a sheet, the tiles that are on it in black (PR-4)."""
    by_drawing: dict[tuple[Box, ...], set[int]] = {}
    for one in maps:
        by_drawing.setdefault(one.windows, set()).add(one.number)
    x0, y0, x1, y1 = room
    for n, (windows, here) in enumerate(list(by_drawing.items())[:_MOST_MAPS]):
        wide = (x1 - x0) / min(len(by_drawing), _MOST_MAPS)
        own = (x0 + n * wide, y0, x0 + (n + 1) * wide - 1, y1)
        yield from _row_map(windows, here, own) if _is_long(windows, own) else _tile_map(windows, here, own)


def _map_scale(windows: Sequence[Box], room: Box) -> tuple[Fraction, Fraction, Fraction]:
    """The lower left corner of the drawing, and how small it must be for ``room``."""
    left, bottom = min(w[0] for w in windows), min(w[1] for w in windows)
    right, top = max(w[2] for w in windows), max(w[3] for w in windows)
    return left, bottom, min((room[2] - room[0] - _CELL) / (right - left), (room[3] - room[1]) / (top - bottom))


def _is_long(windows: Sequence[Box], room: Box) -> bool:
    """True where the tiles are strips in one row, so long or so thin that their numbers have no room in them."""
    _, _, scale = _map_scale(windows, room)
    shortest = min(min(w[2] - w[0], w[3] - w[1]) - OVERLAP for w in windows)
    is_row = len({(w[0], w[2]) for w in windows}) == 1 or len({(w[1], w[3]) for w in windows}) == 1
    return is_row and shortest * scale < _CELL


def _row_map(windows: Sequence[Box], here: set[int], room: Box) -> Iterator[Mark]:
    """The tiles of a strip as cells in order, row under row, not in proportion; of very many, those around the ones ``here``."""
    columns, rows = int((room[2] - room[0]) / _MAP_WIDE), int((room[3] - room[1]) / (_CELL + _MAP_ROW))
    first = 0 if len(windows) <= columns * rows else (min(here) - 1) // columns * columns
    for n, number in enumerate(range(first + 1, min(len(windows), first + columns * rows) + 1)):
        row, column = divmod(n, columns)
        x, y = room[0] + column * _MAP_WIDE, room[3] - _CELL - row * (_CELL + _MAP_ROW)
        yield from _tile_cell((x, y, x + _MAP_WIDE, y + _CELL), number, is_here=number in here)


def _tile_map(windows: Sequence[Box], here: set[int], room: Box) -> Iterator[Mark]:
    """The windows drawn small in ``room``, each without what it shares with the next, its number in it or beside it."""
    left, bottom, scale = _map_scale(windows, room)
    right, top = max(w[2] for w in windows), max(w[3] for w in windows)
    for number, (x0, y0, x1, y1) in enumerate(windows, start=1):
        own = (x0, y0, x1 if x1 == right else x1 - OVERLAP, y1 if y1 == top else y1 - OVERLAP)
        a, b, c, d = ((own[n] - (left, bottom)[n % 2]) * scale + room[n % 2] for n in range(4))
        yield from _tile_cell((a, b, c, d), number, is_here=number in here)


def _tile_cell(box: Box, number: int, *, is_here: bool) -> Iterator[Mark]:
    """One tile, black where it is on this sheet, with its number in it, or beside it where it is too small."""
    left, bottom, right, top = box
    if is_here:
        yield Fill(corners(box), Fraction(1), Role.FRAME)
    yield Polyline(corners(box), Role.FRAME, closed=True)
    fits = min(right - left, top - bottom) >= _CELL
    middle = (left + right) / 2 if fits else right + _CELL / 2
    ink = Fraction(0) if is_here and fits else Fraction(1)
    yield Text((middle, (bottom + top - _TINY) / 2), words(str(number), _TINY), Align.MIDDLE, ink=ink)
