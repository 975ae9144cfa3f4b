"""What stands beside a part on its template."""

from dataclasses import replace

from joinlay.checks.gathering import beside_parts, gathered
from joinlay.checks.seasons import check_seasons
from joinlay.findings import Finding, Harm, note, warning
from joinlay.lengths import mm
from tests.unit.checks.making import CONDITIONS, SHOP, drawer, practice_with, solid


def told(*findings):
    return beside_parts(findings, SHOP.rule)


def marked(where, kind, mark="", harm=Harm.WARN, parts=()):
    return Finding(kind, harm, where, "It is so.", {"left": mm(2)}, mark=mark, parts=parts)


def test_the_number_is_the_place_among_all_findings():
    found = told(note("weight", "Heavy.").at("drawer 1"), marked("drawer 1 front", "thin wood", "only {left} left"))
    assert found == {"drawer 1 front": ("finding 2: only 2 mm left",)}


def test_a_warning_without_few_words_is_named_by_its_kind_and_a_note_is_left_out():
    assert told(marked("drawer 1 front", "clash")) == {"drawer 1 front": ("finding 1: clash",)}
    assert told(marked("drawer 1 front", "clash", harm=Harm.NOTE)) == {}
    assert told(marked("drawer 1 front", "clash", "close", harm=Harm.NOTE)) == {"drawer 1 front": ("finding 1: close",)}


def test_two_at_most_the_worst_first():
    found = told(*(marked("drawer 1 front", kind) for kind in ("clash", "thin wood", "cutter reach")))
    assert found["drawer 1 front"] == ("finding 1: clash", "finding 2: thin wood")


def test_one_finding_on_several_parts_stands_by_each_of_them():
    both = gathered([warning("clash", "So.", "", "CK-7").at(f"drawer {n} front") for n in (1, 2)])
    assert told(*both) == {"drawer 1 front": ("finding 1: clash",), "drawer 2 front": ("finding 1: clash",)}
    row = gathered([marked(f"drawer {n} back", "clash", "{left} left") for n in (1, 2, 3)])
    assert list(told(*row)) == ["drawer 1 back", "drawer 2 back", "drawer 3 back"]


def test_parts_that_bind_are_told_one_by_one():
    wild = drawer(
        side_height=None,
        height=200,
        front=solid("fronts", 20),
        sides=solid("sides", 12),
        shop=replace(SHOP, practice=practice_with()),
    )
    (binding, *_) = check_seasons(wild, SHOP, CONDITIONS)
    assert binding.harm is Harm.WARN
    assert binding.about == ("drawer 1 front", "drawer 1 left side", "drawer 1 right side")
    assert binding.few_words(SHOP.rule.text).startswith("top edge swells ")
