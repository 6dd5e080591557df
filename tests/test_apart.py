"""What a build makes beside the leaves: the same files from another process, or from this one."""

from __future__ import annotations

import contextlib
import sys
from pathlib import Path

import pytest

from formulas.catalog import load
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


def test_the_other_process_writes_the_same_bytes(here, tmp_path):
    """Nothing of what is written hangs on the process that wrote it."""
    with apart.begun(DEMO, tmp_path) as others:
        assert others.process is not None
        assert others.process.wait() == 0
        scripts = others.assets(load(DEMO))
    assert made(tmp_path) == here
    assert set(here) >= set(WRITTEN)
    assert {f"assets/{name}": text.encode() for name, text in scripts.items()} == {
        name: data for name, data in here.items() if name.endswith(".js")
    }


@pytest.mark.parametrize("trouble", ["it fails", "it cannot be started"])
def test_where_the_other_process_fails_it_is_made_here(trouble, here, tmp_path, monkeypatch):
    """The build is slower, and the same."""
    if trouble == "it fails":
        monkeypatch.setattr(apart, "CODE", "raise SystemExit(3)")
    else:
        monkeypatch.setattr(sys, "executable", str(tmp_path / "nowhere"))
    with apart.begun(DEMO, tmp_path) as others:
        others.assets(load(DEMO))
    assert made(tmp_path) == here


def test_a_fault_stops_the_other_process(tmp_path, monkeypatch):
    """Whatever is raised meanwhile, nothing goes on writing afterwards."""
    monkeypatch.setattr(apart, "CODE", "import time; time.sleep(600)")
    with contextlib.suppress(KeyError), apart.begun(DEMO, tmp_path) as others:
        process = others.process
        assert process is not None
        assert process.poll() is None
        raise KeyError
    assert process.poll() is not None
