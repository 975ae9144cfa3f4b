"""``joinlay list``: what to cut, how to saw it out, what to buy."""

import json

import pytest

from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD

MORE = """
[sawing]
first-cut = "crosscut"
any-grain = ["drawer bottom"]

[[offcut]]
stock = "birch"
length = 40
width = 24
grain = "length"

[[offcut]]
name = "rack"
stock = "birch"
length = 30
width = 20

[[board]]
stock = "cherry"
length = "4 ft"
width = 6
defects = [["10", "12"]]

[prices]
currency = "GBP"
slides = 24
of = { thin = 18.5, cherry = 11, birch = 40 }
"""


def test_the_cutting_list_grouped_by_stock(job, capsys):
    path = job()
    ran = run(capsys, "list", path)
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0] == "Seed chest: 11 parts, 6 different."
    assert "cherry, 3/4 in" in lines
    assert "birch, 0.483 in" in lines
    front = next(line for line in lines if line.endswith("drawer 1 front"))
    assert front.split("   ")[0].strip() == "1"
    # Finished, then rough: half an inch longer, a quarter wider (Joyce).
    assert "18 5/16 in x 4 3/16 in" in front
    assert "18 13/16 in x 4 7/16 in" in front
    assert any(line.endswith("drawer 1 left side") for line in lines)
    assert any(line.endswith("drawer 1 right side") for line in lines)
    assert lines[-1] == f"Next: joinlay list {path} --sheets says how to saw it out, --buy what to buy."


def test_what_else_there_is_to_say_stands_beside_a_part(job, capsys):
    edges = '["left end", "right end", "bottom edge", "top edge"]'
    band = f'[[banding]]\npart = "drawer front"\nstock = "walnut edging"\nthickness = "1/8"\nedges = {edges}\n'
    more = f'[sawing]\nany-grain = ["drawer back"]\n{band}'
    lines = run(capsys, "list", job(GOOD + more)).out.splitlines()
    assert any(line.endswith("drawer 1 back (grain does not matter)") for line in lines)
    front = next(line for line in lines if "drawer 1 front (" in line)
    assert "core 18 1/16 in x 3 15/16 in; band, in this order: " in front
    assert front.count("walnut edging") == 4


def test_how_to_saw_it_out(job, capsys):
    ran = run(capsys, "list", job(GOOD + MORE), "--sheets")
    assert ran.code == 0
    assert "birch: 1 of what is on hand. " in ran.out
    assert "1 of 1: offcut 1, 40 in x 24 in" in ran.out
    assert "thin: 1 whole sheet, and no layout takes fewer. " in ran.out
    assert "1 of 1: board 1, 48 in x 6 in" in ran.out
    assert "Not needed: rack." in ran.out
    assert "note     rack: Which way its grain runs is not said" in ran.out
    done = "\n".join(line for line in ran.out.splitlines() if " drawer 1 " in line)
    for part in ("front", "left", "right", "back", "bottom"):
        assert part in done


def test_the_cuts_are_numbered_and_trims_named(job, capsys):
    ran = run(capsys, "list", job(), "--sheets")
    thin = ran.out.partition("thin: ")[2]
    rows = [line.split() for line in thin.splitlines() if line.startswith("  ") and line.split()[0].isdigit()]
    assert [row[0] for row in rows] == [str(n) for n in range(1, len(rows) + 1)]
    assert rows[0][1:5] == ["rip", "trim", "1/4", "in"]
    assert thin.count("keep: ") == 1


def test_cuts_at_one_setting_are_one_line(job, capsys):
    ran = run(capsys, "list", job(GOOD.replace("count = 1", "count = 3")), "--sheets")
    line = next(line for line in ran.out.splitlines() if " times " in line)
    assert " to " in line.split("rip")[0].split("crosscut")[0]


def test_what_to_buy(job, capsys):
    ran = run(capsys, "list", job(GOOD + MORE), "--buy")
    first = ran.out.splitlines()[0]
    assert first == "Seed chest: what to buy and have ready, 18.50 GBP in all. Metal slides would have cost 24.00 GBP."
    assert "all of it on hand" in ran.out
    assert "loose tenon strip" in ran.out


def test_both_lists_at_once(job, capsys):
    ran = run(capsys, "list", job(), "--buy", "--sheets")
    assert "what to buy and have ready." in ran.out
    assert "through a panel" in ran.out


def test_json(job, capsys):
    ran = run(capsys, "list", job(GOOD + MORE), "--json")
    tree = json.loads(ran.out)
    assert tree["title"] == "Seed chest"
    assert sum(row["quantity"] for group in tree["parts"] for row in group["rows"]) == 11
    laid = [piece["name"] for layout in tree["layouts"] for sheet in layout["sheets"] for piece in sheet["pieces"]]
    assert sorted(laid) == sorted(f"drawer 1 {part}" for part in ("front", "left side", "right side", "back", "bottom"))
    assert tree["shopping"]["total"] == 18.5
    assert tree["findings"][0]["kind"] == "offcut without grain"
    assert run(capsys, "list", job(GOOD + MORE), "--json").out == ran.out


def test_a_refused_drawer_is_said_and_the_rest_listed(job, capsys):
    low = '[[drawer]]\nopening = { width = "18 3/8", height = "3/4", depth = "20" }\n'
    ran = run(capsys, "list", job(GOOD + low))
    assert ran.code == 1
    assert ran.err.startswith("refused")
    assert "drawer 1 front" in ran.out


def test_a_part_larger_than_its_sheet_is_said(job, capsys):
    ran = run(capsys, "list", job(GOOD.replace('sheet = [60, "60"]', "sheet = [17, 60]")), "--sheets")
    assert ran.code == 0
    said = [line for line in ran.out.splitlines() if line.startswith("warning  drawer 1 ")]
    assert {line.partition(": It is ")[0].removeprefix("warning  drawer 1 ") for line in said} >= {"back"}
    assert all("and the most a sheet of birch gives, edges trimmed, is 16 1/2 in by 59 1/2 in." in line for line in said)
    assert "It would fit with its grain the other way" in ran.out


def test_what_the_pages_of_help_advise_can_be_written(job, capsys):
    small = GOOD.replace('sheet = [60, "60"]', "sheet = [17, 60]")
    turned = '[sawing]\nany-grain = ["drawer back", "drawer side"]\nfronts-together = false\n'
    ran = run(capsys, "list", job(small + turned), "--sheets")
    assert "warning" not in ran.out
    assert "turned" not in ran.out
    less = '[practice]\nedge-trim = 0\nsolid-wood-waste = "1/10"\n'
    assert "sheet of birch gives, edges trimmed, is 17 in by 60 in." in run(capsys, "list", job(small + less), "--sheets").out
    # 18 13/16 by 4 7/16 in of 4/4 is 0.58 board feet; a tenth more than that.
    assert "0.64   board feet" in run(capsys, "list", job(GOOD + less), "--buy").out


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            '[sawing]\nfirst-cut = "ripp"\n',
            '"ripp" is not known here; write "rip", "crosscut" or "either" (the nearest is "rip").',
        ),
        ("[sawing]\nfronts-together = 3\n", "write true or false here."),
        ('[[offcut]]\nstock = "brich"\nlength = 3\nwidth = 3\n', 'there is no stock called "brich"; the nearest is "birch".'),
        (
            '[[board]]\nstock = "cherry"\nlength = 30\nwidth = 3\ndefects = [[20, 31]]\n',
            "the defect from 20 to 31 is not on a board 30 long",
        ),
        ('[[board]]\nstock = "cherry"\nlength = 30\nwidth = 3\ndefects = [[20]]\n', "there must be at least 2."),
        ("[prices]\nof = { birch = -1 }\n", "-1 is out of range for a price"),
        ("[prices]\nof = { birch = true }\n", "write a price here"),
        ('[prices]\nslides = "many"\n', "'many' is not an exact number"),
        ("[prices]\nbirch = 3\n", "there is no key 'birch' here"),
    ],
)
def test_what_cannot_be_used_is_said_with_its_line(job, capsys, more, said):
    ran = run(capsys, "list", job(GOOD + more))
    assert ran.code == 2
    assert said in ran.err
    assert ran.err.startswith("chest.toml:")


def test_prices_are_exact_and_in_any_spelling(job, capsys):
    ran = run(capsys, "list", job(GOOD + '[prices]\nof = { thin = "18.10", birch = 0.2, cherry = 0 }\n'), "--buy")
    assert ran.out.splitlines()[0] == "Seed chest: what to buy and have ready, 18.30 in all."


def test_cautions_are_told_with_what_is_sawn_and_not_with_what_is_bought(job, capsys):
    path = job(GOOD + MORE)
    for given in ((), ("--sheets",)):
        assert "\ncaution  Sawing out: guard and riving knife on; " in run(capsys, "list", path, *given).out
    assert "caution  " not in run(capsys, "list", path, "--buy").out
    tree = json.loads(run(capsys, "list", path, "--json").out)
    assert tree["cautions"][0]["about"] == "all"
    assert all(sheet["cautions"] for layout in tree["layouts"] for sheet in layout["sheets"] if sheet["cuts"])
