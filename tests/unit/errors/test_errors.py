"""Errors say what was given, the limit and the nearest thing that works."""

import pytest

from joinlay.errors import BadInput, JoinlayError, NotExact, Trouble, Troubles, nearest_names, quoted

NAMES = ("drawer 1 front width", "drawer 1 front height", "drawer 2 front width", "Opening", "kerf")


def test_one_family():
    assert issubclass(BadInput, JoinlayError)
    assert issubclass(NotExact, BadInput)
    assert issubclass(Troubles, BadInput)


def test_the_nearest_name_comes_first():
    assert nearest_names("drawer 1 frnt width", NAMES)[0] == "drawer 1 front width"
    assert nearest_names("kerv", NAMES) == ("kerf",)


def test_case_is_passed_over_and_given_back_as_known():
    assert nearest_names("oPENING", NAMES) == ("Opening",)


def test_half_a_name_is_answered():
    assert nearest_names("front", NAMES) == ("drawer 1 front width", "drawer 1 front height", "drawer 2 front width")


def test_no_more_than_asked():
    assert len(nearest_names("drawer 1 front width", NAMES, most=2)) == 2


@pytest.mark.parametrize("given", ["", "zzzzzz", "\N{SNOWMAN}"])
def test_nothing_near_gives_nothing(given):
    assert nearest_names(given, NAMES) == ()


def test_no_names_known():
    assert nearest_names("kerf", ()) == ()


def test_a_trouble_names_its_place():
    assert str(Trouble("chest.toml", 12, "drawer 2, opening, width", "'wide' is no length")) == (
        "chest.toml:12: drawer 2, opening, width: 'wide' is no length"
    )
    assert str(Trouble("chest.toml", 0, "stock", "is missing")) == "chest.toml: stock: is missing"
    assert str(Trouble("chest.toml", 3, "", "not TOML")) == "chest.toml:3: not TOML"


def test_troubles_come_in_the_order_of_the_lines():
    troubles = Troubles(
        [Trouble("a.toml", 9, "b", "second"), Trouble("a.toml", 2, "c", "first"), Trouble("a.toml", 9, "a", "third")]
    )
    assert [trouble.message for trouble in troubles.troubles] == ["first", "second", "third"]
    assert str(troubles).splitlines() == ["a.toml:2: c: first", "a.toml:9: b: second", "a.toml:9: a: third"]


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ("5/8", "'5/8'"),
        (7, "7"),
        ("a\nb", r"'a\nb'"),
        ("x" * 90, "'" + "x" * 60 + "..."),
    ],
)
def test_what_was_given_is_quoted_on_one_short_line(given, said):
    assert quoted(given) == said


def test_a_number_too_long_to_write_out_is_quoted_in_words():
    assert quoted(10**5000) == "a number of thousands of figures"
