"""Too slow for the glue, too few clamps: when it is said, how loudly, and that what is offered helps."""

from dataclasses import replace
from functools import cache

import pytest

from joinlay.assembly.glue_ups import glue_ups_of
from joinlay.assembly.steps import steps_of
from joinlay.checks.glue_up_findings import check_glue_ups
from joinlay.documents.mending import helps, mended
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from joinlay.shop import Clamps, Glue
from tests.measured.packets import example
from tests.unit.jobs.jobs import GOOD

#: A drawer of 18 3/8 in takes three clamps: one across at the back, two along the sides.
FEW = 'clamps = [{ length = "30", count = 1 }]'
SHORT = 'clamps = [{ length = "12", count = 20 }]'
SOME = 'clamps = [{ length = "12", count = 20 }, { length = "24", count = 1 }]'


def text_with(shop):
    return f"{GOOD}\n[shop]\n{shop}\n"


@cache
def found_in(shop):
    made = plan(read_job(text_with(shop), "chest.toml"))
    return made, [one for one in made.findings if one.kind in ("glue time", "clamps")]


def test_nothing_is_said_of_clamps_that_nobody_counted():
    assert found_in('kerf = "1/8"')[1] == []


@pytest.mark.parametrize("shop", ['clamps = [{ length = "30", count = 3 }]', 'clamps = [{ length = "21", count = 2 }]'])
def test_clamps_that_just_do(shop):
    # The drawer is 19 1/2 in long: with two cauls 21; across its back less. With two its front and its back are glued one after
    # the other.
    assert found_in(shop)[1] == []


@pytest.mark.parametrize(("shop", "lacks"), [(FEW, 2), (SHORT, 3), (SOME, 2)])
def test_too_few_and_too_short(shop, lacks):
    (finding,) = found_in(shop)[1]
    assert (finding.kind, finding.harm, finding.rule) == ("clamps", Harm.WARN, "PT-4")
    assert (finding.numbers["takes"], finding.numbers["lacks"]) == (3, lacks)
    assert "stiff caul" in finding.remedy


@pytest.mark.parametrize(
    ("shop", "changes"),
    [
        (FEW, [("count", 0, 3)]),
        (SOME, [("count", 1, 3)]),
        (SHORT, [("length", 1, "21"), ("count", 1, 3)]),
        ('glue = { open-time = "2 min" }', [("open-time", None, "6 min")]),
    ],
)
def test_what_is_offered_is_set_where_it_belongs_and_helps(shop, changes):
    before, (finding,) = found_in(shop)
    (remedy,) = finding.remedies
    assert [(change.key, change.index, change.value) for change in remedy.changes] == changes
    after = plan(read_job(mended(text_with(shop), remedy.changes), "chest.toml"))
    assert helps(finding, before.findings, after.findings)
    assert not [one for one in after.findings if one.kind == finding.kind]


def test_a_shop_file_is_left_alone():
    file = 'units = "inch"\nglue = { open-time = "1 min" }\n' + FEW + "\n"
    alone = plan(read_job(f'shop = "our.shop.toml"\n{GOOD}', "chest.toml", file, "our.shop.toml"))
    both = plan(read_job(f'{GOOD}\n[shop]\nfile = "our.shop.toml"\nkerf = "1/8"\n', "chest.toml", file, "our.shop.toml"))
    for made, keys in ((alone, []), (both, ["open-time"])):
        warned = [one for one in made.findings if one.kind in ("glue time", "clamps")]
        assert [one.kind for one in warned] == ["glue time", "clamps"]
        assert [change.key for one in warned for remedy in one.remedies for change in remedy.changes] == keys


def test_the_usual_glue_is_only_noted():
    (finding,) = (one for one in example("print-chest").findings if one.kind == "glue time")
    assert (finding.harm, finding.where, finding.remedies) == (Harm.NOTE, "face frame on the case", ())
    assert 'such as glue = { open-time = "12 min" }' in finding.sentence(str)


def test_a_bottle_that_is_too_quick_is_warned_of_and_names_every_glue_up():
    made = example("print-chest")
    quick = replace(made.shop, glue=Glue(120, 3600, is_written=True))

    (finding,) = check_glue_ups(glue_ups_of(steps_of(made.order), made.boards, quick), quick)
    assert finding.harm is Harm.WARN
    assert finding.sentence(str).startswith("Spreading and clamping takes 12 min, for the face frame on the case; the case")
    assert set(finding.parts) >= {"case", "face frame", "piece"}


def test_what_a_row_of_clamps_more_is_written_like():
    text = text_with(SHORT)
    remedy = found_in(SHORT)[1][0].remedies[0]
    made = mended(text, remedy.changes)
    assert 'clamps = [{ length = "12", count = 20 }, {length = "21", count = 3}]' in made


def test_more_than_can_be_had_is_only_told():
    made = example("print-chest")
    none = replace(made.shop, clamps=(Clamps(made.shop.practice.length("caul thickness"), 1),))
    (finding,) = (one for one in check_glue_ups(made.glue_ups, none) if one.kind == "clamps")
    assert finding.numbers["reach"] == inches(27)
    assert finding.numbers["buy"] == 16
