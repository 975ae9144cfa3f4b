"""The plan as JSON: nothing left out, lengths three ways, the same bytes each time."""

import json
from fractions import Fraction

import pytest

from joinlay.boards import Axis
from joinlay.boards.outline import Ring, outline_of
from joinlay.checks.weights import weigh
from joinlay.documents.plan_json import InWords, json_text, plan_json, weights_of
from joinlay.findings import note, refusal
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import GRADUATIONS, inches, mm, written
from tests.measured.packets import example
from tests.unit.casework.outlines import hook
from tests.unit.jobs.jobs import GOOD

JOB = GOOD + 'taper = "1/16"\n\n[practice]\ntip-gap = "1/50"\ntenon-depth = 3\n'


@pytest.fixture(scope="module")
def worked_out():
    return plan(read_job(JOB, "chest.toml"))


@pytest.fixture(scope="module")
def tree(worked_out):
    return json.loads(plan_json(worked_out, ["packet.pdf", "a.svg"]))


def lengths_in(value):
    """Every length in a tree: a table with ``mm`` and ``exact``."""
    if isinstance(value, dict):
        if "exact" in value:
            yield value
        for inner in value.values():
            yield from lengths_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from lengths_in(inner)


def test_the_same_plan_gives_the_same_bytes(worked_out):
    again = plan(read_job(JOB, "chest.toml"))
    assert plan_json(worked_out) == plan_json(again)
    assert plan_json(worked_out).endswith(b"}\n")


def test_headings(tree):
    assert (tree["title"], tree["job"], tree["unit"], tree["paper"]) == ("Seed chest", "chest.toml", "inch", "letter")
    assert tree["rule"]["text"] == "1/32 in"
    assert tree["files"] == ["a.svg", "packet.pdf"]


def test_what_the_findings_were_judged_by(tree):
    assert [one["name"] for one in tree["conditions"]] == ["driest", "dampest", "workshop", "load", "cutting tolerance"]
    assert all(one["said"] and one["written"] == "" for one in tree["conditions"])


def test_weights_of_every_drawer_and_what_tips_the_piece(tree, worked_out):
    assert tree["weights"]["piece"] is None
    (told,) = tree["weights"]["drawers"]
    (weighed,) = weigh(worked_out.drawers, worked_out.conditions)
    assert (told["name"], told["empty_kg"], told["loaded_kg"]) == ("drawer 1", round(weighed.empty, 2), round(weighed.loaded, 2))
    whole = weights_of(example("moth-cabinet"))
    loads = whole["piece"]["tipping_load_kg_by_drawers_out"]
    assert list(loads) == ["1", "2", "8"]
    assert loads["1"] > loads["2"] > loads["8"] > 0
    assert len(whole["drawers"]) == 8


def test_a_length_is_exact_and_in_mm_and_as_read():
    assert InWords(GRADUATIONS["1/32 in"]).length(inches("18 5/16")) == {
        "mm": 465.1375,
        "exact": "37211/80",
        "text": "18 5/16 in",
    }
    assert InWords(GRADUATIONS["0.5 mm"]).length(mm(18)) == {"mm": 18.0, "exact": "18/1", "text": "18 mm"}
    assert InWords(GRADUATIONS["0.5 mm"]).maybe(None) is None


def test_every_length_agrees_with_itself(tree):
    found = list(lengths_in(tree))
    assert len(found) > 200
    for length in found:
        assert float(Fraction(length["exact"])) == length["mm"]
        assert length["text"].split()[-1].strip("()") in ("in", "mm")


def test_every_board_and_cut_is_there(tree, worked_out):
    boards = [board for drawer in tree["drawers"] for board in drawer["boards"]]
    assert [board["name"] for board in boards] == [board.name for board in worked_out.boards]
    for told, board in zip(boards, worked_out.boards, strict=True):
        assert Fraction(told["length"]["exact"]) == board.length.mm
        assert len(told["cuts"]) == len(board.cuts)
        for cut, one in zip(told["cuts"], board.cuts, strict=True):
            assert (cut["name"], cut["kind"], cut["surface"]) == (one.name, one.kind.value, one.surface.value)
            for axis in Axis:
                span = cut[axis.value]
                assert Fraction(span["from"]["exact"]) == one.span(axis).start.mm
                assert Fraction(span["to"]["exact"]) == one.span(axis).stop.mm
        assert [Fraction(n) for n in told["place"]["origin"]] == list(board.place.origin)
        assert len(told["tapers"]) == len(board.tapers)
    assert any(board["tapers"] for board in boards)
    assert tree["others"] == []


def test_a_maker_s_own_outlines_are_there_line_by_line():
    table = '\n[[outline]]\nfile = "a.svg"\non = "drawer front"\npurpose = "finger hole"\ndepth = 0\nat = { edge = "top edge" }\n'
    shape = outline_of("a.svg", [Ring((Fraction(5), Fraction(5)), Fraction(5)), *hook(20).lines])
    tree = json.loads(plan_json(plan(read_job(GOOD + table, "chest.toml", outlines={"a.svg": shape}))))
    (found,) = tree["outlines"]
    assert (found["purpose"], found["part"], found["face"]) == ("finger hole", "drawer 1 front", "inside face")
    assert (found["file"], found["into"]) == ("a.svg", None)
    assert found["lines"] == [{"circle": [5, 5, 5]}, {"closed": True, "points": [[0, 0], [20, 0], [0, 20]]}]
    assert found["across"]["to"]["mm"] - found["across"]["from"]["mm"] == 20
    assert tree["knob_profile"] is None


def test_every_named_number_is_there_with_its_working(tree, worked_out):
    told = tree["dimensions"]
    assert list(told) == list(worked_out.dimensions())
    width = told["drawer 1 front width"]
    assert width["text"] == "18 5/16 in"
    assert width["rule"] == "DR-1"
    assert "drawer 1 opening width 18 3/8" in width["working"]
    assert told["drawer 1 opening width"]["origin"] == "chest.toml:25"


def test_stock_and_shop(tree):
    assert tree["stock"]["cherry"]["species"] == "black cherry"
    assert tree["stock"]["thin"]["measured"] is None
    assert tree["stock"]["birch"]["sheet"]["length"]["text"] == "60 in"
    assert tree["shop"]["kerf"]["text"] == "1/8 in"
    assert len(tree["shop"]["cutters"]) == 6
    # Only what the maker set otherwise than usual: every other figure is the rule's own.
    assert list(tree["shop"]["practice"]) == ["tip gap", "tenon depth"]
    assert tree["shop"]["practice"]["tenon depth"] == "3"


def test_a_finding_has_its_sentences_and_its_numbers():
    said = InWords(GRADUATIONS["1/32 in"])
    found = refusal(
        "lip", "The lip is {lip}.", "Make it {least}.", "LR-6", "common practice", lip=inches("1/16"), least=inches("1/8")
    )
    assert said.finding(found.at("drawer 1").finding) == {
        "kind": "lip",
        "harm": "refuse",
        "where": "drawer 1",
        "what": "The lip is 1/16 in.",
        "remedy": "Make it 1/8 in.",
        "rule": "LR-6",
        "source": "common practice",
        "numbers": {
            "lip": {"mm": 1.5875, "exact": "127/80", "text": "1/16 in"},
            "least": {"mm": 3.175, "exact": "127/40", "text": "1/8 in"},
        },
    }
    assert said.finding(note("count", "There are {n}.", n=3))["numbers"] == {"n": 3}


def test_a_dimension_tells_only_what_it_knows():
    said = InWords(GRADUATIONS["1/32 in"])
    width = written(inches(3), "width", "chest.toml:4")
    assert said.dimension(width) == {"mm": 76.2, "exact": "381/5", "text": "3 in", "origin": "chest.toml:4"}
    half = (width / 2).named("half", "XX-1", "by geometry")
    assert said.dimension(half) == {
        "mm": 38.1, "exact": "381/10", "text": "1 1/2 in", "rule": "XX-1", "source": "by geometry", "working": "width 3 in / 2",
    }  # fmt: skip


@pytest.mark.parametrize(
    "value", [{}, [], None, 1.5, "ä\n", {"a": []}, [[{}]], {"k" * 70: ["v" * 70, {"x": None}]}, [list(range(90))]]
)
def test_json_is_laid_out_without_changing_it(value):
    text = json_text(value)
    assert json.loads(text) == value
    assert max(len(line) for line in text.splitlines()) <= 150
