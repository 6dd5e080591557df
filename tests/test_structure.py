"""Rules of the code that no linter knows, and the package as a stranger installs it."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import formulas
import site_builder
from site_builder.places import CONTENT
from site_builder.process import NEW_OBJECTS

ROOT = CONTENT.parent
CODE = sorted(
    path for package in (formulas, site_builder) for path in Path(package.__path__[0]).rglob("*.py")
)
GROUND = sorted(Path(formulas.__path__[0]).rglob("*.py"))


def imported(path):
    """Give the modules a file imports, wherever it does."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


def called(path):
    """Give the plain names a file calls, with their lines."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            yield node.func.id, node.lineno


@pytest.mark.parametrize("path", GROUND, ids=lambda path: path.name)
def test_the_ground_floor_does_not_show(path):
    """A module of formulas imports nothing of site_builder and prints nothing."""
    assert not [name for name in imported(path) if name.startswith("site_builder")]
    assert "print" not in dict(called(path))


def test_one_way_to_round_for_print():
    """Nothing but `printed` rounds for print; the one use of round() cleans a conversion."""
    uses = [(path.name, name) for path in CODE for name, _ in called(path) if name == "round"]
    assert uses == [("units.py", "round")]
    scripts = (Path(site_builder.__path__[0]) / "templates").rglob("*.js")
    assert not [
        path.name for path in scripts if re.search(r"toFixed|Math\.round", path.read_text())
    ]


@pytest.mark.parametrize(
    "words", [["mix", "beeswax-rosin-4-1", "--total", "400g"], ["soften", "beeswax-rosin-4-1"]]
)
def test_an_answer_loads_no_heavy_library(words):
    """A command that only answers imports neither pandas, nor typst, nor the page's libraries."""
    code = (
        "import sys; from site_builder.commands import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        "heavy = ('pandas', 'typst', 'markdown', 'jinja2', 'filelock')\n"
        "print([name for name in heavy if name in sys.modules])"
    )
    run = subprocess.run(
        [sys.executable, "-c", code, *words], capture_output=True, text=True, check=True
    )
    assert run.stdout.splitlines()[-1] == "[]"


def test_a_command_settles_its_process_before_it_loads_anything():
    """One thread for matrices is asked for before numpy, and cycles are looked for seldom."""
    code = (
        "import gc, os, sys; import site_builder.commands\n"
        "print(os.environ['OPENBLAS_NUM_THREADS'], 'numpy' in sys.modules, gc.get_threshold()[0])"
    )
    bare = {name: value for name, value in os.environ.items() if name != "OPENBLAS_NUM_THREADS"}
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=bare
    )
    assert run.stdout.split() == ["1", "False", str(NEW_OBJECTS)]


def test_another_package_of_our_name_is_told(tmp_path):
    """Where a stranger's `formulas` is found first, the command says so in one line."""
    (tmp_path / "formulas").mkdir()
    (tmp_path / "formulas" / "__init__.py").write_text("")
    run = subprocess.run(
        [sys.executable, "-c", "import site_builder.commands"],
        cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(tmp_path)},
        capture_output=True, text=True,
    )  # fmt: skip
    assert run.returncode == 1
    assert "another package named 'formulas'" in run.stderr
    assert "Traceback" not in run.stderr


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """The wheel, built from the checkout and unpacked where no checkout is in reach."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=ROOT, check=True, capture_output=True,
    )  # fmt: skip
    wheel = next(folder.glob("*.whl"))
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--no-index",
         "--target", str(folder / "site"), str(wheel)],
        check=True, capture_output=True,
    )  # fmt: skip
    return folder / "site"


def test_the_wheel_builds_the_handbook_from_anywhere(installed, tmp_path):
    """Installed and run from an empty folder, a build finds its tables, words and templates."""
    environment = {**os.environ, "PYTHONPATH": str(installed)}
    code = (
        "import sys, site_builder; print(site_builder.__path__[0])\n"
        "from site_builder.commands import main; main(['build', '--out', 'made'])"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, env=environment, capture_output=True, text=True
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    assert run.stdout.startswith(str(installed))
    assert (tmp_path / "made" / "index.html").is_file()
    assert (tmp_path / "made" / "binder.pdf").is_file()


def test_the_wheel_holds_every_table(installed):
    """No rule of .gitignore keeps a table out of the wheel."""
    tables = Path(formulas.__path__[0]) / "tables"
    assert {p.name for p in tables.iterdir()} == {
        p.name for p in (installed / "formulas" / "tables").iterdir()
    }


def test_the_top_level_holds_what_it_should():
    """Nothing stands at the top but the eight entries, dotfiles aside."""
    wanted = "DEVELOPERS.md README.md content formulas output pyproject.toml site_builder tests"
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found == set(wanted.split())


def test_the_readme_shows_what_the_command_prints():
    """The lines of the README's examples are lines that the commands print."""
    text = (ROOT / "README.md").read_text("utf-8")
    asked = r"(?:mix|adjust|melt|soften|stiffness|valves|seat|job|air|practice|who|record find) .*"
    pattern = r"```console\n\$ .venv/bin/benchbinder (" + asked + r")\n((?:.*\n)+?)```"
    for shown in re.findall(pattern, text):
        words = [word.strip('"') for word in re.findall(r'"[^"]*"|\S+', shown[0])]
        run = subprocess.run(
            [sys.executable, "-c", "from site_builder.commands import main; main()", *words],
            capture_output=True, text=True, check=True,
        )  # fmt: skip
        printed = " ".join((run.stdout + run.stderr).split())
        for line in shown[1].splitlines():
            assert line == "…" or " ".join(line.split()) in printed
