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

__all__ = ["Change", "Finding", "Harm", "Refused", "Remedy", "figure", "note", "refusal", "warning"]


class Harm(IntEnum):
    """How bad a finding is; sorts from the worst."""

    REFUSE = 0
    WARN = 1
    NOTE = 2


@dataclass(frozen=True, slots=True)
class Change:
    """One value of a job file to be set: ``key`` of ``table``, in row ``index`` of a table that stands in rows, else None.

    A check knows no job. It names a figure of the practice by its own name (``practice``, ``side clearance``), or a key of the drawers it is
    about (``drawers``, ``bottom``); where that is written in the job is found when the plan is made. ``value`` is a length, set as the
    maker writes lengths, or a text or number as it stands in the file.
    """

    table: str
    key: str
    value: Length | str | int
    index: int | None = None


@dataclass(frozen=True, slots=True)
class Remedy:
    """What a program can do about a finding: every one of ``changes``, none of which would do alone.

    ``text`` says it in words, with the finding's placeholders; it begins small and has no stop.
    """

    text: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found.

    ``kind`` is a short trade name (``racking``, ``tenon walls``). ``what`` and ``remedy`` are
    sentences in which ``{name}`` stands for a number of ``numbers``, so that lengths are shown on the maker's own rule.
    ``where`` is a part or place in the maker's words. ``rule`` and ``source`` as in a Dimension. ``mark`` is what there is room for beside the
    part itself, a few words with the same placeholders, '' for none. ``parts`` are the parts it is about by name, where ``where`` says them
    in other words; none where ``where`` is the part.
    ``remedies`` are what a program can do about it, the best first; ``remedy`` is what only the maker can.
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
        ways = "; or ".join(self.in_words(remedy, show) for remedy in self.remedies)
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


def refusal(kind: str, what: str, remedy: str, rule: str, source: str = "", **numbers: Length | int | str) -> Refused:
    """A Refused to raise: ``what`` broke which limit and ``remedy`` that works, with their ``numbers``."""
    return Refused(Finding(kind, Harm.REFUSE, "", what, numbers, rule, source, remedy))


def warning(kind: str, what: str, remedy: str, rule: str, source: str = "", **numbers: Length | int | str) -> Finding:
    """A finding that something may go wrong though the plan is made."""
    return Finding(kind, Harm.WARN, "", what, numbers, rule, source, remedy)


def note(kind: str, what: str, rule: str = "", source: str = "", **numbers: Length | int | str) -> Finding:
    """A finding that the maker should know of; nothing need change."""
    return Finding(kind, Harm.NOTE, "", what, numbers, rule, source)
