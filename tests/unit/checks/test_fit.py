"""Tolerance stacking, worst case and root-sum-square."""

from dataclasses import replace
from fractions import Fraction
from math import sqrt

import pytest

from joinlay.boards import PartKind, PartRole
from joinlay.boards.meeting import Tie
from joinlay.checks.fit import Stack, check_fit, guide_stack, height_stack, kicker_stack, width_stack
from joinlay.checks.play import guide_play, kicker_gap
from joinlay.checks.solids import check_assembly
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import Length, dimension, inches, mm
from tests.odd_pieces import sound_piece
from tests.unit.checks.making import SHOP, between_guides, drawer, practice_with, sheet, shop_with, under_kicker


def stack(clearance, *strays):
    return Stack(dimension(mm(clearance)), tuple((f"size {n}", mm(stray)) for n, stray in enumerate(strays)))


def test_a_3_4_5_stack():
    both = stack(6, 3, 4)
    assert (both.likely, both.at_worst) == (mm(5), mm(7))
    assert (both.least_likely, both.least_at_worst, both.most_at_worst) == (mm(1), mm(-1), mm(13))


def test_likely_is_never_told_too_small():
    odd = stack(6, "0.3", "0.4", "0.7")
    exact = sqrt(0.3**2 + 0.4**2 + 0.7**2)
    assert exact <= float(odd.likely.mm) < exact + 0.001


def test_nothing_strays_without_sizes():
    assert stack(1).likely == stack(1).at_worst == mm(0)


def test_no_clearance_binds_even_where_nothing_strays():
    assert stack(0).may_bind
    assert stack(0, 0).may_bind
    assert not stack("0.1", "0.1").may_bind


def test_a_drawer_hangs_on_six_sizes():
    assert [name for name, _ in width_stack(drawer(), SHOP.practice).strays] == [
        "opening width", "back length", "left dado depth", "right dado depth", "left side thickness", "right side thickness",
    ]  # fmt: skip


def harms(made, tolerance="0.4"):
    return [(finding.kind, finding.harm) for finding in check_fit(made, shop_with(cutting_tolerance=tolerance))]


def test_measured_stock_and_usual_cuts_fit():
    assert harms(drawer()) == [("fit", Harm.NOTE)]


def test_stock_nobody_measured_may_bind():
    loose = sheet("sides", 12, measured=False)
    made = drawer(sides=loose, back=loose)
    (finding,) = check_fit(made, SHOP)
    assert finding.harm is Harm.NOTE
    tight = drawer(sides=loose, back=loose, shop=shop_with(side_clearance="0.6"))
    (finding,) = check_fit(tight, SHOP)
    assert finding.harm is Harm.WARN
    assert "side thickness" in finding.sentence(str)


@pytest.mark.parametrize(("clearance", "harm"), [("0.5", Harm.NOTE), ("0.4999", Harm.WARN)])
def test_the_limit_itself_still_fits(clearance, harm):
    """Sides stray 0.1 mm each and four cuts 0.4949: the root of 4 x 0.4949^2 + 2 x 0.1^2 is 0.9998 and rounds up to 1 mm."""
    made = drawer(shop=shop_with(side_clearance=clearance, top_clearance=2))
    assert width_stack(made, practice_with(cutting_tolerance="0.4949")).likely == mm(1)
    assert harms(made, "0.4949") == [("fit", harm)]


def test_height_may_bind_too():
    made = drawer(shop=shop_with(top_clearance="0.3"))
    assert height_stack(made, SHOP.practice).clearance == mm("0.3")
    (finding,) = check_fit(made, SHOP)
    assert finding.harm is Harm.WARN
    assert "room over the sides" in finding.sentence(str)


def test_no_clearance_at_all_is_left_to_the_check_of_play():
    made = drawer(shop=shop_with(side_clearance=0))
    assert [finding.harm for finding in check_fit(made, SHOP)] == [Harm.NOTE]


def test_shares_of_a_millimetre_stay_exact():
    assert stack(1, Fraction(1, 3), Fraction(1, 3)).at_worst == mm("2/3")


def beside(gap, hang="0.8"):
    """The usual drawer between guides ``gap`` off both its sides, and kickers ``hang`` over them."""
    return under_kicker(between_guides(drawer(), gap), hang)


def test_guides_and_kicker_are_judged_where_they_stand():
    """Between guides six cuts of 0.4 and two sides of 0.1: the root of their squares is 0.990; under a kicker four cuts: 0.8."""
    made = beside("0.7")
    assert guide_play(made) == mm("1.4")
    assert guide_stack(made, mm("1.4"), SHOP.practice).likely == mm("0.99")
    assert [f.harm for f in check_fit(made, SHOP)] == [Harm.NOTE]
    assert "between its guides" in check_fit(made, SHOP)[0].what


@pytest.mark.parametrize(
    ("gap", "hang", "kinds"),
    [
        ("0.495", "0.8", []), ("0.494", "0.8", ["play between its guides"]), ("0.495", "0.799", ["room under its kicker"]),
        ("0.494", "0.799", ["play between its guides", "room under its kicker"]),
    ],
)  # fmt: skip
def test_the_limits_at_guides_and_kicker(gap, hang, kinds):
    made = beside(gap, hang)
    found = [f for f in check_fit(made, SHOP) if f.harm is Harm.WARN]
    assert [next(kind for kind in kinds if kind in f.what) for f in found] == kinds
    assert [("at each side" in f.way_out(str), "at the top" in f.way_out(str)) for f in found] == [
        ("between" in k, "under" in k) for k in kinds
    ]


def test_a_drawer_wider_at_its_back_has_its_least_play_pulled_out():
    made = drawer(shop=shop_with(taper="-0.7", side_clearance="0.8"))
    assert width_stack(made, SHOP.practice).clearance == mm("0.9")


def test_four_strays_of_a_64th_just_use_up_a_32nd():
    """DR-1's own clearance: the root of 4 x (1/64 in)^2 is 1/32 in, which the root as it is told rounds up past."""
    just = Stack(dimension(inches("1/32")), tuple((str(n), inches("1/64")) for n in range(4)))
    assert just.least_likely < mm(0)
    assert not just.may_bind
    assert Stack(dimension(inches("1/32") - mm("0.000001")), just.strays).may_bind


@pytest.mark.parametrize(
    ("kind", "parts"),
    [
        (PartKind.CASE_TOP, ["opening height", "place of the case top", "side height"]),
        (PartKind.DUST_PANEL, ["opening height", "place of the dust panel", "side height"]),
        (PartKind.SHELF, ["opening height", "place of the shelf", "side height"]),
        (PartKind.BEARER, ["opening height", "bearer above", "side height"]),
        (PartKind.KICKER, ["opening height", "bearer or panel that carries the kicker", "kicker height", "side height"]),
    ],
)
def test_only_parts_that_are_there_are_stacked(kind, parts):
    made = under_kicker(drawer(), "0.8")
    over = tuple(
        replace(met, other=PartRole(kind)) if met.tie is Tie.KICKS else met for met in made.assembly.meetings
    )  # fmt: skip
    stood = replace(made, assembly=replace(made.assembly, meetings=over))
    assert [part for part, _ in kicker_stack(stood, mm("0.8"), SHOP.practice).strays] == parts


def test_what_is_asked_for_lies_on_the_rule():
    (finding,) = check_fit(drawer(shop=shop_with(top_clearance="0.3")), SHOP)
    ((change,),) = (remedy.changes for remedy in finding.remedies)
    value = change.value
    assert isinstance(value, Length)
    assert (change.key, value) == ("top clearance", SHOP.rule.up(value))
    assert value > mm("0.3")


def test_a_case_top_lifted_as_a_kicker_is_gives_the_top_drawer_as_much_more():
    """RN-3: level with the rail the drawer has its own clearance under the top; lifted by the usual 1/32 that, and 1/32."""
    gaps = {}
    for offset in ("1 9/32", "1 1/4"):
        planned = plan(read_job(sound_piece({"case.top-offset": offset, "drawers.top-clearance": "1/32"}), "odd.toml"))
        assert not planned.is_refused
        top = planned.drawers[0]
        gaps[offset] = kicker_gap(top)
        assert not check_assembly([board for other in planned.others for board in other.boards], planned.drawers)
    assert gaps == {"1 9/32": inches("1/32"), "1 1/4": inches("1/16")}
