"""``[pulls]``, ``[[banding]]`` and ``[[outline]]``: the knobs, the edges that are banded, and the maker's own outlines."""

from typing import Annotated, Final

from pydantic import Field, WithJsonSchema, model_validator

from joinlay.boards import Board
from joinlay.boards.outline import Outline
from joinlay.casework.banding import EDGES, Banding
from joinlay.casework.outline_place import OutlineSpot, OutlineWish
from joinlay.casework.pulls import ByEye, ByStep, Dot, Pulls
from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.jobs.source import Spelled
from joinlay.jobs.tables.given import (
    Checked,
    Count,
    Entry,
    Gap,
    Given,
    Name,
    Ratio,
    Size,
    YesOrNo,
    dimension_of,
    dimension_or_none,
    dimension_or_zero,
    listed,
    one_of,
)
from joinlay.jobs.tables.within import Within

__all__ = ["BandingEntry", "DotEntry", "EyeEntry", "OutlineEntry", "PullsEntry", "SpotEntry"]

_GROWTHS: Final = {"alike": "alike", "step": "step", "eye": "eye"}
Growth = Annotated[Given[str], one_of(_GROWTHS)]


class EyeEntry(Entry):
    """Where the eye is: its ``height`` above the floor, its ``distance`` before the piece, and what the piece ``stand``s on."""

    height: Size
    distance: Size
    stand: Gap | None = None


class DotEntry(Entry):
    """A dot inlaid in each knob, ``alike`` in so many rows from the top of its bank and larger by ``step`` in each below them."""

    diameter: Size
    step: Gap | None = None
    alike: Count = 1
    depth: Size | None = None


class PullsEntry(Entry):
    """The knobs: their stock, sizes, number and place, how they grow down the bank, and the SVG file of their ``profile``."""

    stock: Name
    diameter: Size
    projection: Size
    hole: Size
    depth: Size | None = None
    count: Count | None = None
    share: Ratio | None = None
    growth: Growth | None = None
    step: Gap | None = None
    eye: Within[EyeEntry] | None = None
    from_top: Size | None = None
    dot: Within[DotEntry] | None = None
    profile: Name | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> "PullsEntry":
        growth = "alike" if self.growth is None else self.growth.value
        if (growth == "eye") != (self.eye is not None):
            raise BadInput('growth = "eye" goes with eye = { height = "60", distance = "40" }; write both or neither.')
        if self.step is not None and growth != "step":
            raise BadInput('step is for growth = "step"; write that too, or leave step out.')
        self.pulls()
        return self

    def pulls(self) -> Pulls:
        """The pulls themselves. Raises BadInput for what is none (a knob no wider than its hole, three on a drawer)."""
        dot = self.dot
        return Pulls(
            stock=self.stock.value,
            diameter=dimension_of(self.diameter, "knob diameter"),
            projection=dimension_of(self.projection, "knob projection"),
            hole=dimension_of(self.hole, "pull hole"),
            depth=dimension_or_none(self.depth, "pull hole depth"),
            count=self.count,
            share=None if self.share is None else self.share.value,
            growth=self._growth(),
            from_top=dimension_or_none(self.from_top, "pull below the top edge"),
            dot=None
            if dot is None
            else Dot(
                dimension_of(dot.diameter, "dot diameter"),
                dimension_or_zero(dot.step, "dot step"),
                dot.alike,
                dimension_or_none(dot.depth, "dot depth"),
            ),
        )

    def _growth(self) -> ByStep | ByEye | None:
        if self.eye is not None:
            eye = self.eye
            return ByEye(
                dimension_of(eye.height, "eye height"),
                dimension_of(eye.distance, "eye distance"),
                dimension_or_zero(eye.stand, "stand"),
            )
        if self.growth is not None and self.growth.value == "step":
            return ByStep(dimension_or_none(self.step, "knob growth"))
        return None


class BandingEntry(Entry):
    """Banding on every board of one kind (``part = "drawer front"``); ``edges`` in the order of gluing, all four unless given."""

    part: Name
    stock: Name
    thickness: Size
    edges: Annotated[list[Name], Field(max_length=6)] | None = None

    def banding_on(self, board: Board) -> Banding:
        """The banding of ``board``, its edges found by the words the board has for them. Raises BadInput for a word it hasn't."""
        thickness = dimension_of(self.thickness, f"{self.stock.value} banding thickness")
        if self.edges is None:
            return Banding(self.stock.value, thickness)
        words = {board.datum.word(surface): surface for surface in EDGES}
        surfaces = []
        for edge in self.edges:
            if edge.value not in words:
                near = nearest_names(edge.value, tuple(words), 1)
                nearest = f" (the nearest is {listed(near)})" if near else ""
                raise BadInput(f"a {self.part.value} has no {quoted(edge.value)}{nearest}; its edges are {listed(tuple(words))}.")
            surfaces.append(words[edge.value])
        return Banding(self.stock.value, thickness, tuple(surfaces))


_TURNS: Final = {0: 0, 90: 1, 180: 2, 270: 3}
_TO: Final = {"near side": False, "middle": True}
To = Annotated[Given[bool], one_of(_TO)]


def _quarters(given: object) -> int:
    value = given.value if isinstance(given, Spelled) else None
    if isinstance(value, bool) or not isinstance(value, int) or value not in _TURNS:
        raise BadInput("turn is how far it is turned anticlockwise; write 0, 90, 180 or 270.")
    return _TURNS[value]


Turned = Annotated[int, Checked(_quarters), WithJsonSchema({"enum": list(_TURNS)})]


class SpotEntry(Entry):
    """Where an outline goes: so far from an ``end`` and an ``edge``, in the middle of each that isn't given.

    ``to`` says whether its near side or its middle is meant.
    """

    end: Name | None = None
    from_end: Gap | None = None
    edge: Name | None = None
    from_edge: Gap | None = None
    to: To | None = None


class OutlineEntry(Entry):
    """The outline in ``file``: ``on`` which parts, ``at`` which place of which ``face``, how deep; right through if unsaid."""

    file: Name
    on: Name
    purpose: Name | None = None
    face: Name | None = None
    at: Within[SpotEntry] | None = None
    turn: Turned = 0
    mirrored: YesOrNo = False
    depth: Gap | None = None

    def wish(self, outline: Outline) -> OutlineWish:
        """What the maker wants with ``outline``, which is what the file draws; mirrored first, then turned."""
        seen = (outline.mirrored() if self.mirrored else outline).turned(self.turn)
        purpose = "outline" if self.purpose is None else self.purpose.value
        return OutlineWish(
            seen, self.on.value, purpose, self._spot(purpose), _word(self.face), dimension_or_none(self.depth, f"{purpose} depth")
        )

    def _spot(self, purpose: str) -> OutlineSpot:
        if self.at is None:
            return OutlineSpot()
        at = self.at
        from_end, from_edge = (
            dimension_or_none(at.from_end, f"{purpose} from the end"),
            dimension_or_none(at.from_edge, f"{purpose} from the edge"),
        )
        return OutlineSpot(_word(at.end), from_end, _word(at.edge), from_edge, to_middle=at.to is not None and at.to.value)


def _word(given: Given[str] | None) -> str | None:
    return None if given is None else given.value
