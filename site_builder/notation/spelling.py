"""Two spellings of shown mathematics: Typst's, and plain text to be read or spoken.

Each gives pieces: a text, how firmly it holds together, and what it begins and ends with.
The writer decides what is said; a spelling decides how it looks.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from typing import ClassVar

from formulas.frozen import Frozen

ADDED, TOTAL, MULTIPLIED, RAISED, WHOLE = range(1, 6)

GREEK_NAMES = (
    "alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi pi rho sigma tau "
    "upsilon phi chi psi omega"
)
GREEK = dict(zip(GREEK_NAMES.split(), "αβγδεζηθικλμνξπρστυφχψω", strict=True))
GREEK |= {name.capitalize(): sign.upper() for name, sign in GREEK.items()}


class Piece(Frozen):
    """A written part. `first` and `last` are number, name, word, bracket, minus or other."""

    text: str
    level: int = WHOLE
    first: str = "other"
    last: str = "other"


class Name(Frozen):
    """A symbol taken apart: its letter or word, and what stands in its subscript."""

    base: str
    subscripts: tuple[str, ...] = ()


def name_of(symbol: str) -> Name:
    """Take a symbol apart at its underscores: "beta_max" is β with the subscript "max".

    >>> name_of("beta_max"), name_of("w1")
    (Name(base='β', subscripts=('max',)), Name(base='w', subscripts=('1',)))
    """
    base, *subscripts = [part for part in symbol.split("_") if part] or [symbol]
    numbered = re.fullmatch(r"([^\W\d]+)(\d+)", base)
    if numbered:
        base, subscripts = numbered[1], [numbered[2], *subscripts]
    return Name(GREEK.get(base, base), tuple(GREEK.get(part, part) for part in subscripts))


def _bracketed(piece: Piece) -> Piece:
    return Piece(f"({piece.text})", WHOLE, "bracket", "bracket")


def held(piece: Piece, least: int) -> Piece:
    """Give a piece in brackets where it holds together less firmly than asked."""
    return piece if piece.level >= least else _bracketed(piece)


class Plain:
    """Plain text: "T = sum over i of (w_i × T_i)"."""

    comparisons: ClassVar[dict[str, str]] = {
        "Lt": "<",
        "LtE": "≤",
        "Gt": ">",
        "GtE": "≥",
        "Eq": "=",
        "NotEq": "≠",
    }
    names: ClassVar[dict[str, str]] = {
        **{name: name for name in ("sqrt", "exp", "sinh", "min", "max", "floor", "abs")},
        "log": "ln",
        "asinh": "arsinh",
    }
    drawn: ClassVar[dict[str, str]] = {}
    totals: ClassVar[dict[str, str]] = {"sum": "sum", "min": "smallest", "max": "largest"}
    joints: ClassVar[dict[str, str]] = {"and": "and", "or": "or"}

    def symbol(self, name: Name, indices: Sequence[str] = ()) -> Piece:
        """Write a symbol with its subscripts and indices."""
        below = ",".join(part if part.isalnum() else f"({part})" for part in indices)
        text = "_".join(part for part in (name.base, *name.subscripts) if part)
        return Piece(f"{text}{'_' if below else ''}{below}", WHOLE, "name", "name")

    def word(self, word: str) -> Piece:
        """Write the name of a procedure."""
        return Piece(word, WHOLE, "word", "word")

    def number(self, digits: str, power: int) -> Piece:
        """Write digits, times a power of ten where it is not nought."""
        if power == 0:
            return Piece(digits, WHOLE, "number", "number")
        ten = f"10^{power}" if power > 0 else f"10^(−{-power})"
        if digits == "1":
            return Piece(ten, RAISED, "number", "number")
        return Piece(f"{digits} × {ten}", MULTIPLIED, "number", "number")

    def product(self, factors: Sequence[Piece]) -> Piece:
        """Write factors side by side."""
        return Piece(" × ".join(factor.text for factor in factors), MULTIPLIED)

    def fraction(self, over: Piece, under: Piece) -> Piece:
        """Write a fraction; it stands in brackets within a product."""
        text = f"{held(over, RAISED).text} / {held(under, RAISED).text}"
        return Piece(text, MULTIPLIED)

    def power(self, base: Piece, exponent: Piece) -> Piece:
        """Write a power."""
        return Piece(f"{held(base, WHOLE).text}^{held(exponent, WHOLE).text}", RAISED)

    def applied(self, function: Piece, arguments: Sequence[Piece]) -> Piece:
        """Write a function of arguments."""
        inside = ", ".join(argument.text for argument in arguments)
        return Piece(f"{function.text}({inside})", WHOLE, function.first, "bracket")

    def known(self, name: str, arguments: Sequence[Piece]) -> Piece:
        """Write one of the functions everybody knows."""
        return self.applied(self.word(self.names[name]), arguments)

    def total(self, kind: str, range_of: tuple[str, str, str], body: Piece) -> Piece:
        """Write a sum, or the smallest or largest, over an index."""
        index, sign, end = range_of
        over = f" from 1 to {end}" if sign == "to" else f" {sign} {end}" if sign else ""
        return Piece(f"{self.totals[kind]} over {index}{over} of ({body.text})", RAISED)

    def cases(self, rows: Sequence[tuple[Piece, str]], rest: Piece) -> Piece:
        """Write one value for each condition, the first that holds."""
        told = [
            f"{value.text} {'else if' if place else 'if'} {condition}"
            for place, (value, condition) in enumerate(rows)
        ]
        return Piece(", ".join([*told, f"{rest.text} otherwise"]), ADDED)

    def lines(self, equations: Sequence[tuple[Piece, Piece]]) -> str:
        """Write the result first, then what its names stand for."""
        return ", where ".join(f"{left.text} = {right.text}" for left, right in equations)


class Typst:
    """Typst's mathematics. A space stands before every bracket, a word always in quotes."""

    comparisons: ClassVar[dict[str, str]] = {
        "Lt": "<",
        "LtE": "<=",
        "Gt": ">",
        "GtE": ">=",
        "Eq": "=",
        "NotEq": "!=",
    }
    names: ClassVar[dict[str, str]] = {
        **{name: name for name in ("exp", "sinh", "min", "max")},
        "log": "ln",
        "asinh": 'op("arsinh")',
    }
    drawn: ClassVar[dict[str, str]] = {"sqrt": "sqrt", "floor": "floor", "abs": "abs"}
    totals: ClassVar[dict[str, str]] = {"sum": "sum", "min": "min", "max": "max"}
    joints: ClassVar[dict[str, str]] = {"and": '"and"', "or": '"or"'}

    def symbol(self, name: Name, indices: Sequence[str] = ()) -> Piece:
        """Write a symbol with its subscripts and indices."""
        below = [*map(self._letters, name.subscripts), *indices]
        short = not name.subscripts and all(len(part) == 1 for part in below)
        inside = (" " if short else ", ").join(below)
        text = self._letters(name.base) + (f"_({inside})" if below else "")
        kind = "name" if len(name.base) == 1 else "word"
        return Piece(text, WHOLE, kind, kind)

    def _letters(self, word: str) -> str:
        plain = (len(word) == 1 and word.isalpha()) or word.isdecimal()
        return word if plain else self._quoted(word)

    def word(self, word: str) -> Piece:
        """Write the name of a procedure."""
        return Piece(f"op({self._quoted(word)})", WHOLE, "word", "word")

    def _quoted(self, word: str) -> str:
        return '"' + word.replace("\\", "\\\\").replace('"', '\\"') + '"'

    def number(self, digits: str, power: int) -> Piece:
        """Write digits, times a power of ten where it is not nought."""
        if power == 0:
            return Piece(digits, WHOLE, "number", "number")
        if digits == "1":
            return Piece(f"10^({power})", RAISED, "number", "number")
        return Piece(f"{digits} times 10^({power})", MULTIPLIED, "number", "number")

    def product(self, factors: Sequence[Piece]) -> Piece:
        """Write factors side by side, with a sign where they would run into one another."""
        text = factors[0].text
        for left, right in itertools.pairwise(factors):
            text += self._between(left, right) + right.text
        return Piece(text, MULTIPLIED, factors[0].first, factors[-1].last)

    def _between(self, left: Piece, right: Piece) -> str:
        numbers = right.first == "number" or (left.last, right.first) == ("number", "fraction")
        if numbers or "word" in (left.last, right.first):
            return " times "
        # A letter before a bracket would read as a function of what stands in it.
        return " dot " if left.last in ("name", "call") and right.first == "bracket" else " "

    def fraction(self, over: Piece, under: Piece) -> Piece:
        """Write a fraction with a bar, which holds both together without brackets."""
        text = f"frac({over.text}, {under.text})"
        return Piece(text, WHOLE, "fraction", "fraction")

    def power(self, base: Piece, exponent: Piece) -> Piece:
        """Write a power; one letter or number stands as it is, the rest in brackets."""
        plain = base.first == base.last and base.first in ("number", "name", "word", "bracket")
        sure = base if plain and base.level == WHOLE else _bracketed(base)
        return Piece(f"{sure.text}^({exponent.text})", RAISED, sure.first, "other")

    def applied(self, function: Piece, arguments: Sequence[Piece]) -> Piece:
        """Write a function of arguments."""
        inside = ", ".join(argument.text for argument in arguments)
        return Piece(f"{function.text} ({inside})", WHOLE, function.first, "call")

    def known(self, name: str, arguments: Sequence[Piece]) -> Piece:
        """Write one of the functions everybody knows."""
        if name in self.drawn:
            return Piece(f"{self.drawn[name]}({arguments[0].text})", WHOLE)
        return self.applied(Piece(self.names[name], WHOLE, "other", "other"), arguments)

    def total(self, kind: str, range_of: tuple[str, str, str], body: Piece) -> Piece:
        """Write a sum, or the smallest or largest, over an index."""
        index, sign, end = range_of
        if sign == "to":
            head = f"{self.totals[kind]}_({index} = 1)^({end})"
        else:
            head = f"{self.totals[kind]}_({index} {sign} {end})" if sign else ""
        head = head or f"{self.totals[kind]}_{index}"
        return Piece(f"{head} {held(body, TOTAL).text}", TOTAL, "other", "total")

    def cases(self, rows: Sequence[tuple[Piece, str]], rest: Piece) -> Piece:
        """Write one value for each condition, the first that holds."""
        told = [
            f'{value.text} &"{"else if" if place else "if"}" {condition}'
            for place, (value, condition) in enumerate(rows)
        ]
        told.append(f'{rest.text} &"otherwise"')
        return Piece(f"cases({', '.join(told)})", ADDED)

    def lines(self, equations: Sequence[tuple[Piece, Piece]]) -> str:
        """Write the result first, then what its names stand for, each on its line."""
        if len(equations) == 1:
            return f"{equations[0][0].text} = {equations[0][1].text}"
        return " \\ ".join(f"{left.text} &= {right.text}" for left, right in equations)
