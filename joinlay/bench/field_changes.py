"""What changes fields of the job: one set, one nudged by a division of the rule, rows and items of lists; and where the pane
is to be had.
"""

from __future__ import annotations

import json
import re
import tomllib
from typing import TYPE_CHECKING, Any, Final

from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from joinlay.bench.fields import LENGTH, form_of, properties_of, told_at, told_of_a_job
from joinlay.documents.editing import with_row_added, with_row_moved, with_row_removed, with_values
from joinlay.documents.list_editing import with_item_added, with_item_moved, with_item_removed, with_list
from joinlay.errors import BadInput
from joinlay.jobs.source import Decimals, key_lines
from joinlay.lengths import Length, Unit, read_length

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from starlette.requests import Request

    from joinlay.bench.application import Desk, Form
    from joinlay.jobs.source import KeyPath
    from joinlay.lengths import Graduation

__all__ = ["field_changes", "field_routes", "nudged"]


def field_routes(answered: Callable[[Callable[[Desk, Request], Response]], Any]) -> list[Route]:
    """Where the pane of fields, and that of the text, are to be had."""
    return [Route("/pane/{mode}", answered(_pane))]


def field_changes(changed: Callable[[Callable[[Desk, Form], Mapping[str, Any] | None]], Any]) -> list[Route]:
    """What changes fields: one set, one nudged by a division of the rule, rows, and items of lists."""
    made = {"/field": _set, "/nudge": _nudge, "/row": _row, "/item": _item}
    return [Route(address, changed(change), methods=["POST"]) for address, change in made.items()]


def _pane(desk: Desk, request: Request) -> Response:
    mode = "fields" if request.path_params["mode"] == "fields" else "text"
    return HTMLResponse(desk.html("pane.html", **desk.page("", mode)))


def _way(form: Form) -> KeyPath:
    """The way of the field that a change is for. BadInput for one that a job doesn't have."""
    try:
        way = json.loads(form.text("way")[:1000])
    except (ValueError, RecursionError):
        raise BadInput("a job has no such key.") from None
    if not isinstance(way, list) or not way or not all(isinstance(one, str) or (type(one) is int and one >= 0) for one in way):
        raise BadInput("a job has no such key.")
    told_at(tuple(way))
    return tuple(way)


def _set(desk: Desk, form: Form) -> Mapping[str, Any]:
    way, given = _way(form), form.text("value")
    text = _with(desk.draft.text, way, given)
    desk.draft.write(text, form.text("window"))
    return {"is_field": True}


def _with(text: str, way: KeyPath, given: str) -> str:
    """The ``text`` with what is ``given`` at ``way``; taken out where that is nothing."""
    if not given.strip():
        # Of a list an item that is emptied is about to be written anew.
        return with_values(text, [(way, "" if isinstance(way[-1], int) else None)])
    told, now = told_at(way), _now(text, way)
    kinds = told.get("type", "string")
    is_whole = re.fullmatch(r"-?\d{1,12}", given.strip()) is not None
    if kinds == "boolean" or (isinstance(now, bool) and given in ("true", "false")):
        return with_values(text, [(way, given == "true" if given in ("true", "false") else given)])
    if is_whole and (kinds == "integer" or ("string" not in kinds) or (isinstance(now, int) and not isinstance(now, bool))):
        return with_values(text, [(way, int(given))])
    return with_values(text, [(way, given)])


def _now(text: str, way: KeyPath) -> object:
    try:
        here: Any = tomllib.loads(text, parse_float=Decimals)
        for name in way:
            here = here[name]
    except (KeyError, IndexError, TypeError, ValueError, RecursionError):
        return None
    return here


#: How many steps of the rule come at once at most.
_MOST_STEPS: Final = 999


def _nudge(desk: Desk, form: Form) -> Mapping[str, Any]:
    """One division of the maker's rule more, or less; several, for keys that were counted."""
    way, seen = _way(form), desk.showing.seen()
    now = _now(desk.draft.text, way)
    if seen.plan is None:
        raise BadInput("there is no rule to go by until the job can be read.")
    # What is written there goes before what the page has, so that of keys pressed fast none is lost.
    written, times = form.text("value") if now is None else str(now), form.number("times") if form.text("times") else 1
    for _ in range(min(times, _MOST_STEPS)):
        written = nudged(written, seen.plan.rule, seen.plan.unit, is_up=form.text("by") != "less")
    desk.draft.write(_with(desk.draft.text, way, written), form.text("window"))
    return {"is_field": True, "headers": {"HX-Trigger": json.dumps({"nudged": {"way": form.text("way"), "value": written}})}}


def nudged(written: str, rule: Graduation, unit: Unit, *, is_up: bool) -> str:
    """A length as it is ``written``, at the next mark of ``rule`` up or down; bare where it was bare and the rule is in ``unit``.

    Raises BadInput for what is no length.
    """
    size = read_length(written, unit)
    mark = Length(rule.down(size).mm + rule.division.mm) if is_up else Length(rule.up(size).mm - rule.division.mm)
    shown = rule.read(mark)
    figures = f"{'-' if mark.mm < 0 and not shown.figures.startswith('-') else ''}{shown.figures}"
    is_bare = not re.search(r"[a-z\"'″′]", written)
    return figures if is_bare and rule.unit is unit else f"{figures} {shown.unit}"


def _row(desk: Desk, form: Form) -> None:
    """A row of a table that stands in rows added, taken out or moved."""
    key, at, what = form.text("key"), form.number("at"), form.text("what")
    if key == "stock" and what == "add":
        name = form.text("name").strip()
        if not name or ("stock", name) in key_lines(desk.draft.text):
            raise BadInput("write a name for the new stock that no other has.")
        desk.draft.put(with_values(desk.draft.text, [(("stock", name, "nominal"), "18 mm")]))
        return
    told = properties_of(form_of(told_of_a_job())).get(key, {})
    if "items" not in told:
        raise BadInput("a job has no such rows.")
    text = desk.draft.text
    made = {
        "add": lambda: with_row_added(text, key, at),
        "remove": lambda: with_row_removed(text, key, at),
        "up": lambda: with_row_moved(text, key, at, is_up=True),
        "down": lambda: with_row_moved(text, key, at, is_up=False),
    }
    if what not in made:
        raise BadInput("a row is added, removed, or moved up or down.")
    desk.draft.put(made[what]())


#: The item that a list begins with, where it is a length.
_FIRST: Final = {Unit.INCH: "1", Unit.MM: "20"}


def _item(desk: Desk, form: Form) -> None:
    """An item of a list added, taken out or moved; the first one of a list that isn't there is made after what the list may
    hold.
    """
    way, at, what, text = _way(form), form.number("at"), form.text("what"), desk.draft.text
    told = told_at(way)
    if "items" not in told:
        raise BadInput("a job has no such list.")
    if what == "add" and _now(text, way) is None:
        seen = desk.showing.seen().plan
        unit = seen.unit if seen else Unit.INCH
        desk.draft.put(with_list(text, way, [_first(told["items"], unit) for _ in range(max(1, told.get("minItems", 1)))]))
        return
    made = {
        "add": lambda: with_item_added(text, way, at),
        "remove": lambda: with_item_removed(text, way, at),
        "up": lambda: with_item_moved(text, way, at, is_up=True),
        "down": lambda: with_item_moved(text, way, at, is_up=False),
    }
    if what not in made:
        raise BadInput("an item is added, removed, or moved up or down.")
    desk.draft.put(made[what]())


def _first(told: Mapping[str, Any], unit: Unit) -> object:
    """A value of the kind that is ``told``, to be written over: the least that it takes."""
    bare = next((one for one in told.get("anyOf", ()) if "minimum" in one), None)
    form = bare or form_of(told)
    if properties_of(form):
        return {name: _first(properties_of(form)[name], unit) for name in form.get("required", ())}
    if "items" in form:
        return [_first(form["items"], unit) for _ in range(max(1, form.get("minItems", 1)))]
    for said in ("enum", "examples"):
        if form.get(said):
            return form[said][0]
    if LENGTH.search(form.get("description", "")):
        return _FIRST[unit]
    kinds = [one.get("type") for one in (form, *form.get("anyOf", ()))]
    return form.get("minimum", 1) if "integer" in kinds else "1" if ["string", "number"] in kinds else ""
