"""A finding is data: what, where, how bad, the numbers, the rule, and what to change.

Rules that can be met only by other wood or another tool raise ``Refused``, which carries its finding; everything
else is collected and the plan is made all the same.
"""

from __future__ import annotations

from dataclasses import field, replace
from enum import IntEnum
from typing import TYPE_CHECKING

from joinlay.errors import JoinlayError
from joinlay.lengths import Length, plain_mm
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = [
    "Change", "Finding", "Harm", "Refused", "Remedy", "SomeStock", "at_least", "at_most", "figure", "larger", "note", "refusal",
    "stock_of", "warning",
]  # fmt: skip


class Harm(IntEnum):
    """How bad a finding is; sorts from the worst."""

    REFUSE = 0
    WARN = 1
    NOTE = 2


@dataclass(frozen=True, slots=True)
class SomeStock:
    """A stock of the job by how thick it is, ``thinnest`` to ``thickest`` (None: no matter): the one nearest to what is used
    there now.
    """

    thinnest: Length | None = None
    thickest: Length | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """One value of a job file to be set: ``key`` of ``table``, in row ``index`` of a table that stands in rows, else None.

    A check knows no job. It names a figure of the practice by its own name (``practice``, ``side clearance``), or a key of the
    drawers it is about (``drawers``, ``bottom``); where that is written in the job is found when the plan is made. ``value`` is a
    length, set as the maker writes lengths, or a text or number as it stands in the file; or some stock of the job, found when
    the plan is made. ``toward`` is the safe side to which a length goes that isn't on the maker's rule: 1 up, -1 down, 0 for
    exactly as it is. One that ``is_more`` is added to what stands there now. The size of an opening is a key of the table
    ``opening``: its own, or the piece's around it.
    """

    table: str
    key: str
    value: Length | str | int | SomeStock
    index: int | None = None
    toward: int = 0
    is_more: bool = False


@dataclass(frozen=True, slots=True)
class Remedy:
    """What a program can do about a finding: every one of ``changes``, none of which would do alone.

    ``text`` says it in words, with the finding's placeholders; it begins small and has no stop. Empty where the finding's own
    ``remedy`` says it: what is to be set is told when the plan is made.
    """

    text: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found.

    ``kind`` is a short trade name (``racking``, ``tenon walls``). ``what`` and ``remedy`` are sentences in which ``{name}``
    stands for a number of ``numbers``, so that lengths are shown on the maker's own rule. ``where`` is a part or place in the
    maker's words. ``rule`` and ``source`` as in a Dimension. ``mark`` is what there is room for beside the part itself, a few
    words with the same placeholders, '' for none. ``parts`` are the parts it is about by name, where ``where`` says them in other
    words; none where ``where`` is the part. ``remedies`` are what a program can do about it, the best first; ``remedy`` is what
    only the maker can.
    """

    kind: str
    harm: Harm
    where: str
    what: str
    numbers: Mapping[str, Length | int | str] = field(default_factory=dict, hash=False)
    rule: str = ""
    source: str = ""
    remedy: str = ""
    mark: str = ""
    parts: tuple[str, ...] = ()
    remedies: tuple[Remedy, ...] = ()

    @property
    def about(self) -> tuple[str, ...]:
        """The parts it is about, by name."""
        return self.parts or (self.where,)

    def sentence(self, show: Callable[[Length], str]) -> str:
        """``what`` with its numbers set by ``show`` (a Graduation's ``text``)."""
        return self._fill(self.what, show)

    def way_out(self, show: Callable[[Length], str]) -> str:
        """``remedy`` and then the ``remedies``, their numbers set by ``show``; empty where there are none."""
        ways = "; or ".join(self.in_words(remedy, show) for remedy in self.remedies if remedy.text)
        return " ".join(part for part in (self._fill(self.remedy, show), f"{ways[0].upper()}{ways[1:]}." if ways else "") if part)

    def in_words(self, remedy: Remedy, show: Callable[[Length], str]) -> str:
        """The text of one of its ``remedies``, its numbers set by ``show``."""
        return self._fill(remedy.text, show)

    def few_words(self, show: Callable[[Length], str]) -> str:
        """``mark`` with its numbers set by ``show``; empty where there is none."""
        return self._fill(self.mark, show)

    def at(self, where: str) -> Finding:
        """The same finding at ``where``; a place that is there already follows after a comma."""
        return replace(self, where=f"{where}, {self.where}" if self.where else where)

    def _fill(self, text: str, show: Callable[[Length], str]) -> str:
        shown = {name: show(n) if isinstance(n, Length) else str(n) for name, n in self.numbers.items()}
        # What is too small to tell is under a mark, and nothing about that is about.
        return text.format(**shown).replace(" about under ", " under ")


def figure(name: str, value: Length) -> Change:
    """The change that sets a figure of the practice, by its name."""
    return Change("practice", name, value)


def at_least(table: str, key: str, value: Length) -> Change:
    """The change of a key to a length that may be larger, so that it stands on the maker's rule."""
    return Change(table, key, value, toward=1)


def at_most(table: str, key: str, value: Length) -> Change:
    """The change of a key to a length that may be smaller, so that it stands on the maker's rule."""
    return Change(table, key, value, toward=-1)


def larger(table: str, key: str, by: Length) -> Change:
    """The change of a length by so much more, or a little over, so that it stands on the maker's rule; by a length below zero:
    smaller.
    """
    return Change(table, key, by, toward=1 if by.mm > 0 else -1, is_more=True)


def stock_of(table: str, key: str, *, thinnest: Length | None = None, thickest: Length | None = None) -> Change:
    """The change of a stock for another one of the job, by how thick it is."""
    return Change(table, key, SomeStock(thinnest, thickest))


class Refused(JoinlayError):
    """A rule cannot be met: nothing is cut. ``finding`` says which number, by how much, and what would work."""

    def __init__(self, finding: Finding) -> None:
        """Carry ``finding``; the text shows lengths in millimetres, for want of a rule."""
        self.finding = finding
        said = [finding.sentence(plain_mm), finding.way_out(plain_mm)]
        super().__init__(": ".join(part for part in (finding.where, " ".join(filter(None, said))) if part))

    def at(self, where: str) -> Refused:
        """The same refusal at ``where``."""
        return Refused(self.finding.at(where))

    def by(self, *ways: Change | tuple[Change, ...] | Remedy | None) -> Refused:
        """The same refusal with the changes by which a program can do what its ``remedy`` says, each by itself, or several that
        go together.

        None among them is left out.
        """
        said = [
            way if isinstance(way, Remedy) else Remedy("", way if isinstance(way, tuple) else (way,))
            for way in ways
            if way is not None
        ]
        return Refused(replace(self.finding, remedies=(*self.finding.remedies, *said)))


def refusal(kind: str, what: str, remedy: str, rule: str, source: str = "", **numbers: Length | int | str) -> Refused:
    """A Refused to raise: ``what`` broke which limit and ``remedy`` that works, with their ``numbers``."""
    return Refused(Finding(kind, Harm.REFUSE, "", what, numbers, rule, source, remedy))


def warning(kind: str, what: str, remedy: str, rule: str, source: str = "", **numbers: Length | int | str) -> Finding:
    """A finding that something may go wrong though the plan is made."""
    return Finding(kind, Harm.WARN, "", what, numbers, rule, source, remedy)


def note(kind: str, what: str, rule: str = "", source: str = "", **numbers: Length | int | str) -> Finding:
    """A finding that the maker should know of; nothing need change."""
    return Finding(kind, Harm.NOTE, "", what, numbers, rule, source)
