"""Lettering: words and figures set as lines of type, with the room they take.

Heights are those of a capital or a figure, 2.5, 3.5, 5 and 7 mm (ISO 3098). A fraction is set as a fraction: a raised numerator,
a slanting bar and a lowered denominator, each seven tenths as high as a whole figure.

How wide the letters are is plain data: the advance widths of DejaVu Sans, the packet's own typeface, so that words can be laid
out without opening a font. ``tests/unit/pen/test_letters.py`` holds the tables against the font files themselves. A letter they
don't know counts as wider than any, so that words may stand too loose, but never over each other.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache, lru_cache
from math import floor
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.lengths import Graduation, Length

__all__ = [
    "CAPITAL",
    "EM",
    "Content",
    "Run",
    "SetLine",
    "SetRun",
    "Vulgar",
    "advance",
    "fall",
    "figures",
    "fitted",
    "plain",
    "rise",
    "set_line",
    "unparted",
    "words",
    "wrapped",
]

_SMALL: Final = Fraction(7, 10)
_RAISED: Final = Fraction(42, 100)
_LOWERED: Final = Fraction(12, 100)
_FRACTION_BAR: Final = "⁄"
#: On the baseline.
_LEVEL: Final = Fraction(0)
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
class SetRun:
    """A run as it is set: a string to be drawn with one font at one size.

    ``right`` and ``up`` are where it begins, from the line's beginning; ``em`` is the font's size; all in mm.
    """

    right: Fraction
    up: Fraction
    em: Fraction
    text: str
    bold: bool
    width: Fraction


@dataclass(frozen=True, slots=True)
class SetLine:
    """A set line: its pieces, its ``width``, and how far it reaches above (``rise``) and below (``fall``) the baseline, in mm."""

    pieces: tuple[SetRun, ...]
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


#: Lines of type that were set, by the ``id`` of what they say, which is kept too, so that nothing else gets that. To hash the
#: words of a line takes longer than all else that is asked of it: most are set, measured, moved and drawn as one and the same.
_AT_HAND: Final[dict[int, tuple[Content, SetLine]]] = {}
#: A packet has some ten thousand lines of type, most of them set several times over.
_MOST_LINES: Final = 32768


def set_line(content: Content) -> SetLine:
    """``content`` as pieces of type."""
    known = _AT_HAND.get(id(content))
    if known is not None and known[0] is content:
        return known[1]
    made = _set(content)
    if len(_AT_HAND) >= _MOST_LINES:
        _AT_HAND.clear()
    _AT_HAND[id(content)] = content, made
    return made


@lru_cache(maxsize=_MOST_LINES)
def _set(content: Content) -> SetLine:
    pieces: list[SetRun] = []
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
    return SetLine(tuple(pieces), pen, above, below)


def fitted(text: str, room: Fraction, heights: Iterable[int | Fraction], *, bold: bool = False) -> Content:
    """``text`` at the first of ``heights`` (in mm, the largest first) that fits ``room``; cut short with … where none does."""
    said = kept = " ".join(text.split())
    high = None
    for height in heights:
        high = Fraction(height)
        if _wide(said, high, bold=bold) <= room:
            break
    if high is None:
        return ()
    while kept and _wide(said, high, bold=bold) > room:
        kept = kept[:-1]
        said = kept.rstrip() + "…"
    return (Run(said, high, bold),)


def wrapped(text: str, room: Fraction, height: Fraction, *, bold: bool = False) -> Iterator[str]:
    """``text`` in lines no longer than ``room`` mm at ``height``; a word longer than that stands alone.

    A figure stays with its fraction and its unit (PR-9).
    """
    # Measured in whole units of the em, as every width is: a line is as long as its words and the blanks between them.
    yield from _lines(text, floor(room * CAPITAL / Fraction(height)), bold=bold)


#: Words are measured before they are set, and some columns are tried more than once.
@lru_cache(maxsize=4096)
def _lines(text: str, most: int, *, bold: bool) -> tuple[str, ...]:
    """The lines of ``text``, each at most so many units of the em long."""
    made: list[str] = []
    blank = _long(" ", bold=bold)
    line: list[str] = []
    reach = 0
    for word in unparted(text):
        longer = reach + blank + _long(word, bold=bold)
        if line and longer > most:
            made.append(" ".join(line))
            line, reach = [word], longer - reach - blank
        else:
            reach = longer if line else longer - blank
            line.append(word)
    if line:
        made.append(" ".join(line))
    return tuple(made)


#: A figure as it ends a word: ``4``, ``0.6``, ``1/32+``, ``(1 1/2``, ``±1``; a fraction of an inch; and a unit, whatever stands
#: behind it.
_FIGURE_ENDS: Final = re.compile(r"(?:^|[(±+−×x-])\d(?:[\d.,]*\d)?(?:/\d+)?[+−-]?$|^[½¼¾⅓⅔⅛⅜⅝⅞][+−-]?$")
_FRACTION: Final = re.compile(r"\d+/\d+")
_UNIT: Final = re.compile(r"(?:lb/in2|N/mm2|lb/ft2|kg/m2|in|ft|mm|cm|m|lb|kg|N|Pa|%|°|degrees|rpm)(?:[^\w/]*)$")


def unparted(text: str) -> Iterator[str]:
    """The words of ``text``, each figure in one piece with its fraction and its unit: ``1 1/2 in,`` (PR-9)."""
    kept = ""
    for word in text.split():
        last = kept.rpartition(" ")[2]
        # Most words end in a letter, and are no figure.
        if (
            not last[-1:].isalpha()
            and _FIGURE_ENDS.search(last)
            and (_UNIT.match(word) or (last.isdecimal() and _FRACTION.match(word)))
        ):
            kept = f"{kept} {word}"
        else:
            if kept:
                yield kept
            kept = word
    if kept:
        yield kept


def _is_apart(before: Run | Vulgar, run: Run | Vulgar) -> bool:
    """Whether a hair of white goes between the two: a whole number and its fraction, a fraction and its sign."""
    if isinstance(run, Vulgar):
        return isinstance(before, Run) and before.text[-1:].isdigit()
    return isinstance(before, Vulgar) and run.text in ("+", "−")


#: Letters stand in a few heights only.
@lru_cache(maxsize=256)
def _em(height: Fraction) -> Fraction:
    return height * EM / CAPITAL


def _wide(text: str, height: Fraction, *, bold: bool) -> Fraction:
    return height * _long(text, bold=bold) / CAPITAL


def _set_run(text: str, height: Fraction, right: Fraction, up: Fraction, *, bold: bool) -> SetRun:
    return SetRun(right, up, _em(height), text, bold, _wide(text, height, bold=bold))


def _set_words(run: Run, pen: Fraction) -> tuple[tuple[SetRun, ...], Fraction]:
    """The blanks around the words are room, not type."""
    text, height, bold = run.text, run.height, run.bold
    bare = text.strip()
    if len(bare) == len(text):
        own = (_set_run(text, height, pen, _LEVEL, bold=bold),)
        return (own, own[0].width) if text else ((), _LEVEL)
    whole = _wide(text, height, bold=bold)
    if not bare:
        return (), whole
    before = _wide(text[: text.index(bare)], height, bold=bold)
    return (_set_run(bare, height, pen + before, _LEVEL, bold=bold),), whole


def _set_fraction(run: Vulgar, pen: Fraction) -> tuple[tuple[SetRun, ...], Fraction]:
    small = run.height * _SMALL
    over = _set_run(str(run.over), small, pen, run.height * _RAISED, bold=run.bold)
    bar = _set_run(_FRACTION_BAR, run.height, pen + over.width, Fraction(0), bold=run.bold)
    under = _set_run(str(run.under), small, pen + over.width + bar.width, -run.height * _LOWERED, bold=run.bold)
    return (over, bar, under), over.width + bar.width + under.width


def _rise(piece: SetRun) -> Fraction:
    return piece.em * _highest(piece.text) / EM


def _fall(piece: SetRun) -> Fraction:
    return piece.em * _deepest(piece.text) / EM


# -- letters -------------------------------------------------------------------------------------------

#: Units in the em.
EM: Final = 2048
#: How high a capital or figure stands above the baseline.
CAPITAL: Final = 1493

# How far letters reach above and below the baseline: plain ones, figures and round ones that seem to stand on it, hanging ones,
# and
# any with an accent, above or below.
_RISE, _ACCENT_RISE = 1567, 1950
_OVERSHOOT, _FALL, _ACCENT_FALL = 29, 483, 520

_TALL: Final = frozenset("`´¨")
_HANGING: Final = frozenset("gjpqyQJ,;_()[]{}|@$/\\§µ¶þÞ¸„‚¦¡¿¢Øø")

# Each width with the characters that have it.
_REGULAR: Final = {
    342: "⁄", 465: "′", 563: "'", 569: "ijlı", 582: "ł", 604: "IJ", 651: " ,.·‘’‚", 690: "/:;\\|¦", 721: "f", 739: "-",
    765: "″", 768: "ľ", 799: "()[]", 803: "t", 821: "!¡²³¹", 842: "r", 942: "\"", 965: "ªº", 1024: "*_`§¨¯°´¸–", 1061: "“”„",
    1067: "s", 1075: "z", 1087: "?¿", 1126: "c", 1141: "L", 1151: "Ł", 1178: "F", 1186: "k", 1208: "•", 1212: "vxy", 1235: "P",
    1239: "Þ", 1251: "TY", 1253: "o«»ðø", 1255: "a", 1260: "e", 1290: "ß", 1294: "E", 1298: "hnu", 1300: "Sbdgpqþđ",
    1303: "$0123456789{}¢£¤¥µ¶€", 1343: "K", 1401: "AV", 1403: "XZ", 1405: "B", 1423: "R", 1430: "C", 1499: "U", 1532: "N",
    1540: "H", 1577: "D", 1587: "GÐ", 1597: "&", 1612: "OQØ", 1675: "w", 1716: "#+<=>^~¬±×÷−≤≥", 1767: "M", 1946: "%",
    1985: "¼½¾⅓⅔⅛⅜⅝⅞", 1995: "mÆ", 2011: "æ", 2025: "W", 2048: "@©®—…", 2095: "œ", 2191: "Œ",
}  # fmt: skip

_BOLD: Final = {
    342: "⁄", 540: "′", 627: "'", 702: "ijlı", 713: " ", 748: "/\\|¦", 760: "ł", 762: "IJ", 778: ",.·‘’‚", 819: ":;", 850: "-",
    891: "f", 897: "²³¹", 915: "″", 934: "!¡", 936: "()[]", 979: "t", 982: "ľ", 1010: "r", 1024: "_`§¨¯°´¸–", 1067: "\"",
    1071: "*", 1155: "ªº", 1188: "?¿", 1192: "z", 1214: "c", 1219: "s", 1303: "¤¶", 1305: "L", 1309: "•", 1315: "Ł", 1321: "x",
    1323: "«»", 1335: "vy", 1346: "“”„", 1362: "k", 1382: "a", 1389: "e", 1397: "T", 1399: "EF", 1407: "oðø",
    1425: "$0123456789¢£¥€", 1458: "hnu{}", 1466: "bdgpqþđ", 1473: "ß", 1475: "S", 1483: "Y", 1485: "Z", 1501: "P", 1503: "C",
    1507: "µ", 1511: "Þ", 1561: "B", 1577: "R", 1579: "X", 1585: "AV", 1587: "K", 1663: "U", 1681: "G", 1700: "D", 1714: "HN",
    1716: "#+<=>^~¬±Ð×÷−≤≥", 1741: "OQØ", 1786: "&", 1892: "w", 2038: "M", 2048: "@©®—…", 2052: "%", 2120: "¼½¾⅓⅔⅛⅜⅝⅞",
    2134: "m", 2146: "æ", 2222: "Æ", 2241: "œ", 2259: "W", 2390: "Œ",
}  # fmt: skip

_WIDTHS: Final = tuple({letter: wide for wide, letters in table.items() for letter in letters} for table in (_REGULAR, _BOLD))


@cache
def advance(letter: str, *, bold: bool = False) -> int:
    """How far ``letter`` carries the line on, in units of the em.

    An accented letter is as wide as its plain one; a letter the table doesn't know counts as a whole em and a half, wider than
    any.
    """
    known = _WIDTHS[bold]
    if letter in known:
        return known[letter]
    plain = unicodedata.normalize("NFD", letter)[0]
    return known.get(plain, EM + EM // 2)


@cache
def rise(letter: str) -> int:
    """How far ``letter`` stands above the baseline at most, in units of the em."""
    if letter.isdecimal():
        return CAPITAL + _OVERSHOOT
    return _RISE if letter in _WIDTHS[0] and letter not in _TALL else _ACCENT_RISE


@cache
def fall(letter: str) -> int:
    """How far ``letter`` hangs below the baseline at most, in units of the em."""
    if letter not in _WIDTHS[0]:
        return _ACCENT_FALL
    return _FALL if letter in _HANGING else _OVERSHOOT


#: A packet says some thousand different things, most of them more than once.
_KEPT: Final = 16384


@lru_cache(maxsize=_KEPT)
def _long(text: str, *, bold: bool) -> int:
    """How far the whole of ``text`` carries the line on, in units of the em."""
    return sum(advance(letter, bold=bold) for letter in text)


@lru_cache(maxsize=_KEPT)
def _highest(text: str) -> int:
    """How far any letter of ``text``, which has at least one, stands above the baseline, in units of the em."""
    return max(map(rise, text))


@lru_cache(maxsize=_KEPT)
def _deepest(text: str) -> int:
    """How far any letter of ``text``, which has at least one, hangs below the baseline, in units of the em."""
    return max(map(fall, text))
