"""``joinlay settings``: the cards in their order, one whole card, and JSON."""

import json
from fractions import Fraction

import pytest

from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD


def test_the_answer_first_one_table_and_the_next_step_last(job, capsys):
    path = job()
    ran = run(capsys, "settings", path)
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0].startswith("Seed chest: ")
    assert "set-ups where taking part after part would need" in lines[0]
    assert lines[1].startswith("A set-up is each time that cutter, fence or height is set")
    assert lines[3].split() == [
        "card",
        "set-ups",
        "what",
        "is",
        "cut",
        "machine",
        "and",
        "cutter",
        "fence",
        "height",
        "which",
        "way",
        "how",
        "they",
        "lie",
    ]
    assert lines[4].split()[0] == "1"
    assert lines[-1] == f"Next: joinlay settings {path} --card 1"


def test_a_whole_card(job, capsys):
    ran = run(capsys, "settings", job(), "--card", "1")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("Card 1: ")
    assert "test piece: " in ran.out
    assert "The machine's manual goes before this card." in ran.out


def test_a_card_there_is_none_of_names_those_there_are(job, capsys):
    ran = run(capsys, "settings", job(), "--card", "99")
    assert (ran.code, ran.out) == (2, "")
    assert "there is no card 99; they are numbered 1 to " in ran.err


def test_json_holds_what_the_table_shows(job, capsys):
    ran = run(capsys, "settings", job(), "--json")
    tree = json.loads(ran.out)
    assert (ran.code, ran.err, tree["job"], tree["title"]) == (0, "", "chest.toml", "Seed chest")
    assert [setting["number"] for setting in tree["settings"]] == list(range(1, len(tree["settings"]) + 1))
    assert tree["set_ups"] <= tree["naive_set_ups"]
    assert tree["cards"] == len(tree["settings"])
    assert sum(setting["set_ups"] for setting in tree["settings"]) == tree["set_ups"]
    first = tree["settings"][0]["fence_to_near_side"]
    assert first["mm"] == pytest.approx(float(Fraction(first["exact"])))
    assert all({"harm", "kind", "where", "what", "remedy"} <= set(finding) for finding in tree["findings"])


def test_a_refused_job_ends_with_one_and_says_why(job, capsys):
    ran = run(capsys, "settings", job(GOOD.replace('nominal = "1/2"\nmeasured = 0.483', 'nominal = "1/8"')))
    assert ran.code == 1
    assert ran.err.startswith("refused  drawer 1")
    assert ran.out == "Seed chest: nothing to set.\n"


def test_only_the_cards_a_part_goes_through(job, capsys):
    path = job()
    whole = json.loads(run(capsys, "settings", path, "--json").out)
    meant = [each["number"] for each in whole["settings"] if any("drawer 1 front" in work["boards"] for work in each["works"])]
    assert 0 < len(meant) < whole["cards"]
    ran = run(capsys, "settings", path, "--for", "drawer 1 front")
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0] == f"Seed chest, drawer 1 front: {len(meant)} of the {whole['cards']} cards, in the order of the whole job."
    assert [int(line.split()[0]) for line in lines[3 : 3 + len(meant)]] == meant
    assert lines[-1] == f"Next: joinlay settings {path} --card {meant[0]}"
    tree = json.loads(run(capsys, "settings", path, "--for", "drawer 1 front", "--json").out)
    assert [each["number"] for each in tree["settings"]] == meant


def test_a_part_that_is_only_sawn_says_so(job, capsys):
    ran = run(capsys, "settings", job(), "--for", "drawer 1 bottom")
    assert (ran.code, ran.out) == (0, "Seed chest: nothing is cut in drawer 1 bottom; it is only sawn to size.\n")


def test_a_part_there_is_none_of_names_the_nearest(job, capsys):
    ran = run(capsys, "settings", job(), "--for", "drawr 1 front")
    assert (ran.code, ran.out) == (2, "")
    assert "--for: there is no part called 'drawr 1 front'" in ran.err
    assert "drawer 1 front" in ran.err.split("near it")[1]


def test_a_card_says_both_sides_of_the_cutter_and_what_the_remainder_does(job, capsys):
    path = job()
    cards = json.loads(run(capsys, "settings", path, "--json").out)["settings"]
    mortise = next(card["number"] for card in cards if card["role"] == "mortise")
    said = run(capsys, "settings", path, "--card", mortise).out
    assert "fence above the middle of the cutter" in said
    assert "near side " in said
    number, effect = next((card["number"], one["effect"]) for card in cards for one in card["on_rule"] if one["effect"])
    assert effect in run(capsys, "settings", path, "--card", number).out


def test_refusals_that_differ_only_in_their_place_are_said_once(job, capsys):
    ran = run(
        capsys,
        "settings",
        job(GOOD + '\n[shop]\nmortiser = false\nhand-tools = false\ncutters = [{ diameter = "1/4", reach = "1/2" }]\n'),
    )
    assert ran.code == 1
    assert "refused" not in ran.out
    refused = [line for line in ran.err.splitlines() if line.startswith("refused")]
    assert len(refused) <= 2
    assert "The mortise is 5/32+ in (4 mm)" in refused[0]
