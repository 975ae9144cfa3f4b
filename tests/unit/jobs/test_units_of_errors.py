"""An error tells lengths in the job's unit: never a millimetre in a job in inches, nor the other way about."""

import ast
import re
from pathlib import Path

import pytest

import joinlay
from joinlay.documents.packet import packet_for
from joinlay.errors import BadInput, Troubles
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import GRADUATIONS, BadSize, inches, said_by
from tests.unit.jobs.jobs import GOOD

PULLS = '[pulls]\nstock = "cherry"\ndiameter = "{knob}"\nprojection = "1"\nhole = "{hole}"\n'
ROOM = """
[case]
room = {{ width = "{wide}", height = "30", depth = "20", beside = "{beside}" }}
sides = "birch"
back = "thin"
[frame]
stock = "cherry"
[runners]
stock = "cherry"
[[bank]]
drawers = 2
"""
NO_DRAWER = GOOD.partition("[[drawer]]")[0]
METRIC = {
    "18 3/8": "465",
    "4 1/4": "110",
    '"20"': '"500"',
    '"3/4"': '"18"',
    '"1/2"': '"12"',
    "0.483": "11.8",
    '"1/4"': '"6"',
    "inch": "mm",
    "1/32 in": "0.5 mm",
    '[60, "60"]': '[1500, "1500"]',
}


def metric(text):
    for inch, mm in METRIC.items():
        text = text.replace(inch, mm)
    return text


#: Jobs in inches in which one size goes wrong with another, and what is then said of them.
SPOILED = [
    (GOOD + PULLS.format(knob="1/4", hole="3/8"), "the pulls' hole is 3/8 in and the knob 1/4 in across"),
    (NO_DRAWER + ROOM.format(wide="10", beside="6"), "the room leaves"),
    (GOOD.replace("[drawers]", '[paper]\nsize = "letter"\nborder = "4"\n\n[drawers]'), "a border of 4 in leaves too little"),
    (GOOD.replace("[drawers]", '[paper]\nroll = "201"\n\n[drawers]'), "the most is 200 in"),
    (
        GOOD.replace("[drawers]", '[drawers]\ntip-gap = "1"\nfront-joint = "half-blind locking rabbet"'),
        "tip gap is 1 in in a dado",
    ),
    (GOOD.replace('width = "18 3/8"', 'width = "1/32"'), ""),
    (GOOD.replace("[drawers]", '[drawers]\nside-clearance = "10"'), ""),
    (GOOD.replace("[drawers]", '[drawers]\nback-gap = "25"'), ""),
    (GOOD.replace("[drawers]", '[drawers]\nside-height = "30"'), ""),
]


def told(text):
    """Everything that is refused in a job, in reading it or in planning it."""
    try:
        worked_out = plan(read_job(text, "chest.toml"))
    except Troubles as bad:
        return str(bad)
    show = worked_out.rule.text
    refused = [one for one in worked_out.findings if one.harm is Harm.REFUSE]
    assert refused, "the job was to be wrong"
    return "\n".join(f"{one.sentence(show)} {one.way_out(show)}" for one in refused)


@pytest.mark.parametrize(("text", "said"), SPOILED, ids=range(len(SPOILED)))
def test_a_job_in_inches_is_answered_in_inches(text, said):
    found = told(text)
    assert said in found
    # Tenon stock is sold in millimetres everywhere, and a remedy may name both units of a usual figure.
    assert re.findall(r"[\d.]+ mm\b(?! is usual| tenon)", found) == []
    assert " in" in found


def test_paper_too_small_for_a_packet_is_told_in_the_jobs_unit():
    job = read_job(GOOD.replace("[drawers]", '[paper]\nwidth = "90 mm"\nheight = "120 mm"\n\n[drawers]'), "chest.toml")
    with pytest.raises(
        BadInput,
        match=r"too small for the check square and a template beside it; the least is 5 1/32\+ in \(128.1 mm\) x 6 7/32- in",
    ):
        packet_for(plan(job))


def test_no_error_tells_millimetres_before_it_knows_the_unit():
    """Lengths in an error are a BadSize's, set when the unit is known; what a printer was measured at is in millimetres of its
    own.
    """
    told = {
        path.stem
        for path in sorted(Path(joinlay.__file__).parent.rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Raise)
        and any(isinstance(name, ast.Name) and name.id == "BadInput" for name in ast.walk(node))
        and any(isinstance(name, ast.Name) and name.id == "plain_mm" for name in ast.walk(node))
    }
    assert told == {"measured_printer"}


def test_a_job_in_millimetres_is_answered_in_millimetres():
    found = told(metric(GOOD) + PULLS.format(knob="6", hole="10").replace('"1"', '"25"'))
    assert "the pulls' hole is 10 mm and the knob 6 mm across" in found
    assert re.findall(r"\d in\b", found) == []


def test_a_size_says_itself_in_millimetres_where_no_rule_is_known():
    bad = BadSize("{what} is {size} long.", what="a {brace} of a name", size=inches("1/2"))
    assert str(bad) == "a {brace} of a name is 12.7 mm long."
    assert said_by(bad, GRADUATIONS["1/16 in"].text) == "a {brace} of a name is 1/2 in long."
