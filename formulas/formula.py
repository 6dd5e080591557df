"""The form in which the trade's formulas are written, and what can be read from it.

A formula is a plain Python function on floats. Its units and the meaning of each argument
stand in its signature, its symbol and source in the decorator; its syntax tree is read only
when somebody asks, so that importing a hundred formulas costs nothing.
"""

from __future__ import annotations

import ast
import functools
import importlib
import inspect
import pkgutil
import textwrap
import typing
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, ParamSpec, Self, TypeVar

from formulas.frozen import Frozen

P = ParamSpec("P")
R = TypeVar("R")


class Q(Frozen):
    """What one argument is: its unit ("" for a pure number), its meaning, its printed symbol.

    A symbol left out is the argument's own name. A symbol with an index is written with an
    underscore: "d_g".
    """

    unit: str
    meaning: str
    symbol: str = ""


class Procedure(functools.partial[R], Generic[P, R]):
    """A plain function that the page's script shares with Python; it shows no mathematics.

    Beside what a formula may hold it may hold `for`, `while`, `if`, `append` and indexed
    assignment. It is a partial function without arguments of its own, because that is called
    without a frame in between: a build calls such functions a million times.
    """

    if TYPE_CHECKING:

        def __call__(self, *args: P.args, **kwargs: P.kwargs) -> R: ...

    def __new__(cls, function: Callable[P, R], *_: Any, **__: Any) -> Self:
        return super().__new__(cls, function)

    def __init__(self, function: Callable[P, R], title: str) -> None:
        self.function = function
        self.title = title
        functools.update_wrapper(self, function)

    @property
    def name(self) -> str:
        """The function's own name, by which pages and scripts call it."""
        return self.function.__name__

    @property
    def file(self) -> str:
        """The file that holds the source."""
        return Path(inspect.getsourcefile(self.function) or "?").name

    @functools.cached_property
    def tree(self) -> ast.FunctionDef:
        """The syntax tree of the function, with the line numbers of its file."""
        file = inspect.getsourcefile(self.function) or ""
        found = _functions(file).get(self.function.__code__.co_firstlineno)
        if found is not None and found.name == self.name:
            return found
        lines, first = inspect.getsourcelines(self.function)
        tree = ast.parse(textwrap.dedent("".join(lines)))
        ast.increment_lineno(tree, first - 1)
        function = tree.body[0]
        assert isinstance(function, ast.FunctionDef)
        return function

    @functools.cached_property
    def hints(self) -> dict[str, Any]:
        """The types of the arguments and of the result, with what is noted of them."""
        return typing.get_type_hints(self.function, include_extras=True)

    @functools.cached_property
    def arguments(self) -> dict[str, Q]:
        """What each argument is, in order; one without a Q is left out."""
        return {
            name: note
            for name in inspect.signature(self.function).parameters
            for note in getattr(self.hints[name], "__metadata__", ())
            if isinstance(note, Q)
        }


def _functions(file: str) -> dict[int, ast.FunctionDef]:
    """Give the functions that stand by themselves in a file, by their first line."""
    path = Path(file)
    return _parsed(file, path.stat().st_mtime_ns) if path.is_file() else {}


@functools.cache
def _parsed(file: str, _: int) -> dict[int, ast.FunctionDef]:
    module = ast.parse(Path(file).read_text(encoding="utf-8"))
    return {
        min(one.lineno, *(mark.lineno for mark in one.decorator_list)): one
        for one in module.body
        if isinstance(one, ast.FunctionDef) and one.decorator_list
    }


class Formula(Procedure[P, R]):
    """A function with a title, a symbol, a unit and a source, callable on floats."""

    def __init__(
        self, function: Callable[P, R], title: str, *, symbol: str, unit: str, source: str
    ) -> None:
        super().__init__(function, title)
        self.symbol, self.unit, self.source = symbol, unit, source

    def at(self, **quantities: Any) -> Any:
        """Evaluate on pint quantities; each is converted once, at this edge.

        A pure number may be given as one. Raises UnitFault for a wrong dimension.
        """
        from formulas import units

        floats = {
            name: units.magnitude(quantities[name], q.unit) for name, q in self.arguments.items()
        }
        value = self.function(**floats)  # type: ignore[call-arg]
        return units.registry().Quantity(value, self.unit or "dimensionless")


FORMULAS: dict[str, Formula[..., Any]] = {}
PROCEDURES: dict[str, Procedure[..., Any]] = {}


@functools.cache
def every_module() -> tuple[str, ...]:
    """Import every module of this package, so that the two tables above are whole; name them."""
    found = tuple(
        one.name for one in pkgutil.walk_packages([str(Path(__file__).parent)], "formulas.")
    )
    for name in found:
        importlib.import_module(name)
    return found


def formula(
    title: str, *, symbol: str, unit: str, source: str
) -> Callable[[Callable[P, R]], Formula[P, R]]:
    """Mark a function as a formula: what it gives, its symbol, its unit and its source id.

    `source` is an id of sources.csv, "definition" for what is true by its own terms, or "derived"
    for what was worked out here and is checked against another way in the tests.
    """

    def mark(function: Callable[P, R]) -> Formula[P, R]:
        made = Formula(function, title, symbol=symbol, unit=unit, source=source)
        FORMULAS[made.name] = made
        return made

    return mark


def procedure(title: str) -> Callable[[Callable[P, R]], Procedure[P, R]]:
    """Mark a function as a procedure that the page's script shares."""

    def mark(function: Callable[P, R]) -> Procedure[P, R]:
        made = Procedure(function, title)
        PROCEDURES[made.name] = made
        return made

    return mark


def crossings(
    function: Callable[[float], float], low: float, high: float, steps: int = 200
) -> Sequence[float]:
    """Find every place in [low, high] where a function changes sign.

    A scan of equal steps looks for changes of sign, and bisection closes each to the last
    digit. Two crossings inside one step are not seen. A value of exactly nought on a scan
    point counts once.
    """
    found: list[float] = []
    left, value = low, function(low)
    if value == 0:
        found.append(low)
    for step in range(1, steps + 1):
        right = low + (high - low) * step / steps
        next_value = function(right)
        if next_value == 0:
            found.append(right)
        elif value * next_value < 0:
            found.append(_bisect(function, left, right, value))
        left, value = right, next_value
    return found


def _bisect(function: Callable[[float], float], left: float, right: float, value: float) -> float:
    for _ in range(60):
        middle = (left + right) / 2
        if (function(middle) < 0) == (value < 0):
            left = middle
        else:
            right = middle
    return (left + right) / 2
