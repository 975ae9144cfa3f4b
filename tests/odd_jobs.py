"""Jobs drawn by a seed, as makers write them: most sound, many with a figure or two that something is wrong with."""

from random import Random
from typing import Any

INCH: dict[str, Any] = {
    "units": "inch",
    "smallest": "1/32 in",
    "front": ("3/4", "13/16", "5/8"),
    "side": ("1/2", "15/32", "5/8"),
    "bottom": ("1/4", "3/16", "1/8", "3/8"),
    "spare": "3/8",
    "width": ("10", "16", "24", "34", "42"),
    "height": ("3", "4 1/4", "6", "9 1/2"),
    "depth": ("12", "16", "22"),
    "figures": {
        "side-clearance": ("1/64", "1/32", "1/16", "1/8"),
        "top-clearance": ("1/64", "1/32", "1/8", "1/4"),
        "taper": ("-1/32", "1/16", "1/4"),
        "groove-offset": ("1/8", "3/16", "1/4", "1/2"),
        "groove-depth": ("1/32", "1/8", "5/16"),
        "back-gap": ("1/16", "1/4"),
        "side-height": ("2 1/2",),
    },
    "case": ("24", "30", "20"),
    "load": "40 lb",
}
METRIC: dict[str, Any] = {
    "units": "mm",
    "smallest": "0.5 mm",
    "front": ("18", "20", "16"),
    "side": ("12", "11.7", "15"),
    "bottom": ("6", "4", "3", "9"),
    "spare": "9",
    "width": ("250", "400", "600", "850", "1100"),
    "height": ("75", "110", "150", "240"),
    "depth": ("300", "400", "560"),
    "figures": {
        "side-clearance": ("0.3", "0.8", "1.5", "3"),
        "top-clearance": ("0.3", "0.8", "3", "6"),
        "taper": ("-0.8", "1.5", "6"),
        "groove-offset": ("3", "4.5", "6", "12"),
        "groove-depth": ("0.8", "3", "8"),
        "back-gap": ("1.5", "6"),
        "side-height": ("60",),
    },
    "case": ("600", "760", "500"),
    "load": "20 kg",
}
WOODS = ("black cherry", "red oak", "eastern white pine", "hard maple")


def odd_job(seed):
    """The text of the job of that ``seed``."""
    draw = Random(seed)
    given = draw.choice((INCH, METRIC))
    parts = [f'title = "Odd {seed}"\nunits = "{given["units"]}"\nsmallest = "{given["smallest"]}"\n']
    for name in ("front", "side", "bottom"):
        parts.append(_stock(draw, name, draw.choice(given[name]), solid={"front": 0.6, "side": 0.3, "bottom": 0.25}[name]))
    parts.append(_stock(draw, "spare", given["spare"], solid=0))
    if draw.random() < 0.2:
        parts.append('[seasons]\ndriest = { humidity = "20 %" }\ndampest = { humidity = "80 %" }\n')
    names = draw.sample(sorted(given["figures"]), draw.choice((0, 1, 1, 2)))
    figures = [f'{name} = "{draw.choice(given["figures"][name])}"' for name in names]
    every = ['front = "front"', 'sides = "side"', 'bottom = "bottom"', f'back-height = "{draw.choice(("full", "on bottom"))}"']
    every += [f'front-joint = "{draw.choice(("loose tenon", "half-blind locking rabbet", "rabbet", "nailed butt"))}"']
    if draw.random() < 0.3:
        every.append(f'load = "{given["load"]}"')
    if draw.random() < 0.4:
        every += figures
        figures = []
    parts.append("\n".join(["[drawers]   # alike", *every]) + "\n")
    parts += _piece(draw, given, figures) if draw.random() < 0.15 else _openings(draw, given, figures)
    return "\n".join(parts)


def _stock(draw, name, thickness, *, solid):
    lines = [f"[stock.{name}]", f'nominal = "{thickness}"', f'measured = "{thickness}"']
    if draw.random() < solid:
        lines += ['kind = "solid"', f'species = "{draw.choice(WOODS)}"', f'cut = "{draw.choice(("flat", "flat", "quarter"))}"']
    return "\n".join(lines) + "\n"


def _openings(draw, given, figures):
    for n in range(draw.choice((1, 1, 1, 2))):
        sizes = ", ".join(f'{key} = "{draw.choice(given[key])}"' for key in ("width", "height", "depth"))
        yield "\n".join(["[[drawer]]", f"opening = {{ {sizes} }}", *(figures if n == 0 else [])]) + "\n"


def _piece(draw, given, figures):
    width, height, depth = draw.choice(given["case"]), draw.choice(given["case"]), draw.choice(given["depth"])
    sides = draw.choice(("front", "front", "case"))
    if sides == "case":
        yield _stock(draw, "case", given["front"][0], solid=0.7)
    yield (
        f'[case]\nwidth = "{width}"\nheight = "{height}"\ndepth = "{depth}"\nsides = "{sides}"\nback = '
        f'"{draw.choice(("bottom", "spare"))}"\n'
    )
    yield '[frame]\nstock = "front"\n\n[runners]\nstock = "front"\n'
    if draw.random() < 0.3:
        knob = {"inch": ("1 1/4", "1", "1/4"), "mm": ("32", "25", "6")}[given["units"]]
        yield f'[pulls]\nstock = "oak"\ndiameter = "{knob[0]}"\nprojection = "{knob[1]}"\nhole = "{knob[2]}"\ncount = 2\n'
    for n in range(draw.choice((1, 1, 2))):
        yield "\n".join(["[[bank]]", f"drawers = {draw.choice((1, 2, 3))}", *(figures if n == 0 else [])]) + "\n"


#: What whole pieces are drawn from, by unit: sizes of what stands over, under and within them.
_WHOLE: dict[str, dict[str, Any]] = {
    "inch": {
        "wide": ("16", "24", "36", "48"), "high": ("14", "24", "36"), "deep": ("12", "18", "24"), "case": ("23/32", "3/4"),
        "base": ("2", "3 1/2"), "foot": "2", "toe": "3", "lipping": "1", "inset": ("1/4", "1"), "scribe": ("3/8", "3/4"),
        "shelf": ("20 lb", "60 lb"), "knob": ("1 1/4", "1", "1/4"), "within": ("10", "4", "12"), "set-back": ("1/8", "1"),
    },
    "mm": {
        "wide": ("400", "600", "900", "1200"), "high": ("350", "600", "900"), "deep": ("300", "450", "600"),
        "case": ("17.6", "19"), "base": ("50", "90"), "foot": "45", "toe": "75", "lipping": "25", "inset": ("6", "25"),
        "scribe": ("10", "19"), "shelf": ("10 kg", "30 kg"), "knob": ("32", "25", "6"), "within": ("250", "100", "300"),
        "set-back": ("3", "25"),
    },
}  # fmt: skip


def odd_whole(seed):
    """The text of a job of a whole piece, with whatever one may have: rows, open bays, shelves, top, base, scribed stiles."""
    draw = Random(f"whole {seed}")
    given = draw.choice((INCH, METRIC))
    sizes = _WHOLE[given["units"]]
    parts = [f'title = "Whole {seed}"\nunits = "{given["units"]}"\nsmallest = "{given["smallest"]}"\n']
    for name in ("front", "side", "bottom"):
        parts.append(_stock(draw, name, draw.choice(given[name]), solid={"front": 0.7, "side": 0.3, "bottom": 0.2}[name]))
    parts.append(_stock(draw, "case", draw.choice(sizes["case"]), solid=0.4))
    parts.append(_stock(draw, "spare", given["spare"], solid=0))
    is_around = draw.random() < 0.1
    wide, high, deep = (draw.choice(sizes[key]) for key in ("wide", "high", "deep"))
    case = [] if is_around else [f'width = "{wide}"', f'height = "{high}"', f'depth = "{deep}"']
    if draw.random() < 0.2:
        case.append(f'back-inset = "{draw.choice(sizes["inset"])}"')
    parts.append("\n".join(["[case]", *case, 'sides = "case"', 'back = "bottom"']) + "\n")
    frame = [f'scribe = "{draw.choice(sizes["scribe"])}"'] if draw.random() < 0.2 else []
    parts.append("\n".join(["[frame]", 'stock = "front"', *frame]) + '\n\n[runners]\nstock = "front"\n')
    if draw.random() < 0.35:
        parts.append('[top]\nstock = "front"\n')
    if draw.random() < 0.35:
        kind = draw.choice(
            ("", f'set-back = "{draw.choice(sizes["set-back"])}"', f'kind = "feet"\nfoot = "{sizes["foot"]}"',
             f'kind = "recess"\ntoe = "{sizes["toe"]}"')
        )  # fmt: skip
        parts.append(f'[base]\nstock = "front"\nheight = "{draw.choice(sizes["base"])}"\n{kind}\n')
    if draw.random() < 0.3:
        diameter, projection, hole = sizes["knob"]
        count = draw.choice(("", "count = 2\n", 'growth = "step"\n'))
        knob = f'[pulls]\nstock = "oak"\ndiameter = "{diameter}"\nprojection = "{projection}"\nhole = "{hole}"\n{count}'
        parts += [_stock(draw, "oak", diameter, solid=1), knob]
    if draw.random() < 0.3:
        parts.append(f'[use]\nstands = "{draw.choice(("free", "anchored", "built in"))}"\n')
    every = _every(draw, given)
    # The height inside gives the sides' height.
    parts.append("\n".join(line for line in every.splitlines() if not (is_around and "side-height" in line)) + "\n")
    within = 'inside = {{ width = "{}", height = "{}", depth = "{}" }}'.format(*sizes["within"]) if is_around else ""
    for _ in range(1 if is_around else draw.choice((1, 1, 1, 2))):
        parts.append(f"[[bank]]\n{_divided(draw, sizes, is_around=is_around)}\n{within}\n")
    return "\n".join(parts)


def _every(draw, given):
    every = ['front = "front"', 'sides = "side"', 'bottom = "bottom"', f'back-height = "{draw.choice(("full", "on bottom"))}"']
    every.append(f'front-joint = "{draw.choice(("loose tenon", "half-blind locking rabbet", "rabbet", "nailed butt"))}"')
    if draw.random() < 0.4:
        every.append(f'back-joint = "{draw.choice(("locking rabbet", "dado"))}"')
    if draw.random() < 0.15:
        every.append('fit = "plane"')
    if draw.random() < 0.3:
        every.append(f'load = "{given["load"]}"')
    for name in draw.sample(sorted(given["figures"]), draw.choice((0, 0, 1, 2))):
        every.append(f'{name} = "{draw.choice(given["figures"][name])}"')
    return "\n".join(["[drawers]   # alike", *every]) + "\n"


def _divided(draw, sizes, *, is_around):
    """How a bank is divided: alike, in a series, or by rows."""
    kind = draw.random()
    if is_around or kind < 0.25:
        return f"drawers = {draw.choice((1, 2, 3, 4))}"
    if kind < 0.45:
        return f'drawers = {draw.choice((2, 3, 4))}\ngraduation = "{draw.choice(("arithmetic", "geometric"))}"'
    rows = draw.choices(
        ("1", "1", "2", "3", '{ drawers = 2, between = "double bearer" }', "{ shares = [1, 2] }", '"open"', "{ loose = 1 }",
         f'{{ fixed = 1, load = "{draw.choice(sizes["shelf"])}" }}',
         f'{{ fixed = 1, lipping = {{ stock = "front", height = "{sizes["lipping"]}" }} }}'),
        k=draw.choice((1, 2, 3)),
    )  # fmt: skip
    return f"rows = [{', '.join(rows)}]"
