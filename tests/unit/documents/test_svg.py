"""SVG of the same strokes, true to scale, read back by readers that aren't ours."""

from fractions import Fraction
from io import BytesIO
from xml.etree import ElementTree as Tree

import pytest
from svglib.svglib import svg2rlg

from joinlay.documents.svg import strokes_svg, template_svg
from joinlay.documents.template_files import template_svgs
from joinlay.pen.lettering import words
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Text
from joinlay.templates import Role, templates_for
from tests.measured.packets import drawers, plan_templates, template_sheets
from tests.unit.templates.parts import METRIC, side

F = Fraction
SVG = "{http://www.w3.org/2000/svg}"
MM = 72 / 25.4


def root_of(data):
    return Tree.fromstring(data)


def test_width_and_height_are_millimetres_and_a_unit_is_one():
    template, _ = templates_for([side()], METRIC)
    root = root_of(template_svg(template))
    wide, high = template.size
    assert root.get("width").endswith("mm")
    view = [float(n) for n in root.get("viewBox").split()]
    assert view[2:] == [float(root.get("width")[:-2]), float(root.get("height")[:-2])]
    assert view[2:] == pytest.approx([float(wide) + 4, float(high) + 4], abs=1e-5)


def test_every_line_is_where_the_drawing_has_it():
    template, _ = templates_for([side()], METRIC)
    found = [
        tuple(float(line.get(key)) for key in ("x1", "y1", "x2", "y2"))
        for line in root_of(template_svg(template)).iter(f"{SVG}line")
    ]
    drawn = [tuple(map(float, (*s.start, *s.end))) for s in template.strokes if isinstance(s, Line)]
    assert len(found) == len(drawn) > 30
    for one, two in zip(found, drawn, strict=True):
        assert (one[0], -one[1], one[2], -one[3]) == pytest.approx(two, abs=1e-5)


def test_places_of_the_plan_are_named_in_the_file():
    template, _ = templates_for([side()], METRIC)
    says = {element.get("data-says") for element in root_of(template_svg(template)).iter()}
    assert "drawer 1 left side mortise 1 centre" in says


def test_another_reader_sees_it_true_to_scale():
    for template in plan_templates(drawers("4 5/16")):
        seen = svg2rlg(BytesIO(template_svg(template)))
        assert seen is not None
        assert seen.width / MM == pytest.approx(float(template.size[0]) + 4, abs=0.001)
        assert seen.height / MM == pytest.approx(float(template.size[1]) + 4, abs=0.001)


def test_a_sheet_is_as_large_as_its_paper():
    sheet = template_sheets(drawers("4 5/16"), "a4")[0]
    root = root_of(strokes_svg(sheet.strokes, sheet.title, (F(0), F(0), sheet.paper.width, sheet.paper.height)))
    assert (root.get("width"), root.get("height")) == ("210mm", "297mm")
    assert root.get("viewBox") == "0 -297 210 297"


def test_each_template_is_a_file_with_a_plain_name():
    files = template_svgs(plan_templates(drawers("4 5/16", "4 5/16", "9")))
    names = [name for name, _ in files]
    assert len(set(names)) == len(names)
    assert names[0] == "drawer-1-and-2-front-left-and-right-end.svg"
    assert all(set(name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-.") for name in names)


def test_a_template_by_itself_says_who_made_it_and_when_under_the_mark():
    (template,) = plan_templates(drawers("4 5/16"))[:1]
    made = "made by Ada Fir, 28 November 2026"
    root = root_of(template_svg(template, "ABC", made))
    lines = [(float(text.get("y") or 0), "".join(text.itertext())) for text in root.iter(f"{SVG}text")]
    below = [said for _, said in sorted(lines)[-2:]]
    assert below == ["plan mark ABC", made]
    assert root.findtext(f"{SVG}desc") == f"plan mark ABC; {made}"
    assert "made by" not in template_svg(template, "ABC").decode()
    ((_, file),) = template_svgs([template], "ABC", made)
    assert file == template_svg(template, "ABC", made)


def test_every_kind_of_stroke():
    strokes = (
        Polyline(((F(0), F(0)), (F(5), F(0)), (F(5), F(5))), Role.BREAK),
        Polyline(((F(0), F(0)), (F(5), F(0)), (F(5), F(5))), Role.CHECK, closed=True),
        Arc((F(5), F(5)), F(2), F(0), F(360), Role.CUT),
        Arc((F(5), F(5)), F(2), F(90), F(180), Role.CUT),
        Arc((F(5), F(5)), F(2), F(0), F(270), Role.CUT),
        Fill(((F(0), F(0)), (F(5), F(0)), (F(5), F(5))), F(1, 8)),
        Text((F(1), F(1)), words("<part & co>", 5, bold=True)),
    )
    root = root_of(strokes_svg(strokes, "<all>"))
    assert [element.tag.removeprefix(SVG) for element in root][2:] == [
        "polyline",
        "polygon",
        "circle",
        "path",
        "path",
        "polygon",
        "text",
    ]
    half, most = (path.get("d").split() for path in root.iter(f"{SVG}path"))
    assert half == ["M", "5.00000", "-7.00000", "A", "2", "2", "0", "0", "0", "5.00000", "-3.00000"]
    assert most[7] == "1"
    assert root.find(f"{SVG}text").text == "<part & co>"
    assert root.find(f"{SVG}text").get("class") == "bold"
    assert root.find(f"{SVG}title").text == "<all>"


def test_the_same_strokes_give_the_same_bytes():
    template, _ = templates_for([side()], METRIC)
    assert template_svg(template) == template_svg(template)
