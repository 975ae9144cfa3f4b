"""Racking: a drawer pulled to one side of its middle turns, its corners bite, and past a point no pull moves it (CK-2)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse
from joinlay.findings import Change, Finding, Harm, Remedy, figure
from joinlay.lengths import ZERO, BadSize, Dimension, Fraction, Length, dimension, largest

if TYPE_CHECKING:
    from joinlay.casework.assembly import Drawer
    from joinlay.lengths import Graduation
    from joinlay.shop import Shop

__all__ = ["FRICTION", "check_racking", "jamming_length", "jams_at", "pull_offset", "pull_over_friction"]

#: Friction of wood on wood by the state of the runners. Source: rule CK-2.
FRICTION: Final[dict[str, Fraction]] = {"waxed": Fraction(1, 5), "planed": Fraction(7, 20), "rough": Fraction(1, 2)}
#: A drawer on planed runners should come out at least this share of its length on one knob. Source: our own choice.
_USEFUL: Final = Fraction(1, 2)

#: Where pulls may stand nearer the middle, as a share of the front's width from its ends. Source: our own choice.
_NEARER: Final = (Fraction(1, 3), Fraction(3, 8), Fraction(2, 5))

#: Where the share of two pulls stands: planned by the job (True), or by the practice.
_SHARE: Final = {True: ("pulls", "share"), False: ("practice", "pull share")}

_STATICS: Final = "statics; Beer and Johnston's bracket"


def jamming_length(offset: Length, friction: Fraction) -> Dimension:
    """The length inside under which a drawer pulled ``offset`` from its middle jams, however hard it is pulled: 2 mu e.

    Rule CK-2; statics as of a bracket that slides on a pipe (Beer and Johnston; check value C4). BadInput for negative numbers.
    """
    if offset.mm < 0 or friction < 0:
        raise BadSize(
            "an offset of {offset} and a friction of {friction} were given; neither may be negative.",
            offset=offset,
            friction=str(friction),
        )
    return (dimension(offset) * (2 * friction)).named("length inside at which it jams", "CK-2", _STATICS)


def pull_over_friction(offset: Length, inside: Length, friction: Fraction) -> Fraction | None:
    """How many times the plain friction of its weight the drawer must be pulled with; None where it jams.

    1 / (1 - 2 mu e / L), with ``inside`` the length L still between the guides (CK-2; check value C4).
    """
    left = inside - jamming_length(offset, friction)
    return inside / left if left.mm > 0 else None


def jams_at(drawer: Drawer, offset: Length, friction: Fraction) -> Dimension:
    """How far out the drawer comes before it jams; nothing where it doesn't even start, its length where it never jams (CK-2)."""
    return largest(drawer.length - jamming_length(offset, friction), ZERO)


def pull_offset(drawer: Drawer, shop: Shop) -> Dimension:
    """From the middle of the front to its outer pull, by the pull holes in it; nothing for one in the middle.

    Where no holes are planned, as PU-1 would have them: ``two pulls from`` and ``pull share``.
    """
    front, practice = drawer.front, shop.practice
    middle, name = front.length / 2, f"{drawer.name} pull offset"
    holes = front.cuts_of(CutUse.PULL_HOLE)
    if holes:
        return largest(*(abs(dimension(hole.along.centre - middle)) for hole in holes)).named(name, "PU-1", "by the holes")
    if front.length < practice.length("two pulls from"):
        return (middle * 0).named(name, "PU-1", "common practice")
    return (middle - front.length * practice.ratio("pull share")).named(name, "PU-1", "common practice")


def check_racking(drawer: Drawer, shop: Shop, offset: Length | None = None) -> tuple[Finding, ...]:
    """How far the drawer comes on one outer pull, ``offset`` from the middle (None: by PU-1). Nothing to say for one in the
    middle.

    A warning where it jams before it is half out on planed runners (a limit of our own).
    """
    at = pull_offset(drawer, shop) if offset is None else offset
    if not at.mm:
        return ()
    comes = {state: jams_at(drawer, at, friction) for state, friction in FRICTION.items()}
    needed = (jamming_length(at, FRICTION["planed"]) / (1 - _USEFUL)).named("drawer length that would do", "CK-2", _STATICS)
    shown = {state: shop.rule.down(out) for state, out in comes.items()}
    numbers: dict[str, Length | int | str] = {**shown, "offset": shop.rule.round(at), "needed": shop.rule.up(needed)}
    if comes["planed"] >= drawer.length * _USEFUL:
        what = "Pulled by one outer pull it jams when out by {waxed} (waxed), {planed} (planed) or {rough} (rough runners)."
        return (Finding("racking", Harm.NOTE, drawer.name, what, numbers, "CK-2", _STATICS),)
    what = "Pulled by one outer pull, {offset} from the middle, it jams when out by only {planed}; {waxed} if waxed."
    remedy = "Pull it with two hands and keep the runners waxed. A drawer and guides {needed} long would come half out."
    return (
        Finding(
            "racking",
            Harm.WARN,
            drawer.name,
            what,
            numbers,
            "CK-2",
            _STATICS,
            remedy,
            remedies=_nearer(drawer, numbers, shop.rule),
        ),
    )


def _nearer(drawer: Drawer, numbers: dict[str, Length | int | str], rule: Graduation) -> tuple[Remedy, ...]:
    """One pull in the middle; or two, the farthest apart of some usual shares that will do. Pulls that aren't planned are the
    practice's (PU-1).
    """
    planned = bool(drawer.front.cuts_of(CutUse.PULL_HOLE))
    numbers["one"] = wider = rule.up(drawer.front.length + rule.division)
    one = Remedy("give it one pull in the middle", (Change("pulls", "count", 1) if planned else figure("two pulls from", wider),))
    farthest = drawer.length * _USEFUL / (2 * FRICTION["planed"])
    share = next((share for share in _NEARER if drawer.front.length * (Fraction(1, 2) - share) <= farthest), None)
    if share is None:
        return (one,)
    numbers["share"] = f"{share.numerator}/{share.denominator}"
    return one, Remedy("set the pulls {share} of its width from its ends", (Change(*_SHARE[planned], str(numbers["share"])),))
