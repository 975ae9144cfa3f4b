"""The inch as the standards bodies fixed it.

International yard and pound agreement of 1 July 1959: one yard is 0.9144 m exactly, so an inch is 25.4 mm and a foot 304.8 mm.
ISO 32000 (from memory): the default unit of a page is 1/72 in.
"""

from fractions import Fraction

import pytest

from joinlay.lengths import inches, mm, read_length


@pytest.mark.parametrize(
    ("inch", "millimetres"),
    [
        ("1", "25.4"),
        ("12", "304.8"),
        ("36", "914.4"),
        ("1/64", "0.396875"),
        ("1/32", "0.79375"),
        ("1/16", "1.5875"),
        ("5/8", "15.875"),
    ],
)
def test_inches_in_millimetres(inch, millimetres):
    assert inches(inch) == mm(millimetres)


def test_a_yard_of_three_feet():
    assert read_length("3 ft") == read_length("0.9144 m") == mm("914.4")


def test_seventy_two_points_to_the_inch():
    point = inches(1) / 72
    assert point.mm == Fraction(127, 360)
    assert mm(1) / point == Fraction(360, 127)
