"""The glue and the clamps of a shop, in a job and in a shop file that many share."""

import pytest

from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from joinlay.shop import USUAL_GLUE
from tests.unit.jobs.jobs import GOOD, only_trouble


def shop(lines, **more):
    return read_job(f"{GOOD}\n[shop]\n{lines}\n", "chest.toml", **more).shop


def test_nothing_is_known_of_clamps_that_nobody_wrote_down():
    usual = shop('kerf = "1/8"')
    assert (usual.clamps, usual.glue) == (None, USUAL_GLUE)
    assert not usual.glue.is_written


def test_the_bottle_and_the_clamps():
    made = shop(
        'glue = { open-time = "15 min", clamp-time = "1 1/2 h" }\nclamps = [{ length = "36", count = 6 }, { '
        'length = "12", count = 4 }]'
    )
    assert (made.glue.open_time, made.glue.clamp_time, made.glue.is_written) == (900, 5400, True)
    assert made.glue.origin.startswith("chest.toml:")
    assert [(clamps.length, clamps.count) for clamps in made.clamps] == [(inches(36), 6), (inches(12), 4)]
    assert made.clamps[0].length.name == "36 clamp"


def test_a_time_alone_leaves_the_other_as_it_is_usually():
    made = shop('glue = { clamp-time = "40 min" }')
    assert (made.glue.open_time, made.glue.clamp_time) == (USUAL_GLUE.open_time, 2400)
    # How long it is open is still nobody's word.
    assert not made.glue.is_written


def test_a_job_goes_before_the_shop_file():
    text = f'{GOOD}\n[shop]\nfile = "our.shop.toml"\nglue = {{ open-time = "20 min" }}\n'
    file = 'units = "inch"\nglue = { open-time = "5 min", clamp-time = "30 min" }\nclamps = [{ length = 24, count = 2 }]\n'
    made = read_job(text, "chest.toml", file, "our.shop.toml").shop
    assert (made.glue.open_time, made.glue.clamp_time) == (1200, 1800)
    assert [clamps.count for clamps in made.clamps or ()] == [2]


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ('glue = { open-time = "8" }', "a time without a unit"),
        ('glue = "slow"', "glue"),
        ('clamps = [{ length = "36" }]', "count"),
        ('clamps = [{ length = "36", count = 0 }]', "out of range"),
        ("clamps = []", "clamps"),
    ],
)
def test_what_cannot_be_used(lines, said):
    assert said in only_trouble(f"{GOOD}\n[shop]\n{lines}\n")
