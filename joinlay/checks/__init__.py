"""Findings: what would bind, jam, sag, move, split, clash or tip, from the boards as they are planned."""

from joinlay.checks.conditions import Conditions, Load, Stands, usual_conditions
from joinlay.checks.everything import find_everything
from joinlay.checks.gathering import gathered

__all__ = ["Conditions", "Load", "Stands", "find_everything", "gathered", "usual_conditions"]
