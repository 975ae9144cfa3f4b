"""Side play and droop."""

from dataclasses import replace

import pytest

from joinlay.checks.play import check_play, droop, height_gap, side_play
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.lengths import ZERO, dimension, mm
from tests.unit.checks.making import SHOP, drawer, shop_with, under_kicker


def test_closed_it_has_both_clearances_and_out_the_taper_too():
    made = drawer(shop=shop_with(taper="1.6"))
    assert side_play(made, ZERO) == mm("1.6")
    assert side_play(made, made.length) == mm("3.2")
    assert side_play(made, ZERO).name == "drawer 1 side play"


def test_without_taper_it_plays_alike_all_the_way():
    made = drawer()
    assert side_play(made, mm(200)) == side_play(made, ZERO)


@pytest.mark.parametrize("out", [mm(-1), mm(1000)])
def test_play_is_asked_within_the_drawers_length(out):
    with pytest.raises(BadInput):
        side_play(drawer(), out)


def test_droop_is_the_gap_over_what_is_left_inside():
    assert droop(mm("0.8"), mm(450), mm(300)) == mm("1.6")
    assert droop(mm(2), mm(450), ZERO) == ZERO
    with pytest.raises(BadInput):
        droop(mm(2), mm(450), mm(450))


def harms(made, gap=None):
    kicked = made if gap is None else under_kicker(made, gap)
    return [(finding.kind, finding.harm) for finding in check_play(kicked, SHOP)]


def test_a_sound_drawer_gets_one_note():
    assert harms(drawer()) == [("side play", Harm.NOTE)]


@pytest.mark.parametrize(("clearance", "harm"), [("2.5", Harm.NOTE), ("2.51", Harm.WARN)])
def test_five_millimetres_of_play_is_the_most(clearance, harm):
    assert harms(drawer(shop=shop_with(side_clearance=clearance))) == [("side play", harm)]


@pytest.mark.parametrize(("taper", "harm"), [("-1.5", Harm.NOTE), ("-1.6", Harm.WARN), ("-1.7", Harm.REFUSE)])
def test_a_drawer_wider_at_its_back_must_still_pass(taper, harm):
    """One that is wider by more than its play is refused while it is planned, so its taper is changed afterwards."""
    made = replace(drawer(shop=shop_with(taper="-1.5")), taper=dimension(mm(taper)))
    assert harms(made)[0] == ("side play", harm)


def test_one_wider_than_its_opening_never_passes():
    assert ("side play", Harm.REFUSE) in harms(drawer(shop=shop_with(side_clearance="-0.1")))
    with pytest.raises(Refused, match=r"1\.7 mm wider at its back"):
        drawer(shop=shop_with(taper="-1.7"))


@pytest.mark.parametrize(("gap", "kind"), [(3, "side play"), ("3.01", "droop")])
def test_six_millimetres_of_droop_is_the_most(gap, kind):
    """Two-thirds out, the front droops twice the gap."""
    ((found, _),) = harms(drawer(), gap)
    assert found == kind


def test_low_sides_without_a_kicker_droop():
    low = drawer(side_height=100)
    assert height_gap(low) == mm(50)
    assert ("droop", Harm.WARN) in harms(low)
    assert harms(low, "0.8") == [("side play", Harm.NOTE)]
