"""Pulls: place, growth, holes and blanks (PU-1 to PU-3)."""

from math import hypot

import pytest

from joinlay.boards import CutKind, CutUse, Datum, Place, Shape, Span, Surface
from joinlay.casework.pulls import ByEye, ByStep, Dot, Pulls, drill_holes, knob_blanks, place_pulls
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import Fraction, Unit, inches, mm, written
from joinlay.settings import settings_for
from joinlay.shop import MachineKind, usual_shop
from tests import by_hand

SHOP = usual_shop(Unit.INCH)
DATUM = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")


def inch(text):
    return written(inches(text), text, "test")


def bank(*heights, width="18"):
    """Fronts from the top down, standing 1 in apart from 30 in up."""
    z, made = mm(Fraction(762)), []
    for n, height in enumerate(heights, start=1):
        z = z - inches(height) - inches(1)
        place = Place.at(mm(0), mm(19), z, "+X", "+Z", "-Y")
        made.append(
            by_hand.board(
                f"drawer {n} front", "drawer front", "cherry", inch(width), inch(height), inch("3/4"), DATUM, place=place
            )
        )
    return made


def pulls(**changed):
    usual = {"stock": "walnut", "diameter": inch("1"), "projection": inch("1"), "hole": inch("3/8")}
    return Pulls(**{**usual, **changed})


def test_one_knob_sits_where_the_diagonals_cross():
    one = place_pulls(bank("6"), pulls(), SHOP)
    assert [(p.from_left, p.from_top, p.from_bottom) for p in one] == [(inches(9), inches(3), inches(3))]


def test_wide_fronts_take_two_in_line_down_the_bank():
    two = place_pulls(bank("4", "6", width="24"), pulls(), SHOP)
    assert [p.from_left for p in two] == [inches(6), inches(18)] * 2
    assert [p.number for p in two] == [1, 2, 1, 2]


def test_the_maker_may_choose_count_and_share():
    two = place_pulls(bank("4"), pulls(count=2, share=Fraction(1, 6)), SHOP)
    assert [p.from_left for p in two] == [inches(3), inches(15)]


def test_knobs_grow_by_the_usual_step_downwards():
    grown = place_pulls(bank("4", "5", "6"), pulls(growth=ByStep()), SHOP)
    assert [p.diameter for p in grown] == [inches("1"), inches("1 1/16"), inches("1 2/16")]


def test_knobs_that_look_alike_grow_with_their_distance_from_the_eye():
    eye = ByEye(inch("60"), inch("40"))
    fronts = bank("4", "5", "8")
    grown = place_pulls(fronts, pulls(growth=eye, diameter=inch("2")), SHOP)
    middles = [30 - 1 - 2, 30 - 1 - 4 - 1 - 2.5, 30 - 1 - 4 - 1 - 5 - 1 - 4]
    away = [hypot(40, 60 - z) for z in middles]
    for pull, distance in zip(grown, away, strict=True):
        assert abs(float(pull.diameter.inches) - 2 * distance / away[0]) <= 1 / 64
    assert grown[0].diameter == inches("2") < grown[2].diameter
    assert grown[0].diameter == SHOP.rule.round(grown[0].diameter)


def test_deep_drawers_may_keep_the_knob_above_the_middle():
    kept = place_pulls(bank("4", "10"), pulls(from_top=inch("2 1/2")), SHOP)
    assert [p.from_top for p in kept] == [inches("2"), inches("2 1/2")]


def test_a_dot_grows_by_its_own_step_below_those_that_are_alike():
    dot = Dot(inch("1/4"), inch("1/32"), alike=2)
    dots = [p.dot for p in place_pulls(bank("4", "4", "4", "4"), pulls(dot=dot), SHOP)]
    assert dots == [inches("1/4"), inches("1/4"), inches("9/32"), inches("10/32")]


def test_a_dot_wider_than_its_knob_is_refused():
    with pytest.raises(Refused, match="dot is"):
        place_pulls(bank("4"), pulls(dot=Dot(inch("1"))), SHOP)


def test_a_dot_goes_neither_through_its_knob_nor_into_its_spigot():
    made = pulls(dot=Dot(inch("1/4"), depth=inch("3/8")))
    (knob, *_) = place_pulls(bank("4"), made, SHOP)
    assert knob.dot_depth == inch("3/8")
    with pytest.raises(Refused, match="stands out") as refused:
        place_pulls(bank("4"), pulls(dot=Dot(inch("1/4"), depth=made.projection)), SHOP)
    (change,) = refused.value.finding.remedies[0].changes
    assert (change.table, change.key, change.value) == ("pulls", "dot.depth", made.projection / 2)


@pytest.mark.parametrize("count", [1, 2])
def test_the_blank_is_bored_for_the_dot_of_each_of_its_knobs(count):
    fronts = bank("4", "5")
    knobs = place_pulls(fronts, pulls(count=count, dot=Dot(inch("1/4"), inch("1/16"))), SHOP)
    for n, blank in enumerate(knob_blanks(knobs, "oak", fronts, SHOP.practice)):
        holes = blank.cuts_of(CutUse.DOT_HOLE)
        # A dot of 1/4 goes in 1/4, and 1/4 is parted off: from both ends where two knobs come from one blank.
        assert [(hole.surface, hole.depth) for hole in holes] == [(Surface.END, inch("1/2")), (Surface.FAR_END, inch("1/2"))][
            :count
        ]
        assert {hole.across.size for hole in holes} == {hole.into.size for hole in holes} == {inch("1/4") + inch("1/16") * n}
        assert {(hole.across.centre, hole.into.centre) for hole in holes} == {(blank.width / 2, blank.thickness / 2)}


def test_a_card_bores_the_blank_and_says_what_is_turned_away():
    fronts = bank("4", "5")
    knobs = place_pulls(fronts, pulls(count=2, dot=Dot(inch("1/4"))), SHOP)
    blanks = knob_blanks(knobs, "oak", fronts, SHOP.practice)
    found = settings_for(blanks, SHOP)
    (card,) = found.settings
    assert (card.machine, card.tool.width, card.height) == (MachineKind.DRILL, inch("1/4"), inch("1/2"))
    assert {(work.entry_word, work.fence_word) for work in card.works} == {("knob end", "face"), ("waste end", "face")}
    assert {position.centre for work in card.works for position in work.positions} == {blanks[0].width / 2}
    (said,) = [remark.sentence(SHOP.rule.text) for remark in found.remarks]
    assert said == "1/4 in of it is turned away with the face of the knob, so 1/4 in are left for the dot; bore it before turning"


def test_a_knob_higher_than_its_front_is_refused():
    with pytest.raises(Refused, match="drawer 1 front"):
        place_pulls(bank("1"), pulls(diameter=inch("1 1/4")), SHOP)


def test_the_hole_is_a_cut_in_the_front():
    (front,) = bank("6")
    drilled = drill_holes(front, place_pulls([front], pulls(), SHOP))
    hole = drilled.cut_named("pull hole 1")
    assert (hole.kind, hole.shape, hole.surface) == (CutKind.HOLE, Shape.ROUND, Surface.FAR_FACE)
    assert (hole.along.centre, hole.across.centre, hole.along.size, hole.depth) == (
        inches(9),
        inches(3),
        inches("3/8"),
        inches("3/4"),
    )


def test_a_blind_hole_is_drilled_from_the_outside():
    (front,) = bank("6")
    hole = drill_holes(front, place_pulls([front], pulls(depth=inch("1/2")), SHOP)).cuts[0]
    assert (hole.into.start, hole.into.stop) == (inches("1/4"), inches("3/4"))


def test_a_hole_that_meets_another_cut_or_is_too_deep_is_refused():
    (front,) = bank("1")
    up, deep = Span.of(inches("3/8"), inches("5/8")), Span.of(mm(0), inches("1/4"))
    groove = by_hand.cut(CutKind.GROOVE, Surface.FACE, Span.of(mm(0), inches(18)), up, deep, "bottom groove")
    with pytest.raises(Refused, match="would meet the bottom groove"):
        drill_holes(front.with_cuts(groove), place_pulls([front], pulls(diameter=inch("3/4")), SHOP))
    with pytest.raises(Refused, match="deep in a front"):
        drill_holes(front, place_pulls([front], pulls(diameter=inch("3/4"), depth=inch("1")), SHOP))


def test_two_knobs_come_from_one_blank():
    fronts = bank("6", width="30")
    (blank,) = knob_blanks(place_pulls(fronts, pulls(), SHOP), "walnut", fronts, SHOP.practice)
    assert blank.length == 2 * inches("1 3/4") + 3 * inches("1/4")
    assert blank.width == blank.thickness == inches("1 1/4")
    assert blank.name == "drawer 1 front knob blank"


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"count": 3}, "write 1 or 2"),
        ({"share": Fraction(1, 2)}, "less than 1/2"),
        ({"hole": written(inches(1), "hole", "test")}, "cover its hole"),
        ({"projection": written(mm(0), "projection", "test")}, "more than 0"),
    ],
)
def test_what_is_no_pull_is_said(changed, said):
    with pytest.raises(BadInput, match=said):
        pulls(**changed)


def test_a_front_without_a_place_has_no_distance_from_the_eye():
    alone = by_hand.board("drawer 1 front", "drawer front", "cherry", inch("18"), inch("6"), inch("3/4"), DATUM)
    with pytest.raises(BadInput, match="no place"):
        place_pulls([alone], pulls(growth=ByEye(inch("60"), inch("40"))), SHOP)
