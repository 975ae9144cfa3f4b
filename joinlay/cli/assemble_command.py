"""``joinlay assemble``: how the piece goes together, step by step, what is glued and clamped at once, how square it must
stand, and when.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.assembly.before_it_shuts import before_words
from joinlay.assembly.edge_joints import glued_panels
from joinlay.assembly.glue_words import (
    clamps_owned_words,
    clamps_words,
    cure_words,
    glue_up_name,
    glue_up_words,
    panel_words,
    slot_rows,
    timetable_words,
)
from joinlay.assembly.squaring import squares_of, windings_of
from joinlay.assembly.stage_words import square_words, squares_told, stage_head, winding_words, windings_told
from joinlay.assembly.steps import area_words, come_from, step_glue, step_loose, step_words, steps_of
from joinlay.boards.names import in_few_words
from joinlay.checks.fitting import finish_words, fitting_order, fitting_words, fittings
from joinlay.checks.setting_down import anchor_words, beware_words, level_words, lifting_words
from joinlay.checks.weights import stocks_by_name
from joinlay.cli.terminal import complain, finding_lines, say, say_as_is, table
from joinlay.cli.words import counted
from joinlay.cutlist.chosen_boards import joints_in
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
    if as_json:
        _say_json(worked_out, asked)
    elif step is not None:
        say("\n".join(_one(asked[0], worked_out)))
    else:
        say("\n\n".join(_page(path, worked_out, steps)))
    return int(worked_out.is_refused)


def _page(path: Path, worked_out: Plan, steps: Sequence[Step]) -> Iterator[str]:
    yield order_verdict(worked_out.title, len(steps))
    if panels := glued_panels(worked_out.boards, worked_out.stocks.values(), worked_out.shop.practice, joints_in(worked_out)):
        yield "\n".join([EDGES_FIRST, *(f"  {panel_words(panel, worked_out.rule)}" for panel in panels)])
    wide = len(str(len(steps)))
    lines: list[str] = []
    for step in steps:
        if not lines:
            lines.append(stage_head(step.of))
        lines += _step(step, worked_out, wide)
        lines += (f"{' ' * (wide + 4)}{said}" for said in _glued(step, worked_out))
        if step.ends:
            lines += (f"{' ' * (wide + 4)}{said}" for said in _measured(step, worked_out))
            yield "\n".join(lines)
            lines = []
    if worked_out.glue_ups:
        yield _times(worked_out)
    if worked_out.drawers:
        yield _afterwards(worked_out)
    if steps:
        yield next_step(path)


def _step(step: Step, worked_out: Plan, wide: int) -> Iterator[str]:
    yield f"  {step.number:>{wide}}  {step_words(step)}"
    glue, loose = step_glue(step, worked_out.unit), step_loose(step)
    if glue:
        yield f"{' ' * (wide + 4)}glue: {glue}{f'; {loose}' if loose else ''}"


def _glued(step: Step, worked_out: Plan) -> Iterator[str]:
    """What is said of the glue-up that ``step`` is the last of; nothing after any other step."""
    for one in worked_out.glue_ups:
        if one.steps[-1].number == step.number:
            glue = worked_out.shop.glue
            yield f"glue-up {one.number}: {glue_up_name(one)}: {glue_up_words(one, glue)}; {cure_words(one, glue)}"
            yield from clamps_words(one, worked_out.rule)
            if before := before_words(one, worked_out.boards):
                yield f"before: {' '.join(before)}"


def _times(worked_out: Plan) -> str:
    """The timetable: what is glued when, and with which clamps it was reckoned."""
    table_of, rule = worked_out.timetable, worked_out.rule
    clamps = f"\nClamps: {clamps_owned_words(table_of.clamps, rule)}." if table_of.clamps else ""
    head = timetable_words(table_of, is_said=worked_out.shop.clamps is not None)
    return f"In time: {head}.{clamps}\n{table(slot_rows(table_of))}"


def _afterwards(worked_out: Plan) -> str:
    """Fitting, finish, setting down, and what to beware of."""
    rule, practice, conditions = worked_out.rule, worked_out.shop.practice, worked_out.conditions
    drawers, others = worked_out.drawers, worked_out.others
    lines = ["Afterwards"]
    for head, said in fitting_order(others, has_pulls=bool(worked_out.knobs)):
        lines.append(f"  {head}: {said}")
        if head == "Drawers":
            told: dict[tuple[str, ...], list[str]] = {}
            for fitting in fittings(drawers, practice, conditions):
                told.setdefault(fitting_words(fitting, rule), []).append(fitting.drawer)
            lines += (f"    {in_few_words(names)}: {' '.join(words)}" for words, names in told.items())
    if drawers:
        lines += _under("Finish", finish_words(conditions, practice, rule))
    stocks = stocks_by_name(worked_out.stocks.values())
    down = (*level_words(drawers, others, rule), *anchor_words(conditions, others), *lifting_words(drawers, others, stocks, rule))
    lines += _under("Setting down", down)
    lines += _under("Beware", [f"{work}: {said}" for work, said in beware_words(conditions)])
    return "\n".join(lines)


def _under(head: str, said: Sequence[str]) -> Iterator[str]:
    """The first sentence behind its head, the others under it; nothing where there are none."""
    for n, one in enumerate(said):
        yield f"    {one}" if n else f"  {head}: {one}"


def _measured(step: Step, worked_out: Plan) -> Iterator[str]:
    """Diagonals and winding of what ``step`` makes whole."""
    yield from _squares(step, squares_of(worked_out.drawers, worked_out.others), worked_out.rule)
    windings = windings_of(worked_out.drawers, worked_out.others)
    yield from (winding_words(*told) for told in windings_told(step.of, windings, worked_out.rule))


def _squares(step: Step, squares: Sequence[Square], rule: Graduation) -> Iterator[str]:
    """What is measured once a stage is glued; rectangles that read alike are told once."""
    yield from (square_words(*told) for told in squares_told(step.of, squares, rule))


def _one(step: Step, worked_out: Plan) -> Iterator[str]:
    """A step in full: every move, what closes with it and its glue, and the glue-up that it is in."""
    yield f"Step {step.number}, {stage_head(step.of)}"
    yield from _step(step, worked_out, len(str(step.number)))
    rows = [row for move in step.most for row in _rows(move, worked_out)]
    if rows:
        yield ""
        yield table([STEP_HEAD, *rows])
    for one in worked_out.glue_ups:
        if any(other.number == step.number for other in one.steps):
            yield ""
            yield from (f"  {said}" for said in _glued(one.steps[-1], worked_out))
            yield f"  parts: {in_few_words(role.short for role in one.most.parts)}"
    if step.ends and (said := list(_measured(step, worked_out))):
        yield ""
        yield from (f"  {line}" for line in said)


def _rows(move: Move, worked_out: Plan) -> Iterator[tuple[str, ...]]:
    for met in move.closing:
        glue = area_words(met.glue, worked_out.unit) if met.glue else "dry"
        yield move.moving[0].name, come_from(move.way), f"{met.one.name}, {met.other.name}", glue, str(met.fasteners or "")


def _say_json(worked_out: Plan, steps: Sequence[Step]) -> None:
    from joinlay.documents.json_text import InWords, json_text
    from joinlay.documents.plan_gluing import putting_together

    said = InWords(worked_out.rule)
    told = putting_together(worked_out)
    squares, glue_ups = told.pop("squares"), told.pop("glue_ups")
    numbers = {step.number for step in steps}
    tree = {
        "job": worked_out.file,
        "title": worked_out.title,
        "steps": [_tree(step) for step in steps],
        "squares": squares,
        "glue_ups": [one for one in glue_ups if numbers & set(one["steps"])],
        **told,
        "findings": [
            said.finding(one)
            for one in worked_out.findings
            if one in worked_out.order.findings or one.kind in ("glue time", "clamps")
        ],
    }
    say_as_is(json_text(tree).rstrip())


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

EDGES_FIRST: Final = "Before they are cut to size, unless you have boards so wide"
STEP_HEAD: Final = ("part", "which way", "what meets", "glue", "fasteners")


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
    return (
        f"Next: joinlay assemble {path} --step 1 says all of a step; joinlay check {path} --assemble tries "
        f"every move in the model."
    )
