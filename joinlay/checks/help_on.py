"""Finding the page of help on a finding, by its kind or by what a maker would call it."""

from __future__ import annotations

from typing import Final

from joinlay.checks.help.buying import ON_BUYING
from joinlay.checks.help.findings import ON_CHECKS
from joinlay.checks.help.making import ON_MAKING
from joinlay.checks.help.page import HelpPage
from joinlay.errors import BadInput, nearest_names, quoted

__all__ = ["PAGES", "SHARED", "HelpPage", "help_on"]

#: Every page by its kind, in the order a maker might read them.
PAGES: Final[dict[str, HelpPage]] = {page.kind: page for page in (*ON_CHECKS, *ON_MAKING, *ON_BUYING)}

#: Kinds of finding, and other words for them, by the page they share.
_SHARE: Final = {
    "tenons": (
        "tenon thickness",
        "tenon width",
        "tenon length",
        "tenon placing",
        "tenon spacing",
        "one tenon",
        "mortise depth",
        "tenon walls",
        "mortise cutter",
    ),
    "short grain": (
        "lip",
        "nailed corner",
        "dado set",
        "tip gap",
    ),
    "thin wood": (
        "dadoes back to back",
        "dado depth",
        "groove depth",
        "rabbet depth",
        "groove offset",
        "bottom groove",
        "panel thickness",
        "stopped dado",
    ),
    "clash": ("hidden cut",),
    "cutter reach": (
        "cutter",
        "no cutter",
        "shaped cutter",
    ),
    "machines": (
        "saw kerf",
        "drill",
        "depth stop",
        "fence step",
        "mortise width",
        "machine",
        "hand tools",
        "chisel",
        "one set-up",
        "nearly one set-up",
        "blade height",
        "fence reach",
        "hand-held router",
        "large part",
        "small part",
        "tall part",
        "mortiser",
        "router table",
        "table saw",
        "straightedge",
        "stopped cut",
        "cutter speed",
        "rule",
        "taper",
    ),
    "piece sizes": (
        "case",
        "case size",
        "case dado",
        "dust panel",
        "drawer size",
        "shallow drawer",
        "drawer bottom",
        "top",
        "base",
        "levellers",
        "scribe",
        "filler",
        "side height",
        "graduation",
        "face frame",
        "banding",
        "lipping",
        "dot",
        "pull",
    ),
    "runners": (
        "guide",
        "runner fastening",
        "runner wear",
        "screws",
        "stop block",
        "stop strip",
    ),
    "part too large": (
        "sheets and boards",
        "sheet layout",
    ),
    "no stock": ("no such part",),
    "offcut without grain": ("offcut",),
    "fronts together": ("fronts in two columns",),
    "solid wood": (
        "boards run out",
        "boards chosen",
        "boards of no use",
        "no such lumber",
        "too thick",
    ),
    "no price": (
        "price not used",
        "prices",
    ),
    "fit": ("binding", "hand fitted"),
    "racking": ("jamming",),
    "wood movement": ("movement",),
    "tipping": ("anchor",),
    "bottom sag": ("sag",),
    "shelf sag": (
        "shelves",
        "loose shelf",
    ),
}

#: The page of each kind that has none of its own name.
SHARED: Final = {kind: page for page, kinds in _SHARE.items() for kind in kinds}


def help_on(kind: str) -> HelpPage:
    """The page on findings of ``kind`` (``racking``); raises BadInput with the nearest names where there is none.

    The page names its own rule.
    """
    asked = " ".join(kind.casefold().split())
    named = SHARED.get(asked, asked)
    if named in PAGES:
        return PAGES[named]
    near = nearest_names(asked, (*PAGES, *SHARED))
    raise BadInput(
        f"there is no page on {quoted(kind)}; " + (f"nearest: {', '.join(near)}." if near else f"there are {', '.join(PAGES)}.")
    )
