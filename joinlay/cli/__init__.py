"""The command line: thin. It reads, plans, and says or writes; what it says stands in ``words``, or at the foot of the one
command that says it.
"""

from __future__ import annotations

import atexit
import gc
import os
import sys
from typing import TYPE_CHECKING, Final, NoReturn

if TYPE_CHECKING:
    from collections.abc import Sequence

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
    # What is made hangs on the job alone, whatever day a builder of packages has set; a library stumbles over one that is none.
    os.environ.pop("SOURCE_DATE_EPOCH", None)
    _refuse_unseen(sys.argv[1:])
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


#: More signs than a word on the command line has, a way to a file among them.
_LONGEST_WORD: Final = 1_000


def _refuse_unseen(words: Sequence[str]) -> None:
    """End with 2 where a word goes on and on, or has signs that can't be seen: a name of a file may come from anybody, and is
    said again in many places.
    """
    for word in words:
        if len(word) > _LONGEST_WORD or not word.translate({0xA0: " ", 0x202F: " "}).isprintable():
            from joinlay.cli.terminal import complain
            from joinlay.errors import quoted

            limit = f"a word here has at most {_LONGEST_WORD} signs, and none that cannot be seen"
            complain(f"{quoted(word)} cannot be used: {limit}. Write it without them; a file of that name wants another one.")
            sys.exit(2)
