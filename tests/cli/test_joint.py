"""``joinlay joint``: answers at the bench from a few numbers."""

import json
import re
from fractions import Fraction
from itertools import pairwise

import pdfplumber
import pytest

from joinlay.lengths import Unit
from joinlay.shop import usual_shop
from tests.cli.running import run

LOOSE_TENON = ("joint", "loose-tenon", "--end", "1/2", "--face", "3/4", "--length", "4 3/16")
LOCKING = ("joint", "locking-rabbet", "--side", "1/2", "--end", "1/2", "--cutter", "1/4")
HALF_BLIND = ("joint", "locking-rabbet", "--side", "1/2", "--end", "3/4", "--cutter", "1/4", "--half-blind")
DADO = ("joint", "dado", "--into", "3/4", "--panel", "1/2")
RABBET = ("joint", "rabbet", "--into", "3/4", "--panel", "1/4")
GROOVE = ("joint", "groove", "--into", "1/2", "--panel", "1/4")
ALL = (LOOSE_TENON, LOCKING, HALF_BLIND, DADO, RABBET, GROOVE)


def told(capsys, *given):
    ran = run(capsys, *given, "--json")
    assert (ran.code, ran.err) == (0, "")
    return json.loads(ran.out)


def exact(length):
    """A length of the answer in millimetres; its three forms must agree."""
    assert set(length) == {"mm", "exact", "text"}
    assert float(Fraction(length["exact"])) == length["mm"]
    return Fraction(length["exact"])


def inch(text):
    return sum(map(Fraction, text.split())) * Fraction(127, 5)


def test_loose_tenons_as_json(capsys):
    answer = told(capsys, *LOOSE_TENON, "--keep-out", "3/8:5/8")
    assert set(answer) == {"tenon", "count", "centres", "mortise", "spacing", "findings"}
    assert set(answer["tenon"]) == {"thickness", "width", "length"}
    assert set(answer["mortise"]) == {"width", "depth_in_end", "depth_in_face", "from_reference_face", "slack"}
    # Common practice (A18): a 1/2 in drawer side takes a 4 mm tenon, three of them in a corner 4 1/4 in high with the groove low
    # down.
    assert exact(answer["tenon"]["thickness"]) == 4
    assert (answer["count"], len(answer["centres"])) == (3, 3)
    centres = [exact(centre) for centre in answer["centres"]]
    assert centres == sorted(centres)
    half = exact(answer["mortise"]["width"]) / 2
    # LT-11: 1/8 in clear of the groove from 3/8 to 5/8.
    assert all(centre - half >= inch("3/4") or centre + half <= inch("1/4") for centre in centres)
    gaps = [after - before for before, after in pairwise(centres)]
    assert exact(answer["spacing"]["largest"]) == max(gaps)
    assert exact(answer["spacing"]["smallest"]) == min(gaps)
    assert exact(answer["mortise"]["from_reference_face"]) == inch("1/4")
    depths = exact(answer["mortise"]["depth_in_end"]) + exact(answer["mortise"]["depth_in_face"])
    # A9: a loose tenon is 1/8 in shorter than the two mortises together.
    assert depths - exact(answer["tenon"]["length"]) == inch("1/8")


def test_one_loose_tenon_has_no_spacing(capsys):
    answer = told(capsys, "joint", "loose-tenon", "--end", "1/2", "--face", "3/4", "--length", "1 1/4")
    assert answer["count"] == 1
    assert answer["spacing"] == {"largest": None, "smallest": None}
    assert exact(answer["centres"][0]) == inch("5/8")


def test_the_options_of_loose_tenons_tell(capsys):
    usual = told(capsys, *LOOSE_TENON)
    assert told(capsys, *LOOSE_TENON, "--in", "drawer") == usual
    assert told(capsys, *LOOSE_TENON, "--in", "Case") != usual
    assert exact(told(capsys, *LOOSE_TENON, "--solid")["centres"][0]) > exact(usual["centres"][0])
    assert told(capsys, *LOOSE_TENON, "--tenon", "4 mm") == usual
    thinner = told(capsys, *LOOSE_TENON, "--tenon", "1/8")
    assert exact(thinner["tenon"]["thickness"]) == inch("1/8")


def test_a_bare_number_is_in_inches_or_millimetres(capsys):
    inches = told(capsys, *LOOSE_TENON, "--inch")
    assert inches == told(capsys, *LOOSE_TENON)
    metric = told(capsys, "joint", "loose-tenon", "--end", "12.7", "--face", "19.05", "--length", "106.3625", "--metric")
    assert metric["tenon"]["thickness"]["text"] == "4 mm"
    in_mm = told(capsys, "joint", "loose-tenon", "--end", "12.7 mm", "--face", "19.05mm", "--length", "106.3625 mm")
    assert in_mm == inches


def test_locking_rabbets_as_json(capsys):
    answer = told(capsys, *LOCKING)
    assert set(answer) == {"dado", "tongue", "rabbet", "end_part_addition", "lip", "tip_gap", "one_setup", "findings"}
    # A17, common practice: stock 1/2, cutter 1/4, everything 1/4, one set-up.
    assert answer["one_setup"] is True
    for part, sizes in (
        ("dado", ("width", "depth", "offset")),
        ("tongue", ("thickness", "length")),
        ("rabbet", ("width", "depth")),
    ):
        assert [exact(answer[part][size]) for size in sizes] == [inch("1/4")] * len(sizes)
    assert exact(answer["end_part_addition"]) == inch("1/2")
    assert answer["lip"] is None
    gap = told(capsys, *LOCKING, "--tip-gap", "1/64")
    assert (gap["one_setup"], exact(gap["tip_gap"])) == (False, inch("1/64"))
    assert exact(told(capsys, *LOCKING, "--dado-depth", "3/16")["dado"]["depth"]) == inch("3/16")


def test_half_blind_as_json(capsys):
    answer = told(capsys, *HALF_BLIND)
    assert set(answer) == {"dado", "tongue", "slot", "end_part_addition", "lip", "tip_gap", "one_setup", "findings"}
    # A16, common practice: slot 1/4 by 1/2, tongue 1/4 cut to 1/4, lip 1/4, dado 1/4 by 1/4 at 1/4.
    assert (exact(answer["slot"]["width"]), exact(answer["slot"]["depth"])) == (inch("1/4"), inch("1/2"))
    assert [exact(answer["dado"][size]) for size in ("width", "depth", "offset")] == [inch("1/4")] * 3
    assert (exact(answer["tongue"]["length"]), exact(answer["lip"])) == (inch("1/4"), inch("1/4"))
    assert (exact(answer["end_part_addition"]), answer["one_setup"]) == (inch("1"), False)
    wider = told(
        capsys, "joint", "locking-rabbet", "--side", "1/2", "--end", "1", "--cutter", "1/4", "--half-blind", "--tongue", "5/16"
    )
    assert exact(wider["dado"]["width"]) == inch("5/16")


def test_dado_rabbet_and_groove_as_json(capsys):
    dado = told(capsys, *DADO)
    assert set(dado) == {"dado", "stopped", "cutter", "passes", "ways", "findings"}
    assert (exact(dado["dado"]["width"]), exact(dado["dado"]["depth"])) == (inch("1/2"), inch("1/4"))
    assert (exact(dado["cutter"]), len(dado["passes"]), dado["stopped"]) == (inch("1/2"), 1, None)
    narrow = told(capsys, *DADO, "--cutter", "3/8", "--depth", "5/16", "--stopped")
    assert [exact(one["aside"]) for one in narrow["passes"]] == [0, inch("1/8")]
    assert (exact(narrow["dado"]["depth"]), exact(narrow["stopped"])) == (inch("5/16"), inch("1/2"))
    rabbet = told(capsys, *RABBET)
    assert (exact(rabbet["rabbet"]["width"]), exact(rabbet["rabbet"]["depth"])) == (inch("9/32"), inch("3/8"))
    assert exact(told(capsys, *RABBET, "--width", "3/8", "--depth", "1/4")["rabbet"]["width"]) == inch("3/8")
    groove = told(capsys, *GROOVE)
    assert {key: exact(size) for key, size in groove["groove"].items()} == {
        "width": inch("1/4"), "depth": inch("1/4"), "offset": inch("3/8"),
    }  # fmt: skip
    assert exact(told(capsys, *GROOVE, "--offset", "1/2", "--depth", "3/16")["groove"]["offset"]) == inch("1/2")


@pytest.mark.parametrize("given", ALL, ids=lambda given: " ".join(given[1:2] + given[-1:]))
def test_the_answer_first_one_table_the_next_step_last(capsys, given):
    ran = run(capsys, *given)
    assert (ran.code, ran.err) == (0, "")
    blocks = ran.out.rstrip("\n").split("\n\n")
    assert len(blocks[0].splitlines()) == 1
    assert all(line.startswith("  ") for line in blocks[1].splitlines())
    assert blocks[-1] == "Next: --template FILE.pdf prints it at true scale."
    assert ran.out.isascii()


def test_the_page_for_people_says_what_the_json_says(capsys):
    page, answer = run(capsys, *LOOSE_TENON).out, told(capsys, *LOOSE_TENON)
    assert page.startswith(f"{answer['count']} loose tenons: {answer['tenon']['thickness']['text']} thick")
    for centre in answer["centres"]:
        assert f"   {centre['text']}\n" in page
    assert "one set-up cuts it all" in run(capsys, *LOCKING).out
    wide = run(capsys, *DADO, "--cutter", "3/8").out
    for moved in ("fence away from the cutter", "guide away from the cutter", "straightedge back towards the side measured from"):
        assert re.search(rf"pass 2: {moved} by +1/8 in", wide)
    assert "near wall, from the end of the board   3 in" in run(capsys, *DADO, "--offset", "3").out
    assert run(capsys, *DADO, "--stopped").out.count("stops short of the edge that shows   1/2 in") == 1


@pytest.mark.parametrize("given", [(*DADO, "--cutter", "3/8"), (*GROOVE, "--cutter", "3/16")], ids=["dado", "groove"])
def test_each_way_of_guiding_is_told_its_own_order_and_walk(capsys, given):
    """MS-6: a table widens away from its fence, a hand-held router towards the wall on the left of its walk."""
    said = run(capsys, *given).out
    ways = {way["guide"]: way for way in told(capsys, *given)["ways"]}
    assert {guide: way["last_pass_cuts"] for guide, way in ways.items()} == {
        "fence": "far wall", "edge guide": "far wall", "straightedge": "near wall",
    }  # fmt: skip
    assert "Feed from right to left with the fence behind the work, the wall nearer the fence first" in ways["fence"]["in_words"]
    assert (
        "Push the router away from you with the guide on your right, the wall nearer the guide first"
        in ways["edge guide"]["in_words"]
    )
    assert (
        "Push the router away from you with the straightedge on your left, the wall farther from the straightedge first"
        in ways["straightedge"]["in_words"]
    )
    assert all(way["in_words"] in said for way in ways.values())


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("loose-tenon", "--end", "1/8", "--face", "3/4", "--length", "4"), "cannot hold the shop's thinnest tenon"),
        (("loose-tenon", "--end", "1/2", "--face", "3/4", "--length", "1/2"), "(LT-10)"),
        (("loose-tenon", "--end", "1/2", "--face", "3/4", "--length", "4", "--keep-out", "0:4"), "(LT-10)"),
        (("dado", "--into", "3/4", "--panel", "1/16"), "No cutter of the shop fits a dado 1/16 in wide"),
        (("dado", "--into", "3/4", "--panel", "1/4", "--cutter", "1/2"), "The 1/2 in cutter is wider than the dado"),
        (("groove", "--into", "1/2", "--panel", "1/16"), "No cutter of the shop fits a groove"),
        (("rabbet", "--into", "1/2", "--panel", "1/4", "--depth", "1/2"), "leaves too little of wood"),
        (("groove", "--into", "1/4", "--panel", "3"), "A panel 3 in thick can't be held by a groove in wood only 1/4 in thick."),
        (("dado", "--into", "1/4", "--panel", "3"), "can't be held by a dado"),
        (("rabbet", "--into", "1/4", "--panel", "3"), "can't be held by a rabbet"),
        (("locking-rabbet", "--side", "3/4", "--end", "1/4", "--cutter", "1/4"), "(LR-4)"),
    ],
)
def test_what_the_trade_refuses_ends_with_one(capsys, given, said):
    ran = run(capsys, "joint", *given)
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith("refused  ")
    assert said in ran.err
    as_json = run(capsys, "joint", *given, "--json")
    (finding,) = json.loads(as_json.out)["findings"]
    assert (as_json.code, finding["harm"]) == (1, "refuse")
    assert finding["remedy"]


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("dado", "--into", "three", "--panel", "1/2"), "--into: 'three' cannot be read as a length"),
        (("dado", "--into", "0", "--panel", "1/2"), "--into: 0 is not a size; it must be more than 0."),
        (("dado", "--into", "-3", "--panel", "1/2"), "--into: -3 is not a size"),
        (("dado", "--into=-3/4", "--panel", "1/2"), "--into: -3/4 is not a size"),
        (("dado", "--into", "-3/4", "--panel", "1/2"), "--into: -3/4 is not a size"),
        (("dado", "--into", "--panel", "1/2"), "--into needs a value behind it. More: joinlay joint dado --help"),
        (("dado", "--into", "", "--panel", "1/2"), "--into: '' cannot be read as a length; it is empty"),
        (("dado", "--into", "3/4"), "--panel is missing. More: joinlay joint dado --help"),
        (("dado",), "--into and --panel are missing."),
        (("dado", "--into", "3/4", "--panel"), "--panel needs a value"),
        (("dado", "--into", "3/4", "--panl", "1/2"), "there is no option '--panl' here; the nearest is --panel."),
        (("dado", "--in", "3/4", "--panel", "1/2"), "there is no option '--in' here; the nearest is --into."),
        (("dado", "--into", "3/4", "--panel", "1/2", "deep"), "there is no word 'deep' here."),
        (("dado", "--into", "3/4", "--panel", "1/2", "-x"), "there is no option '-x' here."),
        (("dado", "--into", "3/4", "--panel", "1/2", "--metric", "--inch"), "--metric and --inch were both given; choose one."),
        (("dado", "--into", "3/4", "--panel", "1/2", "--json=1"), "--json takes no value."),
        (("dada",), "there is no joint called 'dada'; the nearest is dado."),
        (("dovetail",), "there is no joint called 'dovetail'; they are loose-tenon, locking-rabbet, dado, rabbet, groove."),
        ((*LOOSE_TENON[1:], "--keep-out", "3/8"), "--keep-out: '3/8' is no extent; write FROM:TO"),
        ((*LOOSE_TENON[1:], "--keep-out", "5/8:3/8"), "ends before it begins"),
        ((*LOOSE_TENON[1:], "--keep-out=-1:1"), "begins before the datum end"),
        ((*LOOSE_TENON[1:], "--keep-out", "a:1"), "--keep-out: 'a' cannot be read as a length"),
        ((*LOOSE_TENON[1:], "--in", "drawr"), "--in: 'drawr' is not known; write drawer, case, frame (the nearest is drawer)."),
        ((*LOCKING[1:], "--tongue", "1/4"), "--tongue is for --half-blind"),
        ((*LOCKING[1:], "--tip-gap=-1/64"), "--tip-gap: -1/64 is negative; it must be 0 or more."),
        ((*DADO[1:], "--template", "x.pdf", "--paper", "a9"), "there is no paper called 'a9'"),
    ],
)
def test_what_cannot_be_used_ends_with_two(capsys, given, said, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    ran = run(capsys, "joint", *given)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err
    assert list(tmp_path.iterdir()) == []


def test_help(capsys):
    page = run(capsys, "joint")
    assert page.code == 0
    assert page.out == run(capsys, "joint", "--help").out
    for name in ("loose-tenon", "locking-rabbet", "dado", "rabbet", "groove"):
        assert name in page.out
        one = run(capsys, "joint", name, "--help")
        assert one.code == 0
        assert "--template FILE" in one.out
    assert "is added" in " ".join(run(capsys, "joint", "loose-tenon", "--help").out.split())


@pytest.mark.parametrize("given", ALL, ids=lambda given: " ".join(given[1:2] + given[-1:]))
@pytest.mark.parametrize(("unit", "paper"), [((), (612, 792)), (("--paper", "a4"), (595.28, 841.89))])
def test_the_template_of_a_joint(capsys, tmp_path, given, unit, paper):
    made = tmp_path / "joint.pdf"
    ran = run(capsys, *given, *unit, "--template", made)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.rstrip().endswith(f"Next: print {made} at actual size, and measure its check square before you mark any wood.")
    with pdfplumber.open(made) as pdf:
        assert (float(pdf.pages[0].width), float(pdf.pages[0].height)) == pytest.approx(paper, abs=0.01)
        assert "Print at 100 %" in pdf.pages[0].extract_text()
    first = made.read_bytes()
    run(capsys, *given, *unit, "--template", made)
    assert made.read_bytes() == first


def test_a_metric_template_is_on_a4(capsys, tmp_path):
    run(capsys, "joint", "dado", "--into", "18", "--panel", "12", "--metric", "--template", tmp_path / "x.pdf")
    with pdfplumber.open(tmp_path / "x.pdf") as pdf:
        assert float(pdf.pages[0].width) == pytest.approx(595.28, abs=0.01)


def test_a_template_that_cannot_be_written(capsys, tmp_path):
    ran = run(capsys, *DADO, "--template", tmp_path)
    assert (ran.code, ran.out) == (2, "")
    assert "there is a folder of that name" in ran.err


def test_the_usual_shop_s_tenons_are_what_tenon_names(capsys):
    for owned in usual_shop(Unit.MM).tenons:
        answer = told(
            capsys,
            "joint",
            "loose-tenon",
            "--end",
            "60",
            "--face",
            "60",
            "--length",
            "400",
            "--metric",
            "--tenon",
            str(owned.thickness.mm),
        )
        assert exact(answer["tenon"]["thickness"]) == owned.thickness.mm
