"""``joinlay check``: 0 clean, 1 refused, 2 cannot be used; everything wrong at once."""

import json
import re

import pytest

from tests.cli.running import run
from tests.measured.packets import EXAMPLES
from tests.unit.jobs.jobs import GOOD

#: No tenon goes into sides this thin, and no cutter of the shop into so thin a bottom.
TOO_THIN = GOOD.replace('nominal = "1/2"\nmeasured = 0.483', 'nominal = "1/8"')


def test_the_answer_first_then_the_findings_and_the_next_step_last(job, capsys):
    path = job()
    ran = run(capsys, "check", path)
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0].startswith("Seed chest: 1 drawer, ")
    assert lines[-1] == f"Next: joinlay make {path}"
    assert any("thin: Only the nominal thickness 1/4 in is known" in line for line in lines)
    assert lines[-4].startswith("Reckoned with usual figures: 70 F and 30 % (wood at 6.2 %) on the driest day; ")
    assert all(line.split()[0] in ("warning", "note") for line in lines[2:-5])


def test_what_is_refused_ends_with_one(job, capsys):
    path = job(TOO_THIN)
    ran = run(capsys, "check", path)
    assert (ran.code, ran.err) == (1, "")
    assert "refused" in ran.out.splitlines()[0]
    assert ran.out.splitlines()[2].startswith("refused  drawer 1")
    assert ran.out.splitlines()[-1] == f"Next: change what was refused in {path}, then check again."


def test_what_cannot_be_used_ends_with_two_and_is_said_at_once(job, capsys):
    ran = run(capsys, "check", job(GOOD.replace('"4 1/4"', '"4 1/x"').replace("title", "titel").replace("sides =", "side =")))
    assert (ran.code, ran.out) == (2, "")
    assert [line.split(": ")[0] for line in ran.err.splitlines()] == ["chest.toml:1", "chest.toml:21", "chest.toml:25"]
    # That no stock of the sides is named only follows from the slip, and is not told beside it.
    assert "the nearest is 'sides'" in ran.err
    assert "nothing says" not in ran.err


def test_json(job, capsys):
    ran = run(capsys, "check", job(), "--json")
    told = json.loads(ran.out)
    assert (ran.code, told["job"], told["title"], told["drawers"]) == (0, "chest.toml", "Seed chest", 1)
    assert told["verdict"] in ("note", "warning")
    assert {finding["harm"] for finding in told["findings"]} <= {"note", "warn"}
    refused = run(capsys, "check", job(TOO_THIN), "--json")
    assert (refused.code, json.loads(refused.out)["verdict"]) == (1, "refused")
    wrong = run(capsys, "check", job("x = 1\n" + GOOD), "--json")
    told = json.loads(wrong.out)
    assert (wrong.code, told["verdict"]) == (2, "cannot be used")
    assert told["troubles"][0]["line"] == 1
    assert wrong.err.startswith("chest.toml:1: there is no key 'x' here")


def test_your_own_figures_are_told_with_their_line(job, capsys):
    own = '[practice]\ncutting-tolerance = "1/100"\n' + GOOD[GOOD.index("[stock") :].replace('"thin"', '"thin"\nload = "20 lb"')
    told = run(capsys, "check", job(own)).out
    assert "Reckoned with your figures: 20 lb in each drawer (chest.toml:21); cuts within 1/64 in (chest.toml:2)." in told
    # Nothing stands where there are only drawers.
    conditions = json.loads(run(capsys, "check", job(own), "--json").out)["conditions"]
    assert {one["name"]: one["written"] for one in conditions} == {
        "driest": "", "dampest": "", "workshop": "", "load": "chest.toml:21", "cutting tolerance": "chest.toml:2",
    }  # fmt: skip


def test_a_whole_piece_says_how_it_stands(tmp_path, capsys):
    path = tmp_path / "moth-cabinet.toml"
    text = re.sub(r"(?m)^profile = .*$", "", (EXAMPLES / "moth-cabinet.toml").read_text(encoding="utf-8"))
    path.write_text(f'{text}\n[use]\nstands = "anchored"\nfeet-set-back = "30"\n', encoding="utf-8")
    told = run(capsys, "check", path).out
    assert "the piece is anchored to the wall, its front feet 30 mm back (moth-cabinet.toml:" in told
    assert "It is to be anchored to the wall, and must not be used before it is." in told
    whole = json.loads(run(capsys, "check", path, "--json").out)
    assert whole["weights"]["piece"]["empty_kg"] > 20
    assert whole["conditions"][-1]["said"].startswith("the piece is anchored")


def test_json_of_a_file_that_is_not_there(tmp_path, capsys):
    ran = run(capsys, "check", tmp_path / "no.toml", "--json")
    assert ran.code == 2
    assert json.loads(ran.out)["troubles"][0]["message"].startswith("there is no file")


@pytest.mark.parametrize("command", [("check",), ("make",), ("why",)])
def test_files_that_cannot_be_read(tmp_path, job, capsys, command):
    missing = run(capsys, *command, tmp_path / "chst.toml")
    assert (missing.code, missing.err) == (2, f"there is no file {tmp_path / 'chst.toml'}; joinlay start writes one.\n")
    path = job()
    missing = run(capsys, *command, tmp_path / "chst.toml")
    assert (missing.code, missing.err) == (2, f"there is no file {tmp_path / 'chst.toml'}; the nearest is {path}.\n")
    folder = run(capsys, *command, tmp_path)
    assert (folder.code, folder.err) == (2, f"{tmp_path} is a folder; name the job file in it.\n")
    device = run(capsys, *command, "/dev/null")
    assert (device.code, device.err) == (2, "/dev/null is not an ordinary file.\n")
    under = run(capsys, *command, path / "x.toml")
    assert under.code == 2
    assert "cannot be read: not a directory" in under.err


def test_text_that_is_no_job(tmp_path, job, capsys):
    path = tmp_path / "chest.toml"
    path.write_bytes(b'title = "x"\n# \xff\xfe\n')
    ran = run(capsys, "check", path)
    assert (ran.code, ran.err) == (2, "chest.toml:2: this is not UTF-8 text; save the file as UTF-8.\n")
    path.write_bytes("title = 'x'".encode("utf-16"))
    assert "save the file as UTF-8" in run(capsys, "check", path).err
    path.write_bytes(b"#" * 1_000_001)
    ran = run(capsys, "check", path)
    assert (ran.code, ran.err) == (2, f"{path} is larger than 1 MB; a job is a page or two.\n")
    path.write_bytes(b"")
    assert run(capsys, "check", path).code == 2
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.encode())
    assert run(capsys, "check", path).code == 0
    assert "this is not TOML" in run(capsys, "check", job("{}")).err


def test_a_file_that_may_not_be_read(job, capsys, monkeypatch):
    path = job()

    def refuse(self, *given):
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr("pathlib.Path.open", refuse)
    ran = run(capsys, "check", path)
    assert (ran.code, ran.err) == (2, f"{path} may not be read; ask for leave to read it, or copy it elsewhere.\n")


def test_a_shop_file_beside_the_job(tmp_path, job, capsys):
    path = job('shop = "my.shop.toml"\n' + GOOD)
    ran = run(capsys, "check", path)
    assert (ran.code, ran.err.split(";")[0]) == (2, "chest.toml:1: shop: there is no shop file 'my.shop.toml' beside the job")
    shop = job('units = "inch"\n\n[practice]\nside-clearance = "1/16"\n', "my.shop.toml")
    assert run(capsys, "check", path).code == 0
    why = run(capsys, "why", path, "drawer 1 front width")
    assert "side clearance = 1/16 in   written in my.shop.toml:4 (DR-1)" in why.out
    shop.write_text("kerf = true\n")
    ran = run(capsys, "check", path)
    assert ran.code == 2
    assert "my.shop.toml:1: kerf: true is not a length" in ran.err
    shop.unlink()
    shop.mkdir()
    assert "is a folder" in run(capsys, "check", path).err
    assert run(capsys, "check", job('shop = ""\n' + GOOD)).code == 2
    assert run(capsys, "check", job('shop = "a\\u0000b"\n' + GOOD)).code == 2


@pytest.mark.parametrize(("more", "harm", "code"), [("", "note", 0), ("hand-tools = false\n", "refused", 1)])
def test_a_cut_the_shop_has_no_machine_for_is_told_with_the_way_out(more, harm, code, tmp_path, capsys):
    """It is hand work, and refused where nothing is cut by hand."""
    job = tmp_path / "chest.toml"
    job.write_text(f"{GOOD}\n[shop]\nrouter-table = false\ntable-saw = false\nhand-router = false\n{more}", encoding="utf-8")
    ran = run(capsys, "check", job)
    assert ran.code == code
    (said,) = [line for line in ran.out.splitlines() if line.startswith(harm) and "no machine for the groove" in line]
    assert "A router table, a table saw or a hand-held router would do." in said
    assert ("so this is hand work" in said) is (code == 0)
    job.write_text(GOOD, encoding="utf-8")
    assert "no machine" not in run(capsys, "check", job).out
