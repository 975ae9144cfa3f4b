"""How fast router cutters turn (check value D7): a speed table as it is commonly printed, seen. To 1 in 24 000 turns a minute, to
2 in 18 000, to 2 1/2 in 16 000, to 3 1/2 in 12 000; a lower limit marked on the cutter stands over it.
"""

from math import pi

import pytest

from joinlay.lengths import inches, mm
from joinlay.settings import SPEEDS, router_speed


@pytest.mark.parametrize(
    ("diameter", "speed"),
    [
        ("1/8", 24_000),
        ("1", 24_000),
        ("1 1/64", 18_000),
        ("2", 18_000),
        ("2 1/8", 16_000),
        ("2 1/2", 16_000),
        ("2 9/16", 12_000),
        ("3 1/2", 12_000),
    ],
)
def test_the_common_table(diameter, speed):
    assert router_speed(inches(diameter)) == speed


def test_past_the_table_nothing_is_promised():
    assert router_speed(inches("3 9/16")) is None


def test_a_metric_cutter_is_judged_by_its_own_size():
    assert router_speed(mm("25.4")) == 24_000
    assert router_speed(mm("25.5")) == 18_000


def test_wider_is_never_faster_and_no_rim_passes_60_metres_a_second():
    """Computed from the table, pi d n at the widest of each step: 32, 48, 53 and 56 m/s."""
    speeds = [speed for _, speed in SPEEDS]
    assert speeds == sorted(speeds, reverse=True)
    rims = [pi * float(diameter.mm) / 1000 * speed / 60 for diameter, speed in SPEEDS]
    assert [round(rim) for rim in rims] == [32, 48, 53, 56]
