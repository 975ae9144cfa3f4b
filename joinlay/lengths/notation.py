"""Reading a length as a maker writes it: 26 5/8, 26-5/8", 26⅝″, 2' 2 5/8", 6mm, 18.2 mm, 1.5 cm."""

from __future__ import annotations

import re
from enum import Enum
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths.fraction import Fraction, fraction_in
from joinlay.lengths.length import MM_PER_INCH, Length

if TYPE_CHECKING:
    from re import Match

__all__ = ["Unit", "read_length"]


class Unit(Enum):
    """The unit a bare number is read in, and lengths are shown in."""

    INCH = "inch"
    MM = "mm"


#: Longer than anything a maker writes; keeps a hostile number from costing time.
_LONGEST: Final = 64

_MM: Final = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": MM_PER_INCH,
    "ft": 12 * MM_PER_INCH,
}


def _unit_word(words: str, marks: str = "") -> re.Pattern[str]:
    """Any of ``words``, alone or straight after figures, with or without a full stop or a hyphen before; or any of ``marks``."""
    return re.compile(rf"{marks}(?:(?<=[\d./])-)?(?<![a-z])(?:{words})(?![a-z])\.?", re.I | re.A)


_SPELLINGS: Final = (
    (_unit_word("inches|inch|ins?", marks=r"''|[\"″”“〃ʺ]|"), " in "),
    (_unit_word("feet|foot|ft", marks="[′’‘'ʹ]|"), " ft "),
    (_unit_word("millimetres?|millimeters?|mms?"), " mm "),
    (_unit_word("centimetres?|centimeters?|cms?"), " cm "),
    (_unit_word("metres?|meters?|m"), " m "),
)

_VULGAR: Final = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
    "⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10",
}  # fmt: skip

_NUMBER: Final = (
    r"(?:(?P<whole{n}>\d+)\s+(?P<top{n}>\d+)\s*/\s*(?P<under{n}>\d+)"
    r"|(?P<over{n}>\d+)\s*/\s*(?P<below{n}>\d+)"
    r"|(?P<plain{n}>\d+(?:\.\d*)?|\.\d+))"
)
_ONE: Final = re.compile(_NUMBER.format(n=1) + r"\s*(?P<unit>mm|cm|m|in|ft)?", re.A)
_FEET_AND_INCHES: Final = re.compile(_NUMBER.format(n=1) + r"\s*ft\s*-?\s*" + _NUMBER.format(n=2) + r"\s*(?:in)?", re.A)


def read_length(text: str, unit: Unit = Unit.INCH) -> Length:
    """The exact length that ``text`` spells; a bare number is in ``unit``.

    Reads whole numbers, decimals, fractions and mixed numbers (with a space, a hyphen or a raised
    fraction), in mm, cm, m, inches, feet, or feet and inches; a minus in front makes it negative.
    Raises BadInput with what was given and the spellings that work; NotExact is for floats, which this
    function does not take (``text`` must be text).
    """
    if not isinstance(text, str):
        raise BadInput(
            f"a length is read from text, not from {quoted(text)}; write '{'5/8 in' if unit is Unit.INCH else '16 mm'}'."
        )
    return _read(text, unit)


@lru_cache(maxsize=1024)
def _read(text: str, unit: Unit) -> Length:
    """The same, kept: a job has few lengths that are spelled differently, and each is read again and again."""
    if doubt := _two_meanings(text[:_LONGEST], unit):
        raise BadInput(f"{quoted(text)} may be {doubt}")
    worn = _tidy(text)
    sign = -1 if worn.startswith("-") else 1
    bare = worn[1:].strip() if sign < 0 else worn
    if len(text) <= _LONGEST and (number := _value(bare, unit)) is not None:
        return Length(sign * number)
    raise BadInput(f"{quoted(text)} cannot be read as a length; {_hint(bare, unit)}")


#: How the units are written, for what is nearly one of them.
_UNIT_WORDS: Final = (
    "inches", "inch", "in", "feet", "foot", "ft", "millimetres", "millimeters", "mm", "centimetres", "centimeters", "cm",
    "metres", "meters", "m",
)  # fmt: skip
#: Thousands parted by apostrophes or blanks, before a metric unit or nothing.
_PARTED: Final = re.compile(
    r"(?<![\d.,/])([1-9]\d{0,2})((?:['’ ]\d{3})+)(?=\s*(?:[.,]\d+)?\s*(?:mm?s?\b|cm|milli|centi|met|$))", re.A
)
_TWO: Final = (
    # Marks between thousands, of which one is also the sign for feet: in millimetres it can only be the mark.
    (
        re.compile(r"\s*-?([1-9]\d{0,2})['’ ](\d{3})\s*(?!\s*/)[^\d/]*", re.A),
        None,
        "{0}{1}, or {0} and {1}: write {0}{1}, without the mark between",
    ),
    (
        re.compile(r"\s*-?([1-9]\d{0,2})\.(\d\d0)\s*", re.A),
        Unit.MM,
        "{0}{1}, or {0}.{2}: write {0}{1}, or {0}.{2} without the last 0",
    ),
)
_FEET_OVER: Final = re.compile(r"\s*-?\d+\s*(?:ft\.?|feet|foot|['’′])\s*-?\s*(\d+)(?:[ .].*)?(?:\"|in\b|″|”)?.*", re.A | re.S)


def _two_meanings(text: str, unit: Unit) -> str:
    """What ``text`` may be, where a maker would read it in two ways and one of them is far from the other; '' where it is
    plain.
    """
    text = _PARTED.sub(_joined, text) if _is_metric(text, unit) else text
    for shape, only, said in _TWO:
        found = shape.fullmatch(text)
        if found and only in (None, unit):
            whole, rest = found[1], found[2]
            return said.format(whole, rest, rest.rstrip("0") or "0") + "."
    found = _FEET_OVER.fullmatch(text)
    if found and int(found[1]) >= 12:
        return (
            f"a slip: after feet come less than 12 inches, and {int(found[1])} stands there. Write it in inches alone, or in mm."
        )
    return ""


def _is_metric(text: str, unit: Unit) -> bool:
    """Whether the figures are millimetres or the like, by what stands behind them or by the ``unit`` of the job."""
    return bool(re.search(r"[a-z]*m\b", text)) or (unit is Unit.MM and not re.search(r"[a-z\"″”]", text))


def _joined(found: Match[str]) -> str:
    """A number without the marks or blanks between its thousands."""
    return re.sub(r"\D", "", found[0])


def _without_parting(found: Match[str]) -> str:
    """A number with one mark between thousands and the other before its decimals: 1.200,5 and 1,200.5; else as it was."""
    parting = "," if found["mark"] == "." else "."
    return found[0].replace(parting, "") if found["mark"] not in found[0] else found[0]


def _tidy(text: str) -> str:
    """``text`` with one spelling for each mark: plain spaces, hyphens, slashes and unit words."""
    worn = re.sub(r"[\u00a0\u2009\u202f]", " ", text[: _LONGEST + 1]).strip()
    worn = _PARTED.sub(_joined, worn)
    worn = re.sub(r"[−–—‐‑]", "-", worn).replace("⁄", "/").replace("∕", "/")
    for raised, spelled in _VULGAR.items():
        worn = worn.replace(raised, f" {spelled}")
    for pattern, unit in _SPELLINGS:
        worn = pattern.sub(unit, worn)
    # 26-5/8 is twenty-six and five eighths (26 - 5/8 may be meant to take away, so it is not read); a comma is a
    # decimal mark unless it may part thousands.
    worn = re.sub(r"(?<=\d)-\s*(?=\d+\s*/)", " ", worn)
    worn = re.sub(r"[1-9]\d{0,2}(?:[.,]\d{3})+(?=(?P<mark>[.,])\d+)", _without_parting, worn)
    worn = re.sub(r"(?<=\d),(?=\d{1,2}(?!\d)|\d{4,})|(?<=\b0),(?=\d)", ".", worn)
    return " ".join(worn.split())


def _value(bare: str, unit: Unit) -> Fraction | None:
    """The value in millimetres, or None where the text is no length."""
    if found := _FEET_AND_INCHES.fullmatch(bare):
        feet, rest = _number(found, 1), _number(found, 2)
        return None if feet is None or rest is None else feet * _MM["ft"] + rest * _MM["in"]
    found = _ONE.fullmatch(bare)
    number = _number(found, 1) if found else None
    if found is None or number is None:
        return None
    named = found["unit"] or ("in" if unit is Unit.INCH else "mm")
    return number * _MM[named]


def _number(found: Match[str], n: int) -> Fraction | None:
    """Number ``n`` of the match as a Fraction; None for a fraction over 0."""
    if plain := found[f"plain{n}"]:
        return fraction_in(plain if plain[-1] != "." else plain[:-1])
    top, under = (found[f"top{n}"], found[f"under{n}"]) if found[f"whole{n}"] else (found[f"over{n}"], found[f"below{n}"])
    if int(under) == 0:
        return None
    return int(found[f"whole{n}"] or 0) + Fraction(int(top), int(under))


#: What is wrong with a text that is no length, by a sign of it, and what to write instead.
_HINTS: Final = (
    (re.compile(r"/\s*0+(?!\d)"), "a fraction cannot be over 0."),
    (
        re.compile(r"\d,\d{3}(?!\d)"),
        "a comma before three figures may part thousands or decimals: write it without the comma, or with a point.",
    ),
    (
        re.compile(r"\d\s*-\s*\d"),
        "a hyphen with space around it may be a minus: write 26-5/8 for twenty-six and five eighths, "
        "or do the subtraction yourself.",
    ),
    (re.compile(r"\d[eE][+-]?\d"), "write it out in plain figures."),
)
#: A number, and one word after it.
_WITH_WORD: Final = re.compile(r"[\d\s./]*\d\s*([a-z]{2,})\.?", re.I | re.A)


def _hint(bare: str, unit: Unit) -> str:
    """What to write instead, fitted to what is wrong where that can be told."""
    if not bare:
        return "it is empty: write a number and a unit, such as 5/8 in or 16 mm."
    if said := next((said for sign, said in _HINTS if sign.search(bare)), None):
        return said
    if (word := _WITH_WORD.fullmatch(bare)) and word[1].casefold() not in _UNIT_WORDS:
        near = nearest_names(word[1], _UNIT_WORDS, 1)
        return f"there is no unit {quoted(word[1])}; write " + (f"{near[0]}." if near else "in, ft, mm, cm or m.")
    usual = '26 5/8, 26-5/8", 2 ft 2 5/8 in or 18.2 mm' if unit is Unit.INCH else "18.2, 18.2 mm, 1.5 cm or 5/8 in"
    return f"write it as {usual}."
