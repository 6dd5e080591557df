"""Formulas and procedures that are hard to translate, and random ones; none of them registered."""

from __future__ import annotations

import importlib.util
import itertools
import math
import random
from collections.abc import Callable, Sequence
from math import sqrt
from pathlib import Path
from typing import Annotated, Any

from formulas.formula import Formula, Procedure, Q

HARD: dict[str, Formula[..., Any]] = {}
HARD_PROCEDURES: dict[str, Procedure[..., Any]] = {}

GRAVITY = 9.80665
MILLION = 1e6
SMALL = 2.5e-7
OFFSET = -3.25


def hard(symbol: str) -> Callable[[Callable[..., Any]], Formula[..., Any]]:
    """Make a formula that only the tests know."""

    def mark(function: Callable[..., Any]) -> Formula[..., Any]:
        title = f"Prototype of {function.__name__}"
        made = Formula(function, title, symbol=symbol, unit="", source="definition")
        HARD[made.name] = made
        return made

    return mark


def hard_procedure(function: Callable[..., Any]) -> Procedure[..., Any]:
    """Make a procedure that only the tests know."""
    made = Procedure(function, f"Prototype of {function.__name__}")
    HARD_PROCEDURES[made.name] = made
    return made


Number = Annotated[float, Q("", "a number")]
Numbers = Annotated[Sequence[float], Q("", "numbers")]
Square = Annotated[Sequence[Sequence[float]], Q("", "rows of numbers")]


@hard("D")
def stiffness(m: Number, c: Number) -> float:
    """A constant of the module and a power of ten."""
    return m * GRAVITY * c**3 / MILLION


@hard("p")
def on_the_way(d: Number, m: Number, c: Number, L: Number) -> float:
    """Two steps before the result, the second of which uses the first."""
    mass = m * 9.80665
    D: float = mass * c**3 / 1e6
    return 8e6 * D * d / L**4


@hard("r")
def minus_signs(a: Number, b: Number, c: Number) -> float:
    """Minus before brackets, powers, products and numbers."""
    return a - (b - c) - (b + c) + -a - -b * c + (-a) ** 2 - a**2 - (-c + b) + OFFSET


@hard("r")
def powers(a: Number, b: Number, c: Number) -> float:
    """Powers of powers, negative powers, powers of products and of functions."""
    return a**-b + (a * b) ** 2 + (a**b) ** c + a**b**0.5 + (a / b) ** 2 + sqrt(a) ** 3 + 2**-a


@hard("r")
def fractions(a: Number, b: Number, c: Number) -> float:
    """Fractions in fractions, beside numbers and in products."""
    return a / b / c + a / (b / c) + 2 * (1 / 3) + (a / b) * 2 + a * (b + c) / 2 - 1 / (a + b) * c


@hard("r")
def numbers(a: Number) -> float:
    """Numbers beside numbers; large, small and plain ones."""
    return 2 * 3 * a + 1e6 * a + 2.5e-7 + SMALL * 4 + 101325 + 1e-3 / a + (1e6) ** 0.5 + 12000.0


@hard("r")
def functions(a: Number, b: Number) -> float:
    """Every function that is shown."""
    curve = math.asinh(a) + math.sinh(b / 50) + math.exp(-a / 100) * math.log(a + b)
    return curve + abs(a - b) + math.floor(a / b) + min(a, b, 2) * max(a - b, 0) + sqrt(a * b)


@hard("F")
def cubic(k: Number, q: Annotated[float, Q("", "a load", "p_max")]) -> float:
    """A root in closed form, a symbol with a word below it."""
    s = math.sqrt(3) * k * q * 1.5
    return 2 / (math.sqrt(3) * k) * math.sinh(math.asinh(s) / 3)


@hard("T")
def mixture(
    w: Numbers,
    beta: Annotated[Sequence[float], Q("", "ends", "β")],
    bend: Annotated[Sequence[Sequence[float]], Q("", "bends", "β")],
) -> float:
    """Two inputs with one symbol, told apart by the number of their indices."""
    pairs = sum(w[i] * w[j] * bend[i][j] for i in range(len(w)) for j in range(i + 1, len(w)))
    return sum(a * b for a, b in zip(w, beta, strict=False)) + pairs


@hard("Q")
def quadratic_form(x: Numbers, S: Square) -> float:
    """A double sum under a root."""
    return math.sqrt(abs(sum(x[i] * x[j] * S[i][j] for i in range(len(x)) for j in range(len(x)))))


@hard("q")
def sums(x: Numbers, y: Numbers, a: Number) -> float:
    """Sums in products, of sums, before a minus, and an index whose own value counts."""
    plain = sum(x) * a - sum(x[i] - y[i] for i in range(len(x))) * 2
    below = sum(sum(y[j] for j in range(i)) * x[i] for i in range(len(x)))
    counted = sum(i * v for i, v in enumerate(x)) + max(x) * min(u + a for u in y)
    return plain / (sum(v**2 for v in x) + a) + below + counted - x[0] * sum(1 / u for u in y)


@hard("q")
def up_to(n: Annotated[int, Q("", "a count")], a: Number) -> float:
    """A sum up to a number that is an input."""
    return sum(a / (k + 1) for k in range(n)) + sum(a**j for j in range(3))


@hard("q")
def rows(S: Square, x: Numbers) -> float:
    """A list of lists gone over row by row."""
    return sum(sum(s * v for s, v in zip(row, x, strict=False)) for row in S)


@hard("v")
def choice(a: Number, b: Number, c: Number) -> float:
    """A choice of three whose conditions overlap, with and, or and a chain."""
    limit = b + 1 if a <= b else b
    return a * b if a < limit and (b > c or a >= 2 * c) else a - b if 0 < c < 3 else a + b


@hard("E")
def every_comparison(a: Number, b: Number) -> float:
    """All six comparisons."""
    low = 1 if a < b else 2 if a <= b else 3
    high = 1 if a > b else 2 if a >= b else 3
    return low + high


@hard("e")
def equality(n: Annotated[int, Q("", "a count")], a: Number) -> float:
    """Equal and unequal."""
    once = a if n == 2 else -a
    return once if n != 3 else 2 * once


@hard("z")
def calls(a: Number, cost: Number, mass: Number, x: Numbers, S: Square) -> float:
    """Other formulas, a procedure, names of several letters beside one another."""
    inner = cost * mass + stiffness(cost, c=a) * 2 + quadratic_form(x, S) * (a + 1)
    return inner / whole_steps(mass, 0.5) + a * (cost + mass)


@hard_procedure
def whole_steps(mass: float, step: float = 0.1) -> int:
    """Give a count of steps, never 0."""
    return math.floor(mass / step + 0.5) + 1


@hard_procedure
def default_step(mass: float) -> str:
    """Leave an argument out, and turn whole numbers into text."""
    count = whole_steps(mass)
    total = 0
    for digit in range(3):
        total += digit * count
    return "0" * 2 + str(total)[1:] + ";" + str(int(mass)) + str(count)[-1] + "<"


@hard_procedure
def shared_out(shares: Sequence[float], steps: int) -> list[int]:
    """Share steps out by the largest remainder; equal remainders keep their order."""
    counts = [0] * len(shares)
    rest: list[float] = []
    for i, share in enumerate(shares):
        counts[i] = int(share * steps)
        rest.append(counts[i] - share * steps)
    left = steps - sum(counts)
    for i in sorted(range(len(shares)), key=lambda i: rest[i]):
        if left <= 0:
            break
        counts[i] += 1
        left -= 1
    return counts


@hard_procedure
def sort_ties(x: Sequence[float]) -> list[int]:
    """Sort by numbers, not by their text, and keep ties in order."""
    return sorted(range(len(x)), key=lambda place: math.floor(x[place] / 25) * 3)


@hard_procedure
def branches(a: float, b: float, new: bool) -> dict[str, Any]:
    """Choose, loop, swap, skip; a name that JavaScript keeps for itself."""
    found = False
    low, high = a, b
    if low > high and not new:
        low, high = high, low
        found = True
    elif low == high or new:
        kind = "same"
    else:
        kind = "other"
    if found:
        kind = "turned"
    delete = 0.0
    while True:
        delete += 1
        if delete < 3:
            continue
        if delete >= 5 or high < low:
            break
    best = low if low < 3 else -(high**2) if found else (low - high) ** 2
    return {"kind": kind, "ends": [low, high], "count": delete, "best": best}


@hard_procedure
def tables(x: Sequence[float], n: int) -> list[Any]:
    """Lists of lists, indices from the end, loops in lists, parts of lists."""
    grid = [[0.0] * n for _ in range(n)]
    for i in range(n):
        for j in range(i + 1):
            grid[i][j] = x[0] * i - j
    down = [k for k in range(n, 0, -2) if k != 3]
    pairs = [[a, b] for a in x[:2] for b in x[1:] if a < b]
    last = [u + v for u, v in zip(x, down, strict=False)]
    return [grid, down, pairs, last, x[-1], max(x), min(v * v for v in x)]


OPERANDS = ("a", "b", "c", "2", "3", "0.5", "1e6", "2.5e-05", "x[0]", "y[1]", "S[0][1]")
BODIES = ("x[{i}]", "x[{i}] * y[{i}]", "(x[{i}] - {e})", "{e} * x[{i}]", "x[{i}] / y[{i}] + {e}")


def random_formulas(folder: Path, count: int, seed: int) -> list[Formula[..., Any]]:
    """Write a module of random formulas, load it, and give them."""
    chance = random.Random(seed)
    head = Path(__file__).read_text(encoding="utf-8").split("@hard(")[0]
    names = itertools.count()
    functions = "\n\n".join(_random_function(chance, next(names)) for _ in range(count))
    file = folder / f"random_{seed}.py"
    file.write_text(head + functions, "utf-8")
    spec = importlib.util.spec_from_file_location(file.stem, file)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return list(module.HARD.values())


def _random_function(chance: random.Random, number: int) -> str:
    head = "a: Number, b: Number, c: Number, x: Numbers, y: Numbers, S: Square"
    return (
        f'@hard("r")\ndef random_{number}({head}) -> float:\n'
        f"    return {_expression(chance, chance.randint(2, 5))}\n"
    )


def _expression(chance: random.Random, depth: int) -> str:
    if depth == 0:
        return chance.choice(OPERANDS)
    left, right = (
        _expression(chance, depth - 1),
        _expression(chance, depth - chance.choice((1, depth))),
    )
    shape = chance.choice(
        ["+", "-", "-", "*", "*", "/", "/", "power", "minus", "function", "sum", "pair"]
    )
    if shape in "+-*/":
        return f"({left} {shape} {right})"
    if shape == "power":
        return f"({left}) ** {chance.choice(['2', '-1', '0.5', '-b', '(a / 9)', '2 ** 0.5'])}"
    if shape == "minus":
        return f"(-{left})"
    if shape == "function":
        return chance.choice(
            [
                "math.sqrt({})",
                "math.exp(-abs(b) - {} * 0)",
                "min({}, c)",
                "math.asinh({})",
                "abs(a)",
            ]
        ).format(left)
    if shape == "sum":
        body = chance.choice(BODIES).format(i=f"i{depth}", e=right)
        return f"sum({body} for i{depth} in range(len(x)))"
    return (
        f"sum(x[i{depth}] * x[j{depth}] * S[i{depth}][j{depth}] "
        f"for i{depth} in range(len(x)) for j{depth} in range(i{depth} + 1, len(x)))"
    )
