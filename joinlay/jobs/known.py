"""What the steps of planning gave, kept while nearly the same job is planned again and again, as when remedies are tried.

A remedy changes a key or two. What a step is given is compared with what it was given the first time, by value; where it is the
same, so is what it gives, and it is taken as it is. A step takes what the steps before it gave, so one drawer that changes costs
that drawer and what hangs on it. Two lengths are the same by value alone: a plan made with this is right in every size and
finding, but the file and line of a length may be those of the first job. It is for judging by, not for printing from.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable

__all__ = ["Known"]

_T = TypeVar("_T")


class Known:
    """Each step of the first plan: what it was given, and what it gave."""

    def __init__(self) -> None:
        """Know nothing yet."""
        self._first: dict[Hashable, tuple[tuple[object, ...], object]] = {}

    def of(self, step: Hashable, given: tuple[object, ...], make: Callable[[], _T]) -> _T:
        """What ``make`` gives, or gave the first time if ``given``, which is all it goes by, was the same then.

        ``step`` says which step of the plan it is. What ``make`` raises is raised, and not kept.
        """
        first = self._first.get(step)
        if first is not None and first[0] == given:
            return cast("_T", first[1])
        made = make()
        if first is None:
            self._first[step] = given, made
        return made
