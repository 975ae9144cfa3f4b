"""Pulls in front of the end of a bottom's bar (BO-1, PU-1)."""

from dataclasses import replace

import pytest

from joinlay.documents.job_file import JobTexts
from joinlay.documents.mending import helps, mended, planned
from joinlay.findings import Harm
from tests.odd_pieces import sound_piece

LOW = {
    "drawers.bottom-bar": "cherry",
    "bank": [{"heights": ["2", "fill"]}],
    "pulls": {"stock": "cherry", "diameter": "1", "projection": "5/8", "hole": "3/8", "count": 1},
}


def in_the_way(job):
    return [found for found in job.findings if found.kind == "bottom bar"]


def test_a_hole_behind_the_bar_is_told_and_each_way_out_helps():
    """2 in opening: the front is 1 29/32 high, its hole at the middle 15/16 up to its centre; the bar reaches 1 up."""
    text = sound_piece(LOW)
    before = planned(JobTexts(text, "low.toml"))
    (found,) = in_the_way(before)
    assert (found.harm, found.where) == (Harm.WARN, "drawer 1 front")
    assert len(found.remedies) == 2
    for remedy in found.remedies:
        after = planned(replace(JobTexts(text, "low.toml"), text=mended(text, remedy.changes)))
        assert in_the_way(after) == []
        assert helps(found, before.findings, after.findings)


@pytest.mark.parametrize("changed", [{"drawers.bottom-bar": "none"}, {"bank": [{"heights": ["4", "fill"]}]}])
def test_nothing_is_told_of_a_hole_that_is_free(changed):
    assert in_the_way(planned(JobTexts(sound_piece({**LOW, **changed}), "low.toml"))) == []
