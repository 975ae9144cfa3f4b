"""Lengths, findings and trees as JSON: exact, in millimetres, and as the maker reads them; short tables on one line."""

from __future__ import annotations

import json
from dataclasses import field
from functools import lru_cache
from math import isfinite
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from joinlay.findings import SomeStock
from joinlay.lengths import Fine, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from joinlay.findings import Finding, Remedy
    from joinlay.lengths import Dimension, Fraction, Graduation

__all__ = ["InWords", "exact_text", "json_text", "row_text", "rows_text"]

#: A table no longer than this stands on one line.
_WIDE: Final = 120
#: How much further in each table stands than what it is in.
_DEEPER: Final = " "
_encoded: Final = json.JSONEncoder(ensure_ascii=False).encode


def _written(value: object) -> str:
    """``value`` on one line; a sign that can't be seen as its number, so that no text in it is read as another."""
    if isinstance(value, str):
        return _spelled(value)
    # Most of the rest; they are written as Python writes them.
    return repr(value) if type(value) is int or (type(value) is float and isfinite(value)) else _encoded(value)


#: Of the words in a plan most are keys, and come a hundred times.
@lru_cache(maxsize=8192)
def _spelled(text: str) -> str:
    said = _encoded(text)
    return said if said.isprintable() else "".join(sign if sign.isprintable() else json.dumps(sign)[1:-1] for sign in said)


@lru_cache(maxsize=1024)
def _key(key: str) -> str:
    return f"{_spelled(key)}: "


def exact_text(number: Fraction) -> str:
    """An exact number as a fraction: ``37211/80``, ``18/1``."""
    return f"{number.numerator}/{number.denominator}"


@dataclass(frozen=True, slots=True)
class InWords:
    """Turns lengths and findings into what JSON can hold; ``rule`` is the maker's, which the text of a length is set on."""

    rule: Graduation
    _said: dict[tuple[Fraction, bool], dict[str, Any]] = field(default_factory=dict, init=False, repr=False, compare=False)

    def length(self, length: Length) -> dict[str, Any]:
        """``mm`` as a decimal number, ``exact`` as a fraction of millimetres, ``text`` as the maker reads it."""
        # The same few lengths stand in many places of a plan; what is read and never set reads otherwise.
        key = (length.mm, isinstance(length, Fine))
        if key not in self._said:
            self._said[key] = {"mm": float(length.mm), "exact": exact_text(length.mm), "text": self.rule.text(length)}
        return self._said[key]

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
            "remedies": [self._remedy(finding, remedy) for remedy in finding.remedies if remedy.text],
            "rule": finding.rule,
            "source": finding.source,
            "numbers": self.tree(finding.numbers),
        }

    def _remedy(self, finding: Finding, remedy: Remedy) -> dict[str, Any]:
        """Its first change with its words, and under ``and`` those that go with it."""
        changes = [
            {"table": one.table, "index": one.index, "key": one.key, "value": self._set_to(one.value)} for one in remedy.changes
        ]
        return {**changes[0], "text": finding.in_words(remedy, self.rule.text), "and": changes[1:]}

    def _set_to(self, value: Length | str | int | SomeStock) -> str | int:
        assert not isinstance(value, SomeStock), "a plan names the stock"
        return self.rule.text(value) if isinstance(value, Length) else value

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
    return _laid_out(_read(tree), "") + "\n"


def row_text(key: str, value: object) -> str:
    """One row of a table that has too much in it for one line, as ``json_text`` has it of the whole."""
    before = f"{_written(key)}: "
    return f"{before}{_laid_out(_read(value), _DEEPER, len(before))}"


def rows_text(rows: Iterable[str]) -> str:
    """A whole file of such rows: what ``json_text`` has of a table that is too long for one line."""
    between = f",\n{_DEEPER}"
    return f"{{\n{_DEEPER}{between.join(rows)}\n}}\n"


class _Table(NamedTuple):
    """A table or list: its ``brackets``, what is in it with the keys in front, and the whole on one line, None where that is
    too long.
    """

    brackets: str
    inner: list[tuple[str, str | _Table]]
    line: str | None


def _read(value: object) -> str | _Table:
    """Every value as it is written, each only once: a table's line is made of the lines in it."""
    if isinstance(value, dict) and value:
        return _table("{}", [(_key(key), _spelled(one) if type(one) is str else _read(one)) for key, one in value.items()])
    if isinstance(value, list) and value:
        return _table("[]", [("", _spelled(one) if type(one) is str else _read(one)) for one in value])
    return _written(value)


def _table(brackets: str, inner: list[tuple[str, str | _Table]]) -> _Table:
    """A table of what is ``inner``, on one line too where that has room."""
    parts: list[str] = []
    room = _WIDE
    for key, one in inner:
        said = one if isinstance(one, str) else one.line
        # With the sign and the blank behind it, or both brackets.
        room -= len(key) + len(said) + 2 if said is not None else _WIDE
        if said is None or room < 0:
            return _Table(brackets, inner, None)
        parts.append(f"{key}{said}")
    return _Table(brackets, inner, f"{brackets[0]}{', '.join(parts)}{brackets[1]}")


def _laid_out(read: str | _Table, indent: str, before: int = 0) -> str:
    """On one line where that has room behind the ``before`` letters that stand on it already."""
    if isinstance(read, str):
        return read
    if read.line is not None and len(indent) + before + len(read.line) <= _WIDE:
        return read.line
    deeper = f"{indent}{_DEEPER}"
    rows = f",\n{deeper}".join(f"{key}{_laid_out(one, deeper, len(key))}" for key, one in read.inner)
    return f"{read.brackets[0]}\n{deeper}{rows}\n{indent}{read.brackets[1]}"
