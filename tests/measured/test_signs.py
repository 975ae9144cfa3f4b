"""PR-8 over whole packets: each kind of line and each tone has one meaning, and every sheet explains the signs on it and no
others.
"""

from collections import Counter

import pytest

from joinlay.documents.wanted_sheets import EVERYTHING, LEAN, Wanted
from joinlay.lengths import Fraction
from joinlay.pen.marks import PENS, Fill, Role, Text, flatten
from joinlay.pen.signs import LINES, TONES, Sign, sample_of, signs_on
from tests.measured.packets import example, examples, packet, packet_of


def test_no_two_signs_look_alike():
    assert set(LINES) == set(Role) == set(PENS)
    dashed = Counter(pen.dash for pen in PENS.values() if pen.dash)
    assert max(dashed.values()) == 1
    # What continuous lines of one weight mean is told by their shape, and so each of these means another thing.
    assert max(Counter(LINES.values()).values()) == 1
    # Grey is one thing: of all the tones between white and black there is but one.
    assert {meaning for (ink, _), meaning in TONES.items() if 0 < ink < 1} == {Sign.WOOD.value}
    assert len({ink for ink, _ in TONES if 0 < ink < 1}) == 1


@pytest.mark.parametrize("sign", Sign)
def test_each_sign_is_explained_by_a_sample_of_itself(sign):
    sample = tuple(flatten(sample_of(sign, Fraction(10), Fraction(3))))
    assert signs_on(sample) == (sign,)


def told(sheet):
    """The signs that the foot of a sheet explains."""
    said = {stroke.plain for stroke in sheet.foot.strokes(1, 1) if isinstance(stroke, Text)}
    return tuple(sign for sign in Sign if sign.value in said)


@pytest.mark.parametrize("wanted", [LEAN, EVERYTHING], ids=["lean", "all"])
@pytest.mark.parametrize("name", examples())
def test_every_mark_is_a_sign_of_the_table_and_is_explained_where_it_stands(name, wanted):
    for sheet in packet(name, None, wanted).sheets:
        fills = {(stroke.ink, stroke.role) for stroke in sheet.strokes if isinstance(stroke, Fill)}
        assert fills <= set(TONES), (sheet.number, sheet.section)
        assert told(sheet) == signs_on(sheet.body), (sheet.number, sheet.section)


def test_the_marks_of_face_and_edge_are_explained_where_they_first_stand():
    for bound in (
        packet("print-chest", None, LEAN),
        packet("print-chest", None, EVERYTHING),
        packet_of(example("print-chest"), wanted=Wanted(chapters=("parts",))),
    ):
        first = next((sheet for sheet in bound.sheets if any(stroke.role is Role.REFERENCE for stroke in sheet.body)), None)
        assert (first is None) is ("Pictures of every part" not in {chapter.heading for chapter in bound.chapters})
        if first is not None:
            assert Sign.REFERENCE in told(first)


def test_fence_and_glue_have_signs_of_their_own():
    sheets = packet("print-chest", None, LEAN).sheets
    cards = [sheet for sheet in sheets if sheet.section == "Machine settings"]
    together = [sheet for sheet in sheets if sheet.section == "Putting it together"]
    assert all(Sign.WOOD not in told(sheet) for sheet in (*cards, *together))
    assert any(Sign.MACHINE in told(sheet) for sheet in cards)
    assert any(Sign.LAST in told(sheet) for sheet in cards)
    assert any(Sign.GLUE in told(sheet) for sheet in together)
