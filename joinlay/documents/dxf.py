"""Templates as DXF in millimetres, for those who cut them from sheet stock: a layer a kind of mark, arcs as arcs, text as text.

The library that writes DXF comes with the extra ``dxf`` and is fetched only when a file is asked for.
"""

from __future__ import annotations

from io import StringIO
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.pen.lettering import CAPITAL, EM
from joinlay.pen.marks import PENS, Arc, Fill, Line, Move, Polyline, Role, bounds_of, pieces_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ezdxf.document import Drawing
    from ezdxf.entities import DXFGraphic
    from ezdxf.layouts import Modelspace

    from joinlay.lengths import Fraction
    from joinlay.pen.marks import Box, Pen, Point, Stroke, Text
    from joinlay.templates import Template

__all__ = ["AREA", "LAYERS", "refuse_without_dxf", "strokes_dxf", "template_dxf"]

#: The layer of each kind of mark.
LAYERS: Final = {role: role.value.upper().replace(" ", "-") for role in Role}
#: The layer of filled areas, whatever they are for: nobody cuts along these.
AREA: Final = "AREA"

#: Line weights that DXF knows, in hundredths of a millimetre (ISO 128's among them).
_WEIGHTS: Final = (5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70)
#: The styles of lettering, plain and bold, with the font file each asks for.
_STYLES: Final = (("PLAIN", "DejaVuSans.ttf"), ("BOLD", "DejaVuSans-Bold.ttf"))
#: The name under which a mark carries the place in the plan it stands for, and the most characters of it.
_SAYS, _MOST_SAID = "JOINLAY", 250
_MILLIMETRES, _METRIC, _STRING = 4, 1, 1000


def refuse_without_dxf() -> None:
    """Raise BadInput, with how to install it, where the library that writes DXF isn't there."""
    from importlib.util import find_spec

    if find_spec("ezdxf") is None:
        raise BadInput("writing DXF needs one more library; install it with: pip install 'joinlay[dxf]'. Nothing was written.")


def template_dxf(template: Template, mark: str = "", made: str = "") -> bytes:
    """``template`` by itself as a DXF file of 2010, true to scale: a unit is a mm, x = 0 at the end, y = 0 at the datum edge.

    The plan's ``mark`` stands under it (PR-7), and who ``made`` it and when. The same template gives the same
    bytes. Raises BadInput where the extra that writes DXF isn't installed.
    """
    return strokes_dxf(
        template.marked(mark, made), template.title, told="; ".join(filter(None, (mark and f"plan mark {mark}", made)))
    )


def strokes_dxf(strokes: Sequence[Stroke], title: str, told: str = "") -> bytes:
    """``strokes`` as a DXF file of 2010, their coordinates in millimetres as they stand; errors as ``template_dxf``.

    ``told`` is what it says of itself beside its ``title``.
    """
    refuse_without_dxf()
    import ezdxf

    # Otherwise the clock and chance stand in the file, and no two are alike.
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        drawing = _drawing(strokes, title, told)
        held = StringIO()
        drawing.write(held)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
    return held.getvalue().encode("utf-8")


def _drawing(strokes: Sequence[Stroke], title: str, told: str) -> Drawing:
    import ezdxf

    drawing = ezdxf.new("R2010", setup=False, units=_MILLIMETRES)
    drawing.header["$MEASUREMENT"] = _METRIC
    drawing.header.custom_vars.append("Title", title)
    if told:
        drawing.header.custom_vars.append("Comments", told)
    drawing.appids.add(_SAYS)
    for name, file in _STYLES:
        drawing.styles.add(name, font=file)
    _add_layers(drawing, {AREA if isinstance(stroke, Fill) else stroke.role for stroke in strokes})
    space = drawing.modelspace()
    for stroke in strokes:
        for mark in _entities(space, stroke):
            if stroke.says:
                mark.set_xdata(_SAYS, [(_STRING, stroke.says[:_MOST_SAID])])
    _look_at(drawing, bounds_of(strokes))
    drawing.update_all()
    # The library keeps these in an order of chance.
    drawing.classes.classes = dict(sorted(drawing.classes.classes.items()))
    return drawing


def _look_at(drawing: Drawing, box: Box) -> None:
    """The file opens on the whole of ``box``."""
    left, bottom, right, top = map(float, box)
    drawing.modelspace().reset_extents((left, bottom, 0), (right, top, 0))
    drawing.set_modelspace_vport(max(top - bottom, right - left), ((left + right) / 2, (bottom + top) / 2))


def _add_layers(drawing: Drawing, used: set[Role | str]) -> None:
    """A layer for each role that is used, in their order, with its line type and weight; black on white, white on black."""
    for role in Role:
        if role in used:
            name, pen = LAYERS[role], PENS[role]
            if pen.dash:
                drawing.linetypes.add(name, _pattern(pen), description=f"{role.value} line")
            drawing.layers.add(name, linetype=name if pen.dash else "Continuous", lineweight=_weight(pen))
    if AREA in used:
        drawing.layers.add(AREA)


def _pattern(pen: Pen) -> list[float]:
    """A line type as DXF has it: its whole length, then strokes, and gaps as negative numbers."""
    signs = (1, -1) * (len(pen.dash) // 2)
    return [float(sum(pen.dash)), *(float(sign * length) for sign, length in zip(signs, pen.dash, strict=True))]


def _weight(pen: Pen) -> int:
    return min(_WEIGHTS, key=lambda known: abs(known - 100 * pen.weight))


def _entities(space: Modelspace, stroke: Stroke) -> Iterator[DXFGraphic]:
    about = {"layer": AREA if isinstance(stroke, Fill) else LAYERS[stroke.role]}
    if isinstance(stroke, Line):
        yield space.add_line(_floats(stroke.start), _floats(stroke.end), about)
    elif isinstance(stroke, Polyline):
        yield space.add_lwpolyline(map(_floats, stroke.points), close=stroke.closed, dxfattribs=about)
    elif isinstance(stroke, Fill):
        area = space.add_hatch(dxfattribs={**about, "true_color": _tone(stroke.ink)})
        area.paths.add_polyline_path([_floats(point) for point in stroke.points], is_closed=True)
        yield area
    elif isinstance(stroke, Arc):
        yield _arc(space, stroke, about)
    else:
        yield from _text(space, stroke, about)


def _arc(space: Modelspace, arc: Arc, about: dict[str, str]) -> DXFGraphic:
    centre, radius = _floats(arc.centre), float(arc.radius)
    if arc.sweep >= 360:
        return space.add_circle(centre, radius, about)
    return space.add_arc(centre, radius, float(arc.start), float(arc.start + arc.sweep), dxfattribs=about)


def _text(space: Modelspace, text: Text, about: dict[str, str]) -> Iterator[DXFGraphic]:
    """A text for each piece of type, set between two points so that another typeface takes no more room."""
    from ezdxf.enums import TextEntityAlignment

    for piece, start in pieces_of(text):
        stop = Move(*start, text.turn.value).point((piece.width, start[0] * 0))
        style = _STYLES[piece.bold][0]
        look = {**about, "style": style, "height": float(piece.em * CAPITAL / EM), "rotation": 90 * text.turn.value}
        if text.ink != 1:
            look["true_color"] = _tone(text.ink)
        letters = space.add_text(_plain(piece.text), dxfattribs=look)
        letters.set_placement(_floats(start), _floats(stop), TextEntityAlignment.FIT)
        yield letters


def _plain(words: str) -> str:
    """Words with the two signs that DXF takes for more than themselves spelled out."""
    return words.replace("%%", "%%%%%%").replace("^", "^ ")


def _tone(ink: Fraction) -> int:
    grey = round(255 * (1 - ink))
    return grey << 16 | grey << 8 | grey


def _floats(point: Point) -> tuple[float, float]:
    return float(point[0]), float(point[1])
