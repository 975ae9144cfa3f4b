"""``joinlay joint``: what each joint takes. What answers for one is imported when it is asked for, so that an answer at the
bench comes at once.
"""

# The types of the options are looked at while the program runs, so they are not left to the type checker alone.
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final, NoReturn

import typer
from typer.core import TyperCommand, TyperGroup

from joinlay.errors import BadInput, nearest_names, quoted

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from typer._click import Command, Context, Parameter

    from joinlay.cli.joint_bench import Answer, Bench

__all__ = ["app"]


class _Joints(TyperGroup):
    """The joints; says which is nearest where one is not known."""

    def get_command(self, ctx: "Context", cmd_name: str) -> "Command":
        found = super().get_command(ctx, cmd_name)
        if found is None:
            near = nearest_names(cmd_name, tuple(self.commands), 1)
            known = f"the nearest is {near[0]}." if near else f"they are {', '.join(self.commands)}."
            raise BadInput(f"there is no joint called {quoted(cmd_name)}; {known}")
        return found

    def collect_usage_pieces(self, ctx: "Context") -> list[str]:
        del ctx
        return ["NAME --OPTION LENGTH ..."]


class _OneJoint(TyperCommand):
    """One joint. What is wrong with its words is said in a sentence, with the nearest option where one is not known, and where
    to read more.
    """

    def get_short_help_str(self, limit: int = 0) -> str:
        # Its one line is short enough to stand whole in the list of joints.
        del limit
        return self.help or ""

    def parse_args(self, ctx: "Context", args: list[str]) -> list[str]:
        options = {word: option for option in self.get_params(ctx) for word in option.opts}
        typed = tuple(args)
        try:
            _refuse_options_for_values(options, typed)
            left = super().parse_args(ctx, args)
        except typer.TyperException as bad:
            wrong = _sentence(bad, options, typed)
        except BadInput as bad:
            wrong = str(bad)
        else:
            if not left:
                return left
            wrong = f"there is no word {quoted(left[0])} here."
        raise BadInput(f"{wrong} More: {ctx.command_path} --help")


def _refuse_options_for_values(options: "Mapping[str, Parameter]", typed: "Sequence[str]") -> None:
    """Refuse ``--into --panel``, which would be read as a length of ``--panel``."""
    for option, behind in pairwise(typed):
        if option in options and not _is_switch(options[option]) and behind.startswith("--"):
            raise BadInput(f"{option} needs a value behind it.")


def _sentence(bad: typer.TyperException, options: "Mapping[str, Parameter]", typed: "Sequence[str]") -> str:
    """What is wrong, in one sentence: an option that isn't there, one without its value, a switch with one, or all that are
    missing.
    """
    option = str(getattr(bad, "option_name", ""))
    if option in options:
        return f"{option} takes no value." if _is_switch(options[option]) else f"{option} needs a value behind it."
    if option:
        near = nearest_names(option, tuple(options), 1)
        return f"there is no option {quoted(option)} here" + (f"; the nearest is {near[0]}." if near else ".")
    given = {word.partition("=")[0] for word in typed}
    missing = [word for word, one in options.items() if one.required and word not in given]
    if missing:
        return f"{' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing."
    return f"{bad.format_message().rstrip('.')}."


def _is_switch(option: "Parameter") -> bool:
    return bool(getattr(option, "is_flag", False))


#: The command that is given; the joints stand under it.
app = typer.Typer(rich_markup_mode=None, add_completion=False)

joint = typer.Typer(
    cls=_Joints,
    rich_markup_mode=None,
    add_completion=False,
    invoke_without_command=True,
    epilog="More: joinlay joint NAME --help",
    context_settings={"help_option_names": ["-h", "--help"]},
)

#: A word too many is complained of like any other word that can't be used.
_EXTRA: Final = {"allow_extra_args": True}


@joint.callback()
def _joints(ctx: typer.Context) -> None:
    """Work out one joint from a few numbers."""
    if ctx.invoked_subcommand is None:
        typer.echo(ctx.get_help())


# -- what several joints take ------------------------------------------------------------------------

_Into = Annotated[str, typer.Option("--into", metavar="LENGTH", help="Thickness of the wood it is cut in.")]
_Panel = Annotated[str, typer.Option("--panel", metavar="LENGTH", help="Thickness of what goes into it, as measured.")]
_Cutter = Annotated[
    str | None,
    typer.Option(
        "--cutter", metavar="LENGTH", help="Diameter of the cutter; the widest of the usual shop that fits unless told."
    ),
]
_Depth = Annotated[str | None, typer.Option("--depth", metavar="LENGTH", help="Depth of the cut; by the rules unless told.")]

_Metric = Annotated[
    bool, typer.Option("--metric", help="A number without a unit is in millimetres, and the usual shop is a metric one.")
]
_Inch = Annotated[
    bool,
    typer.Option(
        "--inch", help="A number without a unit is in inches, and the usual shop is one in inches; so it is unless told."
    ),
]
_AsJson = Annotated[bool, typer.Option("--json", help="Answer in JSON, for programs.")]
_Template = Annotated[Path | None, typer.Option("--template", metavar="FILE", help="Print this joint's template to a PDF file.")]
_Paper = Annotated[
    str | None,
    typer.Option("--paper", metavar="SIZE", help="The paper for --template; letter or, with --metric, a4 unless told."),
]


def _tell(
    answer: "Callable[[Bench], Answer]", metric: bool, inch: bool, as_json: bool, template: Path | None, paper: str | None
) -> NoReturn:
    """Say what ``answer`` gives at a bench in millimetres or inches, and end with 0, or 1 where the joint is refused."""
    from joinlay.cli.joint_bench import Bench

    if metric and inch:
        raise BadInput("--metric and --inch were both given; choose one.")
    bench = Bench(is_metric=metric)
    raise typer.Exit(bench.tell(lambda: answer(bench), as_json=as_json, template=template, paper=paper))


# -- the joints --------------------------------------------------------------------------------------


@joint.command("loose-tenon", cls=_OneJoint, context_settings=_EXTRA)
def loose_tenon(
    end: Annotated[str, typer.Option("--end", metavar="LENGTH", help="Thickness of the part mortised in its end.")],
    face: Annotated[str, typer.Option("--face", metavar="LENGTH", help="Thickness of the part mortised in its face.")],
    length: Annotated[str, typer.Option("--length", metavar="LENGTH", help="Length of the joint line.")],
    tenon: Annotated[
        str | None,
        typer.Option(
            "--tenon",
            metavar="LENGTH",
            help="Thickness of the tenon stock to use; the rules choose from the usual shop unless told.",
        ),
    ] = None,
    keep_out: Annotated[
        list[str] | None,
        typer.Option(
            "--keep-out",
            metavar="FROM:TO",
            help="Where another cut lies on the joint line, FROM:TO from its datum end, as that cut measures; "
            "the clearance it needs "
            "(LT-11) is added. May be given more than once.",
        ),
    ] = None,
    use: Annotated[
        str, typer.Option("--in", metavar="USE", help="What the joint is in: drawer (unless told), case or frame.")
    ] = "drawer",
    solid: Annotated[bool, typer.Option("--solid", help="The parts are solid wood, which needs more wood at the ends.")] = False,
    metric: _Metric = False,
    inch: _Inch = False,
    as_json: _AsJson = False,
    template: _Template = None,
    paper: _Paper = None,
) -> None:
    """Loose tenons: how thick, wide and long, how many, and where."""
    from joinlay.cli.corner_answers import answer_loose_tenon

    _tell(
        lambda bench: answer_loose_tenon(bench, end, face, length, tenon, keep_out or (), use, is_solid=solid),
        metric,
        inch,
        as_json,
        template,
        paper,
    )


@joint.command("locking-rabbet", cls=_OneJoint, context_settings=_EXTRA)
def locking_rabbet(
    side: Annotated[str, typer.Option("--side", metavar="LENGTH", help="Thickness of the side.")],
    end: Annotated[str, typer.Option("--end", metavar="LENGTH", help="Thickness of the front or back.")],
    cutter: Annotated[str, typer.Option("--cutter", metavar="LENGTH", help="Diameter of the cutter.")],
    half_blind: Annotated[bool, typer.Option("--half-blind", help="The front laps the end of the side and hides it.")] = False,
    dado_depth: Annotated[
        str | None,
        typer.Option("--dado-depth", metavar="LENGTH", help="Depth of the dado in the side; by the rules unless told."),
    ] = None,
    tip_gap: Annotated[
        str | None,
        typer.Option("--tip-gap", metavar="LENGTH", help="Space past the tip of the tongue; by the rules unless told."),
    ] = None,
    tongue: Annotated[
        str | None,
        typer.Option("--tongue", metavar="LENGTH", help="With --half-blind: width of the side's dado; the cutter's unless told."),
    ] = None,
    metric: _Metric = False,
    inch: _Inch = False,
    as_json: _AsJson = False,
    template: _Template = None,
    paper: _Paper = None,
) -> None:
    """A locking rabbet: the dado in the side, the tongue on the end part, and what to add to its length."""
    from joinlay.cli.corner_answers import answer_locking_rabbet

    _tell(
        lambda bench: answer_locking_rabbet(bench, side, end, cutter, dado_depth, tip_gap, tongue, is_half_blind=half_blind),
        metric,
        inch,
        as_json,
        template,
        paper,
    )


@joint.command("dado", cls=_OneJoint, context_settings=_EXTRA)
def dado(
    into: _Into,
    panel: _Panel,
    cutter: _Cutter = None,
    depth: _Depth = None,
    offset: Annotated[
        str | None,
        typer.Option(
            "--offset",
            metavar="LENGTH",
            help="End of the board to the dado, for its template; 2 in, or 50 mm with --metric, unless told.",
        ),
    ] = None,
    stopped: Annotated[bool, typer.Option("--stopped", help="Stop short of the edge that shows.")] = False,
    metric: _Metric = False,
    inch: _Inch = False,
    as_json: _AsJson = False,
    template: _Template = None,
    paper: _Paper = None,
) -> None:
    """A dado: a channel across the grain that takes the thickness of another part."""
    from joinlay.cli.channel_answers import answer_dado

    _tell(
        lambda bench: answer_dado(bench, into, panel, cutter, depth, offset, is_stopped=stopped),
        metric,
        inch,
        as_json,
        template,
        paper,
    )


@joint.command("rabbet", cls=_OneJoint, context_settings=_EXTRA)
def rabbet(
    into: _Into,
    panel: _Panel,
    width: Annotated[
        str | None, typer.Option("--width", metavar="LENGTH", help="Width of the rabbet; by the rules unless told.")
    ] = None,
    depth: _Depth = None,
    metric: _Metric = False,
    inch: _Inch = False,
    as_json: _AsJson = False,
    template: _Template = None,
    paper: _Paper = None,
) -> None:
    """A rabbet: a step along an edge that takes a panel."""
    from joinlay.cli.channel_answers import answer_rabbet

    _tell(lambda bench: answer_rabbet(bench, into, panel, width, depth), metric, inch, as_json, template, paper)


@joint.command("groove", cls=_OneJoint, context_settings=_EXTRA)
def groove(
    into: _Into,
    panel: _Panel,
    cutter: _Cutter = None,
    offset: Annotated[
        str | None, typer.Option("--offset", metavar="LENGTH", help="Bottom edge to the groove; by the rules unless told.")
    ] = None,
    depth: _Depth = None,
    metric: _Metric = False,
    inch: _Inch = False,
    as_json: _AsJson = False,
    template: _Template = None,
    paper: _Paper = None,
) -> None:
    """A groove for a drawer's bottom."""
    from joinlay.cli.channel_answers import answer_groove

    _tell(lambda bench: answer_groove(bench, into, panel, cutter, offset, depth), metric, inch, as_json, template, paper)


app.add_typer(joint, name="joint")
