"""The maker's shop: its tools, the rule it reads, and its own figures for the trade rules."""

from joinlay.shop.gluing import USUAL_GLUE, Clamps, Glue
from joinlay.shop.machines import HandRouter, HandTools, MachineKind, Machines, RouterTable, RunLimits, TableSaw, usual_machines
from joinlay.shop.practice import LENGTH_RULES, RATIO_RULES, LengthRule, Practice, RatioRule, usual_practice
from joinlay.shop.tools import CornerCutter, Cutter, Saw, Shop, TenonStock, deepest_mortise, is_sold, usual_shop

__all__ = [
    "LENGTH_RULES",
    "RATIO_RULES",
    "USUAL_GLUE",
    "Clamps",
    "CornerCutter",
    "Cutter",
    "Glue",
    "HandRouter",
    "HandTools",
    "LengthRule",
    "MachineKind",
    "Machines",
    "Practice",
    "RatioRule",
    "RouterTable",
    "RunLimits",
    "Saw",
    "Shop",
    "TableSaw",
    "TenonStock",
    "deepest_mortise",
    "is_sold",
    "usual_machines",
    "usual_practice",
    "usual_shop",
]
