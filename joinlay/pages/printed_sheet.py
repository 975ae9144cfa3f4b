"""A sheet: everything on one side of one piece of paper, in millimetres from its lower left corner."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final, Protocol

from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.pages.printer import Printer
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Move, Stroke
    from joinlay.templates.template import Template

__all__ = ["NO_WORDS", "FootWords", "Laid", "Link", "Sheet", "SheetFoot", "bind", "made_words"]


@dataclass(frozen=True, slots=True)
class FootWords:
    """What the foot of a sheet says besides its number and its mark.

    ``series`` goes before the number: ``all`` for a packet of everything, whose sheets are numbered otherwise than those that are
    printed unless asked for. ``made`` is the maker's name and the date of the job, as the job gives them.
    """

    series: str = ""
    made: str = ""

    def numbered(self, number: int, of: int) -> str:
        """``12 of 41``, ``all 12 of 76``."""
        return f"{self.series} {number} of {of}".strip()


NO_WORDS: Final = FootWords()


def made_words(maker: str, date: str) -> str:
    """Who made it and when, as the job gives them: ``made by Ada Fir, 28 November 2026``; '' where it gives neither."""
    return ", ".join(filter(None, (maker and f"made by {maker}", date)))


class SheetFoot(Protocol):
    """What stands at the foot of a sheet; it can be drawn only when the sheet's number is known."""

    def strokes(self, number: int, of: int, mark: str = "", said: FootWords = NO_WORDS) -> tuple[Stroke, ...]:
        """The foot in the sheet's own millimetres; the sheet is ``number`` of ``of``, of the plan with this ``mark``, if any
        (PR-7).

        ``said`` is what it says besides.
        """
        ...


@dataclass(frozen=True, slots=True)
class Laid:
    """A template, or a tile of one, on a sheet: ``move`` takes its own millimetres to the sheet's.

    ``tile`` is its number among its ``tiles``, from 1; both are 0 where it is whole. ``chapter`` is the heading of the chapter of
    a packet that it belongs to, '' where there is none. ``serves`` are the boards it is for where the template's own names are
    something else, such as a setting's.
    """

    template: Template
    move: Move
    tile: int = 0
    tiles: int = 0
    serves: tuple[str, ...] = ()
    chapter: str = ""

    @property
    def title(self) -> str:
        """``drawer 1 front, left end``, and which tile of it."""
        return f"{self.template.title}: tile {self.tile} of {self.tiles}" if self.tile else self.template.title


@dataclass(frozen=True, slots=True)
class Link:
    """A place on a sheet that leads to another sheet: ``box`` in the sheet's millimetres, ``to`` the other's number."""

    box: Box
    to: int


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet, the ``number``-th of ``of`` that are bound together.

    ``body`` is all of it but the ``foot``; ``laid`` says which templates are on it, ``section`` which chapter of a packet it
    is filed under, the first on it, ``links`` what leads to other sheets, ``mark`` the plan's, '' where there is no plan (PR-7),
    ``said`` what the foot says besides.
    It is for one ``printer``, whose correction is not in its strokes.
    """

    paper: Paper
    printer: Printer
    body: tuple[Stroke, ...]
    foot: SheetFoot
    laid: tuple[Laid, ...]
    number: int = 1
    of: int = 1
    section: str = ""
    links: tuple[Link, ...] = ()
    mark: str = ""
    said: FootWords = NO_WORDS

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """Everything on the sheet, in the order it is drawn; the printer's correction is not in it."""
        return self.body + self.foot.strokes(self.number, self.of, self.mark, self.said)

    @property
    def chapters(self) -> tuple[str, ...]:
        """The headings of the chapters that have something on it, in their order; none outside a packet."""
        return tuple(dict.fromkeys(filter(None, (self.section, *(laid.chapter for laid in self.laid)))))

    @property
    def parts(self) -> frozenset[str]:
        """The names of the boards it is of use for."""
        return frozenset(name for laid in self.laid for name in laid.serves or laid.template.marks)

    @property
    def title(self) -> str:
        """What is on it, for a table of contents."""
        return "; ".join(one.title for one in self.laid)


def bind(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """``sheets`` as one set: numbered from 1 in their order, each knowing how many there are."""
    return tuple(replace(sheet, number=number, of=len(sheets)) for number, sheet in enumerate(sheets, start=1))
