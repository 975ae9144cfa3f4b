"""The schema of a job file: what may be written, in JSON Schema (draft 2020-12), so that an editor can complete a job and check
it as it is written.

It is told by the tables themselves, each with what its docstring says; what a key is for stands here, key by key. What no schema
can say (a stock that isn't there, a rule that can't be held) ``check`` says.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final

from pydantic.json_schema import GenerateJsonSchema

from joinlay.jobs.tables.drawers import RULES_BY_KEY
from joinlay.jobs.tables.file import JobFile
from joinlay.jobs.tables.filler import FILLER_MEANINGS
from joinlay.jobs.tables.rows import ROW_MEANINGS
from joinlay.jobs.tables.shop import PRACTICE_KEYS
from joinlay.jobs.tables.top_and_base import LEVELLER_MEANINGS
from joinlay.shop import LENGTH_RULES, RATIO_RULES
from joinlay.shop.machines import MACHINE_FIGURES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic.json_schema import JsonSchemaMode, JsonSchemaValue
    from pydantic_core import core_schema

__all__ = ["DIALECT", "PlainSchema", "job_schema"]

#: The dialect the schemas are written in.
DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"

#: A table that a value alone may stand for.
_SHORT: Final = ("shop", "paper")

_OVER_ALL: Final = "over all, frame and overhang included"

#: What each key is for, by the table's model. Keys of [practice], and those of a drawer that set a figure of it, tell it by their
#: rule.
_KEYS: Final[dict[str, dict[str, str]]] = {
    "JobFile": {
        "title": "What the piece is called; the file's name unless told.",
        "maker": "Who makes it, as it is to stand at the foot of every sheet.",
        "date": "The date of the job, as text, to stand beside the maker's name; no clock is ever asked.",
        "schema": "The schema of this file, for editors: what 'joinlay schema job' writes. It changes nothing.",
        "units": "What a bare number is in; inch unless told.",
        "smallest": "The smallest mark on your rule.",
        "stock": "What the parts are made of, by names of your own.",
        "shop": "What your shop owns; or the name of a file that says it, for many jobs.",
        "practice": "Your own figures for the trade rules.",
        "seasons": "The air it is made in and will stand in.",
        "use": "How the piece stands and is finished.",
        "paper": "What the templates are printed on; or the size alone.",
        "sawing": "How sheets are sawn.",
        "offcut": "Pieces of sheet on hand; they are used before whole sheets.",
        "board": "Boards of solid wood on hand.",
        "prices": "What things cost.",
        "case": "The case around the drawers.",
        "frame": "The face frame.",
        "runners": "What the drawers run on; with [[drawer]] alone, in a case that is there.",
        "stops": "What stops the drawers.",
        "top": "A top over the case, which is measured without it.",
        "base": "What the case stands on; it is measured without it.",
        "filler": "Strips that close the gaps to the walls of a piece that is built in; it is measured without them.",
        "bank": "A bank of drawers, from the top down; a second one stands beside the first.",
        "drawers": "What every drawer has, unless it says otherwise.",
        "drawer": "A drawer by its opening, or several alike.",
        "pulls": "The knobs.",
        "banding": "Edges to band.",
        "outline": "A drawing of your own on a part, at true size.",
    },
    "StockEntry": {
        "kind": "Plywood unless told.",
        "nominal": "The thickness it is sold as.",
        "measured": "The thickness by callipers: every joint goes by it.",
        "sheet": "Length and width of a whole sheet, length with the grain.",
        "species": "The wood, by its name in the trade.",
        "cut": "How solid wood is sawn; flat unless told.",
        "stiffness": "Along the face grain and, where it is another, across it: as the sheet's data sheet says.",
        "plies": "Layers of plywood, counted at its edge; 3 unless told where it is thin (7 mm, 1/4 in).",
    },
    "CaseEntry": {
        "width": f"Width {_OVER_ALL}.",
        "height": f"Height {_OVER_ALL}.",
        "depth": f"Depth {_OVER_ALL}.",
        "room": "The room it goes into, in place of its sizes.",
        "sides": "The stock of the sides.",
        "panels": "The stock of bottom and top; the sides' unless told.",
        "back": "The stock of the back.",
        "bottom-offset": "Underside of the case to its bottom panel.",
        "top-offset": "Top of the case to its top panel; where that is level with the rail, or lifted over it "
        "by as much as a kicker.",
        "back-held": "Nails or screws; nails in rabbets unless told, and in grooves neither.",
        "back-inset": "Rear edges of the sides to the back, which then stands in grooves; in rabbets unless told.",
        "dadoes": "Whether the dadoes for the panels run through to the front.",
    },
    "RoomEntry": {
        "width": "Width of the room for it.",
        "height": "Height of the room for it.",
        "depth": "Depth of the room for it.",
        "beside": "What is left free at each side.",
        "above": "What is left free above.",
        "behind": "What is left free behind.",
    },
    "FrameEntry": {
        "stock": "The stock of the frame.",
        "stile": "Width of the stiles.",
        "mullion": "Width of the mullions between banks.",
        "top-rail": "Height of the top rail.",
        "bottom-rail": "Height of the bottom rail.",
        "rail": "Height of the rails between drawers.",
        "overhang": "Frame proud of the case, each side.",
        "scribe": "What each stile is made wider, to be planed to the wall of a piece that is built in.",
        "overhang-top": "Frame proud of the case at the top.",
        "overhang-bottom": "Frame proud of the case at the bottom.",
    },
    "RunnersEntry": {
        "stock": "The stock of bearers, guides, kickers and stops.",
        "guides": "The stock of the guides; the same unless told.",
        "kickers": "The stock of the kickers; the same unless told.",
        "nail-length": "Of the nails through the bearers, where it is another than three times their width or "
        "what stays in the sides.",
        "screw-length": "The same of the screws through them, in a case with solid sides.",
        "sides": "In a case that is there: the stock that says what it is made of. Solid wood moves, and takes screws in slots.",
        "inside-width": "In a case that is there: its width inside, behind the frame; left-edge, the opening "
        "and right-edge unless told.",
        "inside-depth": "In a case that is there: from the back of its frame to its back.",
        "left-edge": "In a case that is there: how far the openings' left edge stands in from its side; half of "
        "what they leave unless told.",
        "right-edge": "In a case that is there: how far the openings' right edge stands in from its side; half "
        "of what they leave unless told.",
        "rail": "In a case that is there: the height of its rails between openings, and of the one under the lowest.",
        "below": "In a case that is there: the lowest opening's lower edge down to the case's bottom. Left out "
        "where that is not known, or far off.",
        "above": "In a case that is there: the topmost opening's upper edge up to the case's top. Left out "
        "where that is not known, or far off.",
    },
    "StopsEntry": {
        "kind": "Blocks unless told.",
        "stock": "The stock of the blocks; the runners' unless told.",
        "thickness": "Height of a block.",
        "sag": "How far a loaded bottom sags, so that a block is cleared.",
    },
    "TopEntry": {
        "stock": "The stock of the top.",
        "front": "How far it overhangs in front.",
        "ends": "How far it overhangs at each end.",
        "back": "How far it overhangs behind; flush unless told.",
    },
    "BaseEntry": {
        "stock": "The stock of the base.",
        "height": "How high the piece stands on it; a recess for toes is as high as usual unless told.",
        "kind": "A plinth unless told; one with a recess for toes in front; that recess cut in the case's sides; or four feet.",
        "toe": "How deep the recess for toes is, from the frame's face.",
        "set-back": "How far it stands within the frame's face and the piece's sides; less than 0: proud of them.",
        "leveller": "What each foot is bored for from below, where the piece stands on levellers.",
        "foot": "How wide each of the feet is; they are as deep as their stock is thick.",
    },
    "InsideEntry": {
        "width": "Width of what lies in it; its inside is that and the room.",
        "height": "Height of what lies in it, over its bottom.",
        "depth": "Depth of what lies in it, from front to back.",
        "room": "What is left free in each of these, in all.",
    },
    "FrontSizeEntry": {"width": "Width of the finished front.", "height": "Height of the finished front."},
    "OpeningEntry": {
        "width": "Width of the opening inside the frame.",
        "height": "Height of the opening inside the frame.",
        "depth": "From the frame's face to what is behind the drawer.",
    },
    "DrawersEntry": {
        "opening": "The opening in the frame.",
        "inside": "What must lie in it; its opening, and in a [[bank]] the piece, is worked out around that (CO-1).",
        "front-size": "The size of its finished front, for its opening's; in a [[bank]] the piece follows from it (CO-1).",
        "front": "The stock of the front.",
        "front-grain": "Which way the grain of the front runs; from side to side unless told, and upright only "
        "in a sheet (CL-2).",
        "sides": "The stock of the sides.",
        "back": "The stock of the back; the sides' unless told.",
        "bottom": "The stock of the bottom.",
        "bottom-bar": 'The stock of a grooved bar down the middle of the bottom, or "none" (BO-1).',
        "front-joint": "The joint of front and sides.",
        "back-joint": "The joint of back and sides.",
        "back-height": "Whether the back is as high as the sides, or stands on the bottom.",
        "bottom-reach": "How far a bottom under the back reaches: to the outside of the back, or to the ends of the sides.",
        "side-height": "Height of the sides; by the rules unless told.",
        "fit": "With its clearances unless told; or made full to the opening, to be planed until it goes with them (HF-1).",
        "tenon": "Thickness of the loose tenons; the rules choose unless told.",
        "load": "What lies in each drawer, or on its bottom.",
    },
    "DrawerEntry": {"name": "What it is called; its number unless told.", "count": "How many alike; 1 unless told."},
    "BankEntry": {
        "drawers": "How many drawers.",
        "rows": "Row by row from the top down, what stands side by side: how many drawers, or how the row is divided.",
        "graduation": "How the openings of its drawers, or of its rows, grow downwards; equal unless told.",
        "step": "How much deeper each is than the one above (arithmetic).",
        "ratio": "How many times as deep each is as the one above (geometric).",
        "heights": 'The openings one by one, from the top down; one at most may be "fill".',
        "remainder": "Which takes what is over when the openings are rounded to your rule: the top one, the bottom one, or "
        "one by its number; unless told, a series lands on the rule by itself, each within a division.",
        "rail": "Height of the rails between these drawers.",
        "mullion": "Width of the uprights between drawers of a row; the frame's unless told.",
        "width": "Width of the openings; what is left unless told.",
    },
    **ROW_MEANINGS,
    "FillerEntry": FILLER_MEANINGS,
    "LevellerEntry": LEVELLER_MEANINGS,
    "JobShopEntry": {
        "file": "A shop file that the rest comes from.",
        "kerf": "The saw's kerf.",
        "cutters": "All the straight cutters there are.",
        "corner-cutters": "All the cutters that make both halves of a drawer's corner, by what a test cut with "
        "each measures (MS-11).",
        "tenons": "All the tenon stock there is.",
        "router-table": "The router table; false where there is none.",
        "table-saw": "The table saw; false where there is none.",
        "hand-router": "The hand-held router; false where there is none.",
        "mortiser": "Whether there is a mortiser for the tenon stock.",
        "mortise-depths": "The depths its stops can be set to, all of them; any depth unless told.",
        "mortise-heights": "The steps its fence can be set to, from the fence to the mortise's centre; any unless told.",
        "mortise-widths": "The widths along its line of the mortises it gives; any unless told.",
        "drill": "Whether there is a drill.",
        "hand-tools": "The hand tools, which cut what no machine does; false where nothing is cut by hand.",
        "glue": "The glue you use, as its bottle says; 8 min open and 1 h in clamps unless told.",
        "clamps": "All the clamps there are; unless told, how many it takes is only told.",
        "first-choice": "The order in which machines are tried.",
        "limits": "How small and how tall a part is run.",
    },
    "RouterTableEntry": {
        "fence-height": "Height of the fence.",
        "fence-reach": "The farthest the fence is set from the cutter.",
        "longest": "The longest part, along the fence.",
        "farthest": "How far a part reaches from the fence at most.",
    },
    "TableSawEntry": {
        "fence-height": "Height of the fence.",
        "fence-reach": "The farthest the fence is set from the blade.",
        "blade-height": "The deepest it cuts.",
        "longest": "The longest part, along the fence.",
        "farthest": "How far a part reaches from the fence at most.",
        "dado-set": "The widths the dado set is stacked to.",
    },
    "HandRouterEntry": {
        "base": "Width of its base.",
        "guide-reach": "The farthest the edge guide is set.",
        "offset": "What a trial cut measured.",
    },
    "HandToolsEntry": {"narrowest-chisel": "Its width; no channel or mortise that is narrower is cut by hand."},
    "OffsetEntry": {
        "distance": "Edge of the base to the near wall of the trial cut.",
        "cutter": "Diameter of the cutter it was cut with.",
    },
    "LimitsEntry": {
        "deepest-pass": "The most a router takes at once.",
        "narrow": "A narrower part gets a push block or a carrier.",
        "short": "So does a shorter one.",
        "smallest": "A part with no side as long as this is not run at all.",
        "tallest-on-end": "A taller part is not stood on end.",
    },
    "GlueEntry": {
        "open-time": "How long it stays open, until all must be clamped.",
        "clamp-time": "How long it stays in clamps.",
    },
    "ClampEntry": {"length": "Between its jaws, wide open.", "count": "How many of them."},
    "CornerCutterEntry": {
        "slot": "How wide the slot is in the end of a scrap that lay flat, its end to the fence.",
        "tongue": "How thick the wood beside the slot is that lay on the table, where it goes into such a slot; "
        "as the slot is wide unless told.",
        "length": "How long that tongue is, from the slot's floor.",
        "deepest": "The deepest slot it makes: how far it can stand out of the fence.",
        "diameter": "Its diameter, where it is widest.",
    },
    "CutterEntry": {"diameter": "Its diameter.", "reach": "How deep it reaches."},
    "TenonEntry": {
        "thickness": "Its thickness.",
        "width": "Width of a ready-made tenon; strip has none.",
        "length": "Length of a ready-made tenon; strip has none.",
        "reach": "The deepest mortise for it; for strip five times its thickness unless told (LT-4, Moxon's rule, from memory).",
    },
    "SeasonsEntry": {
        "driest": "The driest day where it will stand.",
        "dampest": "The dampest day where it will stand.",
        "workshop": "The workshop, on the day it is made.",
    },
    "DayEntry": {
        "temperature": "Of the air.",
        "humidity": "Of the air.",
        "moisture": "Of the wood, by a meter; in place of the air.",
    },
    "UseEntry": {
        "stands": "Free, anchored to the wall, or built in.",
        "feet-set-back": "Front feet behind the foremost point of the piece.",
        "finish": "What it is finished with: what builds a film takes room from every gap; nothing is counted unless told.",
    },
    "PaperEntry": {
        "size": "By its name, by figures, or a roll.",
        "width": "Width of a sheet.",
        "height": "Height of a sheet.",
        "roll": "Width of a roll.",
        "border": "What your printer leaves blank all round.",
        "printer": "A printer you have measured, by the name you gave it.",
    },
    "SawingEntry": {
        "first-cut": "Which way a whole sheet is cut first.",
        "fronts-together": "The fronts of a bank from one column, so that the grain runs down it; true unless told.",
        "any-grain": "Parts that may be turned on the sheet.",
    },
    "OffcutEntry": {
        "stock": "What it is a piece of.",
        "length": "Its length.",
        "width": "Its width.",
        "grain": "Which way the face grain runs; left out, only parts of any grain are cut from it.",
        "count": "How many alike; 1 unless told.",
        "name": "What it is called; its number unless told.",
    },
    "BoardEntry": {
        "stock": "What wood it is.",
        "length": "Its length.",
        "width": "Its width.",
        "defects": "Stretches to cut out, each its start and stop from one end.",
        "count": "How many alike; 1 unless told.",
        "name": "What it is called; its number unless told.",
    },
    "PricesEntry": {
        "currency": "Such as USD.",
        "slides": "A pair of metal slides for one of these drawers, to compare.",
        "of": "By the stock's name: a sheet, or a board foot or square metre of solid wood; or by another line of the list.",
    },
    "PullsEntry": {
        "stock": "What they are turned from.",
        "diameter": "Of the uppermost knob.",
        "projection": "How far they stand out.",
        "hole": "Diameter of the hole.",
        "depth": "Depth of the hole; right through unless told.",
        "count": "One or two on a front; by its width unless told.",
        "share": "Where two stand: so much of the width from each end.",
        "growth": "Whether each is larger than the one above; alike unless told.",
        "step": 'How much larger (growth = "step").',
        "eye": 'Where the eye is (growth = "eye").',
        "from-top": "Top edge of a deep front to its knobs; in the middle unless told.",
        "dot": "A dot inlaid in each.",
        "profile": "An SVG file beside the job: half of a knob, with its size in mm or inches.",
    },
    "EyeEntry": {
        "height": "Above the floor.",
        "distance": "Before the piece.",
        "stand": "Height of what the piece stands on.",
    },
    "DotEntry": {
        "diameter": "The diameter of the uppermost.",
        "step": "How much larger each is than the one above, below those that are alike.",
        "alike": "How many drawers, or rows, from the top of the bank have dots of that diameter; all below "
        "them grow. 1 unless told.",
        "depth": "How deep it is let into its knob.",
    },
    "BandingEntry": {
        "part": "The kind of part, such as drawer side.",
        "stock": "What the bands are; lipping, a solid stock of the job.",
        "thickness": "Thickness of a band; what is thicker than banding is lipping, solid wood sawn for it and "
        "planed flush (EB-4).",
        "edges": "Which edges and ends, in the order they are glued; all of them unless told.",
    },
    "OutlineEntry": {
        "file": "An SVG file beside the job, with its size in mm or inches.",
        "on": "Which part, such as drawer 1 back; or which kind, such as drawer front.",
        "purpose": "What it is, such as finger hole.",
        "face": "Which face it is on.",
        "at": "Where on that face; in the middle unless told.",
        "turn": "Degrees anticlockwise; 0 unless told.",
        "mirrored": "True to mirror it.",
        "depth": "How deep it is cut: 0 is only marked; right through unless told.",
    },
    "SpotEntry": {
        "end": "The end it is counted from.",
        "from-end": "How far from that end.",
        "edge": "The edge it is counted from.",
        "from-edge": "How far from that edge.",
        "to": "To its near side, or to its middle.",
    },
}


#: Keys whose usual figure is one of the maker's practice or of a machine, by its name there.
_USUAL: Final[dict[str, dict[str, str]]] = {
    "FrameEntry": {
        "stile": "stile width",
        "mullion": "mullion width",
        "top-rail": "top rail height",
        "bottom-rail": "bottom rail height",
        "rail": "rail height",
        "overhang": "frame overhang",
        "overhang-top": "frame overhang",
        "overhang-bottom": "frame overhang",
    },
    "StopsEntry": {"thickness": "stop thickness"},
    "FillerEntry": {"scribe": "filler scribe"},
    "LevellerEntry": {"out": "leveller out"},
    "PullsEntry": {"share": "pull share", "step": "knob growth"},
    "RouterTableEntry": {
        "fence-height": "table fence height",
        "fence-reach": "table fence reach",
        "longest": "longest part on the table",
        "farthest": "farthest from the fence",
    },
    "TableSawEntry": {
        "fence-height": "saw fence height",
        "fence-reach": "saw fence reach",
        "blade-height": "blade height",
        "longest": "longest part on the saw",
        "farthest": "farthest from the fence",
    },
    "HandRouterEntry": {"base": "router base", "guide-reach": "edge guide reach"},
    "HandToolsEntry": {"narrowest-chisel": "narrowest chisel"},
    "LimitsEntry": {
        "deepest-pass": "deepest pass",
        "narrow": "narrow part",
        "short": "short part",
        "smallest": "smallest part",
        "tallest-on-end": "tallest part on end",
    },
}


class PlainSchema(GenerateJsonSchema):
    """A schema without titles, since a key's own name is title enough, and with what docstrings say in plain letters."""

    def generate(self, schema: core_schema.CoreSchema, mode: JsonSchemaMode = "validation") -> JsonSchemaValue:
        """The schema, as pydantic makes it otherwise."""
        made: JsonSchemaValue = json.loads(json.dumps(super().generate(schema, mode)).replace("``", "'"))
        return made

    def field_title_should_be_set(self, schema: object) -> bool:
        """Never."""
        del schema
        return False


class _AsWritten(PlainSchema):
    """TOML has no null: a key that need not be written is left out."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


def job_schema() -> dict[str, Any]:
    """The schema of a job file, as a tree for JSON; lengths are text or numbers, and every table and key says what it is for."""
    schema = JobFile.model_json_schema(by_alias=True, schema_generator=_AsWritten)
    practice = dict(_practice())
    for name, table in [("JobFile", schema), *schema["$defs"].items()]:
        told = _told_of(name, practice)
        for key, value in _properties(table).items():
            value["description"] = " ".join(filter(None, (told.get(key), value.get("description"))))
    properties = schema["properties"]
    for key in _SHORT:
        about = properties[key].pop("description")
        properties[key] = {"anyOf": [{"type": "string"}, properties[key]], "description": about}
    return {"$schema": DIALECT, **schema, "title": "A job for joinlay"}


def _properties(table: dict[str, Any]) -> dict[str, Any]:
    """The keys of a table, also of one that false may stand for."""
    own: dict[str, Any] = table.get("anyOf", [table])[0].get("properties", {})
    return own


def _told_of(table: str, practice: dict[str, str]) -> dict[str, str]:
    """What each key of the table called ``table`` is for."""
    if table == "PracticeEntry":
        return {key: practice[rule] for key, rule in PRACTICE_KEYS.items()}
    drawers = {**{key: practice[rule] for key, rule in RULES_BY_KEY.items()}, **_KEYS["DrawersEntry"]}
    own = {**(drawers if table in ("DrawersEntry", "DrawerEntry", "BankEntry") else {}), **_KEYS.get(table, {})}
    # The meaning is the key's own; what is usual, and by which rule, is told as the figure of that name has it.
    usual = {key: practice[name].partition("; ")[2] for key, name in _USUAL.get(table, {}).items()}
    return {key: f"{said.rstrip('.')}; {usual[key]}" if key in usual else said for key, said in own.items()}


def _practice() -> Iterator[tuple[str, str]]:
    """What each figure of the trade rules means, and what it usually is, by its name."""
    for length in LENGTH_RULES:
        inch = length.inch if length.inch.endswith("mm") else f"{length.inch} in"
        yield length.name, _with_rule(length.meaning, f"{inch} or {length.metric} mm", length.rule, length.source)
    for ratio in RATIO_RULES:
        yield ratio.name, _with_rule(ratio.meaning, ratio.value, ratio.rule, ratio.source)
    for name, (inch, metric, rule, source) in MACHINE_FIGURES.items():
        yield name, _with_rule(name, f"{inch} in or {metric} mm", rule, source)


def _with_rule(meaning: str, usual: str, rule: str, source: str) -> str:
    return f"{meaning[0].upper()}{meaning[1:]}; {usual} unless told ({', '.join(filter(None, (rule, source)))})."
