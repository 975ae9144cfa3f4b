"""Cutting blanks by the settings alone, as a person at the machine would: only what a card prints is read."""

from typing import TYPE_CHECKING

from joinlay.boards import Axis
from joinlay.lengths import ZERO
from joinlay.settings import Guide
from joinlay.settings.feeding import feed_words
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from fractions import Fraction

#: A box: (start, stop) along, across and into, in millimetres.


def blank_box(board):
    return tuple((ZERO.mm, board.size(axis).mm) for axis in Axis)


def cut_boxes(board):
    """What the plan takes out of the board."""
    return [tuple((cut.span(axis).start.mm, cut.span(axis).stop.mm) for axis in Axis) for cut in board.cuts]


def _inwards(board, surface, start, stop):
    """A stretch counted from a surface, as coordinates of the board, no farther than the wood goes."""
    size = board.size(surface.axis)
    low, high = (size - stop, size - start) if surface.is_far else (start, stop)
    return max(low, ZERO).mm, min(high, size).mm


def _run(board, work, each):
    """Where a run begins and ends: by stops on a table, by marks under a hand-held router, right through without either."""
    stops = work.stops
    entry, fence = work.entry.axis, work.fence.axis
    axis = next(axis for axis in Axis if axis not in (entry, fence))
    size = board.size(axis)
    if stops is None:
        return axis, (ZERO.mm, size.mm)
    begin, finish = stops.begin, stops.finish
    if each.guide is Guide.FENCE:
        begin = size - stops.infeed_stop if stops.infeed_stop is not None else None
        finish = stops.outfeed_stop
    return axis, _inwards(board, stops.leading, begin or ZERO, finish or size)


def swept(setting, work, board, fence_error=ZERO, height_error=ZERO, far_error=ZERO):
    """The boxes the cutter sweeps out of ``board``, pass by pass; errors are how far the maker set it off."""
    farthest = max(each.near_side for each in setting.passes)
    for each in setting.passes:
        near = each.near_side if setting.guide is not Guide.STRAIGHTEDGE else each.guide + setting.offset
        near = near + fence_error + (far_error if each.near_side == farthest else ZERO)
        deep = _inwards(board, work.entry, ZERO, each.height + height_error)
        if work.positions:
            axis = next(axis for axis in Axis if axis not in (work.entry.axis, work.fence.axis))
            runs = [((p.centre - p.width / 2).mm, (p.centre + p.width / 2).mm) for p in work.positions]
            # A cut to a pencil line lies about that line, as the first one of the card lies about its own.
            middle = (setting.near_side + setting.far_side) / 2
            nears = [near if p.line is None else near - middle + p.line for p in work.positions]
        else:
            axis, run = _run(board, work, setting)
            runs, nears = [run], [near]
        for run, side in zip(runs, nears, strict=True):
            for back, depth in _teeth(setting, deep, board, work):
                across = _inwards(board, work.fence, side, side + setting.tool.width - back)
                box = {axis: run, work.fence.axis: across, work.entry.axis: depth}
                yield tuple(box[axis] for axis in Axis)


def _teeth(setting, deep, board, work):
    """How far back from its widest the cutter stands, and over which depth: a plain one all along, one with a corner's shape
    below its teeth too.
    """
    shape = setting.tool.shape
    if shape is None:
        return ((ZERO, deep),)
    below = setting.height - shape.slot
    return ((ZERO, _inwards(board, work.entry, below, setting.height)), (shape.length, _inwards(board, work.entry, ZERO, below)))


def taken_by_settings(settings, boards):
    """Every box that the settings take out of each board, by its name, in the order of the cards."""
    by_name = {board.name: board for board in boards}
    taken: dict[str, list[tuple[tuple[Fraction, Fraction], ...]]] = {board.name: [] for board in boards}
    for setting in settings:
        for work in setting.works:
            for name in work.boards:
                taken[name].extend(swept(setting, work, by_name[name]))
    return taken


def cells(boxes, grid):
    """The cells of a grid that some box covers. ``grid`` has every coordinate of every box, so each cell is in or out whole."""
    places = [{at: n for n, at in enumerate(axis)} for axis in grid]
    covered = set()
    for box in boxes:
        spans = [range(places[n][start], places[n][stop]) for n, (start, stop) in enumerate(box) if start < stop]
        if len(spans) == 3:
            covered |= {(i, j, k) for i in spans[0] for j in spans[1] for k in spans[2]}
    return covered


def grid_of(*lists):
    return [sorted({at for boxes in lists for box in boxes for at in box[n]}) for n in range(3)]


def same_wood(board, boxes, others):
    """True where both take exactly the same wood out of ``board``."""
    grid = grid_of(boxes, others, [blank_box(board)])
    return cells(boxes, grid) == cells(others, grid)


def solid_of(box):
    """A box as a solid of a kernel that is not ours."""
    from manifold3d import Manifold

    (a, b), (c, d), (e, f) = ((float(start), float(stop)) for start, stop in box)
    return Manifold.cube((b - a, d - c, f - e)).translate((a, c, e))


def volume_left(board, boxes):
    """Cubic millimetres left after ``boxes`` are taken out, on solids."""
    wood = solid_of(blank_box(board))
    for box in boxes:
        if all(start < stop for start, stop in box):
            wood = wood - solid_of(box)
    return wood.volume()


#: What a maker who reads the card does, standing at the south and looking north: which way the cutter then travels through the
#: wood, and where the surface lies that the card counts from. At a table the work goes to the west, so the cutter travels east
#: through it.
NORTH, EAST, SOUTH, WEST = (0, 1), (1, 0), (0, -1), (-1, 0)
WALKS = {
    "right to left, fence behind": (EAST, NORTH),
    "left to right, fence behind": (WEST, NORTH),
    "away from you, guide on your right": (NORTH, EAST),
    "away from you, guide on your left": (NORTH, WEST),
    "away from you, straightedge on your left": (NORTH, WEST),
    "away from you, straightedge on your right": (NORTH, EAST),
    "away from you, side counted from on your right": (NORTH, EAST),
    "away from you, side counted from on your left": (NORTH, WEST),
}

#: How the cutter turns seen from above: seen from its shank it is always clockwise, and a table has the shank below.
TURNS = {MachineKind.ROUTER_TABLE: 1, MachineKind.HAND_ROUTER: -1}


def against_the_feed(travel, wall, turn):
    """True where a tooth at ``wall`` (a direction from the cutter's middle) moves with the cutter's own travel, against the wood
    that comes.

    ``turn`` is 1 for counter-clockwise: there the tooth moves a quarter turn to the left of ``wall``.
    """
    (x, y), (along, up) = wall, travel
    return turn * (-y * along + x * up) > 0


def walls_that_must_be_fresh(setting, walk):
    """Which walls, near or far, a pass must have in wood wherever it takes any."""
    if setting.machine in (MachineKind.MORTISER, MachineKind.DRILL):
        return {"near", "far"}  # nothing keeps the cutter from being thrown aside
    if setting.machine is MachineKind.TABLE_SAW:
        return {"far"}  # or the work is pinched between fence and blade
    travel, (x, y) = WALKS[walk]
    walls = {"near": (x, y), "far": (-x, -y)}
    return {name for name, wall in walls.items() if against_the_feed(travel, wall, TURNS[setting.machine])}


def climbs(setting, work, board, wood, walk=None):
    """Where a pass of ``setting`` climbs, or lets wood pass between fence and cutter: the cuts MS-6 forbids.

    Only what a card prints is read, and ``walk`` is which way it says to go. ``wood`` is what was taken before, and is added to.
    All along the cut and at every depth of it, a pass that takes any wood the card's earlier ones left takes it at the wall where
    the cutter goes against the feed.
    """
    wanted = walls_that_must_be_fresh(setting, feed_words(setting) if walk is None else walk)
    axis = [Axis.ALONG, Axis.ACROSS, Axis.INTO].index(work.fence.axis)
    runs = len(work.positions) or 1
    own: list[list[tuple[tuple[Fraction, Fraction], ...]]] = [[] for _ in range(runs)]
    found = False
    for n, box in enumerate(swept(setting, work, board)):
        earlier = own[n % runs]
        grid = grid_of([box], wood, earlier, [blank_box(board)])
        low, high = (grid[axis].index(side) for side in box[axis])
        at_walls = {"near": high - 1 if work.fence.is_far else low, "far": low if work.fence.is_far else high - 1}
        places = _across(cells([box], grid) - cells(earlier, grid), axis)
        # A cut that crosses may have taken the wall here and there; but somewhere it stands.
        standing = set().union(*_across(cells([box], grid) - cells(wood, grid), axis))
        fresh = [*places, *([standing] if standing else [])]
        found = found or any(at_walls[name] not in each for each in fresh for name in wanted)
        earlier.append(box)
        wood.append(box)
    return found


def _across(fresh, axis):
    """The cells of a pass by their places from wall to wall: a set for each place along the cut and depth of it."""
    slabs: dict[tuple[int, ...], set[int]] = {}
    for cell in fresh:
        slabs.setdefault(cell[:axis] + cell[axis + 1 :], set()).add(cell[axis])
    return list(slabs.values())


def assert_no_pass_climbs(settings, boards):
    """MS-6 over all the cards, in their order: no pass climbs, and none lets wood pass between fence and cutter."""
    by_name = {each.name: each for each in boards}
    wood: dict[str, list[tuple[tuple[Fraction, Fraction], ...]]] = {each.name: [] for each in boards}
    for setting in settings:
        if setting.machine is MachineKind.BENCH:
            continue
        for work in setting.works:
            for name in work.boards:
                assert not climbs(setting, work, by_name[name], wood[name]), (setting.number, name)


def measured_on(setting, work, board, boxes):
    """What callipers find on ``board`` once ``boxes`` are cut, by the name of the measure."""
    from joinlay.settings import Measured, Role

    def from_side(surface):
        n = [Axis.ALONG, Axis.ACROSS, Axis.INTO].index(surface.axis)
        size = board.size(surface.axis).mm
        spans = [box[n] if not surface.is_far else (size - box[n][1], size - box[n][0]) for box in boxes]
        return min(span[0] for span in spans), max(span[1] for span in spans), size

    low, high, _ = from_side(work.fence)
    _, deep, thick = from_side(work.entry)
    if setting.role is Role.TONGUE:
        return {Measured.TONGUE_THICKNESS: low, Measured.TONGUE_LENGTH: deep}
    if setting.role is Role.STEP:
        return {Measured.STEP_WIDTH: high, Measured.WOOD_LEFT: thick - deep, Measured.DEPTH: deep}
    return {
        Measured.WIDTH: high - low,
        Measured.FROM_FENCE: low,
        Measured.DEPTH: deep,
        Measured.CENTRE: (low + high) / 2,
    }
