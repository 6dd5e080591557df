"""A practice sheet as one page that checks what is typed, in one file, with nothing beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.practice.checking import answer_right
from site_builder.content import Handbook, Leaf, Section
from site_builder.cover import Cover
from site_builder.markup.elements import element, paragraph
from site_builder.notation import writers
from site_builder.parts import bench_parts
from site_builder.practice_sheet import pieces
from site_builder.screen import site
from site_builder.texts.practice import command_line

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

LETTER = "A"
BENCH = "before-the-bench"
KEPT = "This page keeps nothing, counts nothing and sends nothing: close it, and it is forgotten."
HOW = (
    "Work each exercise on paper first, then type the answer and check it. "
    "A point or a comma divides the decimals, and a unit may stand behind the number. "
    "When every answer was tried, the way can be opened."
)


def page(answer: Answer, catalog: Catalog) -> bytes:
    """Make the page."""
    made = book(answer, catalog)
    assets = {
        **site.look(),
        **site.practice_assets(made),
        "formulas.js": writers.javascript([answer_right]),
    }
    return site.one_file(made, assets).encode()


def book(answer: Answer, catalog: Catalog) -> Handbook:
    """Bind the topics as leaves of a small book, the cautions as its last."""
    title = pieces.title(answer)
    section = Section(LETTER, "Exercises", "Each topic, then what to read before the bench.", "")

    def add(slug: str, name: str, summary: str, *inner: object) -> None:
        tree = element("div", *inner)  # type: ignore[arg-type]
        number = f"{len(section.leaves) + 1}"
        section.leaves.append(Leaf(number, slug, name, summary, section, "", tree))

    for topic, held in pieces.by_topic(answer, catalog):
        teaches = f"{topic['teaches']}."
        add(topic["topic"], topic["name"], teaches, *pieces.questions(catalog, held))
    boxes = [box for one in answer.cautions for box in bench_parts.caution(catalog, one.id)]
    summary = "An exercise allows nothing at the bench. Read this before you go there."
    add(BENCH, "Before the bench", summary, *boxes)
    front = element(
        "div",
        paragraph(HOW),
        *pieces.about(answer),
        paragraph(KEPT),
        paragraph(f"Seed {answer.answer['seed']}. The same sheet again: ",
                  element("code", command_line(answer))),
    )  # fmt: skip
    cover = Cover(
        book=title,
        headed=title,
        menu="Topics",
        revision=f"seed {answer.answer['seed']}",
        searched=False,
        marked=False,
        mark=pieces.MARK,
    )
    return Handbook(front, [section], catalog, cover)
