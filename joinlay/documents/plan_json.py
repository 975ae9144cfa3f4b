"""The plan as JSON: everything worked out, for programs to read. Lengths are exact, in millimetres, and as the maker reads
them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from joinlay import __version__
from joinlay.checks.assumed import assumed
from joinlay.checks.tipping import standing, tipping_loads
from joinlay.checks.weights import stocks_by_name, weigh
from joinlay.documents.json_text import InWords, row_text, rows_text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from joinlay.jobs.plan import Plan

__all__ = ["PlanText", "conditions_of", "plan_json", "plan_schema", "plan_text", "plan_tree", "weights_of"]


def plan_json(plan: Plan, files: Iterable[str] = ()) -> bytes:
    """``plan`` as UTF-8 JSON after ``plan_schema``, the same bytes each time. ``files`` are the names of the files that were made
    with it.
    """
    return plan_text(plan).content(files)


@dataclass(frozen=True, slots=True)
class PlanText:
    """What ``plan_json`` writes but for the names of the files, which are known last: its ``rows`` as they are written, by their
    keys; and the plan's ``mark`` by itself (PR-7).
    """

    mark: str
    rows: Mapping[str, str]

    def content(self, files: Iterable[str] = ()) -> bytes:
        """The whole file, made with ``files``, as UTF-8 JSON."""
        return rows_text({**self.rows, "files": row_text("files", sorted(files))}.values()).encode()


def plan_text(plan: Plan) -> PlanText:
    """``plan`` as JSON, ready but for the names of the files that are made with it."""
    from joinlay.documents.plan_mark import plan_mark

    tree = plan_tree(plan)
    mark = plan_mark(plan, tree)
    return PlanText(mark, {key: row_text(key, value) for key, value in {"plan_mark": mark, **tree}.items()})


def plan_tree(plan: Plan) -> dict[str, Any]:
    """What ``plan_json`` writes but for the plan's mark, which is made from it; as a tree for JSON."""
    from joinlay.documents.plan_gluing import putting_together_of
    from joinlay.documents.plan_tables import PlanFile

    told = {
        "plan_mark": "",
        "made_by": f"joinlay {__version__}",
        "title": plan.title,
        "job": plan.file,
        "unit": plan.unit,
        "rule": plan.rule.division,
        "paper": plan.paper,
        "files": [],
        "axes": {**_AXES, "zero": _zero(plan)},
        "conditions": conditions_of(plan),
        "weights": weights_of(plan),
        "findings": plan.findings,
        "stock": plan.stocks,
        "shop": plan.shop,
        "drawers": plan.drawers,
        "others": plan.others,
        **({"existing": plan.existing} if plan.existing else {}),
        "open_bays": plan.opens,
        "knobs": plan.knobs,
        "outlines": plan.outlines,
        "knob_profile": plan.profile,
        "putting_together": putting_together_of(plan),
        "dimensions": plan.dimensions(),
    }
    tree = PlanFile.model_validate(told, context=InWords(plan.rule), from_attributes=True)
    return tree.model_dump(mode="json", by_alias=True, exclude_unset=True, exclude={"plan_mark"})


def plan_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of what ``plan_json`` writes, with what each table and key means."""
    from joinlay.documents.plan_tables import PlanFile
    from joinlay.jobs.schema import DIALECT, PlainSchema

    schema = PlanFile.model_json_schema(by_alias=True, mode="serialization", schema_generator=PlainSchema)
    return {"$schema": DIALECT, **schema, "title": "A plan by joinlay"}


# -- what is worked out for the file -----------------------------------------------------------------

_AXES: Final = {
    "x": "to the right, as seen from the front",
    "y": "to the back",
    "z": "up",
    "along": "with a board's length, from its reference end",
    "across": "with a board's width, from its reference edge",
    "into": "through a board's thickness, from its reference face",
}
_ZERO_OF_PIECE: Final = "the left edge, the show face and the underside of the face frame"
_ZERO_OF_DRAWER: Final = (
    "for each drawer its own: the left of its opening, the face of the frame, and the bearer its sides ride on"
)


_ZERO_OF_CASE: Final = (
    "the case's left side, inside; the face of the frame; and the case's bottom or, where that isn't measured, its lowest rail"
)


def _zero(plan: Plan) -> str:
    """What the places of the boards are counted from."""
    return _ZERO_OF_PIECE if plan.is_whole else _ZERO_OF_CASE if plan.existing else _ZERO_OF_DRAWER


def conditions_of(plan: Plan) -> list[dict[str, str]]:
    """What the findings were judged by: each figure's name, what it is in words, and the file and line it is written in, ''
    for the usual one.
    """
    found = assumed(plan.conditions, plan.shop.practice, plan.rule, is_whole=plan.is_whole)
    return [{"name": one.name, "said": one.said, "written": one.written} for one in found]


def weights_of(plan: Plan) -> dict[str, Any]:
    """What each drawer weighs in kilograms, empty and loaded; and what the piece weighs and what tips it, null where there is
    no case.
    """
    rounded = [(one.drawer, round(one.empty, 2), round(one.loaded, 2)) for one in weigh(plan.drawers, plan.conditions)]
    told: dict[str, Any] = {
        "drawers": [{"name": name, "empty_kg": empty, "loaded_kg": loaded} for name, empty, loaded in rounded]
    }
    if not plan.drawers or not plan.is_whole:
        return {**told, "piece": None}
    piece = standing(plan.others, plan.drawers, stocks_by_name(plan.stocks.values()), plan.conditions)
    loads = [{"drawers_out": out, "load_kg": round(load, 2)} for out, load in tipping_loads(piece).items()]
    return {**told, "piece": {"empty_kg": round(piece.kilograms, 2), "tipping_loads": loads}}
