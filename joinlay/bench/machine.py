"""The page at the machine: the order of work on a phone, with figures to be read from two metres and boxes to tick.

All of it is sent at once, so that it goes on when the network is gone; what is ticked meanwhile waits in the browser and is sent
when it is back. What is shown is what the job's *file* says: a number half typed at the bench is nothing to cut by. From here
nothing but ticks can be written, and they hold or don't by the work itself (``tasks``).

The same pages serve the bench's own computer, under ``/machine/``, and, where it is shared, others on the local network under an
address that can't be guessed (``sharing``).
"""

from __future__ import annotations

import json
from threading import RLock
from typing import TYPE_CHECKING, Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import ClientDisconnect
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

from joinlay.bench.tasks import Works, works_of
from joinlay.bench.ticks import Ticks, ticks_beside
from joinlay.boards.names import in_few_words
from joinlay.documents.job_file import texts_with
from joinlay.documents.mending import planned
from joinlay.documents.plan_mark import plan_mark
from joinlay.errors import BadInput, JoinlayError, Troubles
from joinlay.lengths import read_length
from joinlay.records import dataclass
from joinlay.settings import Measured
from joinlay.settings.feeding import feed_sentence
from joinlay.settings.wording import (
    beside_words,
    change_words,
    cut_words,
    lie_words,
    machine_words,
    offset_words,
    position_words,
    put_right_words,
    speed_words,
    stop_words,
    value_words,
)
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from starlette.requests import Request

    from joinlay.bench.application import Desk
    from joinlay.jobs.plan import Plan
    from joinlay.settings import Setting, Work

__all__ = ["CardWords", "Machine", "machine_routes"]

#: A tick is a few words; so many come at once after a day without a network.
_LARGEST: Final = 400_000
_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


@dataclass(frozen=True, slots=True)
class Asked:
    """What the file says: the ``plan`` with its ``mark`` and ``works``, or why there is none: ``trouble``, else ''."""

    plan: Plan | None
    mark: str
    works: Works
    trouble: str


class Machine:
    """What is done of a job: its ``ticks``, and the ``work`` that its file asks for. Safe to use from several threads at once."""

    def __init__(self, path: Path, may_read: Callable[[str], bool]) -> None:
        """Of the job at ``path``; of the files it names those that ``may_read``. Raises BadInput where the ticks beside it
        can't be read.
        """
        self._path, self._may_read, self._lock = path, may_read, RLock()
        self.ticks = Ticks(ticks_beside(path))
        self._texts: object = None
        self._work = Asked(None, "", Works((), (), ()), "")

    def work(self, kept: str) -> Asked:
        """The work that the text ``kept`` in the file asks for; worked out again only where that is another."""
        with self._lock:
            try:
                texts = texts_with(self._path, kept, self._may_read)
                if texts != self._texts:
                    plan = planned(texts)
                    said = (
                        "The plan has something refused in it: nothing is to be cut before that is mended."
                        if plan.is_refused
                        else ""
                    )
                    self._work, self._texts = Asked(plan, plan_mark(plan), works_of(plan), said), texts
            except Troubles as bad:
                self._work, self._texts = self._none(bad.troubles[0].message), None
            except JoinlayError as bad:
                self._work, self._texts = self._none(str(bad)), None
            return self._work

    @staticmethod
    def _none(why: str) -> Asked:
        return Asked(None, "", Works((), (), ()), f"The file as it is kept is no job to cut by: {why}")

    def state(self, kept: str) -> dict[str, Any]:
        """How things stand, for a page that asks: the plan's mark, the keys that are done, and what was done by another plan."""
        work = self.work(kept)
        tasks = work.works.tasks
        return {
            "mark": work.mark,
            "trouble": work.trouble,
            "done": sorted(self.ticks.held(tasks)),
            "lost": self.ticks.lost(tasks) if work.plan is not None else {},
        }


def machine_routes(desk: Desk, machine: Machine, base: str) -> list[Route]:
    """The pages at the machine, below ``base`` (``/machine``, or '' where they stand alone)."""
    return [
        Route(f"{base}/", _reading(desk, lambda request: _page(desk, machine, request))),
        Route(f"{base}/ticks", _reading(desk, lambda _: JSONResponse(machine.state(desk.draft.kept)))),
        Route(f"{base}/ticks", _ticking(desk, machine), methods=["POST"]),
        Route(f"{base}/right", _reading(desk, lambda request: _put_right(desk, machine, request))),
    ]


def _reading(desk: Desk, answer: Callable[[Request], Response]) -> Callable[[Request], Any]:
    def work(request: Request) -> Response:
        desk.draft.follow()
        try:
            return answer(request)
        except BadInput as bad:
            return PlainTextResponse(str(bad), 400)

    async def endpoint(request: Request) -> Response:
        return await run_in_threadpool(work, request)

    return endpoint


def _page(desk: Desk, machine: Machine, request: Request) -> Response:
    del request
    work = machine.work(desk.draft.kept)
    state = machine.state(desk.draft.kept)
    rule = work.plan.rule if work.plan is not None else None
    said = {
        "work": work,
        "title": work.plan.title if work.plan is not None else desk.draft.path.stem,
        "done": frozenset(state["done"]),
        "lost": state["lost"],
        "cards": [CardWords(each.setting, rule.text) for each in work.works.cards] if rule is not None else [],
        "text": rule.text if rule is not None else str,
        "token": desk.guard.token,
        "few": in_few_words,
    }
    return HTMLResponse(desk.html("machine.html", **said))


class CardWords:
    """A card in words: what is large on it, and what goes with that."""

    def __init__(self, setting: Setting, show: Callable[[Any], str]) -> None:
        self.setting, self._show = setting, show
        self.head, self.change, self.machine = cut_words(setting), change_words(setting), machine_words(setting, show)
        self.about = [said for said in (feed_sentence(setting), offset_words(setting, show), speed_words(setting)) if said]
        self.figures = [
            (
                value_words(setting, each.value),
                f"{each.on_rule.figures}{each.on_rule.hair}",
                f"{each.on_rule.unit} ({each.on_rule.exactly})" if each.on_rule.hair else each.on_rule.unit,
                beside_words(setting, each, show),
            )
            for each in setting.readings
        ]
        self.cautions = [caution.value for caution in setting.cautions]
        self.measures = [(each.measured.name, each.measured.value, show(each.value)) for each in setting.test_piece.measures]

    def lies(self, work: Work) -> str:
        """How the parts of a work lie."""
        return lie_words(self.setting, work)

    def stops(self, work: Work) -> str:
        """Where the cut of a work begins and ends; '' where it runs through."""
        return "" if work.stops is None else stop_words(work.stops, self._show, at_table=self.setting.machine in _TABLES)

    def places(self, work: Work) -> str:
        """Where mortises or holes of a work stand; '' where there are none."""
        return position_words(self.setting, work, self._show) if work.positions else ""


def _put_right(desk: Desk, machine: Machine, request: Request) -> Response:
    """What to move, for a test piece that was measured."""
    work, asked = machine.work(desk.draft.kept), request.query_params
    card, measured, found = asked.get("card", ""), asked.get("measured", ""), asked.get("found", "")
    if work.plan is None or asked.get("mark") != work.mark:
        raise BadInput("the job has changed since; load this page again.")
    settings = work.plan.settings.settings
    if (
        not (card.isascii() and card.isdecimal() and len(card) < 5 and 1 <= int(card) <= len(settings))
        or measured not in Measured.__members__
    ):
        raise BadInput("that is on no card of this job.")
    length = read_length(found[:60], work.plan.rule.unit)
    return PlainTextResponse(put_right_words(settings[int(card) - 1], Measured[measured], length, work.plan.rule))


def _ticking(desk: Desk, machine: Machine) -> Callable[[Request], Any]:
    """The one thing that is written from here."""

    def work(body: bytes) -> Response:
        changes = _changes(body)
        desk.draft.follow()
        if changes is None:
            return PlainTextResponse("That is no list of ticks.", 400)
        asked = machine.work(desk.draft.kept)
        try:
            strange = machine.ticks.turn(changes, asked.works.tasks, asked.mark)
        except BadInput as bad:
            return PlainTextResponse(str(bad), 507)
        return JSONResponse({**machine.state(desk.draft.kept), "strange": strange})

    async def endpoint(request: Request) -> Response:
        try:
            body = await request.body()
        except ClientDisconnect:
            return PlainTextResponse("That is more than ticks can be, or broke off.", 413)
        return await run_in_threadpool(work, body)

    return endpoint


def _changes(body: bytes) -> Mapping[str, bool] | None:
    """The ticks that ``body`` brings, True or False by key; None for anything else."""
    try:
        tree = json.loads(body) if len(body) <= _LARGEST else None
    except (ValueError, RecursionError):
        return None
    if not isinstance(tree, dict) or not all(isinstance(is_done, bool) and len(key) <= 40 for key, is_done in tree.items()):
        return None
    return tree
