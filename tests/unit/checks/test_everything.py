"""All the checks together: worst first, and little to read for a sound piece."""

from dataclasses import replace

import pytest

from joinlay.boards import CutKind, Surface
from joinlay.checks import find_everything
from joinlay.checks.everything import check_board, check_drawer
from joinlay.checks.gathering import gathered
from joinlay.checks.play import guide_play, kicker_gap
from joinlay.checks.sag import stop_height
from joinlay.findings import Finding, Harm, note, warning
from joinlay.lengths import ZERO, mm
from tests.unit.checks.making import (
    CONDITIONS,
    PLY,
    SHOP,
    board,
    cut,
    drawer,
    groove,
    mortise,
    over_block,
    solid,
    under_kicker,
)
from tests.unit.checks.test_tipping import STOCKS, block

ALL = PLY | STOCKS


def bank(count=4, **how):
    return [drawer(name=f"drawer {n}", **how) for n in range(1, count + 1)]


def find(drawers, others=()):
    return find_everything(drawers, others, ALL, SHOP, CONDITIONS)


def test_a_sound_bank_gets_a_handful_of_notes_and_no_warning():
    found = find(bank())
    assert {finding.harm for finding in found} == {Harm.NOTE}
    assert len(found) <= 5
    assert len({finding.kind for finding in found}) == len(found)


def test_the_worst_comes_first():
    found = find([drawer(width=1100, depth=700, front=solid("fronts", 20), height=300)])
    harms = [finding.harm for finding in found]
    assert harms == sorted(harms)
    assert harms[0] is Harm.WARN
    assert harms[-1] is Harm.NOTE


def test_forty_drawers_that_bind_are_told_once():
    found = find(bank(40, front=solid("fronts", 20), height=150))
    (binding,) = [finding for finding in found if finding.kind == "wood movement"]
    assert binding.where == "drawers 1 to 40 front"


def test_every_word_can_be_said():
    """No placeholder without its number, on any rule."""
    wild = [
        drawer(width=1100, depth=700, front=solid("fronts", 20), height=300),
        drawer(name="drawer 2", side_height=60, bottom=solid("bottoms", 8), sides=solid("sides", 12)),
    ]
    for finding in find(wild, [block(100)]):
        assert "{" not in finding.sentence(SHOP.rule.text) + finding.way_out(SHOP.rule.text)
        assert finding.where
        assert finding.rule


def test_no_drawer_and_no_case_is_nothing_to_say():
    assert find([]) == ()


def test_boards_of_the_case_are_looked_at_too():
    hurt = board(mortise((100, 106), (20, 40)), groove((30, 36)), name="case left side")
    case = replace(block(400), boards=(*block(400).boards, hurt))
    first = find(bank(1), [case])[0]
    assert (first.harm, first.where) == (Harm.REFUSE, "case left side")


def test_one_drawer_and_one_board_can_be_asked_alone():
    kinds = {finding.kind for finding in check_drawer(drawer(), SHOP, CONDITIONS)}
    assert kinds == {"side play", "fit", "bottom sag", "weight", "corner strength"}
    bad = board(cut(CutKind.MORTISE, Surface.FACE, (100, 106), (20, 40), (0, 18), "mortise"))
    assert {finding.kind for finding in check_board(bad, SHOP)} == {"thin wood"}


@pytest.mark.parametrize("gap", ["0", "0.8", "10.8"])
def test_the_kicker_over_the_sides_is_the_one_it_meets(gap):
    assert kicker_gap(under_kicker(drawer(), gap)) == mm(gap)


def test_the_lower_of_two_kickers_counts():
    assert kicker_gap(under_kicker(under_kicker(drawer(), "2"), "1.5")) == mm("1.5")


def test_a_drawer_in_no_piece_has_no_kicker_guide_or_stop():
    made = drawer()
    assert kicker_gap(made) is None
    assert guide_play(made) is None
    assert stop_height(made, SHOP) == ZERO


def test_stop_blocks_take_room_with_their_clearance():
    """The bottom lies 10 mm above the bearers."""
    clearance = SHOP.practice.length("stop clearance")
    assert stop_height(over_block(drawer(), 5), SHOP) == mm(5) + clearance
    assert stop_height(over_block(over_block(drawer(), 5), 3), SHOP) == mm(7) + clearance


def at(where, finding):
    return finding.at(where)


def sag(where, number):
    return at(where, warning("bottom sag", "It sags {sag}.", "Thicker.", "CK-3", sag=mm(number)))


def test_alike_findings_are_put_together():
    (one,) = gathered([sag("drawer 1 bottom", 3), sag("drawer 2 bottom", 3)])
    assert one.where == "drawers 1 and 2 bottom"


def test_a_few_with_other_numbers_stand_alone_and_many_are_told_by_the_worst():
    assert len(gathered([sag(f"drawer {n} bottom", n) for n in (1, 2)])) == 2
    (one,) = gathered([sag(f"drawer {n} bottom", n) for n in range(1, 6)])
    assert one.where == "drawers 1 to 5 bottom (figures: drawer 5)"
    assert one.numbers["sag"] == mm(5)


def test_other_places_are_listed_and_then_counted():
    same = [at(f"case part {letter}", note("weight", "Heavy.")) for letter in "abcdef"]
    (one,) = gathered(same)
    assert one.where == "case part a, case part b, case part c, case part d and 2 more"


def test_of_notes_the_worst_speaks():
    notes = [at(f"drawer {n}", note("racking", "Jams at {planed}.", planed=mm(100 * n))) for n in (3, 1)]
    (one,) = gathered(notes)
    assert one.where == "drawer 1 (the most of all)"


def test_kinds_nobody_ranked_come_last_of_their_harm():
    odd, known = note("odd", "Odd."), note("weight", "Heavy.")
    assert [finding.kind for finding in gathered([odd, known])] == ["weight", "odd"]
    refused = Finding("odd", Harm.REFUSE, "", "No.")
    assert gathered([known, refused])[0] is refused
