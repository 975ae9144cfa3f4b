"""One rule for every name that comes to stand on paper, held against the typeface itself."""

import unicodedata

import pytest

from joinlay.documents.pdf import load_fonts
from joinlay.paper import letter_fault, name_fault, written_one_way


def test_every_letter_let_through_is_in_both_faces_and_set_as_it_is_read():
    faces = load_fonts()
    let_through = [code for code in range(0x110000) if not 0xD800 <= code < 0xE000 and not letter_fault(chr(code))]
    assert [code for code in let_through if not all(code in face for face in faces)] == []
    assert len(let_through) > 2500
    assert not {unicodedata.bidirectional(chr(code)) for code in let_through} & {
        "R",
        "AL",
        "AN",
        "RLO",
        "LRO",
        "RLE",
        "LRE",
        "PDF",
    }
    assert all(chr(code).isprintable() for code in let_through)


@pytest.mark.parametrize(
    "name", ["drawer 1", "3/4 Birke", "Ständer über Eck", "комод", "Κομό", "½ in ply — “good” side", "é" * 80]
)
def test_names_that_may_stand(name):
    assert name_fault(name) == ""


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("", "is not a name"),
        (" ", "is not a name"),
        ("x" * 81, "is not a name; write 1 to 80 letters and figures on one line"),
        ("a\nb", "is not a name"),
        ("a\x1b[2Jb", "is not a name"),
        ("a\u202eb", "is not a name"),
        ("מגירה", "has the letter 'מ', of a script that runs from right to left"),
        ("引き出し", "has the letter '引', which the printed letters lack; write it in Latin"),
    ],
)
def test_names_that_may_not(name, said):
    assert name_fault(name).startswith(said)


@pytest.mark.parametrize("written", ["caf\u00e9  noir", " cafe\u0301\tnoir ", "caf\u00e9\u00a0noir"])
def test_names_that_look_alike_are_the_same(written):
    assert written_one_way(written) == "caf\u00e9 noir"
