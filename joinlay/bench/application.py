"""The page as a program that answers requests: its routes, and what each of them gives back."""

from __future__ import annotations

import secrets
from difflib import SequenceMatcher
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import parse_qs

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import ClientDisconnect
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route

from joinlay.bench.cards import card_routes
from joinlay.bench.drawings import DRAWINGS, views_of
from joinlay.bench.field_changes import field_changes, field_routes
from joinlay.bench.fields import groups_in
from joinlay.bench.machine import machine_routes
from joinlay.bench.margin import found_in
from joinlay.bench.paper_making import chapters, paper_changes, paper_routes
from joinlay.bench.papers import paper_card_routes
from joinlay.bench.sent_files import file_routes
from joinlay.boards.names import in_few_words
from joinlay.documents.job_files import STEPS
from joinlay.documents.mending import mended
from joinlay.errors import BadInput
from joinlay.lengths import Unit
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from starlette.requests import Request
    from starlette.types import ASGIApp

    from joinlay.bench.draft import Draft
    from joinlay.bench.guard import Guard
    from joinlay.bench.machine import Machine
    from joinlay.bench.paper_making import PaperMaking
    from joinlay.bench.showing import Seen, Showing
    from joinlay.jobs.plan import Plan

__all__ = ["Desk", "Form", "answered", "application"]

_HERE: Final = Path(__file__).parent


class Form:
    """What a change brings: its fields, each a text; the last one of a name counts."""

    def __init__(self, body: bytes) -> None:
        """Read ``body`` as a browser writes a form. Raises BadInput for more fields than a page has."""
        try:
            fields = parse_qs(body.decode("utf-8", "replace"), keep_blank_values=True, max_num_fields=100)
        except ValueError:
            raise BadInput("that is more than one form holds.") from None
        self._fields = {name: values[-1] for name, values in fields.items()}

    def text(self, name: str) -> str:
        """The field called ``name``; '' where it isn't there."""
        return self._fields.get(name, "")

    def number(self, name: str) -> int:
        """The whole number, 0 or more, in the field called ``name``. Raises BadInput where it is none."""
        given = self.text(name)
        if not (given.isascii() and given.isdecimal() and len(given) < 10):
            raise BadInput(f"{name} is to be a number.")
        return int(given)


@dataclass(frozen=True, slots=True)
class Desk:
    """What every page works with: the ``draft``, what is ``showing`` of it, the ``guard`` with its token, and the ``sheets`` of
    HTML.

    ``machine`` is what is done of the job, ``paper`` makes it; ``shared`` is the address for others on the local network, ''
    where there is none.
    """

    draft: Draft
    showing: Showing
    guard: Guard
    sheets: Environment
    machine: Machine
    paper: PaperMaking
    shared: str = ""

    @property
    def archive(self) -> str:
        """What all the files that are made are called in one."""
        return f"{self.draft.path.stem}.zip"

    def html(self, sheet: str, **said: object) -> str:
        """The HTML of ``sheet``, with what is ``said`` in it, all of it escaped."""
        return self.sheets.get_template(sheet).render(desk=self, draft=self.draft, **said)

    def page(self, view: str, mode: str = "") -> dict[str, Any]:
        """What the whole page tells, with the drawing called ``view`` on it; the job as ``fields`` where that is its ``mode``,
        else as text.
        """
        seen = self.showing.seen()
        views = views_of(seen.drawn)
        # What was looked at may be gone with what it was drawn of.
        view = view if view in dict(views) else views[0][0]
        lines = self.draft.text.count("\n") + 1
        faulty = {one.line: one for one in seen.troubles if one.line and one.file == self.draft.path.name}
        return {
            "view": view,
            "views": views,
            "parts": [board.name for board in seen.plan.boards] if seen.plan else [],
            "wholes": _wholes(seen.plan) if seen.plan else (),
            "drawing": self.showing.drawing(view),
            "seen": seen,
            "title": seen.plan.title if seen.plan else self.draft.path.stem,
            "lines": [(n, faulty.get(n)) for n in range(1, lines + 1)],
            "found": found_in(seen.plan) if seen.plan else (),
            "token": self.guard.token,
            **self._written(seen, mode),
            "differs": _differing(self.draft.text, self.draft.theirs or ""),
        }

    def _written(self, seen: Seen, mode: str) -> dict[str, Any]:
        """The job as fields, or why it can't be shown so; none where it is shown as text."""
        if mode != "fields":
            return {"mode": "text", "groups": (), "rows": (), "no_fields": "", "faulty": ()}
        try:
            unit = seen.plan.unit if seen.plan else Unit.INCH
            groups, why_not = groups_in(self.draft.text, seen.troubles, self.draft.path.name, unit), ""
        except BadInput as bad:
            groups, why_not = (), str(bad)
        faulty = [one for group in groups for each in group.fields for one in each.all if one.faults]
        return {
            "mode": "fields",
            "groups": groups,
            "rows": {group.row[0] for group in groups if group.row},
            "no_fields": why_not,
            "faulty": faulty,
        }


#: What answers a change: the desk, and the form it brought; what the page is told beside how it stands then.
Change = "Callable[[Desk, Form], Mapping[str, Any] | None]"


def application(desk: Desk) -> ASGIApp:
    """The page of ``desk``, its guard before it."""
    routes = [
        *file_routes(),
        *file_routes("/machine"),
        *machine_routes(desk, desk.machine, "/machine"),
        Route("/share", answered(desk, _share)),
        Route("/", answered(desk, _whole)),
        Route("/drawing/{view}", answered(desk, _drawing)),
        Route("/findings", answered(desk, _findings)),
        Route("/pulse", answered(desk, _pulse)),
        Route("/changes", answered(desk, _changes)),
        *card_routes(partial(answered, desk)),
        *paper_card_routes(partial(answered, desk)),
        *field_routes(partial(answered, desk)),
        *paper_routes(partial(answered, desk)),
        *paper_changes(partial(posted, desk)),
        *field_changes(partial(changed, desk)),
        Route("/text", changed(desk, _text), methods=["POST"]),
        Route("/keep", changed(desk, _keep), methods=["POST"]),
        Route("/undo", changed(desk, _undo), methods=["POST"]),
        Route("/redo", changed(desk, _redo), methods=["POST"]),
        Route("/settle", changed(desk, _settle), methods=["POST"]),
        Route("/mend", changed(desk, _mend), methods=["POST"]),
    ]
    return desk.guard.around(Starlette(routes=routes))


def sheets() -> Environment:
    """The sheets of HTML, in which everything that is put is escaped."""
    made = Environment(
        loader=FileSystemLoader(_HERE / "sheets"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["sentence"] = lambda said: f"{said[:1].upper()}{said[1:]}"
    return made


def _wholes(plan: Plan) -> list[tuple[str, list[str]]]:
    """The names of the parts by what they are of: case, frame, runners ..., and each drawer."""
    wholes = (*plan.others, *(drawer.assembly for drawer in plan.drawers))
    return [(whole.name, [board.name for board in whole.boards]) for whole in wholes]


def _differing(mine: str, theirs: str) -> tuple[str, str]:
    """The lines in which two texts differ, of each, with their numbers."""
    found: tuple[list[str], list[str]] = [], []
    ours, others = mine.splitlines(), theirs.splitlines()
    for what, i, j, k, n in SequenceMatcher(None, ours, others, autojunk=False).get_opcodes() if theirs else ():
        if what != "equal":
            found[0].extend(f"{at + 1}  {ours[at]}" for at in range(i, j))
            found[1].extend(f"{at + 1}  {others[at]}" for at in range(k, n))
    return "\n".join(found[0]), "\n".join(found[1])


#: What a page tells beside how the job stands, where there is nothing to tell.
_NOTHING_SAID: Final[Mapping[str, Any]] = {"said": "", "refused": "", "is_typed": False, "is_field": False, "headers": ()}


# -- answering ---------------------------------------------------------------------------------------


def answered(desk: Desk, page: Callable[[Desk, Request], Response]) -> Callable[[Request], Any]:
    """An endpoint that shows a ``page``: the file is looked at first, and what can't be used is said with 400."""

    def work(request: Request) -> Response:
        desk.draft.follow()
        try:
            return page(desk, request)
        except BadInput as bad:
            return PlainTextResponse(str(bad), 400)

    async def endpoint(request: Request) -> Response:
        return await run_in_threadpool(work, request)

    return endpoint


def posted(desk: Desk, answer: Callable[[Desk, Form], Response]) -> Callable[[Request], Any]:
    """An endpoint that a form is sent to, and whose ``answer`` is what is shown."""

    def work(body: bytes) -> Response:
        try:
            form = Form(body)
        except BadInput as bad:
            return PlainTextResponse(str(bad), 400)
        desk.draft.follow()
        with desk.showing.lock:
            return answer(desk, form)

    async def endpoint(request: Request) -> Response:
        try:
            body = await request.body()
        except ClientDisconnect:
            return PlainTextResponse("That is more than a job may hold, or broke off.", 413)
        return await run_in_threadpool(work, body)

    return endpoint


def changed(desk: Desk, change: Callable[[Desk, Form], Mapping[str, Any] | None]) -> Callable[[Request], Any]:
    """An endpoint that makes a ``change`` and gives the page as it is then; what can't be done is said on it."""

    def answer(desk: Desk, form: Form) -> Response:
        said: Mapping[str, Any] = {}
        try:
            said = change(desk, form) or {}
        except BadInput as bad:
            said = {"refused": str(bad)}
        page = {**_NOTHING_SAID, **desk.page(form.text("view"), form.text("mode")), **said}
        return HTMLResponse(desk.html("after.html", **page), headers=dict(page["headers"]))

    return posted(desk, answer)


# -- pages -------------------------------------------------------------------------------------------


def _whole(desk: Desk, request: Request) -> Response:
    return HTMLResponse(
        desk.html(
            "page.html",
            said="",
            refused="",
            window=secrets.token_hex(8),
            chapters=chapters(),
            made=desk.paper.stands,
            steps=len(STEPS),
            archive=desk.archive,
            **desk.page(request.query_params.get("view", "")),
        )
    )


def _share(desk: Desk, request: Request) -> Response:
    """How a phone gets to the machine's page."""
    del request
    from joinlay.bench.sharing import qr_svg

    return HTMLResponse(desk.html("share.html", code=Markup(qr_svg(desk.shared)) if desk.shared else ""))


def _drawing(desk: Desk, request: Request) -> Response:
    view = request.path_params["view"]
    if view not in DRAWINGS:
        return PlainTextResponse("There is no such drawing.", 404)
    return HTMLResponse(desk.html("sheet.html", **desk.page(view)))


def _findings(desk: Desk, request: Request) -> Response:
    """The findings with their mends, each tried."""
    del request
    plan = desk.showing.mended()
    if plan is None:
        return Response(status_code=204)
    return HTMLResponse(
        desk.html(
            "margin.html",
            found=found_in(plan, desk.draft.text),
            parts=[board.name for board in plan.boards],
            is_tried=True,
            revision=desk.draft.revision,
        )
    )


def _changes(desk: Desk, request: Request) -> Response:
    """What has changed since it was kept, in the words of ``joinlay compare``."""
    del request
    try:
        found, why_not = desk.showing.changes(), ""
    except BadInput as bad:
        found, why_not = None, str(bad)
    fates = [(fate.value, in_few_words(names)) for fate, names in found.fates] if found else []
    return HTMLResponse(desk.html("changes.html", changes=found, fates=fates, why_not=why_not))


def _pulse(desk: Desk, request: Request) -> Response:
    """Nothing where the page has seen the latest; the page as it is now where the file or another window has changed it."""
    asked, draft = request.query_params, desk.draft
    is_own = draft.is_from(asked.get("window", ""))
    if asked.get("news") == str(draft.news) and (is_own or asked.get("revision") == str(draft.revision)):
        return Response(status_code=204)
    page = desk.page(asked.get("view", ""), asked.get("mode", ""))
    # What is being typed in that window is not written over.
    own = _as_typed(str(page["mode"])) if is_own else {}
    return HTMLResponse(desk.html("after.html", **{**_NOTHING_SAID, **page, **own}))


# -- changes -----------------------------------------------------------------------------------------


def _text(desk: Desk, form: Form) -> Mapping[str, Any]:
    is_taken = desk.draft.write(form.text("text"), form.text("window"), form.number("revision"))
    if not is_taken:
        return {
            "refused": "Another window has changed the job since; this one shows it now as it is. What you "
            "typed last here is not in it."
        }
    return _as_typed("text")


def _as_typed(mode: str) -> dict[str, bool]:
    """What stands written in the page stays as it is, the caret in it; only what is said beside it follows."""
    return {"is_typed": mode != "fields", "is_field": mode == "fields"}


def _keep(desk: Desk, form: Form) -> Mapping[str, Any]:
    desk.draft.keep()
    return {"said": f"Kept in {desk.draft.path.name}.", **_as_typed(form.text("mode"))}


def _undo(desk: Desk, form: Form) -> None:
    del form
    desk.draft.undo()


def _redo(desk: Desk, form: Form) -> None:
    del form
    desk.draft.redo()


def _settle(desk: Desk, form: Form) -> None:
    desk.draft.settle(is_mine=form.text("which") == "mine")


def _mend(desk: Desk, form: Form) -> Mapping[str, Any]:
    finding, remedy, revision = form.number("finding"), form.number("remedy"), form.number("revision")
    plan = desk.showing.mended()
    if revision != desk.draft.revision or plan is None:
        raise BadInput("the job has changed since this was offered; look at it again.")
    try:
        found = plan.findings[finding]
        chosen = found.remedies[remedy]
    except IndexError:
        raise BadInput("that is not offered for the job as it is now.") from None
    desk.draft.put(mended(desk.draft.text, chosen.changes))
    return {"said": f"Changed: {found.in_words(chosen, plan.rule.text)}. Undo takes it back."}
