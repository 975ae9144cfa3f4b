"""Mortises on a machine with certain widths and fence heights only: the joint is designed among them (MS-10).

A step is a figure the machine has, not one that is set by eye, so nothing is rounded here: of the steps that keep the other rules
the one nearest to what the rule wants is taken. How deep such a machine goes stands with the depths (``mortise_depth``).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.findings import refusal
from joinlay.joints.fits import label
from joinlay.lengths import chosen, smallest

if TYPE_CHECKING:
    from joinlay.findings import Refused
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["centre_above_face", "no_such_width", "slack_of_the_rest", "width_by_step"]


def centre_above_face(end_thickness: Dimension, tenon: Dimension, wall: Dimension, shop: Shop, named: str) -> Dimension:
    """The mortise's centre above the face that lies to the fence, in wood of ``end_thickness`` (MS-7, MS-10; common practice).

    Half the thickness, or where the fence has steps the one nearest to it, the lower of two, that leaves ``wall`` beside a
    mortise as wide as the ``tenon`` is thick (LT-2). Raises Refused, naming the nearest step and between which heights one would
    do, where none does.
    """
    half, name = end_thickness / 2, label(named, "mortise centre above the face")
    steps = shop.machines.fence_steps
    if not steps:
        return half.named(name, "MS-7", "common practice")
    low = wall + tenon / 2
    high = end_thickness - low
    nearest = min(steps, key=lambda step: (abs(step.mm - half.mm), step.mm))
    if not low <= nearest <= high:
        on_rule = shop.rule.up(low), shop.rule.down(high)
        least, most = on_rule if on_rule[0] <= on_rule[1] else (low, high)
        raise refusal(
            "fence step",
            "No step of the mortiser's fence leaves {wall} beside a {tenon} tenon in wood {wood} thick; the "
            "nearest is {nearest}.",
            "A step from {least} to {most} would do.",
            "MS-10, LT-2",
            "common practice",
            wall=wall,
            tenon=tenon,
            wood=end_thickness,
            nearest=nearest,
            least=least,
            most=most,
        )
    return chosen(nearest, "step of the fence nearest to", half).named(name, "MS-10, MS-7", "common practice")


def width_by_step(wanted: Dimension, thickness: Dimension, room: Dimension | None, shop: Shop) -> Dimension | None:
    """How wide along the joint a tenon of strip is that wants to be ``wanted``: the nearest width the machine gives (MS-10).

    From 2 to 6 times the ``thickness`` (LT-6), and no wider than the ``room`` a rail has between its shoulders (None: no rail);
    of two as near the narrower. None where the machine gives none of those.
    """
    most = thickness * shop.practice.ratio("widest tenon")
    if room is not None:
        most = smallest(most, room)
    steps = [step for step in shop.machines.width_steps if thickness * 2 <= step <= most]
    if not steps:
        return None
    nearest = min(steps, key=lambda step: (abs(step.mm - wanted.mm), step.mm))
    return chosen(nearest, "width of the mortiser nearest to", wanted)


def no_such_width(wanted: Dimension, shop: Shop, least: Dimension, most: Dimension) -> Refused:
    """The refusal of a machine that gives no width from ``least`` to ``most``, naming the nearest it gives (MS-10)."""
    nearest = min(shop.machines.width_steps, key=lambda step: (abs(step.mm - wanted.mm), step.mm))
    remedy = "A width from {least} to {most} would do." if least < most else "A width of {least} would do."
    return refusal(
        "mortise width",
        "A tenon {wanted} wide is wanted, and the nearest width the mortiser gives is {nearest}.",
        remedy,
        "MS-10, LT-6",
        "common practice",
        wanted=wanted,
        nearest=nearest,
        least=least,
        most=most,
    )


def slack_of_the_rest(width: Dimension, shop: Shop, named: str) -> Dimension:
    """How much wider the mortises after the first are than a tenon ``width`` wide (LT-12; common practice).

    The shop's slack, or where the machine gives certain widths the narrowest of them that leaves as much. Raises Refused, naming
    the most slack that would do, where the widest leaves less.
    """
    slack, name = shop.practice.length("mortise slack"), label(named, "mortise slack")
    steps = shop.machines.width_steps
    if not slack or not steps:
        return slack.named(name, "LT-12", "common practice")
    wanted = width + slack
    wide = [step for step in steps if step >= wanted]
    if not wide:
        raise refusal(
            "mortise width",
            "The mortises after the first want to be {wanted} wide, slack and all; the widest the mortiser gives is {most}.",
            "A mortise-slack of {less} would do, or a width of {wanted} or more.",
            "MS-10, LT-12",
            "common practice",
            wanted=wanted,
            most=max(steps),
            less=max(steps) - width,
        )
    return chosen(wide[0] - width, "what the next width of the mortiser leaves, at least", slack).named(
        name, "MS-10, LT-12", "common practice"
    )
