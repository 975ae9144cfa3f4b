"""Pieces drawn at random, as a maker might ask for them: sound ones mostly, odd ones now and then."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from joinlay.boards import Hand
from joinlay.casework.base import BaseMake
from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.corners import AT_BACK, AT_FRONT
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.fillers import FillerMake
from joinlay.casework.graduation import Arithmetic, ByShares, Equal, Geometric, OneByOne, Rounding
from joinlay.casework.levellers import Leveller
from joinlay.casework.opening import BackHeight, BottomReach, DrawerMake
from joinlay.casework.piece import Bank, PieceSpec
from joinlay.casework.row import RowWish
from joinlay.casework.shelves import OpenMake
from joinlay.casework.stops import StopMake
from joinlay.casework.top import TopMake
from joinlay.lengths import Fraction, Length, Unit, fraction_in
from joinlay.stock import Sheet, Solid
from tests.assembly.pieces import shop, size

INCH = Fraction(127, 5)


def lengths(unit, low, high, parts=(16, 32, 3)):
    """From ``low`` to ``high`` inches, on tenths of a millimetre or parts of an inch, thirds too, which no rule shows."""
    low, high = fraction_in(str(low)), fraction_in(str(high))
    if unit is Unit.MM:
        return st.integers(int(low * 254), int(high * 254)).map(lambda n: size(Length(Fraction(n, 10))))
    part = st.sampled_from(parts)
    return part.flatmap(lambda p: st.integers(int(low * p), int(high * p)).map(lambda n: size(Length(INCH * Fraction(n, p)))))


def stocks(unit, nominal, low, high):
    """Sheet or solid wood sold as ``nominal`` inches, as it measures."""
    measured = lengths(unit, low, high, (64,))
    sheet = measured.map(lambda t: Sheet(f"ply {nominal}", size(nominal), t, size(96), size(48)))
    kind = st.sampled_from(["black cherry", "red oak", "eastern white pine"])
    return st.one_of(sheet, st.builds(lambda t, k: Solid(f"{k} {nominal}", size(nominal), t, k), measured, kind))


@st.composite
def drawer_makes(draw, unit):
    half = stocks(unit, "1/2", "7/16", "5/8")
    sides = draw(half)
    return DrawerMake(
        front=draw(stocks(unit, "3/4", "5/8", "9/8")),
        sides=sides,
        back=draw(st.one_of(st.just(sides), half)),
        bottom=draw(stocks(unit, "1/4", "5/32", "9/32")),
        front_joint=draw(st.sampled_from(list(AT_FRONT.values()))),
        back_joint=draw(st.sampled_from(list(AT_BACK.values()))),
        back_height=(height := draw(st.sampled_from(BackHeight))),
        bar=draw(st.one_of(st.none(), st.none(), stocks(unit, "3/4", "5/8", "9/8"))),
        bottom_reach=draw(st.sampled_from(BottomReach)) if height is BackHeight.ON_BOTTOM else BottomReach.BACK,
    )


@st.composite
def heights(draw, unit, count):
    """A division of ``count`` openings, all kinds alike often."""
    which = draw(st.integers(0, 3))
    if which == 0 or count == 1:
        return Equal(count)
    if which == 1:
        return Arithmetic(count, draw(lengths(unit, "1/8", "5/4")))
    if which == 2:
        return Geometric(count, draw(st.sampled_from([Fraction(11, 10), Fraction(6, 5), Fraction(8, 7), Fraction(1)])))
    given = draw(st.lists(lengths(unit, 3, 5), min_size=count, max_size=count))
    given[draw(st.integers(0, count - 1))] = None
    return OneByOne(tuple(given))


@st.composite
def rows(draw, count):
    """The rows of a bank of ``count``, mostly one drawer each; none where there is nothing to say of them."""
    if draw(st.integers(0, 2)):
        return ()
    kinds = [
        RowWish(),
        RowWish(),
        RowWish(2),
        RowWish(2, ByShares((Fraction(1), Fraction(2)))),
        RowWish(3),
        RowWish(0, open=OpenMake()),
    ]
    # A place of the row left open, beside drawers (RO-1).
    kinds += [
        RowWish(1, open=OpenMake(), left_open=(2,)),
        RowWish(2, ByShares((Fraction(1), Fraction(1), Fraction(2))), OpenMake(fixed=1), left_open=(1,)),
    ]
    kinds += [RowWish(0, open=OpenMake(fixed=1)), RowWish(0, open=OpenMake(loose=1))]
    wide = st.sampled_from(kinds)
    return tuple(draw(st.lists(wide, min_size=count, max_size=count)))


#: What a mortiser with fixed steps can be set to (MS-10).
STEPS = {
    Unit.INCH: {
        "mortise_depths": tuple(map(size, ("3/8", "1/2", "5/8", "3/4", "1"))),
        "mortise_heights": tuple(map(size, ("3/16", "7/32", "1/4", "5/16", "3/8", "7/16"))),
        "mortise_widths": tuple(map(size, ("3/8", "1/2", "11/16", "3/4", "1"))),
    },
    Unit.MM: {
        "mortise_depths": tuple(map(size, ("10 mm", "12 mm", "15 mm", "20 mm", "25 mm"))),
        "mortise_heights": tuple(map(size, ("5 mm", "5.7 mm", "6 mm", "7 mm", "8 mm", "9 mm", "10 mm"))),
        "mortise_widths": tuple(map(size, ("8 mm", "10 mm", "13 mm", "18 mm", "23 mm"))),
    },
}


@st.composite
def shops(draw, unit):
    figures = {
        "side_clearance": draw(lengths(unit, "1/32", "1/8", (32, 64))),
        "top_clearance": draw(lengths(unit, "1/32", "1/8", (32, 64))),
        "bottom_clearance_of_the_front": draw(lengths(unit, 0, "1/16", (32, 64))),
        "taper": draw(lengths(unit, "-1/32", "1/16", (32, 64))),
        "front_set-back": draw(lengths(unit, 0, "1/16", (32,))),
        "back_gap": draw(lengths(unit, "1/8", 1)),
    }
    rule = draw(st.sampled_from(["1/32 in", "1/64 in"] if unit is Unit.INCH else ["0.5 mm", "0.1 mm"]))
    own = shop(unit, rule, **{**figures, "mortise_slack": draw(lengths(unit, 0, "1/16", (32,)))})
    return replace(own, machines=replace(own.machines, **draw(st.sampled_from([{}, STEPS[unit]]))))


#: At which hands a piece has fillers.
FILLED = [(Hand.LEFT,), (Hand.RIGHT,), (Hand.LEFT, Hand.RIGHT)]


@st.composite
def specs(draw):
    """A piece and the shop it is made in."""
    unit = draw(st.sampled_from(Unit))
    own = draw(shops(unit))
    counts = draw(st.lists(st.integers(1, 5), min_size=1, max_size=2))
    banks = []
    for count in counts:
        wish = DrawerWish(draw(drawer_makes(unit)), own)
        remainders = st.one_of(st.none(), st.integers(-1, count - 1))
        rounding = draw(st.one_of(st.none(), remainders.map(lambda n: Rounding(own.rule, n))))
        side_by_side = draw(rows(count))
        drawers = sum(row.count for row in side_by_side) if side_by_side else count
        mullion = draw(st.one_of(st.none(), lengths(unit, "3/4", 2)))
        banks.append(Bank(draw(heights(unit, count)), (wish,) * drawers, rounding, rows=side_by_side, mullion=mullion))
    sides = draw(stocks(unit, "3/4", "5/8", "13/16"))
    stile = draw(lengths(unit, "3/2", "5/2"))
    frame = FrameMake(
        draw(stocks(unit, "3/4", "3/4", "1")),
        stile=stile,
        mullion=draw(lengths(unit, "3/2", 2)),
        rail=draw(lengths(unit, "7/8", "5/4")),
        top_rail=draw(lengths(unit, "3/2", "5/2")),
        bottom_rail=draw(lengths(unit, "3/2", 3)),
        overhang=draw(st.one_of(st.just(size(0)), lengths(unit, "1/16", "1/4"))),
        scribe=draw(st.sampled_from([size(0), size(0), size("3/4")])),
    )
    case = CaseMake(
        sides, draw(st.one_of(st.just(sides), stocks(unit, "3/4", "1/2", "3/4"))), draw(stocks(unit, "1/4", "3/16", "3/8")),
        has_stopped_dadoes=draw(st.booleans()), back_inset=draw(st.one_of(st.none(), st.none(), lengths(unit, "1/3", 1))),
    )  # fmt: skip
    runner = draw(stocks(unit, "3/4", "1/2", "7/8"))
    least = max(draw(lengths(unit, 5 * max(counts) + 4, 60)).mm, 0)
    top = TopMake(runner, draw(lengths(unit, 0, 1)), draw(lengths(unit, 0, 1))) if draw(st.booleans()) else None
    base = BaseMake(runner, draw(lengths(unit, 2, 4)), draw(lengths(unit, "-1/8", "1/2"))) if draw(st.booleans()) else None
    if base is not None:
        kind = draw(st.integers(0, 4))
        base = replace(base, foot=draw(lengths(unit, 1, 3)) if kind == 1 else None, has_recess=kind == 2, is_cut=kind == 4)
        if kind == 1 and draw(st.booleans()):
            base = replace(base, leveller=Leveller(size("1/4"), draw(lengths(unit, "1/2", 2))))
    filler = None
    if not frame.scribe and draw(st.integers(0, 2)) == 0:
        # As wide at least as the top overhangs.
        gaps = {hand: draw(lengths(unit, 1, 4)) for hand in draw(st.sampled_from(FILLED))}
        filler = FillerMake(frame.stock if draw(st.booleans()) else runner, gaps, draw(lengths(unit, 0, 1)))
    return PieceSpec(
        width=size(Length(draw(lengths(unit, 12, 30)).mm * len(counts))),
        height=size(Length(least)),
        depth=draw(lengths(unit, 10, 26)),
        frame=frame,
        case=case,
        banks=tuple(banks),
        runner=runner,
        stops=StopMake(runner) if draw(st.booleans()) else None,
        top=top,
        base=base,
        filler=filler,
    ), own
