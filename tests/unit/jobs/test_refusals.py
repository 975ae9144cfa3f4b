"""What a rule refuses, each by its own fault: the remedies that a program can make are there, and each of them helps."""

import ast
from pathlib import Path

import pytest

from joinlay.documents import mending
from joinlay.documents.job_file import JobTexts
from joinlay.findings import Harm
from tests.odd_pieces import FAULTS, odd_piece, sound_piece

FLOORS = [Path(__file__).parents[3] / "joinlay" / floor for floor in ("casework", "joints")]


@pytest.mark.parametrize("fault", FAULTS)
def test_a_refusal_has_the_remedies_that_help_and_no_others(fault):
    _, kind, keys = FAULTS[fault]
    texts = JobTexts(odd_piece(fault), "odd.toml")
    before = mending.planned(texts)
    tried = mending.tried(texts, before)
    refused = [finding for finding in tried.findings if finding.harm is Harm.REFUSE]
    assert refused[0].kind == kind
    assert tuple(" ".join(f"{one.table}.{one.key}" for one in remedy.changes) for remedy in refused[0].remedies) == keys
    said = refused[0].way_out(before.rule.text)
    for remedy in refused[0].remedies:
        assert all(f'{one.key} = "{one.value}" under [' in remedy.text for one in remedy.changes)
        assert refused[0].in_words(remedy, before.rule.text)[1:] in said


@pytest.mark.parametrize(
    ("changed", "kind"),
    [
        pytest.param({"drawers.taper": "-1/16"}, "drawer size", id="widens by both clearances"),
        pytest.param({"case.height": "6 1/2", "drawers.front-joint": "nailed butt"}, "guide", id="guides as high as the opening"),
        pytest.param({"case.width": "5 1/2"}, "runners", id="two stop seats between the bearers"),
    ],
)
def test_on_the_limit_itself_nothing_is_refused(changed, kind):
    found = mending.planned(JobTexts(sound_piece(changed), "odd.toml")).findings
    assert not [finding for finding in found if finding.harm is Harm.REFUSE and finding.kind == kind]


#: Refusals in whose place a program can set nothing, by their first words.
IN_WORDS = (
    # It takes another tool, or wood that the job doesn't know of.
    "The shop has no cutter that makes both",
    "A cutter that makes both halves",
    "the shop has no cutter",
    "No cutter of the shop",
    "A {} {width} wide needs a cutter",
    "The {cutter} cutter is wider",
    "A tenon {width} wide is over",
    "The shop has no tenons.",
    "The mortise in the face may be",
    "A tenon {length} long",
    "The {cutter} cutter leaves {cutter}",
    "No step of the mortiser's fence",
    "A tenon {wanted} wide is wanted",
    "The mortises after",
    # Two figures that can't belong together: which of them is the slip?
    "A panel {panel} thick",
    # There is no end to what would do, and only the maker knows how large the piece may be, or how many they want.
    "The {} alone take",
    "The opening of",
    "The mullions alone",
    "The shelves alone",
    "The {} would be {left}",
    "{} would be {left}",
    "front and back leave",
    # Added by what calls it, which knows the figure's name.
    "A {} {depth} deep leaves too",
    # A row within a row of the file, or a drawing.
    "A double bearer lies across",
    "A lipping {height} high",
    "The bands take",
    "The {} (",
    "The {} is to be cut",
)


def refusals():
    """Each refusal of the joints and the casework: its first words, and whether remedies go with it."""
    for floor in FLOORS:
        for path in sorted(floor.rglob("*.py")):
            for scope in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(scope, ast.FunctionDef):
                    yield from _refusals_of(scope)


def _refusals_of(scope):
    calls = [node for node in ast.walk(scope) if isinstance(node, ast.Call)]
    made = [node for node in calls if isinstance(node.func, ast.Name) and node.func.id == "refusal"]
    # What carries remedies on: ``refusal(...).by(...)``, or one that was given a name first.
    further = [node for node in calls if made and _carries(node)]
    inside = {id(node) for one in further for node in ast.walk(one)}
    named = {node.id for one in further for node in ast.walk(one) if isinstance(node, ast.Name)}
    given = {
        at.id: node for node in ast.walk(scope) if isinstance(node, ast.Assign) for at in node.targets if isinstance(at, ast.Name)
    }
    for call in made:
        names = {name for name, node in given.items() if any(inner is call for inner in ast.walk(node))}
        yield _words(call.args[1], given), id(call) in inside or bool(names & named)


def _carries(call):
    attribute = call.func.attr if isinstance(call.func, ast.Attribute) else ""
    return attribute == "by" or "remed" in attribute or any(keyword.arg == "remedies" for keyword in call.keywords)


def _words(node: ast.expr, given: dict[str, ast.Assign]) -> str:
    """The sentence that a refusal begins with, as it stands in the code; what is put in by braces is left open."""
    if isinstance(node, ast.Name):
        return _words(given[node.id].value, given)
    if isinstance(node, ast.BinOp):
        return _words(node.left, given)
    if isinstance(node, ast.JoinedStr):
        return "".join(str(part.value) if isinstance(part, ast.Constant) else "{}" for part in node.values)
    assert isinstance(node, ast.Constant)
    return str(node.value)


def test_what_has_words_only_is_known():
    """A new refusal comes with a change to the job, or with a reason why none would do."""
    found = list(refusals())
    assert len(found) > 60
    bare = {words for words, mended in found if not mended}
    assert [words for words in bare if not words.startswith(IN_WORDS)] == []
    assert [start for start in IN_WORDS if not any(words.startswith(start) for words in bare)] == []
