"""How long a nail or screw must be, how many stand along a joint, and where.

A nail holds by what of it is in the lower piece: it is three times as long as the upper one is thick, so that two thirds are
below. Where the lower one is too thin for that it is as long as leaves a little wood before it comes out.
"""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING, Final

from joinlay.boards.fastener import Fastener, FastenerKind
from joinlay.lengths import Fraction, Length, Unit, inches, mm

if TYPE_CHECKING:
    from joinlay.lengths import Dimension, Graduation

__all__ = ["fastener_for", "longest_into", "spread"]

#: The steps nails and screws are sold in. Source: Noyes's table of nails, 1/2 in + 1/4 in a penny size, from memory for screws.
_STEPS: Final = {Unit.INCH: inches("1/4"), Unit.MM: mm(5)}
#: A fine nail comes in half as large steps. Source: common practice.
_FINE: Final = {Unit.INCH: inches("1/8"), Unit.MM: mm(5)}
#: From so long on a nail comes in steps of half an inch: there is none of 3 3/4. Source: Noyes's table, 16d 3 1/2 and 20d 4.
_LONG: Final = inches("3 1/2")
#: What is left before the point comes out. Source: our own choice.
_LEFT: Final = mm(3)
#: How many times the upper piece a nail is long. Source: NAVEDTRA 14119; MIL-DTL-45449.
_TIMES: Final = 3


def fastener_for(
    kind: FastenerKind,
    upper: Dimension,
    lower: Length | None,
    rule: Graduation,
    shank: Length | None = None,
    spacing: Length | None = None,
) -> Fastener:
    """The nail, pin or screw through wood ``upper`` thick into wood ``lower`` deep that way (None: deep enough for any), as it is
    sold; ``shank`` and ``spacing`` are kept with it.

    Three times ``upper``, up to the next length there is; no longer than comes within 3 mm of going through, and where none is
    sold that does, cut to that. Sources: NAVEDTRA 14119, MIL-DTL-45449 (three times, two thirds below); our own choice.
    """
    step = (_FINE if kind is FastenerKind.PIN else _STEPS)[rule.unit].mm
    length = ceil(_TIMES * upper.mm / step) * step
    if kind is FastenerKind.NAIL and rule.unit is Unit.INCH and length > _LONG.mm:
        length = ceil(length / (2 * step)) * 2 * step
    if lower is not None:
        length = min(length, longest_into(kind, upper, lower, rule).mm)
    return Fastener(kind, Length(length), shank, spacing)


def longest_into(kind: FastenerKind, upper: Length, lower: Length, rule: Graduation) -> Length:
    """The longest nail, pin or screw through wood ``upper`` thick that stays 3 mm within wood ``lower`` deep: one that is sold
    where any does that reaches it, else cut to that. Our own choice.
    """
    step = (_FINE if kind is FastenerKind.PIN else _STEPS)[rule.unit].mm
    most = upper.mm + lower.mm - _LEFT.mm
    sold = floor(most / step) * step
    if kind is FastenerKind.NAIL and rule.unit is Unit.INCH and sold > _LONG.mm:
        sold = floor(sold / (2 * step)) * 2 * step
    return Length(sold if sold > upper.mm else max(most, upper.mm + lower.mm / 2))


def spread(run: Length, spacing: Length, *, least: int = 1) -> tuple[Length, ...]:
    """Where fasteners stand along a ``run`` from its start, evenly, ``spacing`` from one to the next at most, half of that from
    both ends.

    ``least`` is how many at least. By geometry.
    """
    count = max(least, ceil(run.mm / spacing.mm))
    return tuple(Length(run.mm * Fraction(2 * n + 1, 2 * count)) for n in range(count))
