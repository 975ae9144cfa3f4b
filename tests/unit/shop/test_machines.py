"""The machines a shop stands at: sizes above zero, and a modest shop to fall back on."""

from dataclasses import fields, replace

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import ZERO, Dimension, Unit, dimension, inches, mm
from joinlay.shop import HandRouter, MachineKind, RouterTable, Shop, TableSaw, usual_machines, usual_shop


def some(number):
    return dimension(mm(number))


MADE_WITH = {
    "router table": lambda size: RouterTable(some(100), some(200), size, some(600)),
    "table saw": lambda size: TableSaw(some(75), some(600), some(65), some(2400), some(900), (size,)),
    "hand-held router": lambda size: HandRouter(size, some(150)),
    "limits": lambda size: replace(usual_machines().limits, short=size),
}


@pytest.mark.parametrize("machine", MADE_WITH)
def test_a_size_is_more_than_nothing(machine):
    make = MADE_WITH[machine]
    make(some(5))
    for wrong in (some(0), some(-1)):
        with pytest.raises(BadInput, match="must be more than 0"):
            make(wrong)


@pytest.mark.parametrize("unit", Unit)
def test_every_default_says_that_it_is_one(unit):
    machines = usual_machines(unit)
    for part in (machines.router_table, machines.table_saw, machines.hand_router, machines.limits):
        assert part is not None
        sizes = [getattr(part, field.name) for field in fields(part)]
        for size in sizes:
            if isinstance(size, Dimension):
                assert size > ZERO
                assert (size.origin, bool(size.name), bool(size.rule)) == ("default", True, True)


def test_a_metric_shop_has_round_metric_machines():
    metric, inch = usual_machines(Unit.MM), usual_machines(Unit.INCH)
    assert metric.limits.narrow == mm(75)
    assert inch.limits.narrow == inches(3)
    assert inch.limits.deepest_pass == inches("1/4")  # MS-4
    assert metric.limits.deepest_pass == mm("6.5")


def test_a_shop_has_machines_without_being_told():
    usual = usual_shop(Unit.MM)
    assert usual.machines == usual_machines(Unit.MM)
    bare = Shop(usual.cutters, usual.tenons, usual.saw, usual.rule, usual.practice)
    assert bare.machines == usual_machines()
    assert bare.machines.first_choice[0] is MachineKind.ROUTER_TABLE
