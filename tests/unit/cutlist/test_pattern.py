"""Cuts at one setting, one after the other, are one step at the saw."""

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.cutlist.layouts import OffcutLimits, lay_out
from joinlay.cutlist.pattern import Blank, Direction, Keeps, PartToSaw, cut_steps
from joinlay.jobs.on_hand import FirstCut
from joinlay.lengths import ZERO, dimension, mm

LIMITS = OffcutLimits(mm(300), mm(100))
SHEET = Blank("ply", mm(2440), mm(1220), mm(6), is_whole=True)


def laid(*sizes, whole=SHEET):
    pieces = [PartToSaw(f"part {n}", 1, dimension(mm(long)), dimension(mm(wide))) for n, (long, wide) in enumerate(sizes)]
    (sheet,) = lay_out(pieces, [], whole, mm(3), FirstCut.RIP, LIMITS).sheets
    return sheet


def test_parts_that_are_alike_come_off_at_one_setting():
    steps = cut_steps(laid((400, 100), (400, 100), (400, 100)))
    assert [(step.first.direction, step.numbers, step.first.keeps) for step in steps] == [
        (Direction.RIP, "1", Keeps.FAR),
        (Direction.RIP, "2", Keeps.BOTH),
        (Direction.CROSSCUT, "3", Keeps.FAR),
        (Direction.CROSSCUT, "4–6", Keeps.BOTH),
    ]
    assert [piece.piece.name for piece in steps[-1].done] == ["part 0", "part 1", "part 2"]
    assert all(not step.done for step in steps[:-1])


def test_another_setting_is_another_step():
    steps = cut_steps(laid((400, 100), (401, 100)))
    assert [step.numbers for step in steps] == ["1", "2", "3", "4", "5"]


def test_the_same_setting_in_another_panel_is_another_step():
    # Two strips, each trimmed, then crosscut.
    steps = cut_steps(laid(*[(1200, 100)] * 4))
    crosscuts = [step for step in steps if step.first.direction is Direction.CROSSCUT and step.first.keeps is Keeps.BOTH]
    assert [len(step.cuts) for step in crosscuts] == [2, 2]


def test_a_part_as_large_as_its_sheet_takes_no_step():
    assert cut_steps(laid((2440, 1220), whole=Blank("ply", mm(2440), mm(1220), ZERO, is_whole=True))) == ()


@given(st.lists(st.tuples(st.integers(60, 700), st.integers(40, 300)), min_size=1, max_size=20))
@settings(max_examples=25, deadline=None)
def test_every_cut_is_in_one_step_and_every_part_is_done_once(sizes):
    sheets = lay_out(
        [PartToSaw(f"part {n}", n, dimension(mm(long)), dimension(mm(wide))) for n, (long, wide) in enumerate(sizes)],
        [], SHEET, mm(3), FirstCut.EITHER, LIMITS,
    ).sheets  # fmt: skip
    for sheet in sheets:
        steps = cut_steps(sheet)
        assert [cut for step in steps for cut in step.cuts] == list(sheet.cuts)
        assert sorted(piece.piece.name for step in steps for piece in step.done) == sorted(
            piece.piece.name for piece in sheet.pieces
        )
        for step in steps:
            assert len({(cut.direction, cut.at, cut.keeps) for cut in step.cuts}) == 1
