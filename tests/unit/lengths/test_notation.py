"""A length is read in every spelling a maker uses, and anything else is answered with what would work."""

from fractions import Fraction
from typing import Any

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import Unit, inches, mm, read_length

#: Every spelling of 26 5/8 in that is in use at a bench or on a drawing.
TWENTY_SIX_AND_FIVE_EIGHTHS = (
    "26 5/8", '26-5/8"', "26⅝″", "26 ⅝", "26⅝ in", "26 5⁄8 in.", "26.625", "26.625 in", '26 5/8"', "26 5/8''", "26-5/8 inches",
    "26 5/8-inch", "26 5/8-in.", "26 5/8in", "26 5/8ins", "26 5/8 INCH", "26\u00a05/8 in", "26- 5/8", "26–5/8", "26 5 / 8",
    '2 ft 2 5/8 in', '2\' 2 5/8"', "2'2-5/8\"", "2' - 2 5/8\"", "2ft. 2 5/8in.", "2 feet 2⅝ inches", "2 foot 2 5/8", "2’ 2 5/8”",
    "2′ 2⅝″", "2 ft 2.625", "213/8", " 26  5/8 ", "67.6275 cm", "676.275 mm", "676.275mm.", "0.676275 m", "676.275 millimetres",
)  # fmt: skip


@pytest.mark.parametrize("spelling", TWENTY_SIX_AND_FIVE_EIGHTHS)
def test_every_spelling_of_one_length_reads_alike(spelling):
    assert read_length(spelling) == inches("26 5/8")


@pytest.mark.parametrize(
    ("spelling", "length"),
    [
        ("5/8in", inches("5/8")), ("3/4”", inches("3/4")), ("1-1/2", inches("1 1/2")), ("1 1/2in.", inches("1 1/2")),
        ("2ft", inches(24)), ("12mm.", mm(12)), ('1.25"', inches("1.25")), ("6 mm ", mm(6)), ("1½ in", inches("1 1/2")),
        ("2 ft. 3 in.", inches(27)), ("10cm", mm(100)), ("3/4-inch", inches("3/4")), ("2½ft", inches(30)), ("2' 6", inches(30)),
        ("10 centimetres", mm(100)), ("2 meters", mm(2000)), ("1.5 cm", mm(15)), ("6mm", mm(6)), ("18.2 mm", mm("18.2")),
        ("23/32", inches("23/32")), (".5", inches("1/2")), ("5.", inches(5)), ("5.mm", mm(5)), ("0", mm(0)), ("½", inches("1/2")),
        ("18,2 mm", mm("18.2")), ("0,125 mm", mm("0.125")), ("1,2345 mm", mm("1.2345")), ("12 1/2 mm", mm("12.5")),
        ("-1/2", inches("-1/2")), ("- 1 1/2 in", inches("-1.5")), ("−3 mm", mm(-3)), ("5 MM", mm(5)), ("11\"", inches(11)),
    ],
)  # fmt: skip
def test_spellings_a_maker_writes(spelling, length):
    assert read_length(spelling) == length


@pytest.mark.parametrize(("unit", "length"), [(Unit.INCH, inches("18.2")), (Unit.MM, mm("18.2"))])
def test_a_bare_number_is_in_the_unit_asked_for(unit, length):
    assert read_length("18.2", unit) == length


@pytest.mark.parametrize("unit", list(Unit))
def test_a_written_unit_beats_the_one_asked_for(unit):
    assert read_length("5/8 in", unit) == inches("5/8")
    assert read_length("16 mm", unit) == mm(16)


@pytest.mark.parametrize(
    ("mark", "value"),
    [
        ("½", "1/2"),
        ("⅓", "1/3"),
        ("⅔", "2/3"),
        ("¼", "1/4"),
        ("¾", "3/4"),
        ("⅕", "1/5"),
        ("⅖", "2/5"),
        ("⅗", "3/5"),
        ("⅘", "4/5"),
        ("⅙", "1/6"),
        ("⅚", "5/6"),
        ("⅐", "1/7"),
        ("⅛", "1/8"),
        ("⅜", "3/8"),
        ("⅝", "5/8"),
        ("⅞", "7/8"),
        ("⅑", "1/9"),
        ("⅒", "1/10"),
    ],
)
def test_raised_fractions(mark, value):
    assert read_length(mark).inches == Fraction(value)
    assert read_length(f"3{mark}").inches == 3 + Fraction(value)


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("", "it is empty"),
        ("   ", "it is empty"),
        ("1/0", "cannot be over 0"),
        ("3 1/0 in", "cannot be over 0"),
        ("1,250 mm", "comma before three figures"),
        ("1e5", "plain figures"),
        ("5 - 3/8", "may be a minus"),
        ("1 -1/2", "may be a minus"),
        ("twelve", "write it as"),
        ("3/4 in thick", "write it as"),
        ("5 to 6", "write it as"),
        ("1 2 3", "write it as"),
        ("--5", "write it as"),
        ("nan", "write it as"),
        ("inf", "write it as"),
        ("1_000", "write it as"),
        ("5/8/2", "write it as"),
        ("5 mm 3", "write it as"),
        ("٣ mm", "write it as"),
        ("5 ın", "write it as"),
        ("100%", "write it as"),
        ("9" * 65, "write it as"),
        ('1" 1/2', "write it as"),
    ],
)
def test_what_cannot_be_read_is_quoted_with_a_way_out(text, advice):
    with pytest.raises(BadInput, match="cannot be read as a length") as refused:
        read_length(text)
    said = str(refused.value)
    assert advice in said
    assert text[:40] in said
    assert len(said) < 300


def test_the_advice_speaks_the_unit_asked_for():
    with pytest.raises(BadInput, match=r"18\.2 mm, 1\.5 cm"):
        read_length("wide", Unit.MM)


@pytest.mark.parametrize("given", [1.5, 3, None, True, b"5/8", float("nan"), ["5/8"]])
def test_only_text_is_read(given):
    with pytest.raises(BadInput, match="read from text"):
        read_length(given)


def test_a_huge_whole_number_is_answered_too():
    given: Any = 10**5000
    with pytest.raises(BadInput, match="a number of thousands of figures"):
        read_length(given)


@pytest.mark.parametrize(
    ("spelling", "unit", "length"),
    [
        ("1'200", Unit.MM, mm(1200)),
        ("1’200 mm", Unit.INCH, mm(1200)),
        ("1 200", Unit.MM, mm(1200)),
        ("12 345,5 mm", Unit.INCH, mm("12345.5")),
        ("1.200,5", Unit.MM, mm("1200.5")),
        ("1,200.5", Unit.MM, mm("1200.5")),
        ("1.200,5 mm", Unit.INCH, mm("1200.5")),
        ("12,1", Unit.MM, mm("12.1")),
        ("5' 3\"", Unit.INCH, inches(63)),
        ("5' 3\"", Unit.MM, inches(63)),
        ("1.200 mm", Unit.MM, mm("1.2")),
        ("0.750", Unit.MM, mm("0.75")),
        ("18.375", Unit.INCH, inches("18.375")),
        ("1.200", Unit.INCH, inches("1.2")),
    ],
)
def test_thousands_and_decimals_as_people_write_them(spelling, unit, length):
    assert read_length(spelling, unit) == length


@pytest.mark.parametrize(
    ("spelling", "unit", "asked"),
    [
        ("1'200", Unit.INCH, "may be 1200, or 1 and 200"),
        ("1 200", Unit.INCH, "may be 1200, or 1 and 200"),
        ("1.200", Unit.MM, "may be 1200, or 1.2: write 1200, or 1.2 without the last 0"),
        ("2.440", Unit.MM, "may be 2440, or 2.44"),
        ("2' 200", Unit.MM, "after feet come less than 12 inches"),
        ("5' 13\"", Unit.INCH, "after feet come less than 12 inches"),
        ("1,200", Unit.MM, "a comma before three figures"),
        ("1,200", Unit.INCH, "a comma before three figures"),
    ],
)
def test_what_may_be_two_things_is_asked_about(spelling, unit, asked):
    with pytest.raises(BadInput, match=r"may (be|part)") as refused:
        read_length(spelling, unit)
    assert asked in str(refused.value)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("24 inchs", "inches"),
        ("24 inces", "inches"),
        ("5 milimeters", "millimeters"),
        ("1/2 foots", "foot"),
        ("3 centimters", "centimeters"),
    ],
)
def test_a_unit_misspelt_is_answered_with_the_nearest(text, unit):
    with pytest.raises(BadInput, match=f"there is no unit '{text.split()[-1]}'; write {unit}") as refused:
        read_length(text)
    assert str(refused.value).endswith(f"write {unit}.")
    read_length(f"{text.rpartition(' ')[0]} {unit}")


def test_a_unit_nobody_knows_is_answered_with_all():
    with pytest.raises(BadInput, match="there is no unit 'furlongs'; write in, ft, mm, cm or m"):
        read_length("5 furlongs")
