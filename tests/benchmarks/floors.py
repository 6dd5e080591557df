"""One piece of work in a fresh process: ours, or what the bare libraries take for the same leaves.

    python tests/benchmarks/floors.py lay FOLDER     write down what the floors begin from
    python tests/benchmarks/floors.py WORK FOLDER    do it once, and print the seconds it took

What is imported counts for none of them. The floors do the unavoidable: Markdown reads the
leaves and Jinja2 fills one template for each; Typst sets the same leaves without contents, heads
and cross-references. Of the Markdown there are two: the texts as they are written, in which a
part is a line, and the leaves as they are read, in which it is the table that it places.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import jinja2
import markdown
import typst
from spelt_out import spelt_out

from formulas.catalog import load
from site_builder import content, publish
from site_builder.paper import binder
from site_builder.paper.typesetting import compiled
from site_builder.paper.typst_writer import Writer
from site_builder.places import CONTENT
from site_builder.process import settle
from site_builder.screen import site

PAGE = jinja2.Template("<!doctype html><title>{{ title }}</title>{{ body }}", autoescape=True)
DEMO = CONTENT / "demo-shop"
CODE, WHOLE = "leaves.typ", "binder.typ"
INDEX = "index-of-words"  # the slug of its leaf


def lay(folder: Path) -> None:
    """Write down the leaves, as Markdown in two ways and as Typst code."""
    handbook = content.read(load(DEMO))
    trees = [handbook.front, *(leaf.tree for leaf in handbook.leaves)]
    ways = {
        "written": [path.read_text("utf-8") for path in sorted(CONTENT.rglob("*.md"))],
        "read": [spelt_out(tree) for tree in trees],
    }
    for way, texts in ways.items():
        (folder / way).mkdir()
        for place, text in enumerate(texts):
            (folder / way / f"{place:03}.md").write_text(text, "utf-8")
    (folder / CODE).write_text(bare_code(handbook), "utf-8")
    book = binder.written(handbook)
    (folder / WHOLE).write_text(binder.whole(book, binder.ranges(book)), "utf-8")


def bare_code(handbook: content.Handbook) -> str:
    """Give the leaves' own code as the binder sets it: its type, its margins, a leaf to a sheet.

    There is no title, no list, no index, no running head or foot and no number of a page.
    """
    numbers = {leaf.slug: leaf.number for leaf in handbook.leaves}
    leaves = [
        f"#{Writer(leaf.slug, numbers, handbook.catalog).leaf(leaf.tree)}"
        for leaf in handbook.leaves
        if leaf.slug != INDEX
    ]
    code = [
        binder.TEMPLATE.read_text("utf-8"),
        "#let go = go-to.with((whole: false, of: (:)))",
        '#show: settings.with(title: "floor")',
        "#heading(level: 1)[floor]",
        '\n#pagebreak(to: "odd", weak: true)\n'.join(leaves),
    ]
    return "\n".join(code)


def bare_screen(folder: Path, out: Path) -> None:
    """Write a page a leaf with nothing but the libraries."""
    reader = markdown.Markdown(extensions=["tables", "def_list", "footnotes", "meta"])
    for path in sorted(folder.iterdir()):
        body = reader.reset().convert(path.read_text("utf-8"))
        (out / f"{path.stem}.html").write_text(PAGE.render(title=path.stem, body=body), "utf-8")


def bare_paper(folder: Path, out: Path) -> None:
    """Set the leaves with nothing but the typesetter."""
    source = (folder / CODE).read_bytes()
    made = typst.compile(source, format="pdf", ignore_system_fonts=True, pdf_standards=["ua-1"])
    assert isinstance(made, bytes)
    (out / "floor.pdf").write_bytes(made)


def typesetting(folder: Path, out: Path) -> None:
    """Set the binder of which the code is written."""
    code = (folder / WHOLE).read_text("utf-8")
    (out / "binder.pdf").write_bytes(compiled(code))


def paper(out: Path) -> Callable[[], None]:
    """Give what makes the binder of a handbook that was read, and not the reading."""
    handbook = content.read(load(DEMO))
    return lambda: binder.write(handbook, out / "binder.pdf")


def screen(out: Path) -> None:
    """Read the handbook and write its screen."""
    handbook = content.read(load(DEMO))
    site.write(handbook, out)


def both(folder: Path, way: str, out: Path) -> None:
    """Write both faces with nothing but the libraries."""
    bare_screen(folder / way, out)
    bare_paper(folder, out)


def work(name: str, folder: Path, out: Path) -> Callable[[], object]:
    """Give a piece of work by its name."""
    if name == "paper":
        return paper(out)
    return {
        "screen": lambda: screen(out),
        "build": lambda: publish.publish(DEMO, out),
        "typesetting": lambda: typesetting(folder, out),
        "bare-paper": lambda: bare_paper(folder, out),
        "bare-screen-written": lambda: bare_screen(folder / "written", out),
        "bare-screen-read": lambda: bare_screen(folder / "read", out),
        "bare-build-written": lambda: both(folder, "written", out),
        "bare-build-read": lambda: both(folder, "read", out),
    }[name]


def main() -> None:
    """Do one piece of work and print how long it took."""
    name, folder = sys.argv[1], Path(sys.argv[2])
    if name == "lay":
        lay(folder)
        return
    with tempfile.TemporaryDirectory() as place:
        if not name.startswith("bare"):
            settle()  # as a command does
        asked = work(name, folder, Path(place))
        start = time.perf_counter()
        asked()
        sys.stdout.write(f"{time.perf_counter() - start}\n")


if __name__ == "__main__":
    main()
