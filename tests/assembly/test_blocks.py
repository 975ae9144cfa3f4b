"""What the blocks of two boards say they share at most, held to what the geometry kernel finds."""

from itertools import combinations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from joinlay.boards import CutKind, Datum, Place, Shape, Span, Surface
from joinlay.boards.meeting import Way
from joinlay.checks.blocks import blocks_of, most_shared
from joinlay.checks.closing import swept
from joinlay.checks.solids import CONTACT, solid_of
from joinlay.lengths import Fraction, dimension, fraction_in, mm
from tests import by_hand
from tests.assembly.test_meetings import CHESTS, chest

DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")
#: Ways to stand, all right-handed: flat, upright, on end, and turned over.
STANDINGS = st.sampled_from([("+X", "+Y", "+Z"), ("+Y", "+Z", "+X"), ("+Z", "+X", "+Y"), ("-Y", "+Z", "-X"), ("+X", "-Y", "-Z")])
SIZES = (40, 24, 12)
#: From where to where a cut runs on each axis: through, open at one end, or within the wood.
SPANS = [st.sampled_from([(0, n), (0, n // 2), (n // 3, n), (n // 4, n // 2), (n // 3, n // 2)]) for n in SIZES]
SHIFTS = st.integers(-12, 40)
SHAPES, SURFACES = st.sampled_from([Shape.SQUARE, Shape.SQUARE, Shape.ROUND_ENDS]), st.sampled_from(list(Surface))
PLAIN = Place.at(mm(0), mm(0), mm(0), "+X", "+Y", "+Z")


def board(name, sizes, place, cuts=(), *, round_edges=False):
    length, width, thickness = (dimension(mm(size)) for size in sizes)
    return by_hand.board(name, "part", "ply", length, width, thickness, DATUM, cuts, place=place, has_round_edges=round_edges)


@st.composite
def cuts(draw):
    shape = draw(SHAPES)
    along, across, into = (Span.of(mm(start), mm(stop)) for start, stop in map(draw, SPANS))
    return by_hand.cut(CutKind.MORTISE, draw(SURFACES), along, across, into, "cut", shape=shape)


@st.composite
def boards(draw, name):
    x, y, z = (mm(draw(SHIFTS)) for _ in range(3))
    along, across, into = draw(STANDINGS)
    place = Place.at(x, y, z, along, across, into)
    if not place.along[2] and draw(st.integers(0, 4)) == 0:
        leaning = (place.along[0], place.along[1], Fraction(1, draw(st.integers(5, 9))))
        place = Place(place.origin, leaning, place.across, place.into, Fraction(draw(st.sampled_from([0, 8]))))
    made = tuple(draw(st.lists(cuts(), max_size=3)))
    return board(name, SIZES, place, made, round_edges=draw(st.booleans()))


def kernel_finds(one, other):
    """The volume that two bodies share, worked out by the kernel whatever the blocks say."""
    return float((one.wood ^ other.wood).volume())


def tenon_in_mortise(slack):
    """A rounded tenon in a slot that is wider by ``slack`` of a millimetre."""
    along, across, into = ((8, 32 + fraction_in(slack)), (6, 18), (0, 10))
    spans = [Span.of(mm(start), mm(stop)) for start, stop in (along, across, into)]
    slot = by_hand.cut(CutKind.MORTISE, Surface.FACE, spans[0], spans[1], spans[2], "cut", shape=Shape.ROUND_ENDS)
    mortised = board("one", SIZES, PLAIN, (slot,))
    tenon = board("other", (20, 24, 12), Place.at(mm(8), mm(6), mm(-10), "+Z", "+X", "+Y"), round_edges=True)
    return mortised, tenon


@settings(max_examples=120)
@given(boards("one"), boards("other"))
@example(*tenon_in_mortise("0"))
@example(*tenon_in_mortise("1/100"))
@example(*tenon_in_mortise("-1/100"))
def test_two_boards_never_share_more_than_their_blocks(one, other):
    bodies = solid_of(one), solid_of(other)
    most, found = most_shared(blocks_of(one), blocks_of(other)), kernel_finds(*bodies)
    assert found <= most + CONTACT
    is_square = all(
        not board.place.leans and not board.has_round_edges and {cut.shape for cut in board.cuts} <= {Shape.SQUARE}
        for board in (one, other)
    )
    # Where nothing leans or is round, the reckoning is exact.
    if is_square:
        assert found == pytest.approx(most, abs=CONTACT)


@settings(max_examples=80)
@given(boards("one"), boards("other"), st.sampled_from(list(Way)), st.integers(1, 60))
@example(*tenon_in_mortise("0"), Way.DOWN, 20)
@example(*tenon_in_mortise("0"), Way.UP, 20)
def test_nor_does_one_that_is_moved(one, other, way, far):
    room, standing = swept(solid_of(one), way, far), solid_of(other)
    assert kernel_finds(room, standing) <= most_shared(room.cut(), standing.cut()) + CONTACT
    around = room.wood.bounding_box()
    # Of a board that is all cut away nothing is left to have a box around it.
    assert room.wood.is_empty() or all(low <= at + CONTACT for low, at in zip(room.low, around[:3], strict=True))
    assert room.wood.is_empty() or all(high >= at - CONTACT for high, at in zip(room.high, around[3:], strict=True))


def test_a_tenon_in_its_mortise_is_told_without_the_kernel():
    for slack, is_told in (("0", True), ("1/100", True), ("-1/100", False)):
        mortised, tenon = tenon_in_mortise(slack)
        assert (most_shared(blocks_of(mortised), blocks_of(tenon)) <= CONTACT) is is_told


@pytest.mark.parametrize("changed", ["tapered", "half-blind and housed", "barred"])
def test_in_a_piece_both_say_the_same_of_every_two_parts(changed):
    piece = chest(**CHESTS[changed])
    bodies = [solid_of(one) for one in piece.boards if one.place is not None]
    near = [(one, other) for one, other in combinations(bodies, 2) if one.meets(other)]
    told = [most_shared(one.cut(), other.cut()) <= CONTACT for one, other in near]
    assert all(kernel_finds(one, other) <= CONTACT for one, other in near)
    # What is left for the kernel is where a side leans.
    assert sum(told) >= len(told) * (2 / 3 if changed == "tapered" else 1)
