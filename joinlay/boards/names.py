"""Many names said in few words: ``drawer 1 to 4 back`` for four backs that are alike."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards.role import PartRole

__all__ = ["in_few_words", "is_called", "listed", "natural"]

#: A number as it is counted; one with noughts before it is a name of the maker's, and stays as it is.
_NUMBER = re.compile(r"(?<![0-9])(0|[1-9][0-9]*)(?![0-9])")
_HAND = re.compile(r"\b(left|right)\b")


def in_few_words(names: Iterable[str]) -> str:
    """``names`` in one phrase, numbers and hands of names that are otherwise alike drawn together.

    ``drawer 1 back``, ``drawer 2 back``, ``drawer 3 back`` are ``drawer 1 to 3 back``; numbers with gaps are
    ``1, 3 and 4``; ``drawer 1 left side`` and ``drawer 1 right side`` are ``drawer 1 left and right side``.
    """
    split = [tuple(_NUMBER.split(name)) for name in names]
    deepest = max((len(parts) for parts in split), default=0)
    # Splitting on a number puts numbers at the odd places; the last ones (tenon 1 to 3) are drawn together first.
    for place in reversed(range(1, deepest, 2)):
        split = _drawn_together(split, place)
    return ", ".join(_hands_together("".join(parts) for parts in split))


def is_called(role: PartRole, asked: str) -> bool:
    """True where a maker who writes ``asked`` may mean the part: its kind, its name, or how its name ends, in capitals or not.

    ``drawer side``, ``drawer 2 left side`` and ``left side`` are all one part's.
    """
    words = " ".join(asked.casefold().split())
    return words == role.kind.value or f" {role.name}".casefold().endswith(f" {words}")


def _hands_together(phrases: Iterable[str]) -> Iterator[str]:
    """Phrases that differ only in one hand become one, in the order they first come."""
    alike: dict[tuple[str, ...], dict[str, None]] = {}
    for phrase in phrases:
        before, *hand = _HAND.split(phrase, maxsplit=1)
        alike.setdefault((before, *hand[1:]), {})[hand[0] if hand else ""] = None
    for (before, *after), hands in alike.items():
        yield f"{before}{' and '.join(hands)}{''.join(after)}"


def _drawn_together(split: list[tuple[str, ...]], place: int) -> list[tuple[str, ...]]:
    """Names that differ only in the number at ``place`` become one; the rest stay as they are."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for parts in split:
        key = (*parts[:place], "", *parts[place + 1 :]) if len(parts) > place else parts
        alike.setdefault(key, []).append(parts[place] if len(parts) > place else "")
    return [(*key[:place], _run(numbers), *key[place + 1 :]) if len(key) > place else key for key, numbers in alike.items()]


def _run(numbers: list[str]) -> str:
    if not all(number.isdigit() for number in numbers):
        return ", ".join(numbers)
    runs: list[list[int]] = []
    for number in sorted({int(number) for number in numbers}):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    shown = [word for run in runs for word in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run))]
    return listed(shown)


def listed(said: Sequence[str]) -> str:
    """Words one after the other: ``groove, dado and rabbet``. At least one is needed."""
    return " and ".join(filter(None, (", ".join(said[:-1]), said[-1])))


def natural(name: str) -> tuple[tuple[int, int, str], ...]:
    """A sorting key that puts ``drawer 10`` after ``drawer 9``."""
    return tuple((1, int(part), "") if part.isdigit() else (0, 0, part) for part in _NUMBER.split(name))
