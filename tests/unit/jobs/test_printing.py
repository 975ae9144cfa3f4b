"""The paper a job may name, and how it may be written."""

import pytest

from joinlay.errors import Troubles
from joinlay.jobs.reader import read_job
from joinlay.jobs.tables.printing import usual_paper
from joinlay.lengths import Unit
from joinlay.paper import PAPERS, paper_named
from tests.unit.jobs.jobs import GOOD

METRIC = 'units = "mm"\n' + GOOD.replace('units = "inch"\n', "")


def job_on(paper, text=GOOD):
    return read_job(f"{text}\n[paper]\n{paper}\n", "chest.toml")


def test_the_usual_paper_is_one_there_is():
    assert {usual_paper(unit) for unit in Unit} <= set(PAPERS)
    assert read_job(GOOD, "chest.toml").paper == "letter"
    assert read_job(GOOD, "chest.toml").printer is None


@pytest.mark.parametrize(
    ("written", "paper"),
    [
        *((f'size = "{name}"', name) for name in PAPERS),
        ('size = "A3 landscape"', "a3 landscape"),
        ('size = "610 x 914 mm"', "610 x 914 mm"),
        ('size = "24 x 36"', "24 x 36 in"),
        ('width = "610 mm"\nheight = "36"', "610 x 914.4 mm"),
        ('roll = "24 in"', "24 in roll"),
        ("roll = 24", "24 in roll"),
        ('size = "24 in roll"', "24 in roll"),
        ('size = "a4"\nborder = "5 mm"', "a4, border 5 mm"),
        ('roll = "610 mm"\nborder = 0', "24 2/127 in roll, border 0 mm"),
        ('border = "5 mm"', "letter, border 5 mm"),
    ],
)
def test_every_way_to_write_a_paper(written, paper):
    found = paper_named(job_on(written).paper)
    wanted = paper_named(paper)
    assert (found.size, found.border, found.is_roll) == (wanted.size, wanted.border, wanted.is_roll)


def test_one_word_stands_for_the_table():
    assert read_job(f'paper = "610 x 914 mm"\n{GOOD}', "chest.toml").paper == "610 x 914 mm"
    assert read_job(f'paper = {{ width = "10", height = "20" }}\n{GOOD}', "chest.toml").paper == "10 x 20 in"


def test_the_printer_is_kept_with_its_line():
    job = job_on('printer = "shop laser"')
    assert job.printer is not None
    assert (job.printer.value, job.paper) == ("shop laser", "letter")
    assert job.printer.origin == f"chest.toml:{GOOD.count(chr(10)) + 3}"


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ('size = "leter"', "nearest: letter"),
        ('size = "x"', "there is no paper called 'x'; write a4"),
        ("size = 3", 'write a paper, such as "letter", "a4" or "610 x 914 mm", in quotes'),
        ('size = "a4"\nroll = 24', "given twice over"),
        ("width = 20", "height is missing"),
        ("height = 20", "width is missing"),
        ('width = "20 mm"\nheight = 20', "the least is 1 31/32- in (50 mm)"),
        ("roll = 300", "the most is 200 in"),
        ("border = 3", "leaves too little of letter paper"),
        ("border = -1", "negative"),
        ('sise = "a4"', "the nearest is 'size'"),
    ],
)
def test_what_cannot_be_is_said_with_its_line(written, said):
    with pytest.raises(Troubles) as caught:
        job_on(written)
    (trouble,) = caught.value.troubles
    assert trouble.line > GOOD.count("\n")
    assert trouble.where.startswith("paper")
    assert said in trouble.message
