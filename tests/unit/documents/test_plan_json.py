"""The plan as JSON: nothing left out, lengths three ways, the same bytes each time."""

import json
from fractions import Fraction

import pytest
from jsonschema import Draft202012Validator

from joinlay.boards import Axis, Surface
from joinlay.boards.outline import Ring, outline_of
from joinlay.casework.banding import core_size
from joinlay.checks.weights import weigh
from joinlay.documents.json_text import InWords, json_text
from joinlay.documents.plan_json import plan_json, plan_schema, weights_of
from joinlay.findings import note, refusal
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import GRADUATIONS, Fine, inches, mm, written
from tests.measured.packets import example, examples
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
    """Every length in a tree: a table with ``exact`` and ``text``."""
    if isinstance(value, dict):
        if "exact" in value and "text" in value:
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


@pytest.mark.parametrize("files", [(), ("a.svg",), tuple(f"drawer-{n}-front-left-end.svg" for n in range(9))])
def test_the_names_of_the_files_are_put_in_last_as_if_they_had_been_known(worked_out, files):
    whole = plan_json(worked_out, files)
    assert json_text(json.loads(whole)).encode() == whole


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
    loads = {one["drawers_out"]: one["load_kg"] for one in whole["piece"]["tipping_loads"]}
    assert list(loads) == [1, 2, 8]
    assert loads[1] > loads[2] > loads[8] > 0
    assert len(whole["drawers"]) == 8


def test_a_length_is_exact_and_in_mm_and_as_read():
    assert InWords(GRADUATIONS["1/32 in"]).length(inches("18 5/16")) == {
        "mm": 465.1375,
        "exact": "37211/80",
        "text": "18 5/16 in",
    }
    assert InWords(GRADUATIONS["0.5 mm"]).length(mm(18)) == {"mm": 18.0, "exact": "18/1", "text": "18 mm"}
    said = InWords(GRADUATIONS["1/32 in"])
    stray = inches("0.007")
    assert said.length(stray)["text"] == "0.007 in"
    assert said.length(Fine(stray))["text"] != said.length(stray)["text"]
    assert said.tree({"a": None, "b": [mm(18)], "c": {"d": 1}}) == {"a": None, "b": [said.length(mm(18))], "c": {"d": 1}}


def test_every_length_agrees_with_itself(tree):
    found = list(lengths_in(tree))
    assert len(found) > 200
    for length in found:
        assert float(Fraction(length["exact"])) == length["mm"]
        assert length["text"].partition(" (")[0].split()[-1] in ("in", "mm")
        assert length["text"].startswith(("-", "minus")) == (length["mm"] < 0)


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
        for vector in ("origin", "along", "across", "into"):
            place = told["place"][vector]
            assert [Fraction(n) for n in place["exact"]] == list(getattr(board.place, vector))
            assert place["numbers"] == [float(Fraction(n)) for n in place["exact"]]
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
    assert tree["shop"]["practice"]["tenon depth"] == {"number": 3.0, "exact": "3/1"}


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
        "remedies": [],
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


# -- the schema, checked with the jsonschema package --------------------------------------------------


def test_the_schema_is_one_of_its_dialect():
    Draft202012Validator.check_schema(plan_schema())
    assert plan_schema()["$schema"] == Draft202012Validator.META_SCHEMA["$id"]


@pytest.mark.parametrize("name", examples())
def test_every_plan_follows_the_schema(name):
    Draft202012Validator(plan_schema()).validate(json.loads(plan_json(example(name))))


@pytest.mark.parametrize(
    ("table", "key", "value"),
    [
        ((), "drawers", {}),
        ((), "title", None),
        (("rule",), "exact", "0.5"),
        (("drawers", 0), "name", 1),
        (("shop",), "kerf", "1/8"),
    ],
)
def test_the_schema_sees_what_is_wrong(tree, table, key, value):
    bad = json.loads(json.dumps(tree))
    within = bad
    for step in table:
        within = within[step]
    within[key] = value
    assert list(Draft202012Validator(plan_schema()).iter_errors(bad))
    del within[key]
    assert list(Draft202012Validator(plan_schema()).iter_errors(bad))


# -- what a program asks of a plan --------------------------------------------------------------------


@pytest.fixture(scope="module")
def cabinet():
    """The example with banded boards and knobs, as its plan and as its tree."""
    worked_out = example("seed-cabinet")
    return worked_out, json.loads(plan_json(worked_out))


def told_boards(tree):
    """Every board of a tree by its name."""
    return {board["name"]: board for table in (*tree["others"], *tree["drawers"]) for board in table["boards"]}


def test_bands_and_cores(cabinet):
    worked_out, tree = cabinet
    told = told_boards(tree)
    banded = [board for board in worked_out.boards if board.bands]
    assert banded
    for board in worked_out.boards:
        assert [(band["order"], band["stock"], Fraction(band["length"]["exact"])) for band in told[board.name]["bands"]] == [
            (band.order, band.stock, band.length.mm) for band in board.bands
        ]
        assert (told[board.name]["core"] is None) == (not board.bands)
    for board in banded:
        assert Fraction(told[board.name]["core"]["length"]["exact"]) == core_size(board, Axis.ALONG).mm
        assert Fraction(told[board.name]["core"]["width"]["exact"]) == core_size(board, Axis.ACROSS).mm
        assert {band["word"] for band in told[board.name]["bands"]} == {board.datum.word(band.surface) for band in board.bands}


def test_a_taper_says_what_it_counts_from(worked_out, tree):
    told = told_boards(tree)
    tapered = [
        (board, taper, told[board.name]["tapers"][n]) for board in worked_out.boards for n, taper in enumerate(board.tapers)
    ]
    assert tapered
    for board, taper, said in tapered:
        along_an_edge = taper.surface in (Surface.EDGE, Surface.FAR_EDGE)
        assert said["near_at"] == (board.datum.end if along_an_edge else board.datum.edge)
        assert said["far_at"] == (board.datum.far_end if along_an_edge else board.datum.far_edge)
        assert (Fraction(said["near"]["exact"]), Fraction(said["far"]["exact"])) == (taper.near.mm, taper.far.mm)


def test_machines_are_the_shop_s(worked_out, tree):
    told, machines = tree["shop"]["machines"], worked_out.shop.machines
    assert Fraction(told["router_table"]["fence_reach"]["exact"]) == machines.router_table.fence_reach.mm
    assert Fraction(told["limits"]["deepest_pass"]["exact"]) == machines.limits.deepest_pass.mm
    assert told["first_choice"] == [kind.value for kind in machines.first_choice]
    assert (told["mortiser"], told["drill"], told["hand_router"]["to_centre"]) == (True, True, None)
    none = json.loads(plan_json(plan(read_job(f"{GOOD}\n[shop]\nrouter-table = false\ndrill = false\n", "chest.toml"))))
    assert (none["shop"]["machines"]["router_table"], none["shop"]["machines"]["drill"]) == (None, False)


def test_knobs_are_where_they_are_drilled(cabinet):
    worked_out, tree = cabinet
    assert worked_out.knobs
    assert [(knob["front"], knob["number"], Fraction(knob["from_left"]["exact"])) for knob in tree["knobs"]] == [
        (knob.front, knob.number, knob.from_left.mm) for knob in worked_out.knobs
    ]
    told = told_boards(tree)
    for knob in tree["knobs"]:
        height = Fraction(knob["from_top"]["exact"]) + Fraction(knob["from_bottom"]["exact"])
        assert height == Fraction(told[knob["front"]]["width"]["exact"])


def test_axes_are_described_and_hold(cabinet, tree):
    """The drawers' left sides lie to the left, the back behind the front, and each board's own directions are what the axes
    say.
    """
    _, whole = cabinet
    assert whole["axes"]["zero"] != tree["axes"]["zero"]
    assert (whole["axes"]["x"], whole["axes"]["y"], whole["axes"]["z"]) == (
        "to the right, as seen from the front",
        "to the back",
        "up",
    )
    boards = told_boards(whole)

    def middle(board):
        place = board["place"]
        sizes = [(way, board[size]["mm"]) for way, size in (("along", "length"), ("across", "width"), ("into", "thickness"))]
        return [place["origin"]["numbers"][n] + sum(place[way]["numbers"][n] * size / 2 for way, size in sizes) for n in range(3)]

    for drawer in whole["drawers"]:
        left, right, front, back = (
            middle(boards[f"{drawer['name']} {part}"]) for part in ("left side", "right side", "front", "back")
        )
        assert left[0] < front[0] < right[0]
        assert front[1] < left[1] < back[1]
    heights = {drawer["name"]: middle(boards[f"{drawer['name']} front"])[2] for drawer in whole["drawers"]}
    assert heights["drawer 1"] > heights["drawer 2"] > 0


def test_roles_of_parts_and_cuts(cabinet):
    """A program finds drawer 3's left side, and the second tenon of a corner, without taking a name apart."""
    worked_out, tree = cabinet
    told = told_boards(tree)
    for board in worked_out.boards:
        role = told[board.name]["role"]
        assert (role["kind"], role["number"]) == (board.role.kind.value, board.role.number)
        assert role["drawer"] == (None if board.role.drawer is None else board.role.drawer.number)
        for cut, one in zip(told[board.name]["cuts"], board.cuts, strict=True):
            assert (cut["role"]["use"], cut["role"]["number"]) == (one.role.use.value, one.role.number)
            assert (cut["role"]["joint"] or {"name": ""})["name"] == cut["joint"] == one.joint
            assert cut["mate"] == "" or cut["mate"] in told
    (side,) = [
        name
        for name, board in told.items()
        if (board["role"]["kind"], board["role"]["drawer"], board["role"]["hand"]) == ("drawer side", 3, "left")
    ]
    assert side == "drawer 3 left side"
    assert [drawer["number"] for drawer in tree["drawers"]] == list(range(1, len(tree["drawers"]) + 1))
    joints = {cut["role"]["joint"]["kind"] for board in told.values() for cut in board["cuts"] if cut["role"]["joint"]}
    assert {"front corner", "back corner", "bottom groove"} <= joints
    tenons = {board["role"]["of"] for board in told.values() if board["role"]["kind"] == "knob blank"}
    assert tenons <= set(told)


def test_meetings_of_parts(cabinet):
    """Who meets whom, how it is held, which way it closes and with what gap: as the plan keeps it."""
    worked_out, tree = cabinet
    told = [met for table in (*tree["others"], *tree["drawers"]) for met in table["meetings"]]
    assert len(told) == len(worked_out.meetings) > 50
    boards = told_boards(tree)
    for met, kept in zip(told, worked_out.meetings, strict=True):
        assert {met["one"], met["other"]} <= set(boards)
        assert (met["one"], met["other"], met["tie"]) == (kept.one.name, kept.other.name, kept.tie.value)
        assert [Fraction(facing["gap"]["exact"]) for facing in met["facings"]] == [facing.gap.mm for facing in kept.facings]
        assert set(met["closes"]) <= {"right", "left", "back", "front", "up", "down"}
        assert (met["glue_mm2"], met["cheeks_mm2"]) == (float(kept.glue), float(kept.cheeks))
    corner = next(met for met in told if (met["one"], met["other"]) == ("drawer 1 left side", "drawer 1 front"))
    assert corner["joint"]["kind"] == "front corner"
    assert corner["tie"] == "glued"
