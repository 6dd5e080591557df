"""What the bare libraries take for the demo handbook's leaves, beside what we take; as JSON.

The floors do the unavoidable: Markdown reads the same texts and Jinja2 fills one template for
each; Typst compiles the same leaves without contents, heads and cross-references.
"""

from __future__ import annotations

import json
import tempfile
from pathlib import Path

import jinja2
import markdown
from run import alternating

from formulas.catalog import load
from site_builder import content
from site_builder.paper import binder
from site_builder.paper.typesetting import compiled
from site_builder.paper.typst_writer import Writer
from site_builder.screen import site

ROUNDS = 5
PAGE = jinja2.Template("<!doctype html><title>{{ title }}</title>{{ body }}", autoescape=True)


def texts() -> list[str]:
    """Give the Markdown of every leaf."""
    return [path.read_text("utf-8") for path in sorted(content.CONTENT.rglob("*.md"))]


def bare_screen(sources: list[str], folder: Path) -> None:
    """Write a page a leaf with nothing but the libraries."""
    reader = markdown.Markdown(extensions=["tables", "def_list", "footnotes", "meta"])
    for place, source in enumerate(sources):
        page = PAGE.render(title=str(place), body=reader.reset().convert(source))
        (folder / f"{place}.html").write_text(page, "utf-8")


def bare_code(handbook: content.Handbook) -> str:
    """Give the leaves' own code with no title, contents, heads or breaks between leaves."""
    numbers = {leaf.slug: leaf.number for leaf in handbook.leaves}
    head = '#set document(title: "floor")\n#heading(level: 1)[floor]\n'
    leaves = [
        f"#{Writer(leaf.slug, numbers, handbook.catalog).leaf(leaf.tree)}"
        for leaf in handbook.leaves
    ]
    return binder.TEMPLATE.read_text("utf-8") + head + "\n".join(leaves)


def main() -> None:
    """Print the four times."""
    catalog = load(content.CONTENT / "demo-shop")
    sources = texts()
    handbook = content.read(catalog)
    bare = bare_code(handbook)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        times = alternating(
            ROUNDS,
            lambda: bare_screen(sources, folder),
            lambda: site.write(content.read(catalog), folder),
        )
        paper = alternating(
            ROUNDS, lambda: compiled(bare), lambda: binder.write(handbook, folder / "binder.pdf")
        )
    print(
        json.dumps(
            {
                "bare_screen": times[0],
                "screen": times[1],
                "bare_paper": paper[0],
                "paper": paper[1],
            }
        )
    )


if __name__ == "__main__":
    main()
