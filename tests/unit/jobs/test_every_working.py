"""The working of every number of every kind of piece: it leads somewhere, reads as a maker would say it, and names its rule."""

import re
from functools import cache
from pathlib import Path

import pytest

from joinlay.documents.job_file import job_in
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.jobs.working import numbers_of
from tests.odd_pieces import SOUND, sound_piece

ROOT = Path(__file__).parents[3]
JOBS = {path.stem: path for path in sorted((*ROOT.glob("examples/*.toml"), *ROOT.glob("tests/openings/*.toml")))}

#: What nobody says: nothing taken or added, a thing times one, minus a minus, a fraction too fine to read.
UNREADABLE = re.compile(
    r"""
      (?<![\d/.,])[01]\ x\          # 0 x, 1 x
    | \ /\ 1(?![\d/.,]|\ \d)       # over 1
    | \ [-+]\ 0(?![\d/.])           # + 0, without a name
    | ^0\ [-+]
    | [-+x/]\ \(?-                  # minus a minus, plus a minus, times a minus
    | -\d+(?:/\d+)?\ x\            # less than no times
    | \d{3}/\d | \d/\d{3}          # a fraction no rule has
    """,
    re.VERBOSE,
)


@cache
def planned(name):
    """The plan of an example, of a job of openings, or of a sound piece of some kind."""
    made = plan(job_in(JOBS[name]) if name in JOBS else read_job(sound_piece(SOUND[name]), "piece.toml"))
    assert not made.is_refused, [one.what for one in made.findings if one.harm is Harm.REFUSE]
    return made


def everything_below(sizes):
    """These numbers and all that their workings read, each once."""
    seen, waiting = {}, list(sizes)
    while waiting:
        size = waiting.pop()
        if (size.name, size.mm) not in seen:
            seen[size.name, size.mm] = size
            waiting += size.inputs
    return seen.values()


def told_of(size):
    """The names that a working reads."""
    return {one.name for one in size.inputs}


@pytest.mark.parametrize("name", [*JOBS, *SOUND])
def test_every_number_leads_somewhere_and_reads_well(name):
    made = planned(name)

    def figures(length):
        read = made.rule.read(length)
        return read.exactly if read.left_over else read.figures

    numbers = everything_below(numbers_of(made).values())
    assert len(numbers) > 40
    for size in numbers:
        assert size.operation or size.origin, f"{size.name} says neither how it was worked out nor where it was written"
        if size.operation:
            assert size.rule or size.source, f"{size.name} names no rule and does not say it is by geometry"
            spelled = size.expression(figures)
            assert not UNREADABLE.search(spelled), f"{size.name} = {spelled}"
            # What moves is said of wood that does: a hole in a sheet has none of it.
            assert "CK-6" not in size.rule or size.name == "wood movement" or "wood movement" in told_of(size), size.name
            assert size.name not in {one.name for one in size.inputs}, f"{size.name} is told by itself: {spelled}"
