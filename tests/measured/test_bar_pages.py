"""The pages of a drawer whose bottom is parted by a bar: each of them tells of it, and no word touches another (BO-1)."""

import pytest

from joinlay.documents.wanted_sheets import EVERYTHING
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.pen.marks import Text
from tests.measured.collisions import collisions
from tests.measured.packets import packet_of

JOB = """title = "Wide"
units = "mm"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = 20
measured = 20
[stock.birch]
nominal = 12
measured = 12
[stock.thin]
nominal = 6
measured = 6
plies = 5
[drawers]
front = "birch"
sides = "birch"
bottom = "thin"
bottom-bar = "oak"
back-height = "on bottom"
taper = 1
[[drawer]]
opening = { width = 700, height = 110, depth = 400 }
"""


@pytest.fixture(scope="module")
def bound():
    return packet_of(plan(read_job(JOB, "wide.toml")), wanted=EVERYTHING)


def said_in(bound, heading):
    (chapter,) = (one for one in bound.chapters if one.heading == heading)
    return " ".join(stroke.plain for sheet in chapter.sheets for stroke in sheet.strokes if isinstance(stroke, Text))


def test_no_words_collide(bound):
    assert [(sheet.number, *found) for sheet in bound.sheets for found in collisions(sheet.strokes)] == []


@pytest.mark.parametrize(
    ("heading", "words"),
    [
        ("What was found", ("each half sags", "The bar between them sags")),
        ("Cutting list, and what to buy", ("drawer 1 bottom bar", "left and right", "off the outer end")),
        ("Machine settings", ("groove in bottom bar", "front rabbet in bottom bar", "screw hole in bottom bar")),
        ("Story sticks", ("bottom bar",)),
        ("Templates, strips and drilling", ("rabbet in upper edge", "rabbet in lower edge", "groove in right face")),
        ("Putting it together", ("Glue the bottom bar to the front", "Screw the bar up to", "screw both up to")),
    ],
)
def test_each_chapter_tells_of_it(bound, heading, words):
    said = said_in(bound, heading)
    assert [word for word in words if word not in said] == []
