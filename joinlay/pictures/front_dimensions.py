"""The dimensions of a front elevation: openings and rails at its sides, stiles, openings and pulls under it, and the sizes over all."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction, Length
from joinlay.pen.dimensioning import DimensionLine
from joinlay.pen.lettering import figures, plain, set_line
from joinlay.pen.marks import Align, Text, bounds_of, flatten
from joinlay.pictures.chains import LevelChain, Stop, UprightChain
from joinlay.pictures.naming import SMALL

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Point
    from joinlay.pictures.picture import Easel
    from joinlay.pictures.scene import Mouth, Scene
    from joinlay.pictures.wood import Fit

__all__ = ["FIGURE", "FIRST", "FrontDimensions", "over_all"]

#: Heights of figures: over all, and in a chain; smaller where a chain is crowded.
KEY, FIGURE = Fraction(5), Fraction(7, 2)
#: From the wood to the first row of dimensions, and from what is in one row to the next.
FIRST, _ROW = Fraction(8), Fraction(7)
#: Figures of a chain stay so far from its ends, where the lines of the size over all run.
_INSIDE: Final = Fraction(1, 2)
_ZERO: Final = Fraction(0)

#: Where the openings of a bank begin and end, from below, in mm of wood.
_Heights = tuple[tuple[Fraction, Fraction], ...]


def over_all(easel: Easel, start: Point, end: Point, away: Fraction, size: Length, rule: Graduation, says: str) -> None:
    """A size over all from ``start`` to ``end`` on paper, its line ``away`` from them, in the largest figures that fit (ISO 129-1)."""
    room = end[0] - start[0] + end[1] - start[1] - 4
    contents = [figures(size, rule, height) for height in (KEY, FIGURE, SMALL)]
    content = next((content for content in contents if set_line(content).width <= room), None)
    if content is not None:
        easel.draw((DimensionLine(start, end, away, content, says),))
        return
    # Beside its line, where there is no room along it.
    easel.draw(stroke for stroke in DimensionLine(start, end, away, (), says).spelled() if not isinstance(stroke, Text))
    x, y = (
        (start[0] + away - 2, (start[1] + end[1] - FIGURE) / 2)
        if start[0] == end[0]
        else (end[0] + 3, end[1] + away - FIGURE / 2)
    )
    easel.draw((Text((x, y), contents[1], Align.RIGHT if start[0] == end[0] else Align.LEFT),))


@dataclass(frozen=True, slots=True)
class FrontDimensions:
    """Dimensions on ``easel`` for what stands in ``box`` of the piece, seen from the front, on the maker's ``rule`` (ISO 129-1)."""

    easel: Easel
    scene: Scene
    box: Box
    fit: Fit
    rule: Graduation

    def over_all(self, left: Fraction, below: Fraction) -> None:
        """The width and height over all, ``left`` and ``below`` being where their lines go; where only openings are given, their width."""
        x0, y0, x1, y1 = self.fit.box(self.box)
        over_all(self.easel, (x0, y0), (x1, y0), below - y0, Length(self.box[2] - self.box[0]), self.rule, "overall width")
        if self.scene.is_whole:
            over_all(self.easel, (x0, y0), (x0, y1), left - x0, Length(self.box[3] - self.box[1]), self.rule, "overall height")

    def all(self) -> tuple[str, ...]:
        """Every dimension; what had no room is given back in words."""
        unsaid: list[str] = []
        self.over_all(self._upright(unsaid), self._level(unsaid))
        return tuple(unsaid)

    def _figures(self, size: Fraction, height: Fraction) -> Content:
        return figures(Length(size), self.rule, height)

    # -- at the sides --------------------------------------------------------------------------------

    def _upright(self, unsaid: list[str]) -> Fraction:
        """At the left the first bank, at the right a bank that is another; gives the place of the line for the height over all."""
        x0, _, x1, _ = self.fit.box(self.box)
        banks = [_heights(bank) for bank in self.scene.banks]
        out = x0 - FIRST
        for n, heights in enumerate(dict.fromkeys(banks)):
            wood, x = (x0, x0 - FIRST) if n == 0 else (x1, x1 + FIRST)
            chain = self._chain(heights, x, wood) if n < 2 else None
            if chain is None:
                unsaid.append(self._in_words(heights, banks))
                continue
            self.easel.draw((chain,))
            if n == 0:
                out = x - chain.wide - 3
        return out

    def _chain(self, heights: _Heights, x: Fraction, wood: Fraction) -> UprightChain | None:
        """The openings and what is between them; of rails that are alike only the lowest and, where there is no room, no rail at all."""
        _, y0, _, y1 = self.fit.box(self.box)
        levels = [level for pair in heights for level in pair]
        ends = list(dict.fromkeys([self.box[1], *levels, self.box[3]] if self.scene.is_whole else levels))
        floors = {floor for floor, _ in heights}
        for height, rails in ((FIGURE, "all"), (SMALL, "all"), (FIGURE, "first"), (SMALL, "first"), (SMALL, "none")):
            known: set[Fraction] = set()
            stops: list[Stop] = []
            for low, high in pairwise(ends):
                is_rail = low not in floors
                is_left = is_rail and (not self.scene.is_whole or rails == "none" or (rails == "first" and high - low in known))
                known |= {high - low} if is_rail else set()
                stops.append((self.fit.point((_ZERO, low))[1], () if is_left else self._figures(high - low, height)))
            stops.append((self.fit.point((_ZERO, ends[-1]))[1], ()))
            chain = UprightChain(tuple(stops), x, wood, y0 + _INSIDE, y1 - _INSIDE, "heights of the openings")
            if chain.fits:
                return chain
        return None

    def _in_words(self, heights: _Heights, banks: Sequence[_Heights]) -> str:
        """The openings' heights as a sentence, from the top down."""
        which = in_few_words(f"bank {n}" for n, bank in enumerate(banks, start=1) if bank == heights)
        runs = [(size, len(list(run))) for size, run in groupby(high - low for low, high in reversed(heights))]
        said = ", ".join(f"{plain(self._figures(size, SMALL))}{f' ({count} times)' if count > 1 else ''}" for size, count in runs)
        return f"{which if len(banks) > 1 else 'bank'}: the openings are, from the top down, {said} high"

    # -- underneath ----------------------------------------------------------------------------------

    def _level(self, unsaid: list[str]) -> Fraction:
        """Where the pulls are, stiles and openings; gives the place of the line for the width over all."""
        _, bottom, _, _ = self.fit.box(self.box)
        y = bottom - FIRST
        pulls, widths = self._pulls(), self._widths()
        if len(pulls) > 1:
            chain = next((made for height in (FIGURE, SMALL) if (made := self._row(pulls, y, bottom, height)).is_roomy), None)
            if chain is None:
                apart = ", ".join(plain(self._figures(b - a, SMALL)) for a, b in pairwise(pulls))
                unsaid.append(f"pulls, from the left end of a front to its right end: {apart}")
            else:
                self.easel.draw((chain,))
                y -= _ROW
        if len(widths) > 2:
            row = next((made for height in (FIGURE, SMALL) if (made := self._row(widths, y, bottom, height)).fits), None)
            if row is None:
                apart = ", ".join(plain(self._figures(b - a, SMALL)) for a, b in pairwise(widths))
                unsaid.append(f"stiles, openings and uprights, from the left: {apart}")
            else:
                self.easel.draw((row,))
                y = min(y - _ROW, bounds_of(flatten((row,)))[1] - 7)
        return y

    def _row(self, ends: Sequence[Fraction], y: Fraction, wood: Fraction, height: Fraction) -> LevelChain:
        contents: Iterable[Content] = (*(self._figures(b - a, height) for a, b in pairwise(ends)), ())
        stops = tuple((self.fit.point((at, _ZERO))[0], content) for at, content in zip(ends, contents, strict=True))
        return LevelChain(stops, y, wood, "widths")

    def _widths(self) -> list[Fraction]:
        """Stiles, openings, uprights between banks; nothing where only openings are given."""
        found = {self.box[0], self.box[2]} if self.scene.is_whole else set()
        for bank in self.scene.banks if self.scene.is_whole else ():
            found |= {bank[0].box[0], bank[0].box[2]}
        return sorted(found)

    def _pulls(self) -> list[Fraction]:
        """From the ends of the first front to its pulls."""
        front = self.scene.mouths[0].drawer.board("front") if self.scene.mouths else None
        if front is None or front.place is None:
            return []
        own = {knob.centre[0] for knob in self.scene.knobs if knob.pull.front == front.name}
        start = front.place.origin[0]
        return sorted({start, *own, start + front.length.mm}) if own else []


def _heights(bank: Sequence[Mouth]) -> _Heights:
    return tuple(sorted((mouth.box[1], mouth.box[3]) for mouth in bank))
