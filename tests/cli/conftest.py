"""What the tests of several commands begin with."""

import pytest

from joinlay.cli import make_command
from tests.making import made_once
from tests.unit.jobs.jobs import GOOD


@pytest.fixture(autouse=True)
def _made_once():
    """What is made of one plan is made once in a run of the tests, whichever of them asks for it."""
    with made_once(make_command):
        yield


@pytest.fixture
def job(tmp_path):
    """Writes a job's text to a file and gives back its path."""

    def written(text=GOOD, name="chest.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return written
