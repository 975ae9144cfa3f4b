"""What is on hand is checked where it is made."""

from fractions import Fraction

import pytest

from joinlay.errors import BadInput
from joinlay.jobs.on_hand import NOTHING_ON_HAND, BoardOnHand, Defect, FirstCut, OnHand, Prices, SheetOnHand
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches, mm
from tests.unit.cutlist.bench import size
from tests.unit.jobs.jobs import GOOD


def test_sizes_and_counts_of_zero_are_refused():
    with pytest.raises(BadInput, match="offcut: size is 0 mm; it must be more than 0"):
        SheetOnHand("offcut", "ply", size("0"), size("3"))
    with pytest.raises(BadInput, match="offcut: the count is 0; it must be at least 1"):
        SheetOnHand("offcut", "ply", size("3"), size("3"), count=0)
    with pytest.raises(BadInput, match="must be more than 0"):
        BoardOnHand("b", "ply", size("3"), size("-1"))


@pytest.mark.parametrize(("start", "stop"), [(-1, 3), (3, 3), (5, 3), (50, 90)])
def test_a_defect_lies_on_its_board(start, stop):
    with pytest.raises(BadInput, match=r"is not on a board 76\.2 mm long"):
        BoardOnHand("b", "cherry", size("3"), size("3"), (Defect(mm(start), mm(stop)),))


def test_negative_prices_are_refused():
    with pytest.raises(BadInput, match="the price of birch is -1; a price is at least 0"):
        Prices("", {"birch": Fraction(-1)})
    with pytest.raises(BadInput, match="the price of slides is -2"):
        Prices("", {}, Fraction(-2))


def test_a_job_that_says_nothing_has_nothing_on_hand():
    job = read_job(GOOD, "chest.toml")
    assert job.on_hand == plan(job).on_hand == NOTHING_ON_HAND
    assert job.on_hand.sawing.first_cut is FirstCut.RIP


def test_everything_a_job_says_reaches_the_plan():
    text = (
        GOOD
        + """
[sawing]
first-cut = "either"
fronts-together = false
any-grain = ["drawer bottom"]
[[offcut]]
stock = "birch"
length = "24"
width = "40"
grain = "width"
count = 3
[[offcut]]
name = "rack"
stock = "thin"
length = "100 mm"
width = "50 mm"
[[board]]
stock = "cherry"
length = "8 ft"
width = "7"
defects = [["0", "1 1/2"]]
[prices]
currency = "EUR"
slides = "24.50"
of = { birch = 44.5 }
"""
    )
    found: OnHand = plan(read_job(text, "chest.toml")).on_hand
    assert (found.sawing.first_cut, found.sawing.fronts_together, found.sawing.any_grain) == (
        FirstCut.EITHER, False, frozenset({"drawer bottom"}),
    )  # fmt: skip
    first, second = found.sheets
    # Its grain runs across what the maker called its length, so that is its width.
    assert (first.name, first.length, first.width, first.grain_known, first.count) == (
        "offcut 1",
        inches(40),
        inches(24),
        True,
        3,
    )
    assert (second.name, second.grain_known) == ("rack", False)
    (plank,) = found.boards
    assert (plank.length, plank.defects) == (inches(96), (Defect(inches(0), inches("3/2")),))
    assert found.prices == Prices("EUR", {"birch": Fraction("44.5")}, Fraction("24.5"))
    line = text.splitlines().index('length = "8 ft"') + 1
    assert plank.length.origin == f"chest.toml:{line}"
