"""How a number came about, as a tree down to what the maker wrote; and the numbers of a plan by the names they are asked for by.

The tree is data, so that each surface may show it in its own way: every step with its figures, its sum and its rule, and the
steps it reads below it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.assembly.squaring import squares_of, windings_of
from joinlay.boards import Axis
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension, Graduation, Length

__all__ = ["WorkingLine", "numbers_by_rule", "numbers_of", "origin_of", "working_of"]

#: What a board's three sizes are called, by axis.
_SIZES = {Axis.ALONG: "length", Axis.ACROSS: "width", Axis.INTO: "thickness"}


@dataclass(frozen=True, slots=True)
class WorkingLine:
    """One number of a working: the ``size`` itself, its ``figures`` on the maker's rule, and the ``expression`` it is the result
    of.

    ``expression`` is '' for a number that somebody wrote or that is a default; ``told`` says then where it is from, else its rule
    and source. ``below`` are the numbers that the expression reads; none where ``is_above``: the same working was told before.
    """

    size: Dimension
    figures: str
    expression: str
    told: str
    below: tuple[WorkingLine, ...] = ()
    is_above: bool = False


def numbers_by_rule(plan: Plan) -> dict[str, Dimension]:
    """The numbers of ``plan`` that rules gave and that went into them, by name, with those of what is glued.

    These are what diagonals must read and how far they may differ, winding, and how far the longest clamp of each glue-up opens
    (PT-4, PT-5).
    """
    squares = squares_of(plan.drawers, plan.others)
    diagonals = {size.name: size for square in squares for size in (square.diagonal, square.differ)}
    windings = {one.differ.name: one.differ for one in windings_of(plan.drawers, plan.others)}
    clamps = {size.name: size for one in plan.glue_ups for go in one.goes if (size := go.reach) is not None}
    return {**plan.dimensions(), **diagonals, **windings, **clamps}


def numbers_of(plan: Plan) -> dict[str, Dimension]:
    """The same, and every board's length, width and thickness by the board's name, which is how a maker may ask for one
    (PT-5).
    """
    boards = {f"{board.name} {word}": board.size(axis) for board in plan.boards for axis, word in _SIZES.items()}
    return {**boards, **numbers_by_rule(plan)}


def working_of(size: Dimension, rule: Graduation) -> WorkingLine:
    """The working of ``size`` down to what the maker wrote, figures on ``rule``; no rule of its own, each step names its."""
    return _step(size, rule, set())


def _step(size: Dimension, rule: Graduation, seen: set[tuple[str, object]]) -> WorkingLine:
    """A number with its working below it; the working of one that was met before is not told again."""
    figures = rule.text(size)
    told = ", ".join(part for part in (size.rule, size.source) if part) or ("by geometry" if size.operation else "")
    if not size.operation:
        return WorkingLine(size, figures, "", origin_of(size, told))
    key = (size.name, size.mm)
    if key in seen:
        return WorkingLine(size, figures, "", "", is_above=True)
    seen.add(key)
    expression = size.expression(lambda length: _figures(length, rule))
    return WorkingLine(size, figures, expression, told, tuple(_step(one, rule, seen) for one in size.inputs))


def origin_of(size: Dimension, told: str) -> str:
    """Where a number that was simply written is from, ``told`` (its rule and source) with it."""
    if size.origin == "default":
        return f"the usual figure ({told})" if told else "the usual figure"
    where = f"written in {size.origin}" if size.origin else ""
    return f"{where} ({told})" if where and told else where or told


def _figures(length: Length, rule: Graduation) -> str:
    """A length inside an expression: its figures; what lies between two marks as callipers show it."""
    shown = rule.read(length)
    return shown.exactly if shown.left_over else shown.figures
