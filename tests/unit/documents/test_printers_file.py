"""The file of measured printers: what is written is what is read."""

import tomllib
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.documents.printers_file import printers_text, read_printers
from joinlay.errors import BadInput
from joinlay.lengths import Length, Unit, mm
from joinlay.pages.measured_printer import measured_printer
from joinlay.paper import PAPERS, name_fault, paper_named
from tests.drawn import fractions


def laser(name="shop laser", paper="letter", across="199.2 mm", down="7 31/32 in", **more):
    return measured_printer(name, paper_named(paper), across, down, "2026-11-20", unit=Unit.MM, **more)


def test_what_is_written_is_read_back_exactly():
    printers = (
        laser(),
        laser('the "big" one \\ upstairs', "24 x 36 in", rising="200.1 mm", falling="199.4 mm", border=mm("6.35")),
        laser(paper="a4, border 4 mm", across="190.25", down="6 125/128 in"),
    )
    text = printers_text(printers)
    assert read_printers(text, "printers.toml") == printers
    assert [table["paper"] for table in tomllib.loads(text)["printer"]] == ["letter", "24 x 36 in", "a4, border 4 mm"]
    assert 'across = { drawn = "200 mm", measured = "199.2 mm", within = "0.1 mm" }' in text
    assert read_printers(printers_text(()), "printers.toml") == ()


SIZE = fractions(Fraction(1951, 10), Fraction(2049, 10), max_denominator=1000, of=Fraction)


@settings(max_examples=50)
@given(
    name=st.text(
        st.characters(codec="utf-8", exclude_categories=("C", "Z")).filter(lambda one: not name_fault(one)),
        min_size=1,
        max_size=12,
    ),
    across=SIZE,
    down=SIZE,
    border=fractions(0, 20, max_denominator=128, of=Fraction),
    paper=st.sampled_from(sorted(set(PAPERS) - {"a4"})),
)
def test_any_printer_survives_the_file(name, across, down, border, paper):
    one = laser(name, paper, f"{across} mm", f"{down} mm", border=Length(border))
    assert read_printers(printers_text([one]), "printers.toml") == (one,)


GOOD = printers_text([laser(rising="200 mm", falling="200 mm")])


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("[[printer]]", "[[printer", "this is not TOML"),
        ("[[printer]]", "[[printers]]", "a table for each printer is wanted"),
        ("[[printer]]", "[printer]", "a table for each printer is wanted"),
        ('name = "shop laser"\n', "", "printers.toml:4: name is missing"),
        ('name = "shop laser"', "name = 3", "name is missing, or is no text"),
        ('name = "shop laser"', 'name = "shop\\u202elaser"', "is not a name; write 1 to 80 letters and figures on one line"),
        ('name = "shop laser"', 'name = "מדפסת"', "of a script that runs from right to left"),
        ('paper = "letter"', 'paper = "leter"', "printers.toml:4: there is no paper called 'leter'; nearest: letter"),
        ("measured = 2026-11-20", 'measured = "20 November"', "write it as measured = 2026-11-20"),
        ("measured = 2026-11-20", "measured = 2026-11-20T10:00:00", "write it as measured = 2026-11-20"),
        ('measured = "199.2 mm"', 'measured = "180 mm"', "across: 180 mm is 10 % shorter than the 200 mm"),
        ('measured = "199.2 mm"', 'measured = "0 mm"', "across: 0 mm of 200 mm cannot be"),
        ('measured = "199.2 mm"', 'measured = "wide"', "cannot be read as a length"),
        ('within = "0.1 mm"', 'within = "-1 mm"', "cannot be"),
        ('across = { drawn = "200 mm"', 'acros = { drawn = "200 mm"', "across is missing; write across = {"),
        ('drawn = "200 mm", ', "", "drawn is missing"),
    ],
)
def test_what_is_wrong_in_the_file_is_said_with_its_line(old, new, said):
    assert old in GOOD
    with pytest.raises(BadInput) as caught:
        read_printers(GOOD.replace(old, new), "printers.toml")
    assert said in str(caught.value)
    assert str(caught.value).startswith("printers.toml")


def test_a_file_that_is_no_list_of_printers():
    for text in ("printer = 3", "printer = [3]", "x" * 300_000, "[" * 9999):
        with pytest.raises(BadInput):
            read_printers(text, "printers.toml")
