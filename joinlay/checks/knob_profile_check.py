"""Whether the profile a maker drew for a knob is the size of the knobs it is for (PU-2)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.findings import note, warning
from joinlay.lengths import Length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards.outline import Outline
    from joinlay.casework.pulls import Pull
    from joinlay.findings import Finding
    from joinlay.lengths import Graduation

__all__ = ["check_profile"]


def check_profile(profile: Outline, knobs: Sequence[Pull], rule: Graduation) -> Iterator[Finding]:
    """What doesn't agree between a drawn half profile and the planned ``knobs`` (PU-2).

    Sizes agree that differ by no more than half of the smallest division of ``rule``. A warning where no knob is as wide as the
    drawing, or none stands out as far; a note where the knobs grow and only some are.
    """
    across, long = Length(profile.height * 2), Length(profile.width)
    least = rule.division / 2
    fitting = [knob for knob in knobs if abs(knob.diameter - across) <= least]
    if not fitting:
        near = min(knobs, key=lambda knob: abs(knob.diameter - across))
        yield warning(
            "pull",
            f"The profile in {profile.file} is {{across}} across at its widest, and no knob is; the nearest is {{knob}}",
            "Draw the profile at the size of a knob, or write that size as the diameter of the pulls.",
            "PU-2",
            "by geometry",
            across=across,
            knob=near.diameter,
        ).at("pulls")
    elif len(fitting) < len(knobs):
        widest = max(knobs, key=lambda knob: knob.diameter)
        yield note(
            "pull",
            f"The profile in {profile.file} is true for {len(fitting)} of the {len(knobs)} knobs, those {{across}} across; "
            "the others, up to {widest}, are turned to the same form by eye, or each from a profile of its own",
            "PU-2",
            "common practice",
            across=across,
            widest=widest.diameter,
        ).at("pulls")
    if abs(knobs[0].projection - long) > least:
        yield warning(
            "pull",
            f"The profile in {profile.file} is {{long}} long and the knobs stand out {{out}}",
            "Draw the profile from the front of the drawer to the tip, without the spigot, "
            "or write its length as the projection.",
            "PU-2",
            "by geometry",
            long=long,
            out=knobs[0].projection,
        ).at("pulls")
