"""The paper a job may name is the paper there is."""

from joinlay.jobs.parts.paper import PAPERS, usual_paper
from joinlay.lengths import Unit
from joinlay.pages.paper import PAPERS as SHEETS


def test_a_job_may_name_every_sheet_and_no_other():
    # The floor of the jobs may not look up to the pages, so the names stand twice; this holds them together.
    assert sorted(PAPERS) == sorted(SHEETS)
    assert {usual_paper(unit) for unit in Unit} <= set(SHEETS)
