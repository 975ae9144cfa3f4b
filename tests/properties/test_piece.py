"""Laws of the piece: parts have their own names, an inch job is the same job in millimetres, and planning twice is planning
once.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace

from hypothesis import given, settings

from joinlay.boards import Axis, PartKind
from joinlay.casework.piece import plan_piece
from joinlay.findings import Refused
from joinlay.lengths import Dimension, Fraction, Length
from tests.assembly.any_piece import specs
from tests.assembly.pieces import Whole, tried

#: What stands under a piece, and how far it may stand out.
ON_THE_FLOOR = (PartKind.CASE_SIDE, PartKind.CASE_BACK, PartKind.TOE_BOARD)
BASE = (PartKind.BASE_FRONT, PartKind.BASE_BACK, PartKind.BASE_SIDE, PartKind.FOOT)
PROUD = Fraction(127, 40)


def shape(board):
    """A board as plain numbers."""
    cuts = [(cut.name, cut.kind, *((cut.span(axis).start.mm, cut.span(axis).stop.mm) for axis in Axis)) for cut in board.cuts]
    return board.name, board.length.mm, board.width.mm, board.thickness.mm, board.place, tuple(cuts)


def renamed(thing):
    """The same thing with every dimension bare, as if it had been written in another unit and file."""
    if isinstance(thing, Dimension):
        return Dimension(Length(Fraction(thing.mm)), thing.name, origin="elsewhere")
    if isinstance(thing, tuple):
        return tuple(renamed(one) for one in thing)
    if is_dataclass(thing) and not isinstance(thing, type):
        return replace(thing, **{field.name: renamed(getattr(thing, field.name)) for field in fields(thing) if field.init})
    return thing


@settings(max_examples=40)
@given(specs())
def test_planning_is_pure_and_names_are_unique(drawn):
    spec, own = drawn
    made, again = tried(spec, own), tried(renamed(spec), own)
    assert type(made) is type(again)
    if isinstance(made, Whole) and isinstance(again, Whole):
        assert [shape(board) for board in made.boards] == [shape(board) for board in again.boards]
        names = [board.name for board in made.boards]
        assert len(set(names)) == len(names)


@settings(max_examples=40)
@given(specs())
def test_openings_and_frame_fill_the_piece_exactly(drawn):
    spec, own = drawn
    try:
        piece = plan_piece(spec, own)
    except Refused:
        return
    sizes = spec.frame.sizes(own.practice)
    across = 2 * sizes.stile.mm + (len(piece.bays) - 1) * sizes.mullion.mm + sum(bay.width.mm for bay in piece.bays)
    assert across == spec.width.mm
    for bay in piece.bays:
        up = sizes.top_rail.mm + sizes.bottom_rail.mm + (len(bay.heights) - 1) * bay.rail.mm + sum(h.mm for h in bay.heights)
        assert up == spec.height.mm


@settings(max_examples=40)
@given(specs())
def test_every_part_stands_within_the_piece(drawn):
    spec, own = drawn
    made = tried(spec, own)
    if not isinstance(made, Whole):
        return
    # Where the recess for toes is cut in them, sides and back stand on the floor, and so does its board (BA-2).
    floor = -spec.base.height.mm if spec.base is not None and spec.base.is_cut else 0
    for board in made.boards:
        low = board.place.point(Length(0), Length(0), Length(0))
        high = board.place.point(board.length, board.width, board.thickness)
        for at in (low, high):
            if board.role.kind is PartKind.TOP:
                # It lies on the piece and reaches over it (TO-1).
                assert at[2] >= spec.height.mm
            elif board.role.kind in BASE:
                # It stands under the piece, proud by an eighth at the most (BA-1).
                assert at[2] <= 0
                assert -PROUD <= at[0] <= spec.width.mm + PROUD
                assert -PROUD <= at[1] <= spec.depth.mm
            elif board.role.kind is PartKind.FILLER:
                # It stands beside the piece, as high as the frame, and reaches past the wall by what is scribed away (SC-1).
                wide = spec.filler.gaps[board.role.hand].mm + spec.filler.scribe.mm
                assert -wide <= at[0] <= 0 or spec.width.mm <= at[0] <= spec.width.mm + wide
                assert 0 <= at[2] <= spec.height.mm
            else:
                assert 0 <= at[0] <= spec.width.mm
                assert 0 <= at[1] <= spec.depth.mm
                assert (floor if board.role.kind in ON_THE_FLOOR else 0) <= at[2] <= spec.height.mm
