"""The rabbet: a step along the edge of a part that takes another, as a back in the sides of a case (RA-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Surface
from joinlay.errors import BadInput
from joinlay.joints.fits import depth_down, findings_at, judge_depth, judge_panel, label, name_of, refusals_at, refuse_nothing
from joinlay.joints.spans import inwards, whole
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board, Hand, JointRole, PartRole, Span
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Fraction
    from joinlay.shop import Shop

__all__ = ["Rabbet", "cut_rabbet", "design_rabbet"]

#: How many times as thick as the wood it is cut in a panel in a rabbet is usually, and at most. Source: our own choice.
_PANEL_TIMES: Final = (2, 4)


@dataclass(frozen=True, slots=True)
class Rabbet:
    """A rabbet ``width`` wide, from the edge inwards, and ``depth`` deep, from the face.

    ``findings`` bear the name of ``role`` as their place.
    """

    role: JointRole | None
    width: Dimension
    depth: Dimension
    findings: tuple[Finding, ...]


def design_rabbet(
    *,
    into: Dimension,
    panel: Dimension,
    shop: Shop,
    width: Dimension | None = None,
    depth: Dimension | None = None,
    usual_share: Fraction | None = None,
    rule: str = "RA-1",
    source: str = "common practice",
    role: JointRole | None = None,
) -> Rabbet:
    """Size a rabbet in wood ``into`` thick for a panel ``panel`` thick (RA-1; common practice).

    ``width`` is the panel's thickness and an allowance unless given; ``depth`` half the thickness, down to the rule, unless
    given; one deeper than ``usual_share`` of it, that half unless given, is warned of. ``rule`` and ``source`` are those of the
    joint it is cut for. Raises BadInput for sizes of zero or less; Refused where the panel is far too thick for it, or the rabbet
    deeper than 2/3 of the thickness.
    """
    refuse_nothing(into=into, panel=panel, width=width, depth=depth)
    practice = shop.practice
    allowance = practice.length("rabbet allowance")
    wide = width if width is not None else (panel + allowance if allowance else panel)
    shares = (practice.ratio("least dado share"), practice.ratio("rabbet share"), practice.ratio("largest rabbet share"))
    judged = (shares[0], usual_share or shares[1], shares[2])
    deep = depth if depth is not None else depth_down(into * shares[1], shop.rule, into * shares[0])
    named = name_of(role)
    with refusals_at(named):
        too_thick = judge_panel("rabbet", panel, into, _PANEL_TIMES, rule)
        found = judge_depth("rabbet", deep, into, judged, rule)
    return Rabbet(
        role=role,
        width=wide.named(label(named, "rabbet width"), rule, source),
        depth=deep.named(label(named, "rabbet depth"), rule, source),
        findings=findings_at(named, too_thick, found),
    )


def cut_rabbet(
    joint: Rabbet,
    board: Board,
    at: Surface,
    mate: PartRole | None,
    *,
    face: Surface = Surface.FACE,
    run: Span | None = None,
    which: Hand | PartRole | None = None,
) -> Board:
    """The board with the rabbet in ``face``, along the edge or end ``at`` (RA-1).

    ``run`` says from where to where it runs, on the axis along that edge or end: all of it unless given. The cut is called
    ``rabbet``, ``which`` before it. Raises BadInput where ``face`` is no face or ``at`` is one, or the rabbet lies outside the
    wood.
    """
    if face.axis is not Axis.INTO or at.axis is Axis.INTO:
        raise BadInput(f"a rabbet lies in a face, along an edge or end; {face.value} and {at.value} were given.")
    across_it = inwards(board, at, NOTHING, joint.width)
    other = Axis.ALONG if at.axis is Axis.ACROSS else Axis.ACROSS
    along_it = run or whole(board, other)
    cut = Cut(
        kind=CutKind.RABBET,
        surface=face,
        along=along_it if other is Axis.ALONG else across_it,
        across=across_it if other is Axis.ALONG else along_it,
        into=inwards(board, face, NOTHING, joint.depth),
        role=CutRole(CutUse.RABBET, mate, joint.role, which),
    )
    return board.with_cuts(cut)
