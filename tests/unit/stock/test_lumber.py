"""What solid wood is sold as, and what it planes to."""

import pytest

from joinlay.lengths import Unit, inches
from joinlay.stock import Solid
from joinlay.stock.lumber import lumber_for
from tests.unit.cutlist.bench import cherry, size


def test_what_was_bought_is_what_the_job_says():
    assert lumber_for(cherry(), Unit.INCH).thickness == inches(1)
    assert lumber_for(cherry(), Unit.INCH).name == "4/4"
    odd = lumber_for(cherry(nominal="1 1/8"), Unit.INCH)
    assert (odd.name, odd.thickness, odd.is_listed) == ("", inches("1 1/8"), True)


@pytest.mark.parametrize(("planed", "name"), [("1/2", "4/4"), ("3/4", "4/4"), ("7/8", "5/4"), ("1", "5/4"), ("1 1/2", "8/4")])
def test_else_the_thinnest_that_planes_to_it(planed, name):
    lumber = lumber_for(cherry(nominal=planed, measured=None), Unit.INCH)
    assert lumber.name == name
    assert lumber.thickness.origin == "default"


@pytest.mark.parametrize(("planed", "name"), [("15", "20 mm"), ("18", "27 mm"), ("22", "27 mm"), ("23", "32 mm")])
def test_in_millimetres(planed, name):
    stock = Solid("oak", size(planed, Unit.MM), None, "white oak")
    assert lumber_for(stock, Unit.MM).name == name
