"""Paper sizes and what a printer leaves of them."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.pages import Printer
from joinlay.paper import PAPERS, paper_named
from tests.unit.templates.reading import exact


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # ISO 216; ASME Y14.1 sizes A and B and the legal size from memory (D4).
        ("a4", "210", "297"),
        ("a3", "297", "420"),
        ("letter", "215.9", "279.4"),
        ("legal", "215.9", "355.6"),
        ("tabloid", "279.4", "431.8"),
    ],
)
def test_sizes(name, width, height):
    paper = paper_named(name)
    assert (paper.width, paper.height) == (Fraction(width), Fraction(height))


def test_names_in_any_case_and_near_names_for_others():
    assert paper_named(" A4 ") is PAPERS["a4"]
    with pytest.raises(BadInput, match="nearest: letter"):
        paper_named("leter")
    with pytest.raises(BadInput, match="a4, a3, a2, a1, a0, letter, legal, tabloid"):
        paper_named("vellum")


def test_the_border_is_six_millimetres():
    assert paper_named("a4").printable == exact(6, 6, 204, 291)


def test_a_corrected_drawing_stays_within_the_border():
    longer = Printer(across=Fraction(102, 100), down=Fraction(99, 100))
    left, bottom, right, top = longer.room(paper_named("a4"))
    assert (left, bottom, top) == exact(6, 6, 291)
    assert left + (right - left) * longer.across == 204
