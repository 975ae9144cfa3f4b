"""The program: which commands there are, and in which file each stands. It is fetched from there when it is asked for, so that
each starts fast.
"""

# The types of the options are looked at while the program runs, so they are not left to the type checker alone.
from importlib import import_module
from typing import TYPE_CHECKING, Annotated, Final

import typer
from typer.core import TyperGroup
from typer.main import get_group

from joinlay import __version__
from joinlay.cli.terminal import complain
from joinlay.errors import JoinlayError

if TYPE_CHECKING:
    from typer._click import Command, Context

__all__ = ["app"]

#: Every command, as the help lists them, and its file.
_FILES: Final = {
    "start": "job_app",
    "look": "job_app",
    "check": "job_app",
    "mend": "job_app",
    "make": "job_app",
    "settings": "job_app",
    "list": "job_app",
    "assemble": "job_app",
    "compare": "job_app",
    "joint": "joint_app",
    "why": "job_app",
    "help-on": "job_app",
    "keys": "job_app",
    "schema": "job_app",
    "scale-sheet": "printer_app",
    "printer": "printer_app",
}


class _Program(TyperGroup):
    """All the commands: what one of them cannot use is said on standard error, never shown as a traceback, and ends with 2."""

    def list_commands(self, ctx: "Context") -> list[str]:
        del ctx
        return list(_FILES)

    def get_command(self, ctx: "Context", cmd_name: str) -> "Command | None":
        # For a word that is none of them all are fetched, since one of them may be meant.
        for file in [_FILES[cmd_name]] if cmd_name in _FILES else dict.fromkeys(_FILES.values()):
            self.commands.update(get_group(import_module(f"joinlay.cli.{file}").app).commands)
        return super().get_command(ctx, cmd_name)

    def invoke(self, ctx: "Context") -> object:
        try:
            return super().invoke(ctx)
        except JoinlayError as bad:
            complain(str(bad))
            raise typer.Exit(2) from None


app = typer.Typer(
    name="joinlay",
    cls=_Program,
    epilog="It ends with 0 where all is well, 1 where something was refused, 2 where what was given cannot be used.",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
)


def _say_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"joinlay {__version__}")
        raise typer.Exit


@app.callback()
def _program(
    version: Annotated[
        bool, typer.Option("--version", callback=_say_version, is_eager=True, help="Say which version this is.")
    ] = False,
    trace: Annotated[bool, typer.Option("--trace", hidden=True)] = False,
) -> None:
    """Drawers on wooden runners, worked out to the last offset, with paper templates at true scale.

    Write a job with 'joinlay start', look it over with 'joinlay check', print it with 'joinlay make'.
    At the bench, 'joinlay joint' answers for one joint from a few numbers.
    """
    del version, trace
