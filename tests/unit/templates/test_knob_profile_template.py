"""A knob's profile as a template for the lathe, and whether it is the size of the knobs."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards.outline import Ring, StraightRun, outline_of
from joinlay.casework.pulls import Pull
from joinlay.checks.knob_profile_check import check_profile
from joinlay.documents.outline_file import read_outline
from joinlay.lengths import dimension, mm
from joinlay.pen.marks import Text, bounds_of
from joinlay.templates import Role
from joinlay.templates.knob_profile_template import profile_template, steps_of
from tests import by_hand
from tests.measured.collisions import collisions
from tests.unit.templates.parts import METRIC
from tests.unit.templates.reading import exact, lines


def profile(*points):
    return outline_of("knob.svg", [StraightRun(tuple(exact(*point) for point in points))])


#: A neck 12 across for 2 mm, then 8 across, then a cone to 16 across at 15, and round the tip at 20.
KNOB = profile((0, 6), (2, 6), (2, 4), (8, 4), (15, 8), (20, 0))


def knob(front="drawer 1 front", across="16", out="20", depth=None):
    size = {key: dimension(mm(text)) for key, text in {"across": across, "out": out, "hole": "6", "at": "50"}.items()}
    return Pull(
        by_hand.part(front), 1, size["at"], size["at"], size["at"], size["across"], size["hole"],
        None if depth is None else dimension(mm(depth)), size["out"], None,
    )  # fmt: skip


def said(template):
    return [stroke.plain for stroke in template.strokes if isinstance(stroke, Text)]


def test_steps_are_the_ends_the_corners_and_the_widest_and_narrowest_places():
    # The step at 2 is told once, at its wider side.
    assert steps_of(KNOB) == (exact(0, 6), exact(2, 6), exact(8, 4), exact(15, 8), exact(20, 0))
    assert steps_of(outline_of("ball.svg", [Ring(exact(5, 5), Fraction(5))])) == (exact(0, 5), exact(5, 10), exact(10, 5))


def test_a_smooth_curve_has_no_steps_but_its_ends_and_its_belly():
    """Half an ellipse 20 long and 8 high, out of a file."""
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40"><path d="M0 '
        '20A10 8 0 0 1 20 20"/></svg>'
    )
    start, belly, tip = steps_of(read_outline(svg.encode(), "ball.svg"))
    assert (start, tip) == (exact(0, 0), exact(20, 0))
    assert belly[1] == 8
    assert abs(belly[0] - 10) < 1


def test_the_template_lies_over_its_centre_line_from_the_front_of_the_drawer():
    made = profile_template(KNOB, [knob()], METRIC)
    assert made.title == "drawer 1 front knob blank, profile"
    shape = [stroke for stroke in made.strokes if stroke.role is Role.SHAPE]
    assert bounds_of(shape) == exact(0, 0, 20, 8)
    (centre,) = [line for line in lines(made.strokes) if line.says == "knob centre line"]
    assert (centre.start[1], centre.end[1]) == exact(0, 0)
    (front,) = [line for line in lines(made.strokes) if line.says == "front of the drawer"]
    assert (front.start[0], front.end[0]) == exact(0, 0)
    measured = [line for line in lines(made.strokes) if line.role is Role.DIMENSION]
    assert [line.end for line in measured][:4] == [exact(0, 6), exact(2, 6), exact(8, 4), exact(15, 8)]


def test_it_says_the_diameter_at_each_step():
    words = said(profile_template(KNOB, [knob(depth=15)], METRIC))
    assert words[:5] == ["1", "2", "3", "4", "5"]
    assert words[5:] == [
        "drawer 1 front knob", "PROFILE", "half of it, over the centre line   make 1", "spigot 6 across, 15 long",
        "1   0 from the front, 12 across", "2   2 from the front, 12 across", "3   8 from the front, 8 across",
        "4   15 from the front, 16 across", "5   20 from the front, 0 across", "drawn in knob.svg",
    ]  # fmt: skip
    assert "spigot 6 across, right through the front" in said(profile_template(KNOB, [knob()], METRIC))


def test_it_is_for_the_knobs_of_its_own_size():
    knobs = [knob(), knob("drawer 2 front", "17"), knob("drawer 3 front"), replace(knob("drawer 3 front"), number=2)]
    made = profile_template(KNOB, knobs, METRIC)
    assert made.names == ("drawer 1 front knob blank", "drawer 3 front knob blank")
    assert "half of it, over the centre line   make 3" in said(made)


@pytest.mark.parametrize(
    "points", [KNOB, profile(*((x, 5 + x % 2 * 3) for x in range(12))), profile((0, 1), (90, 40))], ids=list("abc")
)
def test_nothing_collides(points):
    knobs = [knob("drawer in the row on the very top of it front"), knob()]
    assert collisions(profile_template(points, knobs, METRIC).strokes) == []


def findings(*knobs):
    return [(found.harm.name, found.sentence(METRIC.text)) for found in check_profile(KNOB, knobs, METRIC)]


def test_a_profile_that_fits_is_passed_in_silence():
    assert findings(knob(), knob(across="16.25", out="19.75")) == []


def test_knobs_that_grow_are_noted():
    ((harm, words),) = findings(knob(), knob(across="16.5"), knob(across="18"))
    assert harm == "NOTE"
    assert "true for 1 of the 3 knobs, those 16 mm across; the others, up to 18 mm, are turned" in words


def test_a_profile_of_another_size_is_warned_of():
    assert findings(knob(across="18"), knob(across="19", out="24")) == [
        ("WARN", "The profile in knob.svg is 16 mm across at its widest, and no knob is; the nearest is 18 mm"),
    ]
    assert findings(knob(out="24")) == [("WARN", "The profile in knob.svg is 20 mm long and the knobs stand out 24 mm")]
