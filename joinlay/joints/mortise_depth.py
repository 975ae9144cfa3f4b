"""How deep the two mortises of a loose tenon go, and how long it is then (LT-3 to LT-5), by the mortiser's stops where it has
them (MS-10).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.findings import larger, refusal, stock_of, warning
from joinlay.joints.fits import depth_down, label
from joinlay.joints.tenon_size import Use
from joinlay.lengths import NOTHING, chosen, largest, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.findings import Change, Finding, Refused
    from joinlay.joints.tenon_size import TenonSize
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop

__all__ = ["MortiseDepths", "mortise_depths"]


@dataclass(frozen=True, slots=True)
class MortiseDepths:
    """Depth ``in_end`` (into the end or edge) and ``in_face``, and the tenon's ``length``: both, less the glue room."""

    in_end: Dimension
    in_face: Dimension
    length: Dimension
    finding: Finding | None


def mortise_depths(tenon: TenonSize, face_thickness: Dimension, shop: Shop, named: str, use: Use = Use.DRAWER) -> MortiseDepths:
    """The depths for ``tenon`` where the other part is ``face_thickness`` deep (LT-3 to LT-5; Moxon, US Army EN0533).

    Tenons of a given length split it, never past the limit of LT-3. Raises Refused where the face is too thin for the tenon or
    its reach too short.
    """
    limit = _face_limit(face_thickness, shop).named(label(named, "deepest mortise in the face"), "LT-3", "common practice")
    if shop.machines.depth_stops:
        in_end, in_face = _by_stops(tenon, limit, shop, named)
    else:
        split = _by_rule if tenon.stock.length is None else _by_length
        in_end, in_face = split(tenon, limit, shop, named)
    least = tenon.thickness + shop.practice.length("glue room")
    if in_face < least:
        raise _shallow(tenon, in_face, least, face_thickness, shop, use)
    in_face = in_face.named(label(named, "mortise depth in the face"), "LT-3", "common practice")
    length = tenon.stock.length or in_end + in_face - shop.practice.length("glue room") * 2
    named_length = length.named(label(named, "tenon length"), "LT-5", "US Army EN0533")
    return MortiseDepths(in_end, in_face, named_length, _judge(in_end, tenon, shop))


def _named_end(depth: Dimension, named: str) -> Dimension:
    return depth.named(label(named, "mortise depth in the end"), "LT-4", "Moxon's rule, from memory")


def _face_limit(face: Dimension, shop: Shop) -> Dimension:
    """As deep as a mortise may go into a face: the floor of wood behind it stays (LT-3)."""
    practice = shop.practice
    return face - largest(practice.length("mortise floor"), face * practice.ratio("mortise floor share"))


def _by_rule(tenon: TenonSize, limit: Dimension, shop: Shop, named: str) -> tuple[Dimension, Dimension]:
    """Depths in end and face by rule, both down to the maker's rule (LT-3, LT-4)."""
    reach = () if tenon.stock.reach is None else (tenon.stock.reach,)
    usual = tenon.thickness * shop.practice.ratio("tenon depth")
    wanted = smallest(usual, *reach) if reach else usual
    in_end = _named_end(depth_down(wanted, shop.rule, wanted / 2), named)
    if limit.mm <= 0:
        return in_end, limit
    in_face = smallest(limit, in_end)
    return in_end, depth_down(in_face, shop.rule, in_face / 2)


def _by_length(tenon: TenonSize, limit: Dimension, shop: Shop, named: str) -> tuple[Dimension, Dimension]:
    """Depths that take a tenon of given length and its glue room: half each, or less in the face and more in the end."""
    length, reach = tenon.stock.length or NOTHING, tenon.stock.reach
    room = shop.practice.length("glue room") * 2
    half = (length + room) / 2
    most = smallest(limit, half) if reach is None else smallest(limit, half, reach)
    if most.mm <= 0:
        return _named_end(half, named), most
    in_face = depth_down(most, shop.rule, most / 2)
    rest = length + room - in_face
    up = chosen(shop.rule.up(rest), "up to the rule:", rest)
    if reach is None or up <= reach:
        return _named_end(up, named), in_face
    if rest > reach:
        raise refusal(
            "tenon length",
            "A tenon {length} long needs a mortise {rest} deep in the end, and {reach} is the deepest it can be.",
            "A tenon {longest} long at most would do.",
            "LT-4",
            "common practice",
            length=length,
            rest=rest,
            reach=reach,
            longest=in_face + reach - room,
        )
    return _named_end(rest, named), in_face


def _by_stops(tenon: TenonSize, limit: Dimension, shop: Shop, named: str) -> tuple[Dimension, Dimension]:
    """Depths among the mortiser's stops (MS-10): in the face the deepest that LT-3 lets, in the end the nearest to LT-4's.

    A tenon of given length takes the shallowest pair that holds it with its glue room. Raises Refused where no stop is shallow
    enough for the face, or no two are deep enough together. Source: common practice.
    """
    reach = tenon.stock.reach
    stops = [stop for stop in shop.machines.depth_stops if reach is None or stop <= reach]
    wanted = tenon.thickness * shop.practice.ratio("tenon depth")
    in_face = [stop for stop in stops if stop <= limit]
    if not in_face:
        raise refusal(
            "mortise depth",
            "The mortise in the face may be {limit} deep at most, and the shallowest stop of the mortiser is {stop}.",
            "A stop at {limit} or less would do, or a thicker part there.",
            "MS-10, LT-3",
            "common practice",
            limit=limit,
            stop=min(shop.machines.depth_stops),
        )
    if tenon.stock.length is None:
        # Of two as near the shallower, which leaves more wood.
        end = min(stops, key=lambda stop: (abs(stop.mm - wanted.mm), stop.mm))
        face = max(stop for stop in in_face if stop <= end or stop == in_face[0])
        return _at_stop(end, named, "end"), face
    needed = tenon.stock.length + 2 * shop.practice.length("glue room")
    pairs = [(end, face) for face in in_face for end in stops if end + face >= needed and end >= face]
    if not pairs:
        raise refusal(
            "tenon length",
            "A tenon {length} long needs two mortises {needed} deep together, and the stops of the mortiser give {most}.",
            "Shorter tenons would do, or a deeper stop.",
            "MS-10, LT-5",
            "common practice",
            length=tenon.stock.length,
            needed=needed,
            most=max(stops) + max(in_face),
        )
    end, face = min(pairs, key=lambda pair: (pair[0] + pair[1], pair[0]))
    return _at_stop(end, named, "end"), face


def _at_stop(depth: Dimension, named: str, where: str) -> Dimension:
    return depth.named(label(named, f"mortise depth in the {where}"), "MS-10, LT-4", "common practice")


def _shallow(tenon: TenonSize, in_face: Dimension, least: Dimension, face: Dimension, shop: Shop, use: Use) -> Refused:
    """The refusal of a face too thin to hold the tenon, naming the thinnest that would."""
    thinnest = _thinnest(least, shop.practice)
    what = "The mortise in the face could be {depth} deep, and a {tenon} tenon needs {least}."
    remedy = "A part {thinnest} thick there would do (it is {face})."
    if thinnest is None:
        remedy = "With the shop's share for the mortise floor no face would do."
    elif face >= thinnest:
        remedy = "A mortise cutter that reaches {least} would do."
    return refusal(
        "mortise depth",
        what,
        remedy,
        "LT-3",
        "common practice",
        depth=largest(in_face, NOTHING),
        tenon=tenon.thickness,
        least=least,
        thinnest=least if thinnest is None else thinnest,
        face=face,
    ).by(*_thicker(use, least, face, shop.practice))


def _thicker(use: Use, least: Dimension, face: Dimension, practice: Practice) -> tuple[Change, ...]:
    """What a job may change of a face too thin: a drawer's front, or the stile or rail of a frame; none where the cutter is
    short.
    """
    thinnest = _thinnest(least, practice)
    if thinnest is None or face >= thinnest:
        return ()
    if use is Use.DRAWER:
        return (stock_of("drawers", "front", thinnest=thinnest),)
    keys = ("stile", "mullion", "top-rail", "bottom-rail") if use is Use.FRAME else ()
    return tuple(larger("frame", key, thinnest - face) for key in keys)


def _thinnest(least: Dimension, practice: Practice) -> Dimension | None:
    """The thinnest part whose face takes a mortise ``least`` deep (LT-3); None where none would."""
    share = 1 - practice.ratio("mortise floor share")
    return largest(least + practice.length("mortise floor"), least / share) if share > 0 else None


def _judge(in_end: Dimension, tenon: TenonSize, shop: Shop) -> Finding | None:
    """A warning where the mortise in the end is not 3 to 5 times as deep as the tenon is thick; the maker's rule may cost a mark
    (LT-4).
    """
    least, most = tenon.thickness * 3, tenon.thickness * 5
    if in_end > most + shop.rule.division or in_end + shop.rule.division < least:
        return warning(
            "mortise depth",
            "The mortise in the end is {depth} deep; a {tenon} tenon wants {least} to {most}.",
            "Choose another tenon, or set the tenon depth to 3 to 5.",
            "LT-4",
            "Moxon's rule, from memory",
            depth=in_end,
            tenon=tenon.thickness,
            least=least,
            most=most,
        )
    return None
