"""What a drawing of an outline may not hold, with the words that say so: nothing is left out without a word."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from joinlay.errors import quoted

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["GEOMETRY", "GROUPS", "PASSED_OVER", "SHAPES", "what_is_refused", "why_no_element"]

#: Elements that draw, with the attributes that give their shape.
SHAPES: Final[Mapping[str, tuple[str, ...]]] = {
    "path": ("d",),
    "line": ("x1", "y1", "x2", "y2"),
    "polyline": ("points",),
    "polygon": ("points",),
    "rect": ("x", "y", "width", "height", "rx", "ry"),
    "circle": ("cx", "cy", "r"),
    "ellipse": ("cx", "cy", "rx", "ry"),
}
#: Elements that hold others.
GROUPS: Final = ("g", "defs")
#: Elements that draw nothing: what is in them says something about the drawing.
PASSED_OVER: Final = ("title", "desc", "metadata")
#: The attributes that give each element its shape or place.
GEOMETRY: Final[Mapping[str, tuple[str, ...]]] = {
    **{tag: (*given, "transform") for tag, given in SHAPES.items()},
    "g": ("transform",),
    "defs": (),
    "use": ("x", "y", "href", "transform"),
    "svg": ("x", "y", "width", "height", "viewBox", "preserveAspectRatio"),
}

_LETTERING = "lettering; turn it into paths first"
_ANIMATION = "animation, and wood stands still"
_PAINT = "a gradient or a filling pattern, which cannot be traced; take it out"
_COVER = "something that covers or changes what is drawn under it; take it out, and draw the lines that are to be traced"
_LINK = "a link; take it out"

#: What an element is that is refused, and what to do.
_ELEMENTS: Final[Mapping[str, str]] = {
    **dict.fromkeys(("text", "tspan", "textPath", "tref", "font", "glyph", "font-face"), _LETTERING),
    **dict.fromkeys(("animate", "animateMotion", "animateTransform", "animateColor", "set", "mpath", "discard"), _ANIMATION),
    **dict.fromkeys(("linearGradient", "radialGradient", "meshgradient", "pattern", "hatch", "stop"), _PAINT),
    **dict.fromkeys(("filter", "mask", "clipPath"), _COVER),
    **dict.fromkeys(("a", "view", "cursor"), _LINK),
    "image": "a picture; trace it into paths first",
    "script": "a script; take it out",
    "style": "a style sheet; save the drawing as plain SVG, with its look on the shapes themselves",
    "marker": "arrow heads or other markers; turn them into paths first",
    "foreignObject": "something that isn't SVG; take it out",
    "symbol": "a symbol; make it a group (g), which may be used again too",
    "svg": "a drawing within the drawing; put its shapes in the outer one",
    "switch": "parts that are shown by turns (switch); keep the one you want",
}

#: Attributes and properties that only say how a line looks; the outline is drawn with a pen of its own.
_LOOK: Final = re.compile(
    r"-.*|fill(-.*)?|stroke(-.*)?|color(-.*)?|opacity|stop-.*|font(-.*)?|text-.*|letter-spacing|word-spacing|line-height|writing-mode"
    r"|direction|baseline-shift|dominant-baseline|alignment-baseline|paint-order|vector-effect|shape-rendering|image-rendering|isolation"
    r"|mix-blend-mode|overflow|enable-background|solid-.*|white-space|inline-size|pointer-events|shape-padding|shape-inside|shape-margin|tab-size|unicode-bidi|glyph-orientation-.*|kerning|block-progression"
    r"|marker(-.*)?|clip(-.*)?|mask(-.*)?|filter|display|visibility"
)
#: Properties with the only values they may have.
_ONLY: Final[Mapping[str, tuple[str, ...]]] = {
    "display": ("inline", "block"),
    "visibility": ("visible",),
    **dict.fromkeys(
        ("marker", "marker-start", "marker-mid", "marker-end", "clip-path", "mask", "filter", "shape-inside"), ("none",)
    ),
    "clip": ("auto",),
}
_WORDS: Final[Mapping[str, str]] = {
    "display": "a hidden shape",
    "visibility": "a hidden shape",
    "marker": _ELEMENTS["marker"],
}
#: Attributes that change nothing that is drawn.
_HARMLESS: Final = re.compile(
    r"id|class|version|baseProfile|lang|role|tabindex|pathLength|zoomAndPan|aria-.*|data-.*|contentScriptType|contentStyleType"
)


def why_no_element(tag: str) -> str:
    """What an SVG element called ``tag`` is that an outline may not hold."""
    if tag.startswith("fe"):
        return f"a filter ({tag}); take it out"
    return f"{_ELEMENTS[tag]} ({tag})" if tag in _ELEMENTS else f"{quoted(tag, 40)}, which no outline needs; take it out"


def what_is_refused(tag: str, attributes: Mapping[str, str]) -> Iterator[str]:
    """Each thing about an element's ``attributes`` (those of SVG itself) that an outline may not have, in words."""
    for name, value in attributes.items():
        if name in GEOMETRY.get(tag, ()) or _HARMLESS.fullmatch(name):
            continue
        if re.fullmatch(r"on\w+", name):
            yield f"a script ({name}); take it out"
        elif name == "style":
            yield from _in_style(value)
        else:
            yield from _property(name, value)


def _in_style(style: str) -> Iterator[str]:
    for declaration in re.sub(r"/\*.*?\*/", "", style, flags=re.DOTALL).split(";"):
        name, _, value = declaration.partition(":")
        if name.strip():
            yield from _property(name.strip().lower(), value)


def _property(name: str, value: str) -> Iterator[str]:
    plain = " ".join(value.lower().replace("!important", "").split())
    if "url(" in plain.replace(" ", ""):
        yield f"{name} from elsewhere ({quoted(plain, 40)}): gradients, patterns, masks and the like cannot be traced; take it out"
    elif name in _ONLY and plain not in (*_ONLY[name], "inherit"):
        said = _WORDS.get(name) or _WORDS.get(name.split("-", maxsplit=1)[0]) or _COVER
        yield (
            f"{said} ({name}: {quoted(plain, 40)})"
            if said != _WORDS["display"]
            else f"{said} ({name}: {plain[:20]}); show it or take it out"
        )
    elif not _LOOK.fullmatch(name):
        yield f"{quoted(name, 40)}, which says more than an outline can; take it out"
