"""The front of the piece: frame, fronts and knobs as they are seen, with the sizes a maker looks for first."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.geometry import box_of, corners
from joinlay.lengths import Fraction
from joinlay.pen.lettering import Run, figures, plain, words
from joinlay.pen.marks import Polyline, Role, text_box
from joinlay.pen.scales import PLAIN, scales_of
from joinlay.pictures.front_dimensions import FIRST, FrontDimensions
from joinlay.pictures.naming import SMALL, Column, Named, named_in
from joinlay.pictures.picture import Easel, Picture, Size, largest_that_fits
from joinlay.pictures.projecting import FROM_FRONT
from joinlay.pictures.scene import scene_of
from joinlay.pictures.sight import look
from joinlay.pictures.wood import Fit, edge_strokes, hidden_strokes, knob_ahead

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.jobs.plan import Plan
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box
    from joinlay.pen.scales import Scale
    from joinlay.pictures.scene import Scene
    from joinlay.pictures.sight import Sight

__all__ = ["dimensioned_elevation", "elevation"]

#: The height of a drawer's name in its front.
_NAME: Final = Fraction(7, 2)
#: From what is at the right of the wood to the names, how wide these may be, and how far they go past the wood up and down.
_TO_NAMES, _NAMES, _PAST = Fraction(8), Fraction(46), Fraction(6)
#: Parts that lie behind the frame and are worth a dashed line.
_DASHED: Final = ("case side", "case bottom", "case top", "case partition")
#: Beginnings of the names of what lies within.
_WITHIN: Final = ("runners ", "stops ")


def elevation(plan: Plan, room: Size) -> Picture | None:
    """The front of the piece with its overall width and height only, as large as fits ``room`` (width, height in mm).

    For a cover: its scale is one to a whole number. None for a plan that has nothing to draw. No rule; ISO 129-1.
    """
    front = _Front.of(plan)
    return largest_that_fits(front.plain, front.size, room, PLAIN) if front else None


def dimensioned_elevation(plan: Plan, room: Size) -> Picture | None:
    """The front of the piece with every opening, rail and stile in figures, the fronts' sizes and the parts' names.

    At the largest scale that fits ``room`` (width, height in mm); None for a plan that has nothing to draw. No rule; ISO 129-1, ISO 5455.
    """
    front = _Front.of(plan)
    return largest_that_fits(front.full, front.size, room, scales_of(plan.unit)) if front else None


@dataclass(frozen=True, slots=True)
class _Front:
    """The front of one plan, looked at once and drawn at any scale."""

    plan: Plan
    scene: Scene
    sight: Sight
    box: Box
    names: tuple[Named, ...]

    @classmethod
    def of(cls, plan: Plan) -> _Front | None:
        scene = scene_of(plan)
        if not scene.boards:
            return None
        (x0, _, z0), (x1, _, z1) = scene.box
        sight = look([board for board in scene.boards if _is_outside(board, scene)], FROM_FRONT)
        frame = [board for board in scene.boards if board.part != "drawer front" and scene.is_whole]
        return cls(plan, scene, sight, (x0, z0, x1, z1), named_in(sight, frame))

    @property
    def title(self) -> str:
        """What is seen."""
        return "front elevation" if self.scene.is_whole else "the fronts in their openings"

    @property
    def size(self) -> Size:
        """Width and height, in mm of wood."""
        return self.box[2] - self.box[0], self.box[3] - self.box[1]

    def _easel(self, scale: Scale) -> tuple[Easel, FrontDimensions]:
        """Wood, openings and knobs at ``scale``, ready for its dimensions."""
        fit, easel = Fit(self.box[:2], scale.factor), Easel()
        easel.draw(edge_strokes(self.sight, fit))
        if not self.scene.is_whole:
            for mouth in self.scene.mouths:
                easel.draw((Polyline(corners(fit.box(mouth.box)), Role.SEEN, closed=True, says=f"{mouth.drawer.name} opening"),))
        for knob in self.scene.knobs:
            easel.draw(knob_ahead(knob, fit))
        return easel, FrontDimensions(easel, self.scene, self.box, fit, self.plan.rule)

    def plain(self, scale: Scale) -> list[Picture]:
        """With the sizes over all."""
        easel, dimensions = self._easel(scale)
        dimensions.over_all(-FIRST, -FIRST)
        return [Picture(self.title, tuple(easel.strokes), scale)]

    def full(self, scale: Scale) -> list[Picture]:
        """With everything: the parts' names beside it, or numbers for them."""
        easel, dimensions = self._easel(scale)
        fit = dimensions.fit
        unsaid = [] if self.scene.is_whole else ["The job gives the openings only: how far apart they are drawn means nothing."]
        unsaid += self._in_fronts(easel, fit)
        named = self._along_stiles(easel, fit)
        easel.draw_around(hidden_strokes(self.sight, fit, _DASHED))
        unsaid += dimensions.all()
        _, bottom, right, top = fit.box(self.box)
        beside = max([right, *(text_box(text)[2] for text in easel.texts if text_box(text)[3] > bottom)])
        column = Column(beside + _TO_NAMES, _NAMES, bottom - _PAST, top + _PAST)
        unnamed = [one for one in self.names if not any(name in named for name in one.of)]
        made = [column.set(unnamed, fit, easel.texts, is_numbered=is_numbered) for is_numbered in (False, True)]
        strokes = tuple(easel.strokes)
        return [Picture(self.title, (*strokes, *one.strokes), scale, one.numbers, (*unsaid, *one.unsaid)) for one in made]

    # -- words in the wood ---------------------------------------------------------------------------

    def _in_fronts(self, easel: Easel, fit: Fit) -> list[str]:
        """Each drawer's name and the size of its front, in the front; as much of it as there is room for, the rest given back in words."""
        unsaid: dict[str, list[str]] = {}
        for mouth in self.scene.mouths:
            front, name = mouth.drawer.board("front"), mouth.drawer.name
            x0, y0, x1, y1 = fit.box(mouth.box)
            within = (x0 + 2, y0, x1 - 1, y1)
            size = _size(front, self.plan)
            number = re.sub(r"\D+", " ", name).strip() or name
            ways = ([words(name, _NAME), size], [words(name, SMALL), size], [(*words(name, SMALL), Run(": ", SMALL), *size)])
            if not any(easel.write(way, within) for way in ways):
                unsaid.setdefault(plain(size), []).append(front.name)
                any(easel.write([words(said, SMALL)], within) for said in (name, number))
        return [f"{in_few_words(names)}: {size}" for size, names in unsaid.items()]

    def _along_stiles(self, easel: Easel, fit: Fit) -> set[str]:
        """The names of stiles and uprights written along them, where there is room; whose were."""
        uprights = [board for board in self.scene.boards if board.part in ("stile", "mullion")]
        boxes = ((board.name, fit.box(box_of(self.sight.of(board)[0].corners))) for board in uprights)
        return {name for name, box in boxes if easel.write_up(words(name, SMALL), box)}


def _size(front: Board, plan: Plan) -> Content:
    return (*figures(front.length, plan.rule, SMALL), Run(" × ", SMALL), *figures(front.width, plan.rule, SMALL))


def _is_outside(board: Board, scene: Scene) -> bool:
    """Whether a part can be seen with all drawers shut: fronts, frame and case; through a reveal nothing is worth a line."""
    own = any(board.name.startswith(f"{mouth.drawer.name} ") for mouth in scene.mouths)
    return board.part == "drawer front" if own else not board.name.startswith(_WITHIN)
