"""Values as a maker gives them: a length, a ratio, a word, a name, each with the file and line it stands in.

Each kind checks itself and says what was given and what is allowed. The other modules here use a kind as the type of a key.
"""

import re
from collections.abc import Mapping
from typing import Annotated, Any, Final, Generic, TypeVar

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import CoreSchema
from pydantic_core.core_schema import no_info_plain_validator_function, with_info_plain_validator_function

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.jobs.source import Decimals, Spelled
from joinlay.lengths import NOTHING, Dimension, Fraction, Length, Unit, exact_fraction, mm, read_length
from joinlay.paper import LONGEST_NAME, name_fault, written_one_way
from joinlay.records import dataclass

__all__ = [
    "Checked",
    "Context",
    "Count",
    "EitherWay",
    "Entry",
    "Gap",
    "Given",
    "Name",
    "Ratio",
    "Size",
    "StockName",
    "StockOrNone",
    "YesOrNo",
    "bare",
    "checked_name",
    "checked_text",
    "dimension_of",
    "dimension_or_none",
    "dimension_or_zero",
    "listed",
    "one_of",
]

_T = TypeVar("_T")

#: Longer than any piece of furniture; a length past it is a wrong unit or a slip of the pen.
_LONGEST: Final = mm(10_000)

#: The most drawers a job may ask for; a guard against a slip of the pen.
_MOST_ALIKE: Final = 100


@dataclass(frozen=True, slots=True)
class Context:
    """What a value needs to know of the rest of the file: the ``unit`` of bare numbers and the names of the ``stocks``."""

    unit: Unit
    stocks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Given(Generic[_T]):
    """A checked value, how the maker spelled it, and where."""

    value: _T
    spelled: str
    origin: str


class Checked(PlainValidator):
    """A check of a value that is the whole check, and says all there is to say of its type.

    The library's own also works out how the type would be checked and written without it, for every key that has it; a job file
    is only read.
    """

    def __get_pydantic_core_schema__(self, source_type: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """The check alone, and what it takes where a schema of it is asked for."""
        taken = handler.generate_schema(self.json_schema_input_type)
        check: Any = self.func
        if check.__code__.co_argcount > 1:
            return with_info_plain_validator_function(check, json_schema_input_schema=taken)
        return no_info_plain_validator_function(check, json_schema_input_schema=taken)


class Entry(BaseModel):
    """A table of a job file: keys with hyphens, none but the known ones, and never changed once read."""

    model_config = ConfigDict(
        strict=True,
        frozen=True,
        extra="forbid",
        arbitrary_types_allowed=True,
        # Each table's check is built with the file it is read as, once, instead of for itself and then again within every table
        # around it.
        defer_build=True,
        alias_generator=lambda name: name.replace("_", "-"),
    )


def listed(words: tuple[str, ...]) -> str:
    """``words`` as one may choose among them: ``"a", "b" or "c"``."""
    shown = [quoted(word, LONGEST_NAME, '"') for word in words]
    return " or ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)


def bare(given: object, wanted: str) -> Spelled:
    """``given`` itself if it is a bare value; BadInput, with what is ``wanted``, for a table or a list."""
    if isinstance(given, Spelled):
        return given
    kind = "a table" if isinstance(given, Mapping) else "a list" if isinstance(given, list) else quoted(given)
    raise BadInput(f"this is {kind}, where {wanted} is wanted.")


def _shown(value: object) -> str:
    """A value as it stands in the file."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str) and not isinstance(value, Decimals):
        return quoted(value, LONGEST_NAME, '"')
    return quoted(value) if isinstance(value, int) else str(value)[:LONGEST_NAME]


# -- lengths and ratios --------------------------------------------------------------------------------


def _length(given: object, info: ValidationInfo[Context]) -> Given[Length]:
    unit: Unit = info.context.unit
    example = '"18 3/8" or "465 mm"' if unit is Unit.INCH else '465 or "18 3/8 in"'
    spelled = bare(given, f"a length, such as {example},")
    text = _number_text(spelled.value)
    if text is None:
        raise BadInput(f"{_shown(spelled.value)} is not a length; write a number or text, such as {example}.")
    length = read_length(text, unit)
    if abs(length) > _LONGEST:
        most, word = ("32 ft 9 in", "inches") if unit is Unit.INCH else ("10 m", "millimetres")
        check = f"A bare number is read in {word} here" if _is_bare(text) else "Check the unit"
        raise BadInput(f"{_with_unit(text, unit)} is longer than any piece; the most is {most}. {check}.")
    return Given(length, text, spelled.origin)


def _number_text(value: object) -> str | None:
    """The figures of a number or text; None where it is neither. True and false are no numbers, though Python thinks so."""
    if isinstance(value, bool) or not isinstance(value, (str, int)):
        return None
    if isinstance(value, Decimals):
        return value.replace("_", "").removeprefix("+")
    return value if isinstance(value, str) else str(value)


def _is_bare(text: str) -> bool:
    """Whether figures stand without a unit."""
    return re.fullmatch(r"[-−\d ./,½⅓⅔¼¾⅛⅜⅝⅞]+", text.strip()) is not None


def _with_unit(text: str, unit: Unit) -> str:
    """The figures as given, with the unit they were read in where none was written."""
    return f"{text.strip()} {'in' if unit is Unit.INCH else 'mm'}" if _is_bare(text) else text.strip()


def _size(given: object, info: ValidationInfo[Context]) -> Given[Length]:
    found = _length(given, info)
    if found.value.mm <= 0:
        raise BadInput(f"{_with_unit(found.spelled, info.context.unit)} is not a size; it must be more than 0.")
    return found


def _gap(given: object, info: ValidationInfo[Context]) -> Given[Length]:
    found = _length(given, info)
    if found.value.mm < 0:
        raise BadInput(f"{_with_unit(found.spelled, info.context.unit)} is negative; it must be at least 0.")
    return found


def _ratio(given: object) -> Given[Fraction]:
    spelled = bare(given, 'a ratio, such as "1/3" or 4,')
    text = _number_text(spelled.value)
    if text is None:
        raise BadInput(f'{_shown(spelled.value)} is not a ratio; write a fraction such as "1/3", or a number such as 4.')
    ratio = exact_fraction(text)
    if not 0 < ratio <= 100:
        raise BadInput(f"{text.strip()} is out of range for a ratio; it must be more than 0 and at most 100.")
    return Given(ratio, text, spelled.origin)


def _yes_or_no(given: object) -> bool:
    value = given.value if isinstance(given, Spelled) else None
    if not isinstance(value, bool):
        raise BadInput("write true or false here.")
    return value


def _count(given: object) -> int:
    spelled = bare(given, "a whole number")
    count = spelled.value
    if isinstance(count, bool) or not isinstance(count, int):
        raise BadInput(f"{_shown(count)} is not a count; write a whole number, such as 3.")
    if not 1 <= count <= _MOST_ALIKE:
        raise BadInput(f"{_shown(count)} is out of range; write a whole number from 1 to {_MOST_ALIKE}.")
    return count


_LENGTH: Final = {"type": ["string", "number"]}
_AS_LENGTH: Final = 'such as "18 3/8", "465 mm" or a bare number in the units of the job.'
_TEXT: Final = {"type": "string", "minLength": 1}

#: A length above zero.
Size = Annotated[Given[Length], Checked(_size), WithJsonSchema({**_LENGTH, "description": f"A length above 0, {_AS_LENGTH}"})]
#: A length of either sign: a taper, which is negative where the drawer is wider at its back.
EitherWay = Annotated[
    Given[Length], Checked(_length), WithJsonSchema({**_LENGTH, "description": f"A length of either sign, {_AS_LENGTH}"})
]
#: A length of at least zero: a clearance, an offset.
Gap = Annotated[Given[Length], Checked(_gap), WithJsonSchema({**_LENGTH, "description": f"A length of at least 0, {_AS_LENGTH}"})]
#: An exact ratio or number of times.
Ratio = Annotated[
    Given[Fraction],
    Checked(_ratio),
    WithJsonSchema({"type": ["string", "number"], "description": 'A fraction such as "1/3", or a number.'}),
]
#: True or false.
YesOrNo = Annotated[bool, Checked(_yes_or_no), WithJsonSchema({"type": "boolean"})]
#: How many alike.
Count = Annotated[int, Checked(_count), WithJsonSchema({"type": "integer", "minimum": 1, "maximum": _MOST_ALIKE})]


# -- words ---------------------------------------------------------------------------------------------


def checked_text(given: object, wanted: str) -> Given[str]:
    """``given`` as text of any kind; BadInput, with what is ``wanted``, for anything else."""
    spelled = bare(given, wanted)
    if not isinstance(spelled.value, str) or isinstance(spelled.value, Decimals):
        raise BadInput(f"{_shown(spelled.value)} is not text; write {wanted} in quotes.")
    return Given(spelled.value, spelled.value, spelled.origin)


def checked_name(given: object) -> Given[str]:
    """``given`` as a short text on one line that can be printed, written one way; BadInput for anything else."""
    found = checked_text(given, "a name")
    name = written_one_way(found.value)
    if fault := name_fault(name):
        raise BadInput(f"{_shown(found.value)} {fault}.")
    return Given(name, found.spelled, found.origin)


def _stock_name(given: object, info: ValidationInfo[Context]) -> Given[str]:
    stocks: tuple[str, ...] = info.context.stocks
    found = checked_text(given, "the name of a stock")
    if found.value not in stocks:
        raise BadInput(f"there is no stock called {_shown(found.value)}; {_known(found.value, stocks, 'the job has')}")
    return found


def _stock_or_none(given: object, info: ValidationInfo[Context]) -> Given[str | None]:
    found = checked_text(given, 'the name of a stock, or "none"')
    if found.value.casefold() == "none":
        return Given(None, found.spelled, found.origin)
    named = _stock_name(given, info)
    return Given(named.value, named.spelled, named.origin)


def _known(given: str, known: tuple[str, ...], having: str) -> str:
    """The nearest of ``known``, else the first few of them."""
    near = nearest_names(given, known)
    if near:
        return f"the nearest is {listed(near[:1])}."
    if not known:
        return f"{having} none: write [stock.NAME] with its kind, nominal and measured thickness."
    return f"{having} {listed(known[:8])}{' and more' if len(known) > 8 else ''}."


def one_of(words: Mapping[str, _T]) -> Checked:
    """A check for one word of ``words``, giving what it stands for; capitals don't matter, though a schema shows small
    letters.
    """

    def check(given: object) -> Given[_T]:
        allowed = listed(tuple(words))
        found = checked_text(given, allowed)
        word = " ".join(found.value.casefold().split())
        if word not in words:
            near = nearest_names(word, tuple(words), 1)
            nearest = f" (the nearest is {listed(near)})" if near and len(words) > 2 else ""
            raise BadInput(f"{_shown(found.value)} is not known here; write {allowed}{nearest}.")
        return Given(words[word], found.spelled, found.origin)

    return Checked(check, json_schema_input_type=Annotated[str, WithJsonSchema({"enum": list(words)})])


#: Any short text on one line.
Name = Annotated[Given[str], Checked(checked_name), WithJsonSchema(_TEXT)]
#: The name of a stock that the job describes.
StockName = Annotated[
    Given[str], Checked(_stock_name), WithJsonSchema({**_TEXT, "description": "The name of a stock of the job."})
]
#: The same, or ``none`` where what the others are given is left out.
StockOrNone = Annotated[
    Given[str | None],
    Checked(_stock_or_none),
    WithJsonSchema({**_TEXT, "description": 'The name of a stock of the job, or "none".'}),
]


def dimension_of(given: Given[Length], name: str, rule: str = "") -> Dimension:
    """The length ``given`` as a dimension called ``name`` that knows where it was written.

    ``rule`` is the number of the trade rule whose default it stands in for.
    """
    return Dimension(given.value, name, rule=rule, origin=given.origin)


def dimension_or_none(given: Given[Length] | None, name: str) -> Dimension | None:
    """The length ``given`` as a dimension called ``name``; None where none was written."""
    return None if given is None else dimension_of(given, name)


def dimension_or_zero(given: Given[Length] | None, name: str) -> Dimension:
    """The length ``given`` as a dimension called ``name``; zero where none was written."""
    return NOTHING if given is None else dimension_of(given, name)
