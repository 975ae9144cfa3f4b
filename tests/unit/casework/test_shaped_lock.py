"""A corner from a cutter with a shape of its own, known by its test cut (MS-11); the values counted by hand."""

from dataclasses import replace

import pytest

from joinlay.boards import CutUse, Surface
from joinlay.boards.meeting import unmet
from joinlay.casework.corners import SHAPED_LOCK
from joinlay.casework.opening import BackHeight
from joinlay.findings import Harm, Refused
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.joints.shaped_corner import design_shaped_corner
from joinlay.lengths import NOTHING, Length, inches, mm
from joinlay.settings import Measured, Role, ToolKind
from joinlay.settings.wording import cut_words, lie_words, machine_words, put_right_words
from joinlay.shop import MachineKind
from tests.unit.casework.drawers import cherry, corner_cutter, drawer, plywood, shop, size, usual_make
from tests.unit.jobs.jobs import GOOD, only_trouble

BOTH = {"front_joint": SHAPED_LOCK, "back_joint": SHAPED_LOCK, "back_height": BackHeight.ON_BOTTOM}


@pytest.fixture(scope="module")
def made():
    """Front 3/4, sides and back 1/2; the cutter's slot and tongue are 3/16, the tongue 1/4 long."""
    return drawer(make=usual_make(**BOTH))


def spans(board, *uses):
    return [
        (cut.along.start.inches, cut.along.stop.inches, cut.into.start.inches, cut.into.stop.inches)
        for cut in board.cuts_of(*uses)
    ]


def eighths(*numbers):
    return tuple(inches(number).inches for number in numbers)


def test_the_front_has_a_slot_as_deep_as_the_sides_are_thick_and_a_tongue_shorter_by_the_rest(made):
    assert spans(made.front, CutUse.SHAPED_SLOT)[0] == eighths(0, "1/2", "3/16", "3/8")
    # 1/2 less the tongue of 1/4.
    assert spans(made.front, CutUse.SHAPED_END)[0] == eighths(0, "1/4", 0, "3/16")
    left = made.sides[0]
    assert spans(left, CutUse.SHAPED_DADO)[0] == eighths("3/16", "3/8", 0, "1/4")


def test_a_tongue_of_half_the_sides_is_the_longest_that_is_not_warned_of(made):
    """LR-4: a dado of at most half the side."""
    assert corner_cutter().length * 2 == made.sides[0].thickness
    assert "dado depth" not in {one.kind for one in made.assembly.findings}
    longer = replace(corner_cutter(), length=size("17/64"))
    own = replace(shop(), corner_cutters=(longer,))
    assert "dado depth" in {one.kind for one in drawer(make=usual_make(**BOTH), shop=own).assembly.findings}


def test_lips_stand_before_and_behind_the_sides(made):
    # In front 3/4 - 3/16 - 3/16, behind 1/2 - 3/16 - 3/16.
    assert {side.length for side in made.sides} == {made.length - inches("3/8") - inches("1/8")}
    assert made.back.length == made.front.length
    assert made.back.place.point(NOTHING, NOTHING, made.back.thickness)[1] == made.length.mm


@pytest.mark.parametrize(
    ("changed", "said", "number", "would_do"),
    [
        ({"front": cherry("7/16")}, "leave a lip", "thinnest", lambda best: {"front": cherry(f"{best.inches}")}),
        ({"front": cherry("3/8")}, "take the whole", "thinnest", lambda best: {"front": cherry(f"{best.inches}")}),
        ({"sides": plywood("thin", "5/16")}, "makes a dado", "thinnest", lambda best: {"sides": plywood("s", f"{best.inches}")}),
        (
            {"sides": plywood("thick", "3/4")},
            "cutter reaches",
            "thickest",
            lambda best: {"sides": plywood("s", f"{best.inches}")},
        ),
        ({"sides": plywood("thick", "5/8")}, "short grain", "thickest", lambda best: {"sides": plywood("s", f"{best.inches}")}),
    ],
    ids=["thin front", "thinner front", "thin sides", "thick sides", "thickish sides"],
)
def test_wood_that_does_not_suit_the_cutter_is_refused_with_what_would(changed, said, number, would_do):
    with pytest.raises(Refused, match=said) as refused:
        drawer(make=usual_make(front_joint=SHAPED_LOCK, **changed))
    finding = refused.value.finding
    best = finding.numbers[number]
    assert isinstance(best, Length)
    drawer(make=usual_make(front_joint=SHAPED_LOCK, **would_do(best)))
    assert [remedy.changes[0].key for remedy in finding.remedies] == [next(iter(changed)), "front-joint"]


def test_a_dado_over_half_the_side_is_warned_of():
    def warned(thickness):
        found = drawer(make=usual_make(front_joint=SHAPED_LOCK, sides=plywood("s", thickness))).assembly.findings
        return [finding for finding in found if finding.kind == "dado depth" and finding.harm is Harm.WARN]

    (finding,) = warned("15/32")
    assert finding.numbers["thick"] == inches("1/2")
    assert not warned("1/2")


def test_a_shop_without_such_a_cutter_or_a_table_for_it_says_so():
    without = replace(shop(), corner_cutters=())
    with pytest.raises(Refused, match="no cutter that makes both halves"):
        drawer(make=usual_make(front_joint=SHAPED_LOCK), shop=without)
    own = shop()
    no_table = replace(own, machines=replace(own.machines, router_table=None))
    with pytest.raises(Refused, match="runs at a router table"):
        drawer(make=usual_make(front_joint=SHAPED_LOCK), shop=no_table)


def test_of_several_cutters_the_one_that_suits_the_wood_is_taken():
    small = replace(corner_cutter(), slot=size("1/8"), tongue=size("1/8"))  # 1/8 of short grain is too little for 1/2
    large = replace(corner_cutter(), slot=size("7/32"), tongue=size("7/32"))
    for several in ((small, corner_cutter()), (corner_cutter(), small)):
        made = drawer(make=usual_make(front_joint=SHAPED_LOCK), shop=replace(shop(), corner_cutters=several))
        assert spans(made.front, CutUse.SHAPED_SLOT)[0][3] == inches("3/8").inches
    nearer = drawer(make=usual_make(front_joint=SHAPED_LOCK), shop=replace(shop(), corner_cutters=(corner_cutter(), large)))
    assert spans(nearer.front, CutUse.SHAPED_SLOT)[0][3] == inches("7/16").inches


def test_a_tongue_measured_thinner_than_its_slot_leaves_that_much_play():
    loose = replace(corner_cutter(), tongue=size("11/64"))
    joint = design_shaped_corner(upright=size("1/2"), flat=size("3/4"), cutter=loose, practice=shop().practice)
    assert (joint.tongue_thickness, joint.dado_offset, joint.slot_width) == (inches("11/64"), inches("11/64"), inches("3/16"))
    made = drawer(make=usual_make(front_joint=SHAPED_LOCK), shop=replace(shop(), corner_cutters=(loose,)))
    gaps = [facing.gap for met in made.assembly.meetings for facing in met.facings if facing.where == "in the slot of the"]
    assert gaps == [inches("1/64")] * 2
    assert unmet(made.assembly.meetings, {board.role: board for board in made.assembly.boards}) == ()


# -- from a job to its cards -----------------------------------------------------------------------------

JOB = """
[shop]
corner-cutters = [{ slot = "5/32", length = "15/64", deepest = "5/8", diameter = "1 1/2" }]
"""


def job(extra=""):
    return GOOD.replace("[drawers]\n", '[drawers]\nfront-joint = "shaped lock"\n' + extra) + JOB


@pytest.fixture(scope="module")
def planned():
    """Sides of 0.483; so a third of that is 0.161, and the tongue of 0.156 is a hair short of it."""
    return plan(read_job(job().replace("measured = 0.483", 'measured = "15/32"'), "chest.toml"))


def test_both_halves_are_cut_at_one_height_and_two_fences(planned):
    cards = [setting for setting in planned.settings.settings if setting.role is Role.SHAPED]
    assert {cut_words(card) for card in cards} == {"shaped slot and tongue in drawer front", "front shaped dado in drawer sides"}
    by_part = {card.works[0].fence_word: card for card in cards}
    # 5/32 and 5/32 up; out of the fence by the tongue's length for the sides, and by their thickness for the front, in two passes
    # of 1/4 at most.
    assert {card.height for card in cards} == {inches("5/16")}
    assert by_part["inside face"].far_side == inches("15/64")
    front = by_part["left end"]
    assert [each.near_side for each in front.passes] == [inches("1/4") - inches("1 1/2"), inches("15/32") - inches("1 1/2")]
    assert lie_words(front, front.works[0]) == "inside face down, left end to the fence"
    assert by_part["inside face"].works[0].entry is Surface.END
    assert machine_words(front, planned.rule.text) == "router table, 1 1/2 in corner cutter"
    assert (front.machine, front.tool.kind, front.speed) == (MachineKind.ROUTER_TABLE, ToolKind.SHAPED, 18000)


def test_its_test_piece_sets_the_height_by_the_tongue_and_the_fence_by_the_slot(planned):
    front = next(card for card in planned.settings.settings if card.role is Role.SHAPED and "end" in card.works[0].fence_word)
    assert {each.measured: each.value for each in front.test_piece.measures} == {
        Measured.BELOW_SLOT: inches("5/32"), Measured.SLOT_DEPTH: inches("15/32"),
    }  # fmt: skip
    thick = put_right_words(front, Measured.BELOW_SLOT, Length(inches("5/32").mm + mm("0.254").mm), planned.rule)
    assert thick.endswith("too thick: lower the cutter by 0.01 in.")
    shallow = put_right_words(front, Measured.SLOT_DEPTH, Length(inches("15/32").mm - mm("0.254").mm), planned.rule)
    assert shallow.endswith("too shallow: move the fence 0.01 in away from the cutter.")


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ('{ slot = "3/16", length = "1/4", deepest = "5/8" }', "diameter is missing"),
        (
            '{ slot = "3/16", tongue = "1/4", length = "1/4", deepest = "5/8", diameter = "1 1/2" }',
            "lower the cutter until it goes in",
        ),
        ('{ slot = "3/16", length = "5/8", deepest = "5/8", diameter = "1 1/2" }', "so the slot is deeper"),
        ('{ slot = "3/16", length = "1/4", deepest = "2", diameter = "1 1/2" }', "less than it is wide"),
        ('{ slot = "0", length = "1/4", deepest = "5/8", diameter = "1 1/2" }', "more than 0"),
        ('"3/16"', "corner-cutter"),
    ],
    ids=["lacks", "thick", "long", "deep", "nothing", "no table"],
)
def test_a_cutter_that_can_not_be_is_said_with_its_line(given, said):
    trouble = only_trouble(f"{GOOD}\n[shop]\ncorner-cutters = [{given}]\n")
    assert trouble.startswith("chest.toml:28: shop, corner-cutter")
    assert said in trouble
