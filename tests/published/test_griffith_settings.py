"""I. S. Griffith, Correlated Courses in Woodwork and Mechanical Drawing, 1912 (seen): the machine settings of three of its
plates.

The book cuts by hand; its sizes, set on machines, must come back as the settings say. Inches throughout.
"""

import pytest

from joinlay.boards import CutKind, Span, Surface
from joinlay.lengths import Unit, inches
from joinlay.settings import Measured, Role, settings_for
from joinlay.shop import MachineKind, usual_shop
from tests import by_hand
from tests.assembly.cutting import cut_boxes, same_wood, taken_by_settings
from tests.unit.settings.wood import ACROSS, board, dado, end_rabbet, inch, shop, span


def cut_on_cards(boards, tools):
    """The cards, which must cut the boards exactly."""
    found = settings_for(boards, tools)
    taken = taken_by_settings(found.settings, boards)
    assert all(same_wood(each, taken[each.name], cut_boxes(each)) for each in boards)
    return found.settings


def measures(setting):
    return {measure.measured: measure.value for measure in setting.test_piece.measures}


def long_cutters():
    """A shop without a mortiser, whose cutters reach as deep as the plates' mortises."""
    return shop(cutters={"1/4": "1", "3/8": "1 1/2", "3/4": "1 1/4"}, has_mortiser=False)


def test_blind_mortise_and_tenon_group_ix_plate_1():
    """A3: stock 1 x 1 3/4, tenon 3/8 x 1 3/4 x 1 1/8, mortise 1 1/4 deep: 1/8 clear at the bottom, 5/16 beside."""
    rail = board("12", "1 3/4", "1", name="rail", datum=ACROSS)
    for outside in (False, True):
        rail = end_rabbet(rail, "1 1/8", "5/16", outside=outside, name="outside cheek" if outside else "inside cheek")
    stile = board("20", "1 3/4", "1", name="stile")
    mortise = by_hand.cut(
        CutKind.MORTISE, Surface.EDGE, span("4", "5 3/4"), span("0", "1 1/4"), span("5/16", "11/16"), "mortise", "rail"
    )
    cards = cut_on_cards([rail, stile.with_cuts(mortise)], long_cutters())

    cheeks = [card for card in cards if card.role is Role.STEP]
    assert {(card.far_side, card.height) for card in cheeks} == {(inches("1 1/8"), inches("5/16"))}
    assert inches(1) - sum((card.height for card in cheeks), inches(0)) == inches("3/8")
    (routed,) = (card for card in cards if card.role is Role.MORTISE)
    assert routed.machine is MachineKind.HAND_ROUTER
    assert (routed.tool.width, routed.near_side, routed.height) == (inches("3/8"), inches("5/16"), inches("1 1/4"))
    assert routed.centre == inches("1/2")  # half the thickness, MS-7
    assert routed.height - cheeks[0].far_side == inches("1/8")
    assert len(routed.heights) == 5  # none deeper than 1/4 at once


def test_haunched_mortise_and_groove_group_x_plate_39():
    """A4: stock 1 x 2, groove 3/8 x 5/16; mortise 5/8 from the end, 1 1/16 long, 1 3/8 deep; walls 5/16 + 3/8 + 5/16 = 1."""
    stile = board("20", "2", "1", name="stile")
    middle = span("5/16", "11/16")
    length = inch("2") - inch("5/16") - inch("5/8")
    groove = by_hand.cut(CutKind.GROOVE, Surface.EDGE, span("0", "20"), span("0", "5/16"), middle, "panel groove")
    mortise = by_hand.cut(
        CutKind.MORTISE, Surface.EDGE, Span(inch("5/8"), inch("5/8") + length), span("0", "1 3/8"), middle, "mortise", "rail"
    )
    cards = cut_on_cards([stile.with_cuts(groove, mortise)], long_cutters())

    (grooved,) = (card for card in cards if card.role is Role.CHANNEL)
    assert (grooved.works[0].entry, grooved.works[0].fence) == (Surface.EDGE, Surface.FACE)
    assert (grooved.tool.width, grooved.near_side, grooved.far_side) == (inches("3/8"), inches("5/16"), inches("11/16"))
    assert grooved.near_side + grooved.tool.width + (inches(1) - grooved.far_side) == inches(1)
    assert measures(grooved)[Measured.DEPTH] == inches("5/16")
    (routed,) = (card for card in cards if card.role is Role.MORTISE)
    (position,) = routed.works[0].positions
    assert position.width == inches("1 1/16")
    assert position.centre - position.width / 2 == inches("5/8")
    assert routed.height == inches("1 3/8")
    assert routed.near_side == grooved.near_side  # one fence keeps groove and mortise in line


@pytest.mark.parametrize("shelf", ["3/4", "23/32", "1/2"])
def test_dado_group_vii_plate_27(shelf):
    """A5: dado 1/4 deep in 3/4 stock, its width from the part that goes in."""
    (card,) = cut_on_cards([dado(board("18", "7", "3/4"), "5", shelf, "1/4")], usual_shop(Unit.INCH))
    found = measures(card)
    assert found[Measured.DEPTH] == inches("1/4") == inches("3/4") / 3
    assert found[Measured.WIDTH] == inches(shelf)
    assert card.far_side - card.near_side == inches(shelf)
