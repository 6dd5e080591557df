"""What a build makes of the tables alone, in a process of its own while the leaves are read.

The scripts' functions and data, the labels and the templates need no leaf. The shop's own figures
are reckoned first and told, because a leaf shows them. Where no second process can be had, or it
fails, the same is made here.
"""

from __future__ import annotations

import contextlib
import json
import subprocess
import sys
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

    def figures(self) -> Figures:
        """Wait for the shop's own figures, and give what is told of them."""
        from formulas.jobs.own_figures import OwnFigure

        told = self.process.stdout.readline() if self.process and self.process.stdout else b""
        if not told.endswith(b"\n"):
            return {}
        return {
            name: {what: OwnFigure(**figure) for what, figure in figures.items()}
            for name, figures in json.loads(told).items()
        }

    def assets(self, catalog: Catalog) -> dict[str, str]:
        """Wait for it, and give the scripts among what it wrote."""
        if self.process is None or self.process.wait() != 0:
            write(catalog, self.folder)
        scripts = sorted((self.folder / "assets").glob("*.js"))
        return {path.name: path.read_bytes().decode() for path in scripts}


@contextlib.contextmanager
def begun(shop: Path, folder: Path) -> Iterator[Apart]:
    """Begin to write into a folder; what is still at work at the end is stopped."""
    process = None
    with contextlib.suppress(OSError):
        process = subprocess.Popen(
            [sys.executable, "-c", CODE, json.dumps(sys.path), str(shop.absolute()), str(folder)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
    try:
        yield Apart(process, folder)
    finally:
        if process is not None:
            process.kill()
            process.communicate()


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


def main(shop: str, folder: str) -> None:
    """Do the work of the other process, and tell the shop's own figures in a line of JSON."""
    settle()
    from formulas.catalog import load
    from formulas.jobs.own_figures import figures_of

    catalog = load(Path(shop))
    told = {
        name: {what: one.as_json() for what, one in figures.items()}
        for name, figures in figures_of(catalog).items()
    }
    sys.stdout.write(json.dumps(told) + "\n")
    sys.stdout.flush()
    write(catalog, Path(folder))
