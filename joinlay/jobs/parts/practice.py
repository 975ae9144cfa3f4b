"""``[practice]``: the maker's own figures for the trade rules, every row of the shop's tables by its name."""

from typing import TYPE_CHECKING, Any, Final

from pydantic import create_model, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.parts.given import EitherWay, Gap, Part, Ratio, Size, dimension_of
from joinlay.shop import LENGTH_RULES, RATIO_RULES, Practice

if TYPE_CHECKING:
    from collections.abc import Mapping

    from joinlay.jobs.parts.given import Given
    from joinlay.lengths import Fraction, Length

__all__ = ["PRACTICE_KEYS", "TWO_MEANINGS", "PracticePart", "key_of", "set_length"]

#: Keys that would be read either way, with what to write instead.
TWO_MEANINGS: Final = {
    "bottom-clearance": (
        "write bottom-clearance-of-the-front (drawer front to the rail below it) or bottom-panel-clearance (how much smaller "
        "the bottom is than its grooves)."
    )
}

#: Lengths that mean nothing when they are nothing.
_MORE_THAN_NOTHING: Final = {"groove depth", "tenon spacing in a case"}


#: Lengths that may be less than nothing.
_EITHER_WAY: Final = {"taper"}


def key_of(rule: str) -> str:
    """The key that sets the rule called ``rule``: its name with hyphens."""
    return rule.replace(" ", "-")


_NAMES: Final = (*(row.name for row in LENGTH_RULES), *(row.name for row in RATIO_RULES))

#: Every key of ``[practice]`` with the name of the rule it sets.
PRACTICE_KEYS: Final[dict[str, str]] = {key_of(name): name for name in _NAMES}
_RULES: Final = {row.name: row.rule for row in LENGTH_RULES}


def set_length(practice: Practice, rule: str, given: "Given[Length]", name: str = "") -> Practice:
    """``practice`` with the length rule ``rule`` set as given; the dimension is called ``name``, or like the rule."""
    return practice.but({rule: dimension_of(given, name or rule, _RULES[rule])})


class Figures(Part):
    """What ``[practice]`` can do, whatever rows its tables have."""

    @model_validator(mode="after")
    def _shares_are_parts(self) -> "Figures":
        given: Given[Fraction] | None
        for field, given in self:
            if field.endswith("share") and given is not None and given.value >= 1:
                key = field.replace("_", "-")
                raise BadInput(f'{key} is {given.spelled}; a share of a thickness must be less than 1, such as "1/3".')
        return self

    def over(self, usual: Practice) -> Practice:
        """``usual`` with every figure that is written here in its place."""
        written: Mapping[str, Any] = {PRACTICE_KEYS[field.replace("_", "-")]: given for field, given in self if given is not None}
        lengths = {rule: dimension_of(given, rule, _RULES[rule]) for rule, given in written.items() if rule in _RULES}
        return usual.but(lengths, {rule: given.value for rule, given in written.items() if rule not in _RULES})


def _kind_of(rule: str) -> object:
    if rule in _EITHER_WAY:
        return EitherWay
    return Size if rule in _MORE_THAN_NOTHING else Gap


def _fields() -> dict[str, Any]:
    lengths = {row.name: _kind_of(row.name) for row in LENGTH_RULES}
    kinds: dict[str, Any] = {**lengths, **{row.name: Ratio for row in RATIO_RULES}}
    return {key_of(rule).replace("-", "_"): (kind | None, None) for rule, kind in kinds.items()}


#: ``[practice]`` of a job or shop file.
PracticePart = create_model("PracticePart", __base__=Figures, **_fields())
