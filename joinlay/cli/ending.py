"""How a command ends: what it cannot use is said in a sentence, never shown as a traceback."""

# The types of the options are looked at while the program runs, so they are not left to the type checker alone.
from collections.abc import Callable
from functools import wraps
from typing import ParamSpec

import typer

from joinlay.cli.saying import complain
from joinlay.errors import JoinlayError

__all__ = ["said"]

_P = ParamSpec("_P")


def said(command: Callable[_P, None]) -> Callable[_P, None]:
    """The command, but what it cannot use is said on standard error and ends with 2."""

    @wraps(command)
    def run(*args: _P.args, **kwargs: _P.kwargs) -> None:
        try:
            command(*args, **kwargs)
        except JoinlayError as bad:
            complain(str(bad))
            raise typer.Exit(2) from None

    return run
