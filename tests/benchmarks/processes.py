"""Whole processes side by side: what each takes of the processor by the system's own account, and the memory it takes at most."""

import os
import subprocess
import sys
from statistics import median

#: What stands for a command that does nothing, and for joinlay itself.
NOTHING = "import typer\napp = typer.Typer(add_completion=False)\n@app.command()\ndef nothing() -> None: pass\napp()"
JOINLAY = "from joinlay.cli import main\nmain()"


def at_home(folder):
    """The environment of a maker's machine: compiled modules are kept, in ``folder``, from one run to the next."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": str(folder)}


def cost(env, code, *words, cwd=None):
    """The seconds of processor time, and the MB of memory at most, of a fresh Python that runs ``code`` with these words
    behind it.
    """
    # Waited for by the system's own call, which alone tells one process's figures; what it says is thrown away.
    process = subprocess.Popen([sys.executable, "-c", code, *map(str, words)], stdout=subprocess.DEVNULL, env=env, cwd=cwd)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def times(env, ours, other, rounds=7, cwd=None):
    """How many times the processor time of ``other`` ``ours`` takes, each (code, *words): the middle of some pairs, one after the
    other.

    Turn about, so that whatever else the machine does slows both alike.
    """
    for code, *words in (ours, other):
        cost(env, code, *words, cwd=cwd)  # once to compile
    pairs = [(cost(env, *ours, cwd=cwd)[0], cost(env, *other, cwd=cwd)[0]) for _ in range(rounds)]
    return median(one / two for one, two in pairs)
