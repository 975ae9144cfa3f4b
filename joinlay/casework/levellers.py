"""Levellers in the feet of a piece: screws with a pad, turned until it stands level on a floor that isn't (BA-3).

Each foot is bored from below, in its middle, for the stem or the insert it turns in: a bought part, so its hole is the maker's
figure. The piece stands on the pads, and tips about the middle of the front ones.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Cut, CutKind, CutRole, CutUse, Shape, Span, Surface
from joinlay.findings import at_most, note, refusal
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop

__all__ = ["Leveller", "bored_for", "levellers_told"]


@dataclass(frozen=True, slots=True)
class Leveller:
    """A levelling foot that wants a ``hole`` so wide and ``depth`` deep, and holds the feet ``out`` off the floor, screwed
    half-way (None: as the practice has it).
    """

    hole: Dimension
    depth: Dimension
    out: Dimension | None = None

    def stands_out(self, practice: Practice) -> Dimension:
        """How far it holds the feet off the floor, given or usual (BA-3)."""
        return practice.length("leveller out") if self.out is None else self.out


_RULE: Final = "BA-3"


def bored_for(leveller: Leveller, foot: Board, shop: Shop) -> Board:
    """A ``foot`` with the hole for a ``leveller`` in the middle of its lower end (BA-3).

    Raises Refused where too little wood is left round the hole, or over it. Source: our own choice.
    """
    wall = shop.practice.length("mortise floor")
    narrow = foot.width if foot.width <= foot.thickness else foot.thickness
    for key, given, most in (("hole", leveller.hole, narrow - 2 * wall), ("depth", leveller.depth, foot.length - wall)):
        if given <= most:
            continue
        refused = refusal(
            "base",
            "A leveller's hole {hole} wide and {depth} deep leaves less than {wall} of a foot {narrow} thick and {high} high.",
            f"Take one whose hole is {{most}} {'wide' if key == 'hole' else 'deep'} at most, or make the feet larger.",
            _RULE,
            "our own choice",
            hole=leveller.hole,
            depth=leveller.depth,
            wall=wall,
            narrow=narrow,
            high=foot.length,
            most=most,
        ).at("base")
        raise refused.by(at_most("base", f"leveller.{key}", most)) if most.mm > 0 else refused
    return foot.with_cuts(
        Cut(
            CutKind.HOLE,
            Surface.END,
            Span(NOTHING, leveller.depth),
            Span.about(foot.width / 2, leveller.hole),
            Span.about(foot.thickness / 2, leveller.hole),
            CutRole(CutUse.LEVELLER_HOLE),
            shape=Shape.ROUND,
        )
    )


def levellers_told(leveller: Leveller, shop: Shop) -> Finding:
    """How high the piece stands on its levellers, and what they ask for (BA-3)."""
    return note(
        "levellers",
        "Its feet stand {out} off the floor on their levellers, screwed half-way: the piece is so much higher, and each "
        "corner can be turned up or down as far as theirs goes. Fit them before it is set on its feet, and turn them with its "
        "drawers out.",
        _RULE,
        "common practice",
        out=leveller.stands_out(shop.practice),
    ).at("base")
