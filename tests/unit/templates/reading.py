"""Reading drawings in tests: whole numbers for exact ones, and strokes of one kind picked out."""

from fractions import Fraction

from joinlay.pen.marks import Arc, Fill, Line, Polyline, Text, flatten
from joinlay.templates.ends.net import lay_flat


def exact(*numbers):
    """Numbers as Fractions, in a tuple: a point, a box."""
    return tuple(map(Fraction, numbers))


def spelled(*marks):
    """The strokes marks are spelled in."""
    return list(flatten(marks))


def lines(strokes):
    """The straight lines among strokes."""
    return [stroke for stroke in strokes if isinstance(stroke, Line)]


def polylines(strokes):
    """The polylines among strokes."""
    return [stroke for stroke in strokes if isinstance(stroke, Polyline)]


def arcs(strokes):
    """The arcs among strokes."""
    return [stroke for stroke in strokes if isinstance(stroke, Arc)]


def fills(strokes):
    """The fills among strokes."""
    return [stroke for stroke in strokes if isinstance(stroke, Fill)]


def texts(strokes):
    """The lines of lettering among strokes."""
    return [stroke for stroke in strokes if isinstance(stroke, Text)]


def flat(board, end):
    """The net of a board's end."""
    return lay_flat(board, end)
