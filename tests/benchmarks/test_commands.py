"""How long a command takes from key press to answer, against a typer command that does nothing."""

import os
import subprocess
import sys
from time import perf_counter

import pytest

#: An answer at the bench may take this many times as long as a command that does nothing: a channel, and any.
MOST_TIMES_CHANNEL, MOST_TIMES = 1.4, 1.5

NOTHING = "import typer\napp = typer.Typer(add_completion=False)\n@app.command()\ndef nothing() -> None: pass\napp()"
JOINLAY = "from joinlay.cli import main\nmain()"

COMMANDS = {
    "loose tenon": "joint loose-tenon --end 1/2 --face 3/4 --length 4",
    "loose tenon as JSON": "joint loose-tenon --end 1/2 --face 3/4 --length 4 --json",
    "locking rabbet": "joint locking-rabbet --side 1/2 --end 1/2 --cutter 1/4",
    "dado": "joint dado --into 18mm --panel 11.7mm --metric",
    "dado by two passes": "joint dado --into 3/4 --panel 3/4 --cutter 1/2",
    "groove": "joint groove --into 1/2 --panel 1/4",
}


@pytest.fixture(scope="module")
def at_home(tmp_path_factory):
    """The environment of a maker's machine: compiled modules are kept from one run to the next."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": str(tmp_path_factory.mktemp("compiled"))}


def seconds(at_home, code, *words):
    """How long a fresh Python takes to run ``code`` with these words behind it."""
    start = perf_counter()
    subprocess.run([sys.executable, "-c", code, *words], capture_output=True, check=True, env=at_home)
    return perf_counter() - start


@pytest.mark.parametrize("command", COMMANDS)
def test_whole_process_against_an_empty_command(benchmark, command, at_home):
    words = COMMANDS[command].split()
    for code, behind in ((JOINLAY, words), (NOTHING, [])):
        seconds(at_home, code, *behind)  # once to compile
    # One after the other, turn about, so that whatever else the machine does slows both alike.
    pairs = [(seconds(at_home, JOINLAY, *words), seconds(at_home, NOTHING)) for _ in range(15)]
    benchmark.pedantic(seconds, args=(at_home, JOINLAY, *words), rounds=5)
    ratio = min(ours for ours, _ in pairs) / min(empty for _, empty in pairs)
    benchmark.extra_info["times an empty command"] = round(ratio, 2)
    assert ratio <= (MOST_TIMES_CHANNEL if command.startswith(("dado", "groove")) else MOST_TIMES)
