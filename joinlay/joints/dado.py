"""The dado: a channel across the grain that takes the thickness of another part (DA-1 to DA-5)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Change, note, refusal
from joinlay.joints.fits import (
    Pass,
    cutter_or_none,
    depth_down,
    findings_at,
    judge_depth,
    judge_panel,
    label,
    name_of,
    passes_for,
    refusals_at,
    refuse_nothing,
    refuse_wide_cutter,
    widest_cutter,
)
from joinlay.joints.spans import inwards, refuse_not_end, whole
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board, Hand, JointRole, PartRole
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["Dado", "cut_dado", "cut_notch", "design_dado"]

#: How many times as thick as the wood it is cut in a part let into a dado is usually, and at most. Source: our own choice.
_PANEL_TIMES: Final = (2, 4)


@dataclass(frozen=True, slots=True)
class Dado:
    """A dado ``width`` wide and ``depth`` deep, cut with ``cutter`` in ``passes``;
    neither where the shop has no cutter for it and that is judged later.

    Where ``is_stopped``, it stops ``margin`` short of the edge that shows, and the mating part is notched as far. ``margin`` is
    nothing in a through dado. ``findings`` bear the name of ``role`` as their place.
    """

    role: JointRole | None
    width: Dimension
    depth: Dimension
    cutter: Dimension | None
    passes: tuple[Pass, ...]
    is_stopped: bool
    margin: Dimension
    findings: tuple[Finding, ...]


def design_dado(
    *,
    into: Dimension,
    panel: Dimension,
    shop: Shop,
    cutter: Dimension | None = None,
    depth: Dimension | None = None,
    opposite_depth: Dimension | None = None,
    is_stopped: bool = False,
    is_judged_later: bool = False,
    role: JointRole | None = None,
) -> Dado:
    """Size a dado in wood ``into`` thick for a part ``panel`` thick (DA-1 to DA-5; Griffith pl. 27, Foster).

    ``cutter`` is the widest of the shop's that fits unless given; ``depth`` 1/3 of the thickness, down to the rule, unless given;
    ``opposite_depth`` is how deep a dado lies on the other face at the same place. ``is_judged_later`` is for a whole piece: a
    shop that has no cutter for it isn't refused here, since the settings judge that with all its cuts and tools. Raises BadInput
    for sizes of zero or less; Refused where no cutter fits (MS-8), the part is far too thick for it (DA-1), the dado far too deep
    (DA-2), or too little is left between two (DA-3).
    """
    refuse_nothing(into=into, panel=panel, cutter=cutter, depth=depth, opposite_depth=opposite_depth)
    practice = shop.practice
    fit = practice.length("panel fit")
    named = name_of(role)
    width = (panel + fit if fit else panel).named(label(named, "dado width"), "DA-1", "common practice")
    with refusals_at(named):
        too_thick = judge_panel("dado", panel, into, _PANEL_TIMES, "DA-1")
        deep = _depth(into, shop, depth, named)
        fitting = cutter_or_none if is_judged_later else widest_cutter
        used = fitting(shop, width, deep, "dado") if cutter is None else cutter
        if used is not None:
            refuse_wide_cutter(used, width, "dado", [owned.diameter for owned in shop.cutters])
        shares = (
            practice.ratio("least dado share"),
            practice.ratio("largest dado share"),
            practice.ratio("largest rabbet share"),
        )
        found = judge_depth("dado", deep, into, shares, "DA-2")
        if opposite_depth is not None:
            _refuse_thin_between(into, deep, opposite_depth)
    margin = practice.length("stopped dado margin") if is_stopped else NOTHING
    return Dado(
        role=role,
        width=width,
        depth=deep,
        cutter=None if used is None else used.named(label(named, "dado cutter"), "MS-8"),
        passes=() if used is None else passes_for(width, used),
        is_stopped=is_stopped,
        margin=margin.named(label(named, "dado margin"), "DA-4", "Foster fig. 195"),
        findings=findings_at(named, too_thick, found, _round_end(used) if is_stopped and used is not None else None),
    )


def cut_dado(
    joint: Dado,
    board: Board,
    offset: Dimension,
    mate: PartRole | None,
    *,
    at: Surface = Surface.END,
    face: Surface = Surface.FACE,
    show_edge: Surface = Surface.EDGE,
    across: Span | None = None,
    which: Hand | PartRole | None = None,
) -> Board:
    """The board with the dado in ``face``, its near wall ``offset`` from the end ``at`` (DA-1).

    ``across`` says from where to where across the board; otherwise a stopped dado stops ``joint.margin`` short of ``show_edge``
    and a through one takes the full width. The cut is called ``dado``, ``which`` before it. Raises BadInput where a surface is
    not of its kind, or the dado lies outside the wood.
    """
    refuse_not_end(at)
    _refuse_axis(face, Axis.INTO, "a face")
    _refuse_axis(show_edge, Axis.ACROSS, "an edge")
    if across is None:
        across = inwards(board, show_edge, joint.margin, board.width) if joint.is_stopped else whole(board, Axis.ACROSS)
    cut = Cut(
        kind=CutKind.DADO,
        surface=face,
        along=inwards(board, at, offset, offset + joint.width),
        across=across,
        into=inwards(board, face, NOTHING, joint.depth),
        role=CutRole(CutUse.DADO, mate, joint.role, which),
    )
    return board.with_cuts(cut)


def cut_notch(
    joint: Dado,
    board: Board,
    at: Surface,
    mate: PartRole | None,
    *,
    show_edge: Surface = Surface.EDGE,
    which: Hand | PartRole | None = None,
) -> Board:
    """The mating part of a stopped dado with its corner notched: ``joint.depth`` off the end ``at``, as far as ``joint.margin``
    (DA-4).

    The part itself is as long as for a through dado; with the notch it hides the stopped end. The cut is called ``notch``,
    ``which`` before it. Raises BadInput for a through dado or where a surface is not of its kind.
    """
    refuse_not_end(at)
    _refuse_axis(show_edge, Axis.ACROSS, "an edge")
    if not joint.is_stopped:
        raise BadInput("a through dado needs no notch in its mate; design it as a stopped one.")
    cut = Cut(
        kind=CutKind.SLOT,
        surface=show_edge,
        along=inwards(board, at, NOTHING, joint.depth),
        across=inwards(board, show_edge, NOTHING, joint.margin),
        into=whole(board, Axis.INTO),
        role=CutRole(CutUse.NOTCH, mate, joint.role, which),
    )
    return board.with_cuts(cut)


def _depth(into: Dimension, shop: Shop, given: Dimension | None, named: str) -> Dimension:
    """The maker's depth, or the usual share of the thickness down to the rule, never under the least share (DA-2)."""
    name = label(named, "dado depth")
    if given is not None:
        return given.named(name, "DA-2")
    usual, least = (into * shop.practice.ratio(share) for share in ("dado share", "least dado share"))
    return depth_down(usual, shop.rule, least).named(name, "DA-2", "Griffith pl. 27")


def _round_end(cutter: Dimension) -> Finding:
    what = "The cutter leaves the stopped end round: square it with a chisel, or notch the mating part {more} further."
    return note("stopped dado", what, "DA-4", "common practice", more=cutter / 2)


def _refuse_thin_between(into: Dimension, depth: Dimension, opposite: Dimension) -> None:
    """Raise Refused where dadoes from both faces leave less than 1/3 of the thickness between them (DA-3)."""
    left, least = into - depth - opposite, into / 3
    if left < least:
        raise refusal(
            "dadoes back to back",
            "Dadoes {depth} and {opposite} deep leave {left} between them; {least} must stay.",
            "Together they may be {most} deep.",
            "DA-3",
            "common practice",
            depth=depth,
            opposite=opposite,
            left=left,
            least=least,
            most=into - least,
        ).by(Change("practice", "dado share", "1/3"))


def _refuse_axis(surface: Surface, axis: Axis, what: str) -> None:
    if surface.axis is not axis:
        raise BadInput(f"the {surface.value} of the board was given where {what} is needed.")
