"""The end of a board laid flat."""

from joinlay.boards import CutKind, Place, Surface
from joinlay.lengths import mm
from tests.unit.templates.parts import back, back_dado, board, cut, face_mortise, front, groove, side
from tests.unit.templates.reading import flat


def named(net, name, on):
    return next(mouth for mouth in net.mouths if mouth.cut.name == name and mouth.on is on)


def test_a_side_is_laid_flat_as_face_and_end():
    net = flat(side(), Surface.END)
    assert net.surfaces == (Surface.END, Surface.FACE)
    assert (net.flap, net.far, net.outer, net.height) == (12, 0, -12, 100)
    assert net.panel(Surface.FACE, 70) == (0, 0, 70, 100)


def test_a_mortise_in_the_end_opens_there_and_lies_under_the_face():
    net = flat(side(), Surface.END)
    assert named(net, "mortise 1", Surface.END).box == (-8, 24, -4, 36)
    assert named(net, "mortise 1", Surface.END).centre == (-6, 30)
    under = named(net, "mortise 1", Surface.FACE)
    assert under.is_hidden
    assert under.box == (0, 24, 15, 36)


def test_a_groove_runs_out_at_the_end():
    net = flat(side(), Surface.END)
    assert named(net, "bottom groove", Surface.FACE).box == (0, 10, 400, 16)
    assert named(net, "bottom groove", Surface.END).box == (-6, 10, 0, 16)


def test_the_far_end_counts_from_itself():
    net = flat(side(), Surface.FAR_END)
    assert named(net, "dado", Surface.FACE).box == (6, 0, 12, 100)
    assert "mortise 1" not in {mouth.cut.name for mouth in net.mouths}


def test_a_rabbet_in_the_outside_face_brings_that_face_onto_the_paper():
    net = flat(back(), Surface.END)
    assert net.surfaces == (Surface.FAR_FACE, Surface.END, Surface.FACE)
    assert (net.flap, net.far) == (12, 14)
    assert named(net, "rabbet", Surface.FAR_FACE).box == (-18, 0, -12, 100)
    assert named(net, "rabbet", Surface.END).box == (-12, 0, -6, 100)
    assert named(net, "rabbet", Surface.FACE).is_hidden


def test_a_plain_flap_only_hooks_over_the_end():
    assert flat(front(), Surface.END).flap == 12  # of 18


def test_which_side_the_end_is_seen_on():
    assert flat(side(), Surface.END).hand == 1
    assert flat(side(), Surface.FAR_END).hand == -1
    # The front is seen from inside the drawer, so its left end lies right.
    assert flat(front(), Surface.END).hand == -1
    turned = Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", "+X")
    assert (
        flat(side(place=turned), Surface.END).hand
        == -flat(side(place=Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", "-X")), Surface.END).hand
    )


def test_an_end_with_nothing_near_it_has_no_net():
    far = cut(CutKind.DADO, Surface.FACE, (150, 160), (0, 100), (0, 5), "shelf dado")
    assert flat(board(cuts=(far,)), Surface.END) is None
    assert flat(board(), Surface.END) is None
    assert flat(board(cuts=(groove(),)), Surface.FAR_END) is not None


def test_a_groove_along_the_outside_face_is_shown_only_for_a_little_way():
    outside = cut(CutKind.GROOVE, Surface.FAR_FACE, (0, 400), (10, 16), (7, 12), "groove")
    assert flat(board(cuts=(outside,)), Surface.END).far == 48


def test_a_cut_in_the_other_half_of_a_short_part_is_marked_from_the_other_end_alone():
    short = board(length=90, cuts=(groove(length=90), back_dado(length=90), face_mortise(1, 30, depth=8)))
    assert [mouth.cut.name for mouth in flat(short, Surface.END).mouths if mouth.on is Surface.FACE] == [
        "bottom groove",
        "left mortise 1",
    ]
    assert [mouth.cut.name for mouth in flat(short, Surface.FAR_END).mouths if mouth.on is Surface.FACE] == [
        "bottom groove",
        "dado",
    ]
