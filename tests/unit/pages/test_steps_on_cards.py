"""What a card says to do beside its figures: the machine's step to set, and what of a boring is turned away (MS-10, PU-2)."""

from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.pages.setting_sheets import setting_sheets
from joinlay.paper import paper_named
from joinlay.pen.marks import Text
from tests.unit.jobs.jobs import GOOD

JOB = """
[shop]
mortise-depths = ["1/2", "5/8"]
mortise-heights = ["3/16", "9/32"]

[pulls]
stock = "oak"
diameter = "1"
projection = "1"
hole = "3/8"
dot = { diameter = "1/4" }
"""


def test_each_is_on_its_card():
    made = plan(read_job(GOOD + JOB, "chest.toml"))
    assert not made.is_refused
    sheets = setting_sheets(made, paper_named("letter"))
    words = " ".join(mark.plain for sheet in sheets for mark in sheet.strokes if isinstance(mark, Text))
    assert words.count("Set its fence to the step at 9/32 in") == 2
    assert words.count("Set its depth to the stop at") == 2
    assert "1/4 in of it is turned away" in words
