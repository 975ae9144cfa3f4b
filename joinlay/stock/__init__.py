"""Wood as it comes: sheet goods, solid wood, and what the handbooks say of both."""

from typing import Union

from joinlay.stock.sheet import SHEET_KINDS, Sheet, sanded_plywood_limits
from joinlay.stock.solid import Solid

#: What a part may be made of.
Stock = Union[Sheet, Solid]

__all__ = ["SHEET_KINDS", "Sheet", "Solid", "Stock", "sanded_plywood_limits"]
