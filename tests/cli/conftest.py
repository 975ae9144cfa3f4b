"""What the tests of several commands begin with."""

import pytest

from tests.unit.jobs.jobs import GOOD


@pytest.fixture
def job(tmp_path):
    """Writes a job's text to a file and gives back its path."""

    def written(text=GOOD, name="chest.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return written
