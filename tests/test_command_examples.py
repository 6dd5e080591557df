"""Every command line that a leaf shows does what it says, in the order of the leaves."""

from __future__ import annotations

import re
import shlex
import shutil

import pytest
from click.testing import CliRunner

from site_builder.commands import main
from site_builder.places import CONTENT, DEMO_SHOP

LEAVES = sorted(path for path in CONTENT.glob("[0-9]*/[0-9]*.md"))


def examples(path):
    """Give the command lines in the code blocks of a leaf; a backslash carries a line on."""
    text = path.read_text(encoding="utf-8")
    blocks = re.findall(r"^```\w*\n(.*?)^```", text, re.M | re.S)
    lines = "\n".join(blocks).replace("\\\n", " ").splitlines()
    return [line for line in lines if line.startswith("benchbinder ")]


EXAMPLES = [
    pytest.param(line, id=f"{path.stem}: {line[12:60]}")
    for path in LEAVES
    for line in examples(path)
]


def test_there_are_examples():
    """The leaves show command lines at all."""
    assert len(EXAMPLES) > 5


@pytest.mark.parametrize("line", EXAMPLES)
def test_a_command_line_of_a_leaf_works(line, tmp_path, monkeypatch):
    """Run in a copy of the demo shop it ends with exit code 0 and leaves a shop without a fault."""
    shop = tmp_path / "shop"
    shutil.copytree(DEMO_SHOP, shop)
    monkeypatch.chdir(shop)
    done = CliRunner().invoke(main, shlex.split(line)[1:])
    assert done.exit_code == 0, f"{line}\n{done.output}\n{done.stderr}"
    assert CliRunner().invoke(main, ["check"]).exit_code == 0
