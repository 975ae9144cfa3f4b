"""What a stage of putting together is called at the bench, what its diagonals must read, and how far it may wind, in words
(PT-5).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards.names import in_few_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.assembly.squaring import Square, Winding
    from joinlay.lengths import Graduation

__all__ = ["square_words", "squares_told", "stage_head", "winding_words", "windings_told"]


def stage_head(of: Sequence[str]) -> str:
    """Over the steps of a thing: ``Face frame``, ``Drawers 1 to 8, each``, ``The piece``."""
    if tuple(of) == ("piece",):
        return "The whole piece"
    name = in_few_words(of)
    if len(of) == 1:
        return name[0].upper() + name[1:]
    return f"{name.replace('drawer', 'Drawers', 1)}, each"


def squares_told(of: Sequence[str], squares: Iterable[Square], rule: Graduation) -> Iterator[tuple[str, str, str, str]]:
    """The rectangles made in the stages ``of``, on ``rule``: names, between which corners, what both diagonals read, how far they
    may differ.

    Those that read alike are told once (PT-5).
    """
    alike: dict[tuple[str, str, str], list[str]] = {}
    for one in squares:
        if one.made_in in of:
            key = (one.corners, rule.text(rule.round(one.diagonal)), rule.text(one.told))
            alike.setdefault(key, []).append(one.of)
    for (corners, reads, differ), names in alike.items():
        yield in_few_words(names), corners, reads, differ


def square_words(name: str, corners: str, reads: str, differ: str) -> str:
    """What the diagonals must read: of one thing, or of several that read alike (PT-5)."""
    most = f"{differ} apart" if differ.startswith("under") else f"no more than {differ} apart"
    return f"square: {name}, {corners}: both diagonals {reads}, {most}"


def windings_told(of: Sequence[str], windings: Iterable[Winding], rule: Graduation) -> Iterator[tuple[str, str, str]]:
    """What may be how far in winding, of what is made in the stages ``of``, on ``rule``: names, where the two sticks lie, how far
    one may lean.

    Those that read alike are told once (PT-5, PT-12).
    """
    alike: dict[tuple[str, str], list[str]] = {}
    for one in windings:
        if one.made_in in of:
            alike.setdefault((one.sticks, rule.text(one.told)), []).append(one.of)
    for (sticks, told), names in alike.items():
        yield in_few_words(names), sticks, told


def winding_words(name: str, sticks: str, told: str) -> str:
    """How far one thing may be in winding, or several that may be alike (PT-5, PT-12)."""
    return f"winding: {name}, two sticks {sticks}: {told if told.startswith('under') else f'no more than {told}'} out"
