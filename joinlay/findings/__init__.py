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

__all__ = ["Finding", "Harm", "Refused", "note", "refusal", "warning"]


class Harm(IntEnum):
    """How bad a finding is; sorts from the worst."""

    REFUSE = 0
    WARN = 1
    NOTE = 2


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found.

    ``kind`` is a short trade name (``racking``, ``tenon walls``). ``what`` and ``remedy`` are
    sentences in which ``{name}`` stands for a number of ``numbers``, so that lengths are shown on the maker's own rule.
    ``where`` is a part or place in the maker's words. ``rule`` and ``source`` as in a Dimension. ``mark`` is what there is room for beside the
    part itself, a few words with the same placeholders, '' for none. ``parts`` are the parts it is about by name, where ``where`` says them
    in other words; none where ``where`` is the part.
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

    @property
    def about(self) -> tuple[str, ...]:
        """The parts it is about, by name."""
        return self.parts or (self.where,)

    def sentence(self, show: Callable[[Length], str]) -> str:
        """``what`` with its numbers set by ``show`` (a Graduation's ``text``)."""
        return self._fill(self.what, show)

    def way_out(self, show: Callable[[Length], str]) -> str:
        """``remedy`` with its numbers set by ``show``; empty where there is none."""
        return self._fill(self.remedy, show)

    def few_words(self, show: Callable[[Length], str]) -> str:
        """``mark`` with its numbers set by ``show``; empty where there is none."""
        return self._fill(self.mark, show)

    def at(self, where: str) -> Finding:
        """The same finding at ``where``; a place that is there already follows after a comma."""
        return replace(self, where=f"{where}, {self.where}" if self.where else where)

    def _fill(self, text: str, show: Callable[[Length], str]) -> str:
        shown = {name: show(n) if isinstance(n, Length) else str(n) for name, n in self.numbers.items()}
        return text.format(**shown)


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
