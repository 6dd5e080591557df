"""All pages of templates as one tagged PDF: each with its head, its check bars, its warning."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from formulas.checks import PAPERS
from formulas.cutting.cut import cut
from formulas.units import printed
from site_builder.paper.labels import settable
from site_builder.paper.typesetting import compiled
from site_builder.paper.typst_text import literal
from site_builder.places import INVENTED, TEMPLATES
from site_builder.true_scale.cutting_pages import gauge_page, template_pages
from site_builder.true_scale.marks import FOOT, SIDE, Line, Page, Words
from site_builder.true_scale.plan_pages import plan_pages
from site_builder.true_scale.ramp_page import ramp_page
from site_builder.true_scale.ticket_pages import ticket_pages

if TYPE_CHECKING:
    from formulas.catalog import Catalog

TEMPLATE = TEMPLATES / "true_scale.typ"
TITLE = "Templates at true size"
UNSCALED = "Print unscaled: actual size, 100 %, no fit to page. Then measure both bars."
PLAN = "A plan: it has no check bar, because it is not at true size."


def pages(catalog: Catalog) -> Iterator[Page]:
    """Give every page: ramp, templates, gauges, plans of the skins, labels for the valves."""
    paper = catalog.shop.paper
    yield ramp_page(catalog, paper)
    plans = cut(catalog).answer["plans"]
    yield from template_pages(catalog, plans, paper)
    yield from gauge_page(catalog, plans, paper)
    yield from plan_pages(catalog, plans, paper)
    yield from ticket_pages(catalog, paper)


def pdf(catalog: Catalog) -> bytes:
    """Set all pages. The same shop gives the same bytes. Raises PaperFault."""
    return compiled(code(catalog, pages(catalog)))


def code(catalog: Catalog, every: Iterable[Page]) -> str:
    """Give pages as Typst code, with a visible mark for each missing glyph."""
    width, height = PAPERS[catalog.shop.paper]
    bar = catalog.span("check-bar-templates", "mm")[0]
    miss = catalog.span("check-bar-miss", "mm")[0]
    head = (
        f"#show: settings.with(title: {literal(TITLE)}, shop: {_set(catalog.shop.name)},"
        f" width: {width:g}, height: {height:g})"
    )
    shop = catalog.shop.name + (f". {INVENTED}" if catalog.shop.invented else "")
    body = "\npagebreak()\n".join(
        "{\n" + "\n".join(_page(page, place == 0, shop, (width, height), bar, miss)) + "\n}"
        for place, page in enumerate(every)
    )
    return f"{TEMPLATE.read_text(encoding='utf-8')}\n{head}\n#{{\n{body}\n}}\n"


def _page(
    page: Page, first: bool, shop: str, paper: tuple[float, float], bar: float, miss: float
) -> Iterator[str]:
    yield f"title({_mm(SIDE, 12)}, {_set(page.title)}, {'1' if first else '2'})"
    for place, told in enumerate(page.told):
        yield _words(Words(SIDE, 17.5 + 3.6 * place, told, 2.4))
    for line in page.lines:
        yield _line(line)
    for words in page.words:
        yield _words(words)
    low = paper[1] - FOOT + 8
    if page.true:
        yield f"bar({_mm(SIDE, low, bar)})"
        yield f"bar-down({_mm(paper[0] - 10, paper[1] - FOOT - bar, bar)})"
        told = f"{UNSCALED} Each is {bar:g} mm, {miss:g} more or less."
        yield _words(Words(SIDE, low + 6.5, told, 2.4, bold=True))
    else:
        yield _words(Words(SIDE, low + 6.5, PLAN, 2.4, bold=True))
    yield _words(Words(SIDE, low + 10.2, shop, 2.0))


def _line(line: Line) -> str:
    points = ", ".join(f"({_mm(x, y)})" for x, y in line.points)
    if line.closed:
        return f"shape({_mm(line.width)}, {_mm(line.fill)}, ({points},))"
    return f"path({_mm(line.width)}, {'true' if line.dash else 'false'}, ({points},))"


def _words(words: Words) -> str:
    bold = "true" if words.bold else "false"
    return f"words({_mm(words.x, words.y, words.size)}, {bold}, {_set(words.text)})"


def _set(text: str) -> str:
    return literal(settable(text))


def _mm(*sizes: float) -> str:
    return ", ".join(printed(size, 4) for size in sizes)
