"""Numbers and words as plan.json has them: a length three ways, a dimension with its working, a vector, a span."""

from dataclasses import fields
from enum import Enum
from typing import TYPE_CHECKING, Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo, model_validator

from joinlay.documents.json_text import InWords, exact_text
from joinlay.lengths import Dimension, Length

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

__all__ = ["DimensionTold", "Exact", "LengthTold", "NumberTold", "SpanTold", "Told", "VectorTold", "Word", "attributes"]

Word = Annotated[str, BeforeValidator(lambda given: given.value if isinstance(given, Enum) else given)]
#: An exact number as a fraction.
Exact = Annotated[str, Field(pattern=r"^-?\d+/\d+$")]


class Told(BaseModel):
    """A table of the file, taken from the attributes of what it tells of."""

    model_config = ConfigDict(frozen=True, from_attributes=True, defer_build=True)


class LengthTold(Told):
    """A length, three ways: a decimal number of millimetres, exactly, and as the maker reads it."""

    mm: float = Field(description="In millimetres, as near as a decimal number comes.")
    exact: Exact = Field(description="In millimetres, exactly: a fraction such as 37211/80.")
    text: str = Field(
        description="On the maker's rule; where a + or - behind it means a hair more or less, what callipers "
        "show stands in brackets."
    )

    @model_validator(mode="before")
    @classmethod
    def _of(cls, given: object, info: ValidationInfo[InWords]) -> object:
        return info.context.length(given) if isinstance(given, Length) else given


class DimensionTold(LengthTold):
    """A length that has a name, and where it comes from."""

    rule: str = Field("", description="The number of the trade rule it holds.")
    source: str = Field("", description="Where that rule is taken from.")
    origin: str = Field("", description='File and line it is written in; "default" for a usual figure.')
    working: str = Field("", description="How it was worked out, in words and figures.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, given: object, info: ValidationInfo[InWords]) -> object:
        return info.context.dimension(given) if isinstance(given, Dimension) else given


class NumberTold(Told):
    """An exact number that is no length: a ratio, a number of times."""

    number: float
    exact: Exact


class VectorTold(Told):
    """Three numbers, for x, y and z; each also exactly."""

    numbers: list[float] = Field(min_length=3, max_length=3)
    exact: list[Exact] = Field(min_length=3, max_length=3)

    @model_validator(mode="before")
    @classmethod
    def _of(cls, given: object) -> object:
        return (
            {"numbers": [float(n) for n in given], "exact": [exact_text(n) for n in given]} if isinstance(given, tuple) else given
        )


class SpanTold(Told):
    """From where to where, counted from the board's reference."""

    start: LengthTold = Field(serialization_alias="from")
    stop: LengthTold = Field(serialization_alias="to")


def attributes(one: "DataclassInstance") -> dict[str, Any]:
    """Every field of a record by its name, for what has to be said beside it."""
    return {field.name: getattr(one, field.name) for field in fields(one)}
