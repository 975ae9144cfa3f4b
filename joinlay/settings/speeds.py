"""How fast a router cutter may turn, by its diameter (MS-9). The marking on the cutter governs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import inches

if TYPE_CHECKING:
    from joinlay.lengths import Length

__all__ = ["SPEEDS", "router_speed"]

#: Largest diameter and revolutions a minute at most (D7: a common table).
SPEEDS: Final = ((inches(1), 24_000), (inches(2), 18_000), (inches("2 1/2"), 16_000), (inches("3 1/2"), 12_000))


def router_speed(diameter: Length) -> int | None:
    """Revolutions a minute at most for a cutter of ``diameter``; None where it is wider than the table goes.

    Rule MS-9. Source: a common speed table (check value D7); a lower limit marked on the cutter stands over it.
    """
    return next((speed for widest, speed in SPEEDS if diameter <= widest), None)
