"""``joinlay start``: a job that checks clean as it stands."""

import re
import tomllib

import pytest

from joinlay.boards import PartKind
from joinlay.cli.starter import starter_job
from joinlay.cutlist.lists import all_lists
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.jobs.schema import job_schema
from joinlay.lengths import Unit
from joinlay.shop import usual_shop
from tests.cli.running import run

BOTH = pytest.mark.parametrize("unit", list(Unit))


@BOTH
def test_it_is_a_good_job_with_nothing_to_warn_of(unit):
    worked_out = plan(read_job(starter_job(unit), "chest.toml"))
    assert worked_out.unit is unit
    assert len(worked_out.drawers) == 3
    assert [finding for finding in worked_out.findings if finding.harm is not Harm.NOTE] == []


@BOTH
def test_a_whole_piece_is_a_good_job_too(unit):
    worked_out = plan(read_job(starter_job(unit, is_piece=True), "chest.toml"))
    assert len(worked_out.drawers) == 4
    assert {"case", "face frame", "runners", "stops"} <= {assembly.name for assembly in worked_out.others}
    assert [finding for finding in worked_out.findings if finding.harm is not Harm.NOTE] == []


@BOTH
def test_what_a_whole_piece_shows_in_notes_may_be_written(unit):
    # Its notes that name a file of the maker's own, or stand in place of a line that is written, are tried in tests of their own.
    left = r"shop =|room|profile|\[\[outline|file|on =|depth = 0|purpose|face|at =|turn|mirrored|  eye"
    left += r"|rows =|mullion = .*side by side|inside =|front-size =|front-grain ="
    text = re.sub(rf"^#(?!{left})(?=[a-z\[\]]|  [{{])", "", starter_job(unit, is_piece=True), flags=re.MULTILINE)
    worked_out = plan(read_job(text, "chest.toml"))
    assert len(worked_out.drawers) == 4
    assert not worked_out.is_refused
    assert any(board.bands for board in worked_out.boards)
    assert "stops" not in {assembly.name for assembly in worked_out.others}


#: Tables a first piece may want, and what else their header may be in the starter.
TABLES = (
    "case",
    "frame",
    "top",
    "base",
    "runners",
    "stops",
    "bank",
    "drawers",
    "pulls",
    "banding",
    "outline",
    "sawing",
    "offcut",
    "board",
    "prices",
    "use",
    "seasons",
    "paper",
)


@pytest.mark.parametrize("table", TABLES)
def test_every_key_of_a_table_is_shown_in_it_ready_to_be_used(table):
    schema = job_schema()
    told = schema["properties"][table]
    while "properties" not in told:
        told = (
            told.get("items") or (told.get("anyOf") or [told])[-1]
            if "$ref" not in told
            else schema["$defs"][told["$ref"].rpartition("/")[2]]
        )
    text = starter_job(Unit.INCH, is_piece=True)
    parts = re.split(r"^#?\[+([a-z.-]+)\]+", text, flags=re.MULTILINE)
    shown = "".join(body for name, body in zip(parts[1::2], parts[2::2], strict=True) if name == table)
    # What each drawer may say, the table of all drawers shows.
    own = set(told["properties"]) - (set(schema["$defs"]["DrawersEntry"]["properties"]) if table == "bank" else set())
    own -= ELSEWHERE.get(table, set())
    assert own
    assert [key for key in sorted(own) if not re.search(rf"(^#?|[ {{]){key} = ", shown, flags=re.MULTILINE)] == []


#: Keys that one table shows for others like it, or for jobs of another kind: a drawer's opening is the frame's in a whole piece.
ELSEWHERE = {
    "drawers": {"opening", "side-height", "groove-depth", "tip-gap"},
    "paper": {"width", "height", "roll"},
    "offcut": {"count", "name"},
    "runners": {"sides", "inside-width", "inside-depth", "left-edge", "right-edge", "rail", "below", "above", "screw-length"},
    "board": {"count", "name"},
}


@BOTH
@pytest.mark.parametrize("key", ["inside", "front-size"])
def test_what_lies_inside_may_be_written_in_place_of_the_piece_s_sizes(unit, key):
    text = starter_job(unit, is_piece=True).replace(f"#{key} =", f"{key} =")
    sizes = ("width", "height", "depth") if key == "inside" else ("width", "height")
    for size in sizes:
        text = re.sub(rf"(\[case\]\n(?:.*\n)*?){size} = .*\n", r"\1", text, count=1)
    worked_out = plan(read_job(text, "chest.toml"))
    assert not worked_out.is_refused
    assert worked_out.dimensions()["piece width over all"].rule == "CO-1"


@BOTH
def test_runners_for_openings_that_are_there_may_be_written(unit):
    text = starter_job(unit)
    runners = text[text.index("#[runners]") : text.index("# ---- how sheets")]
    shown = re.findall(r"^#([a-z-]+) = ", runners, flags=re.MULTILINE)
    assert sorted(shown) == [
        "above",
        "below",
        "inside-depth",
        "inside-width",
        "left-edge",
        "rail",
        "right-edge",
        "sides",
        "stock",
    ]
    written = re.sub(r"^#", "", runners, flags=re.MULTILINE) + 'groove-offset = "7/16 in"\n'
    worked_out = plan(
        read_job(text.replace(runners, written.replace("groove-offset", "[practice]\ngroove-offset")), "chest.toml")
    )
    assert not worked_out.is_refused
    assert {"runners", "stops"} == {assembly.name for assembly in worked_out.others}


@BOTH
@pytest.mark.parametrize(
    ("turn", "rows"), [(0, [2, 1, 1]), (1, [3, 2, 2]), (2, [2, 1, 1]), (3, [2, 1, 1]), (4, [2]), (5, [2, 1])]
)
def test_rows_may_be_written_in_place_of_drawers(unit, turn, rows):
    text = starter_job(unit, is_piece=True).replace("\ndrawers = 4", "")
    shown = re.findall(r"^# *rows = .*$", text, flags=re.MULTILINE)
    assert len(shown) == 6
    text = text.replace(shown[turn], shown[turn].removeprefix("#"))
    text = re.sub(r"^#(?=mullion = .*side by side)", "", text, flags=re.MULTILINE)
    worked_out = plan(read_job(text, "chest.toml"))
    assert [len(row) for bank in worked_out.rows for row in bank] == rows
    shelves = [board for board in worked_out.boards if board.role.kind in (PartKind.SHELF, PartKind.LOOSE_SHELF)]
    assert [board.role.kind for board in shelves] == [[], [], [], [], [PartKind.SHELF], [PartKind.LOOSE_SHELF]][turn]
    assert len(worked_out.opens) == (turn >= 3)
    assert not worked_out.is_refused


def test_every_key_of_a_row_and_of_a_shelf_s_lipping_is_shown():
    defs = job_schema()["$defs"]
    shown = " ".join(re.findall(r"^# *rows = .*$", starter_job(Unit.INCH, is_piece=True), flags=re.MULTILINE))
    own = {*defs["RowEntry"]["properties"], *defs["LippingEntry"]["properties"]}
    assert len(own) >= 10
    assert [key for key in sorted(own) if not re.search(rf"[ {{]{key} = ", shown)] == []


@BOTH
@pytest.mark.parametrize("shop", ["a file", "a table"])
def test_what_it_shows_in_notes_may_be_written(unit, shop):
    # A job names its shop in one line or in a table, so one of the two stays a note.
    keys = "kerf|cutters|corner-cutters|tenons|glue|clamps|router-table|table-saw|hand-router|mortiser|mortise-depths|mortise-heights"
    keys += "|mortise-widths|drill|hand-tools|first-choice|limits|inside =|front-size =|front-grain ="
    left = rf"\[shop|{keys}|  {{|\]" if shop == "a file" else "shop =|inside =|front-size =|front-grain ="
    text = re.sub(rf"^#(?!{left})(?=[a-z\[\]]|  [{{])", "", starter_job(unit), flags=re.MULTILINE)
    job = read_job(text, "chest.toml", f'units = "{unit.value}"\nkerf = 1\n' if shop == "a file" else None, "my.shop.toml")
    assert job.drawers[-1].name == "drawer bottom"
    assert len(job.shop.cutters) == len(usual_shop(unit).cutters) if shop == "a file" else 3
    assert job.drawers[0].tenon is not None
    assert len(tomllib.loads(text)["drawers"]) == 21
    assert job.on_hand.prices.slides is not None
    assert (len(job.on_hand.sheets), len(job.on_hand.boards), len(job.on_hand.boards[0].defects)) == (1, 1, 1)
    lists = all_lists(plan(job))
    assert lists.shopping.total is not None
    assert {sheet.blank.name for layout in lists.layouts for sheet in layout.sheets} >= {"offcut 1", "board 1"}


@BOTH
@pytest.mark.parametrize("is_piece", [False, True])
def test_its_lines_fit_an_ordinary_window(unit, is_piece):
    assert max(len(line) for line in starter_job(unit, is_piece=is_piece).splitlines()) <= 130


def test_it_is_written_and_says_what_is_next(tmp_path, capsys):
    job = tmp_path / "chest.toml"
    ran = run(capsys, "start", job)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == f"{job} is written, and checks clean as it stands."
    assert ran.out.splitlines()[-1] == f"Next: fill it in, then joinlay check {job}"
    assert job.read_text(encoding="utf-8") == starter_job(Unit.INCH)
    assert run(capsys, "check", job).code == 0


def test_metric(tmp_path, capsys):
    run(capsys, "start", tmp_path / "x.toml", "--metric")
    assert (tmp_path / "x.toml").read_text(encoding="utf-8") == starter_job(Unit.MM)


def test_it_never_writes_over_a_file_unless_told(tmp_path, capsys):
    job = tmp_path / "chest.toml"
    job.write_text("mine")
    ran = run(capsys, "start", job)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == f"{job} is there already; give another name, or --force to write over it.\n"
    assert job.read_text() == "mine"
    assert run(capsys, "start", job, "--force").code == 0
    assert job.read_text(encoding="utf-8") == starter_job(Unit.INCH)


def test_it_goes_nowhere_it_cannot(tmp_path, capsys):
    for place, said in ((tmp_path, "is there already"), (tmp_path / "no" / "x.toml", "its folder is not there")):
        ran = run(capsys, "start", place)
        assert ran.code == 2
        assert said in ran.err
    ran = run(capsys, "start", tmp_path, "--force")
    assert ran.code == 2
    assert "there is a folder of that name" in ran.err
    (tmp_path / "loose").symlink_to(tmp_path / "gone")
    assert run(capsys, "start", tmp_path / "loose").code == 2


def test_a_whole_piece_is_written_when_it_is_asked_for(tmp_path, capsys):
    job = tmp_path / "chest.toml"
    assert run(capsys, "start", job, "--piece", "--metric").code == 0
    assert job.read_text(encoding="utf-8") == starter_job(Unit.MM, is_piece=True)
    assert run(capsys, "check", job).code == 0


@BOTH
def test_the_grain_of_a_front_of_plywood_may_be_written(unit):
    text = (
        starter_job(unit, is_piece=True)
        .replace('front = "cherry"', 'front = "birch-thick"')
        .replace("#front-grain", "front-grain")
    )
    worked_out = plan(read_job(text, "chest.toml"))
    assert not worked_out.is_refused
    assert [drawer.front.has_grain_across for drawer in worked_out.drawers] == [True] * 4
