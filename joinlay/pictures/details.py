"""Details of one drawer at twice true size: where the clearances and joints are that no smaller drawing can show.

A detail is seen in a round window. Every polygon and line is cut to it exactly, to a polygon of 64 points on its circle: first to
the square around, which is quick and leaves most of them out.
"""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from math import floor
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind
from joinlay.geometry import (
    box_of,
    corners,
    left_of,
    pieces_of_line,
    point_at,
    polygon_in,
    quarter_circle,
    stretch_in,
    stretch_left_of,
)
from joinlay.lengths import NOTHING, Fraction, Length, Unit, decimal_text
from joinlay.pen.lettering import figures, plain
from joinlay.pen.marks import Arc, Line, Role
from joinlay.pen.placing import MM
from joinlay.pictures.close_details import close_words
from joinlay.pictures.leaders import NameColumn, Named, kinds_of
from joinlay.pictures.picture import SMALL, Picture, Scale
from joinlay.pictures.projecting import FROM_ABOVE, FROM_FRONT, FROM_RIGHT
from joinlay.pictures.scene import in_bank, level_cut, meeting_box, near_cut, scene_of
from joinlay.pictures.sight import look
from joinlay.pictures.wood import Fit, areas, hatch_strokes
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.geometry import Stretch
    from joinlay.jobs.plan import Plan
    from joinlay.pen.marks import Point, Stroke
    from joinlay.pictures.projecting import View
    from joinlay.pictures.scene import PlacedOpening, Scene
    from joinlay.pictures.sight import Sight

__all__ = [
    "CIRCLE",
    "DETAIL",
    "RADIUS",
    "DetailSpot",
    "details",
    "in_circle",
    "middle_of",
    "spots_across",
    "spots_on_level",
    "spots_on_upright",
    "stretch_in_circle",
]

#: The radius of a detail's circle on paper, in mm, and its scale.
RADIUS: Final = Fraction(30)
DETAIL: Final = Scale(2, 1)
#: How far beside the drawer's side wood is looked for, in mm.
_BESIDE: Final = Fraction(80)
#: How much wider apart the hatching is than in a small drawing.
_COARSE: Final = Fraction(5, 3)
#: From the circle to the names, and how wide these are.
_TO_NAMES, _NAMES = Fraction(5), Fraction(34)
_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class DetailSpot:
    """A place worth enlarging: its ``letter``, what is there, its ``middle`` in a view, and gaps in it with where they are."""

    letter: str
    said: str
    middle: Point
    gaps: tuple[Named, ...] = ()


def details(plan: Plan, numbers: Mapping[PartRole, int] | None = None, *, are_close: bool = False) -> tuple[Picture, ...]:
    """The corners of the first drawer at twice true size, with its clearances in words; none for a plan without drawers.

    Only the drawer's own joints where no case is given. Before a part's name stands its number in ``numbers``, where that is
    given; where they ``are_close`` the number alone, in a balloon, and what finds no room is said to be missing. ISO 128.
    """
    scene = scene_of(plan)
    if not scene.openings:
        return ()
    opening = scene.openings[0]
    level = FROM_ABOVE.at(level_cut(scene))
    bare = None if scene.is_placed else opening.left
    made = [
        _detail(near_cut(scene), level, spot, bare, numbers=numbers, existing=scene.existing, is_close=are_close)
        for spot in spots_on_level(plan, scene)
    ]
    if scene.is_placed:
        x0, z0, x1, z1 = opening.box
        bank = in_bank(scene, scene.column(0))
        upright, across = FROM_RIGHT.at(_through_block(scene, opening, (x0 + x1) / 2)), FROM_FRONT.at(middle_of(opening))
        made += [
            _detail(bank, upright, spot, numbers=numbers, existing=scene.existing, is_close=are_close)
            for spot in spots_on_upright(plan, scene)
        ]
        around = meeting_box(bank, across, (x0 - _BESIDE, z0 - _BESIDE, x0 + _BESIDE, z1 + _BESIDE))
        made += [
            _detail(around, across, spot, numbers=numbers, existing=scene.existing, is_close=are_close)
            for spot in spots_across(plan, opening, look(around, across))
        ]
    return tuple(made)


# -- where to look -----------------------------------------------------------------------------------


def spots_on_level(plan: Plan, scene: Scene) -> tuple[DetailSpot, ...]:
    """In the level section: the front at the stile, and the back corner."""
    opening = scene.openings[0]
    drawer = opening.drawer
    front, back, side = drawer.front, drawer.back, drawer.side(Hand.LEFT)
    assert front.place is not None
    assert back.place is not None
    face = front.place.origin[1] - front.thickness.mm
    play = Named(
        _said("side clearance", drawer.side_clearance, plan),
        ((opening.left + drawer.side_clearance.mm / 2, face + front.thickness.mm / 3),),
    )
    at_back = side.place.point(side.length, NOTHING, side.thickness) if side.place is not None else front.place.origin
    return (
        DetailSpot(
            "A",
            "front and side at the frame" if scene.is_placed else "front and side in the opening",
            (opening.left + 4, face + 13),
            (play,),
        ),
        DetailSpot("B", "back and side", (at_back[0] + 8, back.place.origin[1] + back.thickness.mm / 2)),
    )


def spots_on_upright(plan: Plan, scene: Scene) -> tuple[DetailSpot, ...]:
    """In an upright section: the front over its rail, and what stops it."""
    drawer = scene.openings[0].drawer
    front = drawer.front
    assert front.place is not None
    face, floor = front.place.origin[1] - front.thickness.mm, scene.openings[0].floor
    gap = drawer.bottom_clearance
    under = (
        (Named(_said("under the front", gap, plan), ((face + front.thickness.mm / 3, floor + gap.mm / 2),)),)
        if gap.mm > 0
        else ()
    )
    return (DetailSpot("C", "front over its rail", (face + 16, floor + 2), under),)


def spots_across(plan: Plan, opening: PlacedOpening, sight: Sight) -> tuple[DetailSpot, ...]:
    """Cut across the middle of the drawer: its side on what it rides on, and under what keeps it from tipping."""
    side = opening.drawer.side(Hand.LEFT)
    x0, z0, x1, z1 = box_of([corner for facet in sight.of(side) if facet.is_cut for corner in facet.corners])
    play = x0 - opening.left
    beside = Named(_said("beside the side, here", Length(play), plan), ((opening.left + play / 2, z0 + 7),))
    over = [(facet.box, facet.board.role.kind) for facet in sight.facets if facet.is_cut]
    above, keeper = min(
        ((box[1], kind) for box, kind in over if box[1] >= z1 and box[0] < x1 and x0 < box[2]),
        key=lambda one: one[0],
        default=(z1, PartKind.KICKER),
    )
    # Under a row of drawers side by side, what it rides on may be a dust panel without a bearer.
    _, carrier = max(
        ((box[3], kind) for box, kind in over if box[3] <= z0 and box[0] < x1 and x0 < box[2]),
        key=lambda one: one[0],
        default=(z0, PartKind.BEARER),
    )
    on = "its bearer" if carrier is PartKind.BEARER else f"the {carrier.value}"
    # What keeps it from tipping is a kicker, or under the top of the case that itself.
    under = f"under the {keeper.value}"
    kick = (Named(_said(under, Length(above - z1), plan), (((x0 + x1) / 2, (above + z1) / 2),)),) if above > z1 else ()
    return (
        DetailSpot("D", f"side on {on}", (x0 + 4, z0 + 3), (beside,) if play > 0 else ()),
        DetailSpot("E", f"side {under}", (x0 + 4, z1 + 2), kick),
    )


def _said(words: str, size: Length, plan: Plan) -> str:
    """A clearance in figures; in millimetres to a hundredth, since half a millimetre more or less is another fit."""
    said = decimal_text(size.mm, 2) if plan.unit is Unit.MM else plain(figures(size, plan.rule, SMALL))
    return f"{words} {said}"


def middle_of(opening: PlacedOpening) -> Fraction:
    """The middle of the drawer in ``opening`` from front to back, in Y: where the piece is cut parallel to its front."""
    front = opening.drawer.front
    assert front.place is not None
    return front.place.origin[1] + opening.drawer.length.mm / 2


def _through_block(scene: Scene, opening: PlacedOpening, otherwise: Fraction) -> Fraction:
    """The middle of the drawer's left stop block, in X."""
    for board in scene.boards:
        role = board.role
        is_left_block = role.kind is PartKind.STOP_BLOCK and role.drawer == opening.drawer.role and role.hand is Hand.LEFT
        if is_left_block and board.place is not None:
            return board.place.origin[0] + board.length.mm / 2
    return otherwise


# -- the round window ----------------------------------------------------------------------------------

#: Points on a quarter of the circle.
_POINTS: Final = 16


def _circle() -> tuple[Point, ...]:
    points = [(RADIUS * x, RADIUS * y) for x, y in quarter_circle(_POINTS)[:-1]]
    found: list[Point] = []
    for _ in range(4):
        found += points
        points = [(-y, x) for x, y in points]
    return tuple(found)


#: The circle as a polygon, anticlockwise; nowhere more than a tenth of a millimetre within it.
CIRCLE: Final = _circle()
#: How far at most the polygon lies within the circle.
_ROUGHLY: Final = Fraction(1, 10)
_WHOLE: Final = (Fraction(0), Fraction(1))


def in_circle(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """What of a convex polygon lies in the circle: its corners in order, none where nothing does."""
    if all(map(_is_inside, points)):
        return points if _has_area(points) else ()
    kept: Sequence[Point] = _in_square(points)
    rough = _in_micrometres(kept)
    for (one, two), ((x0, y0), (x1, y1)) in zip(_SIDES, _ROUGH_SIDES, strict=True):
        # Most sides of the circle are nowhere near, which is seen soonest in whole numbers.
        if not all((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) > _NEAR for x, y in rough):
            kept = left_of(kept, one, two)
            rough = _in_micrometres(kept)
    return tuple(kept) if kept and _has_area(kept) else ()


def _has_area(points: Sequence[Point]) -> bool:
    """False for a level or an upright line, or a point."""
    return all(len({point[axis] for point in points}) > 1 for axis in (0, 1))


def stretch_in_circle(one: Point, two: Point) -> Stretch | None:
    """The stretch of a line that lies in the circle, as ``stretch_in`` has it."""
    if _is_inside(one) and _is_inside(two):
        return _WHOLE
    (ax, ay), (bx, by) = _in_micrometres((one, two))
    # Most sides of the circle are nowhere near, or the line lies beyond one of them. Of what is far off, whole micrometres leave
    # off more.
    near, one_off, two_off = [], _NEAR + 2 * (abs(ax) + abs(ay)), _NEAR + 2 * (abs(bx) + abs(by))
    for side, ((x0, y0), (x1, y1)) in zip(_SIDES, _ROUGH_SIDES, strict=True):
        dx, dy = x1 - x0, y1 - y0
        first, last = dx * (ay - y0) - dy * (ax - x0), dx * (by - y0) - dy * (bx - x0)
        if first < -one_off and last < -two_off:
            return None
        if first <= one_off or last <= two_off:
            near.append(side)
    return stretch_left_of(one, two, near)


def _is_inside(point: Point) -> bool:
    """Whether a point is sure to lie in the circle, quickly."""
    x, y = point
    return abs(x) + abs(y) <= RADIUS - _ROUGHLY


def _in_micrometres(points: Iterable[Point]) -> list[tuple[int, int]]:
    return [(floor(x * MM), floor(y * MM)) for x, y in points]


#: The sides of the circle, exactly and in micrometres, and how large a product of two such lengths may be for a point to be near
#: a side: a quarter of a millimetre from it, far more than what whole micrometres leave off.
_SIDES: Final = tuple(pairwise((*CIRCLE, CIRCLE[0])))
_ROUGH_SIDES: Final = tuple(pairwise(_in_micrometres((*CIRCLE, CIRCLE[0]))))
_NEAR: Final = 1000 * MM


def _in_square(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """What of a convex polygon lies in the square around the circle, none where nothing does; quick."""
    x0, y0, x1, y1 = box_of(points)
    if x1 < -RADIUS or x0 > RADIUS or y1 < -RADIUS or y0 > RADIUS:
        return ()
    return polygon_in(points, corners((-RADIUS, -RADIUS, RADIUS, RADIUS)))


# -- drawing -----------------------------------------------------------------------------------------


def _detail(
    boards: Iterable[Board],
    view: View,
    spot: DetailSpot,
    opening: Fraction | None = None,
    *,
    numbers: Mapping[PartRole, int] | None = None,
    existing: Collection[PartRole] = (),
    is_close: bool = False,
) -> Picture:
    """A spot enlarged; ``opening`` is where an upright line shows the side of an opening that nothing given bounds."""
    reach = RADIUS / DETAIL.factor
    (x, y), fit = spot.middle, Fit(spot.middle, DETAIL.factor)
    around = (x - reach, y - reach, x + reach, y + reach)
    sight = look(meeting_box(boards, view, around), view, around)
    strokes: list[Stroke] = list(hatch_strokes(sight, fit, in_circle, coarse=_COARSE, existing=existing))
    strokes += _edges(sight, fit, existing)
    if opening is not None:
        at = (opening - x) * fit.factor
        stretch = stretch_in((at, -RADIUS), (at, RADIUS), CIRCLE)
        if stretch is not None:
            strokes += (Line(*ends, Role.SEEN) for ends in pieces_of_line((at, -RADIUS), (at, RADIUS), [stretch]))
    strokes.append(Arc((_ZERO, _ZERO), RADIUS, _ZERO, Fraction(360), Role.SEEN))
    said, unsaid = _words(strokes, sight, fit, spot, numbers or {}, is_close=is_close)
    return Picture(
        f"{spot.letter}: {spot.said}",
        (*strokes, *said),
        DETAIL,
        unsaid=unsaid,
        parts_seen=partial(areas, sight, fit, in_circle),
    )


def _words(
    drawn: Sequence[Stroke], sight: Sight, fit: Fit, spot: DetailSpot, numbers: Mapping[PartRole, int], *, is_close: bool
) -> tuple[tuple[Stroke, ...], tuple[str, ...]]:
    """Names beside the circle, or numbers in it and about it; and what found no room."""
    seen, boards = _seen(sight, fit)
    if is_close:
        close = close_words(drawn, CIRCLE, spot.gaps, seen, fit, numbers)
        return close.strokes, close.over
    column = NameColumn(left=RADIUS + _TO_NAMES, wide=_NAMES, low=-RADIUS - 2, high=RADIUS + 2)
    done = column.set((*spot.gaps, *_names(seen, boards, numbers)), fit, (), is_numbered=False)
    return done.strokes, done.unsaid


def _edges(sight: Sight, fit: Fit, existing: Collection[PartRole]) -> Iterator[Line]:
    """What is seen of the edges within the circle; of parts that are ``existing`` thin."""
    for parted in sight.edges:
        for one, two in parted.seen:
            start, end = fit.point(one), fit.point(two)
            stretch = stretch_in_circle(start, end)
            if stretch is not None:
                role = Role.OUTLINE if parted.edge.is_cut and parted.edge.board.role not in existing else Role.SEEN
                yield Line(
                    point_at(start, end, stretch[0]),
                    point_at(start, end, stretch[1]),
                    role,
                    parted.edge.board.name,
                    parted.edge.board.role,
                )


def _seen(sight: Sight, fit: Fit) -> tuple[dict[PartRole, list[Point]], list[Board]]:
    """Every part that is seen in the circle with points of it that are, in mm of wood, and the parts themselves."""
    seen: dict[PartRole, list[Point]] = {}
    boards: dict[PartRole, Board] = {}
    for facet in sight.facets:
        for spot in _points(facet.corners, fit):
            if sight.is_clear(facet, spot):
                seen.setdefault(facet.board.role, []).append(spot)
                boards[facet.board.role] = facet.board
    return seen, list(boards.values())


def _names(seen: Mapping[PartRole, Sequence[Point]], boards: Iterable[Board], numbers: Mapping[PartRole, int]) -> Iterator[Named]:
    """The parts that are seen, those of one kind together, with points of them."""
    for said, own in kinds_of(boards).items():
        spots = sorted((spot for board in own for spot in seen[board.role]), reverse=True)
        told = sorted({numbers[board.role] for board in own if board.role in numbers})
        name = " ".join((", ".join(map(str, told)), said)).strip()
        yield Named(name, tuple(spots), tuple(board.role for board in own))


def _points(corners: tuple[Point, ...], fit: Fit) -> list[Point]:
    """Points of a facet within the circle, in mm of wood: its middle, and some between that and its corners."""
    shown = _in_square(tuple(fit.point(corner) for corner in corners))
    if len(shown) < 3:
        return []
    x0, y0, x1, y1 = box_of(shown)
    if min(x1 - x0, y1 - y0) < Fraction(3, 2):
        return []
    middle = (sum((x for x, _ in shown), _ZERO) / len(shown), sum((y for _, y in shown), _ZERO) / len(shown))
    found = [middle]
    for x, y in shown[:: max(1, len(shown) // 4)]:
        found += [point_at(middle, (x, y), share) for share in (Fraction(1, 3), Fraction(2, 3))]
    inside = (RADIUS - 1) ** 2
    return [(x / fit.factor + fit.zero[0], y / fit.factor + fit.zero[1]) for x, y in found if x * x + y * y < inside]
