"""Lengths, findings and trees as JSON: exact, in millimetres, and as the maker reads them; short tables on one line."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from joinlay.lengths import Length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Fraction, Graduation

__all__ = ["InWords", "exact_text", "json_text"]

#: A table no longer than this stands on one line.
_WIDE: Final = 120


def exact_text(number: Fraction) -> str:
    """An exact number as a fraction: ``37211/80``, ``18/1``."""
    return f"{number.numerator}/{number.denominator}"


@dataclass(frozen=True, slots=True)
class InWords:
    """Turns lengths and findings into what JSON can hold; ``rule`` is the maker's, which the text of a length is set on."""

    rule: Graduation

    def length(self, length: Length) -> dict[str, Any]:
        """``mm`` as a decimal number, ``exact`` as a fraction of millimetres, ``text`` as the maker reads it."""
        return {"mm": float(length.mm), "exact": exact_text(length.mm), "text": self.rule.text(length)}

    def dimension(self, dimension: Dimension) -> dict[str, Any]:
        """A length with where it comes from: its rule and source, where it was written, or how it was worked out."""
        told = {"rule": dimension.rule, "source": dimension.source, "origin": dimension.origin}
        working = dimension.expression(self.rule.text)
        return {**self.length(dimension), **{key: text for key, text in {**told, "working": working}.items() if text}}

    def finding(self, finding: Finding) -> dict[str, Any]:
        """A finding, its sentences set on the maker's rule and its numbers beside them."""
        return {
            "kind": finding.kind,
            "harm": finding.harm.name.lower(),
            "where": finding.where,
            "what": finding.sentence(self.rule.text),
            "remedy": finding.way_out(self.rule.text),
            "rule": finding.rule,
            "source": finding.source,
            "numbers": self.tree(finding.numbers),
        }

    def tree(self, tree: Mapping[str, Any]) -> dict[str, Any]:
        """``tree`` with each length in it said as ``length`` says it; what else it holds stays."""
        return {key: self._leaf(value) for key, value in tree.items()}

    def _leaf(self, value: object) -> object:
        if isinstance(value, Length):
            return self.length(value)
        if isinstance(value, dict):
            return self.tree(value)
        return [self._leaf(one) for one in value] if isinstance(value, list) else value


def json_text(tree: object) -> str:
    """``tree`` as JSON with short tables on one line, and a newline at the end."""
    return _lay_out(tree, "") + "\n"


def _lay_out(value: object, indent: str, before: int = 0) -> str:
    """``value``, on one line where that has room behind the ``before`` letters that stand on it already."""
    flat = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, (dict, list)) or not value or len(indent) + before + len(flat) <= _WIDE:
        return flat
    deeper = indent + " "
    if isinstance(value, dict):
        keys = {f"{json.dumps(key, ensure_ascii=False)}: ": inner for key, inner in value.items()}
        rows = [f"{key}{_lay_out(inner, deeper, len(key))}" for key, inner in keys.items()]
    else:
        rows = [_lay_out(inner, deeper) for inner in value]
    opening, closing = "{}" if isinstance(value, dict) else "[]"
    return f"{opening}\n{deeper}" + f",\n{deeper}".join(rows) + f"\n{indent}{closing}"
