"""What the tests of several commands begin with."""

import pytest

from joinlay.cli import make_command
from joinlay.documents import packet
from joinlay.documents.job_files import STEPS, job_files
from tests.measured.kept import once
from tests.unit.jobs.jobs import GOOD

_drawn = once(packet.packet_for)


def _packet(*given, ahead=None, **more):
    """Whatever of it was begun ``ahead`` is the same."""
    return _drawn(*given, **more)


def _untold(_):
    """Nobody is told."""


@once
def _files(plan, printer, wanted, **more):
    return job_files(plan, printer, wanted, _untold, **more)


def _files_told(plan, printer, wanted, step, ahead=None, **more):
    """What ``job_files`` gives, made once, whatever of it was begun ``ahead``; each step is told as ever."""
    for word in STEPS:
        step(word)
    return _files(plan, printer, wanted, **more)


@pytest.fixture(autouse=True)
def drawn_once(monkeypatch):
    """The packet of one plan, and its files, are the same whichever test has them made, and made once in a run of the tests.

    What is written, said and refused is each command's own. ``drawn_anew`` is for where the making is what a test is about.
    """
    with monkeypatch.context() as kept:
        kept.setattr(packet, "packet_for", _packet)
        kept.setattr(make_command, "job_files", _files_told)
        yield kept


@pytest.fixture
def drawn_anew(drawn_once):
    """Each command makes everything anew."""
    drawn_once.undo()


@pytest.fixture
def job(tmp_path):
    """Writes a job's text to a file and gives back its path."""

    def written(text=GOOD, name="chest.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return written
