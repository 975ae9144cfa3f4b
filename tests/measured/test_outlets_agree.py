"""SVG, DXF and PDF of one template, each read back by a reader that isn't ours, show the same marks within 0.001 mm."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.casework.outline_place import place_outline
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Text, pieces_of
from joinlay.templates.outline_template import outline_templates
from tests.measured.outlets import read_dxf, read_pdf, read_svg, unmatched
from tests.measured.packets import drawers, example, examples, plan_templates
from tests.unit.casework.outlines import disc, hook, wish
from tests.unit.templates.parts import METRIC, side

#: How near the same mark must be in two files, in mm.
NEAR = 0.001

#: Of an example at most about so many templates are looked at, from all over it; each fourth of them on a page too, which is
#: slow.
MOST, EVERY = 14, 4


def check(template, *, on_page):
    """Compare the files of a template with each other, mark by mark, and with how many marks it has."""
    svg, dxf = read_svg(template), read_dxf(template)
    count = counted(template)
    assert (len(dxf.segments), len(dxf.arcs), len(dxf.words)) == count
    assert (len(svg.segments), len(svg.arcs), len(svg.words)) == count
    assert unmatched(svg.segments, dxf.segments, NEAR) == []
    assert unmatched(svg.arcs, dxf.arcs, NEAR) == []
    assert unmatched(svg.words, dxf.words, NEAR) == []
    if on_page:
        pdf = read_pdf(template)
        assert (len(pdf.segments), len(pdf.arcs)) == count[:2]
        assert unmatched(pdf.segments, dxf.segments, NEAR) == []
        assert unmatched(pdf.arcs, dxf.arcs, NEAR) == []
        # A page has single letters: the first of each piece of type stands where the piece begins.
        assert "".join(letter for letter, _, _ in pdf.words) == "".join(words for words, _, _ in dxf.words)
        assert unmatched([(words[0], x, y) for words, x, y in dxf.words], pdf.words, NEAR) == []


def counted(template):
    """How many straight strokes, arcs and pieces of type a template has, from its own marks."""
    segments = arcs = pieces = 0
    for stroke in template.strokes:
        if isinstance(stroke, Line):
            segments += 1
        elif isinstance(stroke, Polyline | Fill):
            # One that ends where it began has nothing to close.
            is_open = isinstance(stroke, Polyline) and not stroke.closed
            segments += len(stroke.points) - (is_open or stroke.points[0] == stroke.points[-1])
        elif isinstance(stroke, Arc):
            arcs += 1
        else:
            assert isinstance(stroke, Text)
            pieces += len(list(pieces_of(stroke)))
    return segments, arcs, pieces


@pytest.mark.parametrize("name", examples())
def test_the_files_of_the_templates_of_an_example_agree(name):
    plan = example(name)
    templates = plan_templates(plan)
    assert len(templates) >= 3
    for n, template in enumerate(templates[:: 1 + len(templates) // MOST]):
        check(template, on_page=n % EVERY == 0)


@settings(max_examples=3)
@given(st.integers(34, 300), st.integers(120, 900), st.sampled_from(["loose tenons", "half-blind and dado"]))
def test_the_files_of_any_drawer_agree(eighths, width, make):
    plan = drawers(f"{eighths}/16", make=make, width=f"{width}/16")
    first, *_, last = plan_templates(plan)
    check(first, on_page=True)
    check(last, on_page=False)


@pytest.mark.parametrize("outline", [disc(30), hook(44)], ids=["disc", "hook"])
def test_the_files_of_a_maker_s_own_outline_agree(outline):
    (template,) = outline_templates([place_outline(side(), wish(outline, edge="bottom edge"))], METRIC)
    check(template, on_page=True)


def test_a_mark_out_of_place_is_seen():
    line = [(0.0, 0.0, 10.0, 0.0)]
    assert unmatched(line, [(10.0, 0.0005, 0.0, 0.0)], NEAR) == []
    assert unmatched(line, [(0.0, 0.0, 10.0, 0.002)], NEAR) == line
    assert unmatched(line * 2, line, NEAR) == line
    assert unmatched([("a", 1.0, 1.0)], [("b", 1.0, 1.0)], NEAR) == [("a", 1.0, 1.0)]
