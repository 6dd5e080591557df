"""What a build makes beside the leaves: the same files from another process, or from this one."""

from __future__ import annotations

import contextlib
import subprocess
import sys
from pathlib import Path

import pytest

from formulas.catalog import load
from formulas.jobs import own_figures
from site_builder import apart
from site_builder.places import CONTENT

DEMO = CONTENT / "demo-shop"
WRITTEN = ["assets/bench.js", "assets/catalog.js", "assets/formulas.js", "templates.pdf"]


def made(folder: Path) -> dict[str, bytes]:
    """Give every file by its name."""
    found = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


@pytest.fixture(scope="module")
def here(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Write it in this process."""
    folder = tmp_path_factory.mktemp("here")
    apart.write(load(DEMO), folder)
    return made(folder)


def test_the_other_process_writes_the_same_bytes(tmp_path):
    """Nothing of what is written hangs on the process that wrote it, if both run as a command's.

    This one may not: with numpy at work in many threads the last digits are others.
    """
    code = (
        "from site_builder.process import settle; settle();"
        "import pathlib, sys; from formulas.catalog import load; from site_builder import apart;"
        "apart.write(load(pathlib.Path(sys.argv[1])), pathlib.Path(sys.argv[2]))"
    )
    one, other = tmp_path / "one", tmp_path / "other"
    one.mkdir()
    other.mkdir()
    subprocess.run([sys.executable, "-c", code, str(DEMO), str(one)], check=True)
    with apart.begun(other) as others:
        others.give(load(DEMO))
        assert others.process is not None
        assert others.process.wait() == 0
        scripts = others.assets(load(DEMO))
    files = made(one)
    assert made(other) == files
    assert set(files) >= set(WRITTEN)
    assert {f"assets/{name}": text.encode() for name, text in scripts.items()} == {
        name: data for name, data in files.items() if name.endswith(".js")
    }


@pytest.mark.parametrize("trouble", ["it fails", "it cannot be started"])
def test_where_the_other_process_fails_it_is_made_here(trouble, here, tmp_path, monkeypatch):
    """The build is slower, and the same."""
    if trouble == "it fails":
        monkeypatch.setattr(apart, "CODE", "raise SystemExit(3)")
    else:
        monkeypatch.setattr(sys, "executable", str(tmp_path / "nowhere"))
    with apart.begun(tmp_path) as others:
        others.assets(load(DEMO))  # which hands it the catalog where nobody did
    assert made(tmp_path) == here


def test_the_shops_own_figures_are_told_by_the_other_process(tmp_path):
    """To the last digit what is reckoned here, and only where they are asked for."""
    asked = load(DEMO)
    with apart.begun(tmp_path) as others:
        others.give(asked)
        own_figures.reckoned_elsewhere(asked, others.figures)
        told = own_figures.figures_of(asked)
    assert told == own_figures.figures_of(load(DEMO))
    assert all(len(figures) > 0 for figures in told.values())


@pytest.mark.parametrize("code", ["raise SystemExit(3)", "print('{', end='')"])
def test_figures_that_are_not_told_are_reckoned_here(code, tmp_path, monkeypatch):
    """Neither a process that fails nor one that ends in the middle of the line is believed."""
    monkeypatch.setattr(apart, "CODE", code)
    asked = load(DEMO)
    with apart.begun(tmp_path) as others:
        others.give(asked)
        assert others.figures() == {}
        own_figures.reckoned_elsewhere(asked, others.figures)
        assert own_figures.figures_of(asked) == own_figures.figures_of(load(DEMO))


def test_nobody_waits_for_figures_that_it_cannot_reckon_yet(tmp_path):
    """Before the catalog is handed over nothing is told, and the work goes on here."""
    with apart.begun(tmp_path) as others:
        assert others.figures() == {}


def test_a_build_itself_loads_no_pandas(tmp_path):
    """It takes longer to load than every figure to reckon; the other process loads it anyway."""
    code = (
        "import pathlib, sys; from site_builder import publish;"
        f"publish.publish(pathlib.Path({str(DEMO)!r}), pathlib.Path({str(tmp_path / 'out')!r}));"
        "print('loaded', 'pandas' in sys.modules)"
    )
    found = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert found.stdout.split("\n")[-2] == "loaded False"


def test_a_fault_stops_the_other_process(tmp_path, monkeypatch):
    """Whatever is raised meanwhile, nothing goes on writing afterwards."""
    monkeypatch.setattr(apart, "CODE", "import time; time.sleep(600)")
    with contextlib.suppress(KeyError), apart.begun(tmp_path) as others:
        process = others.process
        assert process is not None
        assert process.poll() is None
        raise KeyError
    assert process.poll() is not None
