"""Every remedy is tried: made in the job, its finding is gone and nothing as bad is new. Over all examples, and jobs drawn by
fixed seeds.
"""

import tomllib
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from joinlay.documents import mending
from joinlay.documents.job_file import JobTexts, texts_of
from joinlay.documents.json_text import InWords
from joinlay.findings import Harm
from joinlay.lengths import read_length
from tests.odd_jobs import odd_job, odd_whole

ROOT = Path(__file__).parents[2]
JOBS = sorted((*ROOT.glob("examples/*.toml"), *ROOT.glob("tests/openings/*.toml")))
SEEDS = range(160)
#: What must be among the remedies of the jobs drawn, each by its kind of finding and its keys: so many ways are tried at least.
SEEN = {
    ("bottom sag", "bottom"),
    ("bottom sag", "groove-offset"),
    ("case movement", "back-gap"),
    ("droop", "side-height"),
    ("droop", "top-clearance"),
    ("fit", "side-clearance"),
    ("fit", "top-clearance"),
    ("groove depth", "groove-depth"),
    ("groove offset", "groove-offset"),
    ("racking", "pull-share"),
    ("racking", "two-pulls-from"),
    ("side play", "taper"),
    ("side play", "side-clearance"),
    ("tipping", "stands"),
    ("wood movement", "back-height"),
    ("wood movement", "cut"),
    ("wood movement", "top-clearance"),
    ("wood movement", "top-clearance cut"),
}


def at(findings, mildest=Harm.WARN):
    """Where something is refused or warned of, or only told of if that is asked for: kind, sentence and part."""
    return {(one.kind, one.what, part): one.harm for one in findings if one.harm <= mildest for part in one.about}


def prove(texts, worked_out, planned):
    """Make each remedy of each finding by itself; the kinds of findings and keys that were mended."""
    for finding in worked_out.findings:
        for remedy in finding.remedies:
            text = mending.mended(texts.text, remedy.changes)
            written = tomllib.loads(text)
            for change in remedy.changes:
                table = written
                for name in change.table.split(".", 1):
                    table = table[name]
                row = table if change.index is None else table[change.index]
                assert row[change.key] == change.value
            then = planned(replace(texts, text=text)).findings
            before, after = at(worked_out.findings), at(then)
            # What is only good to know may have a remedy too, and is then not told any more.
            mine = at([finding], max(finding.harm, Harm.WARN))
            assert mine
            assert not mine.keys() & at(then, max(finding.harm, Harm.WARN)).keys()
            new = {place for place, harm in after.items() if harm <= finding.harm and before.get(place, Harm.NOTE) > harm}
            assert not new, (texts.text, remedy)
            yield finding.kind, " ".join(dict.fromkeys(change.key for change in remedy.changes))


@pytest.mark.parametrize("path", JOBS, ids=[path.stem for path in JOBS])
def test_every_remedy_of_the_examples_helps(path):
    texts = texts_of(path)
    found = list(prove(texts, mending.tried(texts, mending.planned(texts)), mending.planned))
    is_loose = "examples" in path.parts and 'stands = "anchored"' not in texts.text
    assert found == [("tipping", "stands")] * is_loose


def test_every_remedy_of_many_jobs_helps(monkeypatch):
    by_text = cache(lambda text: PLANNED(JobTexts(text, "odd.toml")))
    monkeypatch.setattr(mending, "planned", lambda texts, known=None: by_text(texts.text))
    seen: Counter[tuple[str, str]] = Counter()
    for seed in SEEDS:
        texts = JobTexts(odd_job(seed), "odd.toml")
        seen.update(prove(texts, mending.tried(texts, mending.planned(texts)), mending.planned))
    assert seen.keys() >= SEEN, SEEN - seen.keys()
    assert seen.total() > 180


PLANNED = mending.planned

#: Seeds of whole pieces that between them have the remedies which drawers alone never need.
WHOLE = (9, 24, 30, 33, 48, 70, 84, 107, 120, 127, 146, 184)
SEEN_OF_WHOLE = {
    ("base", "set-back"),
    ("case movement", "back"),
    ("drawer size", "taper"),
    ("droop", "kicker-lift"),
    ("pull", "depth"),
    ("racking", "count"),
    ("racking", "share"),
    ("runner wear", "guides"),
    ("runner wear", "kickers"),
    ("shelves", "pin-spacing"),
    ("short grain", "back-set-in"),
    ("side height", "side-height"),
    ("stop block", "groove-offset"),
}


def test_every_remedy_of_whole_pieces_helps(monkeypatch):
    """Rows, open bays and shelves, tops and bases, scribed stiles, series, planed drawers; three hundred of them were tried."""
    by_text = cache(lambda text: PLANNED(JobTexts(text, "odd.toml")))
    monkeypatch.setattr(mending, "planned", lambda texts, known=None: by_text(texts.text))
    seen: set[tuple[str, str]] = set()
    for seed in WHOLE:
        texts = JobTexts(odd_whole(seed), "odd.toml")
        seen.update(prove(texts, mending.tried(texts, mending.planned(texts)), mending.planned))
    assert seen >= SEEN_OF_WHOLE, SEEN_OF_WHOLE - seen


@pytest.mark.parametrize("seed", range(0, 160, 16))
def test_what_is_asked_for_can_be_set_and_is_said(seed):
    """A length lies on the maker's rule, the sentence has each remedy, and JSON has its table, key and value."""
    texts = JobTexts(odd_job(seed), "odd.toml")
    worked_out = mending.planned(texts)
    rule, said = worked_out.rule, InWords(worked_out.rule)
    for finding in worked_out.findings:
        told = said.finding(finding)
        assert len(told["remedies"]) == len(finding.remedies)
        for remedy, tree in zip(finding.remedies, told["remedies"], strict=True):
            assert tree["text"][1:] in told["remedy"]
            assert [one["value"] for one in (tree, *tree["and"])] == [c.value for c in remedy.changes]
            for change in remedy.changes:
                if (change.table in ("drawers", "drawer", "bank") and "clearance" in change.key) or change.key.startswith(
                    "groove"
                ):
                    assert not rule.read(read_length(str(change.value), worked_out.unit)).left_over
