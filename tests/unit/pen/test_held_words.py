"""Words between large figures: how they are set, and that none of what belongs together is parted."""

from joinlay.lengths import Fraction
from joinlay.pen.held_words import held_lines
from joinlay.pen.lettering import plain, set_line

SAID = "1 × drawer 1 back: middles 31/32, 2 13/32 from bottom edge; each 15/32+ long, 5/32+ wide"


def lines(text, room):
    return held_lines(text, Fraction(room), Fraction(5), Fraction(7, 2))


def test_figures_are_large_and_the_words_and_the_name_are_not():
    ((line, high),) = lines(SAID, 400)
    assert high == 5
    assert plain(line) == SAID
    large = [plain((piece,)).strip() for piece in line if piece.height == 5]
    assert large == ["31/32, 2 13/32", "15/32+", "5/32+"]
    assert {piece.height for piece in line} == {Fraction(5), Fraction(7, 2)}


def test_no_line_is_longer_than_the_room_and_nothing_is_lost():
    for room in range(40, 200, 7):
        found = lines(SAID, room)
        assert all(set_line(line).width <= room for line, _ in found)
        assert " ".join(plain(line) for line, _ in found) == SAID


def test_a_figure_stays_with_the_words_it_goes_with():
    for room in range(56, 200, 3):
        for line, _ in lines(SAID, room):
            assert not plain(line).endswith(("middles", "each"))
            assert not plain(line).startswith(("long,", "wide"))


def test_a_line_of_words_is_led_a_little_more_than_its_letters_under_figures():
    (_, first), (words, second) = lines("stop 6 11/16 from far side of the cutter", 60)
    assert first == 5
    assert plain(words) == "side of the cutter"
    assert Fraction(7, 2) < second < 5
