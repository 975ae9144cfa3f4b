"""The commands on a job and beside it: what each takes. What each does is imported when it is asked for, so that the others
start fast.
"""

# The types of the options are looked at while the program runs, so they are not left to the type checker alone.
from pathlib import Path
from typing import Annotated, Literal

import typer

__all__ = ["app"]

app = typer.Typer(rich_markup_mode=None, add_completion=False)

_Job = Annotated[Path, typer.Argument(help="The job file.")]
_AsJson = Annotated[bool, typer.Option("--json", help="Answer in JSON, for programs.")]


@app.command()
def start(
    file: Annotated[Path, typer.Argument(help="The job file to write, such as seed-chest.toml.")],
    metric: Annotated[bool, typer.Option("--metric/--inch", help="Write it in millimetres or in inches.")] = False,
    piece: Annotated[
        bool,
        typer.Option(
            "--piece/--openings", help="Write a whole piece to be made, case and all, or drawers for openings that are there."
        ),
    ] = False,
    force: Annotated[bool, typer.Option("--force", help="Write over a file that is there already.")] = False,
) -> None:
    """Write a job to fill in, with a word on every line."""
    from joinlay.cli.starter import write_starter

    write_starter(file, is_metric=metric, is_piece=piece, is_forced=force)


@app.command()
def look(
    job: Annotated[Path | None, typer.Argument(help="The job file; without one, you are asked whether to start one.")] = None,
    port: Annotated[
        int, typer.Option("--port", min=0, max=65535, help="The port it answers at; one that is free unless told.")
    ] = 0,
    share: Annotated[bool, typer.Option("--share", help="Show the order of work to a phone at the machine, too.")] = False,
    at: Annotated[
        str, typer.Option("--at", help="This computer's address on the local network, for --share; found unless told.")
    ] = "",
) -> None:
    """See a job drawn in the browser while you write it."""
    from joinlay.cli.look_command import look_at

    look_at(job, port, at, is_shared=share)


@app.command()
def check(
    job: _Job,
    as_json: _AsJson = False,
    assemble: Annotated[
        bool,
        typer.Option(
            "--assemble",
            help="Put it together in the model too, each part along its way, drawers shut and pulled out. Needs "
            "the 'assembly' extra.",
        ),
    ] = False,
    packet: Annotated[
        Path | None,
        typer.Option(
            "--packet", help="Say instead whether the files in this folder go together: all made of the job as it is now."
        ),
    ] = None,
) -> None:
    """Read a job, work it out, and say what was found."""
    from joinlay.cli.check_command import check_job

    raise typer.Exit(check_job(job, as_json=as_json, is_assembled=assemble, packet=packet))


@app.command()
def mend(
    job: _Job,
    number: Annotated[
        int | None,
        typer.Argument(help="The remedy to make, by its number. Without one, all are listed, and asked about in a terminal."),
    ] = None,
    as_json: _AsJson = False,
) -> None:
    """List what can be changed in a job to mend what was found, and make the change you choose."""
    from joinlay.cli.mend_command import mend_job

    raise typer.Exit(mend_job(job, number, as_json=as_json))


@app.command()
def make(
    job: _Job,
    out: Annotated[
        Path | None, typer.Option("--out", help="The folder to write to; templates_out/ and the job's name unless told.")
    ] = None,
    paper: Annotated[
        str | None, typer.Option("--paper", help="The paper to print on, such as letter or a4; what the job says unless told.")
    ] = None,
    only: Annotated[
        str | None,
        typer.Option(
            "--only",
            help="Print the templates of one part once more, such as 'drawer 3 front', 'drawer 3' or 'drawer "
            "side', into again.pdf.",
        ),
    ] = None,
    pages: Annotated[
        str | None,
        typer.Option(
            "--pages",
            help="Print some sheets of the packet once more, by number, such as 4-6,9, into again.pdf; with "
            "--all if it was made so.",
        ),
    ] = None,
    printer: Annotated[
        str | None,
        typer.Option("--printer", help="The printer to correct for, by the name you gave it; what the job says unless told."),
    ] = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Print what is only looked at too: every part, gauges, charts, sections of the joints.")
    ] = False,
    chapter: Annotated[
        list[str] | None,
        typer.Option(
            "--chapter",
            help="Print one chapter by itself, the whole of it, into again.pdf; give it again for one more. "
            "There are piece, parts, "
            "findings, list, sawing, settings, gauges, sticks, templates, sections, assembly.",
        ),
    ] = None,
    count: Annotated[
        bool, typer.Option("--count", help="Only say how many sheets of paper it takes, chapter by chapter; nothing is written.")
    ] = False,
    dxf: Annotated[
        bool,
        typer.Option(
            "--dxf", help="Write each template as DXF too, in millimetres, for those who cut templates from sheet stock."
        ),
    ] = False,
    model: Annotated[
        bool,
        typer.Option(
            "--model", help="Write the piece as a glTF model too, to turn about in any viewer. Needs the 'assembly' extra."
        ),
    ] = False,
    force: Annotated[
        bool,
        typer.Option("--force", help="Write over files in that folder that this job did not make, and take the folder over."),
    ] = False,
) -> None:
    """Work a job out and write its packet to print, its templates and its lists."""
    from joinlay.cli.make_command import Wish, make_job

    raise typer.Exit(
        make_job(
            job,
            Wish(
                out,
                paper,
                only,
                pages,
                printer,
                is_count=count,
                is_dxf=dxf,
                is_model=model,
                is_all=everything,
                chapters=tuple(chapter or ()),
                is_forced=force,
            ),
        )
    )


@app.command()
def settings(
    job: _Job,
    card: Annotated[
        int | None, typer.Option("--card", help="Say all of one card, by its number: parts, stops, test piece and cautions.")
    ] = None,
    part: Annotated[
        str | None,
        typer.Option(
            "--for", help='Only the cards that a part goes through, such as "drawer 3 front", or all parts of "drawer 3".'
        ),
    ] = None,
    as_json: _AsJson = False,
) -> None:
    """Every fence, height and stop of a job, in the order to cut them."""
    from joinlay.cli.settings_command import say_settings

    raise typer.Exit(say_settings(job, card, part, as_json=as_json))


@app.command("list")
def list_parts(
    job: _Job,
    sheets: Annotated[
        bool, typer.Option("--sheets", help="Say how to saw it out: every sheet, its cuts in order, and the offcuts to keep.")
    ] = False,
    buy: Annotated[
        bool, typer.Option("--buy", help="Say what to buy and have ready, with costs where the job gives prices.")
    ] = False,
    as_json: _AsJson = False,
) -> None:
    """The cutting list of a job; how to saw it out, and what to buy."""
    from joinlay.cli.list_command import say_lists

    raise typer.Exit(say_lists(job, sheets=sheets, buy=buy, as_json=as_json))


@app.command()
def assemble(
    job: _Job,
    step: Annotated[
        int | None, typer.Option("--step", help="Say all of one step, by its number: each part, surface and way.")
    ] = None,
    as_json: _AsJson = False,
) -> None:
    """How a job goes together, step by step, where the glue goes, and what the diagonals must read."""
    from joinlay.cli.assemble_command import say_order

    raise typer.Exit(say_order(job, step, as_json=as_json))


@app.command()
def compare(
    old: Annotated[Path, typer.Argument(help="The job as it was when you began to cut.")],
    new: Annotated[Path, typer.Argument(help="The job as it is now.")],
    as_json: _AsJson = False,
) -> None:
    """Say what differs between two versions of a job, for when you have begun to cut."""
    from joinlay.cli.compare_command import say_changes

    raise typer.Exit(say_changes(old, new, as_json=as_json))


@app.command()
def why(
    job: _Job,
    name: Annotated[
        list[str] | None,
        typer.Argument(help="The number, such as 'drawer 3 front width'. Without one, all the names are listed."),
    ] = None,
) -> None:
    """Show how a number was worked out, down to what you wrote."""
    from joinlay.cli.why_command import explain

    explain(job, " ".join(name or []))


@app.command(name="help-on")
def help_on_kind(
    kind: Annotated[list[str] | None, typer.Argument(help="The kind of finding. Without one, all the pages are listed.")] = None,
) -> None:
    """Say more about one kind of finding, such as racking: what it means, and what helps."""
    from joinlay.checks.help_on import PAGES, help_on
    from joinlay.cli.terminal import say

    say(help_on(" ".join(kind)).text if kind else "\n".join(PAGES))


@app.command()
def keys(
    table: Annotated[
        str, typer.Argument(help="One table, such as drawers or shop.router-table. Without one, every key of a job is listed.")
    ] = "",
) -> None:
    """Say what may be written in a job: every key, what it means, what is usual, and its rule."""
    from joinlay.cli.keys_command import say_keys

    say_keys(table)


@app.command()
def schema(
    what: Annotated[Literal["job", "plan"], typer.Argument(help="What it is the schema of: a job file, or plan.json.")],
) -> None:
    """Print a JSON Schema (draft 2020-12), for editors that complete a job and for programs that read a plan."""
    from joinlay.cli.terminal import say_as_is
    from joinlay.documents.json_text import json_text

    if what == "job":
        from joinlay.jobs.schema import job_schema as schema_of
    else:
        from joinlay.documents.plan_json import plan_schema as schema_of
    say_as_is(json_text(schema_of()).rstrip())
