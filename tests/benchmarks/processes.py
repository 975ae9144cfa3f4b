"""Whole processes side by side: what each takes of the processor by the system's own account, of the time that somebody waits for
it, and of memory at most.
"""

import os
import subprocess
import sys
import time
from statistics import median
from typing import NamedTuple

#: What stands for a command that does nothing, and for joinlay itself.
NOTHING = "import typer\napp = typer.Typer(add_completion=False)\n@app.command()\ndef nothing() -> None: pass\napp()"
JOINLAY = "from joinlay.cli import main\nmain()"


def at_home(folder):
    """The environment of a maker's machine: compiled modules are kept, in ``folder``, from one run to the next."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": str(folder)}


class Cost(NamedTuple):
    """Seconds of processors, on however many cores, with those of the processes it began; MB of memory at most; and seconds until
    it was done.
    """

    processor: float
    memory: float
    wait: float


def cost(env, code, *words, cwd=None):
    """What a fresh Python costs that runs ``code`` with these words behind it."""
    start = time.perf_counter()
    # Waited for by the system's own call, which alone tells one process's figures; what it says is thrown away.
    process = subprocess.Popen([sys.executable, "-c", code, *map(str, words)], stdout=subprocess.DEVNULL, env=env, cwd=cwd)
    _, status, used = os.wait4(process.pid, 0)
    wait = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0
    return Cost(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, wait)


def times(env, ours, other, rounds=7, cwd=None):
    """How many times the processor time of ``other`` ``ours`` takes, each (code, *words): the middle of some pairs."""
    return median(one.processor / two.processor for one, two in pairs(env, ours, other, rounds, cwd))


def pairs(env, ours, other, rounds=7, cwd=None):
    """What both cost, some times, one after the other.

    Turn about, so that whatever else the machine does slows both alike.
    """
    for code, *words in (ours, other):
        cost(env, code, *words, cwd=cwd)  # once to compile
    return [(cost(env, *ours, cwd=cwd), cost(env, *other, cwd=cwd)) for _ in range(rounds)]
