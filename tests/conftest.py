"""What all tests share: how hypothesis draws its cases, and where compiled modules are kept.

At the bench a run draws fresh cases and keeps the ones that failed. Where CI is set the cases are the same
every time, so that a failure is somebody's change and never the luck of the draw.
"""

import atexit
import gc
import importlib
import os
import shutil
import sys
import tempfile
from contextlib import suppress
from pathlib import Path
from pkgutil import walk_packages

import pytest
from hypothesis import HealthCheck, settings

import joinlay

settings.register_profile("bench", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, database=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("ci" if os.environ.get("CI") else "bench")

# What several workers look at is drawn once and kept until the run ends (see ``tests.measured.kept``): the first process makes
# the folder, the others are told.
if "JOINLAY_TESTS_KEPT" not in os.environ:
    _drawn = tempfile.mkdtemp(prefix="joinlay-drawn-")
    atexit.register(shutil.rmtree, _drawn, ignore_errors=True)
    os.environ["JOINLAY_TESTS_KEPT"] = _drawn

_asked: list[pytest.Config] = []

# Plans are thousands of small records that live as long as the run: they are looked through less often for what can be thrown
# away.
gc.set_threshold(200_000, 20, 50)


def pytest_configure(config):
    """Keep at hand how the tests were asked for."""
    _asked.append(config)


def pytest_collection():
    """Every second worker of a whole run begins with the last module, so that of two that find nothing compiled each compiles
    half and reads the rest as the other left it.
    """
    worker = getattr(_asked[0], "workerinput", {"workerid": "gw0"})["workerid"]
    if int(worker.removeprefix("gw")) % 2 and _asked[0].args_source is pytest.Config.ArgsSource.TESTPATHS:
        top = Path(__file__).parent
        for path in sorted(top.rglob("test_*.py"), reverse=True):
            parts = path.relative_to(top.parent).with_suffix("").parts
            if parts[1] not in {"benchmarks", "browser"}:
                # What is wrong with a module is told as it is collected.
                with suppress(Exception):
                    importlib.import_module(".".join(parts))


def pytest_collection_finish():
    """What the tests are made of stays until the run ends, and is not looked through for rubbish at all.

    Every module of the product is among it: hypothesis draws some of its figures from the modules that are there, so that cases
    which are to be the same every time hang on which tests went before, unless all are.
    """
    if os.environ.get("CI"):
        for module in walk_packages(joinlay.__path__, "joinlay."):
            if not module.name.endswith("__main__"):
                importlib.import_module(module.name)
    gc.freeze()


def pytest_sessionfinish():
    """At the end all of it goes with the process; pytest's last looks for rubbish would take seconds."""
    gc.freeze()


# Where Python is told to leave no compiled modules beside ours, each of the hundred processes that tests start would compile
# everything anew. Then they are kept in a folder of their own until the run ends, for the workers and what they start.
if sys.dont_write_bytecode and "PYTHONPYCACHEPREFIX" not in os.environ:
    _compiled = tempfile.mkdtemp(prefix="joinlay-compiled-")
    atexit.register(shutil.rmtree, _compiled, ignore_errors=True)
    os.environ["PYTHONPYCACHEPREFIX"] = _compiled
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


@pytest.fixture(autouse=True)
def _no_second_process(monkeypatch):
    """A command that runs within a test isn't split in two: what is replaced or counted for the test is in one process."""
    monkeypatch.setattr("joinlay.documents.second_core.has_second_core", lambda: False)


@pytest.fixture(autouse=True)
def _bytes_of_zero_stay_zero():
    """No test has text read by quicktions that would change Python's own byte of zero (see ``joinlay.lengths.fraction``)."""
    yield
    assert bytes(range(2))[:1][0] == 0
