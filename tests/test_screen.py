"""The screen: text that arrives as written, links that lead somewhere, ids, and equal bytes."""

from __future__ import annotations

import dataclasses
import os
import re
import subprocess
import sys
import urllib.parse
from collections import Counter
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import pytest
from html_reading import Reading

from formulas.catalog import Catalog, load
from formulas.fault import UnknownName
from formulas.formula import FORMULAS
from site_builder import content
from site_builder.content import CONTENT, Handbook, Leaf, Section
from site_builder.notation import writers
from site_builder.parts import bench_parts
from site_builder.screen import addresses, html_writer, search_index, site
from site_builder.screen.html_writer import UNKEPT, Writer

TRADE = load(None)
DEMO = load(CONTENT / "demo-shop")
HOSTILE = [
    "<script>alert(1)</script>",
    "</script><script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "&lt;b&gt; &amp;amp; &#x3c;",
    "{{ 7 * 7 }} {% raw %} {# no #}",
    "<!-- --> <![CDATA[ ]]> ]]>",
    "</title></style></textarea><svg/onload=alert(1)>",
    "éß 中 😀 Ω ≤ −",
]
SOURCES = "<table><tbody><tr id='source-book'><td>book</td></tr></tbody></table>"


def handbook(
    *texts: str, catalog: Catalog = TRADE, front: str = "<p>Read this first.</p>", title: str = "T"
) -> Handbook:
    """Make a handbook of one section with a leaf for each text of elements."""
    section = Section("T", title, f"About {title}", "10-trials")
    for place, text in enumerate(texts, start=1):
        tree = fromstring(f"<div>{text}</div>")
        slug, number = f"leaf-{place}", f"T-{place:02}"
        section.leaves.append(Leaf(number, slug, f"{title} {place}", title, section, "", tree))
    return Handbook(fromstring(f"<div>{front}</div>"), [section], catalog)


def written(text: str | Element, *, whole: bool = False, catalog: Catalog = TRADE) -> str:
    """Write one tree of elements as the first of two leaves; the second lists the sources."""
    made = handbook("<p>First.</p>", SOURCES, catalog=catalog)
    made.leaves[1].tree.extend(bench_parts.basis_key(catalog, ""))
    tree = fromstring(f"<div>{text}</div>") if isinstance(text, str) else text
    maths = writers.mathml(FORMULAS[math.get("formula", "")] for math in tree.iter("math"))
    return Writer(
        "leaf-1",
        "T-01",
        addresses.of(made, addresses.WHOLE if whole else addresses.PAGES),
        catalog,
        maths,
    ).leaf(tree)


@pytest.fixture(scope="module")
def demo() -> dict[str, str]:
    """Make every file of the demo handbook."""
    return site.files(content.read(DEMO))


def pages(files: dict[str, str]) -> dict[str, Reading]:
    """Read every page among the files."""
    return {name: Reading(text) for name, text in files.items() if name.endswith(".html")}


def place(holder: str, text: str) -> Element:
    """Put a text where a leaf can hold one."""
    root = Element("div")
    tag, _, attribute = holder.partition("@")
    made = Element(tag)
    root.append(made)
    if attribute:
        made.set(attribute, text)
        made.text = "-"
    else:
        made.text = made.tail = text
    if tag == "value":
        made.attrib |= {"basis": "memory"}
    if tag == "caution":
        made.attrib |= {"basis": "memory", "title": made.get("title", "-")}
    return root


HOLDERS = (
    "p h2 h3 h4 em strong code pre li dt dd blockquote sup a caution caution@title "
    "caution@codes caution@source value value@source formline@label unknown unknown@reason"
)


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("holder", HOLDERS.split())
def test_text_arrives_as_written(holder: str, text: str) -> None:
    """A text with the signs of markup is shown as the text it is, wherever it stands."""
    tree = place(holder, text)
    if holder == "a":
        tree[0].set("href", "leaf-2.md")
    reading = Reading(written(tree))
    assert reading.faults == []
    shown = [reading.text, *reading.values("title"), *reading.values("aria-label")]
    codes = holder == "caution@codes"  # a list, whose spaces part its items
    for piece in text.split() if codes else [text]:
        assert any(piece in one for one in shown)
    assert not reading.tags & {"script", "img", "b", "style"}
    assert not [name for _, each in reading.elements for name in each if name.startswith("on")]


@pytest.mark.parametrize("text", HOSTILE)
def test_names_arrive_as_written_on_whole_pages(text: str) -> None:
    """A shop, a section and a leaf may be called anything."""
    shop = dataclasses.replace(TRADE.shop, name=text)
    materials = dict(TRADE.materials)
    first = next(iter(materials))
    materials[first] = dataclasses.replace(materials[first], name=text)
    catalog = dataclasses.replace(TRADE, shop=shop, materials=materials)
    plain = site.files(handbook("<p>One.</p>", "<p>Two.</p>", title="T"))
    files = site.files(handbook("<p>One.</p>", "<p>Two.</p>", catalog=catalog, title=text))
    for name, reading in pages(files).items():
        assert reading.faults == []
        assert reading.text.count(text) >= 4
        usual = Reading(plain[name])
        assert Counter(tag for tag, _ in reading.elements) == Counter(
            tag for tag, _ in usual.elements
        )
        assert len(reading.scripts) == len(usual.scripts)


def test_controls_and_turns_of_direction_are_dropped() -> None:
    """No control, half pair or mark that turns the reading direction reaches a page."""
    made = written(place("p", "a\x00\x07\u202eb\u2066\ud800c\nd"))
    assert made == "<p>abc\nd</p>abc\nd"


VOCABULARY = {
    "<h2 id='one'>One</h2>": '<h2 id="one">One</h2>',
    "<h4 id='x'>X</h4>": '<h4 id="x">X</h4>',
    "<ol start='3'><li>a</li></ol>": '<ol start="3"><li>a</li></ol>',
    "<blockquote><p>q</p></blockquote>": "<blockquote><p>q</p></blockquote>",
    "<pre><code>a &lt; b\n</code></pre>": "<pre><code>a &lt; b\n</code></pre>",
    "<dl><dt>a</dt><dd>b</dd></dl>": "<dl><dt>a</dt><dd>b</dd></dl>",
    "<hr/>": "<hr>",
    "<p><a href='leaf-2.md#source-book'>to</a></p>": (
        '<p><a href="leaf-2.html#source-book">to</a></p>'
    ),
    "<p><a href='#one'>up</a></p>": '<p><a href="#one">up</a></p>',
    "<p><a href='front.md'>front</a></p>": '<p><a href="index.html">front</a></p>',
    "<p><a href='https://example.org/?a=1&amp;b=2'>out</a></p>": (
        '<p><a href="https://example.org/?a=1&amp;b=2">out</a></p>'
    ),
    "<p><unknown reason='test it'>not known</unknown></p>": (
        '<p><span class="unknown"><em>not known</em><span class="how"> (test it)</span></span></p>'
    ),
}


@pytest.mark.parametrize("text", VOCABULARY)
def test_plain_elements_are_written(text: str) -> None:
    """What stands in running text comes out as the same element of HTML."""
    assert written(text) == VOCABULARY[text]


def test_a_wide_table_stays_a_table_when_it_restacks() -> None:
    """Its cells carry their column's words, and its roles hold when it is laid out as cards."""
    head = "<thead><tr><th>A</th><th>B</th><th>C</th><th align='right'>D</th></tr></thead>"
    row = "<tr><td>1</td><td>2</td><td>3</td><td align='right'>4 mm</td></tr>"
    reading = Reading(written(f"<table>{head}<tbody>{row}</tbody></table>"))
    (region,) = [each for each in reading.named("div") if each.get("role") == "region"]
    assert region["aria-label"] == "T-01 table 1: A, B, C, D"
    assert region["tabindex"] == "0"
    cells = reading.named("td")
    assert [cell["data-label"] for cell in cells] == ["A", "B", "C", "D"]
    assert {cell["role"] for cell in cells} == {"cell"}
    assert cells[3]["class"] == "right"
    assert "4\u00a0mm" in reading.text
    assert {each["scope"] for each in reading.named("th")} == {"col"}


@pytest.mark.parametrize(
    ("length", "restacks"), [(html_writer.LONG_ROW, False), (html_writer.LONG_ROW + 1, True)]
)
def test_three_columns_restack_where_their_rows_are_long(length: int, restacks: bool) -> None:
    """A table of three short columns stays a table on a phone; one with long rows does not."""
    head = "<thead><tr><th>A</th><th>B</th><th>C</th></tr></thead>"
    row = f"<tr><td>1</td><td>{'x' * (length - 2)}</td><td>2</td></tr>"
    reading = Reading(written(f"<table>{head}<tbody>{row}{row}</tbody></table>"))
    assert [one.get("class") for one in reading.named("table")] == [
        "restacked" if restacks else None
    ]


def test_a_value_carries_its_mark_to_the_key() -> None:
    """The short mark of a value names its basis and source and leads to the leaf with the key."""
    source = next(iter(TRADE.sources))
    text = f"<p><value basis='published' source='{source}'>62–65 °C</value></p>"
    reading = Reading(written(text))
    assert reading.text == "62–65\u00a0°Cpub"
    assert reading.named("a")[0]["href"] == "leaf-2.html"
    assert reading.named("abbr")[0]["title"] == f"published: {TRADE.sources[source].title}"


def test_a_basis_is_short_in_text_and_in_words_in_a_table() -> None:
    """In a sentence a basis is a raised mark; in a cell it is words that lead to its source."""
    assert Reading(written("<p><basis kind='practice'/></p>")).text == "prac"
    cell = "<table><thead><tr><th>B</th></tr></thead><tbody><tr><td>{}</td></tr></tbody></table>"
    reading = Reading(written(cell.format("<basis kind='published' source='book'/>")))
    assert reading.text == "Bpublished"
    assert reading.named("a")[0]["href"] == "leaf-2.html#source-book"


def test_a_caution_reads_without_colour() -> None:
    """A caution says that it is one, in words and to a screen reader, with its codes and basis."""
    code = next(iter(TRADE.statements))
    text = f"<caution id='c' title='Hot wax' codes='{code}' basis='practice'><p>Mind.</p></caution>"
    reading = Reading(written(text))
    box = reading.named("div")[0]
    assert (box["role"], box["aria-label"]) == ("note", "Caution: Hot wax")
    assert reading.text.startswith("CAUTION Hot waxMind.")
    assert f"{code}: {TRADE.statements[code].text}" in reading.text
    assert reading.text.endswith("Basis: common practice")


def test_a_formula_shows_title_text_symbols_and_source() -> None:
    """Beside the mathematics stand its title, a line of plain text, every symbol and the source."""
    formula = FORMULAS["component_mass"]
    made = written("<math formula='component_mass'/>")
    reading = Reading(made)
    assert made.count("<math") == 1
    assert formula.title in reading.text
    assert writers.spoken(formula) in reading.text
    assert len(reading.named("dt")) == len(formula.arguments) + 1
    for argument in formula.arguments.values():
        assert argument.meaning in reading.text
    assert "true by definition" in reading.text


def test_a_drawing_keeps_its_text_and_gives_up_its_size() -> None:
    """A drawing has a view box, words in its place, and ids of its own leaf."""
    svg = (
        "<svg viewBox='0 0 9 9' width='9' height='9' font-size='2'><defs><pattern id='p'/></defs>"
        "<text x='1' fill='url(#p)'>a &lt; b</text></svg>"
    )
    text = f"<figure alt='A drawing'>{svg}<figcaption>Words</figcaption></figure>"
    reading = Reading(written(text, whole=True))
    (root,) = reading.named("svg")
    assert (root["aria-label"], root["role"]) == ("A drawing", "img")
    assert root["viewbox"] == "0 0 9 9"
    assert not {"width", "height"} & set(root)
    assert reading.named("pattern")[0]["id"] == "leaf-1.p"
    assert reading.named("text")[0]["fill"] == "url(#leaf-1.p)"
    assert reading.text == "a < bWords"


def test_boxes_and_lines_are_labelled() -> None:
    """Each box to tick and each line to write on has its words as its label."""
    text = (
        "<ticks><li>One</li><li><p>Two</p></li><li><p>Three</p><ul><li>a</li></ul></li></ticks>"
        "<formline label='Name'/><formline label='Date'/><p>x</p>"
    )
    made = written(text)
    reading = Reading(made)
    fields = reading.named("input")
    assert [field["type"] for field in fields] == ["checkbox"] * 3 + ["text"] * 2
    assert len(reading.named("label")) == 4
    assert fields[2]["aria-labelledby"] in reading.values("id")
    assert made.count(UNKEPT) == 1


def test_a_note_leads_back() -> None:
    """A footnote is a list item that leads back to the place that names it."""
    text = (
        "<p>a<sup id='fnref-1'><a href='#fn-1'>1</a></sup></p>"
        "<div class='footnote'><hr/><ol><li id='fn-1'><p>b</p></li></ol></div>"
    )
    for whole, prefix in ((False, ""), (True, "leaf-1.")):
        reading = Reading(written(text, whole=whole))
        there, back = (each["href"] for each in reading.named("a"))
        assert (there, back) == (f"#{prefix}fn-1", f"#{prefix}fnref-1")
        assert {there[1:], back[1:]} <= set(reading.values("id"))


REFUSED = {
    "<script>x</script>": "element of a leaf on screen",
    "<p><iframe/></p>": "element of a leaf on screen",
    "<p onclick='x'>y</p>": "attribute of p",
    "<p style='x'>y</p>": "attribute of p",
    "<p><a href='javascript:x'>y</a></p>": "the address of a link",
    "<p><a href=' java&#10;script:x'>y</a></p>": "the address of a link",
    "<p><a href='data:text/html,x'>y</a></p>": "the address of a link",
    "<p><a href='//example.org/x'>y</a></p>": "the address of a link",
    "<p><a href='gone.md'>y</a></p>": "the leaf of a link",
    "<figure alt='x'><svg viewBox='0 0 1 1'><script/></svg></figure>": "element of a drawing",
    "<figure alt='x'><svg viewBox='0 0 1 1' onload='x'/></figure>": "attribute of svg",
}


@pytest.mark.parametrize("text", REFUSED)
def test_what_no_leaf_may_hold_is_refused(text: str) -> None:
    """An element, an attribute or an address outside the vocabulary stops the build."""
    with pytest.raises(UnknownName, match=f"^{REFUSED[text]}: found"):
        written(text)


def test_every_link_of_the_demo_leads_somewhere(demo: dict[str, str]) -> None:
    """Every inner link of every page names a page that is there and an id on it."""
    read = pages(demo)
    for name, reading in read.items():
        assert reading.faults == []
        for href in reading.values("href"):
            address = urllib.parse.urlsplit(href)
            if address.scheme in {"http", "https", "mailto", "data"}:
                continue
            target = address.path or name
            assert target in demo, f"{name}: {href}"
            if address.fragment:
                assert address.fragment in read[target].values("id"), f"{name}: {href}"
        for src in reading.values("src"):
            assert src in demo


def test_ids_stand_once_and_what_names_them_finds_them(demo: dict[str, str]) -> None:
    """No page has an id twice, the one file that holds all leaves included."""
    for name, reading in pages(demo).items():
        twice = [found for found, count in Counter(reading.values("id")).items() if count > 1]
        assert twice == [], name
        assert set(reading.references) <= set(reading.values("id")), name


def test_the_one_file_needs_no_other(demo: dict[str, str]) -> None:
    """handbook.html holds its look, scripts and data, and asks for no file."""
    reading = Reading(demo["handbook.html"])
    assert reading.values("src") == []
    assert [each["href"] for each in reading.named("link")] == ["data:,"]
    assert all(href.startswith(("#", "http")) for href in reading.values("href")[1:])
    scripts = "\n".join(reading.scripts)
    for name in ("bench.js", "search.js", "formulas.js", "catalog.js", "search-index.js"):
        assert demo[f"assets/{name}"].strip().splitlines()[-1] in scripts


def test_every_page_names_the_shop_and_says_it_is_invented(demo: dict[str, str]) -> None:
    """The demo shop's name is in every title and head, with the words that it is invented."""
    for name, text in demo.items():
        if name.endswith(".html"):
            title = re.search("<title>(.*)</title>", text)
            assert title, name
            assert DEMO.shop.name in title[1]
            assert site.INVENTED in Reading(text).text
            assert "Works offline" in text


def test_a_real_shop_is_not_called_invented() -> None:
    """The words stand only where the shop says so of itself."""
    for text in site.files(handbook("<p>x</p>")).values():
        assert site.INVENTED not in text


def test_the_same_handbook_gives_the_same_bytes(demo: dict[str, str], tmp_path: Path) -> None:
    """Another process with another hash seed and time zone writes the same files."""
    code = (
        "import sys; from pathlib import Path; from formulas.catalog import load;"
        "from site_builder import content;"
        "from site_builder.screen import site;"
        "site.write(content.read(load(content.CONTENT / 'demo-shop')), Path(sys.argv[1]))"
    )
    changed = os.environ | {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    command = [sys.executable, "-c", code, str(tmp_path)]
    subprocess.run(command, check=True, env=changed, cwd=CONTENT.parent)
    found = {
        path.relative_to(tmp_path).as_posix(): path.read_bytes()
        for path in tmp_path.rglob("*")
        if path.is_file()
    }
    assert found == {name: text.encode() for name, text in demo.items()}


def test_leaves_turn_in_order(demo: dict[str, str]) -> None:
    """From the first leaf, the links to the next leaf pass every leaf once."""
    slugs = [leaf.slug for leaf in content.read(DEMO).leaves]
    at, passed = slugs[0], [slugs[0]]
    while True:
        after = [
            a["href"] for a in Reading(demo[f"{at}.html"]).named("a") if a.get("rel") == "next"
        ]
        if not after:
            break
        at = after[0].removesuffix(".html")
        passed.append(at)
    assert passed == slugs


def test_the_index_counts_titles_for_more() -> None:
    """A word in a title weighs more than in the text; what parts say in attributes is found."""
    made = handbook("<p>dammar dammar</p>", "<caution title='Dammar burns'/>")
    index = search_index.index(made)
    assert index["words"]["dammar"] == [0, 2, 1, 1]
    assert index["words"]["burn"] == [1, 1]
    title, heading, summary = search_index.TITLE, search_index.HEADING, search_index.SUMMARY
    assert heading > 1
    assert index["words"]["t"] == [0, 2 * title + summary, 1, 2 * title + summary]
    assert index["leaves"][1][:2] == ["T-02", "leaf-2"]
