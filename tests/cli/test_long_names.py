"""Names as long as may be go through every command and into every file; a longer one is refused in one line."""

import json

import pytest

from joinlay.paper import LONGEST_NAME
from tests.cli.running import run
from tests.unit.jobs.jobs import GOOD

CLIPS = "for the paper clips "
LONGEST = (CLIPS * 6)[:LONGEST_NAME].strip()
#: Two drawers whose names differ only in their last letter, of a stock and in a piece of names as long.
OPENING = 'opening = { width = "18 3/8", height = "4 1/4", depth = "20" }\n'
NAMES = (f"{LONGEST[:-1]}a", f"{LONGEST[:-1]}b")
STOCK = "s" + "-ply" * 15
LONG = GOOD.replace("Seed chest", LONGEST).replace("birch", STOCK).partition("[[drawer]]")[0] + "".join(
    f'[[drawer]]\nname = "{name}"\n{OPENING}' for name in NAMES
)
TIGHT = LONG.replace("[drawers]", '[drawers]\ntop-clearance = "1/64"')


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A folder of the job's own, with the job in it."""
    folder = tmp_path_factory.mktemp("long")
    (folder / "chest.toml").write_text(LONG, encoding="utf-8")
    return folder


def test_six_times_over_is_refused_in_one_line_by_every_command(job, capsys, tmp_path):
    path = job(GOOD.replace("[[drawer]]", f'[[drawer]]\nname = "{CLIPS * 6}"'))
    for given in (("check", path), ("make", path, "--out", tmp_path / "out"), ("assemble", path), ("mend", path), ("list", path)):
        ran = run(capsys, *given)
        assert (ran.code, ran.out) == (2, "")
        assert f"{LONGEST_NAME}" in ran.err
        assert max(map(len, ran.err.splitlines())) < 300
    assert not (tmp_path / "out").exists()


def test_as_long_as_may_be_it_is_made_and_every_file_is_there(made, capsys):
    out = made / "out"
    ran = run(capsys, "make", made / "chest.toml", "--out", out, "--all")
    assert (ran.code, ran.err) == (0, "")
    files = [path for path in out.rglob("*") if path.is_file()]
    # 143 bytes is the least that a file system in use takes, an encrypted one; 255 the usual.
    assert max(len(path.name.encode()) for path in files) <= 143
    assert len({path.name.casefold() for path in files}) == len(files)
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert [drawer["name"] for drawer in plan["drawers"]] == [f"drawer {name}" for name in NAMES]
    again = sorted(path.name for path in files)
    assert run(capsys, "make", made / "chest.toml", "--out", out, "--all").code == 0
    assert sorted(path.name for path in out.rglob("*") if path.is_file()) == again


@pytest.mark.parametrize(
    "given", [("assemble",), ("assemble", "--step", "1"), ("settings",), ("list", "--sheets"), ("why",), ("check", "--assemble")]
)
def test_as_long_as_may_be_it_is_told_whole(made, capsys, given):
    ran = run(capsys, given[0], made / "chest.toml", *given[1:])
    assert (ran.code, ran.err) == (0, "")
    assert "…" not in ran.out
    assert LONGEST[:-1] in ran.out


def test_as_long_as_may_be_it_is_mended(job, capsys):
    path = job(TIGHT)
    assert run(capsys, "mend", path, 1).code == 0
    assert path.read_text() == TIGHT.replace('"1/64"', '"1/32"')
