"""Fitting, in the order in which it is done: each drawer in its opening, where it may be tight, and how much to plane there
(PT-10, CK-1).

A ``Fitting`` is one drawer with its ``Tight`` places, those first that are likeliest to bind. How much may have to come off is
what stock and cuts stray by, all at their worst: then it has the room again that it was planned with. Off the sides half of it
comes from each; off the top all of it from their upper edges, since their lower edges ride. ``fitting_words`` and
``fitting_order`` say it in sentences.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind, Whole
from joinlay.checks.conditions import Finish
from joinlay.checks.fit import rooms
from joinlay.findings import note
from joinlay.lengths import Fine, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.casework.opening import ToPlane
    from joinlay.checks.conditions import Conditions
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Practice

__all__ = ["Fitting", "Tight", "finish_words", "fitting_order", "fitting_words", "fittings", "note_full", "planing_words"]


@dataclass(frozen=True, slots=True)
class Tight:
    """A place where a drawer may be tight.

    ``where`` is ``play between its guides`` or the like; ``room`` what it has there by the plan, a film of finish taken off;
    ``least`` what is left with every size at its worst (below 0: it does not go in), ``plane`` how much at most to take off in
    all, ``off`` where from.
    """

    where: str
    room: Dimension
    least: Fine
    plane: Fine
    off: str

    @property
    def may_bind(self) -> bool:
        """True where it may not go in before it is planed."""
        return self.least.mm <= 0


@dataclass(frozen=True, slots=True)
class Fitting:
    """How ``drawer`` (its name) is fitted: its places, sideways and upwards, the tightest first; or what is planed off one that
    is made ``full`` (HF-1), which has none.
    """

    drawer: str
    places: tuple[Tight, ...]
    full: ToPlane | None = None

    @property
    def to_plane(self) -> tuple[Tight, ...]:
        """The places where it may not go in as it is, the tightest of each direction."""
        found: dict[str, Tight] = {}
        for place in self.places:
            if place.may_bind:
                found.setdefault(place.off, place)
        return tuple(found.values())


_OFF_SIDES: Final = "the outsides of its sides, half off each, least at the front"
_OFF_TOP: Final = "the upper edges of its sides and back, never the lower ones, which ride"


def fittings(drawers: Sequence[Drawer], practice: Practice, conditions: Conditions) -> tuple[Fitting, ...]:
    """Each drawer with the places where it may be tight (PT-10, CK-1, PT-11)."""
    return tuple(_fitting(drawer, practice, conditions.finish) for drawer in drawers)


def _fitting(drawer: Drawer, practice: Practice, finish: Finish | None) -> Fitting:
    if drawer.make.planed is not None:
        return Fitting(drawer.name, (), drawer.make.planed)
    places = [
        Tight(
            room.where,
            room.stack.clearance,
            Fine(room.stack.least_at_worst),
            Fine(Length(room.stack.at_worst.mm)),
            _OFF_TOP if room.is_upwards else _OFF_SIDES,
        )
        for room in rooms(drawer, practice, finish)
    ]
    return Fitting(drawer.name, tuple(sorted(places, key=lambda place: place.least)))


def fitting_words(fitting: Fitting, rule: Graduation) -> tuple[str, ...]:
    """What to look out for as the drawer is tried in, a sentence each: where, and how much to plane (PT-10)."""
    if fitting.full is not None:
        return (planing_words(fitting.full, rule),)
    tight = fitting.to_plane
    if not tight:
        least = fitting.places[0]
        return (f"It goes in as it is: all at their worst, its {least.where} is still {rule.text(least.least)}.",)
    return tuple(
        f"Its {place.where} is {rule.text(Fine(place.room))} by the plan. If it is tight there, plane {place.off}, "
        f"a shaving at a time and no more than {rule.text(place.plane)} in all."
        for place in tight
    )


_FULL: Final = (
    "It is made full and does not go in before it is planed: about {sides} off the outside of each side and the "
    "end of its front there, {top} "
    "off the upper edges of sides, back and front, {bottom} off the lower edge of its front. Plane until it "
    "goes, a shaving at a time, never "
    "the edges it rides on."
)


def planing_words(full: ToPlane, rule: Graduation) -> str:
    """Where and about how much a drawer that is made full to its opening is planed (HF-1)."""
    return _FULL.format(sides=rule.text(full.sides), top=rule.text(full.top), bottom=rule.text(full.bottom))


def note_full(drawer: str, full: ToPlane) -> Finding:
    """The same as a finding about the ``drawer`` of that name (HF-1)."""
    return note("hand fitted", _FULL, "HF-1", "common practice", sides=full.sides, top=full.top, bottom=full.bottom).at(drawer)


#: What is done in which order (PT-10): a head, and what to do.
_FRAME: Final = ("Frame to case", "Flush the frame to the case, and let it stand a day before anything hangs on it.")
_RUNNERS: Final = (
    "Runners",
    "Lay a straight stick across each pair of bearers and over the rail: all three must touch it. Pare what "
    "stands high before the guides go on.",
)
_DRAWERS: Final = (
    "Drawers",
    "Try each in its own opening, from the bottom up. Hold a light behind it, or rub chalk on the runners, to "
    "see where it binds; "
    "plane there and nowhere else. The front comes last: the same gap all round.",
)
_STOPS: Final = (
    "Stops",
    "With each drawer in flush, press its stops against the back of its front and let them set; try it again before the next.",
)
_PULLS: Final = (
    "Pulls",
    "Drill for the pulls with the template, a scrap behind; glue or screw them in once the fronts are finished.",
)
_WAX: Final = (
    "Wax",
    "Rub wax on bearers, guides and kickers and on the edges of the sides: no oil and no film. Load nothing for a day.",
)


def fitting_order(others: Sequence[Assembly], *, has_pulls: bool) -> tuple[tuple[str, str], ...]:
    """What is fitted in which order, a head and a sentence each; what the piece hasn't is left out (PT-10).

    ``others`` are case, frame, runners and stops, none where only openings are given.
    """
    return tuple(_in_order(others, has_pulls=has_pulls))


def _in_order(others: Sequence[Assembly], *, has_pulls: bool) -> Iterator[tuple[str, str]]:
    wholes = {assembly.of for assembly in others if assembly.boards}
    if {Whole.CASE, Whole.FRAME} <= wholes:
        yield _FRAME
    if Whole.RUNNERS in wholes:
        yield _RUNNERS
    # A piece of open bays has nothing that slides.
    if others and Whole.RUNNERS not in wholes:
        return
    yield _DRAWERS
    if any(assembly.of_kind(PartKind.STOP_BLOCK) for assembly in others):
        yield _STOPS
    if has_pulls:
        yield _PULLS
    yield _WAX


def finish_words(conditions: Conditions, practice: Practice, rule: Graduation) -> tuple[str, ...]:
    """What the finish takes from each gap, and where none goes (PT-11)."""
    film = practice.length("finish film")
    off_sides, off_top = (rule.text(Fine(Length(film.mm * faces))) for faces in (4, 2))
    bare = "Leave bearers, guides, kickers and the outsides of the sides bare, for wax."
    if conditions.finish is None:
        said = (
            f"Oil and wax take nothing from a gap. A finish that builds a film takes about {off_sides} from the "
            f"side play and {off_top} "
            'from the room at the top: write finish = "film" under [use], and it is counted.'
        )
        return said, bare
    if not conditions.finish.builds:
        return f"{'Oil' if conditions.finish is Finish.OIL else 'Wax'} takes nothing from a gap.", bare
    counted = (
        f"The film takes about {off_sides} from the side play and {off_top} from the room at the top; the fit above counts it."
    )
    return counted, "Sand between coats, and try each drawer again once it is hard.", bare
