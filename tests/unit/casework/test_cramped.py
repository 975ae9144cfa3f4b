"""A drawer whose parts would meet inside it, or whose groove misses a part, is refused with what would do."""

import pytest

from joinlay.boards import DrawerRole
from joinlay.casework.corners import HOUSED
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import DrawerMake, Opening
from joinlay.findings import Refused
from joinlay.lengths import Unit, mm, written
from joinlay.shop import usual_shop
from joinlay.stock import Sheet


def size(number, name):
    """So many millimetres, as a maker wrote them."""
    return written(mm(number), name, "odd.toml:1")


def sheet(thickness):
    """Plywood, measured."""
    thick = size(thickness, "thickness")
    return Sheet(f"ply {thickness}", thick, thick, size(2440, "length"), size(1220, "width"))


MAKE = DrawerMake(sheet(18), sheet(12), sheet(12), sheet(6), back_joint=HOUSED)


def refusal_of(width=300, height=100, depth=350, **figures):
    """The refusal of a drawer with these figures of the maker's own, as a finding."""
    shop = usual_shop(Unit.MM)
    own = shop.practice.but({name.replace("_", " "): size(value, name) for name, value in figures.items()})
    opening = Opening(size(width, "width"), size(height, "height"), size(depth, "depth"))
    with pytest.raises(Refused) as refused:
        plan_drawer(DrawerRole(1), opening, MAKE, type(shop)(shop.cutters, shop.tenons, shop.saw, shop.rule, own))
    return refused.value.finding


@pytest.mark.parametrize(
    ("given", "kind", "what", "way_out"),
    [
        ({"depth": 50}, "drawer size", "front and back leave -4 mm between them", "more than 4 mm deeper"),
        ({"height": 16}, "bottom groove", "upper face would be 16 mm above", "more than 1 mm higher"),
        ({"groove_offset": 200}, "bottom groove", "upper face would be 206 mm above", "groove offset smaller"),
        ({"groove_offset": "0.5"}, "bottom groove", "misses the front, which stands 0.8 mm above it", "more than 0.8 mm"),
        ({"taper": 500}, "drawer size", "takes the whole inside width, 274.4 mm", "0 to 1/16 in"),
        (
            {"taper": -2},
            "drawer size",
            "2 mm wider at its back than its front, and the opening leaves 1.6 mm",
            "a taper of -1.6 mm",
        ),
    ],
)
def test_cramped_drawers(given, kind, what, way_out):
    def show(length):
        return f"{float(length.mm):g} mm"

    finding = refusal_of(**given)
    assert finding.kind == kind
    assert what in finding.sentence(show)
    assert way_out in finding.way_out(show)
    assert finding.rule
