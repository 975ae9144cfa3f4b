"""Laws of boards: a point moves as its board does, mirroring turns left into right and back, spans and cuts agree on what
overlaps.
"""

from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st

from joinlay.boards import Axis, CutKind, Datum, Place, Span, Surface
from joinlay.errors import BadInput
from joinlay.lengths import ZERO, Fraction, dimension, mm
from tests import by_hand
from tests.drawn import fractions

amounts = fractions(-900, 900, max_denominator=64).map(mm)
shares = fractions(-1, 1, max_denominator=1000)

#: Every way a board can stand square in the piece, right-handed and left-handed.
STANDINGS = [
    (a + first, b + second, c + third) for first, second, third in permutations("XYZ") for a in "+-" for b in "+-" for c in "+-"
]
places = st.builds(
    lambda x, y, z, standing: Place.at(x, y, z, standing[0], standing[1], standing[2]),
    amounts,
    amounts,
    amounts,
    st.sampled_from(STANDINGS),
)


@st.composite
def leaning_places(draw):
    """A board that leans in the direction of its thickness, as the side of a tapered drawer does."""
    along, across, into = draw(st.sampled_from(STANDINGS))
    return Place.at(draw(amounts), draw(amounts), draw(amounts), along, across, into, lean=(into, draw(shares)))


def mirrored(place):
    """The same board on the other side of the piece: left and right change places."""

    def flip(vector):
        return (-vector[0], vector[1], vector[2])

    return Place(flip(place.origin), flip(place.along), flip(place.across), flip(place.into))


def less(p, q):
    """From point q to point p."""
    return tuple(a - b for a, b in zip(p, q, strict=True))


@given(places | leaning_places(), *[amounts] * 6)
def test_equal_steps_on_the_board_are_equal_steps_in_the_piece(place, a, b, c, d, e, f):
    step = less(place.point(a + d, b + e, c + f), place.point(a, b, c))
    assert step == less(place.point(d, e, f), place.point(ZERO, ZERO, ZERO))
    middle = place.point((a + d) / 2, (b + e) / 2, (c + f) / 2)
    assert middle == tuple((p + q) / 2 for p, q in zip(place.point(a, b, c), place.point(d, e, f), strict=True))


@given(places, amounts, amounts, amounts)
def test_a_square_board_keeps_its_distances(place, a, b, c):
    x, y, z = less(place.point(a, b, c), place.point(ZERO, ZERO, ZERO))
    assert x * x + y * y + z * z == a.mm**2 + b.mm**2 + c.mm**2


@given(places | leaning_places(), *[amounts] * 6)
def test_moving_a_board_moves_every_point_alike(place, x, y, z, a, b, c):
    assert less(place.moved(x, y, z).point(a, b, c), place.point(a, b, c)) == (x.mm, y.mm, z.mm)
    assert place.moved(x, y, z).moved(-x, -y, -z) == place
    assert place.moved(x, y, z).end_on_left == place.end_on_left


@given(places | leaning_places())
def test_mirroring_changes_the_hand_and_twice_is_unchanged(place):
    assert mirrored(place).end_on_left != place.end_on_left
    assert mirrored(mirrored(place)) == place


@given(places | leaning_places(), amounts, amounts, amounts)
def test_points_mirror_with_their_board(place, a, b, c):
    x, y, z = place.point(a, b, c)
    assert mirrored(place).point(a, b, c) == (-x, y, z)


def test_half_of_all_standings_have_their_end_on_the_left():
    on_left = [standing for standing in STANDINGS if Place.at(ZERO, ZERO, ZERO, *standing).end_on_left]
    assert len(on_left) == len(STANDINGS) / 2 == 24


DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")
sizes = fractions(Fraction(1, 64), 500, max_denominator=64)


@st.composite
def spans(draw, low=-10, high=510):
    """A span with its start before its stop."""
    start, stop = sorted(draw(st.lists(fractions(low, high, max_denominator=32), min_size=2, max_size=2, unique=True)))
    return Span.of(mm(start), mm(stop))


@given(sizes, sizes, sizes, spans(), spans(), spans(), st.sampled_from(list(Surface)))
def test_a_cut_is_taken_exactly_when_it_lies_in_the_wood(length, width, thickness, along, across, into, surface):
    wood = dict(zip(Axis, (length, width, thickness), strict=True))
    cut = by_hand.cut(CutKind.DADO, surface, along, across, into, "dado")
    inside = all(cut.span(axis).start.mm >= 0 and cut.span(axis).stop.mm <= wood[axis] for axis in Axis)
    long, wide, thick = (dimension(mm(size)) for size in (length, width, thickness))
    plain = by_hand.board("board", "drawer side", "ash", long, wide, thick, DATUM)
    try:
        taken = plain.with_cuts(cut).cuts
    except BadInput:
        taken = ()
    assert taken == ((cut,) if inside else ())


@given(spans(), spans(), amounts)
def test_spans_overlap_alike_from_either_side_and_wherever_they_lie(a, b, by):
    assert a.overlaps(b) == b.overlaps(a)
    assert a.overlaps(a)
    moved_a, moved_b = (Span.of(span.start + by, span.stop + by) for span in (a, b))
    assert moved_a.overlaps(moved_b) == a.overlaps(b)
    shared = min(a.stop, b.stop) - max(a.start, b.start)
    assert a.overlaps(b) == (shared > ZERO)


@given(spans())
def test_a_span_is_its_centre_and_size(span):
    assert Span.about(span.centre, span.size) == span
    assert span.start + span.size == span.stop
