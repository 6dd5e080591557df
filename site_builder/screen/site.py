"""The handbook on screen: a page for each leaf, all leaves in one file, scripts, search index.

Every page opens from a folder with no server and no network. The same handbook gives the same
bytes. Nothing is written before everything is made.
"""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

import jinja2
from markupsafe import Markup

from formulas.formula import FORMULAS, PROCEDURES, Procedure, every_module
from site_builder.markup.elements import BASES
from site_builder.places import INVENTED, TEMPLATES
from site_builder.screen import addresses, exercise_form, search_index
from site_builder.screen.addresses import FRONT, OPEN, PAGES, WHOLE, Form, placed
from site_builder.screen.html_writer import Writer
from site_builder.screen.page import Divider, Link, Page, Script, Sheet

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from site_builder.content import Handbook, Leaf, Section

CLOSING = re.compile(r"<(?=/script|script|!--)", re.IGNORECASE)


def write(
    handbook: Handbook,
    outdir: Path,
    revisions: Mapping[str, str] = MappingProxyType({}),
    scripts: Mapping[str, str] | None = None,
) -> None:
    """Write every page and its assets into a folder."""
    made = files(handbook, revisions, scripts)
    for name, text in made.items():
        path = outdir / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode())


def files(
    handbook: Handbook,
    revisions: Mapping[str, str] = MappingProxyType({}),
    scripts: Mapping[str, str] | None = None,
) -> dict[str, str]:
    """Give every file of the screen by its name, the front page last.

    `revisions` are the words on the revision of each leaf, as paper has them; `scripts` what
    `table_assets` gives, where it was made already.
    """
    from site_builder.notation import writers

    assets = _assets(handbook, table_assets(handbook.catalog) if scripts is None else scripts)
    maths = writers.mathml(FORMULAS[name] for name in _formulas(handbook))
    texts = _texts(handbook, maths)
    pages, whole = (Face(handbook, texts, assets, revisions, form) for form in (PAGES, WHOLE))
    made = {f"assets/{name}": text for name, text in assets.items()}
    made |= {f"{leaf.slug}.html": pages.leaf(leaf) for leaf in handbook.leaves}
    return made | {"handbook.html": whole.whole(), "index.html": pages.front()}


def plain_files(handbook: Handbook) -> dict[str, str]:
    """Give the files of a book without formulas, workings and search, the front page last."""
    assets = look()
    pages = Face(handbook, _texts(handbook, {}), assets, {}, PAGES)
    made = {f"assets/{name}": text for name, text in assets.items()}
    made |= {f"{leaf.slug}.html": pages.leaf(leaf) for leaf in handbook.leaves}
    return made | {"index.html": pages.front()}


def one_file(handbook: Handbook, assets: Mapping[str, str]) -> str:
    """Give a book without formulas as one file."""
    return Face(handbook, _texts(handbook, {}), assets, {}, WHOLE).whole()


Texts = Mapping[str, Sequence[str]]
"""The words of each leaf in the open form, by its slug; of the front what stands before the
contents, and what stands behind them."""


def _texts(handbook: Handbook, maths: Mapping[str, str]) -> Texts:
    """Write every leaf, for both forms."""
    where = addresses.of(handbook, OPEN)

    def written(slug: str, number: str, tree: Element) -> str:
        return Writer(slug, number, where, handbook.catalog, maths).leaf(tree)

    front = [written(FRONT, "", part) for part in _opened(handbook.front)]
    leaves = {leaf.slug: [written(leaf.slug, leaf.number, leaf.tree)] for leaf in handbook.leaves}
    return {FRONT: front, **leaves}


def _formulas(handbook: Handbook) -> list[str]:
    trees = [handbook.front, *(leaf.tree for leaf in handbook.leaves)]
    return sorted({math.get("formula", "") for tree in trees for math in tree.iter("math")})


def table_assets(catalog: Catalog) -> dict[str, str]:
    """Give the scripts that hang on no leaf: functions, data of the tables, what runs a page."""
    from site_builder.notation import writers
    from site_builder.workings import worksheets

    return {
        "formulas.js": writers.javascript(_shared()),
        "catalog.js": _data("bench_data", worksheets.page_data(catalog)),
        "bench.js": worksheets.bench_script(),
    }


def _assets(handbook: Handbook, scripts: Mapping[str, str]) -> dict[str, str]:
    return {
        **look(),
        **scripts,
        **practice_assets(handbook),
        "search-index.js": _data("bench_index", search_index.index(handbook)),
        "search.js": _template("search.js"),
    }


def practice_assets(handbook: Handbook) -> dict[str, str]:
    """Give what checks the exercises of a book; a book without any needs nothing."""
    trees = [handbook.front, *(leaf.tree for leaf in handbook.leaves)]
    found = [one for tree in trees for one in tree.iter("exercise")]
    if not found:
        return {}
    data = exercise_form.page_data(handbook.catalog, found)
    return {
        "practice-data.js": _data("bench_practice", data),
        "practice.js": _template("practice.js"),
    }


def look() -> dict[str, str]:
    """Give the one asset that every page needs."""
    return {"look.css": _template("look.css")}


def _shared() -> list[Procedure[..., Any]]:
    """Give every formula and procedure of the package, in an order that no import changes."""
    every_module()
    found = {**PROCEDURES, **FORMULAS}
    ours = {name: one for name, one in found.items() if one.__module__.startswith("formulas.")}
    return [ours[name] for name in sorted(ours)]


WORKING_SCRIPTS = ("formulas.js", "catalog.js", "bench.js")
PRACTICE_SCRIPTS = ("formulas.js", "practice-data.js", "practice.js")
SEARCH_SCRIPTS = ("search-index.js", "search.js")


def _template(name: str) -> str:
    return (TEMPLATES / name).read_text(encoding="utf-8")


def _data(name: str, value: object) -> str:
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return f"window.{name} = {text};\n"


class Face:
    """Makes the pages of one form: a page a leaf, or all in one file."""

    def __init__(
        self,
        handbook: Handbook,
        texts: Texts,
        assets: Mapping[str, str],
        revisions: Mapping[str, str],
        form: Form,
    ) -> None:
        self.handbook, self.texts, self.assets = handbook, texts, assets
        self.revisions = revisions
        self.addresses = addresses.of(handbook, form)

    def leaf(self, leaf: Leaf) -> str:
        """Make the page of one leaf."""
        works = next(leaf.tree.iter("working"), None) is not None
        drills = next(leaf.tree.iter("exercise"), None) is not None
        scripts = (WORKING_SCRIPTS if works else ()) + (PRACTICE_SCRIPTS if drills else ())
        return self._page(
            title=f"{leaf.number} {leaf.title}",
            number=leaf.number,
            menu=self._dividers(leaf.section, leaf),
            sheets=[self._sheet(leaf)],
            scripts=dict.fromkeys(scripts),
        )

    def front(self) -> str:
        """Make the front page."""
        searched = self.handbook.cover.searched
        return self._page(sheets=[self._front()], scripts=SEARCH_SCRIPTS if searched else ())

    def whole(self) -> str:
        """Make the one file that holds every leaf."""
        sheets = [self._front(), *(self._sheet(leaf) for leaf in self.handbook.leaves)]
        scripts = dict.fromkeys((*WORKING_SCRIPTS, *PRACTICE_SCRIPTS, *SEARCH_SCRIPTS))
        return self._page(sheets=sheets, scripts=[one for one in scripts if one in self.assets])

    def _page(
        self,
        *,
        sheets: list[Sheet],
        scripts: Iterable[str],
        title: str = "",
        number: str = "",
        menu: list[Divider] | None = None,
    ) -> str:
        shop, whole = self.handbook.catalog.shop, self.addresses.whole
        cover = self.handbook.cover
        page = Page(
            title=" · ".join(part for part in (title, cover.book, shop.name) if part),
            book=cover.book,
            listed=cover.menu,
            searched=cover.searched,
            paper=cover.paper,
            shop=shop.name,
            notice=INVENTED if shop.invented else "",
            home=self.addresses.leaf(FRONT),
            number=number,
            key=self.addresses.leaf(self.addresses.key) if self.addresses.key else "",
            whole=whole,
            mark=cover.mark,
            style=Markup(self.assets["look.css"] if whole else ""),
            marks=[(mark, words) for words, mark, _ in BASES.values()] if cover.marked else [],
            menu=self._dividers() if menu is None else menu,
            contents=[self._divider(section, summaries=True) for section in self._filled()],
            sheets=sheets,
            scripts=[self._script(name) for name in scripts],
        )
        return _page_template().render(page=page)

    def _script(self, name: str) -> Script:
        if not self.addresses.whole:
            return Script(f"assets/{name}", Markup(""))
        # No text in a script may end it or open another; in a string "\\x3c" is the same sign.
        text = CLOSING.sub(r"\\x3c", self.assets[name])
        return Script("", Markup(text))

    def _front(self) -> Sheet:
        opening, rest = (self._placed(FRONT, text) for text in self.texts[FRONT])
        shop = self.handbook.catalog.shop
        return Sheet(
            anchor=FRONT if self.addresses.whole else "bench_leaf",
            number="",
            place="Front",
            title=self.handbook.cover.headed or f"{self.handbook.cover.book} of {shop.name}",
            summary="",
            revision=self._revision("Front"),
            level=1,
            opening=opening,
            body=rest,
        )

    def _sheet(self, leaf: Leaf) -> Sheet:
        leaves, whole = self.handbook.leaves, self.addresses.whole
        at = leaves.index(leaf)
        return Sheet(
            anchor=leaf.slug if whole else "bench_leaf",
            number=leaf.number,
            place=leaf.section.title,
            title=leaf.title,
            summary=leaf.summary,
            revision=self._revision(leaf.number),
            level=2 if whole else 1,
            body=self._placed(leaf.slug, self.texts[leaf.slug][0], 1 if whole else 0),
            previous=self._link(leaves[at - 1]) if at and not whole else None,
            next=self._link(leaves[at + 1]) if at + 1 < len(leaves) and not whole else None,
        )

    def _revision(self, name: str) -> str:
        return self.handbook.cover.revision or self.revisions.get(name, "")

    def _placed(self, slug: str, text: str, lower: int = 0) -> Markup:
        return Markup(placed(text, slug, self.addresses.form, lower))

    def _filled(self) -> list[Section]:
        return [section for section in self.handbook.sections if section.leaves]

    def _dividers(
        self, open_section: Section | None = None, at: Leaf | None = None
    ) -> list[Divider]:
        """Give the dividers; a page of one leaf shows the leaves of its own section only."""
        return [
            self._divider(section, at, current=section is open_section)
            if section is open_section or self.addresses.whole
            else self._closed(section)
            for section in self._filled()
        ]

    def _divider(
        self,
        section: Section,
        at: Leaf | None = None,
        *,
        current: bool = False,
        summaries: bool = False,
    ) -> Divider:
        links = [self._link(leaf, current=leaf is at, summary=summaries) for leaf in section.leaves]
        return Divider(
            section.letter, section.title, section.summary, self._top(section), links, current
        )

    def _closed(self, section: Section) -> Divider:
        return Divider(section.letter, section.title, section.summary, self._top(section), [])

    def _top(self, section: Section) -> str:
        place = f"#bench_section_{section.letter}"
        return place if self.addresses.whole else f"{FRONT}.html{place}"

    def _link(self, leaf: Leaf, *, current: bool = False, summary: bool = False) -> Link:
        told = leaf.summary if summary else ""
        return Link(self.addresses.leaf(leaf.slug), leaf.number, leaf.title, told, current)


def _opened(tree: Element) -> tuple[Element, Element]:
    """Part a tree before its first heading."""
    opening, rest = Element("div"), Element("div")
    for child in tree:
        at = rest if len(rest) or child.tag in {"h2", "h3", "h4"} else opening
        at.append(child)
    return opening, rest


@functools.cache
def _page_template() -> jinja2.Template:
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template("page.html.jinja")
