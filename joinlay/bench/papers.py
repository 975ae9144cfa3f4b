"""What stands on paper for a part, each to be looked at in a card: its templates, the settings it is cut by, its line in the
cutting list.

They are the packet's own: a template is the marks that are printed, a setting the words of its card. To measure from they are to
be printed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route

from joinlay.bench.inked import inked
from joinlay.bench.machine import CardWords
from joinlay.cutlist.cutting_list import cutting_list

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from starlette.requests import Request

    from joinlay.bench.application import Desk
    from joinlay.boards import Board
    from joinlay.cutlist.cutting_list import Size
    from joinlay.jobs.plan import Plan
    from joinlay.templates import Template

__all__ = ["paper_card_routes", "templates_of"]


def paper_card_routes(answered: Callable[[Callable[[Desk, Request], Response]], Any]) -> list[Route]:
    """Where they are to be had: a part's ``/templates`` by its name, a ``/template`` by its title, a ``/setting`` by its
    number, the ``/list``.
    """
    pages = {"/templates": _templates, "/template": _template, "/setting": _setting, "/list": _list}
    return [Route(address, answered(page)) for address, page in pages.items()]


def templates_of(board: Board, plan: Plan, every: Sequence[Template]) -> tuple[Template, ...]:
    """Those of ``every`` template of ``plan`` that ``board``, or the whole drawer it is of, is marked from."""
    names = {board.name, *(drawer.name for drawer in plan.drawers if drawer.role == board.role.whole)}
    return tuple(template for template in every if names.intersection(template.marks))


def _gone(what: str) -> Response:
    return PlainTextResponse(f"There is no such {what} in the job as it is now.", 404)


def _templates(desk: Desk, request: Request) -> Response:
    plan, name = desk.showing.seen().plan, request.query_params.get("name", "")
    board = next((one for one in plan.boards if one.name == name), None) if plan else None
    if plan is None or board is None:
        return _gone("part")
    found = templates_of(board, plan, desk.showing.templates())
    # Sheets are made for a part by its own name.
    can_make = not plan.is_refused and any(name in one.marks for one in found)
    return HTMLResponse(desk.html("templates.html", templates=[one.title for one in found], part=name, can_make=can_make))


def _template(desk: Desk, request: Request) -> Response:
    plan, title = desk.showing.seen().drawn, request.query_params.get("title", "")
    found = next((one for one in desk.showing.templates() if one.title == title), None)
    if found is None:
        return _gone("template")
    drawn = inked(found.strokes, found.title, "A template, seen small: print it to measure from it.", "template")
    parts = [board.name for board in plan.boards if board.name in found.marks] if plan else []
    return HTMLResponse(desk.html("template.html", title=found.title, drawn=drawn, parts=parts))


def _setting(desk: Desk, request: Request) -> Response:
    plan, number = desk.showing.seen().plan, request.query_params.get("number", "")
    found = next((one for one in plan.settings.settings if str(one.number) == number), None) if plan else None
    if plan is None or found is None:
        return _gone("setting")
    return HTMLResponse(desk.html("setting.html", card=CardWords(found, plan.rule.text), parts=found.board_names))


def _list(desk: Desk, request: Request) -> Response:
    """The cutting list, the line of the part that is asked for marked."""
    plan, name = desk.showing.seen().plan, request.query_params.get("name", "")
    if plan is None:
        return _gone("list")
    groups = [(group.name, [(row, *_figures(row.finished, plan)) for row in group.rows]) for group in cutting_list(plan).groups]
    return HTMLResponse(desk.html("list.html", groups=groups, name=name))


def _figures(size: Size, plan: Plan) -> tuple[str, str, str]:
    return plan.rule.text(size.length), plan.rule.text(size.width), plan.rule.text(size.thickness)
