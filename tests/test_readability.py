"""How hard each leaf is to read, told and not enforced: `pytest -rP tests/test_readability.py`.

The measure is the automated readability index of Senter and Smith (1967): letters a word and words
a sentence, as a year of school in the United States. It counts no syllables, which programs count
badly. It says nothing of whether a sentence is true, clear or needed.
"""

from __future__ import annotations

import re
import statistics
from collections.abc import Callable
from xml.etree.ElementTree import Element

import pytest
import readability
from leaf_reading import handbook

from site_builder.content import Leaf
from site_builder.markup.elements import element, paragraph, plain

# What is no running text: cells, boxes of the tables, forms, formulas, drawings, commands.
NO_PROSE = {"table", "caution", "working", "exercise", "math", "figure", "pre", "code", "wordlist"}
NO_PROSE |= {"formline", "formtable", "formchoice", "charttable", "ticks", "h2", "h3", "h4"}
LISTED = ("Looked for,",)  # a list that the tables make
END = re.compile(r"""(?:(?<=[.!?])|(?<=[.!?]"))\s+""")
WORST = 10


def sentences(tree: Element) -> list[str]:
    """Give the sentences of the running text below an element, a line each."""
    found: list[str] = []
    for one in tree:
        if one.tag in NO_PROSE:
            continue
        if one.tag in {"p", "li"} and one.find("p") is None:
            without = re.sub(r"\s+", " ", prose(one)).strip()
            if without.startswith(LISTED):
                continue
            found += [part for part in END.split(without) if part]
        else:
            found += sentences(one)
    return found


def prose(one: Element) -> str:
    """Give the words of a paragraph without its code; a number with its unit counts as one word."""
    if one.tag in NO_PROSE:
        return " "
    if one.tag == "value":
        return plain(one).replace(" ", "").replace("\xa0", "")
    return (one.text or "") + "".join(prose(child) + (child.tail or "") for child in one)


def grade(lines: list[str]) -> float:
    """Give the index of sentences, as the library reckons it from words set apart by spaces."""
    apart = [" ".join(re.findall(r"[\w'’°%/.,–-]*\w|[^\w\s]", line)) for line in lines]
    return float(readability.getmeasures(apart, lang="en")["readability grades"]["ARI"])


def test_a_known_text_has_its_known_grade():
    """4.71 x letters a word + 0.5 x words a sentence - 21.43, reckoned by hand."""
    # "The wax is hot." "Put the lid on the pot." 10 words, 2 sentences, letters:
    # 3 + 3 + 2 + 3 and 3 + 3 + 3 + 2 + 3 + 3 = 28
    found = grade(["The wax is hot.", "Put the lid on the pot."])
    # the same sum in another order: rounding of doubles only
    assert found == pytest.approx(4.71 * 28 / 10 + 0.5 * 10 / 2 - 21.43, abs=1e-9)


def test_only_running_text_counts():
    """Cells, boxes and commands do not count; a list does."""
    table = element("table", element("tr", element("td", "Incomprehensibilities abound.")))
    code = paragraph("Type ", element("code", "benchbinder"), " here. Then look.")
    items = element("ul", element("li", "Wipe it."))
    tree = element("div", table, element("caution", paragraph("Stop.")), code, items)
    assert sentences(tree) == ["Type here.", "Then look.", "Wipe it."]


def test_every_leaf_has_a_grade(record_property: Callable[[str, object], None]):
    """Each leaf with ten sentences or more gets a grade, and the report names the hardest."""
    grades: dict[str, tuple[float, Leaf]] = {}
    for leaf in handbook().leaves:
        lines = sentences(leaf.tree)
        if len(lines) >= WORST:
            grades[leaf.number] = grade(lines), leaf
            record_property(f"grade {leaf.number}", round(grades[leaf.number][0], 1))
    middle = statistics.median(found for found, _ in grades.values())
    record_property("median grade", round(middle, 1))
    print(f"{len(grades)} leaves, median grade {middle:.1f}; the hardest:")
    for found, leaf in sorted(grades.values(), key=lambda one: -one[0])[:WORST]:
        print(f"  {found:5.1f}  {leaf.number}  {leaf.title}")
    assert len(grades) > 70
