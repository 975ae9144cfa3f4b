"""What differs between two versions of a job, and what becomes of parts that are cut already."""

from dataclasses import replace

import pytest

from joinlay.boards import Band, Surface
from joinlay.casework.outline_place import place_outline
from joinlay.cutlist.changes import Fate, compare_plans
from joinlay.lengths import inches
from tests.unit.casework.drawers import drawer, opening
from tests.unit.casework.outlines import box, wish
from tests.unit.cutlist.bench import board, groove, make_plan, mortise, ply, size

OLD = make_plan(board("drawer 1 back"), board("drawer 2 back"))


def test_a_plan_is_the_same_as_itself():
    assert compare_plans(OLD, OLD).is_none
    assert compare_plans(OLD, OLD).fates == ()


def test_sizes_that_differ_alike_are_said_once():
    changes = compare_plans(OLD, make_plan(board("drawer 1 back", "20 1/4"), board("drawer 2 back", "20 1/4")))
    (change,) = changes.parts
    assert (change.where, change.what, change.old, change.new) == ("drawer 1 and 2 back", "length", "20 in", "20 1/4 in")
    assert not changes.is_none
    assert changes.joints == changes.givens == changes.settings == ()


def test_parts_come_and_go():
    changes = compare_plans(OLD, make_plan(board("drawer 1 back"), board("drawer 3 back")))
    assert changes.parts == ()
    assert changes.fates == ((Fate.NOT_NEEDED, ("drawer 2 back",)), (Fate.NEW, ("drawer 3 back",)))


@pytest.mark.parametrize(
    ("new", "fate"),
    [
        (board("a", "19"), Fate.CUT_DOWN),
        (board("a", width="3"), Fate.CUT_DOWN),
        (board("a", "21"), Fate.AGAIN),
        # How far any cut may stray: 1/64 in.
        (board("a", "20 1/64"), Fate.HAIR),
        (board("a", "20 1/64", "3 63/64"), Fate.HAIR),
        (board("a", "20 1/64", "4 1/32"), Fate.AGAIN),
        (board("a", "19 63/64"), Fate.CUT_DOWN),
        (board("a", "19", "5"), Fate.AGAIN),
        (board("a", stock="oak"), Fate.AGAIN),
        (board("a", thickness="5/8"), Fate.AGAIN),
        (board("a", bands=(Band(Surface.END, "tape", size("1/16"), size("5"), 1),)), Fate.AGAIN),
        (board("a", cuts=[groove(), mortise("2"), mortise("9")]), Fate.SERVES),
        (board("a", cuts=[groove("1/2"), mortise("2")]), Fate.SERVES_UNJOINTED),
        (board("a", cuts=[groove()]), Fate.SERVES_UNJOINTED),
    ],
)
def test_what_becomes_of_a_part(new, fate):
    old = make_plan(board("a", cuts=[groove(), mortise("2")]))
    assert compare_plans(old, make_plan(new)).fates == ((fate, ("a",)),)


def with_outline(**spot):
    """The old plan with a finger hole in one of its backs."""
    back = OLD.boards[0]
    return replace(OLD, outlines=(place_outline(back, wish(box(25, 12), on="back", **spot)),))


def test_an_outline_of_the_maker_s_own_is_a_cut_like_others():
    added = compare_plans(OLD, with_outline(from_end="127"))
    assert added.fates == ((Fate.SERVES, ("drawer 1 back",)),)
    assert {(change.what, change.old) for change in added.joints if "points" in change.new} == {
        ("finger hole, lines of box.svg", "")
    }
    moved = compare_plans(with_outline(from_end="127"), with_outline(from_end="254"))
    assert moved.fates == ((Fate.SERVES_UNJOINTED, ("drawer 1 back",)),)
    (change,) = moved.joints
    assert change.what.startswith("finger hole, from the ")
    assert (change.old.split(" to ")[0], change.new.split(" to ")[0]) == ("5 in", "10 in")
    assert compare_plans(with_outline(), with_outline()).is_none


def test_parts_that_stay_as_they_are_are_counted():
    new = make_plan(board("drawer 1 back"), board("drawer 2 back", "19"), board("drawer 3 back"))
    changes = compare_plans(OLD, new)
    assert changes.untouched == 1
    assert (changes.count(Fate.CUT_DOWN, Fate.SERVES), changes.count(Fate.NEW)) == (1, 1)


def test_an_old_part_with_no_other_use_gives_wood_for_a_new_one():
    old = make_plan(board("a", "30", "6"), board("b", "26", "5"), board("c", "20", "4"), board("oak", "40", "9", "oak"))
    new = make_plan(board("c", "25", "5"), board("d", "10", "2"))
    changes = compare_plans(old, new)
    # The largest first, each from the smallest that gives it: c itself is too small now, and serves for d.
    assert changes.wood == (("c", "b"), ("d", "c"))
    assert compare_plans(old, old).wood == ()


def test_wood_is_not_turned_across_its_grain():
    assert compare_plans(make_plan(board("a", "5", "20")), make_plan(board("b", "20", "5"))).wood == ()


def test_another_title_alone_changes_nothing_that_is_cut():
    changes = compare_plans(OLD, replace(OLD, title="a new name"))
    assert changes.is_nothing_cut
    assert not changes.is_none
    ((change,), untouched) = changes.givens, changes.untouched
    assert (change.what, change.old, change.new, untouched) == ("title", "chest", "a new name", 2)


def test_another_cutter_is_seen():
    fewer = replace(OLD, shop=replace(OLD.shop, cutters=OLD.shop.cutters[1:]))
    (change,) = compare_plans(OLD, fewer).givens
    assert (change.where, change.what) == ("the shop", "cutters")
    assert change.old.endswith(change.new)


def test_joints_are_compared_by_where_they_lie():
    old = make_plan(board("a", cuts=[groove(), mortise("2")]), board("b", cuts=[groove()]))
    new = make_plan(
        board("a", cuts=[groove("1/2"), mortise("2"), mortise("9", name="mortise 2")]), board("b", cuts=[groove("1/2")])
    )
    changes = compare_plans(old, new)
    said = {(change.where, change.what): (change.old, change.new) for change in changes.joints}
    assert said["a, b", "bottom groove, from the bottom edge"] == ("3/8 in to 5/8 in", "1/2 in to 3/4 in")
    assert said["a", "mortise 2, from the left end"][0] == ""
    assert said["a", "mortise 2, from the inside face"] == ("", "0 in to 11/32+ in (9 mm)")
    assert len(said) == 4
    assert changes.parts == ()


def test_two_cuts_of_one_name_are_both_seen():
    old = make_plan(board("a", cuts=[mortise("2"), mortise("9")]))
    new = make_plan(board("a", cuts=[mortise("2"), mortise("10")]))
    (change,) = compare_plans(old, new).joints
    assert change.what == "mortise 1, 2, from the left end"


def test_what_the_maker_wrote_is_compared():
    old = make_plan(board("a"), kerf=inches("1/8"))
    stock = replace(ply(), measured=size("15/32"))
    new = make_plan(board("a"), stocks={"ply": stock}, kerf=inches("3/32"), practice={"groove offset": inches("1/2")})
    said = {(change.where, change.what): (change.old, change.new) for change in compare_plans(old, new).givens}
    assert said == {
        ("ply", "thickness"): ("1/2 in", "15/32 in"),
        ("the shop", "saw kerf"): ("1/8 in", "3/32 in"),
        ("the shop", "groove offset"): ("3/8 in", "1/2 in"),
    }


def test_stock_that_was_only_measured_again_is_the_same_wood():
    again = {"ply": replace(ply(), measured=size("15/32"))}
    part = board("a", thickness="15/32")
    assert compare_plans(make_plan(board("a")), make_plan(part, stocks=again)).fates == ()
    thicker = {"ply": replace(ply("ply", "5/8"), measured=size("15/32"))}
    assert compare_plans(make_plan(board("a")), make_plan(part, stocks=thicker)).fates == ((Fate.AGAIN, ("a",)),)


def test_cuts_that_change_alike_are_said_together():
    old, new = ([mortise(at, name=f"mortise {n}") for n, at in enumerate(spots, start=1)] for spots in (("2", "2"), ("3", "3")))
    (change,) = compare_plans(make_plan(board("a", cuts=old)), make_plan(board("a", cuts=new))).joints
    assert change.what == "mortise 1 and 2, from the left end"


def test_settings_of_another_floor_are_compared_as_facts():
    changes = compare_plans(
        OLD, OLD, {"set-up 1": {"fence": "1/4 in", "height": "1/4 in"}}, {"set-up 1": {"fence": "3/8 in", "height": "1/4 in"}}
    )
    (change,) = changes.settings
    assert (change.where, change.what, change.old, change.new) == ("set-up 1", "fence", "1/4 in", "3/8 in")


def test_a_real_drawer_in_a_wider_opening():
    old, new = drawer(), drawer(opening=opening(width="18 1/2"))
    before, after = (make_plan(*made.assembly.boards, drawers=[made]) for made in (old, new))
    # The drawers bring their own boards as well; parts go by name, so each counts once.
    changes = compare_plans(before, after)
    given = {(change.where, change.what): (change.old, change.new) for change in changes.givens}
    assert given == {("drawer 1 opening", "width"): ("18 3/8 in", "18 1/2 in")}
    fates = dict(changes.fates)
    assert set(fates[Fate.AGAIN]) == {"drawer 1 front", "drawer 1 back", "drawer 1 bottom"}
    assert set(fates) == {Fate.AGAIN}
