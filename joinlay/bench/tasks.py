"""What is ticked off at the machine: every part to saw, every part through every card, every step of putting together, in the
order of the work.

A task has a key made from what is done in it and from nothing else: the sizes a part is sawn to; the machine as it is set and the
part as it lies; the parts of a step as they are cut. So a tick stays with its work when the job is changed around it, and holds
no longer once the work itself is another. Sixty-four bits of a digest tell the tasks of one piece apart.
"""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING, Any, Final

from joinlay.assembly.steps import step_words, steps_of
from joinlay.cutlist.cutting_list import cutting_list, shape_key
from joinlay.records import dataclass
from joinlay.settings.plain import settings_tree
from joinlay.settings.wording import cut_words, is_turned

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.assembly.steps import Step
    from joinlay.cutlist.cutting_list import Row
    from joinlay.jobs.plan import Plan
    from joinlay.settings import Setting, Work

__all__ = ["CardTasks", "RowTasks", "StepTask", "Task", "WorkTasks", "Works", "works_of"]

#: What of a card doesn't say how the machine stands: where it comes in the order, why, and what goes through it.
_ABOUT: Final = frozenset(
    {"number", "set_up", "set_ups", "change", "works", "count", "joints", "reason", "cautions", "on_rule", "test_piece"}
)
#: What of a work names its parts.
_NAMES: Final = frozenset({"boards", "parts", "positions_in_words", "positions_from"})


@dataclass(frozen=True, slots=True)
class Task:
    """One box to tick: its ``key``, what is written ``beside`` the box, and ``words`` that tell of it where it stands alone."""

    key: str
    beside: str
    words: str


@dataclass(frozen=True, slots=True)
class RowTasks:
    """A ``row`` of the cutting list, with a box for each of its parts."""

    row: Row
    tasks: tuple[Task, ...]


@dataclass(frozen=True, slots=True)
class WorkTasks:
    """What goes through a card the same way, ``is_turned`` where each goes through again at its other end, with a box for each
    part.
    """

    work: Work
    is_turned: bool
    tasks: tuple[Task, ...]


@dataclass(frozen=True, slots=True)
class CardTasks:
    """A card, the works that go through it, with their boxes."""

    setting: Setting
    works: tuple[WorkTasks, ...]

    @property
    def tasks(self) -> tuple[Task, ...]:
        """Every box of the card, in order."""
        return tuple(task for work in self.works for task in work.tasks)


@dataclass(frozen=True, slots=True)
class StepTask:
    """A step of putting together, what it is in words, and a box for each thing it is done in (drawer 1, drawer 2)."""

    step: Step
    said: str
    tasks: tuple[Task, ...]


@dataclass(frozen=True, slots=True)
class Works:
    """The whole work of a plan: what is sawn, the cards, the steps, each in its order."""

    rows: tuple[RowTasks, ...]
    cards: tuple[CardTasks, ...]
    steps: tuple[StepTask, ...]

    @property
    def tasks(self) -> tuple[Task, ...]:
        """Every box there is, in the order of the work."""
        kinds = ((one.tasks for one in self.rows), (one.tasks for one in self.cards), (one.tasks for one in self.steps))
        return tuple(task for kind in kinds for tasks in kind for task in tasks)


def works_of(plan: Plan) -> Works:
    """Everything that is ticked off for ``plan``. Nothing where something is refused: then nothing is to be cut."""
    if plan.is_refused:
        return Works((), (), ())
    return Works(tuple(_rows(plan)), tuple(_cards(plan)), tuple(_steps(plan)))


def _key(*told: object) -> str:
    content = json.dumps(told, sort_keys=True, ensure_ascii=False, default=str)
    return hashlib.sha256(content.encode()).hexdigest()[:16]


def _rows(plan: Plan) -> Iterator[RowTasks]:
    for group in cutting_list(plan).groups:
        for row in group.rows:
            sawn = [str(size.mm) for size in (row.sawn.length, row.sawn.width, row.sawn.thickness)]
            tasks = (Task(_key("saw", group.name, sawn, name), name, f"saw {name}") for name in row.names)
            yield RowTasks(row, tuple(tasks))


def _cards(plan: Plan) -> Iterator[CardTasks]:
    found = plan.settings
    told = settings_tree(found, plan.rule, lambda length: str(length.mm))["settings"]
    for setting, tree in zip(found.settings, told, strict=True):
        machine = {name: value for name, value in tree.items() if name not in _ABOUT}
        works = tuple(_work(setting, work, machine, each) for work, each in zip(setting.works, tree["works"], strict=True))
        yield CardTasks(setting, works)


def _work(setting: Setting, work: Work, machine: dict[str, Any], tree: dict[str, Any]) -> WorkTasks:
    lying = {name: value for name, value in tree.items() if name not in _NAMES}
    cut = cut_words(setting)
    tasks = (Task(_key("cut", machine, lying, name), name, f"card {setting.number}, {cut}: {name}") for name in work.boards)
    return WorkTasks(work, is_turned(setting, work), tuple(tasks))


def _steps(plan: Plan) -> Iterator[StepTask]:
    cut = {board.role: repr(shape_key(board)) for board in plan.boards}
    for step in steps_of(plan.order):
        said = step_words(step)
        tasks = []
        for name, moves in zip(step.of, step.each, strict=True):
            parts = sorted({cut[role] for move in moves for role in (*move.moving, *move.onto) if role in cut})
            beside = name if len(step.of) > 1 else "done"
            tasks.append(Task(_key("step", name, said, parts), beside, f"step {step.number}, {name}: {said}"))
        yield StepTask(step, said, tuple(tasks))
