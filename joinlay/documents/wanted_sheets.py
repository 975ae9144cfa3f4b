"""Which sheets of a packet are wanted: those a maker takes to the bench, all there are, or some chapters of the work (PR-11)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.jobs.plan import Plan

__all__ = ["CHAPTERS", "EVERYTHING", "LEAN", "ChapterKind", "Wanted", "chapters_called", "is_small"]


@dataclass(frozen=True, slots=True)
class ChapterKind:
    """A chapter that a packet can have: the ``word`` it is asked for by, and its ``heading`` on paper.

    Not ``is_lean``: it is only looked at, so it is printed when it is asked for. ``besides`` is what is only printed so of a
    chapter that is always there; '' where nothing is.
    """

    word: str
    heading: str
    is_lean: bool = True
    besides: str = ""

    @property
    def left_out(self) -> str:
        """What of it isn't printed unless it is asked for, in words; '' where all of it always is."""
        return self.besides if self.is_lean else f"{self.heading[0].lower()}{self.heading[1:]}"


#: Every chapter, in the order of the work: what is cut out of paper and marked from, then machines and putting together.
CHAPTERS: Final = (
    ChapterKind("piece", "The piece"),
    ChapterKind("parts", "Pictures of every part", is_lean=False),
    ChapterKind("findings", "What was found", besides="charts of how the drawers come out"),
    ChapterKind("list", "Cutting list, and what to buy"),
    ChapterKind("sawing", "Sawing out"),
    ChapterKind("gauges", "Gauges to set by", is_lean=False),
    ChapterKind("sticks", "Story sticks"),
    ChapterKind("templates", "Templates, strips and drilling", besides="templates of what a strip or a stick marks too"),
    ChapterKind("sections", "Sections of the joints", is_lean=False),
    ChapterKind("settings", "Machine settings", besides="the cards in one list"),
    ChapterKind("assembly", "Putting it together"),
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be printed: with ``is_all`` everything, else no more than is used at the bench.

    ``chapters`` are the words of those wanted by themselves, each then whole and without cover and index; none: the packet.
    """

    is_all: bool = False
    chapters: tuple[str, ...] = ()

    def has(self, kind: ChapterKind) -> bool:
        """Whether sheets of ``kind`` are wanted."""
        return kind.word in self.chapters if self.chapters else self.is_all or kind.is_lean

    def is_whole(self, kind: ChapterKind) -> bool:
        """Whether all of ``kind`` is wanted, and not only what is used at the bench."""
        return self.is_all or kind.word in self.chapters


#: With no more drawers a job is a small one (our own choice).
_FEW_DRAWERS: Final = 2


def is_small(plan: Plan) -> bool:
    """Whether a job is so small that its work is told in short, with what was found under that on the same sheet (PR-11)."""
    return len(plan.drawers) <= _FEW_DRAWERS


LEAN: Final = Wanted()
EVERYTHING: Final = Wanted(is_all=True)


def chapters_called(names: Iterable[str]) -> tuple[str, ...]:
    """The words of the chapters called ``names``, in the order of the work, each once. BadInput for one there is not, with
    those there are.
    """
    known: Sequence[str] = [kind.word for kind in CHAPTERS]
    asked = [" ".join(name.lower().split()) for name in names]
    for name in asked:
        if name not in known:
            near = nearest_names(name, tuple(known))
            told = f"near it: {', '.join(near)}" if near else f"there are {', '.join(known)}"
            raise BadInput(f"--chapter: there is no chapter called {quoted(name)}; {told}.")
    return tuple(word for word in known if word in asked)
