"""Choosing the cutter for a joint from those the shop owns (MS-8)."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from joinlay.findings import Refused, refusal

if TYPE_CHECKING:
    from collections.abc import Callable

    from joinlay.lengths import Dimension, Length
    from joinlay.shop import Shop

__all__ = ["with_nearest_cutter"]

Joint = TypeVar("Joint")


def with_nearest_cutter(shop: Shop, wanted: Length, design: Callable[[Dimension], Joint]) -> Joint:
    """The joint that ``design`` makes with the owned cutter nearest to ``wanted``, the smaller first where two are as near (MS-8).

    Cutters are tried from the nearest on until one is not refused. Raises the first Refused where all are, and Refused
    where the shop has no cutter at all.
    """
    first: Refused | None = None
    for cutter in sorted(shop.cutters, key=lambda owned: (abs(owned.diameter.mm - wanted.mm), owned.diameter.mm)):
        try:
            return design(cutter.diameter)
        except Refused as refused:
            first = first or refused
    if first is not None:
        raise first
    raise refusal("no cutter", "the shop has no cutter", "List a straight cutter of about {wanted}.", "MS-8", wanted=wanted)
