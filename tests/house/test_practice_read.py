"""Every figure in the practice table is read by some rule: a default that changes nothing misleads the maker who sets it."""

import ast

from joinlay.shop import LENGTH_RULES, RATIO_RULES
from tests.house.source import modules, nodes

TABLES = "joinlay/shop/practice.py"


def words_in_code():
    """Every text in the code outside the tables."""
    return {
        node.value
        for path, tree in modules().items()
        if path != TABLES
        for node in nodes(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


def test_every_figure_is_read_somewhere():
    words = words_in_code()
    # "end margin in " before a name that is filled in reads every figure that begins so.
    beginnings = tuple(word for word in words if word.endswith(" ") and len(word.split()) >= 2)
    names = [row.name for row in LENGTH_RULES] + [row.name for row in RATIO_RULES]
    unread = [name for name in names if name not in words and not name.startswith(beginnings)]
    assert unread == []
