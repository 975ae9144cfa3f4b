"""Changes made in a job's text: nothing else in it moves, and what does not help is not offered."""

import pytest

from joinlay.documents.job_file import JobTexts
from joinlay.documents.mending import Line, changed_lines, helps, mended, planned, tried
from joinlay.findings import Change, Finding, Harm
from joinlay.jobs.known import Known
from joinlay.lengths import mm

JOB = """# A chest.
units = "mm"          # bare numbers

[stock.oak]           # solid
nominal = "20"
kind = "solid"
species = "red oak"

[stock."ply.12"]
nominal = "12"

[drawers]
front = "oak"         # from the same board
sides = "ply.12"
bottom = "ply.12"
opening = { width = "400", height = "120", depth = "400" }

[[drawer]]            # the upper

[[drawer]]            # the lower
top-clearance = "0.8" # as usual

# the end
"""


@pytest.mark.parametrize(
    ("change", "before", "after"),
    [
        (Change("drawer", "top-clearance", "2", 1), 'top-clearance = "0.8" # as usual', 'top-clearance = "2" # as usual'),
        (Change("drawers", "bottom", "oak"), 'bottom = "ply.12"', 'bottom = "oak"'),
        (Change("stock.ply.12", "nominal", "9"), 'nominal = "12"', 'nominal = "9"'),
    ],
)
def test_one_line_changes_and_no_other(change, before, after):
    made = mended(JOB, [change])
    assert made == JOB.replace(before, after)
    (line,) = changed_lines(JOB, made)
    assert (line.before, line.after) == (before, after)
    assert made.splitlines()[line.number - 1] == after


@pytest.mark.parametrize(
    ("change", "header"),
    [
        (Change("stock.oak", "cut", "quarter"), "[stock.oak]           # solid"), (Change("drawers", "taper", "0"), "[drawers]"),
        (Change("drawer", "taper", "0", 0), "[[drawer]]            # the upper"),
        (Change("drawer", "taper", "0", 1), "[[drawer]]            # the lower"), (Change("use", "stands", "anchored"), "[use]"),
        (Change("pulls", "count", 1), "[pulls]"),
    ],
)  # fmt: skip
def test_a_new_key_stands_in_its_table(change, header):
    made = mended(JOB, [change])
    new = made.splitlines()
    for line in JOB.splitlines():
        assert line in new
    value = change.value if isinstance(change.value, int) else f'"{change.value}"'
    at = new.index(f"{change.key} = {value}")
    assert next(line for line in reversed(new[:at]) if line.startswith("[")) == header
    if header in JOB:
        # Above the comments that lead to the next table.
        assert not any(line.startswith("#") for line in new[new.index(header) : at])


def test_two_changes_are_made_together_and_carriage_returns_stay():
    text = JOB.replace("\n", "\r\n")
    made = mended(text, [Change("drawers", "taper", "0"), Change("stock.oak", "cut", "quarter")])
    assert 'taper = "0"\r\n' in made
    assert 'cut = "quarter"\r\n' in made
    assert "\n" not in made.replace("\r\n", "")


def test_lines_are_told_with_what_they_were():
    assert changed_lines("a\nb\nc\n", "a\nB\nc\nd\n") == (Line(2, "b", "B"), Line(4, "", "d"))
    assert changed_lines("a\n", "a\n") == ()


def found(kind, harm, where="drawer 1", what="It is so."):
    return Finding(kind, harm, where, what, {"by": mm(1)})


@pytest.mark.parametrize(
    ("after", "good"),
    [
        ([], True), ([found("fit", Harm.WARN)], False), ([found("fit", Harm.NOTE)], True), ([found("fit", Harm.REFUSE)], False),
        ([found("droop", Harm.WARN)], False), ([found("droop", Harm.REFUSE)], False), ([found("droop", Harm.NOTE)], True),
        ([found("sag", Harm.WARN)], True), ([found("sag", Harm.REFUSE)], False), ([found("sag", Harm.WARN, "drawer 2")], False),
    ],
)  # fmt: skip
def test_a_remedy_helps_where_its_finding_goes_and_nothing_as_bad_comes(after, good):
    mine = found("fit", Harm.WARN)
    assert helps(mine, [mine, found("sag", Harm.WARN)], after) is good


def test_a_refusal_may_leave_warnings_behind_it():
    refused = found("size", Harm.REFUSE)
    assert helps(refused, [refused], [found("sag", Harm.WARN)])


SWELLS = JOB.replace('sides = "ply.12"', 'sides = "ply.12"\ntop-clearance = "0.4"')


def test_what_breaks_another_thing_is_not_offered():
    """Room for this front to swell in is so much that the drawer droops; on the quarter, with some of that room, it does
    neither.
    """
    text = SWELLS.replace('height = "120"', 'height = "280"').replace('top-clearance = "0.8"', "")
    texts = JobTexts(text, "chest.toml")
    before = planned(texts)
    kept = {(f.kind, tuple(c.key for c in r.changes)) for f in tried(texts, before).findings for r in f.remedies}
    proposed = {(f.kind, tuple(c.key for c in r.changes)) for f in before.findings for r in f.remedies}
    assert ("wood movement", ("top-clearance",)) in proposed - kept
    assert ("wood movement", ("top-clearance", "cut")) in kept


@pytest.mark.parametrize(
    ("change", "is_new"),
    [
        (Change("use", "stands", "anchored"), (False, False)),
        (Change("shop", "glue.open-time", "3 min"), (True, True)),
        (Change("drawer", "front", "ply.12", 1), (False, True)),
    ],
)
def test_a_trial_finds_what_a_plan_from_the_start_finds_and_makes_only_what_changes(change, is_new):
    known = Known()
    first = planned(JobTexts(JOB, "chest.toml"), known)
    texts = JobTexts(mended(JOB, [change]), "chest.toml")
    tried_again, from_the_start = planned(texts, known), planned(texts)
    assert tried_again.findings == from_the_start.findings
    assert tried_again.boards == from_the_start.boards
    # The upper drawer's own board is the very one of the first plan, unless it is not what it was; then the lower one's.
    fronts = zip(first.drawers, tried_again.drawers, strict=True)
    assert tuple(one.front is not other.front for one, other in fronts) == is_new
