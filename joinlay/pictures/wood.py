"""A sight of the piece as strokes at a scale: edges, hatched cuts, knobs, grain."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.geometry import area
from joinlay.lengths import Fraction
from joinlay.pen.hatching import Hatch
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Role
from joinlay.pen.placing import MM, whole
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator

    from joinlay.boards import Board, PartKind, PartRole
    from joinlay.pen.marks import Box, Point, Stroke
    from joinlay.pen.placing import Whole
    from joinlay.pictures.projecting import Facet
    from joinlay.pictures.scene import Knob
    from joinlay.pictures.sight import Sight

__all__ = ["Fit", "GrainArrow", "areas", "edge_strokes", "hatch_strokes", "hidden_strokes", "knob_ahead", "knob_aside"]

#: Cut wood thinner than this on paper is filled, not hatched (ISO 128-50).
_THIN: Final = Fraction(9, 10)
#: Hatchings that can be told apart: from line to line, and whether they fall instead of rise.
_HATCHINGS: Final = ((Fraction(3, 2), False), (Fraction(3, 2), True), (Fraction(5, 2), False), (Fraction(5, 2), True))
#: How near wood must be to look as if it touched, in micrometres.
_NEAR: Final = 2 * MM
_BLACK: Final = Fraction(1)
_NOTHING: Final = Fraction(0)
_MIDDLE: Final = Fraction(1, 2)
_FINE: Final = Fraction(1)


@dataclass(frozen=True, slots=True)
class Fit:
    """From the piece to paper: ``zero`` of the view comes to (0, 0), and every length is multiplied by ``factor``."""

    zero: Point
    factor: Fraction

    def point(self, point: Point) -> Point:
        """Where a point of the view is drawn."""
        (x, y), (x0, y0), factor = point, self.zero, self.factor
        if factor.numerator == 1:
            # As most scales are; to divide by a whole number is the quicker.
            return ((x - x0) / factor.denominator, (y - y0) / factor.denominator)
        return ((x - x0) * factor, (y - y0) * factor)

    def box(self, box: Box) -> Box:
        """Where a box of the view is drawn."""
        return (*self.point(box[:2]), *self.point(box[2:]))


def edge_strokes(sight: Sight, fit: Fit, existing: Collection[PartRole] = ()) -> Iterator[Line]:
    """What is seen of every edge, wide where wood is cut or where the piece ends. Each says which part it bounds.

    Parts that are ``existing`` are drawn thin throughout (ISO 128: adjacent parts).
    """
    drawn: dict[tuple[Point, Point], Line] = {}
    box = sight.box
    for parted in sight.edges:
        edge = parted.edge
        for one, two in parted.seen:
            is_wide = edge.is_cut or (sight.view.cut is None and _is_on_rim(one, two, box))
            role = Role.OUTLINE if is_wide and edge.board.role not in existing else Role.SEEN
            line = _line(fit.point(one), fit.point(two), role, edge.board)
            # One line of each place: the widest.
            known = drawn.setdefault((line.start, line.end), line)
            if known.role is not Role.OUTLINE:
                drawn[line.start, line.end] = line
    yield from drawn.values()


def hidden_strokes(sight: Sight, fit: Fit, kinds: Collection[PartKind]) -> Iterator[Line]:
    """What is hidden of the edges of parts of these ``kinds``, dashed (ISO 128); not along the piece's ends, which are seen."""
    box = sight.box
    for parted in sight.edges:
        if parted.edge.board.role.kind in kinds:
            for one, two in parted.hidden:
                if not _is_on_rim(one, two, box):
                    yield _line(fit.point(one), fit.point(two), Role.HIDDEN, parted.edge.board)


def _is_on_rim(one: Point, two: Point, box: Box) -> bool:
    return any(one[n] == two[n] and one[n] in (box[n], box[n + 2]) for n in (0, 1))


def _line(one: Point, two: Point, role: Role, board: Board) -> Line:
    """From the lower left end on, so that a line drawn twice is known."""
    return Line(min(one, two), max(one, two), role, board.name, board.role)


def areas(sight: Sight, fit: Fit, clip: Callable[[tuple[Point, ...]], tuple[Point, ...]] | None = None) -> Iterator[Fill]:
    """Where each part is seen, the farthest first, so that of those over one another the last is the one to be seen.

    ``clip`` may cut a polygon on paper down to what is shown of it.
    """
    for facet in sorted(sight.facets, key=lambda facet: -facet.depth):
        points = tuple(fit.point(corner) for corner in facet.corners)
        shown = clip(points) if clip else points
        if len(shown) > 2:
            yield Fill(shown, _NOTHING, Role.SEEN, facet.board.name, facet.board.role)


# -- cut wood ----------------------------------------------------------------------------------------


def hatch_strokes(
    sight: Sight,
    fit: Fit,
    clip: Callable[[tuple[Point, ...]], tuple[Point, ...]] | None = None,
    *,
    coarse: Fraction = _FINE,
    existing: Collection[PartRole] = (),
) -> Iterator[Stroke]:
    """Every cut face hatched at 45 degrees, adjoining parts each their own way (ISO 128); very thin ones filled black, as that
    standard has it.

    ``clip`` may cut a polygon on paper down to what is shown of it; ``coarse`` is how much wider apart the lines are than usual.
    Parts that are ``existing`` are left white.
    """
    cut: dict[PartRole, list[Facet]] = {}
    for facet in sight.facets:
        if facet.is_cut and facet.board.role not in existing:
            cut.setdefault(facet.board.role, []).append(facet)
    for role, way in _ways(cut).items():
        thin = min(_least(fit.box(facet.box)) for facet in [max(cut[role], key=lambda facet: area(facet.box))]) < _THIN
        for facet in cut[role]:
            points = tuple(fit.point(corner) for corner in facet.corners)
            shown = clip(points) if clip else points
            if len(shown) > 2:
                yield from (Fill(shown, _BLACK, Role.HATCH, role.name),) if thin else _hatched(shown, way, coarse)


def _ways(cut: dict[PartRole, list[Facet]]) -> dict[PartRole, int]:
    """Which hatching each part gets: the first that no part it touches has."""
    ways: dict[PartRole, int] = {}
    boxes = {role: [whole(facet.box) for facet in facets] for role, facets in cut.items()}
    for role, own in boxes.items():
        taken = {ways[other] for other in ways if any(_touch(a, b) for a in own for b in boxes[other])}
        ways[role] = next((n for n in range(len(_HATCHINGS)) if n not in taken), 0)
    return ways


def _touch(one: Whole, two: Whole) -> bool:
    """Whether two boxes of wood touch, or have only a clearance between them, so that on paper they seem to."""
    return one[0] - _NEAR < two[2] and two[0] - _NEAR < one[2] and one[1] - _NEAR < two[3] and two[1] - _NEAR < one[3]


def _least(box: Box) -> Fraction:
    return min(box[2] - box[0], box[3] - box[1])


def _hatched(points: tuple[Point, ...], way: int, coarse: Fraction) -> Iterator[Stroke]:
    step, falls = _HATCHINGS[way]
    step *= coarse
    if not falls:
        yield from Hatch(points, step).spelled()
        return
    for line in Hatch(tuple((-x, y) for x, y in points), step).spelled():
        yield Line((-line.start[0], line.start[1]), (-line.end[0], line.end[1]), Role.HATCH)


# -- knobs and grain ---------------------------------------------------------------------------------


def knob_ahead(knob: Knob, fit: Fit) -> Iterator[Stroke]:
    """A knob seen from the front: its circle, its dot, and the cross of its centre lines."""
    x, y = centre = fit.point((knob.centre[0], knob.centre[2]))
    around, radius = (Fraction(0), Fraction(360)), knob.radius * fit.factor
    yield Arc(centre, radius, *around, Role.OUTLINE, f"{knob.pull.front} knob {knob.pull.number}")
    if knob.pull.dot is not None:
        yield Arc(centre, knob.pull.dot.mm / 2 * fit.factor, *around, Role.SEEN)
    reach = radius + Fraction(3, 2)
    yield Line((x - reach, y), (x + reach, y), Role.DIMENSION)
    yield Line((x, y - reach), (x, y + reach), Role.DIMENSION)


def knob_aside(knob: Knob, at: Point, out: Point, fit: Fit) -> Iterator[Stroke]:
    """A knob seen from its side, with its axis: it stands out from ``at`` in the direction ``out``, which is 1 long."""
    (x, y), half, long = fit.point(at), knob.radius * fit.factor, knob.pull.projection.mm * fit.factor
    aside = (-out[1], out[0])

    def put(along: Fraction, across: Fraction) -> Point:
        return (x + out[0] * along + aside[0] * across, y + out[1] * along + aside[1] * across)

    spigot, neck = knob.pull.hole.mm / 2 * fit.factor, long * Fraction(2, 5)
    profile = (
        (0, -spigot),
        (neck, -spigot),
        (neck, -half),
        (long, -half),
        (long, half),
        (neck, half),
        (neck, spigot),
        (0, spigot),
    )
    yield Polyline(tuple(put(Fraction(a), b) for a, b in profile), Role.SEEN, says=f"{knob.pull.front} knob {knob.pull.number}")
    yield Line(put(-Fraction(2), Fraction(0)), put(long + 2, Fraction(0)), Role.DIMENSION)


@dataclass(frozen=True, slots=True)
class GrainArrow:
    """Which way the grain runs: a line with a half head at each end, its middle at ``middle``."""

    middle: Point
    long: Fraction
    is_upright: bool

    @property
    def box(self) -> Box:
        """The room it takes."""
        x, y = self.middle
        wide, high = (_HEAD, self.long * _MIDDLE) if self.is_upright else (self.long * _MIDDLE, _HEAD)
        return (x - wide, y - high, x + wide, y + high)

    def spelled(self) -> Iterator[Line]:
        """The line and the two half heads."""
        half = self.long * _MIDDLE
        for end in (-1, 1):
            tip, barb = (end * half, Fraction(0)), (end * (half - 2 * _HEAD), end * _HEAD)
            yield Line(self._put(*tip), self._put(*barb), Role.SEEN)
        yield Line(self._put(-half, Fraction(0)), self._put(half, Fraction(0)), Role.SEEN, "grain")

    def _put(self, along: Fraction, across: Fraction) -> Point:
        x, y = self.middle
        return (x - across, y + along) if self.is_upright else (x + along, y + across)


_HEAD: Final = Fraction(9, 10)
