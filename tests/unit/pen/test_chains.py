"""Chains of dimensions: every figure stands where its length is, and none over another."""

from fractions import Fraction
from itertools import combinations, pairwise

from joinlay.pen.dimensioning import LevelChain, UprightChain
from joinlay.pen.lettering import words
from joinlay.pen.marks import Line, Text, text_box
from tests.measured.collisions import boxes_overlap, collisions

F = Fraction


def stops(*ends, height="7/2"):
    figures = [words(str(b - a), F(height)) for a, b in pairwise(ends)]
    return tuple((F(end), content) for end, content in zip(ends, [*figures, ()], strict=True))


def texts(chain):
    return {stroke.plain: text_box(stroke) for stroke in chain.spelled() if isinstance(stroke, Text)}


def test_figures_with_room_stand_between_their_strokes():
    chain = LevelChain(stops(0, 40, 100), F(-8), F(0))
    found = texts(chain)
    assert (found["40"][0] + found["40"][2]) / 2 == 20
    assert (found["60"][0] + found["60"][2]) / 2 == 70
    assert chain.is_roomy
    assert chain.fits


def test_narrow_ends_have_their_figures_outside_and_narrow_middles_below():
    chain = LevelChain(stops(0, 3, 40, 44, 80, 83), F(-8), F(0))
    boxes = [text_box(s) for s in chain.spelled() if isinstance(s, Text)]
    assert min(box[0] for box in boxes) < -3
    assert max(box[2] for box in boxes) > 86
    assert texts(chain)["4"][3] < -8
    assert not chain.is_roomy
    assert chain.fits
    assert collisions(list(chain.spelled())) == []


def test_an_inner_chain_keeps_its_figures_within_its_ends():
    chain = LevelChain(stops(0, 2, 40, 42), F(-8), F(0), is_inner=True)
    assert all(box[0] > 0 and box[2] < 42 for box in texts(chain).values())
    assert chain.fits
    assert not LevelChain(stops(0, 2, 4), F(-8), F(0), is_inner=True).fits


def test_crowded_figures_beside_an_upright_line_give_way():
    chain = UprightChain(stops(0, 4, 8, 12, 16, 20, 60), F(-8), F(0), F(-2), F(62))
    assert chain.fits
    boxes = [text_box(s) for s in chain.spelled() if isinstance(s, Text)]
    assert len(boxes) == 6
    assert not any(boxes_overlap(one, two) for one, two in combinations(boxes, 2))
    assert all(box[2] < -8 for box in boxes)
    assert not UprightChain(stops(0, 4, 8, 12, 16, 20), F(-8), F(0), F(0), F(20)).fits


def test_the_lines_stand_where_the_lengths_end():
    chain = UprightChain(stops(0, 10, 30), F(-8), F(0), F(-2), F(40))
    level = [s for s in chain.spelled() if isinstance(s, Line) and s.start[1] == s.end[1]]
    assert [line.start[1] for line in level] == [0, 10, 30]
