"""The dialect: source and tree side by side, whole; faults with their file and line."""

from __future__ import annotations

import re
import textwrap
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_catalog import catalog

from formulas.fault import Faults
from site_builder.markup import dialect, links
from site_builder.markup.source_text import SourceText
from site_builder.markup.unbroken import IN_ONE_LINE, held, ranges

CATALOG = catalog()
LEAVES = {"resins": {"dammar", "source-one"}, "hot-wax": set()}


def tree(text: str) -> str:
    """Parse a text and write its tree out, one block a line, without the outer element."""
    parsed = dialect.parse(textwrap.dedent(text).strip("\n"), "leaf.md", CATALOG, LEAVES)
    assert parsed.tag == "div"
    blocks = [ElementTree.tostring(block, encoding="unicode").strip() for block in parsed]
    return "\n".join(blocks)


def faults(text: str) -> list[str]:
    """Parse a text that has faults and give them, one a line."""
    with pytest.raises(Faults) as caught:
        dialect.parse(textwrap.dedent(text).strip("\n"), "leaf.md", CATALOG, LEAVES)
    return [str(fault) for fault in caught.value.faults]


RENDERED = {
    "headings carry ids, the same words twice get two": (
        """
        ## Weigh & melt

        ### Again

        ### Again
        """,
        """\
<h2 id="weigh-melt">Weigh &amp; melt</h2>
<h3 id="again">Again</h3>
<h3 id="again_1">Again</h3>""",
    ),
    "running text keeps its lines": (
        """
        One *soft* and
        **firm** `code <b> & "q"`.
        """,
        """\
<p>One <em>soft</em> and
<strong>firm</strong> <code>code &lt;b&gt; &amp; "q"</code>.</p>""",
    ),
    "lists, a quotation and a rule": (
        """
        - one
        - two
            1. deep

        > said

        ---
        """,
        """\
<ul>
<li>one</li><li>two<ol><li>deep</li></ol></li></ul>
<blockquote><p>said</p></blockquote>
<hr />""".replace("<ul>\n", "<ul>"),
    ),
    "a table carries its alignment": (
        """
        | Wax | Mass |
        |:----|-----:|
        | a `x|y` | 4 |
        """,
        '<table><thead><tr><th align="left">Wax</th><th align="right">Mass</th></tr></thead>'
        '<tbody><tr><td align="left">a <code>x|y</code></td><td align="right">4</td></tr></tbody>'
        "</table>",
    ),
    "a definition list": (
        """
        Tongue
        Voice
        :   The part that swings.
        """,
        "<dl><dt>Tongue</dt><dt>Voice</dt><dd>The part that swings.</dd></dl>",
    ),
    "footnotes are numbered by their marks, without a way back": (
        """
        First[^b] and second[^a], first again[^b].

        [^a]: The *a*.
        [^b]: The b.

            More b.
        """,
        """\
<p>First<sup id="fnref-b"><a href="#fn-b">1</a></sup> and second<sup id="fnref-a"><a href="#fn-a">\
2</a></sup>, first again<sup id="fnref2-b"><a href="#fn-b">1</a></sup>.</p>
<div class="footnote"><hr /><ol><li id="fn-b"><p>The b.</p><p>More b.</p></li>\
<li id="fn-a"><p>The <em>a</em>.</p></li></ol></div>""",
    ),
    "fenced code stands as written": (
        """
        ~~~ {#id onclick=x}
        /// caution | no-such
        [[wax:no]] <b>&amp;</b> [x](javascript:x)

        # two
        ~~~
        """,
        """\
<pre><code>/// caution | no-such
[[wax:no]] &lt;b&gt;&amp;amp;&lt;/b&gt; [x](javascript:x)

# two
</code></pre>""",
    ),
    "links in, out and to one's own headings": (
        """
        ## Here

        [a](resins.md), [b](resins.md#dammar "title"), [c](#here), <https://x.example/a_b>,
        [d](mailto:a@b.example).
        """,
        """\
<h2 id="here">Here</h2>
<p><a href="resins.md">a</a>, <a href="resins.md#dammar">b</a>, <a href="#here">c</a>, \
<a href="https://x.example/a_b">https://x.example/a_b</a>,
<a href="mailto:a@b.example">d</a>.</p>""",
    ),
    "an escaped address is an address": (
        r"[a](https://x.example/a\_b)",
        '<p><a href="https://x.example/a_b">a</a></p>',
    ),
    "HTML is the text it is": (
        """
        <script>alert("1")</script>

        <div onclick="x">*a*</div>
        <img src=x onerror=alert(1)> &copy; &lt; <!-- c --> <me@x.example>
        """,
        """\
<p>&lt;script&gt;alert("1")&lt;/script&gt;</p>
<p>&lt;div onclick="x"&gt;<em>a</em>&lt;/div&gt;
&lt;img src=x onerror=alert(1)&gt; &amp;copy; &amp;lt; &lt;!-- c --&gt; &lt;me@x.example&gt;</p>""",
    ),
    "values in text, in a heading, in a cell and in a link; left alone in code": (
        r"""
        ## At [[wax:softening-point@drop-point]]

        About **[[ wax:density-solid ]]**, `[[wax:density-solid]]`, \[[wax:density-solid]].

        | Loss | Not known |
        |------|-----------|
        | [[figure:loss]] | [[oil:flash-point]] |

        [[[figure:shift]]](resins.md)
        """,
        """\
<h2 id="at-6265-c">At <value low="62" high="65" unit="degC" basis="published" \
source="big-list-2001">62–65 °C</value></h2>
<p>About <strong><value low="958" high="970.5" unit="kg/m**3" basis="practice">958–970.5 kg/m³\
</value></strong>, <code>[[wax:density-solid]]</code>, [[wax:density-solid]].</p>
<table><thead><tr><th>Loss</th><th>Not known</th></tr></thead><tbody><tr><td>\
<value low="2" high="5" unit="percent" basis="practice">2–5 %, usually 3 %</value></td><td>\
<unknown reason="ask the maker for the data sheet, or measure it and add a row to facts.csv \
with basis 'measured'">not known</unknown></td></tr></tbody></table>
<p><a href="resins.md"><value low="-3" high="0" unit="degC" basis="memory" \
source="old-book-1900">-3 to 0 °C</value></a></p>""",
    ),
    "parts stand where they were placed, in a list too; their text is not read as Markdown": (
        """
        Before.
        /// form-lines | *Name*; Date
        ///
        After.

        - Item

            /// caution | wet
            ///
        """,
        """\
<p>Before.</p>
<formline label="*Name*" />
<formline label="Date" />
<p>After.</p>
<ul><li><p>Item</p><caution id="wet" title="Dry pot." basis="practice"><p>Dry it.</p></caution>\
</li></ul>""",
    ),
    "a tick list turns its list into boxes": (
        """
        /// tick-list
        - The lid *lies* ready.
        - Sleeves are long.
        ///
        """,
        "<ticks><li>The lid <em>lies</em> ready.</li><li>Sleeves are long.</li></ticks>",
    ),
    "a part within a part needs fewer slashes": (
        """
        //// tick-list
        - One.

        /// form-lines | By
        ///
        ////
        """,
        '<ticks><li>One.</li></ticks>\n<formline label="By" />',
    ),
    "what the dialect leaves out stays text": (
        """
            indented

        [a][b] two blanks\x20\x20
        next

        [b]: resins.md
        """,
        """\
<p>indented</p>
<p>[a][b] two blanks\x20\x20
next</p>
<p>[b]: resins.md</p>""",
    ),
}


@pytest.mark.parametrize(("source", "result"), RENDERED.values(), ids=RENDERED)
def test_source_becomes_this_tree(source: str, result: str) -> None:
    """A source gives exactly the tree beside it."""
    assert tree(source) == result


FAULTY = {
    "an unknown part": (
        "Text.\n\n/// cuation | hot\n///",
        ["leaf.md:3: part: found 'cuation', accepted: the name of a part; did you mean 'caution'?"],
    ),
    "an unknown argument": (
        "/// caution | hott\n///",
        ["leaf.md:1: part: found 'hott', accepted: an id of cautions.csv; did you mean 'hot'?"],
    ),
    "an argument that is missing, and one too many": (
        "/// facts\n///\n\n/// materials | wax\n///",
        [
            "leaf.md:1: part: found nothing, accepted: an id of materials.csv",
            "leaf.md:4: part: found 'wax', accepted: no argument",
        ],
    ),
    "a part left open, one closed twice, text inside": (
        "/// caution | hot\n\n/// caution | wet\nlost\n///\n\n///",
        [
            "leaf.md:1: part: found 'caution', accepted: a part closed by ///",
            "leaf.md:3: part: found 'lost', accepted: nothing inside a part",
            "leaf.md:7: part: found '///', accepted: this many slashes after an open part",
        ],
    ),
    "a tick list without a list, and with attributes": (
        "/// tick-list\nwords\n///\n\n/// tick-list\n    attrs: {onclick: x}\n\n- a\n///",
        [
            "leaf.md:1: part: found 'words', accepted: a list of things to tick, a - each",
            "leaf.md:5: part: found 'attrs: {onclick: x}', accepted: a list of things to tick, "
            "a - each",
        ],
    ),
    "values": (
        "A\n[[waxx:density-solid]] and\n[[wax:densty-solid]]\n\n"
        "| a | b |\n|---|---|\n| [[wax:softening-point]] | [[wax:softening-point@dropp-point]] |\n"
        "\n[[figure:los]] [[wax]] [[wax:density-solid@hand]]",
        [
            "leaf.md:2: value: found 'waxx:density-solid', accepted: material:property, "
            "material:property@method, figure:id; did you mean 'wax:density-solid'?",
            "leaf.md:3: value: found 'wax:densty-solid', accepted: a property of facts.csv after "
            "the material; did you mean 'wax:density-solid'?",
            "leaf.md:7: value: found 'wax:softening-point', accepted: material:property@method, "
            "with the test method",
            "leaf.md:7: value: found 'wax:softening-point@dropp-point', accepted: "
            "material:property@method, with the test method; did you mean "
            "'wax:softening-point@drop-point'?",
            "leaf.md:9: value: found 'figure:los', accepted: figure:id of figures.csv; "
            "did you mean 'figure:loss'?",
            "leaf.md:9: value: found 'wax', accepted: material:property, "
            "material:property@method, figure:id",
            "leaf.md:9: value: found 'wax:density-solid@hand', accepted: no method; "
            "did you mean 'wax:density-solid'?",
        ],
    ),
    "headings": (
        "# Title\n\n#### Deep\n\n##### Deeper\n\n##",
        [
            "leaf.md:1: heading: found '# Title', accepted: ## here",
            "leaf.md:3: heading: found '#### Deep', accepted: ## or ### here",
            "leaf.md:5: heading: found '##### Deeper', accepted: ## or ### or #### here",
            "leaf.md:7: heading: found '##', accepted: ## and the words of the heading",
        ],
    ),
    "footnotes": (
        "A[^1] b[^x y]\n\n[^2]: never",
        [
            "leaf.md:1: footnote: found '[^1]', accepted: a mark with its [^1]: text",
            "leaf.md:1: footnote: found 'x y', accepted: a name of letters and digits",
            "leaf.md:3: footnote: found '[^2]:', accepted: a note that [^2] in the text points at",
        ],
    ),
    "a heading inside a list": (
        "## One\n\n- ### Two",
        [
            "leaf.md:3: heading: found '### Two', accepted: "
            "a heading outside of lists, notes and quotations"
        ],
    ),
    "a note without text": (
        "A[^1]\n\n[^1]:",
        ["leaf.md:3: footnote: found '[^1]:', accepted: its text"],
    ),
    "a picture": (
        "x\n\n![alt](a.png)",
        ["leaf.md:3: link: found '![alt](a.png)', accepted: a part that draws the picture"],
    ),
    "a row with more cells than its header": (
        "Hm.\n\n| a | b |\n|---|---|\n| 1 | 2 |\n| 1 | 2 | 3 |",
        ["leaf.md:6: table: found '| 1 | 2 | 3 |', accepted: at most 2 cells in a row"],
    ),
    "Windows line ends count as others do": (
        "a\r\nb\r\n[[wax]]\r\n",
        [
            "leaf.md:3: value: found 'wax', accepted: material:property, "
            "material:property@method, figure:id"
        ],
    ),
}


@pytest.mark.parametrize(("source", "told"), FAULTY.values(), ids=FAULTY)
def test_every_fault_is_told_with_its_line(source: str, told: list[str]) -> None:
    """A faulty source gives all its faults, each with file, line and what is accepted."""
    assert faults(source) == told


REFUSED = [
    "[x](javascript:alert(1))",
    "[x](JavaScript:alert(1))",
    "[x]( javascript:alert(1) )",
    "[x](<javascript:alert(1)>)",
    r"[x](java\script:alert(1))",
    "[x](java\tscript:alert(1))",
    "[x](&#106;avascript:alert(1))",
    "[x](data:text/html;base64,PHA+)",
    "[x](vbscript:x)",
    "[x](file:///etc/passwd)",
    "[x](//evil.example/a)",
    "[x](ftp://a.example)",
    "<ftp://a.example>",
    "<javascript://a.example/%0aalert(1)>",
    "[x](https:alert)",
    "[x](mailto:a b@c)",
    "[x](page.html)",
    "[x](../secret.md)",
    "[x]()",
]


@pytest.mark.parametrize("link", REFUSED)
def test_a_hostile_link_is_refused_with_its_line(link: str) -> None:
    """Only inner, http, https and mailto links pass; anything else is a fault on its line."""
    (fault,) = faults(f"First.\n\nThen {link} in text.")
    assert fault.startswith("leaf.md:3: link: found ")
    assert fault.endswith(f"accepted: {links.ACCEPTED}")


def test_a_link_without_a_target_names_the_nearest() -> None:
    """A wrong leaf and a wrong heading are told on every line they stand on."""
    told = faults("[a](resins.md#dammer)\n[b](resins.md#dammar)\n\n`resins.md#dammer`\n\n"
                  "[c](resins.md#dammer) [d](resin.md) [e](#nowhere)")  # fmt: skip
    assert told == [
        f"leaf.md:1: link: found 'resins.md#dammer', accepted: {links.ACCEPTED}; "
        "did you mean 'resins.md#dammar'?",
        f"leaf.md:6: link: found 'resins.md#dammer', accepted: {links.ACCEPTED}; "
        "did you mean 'resins.md#dammar'?",
        f"leaf.md:6: link: found 'resin.md', accepted: {links.ACCEPTED}; "
        "did you mean 'resins.md'?",
        f"leaf.md:6: link: found '#nowhere', accepted: {links.ACCEPTED}",
    ]  # fmt: skip


def test_one_reader_keeps_nothing_from_one_leaf_to_the_next() -> None:
    """Notes, ids and code of a leaf are not seen by the next, and trees share no element."""
    reader = dialect.Dialect(CATALOG)
    text = "## Same\n\nA[^1] [[figure:loss]]\n\n~~~\ncode\n~~~\n\n/// caution | hot\n///\n\n[^1]: B"
    first, second = (reader.parse(SourceText("leaf.md", text)).tree for _ in range(2))
    assert ElementTree.tostring(first) == ElementTree.tostring(second)
    assert not {id(one) for one in first.iter()} & {id(one) for one in second.iter()}


def test_an_empty_text_is_an_empty_tree() -> None:
    """A text of blanks gives a root without children."""
    assert ElementTree.tostring(dialect.parse(" \n\n", "leaf.md", CATALOG)) == b"<div />"


VOCABULARY = frozenset(
    (
        *("div", "h2", "h3", "h4", "p", "em", "strong", "code", "pre", "ul", "ol", "li", "table"),
        *("thead", "tbody", "tr", "th", "td", "dl", "dt", "dd", "a", "blockquote", "hr", "sup"),
        *("value", "caution", "formline", "ticks", "unknown"),
    )
)
ATTRIBUTES = frozenset(
    (
        *("id", "href", "class", "align", "low", "high", "unit", "basis", "source", "title"),
        *("codes", "label", "reason"),
    )
)
PIECES = st.sampled_from(
    [
        *"#*_`~[]()<>!|:\\-/ ^&;\"'\t",
        *("\n", "\n\n", "    ", "[^1]", "[^1]: ", "\n~~~\n", "\n```\n", "<b onclick=x>", "</b>"),
        *("[[wax:density-solid]]", "[[", "]]", "\n/// tick-list\n- a\n", "\n///\n", "&lt;"),
        *("\n/// caution | hot\n", "\n\n| a | b |\n|---|--:|\n| 1 | 2 |\n", "](javascript:x)"),
        *(
            "](resins.md)",
            "[x](",
            "\n- ",
            "\n1. ",
            "\n: ",
            "\n> ",
            "\x02",
            "\x03",
            "\x02wzxhzdk:0\x03",
        ),
        *("<!--", "-->", "<?", "<script>", "é", "中", "a", "word"),
    ]
)


@settings(max_examples=200, deadline=None)
@given(st.lists(PIECES, max_size=40).map("".join))
def test_any_text_gives_faults_or_a_tree_of_the_vocabulary(text: str) -> None:
    """Whatever is typed, no other element, attribute or address reaches a face."""
    try:
        parsed = dialect.parse(text, "leaf.md", CATALOG, LEAVES)
    except Faults:
        return
    for element in parsed.iter():
        assert element.tag in VOCABULARY
        assert set(element.attrib) <= ATTRIBUTES
        assert "javascript" not in element.get("href", "")
        assert not {"\x02", "\x03"} & set(ElementTree.tostring(element, encoding="unicode"))


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("Gum rosin 80.0 g.", ["80.0 g"]),
        ("above 85 °C, 57–68 °C; 120 mg/m³ of 8 hours", ["85 °C", "57–68 °C", "120 mg/m³"]),
        ("18 %, 2–3 times, 5 minutes, 4 m² and 30 min", ["18 %", "2–3", "4 m²", "30 min"]),
        ("60 to 65 °C, W-05 and 2026", ["65 °C"]),
        ("a slap of 0.122 mJ to 0.438 mJ, melted with 12 kJ", ["0.122 mJ", "0.438 mJ", "12 kJ"]),
    ],
)
def test_a_page_script_holds_together_what_a_page_holds(text: str, pieces: list[str]) -> None:
    """What the script takes for one piece is what the static text keeps in one line."""
    assert re.findall(IN_ONE_LINE, text) == pieces
    joined = re.sub(IN_ONE_LINE, lambda one: one[0].replace(" ", "\N{NO-BREAK SPACE}"), text)
    assert joined == held(text)
    assert set(ranges(joined)[1::2]) <= {piece.replace(" ", "\xa0") for piece in pieces}
