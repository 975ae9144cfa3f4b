"""The PDF as a file: what it asks of a viewer, what it carries, and that it comes out the same."""

from fractions import Fraction
from io import BytesIO

import pdfplumber
import pypdfium2
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from pdfminer.pdftypes import resolve_all
from reportlab.lib.rl_accel import escapePDF, fp_str
from reportlab.pdfbase.pdfmetrics import getFont
from reportlab.pdfgen.canvas import Canvas

from joinlay.documents.pdf import FONT_NAMES, figures_in_points, load_fonts, sheets_pdf
from joinlay.documents.template_files import joint_template_pdf
from joinlay.errors import BadInput
from joinlay.lengths import Unit
from joinlay.pages import Printer, lay_out
from joinlay.paper import paper_named
from joinlay.templates import templates_for
from tests.measured.packets import drawers, template_sheets, templates_pdf
from tests.measured.reading import page_sizes, strokes_of, words_of
from tests.unit.templates.parts import INCH, METRIC, board, side
from tests.unit.templates.reading import lines


@pytest.fixture(scope="module")
def packet():
    return templates_pdf(drawers("4 5/16", "14"))


def catalog_of(pdf):
    with pdfplumber.open(BytesIO(pdf)) as document:
        return resolve_all(document.doc.catalog["ViewerPreferences"])


def test_the_same_plan_gives_the_same_bytes():
    assert templates_pdf(drawers("4 5/16"), "a4") == templates_pdf(drawers("4 5/16"), "a4")


def test_viewers_are_asked_not_to_scale(packet):
    assert catalog_of(packet)["PrintScaling"].name == "None"
    assert packet.startswith(b"%PDF-1.7")


def test_nothing_in_it_depends_on_the_day(packet):
    known = pypdfium2.PdfDocument(packet).get_metadata_dict()
    assert known["CreationDate"].startswith("D:2000")
    assert (known["Title"], known["Creator"]) == ("Chest for drawn maps", "joinlay")


def test_every_template_has_its_bookmark_on_its_own_page(packet):
    sheets = template_sheets(drawers("4 5/16", "14"))
    found = [(entry.get_title(), entry.get_dest().get_index()) for entry in pypdfium2.PdfDocument(packet).get_toc()]
    assert found == [(one.title, sheet.number - 1) for sheet in sheets for one in sheet.laid]


def test_pages_are_labelled_from_one(packet):
    document = pypdfium2.PdfDocument(packet)
    assert [document.get_page_label(n) for n in range(len(document))] == [str(n + 1) for n in range(len(document))]


def test_no_letter_is_drawn_in_a_font_that_is_not_in_the_file(packet):
    with pdfplumber.open(BytesIO(packet)) as document:
        assert {letter["fontname"].split("+")[-1] for page in document.pages for letter in page.chars} == {
            "DejaVuSans",
            "DejaVuSans-Bold",
        }
    assert packet.count(b"/FontFile2") == 2
    assert b"Helvetica" not in packet


def test_content_is_kept_uncompressed_so_that_kept_files_can_be_compared():
    assert b" l\n" in templates_pdf(drawers("4 5/16")) or b" l S" in templates_pdf(drawers("4 5/16"))


@pytest.mark.parametrize(("paper", "size"), [("letter", (215.9, 279.4)), ("a4", (210, 297))])
def test_pages_are_as_large_as_the_paper(paper, size):
    for found in page_sizes(templates_pdf(drawers("4 5/16"), paper)):
        assert found == pytest.approx(size, abs=0.0005)


def test_the_plans_own_paper_is_used_unless_another_is_asked():
    assert page_sizes(templates_pdf(drawers("4 5/16", paper="a4")))[0] == pytest.approx((210, 297), abs=0.0005)


@pytest.mark.parametrize("title", ["Schränke für Fräser", "Комод", "Étagère ½"])
def test_titles_in_other_alphabets_are_printed(title):
    data = joint_template_pdf([side()], title, METRIC, "a4")
    assert title in words_of(data)


@pytest.mark.parametrize("title", ["種の箪笥", "chest 🗄"])
def test_a_letter_that_cannot_be_printed_is_said_and_nothing_is_made(title):
    with pytest.raises(BadInput, match="printed letters lack"):
        joint_template_pdf([side()], title, METRIC, "a4")


def test_one_joint_alone():
    data = joint_template_pdf([side()], "a side", INCH, "letter")
    assert "inches" in words_of(data)
    assert len(page_sizes(data)) == 1


def test_a_joint_with_nothing_near_an_end_is_said():
    with pytest.raises(BadInput, match="within 100 mm of an end"):
        joint_template_pdf([board()], "a board", INCH, "letter")


def test_a_printers_correction_stretches_each_axis_by_itself():
    """Read back: a printer 0.8 % short across and 0.5 % long along the sheet gets strokes that come out true on it (PR-3)."""
    printer = Printer(across=1 / Fraction("0.992"), down=1 / Fraction("1.005"))
    sheets = lay_out(templates_for([side()], METRIC), paper_named("a4"), title="", file="", unit=Unit.MM, printer=printer)
    strokes = strokes_of(sheets_pdf(sheets, title="corrected"))
    level = max((s for s in strokes if abs(s[1] - s[3]) < 1e-4), key=lambda s: abs(s[2] - s[0]))
    upright = max((s for s in strokes if abs(s[0] - s[2]) < 1e-4), key=lambda s: abs(s[3] - s[1]))
    across, up = (s for s in lines(sheets[0].strokes) if s.says == "long bar")
    assert abs(level[2] - level[0]) * 0.992 == pytest.approx(float(across.end[0] - across.start[0]), abs=0.001)
    assert abs(upright[3] - upright[1]) * 1.005 == pytest.approx(float(up.end[1] - up.start[1]), abs=0.001)


@given(st.one_of(st.floats(-2e6, 2e6), st.floats(-2, 2), st.integers(-(10**7), 10**7).map(float)))
@example(0.0)
@example(-0.0)
@example(1e-7)
@example(-2e-7)
@example(0.9999999)
@example(9.9999999)
@example(999.99999999)
@example(1000.0)
@example(-0.5)
def test_numbers_are_written_as_the_library_writes_them(number):
    assert figures_in_points(number) == fp_str(number)


def test_plain_letters_have_the_codes_that_the_library_gives_them():
    """Spelled by the library, whatever other letters came before them in the file."""
    load_fonts()
    plain = "".join(letter for letter in map(chr, range(32, 127)) if letter not in "()\\")
    font, document = getFont(FONT_NAMES[0]), Canvas(BytesIO())._doc
    font.splitString("½ ° ≤", document)
    assert font.splitString(plain, document) == [(0, plain.encode("ascii"))]
    assert escapePDF(plain.encode("ascii")) == plain
