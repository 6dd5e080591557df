"""Functions that the page's script shares are found by their names alone: none stands twice."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

import formulas

MARKS = {"formula", "procedure"}


def marked(path: Path) -> list[str]:
    """Give the names of the functions of a file that are marked as formula or procedure."""
    tree = ast.parse(path.read_text("utf-8"))
    return [
        node.name
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef)
        and any(
            isinstance(one, ast.Call) and isinstance(one.func, ast.Name) and one.func.id in MARKS
            for one in node.decorator_list
        )
    ]


def test_no_two_shared_functions_have_one_name() -> None:
    """A second function of one name would take the first one's place on every page."""
    folder = Path(formulas.__file__).parent
    names = Counter(name for path in folder.rglob("*.py") for name in marked(path))
    assert len(names) > 100
    assert [name for name, count in names.items() if count > 1] == []
