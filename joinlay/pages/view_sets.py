"""Views drawn together at one scale, and the largest scale at which what they take fits the room there is.

The problem: the wood grows with the scale, but figures, letters and balloons don't, and how much these take hangs on where they
find room, so that only a drawing tells whether it fits. A drawing takes long, and its numbers longer than all else. The method:
what a drawing takes beside its wood is about the same at every scale. From a guess at it the first scale is reckoned, and from
each drawing the next, until one fits and the next larger can't, all without numbers. Only then are these set; where the drawing
no longer fits with them, the scale is made smaller by what they are sure to take too.

The cost is two or three drawings without numbers and one or two with them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.geometry import box_of
from joinlay.lengths import Fraction
from joinlay.pen.marks import Move, bounds_of, moved
from joinlay.pictures.picture import PLAIN
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from joinlay.pen.marks import Box, Point, Stroke
    from joinlay.pictures.numbered import NumberedView
    from joinlay.pictures.picture import Picture, Scale, Size

    #: How a view is drawn at a scale: with its numbers or bare.
    DrawView = Callable[[NumberedView, Scale], "Drawn"]

__all__ = ["NOTES_STEP", "Drawings", "Drawn", "Tries", "ViewSet", "around", "largest_set"]

#: From one line of notes to the next, in mm.
NOTES_STEP: Final = Fraction(4)
#: How much of what is beside the wood at one scale is sure to be there at others: where a balloon goes hangs on the scale.
_SURE: Final = Fraction(9, 10)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture and the room it takes, which takes long to find."""

    picture: Picture
    box: Box


@dataclass(frozen=True, slots=True)
class ViewSet:
    """Pictures in their places: the strokes of each and how far they are moved for the upper left corner of all to come to zero;
    how wide and high they are, the lines under them, and how much of what is said has no room in the views or over them.
    """

    placed: tuple[tuple[tuple[Stroke, ...], Point], ...]
    size: Size
    notes: tuple[str, ...]
    scale: Scale
    unsaid: int

    @property
    def taken(self) -> Size:
        """How wide and high it is with the lines under it."""
        wide, high = self.size
        return wide, high + len(self.notes) * NOTES_STEP + 4 if self.notes else high

    def fits(self, room: Size) -> bool:
        """Whether all of it goes into ``room``."""
        wide, high = self.taken
        return wide <= room[0] and high <= room[1]

    def strokes(self, right: Fraction, up: Fraction) -> Iterator[Stroke]:
        """Everything drawn, its upper left corner so far ``right`` and ``up``."""
        for strokes, at in self.placed:
            move = Move(at[0] + right, at[1] + up)
            yield from (moved(stroke, move) for stroke in strokes)


def around(boxes: Sequence[Box]) -> Box:
    """The smallest box that holds all of ``boxes``."""
    return box_of([corner for box in boxes for corner in (box[:2], box[2:])])


class Drawings:
    """Views as they are drawn at a scale, bare and numbered, each once."""

    def __init__(self) -> None:
        self._bare: dict[tuple[NumberedView, Scale], Drawn] = {}
        self._numbered: dict[tuple[NumberedView, Scale], Drawn] = {}

    def bare(self, view: NumberedView, scale: Scale) -> Drawn:
        """A view without its numbers."""
        found = self._bare.get((view, scale))
        if found is None:
            picture = view.bare(scale)
            found = self._bare[view, scale] = Drawn(picture, picture.box)
        return found

    def numbered(self, view: NumberedView, scale: Scale) -> Drawn:
        """A view with its numbers."""
        found = self._numbered.get((view, scale))
        if found is None:
            plain = self.bare(view, scale)
            picture = view.numbered(plain.picture, plain.box)
            added = picture.strokes[len(plain.picture.strokes) :]
            box = around([plain.box, bounds_of(added)]) if added else plain.box
            found = self._numbered[view, scale] = Drawn(picture, box)
        return found


# -- the largest that fits -----------------------------------------------------------------------------


class Tries:
    """What ``draw`` makes in ``room`` at one scale after the other; ``wood`` is what of it grows with the scale, in mm of wood.

    The rest, figures and balloons, takes about as much at every scale. ``views`` are to have numbers, first those that have the
    most to tell.
    """

    def __init__(
        self,
        draw: Callable[[Scale, DrawView], ViewSet],
        views: Sequence[NumberedView],
        wood: Size,
        room: Size,
        drawings: Drawings,
    ) -> None:
        self._draw, self._views, self._wood, self._room, self._drawings = draw, views, wood, room, drawings
        self._known: dict[int, ViewSet] = {}

    def bare(self, n: int) -> ViewSet:
        """Without numbers, at the scale of this number, counted from the largest."""
        found = self._known.get(n)
        if found is None:
            found = self._known[n] = self._draw(PLAIN[n], self._drawings.bare)
        return found

    def numbered(self, n: int) -> ViewSet:
        """With the numbers of all views that are to have them."""
        return self._with_numbers(n, self._views)

    def numbered_as_it_fits(self, n: int) -> ViewSet:
        """The same, but without the numbers of any more views as soon as those that have theirs don't fit."""
        made = self.bare(n)
        for told in range(1, len(self._views) + 1):
            made = self._with_numbers(n, self._views[:told])
            if not self.fits(made):
                break
        return made

    def _with_numbers(self, n: int, told: Sequence[NumberedView]) -> ViewSet:
        def draw(view: NumberedView, scale: Scale) -> Drawn:
            return self._drawings.numbered(view, scale) if view in told else self._drawings.bare(view, scale)

        return self._draw(PLAIN[n], draw)

    def fits(self, made: ViewSet) -> bool:
        """Whether a set fits the room."""
        return made.fits(self._room)

    def beside(self, made: ViewSet) -> Size:
        """What a set takes beside its wood."""
        (wide, high), factor = made.taken, made.scale.factor
        return wide - self._wood[0] * factor, high - self._wood[1] * factor

    def first(self, n: int, beside: Size, share: Fraction = Fraction(1)) -> int | None:
        """The first scale from ``n`` on at which the wood with a ``share`` of so much ``beside`` it fits; None after the last."""
        for k in range(n, len(PLAIN)):
            if all(
                wood * PLAIN[k].factor + more * share <= room
                for wood, more, room in zip(self._wood, beside, self._room, strict=True)
            ):
                return k
        return None


def largest_set(tries: Tries, beside: Size) -> ViewSet:
    """The set at the largest scale at which it fits with its numbers, or one at the smallest; ``beside`` is about what it takes
    beside its wood.
    """
    n = _first_bare(tries, beside)
    while True:
        made = tries.bare(n)
        if tries.fits(made):
            made = tries.numbered_as_it_fits(n)
            if tries.fits(made):
                return made
        further = tries.first(n + 1, tries.beside(made), _SURE)
        if further is None:
            return tries.numbered(n)
        n = further


def _first_bare(tries: Tries, beside: Size) -> int:
    """The largest scale at which a set without numbers fits, or the smallest; ``beside`` as before."""
    last = len(PLAIN) - 1
    found = tries.first(0, beside)
    n, large, small = last if found is None else found, -1, last
    while True:
        made = tries.bare(n)
        if tries.fits(made):
            small = n
            if n - 1 == large or tries.first(n - 1, tries.beside(made), _SURE) != n - 1:
                return n
            n -= 1
        elif n == last:
            return n
        else:
            large = n
            found = tries.first(n + 1, tries.beside(made))
            n = small if found is None else min(found, small)
