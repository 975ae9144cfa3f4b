"""``joinlay schema``: the schemas of a job and of a plan, in the terminal."""

import json
import tomllib

import pytest
from jsonschema import Draft202012Validator

from joinlay.documents.plan_json import plan_schema
from joinlay.jobs.schema import job_schema
from tests.cli.running import ROOT, run


@pytest.mark.parametrize(("what", "schema"), [("job", job_schema), ("plan", plan_schema)])
def test_a_schema_is_printed_whole(capsys, what, schema):
    ran = run(capsys, "schema", what)
    assert (ran.code, ran.err) == (0, "")
    assert json.loads(ran.out) == schema()


def test_what_make_writes_follows_the_schema_that_is_printed(capsys, tmp_path):
    job, plan = (json.loads(run(capsys, "schema", what).out) for what in ("job", "plan"))
    example = ROOT / "tests" / "openings" / "paper-drawers.toml"
    assert run(capsys, "make", example, "--out", tmp_path).code == 0
    Draft202012Validator(job).validate(tomllib.loads(example.read_text(encoding="utf-8")))
    Draft202012Validator(plan).validate(json.loads((tmp_path / "plan.json").read_bytes()))


def test_there_are_two(capsys):
    ran = run(capsys, "schema", "shop")
    assert (ran.code, ran.out) == (2, "")
    assert "'shop' is not one of 'job', 'plan'" in ran.err
