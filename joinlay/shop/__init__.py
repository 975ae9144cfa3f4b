"""The maker's shop: its tools, the rule it reads, and its own figures for the trade rules."""

from joinlay.shop.practice import LENGTH_RULES, RATIO_RULES, LengthRule, Practice, RatioRule, usual_practice
from joinlay.shop.tools import Cutter, Saw, Shop, TenonStock
from joinlay.shop.usual import usual_shop

__all__ = [
    "LENGTH_RULES", "RATIO_RULES", "Cutter", "LengthRule", "Practice", "RatioRule", "Saw", "Shop", "TenonStock", "usual_practice",
    "usual_shop",
]  # fmt: skip
