"""Putting together as plan.json and ``assemble --json`` have it: glue-ups with their clamps, squares, winding, the timetable,
and fitting.
"""

from typing import TYPE_CHECKING, Annotated, Any

from pydantic import BeforeValidator, Field, model_validator

from joinlay.assembly.before_it_shuts import shut_in_by
from joinlay.assembly.clamping import ClampRow
from joinlay.assembly.edge_joints import GluedPanel, glued_panels
from joinlay.assembly.glue_ups import GlueUp, Go
from joinlay.assembly.glue_words import clamps_words, glue_up_name
from joinlay.assembly.squaring import squares_of, windings_of
from joinlay.assembly.timetable import Slot, Timetable
from joinlay.checks.fitting import Fitting, Tight, fittings
from joinlay.cutlist.chosen_boards import joints_in
from joinlay.documents.json_text import InWords
from joinlay.documents.plan_numbers import DimensionTold, LengthTold, Told, VectorTold, Word, attributes
from joinlay.lengths import Fine

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan

__all__ = ["PuttingTogetherTold", "putting_together", "putting_together_of"]


def _names(roles: "Iterable[str | PartRole]") -> list[str]:
    return [role if isinstance(role, str) else role.name for role in roles]


Names = Annotated[list[str], BeforeValidator(_names)]


class ClampRowTold(Told):
    """Clamps in a row along one joint line."""

    way: Word = Field(description="The way they press: +X to the right, +Y to the back, +Z up.")
    along: str = Field(description="The part to call the row by.")
    parts: Names = Field(description="The wood between their jaws, in line.")
    count: int
    places: list[VectorTold] = Field(description="The middle of that wood for each clamp, in mm of the piece.")
    joint: DimensionTold = Field(description="How long the joint line is.")
    outside: DimensionTold = Field(description="How much wood is between the jaws.")
    reach: DimensionTold = Field(description="That and two cauls: the shortest clamp that does.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, row: object) -> object:
        return {**attributes(row), "along": row.along.name, "count": row.count} if isinstance(row, ClampRow) else row


class GoTold(Told):
    """What is spread, closed and clamped within one open time."""

    of: str = Field(description="A drawer, the case, or a part of the piece.")
    parts: Names
    surfaces: int = Field(description="How many joints get glue.")
    fasteners: int = Field(description="How many nails or screws are driven.")
    seconds: int = Field(description="From the first stroke of glue to the last clamp.")
    open_seconds: int = Field(description="How long of that the glue must stay open.")
    dry: Names = Field(description="Parts that stay without glue in their grooves.")
    clamps: list[ClampRowTold]

    @model_validator(mode="before")
    @classmethod
    def _of(cls, go: object) -> object:
        if not isinstance(go, Go):
            return go
        dry = list(dict.fromkeys(met.one.name for met in go.dry))
        return {**attributes(go), "parts": go.parts, "dry": dry}


class ShutInTold(Told):
    """A face to sand before it is shut in."""

    part: str
    face: str


class GlueUpTold(Told):
    """A numbered glue-up: one go, or one for each of several things alike."""

    number: int
    name: str
    of: list[str] = Field(description="What is glued up: drawers by name, the case, the face frame, or the piece.")
    steps: list[int] = Field(description="The steps of the order that it takes in, by their numbers.")
    hold: Word = Field(description="What holds it until the glue has set.")
    at_once: int = Field(description="For how many goes there are clamps at one time.")
    split: list[int] | None = Field(description="Which of how many parts it is split into; null where it is whole.")
    whole_seconds: int = Field(description="How long it would take unsplit.")
    clamps_said: list[str] = Field(description="Where the clamps of its largest go stand, in sentences.")
    shut_in: list[ShutInTold]
    goes: list[GoTold]


class SquareTold(Told):
    """A rectangle to be glued square."""

    of: str
    corners: str
    diagonal: DimensionTold
    may_differ: DimensionTold = Field(validation_alias="differ")


class WindingTold(Told):
    """How far one thing may be in winding, seen over two sticks."""

    of: str
    sticks: str = Field(description="Where they lie.")
    apart: DimensionTold
    may_lean: DimensionTold = Field(validation_alias="differ")


class SlotTold(Told):
    """Work without a break at one glue-up; minutes from the start of the day's work."""

    glue_up: int
    goes: list[str]
    day: int
    spell: int
    start: int
    stop: int
    frees: list[int] = Field(description="When each of the goes is out of its clamps.")
    meanwhile: list[int] = Field(description="Glue-ups begun while it cures.")


class ClampsHeldTold(Told):
    """Clamps that it was reckoned with."""

    length: LengthTold
    count: int


class TimetableTold(Told):
    """When each glue-up is done."""

    days: int
    spells: int = Field(description="How often one goes to the bench.")
    minutes: int = Field(description="How long the hands are busy.")
    clamps: list[ClampsHeldTold] = Field(description="The maker's clamps, or the fewest that do.")
    slots: list[SlotTold]

    @model_validator(mode="before")
    @classmethod
    def _of(cls, table: object) -> object:
        if not isinstance(table, Timetable):
            return table
        told = {"days": table.days, "spells": table.spells, "minutes": table.minutes, "clamps": table.clamps}
        return {**told, "slots": [_slot(slot, table) for slot in table.slots]}


def _slot(slot: Slot, table: Timetable) -> dict[str, Any]:
    meanwhile = list(dict.fromkeys(other.glue_up.number for other in table.meanwhile(slot)))
    goes = [go.of for go in slot.goes]
    return {**attributes(slot), "glue_up": slot.glue_up.number, "goes": goes, "frees": list(slot.frees), "meanwhile": meanwhile}


class TightTold(Told):
    """A place where a drawer may be tight."""

    where: str
    room: LengthTold = Field(description="What it has there by the plan.")
    least: LengthTold = Field(description="What is left with every size at its worst; below 0 it does not go in.")
    plane: LengthTold = Field(description="How much at most to take off.")
    off: str = Field(description="Where from.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, place: object) -> object:
        return {**attributes(place), "room": Fine(place.room)} if isinstance(place, Tight) else place


class FittingTold(Told):
    """Where drawers may be tight; those that are alike together."""

    drawers: list[str]
    places: list[TightTold]


class GluedPanelTold(Told):
    """Parts of solid wood that are glued up from boards edge to edge, before anything is cut in them."""

    parts: Names
    stock: str
    boards: int
    board: DimensionTold = Field(description="How wide each board is at least.")
    pressure_psi: list[int] = Field(validation_alias="pressure", description="Least and most pressure in the joint, in lb/in2.")
    force_kn: float = Field(validation_alias="force", description="What the least is in all.")
    spread: DimensionTold = Field(description="How far apart clamps may stand for what they press to spread at 45 degrees.")
    clamps: int
    reach: DimensionTold = Field(description="How far they must open, cauls included.")
    widths: list[DimensionTold] = Field(
        default=[],
        description="Of its boards from the reference edge, where they are chosen from those on hand; none where all are alike.",
    )

    @model_validator(mode="before")
    @classmethod
    def _of(cls, panel: object) -> object:
        if not isinstance(panel, GluedPanel):
            return panel
        told = {**attributes(panel), "pressure": list(panel.pressure), "force": round(float(panel.force), 2)}
        if not panel.widths:
            del told["widths"]
        return told


class PuttingTogetherTold(Told):
    """How the piece is glued, measured and fitted."""

    glued_panels: list[GluedPanelTold]

    glue_ups: list[GlueUpTold] = Field(description="In the order of the work.")
    squares: list[SquareTold]
    windings: list[WindingTold]
    timetable: TimetableTold
    fitting: list[FittingTold]


def putting_together(plan: "Plan") -> dict[str, Any]:
    """How ``plan`` is glued, measured and fitted, as a tree for JSON (PT-3 to PT-10)."""
    told = PuttingTogetherTold.model_validate(putting_together_of(plan), context=InWords(plan.rule), from_attributes=True)
    return told.model_dump(mode="json", by_alias=True, exclude_unset=True)


def putting_together_of(plan: "Plan") -> dict[str, Any]:
    """The same, before it is turned into what JSON can hold."""
    return {
        "glued_panels": glued_panels(plan.boards, plan.stocks.values(), plan.shop.practice, joints_in(plan)),
        "glue_ups": [_glue_up(one, plan) for one in plan.glue_ups],
        "squares": squares_of(plan.drawers, plan.others),
        "windings": windings_of(plan.drawers, plan.others),
        "timetable": plan.timetable,
        "fitting": list(_fitted(fittings(plan.drawers, plan.shop.practice, plan.conditions))),
    }


def _glue_up(one: GlueUp, plan: "Plan") -> dict[str, Any]:
    return {
        **attributes(one),
        "name": glue_up_name(one),
        "of": list(one.of),
        "steps": [step.number for step in one.steps],
        "split": None if one.split is None else list(one.split),
        "clamps_said": list(clamps_words(one, plan.rule)),
        "shut_in": [{"part": face.part.name, "face": face.word} for face in shut_in_by(one, plan.boards)],
    }


def _fitted(every: tuple[Fitting, ...]) -> "Iterator[dict[str, Any]]":
    alike: dict[tuple[Tight, ...], list[str]] = {}
    for fitting in every:
        alike.setdefault(fitting.places, []).append(fitting.drawer)
    yield from ({"drawers": names, "places": places} for places, names in alike.items())
