"""Looking for words that lie on anything: exact boxes of type against every stroke on a sheet."""

from itertools import pairwise
from math import cos, radians, sin

import numpy as np

from joinlay.lengths import Fraction
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Text, bounds_of, text_box

#: Two boxes may touch; a thousandth of a millimetre is not an overlap.
TOUCH = Fraction(1, 1000)

#: Words may stand on a fill this much lighter or darker than they are.
CONTRAST = Fraction(3, 4)


def boxes_overlap(one, two):
    """True where two boxes share more than a touch."""
    return one[0] < two[2] - TOUCH and two[0] < one[2] - TOUCH and one[1] < two[3] - TOUCH and two[1] < one[3] - TOUCH


def segment_crosses(one, two, box):
    """True where the straight line from ``one`` to ``two`` runs through the inside of ``box``."""
    x0, y0, x1, y1 = box[0] + TOUCH, box[1] + TOUCH, box[2] - TOUCH, box[3] - TOUCH
    (x, y), (u, v) = one, two
    # Most lie on one side of it from end to end.
    if (x < x0 and u < x0) or (x > x1 and u > x1) or (y < y0 and v < y0) or (y > y1 and v > y1):
        return False
    dx, dy = u - x, v - y
    enter, leave = 0, 1
    for step, room in ((-dx, x - x0), (dx, x1 - x), (-dy, y - y0), (dy, y1 - y)):
        if step == 0:
            if room < 0:
                return False
        elif step < 0:
            enter = max(enter, room / step)
        else:
            leave = min(leave, room / step)
    return enter <= leave


def segments_of(stroke):
    """The straight lines of a stroke; an arc as chords of 6 degrees, a fill as its edges."""
    if isinstance(stroke, Line):
        return [(stroke.start, stroke.end)]
    if isinstance(stroke, Polyline):
        return list(pairwise((*stroke.points, stroke.points[0]) if stroke.closed else stroke.points))
    if isinstance(stroke, Fill):
        return list(pairwise((*stroke.points, stroke.points[0])))
    if isinstance(stroke, Arc):
        steps = max(1, int(stroke.sweep / 6))
        angles = [radians(stroke.start + stroke.sweep * n / steps) for n in range(steps + 1)]
        x, y, r = float(stroke.centre[0]), float(stroke.centre[1]), float(stroke.radius)
        return list(pairwise([(x + r * cos(a), y + r * sin(a)) for a in angles]))
    return []


def is_inside(box, fill):
    """True where the middle of ``box`` lies in a fill."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    inside = False
    for (x0, y0), (x1, y1) in segments_of(fill):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside


def holds(fill, box):
    """True where the whole of ``box`` lies in a fill."""
    return is_inside(box, fill) and not any(segment_crosses(one, two, box) for one, two in segments_of(fill))


def near_each_other(some, others):
    """For each of ``some`` boxes, which of the ``others`` it may touch, by their places in the list: a coarse look, never too
    narrow.
    """
    if not some or not others:
        return [[] for _ in some]
    (left, low, right, high), (x0, y0, x1, y1) = (np.array(boxes, dtype=float).T[:, :, None] for boxes in (some, others))
    hair = 1e-6
    beside = (left <= x1.T + hair) & (right >= x0.T - hair)
    close = beside & (low <= y1.T + hair) & (high >= y0.T - hair)
    return [np.flatnonzero(row).tolist() for row in close]


def collisions(strokes):
    """What is wrong with the words among ``strokes``: (words, what they lie on), empty where nothing is.

    Strokes are drawn in their order, so what lies under a fill that all of the words stand on isn't seen.
    """
    drawn = list(enumerate(strokes))
    texts = [(n, stroke, text_box(stroke)) for n, stroke in drawn if isinstance(stroke, Text)]
    others = [(n, stroke, bounds_of((stroke,))) for n, stroke in drawn if not isinstance(stroke, Text)]
    beside = near_each_other([box for _, _, box in texts], [box for _, _, box in texts])
    pairs = [(texts[one], texts[two]) for one, close in enumerate(beside) for two in close if one < two]
    found = [(one.plain, two.plain) for (_, one, a), (_, two, b) in pairs if boxes_overlap(a, b)]
    by_them = near_each_other([box for _, _, box in texts], [bounds for _, _, bounds in others])
    for (place, text, box), close in zip(texts, by_them, strict=True):
        near = [(n, stroke) for n, stroke, bounds in (others[at] for at in close) if not _are_apart(bounds, box)]
        ground = max((n for n, stroke in near if n < place and isinstance(stroke, Fill) and holds(stroke, box)), default=-1)
        for n, stroke in near:
            if n < ground:
                continue
            hides = isinstance(stroke, Fill) and is_inside(box, stroke) and abs(text.ink - stroke.ink) < CONTRAST
            if hides or any(segment_crosses(one, two, box) for one, two in segments_of(stroke)):
                found.append((text.plain, stroke))
    return found


def _are_apart(one, two):
    return one[0] > two[2] or two[0] > one[2] or one[1] > two[3] or two[1] > one[3]
