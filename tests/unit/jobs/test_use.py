"""What a job says of its year, its loads and how it stands."""

import re
from fractions import Fraction

import pytest

from joinlay.checks.conditions import Stands, usual_conditions
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from joinlay.stock import Day, Metered
from tests.measured.packets import EXAMPLES
from tests.unit.jobs.jobs import GOOD, only_trouble

SEASONS = """
[seasons]
driest = { temperature = "68 F", humidity = "20 %" }
dampest = { humidity = "80 %" }
workshop = { moisture = "8 %" }

[use]
stands = "anchored"
feet-set-back = "1"
"""


def conditions(text):
    return read_job(text, "chest.toml").conditions


def test_a_job_that_says_nothing_has_the_usual_ones():
    assert conditions(GOOD) == usual_conditions()
    assert conditions(GOOD).written == {}


def test_every_day_is_read_and_knows_its_line():
    found = conditions(SEASONS + GOOD[GOOD.index("[stock") :])
    assert found.seasons.driest == Day(Fraction(20), Fraction(1, 5))
    # Where only the humidity is known the usual temperature of that day serves.
    assert found.seasons.dampest == Day(Fraction(24), Fraction(4, 5))
    assert found.seasons.workshop == Metered(Fraction(8))
    assert (found.stands, found.feet_back) == (Stands.ANCHORED, inches(1))
    assert found.written == {
        "driest": "chest.toml:3",
        "dampest": "chest.toml:4",
        "workshop": "chest.toml:5",
        "stands": "chest.toml:8",
        "feet set back": "chest.toml:9",
    }


def test_a_load_for_all_drawers_and_one_for_some():
    more = '\n[[drawer]]\ncount = 2\nload = "20 kg"\nopening = { width = "18", height = "6", depth = "20" }\n'
    found = conditions(GOOD.replace('bottom = "thin"', 'bottom = "thin"\nload = "10 lb/ft2"') + more)
    assert float(found.load_of("drawer 1").amount) == pytest.approx(478.8, abs=0.1)
    assert [found.load_of(f"drawer {n}").amount for n in (2, 3)] == [20, 20]
    assert found.written["drawer 2 load"] == "chest.toml:30"


def test_a_heavier_load_is_heavier_in_the_findings():
    def said(load):
        found = plan(read_job(GOOD.replace('bottom = "thin"', f'bottom = "thin"\nload = "{load}"'), "chest.toml")).findings
        return next(f.numbers["loaded"] for f in found if f.kind == "weight")

    light, heavy = said("5 lb"), said("50 lb")
    assert float(str(heavy).split()[0]) - float(str(light).split()[0]) == pytest.approx(45, abs=1.1)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (
            'driest = { temperature = "70" , humidity = "30 %" }',
            "chest.toml:2: seasons, driest, temperature: 70 is a temperature without a scale",
        ),
        ('driest = { humidity = "0.3" }', "seasons, driest, humidity: 0.3 could be a share or per cent"),
        ('driest = { temperature = "70 F" }', "seasons, driest: nothing says how damp it is"),
        (
            'driest = { humidity = "30 %", moisture = "8 %" }',
            "seasons, driest: the moisture of the wood and the air are both given",
        ),
        ('driest = { moisture = "40 %" }', "seasons, driest: wood of 40 % moisture was given"),
        ('driest = { humidity = "95 %" }', "seasons: wood settles at"),
        ('dryest = { humidity = "30 %" }', "the nearest is 'driest'"),
    ],
)
def test_a_year_that_cannot_be(line, said):
    assert said in only_trouble(f"[seasons]\n{line}\n" + GOOD[GOOD.index("[stock") :])


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('bottom = "thin"', 'bottom = "thin"\nload = 30', "chest.toml:23: drawers, load: 30 is a load without a unit"),
        ('bottom = "thin"', 'bottom = "thin"\nload = "30 cm"', "drawers, load: '30 cm' is in no unit of load"),
        ("[stock.thin]", '[use]\nstands = "upright"\n[stock.thin]', 'write "free" or "anchored" or "built in"'),
        ("[stock.thin]", '[use]\nfeet-set-back = "-1"\n[stock.thin]', "negative"),
    ],
)
def test_a_use_that_cannot_be(old, new, said):
    found = only_trouble(GOOD.replace(old, new))
    assert said.replace(' or "anchored" or', ', "anchored" or') in found


def test_a_sheets_own_stiffness_counts_both_ways():
    def sag(line):
        worked_out = plan(read_job(GOOD.replace('nominal = "1/4"', f'nominal = "1/4"\n{line}'), "chest.toml"))
        return next(f.numbers["sag"] for f in worked_out.findings if f.kind == "bottom sag")

    usual, stiff, weak = sag(""), sag('stiffness = ["14 GPa"]'), sag('stiffness = ["14 GPa", "1 GPa"]')
    assert stiff < weak
    assert stiff < usual
    found = only_trouble(GOOD.replace('measured = "3/4"', 'measured = "3/4"\nstiffness = ["14 GPa"]'))
    assert "follows from its species" in found
    found = only_trouble(GOOD.replace('nominal = "1/4"', 'nominal = "1/4"\nstiffness = ["14"]'))
    assert found.startswith("chest.toml:18: stock thin, stiffness 1: '14' cannot be read as a stiffness")


def slots(seasons):
    text = re.sub(r"(?m)^profile = .*$", "", (EXAMPLES / "moth-cabinet.toml").read_text(encoding="utf-8"))
    made = plan(read_job(f"{text}\n{seasons}", "moth-cabinet.toml"))
    boards = (board for assembly in made.others for board in assembly.boards)
    return max(cut.along.size for board in boards for cut in board.cuts if cut.name.startswith("screw slot"))


def test_a_damper_year_makes_longer_slots():
    damp = '[seasons]\ndampest = { humidity = "85 %" }\n'
    assert slots("") < slots(damp)
    assert slots(damp) < slots(damp + 'driest = { moisture = "4 %" }\n')
