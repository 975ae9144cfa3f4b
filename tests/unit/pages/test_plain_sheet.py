"""Lines of words in frames: wrapped, from the top, and none lost."""

from fractions import Fraction

from joinlay.pages.plain_sheet import PageBlock, Paragraph, fill_frames, flow, halves
from joinlay.pen.lettering import set_line, words, wrapped
from joinlay.pen.marks import Line, Role, text_box

SIZE = Fraction(7, 2)
FRAME = (Fraction(0), Fraction(0), Fraction(60), Fraction(20))
BESIDE = (Fraction(70), Fraction(0), Fraction(100), Fraction(20))


def test_no_line_is_longer_than_its_room():
    text = "the quick brown fox jumps over the lazy dog " * 3
    lines = list(wrapped(text, Fraction(40), SIZE))
    assert " ".join(lines) == text.strip()
    assert all(set_line(words(line, SIZE)).width <= 40 for line in lines)
    assert next(wrapped("unbreakableunbreakableunbreakable a", Fraction(10), SIZE)) == "unbreakableunbreakableunbreakable"
    assert list(wrapped("", Fraction(10), SIZE)) == []


def test_frames_are_filled_in_order_and_the_rest_is_given_back():
    told = [Paragraph(f"line {n}", SIZE) for n in range(9)]
    strokes, left = fill_frames(told, (FRAME, BESIDE))
    assert [stroke.plain for stroke in strokes] == [f"line {n}" for n in range(9 - len(left))]
    assert 0 < len(left) < 9
    assert [left[0].text, left[-1].text] == [f"line {9 - len(left)}", "line 8"]
    for stroke in strokes:
        x0, y0, x1, y1 = text_box(stroke)
        frame = FRAME if x0 < 65 else BESIDE
        assert frame[0] <= x0
        assert x1 <= frame[2]
        assert frame[1] <= y0
        assert y1 <= frame[3]


def test_a_heading_goes_with_what_it_leads_to():
    told = [Paragraph("one", SIZE), Paragraph("two", SIZE), Paragraph("heading", SIZE, leads=True), Paragraph("below it", SIZE)]
    strokes, left = fill_frames(told, (FRAME, BESIDE))
    assert left == ()
    assert [stroke.anchor[0] < 65 for stroke in strokes] == [True, True, False, False]


def test_white_above_is_left_out_at_the_top_of_a_frame():
    (stroke,), _ = fill_frames([Paragraph("one", SIZE, above=Fraction(50), indent=Fraction(5))], (FRAME,))
    assert stroke.anchor[0] == 5


def test_halves_keep_every_word():
    one, two = halves(Paragraph("a b c d e", SIZE, leads=True, above=Fraction(3)))
    assert f"{one.text} {two.text}" == "a b c d e"
    assert (one.leads, two.leads, two.above) == (False, False, Fraction(0))


def test_white_that_is_left_over_is_no_page_of_its_own():
    full = PageBlock((Line((Fraction(0), Fraction(0)), (Fraction(1), Fraction(0)), Role.FRAME),), Fraction(10))
    white = PageBlock((), Fraction(5))
    assert flow([full, white], Fraction(12)) == [[full]]
    assert flow([white], Fraction(12)) == []
