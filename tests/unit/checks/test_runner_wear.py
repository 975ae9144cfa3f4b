"""Runners of soft wood: each kind judged by its own stock (RN-1, RN-3)."""

from fractions import Fraction

import pytest

from joinlay.checks import runner_wear
from joinlay.findings import Harm
from tests.assembly.existing_cases import measured, ours, planned

PINE = '[stock.pine]\nkind = "solid"\nspecies = "eastern white pine"\nnominal = "20"\nmeasured = "20"\n'


def worn(text):
    return [one for one in planned(text).findings if one.kind == "runner wear"]


def with_own(text, stock, kind):
    text = text.replace('units = "mm"\n', f'units = "mm"\n{PINE}')
    return text.replace('[runners]\nstock = "ash"\n', f'[runners]\nstock = "ash"\n{kind} = "{stock}"\n')


def test_hard_runners_are_passed_in_silence():
    assert worn(ours()) == []


@pytest.mark.parametrize("kind", ["kickers", "guides"])
def test_soft_ones_are_told_with_their_own_wood_and_thickness_and_a_hard_one_that_is_there(kind):
    text = with_own(ours(), "pine", kind)
    (found,) = worn(text)
    said = found.sentence(planned(text).rule.text)
    assert found.harm is Harm.NOTE
    assert said.startswith(f"The {kind} are of pine, 20 mm thick: eastern white pine is soft (specific gravity 0.35)")
    (change,) = found.remedies[0].changes
    assert (change.table, change.key, change.value) == ("runners", kind, "ash")
    assert worn(with_own(ours(), "ash", kind)) == []


def test_wood_of_the_least_gravity_that_lasts_is_not_soft(monkeypatch):
    """Eastern white pine has 0.35 (Wood Handbook, table 5-3b); what is soft begins under 0.45 (common practice)."""
    text = (
        ours().replace('units = "mm"\n', f'units = "mm"\n{PINE}').replace('[runners]\nstock = "ash"', '[runners]\nstock = "pine"')
    )
    for soft, kinds in ((Fraction(35, 100), 0), (Fraction(36, 100), 3), (runner_wear._SOFT, 3)):
        monkeypatch.setattr("joinlay.checks.runner_wear._SOFT", soft)
        assert len(worn(text)) == kinds
    assert Fraction(45, 100) == runner_wear._SOFT


def test_in_a_case_that_is_there_too():
    text = (
        measured(planned(ours()))
        .replace('units = "mm"\n', f'units = "mm"\n{PINE}')
        .replace('stock = "ash"\nsides', 'stock = "pine"\nsides')
    )
    assert [one.what.split(" are of")[0] for one in worn(text)] == ["The bearers", "The guides", "The kickers"]
