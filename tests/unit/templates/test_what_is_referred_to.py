"""Every "see ..." leads to what it names: in the terminal, in JSON and on paper."""

import json
import re
from functools import cache

import pytest

from joinlay.cutlist.cutting_list import cutting_list, row_remarks
from joinlay.documents.json_text import InWords
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.pen.lettering import plain
from joinlay.pen.marks import Line
from joinlay.settings.plain import settings_tree
from joinlay.templates.ends import templates_for
from joinlay.templates.story.story_sticks import story_sticks
from tests.measured.packets import example, examples
from tests.odd_pieces import SOUND, sound_piece
from tests.unit.templates.reading import texts

#: Pieces of kinds that no example is: what their templates and lists say leads somewhere too.
KINDS = ("rows", "double bearers", "loose shelves", "toe recess", "shaped lock", "rabbets and nails")


@cache
def planned(name):
    """The plan of an example, or of a piece of some kind."""
    return plan(read_job(sound_piece(SOUND[name]), "piece.toml")) if name in KINDS else example(name)


SEE = re.compile(r"\bsee (?!to\b|that\b)", re.IGNORECASE)


@pytest.mark.parametrize("name", [*examples(), *KINDS])
def test_cuts_further_along_are_on_a_story_stick(name):
    made = planned(name)
    on_sticks = " ".join(stroke.says for stick in story_sticks(made) for stroke in stick.strokes if isinstance(stroke, Line))
    cards = made.settings.settings
    on_cards = {board for card in cards for work in card.works if work.positions for board in work.boards}
    templates = templates_for(made.boards, made.rule)
    assert templates
    for template in templates:
        said = " ".join(plain(text.content) for text in texts(template.strokes))
        known = said.count("see the story stick") + said.count("see its setting card")
        assert len(SEE.findall(said)) == known, f"{template.names}: {said} leads to nothing that is known here"
        if "see the story stick" in said:
            assert [part for part in template.names if part not in on_sticks] == []
        if "see its setting card" in said:
            assert set(template.names) <= on_cards


@pytest.mark.parametrize("name", [*examples(), *KINDS])
def test_lists_findings_and_settings_refer_to_nothing_that_is_elsewhere(name):
    # What a part is like stands beside it: no list sends the maker to a sheet that may not be there.
    made = planned(name)
    said = InWords(made.rule)
    told = [remark for row in cutting_list(made).rows for remark in row_remarks(row, made.rule.text)]
    told += [f"{finding.sentence(made.rule.text)} {finding.way_out(made.rule.text)}" for finding in made.findings]
    told.append(json.dumps(settings_tree(made.settings, made.rule, said.length)))
    assert len(told) > 3
    assert [one for one in told if SEE.search(one)] == []
