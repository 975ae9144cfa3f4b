"""Bringing runs together: same machine, cutter, fence, height and orientation are one card, whichever parts they are on (MS-3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Axis
from joinlay.settings.cut_names import all_in_few_words
from joinlay.settings.elements import Work
from joinlay.settings.run import Rank, has_to_do_with

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Surface
    from joinlay.settings.run import Run
    from joinlay.settings.way_of_cutting import Way

__all__ = ["Draft", "drafts_of", "must_precede", "works_of"]


@dataclass(frozen=True, slots=True)
class Draft:
    """A card that has no place in the order yet. All ``runs`` have an equal ``way``, but for which end of a part is turned to it."""

    runs: tuple[Run, ...]

    @property
    def way(self) -> Way:
        """The way of the first run."""
        return self.runs[0].way

    @property
    def joints(self) -> tuple[str, ...]:
        """The names of the joints it is cut for, each once."""
        names = (cut.joint for run in self.runs for cut in run.cuts if cut.joint)
        return tuple(dict.fromkeys(names))


def _side(surface: Surface, rank: Rank) -> tuple[Axis, bool]:
    """A surface, both ends counting as one: a part is turned end for end without touching the machine.

    For mortises and holes that goes for both edges too: there is no feed whose direction would change.
    """
    turned = (Axis.ALONG, Axis.ACROSS) if rank is Rank.PLUNGED else (Axis.ALONG,)
    return surface.axis, surface.is_far and surface.axis not in turned


def drafts_of(runs: Sequence[Run]) -> tuple[Draft, ...]:
    """Cards from ``runs``, in the order their first runs stand.

    Mirrored parts share a card: the same faces lie to table and fence; only the leading end differs, and that matters to a stopped cut
    alone, whose stops are kept apart on the card. Rule MS-3.
    """
    together: dict[tuple[object, ...], list[Run]] = {}
    for run in runs:
        way = run.way
        key = (way.likeness, _side(way.how.entry, run.rank), _side(way.how.fence, run.rank), run.rank)
        together.setdefault(key, []).append(run)
    return tuple(Draft(tuple(found)) for found in together.values())


def must_precede(drafts: Sequence[Draft]) -> frozenset[tuple[int, int]]:
    """Pairs (i, j): draft i has to be cut before draft j, on account of a board that is in both. Never a circle, since rank rises."""
    return frozenset(
        (i, j)
        for i, first in enumerate(drafts)
        for j, then in enumerate(drafts)
        if _rank(first) < _rank(then) and any(has_to_do_with(a, b) for a in first.runs for b in then.runs)
    )


def _rank(draft: Draft) -> Rank:
    return draft.runs[0].rank


def works_of(draft: Draft) -> tuple[Work, ...]:
    """The parts of a card, those that lie, stop and are marked alike together."""
    alike: dict[tuple[object, ...], list[Run]] = {}
    for run in draft.runs:
        how, word = run.way.how, run.board.datum.word
        key = (how, word(how.entry), word(how.fence), run.stops, run.positions, run.squared)
        alike.setdefault(key, []).append(run)
    return tuple(_work(runs) for runs in alike.values())


def _work(runs: list[Run]) -> Work:
    first = runs[0]
    how, datum = first.way.how, first.board.datum
    return Work(
        boards=tuple(run.board.name for run in runs),
        parts=tuple(run.board.part for run in runs),
        cuts=tuple(_called(run) for run in runs),
        entry=how.entry,
        fence=how.fence,
        entry_word=datum.word(how.entry),
        fence_word=datum.word(how.fence),
        stops=first.stops,
        positions=first.positions,
        positions_from=_reference_word(first) if first.positions else "",
        squared=first.squared,
    )


def _called(run: Run) -> str:
    """The cut of a run; mortises and holes of one line in few words, each without its own number."""
    if len(run.cuts) == 1 and run.rank is not Rank.PLUNGED:
        return run.cuts[0].name
    return all_in_few_words(cut.name for cut in run.cuts)


def _reference_word(run: Run) -> str:
    datum = run.board.datum
    return {Axis.ALONG: datum.end, Axis.ACROSS: datum.edge, Axis.INTO: datum.face}[run.way.how.feed]
