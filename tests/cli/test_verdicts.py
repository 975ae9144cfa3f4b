"""One verdict a job, whichever command is asked: the same findings, harm and exit code in check, settings, make, on the cover
and in plan.json.
"""

import json

import pytest

from tests.cli.running import run
from tests.measured.reading import said_on
from tests.odd_pieces import SOUND, odd_piece, sound_piece
from tests.unit.jobs.jobs import GOOD

NOTHING = "router-table = false\ntable-saw = false\nhand-router = false\nmortiser = false\ndrill = false\n"
HALF_BLIND = 'front-joint = "half-blind locking rabbet"\n'

#: What a shop has, what the drawers are like, the worst that is found about cutting, and the kind of that.
SHOPS = {
    "a modest shop's": ("", "", None, None),
    "no machine at all": (NOTHING, "", "note", "machine"),
    "neither machine nor hand tools": (f"{NOTHING}hand-tools = false\n", "", "refuse", "machine"),
    "only coarse chisels": (NOTHING + 'hand-tools = { narrowest-chisel = "1/2" }\n', "", "refuse", "chisel"),
    "no router table": ("router-table = false\n", "", None, None),
    "no table saw": ("table-saw = false\n", "", None, None),
    "no hand-held router": ("hand-router = false\n", "", None, None),
    "no mortiser": ("mortiser = false\n", "", "note", "mortiser"),
    "no mortiser, and no hand tools": ("mortiser = false\nhand-tools = false\n", "", "refuse", "mortiser"),
    "no drill": ("drill = false\n", "", "note", "drill"),
    "no drill, and no hand tools": ("drill = false\nhand-tools = false\n", "", "refuse", "drill"),
    "no hand tools": ("hand-tools = false\n", "", None, None),
    "every cutter too short": (
        'table-saw = false\ncutters = [{ diameter = "1/4", reach = "1/8" }]\n',
        'back-joint = "dado"\n',
        "warn",
        "cutter reach",
    ),
    "every cutter too short, and no hand tools": (
        'table-saw = false\nhand-tools = false\ncutters = [{ diameter = "1/4", reach = "1/8" }]\n',
        'back-joint = "dado"\n',
        "refuse",
        "cutter reach",
    ),
    "every part too small to run": ('limits = { smallest = "60" }\n', "", "note", "small part"),
    "every part too small, and no hand tools": ('hand-tools = false\nlimits = { smallest = "60" }\n', "", "refuse", "small part"),
    "a low fence": ('router-table = { fence-height = "2" }\n', HALF_BLIND, "warn", "tall part"),
}

PULLS = '[pulls]\nstock = "cherry"\ndiameter = "3/4"\nprojection = "1"\nhole = "3/8"\n'
WORST_FIRST = ("refuse", "warn", "note")


def told(findings):
    """What a finding says, without what only JSON has."""
    return [(one["harm"], one["kind"], one["where"], one["what"], one["remedy"]) for one in findings]


@pytest.mark.parametrize("shop", SHOPS)
def test_every_command_gives_the_same_verdict(shop, tmp_path, capsys):
    owned, joints, harm, kind = SHOPS[shop]
    job, out = tmp_path / "chest.toml", tmp_path / "out"
    text = f"{GOOD}\n{PULLS}\n[shop]\n{owned}".replace("[[drawer]]", f"{joints}[[drawer]]")
    job.write_text(text, encoding="utf-8")

    checked, set_up = run(capsys, "check", job, "--json"), run(capsys, "settings", job, "--json")
    in_words, set_in_words = run(capsys, "check", job), run(capsys, "settings", job)
    made = run(capsys, "make", job, "--out", out)
    assert {checked.code, set_up.code, in_words.code, set_in_words.code, made.code} == {int(harm == "refuse")}

    all_told = told(json.loads(checked.out)["findings"])
    on_cutting = told(json.loads(set_up.out)["findings"])
    assert set(on_cutting) <= set(all_told)  # not another word
    worst = min((one[0] for one in on_cutting), key=WORST_FIRST.index, default=None)
    assert worst == harm
    assert kind is None or (harm, kind) in {one[:2] for one in on_cutting}

    for each, _, where, what, _ in on_cutting:
        sentence = f"{where}: {what[0].upper()}{what[1:]}"
        said = [line for ran in (in_words, set_in_words, made) for line in (ran.out + ran.err).splitlines() if sentence in line]
        assert len(said) == 2 + (each != "note")  # make says no notes; they stand in the packet
    if harm == "refuse":
        assert not out.exists()
        return
    assert told(json.loads((out / "plan.json").read_text(encoding="utf-8"))["findings"]) == all_told
    cover = said_on(out / "packet.pdf")[0]
    for each, one, many in (("warn", "warning", "warnings"), ("note", "note", "notes")):
        count = sum(finding[0] == each for finding in all_told)
        assert not count or f"{count} {one if count == 1 else many}" in cover


#: Pieces of every kind, and some in which something is refused: what comes of each.
PIECES = {
    **dict.fromkeys(("rows", "fixed shelves", "loose shelves", "toe recess", "built in", "hand-fitted"), 0),
    **dict.fromkeys(("pins", "base inside", "dust panel", "hole deep"), 1),
}


@pytest.mark.parametrize("name", PIECES)
def test_a_whole_piece_gets_one_verdict_too(name, tmp_path, capsys):
    """Rows, bays, shelves, top, base and what else a piece may have: check, settings, list and mend end alike, in the same words
    (make is asked above).
    """
    job = tmp_path / "piece.toml"
    job.write_text(sound_piece(SOUND[name]) if name in SOUND else odd_piece(name), encoding="utf-8")
    asked = {command: run(capsys, command, job, "--json") for command in ("check", "settings", "list", "mend")}
    assert {ran.code for command, ran in asked.items() if command != "mend"} == {PIECES[name]}, name
    all_told = told(json.loads(asked["check"].out)["findings"])
    assert (("refuse" in {one[0] for one in all_told}),) == (bool(PIECES[name]),)
    assert set(told(json.loads(asked["settings"].out)["findings"])) <= set(all_told)


def test_hand_work_has_cards_that_name_the_tools_and_where_to_mark(tmp_path, capsys):
    job = tmp_path / "chest.toml"
    job.write_text(f"{GOOD}\n[shop]\n{NOTHING}", encoding="utf-8")
    cards = json.loads(run(capsys, "settings", job, "--json").out)["settings"]
    assert {card["machine"] for card in cards} == {"bench"}
    tools = {cut: card["tool"]["kind"] for card in cards for cut in card["cut"].split(" in ")[:1]}
    assert tools["groove"] == "hand saw, chisel and router plane"
    assert tools["mortise"] == "brace, bit and chisel"
    assert all("lamp the work" in " ".join(card["cautions"]) for card in cards)
    groove = next(card["number"] for card in cards if card["cut"].startswith("groove"))
    said = run(capsys, "settings", job, "--card", groove).out
    assert "near line" in said
    assert "far line" in said
    assert "by hand: the shop has no machine for the groove" in said
