"""``[[bank]]``: one bank of drawers from the top down, and how its height is divided (DR-7)."""

from collections.abc import Sequence
from typing import Annotated, Final

from pydantic import Field, PlainValidator, TypeAdapter, ValidationInfo, model_validator

from joinlay.casework.graduation import Arithmetic, Equal, Geometric, Heights, OneByOne
from joinlay.errors import BadInput
from joinlay.jobs.parts.drawer import DrawersPart
from joinlay.jobs.parts.given import Count, Gap, Given, Ratio, Reading, Size, Spelled, dimension_of, one_of
from joinlay.lengths import Dimension, Fraction, Length

__all__ = ["BankPart", "size_or_none"]

_SIZE: Final[TypeAdapter[Given[Length]]] = TypeAdapter(Size)

#: How much deeper each opening is than the one above where a geometric bank names no ratio: between the usual 1.1 and 1.25.
_USUAL_RATIO: Final = Fraction(9, 8)

_KINDS: Final = {kind: kind for kind in ("equal", "arithmetic", "geometric")}


def _opening(given: object, info: ValidationInfo[Reading]) -> Given[Length] | None:
    """A height, or ``fill`` for the opening that takes what is left."""
    if isinstance(given, Spelled) and isinstance(given.value, str) and given.value.strip().casefold() == "fill":
        return None
    return _SIZE.validate_python(given, context=info.context)


def _remainder(given: object) -> Given[int]:
    """``top``, ``bottom``, or the number of a drawer of the bank from its top."""
    if isinstance(given, Spelled):
        if isinstance(given.value, int) and not isinstance(given.value, bool) and given.value >= 1:
            return Given(given.value - 1, str(given.value), given.origin)
        word = str(given.value).strip().casefold()
        if word in ("top", "bottom"):
            return Given(0 if word == "top" else -1, word, given.origin)
    raise BadInput('the remainder goes to "top", "bottom", or the number of a drawer counted from the top of its bank.')


Opening = Annotated[Given[Length] | None, PlainValidator(_opening)]
Remainder = Annotated[Given[int], PlainValidator(_remainder)]
Kind = Annotated[Given[str], PlainValidator(one_of(_KINDS))]


class BankPart(DrawersPart):
    """One bank from the top down: ``drawers`` divided by a ``graduation``, or ``heights`` one by one, one of them "fill" at most.

    Any key of ``[drawers]`` may be set otherwise here. ``remainder`` rounds the openings to the maker's rule and says which takes what
    that leaves over. ``width`` is the openings'; one bank without it takes what is left, several share it alike only where none has one.
    """

    drawers: Count | None = None
    graduation: Kind | None = None
    step: Gap | None = None
    ratio: Ratio | None = None
    heights: Annotated[list[Opening], Field(min_length=1, max_length=100)] | None = None
    remainder: Remainder | None = None
    rail: Size | None = None
    width: Size | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> "BankPart":
        if self.opening is not None:
            raise BadInput("the openings of a bank follow from the frame; leave opening out, or write heights.")
        if (self.drawers is None) == (self.heights is None):
            raise BadInput('write drawers = and how many, or heights = and each opening, such as ["4", "fill", "6"].')
        if self.heights is not None:
            self._refuse_beside_heights(self.heights)
        kind = "equal" if self.graduation is None else self.graduation.value
        for key, needs in (("step", "arithmetic"), ("ratio", "geometric")):
            if getattr(self, key) is not None and kind != needs:
                raise BadInput(f'{key} is for graduation = "{needs}"; this bank is {kind}.')
        if self.remainder is not None and self.remainder.value >= self.count:
            raise BadInput(f"the remainder goes to drawer {self.remainder.spelled}, but the bank has {self.count}.")
        return self

    def _refuse_beside_heights(self, heights: Sequence[object]) -> None:
        if self.graduation is not None:
            raise BadInput("heights gives the openings one by one, so there is no graduation; leave one of them out.")
        if sum(height is None for height in heights) > 1:
            raise BadInput('two openings or more are "fill"; one at most takes what is left.')

    @property
    def count(self) -> int:
        """How many drawers."""
        return len(self.heights) if self.heights is not None else self.drawers or 1

    def division(self, first: int, rail: Dimension) -> Heights:
        """How the bank is divided; ``first`` is the number of its topmost drawer, ``rail`` the usual step."""
        if self.heights is not None:
            return OneByOne(
                tuple(size_or_none(one, f"drawer {first + n} opening height asked for") for n, one in enumerate(self.heights))
            )
        kind = "equal" if self.graduation is None else self.graduation.value
        if kind == "arithmetic":
            return Arithmetic(
                self.count, rail if self.step is None else dimension_of(self.step, "step of the graduation", "DR-7")
            )
        if kind == "geometric":
            return Geometric(self.count, _USUAL_RATIO if self.ratio is None else self.ratio.value)
        return Equal(self.count)


def size_or_none(given: Given[Length] | None, name: str) -> Dimension | None:
    """A size that need not be written, as a dimension called ``name``; None where it isn't."""
    return None if given is None else dimension_of(given, name)
