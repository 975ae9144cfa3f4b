"""``joinlay why``: the working of a number as a tree, down to what the maker wrote."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from joinlay.assembly.squaring import squares_of
from joinlay.boards import Axis
from joinlay.cli import words
from joinlay.cli.rule_words import RULE_WORDS
from joinlay.cli.terminal import complain, finding_lines, say, table
from joinlay.documents.job_file import job_in
from joinlay.errors import BadInput, nearest_names
from joinlay.jobs.planning import plan

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension, Graduation, Length

__all__ = ["explain"]

#: What a board's three sizes are called, by axis.
_SIZES = {Axis.ALONG: "length", Axis.ACROSS: "width", Axis.INTO: "thickness"}


def explain(path: Path, name: str) -> None:
    """Print the working of the number called ``name`` in the job at ``path``; all the names where it is empty.

    Raises BadInput, with near names, where there is no such number.
    """
    worked_out = plan(job_in(path))
    found = {**worked_out.dimensions(), **_diagonals(worked_out)}
    if worked_out.is_refused:
        complain(finding_lines([one for one in worked_out.findings if one.harm.name == "REFUSE"], worked_out.rule) + "\n")
    if not name:
        say(table((one, worked_out.rule.text(size), _what(size)) for one, size in found.items()))
        return
    known = {**_sizes_of_boards(worked_out), **found}
    wanted = _matching(name, known)
    if wanted is None:
        raise BadInput(words.no_number(name, _near(name, tuple(known)), str(path)))
    say("\n".join(_tree(known[wanted], worked_out.rule)))


def _what(size: Dimension) -> str:
    """A few words on what a number is: what its rule is about, or where it was written."""
    first = re.match(r"[A-Z]{2}-\d+", size.rule)
    about = f"{size.rule}: {RULE_WORDS[first[0]]}" if first else ""
    if about:
        return f"{about}; as written" if size.origin not in ("", "default") else about
    return _origin(size, size.source) if not size.operation else size.source or "by geometry"


def _sizes_of_boards(worked_out: Plan) -> dict[str, Dimension]:
    """Every board's length, width and thickness by the board's name, which is how a maker may ask for a size with another name."""
    return {f"{board.name} {word}": board.size(axis) for board in worked_out.boards for axis, word in _SIZES.items()}


def _diagonals(worked_out: Plan) -> dict[str, Dimension]:
    """What the diagonals of each rectangle must read, and how far they may differ, by name (PT-5)."""
    squares = squares_of(worked_out.drawers, worked_out.others)
    return {size.name: size for square in squares for size in (square.diagonal, square.differ)}


def _folded(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())


def _matching(name: str, known: Mapping[str, Dimension]) -> str | None:
    """The name that is meant: capitals, spaces and hyphens don't matter."""
    return next((one for one in known if _folded(one) == _folded(name)), None)


def _near(name: str, known: tuple[str, ...]) -> list[str]:
    """Names with every word that was given, else those that look like it: ten at most."""
    wanted = set(_folded(name).split())
    holding = sorted((one for one in known if wanted <= set(_folded(one).split())), key=lambda one: len(one.split()))
    return holding[:10] or list(nearest_names(name, known, 5))


def _tree(dimension: Dimension, rule: Graduation) -> Iterator[str]:
    yield from _branch(dimension, rule, "", set())


def _branch(dimension: Dimension, rule: Graduation, indent: str, seen: set[tuple[str, object]]) -> Iterator[str]:
    """A number with where it is from and its working below it; the working of one that was met before is not told again."""
    head = f"{indent}{dimension.name} = {rule.text(dimension)}"
    told = ", ".join(part for part in (dimension.rule, dimension.source) if part) or (
        "by geometry" if dimension.operation else ""
    )
    if not dimension.operation:
        yield f"{head}   {_origin(dimension, told)}".rstrip()
        return
    key = (dimension.name, dimension.mm)
    if key in seen:
        yield f"{head}   as above"
        return
    seen.add(key)
    yield head
    yield f"{indent}  = {dimension.expression(lambda length: _figures(length, rule))}" + (f"   ({told})" if told else "")
    for one in dimension.inputs:
        yield from _branch(one, rule, f"{indent}    ", seen)


def _origin(dimension: Dimension, told: str) -> str:
    if dimension.origin == "default":
        return f"the usual figure ({told})" if told else "the usual figure"
    where = f"written in {dimension.origin}" if dimension.origin else ""
    return f"{where} ({told})" if where and told else where or told


def _figures(length: Length, rule: Graduation) -> str:
    """A length inside an expression: its figures; what lies between two marks as callipers show it."""
    shown = rule.read(length)
    return shown.exactly if shown.left_over else shown.figures
