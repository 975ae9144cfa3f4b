"""What is spelt a little otherwise, or stands under another heading than was meant, is told once.

The problem: one slip in a key or a heading makes a dozen faults that aren't there. Under ``[[banks]]`` no drawer is found, a
``wdith`` leaves the width missing, ``unit = "mm"`` makes every length too long, and without its heading each line of ``[case]``
is a stranger in the table above.

How it works: before a file is judged its keys are gone through, table by table. Where one is no key, but all but a key that isn't
written, the rest is read as if that stood there, with the slip told; so for one bracket in place of two, and for keys whose
heading is missing. What is only like a key from afar is left to be told as a stranger.
"""

from __future__ import annotations

from difflib import SequenceMatcher
from typing import TYPE_CHECKING, Any, Final, get_args, get_origin

from pydantic import BaseModel

from joinlay.errors import quoted
from joinlay.jobs.source import Source, Spelled

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from joinlay.errors import Trouble
    from joinlay.jobs.source import KeyPath

__all__ = ["as_meant", "headings_with", "keys_of", "table_in"]

#: How like a key must be to be read as it, in per cent: a letter too many, or two that changed places, in a word of five.
_ALIKE: Final = 79
#: So many strangers in one table are no slips of the pen, but keys of another whose heading is missing.
_FEWEST_STRAY: Final = 2
#: So many strangers are looked at; a file with more is no job with slips in it.
_MOST: Final = 20


def as_meant(source: Source, model: type[BaseModel], where: Callable[[KeyPath], str]) -> tuple[Source, list[Trouble]]:
    """``source`` with its slips in keys and headings put right, as far as they are plain, and each slip as a trouble.

    ``model`` is what the file is read as, ``where`` says a place in the maker's words. No rule, our own way of reading.
    """
    reading = _Reading(source, model, where)
    tree = {**reading.table(source.tree, (), (), model), **reading.headed}
    return Source(source.file, tree, {**source.lines, **reading.moved}, frozenset(reading.slips)), reading.troubles


def keys_of(model: type[BaseModel]) -> dict[str, object]:
    """The keys of a table read as ``model``, each with its annotation; no rule, the reader's own."""
    return {field.alias or name: field.annotation for name, field in model.model_fields.items()}


def table_in(annotation: object) -> tuple[type[BaseModel], object] | None:
    """The model inside ``Model | None``, ``list[Model] | None`` or ``dict[str, Model]``, and what there is of it: ``list``,
    ``dict``, or None for one alone. No rule, the reader's own.
    """
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation, None
    for part in get_args(annotation):
        if (found := table_in(part)) is not None:
            many = get_origin(annotation)
            return found[0], found[1] or (many if many in (list, dict) else None)
    return None


def headings_with(key: str, model: type[BaseModel]) -> tuple[str, ...]:
    """The headings of a file read as ``model`` under which ``key`` may stand, as they are written: ``[case]``, ``[[bank]]``,
    ``[stock.NAME]``. No rule, the reader's own.
    """
    tables = ((heading, table_in(annotation)) for heading, annotation in keys_of(model).items())
    return tuple(_written(heading, one[1]) for heading, one in tables if one is not None and key in keys_of(one[0]))


def _written(heading: str, many: object) -> str:
    return f"[[{heading}]]" if many is list else f"[{heading}.NAME]" if many is dict else f"[{heading}]"


class _Reading:
    """One file gone through: the slips found so far, and the lines of what is read in another place than it was written."""

    def __init__(self, source: Source, model: type[BaseModel], where: Callable[[KeyPath], str]) -> None:
        self._source, self._model, self._where = source, model, where
        self._looked_at = 0
        self.troubles: list[Trouble] = []
        self.slips: set[KeyPath] = set()
        self.headed: dict[str, Any] = {}
        self.moved: dict[KeyPath, int] = {}

    def table(self, given: Mapping[str, Any], was: KeyPath, now: KeyPath, model: type[BaseModel]) -> dict[str, Any]:
        """The table read at ``now``, which was written at ``was``, as it was meant."""
        known, meant = keys_of(model), dict[str, Any]()
        strays = self._strays(given, was, known) if now else ()
        for key, value in given.items():
            right = key if key in known else self._right(key, known, given, now)
            if key in strays:
                continue
            if right is None:
                meant[key] = value
                continue
            if right != key:
                self._tell((*was, key), now, f"there is no key {quoted(key)} here; the nearest is {quoted(right)}.")
                self._move((*was, key), (*now, right))
                if not isinstance(value, dict):
                    self.slips.add((*now, right))
            made = self._value(value, (*was, key), (*now, right), known[right])
            before = meant.get(right)
            meant[right] = {**before, **made} if isinstance(before, dict) and isinstance(made, dict) else made
        return meant

    def _value(self, given: object, was: KeyPath, now: KeyPath, annotation: object) -> object:
        """A value as it was meant: a table, or several."""
        inner = table_in(annotation)
        if inner is None or not isinstance(given, (dict, list)):
            return given
        model, many = inner
        if many is list and isinstance(given, dict) and len(now) == 1:
            said = f"this is a table, where a list is wanted; write [[{now[0]}]], two brackets each side, for each."
            self._tell(was, now, said)
            self._move(was, (*now, 0))
            return [self.table(given, was, (*now, 0), model)]
        if many is list and isinstance(given, list):
            tables = enumerate(given)
            return [self.table(one, (*was, n), (*now, n), model) if isinstance(one, dict) else one for n, one in tables]
        if many is dict and isinstance(given, dict):
            return self._named(given, was, now, model)
        return self.table(given, was, now, model) if many is None and isinstance(given, dict) else given

    def _named(self, given: Mapping[str, Any], was: KeyPath, now: KeyPath, model: type[BaseModel]) -> dict[str, Any]:
        """Tables by names of the maker's own, as stocks are; keys that stand under none are told together."""
        known = keys_of(model)
        bare = [key for key, value in given.items() if isinstance(value, Spelled) and key in known]
        if bare:
            heading, stand = now[-1], "stands" if len(bare) == 1 else "stand"
            said = f"{_and(bare)} {stand} under [{heading}] alone; each {heading} has a name: write [{heading}.birch-12], say."
            self._tell((*was, bare[0]), (), said)
        return {
            key: self.table(value, (*was, key), (*now, key), model) if isinstance(value, dict) else value
            for key, value in given.items()
            if key not in bare
        }

    def _right(self, key: str, known: Mapping[str, object], given: Mapping[str, Any], now: KeyPath) -> str | None:
        """The key that is meant by a stranger so like it that nothing else can be; None where there is no such one."""
        # What may be meant by a figure of the practice is told by its own words.
        if self._looked_at >= _MOST or now[:1] == ("practice",):
            return None
        self._looked_at += 1
        plain = _plain(key)
        ratio, right = max((SequenceMatcher(None, plain, _plain(one)).ratio(), one) for one in known)
        if ratio * 100 < _ALIKE:
            return None
        there, mine = given.get(right), given[key]
        # Two spellings of one heading are one table; a key that is there already isn't written twice.
        is_one = isinstance(there, dict) and isinstance(mine, dict) and not set(there) & set(mine)
        return right if there is None or is_one else None

    def _strays(self, given: Mapping[str, Any], was: KeyPath, known: Mapping[str, object]) -> Sequence[str]:
        """Keys that are strangers here, and keys all of one table that isn't written: told together, and read as that table."""
        strangers = [key for key in given if key not in known]
        if not _FEWEST_STRAY <= len(strangers) <= _MOST:
            return ()
        tables = ((heading, table_in(annotation)) for heading, annotation in keys_of(self._model).items())
        fitting = [
            (len(keys_of(one[0])), heading, one[1])
            for heading, one in tables
            if one and one[1] is not dict and heading not in self._source.tree and set(strangers) <= set(keys_of(one[0]))
        ]
        if not fitting:
            return ()
        _, heading, many = min(fitting, key=lambda one: one[0])
        written = _written(heading, many)
        said = f"{_and(strangers)} are keys of {written}, and that heading is missing above them; write {written} there."
        self._tell((*was, strangers[0]), (), said)
        made = {key: given[key] for key in strangers}
        self.headed[heading] = [made] if many is list else made
        # What else stands under that heading isn't known, so nothing more is asked of it.
        self.slips.add((heading,))
        return strangers

    def _tell(self, path: KeyPath, place: KeyPath, message: str) -> None:
        self.troubles.append(self._source.trouble(path, self._where(place), message))

    def _move(self, was: KeyPath, now: KeyPath) -> None:
        """What was written at ``was`` keeps its lines where it is read, at ``now``."""
        under = ((path, line) for path, line in self._source.lines.items() if path[: len(was)] == was)
        self.moved |= {(*now, *path[len(was) :]): line for path, line in under}


def _plain(key: str) -> str:
    return key.casefold().replace("_", "-").replace(" ", "-")


def _and(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
