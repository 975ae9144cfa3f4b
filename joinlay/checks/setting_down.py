"""The last of the work: the piece levelled, fixed and carried, and what to beware of while it is glued, sanded and finished
(PT-12; section 14).

Sentences and the figures in them; the maker's manuals, the labels on bottle and tin, local codes and licensed people go before
all of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.assembly.blocking import box_of
from joinlay.boards import Whole
from joinlay.checks.conditions import Finish, Stands, weight
from joinlay.checks.weights import board_weight, drawer_weight
from joinlay.lengths import Fine, Length, Unit, inches, mm

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.lengths import Graduation
    from joinlay.stock import Stock

__all__ = ["anchor_words", "beware_words", "level_words", "lifting_words"]

#: From here on, in kilograms, a piece is carried by two. Source: common practice.
_BY_TWO: Final = 25.0


def level_words(drawers: Sequence[Drawer], others: Sequence[Assembly], rule: Graduation) -> tuple[str, ...]:
    """How it is levelled before any drawer is judged, and what a low foot does to the top front (PT-12, derived); none without a
    case.

    A case twisted by t over its depth moves a corner of a front by t times the corner's share of the height.
    """
    boxes = [box_of(board) for one in others if one.of in (Whole.CASE, Whole.FRAME) for board in one.boards]
    if not boxes or not drawers:
        return ()
    low, high = min(box[2] for box in boxes), max(box[5] for box in boxes)
    top = max((box_of(drawer.front)[5], drawer.name) for drawer in drawers)
    out = inches("1/8") if rule.unit is Unit.INCH else mm(3)
    moved = Fine(Length(out.mm * (top[0] - low) / (high - low)))
    return (
        "Set it where it will stand before you judge a drawer: level from side to side and from front to back, "
        "with shims under the "
        "low corner, and two sticks across it out of winding.",
        f"A corner that is low by {rule.text(out)} twists the case, and the {top[1]} front with it, by up to "
        f"{rule.text(moved)} at its upper corner.",
    )


def anchor_words(conditions: Conditions, others: Sequence[Assembly]) -> tuple[str, ...]:
    """How it is kept from tipping, by how it stands (PT-12, CK-5); none without a case."""
    if not any(assembly.of is Whole.CASE for assembly in others):
        return ()
    fix = "with fixings made for that wall, into its framing or masonry and not into plaster alone"
    said = {
        Stands.FREE: f"Fix it to the wall all the same, {fix}: a child who climbs on open drawers can pull it over.",
        Stands.ANCHORED: f"Fix it to the wall before its drawers are filled, {fix}.",
        Stands.BUILT_IN: f"Scribe it to wall and floor first, then level it, then fix it, {fix}.",
    }
    if any(assembly.of is Whole.FILLER for assembly in others):
        # What reaches the walls is not the piece: it is levelled and fixed without them.
        said[Stands.BUILT_IN] = f"Scribe it to the floor, level it, fix it, {fix}. Its fillers are scribed and screwed on last."
    return (said[conditions.stands], "Local codes, and people licensed for it where the wall hides wires or pipes, come first.")


def lifting_words(
    drawers: Sequence[Drawer], others: Sequence[Assembly], stocks: Mapping[str, Stock], rule: Graduation
) -> tuple[str, ...]:
    """What it weighs as it is carried, and by how many; empty for what one person lifts (CK-4)."""
    if not any(assembly.of is Whole.CASE for assembly in others):
        return ()
    bare = sum(board_weight(board, stocks) for assembly in others for board in assembly.boards)
    full = bare + sum(drawer_weight(drawer) for drawer in drawers)
    if full < _BY_TWO:
        return ()
    people = "Two people lift it" if bare >= _BY_TWO else "One can lift it so; two are better"
    return (
        f"It weighs about {weight(bare, rule)} with its drawers out and {weight(full, rule)} with them in: take "
        f"them out. {people}.",
    )


#: What there is to beware of, the work it belongs to first. Our own words.
_GLUING: Final = (
    "gluing",
    "Read the bottle: how long it is open, how warm it must be, what it does to skin and eyes. A clamp that "
    "slips flies: keep your "
    "face out of line.",
)
_SANDING: Final = (
    "sanding",
    "Fine dust harms lungs, and a cloud of it can burn: mask, extraction, no flame. Some woods make people ill "
    "who never were before.",
)
_SOLVENTS: Final = (
    "finishing",
    "Solvents and lacquers: open windows, gloves, no flame and no spark, lids on. The label on the tin goes before this sheet.",
)
_RAGS: Final = (
    "rags",
    "Rags soaked in oil grow hot by themselves and can catch fire: spread each out flat out of doors to dry, or "
    "sink them in water in "
    "a metal can with a lid, before you leave the bench.",
)


def beware_words(conditions: Conditions) -> tuple[tuple[str, str], ...]:
    """What to beware of, a word for the work and a sentence each (section 14). Rags are left out only for wax, which may hold
    solvent but dries by itself.
    """
    return tuple(_beware(conditions.finish))


def _beware(finish: Finish | None) -> Iterator[tuple[str, str]]:
    yield _GLUING
    yield _SANDING
    yield _SOLVENTS
    if finish is not Finish.WAX:
        yield _RAGS
