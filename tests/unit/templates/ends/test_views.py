"""How a part is laid down to be marked."""

from joinlay.boards import CutKind, Place, Shape, Surface
from joinlay.lengths import mm
from joinlay.templates import templates_for
from joinlay.templates.ends.net import views_of
from tests.unit.templates.parts import METRIC, board, cut, end_mortise, groove, side


def edge_mortise(surface, middle, across, name="rail mortise"):
    """A mortise 6 thick in an edge, 24 deep and 18 long, its middle ``middle`` from the reference end, 7 to 13 from the face."""
    return cut(CutKind.MORTISE, surface, (middle - 9, middle + 9), across, (7, 13), name, Shape.ROUND_ENDS)


def stile(*cuts, **more):
    return board("face frame left stile", "stile", length=860, width=40, thickness=20, cuts=cuts, **more)


def test_a_part_cut_from_its_face_and_ends_is_seen_as_it_is():
    assert views_of(side()) == ((Surface.FACE, side()),)
    assert views_of(board()) == ()


def test_a_mortise_in_an_edge_is_seen_with_that_edge_up():
    ((up, seen),) = views_of(stile(edge_mortise(Surface.EDGE, 50, (0, 24))))
    assert up is Surface.EDGE
    assert (seen.length, seen.width, seen.thickness) == (mm(860), mm(20), mm(40))
    assert (seen.datum.face, seen.datum.edge, seen.datum.end) == ("bottom edge", "inside face", "front end")
    (mortise,) = seen.cuts
    assert mortise.surface is Surface.FACE
    assert (mortise.across.start, mortise.across.stop) == (mm(7), mm(13))
    assert (mortise.into.start, mortise.into.stop) == (mm(0), mm(24))


def test_the_far_edge_is_measured_from_itself():
    ((up, seen),) = views_of(stile(edge_mortise(Surface.FAR_EDGE, 50, (16, 40))))
    assert up is Surface.FAR_EDGE
    assert seen.datum.face == "top edge"
    assert (seen.cuts[0].into.start, seen.cuts[0].into.stop) == (mm(0), mm(24))


def test_each_cut_is_on_one_view():
    deep, other = edge_mortise(Surface.EDGE, 50, (0, 24)), edge_mortise(Surface.FAR_EDGE, 90, (25, 40))
    views = views_of(stile(groove(), deep, other))
    assert [up for up, _ in views] == [Surface.FACE, Surface.EDGE, Surface.FAR_EDGE]
    face, low, high = (view for _, view in views)
    assert [cut.name for cut in face.cuts] == ["bottom groove"]
    assert [view.datum.face for view in (low, high)] == ["bottom edge", "top edge"]


def test_a_notch_is_no_mortise_and_stays_on_the_face():
    notch = cut(CutKind.SLOT, Surface.EDGE, (20, 60), (0, 6), (0, 20), "stop notch 1")
    assert views_of(stile(notch)) == ((Surface.FACE, stile(notch)),)


def test_which_hand_the_end_lies_at_follows_the_turn():
    # Seen with the reference edge up and the face down, the reference end changes hands; by way of the far edge it keeps it.
    low, high = edge_mortise(Surface.EDGE, 50, (0, 24)), edge_mortise(Surface.FAR_EDGE, 50, (16, 40))
    for into in ("-X", "+X"):
        placed = stile(low, high, place=Place.at(mm(0), mm(0), mm(0), "+Y", "+Z", into))
        (_, below), (_, above) = views_of(placed)
        assert below.end_on_left is not placed.end_on_left
        assert above.end_on_left is placed.end_on_left
    assert [view.end_on_left for _, view in views_of(stile(low, high))] == [False, True]


def test_a_point_of_the_wood_stays_where_it_is_in_the_piece():
    placed = stile(edge_mortise(Surface.FAR_EDGE, 50, (16, 40)), place=Place.at(mm(5), mm(7), mm(9), "+Z", "-X", "+Y"))
    ((_, seen),) = views_of(placed)
    assert seen.place
    assert placed.place
    # 50 along, 30 up from the reference edge and 10 in from the face; from the far edge that is 10 in.
    assert seen.place.point(mm(50), mm(10), mm(10)) == placed.place.point(mm(50), mm(30), mm(10))


def test_the_template_is_laid_on_the_edge_and_says_so():
    stiles = stile(edge_mortise(Surface.EDGE, 50, (0, 24)), edge_mortise(Surface.EDGE, 430, (0, 24), "middle rail mortise"))
    (template,) = templates_for([stiles], METRIC)
    assert template.title == "face frame left stile, front end, bottom edge"
    said = [stroke.plain for stroke in template.strokes if hasattr(stroke, "plain")]
    assert "bottom edge up" in said
    assert "more cuts further along: see the story stick" in " ".join(said)


def test_the_template_of_an_end_tells_of_cuts_in_an_edge_further_along():
    rail = board(
        "face frame bottom rail",
        "rail",
        width=40,
        thickness=20,
        cuts=(end_mortise(1, 20), edge_mortise(Surface.FAR_EDGE, 200, (16, 40))),
    )
    (template,) = templates_for([rail], METRIC)
    assert template.on == ""
    assert "see the story stick" in " ".join(stroke.plain for stroke in template.strokes if hasattr(stroke, "plain"))
