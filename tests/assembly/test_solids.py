"""The check itself: it finds what is in the way, and only that."""

from __future__ import annotations

from dataclasses import replace

import pytest

from joinlay.boards import CutKind, Datum, Place, Shape, Span, Surface, Taper
from joinlay.checks.solids import check_assembly, overlaps, solid_of, solids_of
from joinlay.errors import BadInput
from joinlay.findings import Harm
from joinlay.lengths import NOTHING, Fraction, dimension, mm
from tests import by_hand
from tests.assembly.pieces import shop, spec, whole

DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")


def board(*cuts, tapers=(), place=None, name="board", round_edges=False):
    at = place or Place.at(mm(0), mm(0), mm(0), "+X", "+Y", "+Z")
    sizes = (dimension(mm(200)), dimension(mm(60)), dimension(mm(20)))
    return by_hand.board(name, "part", "ply", *sizes, DATUM, cuts, tapers=tapers, place=at, has_round_edges=round_edges)


def cut(kind, surface, along, across, into, shape=Shape.SQUARE):
    a, b, c = (Span.of(mm(start), mm(stop)) for start, stop in (along, across, into))
    return by_hand.cut(kind, surface, a, b, c, "cut", shape=shape)


def volume(made):
    return solid_of(made).wood.volume()


def test_a_plain_board_is_as_large_as_its_sizes():
    assert volume(board()) == pytest.approx(200 * 60 * 20)


def test_a_groove_takes_its_own_wood_and_leaves_no_skin():
    grooved = board(cut(CutKind.GROOVE, Surface.FACE, (0, 200), (10, 16), (0, 6)))
    assert volume(grooved) == pytest.approx(200 * 60 * 20 - 200 * 6 * 6)
    assert len(solid_of(grooved).wood.decompose()) == 1


def test_cuts_that_overlap_are_taken_once():
    crossed = board(
        cut(CutKind.GROOVE, Surface.FACE, (0, 200), (10, 16), (0, 6)), cut(CutKind.DADO, Surface.FACE, (50, 60), (0, 60), (0, 6))
    )
    assert volume(crossed) == pytest.approx(200 * 60 * 20 - 200 * 6 * 6 - 10 * 60 * 6 + 10 * 6 * 6)


def test_round_ends_take_less_than_square_ones_and_more_than_none():
    mortise = board(cut(CutKind.MORTISE, Surface.EDGE, (50, 74), (0, 25), (7, 13), Shape.ROUND_ENDS))
    exact = 25 * (18 * 6 + 3.14159265 * 9)
    assert 200 * 60 * 20 - volume(mortise) == pytest.approx(exact, rel=0.003)


def test_a_round_hole_is_round():
    drilled = board(cut(CutKind.HOLE, Surface.FAR_FACE, (90, 100), (20, 30), (0, 20), Shape.ROUND))
    assert 200 * 60 * 20 - volume(drilled) == pytest.approx(3.14159265 * 25 * 20, rel=0.01)


def test_a_tenon_goes_into_its_mortise():
    mortised = board(cut(CutKind.MORTISE, Surface.FACE, (50, 74), (20, 26), (0, 20), Shape.ROUND_ENDS))
    at = Place.at(mm(50), mm(20), mm(0), "+Z", "+X", "+Y")
    slip = by_hand.board(
        "slip",
        "loose tenon",
        "strip",
        dimension(mm(20)),
        dimension(mm(24)),
        dimension(mm(6)),
        DATUM,
        place=at,
        has_round_edges=True,
    )
    assert overlaps(solids_of([mortised, slip])) == ()
    wide = replace(slip, width=dimension(mm("24.2")))
    assert [(o.one, o.other) for o in overlaps(solids_of([mortised, wide]))] in ([("board", "slip")], [("slip", "board")])


@pytest.mark.parametrize(
    ("surface", "run"), [(Surface.EDGE, 200), (Surface.FAR_EDGE, 200), (Surface.END, 60), (Surface.FAR_END, 60)]
)
def test_a_taper_takes_a_wedge(surface, run):
    tapered = board(tapers=(Taper(surface, NOTHING, dimension(mm(4))),))
    assert 200 * 60 * 20 - volume(tapered) == pytest.approx(run * 4 / 2 * 20)


def test_a_taper_lies_at_its_own_edge():
    tapered = solid_of(board(tapers=(Taper(Surface.FAR_EDGE, dimension(mm(2)), dimension(mm(4))),)))
    assert (tapered.low[1], tapered.high[1]) == pytest.approx((0, 58))


def test_a_leaning_side_is_square_within_its_front_joint_and_ends_where_it_is_placed():
    lean = Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", "-X", ("+X", Fraction(1, 100)))
    lean = replace(lean, square_for=Fraction(12))
    side = solid_of(board(cut(CutKind.DADO, Surface.FACE, (6, 12), (0, 60), (0, 6)), place=lean))
    front, back = (
        side.wood.trim_by_plane((0, -1, 0), -12),
        side.wood.trim_by_plane((0, 1, 0), 199.9),
    )
    assert front.bounding_box()[3] == pytest.approx(0)
    assert back.bounding_box()[3] == pytest.approx(2)


def test_only_touching_is_no_overlap():
    beside = board(place=Place.at(mm(200), mm(0), mm(0), "+X", "+Y", "+Z"), name="beside")
    nearer = board(place=Place.at(mm("199.9"), mm(0), mm(0), "+X", "+Y", "+Z"), name="nearer")
    assert overlaps(solids_of([board(), beside])) == ()
    (found,) = overlaps(solids_of([board(), nearer]))
    assert found.volume == pytest.approx(0.1 * 60 * 20)


def test_a_board_without_a_place_cannot_be_put_together():
    with pytest.raises(BadInput, match="no place"):
        solid_of(replace(board(), place=None))


@pytest.fixture(scope="module")
def chest():
    own = shop()
    return whole(spec(own), own)


def test_a_sound_chest_has_nothing_to_say(chest):
    assert check_assembly(chest.piece.boards, chest.drawers) == ()


@pytest.mark.parametrize(
    ("part", "way", "when"),
    [
        ("runners drawer 2 left guide", (1, 0, 0), "put together"),
        ("stops drawer 2 left block", (0, 0, 1), "its back passes the stops"),
        ("face frame rail under drawer 2", (0, 0, 1), "pulled half out"),
        ("runners drawer 3 left kicker", (0, 0, -2), "pulled half out"),
    ],
)
def test_a_part_out_of_place_is_found(chest, part, way, when):
    boards = [one.moved(*map(mm, way)) if one.name == part else one for one in chest.piece.boards]
    found = check_assembly(boards, chest.drawers)
    assert [f for f in found if part in f.what and when in f.what]
    assert {f.harm for f in found} == {Harm.REFUSE}
