"""Imports go down the floors only, and slow libraries are fetched only by the commands that use them."""

import ast
import subprocess
import sys

import pytest

from tests.house.source import ROOT, modules, nodes

#: Libraries that take a tenth of a second or more to fetch.
SLOW = ("pydantic", "reportlab", "svglib", "numpy", "ezdxf", "scipy", "manifold3d", "trimesh", "PIL")


def fetched_by(code):
    """Which of the slow libraries a fresh Python has fetched after running ``code``."""
    ask = f"{code}\nimport sys\nprint('fetched:', *[name for name in {SLOW!r} if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", ask], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout.rsplit("fetched:", 1)[1].split()


def test_the_contracts_hold():
    run = "from importlinter.cli import lint_imports_command; lint_imports_command(['--no-cache'])"
    done = subprocess.run([sys.executable, "-c", run], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "0 broken" in done.stdout


def test_the_question_is_answered_truly():
    assert fetched_by("import pydantic") == ["pydantic"]


@pytest.mark.parametrize(
    "package",
    [
        "errors",
        "lengths",
        "findings",
        "geometry",
        "stock",
        "shop",
        "paper",
        "boards",
        "joints",
        "casework",
        "checks",
        "cutlist",
        "settings",
        "pen",
        "pictures",
        "templates",
    ],
)
def test_no_floor_that_works_out_wood_fetches_a_slow_library(package):
    assert fetched_by(f"import joinlay.{package}") == []


def test_a_check_fetches_what_it_judges_by_and_nothing_that_changes_draws_or_orders():
    """A job with notes alone: its remedies, its cards and its printer aren't asked for."""
    code = (
        "import sys\nfrom joinlay.cli import main\ntry:\n    main()\nexcept SystemExit as done:\n    assert not done.code\n"
        "print(*sys.modules, file=sys.stderr)"
    )
    command = [sys.executable, "-c", code, "check", str(ROOT / "tests/openings/paper-drawers.toml")]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    fetched = set(done.stderr.split())
    assert {"joinlay.checks.everything", "joinlay.settings.choice", "joinlay.assembly.order"} <= fetched
    assert not fetched & {"reportlab", "tomlkit", "rich", "json", "numpy"}
    ours = {name.removeprefix("joinlay.") for name in fetched if name.startswith("joinlay.")}
    assert not ours & {"documents.editing", "documents.plan_json", "settings.cards", "settings.ordering", "assembly.timetable"}
    assert {name.split(".")[0] for name in ours}.isdisjoint({"bench", "pages", "pen", "pictures", "templates", "cutlist"})


def test_dxf_fetches_its_library_only_to_write():
    assert fetched_by("import joinlay.documents.dxf") == []


def test_a_model_fetches_its_libraries_only_to_be_made():
    assert fetched_by("import joinlay.documents.model") == []


def test_the_command_line_fetches_nothing_slow():
    assert fetched_by("import joinlay.cli") == []


@pytest.mark.parametrize(
    "command",
    [
        "loose-tenon --end 1/2 --face 3/4 --length 4",
        "locking-rabbet --side 1/2 --end 1/2 --cutter 1/4",
        "dado --into 3/4 --panel 3/4 --cutter 1/2",
        "rabbet --help",
        "groove --into 1/2 --panel 1/4 --json",
    ],
)
def test_an_answer_at_the_bench_fetches_nothing_slow_beside_what_typer_reads_with(command):
    run = f"""
import sys
from joinlay.cli import main
sys.argv = ["joinlay", "joint", *{command.split()!r}]
try:
    main()
except SystemExit as done:
    assert not done.code, done.code
"""
    assert fetched_by(run) in ([], ["pydantic"])


def test_records_are_made_in_one_place():
    """The standard library's ``dataclass`` compiles the methods of every class anew each time the program starts."""
    taken = {
        path
        for path, tree in modules().items()
        for node in nodes(tree)
        if isinstance(node, ast.ImportFrom) and node.module == "dataclasses" and "dataclass" in {name.name for name in node.names}
    }
    assert taken == {"joinlay/records.py"}
