"""Amounts that are not lengths: a load, a temperature, a humidity, a moisture, a stiffness.

Each is written with its unit, since nobody can guess which one a maker is used to.
"""

import re
from typing import Annotated, Final

from pydantic import WithJsonSchema

from joinlay.checks.conditions import Load
from joinlay.errors import BadInput, quoted
from joinlay.jobs.source import Spelled
from joinlay.jobs.tables.given import Checked, Given, bare
from joinlay.lengths import Fraction, exact_fraction, fraction_in

__all__ = [
    "Bearing",
    "Celsius",
    "Percent",
    "Stiff",
    "Time",
    "read_load",
    "read_percent",
    "read_stiffness",
    "read_temperature",
    "read_time",
]

#: A number and what follows it.
_AMOUNT: Final = re.compile(r"(?P<number>[-+−]?\s*\d[\d\s./,]*|[-+−]?\s*\.\d+)(?P<unit>.*)", re.S)
_LONGEST: Final = 40

_POUND: Final = fraction_in("0.45359237")
_FOOT: Final = fraction_in("0.3048")
_GRAVITY: Final = fraction_in("9.80665")

_PER_SQUARE_FOOT: Final = _POUND * _GRAVITY / _FOOT**2
_PER_SQUARE_INCH: Final = 144 * _PER_SQUARE_FOOT

#: Weights by unit, in kilograms.
_WEIGHTS: Final = {
    "kg": Fraction(1), "kilo": Fraction(1), "kilogram": Fraction(1), "g": Fraction(1, 1000), "gram": Fraction(1, 1000),
    "lb": _POUND, "pound": _POUND, "oz": _POUND / 16, "ounce": _POUND / 16,
}  # fmt: skip
#: Loads on an area by unit, in pascals.
_PRESSURES: Final = {
    "pa": Fraction(1), "kpa": Fraction(1000), "n/m2": Fraction(1), "kn/m2": Fraction(1000), "kg/m2": _GRAVITY,
    "lb/ft2": _PER_SQUARE_FOOT, "psf": _PER_SQUARE_FOOT, "lb/in2": _PER_SQUARE_INCH,
}  # fmt: skip
#: Stiffness by unit, in GPa.
_MODULI: Final = {
    "gpa": Fraction(1), "mpa": Fraction(1, 1000), "n/mm2": Fraction(1, 1000), "kn/mm2": Fraction(1),
    "psi": _PER_SQUARE_INCH / 10**9, "lb/in2": _PER_SQUARE_INCH / 10**9,
}  # fmt: skip
#: Times by unit, in seconds.
_TIMES: Final = {
    "s": 1,
    "sec": 1,
    "second": 1,
    "seconds": 1,
    "min": 60,
    "minute": 60,
    "minutes": 60,
    "mins": 60,
    "h": 3600,
    "hr": 3600,
    "hour": 3600,
    "hours": 3600,
    "hrs": 3600,
}
#: No glue takes longer.
_LONGEST_TIME: Final = 7 * 24 * 3600
_TIME_SAID: Final = '"8 min" or "1 h"'
_STIFFNESS_SAID: Final = '"8.5 GPa", "8500 N/mm2" or "1200000 psi"'
#: Other ways to write a unit.
_SPELLINGS: Final = (
    (r"²", "2"),
    (r"\^\s*2", "2"),
    (r"\bsq(uare|\.)?\s*(?P<of>foot|feet|ft|metre|meter|m|inch|in)\b", r"\g<of>2"),
    (r"\s*\bper\b\s*|\s*/\s*", "/"),
    (r"\b(foot|feet)2", "ft2"),
    (r"\b(metre|meter)2", "m2"),
    (r"\binch2", "in2"),
    (r"\b(pounds|lbs)\b", "lb"),
    (r"\b(kilogram|gram|kilo|ounce)s\b", r"\1"),
    (r"\bkgs\b", "kg"),
    (r"\b(kilogram|kilo)/", "kg/"),
    (r"\bpound/", "lb/"),
    (r"\.$", ""),
)
_DEGREES: Final = re.compile(r"(?:°|º|deg(?:ree)?s?\b\.?)?\s*(?P<scale>c|celsius|centigrade|f|fahrenheit)?\.?")
_PER_CENT: Final = ("%", "percent", "per cent", "pct")

#: More on one bottom is a wrong unit or a slip: books stacked a metre high are about 7 kPa.
_MOST_PASCALS: Final = Fraction(20_000)
_MOST_KILOGRAMS: Final = Fraction(500)
_LOAD_SAID: Final = '"30 lb" or "15 kg" in each drawer, or "15 lb/ft2" or "718 Pa" on its bottom'


def _parted(text: str) -> tuple[Fraction, str] | None:
    """The number in front and the unit behind it, in small letters; None where there is no number."""
    found = _AMOUNT.fullmatch(" ".join(text[: _LONGEST + 1].split()))
    if found is None or len(text) > _LONGEST:
        return None
    number = found["number"].strip().replace("−", "-").replace("- ", "-")
    number = re.sub(r"(?<=\d),(?=\d{1,2}(?!\d))", ".", number)
    try:
        return exact_fraction(number), found["unit"].strip().casefold()
    except BadInput:
        return None


def read_load(text: str) -> Load:
    """The load that ``text`` spells as a maker writes it: ``30 lb``, ``15 kg``, ``15 lb/ft2``, ``718 Pa``, ``75 kg/m2`` (CK-3).

    Raises BadInput for a number without a unit, for a unit that isn't known and for what no drawer holds.
    """
    parted = _parted(text)
    if parted is None:
        raise BadInput(f"{quoted(text)} cannot be read as a load; write {_LOAD_SAID}.")
    number, unit = parted
    unit = _plain_unit(unit)
    if not unit:
        raise BadInput(f"{text.strip()} is a load without a unit; write {_LOAD_SAID}.")
    per_weight, per_area = _WEIGHTS.get(unit), _PRESSURES.get(unit)
    if per_weight is None and per_area is None:
        raise BadInput(f"{quoted(text)} is in no unit of load known here; write {_LOAD_SAID}.")
    if number < 0:
        raise BadInput(f"{text.strip()} is negative; a load is at least 0.")
    if per_weight is not None and number * per_weight <= _MOST_KILOGRAMS:
        return Load(number * per_weight, is_weight=True, spelled=text.strip())
    if per_area is not None and number * per_area <= _MOST_PASCALS:
        return Load(number * per_area, spelled=text.strip())
    most = "500 kg (1100 lb) in a drawer" if per_weight is not None else "20 kPa (418 lb/ft2) on its bottom"
    raise BadInput(f"{text.strip()} is more than any drawer holds; the most is {most}. Check the unit.")


def read_temperature(text: str) -> Fraction:
    """Degrees Celsius, exact, of the temperature that ``text`` spells, such as ``21 C`` or ``70 F`` (CK-6).

    Raises BadInput where the scale is missing or unknown, and outside -20 to 60 C.
    """
    parted = _parted(text)
    scale = _DEGREES.fullmatch(parted[1]) if parted else None
    if parted is None or scale is None:
        raise BadInput(f'{quoted(text)} cannot be read as a temperature; write "21 C" or "70 F".')
    if scale["scale"] is None:
        raise BadInput(f'{text.strip()} is a temperature without a scale; write "{text.strip().rstrip("°º ")} C" or "... F".')
    celsius = parted[0] if scale["scale"].startswith("c") else (parted[0] - 32) * Fraction(5, 9)
    if not -20 <= celsius <= 60:
        raise BadInput(f"{text.strip()} is not a temperature furniture is kept at; write -20 to 60 C (-4 to 140 F).")
    return celsius


def read_percent(text: str, most: int = 100) -> Fraction:
    """Per cent, as a number, that ``text`` spells, such as ``45 %`` (CK-6).

    Raises BadInput without the sign, since 0.45 and 45 are both written, and outside 0 to ``most``.
    """
    parted = _parted(text)
    if parted is None or parted[1] not in ("", *_PER_CENT):
        raise BadInput(f'{quoted(text)} cannot be read as per cent; write "45 %".')
    if not parted[1]:
        raise BadInput(f'{text.strip()} could be a share or per cent; write "45 %" for forty-five in a hundred.')
    if not 0 <= parted[0] <= most:
        raise BadInput(f"{text.strip()} is out of range; write 0 to {most} %.")
    return parted[0]


def read_stiffness(text: str) -> Fraction:
    """Gigapascals that ``text`` spells as a data sheet does: ``8.5 GPa``, ``8500 N/mm2``, ``1200000 psi`` (CK-3).

    Raises BadInput without a unit, and outside 0.5 to 30 GPa, where no sheet lies.
    """
    parted = _parted(text)
    unit = _plain_unit(parted[1]) if parted else ""
    if parted is None or unit not in _MODULI:
        raise BadInput(f"{quoted(text)} cannot be read as a stiffness; write {_STIFFNESS_SAID}.")
    gigapascals = parted[0] * _MODULI[unit]
    if not Fraction(1, 2) <= gigapascals <= 30:
        raise BadInput(
            f"{text.strip()} is not the stiffness of any sheet; that lies between 0.5 and 30 GPa (plywood about 7). "
            "Check the unit."
        )
    return gigapascals


def read_time(text: str) -> int:
    """Whole seconds that ``text`` spells, such as ``8 min``, ``90 s`` or ``1 1/2 h`` (PT-3, PT-9).

    Raises BadInput without a unit, for less than a second, and for more than a week.
    """
    parted = _parted(text)
    times = _TIMES.get(parted[1].rstrip(".")) if parted else None
    if parted is None or (times is None and parted[1]):
        raise BadInput(f"{quoted(text)} cannot be read as a time; write {_TIME_SAID}.")
    if times is None:
        raise BadInput(f"{text.strip()} is a time without a unit; write {_TIME_SAID}.")
    seconds = parted[0] * times
    if not 1 <= seconds <= _LONGEST_TIME:
        raise BadInput(f"{text.strip()} is out of range for a glue; write a second to a week, such as {_TIME_SAID}.")
    return int(seconds)


def _plain_unit(unit: str) -> str:
    """One spelling for each unit."""
    for spelling, plain in _SPELLINGS:
        unit = re.sub(spelling, plain, unit).strip()
    return unit


def _text(given: object, wanted: str) -> tuple[str, Spelled]:
    spelled = bare(given, wanted)
    value = spelled.value
    if isinstance(value, bool) or not isinstance(value, (str, int)):
        raise BadInput(f"{value} cannot stand here; write {wanted} in quotes.")
    return str(value), spelled


def _load(given: object) -> Given[Load]:
    text, spelled = _text(given, f"a load, such as {_LOAD_SAID},")
    return Given(read_load(text), text, spelled.origin)


def _celsius(given: object) -> Given[Fraction]:
    text, spelled = _text(given, 'a temperature, such as "21 C" or "70 F",')
    return Given(read_temperature(text), text, spelled.origin)


def _percent(given: object) -> Given[Fraction]:
    text, spelled = _text(given, 'per cent, such as "45 %",')
    return Given(read_percent(text), text, spelled.origin)


def _stiffness(given: object) -> Given[Fraction]:
    text, spelled = _text(given, f"a stiffness, such as {_STIFFNESS_SAID},")
    return Given(read_stiffness(text), text, spelled.origin)


def _time(given: object) -> Given[int]:
    text, spelled = _text(given, f"a time, such as {_TIME_SAID},")
    return Given(read_time(text), text, spelled.origin)


#: A time in whole seconds.
Time = Annotated[Given[int], Checked(_time), WithJsonSchema({"type": "string", "examples": ["8 min", "1 h"]})]
#: A modulus of elasticity in GPa.
Stiff = Annotated[
    Given[Fraction], Checked(_stiffness), WithJsonSchema({"type": "string", "examples": ["8.5 GPa", "1200000 psi"]})
]
#: What lies in a drawer or on its bottom.
Bearing = Annotated[
    Given[Load], Checked(_load), WithJsonSchema({"type": "string", "examples": ["30 lb", "15 kg", "15 lb/ft2", "718 Pa"]})
]
#: A temperature in degrees Celsius.
Celsius = Annotated[Given[Fraction], Checked(_celsius), WithJsonSchema({"type": "string", "examples": ["21 C", "70 F"]})]
#: Per cent, as a number.
Percent = Annotated[Given[Fraction], Checked(_percent), WithJsonSchema({"type": "string", "examples": ["45 %"]})]
