"""``joinlay printer`` and ``joinlay scale-sheet``: what each takes."""

# The types of the options are looked at while the program runs, so they are not left to the type checker alone.
from pathlib import Path
from typing import Annotated

import typer

__all__ = ["app"]

#: The two commands that are given.
app = typer.Typer(rich_markup_mode=None, add_completion=False)

printer = typer.Typer(
    help="The printers you have measured: add, list, show, forget.",
    rich_markup_mode=None,
    add_completion=False,
    no_args_is_help=True,
)

_Beside = Annotated[
    Path | None,
    typer.Option("--beside", metavar="JOB", help="Keep it beside this job, for this job only, and not in your own settings."),
]
_LookBeside = Annotated[Path | None, typer.Option("--beside", metavar="JOB", help="Look beside this job first.")]
_Name = Annotated[str, typer.Argument(help="The printer's name.")]


@app.command()
def scale_sheet(
    paper: Annotated[
        str, typer.Option("--paper", help="The paper, such as letter, a4, '610 x 914 mm' or '24 in roll'; letter unless told.")
    ] = "letter",
    out: Annotated[Path, typer.Option("--out", help="The PDF to write; scale-sheet.pdf unless told.")] = Path("scale-sheet.pdf"),
    name: Annotated[
        str | None, typer.Option("--printer", help="Correct it for a printer that was measured, to prove the correction.")
    ] = None,
    beside: Annotated[
        Path | None, typer.Option("--beside", metavar="JOB", help="Look beside this job first, and say whose it is.")
    ] = None,
) -> None:
    """Print a sheet to measure, so that joinlay learns how true your printer is."""
    from joinlay.cli.printer_command import write_scale_sheet

    write_scale_sheet(paper, out, name, beside)


@printer.command()
def add(
    name: Annotated[str, typer.Argument(help="A name of your own, such as 'shop laser'.")],
    across: Annotated[
        str, typer.Option("--across", help="The bar across the sheet, as measured, such as 199.2mm or '7 31/32 in'.")
    ],
    down: Annotated[str, typer.Option("--down", help="The bar down the sheet, as measured.")],
    paper: Annotated[str, typer.Option("--paper", help="The paper of the scale sheet; letter unless told.")] = "letter",
    rising: Annotated[
        str | None,
        typer.Option("--rising-diagonal", help="The diagonal from the lower left corner, as measured; both or neither."),
    ] = None,
    falling: Annotated[
        str | None, typer.Option("--falling-diagonal", help="The diagonal from the upper left corner, as measured.")
    ] = None,
    border: Annotated[
        str | None, typer.Option("--border", help="What the printer leaves blank all round; 6 mm (1/4 in) unless told.")
    ] = None,
    measured: Annotated[
        str | None, typer.Option("--measured", metavar="DAY", help="The day you measured, such as 2026-11-20; today unless told.")
    ] = None,
    beside: _Beside = None,
    metric: Annotated[
        bool, typer.Option("--metric/--inch", help="A number without a unit is in millimetres or in inches.")
    ] = True,
) -> None:
    """Keep what you measured on the scale sheet."""
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


@printer.command("list")
def list_all(beside: _LookBeside = None) -> None:
    """List the printers you have measured."""
    from joinlay.cli.printer_command import list_printers

    list_printers(beside)


@printer.command()
def show(name: _Name, beside: _LookBeside = None) -> None:
    """Say all there is to know of one printer."""
    from joinlay.cli.printer_command import show_printer

    show_printer(name, beside)


@printer.command()
def forget(
    name: _Name,
    paper: Annotated[str | None, typer.Option("--paper", help="Only with this paper.")] = None,
    beside: _Beside = None,
) -> None:
    """Forget a printer, or one paper of it."""
    from joinlay.cli.printer_command import forget_printer

    forget_printer(name, paper, beside)


app.add_typer(printer, name="printer")
