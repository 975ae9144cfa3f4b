"""What a maker measures before trusting a print: the check square on every sheet and the two long bars on the first (PR-2)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import MM_PER_INCH, Fraction
from joinlay.pen.dimensioning import DimensionLine
from joinlay.pen.lettering import fitted, words
from joinlay.pen.marks import Align, Line, Move, Polyline, Role, Text, flatten, moved
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.marks import Mark, Stroke

__all__ = ["BAR_HIGH", "INNER", "SQUARE", "LongBar", "bar_length", "check_square"]

#: The sides of the two squares, which share their lower left corner: 4 in outside, 100 mm inside.
SQUARE: Final = 4 * MM_PER_INCH
INNER: Final = Fraction(100)
#: How far a long bar reaches below and above its line.
BAR_LOW, BAR_HIGH = Fraction(3), Fraction(15, 2)

_LONGEST_BAR: Final = Fraction(200)
#: Twice the most that a printer may be off (PR-3), so that a measure tells which strokes it was taken between.
_APART: Final = Fraction(94, 100)
_FIGURE, _SMALLER, _LEAST = Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
_ZERO: Final = Fraction(0)
#: From the inner square's sides to the two dimension lines.
_FIRST, _SECOND = Fraction(11, 2), Fraction(12)


def check_square() -> Iterator[Mark]:
    """Both squares with their sides in figures; lower left corner at zero."""
    says = "check square"
    outer = ((_ZERO, _ZERO), (SQUARE, _ZERO), (SQUARE, SQUARE), (_ZERO, SQUARE))
    yield Polyline(outer, Role.CHECK, closed=True, says=f"{says} 4 in")
    yield Line((_ZERO, INNER), (INNER, INNER), Role.CHECK, f"{says} 100 mm")
    yield Line((INNER, _ZERO), (INNER, INNER), Role.CHECK, f"{says} 100 mm")
    for size, inwards, said in ((INNER, _FIRST, "100 mm"), (SQUARE, _SECOND, "4 in")):
        at = INNER - inwards
        figure = words(said, _FIGURE)
        yield DimensionLine((_ZERO, at), (size, at), _ZERO, figure)
        yield DimensionLine((at, _ZERO), (at, size), _ZERO, figure)


def bar_length(room: Fraction) -> Fraction:
    """The longest bar for a side of this length: 200 mm, or the last whole 10 mm that fit (PR-2)."""
    return min(_LONGEST_BAR, Fraction(room // 10 * 10))


@dataclass(frozen=True, slots=True)
class LongBar:
    """A bar of ``length`` mm from zero to the right, ticked every 10 mm above and every inch below, the last of each longer."""

    length: Fraction

    @property
    def inches(self) -> int:
        """The last whole inch on the bar that nobody can take for the bar's own end: 6 % short of it or more."""
        return int(self.length * _APART // MM_PER_INCH)

    def spelled(self) -> Iterator[Mark]:
        """The line, its ticks, and what it should measure."""
        yield Line((_ZERO, _ZERO), (self.length, _ZERO), Role.CHECK, "long bar")
        for step, up, last, says in (
            (Fraction(10), 1, self.length, f"{self.length} mm"),
            (MM_PER_INCH, -1, self.inches * MM_PER_INCH, f"{self.inches} in"),
        ):
            for n in range(int(last / step) + 1):
                x = n * step
                end = x in (0, last)
                tall = Fraction(5, 2) if end else Fraction(6, 5)
                yield Line((x, _ZERO), (x, up * tall), Role.CHECK, f"long bar {says}" if end else "")
        said = f"{self.length} mm between the long strokes above, {self.inches} in between those below"
        yield Text((self.length / 2, Fraction(7, 2)), fitted(said, self.length, (_FIGURE, _SMALLER, _LEAST)), Align.MIDDLE)

    def drawn(self, x: Fraction, y: Fraction, *, upright: bool) -> Iterator[Stroke]:
        """The bar with its beginning at (x, y); upright, it runs upwards with its words to the left."""
        move = Move(x, y, 1 if upright else 0)
        return (moved(stroke, move) for stroke in flatten((self,)))
