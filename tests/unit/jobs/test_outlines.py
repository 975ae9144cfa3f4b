"""``[[outline]]`` in a job: what it says, what is wrong with it, and what the plan makes of it."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput, Troubles
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import named_outline_files, read_job
from joinlay.lengths import GRADUATIONS
from tests.unit.casework.outlines import box, hook
from tests.unit.jobs.jobs import GOOD

FINGER = """
[[outline]]
file = "finger.svg"
on = "drawer front"
purpose = "finger hole"
face = "outside face"
depth = "1/4"
at = { edge = "top edge", from-edge = "1/4" }
"""
DRAWN = {"finger.svg": box("50.8", "25.4", "finger.svg"), "mark.svg": hook(20, "mark.svg")}


def read(more, drawn=None):
    return read_job(GOOD + more, "chest.toml", outlines=DRAWN if drawn is None else drawn)


def troubles(more, drawn=None):
    with pytest.raises(Troubles) as bad:
        read(more, drawn)
    return [str(trouble) for trouble in bad.value.troubles]


def test_the_files_a_job_names_are_known_before_it_is_read():
    text = f'{GOOD}{FINGER}\n[[outline]]\nfile = "b.svg"\n[[outline]]\nfile = "finger.svg"\n[[outline]]\non = "x"\n'
    assert named_outline_files(text, "chest.toml") == ("finger.svg", "b.svg")
    assert named_outline_files(GOOD, "chest.toml") == ()
    assert named_outline_files(f'{GOOD}\noutline = 3\nx = "outline"', "chest.toml") == ()


def test_an_outline_is_placed_on_every_part_it_is_for():
    made = plan(read(FINGER))
    (placed,) = made.outlines
    front = made.drawers[0].board("front")
    assert placed.board == front
    assert (placed.purpose, placed.face.value, placed.edge and placed.edge.value, placed.end) == (
        "finger hole",
        "far face",
        "far edge",
        None,
    )
    assert front.width - placed.across.stop == GRADUATIONS["1/32 in"].division * 8
    assert placed.along.centre == front.length / 2
    assert placed.into is not None
    assert placed.into.size.mm == Fraction("6.35")
    assert made.findings == plan(read("")).findings


def test_it_is_mirrored_first_and_then_turned():
    made = plan(read('[[outline]]\nfile = "mark.svg"\non = "drawer side"\nmirrored = true\nturn = 90\n'))
    assert [placed.board.name for placed in made.outlines] == ["drawer 1 left side", "drawer 1 right side"]
    assert made.outlines[0].outline == hook(20, "mark.svg").mirrored().turned(1)
    assert made.outlines[0].purpose == "outline"


def test_what_is_wrong_with_a_file_stands_at_its_line():
    line = (GOOD + FINGER).splitlines().index('file = "finger.svg"') + 1
    assert troubles(FINGER, {}) == [
        f"chest.toml:{line}: outline 1: there is no file 'finger.svg' beside the job; write its name as it is, or leave this out."
    ]
    assert troubles(FINGER, {"finger.svg": BadInput("finger.svg has a filter (line 3).")}) == [
        f"chest.toml:{line}: outline 1: finger.svg has a filter (line 3)."
    ]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ("turn = 45", "write 0, 90, 180 or 270"),
        ("turn = true", "write 0, 90, 180 or 270"),
        ('mirrored = "yes"', "write true or false here"),
        ('depth = "-1"', "at least 0"),
        ('at = "left end"', 'write at = { end = "left end"'),
        ('at = { ende = "left end" }', "the nearest is 'end'"),
        ('at = { to = "far side" }', 'write "near side" or "middle"'),
        ('colour = "red"', "no key 'colour'"),
    ],
)
def test_what_is_wrong_with_a_table(more, said):
    (found,) = troubles(f'[[outline]]\nfile = "mark.svg"\non = "drawer side"\n{more}\n')
    assert said in found


def test_keys_that_are_missing():
    assert ["outline 1: file is missing" in one or "outline 1: on is missing" in one for one in troubles("[[outline]]\n")] == [
        True,
        True,
    ]
    assert "two brackets each side" in troubles("[outline]\nfile = 'mark.svg'\n")[0]


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ('file = "mark.svg"\non = "drawer frnt"', "no part is called that; nearest: drawer front"),
        ('file = "mark.svg"\non = "drawer side"\nat = { end = "left end" }', "a drawer side has no 'left end'"),
        ('file = "mark.svg"\non = "drawer side"\ndepth = 5', "deep in wood"),
        ('file = "finger.svg"\non = "drawer front"\nat = { edge = "top edge", to = "middle" }', "hangs 1/2 in over the top edge"),
    ],
)
def test_what_cannot_be_is_refused(table, said):
    made = plan(read(f"[[outline]]\n{table}\n"))
    refused = [finding for finding in made.findings if finding.harm is Harm.REFUSE]
    assert refused
    assert all(said in finding.sentence(made.rule.text) for finding in refused)
    assert made.outlines == ()


def test_one_over_a_joint_is_warned_of():
    made = plan(read('[[outline]]\nfile = "mark.svg"\non = "left side"\nat = { end = "back end" }\n'))
    (found,) = [finding for finding in made.findings if finding.kind == "outline"]
    assert found.harm is Harm.WARN
    assert "The outline (mark.svg) runs over the" in found.sentence(made.rule.text)
    assert len(made.outlines) == 1


PULLS = """
[pulls]
stock = "cherry"
diameter = "1"
projection = "2"
hole = "3/8"
profile = "knob.svg"
"""


def test_the_profile_of_the_knobs_is_a_file_too():
    assert named_outline_files(GOOD + PULLS, "chest.toml") == ("knob.svg",)
    made = plan(read(PULLS, {"knob.svg": box("50.8", "12.7", "knob.svg")}))
    assert made.profile is not None
    assert made.profile.file == "knob.svg"
    assert [finding for finding in made.findings if finding.kind == "pull"] == []
    line = (GOOD + PULLS).splitlines().index('profile = "knob.svg"') + 1
    assert troubles(PULLS, {}) == [
        f"chest.toml:{line}: pulls: there is no file 'knob.svg' beside the job; write its name as it is, or leave this out."
    ]


def test_a_profile_of_the_wrong_size_is_warned_of():
    made = plan(read(PULLS, {"knob.svg": box("25.4", "10", "knob.svg")}))
    assert [finding.harm for finding in made.findings if finding.kind == "pull"] == [Harm.WARN, Harm.WARN]
