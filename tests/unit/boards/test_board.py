"""A board with cuts is the one truth: nothing lies outside the wood, everything counts from the references."""

import pytest

from joinlay.boards import Axis, CutKind, Datum, Place, Shape, Span, Surface, Taper
from joinlay.errors import BadInput
from joinlay.lengths import ZERO, Dimension, dimension, mm, written
from tests import by_hand

SIDE = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")


def a_board(length=400, width=100, thickness=12, **more):
    """A drawer side of these millimetres."""
    long, wide = written(mm(length), "length", "here"), written(mm(width), "width", "here")
    return by_hand.board(
        "drawer 1 left side", "drawer side", "birch", long, wide, written(mm(thickness), "thickness", "here"), SIDE, **more
    )


def a_cut(along=(0, 400), across=(10, 16), into=(0, 6), kind=CutKind.GROOVE, surface=Surface.FACE, **more):
    """A groove in the inside face, in millimetres."""
    run, over, deep = (Span.of(mm(start), mm(stop)) for start, stop in (along, across, into))
    return by_hand.cut(kind, surface, run, over, deep, "bottom groove", **more)


def test_sizes_by_axis():
    board = a_board()
    assert [board.size(axis) for axis in Axis] == [mm(400), mm(100), mm(12)]
    assert board.size(Axis.ALONG).name == "length"


@pytest.mark.parametrize("size", ["length", "width", "thickness"])
@pytest.mark.parametrize("wrong", [0, -1])
def test_a_board_is_more_than_nothing(size, wrong):
    with pytest.raises(BadInput, match="must be more than 0"):
        a_board(**{size: wrong})


@pytest.mark.parametrize(
    ("spans", "axis"),
    [
        ({"along": (0, "400.001")}, "along"),
        ({"along": ("-0.001", 10)}, "along"),
        ({"across": (95, 101)}, "across"),
        ({"across": (-1, 3)}, "across"),
        ({"into": (0, 13)}, "into"),
        ({"into": (-1, 6)}, "into"),
        ({"along": (500, 600)}, "along"),
    ],
)
def test_a_cut_outside_the_wood_is_refused_and_the_limit_said(spans, axis):
    with pytest.raises(BadInput, match=rf"bottom groove runs from .* mm {axis} the board, which is 0 to \d+ mm"):
        a_board(cuts=(a_cut(**spans),))
    with pytest.raises(BadInput, match="bottom groove"):
        a_board().with_cuts(a_cut(**spans))


def test_a_cut_may_reach_every_surface():
    through = a_cut(across=(0, 100), into=(0, 12))
    assert a_board(cuts=(through,)).cuts == (through,)


def test_cuts_are_added_to_a_new_board():
    plain = a_board()
    one = plain.with_cuts(a_cut())
    two = one.with_cuts(a_cut(along=(390, 396), across=(0, 100), kind=CutKind.DADO), a_cut(across=(40, 50)))
    assert (len(plain.cuts), len(one.cuts), len(two.cuts)) == (0, 1, 3)
    assert two.cuts[0] == one.cuts[0]


def test_a_cut_is_found_by_its_name():
    board = a_board(cuts=(a_cut(),))
    assert board.cut_named("bottom groove") is board.cuts[0]
    with pytest.raises(KeyError, match="no cut called dado"):
        board.cut_named("dado")


def test_the_makers_words_for_the_six_surfaces():
    assert [SIDE.word(surface) for surface in Surface] == [
        "inside face", "outside face", "bottom edge", "top edge", "front end", "back end",
    ]  # fmt: skip


def test_surfaces_and_their_opposites():
    for surface in Surface:
        assert surface.opposite.opposite is surface
        assert surface.opposite is not surface
        assert surface.is_far != surface.opposite.is_far
        assert surface.axis is surface.opposite.axis
    assert [surface.axis for surface in (Surface.FACE, Surface.FAR_EDGE, Surface.END)] == [Axis.INTO, Axis.ACROSS, Axis.ALONG]


@pytest.mark.parametrize(("start", "stop"), [(5, 5), (6, 5)])
def test_a_span_takes_wood(start, stop):
    with pytest.raises(BadInput, match="takes no wood"):
        Span.of(mm(start), mm(stop))


def test_a_span_about_its_centre():
    span = Span.about(mm(10), mm(5))
    assert (span.start, span.stop, span.size, span.centre) == (mm("7.5"), mm("12.5"), mm(5), mm(10))
    assert type(span.start) is Dimension


def test_spans_that_only_touch_do_not_overlap():
    span = Span.of(mm(2), mm(6))
    assert span.overlaps(Span.of(mm(5), mm(9)))
    assert span.overlaps(Span.of(mm(3), mm(4)))
    assert not span.overlaps(Span.of(mm(6), mm(9)))
    assert not span.overlaps(Span.of(mm(0), mm(2)))


def test_cuts_overlap_only_where_they_share_wood():
    groove = a_cut()
    assert groove.overlaps(a_cut(along=(10, 20), across=(0, 100)))
    assert not groove.overlaps(a_cut(into=(6, 12)))
    assert not groove.overlaps(a_cut(across=(16, 20)))


@pytest.mark.parametrize(
    ("surface", "depth"),
    [
        (Surface.FACE, 6),
        (Surface.FAR_FACE, 6),
        (Surface.EDGE, 7),
        (Surface.FAR_EDGE, 7),
        (Surface.END, 30),
        (Surface.FAR_END, 30),
    ],
)
def test_depth_is_square_to_the_surface(surface, depth):
    assert a_cut(along=(0, 30), across=(0, 7), into=(0, 6), surface=surface).depth == mm(depth)


def test_a_cut_is_square_unless_said_otherwise():
    assert a_cut().shape is Shape.SQUARE
    assert a_cut(shape=Shape.ROUND_ENDS).shape is Shape.ROUND_ENDS


@pytest.mark.parametrize("surface", [Surface.FACE, Surface.FAR_FACE])
def test_a_face_is_not_tapered(surface):
    with pytest.raises(BadInput, match="off an edge or an end"):
        Taper(surface, dimension(ZERO), dimension(mm(1)))


def test_a_taper_puts_no_wood_on():
    with pytest.raises(BadInput, match="0 is the least"):
        Taper(Surface.EDGE, dimension(ZERO), written(mm(-1), "taper", "here"))
    assert Taper(Surface.FAR_END, dimension(ZERO), dimension(mm(1))).far == mm(1)


def test_a_board_is_moved_with_its_place_and_one_without_stays():
    board = a_board()
    assert board.moved(mm(1), mm(2), mm(3)) is board
    assert board.end_on_left
    placed = a_board(place=Place.at(ZERO, ZERO, ZERO, "+Y", "+Z", "-X"))
    moved = placed.moved(mm(1), mm(2), mm(3))
    assert moved.place is not None
    assert moved.place.origin == (1, 2, 3)
    assert moved.cuts == placed.cuts
