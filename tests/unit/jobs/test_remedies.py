"""Where remedies are written in a job, and what a refusal doesn't say again."""

import json
import tomllib

import pytest

from joinlay.documents.job_file import job_in
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.jobs.remedies import settled
from joinlay.lengths import inches, mm
from tests.cli.running import ROOT
from tests.unit.jobs.jobs import GOOD

THREE = GOOD + '\n[[drawer]]\ncount = 2\ntaper = "1/32"\nopening = { width = "18", height = "4", depth = "20" }\n'


def placed(text, change, *drawers):
    """The changes as they are written in the job of that ``text``, for a finding about those ``drawers``."""
    job = read_job(text, "chest.toml")
    finding = Finding("fit", Harm.WARN, drawers[0], "", parts=drawers, remedies=(Remedy("do it", (change,)),))
    owners = {f"drawer {n}": f"drawer {n}" for n in (1, 2, 3)}
    (found,) = settled((finding,), job, owners)
    return [(c.table, c.index, c.key, c.value) for remedy in found.remedies for c in remedy.changes]


TOP, TAPER = figure("top clearance", inches("3/32")), figure("taper", mm(0))


@pytest.mark.parametrize(
    ("change", "drawers", "where"),
    [
        (TOP, ("drawer 1", "drawer 2", "drawer 3"), [("drawers", None, "top-clearance", "3/32")]),
        (TOP, ("drawer 1",), [("drawer", 0, "top-clearance", "3/32")]),
        (TOP, ("drawer 2",), [("drawer", 1, "top-clearance", "3/32")]),
        (TAPER, ("drawer 1", "drawer 2", "drawer 3"), [("drawer", 0, "taper", "0"), ("drawer", 1, "taper", "0")]),
        (TAPER, ("drawer 3",), [("drawer", 1, "taper", "0")]),
        (figure("kicker lift", inches("1/16")), ("drawer 1",), [("practice", None, "kicker-lift", "1/16")]),
        (figure("bottom clearance of the front", mm(1)), ("drawer 1",), [("drawer", 0, "bottom-clearance", "1 mm")]),
        (Change("drawers", "bottom", "birch"), ("drawer 1",), [("drawer", 0, "bottom", "birch")]),
        (Change("use", "stands", "anchored"), ("drawer 1",), [("use", None, "stands", "anchored")]),
    ],
)
def test_a_change_finds_its_table_and_row(change, drawers, where):
    assert placed(THREE, change, *drawers) == where


def test_the_drawers_of_a_bank_are_changed_in_their_bank():
    job = job_in(ROOT / "examples/seed-cabinet.toml")
    assert [job.written.rows[f"drawer {n}"] for n in (1, 5, 6, 8)] == [("bank", 0), ("bank", 0), ("bank", 1), ("bank", 1)]
    assert ("bank", 1, "taper") not in job.written.keys


def test_the_words_name_the_key_and_a_stock_with_braces_does_no_harm():
    job = read_job(GOOD.replace("[stock.thin]", '[stock."{0}"]').replace('bottom = "thin"', 'bottom = "{0}"'), "chest.toml")
    change = Remedy("take the other", (Change("drawers", "bottom", "{0}"),))
    (found,) = settled((Finding("fit", Harm.WARN, "drawer 1", "", remedies=(change,)),), job, {"drawer 1": "drawer 1"})
    assert found.way_out(str) == 'Take the other (bottom = "{0}" under [drawers]).'


def test_what_is_alike_of_several_drawers_is_written_once():
    job = read_job(THREE, "chest.toml")
    finding = Finding(
        "fit", Harm.WARN, "drawer 1", "", parts=("drawer 1", "drawer 2", "drawer 3"), remedies=(Remedy("do", (TAPER,)),)
    )
    (found,) = settled((finding,), job, {f"drawer {n}": f"drawer {n}" for n in (1, 2, 3)})
    assert found.way_out(str) == 'Do (taper = "0" under [[drawer]] 1 and 2).'


@pytest.mark.parametrize("name", ["birch-12", '{0} "q"', "../..\\etc", "'\"\\", "=cmd {a} <&'", "Birke, gut"])
def test_what_the_words_say_to_write_is_toml_and_says_it(name):
    job = read_job(GOOD.replace("[stock.thin]", f"[stock.{json.dumps(name)}]").replace('"thin"', json.dumps(name)), "chest.toml")
    ways = Remedy("do", (Change("drawers", "bottom", name), Change(f"stock.{name}", "cut", "quarter")))
    (found,) = settled((Finding("fit", Harm.WARN, "drawer 1", "", remedies=(ways,)),), job, {"drawer 1": "drawer 1"})
    said = found.way_out(str).removeprefix("Do (").removesuffix(").")
    key, _, (table, _, heading) = *said.rpartition(" and ")[:2], said.rpartition(" and ")[2].rpartition(" under ")
    assert tomllib.loads(key.removesuffix(" under [drawers]")) == {"bottom": name}
    assert tomllib.loads(f"{heading}\n{table}") == {"stock": {name: {"cut": "quarter"}}}


BANDED = '\n[[banding]]\npart = "drawer front"\nstock = "edging"\nthickness = "1/16"\n'


def kinds(text):
    return [(f.kind, f.harm) for f in plan(read_job(text, "chest.toml")).findings if f.harm is Harm.REFUSE]


@pytest.mark.parametrize("more", ["", BANDED])
def test_a_refusal_is_told_once(more):
    """A drawer that can't be made has no front, and that its front can't be banded is not told besides."""
    text = GOOD.replace("[[drawer]]", '[[drawer]]\ntaper = "-1/4"') + more
    assert kinds(text) == [("drawer size", Harm.REFUSE)]


def test_a_part_that_nobody_has_is_still_told_beside_a_refusal():
    text = GOOD.replace("[[drawer]]", '[[drawer]]\ntaper = "-1/4"') + BANDED.replace("drawer front", "drawer lid")
    assert kinds(text) == [("drawer size", Harm.REFUSE), ("banding", Harm.REFUSE)]


def test_wood_on_the_quarter_is_not_told_to_be_so():
    swelling = GOOD.replace("4 1/4", "16")
    for cut, told in (("flat", True), ("quarter", False)):
        found = plan(read_job(swelling.replace('nominal = "3/4"', f'nominal = "3/4"\ncut = "{cut}"'), "chest.toml")).findings
        ways = [f.way_out(str) for f in found if f.kind == "wood movement" and f.harm is Harm.WARN]
        assert ways
        assert any("on the quarter" in way for way in ways) is told
        assert not any("slack" in way for way in ways)


def test_an_edge_left_out_of_the_banding_is_not_told_of_again():
    """The words say to leave the edge out: done edge by edge, each goes and no other comes."""
    edges = ["front end", "back end", "bottom edge", "top edge"]
    told = []
    while edges:
        listed = ", ".join(f'"{edge}"' for edge in edges)
        text = f"{GOOD}{BANDED.replace('drawer front', 'drawer side')}edges = [{listed}]\n"
        found = [f for f in plan(read_job(text, "chest.toml")).findings if f.kind == "banding" and f.harm is Harm.WARN]
        if not found:
            break
        assert "Leave that edge out of its [[banding]], under edges" in found[0].way_out(str)
        named = {edge for edge in edges for f in found if f"band on the {edge}" in f.sentence(str)}
        assert named
        told += sorted(named)
        edges = [edge for edge in edges if edge not in named]
    assert len(told) == len(set(told)) > 0
