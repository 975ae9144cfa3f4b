"""Fitting in its order, what a film of finish takes, levelling and fixing, and what to beware of."""

from dataclasses import replace

import pytest

from joinlay.boards import Whole
from joinlay.checks import usual_conditions
from joinlay.checks.conditions import Finish, Stands
from joinlay.checks.fit import check_fit, rooms
from joinlay.checks.fitting import finish_words, fitting_order, fitting_words, fittings
from joinlay.checks.setting_down import anchor_words, beware_words, level_words, lifting_words
from joinlay.checks.weights import stocks_by_name
from joinlay.documents.mending import helps, mended
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import GRADUATIONS, mm
from tests.measured.packets import example
from tests.unit.checks.making import PRACTICE, SHOP, drawer, shop_with
from tests.unit.jobs.jobs import GOOD

RULE = GRADUATIONS["0.5 mm"]


def finished(finish):
    return replace(usual_conditions(), finish=finish)


def test_a_place_that_may_be_tight_says_how_much_to_plane():
    (fitting,) = fittings((drawer(),), PRACTICE, usual_conditions())
    places = {place.where: place for place in fitting.places}
    side, top = places["side play at the frame"], places["room over the sides at the frame"]
    # 1.6 mm of play; opening, back and two dadoes 0.4 each, two sides 0.1 each by callipers: 1.8 at worst.
    assert (side.room, side.least, side.plane) == (mm("1.6"), mm("-0.2"), mm("1.8"))
    assert (top.room, top.least) == (mm("0.8"), mm("0"))
    assert [place.where for place in fitting.to_plane] == ["side play at the frame", "room over the sides at the frame"]
    first, second = fitting_words(fitting, RULE)
    assert "plane the outsides of its sides, half off each" in first
    assert "no more than 1.8 mm in all" in first
    assert "never the lower ones, which ride" in second


def test_a_drawer_with_room_enough_is_only_tried():
    roomy = drawer(shop=shop_with(side_clearance="2", top_clearance="2"))
    (fitting,) = fittings((roomy,), PRACTICE, usual_conditions())
    (said,) = fitting_words(fitting, RULE)
    assert fitting.to_plane == ()
    assert said.startswith("It goes in as it is")


def test_a_film_takes_its_thickness_off_both_faces_of_every_gap():
    bare, filmed = (
        {room.where: room.stack for room in rooms(drawer(), PRACTICE, finish)} for finish in (Finish.OIL, Finish.FILM)
    )
    side, top = "side play at the frame", "room over the sides at the frame"
    # PT-11: 0.1 mm, on the two faces of the two gaps beside it, and on the two over it.
    assert bare[side].clearance.mm - filmed[side].clearance.mm == mm("0.4").mm
    assert bare[top].clearance.mm - filmed[top].clearance.mm == mm("0.2").mm
    assert {room.where: room.stack for room in rooms(drawer(), PRACTICE)} == bare


def test_a_film_may_make_it_bind_and_oil_does_not():
    made = drawer(shop=shop_with(top_clearance="0.7"))
    assert [one.harm for one in check_fit(made, SHOP, Finish.OIL)] == [Harm.NOTE]
    (finding,) = check_fit(made, SHOP, Finish.FILM)
    assert (finding.harm, finding.rule) == (Harm.WARN, "CK-1, PT-11")
    assert "the film of the finish taken off" in finding.what
    assert [change.key for remedy in finding.remedies for change in remedy.changes] == ["top clearance", "finish"]


def test_what_is_offered_for_a_film_helps():
    text = f'{GOOD}\n[use]\nfinish = "film"\n\n[practice]\nfinish-film = "0.3 mm"\n'
    before = plan(read_job(text, "chest.toml"))
    warned = [one for one in before.findings if one.kind == "fit" and one.harm is Harm.WARN]
    assert warned
    for finding in warned:
        oil = next(remedy for remedy in finding.remedies if remedy.changes[0].key == "finish")
        after = plan(read_job(mended(text, oil.changes), "chest.toml"))
        assert helps(finding, before.findings, after.findings)


def test_the_order_of_fitting():
    made = example("print-chest")
    heads = [head for head, _ in fitting_order(made.others, has_pulls=True)]
    # PT-10.
    assert heads == ["Frame to case", "Runners", "Drawers", "Stops", "Pulls", "Wax"]
    assert [head for head, _ in fitting_order((), has_pulls=False)] == ["Drawers", "Wax"]
    # Of open bays alone there is nothing that slides.
    bare = [replace(one, boards=()) if one.of in (Whole.RUNNERS, Whole.STOPS) else one for one in made.others]
    assert [head for head, _ in fitting_order(bare, has_pulls=False)] == ["Frame to case"]


@pytest.mark.parametrize(
    ("finish", "said"),
    [(None, 'write finish = "film"'), (Finish.FILM, "the fit above counts it"), (Finish.OIL, "Oil takes nothing")],
)
def test_what_is_said_of_the_finish(finish, said):
    words = finish_words(finished(finish), PRACTICE, RULE)
    assert said in words[0]
    assert any("for wax" in one for one in words)


def test_a_low_corner_moves_a_front_by_its_share_of_the_height():
    made = example("moth-cabinet")
    first, second = level_words(made.drawers, made.others, made.rule)
    assert "before you judge a drawer" in first
    # PT-12: the top front's upper edge is 51.2 mm under the top of 860, rail and clearance: 3 x 808.8 / 860 = 2.82.
    assert "low by 3 mm" in second
    assert "2.8 mm" in second
    assert level_words(made.drawers, (), made.rule) == ()


@pytest.mark.parametrize("stands", list(Stands))
def test_every_piece_is_told_to_be_fixed(stands):
    made = example("print-chest")
    words = anchor_words(replace(made.conditions, stands=stands), made.others)
    assert "ix it" in words[0]
    assert "codes" in words[1]
    assert anchor_words(made.conditions, ()) == ()


def test_a_heavy_piece_takes_two():
    made = example("print-chest")
    (said,) = lifting_words(made.drawers, made.others, stocks_by_name(made.stocks.values()), made.rule)
    assert "Two people" in said
    assert "lb" in said
    assert lifting_words(made.drawers, (), stocks_by_name(made.stocks.values()), made.rule) == ()


def test_rags_are_warned_of_unless_it_is_waxed():
    assert any("catch fire" in said for _, said in beware_words(finished(None)))
    assert any("catch fire" in said for _, said in beware_words(finished(Finish.OIL)))
    assert "rags" not in [work for work, _ in beware_words(finished(Finish.WAX))]
    assert {"gluing", "sanding", "finishing"} <= {work for work, _ in beware_words(finished(Finish.WAX))}
