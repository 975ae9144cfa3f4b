"""A printer that is not true, measured as a maker would and corrected, prints true: read back by a reader that isn't ours."""

import pytest
from hypothesis import given, settings

from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.template_files import scale_sheet_pdf
from joinlay.lengths import Fraction, Unit
from joinlay.pages.measured_printer import measured_printer
from joinlay.paper import paper_named
from tests.drawn import fractions
from tests.measured.packets import drawers, template_sheets
from tests.measured.reading import strokes_of

#: A printer that prints 0.8 % short across the sheet and 0.5 % long down it.
ACROSS, DOWN = Fraction(992, 1000), Fraction(1005, 1000)

#: Half of what a rule is read to.
TENTH, SIXTY_FOURTH = 0.05, 25.4 / 128


def printed(pdf, page=0, across=ACROSS, down=DOWN):
    """The strokes of a page as they lie on the paper that comes out of such a printer, in mm."""
    return [
        (x0 * float(across), y0 * float(down), x1 * float(across), y1 * float(down)) for x0, y0, x1, y1 in strokes_of(pdf, page)
    ]


def level(strokes):
    """The lengths of the strokes across the sheet."""
    return sorted(abs(x1 - x0) for x0, y0, x1, y1 in strokes if abs(y1 - y0) < 1e-6)


def upright(strokes):
    """The lengths of the strokes down the sheet."""
    return sorted(abs(y1 - y0) for x0, y0, x1, y1 in strokes if abs(x1 - x0) < 1e-6)


def longest(paper, across=ACROSS, down=DOWN):
    """The two bars as they come out, in mm."""
    strokes = printed(scale_sheet_pdf(paper_named(paper)), 0, across, down)
    return level(strokes)[-1], upright(strokes)[-1]


def to_tenths(mm):
    return f"{mm:.1f} mm"


def to_sixty_fourths(mm):
    return f"{round(mm / 25.4 * 64)}/64 in"


def exactly(mm):
    return f"{mm:.6f} mm"


def measured_after(read, paper, across=ACROSS, down=DOWN):
    """What the maker finds on the corrected sheet of templates: the two bars, and the check square both ways, each over its
    true length.
    """
    bars = longest(paper, across, down)
    known = measured_printer("shop laser", paper_named(paper), read(bars[0]), read(bars[1]), "2026-11-20", unit=Unit.MM)
    sheets = template_sheets(drawers("4 5/16"), paper, known.printer)
    strokes = printed(sheets_pdf(sheets, title="chest"), 0, across, down)
    sides = [(n, length) for n, found in ((0, level(strokes)), (1, upright(strokes))) for length in found]
    square = [min((length for axis, length in sides if axis == n), key=lambda length: abs(length - 100)) for n in (0, 1)]
    true = [round(found[-1], -1) for found in (level(strokes), upright(strokes))]
    return (level(strokes)[-1] / true[0], upright(strokes)[-1] / true[1], square[0] / 100, square[1] / 100)


@pytest.mark.parametrize("paper", ["letter", "a4", "tabloid"])
def test_measured_exactly_it_comes_true_within_two_hundredths(paper):
    for ratio in measured_after(exactly, paper):
        assert abs(ratio - 1) * 200 < 0.02


def test_before_the_correction_it_was_not_true():
    across, down = longest("letter")
    assert across == pytest.approx(198.4, abs=0.001)
    assert down == pytest.approx(201, abs=0.001)


@pytest.mark.parametrize(
    ("read", "half_a_mark"), [(to_tenths, TENTH), (to_sixty_fourths, SIXTY_FOURTH)], ids=["to 0.1 mm", "to 1/64 in"]
)
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_read_to_a_mark_it_comes_as_true_as_the_mark(read, half_a_mark, paper):
    """Half a mark over the bar is all that can be left: 0.05 mm over 200 mm read to a tenth, 0.2 mm read to a sixty-fourth."""
    bars = (190, 200, 190, 200) if paper == "a4" else (200,) * 4
    for ratio, bar in zip(measured_after(read, paper), bars, strict=True):
        assert abs(ratio - 1) * bar <= half_a_mark * 1.01


SCALE = fractions(Fraction(975, 1000), Fraction(1025, 1000), max_denominator=4000)


@settings(max_examples=4, deadline=None)
@given(across=SCALE, down=SCALE)
def test_so_does_any_printer_that_is_not_fitting_to_the_page(across, down):
    for ratio in measured_after(exactly, "letter", across, down):
        assert abs(ratio - 1) * 200 < 0.02


@pytest.mark.parametrize("scale", [Fraction(971, 1000), Fraction(1), Fraction(1029, 1000)])
def test_nothing_corrected_runs_off_the_printable_area(scale):
    """On the sheet as it is sent to the printer, but for the strokes of dimensions, which show 2 mm of themselves at most."""
    paper = paper_named("letter")
    bar = exactly(float(200 * scale))
    known = measured_printer("shop laser", paper, bar, bar, "2026-11-20", unit=Unit.MM).printer
    left, bottom, right, top = map(float, paper.printable)
    for sheet_pdf in (sheets_pdf(template_sheets(drawers("14"), "letter", known), title="chest"), scale_sheet_pdf(paper, known)):
        for x0, y0, x1, y1 in strokes_of(sheet_pdf):
            assert left - 2 <= min(x0, x1)
            assert max(x0, x1) <= right + 2
            assert bottom - 2 <= min(y0, y1)
            assert max(y0, y1) <= top + 2


def test_the_diagonals_of_the_scale_sheet_are_two_hundred_millimetres():
    strokes = strokes_of(scale_sheet_pdf(paper_named("letter")))
    slanted = [
        ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 for x0, y0, x1, y1 in strokes if abs(x1 - x0) > 100 and abs(y1 - y0) > 100
    ]
    assert slanted == [pytest.approx(200, abs=0.001)] * 2
