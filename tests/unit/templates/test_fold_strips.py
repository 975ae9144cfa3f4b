"""Fold-over strips: folded flat, both halves of every joint lie on each other, and each is where its own board has it."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from joinlay.boards import CutKind, Surface
from joinlay.pages import lay_out
from joinlay.paper import paper_named
from joinlay.pen.marks import Fill, Line, Polyline, Role, bounds_of
from joinlay.templates.fold_strips import fold_strips, grooves_on_strips
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples
from tests.unit.templates.reading import texts
from tests.unit.templates.story.pieces import LOOSE, openings, piece, tiny

#: What is said beside the groove of a front: how far up, how deep, and where it stops.
GROOVE = {
    "print-chest": ["3/8 up", "7/32 deep", "stops 1/4+", "from the end"],
    "openings": ["9+ up", "5.5 deep", "stops 6.5−", "from the end"],
}
ODD = {"openings": openings, "two banks": lambda: piece(900, 500, 3, 2, joint=LOOSE), "tiny": tiny}


def planned(name):
    """An example's plan, or an odd one."""
    return ODD[name]() if name in ODD else example(name)


def crosses(template):
    """The centre of every mortise on a strip by the board and cut it stands for: (x, y), read from its two lines."""
    level, upright = {}, {}
    for stroke in template.strokes:
        if isinstance(stroke, Line) and stroke.says.endswith(" centre"):
            (x0, y0), (x1, y1) = stroke.start, stroke.end
            if y0 == y1:
                level[stroke.says] = y0
            if x0 == x1:
                upright[stroke.says] = x0
    assert level.keys() == upright.keys()
    return {says.removesuffix(" centre"): (upright[says], level[says]) for says in level}


@pytest.mark.parametrize("name", [*examples(), *ODD])
def test_folded_flat_the_centres_of_both_boards_lie_on_each_other(name):
    for template in fold_strips(planned(name)):
        found = sorted((abs(x), y, x > 0) for x, y in crosses(template).values())
        assert len(found) >= 2
        assert Counter((x, y) for x, y, right in found if right) == Counter((x, y) for x, y, right in found if not right)


@pytest.mark.parametrize("name", [*examples(), *ODD])
def test_the_flap_of_the_end_is_the_boards_own_end(name):
    plan = planned(name)
    boards = {board.name: board for board in plan.boards}
    seen = 0
    for template in fold_strips(plan):
        found = crosses(template)
        board = boards[template.names[0]]
        for cut in board.cuts:
            where = found.get(f"{board.name} {cut.name}")
            if where is None:
                continue
            # From the show face where that is flush, from the outside of a drawer's side else.
            into = cut.into.centre.mm if board.part != "drawer side" else (board.thickness - cut.into.centre).mm
            assert (abs(where[0]), where[1]) == (into, cut.across.centre.mm)
            seen += 1
    assert bool(seen) == any(cut.kind is CutKind.MORTISE for board in plan.boards for cut in board.cuts)


def test_the_flap_of_a_front_is_counted_from_its_own_bottom_edge_and_end():
    plan = openings()
    front = plan.drawers[0].board("front")
    rise = plan.drawers[0].bottom_clearance.mm
    [strip] = (strip for strip in fold_strips(plan) if strip.names[0].startswith("drawer 1 "))
    found = crosses(strip)
    drawn = {point for name, point in found.items() if name.startswith(front.name)}
    for hand, turned in (("left", 1), ("right", -1)):
        cuts = [cut for cut in front.cuts if cut.kind is CutKind.MORTISE and cut.name.startswith(hand)]
        wanted = set()
        for cut in cuts:
            from_end = cut.along.centre.mm if hand == "left" else front.length.mm - cut.along.centre.mm
            # Seen on the inside face with its bottom edge down, a front's left end is at the right.
            wanted.add((-from_end if hand == "left" else from_end, cut.across.centre.mm + rise))
        assert {(turned * x, y) for x, y in drawn} == wanted
    # The side folds out past its end.
    assert found["drawer 1 left side mortise 1"][0] > 0
    assert strip.turned == ("drawer 1 right side", "drawer 2 right side")


@pytest.mark.parametrize("name", ["print-chest", "openings"])
def test_the_groove_of_a_front_stops_on_its_flap_where_it_does_in_the_wood(name):
    plan = planned(name)
    drawers = {drawer.front.name: drawer for drawer in plan.drawers}
    seen = set()
    for strip in fold_strips(plan):
        for mate in strip.mates[:1]:
            if mate not in drawers:
                continue
            drawer = drawers[mate]
            [groove] = [cut for cut in drawer.front.cuts if cut.kind is CutKind.GROOVE]
            left, low, right, high = bounds_of([one for one in strip.strokes if getattr(one, "says", "") == f"{mate} groove"])
            rise = drawer.bottom_clearance.mm
            assert (low - rise, high - rise) == (groove.across.start.mm, groove.across.stop.mm)
            # Both its ends stop as far from the front's, the left one on this side of the paper and the right one on its back.
            assert min(abs(left), abs(right)) == groove.along.start.mm == (drawer.front.length - groove.along.stop).mm > 0
            assert max(abs(left), abs(right)) >= groove.along.start.mm + 3
            said = [text.plain for text in texts(strip.strokes)]
            told = said.index(groove.kind.value)
            assert said[told + 1 : told + 5] == GROOVE[name]
            seen |= {*strip.mates}
    assert seen == set(drawers)
    assert {board for board, _ in grooves_on_strips(plan)} == set(drawers)


def test_strips_serve_every_corner_that_is_alike_and_are_turned_over_for_the_other_hand():
    titles = [template.title for template in fold_strips(example("moth-cabinet"))]
    assert titles == [
        "face frame bottom rail, face frame top rail, left and right end, fold-over strip",
        "face frame rail under drawer 1 to 7, left and right end, fold-over strip",
    ]
    wide = piece(900, 500, 3, 2, joint=LOOSE)
    ends = {
        board.name
        for board in wide.boards
        for cut in board.cuts
        if cut.kind is CutKind.MORTISE and cut.surface in (Surface.END, Surface.FAR_END)
    }
    assert {name for strip in fold_strips(wide) for name in (*strip.names, *strip.turned)} == ends
    assert "face frame mullion 1" in ends


def test_a_strip_has_its_fold_a_triangle_on_it_a_bar_under_each_flap_and_figures_from_each_edge():
    for strip in fold_strips(openings()):
        fold = [stroke for stroke in strip.strokes if isinstance(stroke, Line) and stroke.role is Role.FOLD]
        assert [line.start[0] for line in fold] == [0]
        [triangle] = [stroke for stroke in strip.strokes if isinstance(stroke, Polyline) and stroke.says == "triangle"]
        assert sum(x for x, _ in triangle.points) == 0
        bars = [stroke for stroke in strip.strokes if isinstance(stroke, Fill) and stroke.ink == 1 and len(stroke.points) == 4]
        assert sorted(max(y for _, y in bar.points) for bar in bars)[:2] == [Fraction(0), Fraction("0.8")]
        said = [text.plain for text in texts(strip.strokes)]
        assert any("deep" in line for line in said)
        assert {"L", "R"} & set(said)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", [*examples(), *ODD])
def test_no_words_collide(name, paper):
    plan = planned(name)
    strips = fold_strips(plan)
    assert [found for strip in strips for found in collisions(strip.strokes)] == []
    sheets = lay_out(strips, paper_named(paper), title=plan.title, file=plan.file, unit=plan.rule.unit)
    assert [found for sheet in sheets for found in collisions(sheet.strokes)] == []
