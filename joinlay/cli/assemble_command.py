"""``joinlay assemble``: how the piece goes together, step by step, where the glue goes, and how square it must stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.assembly.squaring import squares_of
from joinlay.assembly.stage_words import square_words, squares_told, stage_head
from joinlay.assembly.steps import area_words, come_from, step_glue, step_loose, step_words, steps_of
from joinlay.cli.terminal import complain, finding_lines, say, table
from joinlay.cli.words import counted
from joinlay.documents.job_file import job_in
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.jobs.planning import plan

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path
    from typing import Any

    from joinlay.assembly.order import Move
    from joinlay.assembly.squaring import Square
    from joinlay.assembly.steps import Step
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation

__all__ = ["say_order"]


def say_order(path: Path, step: int | None, *, as_json: bool) -> int:
    """Say how the job at ``path`` goes together, or all of one ``step`` of it; 1 where something was refused, else 0.

    Raises BadInput for what cannot be used, and for a step there is none of.
    """
    worked_out = plan(job_in(path))
    steps = steps_of(worked_out.order)
    if worked_out.is_refused:
        complain(finding_lines([one for one in worked_out.findings if one.harm is Harm.REFUSE], worked_out.rule))
    if step is not None and not 1 <= step <= len(steps):
        raise BadInput(no_step(step, len(steps)))
    asked = steps if step is None else (steps[step - 1],)
    squares = squares_of(worked_out.drawers, worked_out.others)
    if as_json:
        _say_json(worked_out, asked, squares)
    elif step is not None:
        say("\n".join(_one(asked[0], worked_out, squares)))
    else:
        say("\n\n".join(_page(path, worked_out, steps, squares)))
    return int(worked_out.is_refused)


def _page(path: Path, worked_out: Plan, steps: Sequence[Step], squares: Sequence[Square]) -> Iterator[str]:
    yield order_verdict(worked_out.title, len(steps))
    wide = len(str(len(steps)))
    lines: list[str] = []
    for step in steps:
        if not lines:
            lines.append(stage_head(step.of))
        lines += _step(step, worked_out, wide)
        if step.ends:
            lines += (f"{' ' * (wide + 4)}{said}" for said in _squares(step, squares, worked_out.rule))
            yield "\n".join(lines)
            lines = []
    if steps:
        yield next_step(path)


def _step(step: Step, worked_out: Plan, wide: int) -> Iterator[str]:
    yield f"  {step.number:>{wide}}  {step_words(step)}"
    glue, loose = step_glue(step, worked_out.unit), step_loose(step)
    if glue:
        yield f"{' ' * (wide + 4)}glue: {glue}{f'; {loose}' if loose else ''}"


def _squares(step: Step, squares: Sequence[Square], rule: Graduation) -> Iterator[str]:
    """What is measured once a stage is glued; rectangles that read alike are told once."""
    yield from (square_words(*told) for told in squares_told(step.of, squares, rule))


def _one(step: Step, worked_out: Plan, squares: Sequence[Square]) -> Iterator[str]:
    """A step in full: every move, what closes with it and its glue."""
    yield f"Step {step.number}, {stage_head(step.of)}"
    yield from _step(step, worked_out, len(str(step.number)))
    rows = [row for move in step.most for row in _rows(move, worked_out)]
    if rows:
        yield ""
        yield table([STEP_HEAD, *rows])
    if step.ends and (said := list(_squares(step, squares, worked_out.rule))):
        yield ""
        yield from (f"  {line}" for line in said)


def _rows(move: Move, worked_out: Plan) -> Iterator[tuple[str, ...]]:
    for met in move.closing:
        glue = area_words(met.glue, worked_out.unit) if met.glue else "dry"
        yield move.moving[0].name, come_from(move.way), f"{met.one.name}, {met.other.name}", glue, str(met.fasteners or "")


def _say_json(worked_out: Plan, steps: Sequence[Step], squares: Sequence[Square]) -> None:
    from joinlay.documents.json_text import InWords, json_text

    said = InWords(worked_out.rule)
    tree = {
        "job": worked_out.file,
        "title": worked_out.title,
        "steps": [_tree(step) for step in steps],
        "squares": [
            {
                "of": one.of,
                "corners": one.corners,
                "diagonal": said.dimension(one.diagonal),
                "may_differ": said.dimension(one.differ),
            }
            for one in squares
        ],
        "findings": [said.finding(one) for one in worked_out.order.findings],
    }
    say(json_text(tree).rstrip())


def _tree(step: Step) -> dict[str, Any]:
    """A step as JSON; areas in square mm, the moves those of the thing that takes the most glue."""
    return {
        "number": step.number,
        "of": list(step.of),
        "words": step_words(step),
        "glue_mm2": round(float(step.glue), 1),
        "moves": [
            {
                "moving": [role.name for role in move.moving],
                "onto": [role.name for role in move.onto],
                "way": move.way.value,
                "closing": [
                    {
                        "one": met.one.name,
                        "other": met.other.name,
                        "held": met.tie.value,
                        "glue_mm2": round(float(met.glue), 1),
                        "fasteners": met.fasteners,
                    }
                    for met in move.closing
                ],
            }
            for move in step.most
        ],
    }


# -- what it says -----------------------------------------------------------------------------------

STEP_HEAD = ("part", "which way", "what meets", "glue", "fasteners")


def order_verdict(title: str, steps: int) -> str:
    """The first lines of ``assemble``: how many steps, and what comes before them (PT-6)."""
    if not steps:
        return f"{title}: nothing to put together."
    first = "Put all of it together dry first, with the clamps you will use, and measure its diagonals."
    return f"{title}: {counted(steps, 'step')} to put it together.\n{first}"


def no_step(step: int, most: int) -> str:
    """A step that isn't there."""
    return f"there is no step {step}; they are numbered 1 to {most}." if most else f"there is no step {step}: there are none."


def next_step(path: object) -> str:
    """After ``assemble``: how to see a whole step, and how to have it proved."""
    return f"Next: joinlay assemble {path} --step 1 says all of a step; joinlay check {path} --assemble tries every move in the model."
