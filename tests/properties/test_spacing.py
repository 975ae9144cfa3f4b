"""Laws of the spacing of mortises: it agrees with brute force two ways, keeps its distances, and knows no units or sides."""

from __future__ import annotations

from itertools import combinations, combinations_with_replacement, pairwise

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from joinlay.joints.layout import free
from joinlay.joints.spacing import KeepOut, shortest_line, spread
from joinlay.lengths import Fraction, Length, dimension
from tests.drawn import fractions

CASES = settings(max_examples=120)


@st.composite
def asked(draw, longest=90, most_keep_outs=3, unit=1):
    """A joint line in whole units, as plain numbers."""
    line = draw(st.integers(8, longest))
    cuts = []
    for _ in range(draw(st.integers(0, most_keep_outs))):
        start = draw(st.integers(-5, line))
        cuts.append((start * unit, (start + draw(st.integers(1, max(2, line // 3)))) * unit))
    numbers = {
        "line": line,
        "width": draw(st.integers(1, 6)) * 2,
        "margin": draw(st.integers(0, 6)),
        "between": draw(st.integers(0, 6)),
        "widest": draw(st.integers(4, 40)),
        "clearance": draw(st.integers(0, 3)),
        "slack": draw(st.sampled_from([0, 0, 2])),
    }
    return {name: number * unit for name, number in numbers.items()}, cuts


def length(number):
    return dimension(Length(Fraction(number)))


def spaced(numbers, cuts):
    given_ = {name: length(number) for name, number in numbers.items()}
    keep_outs = [KeepOut(length(start), length(stop), "cut") for start, stop in cuts]
    return spread(
        given_["line"],
        given_["width"],
        given_["margin"],
        given_["between"],
        given_["widest"],
        keep_outs,
        clearance=given_["clearance"],
        slack=given_["slack"],
    )


def places(numbers, cuts):
    return [centre.mm for centre in spaced(numbers, cuts).centres]


def open_to(numbers, cuts, width):
    """The free intervals for the centre of a mortise so wide, by hand."""
    half = Fraction(width, 2)
    room = numbers["clearance"] + half
    low, high = numbers["margin"] + half, numbers["line"] - numbers["margin"] - half
    return free(low, high, [(start - room, stop + room) for start, stop in cuts])


# -- brute force over which place stands in which interval, by closed formulas ---------------------------


def best_of_count(count, start, stop, pieces, least):
    """(least largest gap, largest smallest gap) over all assignments of places to intervals; None where no row of ``count``
    fits.
    """
    best = None
    for chosen in combinations_with_replacement(pieces, max(0, count - 2)):
        bounds = [(start, start), *chosen, (stop, stop)]
        pairs = list(combinations(range(count), 2))
        if any(bounds[j][1] - bounds[i][0] < (j - i) * least for i, j in pairs):
            continue
        widest = max(least, *((bounds[j][0] - bounds[i][1]) / (j - i) for i, j in pairs))
        tightest = min(widest, *((bounds[j][1] - bounds[i][0]) / (j - i) for i, j in pairs))
        if best is None or (widest, -tightest) < (best[0], -best[1]):
            best = (widest, tightest)
    return best


def best_by_assignments(numbers, cuts):
    """(count, largest gap, smallest gap) of the best row: (1, None, None) or (0, None, None) where it has no gap.

    Where no row keeps to the widest gap wanted, the least largest there can be, without the rest.
    """
    firsts = open_to(numbers, cuts, numbers["width"])
    rest = open_to(numbers, cuts, numbers["width"] + numbers["slack"])
    least = Fraction(numbers["width"] + numbers["slack"] + numbers["between"])
    if not firsts:
        return 0, None, None
    if not rest or rest[-1][1] - firsts[0][0] < least:
        return 1, None, None
    start, stop = firsts[0][0], rest[-1][1]
    most = int((stop - start) // least) + 1
    rows = {count: best_of_count(count, start, stop, rest, least) for count in range(2, most + 1)}
    fitting = [(count, row) for count, row in rows.items() if row is not None and row[0] <= numbers["widest"]]
    if not fitting:
        return None, min(row[0] for row in rows.values() if row is not None), None
    count, (widest, tightest) = fitting[0]
    return count, widest, tightest


@CASES
@given(asked(longest=70))
def test_it_is_the_best_of_all_assignments(case):
    numbers, cuts = case
    assume(numbers["width"] + numbers["between"] >= 6)  # keeps the counting short
    found = spaced(numbers, cuts)
    gaps = [after - before for before, after in pairwise([centre.mm for centre in found.centres])]
    count, widest, tightest = best_by_assignments(numbers, cuts)
    assert max(gaps, default=None) == widest
    assert found.is_within == (count is not None)
    if count is not None:
        assert (len(found.centres), min(gaps, default=None)) == (count, tightest)
    assert (found.largest.mm if found.largest else None) == max(gaps, default=None)
    assert (found.smallest.mm if found.smallest else None) == min(gaps, default=None)


@CASES
@given(asked(longest=150, most_keep_outs=4))
def test_a_gap_far_too_wide_has_no_room_for_another(case):
    numbers, cuts = case
    least = numbers["width"] + numbers["slack"] + numbers["between"]
    numbers["widest"] = max(numbers["widest"], 2 * least)
    rest = open_to(numbers, cuts, numbers["width"] + numbers["slack"])
    for before, after in pairwise(places(numbers, cuts)):
        room = [(max(low, before + least), min(high, after - least)) for low, high in rest]
        assert after - before <= numbers["widest"] + least or all(low > high for low, high in room)


# -- brute force over a lattice fine enough to hold the best row ------------------------------------------


def best_on_lattice(numbers, cuts):
    """As ``best_by_assignments``, by trying every row of whole numbers with up to four places; None where it takes more.

    With every number a multiple of 6 the best row stands on whole numbers: a gap is a difference of ends over 1, 2 or 3.
    """
    least, half = numbers["width"] + numbers["between"], numbers["width"] // 2
    open_places = [
        place
        for place in range(numbers["margin"] + half, numbers["line"] - numbers["margin"] - half + 1)
        if all(
            place + half <= start - numbers["clearance"] or place - half >= stop + numbers["clearance"] for start, stop in cuts
        )
    ]
    if not open_places:
        return ()
    start, stop = open_places[0], open_places[-1]
    if stop - start < least:
        return (min(open_places, key=lambda place: (abs(2 * place - numbers["line"]), place)),)
    for inner in range(3):
        rows = [(start, *between, stop) for between in combinations(open_places, inner)]
        gaps = [[after - before for before, after in pairwise(row)] for row in rows]
        sound = [(max(row), -min(row)) for row in gaps if min(row) >= least]
        if sound and min(sound)[0] <= numbers["widest"]:
            return min(sound)
    return None


@CASES
@given(asked(longest=20, most_keep_outs=2, unit=6))
def test_it_is_the_best_on_a_lattice(case):
    numbers, cuts = case
    numbers["slack"] = 0
    expected = best_on_lattice(numbers, cuts)
    assume(expected is not None)
    found = places(numbers, cuts)
    gaps = [after - before for before, after in pairwise(found)]
    assert ((max(gaps), -min(gaps)) if gaps else tuple(found)) == expected


# -- what every spacing keeps ----------------------------------------------------------------------------


@CASES
@given(asked())
def test_distances_are_kept_and_ends_stand_far_out(case):
    numbers, cuts = case
    found = places(numbers, cuts)
    spans = []
    for n, place in enumerate(found):
        half = Fraction(numbers["width"] + (numbers["slack"] if n else 0), 2)
        spans.append((place - half, place + half))
    assert all(low >= numbers["margin"] and high <= numbers["line"] - numbers["margin"] for low, high in spans)
    for low, high in spans:
        assert all(high <= start - numbers["clearance"] or low >= stop + numbers["clearance"] for start, stop in cuts)
    assert all(after[0] - before[1] >= numbers["between"] for before, after in pairwise(spans))
    if len(found) > 1:
        assert found[0] == open_to(numbers, cuts, numbers["width"])[0][0]
        assert found[-1] == open_to(numbers, cuts, numbers["width"] + numbers["slack"])[-1][1]


@CASES
@given(asked(), st.sampled_from([Fraction(2), Fraction(1, 3), Fraction(127, 5)]))
def test_everything_so_many_times_as_large(case, times):
    numbers, cuts = case
    larger = {name: number * times for name, number in numbers.items()}
    assert places(larger, [(start * times, stop * times) for start, stop in cuts]) == [
        place * times for place in places(numbers, cuts)
    ]


@CASES
@given(asked())
def test_from_the_other_end_it_is_as_even(case):
    numbers, cuts = case
    numbers["slack"] = 0
    turned = [(numbers["line"] - stop, numbers["line"] - start) for start, stop in cuts]
    one, other = spaced(numbers, cuts), spaced(numbers, turned)
    assert (len(one.centres), one.largest, one.smallest) == (len(other.centres), other.largest, other.smallest)
    if one.centres and len(one.centres) > 1:
        assert one.centres[0].mm == numbers["line"] - other.centres[-1].mm


@CASES
@given(asked(), fractions(0, 1, max_denominator=32), fractions(0, 1, max_denominator=32))
def test_a_keep_out_more_never_makes_it_better(case, one, other):
    numbers, cuts = case
    numbers["line"] += 40
    fewer = spaced(numbers, cuts)
    assume(len(fewer.centres) > 1 and one != other)
    # Somewhere between the end mortises, so that these stay.
    first, last = fewer.centres[0].mm, fewer.centres[-1].mm
    reach = Fraction(numbers["width"] + numbers["slack"], 2) + numbers["clearance"]
    room = last - first - 2 * reach
    assume(room > 0)
    more = spaced(numbers, [*cuts, tuple(first + reach + room * share for share in sorted([one, other]))])
    assert (more.centres[0], more.centres[-1]) == (fewer.centres[0], fewer.centres[-1])
    if more.is_within:
        assert fewer.is_within
        assert len(fewer.centres) <= len(more.centres)
        if len(fewer.centres) == len(more.centres):
            assert (more.largest.mm, -more.smallest.mm) >= (fewer.largest.mm, -fewer.smallest.mm)
    else:
        assert more.largest >= fewer.largest


@CASES
@given(asked())
def test_the_order_of_keep_outs_does_not_matter(case):
    numbers, cuts = case
    assert places(numbers, cuts) == places(numbers, list(reversed(cuts)))


@CASES
@given(asked())
def test_the_shortest_line_takes_one_and_a_hair_less_none(case):
    numbers, cuts = case
    keep_outs = [KeepOut(length(start), length(stop), "cut") for start, stop in cuts]
    shortest = shortest_line(
        length(numbers["width"]), length(numbers["margin"]), keep_outs, clearance=length(numbers["clearance"])
    ).mm
    assert len(places({**numbers, "line": shortest}, cuts)) == 1
    assert places({**numbers, "line": shortest - Fraction(1, 1000)}, cuts) == []
