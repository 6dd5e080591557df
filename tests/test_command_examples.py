"""Every command line that a leaf or the README shows does what it says, alone in a demo shop."""

from __future__ import annotations

import re
import shlex
import shutil
from collections.abc import Iterator
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from site_builder.commands import main
from site_builder.places import CONTENT, DEMO_SHOP

LEAVES = sorted(path for path in CONTENT.glob("[0-9]*/[0-9]*.md"))
README = CONTENT.parent / "README.md"
OTHER = sorted(path for path in CONTENT.rglob("*.md") if path not in LEAVES)
LONG = ("build",)  # writes the whole handbook; the tests of the build do it
MADE = "my-shop"  # the README's shop: a copy of the demo shop, but where it is laid down


def blocks(text: str) -> Iterator[str]:
    """Give the command lines in the code blocks of a text; a backslash carries a line on."""
    found = "\n".join(re.findall(r"^```\w*\n(.*?)^```", text, re.MULTILINE | re.DOTALL))
    for line in found.replace("\\\n", " ").splitlines():
        if line.startswith("benchbinder "):
            yield line


def within(text: str) -> Iterator[str]:
    """Give the command lines that stand within a sentence."""
    yield from re.findall(r"(?<!`)`(benchbinder [^`\n]+)`", text)


def of_readme() -> Iterator[str]:
    """Give the command lines of the README, in the order in which they stand there."""
    text = README.read_text("utf-8")
    yield from re.findall(r"^\$ \.venv/bin/(benchbinder .*)$", text, re.MULTILINE)
    yield from within(text)


def examples(path: Path) -> list[str]:
    """Give all command lines of a leaf."""
    text = path.read_text(encoding="utf-8")
    return [*blocks(text), *within(text)]


ON_LEAVES = [(path.stem, line) for path in LEAVES for line in examples(path)]
SHOWN = [
    *(("README", line) for line in of_readme()),
    *((path.stem, line) for path in OTHER for line in examples(path)),
    *ON_LEAVES,
]
EXAMPLES = [
    pytest.param(line, id=f"{name}: {line[12:60]}")
    for line, name in {line: name for name, line in SHOWN}.items()  # each line once
    if shlex.split(line)[1] not in LONG
]


def commands(group: click.Group = main, before: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Give every command by its words, those of a group one by one."""
    for name, one in group.commands.items():
        if isinstance(one, click.Group):
            yield from commands(one, (*before, name))
        else:
            yield (*before, name)


def tables(shop: Path) -> dict[str, bytes]:
    """Give what a shop's files hold."""
    return {path.name: path.read_bytes() for path in (*shop.glob("*.csv"), *shop.glob("*.toml"))}


def test_there_are_examples():
    """The leaves show command lines, in blocks and in sentences, and so does the README."""
    assert len(ON_LEAVES) > 50
    assert any(list(within(path.read_text("utf-8"))) for path in LEAVES)
    assert len(list(of_readme())) > 20


@pytest.mark.parametrize("words", list(commands()), ids=" ".join)
def test_every_command_is_shown_on_a_leaf(words):
    """Some leaf has a line with this command, to type as it stands."""
    begins = ["benchbinder", *words]
    assert [line for _, line in ON_LEAVES if shlex.split(line)[: len(begins)] == begins]


@pytest.mark.parametrize("line", EXAMPLES)
def test_a_command_line_that_is_shown_works(line, tmp_path, monkeypatch):
    """Run in a copy of the demo shop it ends with exit code 0 and leaves a shop without a fault."""
    shop = tmp_path / "shop"
    shutil.copytree(DEMO_SHOP, shop)
    monkeypatch.chdir(shop)
    words = shlex.split(line)[1:]
    if MADE in words and words[0] != "start":
        shutil.copytree(DEMO_SHOP, MADE)
    before = tables(shop)
    done = CliRunner().invoke(main, words)
    asked = "--may" in words and done.exit_code == 1  # the answer is no, which is an answer
    assert done.exit_code == 0 or asked, f"{line}\n{done.output}\n{done.stderr}"
    if tables(shop) != before:
        assert CliRunner().invoke(main, ["check"]).exit_code == 0
