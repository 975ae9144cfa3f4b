"""Whole commands on a whole job: `check` beside a command that does nothing, `make` beside a bare canvas, and many drawers.

Figures on a quiet machine of two cores stand in each test's extra info; what is asserted is a ratio by pairs: of processor times,
or for `make`, which uses two cores, of how long somebody waits.
"""

import gc
from statistics import median
from time import process_time

import pytest

from joinlay.documents.pdf import FONT_FILES
from joinlay.documents.wanted_sheets import EVERYTHING, LEAN
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Text, pieces_of
from tests.benchmarks.jobs import LARGEST, job_of
from tests.benchmarks.processes import JOINLAY, NOTHING, at_home, cost, pairs, times
from tests.house.source import ROOT
from tests.measured.packets import packet

CHEST = ROOT / "examples" / "print-chest.toml"

#: `check` may take so many times as long as a command that does nothing, `make` as a bare canvas with as much on it.
MOST_CHECK, MOST_MAKE = 2, 5

#: A hundred different drawers may take so many times as long as ten, and so much memory, in MB.
MOST_GROWTH, MOST_MEMORY = 12, 150

#: The largest jobs that are taken may be planned, and made with everything in them, in so many seconds of a processor.
MOST_SECONDS, MOST_MAKING = 2, 60

#: As many lines, one by one, and runs of words on as many pages of a canvas as a packet has, and nothing else.
BARE = """
import sys
from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

out, font, lines, runs, pages = sys.argv[1], sys.argv[2], *map(int, sys.argv[3:])
registerFont(TTFont("plain", font))
canvas = Canvas(out, pageCompression=0, invariant=1)
for page in range(pages):
    canvas.setFont("plain", 10)
    for n in range(page, lines, pages):
        canvas.line(72 + n / 70, 72 + n / 30, 90 + n / 70, 300 - n / 80)
    for n in range(page, runs, pages):
        canvas.drawString(72 + n / 70, 72 + n / 30, f"drawer {n}")
    canvas.showPage()
canvas.save()
"""

PLANNING = """
import sys
from pathlib import Path
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job

assert len(plan(read_job(Path(sys.argv[1]).read_text(), "timed.toml")).drawers) == int(sys.argv[2])
"""


@pytest.fixture(scope="module")
def env(tmp_path_factory):
    return at_home(tmp_path_factory.mktemp("compiled"))


def on_paper(wanted):
    """How many lines, runs of words and pages the print chest's packet has."""
    lines = runs = 0
    sheets = packet("print-chest", wanted=wanted).sheets
    for sheet in sheets:
        for stroke in sheet.strokes:
            if isinstance(stroke, Text):
                runs += len(list(pieces_of(stroke)))
            elif isinstance(stroke, Polyline | Fill):
                lines += len(stroke.points)
            else:
                assert isinstance(stroke, Line | Arc)
                lines += 1
    return lines, runs, len(sheets)


def test_check_beside_a_command_that_does_nothing(benchmark, env):
    ratio = times(env, (JOINLAY, "check", CHEST), (NOTHING,), rounds=11)
    benchmark.extra_info["times an empty command"] = round(ratio, 2)
    benchmark.pedantic(cost, args=(env, JOINLAY, "check", CHEST), rounds=3)
    assert ratio <= MOST_CHECK


def test_make_beside_a_bare_canvas(benchmark, env, tmp_path):
    """All files, as somebody waits for them on two cores: with everything, and with the packet as it is printed unless asked."""
    font = ROOT / "joinlay" / "documents" / "fonts" / FONT_FILES[0]
    ratios, seconds = {}, {}
    for wanted, said in ((LEAN, ""), (EVERYTHING, " (--all)")):
        drawn = on_paper(wanted)
        make = (JOINLAY, "make", CHEST, *(["--all"] if wanted.is_all else []), "--out", tmp_path / "out")
        both = pairs(env, make, (BARE, tmp_path / "bare.pdf", font, *drawn))
        ratios[wanted] = median(one.wait / two.wait for one, two in both)
        seconds[wanted] = median(one.wait for one, _ in both)
        by_processor = median(one.processor / two.processor for one, two in both)
        benchmark.extra_info |= {
            f"lines, runs and pages{said}": drawn,
            f"times a bare canvas{said}": round(ratios[wanted], 2),
            f"times its processor time{said}": round(by_processor, 2),
            f"seconds{said}": round(seconds[wanted], 2),
        }
    benchmark.pedantic(cost, args=(env, JOINLAY, "make", CHEST, "--out", tmp_path / "out"), rounds=3)
    # With all its chapters, as a job was made when the limit was set; without some of them nobody waits longer.
    assert ratios[EVERYTHING] <= MOST_MAKE
    assert seconds[LEAN] <= seconds[EVERYTHING]


def planning(text):
    """The least processor time of some plans of a job, in seconds, with rubbish left lying as the program leaves it."""
    job = read_job(text, "timed.toml")

    def once():
        start = process_time()
        plan(job)
        return process_time() - start

    gc.disable()
    try:
        return min(once() for _ in range(5))
    finally:
        gc.enable()


def test_a_hundred_different_drawers(benchmark, env, tmp_path):
    job = tmp_path / "hundred.toml"
    job.write_text(job_of(100), encoding="utf-8")
    memory = cost(env, PLANNING, job, 100).memory
    growth = planning(job_of(100)) / planning(job_of(10))
    benchmark.extra_info["times ten drawers"] = round(growth, 2)
    benchmark.extra_info["MB"] = round(memory)
    benchmark.pedantic(cost, args=(env, PLANNING, job, 100), rounds=3)
    assert growth <= MOST_GROWTH
    assert memory < MOST_MEMORY


@pytest.mark.parametrize("largest", LARGEST)
def test_the_largest_jobs_that_are_taken_are_planned_in_time(benchmark, largest):
    text = LARGEST[largest]()
    worked_out = plan(read_job(text, "largest.toml"))
    assert not worked_out.is_refused
    seconds = planning(text)
    benchmark.extra_info["parts"] = len(worked_out.boards)
    benchmark.extra_info["seconds of a processor"] = round(seconds, 2)
    benchmark.pedantic(plan, args=(read_job(text, "largest.toml"),), rounds=1)
    assert seconds <= MOST_SECONDS


@pytest.mark.parametrize("largest", LARGEST)
def test_the_largest_jobs_that_are_taken_are_made_in_time(benchmark, env, tmp_path, largest):
    job = tmp_path / "largest.toml"
    job.write_text(LARGEST[largest](), encoding="utf-8")
    made = benchmark.pedantic(cost, args=(env, JOINLAY, "make", job, "--all", "--out", tmp_path / "out"), rounds=1)
    benchmark.extra_info["seconds of a processor"], benchmark.extra_info["MB"] = round(made.processor, 1), round(made.memory)
    assert made.processor <= MOST_MAKING
