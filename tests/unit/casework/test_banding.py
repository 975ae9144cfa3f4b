"""Edge banding (EB-1 to EB-3)."""

import pytest

from joinlay.boards import Axis, CutKind, Datum, Span, Surface
from joinlay.casework.banding import Banding, band_board, core_size
from joinlay.casework.corners import RABBETED
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.joints.locking_rabbet import cut_end_part, design_half_blind
from joinlay.lengths import Unit, dimension, inches, mm, written
from joinlay.shop import usual_practice, usual_shop
from tests import by_hand
from tests.assembly.pieces import drawer_make
from tests.unit.casework.drawers import drawer

PRACTICE = usual_practice(Unit.INCH)
DATUM = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")


def inch(text):
    return written(inches(text), text, "test")


def front(*cuts):
    return by_hand.board("drawer 1 front", "drawer front", "ply", inch("18"), inch("6"), inch("3/4"), DATUM, cuts)


def test_ends_go_on_first_and_the_long_edges_lap_over_them():
    banded, _ = band_board(front(), [Banding("cherry edging", inch("1/16"))], PRACTICE)
    lengths = {band.surface: band.length for band in banded.bands}
    assert lengths[Surface.END] == lengths[Surface.FAR_END] == inches("5 7/8") + inches("2")
    assert lengths[Surface.EDGE] == lengths[Surface.FAR_EDGE] == inches("18") + inches("2")
    assert [band.order for band in banded.bands] == [1, 2, 3, 4]


def test_the_order_decides_which_band_laps():
    edges_first = (Surface.EDGE, Surface.FAR_EDGE, Surface.END, Surface.FAR_END)
    banded, _ = band_board(front(), [Banding("edging", inch("1/16"), edges_first)], PRACTICE)
    assert banded.bands[0].length == inches("17 7/8") + inches("2")
    assert banded.bands[2].length == inches("6") + inches("2")


def test_the_core_is_the_finished_size_less_the_bands():
    bandings = [
        Banding("edging", inch("1/8"), (Surface.END, Surface.FAR_END)),
        Banding("strip", inch("1/4"), (Surface.FAR_EDGE,)),
    ]
    banded, _ = band_board(front(), bandings, PRACTICE)
    assert core_size(banded, Axis.ALONG) == inches("17 3/4")
    assert core_size(banded, Axis.ACROSS) == inches("5 3/4")
    assert core_size(banded, Axis.INTO) == inches("3/4")
    assert core_size(banded, Axis.ALONG).name == "drawer 1 front core length"


def test_a_bare_board_is_its_own_core():
    assert core_size(front(), Axis.ALONG) == front().length


def test_thin_banding_is_said_to_be_one_that_may_be_ignored():
    _, found = band_board(front(), [Banding("veneer", dimension(mm("0.6")))], PRACTICE)
    assert [(f.harm, f.rule) for f in found] == [(Harm.NOTE, "EB-2")]
    assert found[0].where == "drawer 1 front"


def test_banding_as_thick_as_is_worth_counting_is_counted():
    for thickness, kinds in (("1/32", []), ("1/33", ["banding"])):
        _, found = band_board(front(), [Banding("edging", inch(thickness))], PRACTICE)
        assert [one.kind for one in found] == kinds


def test_a_cut_that_reaches_a_band_is_warned_of():
    groove = by_hand.cut(
        CutKind.GROOVE,
        Surface.FACE,
        Span.of(mm(0), inches(18)),
        Span.of(inches(1), inches("5/4")),
        Span.of(mm(0), mm(6)),
        "bottom groove",
    )
    _, found = band_board(front(groove), [Banding("edging", inch("1/16"), (Surface.FAR_END,))], PRACTICE)
    assert [f.harm for f in found] == [Harm.WARN]
    assert found[0].numbers["edge"] == "right end"


def test_a_cut_clear_of_the_bands_is_not():
    groove = by_hand.cut(
        CutKind.GROOVE,
        Surface.FACE,
        Span.of(mm(9), inches(17)),
        Span.of(inches(1), inches("5/4")),
        Span.of(mm(0), mm(6)),
        "bottom groove",
    )
    assert band_board(front(groove), [Banding("edging", inch("1/16"))], PRACTICE)[1] == ()


def half_blind_front():
    """A front with a slot in each end for a half-blind corner, its groove stopped short of them."""
    half = design_half_blind(
        side_thickness=inch("1/2"),
        end_thickness=inch("3/4"),
        cutter=inch("1/4"),
        practice=PRACTICE,
        rule=usual_shop(Unit.INCH).rule,
        role=by_hand.joint_called("corner"),
    )
    made = cut_end_part(half, front(), Surface.END, by_hand.part("left side"), which=by_hand.part("left"))
    return cut_end_part(half, made, Surface.FAR_END, by_hand.part("right side"), which=by_hand.part("right"))


def test_a_slot_behind_a_lip_spoils_no_band():
    # LR-6: a banded front stays whole to the eye; its lip keeps the band of the end.
    assert band_board(half_blind_front(), [Banding("edging", inch("1/16"), (Surface.END, Surface.FAR_END))], PRACTICE)[1] == ()


def test_where_the_slots_run_out_over_a_band_is_noted_once():
    _, found = band_board(half_blind_front(), [Banding("edging", inch("1/16"))], PRACTICE)
    assert [(f.harm, f.numbers["edges"]) for f in found] == [(Harm.NOTE, "bottom edge and top edge")]


def test_bands_that_leave_no_core_are_refused():
    with pytest.raises(Refused, match="no core"):
        band_board(front(), [Banding("edging", inch("3"))], PRACTICE)


@pytest.mark.parametrize(
    ("surfaces", "said"),
    [((Surface.FACE,), "edges and ends"), ((), "edges and ends"), ((Surface.END, Surface.END), "each once")],
)
def test_what_cannot_be_banded_is_said(surfaces, said):
    with pytest.raises(BadInput, match=said):
        Banding("edging", inch("1/16"), surfaces)


def test_an_edge_is_banded_once():
    both = [Banding("edging", inch("1/16"), (Surface.END,)), Banding("strip", inch("1/8"), (Surface.END,))]
    with pytest.raises(BadInput, match="left end is banded twice"):
        band_board(front(), both, PRACTICE)
    banded, _ = band_board(front(), both[:1], PRACTICE)
    with pytest.raises(BadInput, match="banded already"):
        band_board(banded, [Banding("strip", inch("1/8"), (Surface.EDGE,))], PRACTICE)


def test_what_is_thicker_than_any_banding_is_lipping_sawn_proud_and_planed_flush():
    # EB-4: of a front 3/4 thick, 1/64 proud of both faces.
    banded, found = band_board(front(), [Banding("cherry", inch("1/4"))], PRACTICE)
    assert [band.width for band in banded.bands] == [inches("25/32")] * 4
    (note,) = (finding for finding in found if finding.kind == "lipping")
    assert note.harm is Harm.NOTE
    assert "those on its ends first, trimmed flush before the others" in note.sentence(str)
    thin, _ = band_board(front(), [Banding("edging", inch("1/8"))], PRACTICE)
    assert [band.width for band in thin.bands] == [None] * 4


def test_lipping_on_two_edges_alike_has_no_order():
    _, found = band_board(front(), [Banding("cherry", inch("1/4"), (Surface.EDGE, Surface.FAR_EDGE))], PRACTICE)
    (note,) = (finding for finding in found if finding.kind == "lipping")
    assert "first" not in note.sentence(str)


def test_a_groove_that_runs_out_in_a_corner_s_rabbet_spoils_no_band():
    # DJ-1: the rabbet is deeper than the groove, and the lip before it keeps the band.
    made = drawer(make=drawer_make(front_joint=RABBETED)).front
    _, found = band_board(made, [Banding("edging", inch("1/16"))], PRACTICE)
    assert [(finding.harm, finding.numbers["edges"]) for finding in found] == [(Harm.NOTE, "bottom edge and top edge")]
