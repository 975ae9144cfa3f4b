"""What every joint asks of cutters and sizes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused, note, refusal
from joinlay.joints.fits import (
    depth_down,
    findings_at,
    judge_depth,
    label,
    passes_for,
    refusals_at,
    refuse_nothing,
    widest_cutter,
)
from joinlay.lengths import inches, mm
from joinlay.shop import Cutter
from tests.unit.joints.wood import INCH, number, shop, size, way_out


def test_labels():
    assert label("drawer 1", "tenon width") == "drawer 1 tenon width"
    assert label("", "tenon width") == "tenon width"


def test_findings_get_their_place_and_gaps_are_dropped():
    one = note("thing", "This.", "LT-1")
    assert [found.where for found in findings_at("drawer 1", None, one)] == ["drawer 1"]
    assert findings_at("", one, None) == (one,)


def test_refusals_get_their_place():
    for named in ("drawer 1", ""):
        with pytest.raises(Refused) as refused, refusals_at(named):
            raise refusal("thing", "This.", "That.", "LT-1")
        assert refused.value.finding.where == named


def test_sizes_more_than_nothing_pass_and_missing_ones_too():
    refuse_nothing(width=size("1"), depth=None)
    with pytest.raises(BadInput, match=r"^dado depth is -3\.175 mm"):
        refuse_nothing(dado_depth=size("-1/8", ""))


@pytest.mark.parametrize(
    ("width", "cutter", "moves"),
    [
        ("1/4", "1/4", ["0"]),
        ("5/16", "1/4", ["0", "1/16"]),
        ("1/2", "1/4", ["0", "1/4"]),
        ("17/32", "1/4", ["0", "9/64", "9/32"]),
        ("3/4", "1/4", ["0", "1/4", "1/2"]),
    ],
)
def test_passes(width, cutter, moves):
    found = [one.aside for one in passes_for(size(width), size(cutter))]
    assert found == [inches(move) for move in moves]
    assert all(after - before <= inches(cutter) for before, after in pairwise(found))


def test_the_widest_cutter():
    assert widest_cutter(shop(), size("0.3"), size("1/4"), "dado") == inches("1/4")


def test_the_widest_cutter_that_reaches():
    owned = replace(shop(), cutters=(Cutter(size("1/8"), size("1")), Cutter(size("1/4"), size("1/2"))))
    assert widest_cutter(owned, size("1/4"), size("3/4"), "groove") == inches("1/8")
    with pytest.raises(Refused) as refused:
        widest_cutter(owned, size("1/4"), size("1 1/4"), "groove")
    assert refused.value.finding.rule == "CK-7"
    assert way_out(refused.value.finding) == "A cutter that reaches 1 1/4 in would do, or a groove 1 in deep."


def test_down_to_the_rule_but_not_under_the_least():
    assert depth_down(size("0.3"), INCH, size("0.1")) == inches("9/32")
    assert depth_down(size("0.3"), INCH, size("0.29")) == inches("0.3")


@pytest.mark.parametrize(("depth", "harm"), [("1/8", Harm.WARN), ("1/4", None), ("1/2", None), ("5/8", Harm.WARN)])
def test_how_deep_is_sound(depth, harm):
    found = judge_depth("dado", size(depth), size("1"), (Fraction(1, 4), Fraction(1, 2), Fraction(2, 3)), "DA-2")
    assert (found.harm if found else None) is harm


def test_how_deep_is_too_deep():
    with pytest.raises(Refused) as refused:
        judge_depth("dado", size("3/4"), size("1"), (Fraction(1, 4), Fraction(1, 2), Fraction(2, 3)), "DA-2")
    assert number(refused.value.finding, "utmost").mm == mm("25.4").mm * Fraction(2, 3)
