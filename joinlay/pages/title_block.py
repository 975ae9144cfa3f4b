"""The foot of a sheet of templates: the check square, and in it what to do first, what the signs mean, and the title block.

The fields are those of ISO 7200. Beside the signs stand small maps of the drawings that are tiled (``tile_maps``).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.check_square import check_square
from joinlay.pages.printed_sheet import NO_WORDS
from joinlay.pages.tile_maps import tile_maps
from joinlay.pen.lettering import fitted, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Role, Text, flatten, moved
from joinlay.pen.signs import sample_of
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pages.printed_sheet import FootWords
    from joinlay.pages.printer import Printer
    from joinlay.pages.tile_maps import TileMap
    from joinlay.paper import Paper
    from joinlay.pen.marks import Mark, Point, Stroke
    from joinlay.pen.signs import Sign

__all__ = ["TemplateFoot"]


_SMALL: Final = Fraction(5, 2)
_WORD: Final = Fraction(7, 2)
#: Room inside the dimension lines of the check square.
_LEFT, _TOP, _RIGHT = Fraction(3), Fraction(85), Fraction(83)
#: From one sign to the next, and from one line of a field to the next.
_ROW = _STEP = Fraction(18, 5)
#: Signs that stand in one column, the least rows left for them, and where the next column and the maps of tiles begin.
_MOST_SIGNS, _LEAST_SIGNS, _BESIDE = 5, 4, Fraction(49)
#: How wide and high a sample of a sign is, and how far it reaches below the line of its words.
_SAMPLE, _SAMPLE_LOW = (Fraction(10), Fraction(3)), Fraction(2, 5)
#: How long a line of them may be.
_PARTS_WIDE: Final = Fraction(78)
#: Parts that are listed, and those where the printer is named too.
_MOST_PARTS, _MOST_BESIDE = 4, 3
#: The letters of field names.
_TINY: Final = Fraction(9, 5)


@dataclass(frozen=True, slots=True)
class TemplateFoot:
    """Everything the foot of one sheet says but its number.

    ``parts`` is what is on it, a line each; ``unit`` the word for that of the figures, ``corner`` where the lower left corner of
    its check square stands, ``maps`` the tiles on it, ``signs`` those it explains (PR-8), ``document`` the kind of document (ISO
    7200).
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
        """The check square and all that stands in it, on sheet ``number`` of ``of`` (PR-2; fields of ISO 7200); the plan's
        ``mark`` (PR-7).

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
        yield from self._signs(y - Fraction(11, 2))
        yield from self._fields(number, mark, made)

    def _signs(self, y: Fraction) -> Iterator[Mark]:
        """What the signs on the templates mean, a line each; beside them the maps of tiles (PR-4, PR-8)."""
        for n, sign in enumerate(self.signs):
            column, row = divmod(n, _MOST_SIGNS)
            x, at = _BESIDE if column else _LEFT, y - row * _ROW
            yield from (moved(stroke, Move(x, at - _SAMPLE_LOW)) for stroke in flatten(sample_of(sign, *_SAMPLE)))
            yield Text((x + 13, at), words(sign.value, _SMALL))
        rows, over = min(max(_LEAST_SIGNS, len(self.signs)), _MOST_SIGNS), max(0, len(self.signs) - _MOST_SIGNS)
        room = (_BESIDE, y - rows * _ROW + _SMALL + 1, _RIGHT, y - over * _ROW + _SMALL + Fraction(1, 2))
        yield from tile_maps(self.maps, room)
        said = (f"Figures in {self.unit}. A + or − after one:", "a hair more, or less; the lines are exact.")
        for n, line in enumerate(said, start=rows):
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
