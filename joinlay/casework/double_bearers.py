"""Why no double bearer can lie somewhere, each under two drawers of a row with no partition between them (RO-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.findings import Change, refusal

if TYPE_CHECKING:
    from joinlay.casework.bay import Slot
    from joinlay.findings import Refused
    from joinlay.lengths import Dimension

__all__ = ["no_double"]


def no_double(slot: Slot, packing: Dimension | None) -> Refused:
    """Why none can lie at ``slot``: the case is solid, and the panel moves along it; or it would have to be packed up, by
    ``packing`` (RO-1).
    """
    remedy = 'Put partitions between these drawers: between = "partition".'
    if packing is None:
        what = "A double bearer lies across the grain of a panel that moves, and nothing at its ends holds it."
        return refusal("double bearer", what, remedy, "RO-1", "common practice").at(slot.name)
    return (
        refusal(
            "double bearer",
            "A double bearer lies flat on the case bottom, and here it would stand {high} above it.",
            f"Move the case bottom {{high}} up. {remedy}",
            "RO-1",
            "our own choice",
            high=packing,
        )
        .at(slot.name)
        .by(Change("case", "bottom-offset", packing, is_more=True))
    )
