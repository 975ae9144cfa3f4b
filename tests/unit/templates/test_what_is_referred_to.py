"""Every "see ..." leads to what it names: in the terminal, in JSON and on paper."""

import json
import re

import pytest

from joinlay.cutlist.cutting_list import cutting_list, row_remarks
from joinlay.documents.json_text import InWords
from joinlay.pen.lettering import plain
from joinlay.pen.marks import Line
from joinlay.settings import settings_for
from joinlay.settings.plain import settings_tree
from joinlay.templates.ends import templates_for
from joinlay.templates.story.story_sticks import story_sticks
from tests.measured.packets import example, examples
from tests.unit.templates.reading import texts

SEE = re.compile(r"\bsee (?!to\b|that\b)", re.IGNORECASE)


@pytest.mark.parametrize("name", examples())
def test_cuts_further_along_are_on_a_story_stick(name):
    plan = example(name)
    on_sticks = " ".join(stroke.says for stick in story_sticks(plan) for stroke in stick.strokes if isinstance(stroke, Line))
    cards = settings_for(plan.boards, plan.shop).settings
    on_cards = {board for card in cards for work in card.works if work.positions for board in work.boards}
    made = templates_for(plan.boards, plan.rule)
    assert made
    for template in made:
        said = " ".join(plain(text.content) for text in texts(template.strokes))
        known = said.count("see the story stick") + said.count("see its setting card")
        assert len(SEE.findall(said)) == known, f"{template.names}: {said} leads to nothing that is known here"
        if "see the story stick" in said:
            assert [part for part in template.names if part not in on_sticks] == []
        if "see its setting card" in said:
            assert set(template.names) <= on_cards


@pytest.mark.parametrize("name", examples())
def test_lists_findings_and_settings_refer_to_nothing_that_is_elsewhere(name):
    # What a part is like stands beside it: no list sends the maker to a sheet that may not be there.
    plan = example(name)
    said = InWords(plan.rule)
    told = [remark for row in cutting_list(plan).rows for remark in row_remarks(row, plan.rule.text)]
    told += [f"{finding.sentence(plan.rule.text)} {finding.way_out(plan.rule.text)}" for finding in plan.findings]
    told.append(json.dumps(settings_tree(settings_for(plan.boards, plan.shop), plan.rule, said.length)))
    assert len(told) > 3
    assert [one for one in told if SEE.search(one)] == []
