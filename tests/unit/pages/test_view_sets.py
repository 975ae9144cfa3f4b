"""The largest scale that fits, found from few drawings: as trying every scale in turn finds it."""

from typing import Any, cast

import pytest

from joinlay.lengths import Fraction
from joinlay.pages.view_sets import Tries, ViewSet, largest_set
from joinlay.pictures.picture import PLAIN

WOOD = (Fraction(1562), Fraction(1252))
ROOM = (Fraction(204), Fraction(241))
VIEWS = ("section", "front")


class Drawn:
    """Two views that take so much beside their wood, and the scales they were drawn at with none, one or both of their numbers.

    All that the numbers take is taken by those of the first.
    """

    def __init__(self, bare, numbered):
        self.beside = (bare, numbered, numbered)
        self.at: list[list[int]] = [[], [], []]

    def bare(self, view, scale):
        return 0

    def numbered(self, view, scale):
        return 1

    def draw(self, scale, drawn):
        told = sum(drawn(view, scale) for view in VIEWS)
        self.at[told].append(scale.under)
        wide, high = (wood * scale.factor + more for wood, more in zip(WOOD, self.beside[told], strict=True))
        return ViewSet((), (wide, high), (), scale, 0)

    def largest(self, guess, views=VIEWS):
        return largest_set(Tries(self.draw, views, WOOD, ROOM, cast("Any", self)), guess)

    def plainly(self, how):
        """The same, trying each scale from the largest."""
        return next(scale for scale in PLAIN if all(self.draw(scale, one).fits(ROOM) for one in (self.bare, how)))


@pytest.mark.parametrize("guess", [(0, 0), (40, 30), (72, 63), (110, 120), (400, 400)])
@pytest.mark.parametrize("bare", [(72, 63), (30, 150), (0, 0), (150, 20)])
def test_it_is_the_one_that_trying_every_scale_finds(guess, bare):
    drawn = Drawn(bare, tuple(size + 9 for size in bare))
    assert drawn.largest(guess).scale == drawn.plainly(drawn.numbered)
    assert drawn.largest(guess, views=()).scale == drawn.plainly(drawn.bare)


def test_it_takes_few_drawings():
    drawn = Drawn((72, 63), (79, 70))
    assert drawn.largest((71, 56)).scale.under == 13
    # At the first scale the numbers of one view show that they don't fit.
    assert drawn.at == [[12, 13], [12, 13], [13]]


@pytest.mark.parametrize(("guess", "bare"), [((71, 56), [12]), ((0, 0), [8, 12]), ((400, 400), [2000])])
def test_however_bad_the_guess_is_numbers_are_set_once(guess, bare):
    drawn = Drawn((72, 63), (72, 63))
    assert drawn.largest(guess).scale.under == 12
    assert drawn.at[0][: len(bare)] == bare
    assert drawn.at[1:] == [[12], [12]]


def test_where_nothing_fits_it_is_the_smallest_with_all_its_numbers():
    drawn = Drawn((300, 300), (310, 310))
    assert drawn.largest((71, 56)).scale == PLAIN[-1]
    assert drawn.at[1:] == [[], [PLAIN[-1].under]]
