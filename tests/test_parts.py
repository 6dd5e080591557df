"""Parts and values: what each places, whole, from a small catalog made by hand."""

from __future__ import annotations

import importlib
import json
import sys
from pathlib import Path
from types import SimpleNamespace
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import pytest
from small_catalog import catalog

from formulas.catalog import TABLES, load
from formulas.fault import UnknownName
from formulas.formula import Formula
from formulas.wax import batch
from site_builder.markup.elements import BASES, element, span
from site_builder.parts import fact_parts, registry

CATALOG = catalog()
MEASURE = (
    "ask the maker for the data sheet, or measure it and add a row to facts.csv with basis "
    "'measured'"
)


def cell(one: Element) -> str:
    """Give a cell as text; a basis as <kind source>, what is not known as <?>."""
    text = one.text or ""
    for child in one:
        told = {
            "basis": f"<{child.get('kind')} {child.get('source', '')}>".replace(" >", ">"),
            "unknown": f"<?{child.get('reason', '')}>",
            "code": f"`{child.text}`",
            "strong": f"*{child.text}*",
        }
        text += told[child.tag] + (child.tail or "")
    return text


def shown(name: str, argument: str = "") -> str:
    """Place a part and write it out: a table as rows of cells, other elements as XML."""
    lines = []
    for one in registry.place(CATALOG, name, argument):
        if one.tag == "table":
            assert [child.tag for child in one] == ["thead", "tbody"]
            for row in one.iter("tr"):
                mark = f"#{row.get('id')} " if row.get("id") else ""
                lines.append(mark + " | ".join(cell(piece) for piece in row))
        elif one.tag == "p":
            lines.append(cell(one))
        else:
            lines.append(ElementTree.tostring(one, encoding="unicode"))
    return "\n".join(lines)


PLACED = {
    ("caution", "hot"): """\
<caution id="hot" title="Hot wax burns." codes="H300" basis="memory" source="old-book-1900">\
<p>Cover your arms.</p><p>Cool a burn at once.</p></caution>""",
    ("cautions", "mix"): """\
<caution id="hot" title="Hot wax burns." codes="H300" basis="memory" source="old-book-1900">\
<p>Cover your arms.</p><p>Cool a burn at once.</p></caution>
<caution id="wet" title="Dry pot." basis="practice"><p>Dry it.</p></caution>""",
    ("facts", "wax"): """\
A wax, also called test wax, TW; CAS 1-2-3, 4-5-6. Soft.
Temperature | Value | Test method, condition | Basis
softens or melts | 62–65 °C | Drop point | <published big-list-2001>, table 1
softens or melts | 35 °C | By hand | <practice>
flash point | above 204 °C | closed cup | <memory>
Density and heat | Value | Condition | Basis | Note
density, solid | 958–970.5 kg/m³ | 15 °C | <practice> | Dense.
latent heat of melting | 170 kJ/kg |  | <memory old-book-1900> | \n\
Code | Hazard statement | Basis
H300 | Danger: Bad. | <published big-list-2001>, row 3
Looked for, Trial wax: density, liquid; specific heat: <?"""
    + MEASURE
    + ">.",
    ("facts", "oil"): """\
An oil.
Density and heat | Value | Condition | Basis | Note
state | see the note |  | <practice> | Liquid.
Hazard statements of Trial oil: <?read section 2 of the supplier's safety data sheet; \
no row does not mean harmless>.
Looked for, Trial oil: flash point; density, solid; density, liquid; specific heat; \
latent heat of melting: <?"""
    + MEASURE
    + ">.",
    ("hazards", "wax"): """\
Code | Hazard statement | Basis
H300 | Danger: Bad. | <published big-list-2001>, row 3""",
    ("materials", ""): """\
Material | Kind | In a blend | Also called | Id
Trial wax | wax | body of a blend | test wax, TW | `wax`
Trial oil | oil | softener |  | `oil`""",
    ("methods", ""): """\
Method | Fit for | Tells | Cannot tell
Drop point | Waxes. | The first drop. | A service temperature.
By hand | Waxes. | The first drop. | A service temperature.
How far two readings of one wax may lie apart, 95 times of 100. Where it is not known, \
read one kept lot several times and see how far the readings lie apart:
Method | Standard | One person | Two laboratories | Basis
Drop point | Standard 1 | 0.8 °C | <?> | <memory>
By hand | Standard 1 | <?> | <?> | <practice>""",
    ("blends", ""): """\
Blend | Ratio | Used for | In service | Worked at | Basis of the ratio
Four to one (`four-one`) | 4 of Trial wax; 0.5 of Trial oil (parts by mass) | Trials. Weigh it. | \
<?> | 75–90 °C, <memory> | <practice>
Where a temperature is not known no row gives it: test the blend on a plate of the kind and \
weight it is to hold.""",
    ("blend", "four-one"): """\
*Four to one* `four-one`
Material | Parts by mass
Trial wax | 4
Trial oil | 0.5
<dl><dt>Used for</dt><dd>Trials.</dd><dt>In service</dt><dd><unknown>not known</unknown></dd>\
<dt>Worked at</dt><dd>75–90 °C, <basis kind="memory" /></dd><dt>Basis of the ratio</dt><dd>\
<basis kind="practice" /></dd><dt>Note</dt><dd>Weigh it.</dd></dl>
Where a temperature is not known no row gives it: test the blend on a plate of the kind and \
weight it is to hold.""",
    ("figures", "shift, loss"): """\
Figure | Value | Basis | Note
shift | -3 to 0 °C | <memory old-book-1900>, p. 5 | Wide.
lost in the pot | 2–5 %, usually 3 % | <practice> | """,
    ("figures", "loss"): """\
Figure | Value | Basis
lost in the pot | 2–5 %, usually 3 % | <practice>""",
    ("statements", "wax"): """\
Code | Statement | Basis
H300 | Danger: Bad. Pictogram: health hazard. | <memory old-book-1900>""",
    ("every-statement", ""): """\
Code | Statement | Basis
H300 | Danger: Bad. Pictogram: health hazard. | <memory old-book-1900>""",
    ("burns", ""): """\
Temperature on the skin | Time to a burn | Basis | Note
60 °C | 5 s | <published big-list-2001>, table 2 | \n\
49 °C | 5 min | <memory> | About.""",
    ("sources", ""): """\
Id | Work | By, year; kind | Was it read?
#source-big-list-2001 big-list-2001 | Big list | An agency; data sheet | \
read in part: Table 1 only.
#source-old-book-1900 old-book-1900 | Old book | A body, 1900; handbook | \
not read, named from memory""",
    ("memory-values", ""): """\
<h2 id="with-a-work">With a work to check against</h2>
<h3 id="few-of-a-work">Works with a value or two</h3>
What | Value | Check against
Trial wax, latent heat of melting | 170 kJ/kg | Old book `old-book-1900`
Trial wax with any other: softening off the straight line, for the one share times the other | \
-20, give or take 40.5; half and half a quarter of it | Old book `old-book-1900`
H300 | Bad. | Old book `old-book-1900`
Hot wax burns. | Cover your arms.
Cool a burn at once. | Old book `old-book-1900`
shift | -3 to 0 °C | Old book, p. 5 `old-book-1900`
<h2 id="without-a-work">Without a work</h2>
For none of these a work is named: measure it, or find a source before relying on it.
<h3 id="kind-burns">Burns</h3>
Heat on the skin | Time to a burn
49 °C | 5 min
<h3 id="kind-facts">Materials</h3>
What | Value
Trial wax, flash point (closed cup) | above 204 °C
<h3 id="kind-methods">Test methods</h3>
What | Value
Drop point | repeats within 0.8 °C; between laboratories not known
<h3 id="kind-blends">Blends</h3>
Blend | Ratio
Four to one, worked at | 75–90 °C
<h3 id="kind-faults-and-cures">Faults and cures</h3>
What you see or hear | Cause and cure
It is hazy | Bloom. None""",
    ("faults", "joint"): """\
What you see or hear | How to tell | Cause | Cure | To undo the cure
It rings | Tap it | Open edge | Warm it | \n\
It is hazy | It wipes off | Bloom | None | Wait
Basis of the rows: common practice; but from memory: "It is hazy".""",
    ("faults", "mistake"): """\
Mistake | How to tell | Why it happens | How to undo it
Bent | It stands high | Haste | Ask
Basis of the rows: common practice.""",
    ("mistakes", "dark"): """\
Mistake | How it looks, how to tell | Why it happens | What to do at once | How to undo it
*Dark* | It smokes | Haste | *Stop and ask.* Off | None
Basis of the rows: common practice.""",
    ("form-lines", "Made by; Date ;"): """\
<formline label="Made by" />
<formline label="Date" />""",
}


@pytest.mark.parametrize(("placed", "result"), PLACED.items(), ids=[" ".join(p) for p in PLACED])
def test_a_part_places_this(placed: tuple[str, str], result: str) -> None:
    """A part gives exactly the elements beside it."""
    assert shown(*placed) == result


def test_the_key_explains_every_basis_in_the_tables() -> None:
    """Each basis that a table may hold has its words, its mark and its meaning in the key."""
    package = json.loads((TABLES / "datapackage.json").read_text(encoding="utf-8"))
    allowed = {
        basis
        for table in package["resources"]
        for field in table["schema"]["fields"]
        if field["name"] == "basis"
        for basis in field["constraints"]["enum"]
    }
    assert set(BASES) == allowed
    (key,) = registry.place(CATALOG, "basis-key", "")
    words = [[cell(piece) for piece in row] for row in key.iterfind("tbody/tr")]
    assert words == [[mark, told, meaning] for told, mark, meaning in BASES.values()]


def test_every_property_of_the_tables_has_its_words() -> None:
    """No property that facts.csv may hold is left out of a material's tables."""
    package = json.loads((TABLES / "datapackage.json").read_text(encoding="utf-8"))
    (facts,) = (table for table in package["resources"] if table["name"] == "facts")
    (prop,) = (field for field in facts["schema"]["fields"] if field["name"] == "property")
    (cups,) = (field for field in facts["schema"]["fields"] if field["name"] == "method")
    assert set(fact_parts.WORDS) == set(prop["constraints"]["enum"])
    methods = {row.split(",")[0] for row in (TABLES / "methods.csv").read_text().splitlines()[1:]}
    assert set(cups["constraints"]["enum"]) - methods == set(fact_parts.CUPS)


def test_a_formula_is_placed_by_its_name() -> None:
    """A formula of any subject can be placed, whether or not its module was imported before."""
    name = next(name for name, made in vars(batch).items() if isinstance(made, Formula))
    (made,) = registry.place(CATALOG, "formula", name)
    assert (made.tag, made.attrib) == ("math", {"formula": name})


def test_a_chart_stands_in_a_figure_with_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """A chart's title is its caption and its description stands in for the drawing."""
    importlib.import_module("site_builder.parts.learned_charts")  # leans on the charts' strokes
    svg = element("svg", element("title", "A chart"), element("desc", "It rises."))
    charts = SimpleNamespace(softening=lambda found: svg if found is CATALOG else None)
    monkeypatch.setitem(sys.modules, "site_builder.parts.charts", charts)  # type: ignore[arg-type]
    (made,) = registry.place(CATALOG, "chart", "softening")
    assert ElementTree.tostring(made, encoding="unicode") == (
        '<figure alt="It rises."><svg><title>A chart</title><desc>It rises.</desc></svg>'
        "<figcaption>A chart</figcaption></figure>"
    )


def test_a_working_is_placed_by_its_id(monkeypatch: pytest.MonkeyPatch) -> None:
    """A working that is there gives its element, one that is not a fault with the nearest."""
    sheets = SimpleNamespace(WORKSHEETS={"mix": object(), "soften": object()})
    monkeypatch.setitem(sys.modules, "site_builder.workings.worksheets", sheets)  # type: ignore[arg-type]
    (made,) = registry.place(CATALOG, "working", "mix")
    assert (made.tag, made.attrib) == ("working", {"id": "mix"})
    with pytest.raises(UnknownName, match="did you mean 'soften'"):
        registry.place(CATALOG, "working", "softn")


@pytest.mark.parametrize("name", [name for name, part in registry.PARTS.items() if part.argument])
def test_an_argument_that_is_not_there_is_refused(name: str) -> None:
    """Every part that takes an argument refuses none, and all but the labels a wrong one."""
    with pytest.raises(UnknownName):
        registry.place(CATALOG, name, "")
    if name not in {"form-lines", "form-halves"}:
        with pytest.raises(UnknownName):
            registry.place(CATALOG, name, "no-such-thing")


@pytest.mark.parametrize(("amount", "total"), [("400g", "400.0"), ("60 plates", "105.3")])
def test_a_placed_batch_is_the_command_s(amount: str, total: str) -> None:
    """A batch on a leaf weighs what `mix` weighs, and has each of its cautions to tick."""
    # 60 plates x 1.5 g over what 10 % straining and 5 % pot loss leave: 105.26 g
    trade = load(None)
    tree = element("div", *registry.place(trade, "batch", f"beeswax-rosin-4-1 {amount}"))
    assert [cell.text for cell in tree.iter("td")][-2:] == [total, "100.00"]
    ticked = {line.get("caution") for line in tree.iter("li")}
    assert ticked == {caution.id for caution in trade.cautions_for("mix")}


@pytest.mark.parametrize("amount", ["400", "no plates", "0 plates", "-3 g"])
def test_a_batch_of_no_amount_is_refused(amount: str) -> None:
    """What is no mass and no number of plates is refused with both forms."""
    with pytest.raises(UnknownName, match="400g or 60 plates"):
        registry.place(load(None), "batch", f"beeswax-rosin-4-1 {amount}")


def test_the_words_of_every_part_are_placed_here() -> None:
    """No part goes without a test."""
    elsewhere = {
        "basis-key",
        "batch",
        "bend-rods",
        "boiling",
        "burn-at",
        "chart",
        "chemical-register",
        "cleaning-tasks",
        "creep-loads",
        "drawing",
        "exercise-keys",
        "exercises",
        "first-year",
        "form-choice",
        "form-halves",
        "form-table",
        "grade-scale",
        "new-page",
        "order-of-work",
        "step-needs",
        "step-times",
        "steps-by-people",
        "survey-form",
        "survey-grades",
        "formula",
        "gasket-fasteners",
        "gaskets",
        "glossary",
        "glue-choice",
        "glues",
        "incompatible",
        "jar-label-order",
        "label",
        "protection",
        "label-order",
        "label-stock",
        "limit-sensitivity",
        "limits",
        "measuring-helps",
        "own-figures",
        "own-limits",
        "own-stocks",
        "pictograms",
        "plates-compared",
        "postures",
        "pot-book",
        "pot-sheet",
        "read-from",
        "reed-sizes",
        "seat-leaks",
        "seats",
        "seats-by-service",
        "seats-refused",
        "shop-jobs",
        "softening-now",
        "softening-tests",
        "solvent-attacks",
        "solvent-fire",
        "solvent-hazards",
        "solvent-limits",
        "solvent-values",
        "solvents",
        "stock-grades",
        "strips-needed",
        "term-index",
        "test-sheet",
        "unit-factors",
        "valve-chart",
        "valve-charts",
        "valve-classes",
        "valve-facts",
        "valve-materials",
        "who-may-do-what",
        "thermometer-shows",
        "window-chart",
        "working",
    }
    assert {name for name, _ in PLACED} | elsewhere == set(registry.PARTS)


VALUES = {
    "wax:softening-point@drop-point": (
        '<value low="62" high="65" unit="degC" basis="published" source="big-list-2001">'
        "62–65 °C</value>"
    ),
    "wax:flash-point": '<value low="204" unit="degC" basis="memory">above 204 °C</value>',
    "wax:flash-point@closed-cup": (
        '<value low="204" unit="degC" basis="memory">above 204 °C</value>'
    ),
    "wax:flash-point@open-cup": f'<unknown reason="{MEASURE}">not known</unknown>',
    "figure:shift": (
        '<value low="-3" high="0" unit="degC" basis="memory" source="old-book-1900">'
        "-3 to 0 °C</value>"
    ),
}


@pytest.mark.parametrize(("name", "result"), VALUES.items())
def test_a_value_in_text(name: str, result: str) -> None:
    """A value carries its range, unit, basis and source; what no table holds says so."""
    assert ElementTree.tostring(registry.inline(CATALOG, name), encoding="unicode") == result


def test_a_union_of_rows_in_two_units_keeps_the_decimals_of_its_rows() -> None:
    """Rows in degC and degF are joined without inventing decimals."""
    from small_catalog import fact

    rows = [
        fact("wax", "colour-onset", 61.5, 62, "degC"),
        fact("wax", "colour-onset", 140, 143, "degF"),  # 60 to 61.666… degC
    ]
    made = registry.inline(catalog(facts=rows), "wax:colour-onset")
    assert made.text == "60–62 °C"
    rows.append(fact("wax", "colour-onset", 139, 139, "degF"))  # 59.444… degC
    assert registry.inline(catalog(facts=rows), "wax:colour-onset").text == "59.4–62 °C"


@pytest.mark.parametrize(
    ("low", "high", "unit", "text"),
    [
        (62, 65, "degC", "62–65 °C"),
        (0.1, 0.25, "mm", "0.1–0.25 mm"),
        (4, 4, "1", "4"),
        (-8, -3, "degC", "-8 to -3 °C"),
        (None, None, "degC", ""),
    ],
)
def test_a_range_in_print(low: float | None, high: float | None, unit: str, text: str) -> None:
    """A range has its unit once, equal ends are one value, a minus sign takes no dash."""
    assert span(low, high, unit) == text


def test_no_part_holds_a_fact() -> None:
    """The files that place parts hold no number with a unit: numbers stand in the tables."""
    import re

    for path in sorted(Path(registry.__file__).parent.glob("*_parts.py")):
        name, text = path.name, path.read_text(encoding="utf-8")
        assert not re.search(r"\d\s?(°C|degC|mm|kg|kJ|%)", text), name
