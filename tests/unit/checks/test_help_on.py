"""Pages of help."""

import ast
from pathlib import Path

import pytest

import joinlay
from joinlay.checks.gathering import ORDER
from joinlay.checks.help_on import PAGES, SHARED, help_on
from joinlay.errors import BadInput


def test_every_kind_the_checks_find_has_a_page():
    for kind in ORDER:
        assert help_on(kind).kind == kind


def test_shared_names_lead_to_pages_that_are_there():
    assert set(SHARED.values()) <= set(PAGES)
    assert not set(SHARED) & set(PAGES)


def test_a_double_bearer_has_a_page_of_its_own_that_says_both_ways_to_part_a_row():
    page = help_on("double bearer")
    assert page.rules == "RO-1"
    for between in ("partition", "double bearer"):
        assert f'between = "{between}"' in page.job


def test_case_and_spaces_do_not_matter():
    assert help_on("  Bottom   SAG ") is PAGES["bottom sag"]


def test_where_people_may_be_hurt_the_caution_comes_first():
    for kind in ("tipping", "machines", "cutter reach"):
        assert help_on(kind).text.startswith("Caution: ")


def test_tipping_says_anchor_and_claims_nothing():
    page = help_on("tipping")
    assert "Anchor every free-standing piece to the wall" in page.caution
    assert "no claim to ASTM F2057 or EN 14749" in page.text


def test_pages_are_short_and_end_with_their_rules():
    for page in PAGES.values():
        assert len(page.text) < 1600
        assert page.remedies
        assert page.text.splitlines()[-1] == f"Rules: {page.rules}."


@pytest.mark.parametrize(("wrong", "near"), [("raking", "racking"), ("tiping", "tipping"), ("xyzzy", "there are clash")])
def test_an_unknown_kind_is_answered_with_the_nearest(wrong, near):
    with pytest.raises(BadInput, match=near):
        help_on(wrong)


def kinds_in_the_source():
    """Every kind of finding that is written out anywhere in the program."""
    makers = {"refusal", "warning", "note", "Finding"}
    for file in Path(joinlay.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in makers and node.args:
                kind = node.args[0]
                if isinstance(kind, ast.Constant):
                    yield str(kind.value), file.name


def test_every_kind_of_finding_anywhere_has_a_page():
    without = sorted({f"{kind} ({file})" for kind, file in kinds_in_the_source() if kind not in PAGES and kind not in SHARED})
    assert without == [], "write a page for these kinds in checks/help, or let them share one in checks/help_on.py"


@pytest.mark.parametrize(
    ("kind", "key"),
    [("fit", "cutting-tolerance"), ("bottom sag", "stiffness"), ("bottom sag", "load"), ("wood movement", "[seasons]"),
     ("tipping", "stands"), ("weight", "load")],
)  # fmt: skip
def test_what_to_write_in_the_job_is_said(kind, key):
    said = help_on(kind).text
    assert f"In the job: {help_on(kind).job}" in said
    assert key in help_on(kind).job
    assert "In the job:" not in help_on("clash").text
