"""Every public thing says what it is; on the floors of the trade it names its rule, or says that there is none."""

import ast

import pytest

from tests.house.rules import rule_numbers, rules_named_in
from tests.house.source import functions_and_classes, modules, modules_of

#: Floors whose functions hold trade rules.
TRADE_FLOORS = ("joints", "casework", "checks")


@pytest.mark.parametrize("path", modules())
def test_modules_and_public_things_have_docstrings(path):
    tree = modules()[path]
    assert len(ast.get_docstring(tree) or "") > 15, f"{path} says too little of itself"
    silent = [node.name for node, _ in functions_and_classes(tree) if not ast.get_docstring(node)]
    assert silent == []


def names_a_rule(text):
    """True where a docstring names a trade rule, or says in so many words that none applies."""
    return bool(rules_named_in(text)) or "no rule" in text.casefold()


def test_functions_on_the_floors_of_the_trade_name_their_rule():
    silent = []
    for path, tree in modules_of(*TRADE_FLOORS).items():
        for node, within in functions_and_classes(tree):
            if isinstance(node, ast.FunctionDef):
                said = (ast.get_docstring(node) or "") + ((ast.get_docstring(within) or "") if within else "")
                # What a value says of itself (a property, a method of a plain record) needs no rule of its own.
                if within is None and not names_a_rule(said):
                    silent.append(f"{path}:{node.lineno}: {node.name}")
    assert silent == []


def test_every_rule_named_in_the_code_is_one_that_exists():
    unknown = {
        f"{path}: {rule}"
        for path, tree in modules().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
        for rule in rules_named_in(node.value) - rule_numbers()
    }
    assert unknown == set()


def test_the_list_of_rules_is_whole():
    counts = {kind: sum(rule.startswith(f"{kind}-") for rule in rule_numbers()) for kind in {rule[:2] for rule in rule_numbers()}}
    assert all(f"{kind}-{n}" in rule_numbers() for kind, count in counts.items() for n in range(1, count + 1))
    assert rules_named_in("by LT-7 to LT-9 and MS-2 (EN 315, UTF-8)") == {"LT-7", "LT-8", "LT-9", "MS-2"}
