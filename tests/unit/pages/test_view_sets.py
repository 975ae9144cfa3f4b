"""The largest scale that fits, found from few drawings: as trying every scale in turn finds it."""

import pytest

from joinlay.lengths import Fraction
from joinlay.pages.view_sets import Drawings, Tries, ViewSet, largest_set
from joinlay.pictures.picture import PLAIN

WOOD = (Fraction(1562), Fraction(1252))
ROOM = (Fraction(204), Fraction(241))


class Drawn:
    """Sets of a given size beside their wood, and at which scales they were drawn, bare and numbered."""

    def __init__(self, bare, numbered, room=ROOM):
        self.beside, self.room = {False: bare, True: numbered}, room
        self.at: dict[bool, list[int]] = {False: [], True: []}
        self.drawings = Drawings()

    def draw(self, scale, view):
        is_numbered = view == self.drawings.numbered
        self.at[is_numbered].append(scale.under)
        wide, high = (wood * scale.factor + more for wood, more in zip(WOOD, self.beside[is_numbered], strict=True))
        return ViewSet((), (wide, high), (), scale, 0)

    def largest(self, guess, **how):
        return largest_set(Tries(self.draw, WOOD, self.room, self.drawings, **how), guess)

    def plainly(self, *, is_numbered):
        """The same, trying each scale from the largest."""
        both = (False, True) if is_numbered else (False,)
        return next(s for s in PLAIN if all(self.draw(s, self.view(n)).fits(self.room) for n in both)).under

    def view(self, is_numbered):
        return self.drawings.numbered if is_numbered else self.drawings.bare


@pytest.mark.parametrize("guess", [(0, 0), (40, 30), (72, 63), (110, 120), (400, 400)])
@pytest.mark.parametrize("bare", [(72, 63), (30, 150), (0, 0), (150, 20)])
def test_it_is_the_one_that_trying_every_scale_finds(guess, bare):
    drawn = Drawn(bare, tuple(size + 9 for size in bare))
    assert drawn.largest(guess).scale.under == drawn.plainly(is_numbered=True)
    assert drawn.largest(guess, has_numbers=False).scale.under == drawn.plainly(is_numbered=False)


def test_it_takes_few_drawings():
    drawn = Drawn((72, 63), (79, 70))
    assert drawn.largest((71, 56)).scale.under == 13
    assert drawn.at == {False: [12, 13], True: [12, 13]}
    # However bad the guess is.
    for guess in ((0, 0), (400, 400)):
        drawn = Drawn((72, 63), (72, 63))
        assert drawn.largest(guess).scale.under == 12
        assert len(drawn.at[True]) == 1
    drawn = Drawn((72, 63), (72, 63))
    assert drawn.largest((0, 0)).scale.under == 12
    assert drawn.at[False] == [8, 12]


def test_where_nothing_fits_it_is_the_smallest():
    drawn = Drawn((300, 300), (310, 310))
    assert drawn.largest((71, 56)).scale == PLAIN[-1]
