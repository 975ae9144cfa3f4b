"""What runners are held by: how long, where, and what is said where that doesn't hold or comes through (RN-4).

The rule of thumb is outside the project: a nail three times the upper piece long, at most 6 in from one to the next into cleats,
1 in at least from the ends (NAVEDTRA 14119; MIL-DTL-45449, figures seen in a copy).
"""

from itertools import pairwise
from typing import Any

import pytest

from joinlay.boards import Board, CutUse, Datum, DrawerRole, Hand, PartKind, PartRole, Surface
from joinlay.boards.fastener import FastenerKind
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.piece import plan_piece
from joinlay.casework.runner_fastening import held
from joinlay.findings import Harm
from joinlay.lengths import GRADUATIONS, dimension, inches, mm
from tests.assembly.existing_cases import measured, ours, planned
from tests.assembly.pieces import ply, shop, solid, spec

SHOP = shop()
RUNNERS = (PartKind.BEARER, PartKind.KICKER, PartKind.PACKING)


def fastened(plan):
    boards = {board.role: board for board in plan.boards}
    return [(met, boards[met.one], boards.get(met.other)) for met in plan.meetings if met.one.kind in RUNNERS and met.fasteners]


def test_nails_are_three_times_the_strip_or_stay_in_what_they_go_into():
    made = planned(ours())
    assert {(met.one.kind, met.other.kind) for met, *_ in fastened(made)} >= {
        (PartKind.BEARER, PartKind.CASE_SIDE), (PartKind.KICKER, PartKind.BEARER), (PartKind.KICKER, PartKind.CASE_TOP),
    }  # fmt: skip
    for met, strip, wood in fastened(made):
        assert met.fastener.kind is FastenerKind.NAIL
        assert met.fastener.length.mm % 5 == 0
        deep = wood.thickness.mm
        assert met.fastener.length.mm >= 3 * strip.width.mm or strip.width.mm + deep - met.fastener.length.mm < 3 + 5
        assert strip.width.mm + deep - met.fastener.length.mm >= 3


def test_nails_stand_six_inches_apart_at_most_and_an_inch_from_the_ends():
    for met, strip, _ in fastened(planned(ours(depth="700"))):
        assert len(met.along) == met.fasteners
        assert max((after - before).mm for before, after in pairwise(met.along)) <= inches(6).mm
        assert min(met.along[0].mm, strip.length.mm - met.along[-1].mm) >= inches(1).mm


def test_a_closer_spacing_takes_more_of_them():
    text = ours() + '[practice]\nrunner-nail-spacing = "75"\n'
    few, many = (sum(met.fasteners for met, *_ in fastened(planned(one))) for one in (ours(), text))
    assert many > few


@pytest.mark.parametrize("sides", ["ply", "ash"])
def test_nothing_from_one_face_of_a_partition_meets_what_comes_from_the_other(sides):
    made = planned(ours(banks=((2,), (2,)), width="900", sides=sides))
    boards = {board.role: board for board in made.boards}
    at: dict[object, Any] = {}
    for met, strip, _ in fastened(made):
        if met.other.kind is PartKind.CASE_PARTITION:
            at.setdefault((boards[met.one].place.origin[2]), []).append([strip.place.origin[1] + along.mm for along in met.along])
    assert at
    for one, other in at.values():
        shank = 4.5 if sides == "ash" else 2.5
        assert min(abs(a - b) for a in one for b in other) > shank


def test_screws_are_where_the_holes_are_and_of_the_shank_they_are_bored_for():
    made = planned(ours(sides="ash"))
    bearers = [(met, strip) for met, strip, _ in fastened(made) if met.one.kind is PartKind.BEARER]
    for met, strip in bearers:
        cuts = strip.cuts_of(CutUse.SCREW_HOLE, CutUse.SCREW_SLOT)
        assert met.fastener.shank == mm("4.5")
        assert [one.mm for one in met.along] == [cut.along.centre.mm for cut in cuts]


def found(text):
    return [one for one in planned(text).findings if one.kind == "runner fastening"]


def test_nails_of_the_makers_own_that_come_through_are_said_with_some_that_do_not():
    text = ours()
    (warned,) = found(text.replace('[runners]\nstock = "ash"', '[runners]\nstock = "ash"\nnail-length = "75"'))
    said = warned.sentence(planned(text).rule.text)
    assert warned.harm is Harm.WARN
    assert "come" in said
    assert "6.4 mm out of the case side, 17.6 mm thick" in said
    (remedy,) = warned.remedies
    (change,) = remedy.changes
    assert (change.table, change.key, change.value) == ("runners", "nail-length", "65")
    assert found(text.replace('[runners]\nstock = "ash"', '[runners]\nstock = "ash"\nnail-length = "65"')) == []


def test_nails_of_the_makers_own_that_hardly_go_in_are_said_too():
    (warned,) = found(ours().replace('[runners]\nstock = "ash"', '[runners]\nstock = "ash"\nnail-length = "55"'))
    assert "only" in warned.what
    assert warned.remedies[0].changes[0].value == "65"


def test_where_none_that_is_sold_holds_their_heads_are_let_in_as_deep_as_is_said():
    role, side = PartRole(PartKind.BEARER, DrawerRole(1), Hand.LEFT), PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT)
    wide, deep = dimension(mm("54")), dimension(mm("6"))
    strip = Board(role, "ash", dimension(mm("400")), wide, dimension(mm("20")), Datum("a", "b", "c", "d", "e", "f"))
    fast = held(strip, Surface.EDGE, side, deep, SHOP.practice, GRADUATIONS["0.5 mm"])
    (warned,) = fast.findings
    assert warned.harm is Harm.WARN
    assert "go only {goes} into the case side" in warned.what
    assert "Bore {bore} deep" in warned.remedy
    goes = (fast.fastener.length - wide).mm + mm("2").mm
    assert warned.numbers["bore"] == mm("2")
    assert deep.mm / 2 <= goes < deep.mm


def test_half_the_wood_or_twice_the_strip_is_enough_for_nails_to_hold():
    role, side = PartRole(PartKind.BEARER, DrawerRole(1), Hand.LEFT), PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT)
    datum = Datum("a", "b", "c", "d", "e", "f")
    # A strip 20 wide into 40: 20 in it; one 8 wide into 40: 16.
    for wide, length, is_enough in ((20, "40", True), (20, "39.5", False), (8, "24", True), (8, "23.5", False)):
        strip = Board(role, "ash", dimension(mm("400")), dimension(mm(wide)), dimension(mm("20")), datum)
        fast = held(
            strip, Surface.EDGE, side, dimension(mm("40")), SHOP.practice, GRADUATIONS["0.5 mm"], own=dimension(mm(length))
        )
        assert (not fast.findings) is is_enough


def test_a_length_for_the_other_kind_of_case_is_refused_with_the_key_that_does():
    with pytest.raises(Exception, match="not solid, so that bearers are nailed; write nail-length"):
        planned(ours().replace('[runners]\nstock = "ash"', '[runners]\nstock = "ash"\nscrew-length = "50"'))
    with pytest.raises(Exception, match="solid, so that bearers are screwed; write screw-length"):
        planned(measured(planned(ours(sides="ash")), sides="ash").replace("inside-width", 'nail-length = "50"\ninside-width', 1))


def test_kickers_and_guides_may_be_of_woods_of_their_own():
    text = ours().replace('[runners]\nstock = "ash"', '[runners]\nstock = "ash"\nguides = "thin"\nkickers = "ply"')
    made = planned(text)
    stocks = {board.role.kind: (board.stock, board.thickness.mm) for board in made.boards if board.role.drawer == DrawerRole(2)}
    assert stocks[PartKind.BEARER] == ("ash", 20)
    assert stocks[PartKind.GUIDE] == ("thin", mm("5.8").mm)
    assert stocks[PartKind.KICKER] == ("ply", mm("17.6").mm)
    there = planned(measured(made).replace('stock = "ash"\nsides', 'stock = "ash"\nguides = "thin"\nkickers = "ply"\nsides'))
    own = {board.role: (board.stock, board.width.mm, board.thickness.mm) for board in there.boards if board.role.kind in stocks}
    assert own == {board.role: (board.stock, board.width.mm, board.thickness.mm) for board in made.boards if board.role in own}


def test_the_second_wood_of_the_kickers_is_assembled_and_bought():
    from joinlay.checks.solids import check_assembly
    from joinlay.cutlist.cutting_list import cutting_list

    made = planned(ours().replace('[runners]\nstock = "ash"', '[runners]\nstock = "ash"\nkickers = "ply"'))
    standing = [board for assembly in made.others for board in assembly.boards]
    assert check_assembly(standing, made.drawers) == ()
    rows = [row for row in cutting_list(made).rows if row.kind is PartKind.KICKER]
    assert {row.board.stock for row in rows} == {"ply"}


def solid_spec():
    return spec(SHOP, case=CaseMake(solid("3/4", "red oak"), solid("3/4", "red oak"), ply("1/4")))


def test_screws_that_stay_in_a_solid_side_are_no_longer_than_it_lets_them():
    piece = plan_piece(solid_spec(), SHOP)
    for met in (one for one in piece.meetings if one.one.kind is PartKind.BEARER and one.fasteners):
        bearer = next(board for board in piece.boards if board.role == met.one)
        assert met.fastener is not None
        assert bearer.width < met.fastener.length < bearer.width + inches("3/4")
