"""Whether what a drawer slides on is hard enough to last: soft wood wears into grooves (RN-1, RN-3)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind
from joinlay.errors import BadInput
from joinlay.findings import Change, Finding, Harm, Remedy
from joinlay.lengths import Fraction, decimal_text
from joinlay.stock import Solid
from joinlay.stock.species import species_named

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.casework.assembly import Assembly
    from joinlay.stock import Species, Stock

__all__ = ["check_wear"]

#: Hardness goes with specific gravity (Wood Handbook 2010, table 5-11). Under the first, wood is soft; from the second on, it
#: lasts (our own choice).
_SOFT: Final = Fraction(9, 20)
_LASTS: Final = Fraction(1, 2)

#: The key of ``[runners]`` that names the stock of each kind.
_KEYS: Final = {PartKind.BEARER: "stock", PartKind.GUIDE: "guides", PartKind.KICKER: "kickers"}


def check_wear(others: Sequence[Assembly], stocks: Mapping[str, Stock]) -> tuple[Finding, ...]:
    """A note for bearers, guides and kickers, each by its own stock, that are of soft wood, with a hard one of the job's
    ``stocks`` (RN-1, RN-3).

    ``stocks`` are by name. Nothing is said of sheets, nor of wood that isn't in the table. Sources: Wood Handbook for the
    gravity, common practice.
    """
    found = []
    for kind, key in _KEYS.items():
        for name in dict.fromkeys(board.stock for one in others for board in one.of_kind(kind)):
            wood = _species(stocks.get(name))
            if wood is not None and wood.gravity.value < _SOFT:
                found.append(_soft(kind, key, name, wood, stocks))
    return tuple(found)


def _soft(kind: PartKind, key: str, name: str, wood: Species, stocks: Mapping[str, Stock]) -> Finding:
    hard = [other for other, stock in stocks.items() if (its := _species(stock)) is not None and its.gravity.value >= _LASTS]
    ways = tuple(Remedy(f"make them of {other}", (Change("runners", key, other),)) for other in hard[:1])
    rest = "" if ways else f"Woods from {decimal_text(_LASTS, 2)} on last, such as hard maple or oak. "
    gravity = decimal_text(wood.gravity.value, 2)
    what = (
        f"The {kind.value}s are of {name}, {{thick}} thick: {wood.name} is soft (specific gravity "
        f"{gravity}), and drawers wear grooves into it."
    )
    remedy = f"{rest}Keep them waxed."
    thick = stocks[name].thickness
    return Finding(
        "runner wear", Harm.NOTE, "runners", what, {"thick": thick}, "RN-1, RN-3", "common practice", remedy, remedies=ways
    )


def _species(stock: Stock | None) -> Species | None:
    """The wood of a solid stock; None for a sheet, and where the table has no such wood."""
    if not isinstance(stock, Solid):
        return None
    try:
        return species_named(stock.species)
    except BadInput:
        return None
