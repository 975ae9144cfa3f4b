"""Numbers: exact lengths, reading and writing them, the maker's rule, and dimensions with their working."""

from joinlay.lengths.dimension import (
    NOTHING,
    Dimension,
    chosen,
    default,
    dimension,
    largest,
    require_positive,
    rounded_down,
    rounded_to,
    rounded_up,
    smallest,
    written,
)
from joinlay.lengths.fraction import Fraction, fraction_in
from joinlay.lengths.length import MM_PER_INCH, ZERO, Exact, Length, exact_fraction, inches, mm
from joinlay.lengths.makers_rule import GRADUATIONS, BadSize, Fine, Graduation, OnRule, decimal_text, plain_mm, said_by
from joinlay.lengths.notation import Unit, read_length

__all__ = [
    "GRADUATIONS",
    "MM_PER_INCH",
    "NOTHING",
    "ZERO",
    "BadSize",
    "Dimension",
    "Exact",
    "Fine",
    "Fraction",
    "Graduation",
    "Length",
    "OnRule",
    "Unit",
    "chosen",
    "decimal_text",
    "default",
    "dimension",
    "exact_fraction",
    "fraction_in",
    "inches",
    "largest",
    "mm",
    "plain_mm",
    "read_length",
    "require_positive",
    "rounded_down",
    "rounded_to",
    "rounded_up",
    "said_by",
    "smallest",
    "written",
]
