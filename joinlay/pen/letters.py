"""How wide the letters are: advance widths of DejaVu Sans, the packet's own typeface, in 2048ths of its em.

Plain data, so that words can be laid out without opening a font. ``tests/unit/drawings/test_letters.py`` holds it against the font
files themselves.
"""

from __future__ import annotations

import unicodedata
from functools import cache
from typing import Final

__all__ = ["CAPITAL", "EM", "advance", "fall", "rise"]

#: Units in the em.
EM: Final = 2048
#: How high a capital or figure stands above the baseline.
CAPITAL: Final = 1493

# How far letters reach above and below the baseline: plain ones, figures and round ones that seem to stand on it, hanging ones, and
# any with an accent, above or below.
_RISE, _ACCENT_RISE = 1567, 1950
_OVERSHOOT, _FALL, _ACCENT_FALL = 29, 483, 520

_TALL: Final = frozenset("`´¨")
_HANGING: Final = frozenset("gjpqyQJ,;_()[]{}|@$/\\§µ¶þÞ¸„‚¦¡¿¢Øø")

# Each width with the characters that have it.
_REGULAR: Final = {
    342: "⁄", 465: "′", 563: "'", 569: "ijlı", 582: "ł", 604: "IJ", 651: " ,.·‘’‚", 690: "/:;\\|¦", 721: "f", 739: "-",
    765: "″", 768: "ľ", 799: "()[]", 803: "t", 821: "!¡²³¹", 842: "r", 942: "\"", 965: "ªº", 1024: "*_`§¨¯°´¸–", 1061: "“”„", 1067: "s",
    1075: "z", 1087: "?¿", 1126: "c", 1141: "L", 1151: "Ł", 1178: "F", 1186: "k", 1208: "•", 1212: "vxy", 1235: "P", 1239: "Þ",
    1251: "TY", 1253: "o«»ðø", 1255: "a", 1260: "e", 1290: "ß", 1294: "E", 1298: "hnu", 1300: "Sbdgpqþđ",
    1303: "$0123456789{}¢£¤¥µ¶€", 1343: "K", 1401: "AV", 1403: "XZ", 1405: "B", 1423: "R", 1430: "C", 1499: "U", 1532: "N",
    1540: "H", 1577: "D", 1587: "GÐ", 1597: "&", 1612: "OQØ", 1675: "w", 1716: "#+<=>^~¬±×÷−≤≥", 1767: "M", 1946: "%",
    1985: "¼½¾⅓⅔⅛⅜⅝⅞", 1995: "mÆ", 2011: "æ", 2025: "W", 2048: "@©®—…", 2095: "œ", 2191: "Œ",
}  # fmt: skip

_BOLD: Final = {
    342: "⁄", 540: "′", 627: "'", 702: "ijlı", 713: " ", 748: "/\\|¦", 760: "ł", 762: "IJ", 778: ",.·‘’‚", 819: ":;", 850: "-",
    891: "f", 897: "²³¹", 915: "″", 934: "!¡", 936: "()[]", 979: "t", 982: "ľ", 1010: "r", 1024: "_`§¨¯°´¸–", 1067: "\"", 1071: "*",
    1155: "ªº", 1188: "?¿", 1192: "z", 1214: "c", 1219: "s", 1303: "¤¶", 1305: "L", 1309: "•", 1315: "Ł", 1321: "x",
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

    An accented letter is as wide as its plain one; a letter the table doesn't know counts as a whole em and a half, wider than any.
    """
    known = _WIDTHS[bold]
    if letter in known:
        return known[letter]
    plain = unicodedata.normalize("NFD", letter)[0]
    return known.get(plain, EM + EM // 2)


def rise(letter: str) -> int:
    """How far ``letter`` stands above the baseline at most, in units of the em."""
    if letter.isdecimal():
        return CAPITAL + _OVERSHOOT
    return _RISE if letter in _WIDTHS[0] and letter not in _TALL else _ACCENT_RISE


def fall(letter: str) -> int:
    """How far ``letter`` hangs below the baseline at most, in units of the em."""
    if letter not in _WIDTHS[0]:
        return _ACCENT_FALL
    return _FALL if letter in _HANGING else _OVERSHOOT
