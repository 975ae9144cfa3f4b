"""What a template is: a piece of paper with something at true size on it, and the wood it is for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pen.lettering import words
from joinlay.pen.marks import Text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.pen.marks import Box, Stroke

__all__ = ["FIGURE", "SMALL", "WORD", "Template"]

#: Heights of lettering in mm (ISO 3098): of figures read with the part in hand, of words beside them, of what is said besides.
FIGURE: Final = Fraction(5)
WORD: Final = Fraction(7, 2)
SMALL: Final = Fraction(5, 2)
#: From a template by itself down to the line of its mark.
_UNDER: Final = Fraction(5)


@dataclass(frozen=True, slots=True)
class Template:
    """A piece of paper to mark from: an end laid flat, a story stick, a fold-over strip, a section, a drill template.

    ``names`` are the boards it is for; ``end`` is the maker's word for the end it is for, or for what it shows there; ``on`` is
    the edge it is laid on, '' where that is the reference face; ``what`` is what kind of paper it is, '' for the template of an
    end. ``mates`` are boards that are marked from it too, such as the fronts that sides are mortised to. ``turned`` are boards
    marked from it turned over, print down, and ``turned_end`` the word for their end (PR-11). ``strokes`` are in exact
    millimetres, x to the right and y up, from the zero that each kind of template gives; ``box`` (left, bottom, right, top) is
    the room they take.
    """

    names: tuple[str, ...]
    end: str
    strokes: tuple[Stroke, ...]
    box: Box
    on: str = ""
    mates: tuple[str, ...] = ()
    turned: tuple[str, ...] = ()
    turned_end: str = ""
    what: str = ""

    @property
    def marks(self) -> tuple[str, ...]:
        """Every board that is marked from it."""
        return tuple(dict.fromkeys((*self.names, *self.turned, *self.mates)))

    @property
    def part(self) -> str:
        """The boards in few words: ``drawer 1 to 3 left and right side``."""
        return in_few_words(dict.fromkeys((*self.names, *self.turned)))

    @property
    def title(self) -> str:
        """``drawer 1 left side, front end``; ``face frame left stile, top end, inside edge`` where it is laid on an edge.

        The ends of boards marked from it turned over stand in it too: ``drawer 1 front, left and right end``.
        """
        end = in_few_words((self.end, self.turned_end)) if self.turned else self.end
        return ", ".join(filter(None, (self.part, end, self.what, self.on)))

    def marked(self, mark: str, made: str = "") -> tuple[Stroke, ...]:
        """The strokes and, under them, a line each, the plan's ``mark`` (PR-7) and who ``made`` it and when; none for what is
        empty.
        """
        left, bottom, *_ = self.box
        said = [one for one in (mark and f"plan mark {mark}", made) if one]
        under = (Text((left, bottom - _UNDER * n), words(one, SMALL)) for n, one in enumerate(said, start=1))
        return (*self.strokes, *under)

    @property
    def quantity(self) -> int:
        """How many boards are marked from it with its print up."""
        return len(self.names)

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Its width and height on paper, in mm."""
        left, bottom, right, top = self.box
        return right - left, top - bottom
