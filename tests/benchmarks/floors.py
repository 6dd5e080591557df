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
import typst
from run import alternating

from formulas.catalog import load
from site_builder import content
from site_builder.paper import binder
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


def bare_paper(code: str) -> None:
    """Compile the leaves' own code under a layout of one line."""
    compiled(code)


def compiled(code: str) -> bytes:
    """Compile Typst code as the binder is compiled."""
    return typst.compile(
        code.encode(), ignore_system_fonts=True, timestamp=0, pdf_standards=["ua-1"]
    )


def main() -> None:
    """Print the four times."""
    catalog = load(content.CONTENT / "demo-shop")
    sources = texts()
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)

        def screen() -> None:
            site.write(content.read(catalog), folder)

        times = alternating(ROUNDS, lambda: bare_screen(sources, folder), screen)
    handbook = content.read(catalog)
    bare = binder.bare_code(handbook)
    paper = alternating(ROUNDS, lambda: compiled(bare), lambda: binder.pdf(handbook))
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
