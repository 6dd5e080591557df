"""What a build makes of the tables alone, in a process of its own while the leaves are read.

The scripts' functions and data, the labels and the templates need no leaf. The shop's own figures
are reckoned first and told, because a leaf shows them. The tables are read once: the other process
is given the catalog as this one has it. Where no second process can be had, or it fails, the same
is made here.
"""

from __future__ import annotations

import contextlib
import json
import pickle
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from site_builder.process import settle

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.own_figures import Figures

CODE = (
    "import json, sys; sys.path[:] = json.loads(sys.argv[1]);"
    "from site_builder import apart; apart.main(*sys.argv[2:])"
)
"""The other process finds the same modules as this one, wherever it stands."""


class Apart:
    """The work of the other process, which writes into a folder."""

    def __init__(self, process: subprocess.Popen[bytes] | None, folder: Path) -> None:
        self.process, self.folder = process, folder
        self.giving: threading.Thread | None = None

    def give(self, catalog: Catalog) -> None:
        """Hand it the catalog, for which it waits; it takes it once it has loaded what it needs."""
        if self.process is not None:
            data = pickle.dumps(catalog, pickle.HIGHEST_PROTOCOL)
            self.giving = threading.Thread(target=_put, args=(self.process, data), daemon=True)
            self.giving.start()

    def stop(self) -> None:
        """Stop what is still at work."""
        if self.process is not None:
            self.process.kill()
            if self.giving:
                self.giving.join()
            with contextlib.suppress(OSError), self.process:
                pass  # its pipes are closed, and it is waited for

    def figures(self) -> Figures:
        """Wait for the shop's own figures, and give what is told of them."""
        from formulas.jobs.own_figures import OwnFigure

        told = b""
        if self.process and self.process.stdout and self.giving:
            told = self.process.stdout.readline()
        if not told.endswith(b"\n"):
            return {}
        return {
            name: {what: OwnFigure(**figure) for what, figure in figures.items()}
            for name, figures in json.loads(told).items()
        }

    def assets(self, catalog: Catalog) -> dict[str, str]:
        """Wait for it, and give the scripts among what it wrote."""
        if self.giving is None:
            self.give(catalog)
        if self.process is None or self.process.wait() != 0:
            write(catalog, self.folder)
        scripts = sorted((self.folder / "assets").glob("*.js"))
        return {path.name: path.read_bytes().decode() for path in scripts}


@contextlib.contextmanager
def begun(folder: Path) -> Iterator[Apart]:
    """Begin to write into a folder; what is still at work at the end is stopped."""
    process = None
    with contextlib.suppress(OSError):
        process = subprocess.Popen(
            [sys.executable, "-c", CODE, json.dumps(sys.path), str(folder)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
    others = Apart(process, folder)
    try:
        yield others
    finally:
        others.stop()


def _put(process: subprocess.Popen[bytes], data: bytes) -> None:
    """Write all that a process reads; one that ended has no need of it."""
    with contextlib.suppress(OSError):
        assert process.stdin is not None
        with process.stdin as entry:
            entry.write(data)


def write(catalog: Catalog, folder: Path) -> None:
    """Write the scripts of the tables, the labels where the book asks for some, the templates."""
    from site_builder.paper import labels
    from site_builder.screen import site
    from site_builder.true_scale import document

    (folder / "assets").mkdir(exist_ok=True)
    for name, text in site.table_assets(catalog).items():
        (folder / "assets" / name).write_bytes(text.encode())
    of_book = labels.of_the_book(catalog)
    if of_book:
        (folder / "labels.pdf").write_bytes(labels.pdf(of_book, catalog))
    (folder / "templates.pdf").write_bytes(document.pdf(catalog))


def main(folder: str) -> None:
    """Do the work of the other process, and tell the shop's own figures in a line of JSON."""
    settle()
    from formulas.jobs.own_figures import figures_of

    catalog: Catalog = pickle.load(sys.stdin.buffer)
    told = {
        name: {what: one.as_json() for what, one in figures.items()}
        for name, figures in figures_of(catalog).items()
    }
    sys.stdout.write(json.dumps(told) + "\n")
    sys.stdout.flush()
    write(catalog, Path(folder))
