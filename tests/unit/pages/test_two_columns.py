"""Two columns: blocks in their order, no heading last, the last page evened; and words beside a picture, then under it."""

import pytest

from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pages.told_beside import INDENT, SMALL, WORD, Saying, Told, heading, told_in_blocks
from joinlay.pages.two_columns import column_width, in_columns
from joinlay.pen.lettering import set_line
from joinlay.pen.marks import Line, Polyline, Role, Text, bounds_of
from joinlay.pictures.picture import PLAIN, Picture

SENTENCE = (
    "Lay the back into its rabbets, from behind, and nail it there: 6 1/2 in from the end, 20 nails in all, none of them glued."
)


def block(high, *, leads=False, white=False):
    strokes = () if white else (Line((Fraction(0), Fraction(0)), (Fraction(10), Fraction(-high)), Role.OUTLINE),)
    return PageBlock(strokes, Fraction(high), leads=leads)


def heights(pages):
    return [[[int(one.height) for one in column] for column in page.columns] for page in pages]


def square(wide, high):
    side = Line((Fraction(0), Fraction(0)), (Fraction(wide), Fraction(high)), Role.OUTLINE)
    return Picture("a square", (side,), PLAIN[0])


def lines_in(blocks):
    return [stroke for one in blocks for stroke in one.strokes if isinstance(stroke, Text)]


def test_columns_are_filled_in_order_and_the_last_two_evened():
    blocks = [block(high) for high in (40, 30, 35, 20, 15, 10)]
    assert heights(in_columns([block(20)], blocks, Fraction(100), Fraction(0))) == [[[40, 30], [35, 20, 15, 10]]]
    assert heights(in_columns([], blocks, Fraction(70), Fraction(0))) == [[[40, 30], [35, 20, 15]], [[10]]]
    parted = in_columns([], [*blocks, block(60), block(5)], Fraction(70), Fraction(0))
    assert heights(parted)[1:] == [[[10], [60, 5]]]
    assert [len(page.over) for page in in_columns([block(20)], blocks * 3, Fraction(100), Fraction(0))][1:] == [0, 0]


def test_no_heading_is_last_in_a_column_and_no_white_first():
    blocks = [block(50), block(30, leads=True), block(30), block(3, white=True), block(70)]
    assert heights(in_columns([], blocks, Fraction(90), Fraction(0))) == [[[50], [30, 30, 3]], [[70]]]


def test_a_page_that_is_begun_has_less_room_unless_nothing_goes_there():
    blocks = [block(30) for _ in range(4)]
    assert heights(in_columns([], blocks, Fraction(100), Fraction(60))) == [[[30], [30]], [[30], [30]]]
    assert heights(in_columns([], blocks, Fraction(100), Fraction(80))) == [[[30, 30], [30, 30]]]
    # What is too high for any column has one alone, and is not waited with for ever.
    assert heights(in_columns([], [block(120), block(10)], Fraction(100), Fraction(0))) == [[[120], [10]]]


def test_it_stands_on_the_page_as_it_is_read():
    (page,) = in_columns([block(20)], [block(30), block(40)], Fraction(100), Fraction(0))
    strokes = page.strokes(Fraction(10), Fraction(200), Fraction(100))
    second = 100 + 10 - column_width(Fraction(100))
    begun = [(Fraction(10), Fraction(200)), (Fraction(10), Fraction(180)), (second, Fraction(180))]
    assert len(strokes) == 3
    assert [stroke.start for stroke in strokes if isinstance(stroke, Line)] == begun
    assert [one.height for one in page.blocks] == [20, 30, 40]


@pytest.mark.parametrize("wide", [70, 76])
def test_words_begin_beside_the_picture_and_go_on_under_it(wide):
    blocks = list(told_in_blocks([Saying(SENTENCE), Saying(SENTENCE)], Fraction(wide), square(26, 9), ("a board",)))
    assert " ".join(line.plain for line in lines_in(blocks)) == f"{SENTENCE} {SENTENCE}"
    lines = lines_in(blocks[:1])
    assert {line.anchor[0] for line in lines} == {0, 30}
    for line in lines:
        is_beside = line.anchor[0] > 0
        assert line.anchor[0] + set_line(line.content).width <= wide
        assert is_beside or line.anchor[1] + SMALL < -9
    assert blocks[0].serves == ("a board",)
    assert all(-bounds_of(one.strokes)[1] <= one.height for one in blocks)


def test_where_a_picture_leaves_no_room_it_stands_in_the_middle_and_words_under_it():
    alone, told = told_in_blocks([Saying(SENTENCE)], Fraction(98), square(60, 20))
    assert bounds_of(alone.strokes)[0] == 19
    assert {line.anchor[0] for line in lines_in([told])} == {0}


def test_what_is_ticked_stays_in_one_piece_behind_its_box():
    told = Told(Fraction(98), (Fraction(30), Fraction(12)))
    told.say(Saying(f"{SENTENCE} {SENTENCE}", WORD, ticked=True))
    boxes = [stroke for stroke in told.strokes if isinstance(stroke, Polyline)]
    assert len(boxes) == 1
    assert {line.anchor[0] for line in told.strokes if isinstance(line, Text)} == {INDENT}
    assert told.is_full


def test_a_head_is_bold_and_goes_on_in_the_same_line():
    (told,) = told_in_blocks([Saying(SENTENCE, head="Glue-up 3: face frame.")], Fraction(98))
    head, first, *_ = lines_in([told])
    assert (head.content[0].bold, first.content[0].bold) == (True, False)
    assert head.anchor[1] == first.anchor[1]
    assert head.anchor[0] + set_line(head.content).width < first.anchor[0]
    assert first.anchor[0] + set_line(first.content).width <= 98
    (narrow,) = told_in_blocks([Saying(SENTENCE, head="Glue-up 3: face frame.")], Fraction(42))
    assert " ".join(line.plain for line in lines_in([narrow])) == f"Glue-up 3: face frame. {SENTENCE}"


def test_a_heading_takes_as_many_lines_as_it_needs_and_leads():
    one, two = heading("Case", Fraction(98)), heading("What is done to the whole of it before anything else", Fraction(98))
    assert one.leads
    assert two.height > one.height
    assert len(lines_in([two])) == 2
