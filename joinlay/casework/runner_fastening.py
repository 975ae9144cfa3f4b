"""How a runner is held where it lies: nails in a plywood case, screws in a solid one, as long as what they go into lets them
be (RN-4); on wood that moves along it one screw held fast in front, the rest in slots.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Hand, PartKind, Shape, Span, Surface
from joinlay.boards.fastener import Fastener, FastenerKind
from joinlay.findings import Change, Finding, Harm, Remedy, larger, refusal, stock_of
from joinlay.joints.fasteners import fastener_for, longest_into
from joinlay.lengths import NOTHING, Length, inches
from joinlay.records import dataclass
from joinlay.stock.movement import MOVEMENT_SOURCE, year_of

if TYPE_CHECKING:
    from joinlay.boards import Board, PartRole
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Practice
    from joinlay.stock import Solid
    from joinlay.stock.movement import Seasons

__all__ = ["Held", "held", "is_second_face", "screw_slots"]

#: How far from the ends of a strip the nails begin. Source: NAVEDTRA 14119; MIL-DTL-45449.
_END: Final = inches("1")
#: So much of a nail or screw is in the lower piece: half of that piece, or twice the upper one. Source: our own choice.
_SHARE: Final = 2
_TWICE: Final = 2


@dataclass(frozen=True, slots=True)
class Held:
    """What holds a runner: how many of which ``fastener``, where ``along`` it from its front end, and what was found."""

    fastener: Fastener
    along: tuple[Length, ...]
    findings: tuple[Finding, ...]


def held(
    board: Board,
    through: Surface,
    into: PartRole,
    deep: Dimension,
    practice: Practice,
    rule: Graduation,
    own: Dimension | None = None,
) -> Held:
    """What holds ``board``, ``through`` its surface, in the part ``into``, which is ``deep`` that way.

    Screws where it has holes for them, else nails: three times as long as the strip is deep that way, so that two thirds are
    below, and no longer than stays in the wood; at most a spacing apart, and an inch from the ends. On the second face of a
    partition they stand between those of the first. ``own`` is the length the maker has, judged as it is. RN-4; NAVEDTRA 14119,
    MIL-DTL-45449; our own choice.
    """
    screws = board.cuts_of(CutUse.SCREW_HOLE, CutUse.SCREW_SLOT)
    kind = FastenerKind.SCREW if screws else FastenerKind.NAIL
    spacing = practice.length("bearer screw spacing" if screws else "runner nail spacing")
    shank = practice.length("bearer screw") if screws else None
    upper = board.size(through.axis)
    fastener = fastener_for(kind, upper, deep, rule, shank, spacing)
    along = tuple(Length(cut.along.centre.mm) for cut in screws) or _nails(board, into, spacing)
    if own is not None:
        fastener = Fastener(kind, Length(own.mm), shank, spacing)
    found = _judged(board, upper, into, deep, fastener, rule, is_own=own is not None)
    return Held(fastener, along, () if found is None else (found,))


def is_second_face(wood: PartRole, hand: Hand | None) -> bool:
    """True for runners at the left of their drawer on a partition: others are held on its first face already (RO-1)."""
    return wood.kind is PartKind.CASE_PARTITION and hand is Hand.LEFT


def _nails(board: Board, into: PartRole, spacing: Dimension) -> tuple[Length, ...]:
    """From an inch off the one end to an inch off the other; on the second face of a partition half-way between those of the
    first.
    """
    end, gaps = min(_END.mm, board.length.mm / 4), max(1, ceil(board.length.mm / spacing.mm))
    gap = (board.length.mm - 2 * end) / gaps
    if is_second_face(into, board.role.hand):
        return tuple(Length(end + gap * (2 * n + 1) / 2) for n in range(gaps))
    return tuple(Length(end + gap * n) for n in range(gaps + 1))


def _judged(
    board: Board, upper: Dimension, into: PartRole, deep: Dimension, fastener: Fastener, rule: Graduation, *, is_own: bool
) -> Finding | None:
    """What is wrong with a length: it comes through, or too little of it holds."""
    words, key = f"{fastener.kind.value}s", f"{fastener.kind.value}-length"
    most, goes = longest_into(fastener.kind, upper, deep, rule), (fastener.length - upper).mm
    least = min(deep.mm / _SHARE, (_TWICE * upper).mm)
    numbers: dict[str, Length | int | str] = {
        "length": fastener.length,
        "wide": upper,
        "deep": deep,
        "most": most,
        "goes": Length(abs(goes)),
        "past": Length(abs(goes - deep.mm)),
    }
    way = "wide" if upper is board.width else "thick"
    begins = f"{words.capitalize()} {{length}} long through {board.role.kind.value}s {{wide}} {way}"
    wood = f"the {into.kind.value}, {{deep}} thick"
    ways = (Remedy(f"take {words} {{most}} long", (Change("runners", key, most),)),)
    if is_own and fastener.length > most:
        past = "come {past} out of" if goes > deep.mm else "stop {past} short of the other side of"
        what = f"{begins} {past} {wood}."
        return Finding("runner fastening", Harm.WARN, "runners", what, numbers, "RN-4", "by geometry", remedies=ways)
    if goes >= least:
        return None
    what = f"{begins} {'go only {goes} into' if goes > 0 else 'do not reach'} {wood}."
    if is_own and (most - upper).mm >= least:
        return Finding("runner fastening", Harm.WARN, "runners", what, numbers, "RN-4", "our own choice", remedies=ways)
    numbers["bore"] = rule.up(Length(least - goes))
    bore = "Bore {bore} deep for their heads first, and they go in so much further."
    return Finding("runner fastening", Harm.WARN, "runners", what, numbers, "RN-4", "our own choice", bore)


# -- the screws of a strip on wood that moves -------------------------------------------------------------


def screw_slots(board: Board, wood: Solid, practice: Practice, seasons: Seasons, *, is_second: bool = False) -> Board:
    """``board``, a strip along the grain of nothing but itself, with its screws through the width into ``wood``, which moves
    along it.

    RN-4: the front screw goes through a hole and is glued there; each one behind it through a slot as long as the screw is thick
    and the wood moves over the distance between the two, towards the back on damp days and to the front on dry ones. Sources:
    Noyes; CK-6, Wood Handbook equation 13-2. On the second face of a partition (``is_second``) they stand two shanks further
    back, clear of those from the first. Raises Refused where the strip is too thin or short for the screws.
    """
    screw, end = practice.length("bearer screw"), practice.length("screw from the end")
    _refuse_small(board, screw, end)
    first = (end + 2 * screw if is_second else end).named(f"{board.name} front screw", "RN-4", "our own choice")
    reach = board.length - 2 * end
    count = max(1, ceil(reach / practice.length("bearer screw spacing")))
    cuts = [_hole(board, CutRole(CutUse.SCREW_HOLE), Span.about(first, screw), screw, CutKind.HOLE)]
    for n in range(1, count + 1):
        distance = reach * n / count if n < count else reach
        at = first + distance
        forward, backward = year_of(wood, distance, seasons)
        span = Span(
            (at - screw / 2 - forward).named(f"{board.name} screw slot {n} start", "RN-4", MOVEMENT_SOURCE),
            (at + screw / 2 + backward).named(f"{board.name} screw slot {n} stop", "RN-4", MOVEMENT_SOURCE),
        )
        cuts.append(_hole(board, CutRole(CutUse.SCREW_SLOT, number=n), span, screw, CutKind.SLOT))
    return board.with_cuts(*cuts)


def _hole(board: Board, role: CutRole, along: Span, screw: Dimension, kind: CutKind) -> Cut:
    shape = Shape.ROUND if kind is CutKind.HOLE else Shape.ROUND_ENDS
    middle = Span.about(board.thickness / 2, screw)
    return Cut(kind, Surface.EDGE, along, Span(NOTHING, board.size(Axis.ACROSS)), middle, role, shape=shape)


def _refuse_small(board: Board, screw: Dimension, end: Dimension) -> None:
    least = 2 * screw
    if board.thickness < least:
        raise (
            refusal(
                "screws",
                "A strip {thick} thick is too thin for screws of {screw}.",
                "Use stock of {least} or more, or thinner screws.",
                "RN-4",
                "our own choice",
                thick=board.thickness,
                screw=screw,
                least=least,
            )
            .at(board.name)
            .by(stock_of("runners", "stock", thinnest=least))
        )
    if board.length <= 2 * end + screw:
        raise (
            refusal(
                "screws",
                "A strip {length} long has no room for two screws {end} from its ends.",
                "Make the case deeper.",
                "RN-4",
                "our own choice",
                length=board.length,
                end=end,
            )
            .at(board.name)
            .by(larger("case", "depth", 2 * end + 2 * screw - board.length))
        )
