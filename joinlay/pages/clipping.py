"""Clipping: the part of a stroke that lies in a window, exactly."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import acos, asin, cos, degrees, radians, sin
from typing import TYPE_CHECKING

from joinlay.geometry import corners, polygon_in, stretch_in_box
from joinlay.lengths import Fraction
from joinlay.pen.marks import Arc, Fill, Line, Polyline, bounds_of, text_box

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.marks import Box, Point, Stroke, Text

__all__ = ["clip"]


def clip(stroke: Stroke, window: Box) -> Iterator[Stroke]:
    """The pieces of ``stroke`` in ``window``, edges included.

    Straight strokes and fills are cut exactly; an arc's new ends are right to a billionth of a degree. Text is never cut: it stays
    whole where its middle is.
    """
    if isinstance(stroke, Line):
        cut = _line(stroke.start, stroke.end, window)
        if cut is not None:
            yield replace(stroke, start=cut[0], end=cut[1])
    elif isinstance(stroke, Polyline):
        yield from _polyline(stroke, window)
    elif isinstance(stroke, Fill):
        points = polygon_in(stroke.points, corners(window))
        if points:
            yield replace(stroke, points=points)
    elif isinstance(stroke, Arc):
        yield from _arc(stroke, window)
    elif _holds_text(stroke, window):
        yield stroke


def _line(one: Point, two: Point, window: Box) -> tuple[Point, Point] | None:
    """The part of a line within the window; None where there is none, or only a point."""
    stretch = stretch_in_box(one, two, window)
    if stretch is None:
        return None
    (x, y), dx, dy = one, two[0] - one[0], two[1] - one[1]
    enter, leave = stretch
    return (x + enter * dx, y + enter * dy), (x + leave * dx, y + leave * dy)


def _polyline(stroke: Polyline, window: Box) -> Iterator[Stroke]:
    left, bottom, right, top = window
    if all(left <= x <= right and bottom <= y <= top for x, y in stroke.points):
        yield stroke
        return
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    for one, two in pairwise(points):
        cut = _line(one, two, window)
        if cut is not None:
            yield Line(cut[0], cut[1], stroke.role, stroke.says)


def _arc(arc: Arc, window: Box) -> Iterator[Arc]:
    x0, y0, x1, y1 = bounds_of((arc,))
    left, bottom, right, top = window
    if left <= x0 and bottom <= y0 and x1 <= right and y1 <= top:
        yield arc
        return
    stops = sorted({Fraction(0), arc.sweep, *_meetings(arc, window)})
    for one, two in pairwise(stops):
        middle = radians(float(arc.start + (one + two) / 2))
        x = float(arc.centre[0]) + float(arc.radius) * cos(middle)
        y = float(arc.centre[1]) + float(arc.radius) * sin(middle)
        if float(left) <= x <= float(right) and float(bottom) <= y <= float(top):
            yield replace(arc, start=(arc.start + one) % 360, sweep=two - one)


def _meetings(arc: Arc, window: Box) -> Iterator[Fraction]:
    """The angles past the arc's start, within its sweep, where it meets a side of the window."""
    (x, y), r = arc.centre, arc.radius
    angles: list[float] = []
    for side in (window[0], window[2]):
        if abs(side - x) < r:
            angle = degrees(acos((side - x) / r))
            angles += [angle, -angle]
    for side in (window[1], window[3]):
        if abs(side - y) < r:
            angle = degrees(asin((side - y) / r))
            angles += [angle, 180 - angle]
    for angle in angles:
        past = (Fraction(round(angle * 10**9), 10**9) - arc.start) % 360
        if past < arc.sweep:
            yield past


def _holds_text(text: Text, window: Box) -> bool:
    x0, y0, x1, y1 = text_box(text)
    left, bottom, right, top = window
    return left <= (x0 + x1) / 2 <= right and bottom <= (y0 + y1) / 2 <= top
