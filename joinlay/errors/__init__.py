"""One family of errors: what was given, the limit, and the nearest thing that works.

Nothing here knows about lengths or wood, so every floor may raise these. The words are for the maker;
the command line prints them as they stand.
"""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["BadInput", "JoinlayError", "NotExact", "Trouble", "Troubles", "nearest_names", "quoted"]


class JoinlayError(Exception):
    """The parent of every error a maker can meet. Its text is a whole sentence or more."""


class BadInput(JoinlayError, ValueError):
    """Something that was given cannot be used: the text says what, the limit, and what would work."""


class NotExact(BadInput, TypeError):
    """A float was given where an exact length is needed; the text says what to write instead."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """One thing wrong with a file a maker wrote.

    ``line`` counts from 1; 0 where no line can be named (a key that is missing altogether).
    ``where`` is the place in the maker's words (``drawer 2, opening, width``).
    """

    file: str
    line: int
    where: str
    message: str

    def __str__(self) -> str:
        """``file:line: where: what was given, what is allowed``."""
        place = f"{self.file}:{self.line}" if self.line else self.file
        return f"{place}: {self.where}: {self.message}" if self.where else f"{place}: {self.message}"


class Troubles(BadInput):
    """Everything that is wrong with a file, all at once, in the order of the file's lines."""

    def __init__(self, troubles: Iterable[Trouble]) -> None:
        """Keep ``troubles`` sorted by file and line; the text is one line for each."""
        self.troubles: tuple[Trouble, ...] = tuple(sorted(troubles, key=lambda t: (t.file, t.line)))
        super().__init__("\n".join(map(str, self.troubles)))


def nearest_names(given: str, known: Sequence[str], most: int = 3) -> tuple[str, ...]:
    """The names in ``known`` that look most like ``given``, nearest first; at most ``most``.

    Case is passed over. Names that merely begin with or hold what was given follow the near ones, so that
    half a name is answered too.
    """
    folded = {name.casefold(): name for name in known}
    asked = given.casefold()
    near = get_close_matches(asked, folded, n=most, cutoff=0.6)
    near += [name for name in folded if asked and asked in name and name not in near]
    return tuple(folded[name] for name in near[:most])


def quoted(given: object, most: int = 64) -> str:
    """``given`` as an error quotes it: its repr, cut where that is longer than ``most`` characters. Never raises."""
    try:
        said = repr(given)
    except ValueError:  # Python writes out no whole number of more than 4300 figures
        return "a number of thousands of figures"
    return said if len(said) <= most else f"{said[: most - 3]}..."
