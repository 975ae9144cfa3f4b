"""The piece cut through, upright in the middle of a bank and level through a drawer: cut wood hatched, parts named."""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind
from joinlay.geometry import area, corners
from joinlay.lengths import Fraction, Length
from joinlay.pen.dimensioning import LevelChain, UprightChain
from joinlay.pen.lettering import figures, words
from joinlay.pen.marks import Arc, Line, Polyline, Role, bounds_of, flatten
from joinlay.pen.placing import whole
from joinlay.pictures.details import CIRCLE, DETAIL, RADIUS, DetailSpot, middle_of, spots_across, spots_on_level, spots_on_upright
from joinlay.pictures.elevation import FIRST
from joinlay.pictures.leaders import NameColumn, Named, named_in
from joinlay.pictures.numbered import NumberedView, numbering
from joinlay.pictures.picture import FIGURE, SMALL, Easel, Picture, Size, largest_that_fits, scales_of
from joinlay.pictures.projecting import FROM_ABOVE, FROM_FRONT, FROM_RIGHT
from joinlay.pictures.scene import in_bank, level_cut, near_cut, scene_of
from joinlay.pictures.sight import look
from joinlay.pictures.stretches import Stretches, stretches_of
from joinlay.pictures.wood import Fit, GrainArrow, areas, edge_strokes, hatch_strokes, knob_aside
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan
    from joinlay.pen.dimensioning import Stop
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Stroke
    from joinlay.pictures.picture import Scale
    from joinlay.pictures.projecting import Facet, View
    from joinlay.pictures.scene import Knob, PlacedOpening, Scene
    from joinlay.pictures.sight import Sight

__all__ = ["level_section", "numbered_across", "numbered_level", "numbered_uprights", "upright_sections"]

#: From a row of dimensions to the next.
_ROW: Final = Fraction(8)
#: From the wood to the names, how wide these may be, and how far they go past the wood up and down.
_TO_NAMES, _NAMES, _PAST = Fraction(7), Fraction(50), Fraction(12)
#: How long a grain arrow is, and the least of a board that gets one.
_ARROW: Final = Fraction(14)
#: Figures of an upright chain stay so far from its ends.
_INSIDE: Final = Fraction(1, 2)
_ZERO: Final = Fraction(0)


def upright_sections(plan: Plan, room: Size) -> tuple[Picture, ...]:
    """The piece cut upright through the middle of each bank unlike those before it, seen from the right, its front at the left.

    At the largest scale that fits ``room`` (width, height in mm); none for a plan that has nothing to draw. ISO 128, ISO 129-1.
    """
    return tuple(section.fitted(room) for section in _uprights(plan))


def numbered_uprights(plan: Plan, numbers: Mapping[PartRole, int]) -> tuple[NumberedView, ...]:
    """The same to stand beside the front: without the heights it has, parts told by their ``numbers`` in the cutting list."""
    return tuple(section.with_numbers(numbers, is_beside=n == 0) for n, section in enumerate(_uprights(plan)))


def _uprights(plan: Plan) -> Iterator[_Section]:
    scene = scene_of(plan)
    banks = {
        tuple((opening.floor, opening.drawer.opening.height.mm) for opening in scene.column(n)): n
        for n in reversed(range(len(scene.rows)))
    }
    return (_upright_section(plan, scene, n) for n in sorted(banks.values()))


def _upright_section(plan: Plan, scene: Scene, bank: int) -> _Section:
    openings = scene.column(bank)
    x0, _, x1, _ = openings[0].box
    many = f" of bank {bank + 1}" if len(scene.banks) > 1 else ""
    sight = look(in_bank(scene, openings), FROM_RIGHT.at((x0 + x1) / 2))
    if any(len(row) > 1 or scene.beside(row[0]) for row in scene.rows[bank]):
        many = f" of {openings[0].drawer.name}"
    title = f"vertical section through the middle{many}"
    spots = spots_on_upright(plan, scene) if bank == 0 and scene.is_placed else ()
    return _Section(
        plan=plan,
        scene=scene,
        openings=openings,
        sight=sight,
        names=named_in(sight, scene.boards),
        title=title,
        spots=spots,
        known=stretches_of(plan, scene),
    )


def level_section(plan: Plan, room: Size) -> Picture | None:
    """The piece cut level through its first drawer, seen from above, its front below.

    At the largest scale that fits ``room`` (width, height in mm); None for a plan that has nothing to draw. ISO 128, ISO 129-1.
    """
    section = _level(plan)
    return None if section is None else section.fitted(room)


def numbered_level(plan: Plan, numbers: Mapping[PartRole, int]) -> NumberedView | None:
    """The same to stand over the front: without the widths it has, its parts told by their ``numbers`` in the cutting list."""
    section = _level(plan)
    return None if section is None else section.with_numbers(numbers, is_beside=True)


def numbered_across(plan: Plan, numbers: Mapping[PartRole, int]) -> NumberedView | None:
    """The piece cut parallel to its front, through the middle of its first drawer: bearers, guides, kickers, sides and bottoms.

    Its parts are told by their ``numbers`` in the cutting list; None for a plan without drawers or without a case. ISO 128, ISO
    129-1.
    """
    scene = scene_of(plan)
    if not scene.openings or not scene.is_placed:
        return None
    sight = look(scene.boards, FROM_FRONT.at(middle_of(scene.openings[0])))
    section = _Section(
        plan=plan,
        scene=scene,
        openings=scene.openings,
        sight=sight,
        names=(),
        title=f"section parallel to the front, through bearers and "
        f"guides{'; the case that is there thin' if scene.existing else ''}",
        known=stretches_of(plan, scene),
        spots=spots_across(plan, scene.openings[0], sight),
    )
    return section.with_numbers(numbers)


def _level(plan: Plan) -> _Section | None:
    scene = scene_of(plan)
    if not scene.openings:
        return None
    opening = scene.openings[0]
    boards = near_cut(scene)
    sight = look(boards, FROM_ABOVE.at(level_cut(scene)))
    title = f"section through {opening.drawer.name}, seen from above"
    return _Section(
        plan=plan,
        scene=scene,
        openings=(opening,),
        sight=sight,
        names=named_in(sight, boards),
        title=title,
        known=stretches_of(plan, scene),
        spots=spots_on_level(plan, scene),
    )


@dataclass(frozen=True, slots=True)
class _Section:
    """One section of a plan, looked at once and drawn at any scale; ``openings`` are the drawers it goes through."""

    plan: Plan
    scene: Scene
    openings: Sequence[PlacedOpening]
    sight: Sight
    names: tuple[Named, ...]
    title: str
    known: Stretches
    spots: tuple[DetailSpot, ...] = ()

    @property
    def view(self) -> View:
        """How it is looked at."""
        return self.sight.view

    @property
    def is_upright(self) -> bool:
        """True for the section with the front at the left, False for the one with the front below."""
        return self.view.right == 1

    @property
    def is_across(self) -> bool:
        """True for the section parallel to the front."""
        return self.view.away == 1

    @property
    def size(self) -> Size:
        """Width and height, in mm of wood."""
        x0, y0, x1, y1 = self.sight.box
        return x1 - x0, y1 - y0

    def fitted(self, room: Size) -> Picture:
        """The largest that fits ``room``."""
        return largest_that_fits(self.drawn, self.size, room, scales_of(self.plan.unit))

    def drawn(self, scale: Scale) -> list[Picture]:
        """Wood, names and dimensions at ``scale``; numbers for the names in the second."""
        easel, fit, (left, bottom, right, top) = self._easel(scale)
        column = NameColumn(left=right + _TO_NAMES, wide=_NAMES, low=bottom - _PAST, high=top + _PAST)
        self._dimensions(easel, fit, (left, bottom, right, top))
        made = [column.set(self.names, fit, easel.texts, is_numbered=is_numbered) for is_numbered in (False, True)]
        seen = partial(areas, self.sight, fit)
        return [Picture(self.title, (*easel.strokes, *one.strokes), scale, one.numbers, one.unsaid, seen) for one in made]

    def with_numbers(self, numbers: Mapping[PartRole, int], *, is_beside: bool = False) -> NumberedView:
        """Drawn at any scale with numbers of the cutting list; ``is_beside`` the front, without the sizes that it has."""

        def bare(scale: Scale) -> Picture:
            easel, fit, drawn = self._easel(scale)
            self._dimensions(easel, fit, drawn, is_beside=is_beside)
            return Picture(self.title, tuple(easel.strokes), scale)

        numbered = numbering(self.sight, self.sight.box[:2], self.scene.boards, numbers)
        return NumberedView(self.title, self.sight.box, bare, numbered)

    def _easel(self, scale: Scale) -> tuple[Easel, Fit, Box]:
        """The wood with what stands in it, before any dimension, and the room that takes."""
        fit, easel = Fit(self.sight.box[:2], scale.factor), Easel()
        easel.draw(hatch_strokes(self.sight, fit, existing=self.scene.existing))
        easel.draw(edge_strokes(self.sight, fit, self.scene.existing))
        for knob in self._knobs():
            easel.draw(self._knob(knob, fit))
        if not self.scene.is_placed:
            easel.draw(self._openings(fit))
        self._spots(easel, fit)
        self._in_drawers(easel, fit)
        return easel, fit, bounds_of(easel.strokes)

    # -- what stands in it ---------------------------------------------------------------------------

    def _knobs(self) -> Iterable[Knob]:
        """The knobs of the drawers cut, one a drawer in the upright section."""
        if self.is_across:
            return ()
        fronts = {opening.drawer.front.role for opening in self.openings}
        if not self.is_upright:
            fronts = {facet.board.role for facet in self.sight.facets if facet.is_cut}
        return [knob for knob in self.scene.knobs if knob.pull.on in fronts and (knob.pull.number == 1 or not self.is_upright)]

    def _knob(self, knob: Knob, fit: Fit) -> Iterable[Stroke]:
        x, y, z = knob.centre
        at = (y, z) if self.is_upright else (x, y)
        out = (Fraction(-1), _ZERO) if self.is_upright else (_ZERO, Fraction(-1))
        return knob_aside(knob, at, out, fit)

    def _openings(self, fit: Fit) -> Iterable[Stroke]:
        """The openings of drawers where nothing around them is given: from the face of the frame to their depth."""
        for opening in self.openings:
            x0, z0, x1, z1 = opening.box
            deep = opening.drawer.opening.depth.mm
            box = (_ZERO, z0, deep, z1) if self.is_upright else (x0, _ZERO, x1, deep)
            yield Polyline(corners(fit.box(box)), Role.SEEN, closed=True, says=f"{opening.drawer.name} opening")

    def _spots(self, easel: Easel, fit: Fit) -> None:
        """A circle where there is a detail, with its letter beside it where there is room."""
        for spot in self.spots:
            (x, y), radius = fit.point(spot.middle), RADIUS / DETAIL.factor * fit.factor
            easel.strokes.append(Arc((x, y), radius, _ZERO, Fraction(360), Role.SEEN, f"detail {spot.letter}"))
            # Words may stand within the circle, but not on it.
            share, half = radius / RADIUS, radius / 16
            for across, up in CIRCLE:
                at = (x + across * share, y + up * share)
                easel.taken.take(whole((at[0] - half, at[1] - half, at[0] + half, at[1] + half)))
            letter = [words(spot.letter, FIGURE, bold=True)]
            for far in (1, 3, 6, 9, 12, 16, 20):
                out = radius + far
                ways = [(a, b) for a in (1, -1, 0) for b in (1, -1, 0) if a or b]
                boxes = [(a, b, (x + a * out - (3 - 3 * a), y + b * out - (3 - 3 * b))) for a, b in ways]
                way = next(((a, b) for a, b, (x0, y0) in boxes if easel.write(letter, (x0, y0, x0 + 6, y0 + 6))), None)
                if way is None:
                    continue
                if far > 1:
                    # It stands so far off that a line must lead to its circle.
                    share = Fraction(7, 10) if all(way) else Fraction(1)
                    ends = [(x + way[0] * at * part, y + way[1] * at * part) for at, part in ((radius, share), (out, 1))]
                    easel.strokes.append(Line(ends[0], ends[1], Role.SEEN))
                break

    def _in_drawers(self, easel: Easel, fit: Fit) -> None:
        """In each drawer its name and, on wood that is seen, which way the grain runs."""
        for opening in self.openings:
            name = opening.drawer.name
            facets = [facet for facet in self.sight.facets if facet.board.role.whole == opening.drawer.role and not facet.is_cut]
            for facet in sorted(facets, key=lambda facet: area(facet.box), reverse=True)[:2]:
                self._grain(easel, fit, facet)
            if self.is_across:
                x0, z0, x1, z1 = fit.box(opening.box)
                easel.write([words(name, SMALL)], (x0 + (x1 - x0) / 3, z0 + 2, x1, z1))
                continue
            within = self._inside(opening, fit)
            easel.write([words(name, SMALL)], within)

    def _inside(self, opening: PlacedOpening, fit: Fit) -> Box:
        """Between front and back of a drawer, or between its sides."""
        front, back = (fit.box(self.sight.of(board)[0].box) for board in (opening.drawer.front, opening.drawer.back))
        if self.is_upright:
            return (front[2] + 1, front[1], back[0] - 1, front[3])
        return (front[0] + 3, front[3] + 1, front[2] - 3, back[1] - 1)

    def _grain(self, easel: Easel, fit: Fit, facet: Facet) -> None:
        place = facet.board.place
        assert place is not None
        grain = place.across if facet.board.has_grain_across else place.along
        run = (abs(grain[self.view.right]), abs(grain[self.view.up]))
        x0, y0, x1, y1 = fit.box(facet.box)
        is_upright = run[1] > run[0]
        if max(run) < Fraction(1, 2) or (y1 - y0 if is_upright else x1 - x0) < 2 * _ARROW:
            return
        for share in (Fraction(1, 2), Fraction(1, 3), Fraction(2, 3), Fraction(3, 4)):
            for up in (Fraction(1, 2), Fraction(1, 3), Fraction(3, 4)):
                arrow = GrainArrow((x0 + (x1 - x0) * share, y0 + (y1 - y0) * up), _ARROW, is_upright)
                spot = ((x0 + (x1 - x0) * share) / fit.factor + fit.zero[0], (y0 + (y1 - y0) * up) / fit.factor + fit.zero[1])
                if self.sight.is_clear(facet, spot) and easel.taken.is_free(whole(arrow.box)):
                    easel.draw(arrow.spelled())
                    return

    # -- dimensions ----------------------------------------------------------------------------------

    def _stops(self, ends: Sequence[Fraction], axis: int, fit: Fit, height: Fraction) -> tuple[Stop, ...]:
        contents: Iterable[Content] = (*(figures(Length(b - a), self.plan.rule, height) for a, b in pairwise(ends)), ())
        return tuple((fit.point((at, at))[axis], content) for at, content in zip(ends, contents, strict=True))

    def _dimensions(self, easel: Easel, fit: Fit, drawn: Box, *, is_beside: bool = False) -> None:
        box = fit.box(self.sight.box)
        if is_beside and self.is_upright:
            self._under(
                easel, fit, (self._lengths(), self._recess(), self._depths()), box, drawn[1], has_overall=self.scene.is_whole
            )
        elif is_beside:
            self._beside(easel, fit, self._lengths(), box, drawn[0], has_overall=self.scene.is_whole)
        elif self.is_upright:
            self._under(
                easel, fit, (self._lengths(), self._recess(), self._depths()), box, drawn[1], has_overall=self.scene.is_whole
            )
            self._beside(easel, fit, self._levels(), box, drawn[0], has_overall=self.scene.is_whole)
        elif self.is_across:
            self._under(easel, fit, (self._sides(),), box, drawn[1], has_overall=self.scene.is_whole)
            self._beside(easel, fit, self._levels(), box, drawn[0], has_overall=self.scene.is_whole)
        else:
            self._under(easel, fit, (self._across(), self._widths()), box, drawn[1], has_overall=self.scene.is_whole)
            self._beside(easel, fit, self._lengths(), box, drawn[0], has_overall=self.scene.is_whole)

    def _under(
        self, easel: Easel, fit: Fit, rows: Sequence[Sequence[Fraction]], box: Box, low: Fraction, *, has_overall: bool
    ) -> None:
        """Rows of lengths under the wood, and the size over all; a row without room is left out, since other views have it."""
        y = low - FIRST
        for ends in rows:
            if len(ends) < (3 if has_overall else 2):
                continue
            is_inner = has_overall and (ends[0], ends[-1]) != (self.sight.box[0], self.sight.box[2])
            of = self.known.between(self.view.right, ends)
            made = (
                LevelChain(self._stops(ends, 0, fit, height), y=y, wood=low, is_inner=is_inner, of=of)
                for height in (FIGURE, SMALL)
            )
            chain = next((one for one in made if one.fits), None)
            if chain is not None:
                easel.draw((chain,))
                y = min(y - _ROW, bounds_of(flatten((chain,)))[1] - 8)
        if has_overall:
            easel.over_all(
                (box[0], low),
                (box[2], low),
                away=y - 1 - low,
                size=Length(self.size[0]),
                rule=self.plan.rule,
                says="overall",
                of=self.known.between(self.view.right, (self.sight.box[0], self.sight.box[2]))[0],
            )

    def _beside(self, easel: Easel, fit: Fit, ends: Sequence[Fraction], box: Box, low: Fraction, *, has_overall: bool) -> None:
        """A chain at the left of the wood, and the size over all."""
        x = low - FIRST
        for height in (FIGURE, SMALL) if len(ends) > 1 else ():
            chain = UprightChain(
                self._stops(ends, 1, fit, height),
                x=x,
                wood=low,
                low=box[1] + _INSIDE,
                high=box[3] - _INSIDE,
                of=self.known.between(self.view.up, ends),
            )
            if chain.fits:
                easel.draw((chain,))
                x -= chain.wide + 3
                break
        if has_overall:
            easel.over_all(
                (low, box[1]),
                (low, box[3]),
                away=x - low,
                size=Length(self.size[1]),
                rule=self.plan.rule,
                says="overall",
                of=self.known.between(self.view.up, (self.sight.box[1], self.sight.box[3]))[0],
            )

    def _extent(self, kind: PartKind, axis: int) -> tuple[Fraction, Fraction] | None:
        """From where to where the parts of a kind go, on an axis of the drawing; None where none is drawn."""
        boxes = [facet.box for facet in self.sight.facets if facet.board.role.kind is kind]
        return (min(box[axis] for box in boxes), max(box[axis + 2] for box in boxes)) if boxes else None

    def _lengths(self) -> list[Fraction]:
        """From the show face of the first drawer to its end, and on to the case's back: its length, and the gap behind it."""
        drawer = self.openings[0].drawer
        place = drawer.front.place
        assert place is not None
        face = place.origin[1] - drawer.front.thickness.mm
        back = self._extent(PartKind.CASE_BACK, 0 if self.is_upright else 1)
        behind = [back[0]] if back else [drawer.opening.depth.mm]
        return [face, face + drawer.length.mm, *behind]

    def _depths(self) -> list[Fraction]:
        """The frame's thickness, the case behind it, its back."""
        frame, back = self._extent(PartKind.RAIL, 0), self._extent(PartKind.CASE_BACK, 0)
        ends = {self.sight.box[0], self.sight.box[2]} if self.scene.is_whole else set()
        return (
            sorted(ends | {frame[1] if frame else self.sight.box[0]} | {back[0] if back else self.sight.box[2]}) if ends else []
        )

    def _recess(self) -> list[Fraction]:
        """From the frame's face to the board at the back of a recess for toes, and through that; nothing without one (BA-2)."""
        frame = self._extent(PartKind.RAIL, 0)
        board = self._extent(PartKind.TOE_BOARD, 0) or self._extent(PartKind.BASE_FRONT, 0)
        return [frame[0], *board] if frame and board and board[0] > frame[1] else []

    def _levels(self) -> list[Fraction]:
        """The case bottom, the room over it, the case top; in a case that is there, the openings and the faces that were
        measured.
        """
        if self.scene.existing:
            inner = [self._extent(kind, 1) for kind in (PartKind.CASE_BOTTOM, PartKind.CASE_TOP)]
            measured = {end[side] for end, side in zip(inner, (1, 0), strict=True) if end}
            return sorted(measured | {end for opening in self.openings for end in (opening.box[1], opening.box[3])})
        found = {end for kind in (PartKind.CASE_BOTTOM, PartKind.CASE_TOP) for end in self._extent(kind, 1) or ()}
        return sorted(found | {self.sight.box[1], self.sight.box[3]}) if found else []

    def _across(self) -> list[Fraction]:
        """Of the first drawer: its front's ends, and its sides' inside faces at the front."""
        front = self.openings[0].drawer.front
        assert front.place is not None
        inside = [side.place.origin[0] for side in self.openings[0].drawer.sides if side.place is not None]
        start = front.place.origin[0]
        return [start, *inside, start + front.length.mm]

    def _sides(self) -> list[Fraction]:
        """The case's sides and uprights, and the room between them."""
        kinds = (PartKind.CASE_SIDE, PartKind.CASE_PARTITION)
        boxes = [facet.box for facet in self.sight.facets if facet.is_cut and facet.board.role.kind in kinds]
        return sorted({end for box in boxes for end in (box[0], box[2])})

    def _widths(self) -> list[Fraction]:
        """Stiles, openings, uprights; the opening alone where nothing else is given."""
        found = {self.sight.box[0], self.sight.box[2]} if self.scene.is_whole else set()
        for bank in self.scene.rows if self.scene.is_whole else (((self.openings[0],),),):
            boxes = [*(opening.box for opening in bank[0]), *(bay.box for bay in self.scene.beside(bank[0][0]))]
            found |= {end for box in boxes for end in (box[0], box[2])}
        return sorted(found)
