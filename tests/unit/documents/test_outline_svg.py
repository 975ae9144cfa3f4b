"""Drawings that mean harm, or that say less or more than an outline can: each refused in under two seconds, by name, with what
to do.
"""

import contextlib
import gzip
import time
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.documents.outline_file import read_outline
from joinlay.errors import BadInput

HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="100mm" '
    'height="50mm" viewBox="0 0 100 50">'
)
PATH = '<path d="M0 0h10v10z"/>'
LAUGHS = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 10))


def svg(body):
    return f"{HEAD}{body}</svg>"


def sized(attributes):
    return f'<svg xmlns="http://www.w3.org/2000/svg" {attributes}>{PATH}</svg>'


def bomb(levels, each):
    """Groups that use the one below several times over."""
    groups = [f'<g id="g0">{PATH}</g>']
    groups += [f'<g id="g{n}">{f"<use href={chr(34)}#g{n - 1}{chr(34)}/>" * each}</g>' for n in range(1, levels)]
    return svg(f'<defs>{"".join(groups)}</defs><use href="#g{levels - 1}"/>')


HOSTILE = {
    # Harm.
    "an entity bomb": (f'<!DOCTYPE svg [<!ENTITY l0 "ha">{LAUGHS}]>{svg("<title>&l9;</title>")}', "a document type"),
    "a bomb of one long entity": (f'<!DOCTYPE svg [<!ENTITY a "{"x" * 100_000}">]>{svg("&a;" * 9000)}', "a document type"),
    "an outside entity": (
        f'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>{svg("<title>&x;</title>")}',
        "a document type",
    ),
    "an outside document type": (f'<!DOCTYPE svg SYSTEM "http://127.0.0.1:9/x.dtd">{svg(PATH)}', "a document type"),
    "an entity nobody declared": (svg("<title>&x;</title>"), "not good XML"),
    "an outside file": (svg('<use href="/etc/passwd#x"/>'), "uses something from elsewhere"),
    "an outside address": (svg('<use xlink:href="http://127.0.0.1:9/a.svg#x"/>'), "uses something from elsewhere"),
    "another file beside it": (svg('<use href="other.svg#x"/>'), "uses something from elsewhere"),
    "an address to look up at": (svg('<g xml:base="http://127.0.0.1:9/"><use href="#a"/></g>'), "xml:base"),
    "a style from outside": (f'<?xml-stylesheet href="http://127.0.0.1:9/a.css"?>{svg(PATH)}', "a style sheet"),
    "a use bomb": (bomb(9, 10), "more than 1000 shapes once what is used again"),
    "a use bomb of one kilobyte": (bomb(20, 2), "more than 1000 shapes once what is used again"),
    "a use bomb of nothing": (bomb(25, 2).replace(PATH, ""), "more than 1000 shapes once what is used again"),
    "a use of itself": (svg('<g id="a"><use href="#a"/></g>'), "within itself"),
    "a ring of uses": (svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'), "within itself"),
    "a long chain of uses": (svg("".join(f'<g id="a{n}"><use href="#a{n + 1}"/></g>' for n in range(200))), "within itself"),
    "fifty thousand paths": (svg('<path d="M0 0L9 9"/>' * 49_000), "more than 1000 shapes"),
    "one path of fifty thousand lines": (svg(f'<path d="M0 0{"l1 1" * 50_000}"/>'), "more than 10000 lines and curves"),
    "arcs without end": (svg(f'<path d="M0 0{"a5 5 0 1 1 1 1" * 15_000}"/>'), "more than 10000 lines and curves"),
    "curves of a million points": (svg(f'<path d="M0 0{"C0 900000 900000 0 0 0" * 5_000}"/>'), "more than 20000 points"),
    "deep nesting": (svg("<g>" * 50_000 + PATH + "</g>" * 50_000), "nested more than 32 deep"),
    "deep nesting of notes": (svg("<metadata>" + "<x>" * 50_000 + "</x>" * 50_000 + "</metadata>"), "nested more than 32 deep"),
    "huge": (svg(PATH + "<!--" + "x" * 1_000_000 + "-->"), "larger than 1 MB"),
    "a hundred thousand attributes": (
        svg("<path " + " ".join(f"a{n}=''" for n in range(60_000)) + "/>"),
        "says more than an outline can",
    ),
    "one long attribute": (svg(f'<path d="{" " * 900_000}x"/>'), "no command 'x'"),
    "a long style": (svg(f'<path style="{";" * 900_000}d:path()"/>'), "says more than an outline can"),
    "a long transform": (svg(f'<g transform="{"scale(1)" * 100_000}q">{PATH}</g>'), "letters"),
    "a transform that is a riddle": (svg(f'<g transform="scale({"1" * 400}+{"1" * 400}">{PATH}</g>'), "transform goes wrong"),
    "a transform of spaces": (svg(f'<g transform="scale({" " * 500_000}">{PATH}</g>'), "letters"),
    # No drawing.
    "packed": (gzip.compress(svg(PATH).encode()), "is compressed"),
    "empty": ("", "is empty"),
    "blank": (" \n", "is empty"),
    "no SVG at all": ("<html><body>hello</body></html>", "begins with <html>"),
    "a picture": (b"\x89PNG\r\n\x1a\n\x00\x00\xff\xfe", "not UTF-8 text"),
    "words": ("dear maker", "not good XML"),
    "half of a drawing": (svg(PATH)[:-20], "not good XML"),
    "broken tags": (svg("<g>" + PATH), "not good XML"),
    "two drawings": (svg(PATH) * 2, "not good XML"),
    "null bytes": (svg(PATH).replace("path", "pa\0th"), "not good XML"),
    "another code": (svg(PATH).encode("utf-16"), "not UTF-8 text"),
    "SVG that doesn't say so": ('<svg width="9mm" height="9mm" viewBox="0 0 9 9"/>', "without saying so"),
    "nothing drawn": (svg(""), "draws nothing"),
    "only a point": (svg('<path d="M3 3z"/>'), "draws nothing"),
    "all of it in defs": (svg(f"<defs>{PATH}</defs>"), "draws nothing"),
    # No size.
    "no units": (sized('width="100" height="50" viewBox="0 0 100 50"'), "pixels have no size on wood"),
    "pixels": (sized('width="100px" height="50px" viewBox="0 0 100 50"'), "pixels have no size on wood"),
    "no sizes": (sized('viewBox="0 0 100 50"'), "has no width"),
    "a share": (sized('width="100%" height="50mm" viewBox="0 0 100 50"'), "must be in mm, cm or in"),
    "points": (sized('width="100pt" height="50pt" viewBox="0 0 100 50"'), "must be in mm, cm or in"),
    "no height": (sized('width="100mm" viewBox="0 0 100 50"'), "has no height"),
    "no view box": (sized('width="100mm" height="50mm"'), 'write viewBox="0 0 100 50"'),
    "a view box of three": (sized('width="100mm" height="50mm" viewBox="0 0 100"'), "not four numbers"),
    "a view box of nothing": (sized('width="100mm" height="50mm" viewBox="0 0 0 0"'), "more than zero"),
    "two scales": (sized('width="100mm" height="50mm" viewBox="0 0 100 60"'), 'height="60mm"'),
    "a negative size": (sized('width="-100mm" height="50mm" viewBox="0 0 100 50"'), "more than zero"),
    "a width that is a riddle": (sized(f'width="{"1" * 900_000}q" height="1mm" viewBox="0 0 1 1"'), "must be in mm, cm or in"),
    "a view box that is a riddle": (sized(f'width="1mm" height="1mm" viewBox="{"1" * 900_000}q 0 1 1"'), "not four numbers"),
    "a kilometre": (sized('width="1000000mm" height="500000mm" viewBox="0 0 100 50"'), "at most 3000 mm"),
    "next to nothing": (sized('width="1e-9999mm" height="1e-9999mm" viewBox="0 0 100 100"'), "too small"),
    "NaN wide": (sized('width="NaNmm" height="50mm" viewBox="0 0 100 50"'), "must be in mm, cm or in"),
    # Numbers.
    "NaN": (svg('<path d="M0 0LNaN 5"/>'), "path data"),
    "infinite": (svg('<circle r="inf"/>'), "no number"),
    "a huge number": (svg('<path d="M0 0L1e999 5"/>'), "too large"),
    "a number of a hundred thousand figures": (svg(f'<path d="M0 0L{"1" * 100_000} 5"/>'), "figures"),
    "units inside": (svg('<rect width="10mm" height="5"/>'), "in the units of the viewBox"),
    "half a pair": (svg('<polygon points="0 0 5"/>'), "come in twos"),
    "a letter that is no command": (svg('<path d="M0 0B5 5"/>'), "no command 'B'"),
    "no move": (svg('<path d="L5 5"/>'), "begin with a move"),
    "too few numbers": (svg('<path d="M0 0C1 2 3 4"/>'), "C takes 6 numbers"),
    "a flag that is none": (svg('<path d="M0 0A5 5 0 2 1 5 5"/>'), "path data goes wrong"),
    "a number after the end": (svg('<path d="M0 0h5z5"/>'), "path data goes wrong"),
    "a negative radius": (svg('<circle r="-5"/>'), "negative"),
    "a turn of two numbers": (svg(f'<g transform="rotate(1 2)">{PATH}</g>'), "1 or 3 are wanted"),
    "a turn nobody knows": (svg(f'<g transform="wiggle(1)">{PATH}</g>'), "transform goes wrong"),
    "a use of what isn't there": (svg('<use href="#nobody"/>'), "no shape or group called"),
    # What an outline can't say.
    "a filter": (svg(f'<filter id="f"/>{PATH}'), r"changes what is drawn under it"),
    "a filter on a path": (svg('<path filter="url(#f)" d="M0 0h5"/>'), "filter from elsewhere"),
    "a gradient": (svg(f'<linearGradient id="g"/>{PATH}'), "a gradient"),
    "a gradient in a style": (svg('<path style="fill: url( #g )" d="M0 0h5"/>'), "fill from elsewhere"),
    "a pattern": (svg("<pattern/>"), "a filling pattern"),
    "a mask": (svg("<mask/>"), "covers or changes"),
    "a clip": (svg('<path style="clip-path:circle(5px)" d="M0 0h5"/>'), "covers or changes"),
    "a picture inside": (svg('<image href="data:image/png;base64,AAAA"/>'), "a picture"),
    "lettering": (svg("<text>mine</text>"), "lettering"),
    "loose words": (svg("mine" + PATH), "words between its shapes"),
    "a style sheet": (svg("<style>path{display:none}</style>" + PATH), "a style sheet"),
    "a script": (svg("<script>alert(1)</script>" + PATH), "a script"),
    "a script on a shape": (svg('<path onclick="x()" d="M0 0h5"/>'), r"a script \(onclick\)"),
    "animation": (svg('<path d="M0 0h5"><animate attributeName="d"/></path>'), "animation"),
    "a foreign object": (svg("<foreignObject/>"), "isn't SVG"),
    "a marker": (svg("<marker/>"), "arrow heads"),
    "a marker on a line": (svg('<path marker-end="url(#m)" d="M0 0h5"/>'), "marker-end from elsewhere"),
    "a symbol": (svg("<symbol/>"), "a symbol"),
    "a drawing in the drawing": (svg(HEAD + PATH + "</svg>"), "within the drawing"),
    "a switch": (svg("<switch/>"), "by turns"),
    "a link": (svg("<a>" + PATH + "</a>"), "a link"),
    "an element nobody knows": (svg("<wobble/>"), "'wobble', which no outline needs"),
    "an attribute nobody knows": (svg('<path wobble="1" d="M0 0h5"/>'), "'wobble', which says more"),
    "a hidden shape": (svg('<path style="display:none" d="M0 0h5"/>'), "a hidden shape"),
    "an unseen shape": (svg('<path visibility="hidden" d="M0 0h5"/>'), "a hidden shape"),
    "a size on a use": (svg(f'<g id="a">{PATH}</g><use href="#a" width="5"/>'), "says more than an outline can"),
    "a turn in a style": (svg('<path style="transform:scale(2)" d="M0 0h5"/>'), "says more than an outline can"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_it_is_refused_at_once_with_a_clear_word(name):
    content, said = HOSTILE[name]
    content = content.encode() if isinstance(content, str) else content
    before = time.process_time()
    with pytest.raises(BadInput, match=said) as refused:
        read_outline(content, "mine.svg")
    assert time.process_time() - before < 2
    words = str(refused.value)
    assert words.startswith("mine.svg ")
    assert words.count("has ") < 3
    assert words.endswith(".")
    assert len(words) < 400
    assert "\n" not in words


def test_the_line_is_named():
    with pytest.raises(BadInput, match=r"mine.svg has a filter \(feBlend\); take it out \(line 3\)\."):
        read_outline(f"{HEAD}\n{PATH}\n<feBlend/>\n</svg>".encode(), "mine.svg")
    with pytest.raises(BadInput, match=r"mine.svg has a rect that is wrong: .* \(line 2\)\."):
        read_outline(f'{HEAD}\n<rect width="5%" height="1"/>\n</svg>'.encode(), "mine.svg")


def test_what_drawing_programs_keep_for_themselves_is_passed_over():
    notes = '<x:view xmlns:x="http://example.org/x" x:zoom="2"><x:grid/>notes</x:view><metadata>more<b/></metadata>'
    outline = read_outline(svg(notes + '<path xmlns:y="urn:y" y:kind="z" d="M0 0h10"/>').encode(), "mine.svg")
    assert (outline.width, outline.height) == (Fraction(10), Fraction(0))


@settings(max_examples=60, deadline=None)
@given(st.text("MmLlHhVvCcSsQqTtAaZz0159.-+e ,", max_size=40))
def test_any_path_data_is_read_or_refused(data):
    with contextlib.suppress(BadInput):
        read_outline(svg(f'<path d="{data}"/>').encode(), "mine.svg")


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(svg(PATH)) - 1), st.sampled_from("<>&\"'= \0é/0"))
def test_a_letter_gone_wrong_is_read_or_refused(at, letter):
    whole = svg(PATH)
    with contextlib.suppress(BadInput):
        read_outline((whole[:at] + letter + whole[at + 1 :]).encode(), "mine.svg")
