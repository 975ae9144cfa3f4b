"""How long planning takes for a drawer, how it grows with their number, and how much memory it wants."""

import subprocess
import sys
from time import perf_counter

import pytest

from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from tests.benchmarks.jobs import job_of

#: Ten times the drawers may take this many times as long.
MOST_GROWTH = 12

#: A forty-drawer job plans in under this many seconds.
MOST_SECONDS = 1.0

#: Peak memory of the whole program at forty drawers, in MB.
MOST_MEMORY = 200


def quickest(run, rounds=7):
    """The shortest of several runs, in seconds: what the work takes when nothing else is in the way."""

    def once():
        start = perf_counter()
        run()
        return perf_counter() - start

    return min(once() for _ in range(rounds))


@pytest.mark.parametrize("drawers", [4, 40])
def test_planning(benchmark, drawers):
    job = read_job(job_of(drawers), "timed.toml")
    planned = benchmark(plan, job)
    benchmark.extra_info["ms a drawer"] = round(benchmark.stats["median"] * 1000 / drawers, 3)
    assert len(planned.drawers) == drawers
    assert benchmark.stats["min"] < MOST_SECONDS


@pytest.mark.parametrize("drawers", [4, 40])
def test_reading_a_job(benchmark, drawers):
    text = job_of(drawers)
    job = benchmark(read_job, text, "timed.toml")
    assert len(job.drawers) == drawers
    assert benchmark.stats["min"] < MOST_SECONDS


def test_planning_grows_in_line_with_the_drawers():
    few, many = (read_job(job_of(drawers), "timed.toml") for drawers in (4, 40))
    assert quickest(lambda: plan(many)) <= MOST_GROWTH * quickest(lambda: plan(few))


def test_reading_grows_in_line_with_the_drawers():
    few, many = job_of(4), job_of(40)
    assert quickest(lambda: read_job(many, "a.toml")) <= MOST_GROWTH * quickest(lambda: read_job(few, "a.toml"))


def test_memory_at_forty_drawers(tmp_path):
    (tmp_path / "timed.toml").write_text(job_of(40), encoding="utf-8")
    run = """
import resource, sys
from joinlay.cli import main
sys.argv = ["joinlay", "make", "timed.toml", "--out", "out"]
try:
    main()
except SystemExit as done:
    assert not done.code, done.code
print("peak", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""
    done = subprocess.run([sys.executable, "-c", run], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert int(done.stdout.rsplit("peak", 1)[1]) / 1024 < MOST_MEMORY
