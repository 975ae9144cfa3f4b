"""Wood as it comes: sheet goods, solid wood, and what the handbooks say of both."""

from joinlay.stock.movement import Day, Metered, Seasons, equilibrium_moisture, movement, movement_of, usual_seasons
from joinlay.stock.species import SPECIES, Figure, Species, species_named
from joinlay.stock.stiffness import (
    SHEET_DENSITY,
    SHEET_MODULUS,
    Stiffness,
    across_share,
    density_of,
    stiffness_of,
    taken_as_three_ply,
)
from joinlay.stock.stocks import (
    PANEL_LABELS,
    SHEET_KINDS,
    Sheet,
    Solid,
    Spread,
    Stock,
    american_plywood_limits,
    sanded_plywood_limits,
    thickness_spread,
)

__all__ = [
    "PANEL_LABELS",
    "SHEET_DENSITY",
    "SHEET_KINDS",
    "SHEET_MODULUS",
    "SPECIES",
    "Day",
    "Figure",
    "Metered",
    "Seasons",
    "Sheet",
    "Solid",
    "Species",
    "Spread",
    "Stiffness",
    "Stock",
    "across_share",
    "american_plywood_limits",
    "density_of",
    "equilibrium_moisture",
    "movement",
    "movement_of",
    "sanded_plywood_limits",
    "species_named",
    "stiffness_of",
    "taken_as_three_ply",
    "thickness_spread",
    "usual_seasons",
]
