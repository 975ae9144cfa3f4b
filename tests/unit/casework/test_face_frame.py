"""The face frame (FF-1 to FF-3)."""

import pytest

from joinlay.boards import Shape, Surface
from joinlay.casework.bay import BankWish, lay_out_bays
from joinlay.casework.face_frame import FrameMake, make_frame
from joinlay.casework.graduation import Equal
from joinlay.findings import Harm, Refused
from joinlay.lengths import Length, inches, mm
from tests.assembly.pieces import shop, size, solid

SHOP = shop()


def frame(*banks, width="24", height="30", stock=None, **changed):
    make = FrameMake(stock or solid("3/4"), **{name: size(value) for name, value in changed.items()})
    sizes = make.sizes(SHOP.practice)
    bays = lay_out_bays(
        size(width),
        size(height),
        stile=sizes.stile,
        mullion=sizes.mullion,
        top_rail=sizes.top_rail,
        bottom_rail=sizes.bottom_rail,
        rail=sizes.rail,
        banks=banks or (BankWish(Equal(3)),),
    )
    return make_frame(make, sizes, size(width), size(height), bays, SHOP)


def test_rails_stand_between_full_stiles():
    made = frame()
    assert made.board("left stile").length == inches(30)
    assert {made.board(f"rail under drawer {n}").length for n in (1, 2)} == {inches(21)}
    assert made.board("top rail").width == inches(2)
    assert made.board("rail under drawer 1").width == inches(1)


def test_a_three_quarter_frame_takes_a_six_millimetre_tenon():
    # Common practice (check A18).
    slips = [board for board in frame().boards if board.part == "loose tenon"]
    assert len(slips) == 8
    assert {slip.thickness for slip in slips} == {mm(6)}


def test_tenons_are_centred_in_the_thickness_with_a_shoulder_each_side():
    rail = frame().board("rail under drawer 1")
    mortise = rail.cut_named("left mortise 1")
    assert mortise.shape is Shape.ROUND_ENDS
    assert mortise.surface is Surface.END
    assert mortise.into.centre == inches("3/8")
    assert mortise.across.start >= inches("3/16")
    assert mortise.across.centre == inches("1/2")


def test_both_halves_of_a_mortise_lie_on_one_line():
    made = frame()
    rail, stile = made.board("rail under drawer 2"), made.board("right stile")
    in_stile = stile.cut_named("rail under drawer 2 mortise 1")
    up = rail.place.origin[2] + rail.cut_named("right mortise 1").across.centre.mm
    assert in_stile.along.centre.mm == up
    assert in_stile.mate == rail.name


def test_the_lowest_rail_that_works_is_named_and_works():
    with pytest.raises(Refused) as caught:
        frame(rail="5/8")
    finding = caught.value.finding
    assert finding.where == "face frame rail under drawer 1"
    lowest = finding.numbers["lowest"]
    assert isinstance(lowest, Length)
    assert lowest > inches("5/8")
    assert frame(rail=lowest).board("rail under drawer 1").width == lowest


def test_uprights_stand_between_top_and_bottom_rail():
    made = frame(BankWish(Equal(2)), BankWish(Equal(3), first=3), width="48")
    mullion = made.board("mullion 1")
    assert mullion.length == inches(26)
    assert mullion.place.origin == ((inches(24) - mullion.width / 2).mm, 0, inches(2).mm)
    # Rails from both sides have half of its width each.
    reach = [cut for cut in mullion.cuts if "rail under" in cut.name]
    assert len(reach) == 3
    assert all(cut.depth < mullion.width / 2 for cut in reach)
    assert {cut.surface for cut in reach} == {Surface.EDGE, Surface.FAR_EDGE}


def test_a_thin_frame_is_warned_of():
    (found,) = [f for f in frame(stock=solid("5/8")).findings if f.rule == "FF-1"]
    assert found.harm is Harm.WARN
    assert found.where == "face frame"


def test_sizes_lead_back_to_what_was_written():
    rail = frame(stile="1 3/4").board("rail under drawer 1")
    assert rail.length.name == "face frame rail under drawer 1 length"
    assert "stile" in str([d.name for d in _all(rail.length)])


def _all(dimension):
    for found in dimension.inputs:
        yield found
        yield from _all(found)
