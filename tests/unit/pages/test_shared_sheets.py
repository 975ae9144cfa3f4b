"""Sheets that are read: what is near-empty shares its paper with what comes after it."""

from dataclasses import replace
from fractions import Fraction

from joinlay.pages import Printer
from joinlay.pages.plain_sheet import FOOT, PageBlock, PlainPages, flow
from joinlay.pages.printed_sheet import Link
from joinlay.pages.shared_sheets import begun_under, joined
from joinlay.paper import paper_named
from joinlay.pen.lettering import words
from joinlay.pen.marks import Text, bounds_of, moved
from tests.measured.collisions import collisions
from tests.measured.packets import example

ZERO = Fraction(0)


def sheet(said, high, scale="not to scale", document="findings", paper="letter"):
    """A sheet with a line at its top and one ``high`` mm lower, and a link on the second."""
    pages = PlainPages(example("moth-cabinet"), paper_named(paper), document, Printer())
    left, _, _, top = pages.box
    low = top - high
    strokes = (Text((left, top - 5), words(said, 5)), Text((left, low), words(f"{said} ends", Fraction(5, 2))))
    return replace(pages.sheet(said, strokes, scale), links=(Link((left, low, left + 20, low + 3), 7),))


def said(one):
    return [stroke.plain for stroke in one.body if isinstance(stroke, Text)]


def test_a_low_sheet_goes_under_the_one_before_it_with_its_links_and_titles():
    first, second = sheet("one", 100), sheet("two", 80, document="cutting list")
    [both] = joined([first, second])
    assert said(both) == ["one", "one ends", "two", "two ends"]
    assert both.title == "findings, one; cutting list, two"
    ends = both.body[-1]
    assert isinstance(ends, Text)
    assert both.links[1].box[1] == ends.anchor[1]
    assert ends.anchor[1] >= both.printer.room(both.paper)[1] + FOOT
    assert moved(second.body[0], both.laid[1].move) == both.body[2]
    assert collisions(both.strokes) == []
    foot = " ".join(stroke.plain for stroke in both.foot.strokes(1, 2) if isinstance(stroke, Text))
    assert "findings, cutting list" in foot


def test_what_has_no_room_begins_a_sheet_of_its_own_and_the_next_goes_under_that():
    sheets = [sheet("one", 200), sheet("two", 80), sheet("three", 60), sheet("four", 40)]
    assert [one.title.replace("findings, ", "") for one in joined(sheets)] == ["one", "two; three; four"]
    room = paper_named("letter").printable
    most = room[3] - room[1] - FOOT
    first = sheet("one", 100)
    exact = most - (room[3] - bounds_of(first.body)[1]) - 8
    two = sheet("two", exact - (room[3] - 100 - bounds_of(sheet("two", 100).body)[1]))
    assert len(joined([first, two])) == 1
    assert len(joined([first, sheet("two", exact + 1)])) == 2


def test_a_shared_foot_tells_both_scales_and_no_more_than_two():
    assert len(joined([sheet("one", 60, "1:5"), sheet("two", 60)])) == 1
    [both] = joined([sheet("one", 60, "1:5"), sheet("two", 60, "1:8")])
    assert any("1:5 and 1:8" in stroke.plain for stroke in both.foot.strokes(1, 1) if isinstance(stroke, Text))
    assert len(joined([sheet("one", 40, "1:5"), sheet("two", 40, "1:8"), sheet("three", 40, "1:8")])) == 1
    assert len(joined([sheet("one", 40, "1:5"), sheet("two", 40, "1:8"), sheet("three", 40, "2:1")])) == 2


def test_sheets_of_other_paper_stay_apart():
    assert len(joined([sheet("one", 60), sheet("two", 60, paper="a4")])) == 2
    assert joined([]) == []


def test_a_chapter_begun_under_another_leaves_it_the_head_of_its_first_page():
    pages = PlainPages(example("moth-cabinet"), paper_named("letter"), "cutting list", Printer())
    left = pages.box[0]
    rows = [PageBlock((Text((Fraction(0), Fraction(-6)), words(f"row {n}", 5)),), Fraction(10)) for n in range(30)]
    above = sheet("one", 100)
    begun = begun_under([above])
    assert begun == pages.box[3] - bounds_of(above.body)[1] + 8 + 2
    own = replace(pages, begun=begun)
    parted = own.flowed(rows)
    assert [len(page) for page in parted] == [int((pages.room - begun) / 10), 30 - int((pages.room - begun) / 10)]
    both, rest = joined([above, *(own.sheet("page", own.stacked(page)) for page in parted)])
    assert said(both)[:3] == ["one", "one ends", "row 0"]
    assert collisions(both.strokes) == []
    assert bounds_of(both.body)[1] >= pages.box[1]
    assert bounds_of(rest.body)[0] == left
    # With too little room for a heading and what it heads, it has a sheet of its own.
    assert begun_under([sheet("one", 215)]) == 0
    assert begun_under([]) == 0


def test_a_first_block_too_high_for_what_is_left_begins_on_a_sheet_as_high_as_any():
    tall = PageBlock((Text((Fraction(0), Fraction(-6)), words("tall", 5)),), Fraction(150))
    assert [len(page) for page in flow([tall, tall], Fraction(250), Fraction(120))] == [1, 1]
    head = replace(tall, height=Fraction(10), leads=True)
    assert [len(page) for page in flow([head, tall], Fraction(250), Fraction(120))] == [2]
