"""Running joinlay in tests: within the test, or as a process of its own."""

import os
import subprocess
import sys
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from unittest import mock

from typer.main import get_group

from joinlay.cli import main

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Ran:
    """What a command ended with and said."""

    code: int
    out: str
    err: str


#: The commands of a file of them, put together once.
_commands = cache(get_group)


def run(capsys, *given):
    """Run a command within the test, as main does, and check that it never shows a traceback."""
    words = ["joinlay", *map(str, given)]
    with mock.patch.object(sys, "argv", words), mock.patch("joinlay.cli.app.get_group", _commands):
        try:
            main()
        except SystemExit as done:
            code = done.code
    said = capsys.readouterr()
    assert "Traceback" not in said.err
    assert "a fault of its own" not in said.err, said.err
    return Ran(int(code or 0), said.out, said.err)


def run_alone(*given, folder=ROOT, code="from joinlay.cli import main; main()", **more):
    """Run a command as a process of its own."""
    # Encodings and widths as on a plain terminal, whatever the tests run in.
    plain = {**os.environ, "PYTHONIOENCODING": "utf-8", "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", code, *map(str, given)]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False, env=plain, **more)
    assert "Traceback" not in done.stderr
    return Ran(done.returncode, done.stdout, done.stderr)
