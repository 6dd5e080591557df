"""Readers of shown mathematics: what a person sees, turned back into something to evaluate.

One parser for the tokens of seeing.py. It takes nothing from the writers in site_builder but the
reader of a formula's signature.
"""

from __future__ import annotations

import itertools
import math
import re
import unicodedata
from collections.abc import Callable, Sequence
from typing import Any

from seeing import Token, split

from formulas.formula import Formula, Procedure
from site_builder.notation.source import Source

SIGNS: dict[str, Callable[[Any, Any], bool]] = {
    "<": lambda a, b: a < b,
    "≤": lambda a, b: a <= b,
    ">": lambda a, b: a > b,
    "≥": lambda a, b: a >= b,
    "=": lambda a, b: a == b,
    "≠": lambda a, b: a != b,
}
FUNCTIONS: dict[str, Callable[..., float]] = {
    "ln": math.log,
    "exp": math.exp,
    "sinh": math.sinh,
    "arsinh": math.asinh,
    "min": min,
    "max": max,
    "sqrt": math.sqrt,
    "abs": abs,
    "floor": math.floor,
}
TOTALS: dict[str, Callable[[list[float]], float]] = {
    "∑": lambda terms: sum(terms),
    "min": min,
    "max": max,
}


Env = dict[str, Any]
Value = Callable[[Env], Any]


class Reader:
    """Reads the lines of one formula, seeing only symbols, and evaluates what they say."""

    def __init__(self, formula: Formula[..., Any], lines: list[list[Token]]) -> None:
        self.source = Source(formula)
        self.depths: dict[tuple[str, ...], dict[int, str]] = {}
        for name, q in formula.arguments.items():
            self.depths.setdefault(parts_of(q.symbol or name), {})[self.source.depth(name)] = name
        called = [
            value for value in formula.function.__globals__.values() if isinstance(value, Procedure)
        ]
        self.called = {
            parts_of(p.symbol) if isinstance(p, Formula) else (p.name.replace("_", " "),): p
            for p in called
        }
        self.comparisons: list[str] = []
        self.letters: set[str] = set()
        self.seen: list[tuple[str, int, str]] = []
        result, *steps = [
            split([t for t in line if t.kind != "space"], "sign", "=") for line in lines
        ]
        assert name_parts(result[0][0]) == parts_of(formula.symbol)
        self.steps: list[tuple[str, Value]] = []
        for (left,), *right in steps:
            self.steps.append((str(name_parts(left)), self.line(join(right))))
            self.depths[name_parts(left)] = {0: str(name_parts(left))}
        self.result = self.line(join(result[1:]))

    def __call__(self, **values: Any) -> float:
        env: Env = {"letters": {}, **values}
        for name, step in self.steps:
            env[name] = step(env)
        return float(self.result(env))

    def line(self, tokens: list[Token]) -> Value:
        """Read a right side: an expression, or cases as a brace or in words."""
        if tokens[0].kind == "cases":
            assert len(tokens) == 1
            return self.cases([[t for t in row if t.kind != "space"] for row in tokens[0].inside])
        if tokens[-1].kind == "word":
            return self.cases(split(tokens, "sign", ","))
        return self.whole(tokens)

    def cases(self, rows: list[list[Token]]) -> Value:
        """Read cases: the first whose condition holds."""
        choices: list[tuple[Value, Value]] = []
        for place, row in enumerate(rows[:-1]):
            word = "else if" if place else "if"
            value, condition = split(row, "word", word)
            choices.append((self.whole(value), self.condition(condition)))
        assert (rows[-1][-1].kind, rows[-1][-1].text) == ("word", "otherwise")
        rest = self.whole(rows[-1][:-1])
        return lambda env: chosen(env, choices, rest)

    def condition(self, tokens: list[Token]) -> Value:
        """Read a condition; `and` and `or` may only meet in brackets."""
        for word, joined in (("or", any), ("and", all)):
            parts = split(tokens, "word", word)
            if len(parts) > 1:
                other = {"or": "and", "and": "or"}[word]
                assert all(len(split(part, "word", other)) == 1 for part in parts)
                values = [self.condition(part) for part in parts]
                return lambda env: joined(value(env) for value in values)
        if len(tokens) == 1 and tokens[0].kind == "group":
            return self.condition([t for t in tokens[0].inside[0] if t.kind != "space"])
        return self.comparison(tokens)

    def comparison(self, tokens: list[Token]) -> Value:
        """Read a comparison or a chain of them; remember its signs."""
        places = [n for n, t in enumerate(tokens) if t.kind == "sign" and t.text in SIGNS]
        signs = [tokens[place].text for place in places]
        self.comparisons += signs
        ends = [-1, *places, len(tokens)]
        sides = [self.whole(tokens[a + 1 : b]) for a, b in itertools.pairwise(ends)]
        assert signs

        def holds(env: Env) -> bool:
            values = [side(env) for side in sides]
            links = zip(values, signs, values[1:], strict=False)
            return all(SIGNS[sign](a, b) for a, sign, b in links)

        return holds

    def whole(self, tokens: list[Token]) -> Value:
        """Read an expression to its end."""
        rest = [token for token in tokens if token.kind != "space"]
        value = self.expression(rest)
        assert rest == [], [token.text for token in rest]
        return value

    def expression(self, rest: list[Token]) -> Value:
        """Read terms with + and − between them."""
        negative = taken(rest, "−")
        terms = [(-1 if negative else 1, self.term(rest))]
        while rest and rest[0].text in ("+", "−") and rest[0].kind == "sign":
            sign = -1 if rest.pop(0).text == "−" else 1
            terms.append((sign, self.term(rest)))
        return lambda env: sum(sign * term(env) for sign, term in terms)

    def term(self, rest: list[Token]) -> Value:
        """Read factors, side by side or with a sign between them."""
        value = self.factor(rest)
        while (
            rest
            and rest[0].kind != "word"
            and not (rest[0].kind == "sign" and rest[0].text not in "×⋅/")
        ):
            sign = rest.pop(0).text if rest[0].kind == "sign" else ""
            value = product(value, self.factor(rest), over=sign == "/")
        return value

    def factor(self, rest: list[Token]) -> Value:
        """Read one thing and what it is raised to."""
        token = rest.pop(0)
        value = self.thing(token, rest)
        if token.above is not None and token.kind != "total":
            return raised(value, self.whole(token.above))
        if taken(rest, "^"):
            return raised(value, self.factor(rest))
        return value

    def thing(self, token: Token, rest: list[Token]) -> Value:
        """Read a number, a symbol, a function, a bracket or a sum."""
        match token.kind:
            case "number":
                return constant(float(token.text))
            case "group":
                return self.whole(token.inside[0])
            case "frac":
                over, under = (self.whole(part) for part in token.inside)
                return product(over, under, over=True)
            case "root" | "bars" | "floor":
                known = {"root": math.sqrt, "bars": abs, "floor": math.floor}[token.kind]
                inside = self.whole(token.inside[0])
                return lambda env: known(inside(env))
            case "total":
                return self.total(token, rest)
            case "function" if token.below is not None:
                return self.total(token, rest)
            case "function" if token.text in FUNCTIONS:
                return self.applied(FUNCTIONS[token.text], rest.pop(0))
        assert token.kind in ("name", "function"), token
        parts = name_parts(token)
        if rest and rest[0].kind == "group" and parts in self.called:
            return self.applied(self.called[parts], rest.pop(0))
        # A letter before a bracket, with no sign between them, is a function.
        assert not (rest and rest[0].kind == "group"), f"{token.text} is no function"
        return self.reference(parts)

    def applied(self, function: Callable[..., Any], group: Token) -> Value:
        """Read the arguments in brackets."""
        assert group.kind == "group"
        arguments = [self.argument(part) for part in split(group.inside[0], "sign", ",")]
        return lambda env: function(*(argument(env) for argument in arguments))

    def argument(self, tokens: list[Token]) -> Value:
        """Read an argument, which may be a whole list."""
        only = [token for token in tokens if token.kind != "space"]
        if len(only) == 1 and only[0].kind == "name" and only[0].above is None:
            depths = self.depths.get(name_parts(only[0]), {})
            if depths and 0 not in depths:
                (name,) = depths.values()
                return lambda env: env[name]
        return self.whole(tokens)

    def reference(self, parts: tuple[str, ...]) -> Value:
        """Read a symbol: the longest name that fits, the rest of its subscripts as indices."""
        for length in range(len(parts), 0, -1):
            name = self.depths.get(parts[:length], {}).get(len(parts) - length)
            if name is not None:
                indices = parts[length:]
                self.seen += [(name, place, index) for place, index in enumerate(indices)]
                return lambda env: indexed(env, env[name], indices)
        if len(parts) == 1 and parts[0] in self.letters:
            return lambda env: env["letters"][parts[0]]
        if parts == ("π",):
            return constant(math.pi)
        raise AssertionError(f"no symbol {parts}")

    def total(self, token: Token, rest: list[Token]) -> Value:
        """Read a sum: below it its letter and bound, after it all that is multiplied."""
        assert token.below is not None
        letter, *bound = [each.text for each in token.below if each.kind != "space"]
        before, self.seen = self.seen, []
        outside, self.letters = self.letters, {*self.letters, letter}
        body = self.term(rest) if rest[0].kind != "group" else self.after_bracket(rest)
        uses = {(name, place) for name, place, index in self.seen if index == letter}
        self.seen += before
        self.letters = outside
        end = self.whole(token.above) if token.above else None
        assert bound in ([], ["=", "1"]) or bound[0] in "<>"

        def value(env: Env) -> float:
            count = int(end(env)) if end else min(length(env[name], place) for name, place in uses)
            numbers = range(1, count + 1)
            if bound and not end:
                other = env["letters"][bound[1]]
                numbers = range(other + 1, count + 1) if bound[0] == ">" else range(1, other)
            terms = []
            for number in numbers:
                inner = {**env, "letters": {**env["letters"], letter: number}}
                terms.append(body(inner))
            return TOTALS[token.text](terms)

        return value

    def after_bracket(self, rest: list[Token]) -> Value:
        """Read what a sum goes over: all that is multiplied; plain text puts it in brackets."""
        return self.term(rest)


class PlainReader(Reader):
    """In plain text a sum goes over its bracket and no further."""

    def after_bracket(self, rest: list[Token]) -> Value:
        """Read the bracket alone."""
        return self.whole(rest.pop(0).inside[0])


def chosen(env: Env, choices: list[tuple[Value, Value]], rest: Value) -> Any:
    """Give the first case that holds."""
    for value, condition in choices:
        if condition(env):
            return value(env)
    return rest(env)


def join(parts: list[list[Token]]) -> list[Token]:
    """Put back the equals signs a line was parted at, but the first."""
    joined = list(parts[0])
    for part in parts[1:]:
        joined += [Token("sign", "="), *part]
    return joined


def taken(rest: list[Token], sign: str) -> bool:
    """Take a sign where it is next."""
    if rest and rest[0].kind == "sign" and rest[0].text == sign:
        rest.pop(0)
        return True
    return False


def constant(number: float) -> Value:
    """Read a number."""
    return lambda _: number


def product(left: Value, right: Value, *, over: bool) -> Value:
    """Multiply or divide."""
    return (lambda env: left(env) / right(env)) if over else (lambda env: left(env) * right(env))


def raised(base: Value, exponent: Value) -> Value:
    """Raise to a power."""
    return lambda env: base(env) ** exponent(env)


def indexed(env: Env, value: Any, indices: Sequence[str]) -> Any:
    """Take an item of a list by what stands in the subscript, numbered from 1."""
    for index in indices:
        letter, step = re.fullmatch(r"([^\W\d]?)((?:[+−]?\d+)?)", index.replace(" ", "")).groups()  # type: ignore[union-attr]
        place = env["letters"][letter] if letter else 0
        value = value[place + int(step.replace("−", "-") or 0) - 1]
    return value


def length(value: Any, place: int) -> int:
    """Give the length of a list in one of its directions."""
    for _ in range(place):
        value = value[0]
    return len(value)


def parts_of(symbol: str) -> tuple[str, ...]:
    """Take a written symbol apart, Greek names turned into letters."""
    parts = re.sub(r"^([^\W\d_]+)(\d+)", r"\1_\2", symbol).split("_")
    return tuple(greek(part) for part in parts)


def greek(name: str) -> str:
    """Give the Greek letter of a name, or the name."""
    try:
        return unicodedata.lookup(f"GREEK SMALL LETTER {name.upper()}") if len(name) > 1 else name
    except KeyError:
        return name


def name_parts(token: Token) -> tuple[str, ...]:
    """Give a symbol's base and what stands in its subscript, part by part."""
    below = [t for t in token.below or [] if t.kind != "space"]
    text = "".join(t.text for t in below)
    if "," in text or len(below) < 2 or any(t.kind == "sign" for t in below):
        return (token.text, *(part for part in text.replace(" ", "").split(",") if part))
    return (token.text, *(t.text for t in below))
