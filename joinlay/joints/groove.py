"""The bottom groove: a channel along the grain that takes a drawer's bottom (GR-1, GR-3)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Refused, Remedy, figure, refusal, warning
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
from joinlay.joints.spans import inwards
from joinlay.lengths import NOTHING, Length, largest, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board, Hand, JointRole, PartRole
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["Groove", "cut_groove", "design_groove"]

#: How many times as thick as the sides a bottom is usually, and at most. Source: our own choice.
_PANEL_TIMES: Final = (1, 3)


@dataclass(frozen=True, slots=True)
class Groove:
    """A groove ``width`` wide and ``depth`` deep, its near wall ``offset`` from the edge, cut with ``cutter`` in ``passes``;
    neither where the shop has no cutter for it and that is judged later.

    ``findings`` bear the name of ``role`` as their place.
    """

    role: JointRole | None
    width: Dimension
    depth: Dimension
    offset: Dimension
    cutter: Dimension | None
    passes: tuple[Pass, ...]
    findings: tuple[Finding, ...]


def design_groove(
    *,
    into: Dimension,
    panel: Dimension,
    shop: Shop,
    cutter: Dimension | None = None,
    offset: Dimension | None = None,
    depth: Dimension | None = None,
    is_judged_later: bool = False,
    role: JointRole | None = None,
) -> Groove:
    """Size a groove in wood ``into`` thick for a bottom ``panel`` thick (GR-1; Noyes, Mission Furniture).

    ``into`` is the thinnest of the parts that are grooved alike. ``cutter`` is the widest of the shop's that fits, ``offset`` and
    ``depth`` those of the rule, unless given. ``is_judged_later`` is for a whole piece: a shop that has no cutter for it isn't
    refused here, since the settings judge that with all its cuts and tools. Raises BadInput for sizes of zero or less; Refused
    where no cutter fits (MS-8), the panel is far too thick for the wood, the groove far too deep, or the wood below it would
    break out.
    """
    refuse_nothing(into=into, panel=panel, cutter=cutter, offset=offset, depth=depth)
    fit = shop.practice.length("panel fit")
    named = name_of(role)
    width = (panel + fit if fit else panel).named(label(named, "groove width"), "GR-1", "common practice")
    with refusals_at(named):
        too_thick = judge_panel("groove", panel, into, _PANEL_TIMES, "GR-1")
        deep = _depth(into, shop, depth, named)
        fitting = cutter_or_none if is_judged_later else widest_cutter
        used = fitting(shop, width, deep, "groove") if cutter is None else cutter
        if used is not None:
            refuse_wide_cutter(used, width, "groove", [owned.diameter for owned in shop.cutters])
        too_deep = _judge_depth(into, deep, shop, in_job=role is not None)
        above, too_low = _offset(width, shop, offset, named, in_job=role is not None)
    return Groove(
        role=role,
        width=width,
        depth=deep,
        offset=above,
        cutter=None if used is None else used.named(label(named, "groove cutter"), "MS-8"),
        passes=() if used is None else passes_for(width, used),
        findings=findings_at(named, too_thick, too_deep, too_low),
    )


def cut_groove(
    joint: Groove,
    board: Board,
    mate: PartRole | None,
    *,
    face: Surface = Surface.FACE,
    edge: Surface = Surface.EDGE,
    offset: Dimension | None = None,
    start: Dimension = NOTHING,
    stop: Dimension = NOTHING,
    which: Hand | PartRole | None = None,
) -> Board:
    """The board with the groove in ``face``, its near wall ``offset`` (the joint's own unless given) from ``edge`` (GR-1, GR-3).

    It begins ``start`` from the reference end and stops ``stop`` short of the far end; nothing where it runs through. A front
    whose edge stands above the side's takes its own ``offset``. The cut is called ``groove``, ``which`` before it. Raises
    BadInput where a surface is not of its kind, or the groove lies outside the wood.
    """
    if face.axis is not Axis.INTO or edge.axis is not Axis.ACROSS:
        raise BadInput(f"a groove lies in a face, along an edge; {face.value} and {edge.value} were given.")
    low = joint.offset if offset is None else offset
    cut = Cut(
        kind=CutKind.GROOVE,
        surface=face,
        along=Span(start, board.length - stop if stop else board.length),
        across=inwards(board, edge, low, low + joint.width),
        into=inwards(board, face, NOTHING, joint.depth),
        role=CutRole(CutUse.GROOVE, mate, joint.role, which),
    )
    return board.with_cuts(cut)


def _depth(into: Dimension, shop: Shop, given: Dimension | None, named: str) -> Dimension:
    """The maker's depth, or the smaller of 1/4 in and half the thickness, down to the rule (GR-1)."""
    name = label(named, "groove depth")
    if given is not None:
        return given.named(name, "GR-1")
    usual = smallest(shop.practice.length("groove depth"), into * shop.practice.ratio("groove share"))
    return depth_down(usual, shop.rule, usual / 2).named(name, "GR-1", "Noyes; Mission Furniture")


def _judge_depth(into: Dimension, depth: Dimension, shop: Shop, *, in_job: bool) -> Finding | None:
    practice, key = shop.practice, "groove depth"
    shares = (practice.ratio("groove share") / 4, practice.ratio("groove share"), practice.ratio("largest rabbet share"))
    return judge_depth("groove", depth, into, shares, "GR-1", (key, shop.rule) if in_job else None)


def _offset(
    width: Dimension, shop: Shop, given: Dimension | None, named: str, *, in_job: bool
) -> tuple[Dimension, Finding | None]:
    """The wood left below the groove, and a warning where it is less than the groove's width or the least offset (GR-1).

    Raises Refused under half of that: it breaks out. ``in_job`` False: at the bench, where there is no figure of a job to change.
    """
    name = label(named, "groove offset")
    practice = shop.practice
    least = largest(width, practice.length("least groove offset"))
    above = given.named(name, "GR-1") if given is not None else None
    if above is None:
        above = largest(practice.length("groove offset"), width).named(name, "GR-1", "common practice")
    if above >= least:
        return above, None
    higher = shop.rule.up(Length(shop.practice.length("groove offset").mm + least.mm - above.mm))
    ways = (Remedy("set the groove {higher} from the edge", (figure("groove offset", higher),)),) if in_job else ()
    numbers = {"offset": above, "least": least, **({"higher": higher} if ways else {})}
    if above < least / 2:
        refused = refusal(
            "groove offset",
            "Only {offset} of wood would be left below the groove, and it would break out.",
            "Leave at least {least}.",
            "GR-1",
            "common practice",
            **numbers,
        )
        raise Refused(replace(refused.finding, remedies=ways))
    warned = warning(
        "groove offset",
        "Only {offset} of wood is left below the groove.",
        "Leave at least {least}.",
        "GR-1",
        "common practice",
        **numbers,
    )
    return above, replace(warned, remedies=ways)
