"""What a part is stands in its role; no name is taken apart, and no part or cut is known by what it is called."""

import ast
from functools import cache

import pytest

from tests.house.source import floors, modules, nodes

#: What a board, cut or assembly is called, for people.
SPOKEN = {"name", "part", "mate", "joint", "front"}

#: Ways to take words apart.
PARSING = {"split", "rsplit", "startswith", "endswith", "removeprefix", "removesuffix", "partition", "rpartition"}

#: How many lines of each floor still do so. The figures may only get smaller: a floor that is through with it keeps those that
#: are about names of other things, of printers, papers and files, and of what a maker writes, and a floor that isn't here has
#: none.
STILL = {
    "cli": 3,
    "documents": 15,
    "jobs": 1,
    "pages": 1,
    "paper": 1,
}


def is_spoken(node):
    """True for an attribute that is what a thing is called, and for a variable of that name."""
    if isinstance(node, ast.Attribute):
        return node.attr in SPOKEN
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        return node.func.attr in ("lower", "casefold", "strip") and is_spoken(node.func.value)
    return isinstance(node, ast.Name) and node.id in ("name", "part", "mate", "names")


def is_role(node):
    """True for a role, of which everything may be asked."""
    return (isinstance(node, ast.Attribute) and node.attr == "role") or (isinstance(node, ast.Name) and node.id == "role")


def is_words(node):
    """True for words written out, alone or several of them."""
    if isinstance(node, ast.Tuple | ast.List | ast.Set):
        return bool(node.elts) and all(is_words(one) for one in node.elts)
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value != ""
    )


def parses(node):
    """True for a call that takes a name apart, or asks for a board or cut by words."""
    if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute):
        return False
    if node.func.attr in ("board", "cut_named"):
        return bool(node.args) and is_words(node.args[0])
    return node.func.attr in PARSING and is_spoken(node.func.value)


def compares(node):
    """True where a name or a kind of part in words is compared with words, or words are looked for in it."""
    if not isinstance(node, ast.Compare):
        return False
    sides = [node.left, *node.comparators]
    part = any(isinstance(side, ast.Attribute) and side.attr in ("part", "mate") and not is_role(side.value) for side in sides)
    empty = any(isinstance(side, ast.Constant) and side.value in ("", None) for side in sides)
    return (part and not empty) or (any(map(is_spoken, sides)) and any(map(is_words, sides)))


@cache
def found():
    """Where that is done: ``module:line``, by floor."""
    by_floor: dict[str, list[str]] = {}
    for path, tree in modules().items():
        lines = {node.lineno for node in nodes(tree) if isinstance(node, ast.expr) and (parses(node) or compares(node))}
        by_floor.setdefault(path.split("/")[1], []).extend(f"{path}:{line}" for line in sorted(lines))
    return by_floor


@pytest.mark.parametrize("floor", floors())
def test_no_name_is_taken_apart(floor):
    assert len(found()[floor]) <= STILL.get(floor, 0), found()[floor]


def test_what_it_looks_for_is_found():
    """Each way of doing so that this has seen, and what is none."""
    bad = [
        'board.part == "stile"', "board.part in KINDS", '"screw" in cut.name', "slip.name.split()", 'drawer.board("front")',
        'name.removeprefix("case ")', 'board.name.lower().startswith("stops ")', "cut.mate == board.name",
    ]  # fmt: skip
    good = [
        "board.role == role",
        "board.name == other.name",
        "cut.role.mate == mate",
        "words.split()",
        'cut.mate != ""',
        "assembly.board(part)",
    ]
    for text in bad + good:
        expression = ast.parse(text, mode="eval").body
        assert (parses(expression) or compares(expression)) is (text in bad), text
