"""Laws of dimensions: the recorded working, worked again, gives the number; so does the working as it is printed."""

from __future__ import annotations

import copy
import pickle
import re
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from hypothesis import given
from hypothesis import strategies as st

from joinlay.lengths import GRADUATIONS, Dimension, Length, largest, mm, rounded_down, rounded_to, smallest, written
from tests.drawn import fractions

if TYPE_CHECKING:
    from collections.abc import Callable

RULE = GRADUATIONS["0.5 mm"]
NAMES = ("width", "side clearance", "tip gap", "rail height")

values = fractions(-500, 500, max_denominator=64, of=Fraction)
numbers = fractions(-9, 9, max_denominator=9, of=Fraction)
leaves = st.builds(lambda value, name: written(Length(value), name, "here"), values, st.sampled_from(NAMES)) | values.map(Length)


def steps(inner):
    """One step of working on top of ``inner``."""
    left = inner.map(lambda length: Dimension(length) if type(length) is Length else length)
    return st.one_of(
        st.builds(lambda a, b: a + b, left, inner),
        st.builds(lambda a, b: b + a, left, inner),
        st.builds(lambda a, b: a - b, left, inner),
        st.builds(lambda a, b: b - a, left, inner),
        st.builds(lambda a, n: a * n, left, numbers),
        st.builds(lambda a, n: a / n, left, numbers.filter(bool)),
        st.builds(lambda a: -a, left),
        st.builds(abs, left),
        st.builds(lambda some: smallest(*some), st.lists(inner, min_size=1, max_size=3)),
        st.builds(lambda some: largest(*some), st.lists(inner, min_size=1, max_size=3)),
        st.builds(lambda a: rounded_to(a, RULE), inner),
        st.builds(lambda a: rounded_down(a, RULE), inner),
        st.builds(lambda a, name: a.named(name, "DR-1", "common practice"), left, st.sampled_from(NAMES)),
    )


workings = st.recursive(leaves, steps, max_leaves=8).map(lambda length: Dimension(length) if type(length) is Length else length)

PHRASES: dict[str, Callable[[list[Any]], Any]] = {
    "smallest of": min,
    "largest of": max,
    "size of": lambda of: abs(of[0]),
    "nearest on the rule:": lambda of: RULE.round(of[0]),
    "down to the rule:": lambda of: RULE.down(of[0]),
}


def worked_again(length):
    """The value of a dimension from its operands alone, down to what was written."""
    if isinstance(length, Fraction) or not isinstance(length, Dimension) or not length.operation:
        return length
    of = [worked_again(operand) for operand in length.operands]
    if length.operation in PHRASES:
        return PHRASES[length.operation](of)
    plain: list[Any] = [Length(value.mm) if isinstance(value, Length) else value for value in of]
    return {
        "+": lambda: plain[0] + plain[1],
        "-": lambda: plain[0] - plain[1],
        "x": lambda: plain[0] * plain[1],
        "/": lambda: plain[0] / plain[1],
        "=": lambda: plain[0],
    }[length.operation]()


@given(workings)
def test_the_working_worked_again_gives_the_number(length):
    assert worked_again(length) == length


class Reader:
    """Reads an expression as a person with school arithmetic would: brackets, then x and /, then + and -, left to right.

    A name with figures counts as its figures; a phrase takes all that follows, up to its bracket.
    """

    token = re.compile(
        r"\s*(\(|\)|,|[-+x/](?= )|-?\d+(?:/\d+)?|smallest of|largest of|size of|nearest on the rule:|down to "
        r"the rule:|[a-z ]+?(?= \(?-?\d))"
    )

    def __init__(self, text):
        self.left = self.token.findall(text)
        assert re.sub(r"\s", "", "".join(self.left)) == re.sub(r"\s", "", text)

    def next_is(self, *wanted):
        return bool(self.left) and self.left[0] in wanted

    def everything(self):
        if self.left[0] in PHRASES:
            phrase = PHRASES[self.left.pop(0)]
            of = [self.sum()]
            while self.next_is(","):
                self.left.pop(0)
                of.append(self.sum())
            return phrase([Length(value) for value in of]).mm
        return self.sum()

    def sum(self):
        value = self.product()
        while self.next_is("+", "-"):
            value = value + self.product() if self.left.pop(0) == "+" else value - self.product()
        return value

    def product(self):
        value = self.single()
        while self.next_is("x", "/"):
            value = value * self.single() if self.left.pop(0) == "x" else value / self.single()
        return value

    def single(self):
        token = self.left.pop(0)
        if token == "(":
            value = self.everything()
            assert self.left.pop(0) == ")"
            return value
        if token in NAMES:
            return self.single()
        return Fraction(token)


@given(workings)
def test_the_printed_working_read_by_hand_gives_the_number(length):
    printed = length.expression(lambda part: str(part.mm))
    if printed:
        reader = Reader(printed)
        assert reader.everything() == length.mm
        assert not reader.left


@given(workings)
def test_only_what_was_simply_written_prints_no_working(length):
    assert (length.expression(str) == "") == (length.operation == "")


def named_below(length):
    """The named dimensions an expression reads, found by hand."""
    for operand in length.operands:
        if isinstance(operand, Dimension):
            if operand.name:
                yield operand
            else:
                yield from named_below(operand)


@given(workings)
def test_inputs_are_the_named_ones_each_once_in_reading_order(length):
    found = list(dict.fromkeys((part.name, part.mm) for part in named_below(length)))
    assert [(part.name, part.mm) for part in length.inputs] == found


@given(workings, st.sampled_from(NAMES), st.sampled_from(NAMES))
def test_naming_never_changes_a_number_nor_loses_a_name(length, first, second):
    once = length.named(first)
    twice = once.named(second)
    assert length == once == twice
    assert (once.name, twice.name) == (first, second)
    if first != second:
        assert twice.inputs == (once,)
        assert twice.inputs[0].name == first


@given(workings)
def test_equal_to_the_plain_length_in_every_way(length):
    plain = mm(length.mm)
    assert length == plain
    assert plain == length
    assert hash(length) == hash(plain)
    assert not length < plain
    assert length <= plain


@given(workings)
def test_copies_keep_value_and_working(length):
    for twin in (copy.copy(length), copy.deepcopy(length), pickle.loads(pickle.dumps(length))):
        assert type(twin) is Dimension
        assert twin == length
        assert twin.expression(repr) == length.expression(repr)
        assert (twin.name, twin.rule, twin.origin, twin.operation) == (length.name, length.rule, length.origin, length.operation)
