"""A working as somebody with a calculator follows it: each result from the numbers as written.

A task writes its results from the formulas. `settled` reckons every line again from what stands on
the paper and writes what comes out there; what a later line takes up gets decimals until the last
line comes to the key. Numbers that never come to it are drawn again, and so are those that come to
another one where nothing is rounded before the end, with the factors as they are printed.
"""

from __future__ import annotations

import dataclasses
import itertools
import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from formulas.practice.exercise import BOTH, Choice, Made, Silly, Wanted, rounded
from formulas.units import printed

TOKEN = re.compile(
    r"(?P<number>\d+(?:\.\d+)?)|(?P<sign>e to the minus|[−+×/()√∛])|(?P<equals>=)"
    r"|(?P<word>%|°?[^\W\d_][^\s(),;:.=]*)|(?P<blank>\s+)|(?P<other>.)"
)
BEHIND_A_UNIT = {"−", "+", "×", "/", ")", "="}
MOST_EXTRA = 4  # decimals beyond those of the task
EXACT = 1e-9
UP_TO_HALF = 1e-12  # of a value: a half that a binary number misses counts as one
CONSTANTS = {"1", "2", "3", "4", "5", "8", "9", "16", "32", "60", "100", "1000", "10000", "1000000"}
"""Numbers of formulas: a result that changes must not be one of them."""


def settled(made: Made) -> Made:
    """Give an exercise whose working comes out as it is written. Raises Silly."""
    for extra in range(MOST_EXTRA + 1):
        paper = Paper(made, extra)
        lines = tuple(map(paper.written, made.working))
        if paper.comes_to_the_keys:
            return dataclasses.replace(made, working=lines)
    raise Silly


@dataclass
class Paper:
    """What stands on the paper so far: by each result of the task what was written in its place."""

    made: Made
    extra: int
    results: dict[str, str] = field(default_factory=dict)
    unrounded: dict[str, float] = field(default_factory=dict)
    comes_to_the_keys: bool = True

    def __post_init__(self) -> None:
        words = [word for one in self.made.wanted if isinstance(one, Choice) for word in one.of]
        self.told = {text for kind, text in tokens(" ".join([*self.made.told, *words]))
                     if kind == "number"}  # fmt: skip
        self.taken = _taken_up(self.made.working)
        self.keys = [one for one in self.made.wanted if isinstance(one, Wanted)]

    def written(self, line: str) -> str:
        """Write a line, each result reckoned from what stands before it. Raises Silly."""
        done: list[tuple[str, str]] = []
        found = tokens(line)
        for place, (kind, text) in enumerate(found):
            if kind != "number":
                done.append((kind, text))
                continue
            left = _left(done)
            now = self.results.get(text, text)
            if left:
                in_percent = _in_percent(left, found[place + 1 : place + 3])
                now = self._result(text, left, in_percent)
            done.append((kind, now))
        return "".join(text for _, text in done)

    def _result(self, text: str, left: list[str], in_percent: bool) -> str:
        value = reckoned(left) * (100 if in_percent else 1)
        kept = self._kept(left) * (100 if in_percent else 1)
        near = [one for one in self.keys if _may_be(one, text)]
        now = text
        if abs(value - float(text)) > EXACT * max(1.0, abs(value)):
            now = self._fine_enough(value, text, near)
        if now != text and (text in self.told or text in CONSTANTS):
            raise Silly
        if self.results.setdefault(text, now) != now:
            raise Silly
        if abs(self.unrounded.setdefault(now, kept) - kept) > EXACT * max(1.0, abs(kept)):
            self.comes_to_the_keys = False  # one text for two numbers
        reached = (value, float(now), kept * (1 - UP_TO_HALF), kept * (1 + UP_TO_HALF))
        for one in near:
            if any(rounded(each, one.places, one.side) != one.value for each in reached):
                self.comes_to_the_keys = False
        return now

    def _kept(self, left: Sequence[str]) -> float:
        """Reckon for somebody who kept all digits of what the lines before gave."""
        return reckoned([
            repr(self.unrounded[text]) if text in self.unrounded and text not in self.told else text
            for text in left
        ])  # fmt: skip

    def _fine_enough(self, value: float, text: str, near: Sequence[Wanted]) -> str:
        least = decimals(text)
        for one in near:
            least = max(least, one.places + (one.side != BOTH))
        places = least + (self.extra if text in self.taken else 0)
        now = printed(value * (1 + UP_TO_HALF), places)
        while places > least and now.endswith("0"):
            places, now = places - 1, now[:-1].rstrip(".")
        return now


def tokens(line: str) -> list[tuple[str, str]]:
    """Part a line into numbers, signs, units of a number in a sum, words and what is between."""
    found = [(one.lastgroup or "other", one.group()) for one in TOKEN.finditer(line)]
    for place, (kind, _) in enumerate(found):
        if kind == "number":
            behind = place + 1
            while behind < len(found) and found[behind][0] in {"word", "blank"}:
                behind += 1
            if behind < len(found) and found[behind][1] in BEHIND_A_UNIT:
                found[place + 1 : behind] = [
                    ("blank", text) for _, text in found[place + 1 : behind]
                ]
    return found


def decimals(text: str) -> int:
    """Count the decimals of a written number."""
    return len(text.partition(".")[2])


def _may_be(one: Wanted, text: str) -> bool:
    """Tell whether a result is what is asked for, as far as its digits tell."""
    step = 10.0**-one.places
    room = (step / 2 if one.side == BOTH else step) + 0.5 * 10.0 ** -decimals(text)
    return abs(float(text) - one.value) <= room * (1 + EXACT)


def _taken_up(lines: Sequence[str]) -> set[str]:
    """Give the results that a sum behind them takes up."""
    results: set[str] = set()
    taken: set[str] = set()
    for line in lines:
        done: list[tuple[str, str]] = []
        for kind, text in tokens(line):
            left = _left(done) if kind == "number" else []
            taken |= results & set(left)
            if left:
                results.add(text)
            done.append((kind, text))
    return taken


def _left(done: Sequence[tuple[str, str]]) -> list[str]:
    """Give the signs before an equals sign that stands last, units left out; none where none."""
    words = [one for one in done if one[0] != "blank"]
    if not words or words[-1][0] != "equals":
        return []
    signs = itertools.takewhile(lambda one: one[0] in {"number", "sign"}, reversed(words[:-1]))
    left = [text for _, text in signs][::-1]
    return left if len(left) > 1 else []


def _in_percent(left: Sequence[str], after: Sequence[tuple[str, str]]) -> bool:
    behind = next((text for kind, text in after if kind != "blank"), "")
    return behind == "%" and list(left[-2:]) != ["×", "100"]


def reckoned(signs: Sequence[str]) -> float:
    """Reckon what stands before an equals sign.

    >>> reckoned(["(", "30", "−", "25", ")", "/", "(", "30", "−", "10", ")"])
    0.25
    """
    left = iter([*signs, ""])
    return _Reader(left).whole()


class _Reader:
    """Reads signs from the left: sums of products of numbers, roots and parentheses."""

    def __init__(self, signs: Iterator[str]) -> None:
        self.signs = signs
        self.now = next(signs)

    def whole(self) -> float:
        value = self.added()
        if self.now:
            raise Silly
        return value

    def take(self) -> str:
        taken, self.now = self.now, next(self.signs, "")
        return taken

    def added(self) -> float:
        value = self.times()
        while self.now in {"+", "−"}:
            value += self.times() if self.take() == "+" else -self.times()
        return value

    def times(self) -> float:
        value = self.one()
        while self.now in {"×", "/"}:
            value = value * self.one() if self.take() == "×" else value / self.one()
        return value

    def one(self) -> float:
        sign = self.take()
        if sign == "(":
            value = self.added()
            if self.take() != ")":
                raise Silly
            return value
        if sign in ROOTS:
            return ROOTS[sign](self.one())
        if not sign[:1].isdigit():
            raise Silly
        return float(sign)


ROOTS: dict[str, Callable[[float], float]] = {
    "√": math.sqrt,
    "∛": math.cbrt,
    "−": lambda value: -value,
    "e to the minus": lambda value: math.exp(-value),
}
