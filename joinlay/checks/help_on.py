"""Finding the page of help on a finding, by its kind or by what a maker would call it."""

from __future__ import annotations

from typing import Final

from joinlay.checks.help_pages import PAGES, HelpPage
from joinlay.errors import BadInput, nearest_names

__all__ = ["PAGES", "SHARED", "HelpPage", "help_on"]

#: Kinds of finding that share a page.
SHARED: Final = {
    "tenon thickness": "tenons", "tenon width": "tenons", "tenon length": "tenons", "tenon placing": "tenons", "tenon spacing": "tenons",
    "one tenon": "tenons", "mortise depth": "tenons", "tenon walls": "tenons", "mortise cutter": "tenons",
    "lip": "short grain", "dado set": "short grain", "tip gap": "short grain",
    "dadoes back to back": "thin wood", "dado depth": "thin wood", "groove depth": "thin wood", "rabbet depth": "thin wood",
    "groove offset": "thin wood", "hidden cut": "clash",
    "cutter": "cutter reach", "no cutter": "cutter reach", "saw kerf": "machines", "drill": "machines", "machine": "machines",
    "one set-up": "machines", "blade height": "machines", "fence reach": "machines", "hand-held router": "machines", "large part": "machines",
    "small part": "machines", "tall part": "machines", "mortiser": "machines", "router table": "machines", "table saw": "machines",
    "straightedge": "machines", "stopped cut": "machines",
    "binding": "fit", "jamming": "racking", "movement": "wood movement", "anchor": "tipping", "sag": "bottom sag",
}  # fmt: skip


def help_on(kind: str) -> HelpPage:
    """The page on findings of ``kind`` (``racking``); raises BadInput with the nearest names where there is none."""
    asked = " ".join(kind.casefold().split())
    named = SHARED.get(asked, asked)
    if named in PAGES:
        return PAGES[named]
    near = nearest_names(asked, (*PAGES, *SHARED))
    raise BadInput(
        f"there is no page on {kind!r}; " + (f"nearest: {', '.join(near)}." if near else f"there are {', '.join(PAGES)}.")
    )
