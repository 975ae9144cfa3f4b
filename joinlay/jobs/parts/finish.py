"""``[pulls]`` and ``[[banding]]``: the knobs on the fronts, and the edges that are banded."""

from typing import Annotated, Final

from pydantic import PlainValidator, model_validator

from joinlay.boards import Board
from joinlay.casework.banding import EDGES, Banding
from joinlay.casework.pulls import ByEye, ByStep, Dot, Pulls
from joinlay.errors import BadInput, nearest_names
from joinlay.jobs.parts.given import Count, Gap, Given, Name, Part, Ratio, Size, dimension_of, listed, one_of
from joinlay.lengths import NOTHING, Dimension, Length

__all__ = ["BandingPart", "DotPart", "EyePart", "PullsPart"]

_GROWTHS: Final = {"alike": "alike", "step": "step", "eye": "eye"}
Growth = Annotated[Given[str], PlainValidator(one_of(_GROWTHS))]


class EyePart(Part):
    """Where the eye is: its ``height`` above the floor, its ``distance`` before the piece, and what the piece ``stand``s on."""

    height: Size
    distance: Size
    stand: Gap | None = None


class DotPart(Part):
    """A dot inlaid in each knob, growing by ``step`` from drawer ``first`` of its bank on."""

    diameter: Size
    step: Gap | None = None
    first: Count = 2


class PullsPart(Part):
    """The knobs: what they are turned from, their sizes, how many, where, how they grow down the bank, and the SVG file of their profile."""

    stock: Name
    diameter: Size
    projection: Size
    hole: Size
    depth: Size | None = None
    count: Count | None = None
    share: Ratio | None = None
    growth: Growth | None = None
    step: Gap | None = None
    eye: EyePart | None = None
    from_top: Size | None = None
    dot: DotPart | None = None
    profile: Name | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> "PullsPart":
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
            self.stock.value,
            dimension_of(self.diameter, "knob diameter"),
            dimension_of(self.projection, "knob projection"),
            dimension_of(self.hole, "pull hole"),
            _maybe(self.depth, "pull hole depth"),
            self.count,
            None if self.share is None else self.share.value,
            self._growth(),
            _maybe(self.from_top, "pull below the top edge"),
            None if dot is None else Dot(dimension_of(dot.diameter, "dot diameter"), _gap(dot.step, "dot step"), dot.first),
        )

    def _growth(self) -> ByStep | ByEye | None:
        if self.eye is not None:
            eye = self.eye
            return ByEye(
                dimension_of(eye.height, "eye height"), dimension_of(eye.distance, "eye distance"), _gap(eye.stand, "stand")
            )
        if self.growth is not None and self.growth.value == "step":
            return ByStep(_maybe(self.step, "knob growth"))
        return None


class BandingPart(Part):
    """Banding on every board of one kind (``part = "drawer front"``); ``edges`` in the order they are glued, all four unless given."""

    part: Name
    stock: Name
    thickness: Size
    edges: list[Name] | None = None

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
                raise BadInput(f"a {self.part.value} has no {edge.value!r}{nearest}; its edges are {listed(tuple(words))}.")
            surfaces.append(words[edge.value])
        return Banding(self.stock.value, thickness, tuple(surfaces))


def _maybe(given: Given[Length] | None, name: str) -> Dimension | None:
    return None if given is None else dimension_of(given, name)


def _gap(given: Given[Length] | None, name: str) -> Dimension:
    return NOTHING if given is None else dimension_of(given, name)
