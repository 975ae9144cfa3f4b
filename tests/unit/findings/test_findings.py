"""A finding is data: its numbers are set on the maker's rule when it is said."""

import dataclasses

import pytest

from joinlay.findings import Finding, Harm, Refused, note, refusal, warning
from joinlay.lengths import GRADUATIONS, Fine, inches, mm

INCH, METRIC = GRADUATIONS["1/32 in"].text, GRADUATIONS["0.1 mm"].text


def a_refusal():
    """A refusal with a length, a count and a word among its numbers."""
    return refusal(
        "tenon width",
        "{count} tenons need {needed}; the {part} has {has}",
        "make the {part} at least {needed} high",
        "LT-10",
        "common practice",
        needed=inches("1 3/4"),
        has=mm(40),
        count=2,
        part="rail",
    )


@pytest.mark.parametrize(
    ("show", "said", "way_out"),
    [
        (INCH, "2 tenons need 1 3/4 in; the rail has 1 9/16+ in (40 mm)", "make the rail at least 1 3/4 in high"),
        (
            METRIC,
            "2 tenons need 44.45 mm (1 3/4 in); the rail has 40 mm",
            "make the rail at least 44.45 mm (1 3/4 in) high",
        ),
    ],
    ids=["inch", "metric"],
)
def test_numbers_are_shown_on_the_makers_rule(show, said, way_out):
    finding = a_refusal().finding
    assert finding.sentence(show) == said
    assert finding.way_out(show) == way_out


def test_a_refusal_is_an_error_whose_text_stands_alone():
    refused = a_refusal()
    assert isinstance(refused, Refused)
    assert str(refused) == "2 tenons need 44.45 mm; the rail has 40 mm make the rail at least 44.45 mm high"
    assert str(refused.at("drawer 1")).startswith("drawer 1: 2 tenons")
    assert refused.finding.harm is Harm.REFUSE


def test_places_are_put_in_front():
    finding = note("fit", "tight").at("left side").at("drawer 3")
    assert finding.where == "drawer 3, left side"
    assert a_refusal().at("left side").at("drawer 3").finding.where == "drawer 3, left side"


def test_a_note_needs_no_way_out():
    finding = note("stock", "{name} was not measured", "section 0", name="birch")
    assert (finding.harm, finding.way_out(INCH), finding.sentence(INCH)) == (Harm.NOTE, "", "birch was not measured")


def test_a_warning_carries_rule_and_source():
    finding = warning("racking", "jams at {at}", "wax the runners", "CK-2", "statics", at=mm(200))
    assert (finding.harm, finding.rule, finding.source) == (Harm.WARN, "CK-2", "statics")


def test_the_worst_comes_first():
    found = [note("a", ""), a_refusal().finding, warning("b", "", "", "CK-1")]
    assert [finding.harm for finding in sorted(found, key=lambda f: f.harm)] == [Harm.REFUSE, Harm.WARN, Harm.NOTE]


def test_words_with_braces_in_the_numbers_are_left_alone():
    assert note("name", "called {name}", name="{curly} 100%").sentence(INCH) == "called {curly} 100%"


def test_a_finding_is_a_value():
    assert a_refusal().finding == a_refusal().finding
    assert len({a_refusal().finding, a_refusal().finding, note("a", "b")}) == 2
    for field in dataclasses.fields(Finding):
        with pytest.raises(dataclasses.FrozenInstanceError):
            setattr(a_refusal().finding, field.name, "other")


def test_a_finding_without_numbers_says_its_words():
    assert Finding("fit", Harm.NOTE, "", "all is well").sentence(INCH) == "all is well"


def test_nothing_is_about_under_a_mark():
    # "sags about under 1/64 in" says too much and too little: what can't be told is under the mark.
    small, told = ({"sag": Fine(mm(size))} for size in ("0.1", "3"))
    assert Finding("sag", Harm.NOTE, "", "it sags about {sag}", small).sentence(INCH) == "it sags under 1/64 in"
    assert Finding("sag", Harm.NOTE, "", "it sags about {sag}", told).sentence(INCH) == "it sags about 1/8 in"
