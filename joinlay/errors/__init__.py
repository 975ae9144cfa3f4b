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

__all__ = [
    "BadInput",
    "JoinlayError",
    "NotExact",
    "Trouble",
    "Troubles",
    "nearest_names",
    "on_one_line",
    "quoted",
    "unseen_spelled",
]


class JoinlayError(Exception):
    """The parent of every error a maker can meet. Its text is a whole sentence or more, and every sign in it can be seen."""

    def __init__(self, said: str = "") -> None:
        """Keep what is ``said``, signs that can't be seen spelled out."""
        super().__init__(unseen_spelled(said))


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

    def __post_init__(self) -> None:
        """Keep it to one line: what is echoed in it may hold line ends, and a second line would pass for another trouble."""
        for name in ("file", "where", "message"):
            object.__setattr__(self, name, on_one_line(getattr(self, name)))

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


def quoted(given: object, most: int = 64, mark: str = "") -> str:
    """``given`` as an error echoes it: on one line, signs that can't be seen spelled out, cut past ``most`` characters.

    Text stands between ``mark``s, or as Python writes it where none is given; anything else is shown bare. Never raises.
    """
    if isinstance(given, str):
        # Cut before it is spelled, so that a page costs no more than a line.
        short = given[: most + 1]
        said = f"{mark}{on_one_line(short)}{mark}" if mark else repr(short)
        is_whole = len(short) == len(given)
    else:
        try:
            said = repr(given)
        except ValueError:  # Python writes out no whole number of more than 4300 figures
            return "a number of thousands of figures"
        is_whole = True
    return said if is_whole and len(said) <= most + 2 * len(mark) else f"{said[: most - 3]}...{mark}"


def unseen_spelled(text: str) -> str:
    r"""``text`` with every sign that can't be seen spelled out, such as ``\x1b`` and ``\u202e``, but for its line ends.

    Such signs move the cursor, colour the terminal or turn the letters after them about, so that a line may read as something
    else.
    """
    return text if text.isprintable() else "".join(each if each == "\n" else _spelled(each) for each in text)


def on_one_line(text: str) -> str:
    """``text`` on one line: ``unseen_spelled``, and line ends too."""
    return text if text.isprintable() else "".join(map(_spelled, text))


def _spelled(sign: str) -> str:
    return sign if sign.isprintable() else " " if sign in "\u00a0\u202f" else repr(sign)[1:-1]
