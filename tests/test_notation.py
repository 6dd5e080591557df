"""Formulas as they are shown: Typst's maths, MathML and plain text, read back and evaluated."""

from __future__ import annotations

import ast
import importlib
import json
import math
import pkgutil
import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import arguments
import prototypes
import pytest
import reading
import seeing
import typst

import formulas
from formulas import units
from formulas.fault import Refused, UnitFault
from formulas.formula import FORMULAS, Formula, Procedure
from site_builder.notation import maths, spelling, writers

for module in pkgutil.walk_packages(formulas.__path__, "formulas."):
    importlib.import_module(module.name)

SHOWN = {**FORMULAS, **prototypes.HARD}
RANDOM = 300
POINTS = 8
CLOSE = {"rel": 1e-7, "abs": 1e-7}  # the shown form adds and multiplies in another order

every_formula = pytest.mark.parametrize("name", sorted(SHOWN))


WRITERS = (writers.typst_math, writers.spoken, writers.symbols)


@pytest.fixture(scope="module")
def drawn() -> dict[str, Any]:
    """Let Typst make its trees of all formulas, once."""
    return dict(zip(SHOWN, _trees(SHOWN.values()), strict=True))


@pytest.fixture(scope="module")
def marked() -> dict[str, str]:
    """Let Typst make MathML of all formulas, once."""
    return writers.mathml(SHOWN.values())


@pytest.fixture(scope="module")
def chance_formulas(tmp_path_factory: pytest.TempPathFactory) -> list[Formula[..., Any]]:
    """Write random formulas to a file and load it."""
    return prototypes.random_formulas(tmp_path_factory.mktemp("random"), RANDOM, 1)


@pytest.fixture(autouse=True)
def _written_anew() -> Iterator[None]:
    """Keep nothing of what a mutated writer wrote, nor show it what was written before."""
    for one in WRITERS:
        one.cache_clear()
    yield
    for one in WRITERS:
        one.cache_clear()


def _trees(shown: Any) -> list[Any]:
    return seeing.equations([writers.typst_math(formula) for formula in shown])


def _compare(formula: Formula[..., Any], reader: reading.Reader, points: int) -> int:
    """Evaluate both at random points; give at how many both had a value."""
    chance = random.Random(formula.name)
    compared = 0
    for _ in range(points):
        values = arguments.draw(formula, chance)
        try:
            wanted = formula(**values)
        except (ArithmeticError, ValueError, TypeError):  # TypeError: a complex root compared
            continue
        if isinstance(wanted, complex) or not math.isfinite(wanted) or abs(wanted) > 1e12:
            continue
        assert reader(**values) == pytest.approx(wanted, **CLOSE), formula.name
        compared += 1
    return compared


@every_formula
def test_typst_shows_what_python_computes(name: str, drawn: dict[str, Any]) -> None:
    """The tree that Typst made of a formula gives Python's value."""
    lines = seeing.typst_lines(drawn[name])
    assert _compare(SHOWN[name], reading.Reader(SHOWN[name], lines), 50) >= 30


@every_formula
def test_mathml_shows_what_python_computes(name: str, marked: dict[str, str]) -> None:
    """The MathML of a formula is well-formed, of the elements we know, and gives Python's value."""
    lines = seeing.mathml_lines(marked[name])
    assert _compare(SHOWN[name], reading.Reader(SHOWN[name], lines), 50) >= 30


@every_formula
def test_plain_text_says_what_python_computes(name: str) -> None:
    """The plain text of a formula gives Python's value."""
    lines = seeing.plain_lines(writers.spoken(SHOWN[name]))
    assert _compare(SHOWN[name], reading.PlainReader(SHOWN[name], lines), 50) >= 30


def test_random_formulas_are_shown_right(chance_formulas: list[Formula[..., Any]]) -> None:
    """Random formulas read back from Typst, from MathML and from plain text give Python's value."""
    marked = writers.mathml(chance_formulas)
    compared = 0
    for formula, tree in zip(chance_formulas, _trees(chance_formulas), strict=True):
        plain = seeing.plain_lines(writers.spoken(formula))
        compared += _compare(formula, reading.Reader(formula, seeing.typst_lines(tree)), POINTS)
        compared += _compare(formula, reading.PlainReader(formula, plain), POINTS)
        mathml = seeing.mathml_lines(marked[formula.name])
        compared += _compare(formula, reading.Reader(formula, mathml), POINTS)
    assert compared > 3 * RANDOM * POINTS / 2


def _no_brackets(piece: spelling.Piece, _: int) -> spelling.Piece:
    return piece


def _always_a_space(*_: Any) -> str:
    return " "


def _by_slash(_: Any, over: spelling.Piece, under: spelling.Piece) -> spelling.Piece:
    return spelling.Piece(f"{over.text} / {under.text}")


def _bare_exponent(_: Any, base: spelling.Piece, exponent: spelling.Piece) -> spelling.Piece:
    return spelling.Piece(f"{base.text}^{exponent.text}")


MUTATIONS = {
    "brackets lost": (maths, "held", _no_brackets),
    "product sign lost": (spelling.Typst, "_between", _always_a_space),
    "fraction by slash": (spelling.Typst, "fraction", _by_slash),
    "exponent bare": (spelling.Typst, "power", _bare_exponent),
    "minus binds like plus": (maths, "TOTAL", spelling.ADDED),
}


@pytest.mark.parametrize("mutation", sorted(MUTATIONS))
def test_a_broken_writer_is_caught(
    mutation: str, monkeypatch: pytest.MonkeyPatch, chance_formulas: list[Formula[..., Any]]
) -> None:
    """A writer that loses a bracket or a sign shows something Python does not compute."""
    monkeypatch.setattr(*MUTATIONS[mutation])
    few = [*prototypes.HARD.values(), *chance_formulas[:60]]
    caught = 0
    for formula, tree in zip(few, _trees(few), strict=True):
        try:
            _compare(formula, reading.Reader(formula, seeing.typst_lines(tree)), POINTS)
        except (AssertionError, ArithmeticError, ValueError, LookupError, TypeError):
            caught += 1
    assert caught > 0


def _comparisons(formula: Formula[..., Any]) -> list[str]:
    signs = {"Lt": "<", "LtE": "≤", "Gt": ">", "GtE": "≥", "Eq": "=", "NotEq": "≠"}
    lines = [node for node in formula.tree.body if isinstance(node, ast.Assign | ast.Return)]
    ordered = [lines[-1], *lines[:-1]]  # the result is shown first
    nodes = [node for line in ordered for node in ast.walk(line) if isinstance(node, ast.Compare)]
    return sorted(signs[type(op).__name__] for node in nodes for op in node.ops)


@every_formula
def test_comparisons_keep_their_signs(
    name: str, drawn: dict[str, Any], marked: dict[str, str]
) -> None:
    """Less and less-or-equal, which random numbers do not tell apart, are shown as written."""
    formula = SHOWN[name]
    readers = [
        reading.Reader(formula, seeing.typst_lines(drawn[name])),
        reading.Reader(formula, seeing.mathml_lines(marked[name])),
        reading.PlainReader(formula, seeing.plain_lines(writers.spoken(formula))),
    ]
    for reader in readers:
        assert sorted(reader.comparisons) == _comparisons(formula)


def test_whole_numbers_meet_every_comparison() -> None:
    """Equal numbers take the case the sign says, in plain text as in Python."""
    formula = prototypes.HARD["every_comparison"]
    reader = reading.PlainReader(formula, seeing.plain_lines(writers.spoken(formula)))
    for a in range(3):
        for b in range(3):
            assert reader(a=a, b=b) == formula(a=a, b=b)


WIDTH_MM = 150  # A4, 210, less a binding margin of 25 and 15 outside, less an indent of 20


def test_registered_formulas_fit_the_leaf() -> None:
    """No formula of the trade, set at 11 pt, is wider than the text of a leaf."""
    boxes = "\n".join(
        f"#context [#metadata(measure($ {writers.typst_math(formula)} $).width / 1mm)<w>]"
        for formula in FORMULAS.values()
    )
    found = typst.eval(f"#set text(11pt)\n{boxes}".encode(), "query(<w>).map(m => m.value)")
    assert len(json.loads(found)) == len(FORMULAS)
    assert max(json.loads(found)) < WIDTH_MM


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_every_formula_takes_quantities(name: str) -> None:
    """`.at` gives the floats' value in the formula's unit, and refuses a wrong dimension."""
    formula = FORMULAS[name]
    values = arguments.draw(formula, random.Random(name))
    quantities = {key: _quantity(values[key], q.unit) for key, q in formula.arguments.items()}
    answer = formula.at(**quantities)
    assert answer.units == units.registry().Unit(formula.unit or "dimensionless")
    assert answer.magnitude == pytest.approx(formula(**values), rel=1e-12)
    wrong = units.registry().Quantity(1.0, "mol")  # no formula has an amount of substance
    first = next(iter(quantities))
    spoiled = [wrong] if isinstance(quantities[first], list) else wrong
    with pytest.raises(UnitFault):
        formula.at(**{**quantities, first: spoiled})


def _quantity(value: Any, unit: str) -> Any:
    if isinstance(value, list):
        return [_quantity(item, unit) for item in value]
    return units.registry().Quantity(value, unit or "dimensionless")


# Formulas that hold a number with a dimension of its own; each would need its reason here.
NOT_HOMOGENEOUS: dict[str, str] = dict.fromkeys(
    ("rigidity", "bending_length_of", "first_frequency", "foot_pressure"),
    "holds the standard pull of gravity, as every weight on a bench does",
) | dict.fromkeys(
    ("mass_in_air", "share_in_air"),
    "holds the gas constant, which the SI fixes in its own units",
)


@pytest.mark.parametrize("name", sorted(set(FORMULAS) - set(NOT_HOMOGENEOUS)))
def test_every_formula_is_homogeneous(name: str) -> None:
    """Other base units, the same law: scaled inputs give the result scaled by its own dimension."""
    formula, chance = FORMULAS[name], random.Random(name)
    dimensions = {key: _dimensions(q.unit) for key, q in formula.arguments.items()}
    bases = sorted({base for each in dimensions.values() for base in each})
    factors = {base: chance.uniform(2, 3) for base in bases}
    values = arguments.draw(formula, chance)
    scaled = {key: _scaled(values[key], _factor(dimensions[key], factors)) for key in values}
    wanted = formula(**values) * _factor(_dimensions(formula.unit), factors)
    assert formula(**scaled) == pytest.approx(wanted, rel=1e-9)


def _dimensions(unit: str) -> dict[str, float]:
    found = units.registry().Unit(unit or "dimensionless").dimensionality
    return {str(base): float(power) for base, power in found.items()}


def _factor(dimensions: dict[str, float], factors: dict[str, float]) -> float:
    return math.prod(factors[base] ** power for base, power in dimensions.items())


def _scaled(value: Any, factor: float) -> Any:
    return [_scaled(item, factor) for item in value] if isinstance(value, list) else value * factor


def test_symbols_carry_their_indices() -> None:
    """A list's symbol in the list of symbols has an index for each of its directions."""
    found = writers.symbols(prototypes.HARD["mixture"])
    assert [symbol.plain for symbol in found] == ["T", "w_i", "β_i", "β_i,j"]
    assert [symbol.typst for symbol in found] == ["T", "w_(i)", "β_(i)", "β_(i j)"]


def test_writing_repeats_to_the_byte() -> None:
    """Two runs write the same text."""
    assert writers.mathml(SHOWN.values()) == writers.mathml(SHOWN.values())
    every = [*SHOWN.values(), *prototypes.HARD_PROCEDURES.values()]
    assert writers.javascript(every) == writers.javascript(list(reversed(every)))


REFUSED: list[tuple[str, str, str]] = [
    # what is written, how many lines below `def`, what the fault names
    ("return a % b", "formula", "`a % b`"),
    ("return a // b", "formula", "`a // b`"),
    ("return round(a)", "formula", "`round`"),
    ("return a and b", "formula", "`a`"),
    ("for i in range(3):\n        a += i\n    return a", "formula", "`for i in range(3):`"),
    ("if a > b:\n        a = b\n    return a", "formula", "`if a > b:`"),
    ("import os\n    return a", "procedure", "`import os`"),
    ("try:\n        a = b\n    finally:\n        pass\n    return a", "procedure", "`try:`"),
    ("while a:\n        a -= 1\n    return a", "procedure", "`a`"),
    ("return str(a)", "procedure", "`str(a)`"),
    ("return f'{a}'", "procedure", "`f'{a}'`"),
    ("return x + [a]", "procedure", "`x + [a]`"),
    ("return x == [a]", "procedure", "`x == [a]`"),
    ("return sorted(x, reverse=True)", "procedure", "`sorted(x, reverse=True)`"),
    ("return sorted(x, key=lambda v: str(int(v)))", "procedure", "`sorted("),
    ("return unknown + a", "procedure", "`unknown`"),
    ("return {a: b}", "procedure", "`{a: b}`"),
    ("return helper(a)", "procedure", "`helper`"),
    ("return x.pop()", "procedure", "`x.pop`"),
    ("return None", "procedure", "`None`"),
]
NOT_SHOWN: list[tuple[str, str]] = [
    ("return abs(a - abs(b))", "`abs(b)`"),
    ("return 2 * (a if a > b else b)", "`a if a > b else b`"),
    ("return sum(a for i in range(len(x)))", "`a`"),
    ("return sum(v for v in x if v > 2)", "`v > 2`"),
    ("return sum(x[i] for i in range(1, len(x)))", "`range(1, len(x))`"),
    ("return sum(v for v, u in zip(x, y))", "`v`"),
    ("return x", "`x`"),
    ("a = a + 1\n    return a", "`a = a + 1`"),
    ("return x[-1]", "`-1`"),
    ("return a > b", "`a > b`"),
    ("return x[0] + x_1", "`x_(1)` for x_1 and for x"),
]
HEAD = """from prototypes import Number, Numbers, Square

def helper(a):
    return a

"""


def _loaded(tmp_path: Path, body: str, arguments_: str, unique: str) -> Callable[..., Any]:
    text = f"{HEAD}def refused({arguments_}) -> float:\n    {body}\n"
    (tmp_path / f"{unique}.py").write_text(text, encoding="utf-8")
    spec = importlib.util.spec_from_file_location(unique, tmp_path / f"{unique}.py")
    assert spec is not None
    assert spec.loader is not None
    made = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(made)
    found: Callable[..., Any] = made.refused
    return found


ARGUMENTS = "a: Number, b: Number, x: Numbers, y: Numbers, x_1: Number"
LINE = HEAD.count("\n") + 2


@pytest.mark.parametrize(("body", "kind", "found"), REFUSED)
def test_python_beyond_the_subset_is_refused(
    tmp_path: Path, body: str, kind: str, found: str
) -> None:
    """What the script writer does not translate is refused with its file and line."""
    function = _loaded(tmp_path, body, ARGUMENTS, "refused_script")
    made: Procedure[..., Any] = Procedure(function, "refused")
    if kind == "formula":
        made = Formula(function, "refused", symbol="r", unit="", source="definition")
    with pytest.raises(Refused) as caught:
        writers.javascript([made])
    assert (caught.value.file, caught.value.line) == ("refused_script.py", LINE)
    assert caught.value.found.startswith(found)


@pytest.mark.parametrize(("body", "found"), NOT_SHOWN)
def test_what_cannot_be_shown_is_refused(tmp_path: Path, body: str, found: str) -> None:
    """What no reader could tell apart is refused with its file and line."""
    function = _loaded(tmp_path, body, ARGUMENTS, "refused_maths")
    made = Formula(function, "refused", symbol="r", unit="", source="definition")
    with pytest.raises(Refused) as caught:
        writers.typst_math(made)
    assert (caught.value.file, caught.value.line) == ("refused_maths.py", LINE)
    assert caught.value.found == found


def test_one_symbol_for_two_numbers_is_refused(tmp_path: Path) -> None:
    """Two inputs may share a symbol only where the number of their indices differs."""
    twice = "a: Annotated[float, Q('', 'one', 'β')], b: Annotated[float, Q('', 'two', 'β')]"
    body = "return a + b"
    text = f"from prototypes import Annotated, Q\n\ndef refused({twice}) -> float:\n    {body}\n"
    (tmp_path / "twice.py").write_text(text, encoding="utf-8")
    spec = importlib.util.spec_from_file_location("twice", tmp_path / "twice.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    made = Formula(module.refused, "refused", symbol="r", unit="", source="definition")
    with pytest.raises(Refused, match=r"twice\.py:3: found one symbol for a and b"):
        writers.typst_math(made)
