"""What follows from a maker's measures of the scale sheet."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import MM_PER_INCH, Length, Unit, mm
from joinlay.pages import Printer
from joinlay.pages.measured_printer import measured_printer, read_bar
from joinlay.pages.printer import percent
from joinlay.paper import paper_named

BAR = (mm(200), mm(7 * MM_PER_INCH))


def printer(across="200 mm", down="200 mm", paper="letter", **more):
    return measured_printer("shop laser", paper_named(paper), across, down, "2026-11-20", unit=Unit.MM, **more)


@pytest.mark.parametrize(
    ("text", "drawn", "within"),
    [
        ("199.2mm", 200, "0.1"),  # half a tenth is finer than the eye
        ("199 mm", 200, "0.5"),
        ("199.25", 200, "0.1"),
        ("19.9 cm", 200, "0.5"),
        ("7 31/32 in", 200, Fraction(127, 320)),
        ("7 55/64 in", 200, Fraction(127, 640)),
        ("6 31/32 in", "177.8", Fraction(127, 320)),
        ("7 in", "177.8", Fraction(127, 160)),
        ("7.01 in", "177.8", Fraction(127, 1000)),
        ("6 1/2 in + ", None, None),
    ],
)
def test_a_measure_is_of_the_nearest_bar_and_as_good_as_it_is_written(text, drawn, within):
    if drawn is None:
        with pytest.raises(BadInput, match="cannot be read as a length"):
            read_bar("--across", text, BAR, Unit.MM)
        return
    found = read_bar("--across", text, BAR, Unit.MM)
    assert (found.drawn.mm, found.within.mm) == (Fraction(drawn), Fraction(within))
    assert found.factor == found.drawn.mm / found.measured.mm


def test_the_correction_is_what_was_drawn_over_what_was_measured():
    known = printer("198.4 mm", "201 mm")
    assert known.printer == Printer(Fraction(2000, 1984), Fraction(200, 201), "shop laser", "2026-11-20")
    assert known.printer.correction == "across +0.81 %, down −0.5 %"
    assert not known.is_true


@pytest.mark.parametrize(("factor", "said"), [(1, "0 %"), ("1.00001", "0 %"), ("1.004", "+0.4 %"), ("0.99", "−1 %")])
def test_a_correction_in_words(factor, said):
    assert percent(Fraction(factor)) == said


@pytest.mark.parametrize("text", ["194 mm", "206 mm", "7 7/8 in"])
def test_three_per_cent_is_the_most_and_is_taken(text):
    assert read_bar("--down", text, BAR, Unit.MM).drawn.mm == 200


@pytest.mark.parametrize(
    ("text", "said"), [("193.9 mm", "3.1 % shorter"), ("206.1 mm", "3.1 % longer"), ("192 mm", "4 % shorter")]
)
def test_more_is_refused_with_the_likely_cause(text, said):
    with pytest.raises(BadInput) as caught:
        read_bar("--down", text, BAR, Unit.MM)
    assert f"--down: {text} is {said} than the 200 mm that was drawn" in str(caught.value)
    assert "fit to page" in str(caught.value)
    assert "200 mm or 7 in" in str(caught.value)


@pytest.mark.parametrize("text", ["100 mm", "7", "20 in"])
def test_far_more_is_taken_for_a_slip(text):
    with pytest.raises(BadInput, match="looks like a slip"):
        read_bar("--down", text, BAR, Unit.MM)


@pytest.mark.parametrize("text", ["0", "-200 mm", "long", ""])
def test_what_is_no_size(text):
    with pytest.raises(BadInput):
        read_bar("--down", text, BAR, Unit.MM)


def test_a_measure_within_what_can_be_read_is_noise():
    assert printer("200.1 mm", "199.9 mm").is_true
    assert printer("200.4 mm", "7 7/8 in").down.is_noise
    assert not printer("200.4 mm", "200").across.is_noise


def test_a_sheet_that_is_sheared_has_diagonals_that_tell_by_how_much():
    """A rectangle 160 by 120 whose top slides 1 mm to the right: diagonals of 200.8 and 199.2 mm by Pythagoras; 120 mm of a
    sheet of 279.4.
    """
    rising, falling = ((161**2 + 120**2) ** 0.5, (159**2 + 120**2) ** 0.5)
    known = printer(rising=f"{rising:.4f} mm", falling=f"{falling:.4f} mm")
    assert known.is_skew
    assert float(known.skew.mm) == pytest.approx(279.4 / 120, abs=0.001)
    assert not known.disagrees
    assert float(printer(rising=f"{falling:.4f} mm", falling=f"{rising:.4f} mm").skew.mm) < 0


def test_diagonals_alike_are_no_skew():
    known = printer(rising="200.1 mm", falling="200 mm")
    assert not known.is_skew
    assert known.skew.mm * 120 == Fraction("279.4") * (Fraction("200.1") ** 2 - 200**2) / 640
    assert printer().skew == Length(Fraction(0))
    assert not printer().is_skew


def test_diagonals_that_do_not_go_with_the_bars_are_a_slip():
    # 0.8 % short across and 0.5 % long down: the diagonals come to 199.32 mm.
    known = printer("198.4 mm", "201 mm", rising="199.3 mm", falling="199.3 mm")
    assert not known.disagrees
    slipped = printer("198.4 mm", "201.0 mm", rising="201.3 mm", falling="201.3 mm")
    assert slipped.disagrees
    assert float(slipped.disagreement.mm) == pytest.approx(2, abs=0.05)
    assert not printer().disagrees


def test_one_diagonal_says_nothing():
    with pytest.raises(BadInput, match="--falling-diagonal is missing"):
        printer(rising="200 mm")
    with pytest.raises(BadInput, match="--rising-diagonal is missing"):
        printer(falling="200 mm")
    with pytest.raises(BadInput, match="--falling-diagonal: 190 is 5 % shorter than the 200 mm"):
        printer(rising="200 mm", falling="190")


def test_the_scale_sheet_may_be_on_the_usual_border_or_the_printer_s():
    for across, factor in (("190 mm", 1), ("189 mm", Fraction(190, 189)), ("180 mm", 1), ("181 mm", Fraction(180, 181))):
        assert printer(across, "200 mm", "a4", border=mm(12)).printer.across == factor
    assert printer("190 mm", "200 mm", "a4, border 3 mm").printer.across == 1


@pytest.mark.parametrize(
    ("paper", "across", "down", "diagonal"),
    [("a4", 190, 200, 200), ("148 x 210 mm", 130, 190, 100), ("24 in roll", 200, 200, 200)],
)
def test_each_paper_has_its_own_bars(paper, across, down, diagonal):
    known = printer(f"{across} mm", f"{down} mm", paper, rising=f"{diagonal} mm", falling=f"{diagonal} mm")
    assert known.printer.across == known.printer.down == 1
    assert known.is_true
    assert known.is_for(paper_named(f"{paper}, border 3 mm"))
    assert not known.is_for(paper_named("a3"))
