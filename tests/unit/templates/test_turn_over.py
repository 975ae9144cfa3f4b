"""A paper turned over marks the other hand: worked out here from where the boards stand in the piece, and not from how they
are drawn.
"""

from fractions import Fraction

import pytest

from joinlay.boards import CutKind, Hand, Shape, Surface
from joinlay.boards.place import cross, dot
from joinlay.lengths import NOTHING
from joinlay.pen.marks import Line, Role
from joinlay.templates.fold_strips import fold_strips
from joinlay.templates.turn_over import TurnedOver, both_ways, turned_block
from tests.measured.packets import example, examples, plan_templates
from tests.unit.templates.reading import lines, polylines
from tests.unit.templates.story.pieces import LOOSE, openings, piece

ODD = {"openings": openings, "two banks": lambda: piece(900, 500, 3, 2, joint=LOOSE)}
NAMES = [*examples(), *ODD]
FAR = {
    Surface.FACE: Surface.FAR_FACE,
    Surface.EDGE: Surface.FAR_EDGE,
    Surface.FAR_EDGE: Surface.EDGE,
    Surface.FAR_FACE: Surface.FACE,
}
#: What is up, and what the paper is laid against.
VIEWS = ((Surface.FACE, Surface.EDGE), (Surface.EDGE, Surface.FACE), (Surface.FAR_EDGE, Surface.FACE))


def planned(name):
    return ODD[name]() if name in ODD else example(name)


def less(one, two):
    return tuple(a - b for a, b in zip(one, two, strict=True))


def corner_on(board, up, laid, end):
    """The corner where the surface that is up, the one the paper is laid against and the end meet, in the piece."""
    far = {up, laid, end}
    return board.place.point(
        board.length if Surface.FAR_END in far else NOTHING,
        board.width if Surface.FAR_EDGE in far else NOTHING,
        board.thickness if Surface.FAR_FACE in far else NOTHING,
    )


class Seen:
    """A placed board as a maker sees it who looks at one surface with another towards them, at one end."""

    def __init__(self, board, up, laid, end):
        self.board, self.up, self.end = board, up, end
        self.zero = corner_on(board, up, laid, end)
        self.north = board.place.outward(FAR[laid])
        self.east = cross(self.north, board.place.outward(up))
        inside = less(board.place.point(board.length / 2, NOTHING, NOTHING), board.place.point(*end_at(board, end)))
        self.in_is_right = dot(inside, self.east) > 0

    def at(self, along, across, into):
        """A point of the board as it is seen: to the right of the end, and up from the edge."""
        point = less(self.board.place.point(along, across, into), self.zero)
        return dot(point, self.east), dot(point, self.north)

    def wanted(self):
        """Points that must be on the paper: (what, point), crosses for mortises and corners low down for what has square ones."""
        for cut in self.board.cuts:
            spans = (cut.along, cut.across, cut.into)
            middle = [span.centre for span in spans]
            x, y = self.at(*middle)
            near = min(abs(self.at(along, *middle[1:])[0]) for along in (cut.along.start, cut.along.stop))
            if cut.kind is CutKind.MORTISE and cut.surface is self.up and near < 60:
                yield "cross", (x, y)
            elif cut.kind is CutKind.MORTISE and cut.surface is self.end and self.up is Surface.FACE:
                # Paper folded over the end goes on from the face: as far past the fold as the mortise opens from the face.
                mouth = self.board.place.point(end_at(self.board, self.end)[0], *middle[1:])
                deep = dot(less(mouth, self.zero), self.board.place.outward(self.up))
                yield "cross", (deep if self.in_is_right else -deep, y)
            elif cut.surface is self.up and cut.shape is Shape.SQUARE and cut.kind in (CutKind.DADO, CutKind.GROOVE):
                ends = [
                    self.at(a, b, middle[2]) for a in (spans[0].start, spans[0].stop) for b in (spans[1].start, spans[1].stop)
                ]
                ends = [point for point in ends if abs(point[0]) < 60]
                low = min((point[1] for point in ends), default=None)
                yield from (("corner", point) for point in ends if cut.kind is CutKind.GROOVE or point[1] == low)


def end_at(board, end):
    return (board.length if end is Surface.FAR_END else NOTHING, NOTHING, NOTHING)


def drawn_on(template):
    """Where the crosses are on a template, and where its hairlines begin or end."""
    hair = [stroke for stroke in lines(template.strokes) if stroke.role is Role.CUT]
    middles = [((a.start[0] + a.end[0]) / 2, (a.start[1] + a.end[1]) / 2) for a in hair if a.says.endswith(" centre")]
    crosses = {point for point in middles if middles.count(point) > 1}
    ends = {point for stroke in hair for point in (stroke.start, stroke.end)}
    return {"cross": crosses, "corner": ends | {point for one in polylines(template.strokes) for point in one.points}}


@pytest.mark.parametrize("name", NAMES)
def test_an_end_is_marked_right_from_either_side_of_its_paper(name):
    plan = planned(name)
    boards = {board.name: board for board in plan.boards}
    found = 0
    for template in plan_templates(plan):
        if template.end not in {word for board in boards.values() for word in (board.datum.end, board.datum.far_end)}:
            continue
        marks = drawn_on(template)
        for names, end_word, sign in ((template.names, template.end, 1), (template.turned, template.turned_end, -1)):
            for board in (boards[name] for name in names):
                up, laid = next(view for view in VIEWS if board.datum.word(view[0]) == (template.on or board.datum.face))
                end = Surface.END if board.datum.end == end_word else Surface.FAR_END
                for what, (x, y) in Seen(board, up, laid, end).wanted():
                    assert (sign * x, y) in marks[what], (template.title, board.name, what)
                    found += sign < 0
    assert found >= 4 * len(plan.drawers)


@pytest.mark.parametrize("name", NAMES)
def test_a_fold_over_strip_turned_over_opens_the_corner_of_the_other_hand(name):
    plan = planned(name)
    boards = {board.name: board for board in plan.boards}
    seen = 0
    for strip in fold_strips(plan):
        centres: dict[bool, set[tuple[Fraction, Fraction]]] = {}
        for stroke in strip.strokes:
            if isinstance(stroke, Line) and stroke.says.endswith(" centre") and stroke.start[0] == stroke.end[0]:
                middle = (stroke.start[0], (stroke.start[1] + stroke.end[1]) / 2)
                centres.setdefault(stroke.says.startswith(strip.names[0]), set()).add(middle)
        for names, end_word, sign in ((strip.names, strip.end, 1), (strip.turned, strip.turned_end, -1)):
            for board in (boards[name] for name in names):
                end = Surface.END if end_word.startswith(board.datum.end) else Surface.FAR_END
                cuts = [cut for cut in board.cuts if cut.kind is CutKind.MORTISE and cut.surface is end]
                up = board.place.across
                from_face = {(cut.into.centre.mm, cut.across.centre.mm) for cut in cuts}
                # A side and its front are flush outside, frames at their show face.
                is_face = board.part != "drawer side"
                out = board.place.into if is_face else tuple(-one for one in board.place.into)
                # Looking at the mortised end with its reference edge down, the wood lies this way from the arris.
                right = cross(up, board.place.outward(end))
                way = 1 if dot(out, right) > 0 else -1
                thick = board.thickness.mm
                wanted = {(way * (x if is_face else thick - x), y) for x, y in from_face}
                assert {(sign * x, y) for x, y in centres[True]} == wanted, (strip.title, board.name)
                # The other flap is met from the other side, so it lies the other way.
                assert {(-sign * x, y) for x, y in centres[False]} == wanted, (strip.title, board.name)
                seen += sign < 0
    assert bool(seen) == any(cut.kind is CutKind.MORTISE for board in plan.boards for cut in board.cuts)


def test_of_two_mirror_images_the_one_called_the_same_is_taken():
    groups = [[("left", "top", 1)], [("left", "bottom", -1)], [("right", "top", -1)], [("odd", "top", 1)]]
    found = list(both_ways(groups, side=lambda one: one[2], likeness=lambda one: one[0] == "odd", called=lambda one: one[1]))
    assert found == [(groups[0], groups[2]), (groups[1], []), (groups[3], [])]


def test_what_is_said_of_the_back_of_a_paper():
    block = turned_block(TurnedOver(("drawer 1 right side",), "front end", Hand.RIGHT), ["drawer 1", "right side"], 3)
    said = ["".join(getattr(run, "text", "") for run in line) for _, _, line in block.lines]
    assert said == ["turned over, print down:", "drawer 1", "right side", "FRONT END make 3"]
    assert [is_left for _, _, is_left in block.signs] == [False]
    assert block.height > Fraction(12)
