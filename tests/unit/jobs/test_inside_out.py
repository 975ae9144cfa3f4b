"""From the inside out: what is to lie in a drawer has its room there, and the job typed the other way round is the same
(CO-1).
"""

import pytest

import joinlay
from joinlay.boards import Axis
from joinlay.boards.extent import SpaceBox
from joinlay.casework.corners import AT_BACK, AT_FRONT
from joinlay.errors import Troubles
from joinlay.jobs.reader import read_job
from joinlay.lengths import Dimension, inches

WOOD = """
units = "inch"
smallest = "1/64 in"
[shop]
corner-cutters = [{{ slot = "5/32", length = "7/32", deepest = "5/8", diameter = "1 1/2" }}]
[stock.oak]
kind = "solid"
species = "red oak"
nominal = "3/4"
measured = "3/4"
[stock.half]
nominal = "1/2"
measured = "15/32"
[stock.thin]
nominal = "1/4"
measured = "7/32"
[drawers]
front = "oak"
sides = "half"
bottom = "thin"
{drawers}
"""
CASE = """
[case]
{case}
sides = "half"
back = "thin"
[frame]
stock = "oak"
[runners]
stock = "oak"
"""
INSIDE = 'inside = { width = "22", height = "3", depth = "15", room = "1/2" }'


def planned(text):
    plan = joinlay.plan(read_job(text, "job.toml"))
    assert not plan.is_refused, [found.what for found in plan.findings]
    return plan


def alone(drawers=INSIDE, more=""):
    return planned(f"{WOOD.format(drawers=drawers)}\n[[drawer]]\n{more}")


def whole(bank="drawers = 3", drawers=INSIDE, case="", more=""):
    return planned(f"{WOOD.format(drawers=drawers)}{CASE.format(case=case)}\n[[bank]]\n{bank}\n{more}")


def inside_of(drawer):
    """The room in a drawer: its least width, its height over the bottom, and from front to back."""
    _, back_y, _ = drawer.back.place.origin
    front_y = drawer.front.place.origin[1]
    bottom = SpaceBox.around(drawer.bottom).high[2]
    sides = [SpaceBox.around(side) for side in drawer.sides]
    return drawer.inside_width.mm - max(drawer.taper.mm, 0), sides[0].high[2] - bottom, back_y - front_y


def made(plan):
    """Every board as it is: its name, its box and its cuts."""
    return [
        (board.name, SpaceBox.around(board), [(cut.name, *map(_ends, map(cut.span, Axis))) for cut in board.cuts])
        for board in plan.boards
    ]


def _ends(span):
    return span.start.mm, span.stop.mm


def in_text(size):
    return f'"{size.mm} mm"'


@pytest.mark.parametrize("back", sorted(AT_BACK))
@pytest.mark.parametrize("height", ["full", "on bottom"])
def test_a_drawer_holds_what_it_is_asked_to_and_not_a_hair_more(back, height):
    plan = alone(more=f'back-joint = "{back}"\nback-height = "{height}"')
    assert inside_of(plan.drawers[0]) == (inches("22 1/2").mm, inches("3 1/2").mm, inches("15 1/2").mm)


@pytest.mark.parametrize("front", sorted(AT_FRONT))
def test_it_does_behind_any_front_and_with_figures_of_its_own(front):
    own = (
        f'front-joint = "{front}"\ntaper = "1/16"\nback-gap = "1"\nset-back = "1/16"\ngroove-offset = '
        f'"1/2"\ntop-clearance = "1/16"'
    )
    assert inside_of(alone(more=own).drawers[0]) == (inches("22 1/2").mm, inches("3 1/2").mm, inches("15 1/2").mm)


def test_a_front_is_as_large_as_it_is_asked_to_be():
    sizes = 'front-size = { width = "20 1/4", height = "5" }\nopening = { depth = "18" }'
    (drawer,) = alone(drawers="", more=sizes).drawers
    assert (drawer.front.length, drawer.front.width) == (inches("20 1/4"), inches(5))


def test_sizes_from_inside_and_openings_may_be_mixed():
    (drawer,) = alone(drawers='opening = { height = "6", depth = "18" }', more='inside = { width = "20" }').drawers
    assert inside_of(drawer)[0] == inches(20).mm
    assert (drawer.opening.height, drawer.opening.depth) == (inches(6), inches(18))


def test_a_drawer_typed_by_its_opening_is_the_same():
    plan = alone()
    opening = plan.drawers[0].opening
    typed = ", ".join(f"{key} = {in_text(getattr(opening, key))}" for key in ("width", "height", "depth"))
    assert made(alone(drawers=f"opening = {{ {typed} }}")) == made(plan)


@pytest.mark.parametrize(
    "bank",
    [
        "drawers = 3",
        'drawers = 3\ngraduation = "arithmetic"\nstep = "1/2"',
        'drawers = 3\ngraduation = "geometric"\nratio = "1.2"',
        "rows = [2, 1]",
    ],
)
def test_a_piece_around_its_drawers_typed_by_its_outer_sizes_is_the_same(bank):
    plan = whole(bank)
    assert all(room >= asked for drawer in plan.drawers for room, asked in zip(inside_of(drawer), ASKED, strict=True))
    assert ASKED[0] in {inside_of(drawer)[0] for drawer in plan.drawers}
    sizes = plan.dimensions()
    typed = "\n".join(f"{key} = {in_text(sizes[f'piece {key} over all'])}" for key in ("width", "height", "depth"))
    assert made(whole(bank, drawers="", case=typed)) == made(plan)


ASKED = (inches("22 1/2").mm, inches("3 1/2").mm, inches("15 1/2").mm)


def test_a_graduation_that_shrinks_downwards_holds_it_in_its_lowest():
    plan = whole('drawers = 3\ngraduation = "geometric"\nratio = "4/5"')
    assert [inside_of(drawer)[1] >= ASKED[1] for drawer in plan.drawers] == [True] * 3
    assert inside_of(plan.drawers[-1])[1] == ASKED[1]


def test_every_step_of_it_is_told():
    width = whole().dimensions()["piece width over all"]
    told = {width.name}
    steps = [width]
    while steps:
        size = steps.pop()
        steps += (one for one in size.operands if isinstance(one, Dimension))
        told.add(size.name)
    assert {
        "drawer 1 inside width asked for",
        "drawer 1 room to spare inside",
        "side clearance",
        "half measured thickness",
    } <= told
    assert width.rule == "CO-1"


def test_two_banks_stand_around_their_own():
    plan = whole(
        "drawers = 2",
        drawers="",
        more='inside = { width = "12", height = "4", depth = "14" }\n[[bank]]\ndrawers = 3\ninside = { width = '
        '"20", height = "2" }',
    )
    assert [inside_of(drawer)[0] for drawer in plan.drawers] == [inches(12).mm] * 2 + [inches(20).mm] * 3


ALONE, HOLDING = (f"{WOOD.format(drawers=drawers)}[[drawer]]\n" for drawers in ("", INSIDE))


def piece(case="", drawers=INSIDE):
    return WOOD.format(drawers=drawers) + CASE.format(case=case)


@pytest.mark.parametrize(
    ("text", "at", "said"),
    [
        (f'{HOLDING}side-height = "4"', "[[drawer]]", "gives its sides' height, and side-height is written as well"),
        (f'{ALONE}inside = {{ width = "8" }}\nopening = {{ width = "9" }}', "[[drawer]]", "written in opening and in inside"),
        (f'{ALONE}inside = {{ width = "8" }}', "[[drawer]]", "height and depth are missing"),
        (piece() + '[[bank]]\nheights = ["4", "5"]', "[[bank]]", "given one by one"),
        (piece() + '[[bank]]\nrows = ["open", 1]', "[[bank]]", "has an open bay"),
        (piece("width = 30") + "[[bank]]\ndrawers = 2", "[[bank]]", "the piece's width follows from"),
        (piece() + '[[bank]]\ndrawers = 2\nwidth = "9"', "[[bank]]", "and is written as well"),
        (piece() + "[[bank]]\nrows = [{ shares = [1, 2] }]", "[[bank]]", "has widths of its own"),
        (piece(drawers="") + "[[bank]]\ndrawers = 2", "[case]", "width is missing"),
    ],
)
def test_what_does_not_go_together_is_refused_at_its_line(text, at, said):
    with pytest.raises(Troubles) as found:
        read_job(text, "job.toml")
    (trouble, *_) = found.value.troubles
    assert said in str(trouble)
    assert text.splitlines()[trouble.line - 1].startswith(at)


@pytest.mark.parametrize("height", ["full", "on bottom"])
def test_what_lies_on_a_bar_has_its_height_over_that(height):
    """BO-1: 3 1/2 in with its room, over a bar that stands 3/8 in above the bottom."""
    made = alone(f'{INSIDE}\nbottom-bar = "oak"\nback-height = "{height}"').drawers[0]
    side, bar = made.sides[0], made.bar
    over = side.place.origin[2] + side.width.mm - bar.place.origin[2] - bar.width.mm
    assert over == inches("3 1/2").mm
