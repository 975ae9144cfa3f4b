"""The front of the piece: frame, fronts and knobs as they are seen, with the sizes a maker looks for first.

Openings and rails are measured at its sides, stiles, openings and pulls under it, and the sizes over all outermost. What has no
room in figures is given back in words, for a list beside the picture.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from itertools import groupby, pairwise
from typing import TYPE_CHECKING, Final

from joinlay.boards import DrawerRole, PartKind, Whole
from joinlay.boards.extent import SpaceBox
from joinlay.boards.names import in_few_words
from joinlay.casework.row import name_of_row
from joinlay.geometry import corners
from joinlay.lengths import Fraction, Length
from joinlay.pen.dimensioning import LevelChain, Stop, UprightChain
from joinlay.pen.lettering import Run, figures, plain, words
from joinlay.pen.marks import Polyline, Role, bounds_of, flatten, text_box
from joinlay.pictures.leaders import NameColumn, Named, named_in
from joinlay.pictures.numbered import NumberedView, numbering
from joinlay.pictures.picture import FIGURE, PLAIN, SMALL, Easel, Picture, Size, largest_that_fits, scales_of
from joinlay.pictures.projecting import FROM_FRONT
from joinlay.pictures.scene import PlacedBay, scene_of
from joinlay.pictures.sight import look
from joinlay.pictures.stretches import Stretches, stretches_of
from joinlay.pictures.wood import Fit, areas, edge_strokes, hidden_strokes, knob_ahead
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box
    from joinlay.pictures.picture import Scale
    from joinlay.pictures.scene import PlacedOpening, Scene
    from joinlay.pictures.sight import Sight

__all__ = ["FIRST", "dimensioned_elevation", "elevation", "numbered_elevation"]

#: The height of a drawer's name in its front.
_NAME: Final = Fraction(7, 2)
#: From what is at the right of the wood to the names, how wide these may be, and how far they go past the wood up and down.
_TO_NAMES, _NAMES, _PAST = Fraction(8), Fraction(46), Fraction(6)
#: From the wood to the first row of dimensions, and from what is in one row to the next.
FIRST, _ROW = Fraction(8), Fraction(7)
#: Figures of a chain stay so far from its ends, where the lines of the size over all run.
_INSIDE: Final = Fraction(1, 2)
_ZERO: Final = Fraction(0)

#: Where the openings of a bank begin and end, from below, in mm of wood.
_Heights = tuple[tuple[Fraction, Fraction], ...]

#: Parts that lie behind the frame and are worth a dashed line.
_DASHED: Final = (PartKind.CASE_SIDE, PartKind.CASE_BOTTOM, PartKind.CASE_TOP, PartKind.CASE_PARTITION, PartKind.DUST_PANEL)
#: What lies within, behind the fronts.
_WITHIN: Final = (Whole.RUNNERS, Whole.STOPS)


def elevation(plan: Plan, room: Size) -> Picture | None:
    """The front of the piece with its overall width and height only, as large as fits ``room`` (width, height in mm).

    For a cover: its scale is one to a whole number. None for a plan that has nothing to draw. ISO 129-1.
    """
    front = _Front.of(plan)
    return largest_that_fits(front.plain, front.size, room, PLAIN) if front else None


def dimensioned_elevation(plan: Plan, room: Size) -> Picture | None:
    """The front of the piece with every opening, rail and stile in figures, the fronts' sizes and the parts' names.

    At the largest scale that fits ``room`` (width, height in mm); None for a plan that has nothing to draw. ISO 129-1, ISO 5455.
    """
    front = _Front.of(plan)
    return largest_that_fits(front.full, front.size, room, scales_of(plan.unit)) if front else None


def numbered_elevation(plan: Plan, numbers: Mapping[PartRole, int]) -> NumberedView | None:
    """The same, its parts told by their ``numbers`` in the cutting list; None for a plan that has nothing to draw. ISO 129-1."""
    front = _Front.of(plan)
    return (
        None
        if front is None
        else NumberedView(
            front.title,
            front.box,
            front.unnamed,
            numbering(front.sight, front.box[:2], front.scene.boards, numbers),
        )
    )


@dataclass(frozen=True, slots=True)
class _Front:
    """The front of one plan, looked at once and drawn at any scale."""

    plan: Plan
    scene: Scene
    sight: Sight
    box: Box
    names: tuple[Named, ...]
    known: Stretches

    @classmethod
    def of(cls, plan: Plan) -> _Front | None:
        scene = scene_of(plan)
        if scene.existing:
            # Only what is made is drawn: how far the frame that is there goes on wasn't measured.
            scene = replace(scene, boards=tuple(board for board in scene.boards if isinstance(board.role.whole, DrawerRole)))
        if not scene.boards:
            return None
        (x0, _, z0), (x1, _, z1) = scene.box
        sight = look([board for board in scene.boards if _is_outside(board)], FROM_FRONT)
        frame = [board for board in scene.boards if board.role.kind is not PartKind.DRAWER_FRONT and scene.is_whole]
        names, known = named_in(sight, frame), stretches_of(plan, scene)
        return cls(plan=plan, scene=scene, sight=sight, box=(x0, z0, x1, z1), names=names, known=known)

    @property
    def title(self) -> str:
        """What is seen."""
        return "front elevation" if self.scene.is_whole else "the fronts in their openings"

    @property
    def size(self) -> Size:
        """Width and height, in mm of wood."""
        return self.box[2] - self.box[0], self.box[3] - self.box[1]

    def _easel(self, scale: Scale) -> tuple[Easel, _Dimensions]:
        """Wood, openings and knobs at ``scale``, ready for its dimensions."""
        fit, easel = Fit(self.box[:2], scale.factor), Easel()
        easel.draw(edge_strokes(self.sight, fit))
        if not self.scene.is_whole:
            for opening in self.scene.openings:
                easel.draw(
                    (Polyline(corners(fit.box(opening.box)), Role.SEEN, closed=True, says=f"{opening.drawer.name} opening"),)
                )
        for knob in self.scene.knobs:
            easel.draw(knob_ahead(knob, fit))
        return easel, _Dimensions(easel=easel, scene=self.scene, box=self.box, fit=fit, rule=self.plan.rule, known=self.known)

    def plain(self, scale: Scale) -> list[Picture]:
        """With the sizes over all."""
        easel, dimensions = self._easel(scale)
        dimensions.over_all(-FIRST, -FIRST)
        return [Picture(self.title, tuple(easel.strokes), scale)]

    def full(self, scale: Scale) -> list[Picture]:
        """With everything: the parts' names beside it, or numbers for them."""
        easel, dimensions = self._easel(scale)
        fit = dimensions.fit
        unsaid = [] if self.scene.is_placed else ["The job gives the openings only: how far apart they are drawn means nothing."]
        unsaid += self._in_fronts(easel, fit)
        named = self._along_stiles(easel, fit)
        easel.draw_around(hidden_strokes(self.sight, fit, _DASHED))
        unsaid += dimensions.all()
        _, bottom, right, top = fit.box(self.box)
        beside = max([right, *(text_box(text)[2] for text in easel.texts if text_box(text)[3] > bottom)])
        column = NameColumn(left=beside + _TO_NAMES, wide=_NAMES, low=bottom - _PAST, high=top + _PAST)
        unnamed = [one for one in self.names if not any(role in named for role in one.of)]
        made = [column.set(unnamed, fit, easel.texts, is_numbered=is_numbered) for is_numbered in (False, True)]
        strokes, seen = tuple(easel.strokes), partial(areas, self.sight, fit)
        return [Picture(self.title, (*strokes, *one.strokes), scale, one.numbers, (*unsaid, *one.unsaid), seen) for one in made]

    def unnamed(self, scale: Scale) -> Picture:
        """With everything but the parts' names."""
        easel, dimensions = self._easel(scale)
        fit = dimensions.fit
        unsaid = [] if self.scene.is_placed else ["The job gives the openings only: how far apart they are drawn means nothing."]
        # The sizes of the fronts are in the cutting list, under the same numbers.
        self._in_fronts(easel, fit)
        easel.draw_around(hidden_strokes(self.sight, fit, _DASHED))
        unsaid += dimensions.all()
        return Picture(self.title, tuple(easel.strokes), scale, unsaid=tuple(unsaid))

    # -- words in the wood ---------------------------------------------------------------------------

    def _in_fronts(self, easel: Easel, fit: Fit) -> list[str]:
        """Each drawer's name and the size of its front, in the front as far as there is room; the rest given back in words."""
        unsaid: dict[str, list[str]] = {}
        for opening in self.scene.openings:
            front, name = opening.drawer.front, opening.drawer.name
            x0, y0, x1, y1 = fit.box(opening.box)
            within = (x0 + 2, y0, x1 - 1, y1)
            size = _size(front, self.plan)
            number = opening.drawer.role.title or str(opening.drawer.role.number)
            ways = ([words(name, _NAME), size], [words(name, SMALL), size], [(*words(name, SMALL), Run(": ", SMALL), *size)])
            if not any(easel.write(way, within, front.role) for way in ways):
                unsaid.setdefault(plain(size), []).append(front.name)
                any(easel.write([words(said, SMALL)], within, front.role) for said in (name, number))
        for bay in self.scene.opens:
            x0, y0, x1, y1 = fit.box(bay.box)
            any(easel.write([words(bay.name, size)], (x0 + 2, y0, x1 - 1, y1)) for size in (_NAME, SMALL))
        return [f"{in_few_words(names)}: {size}" for size, names in unsaid.items()]

    def _along_stiles(self, easel: Easel, fit: Fit) -> set[PartRole]:
        """The names of stiles and uprights written along them, where there is room; whose were."""
        uprights = [board for board in self.scene.boards if board.role.kind in (PartKind.STILE, PartKind.MULLION)]
        boxes = ((board.role, fit.box(self.sight.of(board)[0].box)) for board in uprights)
        return {role for role, box in boxes if easel.write_up(words(role.name, SMALL), box, role)}


def _size(front: Board, plan: Plan) -> Content:
    return (*figures(front.length, plan.rule, SMALL), Run(" × ", SMALL), *figures(front.width, plan.rule, SMALL))


def _is_outside(board: Board) -> bool:
    """Whether a part can be seen with all drawers shut: fronts, frame and case; through a reveal nothing is worth a line."""
    whole = board.role.whole
    return board.role.kind is PartKind.DRAWER_FRONT if isinstance(whole, DrawerRole) else whole not in _WITHIN


# -- dimensions ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Dimensions:
    """Dimensions (ISO 129-1) on ``easel`` for what stands in ``box`` of the piece, seen from the front; figures on ``rule``."""

    easel: Easel
    scene: Scene
    box: Box
    fit: Fit
    rule: Graduation
    known: Stretches

    def over_all(self, left: Fraction, below: Fraction) -> None:
        """The width and height over all, with their lines at ``left`` and ``below``; the width alone where only openings are
        given.
        """
        x0, y0, x1, y1 = self.fit.box(self.box)
        wide, high = Length(self.box[2] - self.box[0]), Length(self.box[3] - self.box[1])
        self.easel.over_all(
            (x0, y0),
            (x1, y0),
            away=below - y0,
            size=wide,
            rule=self.rule,
            says="overall width",
            of=self.known.between(0, (self.box[0], self.box[2]))[0],
        )
        if self.scene.is_whole:
            self.easel.over_all(
                (x0, y0),
                (x0, y1),
                away=left - x0,
                size=high,
                rule=self.rule,
                says="overall height",
                of=self.known.between(2, (self.box[1], self.box[3]))[0],
            )

    def all(self) -> tuple[str, ...]:
        """Every dimension; what had no room is given back in words."""
        unsaid: list[str] = []
        self.over_all(self._upright(unsaid), self._level(unsaid))
        return tuple(unsaid)

    def _figures(self, size: Fraction, height: Fraction) -> Content:
        return figures(Length(size), self.rule, height)

    # -- at the sides --------------------------------------------------------------------------------

    def _upright(self, unsaid: list[str]) -> Fraction:
        """At the left the first bank, at the right one that is unlike it; gives where the line for the height over all goes."""
        x0, _, x1, _ = self.fit.box(self.box)
        banks = list(self._banks_by_height())
        out = x0 - FIRST
        for n, heights in enumerate(dict.fromkeys(banks)):
            wood, x = (x0, x0 - FIRST) if n == 0 else (x1, x1 + FIRST)
            chain = self._chain(heights, x, wood) if n < 2 else None
            if chain is None:
                unsaid.append(self._in_words(heights, banks))
                continue
            self.easel.draw((chain,))
            if n == 0:
                out = x - chain.wide - 3
        return out

    def _chain(self, heights: _Heights, x: Fraction, wood: Fraction) -> UprightChain | None:
        """The openings and what is between them; of rails alike only the lowest, and where there is no room, no rail at all."""
        _, y0, _, y1 = self.fit.box(self.box)
        levels = [level for pair in heights for level in pair]
        low, high = _frame_reach(self.scene, 2) or (self.box[1], self.box[3])
        ends = list(dict.fromkeys([self.box[1], low, *levels, high, self.box[3]] if self.scene.is_whole else levels))
        floors = {floor for floor, _ in heights}
        for height, rails in ((FIGURE, "all"), (SMALL, "all"), (FIGURE, "first"), (SMALL, "first"), (SMALL, "none")):
            known: set[Fraction] = set()
            stops: list[Stop] = []
            for low, high in pairwise(ends):
                is_rail = low not in floors
                is_left = is_rail and (not self.scene.is_placed or rails == "none" or (rails == "first" and high - low in known))
                known |= {high - low} if is_rail else set()
                stops.append((self.fit.point((_ZERO, low))[1], () if is_left else self._figures(high - low, height)))
            stops.append((self.fit.point((_ZERO, ends[-1]))[1], ()))
            chain = UprightChain(
                tuple(stops),
                x=x,
                wood=wood,
                low=y0 + _INSIDE,
                high=y1 - _INSIDE,
                says="heights of the openings",
                of=self.known.between(2, ends),
            )
            if chain.fits:
                return chain
        return None

    def _in_words(self, heights: _Heights, banks: Sequence[_Heights]) -> str:
        """The openings' heights as a sentence, from the top down."""
        which = in_few_words(f"bank {n}" for n, bank in enumerate(banks, start=1) if bank == heights)
        runs = [(size, len(list(run))) for size, run in groupby(high - low for low, high in reversed(heights))]
        said = ", ".join(f"{plain(self._figures(size, SMALL))}{f' ({count} times)' if count > 1 else ''}" for size, count in runs)
        return f"{which if len(banks) > 1 else 'bank'}: the openings are, from the top down, {said} high"

    # -- underneath ----------------------------------------------------------------------------------

    def _level(self, unsaid: list[str]) -> Fraction:
        """Where the pulls are, stiles and openings; gives the place of the line for the width over all."""
        _, bottom, _, _ = self.fit.box(self.box)
        y = bottom - FIRST
        pulls, widths = self._pulls(), self._widths()
        if len(pulls) > 1:
            chain = next((made for height in (FIGURE, SMALL) if (made := self._row(pulls, y, bottom, height)).is_roomy), None)
            if chain is None:
                apart = ", ".join(plain(self._figures(b - a, SMALL)) for a, b in pairwise(pulls))
                unsaid.append(f"pulls, from the left end of a front to its right end: {apart}")
            else:
                self.easel.draw((chain,))
                y -= _ROW
        if len(widths) > 2:
            row = next((made for height in (FIGURE, SMALL) if (made := self._row(widths, y, bottom, height)).fits), None)
            if row is None:
                apart = ", ".join(plain(self._figures(b - a, SMALL)) for a, b in pairwise(widths))
                unsaid.append(f"stiles, openings and uprights, from the left: {apart}")
            else:
                self.easel.draw((row,))
                y = min(y - _ROW, bounds_of(flatten((row,)))[1] - 7)
        unsaid += self._rows_in_words()
        return y

    def _row(self, ends: Sequence[Fraction], y: Fraction, wood: Fraction, height: Fraction) -> LevelChain:
        contents: Iterable[Content] = (*(self._figures(b - a, height) for a, b in pairwise(ends)), ())
        stops = tuple((self.fit.point((at, _ZERO))[0], content) for at, content in zip(ends, contents, strict=True))
        return LevelChain(stops, y=y, wood=wood, says="widths", of=self.known.between(0, ends))

    def _widths(self) -> list[Fraction]:
        """Stiles, openings, uprights between banks; nothing where only openings are given."""
        found = {self.box[0], self.box[2], *(_frame_reach(self.scene, 0) or ())} if self.scene.is_whole else set()
        for bank in self.scene.banks if self.scene.is_whole else ():
            opens = [bay.span for one in bank for bay in self.scene.beside(one)]
            found |= {
                min([*(one.box[0] for one in bank), *(low for low, _ in opens)]),
                max([*(one.box[2] for one in bank), *(high for _, high in opens)]),
            }
        found |= {end for bay in self.scene.opens for end in bay.span}
        return sorted(found)

    def _banks_by_height(self) -> Iterator[_Heights]:
        """Where the openings of each bank begin and end, its open bays among them; a bank of nothing else last."""
        left = {bay.box: bay.box[0] for bay in self.scene.opens if bay.is_first}
        for bank in self.scene.banks:
            x = min([*(one.box[0] for one in bank), *(bay.span[0] for one in bank for bay in self.scene.beside(one))])
            own = [box for box, at in left.items() if at == x] if self.scene.is_whole else []
            yield _heights([*(opening.box for opening in bank), *own])
            left = {box: at for box, at in left.items() if box not in own}
        for x in sorted(set(left.values())):
            yield _heights([box for box, at in left.items() if at == x])

    def _rows_in_words(self) -> Iterator[str]:
        """What stands side by side, as a sentence for each row: the chain underneath is of the banks."""
        rows: list[list[PlacedOpening | PlacedBay]] = [
            [*row, *self.scene.beside(row[0])] for bank in self.scene.rows for row in bank
        ]
        bare = dict.fromkeys(bay.row for bay in self.scene.opens if not bay.row.drawers)
        rows += [[bay for bay in self.scene.opens if bay.row == row] for row in bare]
        for side_by_side in rows:
            row = sorted(side_by_side, key=lambda one: one.box[0])
            if len(row) < 2:
                continue
            widths = [
                plain(self._figures(one.box[2] - one.box[0], SMALL)) + (" (open)" if isinstance(one, PlacedBay) else "")
                for one in row
            ]
            between = plain(self._figures(row[1].box[0] - row[0].box[2], SMALL))
            places = [one.number if isinstance(one, PlacedBay) else one.drawer.role for one in row]
            yield (
                f"{name_of_row(places)}: the openings are, from the left, {', '.join(widths)} wide, "
                f"the mullions between them {between}"
            )

    def _pulls(self) -> list[Fraction]:
        """From the ends of the first front to its pulls."""
        front = self.scene.openings[0].drawer.front if self.scene.openings else None
        if front is None or front.place is None:
            return []
        own = {knob.centre[0] for knob in self.scene.knobs if knob.pull.on == front.role}
        start = front.place.origin[0]
        return sorted({start, *own, start + front.length.mm}) if own else []


def _frame_reach(scene: Scene, axis: int) -> tuple[Fraction, Fraction] | None:
    """From where to where the frame's stiles reach, in X (0) or Z (2); None without any. A top overhangs them, a base is under
    them.
    """
    boxes = [SpaceBox.around(board) for board in scene.boards if board.role.kind is PartKind.STILE]
    return (min(box.low[axis] for box in boxes), max(box.high[axis] for box in boxes)) if boxes else None


def _heights(bank: Sequence[Box]) -> _Heights:
    return tuple(sorted({(box[1], box[3]) for box in bank}))
