"""Fronts of plywood lipped with wood of the job's: what is sawn, what is bought, and what is told before the first card
(EB-4).
"""

from functools import cache

from joinlay.cutlist.cutting_list import row_remarks
from joinlay.cutlist.lists import all_lists
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import inches
from joinlay.settings.wording import band_words
from tests.unit.cutlist.test_sheet_goods import FRONTS


@cache
def made(stock="ash", thickness="1/4"):
    return plan(
        read_job(f'{FRONTS}\n[[banding]]\npart = "drawer front"\nstock = "{stock}"\nthickness = "{thickness}"\n', "fronts.toml")
    )


def test_the_core_is_smaller_by_the_lipping_on_both_sides_with_the_grain_as_it_stands():
    rows = [row for row in all_lists(made()).parts.rows if row.part == "drawer front"]
    drawers = made().drawers
    assert [row.sawn.length for row in rows] == [drawer.front.width - inches("1/2") for drawer in drawers]
    assert [row.sawn.width for row in rows] == [drawer.front.length - inches("1/2") for drawer in drawers]
    assert all("strips 1/4 in x 3/4- in (0.74)" in " ".join(row_remarks(row, made().rule.text, "x")) for row in rows)


def test_its_wood_is_bought_with_the_stock_it_is_of_though_nothing_else_is():
    lists = all_lists(made())
    (need,) = (need for need in lists.solid if need.stock.name == "ash")
    # Four strips a front, an inch more at each end, a quarter and a kerf wide, of an inch sold: 144 cubic inches a board foot.
    strips = [band.length.inches for drawer in made().drawers for band in drawer.front.bands]
    assert len(strips) == 12
    assert need.net == sum(strips) * (inches("1/4") + made().shop.saw.kerf).inches / 144
    (line,) = (line for line in lists.shopping.lines if "lipping" in line.remark)
    assert (line.what, line.is_bought) == ("ash", False)
    assert line.remark.endswith("in 12 strips, trim included; its wood is counted above")


def test_lipping_of_wood_the_job_does_not_describe_is_bought_as_it_is():
    (line,) = (line for line in all_lists(made("holly")).shopping.lines if "lipping" in line.remark)
    assert (line.what, line.is_bought) == ("holly", True)
    assert not line.remark.endswith("counted above")


def test_it_is_lipped_and_planed_flush_before_the_first_card_and_banding_is_trimmed():
    assert band_words(made().settings.bands[0]).startswith(
        "drawer 1 to 3 front: lip the left end, right end, bottom edge and top edge and plane it flush, before card"
    )
    assert "edge and trim, before card" in band_words(made("edging", "1/32").settings.bands[0])
