"""Loose tenons as strip, screws, and what is glued."""

from dataclasses import replace
from fractions import Fraction

from joinlay.boards import PartKind
from joinlay.boards.fastener import Fastener, FastenerKind
from joinlay.boards.meeting import Meeting, Tie
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.fastenings import fasteners_of, glued, tenon_strips
from joinlay.lengths import inches
from tests import by_hand
from tests.unit.cutlist.bench import board, make_plan, tenon


def strips(*boards):
    plan = make_plan(*boards, kerf=inches("1/8"))
    return tenon_strips(plan, cutting_list(plan))


def test_tenons_are_counted_by_section_and_length():
    (thin, thick) = strips(
        *(tenon(f"t {n}") for n in range(11)),
        tenon("u 1", length="1 1/2"),
        *(tenon(f"v {n}", thickness="1/4") for n in range(3)),
    )
    assert (thin.count, thin.spare) == (12, 2 + 1)
    assert [row.quantity for row in thin.rows] == [11, 1]
    # 13 at 1 in and 2 at 1 1/2 in, a kerf each.
    assert thin.length == 13 * inches("1 1/8") + 2 * inches("1 5/8")
    assert (thick.thickness, thick.count, thick.spare) == (inches("1/4"), 3, 1)
    assert thin.length.name == "strip for 3.969 mm by 12.7 mm tenons"


def test_no_tenons_no_strip():
    assert strips(board("a")) == ()


def met(one, kind, tie, *, glue=0, fasteners=0):
    """A meeting of a part, of a kind in the trade's word for it, with some other."""
    return Meeting(by_hand.part(one, kind), by_hand.part("other"), (), (), tie, glue=Fraction(glue), fasteners=fasteners)


def test_screws_and_nails_are_counted_by_size_and_by_what_they_go_through():
    screw = Fastener(FastenerKind.SCREW, inches("2"), inches("3/16"), inches("10"))
    nail = Fastener(FastenerKind.NAIL, inches("1 1/4"), None, inches("6"))
    bearer = replace(met("b", "bearer", Tie.SCREWED, fasteners=3), fastener=screw)
    kicker = replace(met("k", "kicker", Tie.NAILED, fasteners=5), fastener=nail)
    told = fasteners_of(make_plan(meetings=[bearer, bearer, kicker, met("s", "case side", Tie.GLUED, glue=7)]))
    assert [(one.fastener, one.through, one.count) for one in told] == [(screw, PartKind.BEARER, 6), (nail, PartKind.KICKER, 5)]
    assert fasteners_of(make_plan()) == ()


def test_what_is_glued_is_told_apart():
    told = (
        ("t", "loose tenon", Tie.GLUED, 1), ("panel", "case bottom", Tie.GLUED, 20), ("back", "drawer back", Tie.GLUED, 300),
        ("b", "bearer", Tie.NAILED, 4000), ("g", "guide", Tie.GLUED, 50000), ("s", "stop block", Tie.GLUED, 600000),
        ("stile", "stile", Tie.GLUED, 7000000), ("bottom", "drawer bottom", Tie.DRY, 0),
    )  # fmt: skip
    plan = make_plan(meetings=[met(one, kind, tie, glue=area) for one, kind, tie, area in told])
    assert glued(plan) == {
        "loose tenons": 1, "dadoes": 320, "runners": 54000, "stops": 600000, "frame on the case": 7000000,
    }  # fmt: skip
    assert list(glued(plan)) == ["loose tenons", "dadoes", "runners", "stops", "frame on the case"]
    assert glued(make_plan(meetings=[met("bottom", "drawer bottom", Tie.DRY)])) == {}
