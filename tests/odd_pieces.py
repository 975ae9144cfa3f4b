"""Jobs of a whole small piece: sound ones, one of each kind that a piece may be, and those with one thing wrong that a rule
refuses, each by what is wrong with it: more than a seed would find.
"""

from copy import deepcopy
from typing import Any

import tomlkit


def _solid(thickness: str, species: str = "black cherry") -> dict[str, str]:
    return {"kind": "solid", "species": species, "nominal": thickness, "measured": thickness}


def _sheet(thickness: str) -> dict[str, str]:
    return {"nominal": thickness, "measured": thickness}


#: A case of two drawers that nothing is wrong with.
_SOUND: dict[str, Any] = {
    "title": "Odd",
    "units": "inch",
    "smallest": "1/32 in",
    "stock": {
        "cherry": _solid("3/4"),
        "thick": _solid("1 1/8"),
        "thin": _solid("1/2"),
        "case": _sheet("23/32"),
        "half": _sheet("15/32"),
        "stout": _sheet("19/32"),
        "quarter": _sheet("7/32"),
    },
    "case": {"width": "20", "height": "14", "depth": "16", "sides": "case", "back": "quarter"},
    "frame": {"stock": "cherry"},
    "runners": {"stock": "cherry"},
    "bank": [{"drawers": 2}],
    "drawers": {"front": "cherry", "sides": "half", "bottom": "quarter", "top-clearance": "1/16"},
}
_KNOBS = {"stock": "oak", "diameter": "1", "projection": "1", "hole": "1/4"}
#: The same piece as a shop that measures in millimetres writes it.
_IN_MILLIMETRES: dict[str, Any] = {
    "stock": {
        "cherry": _solid("20"), "case": _sheet("17.6"), "half": _sheet("11.7"), "quarter": _sheet("5.6"),
    },
    "case": {"width": "500", "height": "360", "depth": "400", "sides": "case", "back": "quarter"},
    "bank": [{"drawers": 3, "graduation": "geometric"}],
    "drawers": {"front": "cherry", "sides": "half", "bottom": "quarter", "top-clearance": "1.5"},
}  # fmt: skip
_CORNER_CUTTER = {"slot": "3/16", "length": "1/4", "deepest": "5/8", "diameter": "1 1/2"}
#: What is written otherwise for each kind of piece that nothing is wrong with.
SOUND: dict[str, dict[str, Any]] = {
    "plain": {},
    "rows": {"bank": [{"rows": [2, {"shares": [1, 2]}, {"widths": ["6", "fill"]}]}], "case.height": "24"},
    "double bearers": {"bank": [{"rows": [{"drawers": 2, "between": "double bearer"}, 1]}]},
    "fixed shelves": {
        "bank": [{"rows": [{"fixed": 1, "lipping": {"stock": "cherry", "height": "1"}, "load": "10 lb"}, 1]}], "case.height": "24"
    },
    "loose shelves": {"bank": [{"rows": [1, {"open": True, "loose": 1}]}], "case.height": "30"},
    "shelves alone": {"bank": [{"rows": [{"open": True, "fixed": 1}]}], "case.height": "30"},
    "two banks": {"bank": [{"drawers": 2}, {"drawers": 3, "width": "8"}], "case.width": "30", "case.height": "20"},
    "top and plinth": {
        "base": {"stock": "case", "height": "3"}, "top": {"stock": "oak", "front": "3/4", "ends": "3/4"},
        "stock.oak": _solid("3/4", "red oak"),
    },
    "feet": {"base": {"stock": "cherry", "height": "3 1/2", "kind": "feet", "foot": "2"}},
    "toe recess": {"base": {"stock": "cherry", "height": "3 1/2", "kind": "recess"}},
    "recess cut in the sides": {"base": {"stock": "cherry", "kind": "cut recess"}, "case.height": "18"},
    "levellers": {
        "base": {"stock": "cherry", "height": "3 1/2", "kind": "feet", "foot": "2", "leveller": {"hole": "5/16", "depth": "1"}}
    },
    "a place left open": {"bank": [{"rows": [{"widths": ["6", "fill"], "left-open": [2]}, 1]}]},
    "a bar under a bottom": {"drawers.bottom-bar": "cherry", "case.width": "30"},
    "built in": {"frame.scribe": "3/4", "case.back-inset": "1/2"},
    "overhang": {"frame.overhang": "1/8", "frame.stile": "2 1/2"},
    "solid case": {"case.sides": "cherry", "bank": [{"drawers": 3}], "case.height": "20"},
    "hand-fitted": {"drawers.fit": "plane"},
    "arithmetic": {"bank": [{"drawers": 3, "graduation": "arithmetic", "step": "3/8"}], "case.height": "20"},
    "geometric": {"bank": [{"drawers": 3, "graduation": "geometric"}], "case.height": "20"},
    "around what lies inside": {
        "bank": [{"drawers": 2, "inside": {"width": "12", "height": "3", "depth": "10", "room": "1/8"}}],
        "case": {"sides": "case", "back": "quarter"},
    },
    "around a front": {
        "bank": [{"drawers": 2, "front-size": {"width": "14", "height": "4"}}],
        "case": {"depth": "16", "sides": "case", "back": "quarter"},
    },
    "shaped lock": {"shop": {"corner-cutters": [_CORNER_CUTTER]}, "drawers.front-joint": "shaped lock"},
    "half-blind, taper, slide-in bottom": {
        "drawers.front-joint": "half-blind locking rabbet", "drawers.back-height": "on bottom", "drawers.taper": "1/32",
        "drawers.bottom": "thin",
    },
    "wider at the back": {"drawers.taper": "-1/32"},
    "rabbets and nails": {
        "drawers.front-joint": "rabbet", "drawers.back-joint": "nailed butt", "drawers.back-height": "on bottom",
        "drawers.bottom-reach": "ends of the sides",
    },
    "housed back": {"drawers.back-joint": "dado", "drawers.back-height": "on bottom"},
    "knobs": {"pulls": {**_KNOBS, "stock": "thick", "growth": "step"}, "bank": [{"drawers": 3}], "case.height": "20"},
    "millimetres": {"units": "mm", "smallest": "0.5 mm", **_IN_MILLIMETRES},
}  # fmt: skip
#: What is written otherwise for each fault, the kind of its refusal, and the keys of the remedies that help.
FAULTS: dict[str, tuple[dict[str, Any], str, tuple[str, ...]]] = {
    "top rail too low": ({"frame.top-rail": "5/8"}, "tenon placing", ("frame.top-rail",)),
    "bottom rail too low": ({"frame.bottom-rail": "3/4"}, "case dado", ("frame.bottom-rail", "case.panels")),
    "offset too small": ({"case.bottom-offset": "1/16"}, "case dado", ("case.bottom-offset",)),
    "offset in opening": ({"case.bottom-offset": "1 1/2"}, "case dado", ("case.bottom-offset",)),
    "offset too near": ({"case.bottom-offset": "1 1/4"}, "case dado", ("case.bottom-offset",)),
    "packing": ({"case.bottom-offset": "15/32"}, "runners", ("case.bottom-offset",)),
    "side height": ({"drawers.side-height": "9"}, "side height", ("drawers.side-height",)),
    "wide back": ({"drawers.taper": "-1/4"}, "drawer size", ("drawers.taper",)),
    "taper": ({"drawers.taper": "20"}, "runners", ("case.width",)),
    "openings over": ({"bank": [{"heights": ["4", "6"]}]}, "graduation", ("case.height",)),
    "openings short": ({"bank": [{"heights": ["3", "4"]}]}, "graduation", ("case.height",)),
    "step": ({"bank": [{"drawers": 2, "graduation": "arithmetic", "step": "12"}]}, "graduation", ("bank.step",)),
    "bearer thick": (
        {"frame.rail": "3/4", "runners.stock": "thick", "stock.thick": _sheet("1 1/8")},
        "runners",
        ("runners.stock", "frame.rail"),
    ),
    "bearer sheet": ({"frame.rail": "5/8", "runners.stock": "case"}, "tenon placing", ("frame.rail",)),
    "screws thin": (
        {"case.sides": "cherry", "runners.stock": "third", "stock.third": _solid("5/16"), "stops.stock": "cherry"},
        "screws",
        ("runners.stock",),
    ),
    "screws short": ({"case.sides": "cherry", "case.depth": "4"}, "screws", ("case.depth",)),
    "narrow": ({"case.width": "5"}, "runners", ("case.width",)),
    "narrow beside a place left open": ({"bank": [{"rows": [{"drawers": 4, "left-open": [2]}, 1]}]}, "runners", ("case.width",)),
    "pins in a place left open": (
        {"bank": [{"rows": [1, {"drawers": 1, "left-open": [1], "loose": 2}]}]},
        "shelves",
        ("practice.pin-spacing",),
    ),
    "guide high": (
        {"case.height": "8", "runners.stock": "fat", "stock.fat": _solid("2"), "drawers.front-joint": "nailed butt"},
        "guide",
        ("runners.guides",),
    ),
    "dust panel": ({"frame.rail": "5/8", "bank": [{"rows": [2, 1]}], "runners.stock": "half"}, "tenon placing", ("frame.rail",)),
    "uncovered": ({"frame.stile": "5/8"}, "runners", ("frame.stile",)),
    "base inside": ({"base": {"stock": "case", "height": "3", "set-back": "2"}}, "base", ("base.set-back",)),
    "recess in the frame": (
        {"base": {"stock": "cherry", "kind": "cut recess", "toe": "1/2"}},
        "base",
        ("base.toe",),
    ),
    "recess in the back": (
        {"base": {"stock": "cherry", "kind": "cut recess", "toe": "15 1/2"}},
        "base",
        ("base.toe",),
    ),
    "recess step": (
        {"frame.overhang-bottom": "1/4", "base": {"stock": "cherry", "kind": "cut recess"}},
        "base",
        ("frame.overhang-bottom",),
    ),
    "filler narrow": ({"filler": {"left": "1/4"}}, "filler", ("filler.left case.width",)),
    "filler under the top": (
        {"filler": {"left": "2", "right": "5/8"}, "top": {"stock": "case", "ends": "3/4"}},
        "filler",
        ("top.ends",),
    ),
    "leveller wide": (
        {"base": {"stock": "case", "kind": "feet", "height": "3", "foot": "2", "leveller": {"hole": "5/8", "depth": "1"}}},
        "base",
        ("base.leveller.hole",),
    ),
    "top step": (
        {"frame.overhang-top": "1/4", "top": {"stock": "case", "front": "3/4", "ends": "3/4"}},
        "top",
        ("frame.overhang-top",),
    ),
    "top slot": (
        {
            "case.depth": "28",
            "top": {"stock": "oak", "front": "3/4", "ends": "3/4"},
            "stock.oak": _solid("3/4", "red oak"),
            "runners.stock": "third",
            "stock.third": _solid("11/32"),
            "stock.leg": _solid("1 3/4"),
            "stops.stock": "cherry",
            "seasons": {"driest": {"humidity": "10 %"}, "dampest": {"humidity": "90 %"}},
        },
        "top",
        ("runners.stock",),
    ),
    "pins": ({"bank": [{"rows": [1, {"open": True, "loose": 2}]}]}, "shelves", ("practice.pin-spacing",)),
    "stop low": ({"stops": {"thickness": "1/16"}, "drawers.bottom-clearance": "1/8"}, "stop block", ("stops.thickness",)),
    "stop block": ({"stops": {"thickness": "1/2"}}, "stop block", ("stops.thickness", "drawers.groove-offset")),
    "strip": (
        {
            "stops": {"stock": "wide", "thickness": "3/16"},
            "stock.wide": _solid("1"),
            "stock.broad": _solid("1 1/2"),
            "drawers.front": "broad",
        },
        "stop strip",
        ("stops.stock",),
    ),
    "pin line": (
        {
            "case.depth": "5",
            "bank": [{"rows": [1, {"open": True, "loose": 1}]}],
            "practice.pin-line": "3",
            "practice.pin-spacing": "1/2",
        },
        "shelves",
        ("practice.pin-line",),
    ),
    "hole deep": ({"pulls": {**_KNOBS, "depth": "1"}}, "pull", ("pulls.depth",)),
    "hole meets": (
        {
            "pulls": {**_KNOBS, "diameter": "3/4", "depth": "23/32"},
            "bank": [{"heights": ["fill", "15/16"]}],
            "drawers.front-joint": "nailed butt",
        },
        "pull",
        ("pulls.depth",),
    ),
    "dot": ({"pulls": {**_KNOBS, "dot": {"diameter": "3/4", "step": "1/2"}}}, "pull", ("pulls.dot.step",)),
    "knob": ({"pulls": {**_KNOBS, "diameter": "3", "growth": "step", "step": "2"}}, "pull", ("pulls.step",)),
    "groove under front": ({"drawers.groove-offset": "1/64"}, "stop block", ("drawers.groove-offset",)),
    "groove over": ({"drawers.groove-offset": "7"}, "bottom groove", ("drawers.groove-offset",)),
    "tenon walls": ({"drawers.tenon": "8 mm"}, "tenon walls", ("drawers.tenon", "drawers.sides", "drawers.front-joint")),
    "thin sides": (
        {"stock.eighth": _sheet("1/8"), "drawers.sides": "eighth", "drawers.back": "half"},
        "tenon thickness",
        ("drawers.sides", "drawers.front-joint"),
    ),
    "low rail": ({"frame.rail": "1/4", "case.panels": "quarter"}, "tenon placing", ("frame.rail",)),
    "thin front": (
        {"drawers.front": "leaf", "stock.leaf": _solid("5/16")},
        "mortise depth",
        ("drawers.front", "drawers.front-joint"),
    ),
    "short grain": ({"drawers.back": "quarter"}, "short grain", ("drawers.back", "drawers.back-joint")),
    "lip": (
        {"drawers.front": "leaf", "stock.leaf": _solid("5/16"), "drawers.front-joint": "half-blind locking rabbet"},
        "lip",
        ("drawers.front", "drawers.front-joint"),
    ),
    "rabbet lip": (
        {"drawers.front": "leaf", "stock.leaf": _solid("9/32"), "drawers.front-joint": "rabbet"},
        "lip",
        ("practice.front-rabbet-share", "drawers.front", "drawers.front-joint"),
    ),
    "shaped lip": (
        {
            "drawers.front": "leaf",
            "stock.leaf": _solid("7/16"),
            "drawers.front-joint": "shaped lock",
            "shop.corner-cutters": [_CORNER_CUTTER],
        },
        "lip",
        ("drawers.front", "drawers.front-joint"),
    ),
    "shaped lock too deep": (
        {"drawers.sides": "case", "drawers.front-joint": "shaped lock", "shop.corner-cutters": [_CORNER_CUTTER]},
        "cutter reach",
        ("drawers.sides", "drawers.front-joint"),
    ),
    "narrow mullion": ({"bank": [{"drawers": 2}, {"drawers": 2}], "frame.mullion": "1/4"}, "tenon placing", ("frame.mullion",)),
    "frame thin": ({"frame.stock": "leaf", "stock.leaf": _solid("3/16")}, "tenon thickness", ("frame.stock",)),
    "set in": (
        {"drawers.back-joint": "dado", "drawers.back-set-in": "1/16"},
        "short grain",
        ("drawers.back-set-in", "drawers.back-joint"),
    ),
    "reach": ({"drawers.bottom-reach": "ends of the sides"}, "drawer bottom", ("drawers.back-height",)),
    "bar too thin": ({"drawers.bottom-bar": "quarter"}, "bottom bar", ("drawers.bottom-bar",)),
    "bar too wide": ({"drawers.bottom-bar": "beam", "stock.beam": _solid("5")}, "bottom bar", ("drawers.bottom-bar",)),
    "bar too high": (
        {"drawers.bottom-bar": "cherry", "practice": {"bottom-bar-rise": "7"}},
        "bottom bar",
        ("drawers.bottom-bar", "practice.bottom-bar-rise"),
    ),
    "bar without wood under its groove": (
        {"drawers.bottom-bar": "cherry", "practice": {"bottom-bar-lift": "5/16"}},
        "bottom bar",
        ("drawers.groove-offset", "practice.bottom-bar-lift"),
    ),
    "low stile": ({"frame.stile": "3/8", "case.sides": "quarter"}, "mortise depth", ("frame.stile",)),
}


def odd_piece(fault: str) -> str:
    """The text of the sound job with that ``fault``."""
    return sound_piece(FAULTS[fault][0])


def sound_piece(changed: dict[str, Any]) -> str:
    """The text of the sound job with some of its keys ``changed``."""
    job = deepcopy(_SOUND)
    for key, value in changed.items():
        table = job
        *path, last = key.split(".")
        for name in path:
            table = table.setdefault(name, {})
        table[last] = value
    return tomlkit.dumps(job)
