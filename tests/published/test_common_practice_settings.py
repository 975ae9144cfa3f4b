"""Two settings any joiner knows (check values A16 and A17). Source: common practice."""

from joinlay.boards import Axis
from joinlay.lengths import Unit, inches
from joinlay.settings import Role, settings_for
from joinlay.shop import MachineKind, usual_shop
from tests.assembly.cutting import cut_boxes, same_wood, taken_by_settings
from tests.unit.settings.wood import ACROSS, LEFT, RIGHT, board, dado, end_rabbet, end_slot, groove


def cut_on_cards(boards):
    found = settings_for(boards, usual_shop(Unit.INCH))
    taken = taken_by_settings(found.settings, boards)
    assert all(same_wood(each, taken[each.name], cut_boxes(each)) for each in boards)
    return found


def test_the_classic_half_blind_set():
    """A16: front 3/4, side 1/2; slot 1/4 x 1/2 deep, tongue 1/4 cut to 1/4, lip 1/4; dado 1/4 x 1/4 at 1/4 from the end.

    Slot and dado share one fence position and need two heights.
    """
    front = board("16", "5", "3/4", name="front", datum=ACROSS)
    for far in (False, True):
        front = end_slot(front, "1/4", "1/4", "1/2", far=far)
        front = end_rabbet(front, "1/4", "1/4", far=far, outside=False, name="tongue end")
    sides = [dado(board("18", "5", "1/2", name=str(place), place=place), "1/4", "1/4", "1/4") for place in (LEFT, RIGHT)]
    found = cut_on_cards([front, *sides])
    slot = next(card for card in found.settings if card.cut_names == ("slot",))
    of_dado = next(card for card in found.settings if card.cut_names == ("dado",))
    tip = next(card for card in found.settings if card.role is Role.STEP)
    assert {card.tool.width for card in found.settings} == {inches("1/4")}
    assert slot.near_side == of_dado.near_side == inches("1/4")
    assert (slot.height, of_dado.height) == (inches("1/2"), inches("1/4"))
    assert front.size(Axis.INTO) - slot.near_side - slot.tool.width == inches("1/4")  # the lip
    assert (tip.far_side, tip.height) == (inches("1/4"), inches("1/4"))
    assert slot.height - tip.far_side == inches("1/4")  # what is left of the tongue


def test_everything_a_quarter_inch_is_one_set_up():
    """A17: stock 1/2, cutter 1/4: fence 1/4 from the cutter, cutter 1/4 high, for dadoes, tongues and the groove (LR-5)."""
    sides = [
        dado(groove(board("18", "5", "1/2", name=str(place), place=place), "1/4", "1/4", "1/4"), "1/4", "1/4", "1/4", far=True)
        for place in (LEFT, RIGHT)
    ]
    back = groove(board("16", "5", "1/2", name="back", datum=ACROSS), "1/4", "1/4", "1/4")
    for far in (False, True):
        back = end_rabbet(back, "1/4", "1/4", far=far)
    found = cut_on_cards([*sides, back])
    assert (found.set_ups, found.cutter_changes) == (1, 1)
    assert {card.machine for card in found.settings} == {MachineKind.ROUTER_TABLE}
    assert {(card.near_side, card.height, card.tool.width) for card in found.settings} == {(inches("1/4"),) * 3}
    lying = {(work.entry_word, work.fence_word) for card in found.settings for work in card.works}
    assert ("inside face", "back end") in lying  # sides flat
    assert ("left end", "inside face") in lying  # ends upright
    assert ("inside face", "bottom edge") in lying  # the groove too
