"""A dimension keeps its working: the expression, what it read, its rule and source, down to what somebody wrote."""

import copy
import pickle

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import (
    GRADUATIONS,
    NOTHING,
    Dimension,
    Fraction,
    chosen,
    default,
    dimension,
    inches,
    largest,
    mm,
    rounded_down,
    rounded_to,
    smallest,
    written,
)

RULE = GRADUATIONS["1/32 in"]
OPENING = written(inches("18 3/8"), "opening width", "chest.toml:12")
CLEARANCE = default(inches("1/32"), "side clearance", "DR-1", "common practice")
WIDTH = (OPENING - 2 * CLEARANCE).named("front width", "DR-1", "common practice")


def figures(length):
    """A length on the inch rule, without its unit."""
    return RULE.read(length).figures


def test_the_front_width_tells_its_working():
    assert inches("18 5/16") == WIDTH
    assert WIDTH.expression(figures) == "opening width 18 3/8 - 2 x side clearance 1/32"
    assert WIDTH.inputs == (OPENING, CLEARANCE)
    assert (WIDTH.name, WIDTH.rule, WIDTH.source) == ("front width", "DR-1", "common practice")


def test_what_was_written_has_an_origin_and_no_working():
    assert OPENING.origin == "chest.toml:12"
    assert OPENING.expression(figures) == ""
    assert OPENING.inputs == ()
    assert CLEARANCE.origin == "default"


def test_a_named_one_under_another_name_keeps_every_step():
    again = WIDTH.named("core width", "EB-2", "our own choice")
    assert again == WIDTH
    assert again.expression(figures) == "front width 18 5/16"
    assert again.inputs == (WIDTH,)
    assert again.inputs[0].inputs == (OPENING, CLEARANCE)


def test_naming_it_the_same_again_only_adds_rule_and_source():
    plain = (OPENING - CLEARANCE).named("front width")
    ruled = plain.named("front width", "DR-1", "common practice")
    assert (plain.rule, ruled.rule, ruled.source) == ("", "DR-1", "common practice")
    assert ruled.expression(figures) == plain.expression(figures)
    assert ruled.named("front width").rule == "DR-1"


def test_an_input_read_twice_is_listed_once_in_reading_order():
    sum_of_both = CLEARANCE + OPENING + CLEARANCE
    assert sum_of_both.inputs == (CLEARANCE, OPENING)


def test_inputs_look_through_steps_without_a_name_but_not_through_a_named_one():
    rail = written(inches("3/4"), "rail height", "chest.toml:14")
    assert ((WIDTH + rail) / 2).inputs == (WIDTH, rail)


A, B, C = (written(mm(n), name, "here") for n, name in ((7, "a"), (5, "b"), (3, "c")))

#: Workings, by how they are to be spelled.
SPELLED = {
    "a 7 - b 5 - c 3": A - B - C,
    "a 7 - (b 5 - c 3)": A - (B - C),
    "a 7 - (b 5 + c 3)": A - (B + C),
    "a 7 + b 5 - c 3": A + (B - C),
    "2 x (a 7 + b 5)": 2 * (A + B),
    "(a 7 + b 5) / 2": (A + B) / 2,
    "2 x a 7 / 3": 2 * A / 3,
    "2 x 3 x a 7": 2 * (3 * A),
    "a 7 / 2 / 3": A / 2 / 3,
    "a 7 / (1/2)": A / Fraction(1, 2),
    "1/2 x a 7": A * Fraction(1, 2),
    "a 7 - 1/2 x b 5": A - Fraction(1, 2) * B,
    "-1 x a 7": -A,
    "a 7 + b 5": A - -B,
    "a 7 - c 3": A + -C,
    "c 3": (mm(0) + (C - 0 * B + A * 0 - mm(0)) * 1 / 1).named("d"),
    "b 5": (-(B * -1)).named("e"),
    "a 7 - none 0": A - written(mm(0), "none", "here"),
    "a 7 - 2 x none 0": A - 2 * written(mm(0), "none", "here"),
    "0.2496 x a 7": A * Fraction(6561, 26281),
    "0.9741 x a 7 - c 3": A * Fraction(14423, 14807) - C,
    "a 7 / (-2)": A / -2,
    "a 7 + 4": A + mm(4),
    "4 + a 7": mm(4) + A,
    "4 - a 7": mm(4) - A,
    "a 7 - (-4)": A - mm(-4),
    "-4 - a 7": mm(-4) - A,
    "a 7 + off (-2)": A + written(mm(-2), "off", "here"),
    "smallest of a 7, b 5 + c 3": smallest(A, B + C),
    "2 x (smallest of a 7, b 5)": 2 * smallest(A, B),
    "a 7 - (largest of b 5, c 3)": A - largest(B, C),
    "smallest of (largest of a 7, b 5), c 3": smallest(largest(A, B), C),
    "size of b 5 - a 7": abs(B - A),
    "c 3 + (size of b 5 - a 7)": C + abs(B - A),
    "as even as they come: a 7, 2": chosen(mm(3), "as even as they come:", A, mm(2)),
    "as many as fit": chosen(mm(3), "as many as fit"),
    "nearest on the rule: a 7 / 3": rounded_to(A / 3, GRADUATIONS["0.5 mm"]),
    "down to the rule: a 7 / 3": rounded_down(A / 3, GRADUATIONS["0.5 mm"]),
}


@pytest.mark.parametrize("spelled", SPELLED)
def test_brackets_stand_only_where_they_are_needed(spelled):
    assert SPELLED[spelled].expression(lambda length: str(length.mm)) == spelled


def test_rounding_dimensions():
    assert rounded_to(A / 3, GRADUATIONS["0.5 mm"]) == mm("2.5")
    assert rounded_down(A / 3, GRADUATIONS["0.5 mm"]) == mm(2)


def test_smallest_and_largest_of_lengths():
    assert smallest(A, B, C) == C
    assert largest(A, mm(9)) == mm(9)
    for pick in (smallest, largest):
        with pytest.raises(BadInput, match="at least one length"):
            pick()


def test_arithmetic_stays_a_dimension():
    for result in (A + B, A + mm(1), mm(1) + A, A - mm(1), mm(1) - A, 2 * A, A * Fraction(1, 2), A / 2, -A, abs(A)):
        assert type(result) is Dimension
        assert result.name == ""
    assert Fraction(7, 5) == A / B
    assert type(A / B) is Fraction


def test_a_dimension_equals_the_length_it_is():
    assert mm(7) == A
    assert hash(mm(7)) == hash(A)
    assert written(mm(7), "another name", "elsewhere") == A
    assert {mm(7): "found"}[A] == "found"
    assert A > B > mm(1)
    assert sorted([A, mm(6), B]) == [B, mm(6), A]


def test_a_plain_length_becomes_a_dimension_and_a_dimension_stays_itself():
    assert dimension(A) is A
    assert dimension(mm(4)) == mm(4)
    assert dimension(mm(4)).expression(str) == ""
    assert mm(0) == NOTHING


def test_a_dimension_never_changes():
    for field in ("mm", "name", "rule", "operands"):
        with pytest.raises(AttributeError, match="cannot be changed"):
            setattr(A, field, "other")


@pytest.mark.parametrize(
    "again",
    [copy.copy, copy.deepcopy, lambda d: pickle.loads(pickle.dumps(d))],
    ids=["copy", "deepcopy", "pickle"],
)
def test_copies_keep_the_working(again):
    twin = again(WIDTH)
    assert twin == WIDTH
    assert type(twin) is Dimension
    assert (twin.name, twin.rule, twin.source, twin.origin) == (WIDTH.name, WIDTH.rule, WIDTH.source, WIDTH.origin)
    assert twin.expression(figures) == WIDTH.expression(figures)
    assert [given.origin for given in twin.inputs] == ["chest.toml:12", "default"]
