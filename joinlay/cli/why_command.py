"""``joinlay why``: the working of a number as a tree, down to what the maker wrote."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from joinlay.cli import words
from joinlay.cli.glue_answers import glue_answers
from joinlay.cli.rule_words import RULE_WORDS
from joinlay.cli.terminal import complain, finding_lines, say, table
from joinlay.documents.job_file import job_in
from joinlay.errors import BadInput, nearest_names
from joinlay.jobs.planning import plan
from joinlay.jobs.working import numbers_by_rule, numbers_of, origin_of, working_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from joinlay.jobs.working import WorkingLine
    from joinlay.lengths import Dimension

__all__ = ["explain"]


def explain(path: Path, name: str) -> None:
    """Print the working of the number called ``name`` in the job at ``path``; all the names where it is empty.

    Raises BadInput, with near names, where there is no such number.
    """
    worked_out = plan(job_in(path))
    if worked_out.is_refused:
        complain(finding_lines([one for one in worked_out.findings if one.harm.name == "REFUSE"], worked_out.rule) + "\n")
    if not name:
        told = [(one, worked_out.rule.text(size), _what(size)) for one, size in numbers_by_rule(worked_out).items()]
        # Of guides and strips that are glued alike one speaks for all.
        told += [(one, said[0].rpartition(" = ")[2], "") for one, said in glue_answers(worked_out, is_short=True).items()]
        say(table(told))
        return
    known, answers = numbers_of(worked_out), glue_answers(worked_out)
    wanted = _matching(name, (*known, *answers))
    if wanted is None:
        raise BadInput(words.no_number(name, _near(name, (*known, *answers)), str(path)))
    say("\n".join(answers[wanted] if wanted in answers else _tree(working_of(known[wanted], worked_out.rule))))


def _what(size: Dimension) -> str:
    """A few words on what a number is: what its rule is about, or where it was written."""
    first = re.match(r"[A-Z]{2}-\d+", size.rule)
    about = f"{size.rule}: {RULE_WORDS[first[0]]}" if first else ""
    if about:
        return f"{about}; as written" if size.origin not in ("", "default") else about
    return origin_of(size, size.source) if not size.operation else size.source or "by geometry"


def _folded(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())


def _matching(name: str, known: Iterable[str]) -> str | None:
    """The name that is meant: capitals, spaces and hyphens don't matter."""
    return next((one for one in known if _folded(one) == _folded(name)), None)


def _near(name: str, known: tuple[str, ...]) -> list[str]:
    """Names with every word that was given, else those that look like it: ten at most."""
    wanted = set(_folded(name).split())
    holding = sorted((one for one in known if wanted <= set(_folded(one).split())), key=lambda one: len(one.split()))
    return holding[:10] or list(nearest_names(name, known, 5))


def _tree(step: WorkingLine, indent: str = "") -> Iterator[str]:
    """A number with where it is from and its working below it; the working of one that was met before is not told again."""
    head = f"{indent}{step.size.name} = {step.figures}"
    if not step.expression:
        yield f"{head}   {'as above' if step.is_above else step.told}".rstrip()
        return
    yield head
    yield f"{indent}  = {step.expression}" + (f"   ({step.told})" if step.told else "")
    for one in step.below:
        yield from _tree(one, f"{indent}    ")
