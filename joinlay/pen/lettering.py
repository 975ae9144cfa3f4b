"""Lettering: words and figures set as pieces of type, with the room they take.

Heights are those of a capital or a figure, 2.5, 3.5, 5 and 7 mm (ISO 3098). A fraction is set as a fraction: a raised numerator, a
slanting bar and a lowered denominator, each seven tenths as high as a whole figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.letters import CAPITAL, EM, advance, fall, rise

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.lengths import Graduation, Length

__all__ = ["Content", "Piece", "Run", "Setting", "Vulgar", "figures", "fitted", "plain", "set_line", "words", "wrapped"]

_SMALL: Final = Fraction(7, 10)
_RAISED: Final = Fraction(42, 100)
_LOWERED: Final = Fraction(12, 100)
_FRACTION_BAR: Final = "⁄"
#: Between a whole number and its fraction, in heights.
_GAP: Final = Fraction(14, 100)


@dataclass(frozen=True, slots=True)
class Run:
    """Letters in a row. ``height`` of a capital, in mm."""

    text: str
    height: Fraction
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Vulgar:
    """A fraction set as one: ``over`` over ``under``. ``height`` of the whole figure it stands beside, in mm."""

    over: int
    under: int
    height: Fraction
    bold: bool = False


#: One line of lettering, from left to right.
Content = tuple[Run | Vulgar, ...]


@dataclass(frozen=True, slots=True)
class Piece:
    """A string to be drawn with one font at one size, ``right`` and ``up`` of the line's beginning, all in mm."""

    right: Fraction
    up: Fraction
    em: Fraction
    text: str
    bold: bool
    width: Fraction


@dataclass(frozen=True, slots=True)
class Setting:
    """A set line: its pieces, its ``width``, and how far it reaches above (``rise``) and below (``fall``) the baseline, in mm."""

    pieces: tuple[Piece, ...]
    width: Fraction
    rise: Fraction
    fall: Fraction


def words(text: str, height: int | Fraction, *, bold: bool = False) -> Content:
    """A line of one kind of letters, ``height`` mm high; blanks of any kind become one space."""
    return (Run(" ".join(text.split()), Fraction(height), bold),)


def figures(length: Length, rule: Graduation, height: int | Fraction, *, bold: bool = False) -> Content:
    """``length`` in figures as it stands on the maker's ``rule``, without its unit (MS-2).

    Where the rule cannot show it exactly a small + follows for a hair more, or a − for a hair less.
    """
    high = Fraction(height)
    read = rule.read(length)
    whole = read.sign + ("" if read.whole == "0" and read.over else read.whole)
    content: Content = (Run(whole, high, bold),) if whole else ()
    if read.over:
        content += (Vulgar(read.over, read.under, high, bold),)
    if read.left_over:
        content += (Run("−" if read.left_over.mm < 0 else "+", high * _SMALL, bold),)
    return content


def plain(content: Content) -> str:
    """What the line says, in one string: ``1 5/16 deep``."""
    parts = []
    for n, run in enumerate(content):
        if isinstance(run, Run):
            parts.append(run.text)
        else:
            before = content[n - 1] if n else None
            parts.append((" " if isinstance(before, Run) and before.text[-1:].isdigit() else "") + f"{run.over}/{run.under}")
    return "".join(parts)


#: A packet has some ten thousand lines of type, most of them set several times over.
@lru_cache(maxsize=32768)
def set_line(content: Content) -> Setting:
    """``content`` as pieces of type."""
    pieces: list[Piece] = []
    pen = Fraction(0)
    for n, run in enumerate(content):
        if n and _is_apart(content[n - 1], run):
            pen += run.height * _GAP
        if isinstance(run, Vulgar):
            made, wide = _set_fraction(run, pen)
        else:
            made, wide = _set_words(run, pen)
        pieces += made
        pen += wide
    above = max((piece.up + _rise(piece) for piece in pieces), default=Fraction(0))
    below = max((_fall(piece) - piece.up for piece in pieces), default=Fraction(0))
    return Setting(tuple(pieces), pen, above, below)


def fitted(text: str, room: Fraction, heights: Iterable[int | Fraction], *, bold: bool = False) -> Content:
    """``text`` at the first of ``heights`` (in mm, the largest first) that fits ``room``; cut short with … where none does."""
    line: Content = ()
    for height in heights:
        line = words(text, height, bold=bold)
        if set_line(line).width <= room:
            return line
    kept = plain(line)
    while kept and set_line(line).width > room:
        kept = kept[:-1]
        line = words(kept.rstrip() + "…", line[0].height, bold=bold)
    return line


def wrapped(text: str, room: Fraction, height: Fraction, *, bold: bool = False) -> Iterator[str]:
    """``text`` in lines no longer than ``room`` mm at ``height``; a word longer than that stands alone."""
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if line and set_line(words(longer, height, bold=bold)).width > room:
            yield line
            line = word
        else:
            line = longer
    if line:
        yield line


def _is_apart(before: Run | Vulgar, run: Run | Vulgar) -> bool:
    """Whether a hair of white goes between the two: a whole number and its fraction, a fraction and its sign."""
    if isinstance(run, Vulgar):
        return isinstance(before, Run) and before.text[-1:].isdigit()
    return isinstance(before, Vulgar) and run.text in ("+", "−")


def _piece(text: str, height: Fraction, right: Fraction, up: Fraction, *, bold: bool) -> Piece:
    em = height * EM / CAPITAL
    units = sum(advance(letter, bold=bold) for letter in text)
    return Piece(right, up, em, text, bold, em * units / EM)


def _set_words(run: Run, pen: Fraction) -> tuple[tuple[Piece, ...], Fraction]:
    """The blanks around the words are room, not type."""
    whole = _piece(run.text, run.height, pen, Fraction(0), bold=run.bold)
    bare = run.text.strip()
    if not bare:
        return (), whole.width
    before = _piece(run.text[: run.text.index(bare)], run.height, pen, Fraction(0), bold=run.bold)
    return (_piece(bare, run.height, pen + before.width, Fraction(0), bold=run.bold),), whole.width


def _set_fraction(run: Vulgar, pen: Fraction) -> tuple[tuple[Piece, ...], Fraction]:
    small = run.height * _SMALL
    over = _piece(str(run.over), small, pen, run.height * _RAISED, bold=run.bold)
    bar = _piece(_FRACTION_BAR, run.height, pen + over.width, Fraction(0), bold=run.bold)
    under = _piece(str(run.under), small, pen + over.width + bar.width, -run.height * _LOWERED, bold=run.bold)
    return (over, bar, under), over.width + bar.width + under.width


def _rise(piece: Piece) -> Fraction:
    return piece.em * max(map(rise, piece.text)) / EM


def _fall(piece: Piece) -> Fraction:
    return piece.em * max(map(fall, piece.text)) / EM
