"""Every public thing says what it is; whatever applies a trade rule names it."""

import ast

import pytest

from joinlay.shop import LENGTH_RULES, RATIO_RULES
from tests.house.rules import rule_numbers, rules_named_in
from tests.house.source import functions_and_classes, modules, modules_of, nodes, paths

#: Floors whose functions apply trade rules.
TRADE_FLOORS = ("assembly", "stock", "shop", "joints", "casework", "checks", "jobs", "cutlist")

#: The rules behind each figure of the practice tables: who reads the figure applies them.
RULES_OF_FIGURES = {
    **{row.name: rules_named_in(row.rule) for row in LENGTH_RULES},
    **{row.name: rules_named_in(row.rule) for row in RATIO_RULES},
}


@pytest.mark.parametrize("path", paths())
def test_modules_and_public_things_have_docstrings(path):
    tree = modules()[path]
    assert len(ast.get_docstring(tree) or "") > 15, f"{path} says too little of itself"
    silent = [node.name for node, _ in functions_and_classes(tree) if not ast.get_docstring(node)]
    assert silent == []


def texts_in(function):
    """Every text in a function but its docstrings, which are texts that stand by themselves."""
    alone = {id(node.value) for node in ast.walk(function) if isinstance(node, ast.Expr)}
    return {
        node.value
        for node in ast.walk(function)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in alone
    }


def rules_applied(tree, function):
    """The rules that a function names in its code or whose figures it reads, itself or by private functions of its module."""
    private = {node.name: node for node in tree.body if isinstance(node, ast.FunctionDef) and node.name.startswith("_")}
    met: set[str] = set()
    rules: set[str] = set()
    todo = [function]
    while todo:
        one = todo.pop()
        for text in texts_in(one):
            rules |= rules_named_in(text) | RULES_OF_FIGURES.get(text, set())
        called = {node.id for node in ast.walk(one) if isinstance(node, ast.Name) and node.id in private}
        todo += [private[name] for name in called - met]
        met |= called
    return rules


def test_functions_that_apply_a_rule_name_one():
    silent = [
        f"{path}:{node.lineno}: {node.name} applies {', '.join(sorted(rules))}"
        for path, tree in modules_of(*TRADE_FLOORS).items()
        for node, within in functions_and_classes(tree)
        if isinstance(node, ast.FunctionDef) and within is None and (rules := rules_applied(tree, node))
        if not rules_named_in(ast.get_docstring(node) or "")
    ]
    assert silent == []


def test_a_rule_is_found_wherever_it_is_applied():
    written = """
def by_name(length):
    "It names CK-1 in what is said of it only."
    return length.named("width", "DR-1", "common practice")

def by_figure(practice):
    return practice.length("tenon wall")

def by_another(board):
    return _inner(board)

def _inner(board):
    return _innermost(board)

def _innermost(board):
    return note("a note", "...", "CK-6")

def by_nothing(board):
    "No rule here, only LT-1 in words."
    return board
"""
    tree = ast.parse(written)
    found = {node.name: rules_applied(tree, node) for node, _ in functions_and_classes(tree)}
    assert found == {"by_name": {"DR-1"}, "by_figure": {"LT-2"}, "by_another": {"CK-6"}, "by_nothing": set()}


def test_every_rule_named_in_the_code_is_one_that_exists():
    unknown = {
        f"{path}: {rule}"
        for path, tree in modules().items()
        for node in nodes(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
        for rule in rules_named_in(node.value) - rule_numbers()
    }
    assert unknown == set()


def test_the_list_of_rules_is_whole():
    counts = {kind: sum(rule.startswith(f"{kind}-") for rule in rule_numbers()) for kind in {rule[:2] for rule in rule_numbers()}}
    assert all(f"{kind}-{n}" in rule_numbers() for kind, count in counts.items() for n in range(1, count + 1))
    assert rules_named_in("by LT-7 to LT-9 and MS-2 (EN 315, UTF-8)") == {"LT-7", "LT-8", "LT-9", "MS-2"}
