"""Words that are read with a part in hand: their figures large, the words between them no larger than other words (PR-9)."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import Content, Run, set_line, unparted

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["held_lines"]

#: What goes before it is a name, and its figures are words: ``1 × drawer 1 back: middles 3/8``.
_NAMED: Final = ": "
#: By how much of what figures are higher than words a line of words is led as if it were higher.
_LOW: Final = Fraction(1, 5)


@lru_cache(maxsize=1024)
def held_lines(text: str, room: Fraction, figures: Fraction, words: Fraction) -> tuple[tuple[Content, Fraction], ...]:
    """``text`` in lines no longer than ``room`` mm, its figures as high as ``figures`` and its words as ``words``, both in mm.

    Each line stands with the height it is led by: that of the highest in it, and a little more for a line of words alone, which
    may stand under figures. A figure stays with its fraction and its unit, and with the word it goes with; one in the name that
    ``text`` may begin with, up to a colon, is a word. A word longer than the room stands alone.
    """
    name, colon, _ = text.partition(_NAMED)
    named = len(list(unparted(f"{name}:"))) if colon else 0
    lines: list[list[Run]] = []
    for together in _groups(tuple(unparted(text)), named):
        _set([Run(said, figures if is_figure else words) for said, is_figure in together], lines, room)
    low = words + (figures - words) * _LOW
    return tuple((_line(line), max(low, *(run.height for run in line))) for line in lines)


def _groups(said: tuple[str, ...], named: int) -> Iterator[list[tuple[str, bool]]]:
    """The words of a sentence that stay together, each with whether it is a figure; the first ``named`` of them are a name.

    A figure stays with the word before it, ``middles 3/8``, and with one behind it that ends what is said: ``5/32 wide,``.
    """
    found = [(one, n >= named and any(sign.isdigit() for sign in one)) for n, one in enumerate(said)]
    together: list[tuple[str, bool]] = []
    for n, (one, is_figure) in enumerate(found):
        ends = n + 1 == len(found) or not one[-1].isalnum()
        is_behind = bool(together) and together[-1][1] and not is_figure and ends
        if together and not is_behind and (together[-1][1] or not is_figure):
            yield together
            together = []
        together.append((one, is_figure))
        if n < named or is_behind or one[-1] in ",;:.":
            yield together
            together = []
    if together:
        yield together


def _set(runs: list[Run], lines: list[list[Run]], room: Fraction) -> None:
    """Put ``runs`` on the last of ``lines`` where they have room there together, else on a new one; apart only where that has no
    room for them.
    """
    if lines and set_line(_line([*lines[-1], *runs])).width <= room:
        lines[-1] += runs
    elif len(runs) > 1 and set_line(_line(runs)).width > room:
        for run in runs:
            _set([run], lines, room)
    else:
        lines.append(runs)


def _line(runs: list[Run]) -> Content:
    """The runs with the blanks between them, those of one height drawn together."""
    made: list[Run] = []
    for run in runs:
        if made and made[-1].height == run.height:
            made[-1] = Run(f"{made[-1].text} {run.text}", run.height)
        elif made:
            # The blank goes with the words, which are lower.
            is_lower = run.height < made[-1].height
            before, after = ("", " ") if is_lower else (" ", "")
            made[-1] = Run(f"{made[-1].text}{before}", made[-1].height)
            made.append(Run(f"{after}{run.text}", run.height))
        else:
            made.append(run)
    return tuple(made)
