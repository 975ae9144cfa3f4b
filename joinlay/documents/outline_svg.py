"""Reading an SVG drawing of an outline strictly: what isn't understood to the last attribute is refused by name.

The XML is read by the standard library's expat, which fetches nothing from outside; a document type, and with it every entity, is
refused at its first letter. What comes out is a tree of few known elements with checked numbers. Nothing is left out without a
word: what draws nothing (titles, notes that drawing programs keep for themselves) is passed over, all else that an outline may
not hold is said with what to do.
"""

from __future__ import annotations

import re
from dataclasses import field
from io import BytesIO
from typing import TYPE_CHECKING, Final
from xml.parsers import expat

from joinlay.documents.outline_paths import LARGEST, NUMBER, numbers
from joinlay.errors import BadInput, quoted
from joinlay.lengths import Fraction, fraction_in
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["LARGEST_SVG", "SHAPES", "Drawn", "Element", "read_strictly", "sizes_of"]

#: The most bytes, elements and levels of a drawing of one outline.
LARGEST_SVG: Final = 1_000_000
_MOST_ELEMENTS, _DEEPEST = 1_000, 32
#: The largest size of a drawing, in mm.
_LARGEST_SIZE: Final = 3_000
#: How far the two scales of a drawing may differ, as a share: a thousandth of a millimetre in ten.
_AGREE: Final = Fraction(1, 10_000)

_SVG, _LINKED, _SPACE = "http://www.w3.org/2000/svg ", "http://www.w3.org/1999/xlink ", "http://www.w3.org/XML/1998/namespace "
_UNITS: Final = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(127, 5)}
_SIZE: Final = re.compile(rf"\s*({NUMBER})\s*([a-zA-Z%]*)\s*")


@dataclass(slots=True)
class Element:
    """One element: ``given`` its attributes of shape and place as text, ``line`` where it begins."""

    tag: str
    given: Mapping[str, str]
    line: int
    inside: list[Element] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing that has been read: its ``root``, every element that has a name by it, and how many elements there are."""

    root: Element
    named: Mapping[str, Element]


def read_strictly(content: bytes) -> Drawn:
    """The drawing in ``content``. Raises BadInput, in words that follow the file's name, for anything that isn't a plain
    outline.
    """
    if content[:2] == b"\x1f\x8b":
        raise BadInput("is compressed; unpack it, so that it begins with <svg")
    if len(content) > LARGEST_SVG:
        raise BadInput(f"is larger than {LARGEST_SVG // 1_000_000} MB; an outline is a few lines")
    if not content.strip():
        raise BadInput("is empty; draw an outline in it and save it as SVG")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadInput(
            "is not UTF-8 text, so it is no SVG drawing that can be read here; save it as plain SVG in UTF-8"
        ) from None
    return _Reader().read(text)


def sizes_of(root: Element) -> tuple[Fraction, Fraction, tuple[Fraction, Fraction, Fraction, Fraction]]:
    """Width and height of the drawing in mm, and its viewBox in its own units.

    Raises BadInput where they aren't written with a unit of length, or don't agree.
    """
    wide, high = (_size(root.given.get(name), name) for name in ("width", "height"))
    box = _view_box(root.given.get("viewBox"), wide, high)
    across, up = wide / box[2], high / box[3]
    if abs(across - up) > _AGREE * max(across, up):
        raise BadInput(
            f"says two things about its scale: {_mm(wide)} for {_mm(box[2])} units across "
            f"and {_mm(high)} for {_mm(box[3])} units up. "
            f'Write a height that agrees: height="{_mm(box[3] * across)}mm"'
        )
    return wide, high, box


def _size(given: str | None, name: str) -> Fraction:
    how = f'write how large the drawing is, such as {name}="120mm", with viewBox="0 0 120 60" beside it'
    if given is None:
        raise BadInput(f"has no {name}, so nothing says how large it is; {how}")
    found = _SIZE.fullmatch(given)
    unit = found[2].lower() if found else ""
    if found is None or unit not in _UNITS:
        said = "pixels have no size on wood" if found and unit in ("", "px") else "it must be in mm, cm or in"
        raise BadInput(f"has {name} {quoted(given, 30)}; {said}: {how}")
    size = _exact(found[1]) * _UNITS[unit]
    if not 0 < size <= _LARGEST_SIZE:
        raise BadInput(f"has {name} {quoted(given, 30)}; it must be more than zero and at most {_LARGEST_SIZE} mm")
    return size


def _view_box(given: str | None, wide: Fraction, high: Fraction) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    how = f'write viewBox="0 0 {_mm(wide)} {_mm(high)}", so that one unit is a millimetre'
    if given is None:
        raise BadInput(f"has no viewBox, so nothing says how large a unit is; {how}")
    parts = re.split(r"[\s,]+", given.strip())
    if len(parts) != 4 or not all(re.fullmatch(NUMBER, part) for part in parts):
        raise BadInput(f"has viewBox {quoted(given, 40)}, which is not four numbers; {how}")
    left, top, width, height = map(_exact, parts)
    if width <= 0 or height <= 0:
        raise BadInput(f"has viewBox {quoted(given, 40)}; its width and height must be more than zero: {how}")
    return left, top, width, height


def _exact(text: str) -> Fraction:
    """A number as it is written, exactly; read as a float first, which refuses what is too long or too large to be one."""
    (value,) = numbers(text)
    exact = fraction_in(text)
    if exact and abs(value) * LARGEST < 1:
        raise BadInput(f"has the number {quoted(text, 20)}, which is too small to mean anything")
    return exact


def _mm(size: Fraction) -> str:
    return f"{float(size):.6g}"


class _Reader:
    """Takes what expat sees, element by element, and refuses at once what doesn't belong."""

    def __init__(self) -> None:
        self.parser = expat.ParserCreate(encoding="utf-8", namespace_separator=" ")
        self.open: list[Element] = []
        self.named: dict[str, Element] = {}
        self.root: Element | None = None
        self.count = 0
        #: How deep we are in something that draws nothing.
        self.passing = 0

    def read(self, text: str) -> Drawn:
        parser = self.parser
        parser.StartElementHandler = self.begin
        parser.EndElementHandler = self.end
        parser.StartDoctypeDeclHandler = self.doctype
        parser.ProcessingInstructionHandler = self.instruction
        parser.CharacterDataHandler = self.letters
        try:
            parser.ParseFile(BytesIO(text.encode("utf-8")))
        except expat.ExpatError as bad:
            what = expat.errors.messages.get(bad.code, "it cannot be read")
            raise BadInput(f"is not good XML: {what} (line {bad.lineno}); save it again as plain SVG") from None
        if self.root is None:
            raise BadInput("is not an SVG drawing; save it as plain SVG")
        return Drawn(self.root, self.named)

    def has(self, what: str) -> BadInput:
        return BadInput(f"has {what} (line {self.parser.CurrentLineNumber})")

    def doctype(self, *_: object) -> None:
        raise self.has("a document type (<!DOCTYPE ...>), which can bring in anything; take it out, or save as plain SVG")

    def instruction(self, target: str, _: str) -> None:
        what = "a style sheet" if "stylesheet" in target else "an instruction to a program"
        raise self.has(f"{what} (<?{target[:30]} ...?>); take it out, or save as plain SVG")

    def letters(self, text: str) -> None:
        if text.strip() and not self.passing and self.root is not None:
            raise self.has(
                f"words between its shapes ({quoted(text.strip(), 30)}); turn lettering into paths, and take out what is none"
            )

    def begin(self, name: str, attributes: dict[str, str]) -> None:
        self.count += 1
        if self.count > _MOST_ELEMENTS:
            raise self.has(f"more than {_MOST_ELEMENTS} shapes; an outline has a few. Join them or take some out")
        if len(self.open) + self.passing >= _DEEPEST:
            raise self.has(f"groups nested more than {_DEEPEST} deep; take them apart")
        tag = name.removeprefix(_SVG)
        if self.root is None and (tag != "svg" or not name.startswith(_SVG)):
            raise BadInput(_no_svg(name))
        if self.passing or not name.startswith(_SVG) or tag in _PASSED_OVER:
            # What isn't SVG draws nothing in SVG either: notes that drawing programs keep for themselves.
            self.passing += 1
            return
        self.keep(tag, attributes)

    def keep(self, tag: str, attributes: dict[str, str]) -> None:
        if (tag not in _GROUPS and tag not in SHAPES and tag != "use" and self.root) or (
            self.open and self.open[-1].tag in (*SHAPES, "use")
        ):
            raise self.has(_why_no_element(tag))
        own = {_plain(name): value for name, value in attributes.items() if " " not in name or name.startswith((_LINKED, _SPACE))}
        for what in _what_is_refused(tag, {name: value for name, value in own.items() if ":" not in name}):
            raise self.has(what)
        if "xml:base" in own:
            raise self.has("an address to look things up at (xml:base); take it out")
        element = Element(tag, {key: own[key] for key in _GEOMETRY[tag] if key in own}, self.parser.CurrentLineNumber)
        if "id" in own:
            self.named.setdefault(own["id"], element)
        if self.open:
            self.open[-1].inside.append(element)
        else:
            self.root = element
        self.open.append(element)

    def end(self, _: str) -> None:
        if self.passing:
            self.passing -= 1
        else:
            self.open.pop()


def _plain(name: str) -> str:
    """An attribute's name without its namespace: a link's is just ``href``, one of XML itself keeps its ``xml:``."""
    for space, short in ((_LINKED, ""), (_SPACE, "xml:")):
        if name.startswith(space):
            rest = name.removeprefix(space)
            # Of a link only the address matters; its title and manner of showing are notes.
            return rest if short == "" and rest == "href" else f"{short or 'link:'}{rest}"
    return name


def _no_svg(name: str) -> str:
    if name == "svg":
        return 'is SVG without saying so; write <svg xmlns="http://www.w3.org/2000/svg" ...> in its first line'
    return f"is not an SVG drawing: it begins with <{name.rpartition(' ')[2][:40]}>; save it as plain SVG"


# -- what it may hold, and what is refused in which words -----------------------------------------------

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
_GROUPS: Final = ("g", "defs")
#: Elements that draw nothing: what is in them says something about the drawing.
_PASSED_OVER: Final = ("title", "desc", "metadata")
#: The attributes that give each element its shape or place.
_GEOMETRY: Final[Mapping[str, tuple[str, ...]]] = {
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
    r"-.*|fill(-.*)?|stroke(-.*)?|color(-.*)?|opacity|stop-.*|font(-.*)?|text-.*|letter-spacing|word-spacing|line-height"
    r"|writing-mode|direction|baseline-shift|dominant-baseline|alignment-baseline|paint-order|vector-effect|shape-rendering"
    r"|image-rendering|isolation|mix-blend-mode|overflow|enable-background|solid-.*|white-space|inline-size|pointer-events"
    r"|shape-padding|shape-inside|shape-margin|tab-size|unicode-bidi|glyph-orientation-.*|kerning|block-progression"
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


def _why_no_element(tag: str) -> str:
    """What an SVG element called ``tag`` is that an outline may not hold."""
    if tag.startswith("fe"):
        return f"a filter ({tag}); take it out"
    return f"{_ELEMENTS[tag]} ({tag})" if tag in _ELEMENTS else f"{quoted(tag, 40)}, which no outline needs; take it out"


def _what_is_refused(tag: str, attributes: Mapping[str, str]) -> Iterator[str]:
    """Each thing about an element's ``attributes`` (those of SVG itself) that an outline may not have, in words."""
    for name, value in attributes.items():
        if name in _GEOMETRY.get(tag, ()) or _HARMLESS.fullmatch(name):
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
        what = f"{name} from elsewhere ({quoted(plain, 40)})"
        yield f"{what}: gradients, patterns, masks and the like cannot be traced; take it out"
    elif name in _ONLY and plain not in (*_ONLY[name], "inherit"):
        said = _WORDS.get(name) or _WORDS.get(name.split("-", maxsplit=1)[0]) or _COVER
        yield (
            f"{said} ({name}: {quoted(plain, 40)})"
            if said != _WORDS["display"]
            else f"{said} ({name}: {plain[:20]}); show it or take it out"
        )
    elif not _LOOK.fullmatch(name):
        yield f"{quoted(name, 40)}, which says more than an outline can; take it out"
