"""The tables of plan.json: findings, boards, drawers, knobs, outlines, and the whole.

Each is a model whose keys are the plan's own names wherever they can be, so that pydantic takes it from the plan key by key,
writes it and tells its schema. Only what the plan holds in another shape is taken apart by hand, before. The maker's rule goes
along as the context.
"""

from enum import Enum
from typing import Annotated, Any

from pydantic import AliasPath, BeforeValidator, Field, ValidationInfo, model_validator

from joinlay.boards import Axis, Board, DrawerRole, Hand, PartRole, Surface
from joinlay.boards.meeting import Plane
from joinlay.boards.outline import Outline, PlacedOutline, Ring
from joinlay.casework.banding import core_size
from joinlay.documents.json_text import InWords
from joinlay.documents.plan_gluing import PuttingTogetherTold
from joinlay.documents.plan_numbers import DimensionTold, LengthTold, SpanTold, Told, VectorTold, Word, attributes
from joinlay.documents.plan_shop import ShopTold, StockTold
from joinlay.findings import Finding

__all__ = ["PlanFile"]


# -- what was found ----------------------------------------------------------------------------------


class ConditionTold(Told):
    """A figure the findings were judged by."""

    name: str
    said: str = Field(description="The figure in words.")
    written: str = Field(description="File and line it is written in; empty for a usual figure.")


class ChangeTold(Told):
    """A value of the job file to set."""

    table: str = Field(description="The table of the job file; stock.NAME for that of a stock.")
    index: int | None = Field(description="Which row of a table that stands in rows, from 0; null for a table that stands once.")
    key: str
    value: str | int


class RemedyTold(ChangeTold):
    """What 'joinlay mend' can change about a finding."""

    text: str
    also: list[ChangeTold] = Field(alias="and", description="What must be changed with it; empty where the one change does.")


class FindingTold(Told):
    """What was found: something refused, warned of, or to be known."""

    kind: str = Field(description="A trade name, which 'joinlay help-on' has a page for.")
    harm: str = Field(description="How bad it is.", json_schema_extra={"enum": ["refuse", "warn", "note"]})
    where: str
    what: str
    remedy: str = Field(description="What to change; empty where nothing needs to be.")
    remedies: list[RemedyTold] = Field(
        description="What 'joinlay mend' can change, each by itself; all of it is in the remedy too."
    )
    rule: str
    source: str
    numbers: dict[str, LengthTold | int | str] = Field(description="The numbers in its sentences.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, given: object, info: ValidationInfo[InWords]) -> object:
        return info.context.finding(given) if isinstance(given, Finding) else given


class DrawerWeightTold(Told):
    """What a drawer weighs."""

    name: str
    empty_kg: float
    loaded_kg: float


class TippingLoadTold(Told):
    """With so many drawers out, what load on the outermost front tips the piece over."""

    drawers_out: int
    load_kg: float


class PieceWeightTold(Told):
    """What the whole piece weighs, and what tips it."""

    empty_kg: float
    tipping_loads: list[TippingLoadTold]


class WeightsTold(Told):
    """Weights, in kilograms; estimates."""

    drawers: list[DrawerWeightTold]
    piece: PieceWeightTold | None = Field(description="Null where the job has no case.")


# -- boards ------------------------------------------------------------------------------------------


class ReferenceTold(Told):
    """The maker's words for the surfaces that everything is counted from."""

    face: str
    edge: str
    end: str


class FarTold(Told):
    """The maker's words for the surfaces opposite."""

    face: str = Field(validation_alias="far_face")
    edge: str = Field(validation_alias="far_edge")
    end: str = Field(validation_alias="far_end")


class CoreTold(Told):
    """What to saw a banded board to before its bands go on."""

    length: LengthTold
    width: LengthTold


def _number_of(drawer: object) -> object:
    return drawer.number if isinstance(drawer, DrawerRole) else drawer


def _lower_name(one: object) -> object:
    return one.name.lower().replace("_", " ") if isinstance(one, Enum) else one


def _name_of(role: object) -> object:
    if isinstance(role, Hand):
        return role.value
    return role.name if isinstance(role, (PartRole, DrawerRole)) else role


class BandTold(Told):
    """A band on an edge or end. The board's sizes are the finished ones, bands included."""

    surface: Word
    word: str = Field(description="The maker's word for that surface.")
    stock: str
    thickness: LengthTold
    length: LengthTold = Field(description="What to cut, trim included.")
    order: int = Field(description="Its turn on this board, from 1.")
    width: LengthTold | None = Field(description="How wide a lipping is sawn; null for banding as it is bought.")


class PartRoleTold(Told):
    """What a part is in the piece."""

    kind: Word = Field(description="The trade's word for its kind.")
    drawer: Annotated[int | None, BeforeValidator(_number_of)] = Field(
        description="The number of the drawer it is of, that rides on it or is stopped by it; for a rail the "
        "one that it lies under."
    )
    hand: Word | None = Field(description="Which of two alike: left or right as seen from the front; bottom or top.")
    number: int = Field(description="Which of more alike, from 1; 0 where there is but one.")
    of: Annotated[str | None, BeforeValidator(_name_of)] = Field(description="The part that a tenon or a knob's blank goes into.")


class JointRoleTold(Told):
    """Which joint of the piece a cut is of."""

    name: str = Field(description="Every cut of one joint has the same.")
    kind: Annotated[str, BeforeValidator(_lower_name)]
    of: Annotated[str | None, BeforeValidator(_name_of)] = Field(description="The drawer or part it is a joint of.")


class CutRoleTold(Told):
    """What a cut is for."""

    use: Word = Field(description="The maker's word for it.")
    joint: JointRoleTold | None = Field(description="Null where it is of none.")
    which: Annotated[str | None, BeforeValidator(_name_of)] = Field(description="The hand it is at, or the part it is for.")
    number: int = Field(description="Which of more alike, from 1; 0 where there is but one.")


class CutTold(Told):
    """Wood taken out: a box from the board's reference end, edge and face."""

    name: str
    role: CutRoleTold
    kind: Word
    shape: Word = Field(description="The outline of its mouth.")
    surface: Word = Field(description="Where the cutter enters.")
    mate: str = Field(description="The part that goes in or meets it; empty where none does.")
    joint: str = Field(description="Two cuts of one joint bear the same name.")
    along: SpanTold
    across: SpanTold
    into: SpanTold


class TaperTold(Told):
    """Wood planed off an edge or end in a straight line, from ``near`` at one of its ends to ``far`` at the other."""

    surface: Word
    near: LengthTold = Field(description="How much comes off at near_at.")
    near_at: str = Field(
        description="The board's reference end for an edge, its reference edge for an end; in the maker's words."
    )
    far: LengthTold = Field(description="How much comes off at far_at.")
    far_at: str = Field(description="The surface opposite near_at, in the maker's words.")


class PlaceTold(Told):
    """Where the corner of the three references stands, in mm, and what a millimetre of the board's length, width and thickness
    is.
    """

    origin: VectorTold
    along: VectorTold
    across: VectorTold
    into: VectorTold


class BoardTold(Told):
    """A board: its finished sizes, what its surfaces are called, every cut in it, and its place."""

    name: str = Field(description="The one on every sheet and list.")
    part: str = Field(description="Its kind.")
    role: PartRoleTold
    stock: str
    length: LengthTold = Field(description="With the grain.")
    width: LengthTold = Field(description="Across the grain.")
    thickness: LengthTold
    core: CoreTold | None = Field(description="Null for a board without bands.")
    bands: list[BandTold] = Field(description="In the order they are glued on.")
    reference: ReferenceTold
    far: FarTold
    round_edges: bool = Field(
        validation_alias="has_round_edges", description="True for a loose tenon rounded to fit a routed mortise."
    )
    grain_across: bool = Field(
        validation_alias="has_grain_across",
        description="True where the grain runs along its width: a front of a sheet, its grain upright.",
    )
    cuts: list[CutTold]
    tapers: list[TaperTold]
    place: PlaceTold | None = Field(description="Null for a board that stands alone.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, board: object) -> object:
        if not isinstance(board, Board):
            return board
        core = {"length": core_size(board, Axis.ALONG), "width": core_size(board, Axis.ACROSS)} if board.bands else None
        bands = [{**attributes(band), "word": board.datum.word(band.surface)} for band in board.bands]
        tapers = [{**attributes(one), **_ends_of(one.surface, board)} for one in board.tapers]
        told = {"reference": board.datum, "far": board.datum, "core": core, "bands": bands, "tapers": tapers}
        return {**attributes(board), **told}


def _ends_of(surface: Surface, board: Board) -> dict[str, str]:
    """What a taper of ``surface`` counts from and runs to: from end to end along an edge, from edge to edge along an end."""
    near, far = (Surface.END, Surface.FAR_END) if surface.axis is Axis.ACROSS else (Surface.EDGE, Surface.FAR_EDGE)
    return {"near_at": board.datum.word(near), "far_at": board.datum.word(far)}


class PlaneTold(Told):
    """A plane of a board: one of its surfaces, or the floor or a wall of a cut, which lies deeper."""

    surface: Word = Field(description="The surface it is, or that it looks the same way as.")
    depth: LengthTold | None = Field(description="How far it lies below that surface; null: it is the surface itself.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, given: object) -> object:
        return {"surface": given.surface, "depth": given.depth if given.depth.mm else None} if isinstance(given, Plane) else given


class FacingTold(Told):
    """A plane of the one board that faces a plane of the other."""

    where: str = Field(description="The words between their two names.")
    one: PlaneTold
    other: PlaneTold
    gap: LengthTold = Field(description="What lies between; 0: they touch.")
    rule: str


class FastenerTold(Told):
    """A nail, pin or screw as it is bought."""

    kind: Word
    length: LengthTold
    shank: LengthTold | None = Field(description="How thick a screw is; null for nails, which are bought by length.")
    spacing: LengthTold | None = Field(description="From one to the next, at most; null where that isn't said.")


class MeetingTold(Told):
    """Two boards that meet: 'one' goes in or is laid on, 'other' holds it."""

    one: Annotated[str, BeforeValidator(_name_of)]
    other: Annotated[str, BeforeValidator(_name_of)]
    tie: Word = Field(description="How the two are held, or how one moves against the other.")
    closes: list[Annotated[str, BeforeValidator(_lower_name)]] = Field(
        description="The ways in which 'one' may move into its place, as seen from the front."
    )
    joint: JointRoleTold | None = Field(description="Null where they meet by no joint.")
    facings: list[FacingTold]
    glue_mm2: float = Field(validation_alias="glue", description="How much is glued, in square millimetres.")
    cheeks_mm2: float = Field(validation_alias="cheeks", description="How much of that holds against a pull.")
    fasteners: int = Field(description="How many nails or screws.")
    fastener: FastenerTold | None = Field(description="What size they are; null where there are none, or any will do.")


class OpeningTold(Told):
    """The opening inside the face frame; ``depth`` runs from the frame's face to what is behind the drawer."""

    width: LengthTold
    height: LengthTold
    depth: LengthTold


class DrawerTold(Told):
    """A drawer: its opening, sizes, clearances, joints and boards."""

    name: str
    number: int = Field(validation_alias=AliasPath("assembly", "of", "number"), description="From the top down, bank by bank.")
    opening: OpeningTold
    front_joint: str = Field(validation_alias=AliasPath("make", "front_joint", "word"))
    back_joint: str = Field(validation_alias=AliasPath("make", "back_joint", "word"))
    back_height: Word = Field(validation_alias=AliasPath("make", "back_height"))
    bottom_reach: Word = Field(
        validation_alias=AliasPath("make", "bottom_reach"), description="How far a bottom reaches under a back that stands on it."
    )
    bottom_bar: str | None = Field(
        validation_alias=AliasPath("make", "bar", "name"),
        default=None,
        description="The stock of a bar down the middle of its bottom; null where it has none.",
    )
    length: LengthTold = Field(description="Front included.")
    inside_width: LengthTold = Field(description="Between the sides, at the front.")
    side_clearance: LengthTold
    top_clearance: LengthTold
    bottom_clearance: LengthTold
    taper: LengthTold = Field(description="Over the length of the sides; negative where the drawer is wider at its back.")
    boards: list[BoardTold] = Field(validation_alias=AliasPath("assembly", "boards"))
    meetings: list[MeetingTold] = Field(
        validation_alias=AliasPath("assembly", "meetings"),
        description="Where they meet each other, and what was there before them.",
    )


class AssemblyTold(Told):
    """The case, the frame, the runners or what else stands around the drawers."""

    name: str
    boards: list[BoardTold]
    meetings: list[MeetingTold] = Field(description="Where they meet each other, and what was there before them.")


class OpenBayTold(Told):
    """A bay without drawers, and the opening before it."""

    number: int = Field(description="Through the piece.")
    bank: int = Field(description="Which bank it is of, from the left.")
    left: LengthTold = Field(description="From the left edge of the frame to the opening.")
    floor: LengthTold = Field(description="From the underside of the frame up to the opening.")
    width: LengthTold
    height: LengthTold


class KnobTold(Told):
    """A knob: on which front, where the centre of its hole is, seen from the front, and its sizes."""

    front: str
    number: int = Field(description="From the left.")
    from_left: LengthTold
    from_top: LengthTold
    from_bottom: LengthTold
    diameter: LengthTold
    projection: LengthTold = Field(description="How far it stands out.")
    hole: LengthTold = Field(description="The diameter of its hole.")
    depth: LengthTold | None = Field(description="The depth of its hole; null: right through.")
    dot: LengthTold | None = Field(description="The diameter of the dot in its middle; null where it has none.")
    dot_depth: LengthTold | None = Field(description="How deep the dot is let in; null where there is none.")


# -- the maker's own outlines ------------------------------------------------------------------------


class CircleTold(Told):
    """A circle: the two numbers of its centre and its radius, in mm."""

    circle: list[float] = Field(min_length=3, max_length=3)


class RunTold(Told):
    """A run of straight lines through points, in mm."""

    closed: bool
    points: list[Annotated[list[float], Field(min_length=2, max_length=2)]]


class DrawnTold(Told):
    """The lines of a maker's own drawing, from the lower left corner of the box that holds them."""

    file: str
    lines: list[CircleTold | RunTold]

    @model_validator(mode="before")
    @classmethod
    def _of(cls, given: object) -> object:
        return _drawn(given) if isinstance(given, Outline) else given


class OutlineTold(DrawnTold):
    """A maker's own outline on a part: its purpose, where it is, and its lines as they are seen on that face."""

    purpose: str
    part: str
    face: str
    along: SpanTold
    across: SpanTold
    into: SpanTold | None = Field(description="The wood cut away inside it; null where it is only marked.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, placed: object) -> object:
        if not isinstance(placed, PlacedOutline):
            return placed
        part, face = placed.board.name, placed.board.datum.word(placed.face)
        return {**attributes(placed), "part": part, "face": face, **_drawn(placed.outline)}


def _drawn(outline: "Outline") -> dict[str, Any]:
    """The file and the lines of an outline, which are thousandths of a millimetre and so exact as they stand."""
    lines = [
        {"circle": [*map(float, line.centre), float(line.radius)]}
        if isinstance(line, Ring)
        else {"closed": line.is_closed, "points": [list(map(float, point)) for point in line.points]}
        for line in outline.lines
    ]
    return {"file": outline.file, "lines": lines}


# -- the whole ---------------------------------------------------------------------------------------


class AxesTold(Told):
    """Which way each axis runs, of the piece (x, y, z, from its zero) and of a board (along, across, into)."""

    x: str
    y: str
    z: str
    zero: str
    along: str
    across: str
    into: str


class PlanFile(Told):
    """A job worked out by joinlay: every part, cut, place and number."""

    plan_mark: str = Field(
        description="Eight letters and figures made from the plan; every file made with it carries them (PR-7)."
    )
    made_by: str
    title: str
    job: str = Field(description="The job file's name.")
    unit: Word = Field(description="What a bare number of the job is in.")
    rule: LengthTold = Field(description="The smallest division of the maker's rule.")
    paper: str
    files: list[str] = Field(description="The files that were made with it.")
    axes: AxesTold
    conditions: list[ConditionTold]
    weights: WeightsTold
    findings: list[FindingTold] = Field(description="The worst first.")
    stock: dict[str, StockTold]
    shop: ShopTold
    drawers: list[DrawerTold] = Field(description="From the top down.")
    others: list[AssemblyTold] = Field(description="Empty where only openings are given.")
    existing: list[BoardTold] = Field(
        default=[],
        description="They stand for a case that is there, as far as it was measured; none of them is made. Left "
        "out where there is none.",
    )
    open_bays: list[OpenBayTold] = Field(description="Bank by bank from the left, each from the top down.")
    knobs: list[KnobTold] = Field(description="Bank by bank from the top down.")
    outlines: list[OutlineTold]
    knob_profile: DrawnTold | None = Field(description="Half of a knob as the maker drew it.")
    putting_together: PuttingTogetherTold = Field(description="How it is glued, measured and fitted.")
    dimensions: dict[str, DimensionTold] = Field(description="Every named number.")
