"""Outlines drawn in the tests themselves."""

from joinlay.boards.outline import Ring, StraightRun, outline_of
from joinlay.casework.outline_place import OutlineSpot, OutlineWish
from joinlay.lengths import Fraction, dimension, mm


def box(wide, high, file="box.svg"):
    """A rectangle."""
    w, h = Fraction(wide), Fraction(high)
    return outline_of(
        file, [StraightRun(((Fraction(0), Fraction(0)), (w, Fraction(0)), (w, h), (Fraction(0), h)), is_closed=True)]
    )


def disc(across, file="disc.svg"):
    """A circle."""
    r = Fraction(across) / 2
    return outline_of(file, [Ring((r, r), r)])


def hook(size, file="hook.svg"):
    """A right-angled triangle, its square corner at the lower left."""
    s = Fraction(size)
    return outline_of(file, [StraightRun(((Fraction(0), Fraction(0)), (s, Fraction(0)), (Fraction(0), s)), is_closed=True)])


def size(given):
    """A dimension, or None."""
    return None if given is None else dimension(mm(given))


def wish(outline, on="drawer side", purpose="finger hole", depth=None, face=None, **spot):
    """An outline on a part; ``from_end`` and ``from_edge`` as texts of millimetres."""
    placed = {key: size(value) if key.startswith("from_") else value for key, value in spot.items()}
    return OutlineWish(outline, on, purpose, OutlineSpot(**placed), face, size(depth))
