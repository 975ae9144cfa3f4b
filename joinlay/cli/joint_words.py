"""``joinlay joint``: the words each joint takes, as one table, read without any library so that the answer comes at once."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final, NoReturn

from joinlay.cli import words
from joinlay.cli.terminal import complain, say
from joinlay.errors import BadInput, JoinlayError, nearest_names

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from joinlay.cli.bench import Answer, Bench

__all__ = ["run_joint"]


@dataclass(frozen=True, slots=True)
class _Option:
    """One option: its word, its line of help, whether it must be given, and what stands for its value (None: a switch)."""

    word: str
    says: str
    is_needed: bool = False
    value: str | None = "LENGTH"
    may_repeat: bool = False


_INTO: Final = _Option("--into", words.INTO, is_needed=True)
_PANEL: Final = _Option("--panel", words.PANEL, is_needed=True)
_CUTTER: Final = _Option("--cutter", words.CUTTER)
_DEPTH: Final = _Option("--depth", words.DEPTH)

#: What every joint takes.
_EVERY: Final = (
    _Option("--metric", words.JOINT_METRIC, value=None),
    _Option("--inch", words.JOINT_INCH, value=None),
    _Option("--json", words.AS_JSON, value=None),
    _Option("--template", words.JOINT_TEMPLATE, value="FILE"),
    _Option("--paper", words.JOINT_PAPER, value="SIZE"),
)


@dataclass(frozen=True, slots=True)
class _Joint:
    """One joint: its line of help, its options, and what answers for it."""

    says: str
    options: tuple[_Option, ...]
    answer: Callable[[Bench, argparse.Namespace], Answer]


def _loose_tenon(bench: Bench, given: argparse.Namespace) -> Answer:
    from joinlay.cli.tenon_answer import answer_loose_tenon

    return answer_loose_tenon(
        bench, given.end, given.face, given.length, given.tenon, given.keep_out or (), given.use or "drawer", is_solid=given.solid
    )


def _locking_rabbet(bench: Bench, given: argparse.Namespace) -> Answer:
    from joinlay.cli.locking_answer import answer_locking_rabbet

    return answer_locking_rabbet(
        bench,
        given.side,
        given.end,
        given.cutter,
        given.dado_depth,
        given.tip_gap,
        given.tongue,
        is_half_blind=given.half_blind,
    )


def _dado(bench: Bench, given: argparse.Namespace) -> Answer:
    from joinlay.cli.channel_answers import answer_dado

    return answer_dado(bench, given.into, given.panel, given.cutter, given.depth, given.offset, is_stopped=given.stopped)


def _rabbet(bench: Bench, given: argparse.Namespace) -> Answer:
    from joinlay.cli.channel_answers import answer_rabbet

    return answer_rabbet(bench, given.into, given.panel, given.width, given.depth)


def _groove(bench: Bench, given: argparse.Namespace) -> Answer:
    from joinlay.cli.channel_answers import answer_groove

    return answer_groove(bench, given.into, given.panel, given.cutter, given.offset, given.depth)


_JOINTS: Final = {
    "loose-tenon": _Joint(
        words.LOOSE_TENON,
        (
            _Option("--end", words.LT_END, is_needed=True),
            _Option("--face", words.LT_FACE, is_needed=True),
            _Option("--length", words.LT_LENGTH, is_needed=True),
            _Option("--tenon", words.LT_TENON),
            _Option("--keep-out", words.LT_KEEP_OUT, value="FROM:TO", may_repeat=True),
            _Option("--in", words.LT_IN, value="USE"),
            _Option("--solid", words.LT_SOLID, value=None),
        ),
        _loose_tenon,
    ),
    "locking-rabbet": _Joint(
        words.LOCKING_RABBET,
        (
            _Option("--side", words.LR_SIDE, is_needed=True),
            _Option("--end", words.LR_END, is_needed=True),
            _Option("--cutter", words.LR_CUTTER, is_needed=True),
            _Option("--half-blind", words.LR_HALF_BLIND, value=None),
            _Option("--dado-depth", words.LR_DADO_DEPTH),
            _Option("--tip-gap", words.LR_TIP_GAP),
            _Option("--tongue", words.LR_TONGUE),
        ),
        _locking_rabbet,
    ),
    "dado": _Joint(
        words.DADO,
        (
            _INTO,
            _PANEL,
            _CUTTER,
            _DEPTH,
            _Option("--offset", words.DADO_OFFSET),
            _Option("--stopped", words.STOPPED, value=None),
        ),
        _dado,
    ),
    "rabbet": _Joint(words.RABBET, (_INTO, _PANEL, _Option("--width", words.RABBET_WIDTH), _DEPTH), _rabbet),
    "groove": _Joint(words.GROOVE, (_INTO, _PANEL, _CUTTER, _Option("--offset", words.OFFSET), _DEPTH), _groove),
}


def run_joint(given: Sequence[str]) -> int:
    """Answer for the joint and lengths in ``given``, the words after ``joinlay joint``; 0, 1 where it is refused, 2 where it can't be read."""
    if not given or given[0] in ("-h", "--help"):
        say(_page())
        return 0
    try:
        return _answer(given[0], given[1:])
    except JoinlayError as bad:
        complain(str(bad))
        return 2


def _page() -> str:
    """The help of ``joinlay joint`` itself."""
    rows = "\n".join(f"  {name:<16}{joint.says}" for name, joint in _JOINTS.items())
    return f"{words.JOINT_USAGE}\n\n{words.JOINT}\n\n{rows}\n\n{words.more_at('joinlay joint NAME --help')}"


def _answer(name: str, rest: Sequence[str]) -> int:
    from joinlay.cli.bench import Bench

    if name not in _JOINTS:
        near = nearest_names(name, tuple(_JOINTS), 1)
        raise BadInput(
            f"there is no joint called {name!r}; " + (f"the nearest is {near[0]}." if near else f"they are {', '.join(_JOINTS)}.")
        )
    joint = _JOINTS[name]
    parser = _parser(name, joint)
    parser.unknown(rest)
    said = parser.parse_args(rest)
    if said.metric and said.inch:
        raise BadInput("--metric and --inch were both given; choose one.")
    bench = Bench(is_metric=said.metric)
    template = None if said.template is None else Path(said.template)
    return bench.tell(lambda: joint.answer(bench, said), as_json=said.json, template=template, paper=said.paper)


def _parser(name: str, joint: _Joint) -> _Parser:
    parser = _Parser(prog=f"joinlay joint {name}", description=joint.says, allow_abbrev=False)
    for option in (*joint.options, *_EVERY):
        # "in" is a word of Python's own, so its value goes by another name.
        kept = "use" if option.word == "--in" else option.word[2:].replace("-", "_")
        if option.value is None:
            parser.add_argument(option.word, dest=kept, action="store_true", help=option.says)
        else:
            parser.add_argument(
                option.word,
                dest=kept,
                action="append" if option.may_repeat else "store",
                required=option.is_needed,
                metavar=option.value,
                help=option.says.replace("%", "%%"),
            )
    return parser


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in a sentence, with the nearest option where one is unknown, and where to read more."""

    def unknown(self, given: Sequence[str]) -> None:
        """Complain of the first option that is none of this joint's."""
        for word in given:
            option = word.split("=")[0]
            if option.startswith("--") and option not in self._option_string_actions:
                near = nearest_names(option, tuple(self._option_string_actions), 1)
                raise BadInput(f"{words.unknown_option(option, near)} {self._more()}")

    def error(self, message: str) -> NoReturn:
        """Complain of words that can't be used."""
        kind, _, rest = message.partition(": ")
        if kind == "unrecognized arguments":
            said = words.unknown_option(rest.split()[0], ())
        elif kind == "the following arguments are required":
            said = words.missing_options(rest.split(", "))
        elif rest.startswith("ignored explicit argument"):
            said = words.takes_no_value(kind.removeprefix("argument "))
        else:
            said = words.needs_value(kind.removeprefix("argument "))
        raise BadInput(f"{said} {self._more()}")

    def _more(self) -> str:
        return words.more_at(f"{self.prog} --help")
