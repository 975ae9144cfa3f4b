"""The commands: what each takes. What each does is imported when it is asked for, so that the others start fast."""

# The types of the options are looked at while the program runs, so they are not left to the type checker alone.
from pathlib import Path
from typing import Annotated

import typer

from joinlay import __version__
from joinlay.cli import printer_words, words
from joinlay.cli.ending import said as _said
from joinlay.cli.printer_app import printer as _printer
from joinlay.cli.printer_app import scale_sheet as _scale_sheet

__all__ = ["app"]

app = typer.Typer(
    name="joinlay",
    help=words.ABOUT,
    epilog=words.EXIT_CODES,
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
    version: Annotated[bool, typer.Option("--version", callback=_say_version, is_eager=True, help=words.VERSION)] = False,
    trace: Annotated[bool, typer.Option("--trace", hidden=True)] = False,
) -> None:
    del version, trace


@app.command(help=words.START)
@_said
def start(
    file: Annotated[Path, typer.Argument(help=words.START_FILE)],
    metric: Annotated[bool, typer.Option("--metric/--inch", help=words.START_METRIC)] = False,
    piece: Annotated[bool, typer.Option("--piece/--openings", help=words.START_PIECE)] = False,
    force: Annotated[bool, typer.Option("--force", help=words.START_FORCE)] = False,
) -> None:
    """Write a job to fill in."""
    from joinlay.cli.starting import write_starter

    write_starter(file, is_metric=metric, is_piece=piece, is_forced=force)


@app.command(help=words.CHECK)
@_said
def check(
    job: Annotated[Path, typer.Argument(help=words.JOB)],
    as_json: Annotated[bool, typer.Option("--json", help=words.AS_JSON)] = False,
    assemble: Annotated[bool, typer.Option("--assemble", help=words.ASSEMBLE)] = False,
) -> None:
    """Say what was found in a job."""
    from joinlay.cli.checking import check_job

    raise typer.Exit(check_job(job, as_json=as_json, is_assembled=assemble))


@app.command(help=words.MAKE)
@_said
def make(
    job: Annotated[Path, typer.Argument(help=words.JOB)],
    out: Annotated[Path | None, typer.Option("--out", help=words.MAKE_OUT)] = None,
    paper: Annotated[str | None, typer.Option("--paper", help=words.MAKE_PAPER)] = None,
    only: Annotated[str | None, typer.Option("--only", help=words.MAKE_ONLY)] = None,
    pages: Annotated[str | None, typer.Option("--pages", help=words.MAKE_PAGES)] = None,
    printer: Annotated[str | None, typer.Option("--printer", help=printer_words.MAKE_PRINTER)] = None,
    count: Annotated[bool, typer.Option("--count", help=words.MAKE_COUNT)] = False,
    dxf: Annotated[bool, typer.Option("--dxf", help=words.MAKE_DXF)] = False,
) -> None:
    """Write a job's packet and lists."""
    from joinlay.cli.making import Wish, make_job

    raise typer.Exit(make_job(job, Wish(out, paper, only, pages, printer, is_count=count, is_dxf=dxf)))


@app.command(help=words.SETTINGS)
@_said
def settings(
    job: Annotated[Path, typer.Argument(help=words.JOB)],
    card: Annotated[int | None, typer.Option("--card", help=words.SETTINGS_CARD)] = None,
    part: Annotated[str | None, typer.Option("--for", help=words.SETTINGS_FOR)] = None,
    as_json: Annotated[bool, typer.Option("--json", help=words.AS_JSON)] = False,
) -> None:
    """Say how the machines are set."""
    from joinlay.cli.settings_command import say_settings

    raise typer.Exit(say_settings(job, card, part, as_json=as_json))


@app.command("list", help=words.LIST)
@_said
def list_parts(
    job: Annotated[Path, typer.Argument(help=words.JOB)],
    sheets: Annotated[bool, typer.Option("--sheets", help=words.LIST_SHEETS)] = False,
    buy: Annotated[bool, typer.Option("--buy", help=words.LIST_BUY)] = False,
    as_json: Annotated[bool, typer.Option("--json", help=words.AS_JSON)] = False,
) -> None:
    """Say what to cut, how to saw it out, and what to buy."""
    from joinlay.cli.list_command import say_lists

    raise typer.Exit(say_lists(job, sheets=sheets, buy=buy, as_json=as_json))


@app.command(help=words.COMPARE)
@_said
def compare(
    old: Annotated[Path, typer.Argument(help=words.COMPARE_OLD)],
    new: Annotated[Path, typer.Argument(help=words.COMPARE_NEW)],
    as_json: Annotated[bool, typer.Option("--json", help=words.AS_JSON)] = False,
) -> None:
    """Say what differs between two jobs."""
    from joinlay.cli.compare_command import say_changes

    raise typer.Exit(say_changes(old, new, as_json=as_json))


@app.command(
    help=words.JOINT, context_settings={"allow_extra_args": True, "ignore_unknown_options": True, "help_option_names": []}
)
def joint(ctx: typer.Context) -> None:
    """Hand the words on to the bench, which reads them itself: the program goes straight there, without this, to be quick."""
    from joinlay.cli.joint_words import run_joint

    raise typer.Exit(run_joint(ctx.args))


@app.command(help=words.WHY)
@_said
def why(
    job: Annotated[Path, typer.Argument(help=words.JOB)],
    name: Annotated[list[str] | None, typer.Argument(help=words.WHY_NAME)] = None,
) -> None:
    """Show how a number was worked out."""
    from joinlay.cli.explaining import explain

    explain(job, " ".join(name or []))


@app.command(name="help-on", help=words.HELP_ON)
@_said
def help_on(kind: Annotated[list[str] | None, typer.Argument(help=words.HELP_ON_KIND)] = None) -> None:
    """Say more about one kind of finding."""
    from joinlay.cli.helping import say_help

    say_help(" ".join(kind or []))


app.command("scale-sheet", help=printer_words.SCALE_SHEET)(_scale_sheet)
app.add_typer(_printer, name="printer")
