"""Wood and a shop to test joints with: sizes a maker writes, boards to cut, and what a finding says in inches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from joinlay.boards import Datum
from joinlay.joints.spacing import KeepOut
from joinlay.lengths import GRADUATIONS, Length, Unit, dimension, read_length, written
from joinlay.shop import Cutter, TenonStock, usual_shop
from tests import by_hand

INCH = GRADUATIONS["1/32 in"]
DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")


def size(text, name="size", unit=Unit.INCH):
    """A length as a maker writes it."""
    return written(read_length(text, unit), name, "a test")


def shop(unit=Unit.INCH, *, ratios=None, **lengths):
    """The usual shop with some of its practice changed: ``shop(panel_fit="1/64")``."""
    usual = usual_shop(unit)
    own = {name.replace("_", " "): size(text, name.replace("_", " "), unit) for name, text in lengths.items()}
    return replace(usual, practice=usual.practice.but(own, {name: Fraction(text) for name, text in (ratios or {}).items()}))


def with_cutters(*texts):
    """The usual shop with these cutters only."""
    return replace(shop(), cutters=tuple(Cutter(size(text), size("2")) for text in texts))


def with_tenons(*stocks):
    """The usual shop with these tenons only."""
    return replace(shop(), tenons=stocks)


def tenon(thickness, *, width=None, length=None, reach=None):
    """A tenon of the shop."""
    return TenonStock(size(thickness), *(size(text) if text else None for text in (width, length, reach)))


def keep_out(start, stop, name="groove"):
    """Another cut on the joint line."""
    return KeepOut(size(start), size(stop), name)


def board(length, width, thickness, name="side"):
    """A board with nothing cut out of it."""
    return by_hand.board(name, "drawer side", "half", dimension(size(length)), size(width), size(thickness), DATUM)


def said(finding):
    """What a finding says, on an inch rule."""
    return finding.sentence(INCH.text)


def way_out(finding):
    """What a finding says would work, on an inch rule."""
    return finding.way_out(INCH.text)


def number(finding, name):
    """A length that a finding carries."""
    found = finding.numbers[name]
    assert isinstance(found, Length)
    return found


def spans(cut):
    """Where a cut lies, in inches: along, across, into."""
    return tuple((span.start.inches, span.stop.inches) for span in (cut.along, cut.across, cut.into))


def f(text):
    """A number of inches as a Fraction."""
    return sum(map(Fraction, text.split()), Fraction(0))
