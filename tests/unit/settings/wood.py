"""Boards and shops to set machines for, in millimetres or as a maker writes them."""

from __future__ import annotations

from dataclasses import replace

from joinlay.boards import CutKind, Datum, Place, Shape, Span, Surface
from joinlay.lengths import GRADUATIONS, ZERO, Fraction, Unit, dimension, fraction_in, mm, read_length, written
from joinlay.shop import Cutter, Machines, TableSaw, usual_shop
from tests import by_hand

SIDE = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")
ACROSS = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")

#: A drawer's two sides: the reference end at the left of the one, at the right of the other.
LEFT = Place.at(ZERO, ZERO, ZERO, "+Y", "+Z", "-X")
RIGHT = Place.at(ZERO, ZERO, ZERO, "+Y", "+Z", "+X")


def size(text, name="size", unit=Unit.INCH):
    """A length as a maker writes it."""
    return written(read_length(str(text), unit), name, "a test")


def inch(text):
    return size(text)


def metric(number):
    return dimension(mm(str(number)))


def board(length, width, thickness, *, name="left side", part="drawer side", datum=SIDE, place=None, make=inch):
    return by_hand.board(name, part, "birch", make(length), make(width), make(thickness), datum, place=place)


def span(start, stop, make=inch):
    return Span(make(start), make(stop))


def groove(of, low, width, depth, *, start="0", stop=None, make=inch, name="groove", joint="bottom", surface=Surface.FACE):
    """Along a board, ``low`` from the bottom edge."""
    run = Span(make(start), of.length if stop is None else make(stop))
    deep = span("0", depth, make) if surface is Surface.FACE else Span(of.thickness - make(depth), of.thickness)
    over = Span(make(low), make(low) + make(width))
    return of.with_cuts(by_hand.cut(CutKind.GROOVE, surface, run, over, deep, name, "bottom", joint))


def dado(of, near, width, depth, *, far=False, stop=None, make=inch, name="dado", joint="corner"):
    """Across the inside face, ``near`` from the front end, or from the back end where ``far``."""
    low = of.length - make(near) - make(width) if far else make(near)
    across = Span(make("0"), of.width if stop is None else make(stop))
    cut = by_hand.cut(
        CutKind.DADO, Surface.FACE, Span(low, low + make(width)), across, span("0", depth, make), name, "back", joint
    )
    return of.with_cuts(cut)


def end_rabbet(of, long, deep, *, far=False, outside=True, make=inch, name="rabbet", joint="corner"):
    """A rabbet at an end, from the outside face unless told otherwise, which leaves a tongue on the inside face."""
    along = Span(of.length - make(long), of.length) if far else span("0", long, make)
    into = Span(of.thickness - make(deep), of.thickness) if outside else span("0", deep, make)
    surface = Surface.FAR_FACE if outside else Surface.FACE
    cut = by_hand.cut(CutKind.RABBET, surface, along, Span(make("0"), of.width), into, name, "side", joint)
    return of.with_cuts(cut)


def edge_rabbet(of, wide, deep, *, make=inch, name="back rabbet", start="0", stop=None):
    """A rabbet along the far edge of the inside face, as for a case back."""
    along = Span(make(start), of.length if stop is None else make(stop))
    across = Span(of.width - make(wide), of.width)
    return of.with_cuts(by_hand.cut(CutKind.RABBET, Surface.FACE, along, across, span("0", deep, make), name, "case back"))


def end_slot(of, near, width, deep, *, far=False, make=inch, name="slot", joint="corner"):
    """A slot in an end, ``near`` from the inside face."""
    along = Span(of.length - make(deep), of.length) if far else span("0", deep, make)
    into = Span(make(near), make(near) + make(width))
    end = Surface.FAR_END if far else Surface.END
    return of.with_cuts(by_hand.cut(CutKind.SLOT, end, along, Span(make("0"), of.width), into, name, "side", joint))


def end_mortises(of, above, thick, wide, deep, *centres, make=inch, shape=Shape.ROUND_ENDS, name="mortise", joint="front corner"):
    """Mortises in the front end, their middles ``above`` the inside face."""
    cuts = [
        by_hand.cut(
            CutKind.MORTISE, Surface.END, span("0", deep, make), Span.about(make(centre), make(wide)),
            Span.about(make(above), make(thick)), f"{name} {n}", "front", joint, shape,
        )
        for n, centre in enumerate(centres, 1)
    ]  # fmt: skip
    return of.with_cuts(*cuts)


def hole(of, along, across, diameter, depth=None, *, make=inch, name="pull hole"):
    """A hole in the inside face."""
    deep = Span(make("0"), of.thickness if depth is None else make(depth))
    across_span, along_span = Span.about(make(across), make(diameter)), Span.about(make(along), make(diameter))
    return of.with_cuts(by_hand.cut(CutKind.HOLE, Surface.FACE, along_span, across_span, deep, name, shape=Shape.ROUND))


def shop(unit=Unit.INCH, *, cutters=None, rule=None, **machines):
    """The usual shop with other cutters, another rule or other machines: ``shop(cutters={"1/4": "1"}, has_mortiser=False)``."""
    usual = usual_shop(unit)
    owned = (
        usual.cutters if cutters is None else tuple(Cutter(size(d, unit=unit), size(r, unit=unit)) for d, r in cutters.items())
    )
    kept = replace(usual.machines, **machines)
    return replace(usual, cutters=owned, machines=kept, rule=usual.rule if rule is None else GRADUATIONS[rule])


def with_dado_set(*widths, unit=Unit.INCH, first=True):
    """The usual shop with a dado set for its saw, which is its first choice or its second."""
    usual = usual_shop(unit)
    saw = usual.machines.table_saw
    assert isinstance(saw, TableSaw)
    order = usual.machines.first_choice
    chosen = (order[1], order[0], order[2]) if first else order
    saw = replace(saw, dado_widths=tuple(size(width, unit=unit) for width in widths))
    made: Machines = replace(usual.machines, table_saw=saw, first_choice=chosen)
    return replace(usual, machines=made)


def f(text):
    """A number of inches as a Fraction."""
    return sum(map(fraction_in, text.split()), Fraction(0))
