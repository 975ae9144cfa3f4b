"""``joinlay printer`` and ``joinlay scale-sheet``: what each takes."""

# The types of the options are looked at while the program runs, so they are not left to the type checker alone.
from pathlib import Path
from typing import Annotated

import typer

from joinlay.cli import printer_words as words
from joinlay.cli.ending import said

__all__ = ["printer", "scale_sheet"]

printer = typer.Typer(help=words.PRINTER, rich_markup_mode=None, add_completion=False, no_args_is_help=True)

_Beside = Annotated[Path | None, typer.Option("--beside", metavar="JOB", help=words.FILE_BESIDE)]
_LookBeside = Annotated[Path | None, typer.Option("--beside", metavar="JOB", help=words.JOB_TOO)]
_Name = Annotated[str, typer.Argument(help=words.NAME)]


@said
def scale_sheet(
    paper: Annotated[str, typer.Option("--paper", help=words.SCALE_SHEET_PAPER)] = "letter",
    out: Annotated[Path, typer.Option("--out", help=words.SCALE_SHEET_OUT)] = Path("scale-sheet.pdf"),
    name: Annotated[str | None, typer.Option("--printer", help=words.SCALE_SHEET_PRINTER)] = None,
    beside: _LookBeside = None,
) -> None:
    """Write the scale sheet."""
    from joinlay.cli.printer_command import write_scale_sheet

    write_scale_sheet(paper, out, name, beside)


@printer.command(help=words.ADD)
@said
def add(
    name: Annotated[str, typer.Argument(help=words.ADD_NAME)],
    across: Annotated[str, typer.Option("--across", help=words.ADD_ACROSS)],
    down: Annotated[str, typer.Option("--down", help=words.ADD_DOWN)],
    paper: Annotated[str, typer.Option("--paper", help=words.ADD_PAPER)] = "letter",
    rising: Annotated[str | None, typer.Option("--rising-diagonal", help=words.ADD_RISING)] = None,
    falling: Annotated[str | None, typer.Option("--falling-diagonal", help=words.ADD_FALLING)] = None,
    border: Annotated[str | None, typer.Option("--border", help=words.ADD_BORDER)] = None,
    measured: Annotated[str | None, typer.Option("--measured", metavar="DAY", help=words.ADD_MEASURED)] = None,
    beside: _Beside = None,
    metric: Annotated[bool, typer.Option("--metric/--inch", help=words.ADD_METRIC)] = True,
) -> None:
    """Keep a printer."""
    from joinlay.cli.printer_command import add_printer

    add_printer(
        name,
        paper,
        across,
        down,
        rising=rising,
        falling=falling,
        border=border,
        measured=measured,
        beside=beside,
        is_metric=metric,
    )


@printer.command("list", help=words.LIST)
@said
def list_all(beside: _LookBeside = None) -> None:
    """List the printers."""
    from joinlay.cli.printer_command import list_printers

    list_printers(beside)


@printer.command(help=words.SHOW)
@said
def show(name: _Name, beside: _LookBeside = None) -> None:
    """Say all of one printer."""
    from joinlay.cli.printer_command import show_printer

    show_printer(name, beside)


@printer.command(help=words.FORGET)
@said
def forget(
    name: _Name,
    paper: Annotated[str | None, typer.Option("--paper", help=words.ONE_PAPER)] = None,
    beside: _Beside = None,
) -> None:
    """Forget a printer."""
    from joinlay.cli.printer_command import forget_printer

    forget_printer(name, paper, beside)
