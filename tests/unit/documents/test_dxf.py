"""DXF of a template: layers by kind of mark, millimetres, arcs as arcs, the same bytes each time."""

import importlib.util
import os
import subprocess
import sys
from fractions import Fraction
from io import BytesIO, StringIO

import ezdxf
import pytest
from ezdxf import recover

from joinlay.documents.dxf import AREA, LAYERS, refuse_without_dxf, strokes_dxf, template_dxf
from joinlay.errors import BadInput
from joinlay.pen.lettering import words
from joinlay.pen.marks import PENS, Align, Arc, Fill, Line, Polyline, Text, Turn
from joinlay.templates import Role, templates_for
from tests.unit.templates.parts import METRIC, side

F = Fraction


def read(data):
    return ezdxf.read(StringIO(data.decode()))


def template():
    return templates_for([side()], METRIC)[0]


def test_it_is_a_sound_file_of_2010_in_millimetres():
    drawing, audit = recover.read(BytesIO(template_dxf(template())))
    assert (audit.errors, audit.fixes) == ([], [])
    assert drawing.dxfversion == "AC1024"
    assert drawing.header["$INSUNITS"] == 4
    assert drawing.header["$MEASUREMENT"] == 1
    assert drawing.header.custom_vars.get("Title") == template().title


def test_it_opens_on_the_whole_of_it():
    drawing = read(template_dxf(template()))
    left, bottom, right, top = map(float, template().box)
    assert tuple(drawing.header["$EXTMIN"]) == pytest.approx((left, bottom, 0))
    assert tuple(drawing.header["$EXTMAX"]) == pytest.approx((right, top, 0))


def test_every_role_has_a_layer_of_its_own_with_its_weight_and_dashes():
    assert len(set(LAYERS.values())) == len(Role)
    assert AREA not in LAYERS.values()
    drawing = read(strokes_dxf([Line((F(0), F(n)), (F(90), F(n)), role) for n, role in enumerate(Role)], "all"))
    for role in Role:
        layer, pen = drawing.layers.get(LAYERS[role]), PENS[role]
        assert layer.dxf.lineweight == pytest.approx(float(pen.weight) * 100, abs=1)
        if pen.dash:
            pattern = [tag.value for tag in drawing.linetypes.get(layer.dxf.linetype).pattern_tags.tags if tag.code == 49]
            assert [abs(length) for length in pattern] == [float(length) for length in pen.dash]
            assert [length > 0 for length in pattern] == [n % 2 == 0 for n in range(len(pattern))]
        else:
            assert layer.dxf.linetype.casefold() == "continuous"
    assert [line.dxf.layer for line in drawing.modelspace()] == list(LAYERS.values())


def test_only_the_layers_that_are_used_are_there():
    drawing = read(strokes_dxf([Line((F(0), F(0)), (F(9), F(0)), Role.CUT)], "one"))
    assert {layer.dxf.name for layer in drawing.layers} & {*LAYERS.values(), AREA} == {"CUT"}


def test_every_kind_of_stroke():
    corners = ((F(0), F(0)), (F(5), F(0)), (F(5), F(5)))
    strokes = (
        Polyline(corners, Role.BREAK),
        Polyline(corners, Role.CHECK, closed=True),
        Arc((F(5), F(5)), F(2), F(0), F(360), Role.CUT),
        Arc((F(5), F(5)), F(2), F(270), F(180), Role.CUT),
        Fill(corners, F(1, 8)),
    )
    open_line, closed, circle, arc, area = read(strokes_dxf(strokes, "all")).modelspace()
    assert (open_line.dxftype(), open_line.closed, closed.closed) == ("LWPOLYLINE", False, True)
    assert (circle.dxftype(), circle.dxf.radius) == ("CIRCLE", 2)
    assert (arc.dxftype(), tuple(arc.start_point), tuple(arc.end_point)) == ("ARC", *map(pytest.approx, ((5, 3, 0), (5, 7, 0))))
    assert (area.dxftype(), area.dxf.layer, area.rgb) == ("HATCH", AREA, (223, 223, 223))


def test_words_are_text_as_high_as_their_capitals_and_no_wider_than_their_room():
    said = "a %%c b^c 50%"
    text = Text((F(10), F(20)), words(said, 5, bold=True), Align.LEFT, Turn.UP)
    (letters,) = read(strokes_dxf([text], "words")).modelspace()
    assert letters.plain_text() == said
    assert (letters.dxf.height, letters.dxf.rotation, letters.dxf.style) == (5, 90, "BOLD")
    assert tuple(letters.dxf.insert)[:2] == (10, 20)
    assert letters.dxf.align_point[0] == 10
    assert letters.dxf.align_point[1] > 40


def test_marks_say_which_place_of_the_plan_they_stand_for():
    marks = read(template_dxf(template())).modelspace()
    says = {mark.get_xdata("JOINLAY")[0].value for mark in marks if mark.has_xdata("JOINLAY")}
    assert "drawer 1 left side mortise 1 centre" in says


def test_it_says_who_made_it_and_when():
    made = "made by Ada Fir, 28 November 2026"
    said = [mark.plain_text() for mark in read(template_dxf(template(), "ABC", made)).modelspace().query("MTEXT TEXT")]
    assert made in said
    assert "plan mark ABC" in said


def test_the_same_template_gives_the_same_bytes_in_any_run():
    code = """
import sys
from joinlay.documents.dxf import template_dxf
from joinlay.templates import templates_for
from tests.unit.templates.parts import METRIC, side
sys.stdout.buffer.write(template_dxf(templates_for([side()], METRIC)[0]))
"""
    environment = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    other = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, env=environment).stdout
    assert other == template_dxf(template()) == template_dxf(template())
    assert ezdxf.options.write_fixed_meta_data_for_testing is False


def test_without_the_library_it_says_how_to_get_it(monkeypatch):
    refuse_without_dxf()
    monkeypatch.setattr(importlib.util, "find_spec", lambda _: None)
    with pytest.raises(BadInput, match=r"pip install 'joinlay\[dxf\]'\. Nothing was written"):
        template_dxf(template())
