"""The chapters of a packet as they are bound: their sheets filed, shared between neighbours, and numbered through."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.pages.printed_sheet import bind
from joinlay.pages.shared_sheets import joined
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from joinlay.pages import Sheet
    from joinlay.pages.printed_sheet import FootWords
    from joinlay.pages.shared_sheets import KnownSheets

__all__ = ["Chapter", "filed", "in_order", "joined_chapters", "numbered", "with_last"]


@dataclass(frozen=True, slots=True)
class Chapter:
    """A part of a packet: what it is called and its sheets, bound with all the others; some may belong to its neighbours too."""

    heading: str
    sheets: tuple[Sheet, ...]


def in_order(chapters: Iterable[Chapter]) -> tuple[Sheet, ...]:
    """Every sheet of ``chapters`` in its order, once: some belong to several."""
    return tuple({id(sheet): sheet for chapter in chapters for sheet in chapter.sheets}.values())


def filed(sheets: Iterable[Sheet], heading: str | Mapping[int, str]) -> tuple[Sheet, ...]:
    """``sheets`` with the heading of its chapter on everything laid on them, each filed under the first of these.

    ``heading`` is that of all, or of each template by its ``id``.
    """
    found = []
    for sheet in sheets:
        laid = tuple(
            replace(one, chapter=heading if isinstance(heading, str) else heading[id(one.template)]) for one in sheet.laid
        )
        section = laid[0].chapter if laid else heading if isinstance(heading, str) else ""
        found.append(replace(sheet, laid=laid, section=section))
    return tuple(found)


def joined_chapters(made: Mapping[str, Sequence[Sheet]], known: KnownSheets) -> list[Chapter]:
    """The chapters, a sheet that is near-empty shared with what comes after it (PR-11)."""
    apart = [Chapter(heading, tuple(sheets)) for heading, sheets in made.items()]
    sheets = joined(in_order(apart), known)
    return [Chapter(heading, tuple(sheet for sheet in sheets if heading in sheet.chapters)) for heading in made]


def with_last(chapters: Sequence[Chapter], last: Chapter, known: KnownSheets) -> list[Chapter]:
    """``chapters`` and the ``last``, which begins on the last sheet before it where that has room; no number is changed by it."""
    before = in_order(chapters)[-1:]
    begun = joined([*before, *last.sheets], known)
    shared = {id(sheet): one for sheet, one in zip(before, begun, strict=False)}
    own = (sheet for sheet in begun if last.heading in sheet.chapters)
    moved = [replace(one, sheets=tuple(shared.get(id(sheet), sheet) for sheet in one.sheets)) for one in chapters]
    return [*moved, Chapter(last.heading, tuple(own))]


def numbered(chapters: Sequence[Chapter], mark: str, said: FootWords) -> Iterator[Chapter]:
    """The chapters with their sheets bound as one set."""
    apart = in_order(chapters)
    bound = bind([replace(sheet, mark=mark, said=said) for sheet in apart])
    at = {id(sheet): one for sheet, one in zip(apart, bound, strict=True)}
    for chapter in chapters:
        yield replace(chapter, sheets=tuple(at[id(sheet)] for sheet in chapter.sheets))
