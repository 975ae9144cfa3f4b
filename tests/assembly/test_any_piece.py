"""Pieces drawn at random over stock, joints, taper, graduation and units: each assembles, or is refused with what would work."""

from __future__ import annotations

from hypothesis import event, given, settings

from joinlay.findings import Refused
from tests.assembly.any_piece import specs
from tests.assembly.pieces import tried, way_out
from tests.assembly.solids import prove_assembled


@settings(max_examples=200)
@given(specs())
def test_a_piece_that_is_not_refused_assembles(drawn):
    spec, own = drawn
    made = tried(spec, own)
    if isinstance(made, Refused):
        event(f"refused: {made.finding.kind}")
        assert way_out(made, own)
    else:
        event("made")
        prove_assembled(made)
