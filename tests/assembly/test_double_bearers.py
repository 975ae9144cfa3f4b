"""A row parted by double bearers behind its mullions, each under two drawers, in place of partitions (RO-1)."""

import pytest

from joinlay.boards import DrawerRole, Hand, PartKind, PartRole
from joinlay.boards.meeting import unmet
from joinlay.checks.closing import check_moves
from joinlay.checks.solids import check_assembly
from joinlay.cutlist.fastenings import fasteners_of
from joinlay.findings import Harm
from joinlay.templates.drilling.runner_templates import runner_templates
from joinlay.templates.drilling.stop_templates import stop_templates
from joinlay.templates.story.story_sticks import sticks_of
from tests.assembly.existing_cases import ours, planned


def rows(*written, sides="ply", between="double bearer", **sizes):
    said = ", ".join(f'{{ drawers = {row}, between = "{between}" }}' if row > 1 else str(row) for row in written)
    return planned(ours(sides=sides, **{"width": "900", **sizes}).replace("drawers = 2\n", f"rows = [{said}]\n"))


def prove(plan):
    assert not plan.is_refused
    assert unmet(plan.meetings, plan.placed) == ()
    assert check_assembly([board for one in plan.others for board in one.boards], plan.drawers) == ()
    assert check_moves(plan.order.moves, plan.boards) == ()


@pytest.mark.parametrize("written", [(1, 3), (2, 1), (2,)], ids=str)
def test_they_are_assembled_and_every_drawer_drawn_out(written):
    plan = rows(*written)
    prove(plan)
    assert not [board for board in plan.boards if board.role.kind is PartKind.CASE_PARTITION]


def test_one_bearer_reaches_under_both_drawers_and_its_guide_is_as_wide_as_the_mullion():
    plan = rows(1, 2)
    double = plan.placed[PartRole(PartKind.BEARER, DrawerRole(2), Hand.RIGHT)]
    guide = plan.placed[PartRole(PartKind.GUIDE, DrawerRole(2), Hand.RIGHT)]
    mullion = plan.placed[PartRole(PartKind.MULLION, DrawerRole(2))]
    own = plan.placed[PartRole(PartKind.BEARER, DrawerRole(2), Hand.LEFT)]
    outer = plan.placed[PartRole(PartKind.GUIDE, DrawerRole(2), Hand.LEFT)]
    assert guide.width == mullion.width
    # Under each drawer as much as at its other side, and the mullion between.
    assert double.width == mullion.width + 2 * (own.width - outer.width)
    assert PartRole(PartKind.BEARER, DrawerRole(3), Hand.LEFT) not in plan.placed
    assert {met.one.drawer for met in plan.meetings if met.other == double.role and met.one.kind is PartKind.DRAWER_SIDE} == {
        DrawerRole(2),
        DrawerRole(3),
    }
    (held,) = (met for met in plan.meetings if met.one == double.role and met.fasteners)
    assert held.other.kind is PartKind.CASE_BOTTOM
    assert held.fastener.length.mm < double.thickness.mm + mm_of_panel(plan)
    assert any(one.into is PartKind.CASE_BOTTOM for one in fasteners_of(plan))


def mm_of_panel(plan):
    return plan.placed[PartRole(PartKind.CASE_BOTTOM)].thickness.mm


def test_over_a_dust_panel_only_the_guide_is_left():
    plan = rows(2, 1)
    assert PartRole(PartKind.BEARER, DrawerRole(1), Hand.RIGHT) not in plan.placed
    assert PartRole(PartKind.GUIDE, DrawerRole(1), Hand.RIGHT) in plan.placed
    # Nothing stands under that panel in the middle of the row, and how far it sags there is told.
    assert [one.where for one in plan.findings if one.kind == "panel sag"] == ["case dust panel under drawers 1 and 2"]


def test_templates_and_sticks_are_measured_from_wood_that_is_there():
    plan = rows(1, 2)
    named = {name for one in runner_templates(plan) for name in (*one.names, *one.turned)}
    assert {"drawer 2 left runner", "drawer 3 right runner"} <= named
    assert not {"drawer 2 right runner", "drawer 3 left runner"} & named
    assert stop_templates(plan)
    across = [one for stick in sticks_of(plan) if stick.measures == "widths" for one in stick.stretches]
    assert "runners drawer 2 right guide" in {one.part for one in across}
    blocks = stop_templates(rows(2, 1))
    assert any("edge of the guide" in str(one.strokes) for one in blocks)


def test_in_a_solid_case_they_are_refused_with_what_works():
    plan = rows(1, 2, sides="ash")
    (refused,) = [one for one in plan.findings if one.harm is Harm.REFUSE]
    assert 'between = "partition"' in refused.way_out(plan.rule.text)
    assert not rows(1, 2, sides="ash", between="partition").is_refused


def test_what_parts_a_row_of_one_is_said_to_be_too_much():
    with pytest.raises(Exception, match=r"desk.toml:\d+: .*between is what parts drawers side by side, and this row has one"):
        planned(ours().replace("drawers = 2\n", 'rows = [{ drawers = 1, between = "partition" }]\n'))


def test_where_it_would_stand_over_the_case_bottom_that_is_moved_up_by_as_much_as_is_said():
    text = ours(width="900", height="500").replace("drawers = 2\n", 'rows = [1, { drawers = 2, between = "double bearer" }]\n')
    low = text.replace('panels = "ply"\n', 'panels = "ply"\nbottom-offset = "7"\n')
    (refused,) = [one for one in planned(low).findings if one.harm is Harm.REFUSE]
    (change,) = [change for remedy in refused.remedies for change in remedy.changes]
    assert (change.table, change.key) == ("case", "bottom-offset")
    prove(planned(low.replace('bottom-offset = "7"', f'bottom-offset = "{change.value}"')))
