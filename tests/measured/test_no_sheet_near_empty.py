"""No paper goes out near-empty: what is read fills its sheets, but for the last of what can't share one."""

from itertools import pairwise

import pytest

from joinlay.documents.wanted_sheets import LEAN
from joinlay.pages.plain_sheet import FOOT, PlainFoot
from joinlay.pages.shared_sheets import begun_under
from joinlay.pen.marks import bounds_of
from tests.measured.packets import examples, packet

#: White that is higher than this, in mm, is left over; so much of a sheet is filled at the least.
WHITE, LEAST = 12, 0.4


def filled(sheet):
    """How much of the height of a sheet over its foot something stands in."""
    _, bottom, _, top = sheet.printer.room(sheet.paper)
    reaches, white = 0, 0
    for begins, ends in sorted((top - box[3], top - box[1]) for box in (bounds_of([stroke]) for stroke in sheet.body)):
        white += begins - reaches if begins - reaches > WHITE else 0
        reaches = max(reaches, ends)
    return (reaches - white) / (top - bottom - FOOT)


@pytest.mark.parametrize("name", examples())
def test_what_is_read_fills_its_sheets(name):
    sheets = packet(name, wanted=LEAN).sheets
    read = [(one, after) for one, after in pairwise([*sheets, None]) if isinstance(one.foot, PlainFoot)]
    assert len(read) >= 10
    for sheet, after in read:
        # After the last sheet, and before one that is measured from, there is nothing to fill it with.
        is_followed = after is not None and isinstance(after.foot, PlainFoot)
        if is_followed:
            assert filled(sheet) >= LEAST, (sheet.number, sheet.title)
        elif after is not None:
            assert filled(sheet) >= LEAST / 4, (sheet.number, sheet.title)


@pytest.mark.parametrize("name", examples())
def test_a_chapter_that_is_read_begins_on_the_sheet_of_the_one_before_it_where_that_has_room(name):
    bound = packet(name, wanted=LEAN)
    shared = 0
    for before, chapter in pairwise(bound.chapters[2:]):
        last, first = before.sheets[-1], chapter.sheets[0]
        if last is first:
            shared += 1
        elif isinstance(last.foot, PlainFoot) and isinstance(first.foot, PlainFoot):
            # What it begins with is higher than what is left there.
            assert filled(last) > LEAST
            assert begun_under([last]) == 0 or filled(first) > LEAST
    assert shared >= 1
