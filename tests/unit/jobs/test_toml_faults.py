"""A file that is not TOML is told about in a maker's words: the line, and what to write there, which is then good."""

import tomllib

import pytest

from joinlay.errors import Troubles
from joinlay.jobs.source import read_source

#: A slip, what is said of it, and the line as the sentence says to write it: it stands in the sentence and is good TOML.
MENDED = [
    ("width = “18 3/8”", "its quotes are curly", 'width = "18 3/8"'),
    ("width = „18 3/8“", "its quotes are curly", 'width = "18 3/8"'),
    ("width = ‘18 3/8’", "its quotes are curly", "width = '18 3/8'"),
    ('width = "18 3/8', "a quote is opened and not closed", 'width = "18 3/8"'),
    ("width = '18 3/8", "a quote is opened and not closed", "width = '18 3/8'"),
    ('width = "18 3/8""', "a mark for inches ends the quotes", 'width = "18 3/8 in"'),
    ("width = 18 3/8", "a length with a fraction or a unit stands in quotes", 'width = "18 3/8"'),
    ('width = 18 3/8"', "a length with a fraction or a unit stands in quotes", 'width = "18 3/8 in"'),
    ("width = 465 mm   # the opening", "a length with a fraction or a unit stands in quotes", 'width = "465 mm"'),
    ("width = 465,5", "a length with a fraction or a unit stands in quotes", 'width = "465,5"'),
    ("width = 1'200", "a length with a fraction or a unit stands in quotes", 'width = "1\'200"'),
    ("opening = { width = 18 3/8, height = 4 }", "a length with a fraction or a unit stands in quotes", 'width = "18 3/8"'),
    ("kind = plywood", "words stand in quotes", 'kind = "plywood"'),
    ("front-joint = locking rabbet # as always", "words stand in quotes", 'front-joint = "locking rabbet"'),
    ('width "18 3/8"', "= is missing", 'width = "18 3/8"'),
    ('width: "18 3/8"', "not a colon", 'width = "18 3/8"'),
    ('width == "18 3/8"', "one = stands", 'width = "18 3/8"'),
    ('width => "18 3/8"', "one = stands", 'width = "18 3/8"'),
    ('width = "18 3/8";', "nothing stands after a value", 'width = "18 3/8"'),
    ('width = "18 3/8",  # over all', "nothing stands after a value", 'width = "18 3/8"'),
    ("width = (24)", "no brackets stand round a value", "width = 24"),
    ("rows = (2, 1, 1)", "a list stands in square brackets", "rows = [2, 1, 1]"),
    ("rows = 2, 1, 1", "several things stand in square brackets", "rows = [2, 1, 1]"),
    ("heights = [2 1 1]", "several things stand in square brackets", "heights = [2, 1, 1]"),
    ("fixed = three", "a number is written in figures", "fixed = 3"),
    ('title = "The "big" chest"', "quotes within quotes", "title = 'The \"big\" chest'"),
    ("(case)", "a heading stands in square brackets", "[case]"),
    ("{bank}", "a heading stands in square brackets", "[[bank]]"),
    ("case]", "a heading is opened with a bracket too", "[case]"),
    ("bank]]", "a heading is opened with a bracket too", "[[bank]]"),
    ("[case]]", "as many brackets open a heading as close it", "[case]"),
    ("[bank]]", "as many brackets open a heading as close it", "[[bank]]"),
    ("[stock birch]", "no blanks stand in a heading", "[stock.birch]"),
    ("[stock.birch 12 mm]", "no blanks stand in a heading", "[stock.birch-12-mm]"),
    ("[stock.]", "each stock has a name", "[stock.birch-12]"),
    ("// over all", "a remark begins with #", "# over all"),
    ("-- over all", "a remark begins with #", "# over all"),
    ("[drawers", "the heading is not closed", "[drawers]"),
    ("[[bank]", "the heading is not closed", "[[bank]]"),
]

#: A slip, its line, and what is said of it.
TOLD = [
    ("[bank]\ndrawers = 3\n[bank]\ndrawers = 2\n", 3, "each bank stands under two brackets: [[bank]]"),
    ("[offcut]\n[offcut]\n", 2, "each offcut stands under two brackets: [[offcut]]"),
    ("[bank]\ndrawers = 3\n[[bank]]\n", 3, "[bank] with one bracket stands above it; write [[bank]]"),
    ("[drawers]\nx = 1\n[case]\n[drawers]\n", 4, "the table [drawers] is there already, first in line 1"),
    ("[case]\nwidth = 1\ndepth = 2\nwidth = 3\n", 4, "width is written twice, first in line 2; leave one of them out"),
    ("[frame]\nwidth = 1\n[case]\nwidth = 2\nwidth = 3\n", 5, "width is written twice, first in line 4"),
    ("fronts-together = True", 1, "write fronts-together = true or fronts-together = false"),
    ("width: 12", 1, "between a key and its value stands =, not a colon: width = 12."),
    ("width =", 1, "nothing stands after width ="),
    ("width", 1, "nothing says what width is"),
    ('width = "18" height = "4"', 1, 'each key stands on a line of its own: width = "18", and below it height = "4"'),
    ('[case] width = "18"', 1, 'a heading stands on a line alone: [case], and below it width = "18"'),
    ("rows = [2, opne, 1]", 1, 'words stand in quotes: "opne"'),
    ("heights = [2,, 1]", 1, "two commas follow each other"),
    ('heights = ["4" "5"]', 1, "a comma stands between two things of a list"),
    ("sheet = [96, 48 1/2]", 1, 'stands in quotes: "48 1/2"'),
    ("sheet = [96 in, 48 in]", 1, 'stands in quotes: "48 in"'),
    ('a = { width: "3" }', 1, "not a colon: width = ..."),
    ('a = { width = "3", }', 1, "no comma stands before }"),
    ('a = { width = "3"\nb = 1', 1, "a table in braces stands on one line"),
    ('title = "Hall\x07chest"', 1, "a sign stands in it that cannot be seen"),
    ('width\u00a0= "3"', 1, "a blank in it is no plain one"),
    ('width ＝ "3"', 1, "its = is no plain one"),
    ("tenons = [1,\n2\nb = 3", 3, ", in line 1; close it"),
    ("[a]\nwidth = 1\nwidth = 3\n", 3, "or write the heading that is missing between them"),
    ("side clearance = 3", 1, "a key is one word, with hyphens: side-clearance = ..."),
    ('file = "mine\\shop.toml"', 1, "write / in its place"),
    ("a = { b = 1,\nc = 2 }", 1, "a table in braces stands on one line"),
    ("cutters = [1,\n2\nb = 3", 3, "a bracket is opened and not closed before this line"),
    ('a = 1\nb = """x\ny\nz\n', 2, "a quote is opened and not closed in this line"),
]


def told(text, **more):
    with pytest.raises(Troubles) as refused:
        read_source(text, "chest.toml", **more)
    (trouble,) = refused.value.troubles
    return trouble


@pytest.mark.parametrize(("line", "said", "mended"), MENDED)
def test_a_slip_is_told_with_the_line_as_it_should_be(line, said, mended):
    with pytest.raises(tomllib.TOMLDecodeError):
        tomllib.loads(line)
    tomllib.loads(mended)
    trouble = told(f"# a chest\n\n{line}\n")
    assert trouble.line == 3
    assert said in trouble.message
    assert mended in trouble.message


@pytest.mark.parametrize(("text", "line", "said"), TOLD)
def test_a_slip_is_told_in_a_makers_words(text, line, said):
    trouble = told(text)
    assert (trouble.line, said in trouble.message) == (line, True), str(trouble)


@pytest.mark.parametrize(
    "text", [*(line for line, *_ in MENDED), *(text for text, *_ in TOLD), "root:x:0:0:root:/root:/bin/sh\n"]
)
def test_nothing_is_shown_of_a_file_that_may_not_be_the_makers(text):
    said = told(f"secret-{text}", is_shown=False).message
    assert "secret" not in said
    assert "18" not in said
    assert "root" not in said


def test_a_long_line_costs_no_time_and_is_not_echoed():
    assert len(told("a = 1 " * 150_000).message) < 300
