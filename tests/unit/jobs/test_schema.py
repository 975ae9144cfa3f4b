"""The schema of a job: every job that is read follows it, and what it refuses the reader refuses too.

Checked with the jsonschema package, which holds to JSON Schema, draft 2020-12.
"""

import re
import tomllib

import pytest
from jsonschema import Draft202012Validator

from joinlay.cli.starter import starter_job
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.jobs.schema import job_schema
from joinlay.lengths import Unit
from tests.measured.packets import EXAMPLES, OPENINGS
from tests.unit.jobs.jobs import GOOD, troubles_in

SCHEMA = job_schema()
CHECK = Draft202012Validator(SCHEMA)

JOBS = {path.stem: path.read_text(encoding="utf-8") for folder in (EXAMPLES, OPENINGS) for path in sorted(folder.glob("*.toml"))}
STARTERS = {f"{unit.value} {piece}": starter_job(unit, is_piece=piece) for unit in Unit for piece in (False, True)}


def faults(text):
    return [f"{fault.json_path}: {fault.message}" for fault in CHECK.iter_errors(tomllib.loads(text))]


def tables():
    """Every table of the schema by the name of its model, with its keys; one that true or false may stand for without that."""
    for name, table in [("JobFile", SCHEMA), *SCHEMA["$defs"].items()]:
        yield name, table.get("anyOf", [table])[0]["properties"]


def test_it_is_a_schema_of_its_dialect():
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == Draft202012Validator.META_SCHEMA["$id"]


@pytest.mark.parametrize("job", JOBS)
def test_the_examples_follow_it(job):
    assert faults(JOBS[job]) == []


@pytest.mark.parametrize("job", STARTERS)
def test_the_starter_follows_it_as_it_stands_and_with_its_notes_written(job):
    assert faults(STARTERS[job]) == []
    written = re.sub(r"^#(?!shop =)(?=[a-z\[\]]|  [{])", "", STARTERS[job], flags=re.MULTILINE)
    assert len(written) > 0.9 * len(STARTERS[job])
    assert faults(written) == []


@pytest.mark.parametrize(
    "more",
    [
        'shop = "my.shop.toml"\n',
        'paper = "a4"\n',
        'schema = "job.schema.json"\n',
        "[shop]\nrouter-table = false\n",
        "[shop]\ntable-saw = { blade-height = 3 }\n",
        "[practice]\ntip-gap = 0.02\ntenon-depth = 3\n",
    ],
)
def test_short_ways_and_numbers_of_every_kind_follow_it(more):
    text = more + GOOD if not more.startswith("[") else f"{GOOD}\n{more}"
    assert faults(text) == []
    assert troubles_in(text, 'units = "inch"\n' if "my.shop" in more else None, "my.shop.toml") == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('units = "inch"', 'units = "furlong"'),
        ('units = "inch"', "units = 1"),
        ("title =", "titel ="),
        ('nominal = "3/4"\n', ""),
        ('nominal = "3/4"', "nominal = true"),
        ('nominal = "3/4"', 'nominal = ["3/4"]'),
        ('sheet = [60, "60"]', "sheet = [60]"),
        ('kind = "solid"', 'kind = "granite"'),
        ('height = "4 1/4"', 'hight = "4 1/4"'),
        ("[[drawer]]", "[drawer]"),
        ("[[drawer]]", "[[drawer]]\ncount = 0"),
        ("[[drawer]]", '[[drawer]]\nfront-joint = "dovetails"'),
        ('front = "cherry"', 'front = "cherry"\nload = 30'),
        ("[drawers]", '[shop]\nrouter-table = "none"\n\n[drawers]'),
        ("[drawers]", '[[outline]]\nfile = "a.svg"\non = "drawer front"\nturn = 45\n\n[drawers]'),
    ],
)
def test_what_it_refuses_the_reader_refuses_too(old, new):
    changed = GOOD.replace(old, new, 1)
    assert changed != GOOD
    assert faults(changed)
    assert troubles_in(changed)


def test_every_table_and_key_says_what_it_is_for():
    silent = [f"{name} {key}" for name, keys in tables() for key, value in keys.items() if len(value.get("description", "")) < 5]
    assert silent == []
    assert [name for name, _ in tables() if not SCHEMA["$defs"].get(name, SCHEMA).get("description", True)] == []


def test_what_is_said_of_keys_is_said_of_keys_that_are_there():
    from joinlay.jobs.schema import _KEYS

    there = {name: set(keys) for name, keys in tables()}
    assert {name: set(told) - there[name] for name, told in _KEYS.items() if set(told) - there[name]} == {}


def test_a_figure_of_the_trade_says_its_rule_and_what_is_usual():
    told = SCHEMA["$defs"]["DrawersEntry"]["properties"]["side-clearance"]["description"]
    assert told.startswith("Drawer to opening at each side; 1/32 in or 0.8 mm unless told (DR-1, common practice).")
    assert SCHEMA["$defs"]["PracticeEntry"]["properties"]["tenon-share"]["description"].count("LT-1") == 1


def test_a_job_that_names_its_schema_is_the_same_job():
    named = read_job(f'schema = "job.schema.json"\n{GOOD}', "chest.toml")
    plain = read_job(f"\n{GOOD}", "chest.toml")
    assert plan(named) == plan(plain)
    assert troubles_in(f"schema = 1\n{GOOD}") == ["chest.toml:1: schema: 1 is not text; write a name in quotes."]
