"""The command line: thin. It reads, plans, and says or writes; what it says stands in ``words``, or at the foot of the one
command that says it.
"""

from __future__ import annotations

import atexit
import gc
import os
import sys
from typing import NoReturn

__all__ = ["main"]


def main() -> NoReturn:
    """Run ``joinlay`` with the arguments of the process, and end it with 0, 1 (refused), 2 (cannot be used), 3 (a fault of its
    own) or 130.
    """
    # What is fetched and worked out lives until the command ends, so to look for rubbish at every 700th object is in vain.
    gc.set_threshold(1_000_000)
    # Nor at the very end, when all of it goes at once.
    atexit.register(_leave_rubbish)
    # Nothing of ours plugs into pydantic; to look through every installed package for what might takes a tenth of a short
    # command.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "1")
    try:
        from joinlay.cli.app import app

        app(prog_name="joinlay")
    except KeyboardInterrupt:
        sys.exit(130)
    except BrokenPipeError:
        # Whoever was reading has gone; so does what is left to say.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    except Exception as fault:
        if "--trace" in sys.argv[1:2]:
            raise
        from joinlay.cli.words import own_fault

        sys.stderr.write(f"{own_fault(fault)}\n")
        sys.exit(3)
    sys.exit(0)


def _leave_rubbish() -> None:
    """Take everything there is for good, so that Python's last look for rubbish has nothing to go through."""
    gc.freeze()
    gc.disable()
