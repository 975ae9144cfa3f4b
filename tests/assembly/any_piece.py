"""Pieces drawn at random, as a maker might ask for them: sound ones mostly, odd ones now and then.

A piece is a hundred draws. So every way to draw is made once and kept, since hypothesis looks a new one over each time.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

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


#: Yes or no, none or one, a choice of a few.
YES_OR_NO = st.booleans()
UP_TO_TWO, UP_TO_THREE, UP_TO_FOUR = (st.integers(0, most) for most in (2, 3, 4))
FRONT_JOINTS, BACK_JOINTS = (st.sampled_from(list(kinds.values())) for kinds in (AT_FRONT, AT_BACK))
BACK_HEIGHTS, BOTTOM_REACHES, UNITS = st.sampled_from(BackHeight), st.sampled_from(BottomReach), st.sampled_from(Unit)
RATIOS = st.sampled_from([Fraction(11, 10), Fraction(6, 5), Fraction(8, 7), Fraction(1)])
SPECIES = st.sampled_from(["black cherry", "red oak", "eastern white pine"])


@cache
def lengths(unit, low, high, parts=(16, 32, 3)):
    """From ``low`` to ``high`` inches, on tenths of a millimetre or parts of an inch, thirds too, which no rule shows."""
    low, high = fraction_in(str(low)), fraction_in(str(high))
    if unit is Unit.MM:
        return st.integers(int(low * 254), int(high * 254)).map(lambda n: size(Length(Fraction(n, 10))))
    some = st.sampled_from([(INCH / part, st.integers(int(low * part), int(high * part))) for part in parts])

    @st.composite
    def drawn(draw):
        part, count = draw(some)
        return size(Length(part * draw(count)))

    return drawn()


@cache
@st.composite
def stocks(draw, unit, nominal, low, high):
    """Sheet or solid wood sold as ``nominal`` inches, as it measures."""
    measured = draw(lengths(unit, low, high, (64,)))
    if draw(YES_OR_NO):
        kind = draw(SPECIES)
        return Solid(f"{kind} {nominal}", size(nominal), measured, kind)
    return Sheet(f"ply {nominal}", size(nominal), measured, size(96), size(48))


@cache
@st.composite
def drawer_makes(draw, unit):
    half, thick = stocks(unit, "1/2", "7/16", "5/8"), stocks(unit, "3/4", "5/8", "9/8")
    sides = draw(half)
    return DrawerMake(
        front=draw(thick),
        sides=sides,
        back=draw(half) if draw(YES_OR_NO) else sides,
        bottom=draw(stocks(unit, "1/4", "5/32", "9/32")),
        front_joint=draw(FRONT_JOINTS),
        back_joint=draw(BACK_JOINTS),
        back_height=(height := draw(BACK_HEIGHTS)),
        bar=draw(thick) if draw(UP_TO_TWO) == 2 else None,
        bottom_reach=draw(BOTTOM_REACHES) if height is BackHeight.ON_BOTTOM else BottomReach.BACK,
    )


@cache
def just_so_many(one, count):
    """Lists of ``count`` draws of ``one``."""
    return st.lists(one, min_size=count, max_size=count)


@cache
def remainders(count):
    """Which of ``count`` openings takes what rounding leaves over, by its number or counted from the last; or none is to."""
    return st.one_of(st.none(), st.integers(-1, count - 1))


@cache
@st.composite
def heights(draw, unit, count):
    """A division of ``count`` openings, all kinds alike often."""
    which = draw(UP_TO_THREE)
    if which == 0 or count == 1:
        return Equal(count)
    if which == 1:
        return Arithmetic(count, draw(lengths(unit, "1/8", "5/4")))
    if which == 2:
        return Geometric(count, draw(RATIOS))
    given = draw(just_so_many(lengths(unit, 3, 5), count))
    given[draw(st.integers(0, count - 1))] = None
    return OneByOne(tuple(given))


#: The rows that a bank may have, a plain drawer twice as often as each of the others.
ROWS = st.sampled_from(
    [
        RowWish(),
        RowWish(),
        RowWish(2),
        RowWish(2, ByShares((Fraction(1), Fraction(2)))),
        RowWish(3),
        RowWish(0, open=OpenMake()),
        # A place of the row left open, beside drawers (RO-1).
        RowWish(1, open=OpenMake(), left_open=(2,)),
        RowWish(2, ByShares((Fraction(1), Fraction(1), Fraction(2))), OpenMake(fixed=1), left_open=(1,)),
        RowWish(0, open=OpenMake(fixed=1)),
        RowWish(0, open=OpenMake(loose=1)),
    ]
)


@cache
@st.composite
def rows(draw, count):
    """The rows of a bank of ``count``, mostly one drawer each; none where there is nothing to say of them."""
    if draw(UP_TO_TWO):
        return ()
    return tuple(draw(just_so_many(ROWS, count)))


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


#: The rules that a shop of each unit may have, and what its mortiser can be set to: anything, or some steps.
RULES = {Unit.INCH: st.sampled_from(["1/32 in", "1/64 in"]), Unit.MM: st.sampled_from(["0.5 mm", "0.1 mm"])}
MORTISERS = {unit: st.sampled_from([{}, steps]) for unit, steps in STEPS.items()}


@cache
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
    rule = draw(RULES[unit])
    own = shop(unit, rule, **{**figures, "mortise_slack": draw(lengths(unit, 0, "1/16", (32,)))})
    return replace(own, machines=replace(own.machines, **draw(MORTISERS[unit])))


#: At which hands a piece has fillers.
FILLED = st.sampled_from([(Hand.LEFT,), (Hand.RIGHT,), (Hand.LEFT, Hand.RIGHT)])
#: How many drawers each bank has, and how wide the strip to scribe is.
COUNTS = st.lists(st.integers(1, 5), min_size=1, max_size=2)
SCRIBES = st.sampled_from([size(0), size(0), size("3/4")])


@cache
@st.composite
def specs(draw):
    """A piece and the shop it is made in."""
    unit = draw(UNITS)
    own = draw(shops(unit))
    counts = draw(COUNTS)
    banks = []
    for count in counts:
        wish = DrawerWish(draw(drawer_makes(unit)), own)
        rounding = Rounding(own.rule, draw(remainders(count))) if draw(YES_OR_NO) else None
        side_by_side = draw(rows(count))
        drawers = sum(row.count for row in side_by_side) if side_by_side else count
        mullion = draw(lengths(unit, "3/4", 2)) if draw(YES_OR_NO) else None
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
        overhang=draw(lengths(unit, "1/16", "1/4")) if draw(YES_OR_NO) else size(0),
        scribe=draw(SCRIBES),
    )
    case = CaseMake(
        sides,
        draw(stocks(unit, "3/4", "1/2", "3/4")) if draw(YES_OR_NO) else sides,
        draw(stocks(unit, "1/4", "3/16", "3/8")),
        has_stopped_dadoes=draw(YES_OR_NO),
        back_inset=draw(lengths(unit, "1/3", 1)) if draw(UP_TO_TWO) == 2 else None,
    )
    runner = draw(stocks(unit, "3/4", "1/2", "7/8"))
    least = max(draw(lengths(unit, 5 * max(counts) + 4, 60)).mm, 0)
    top = TopMake(runner, draw(lengths(unit, 0, 1)), draw(lengths(unit, 0, 1))) if draw(YES_OR_NO) else None
    base = BaseMake(runner, draw(lengths(unit, 2, 4)), draw(lengths(unit, "-1/8", "1/2"))) if draw(YES_OR_NO) else None
    if base is not None:
        kind = draw(UP_TO_FOUR)
        base = replace(base, foot=draw(lengths(unit, 1, 3)) if kind == 1 else None, has_recess=kind == 2, is_cut=kind == 4)
        if kind == 1 and draw(YES_OR_NO):
            base = replace(base, leveller=Leveller(size("1/4"), draw(lengths(unit, "1/2", 2))))
    filler = None
    if not frame.scribe and draw(UP_TO_TWO) == 0:
        # As wide at least as the top overhangs.
        gaps = {hand: draw(lengths(unit, 1, 4)) for hand in draw(FILLED)}
        filler = FillerMake(frame.stock if draw(YES_OR_NO) else runner, gaps, draw(lengths(unit, 0, 1)))
    return PieceSpec(
        width=size(Length(draw(lengths(unit, 12, 30)).mm * len(counts))),
        height=size(Length(least)),
        depth=draw(lengths(unit, 10, 26)),
        frame=frame,
        case=case,
        banks=tuple(banks),
        runner=runner,
        stops=StopMake(runner) if draw(YES_OR_NO) else None,
        top=top,
        base=base,
        filler=filler,
    ), own
