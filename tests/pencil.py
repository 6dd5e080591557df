"""A line of working read as a pencil reads it: the sums in it, and what rounding makes of them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

UNITS = [
    *("kg/m³", "g/mL", "g a mL", "mg/m³", "kg", "g", "oz", "lb", "fl oz", "mL", "mm³", "mm²"),
    *("mm", "cm", "in", "mil", "Pa", "ppm", "°C", "°F", "h", "min", "s", "ms", "plates", "L"),
    *("inches of water", "leather ounces", "m³", "m", "mg", "µN·m", "µN", "g/m²", "m/s²", "MPa"),
]
TOKEN = re.compile(
    r"(?P<number>\d+(?:\.\d+)?)|(?P<operator>e to the minus|[-−+×·*/()√∛])|(?P<equals>=)"
    r"|(?P<percent>%)"
    rf"|(?P<unit>(?:{'|'.join(sorted(map(re.escape, UNITS), key=len, reverse=True))})(?![\w³²°]))"
    r"|(?P<blank>\s+)|(?P<other>\S)"
)
SIGNS = {"−": "-", "×": "*", "·": "*", "√": "sqrt", "∛": "cbrt", "e to the minus": "inverse_e **"}
ROOTS = {
    "__builtins__": {},
    "inverse_e": math.exp(-1),
    "sqrt": math.sqrt,
    "cbrt": lambda value: value ** (1 / 3),
}


@dataclass(frozen=True)
class Sum:
    """One equation of a line: its left side in signs, the number at the right as it is written."""

    left: tuple[str, ...]
    right: str
    in_percent: bool

    @property
    def numbers(self) -> list[str]:
        """The numbers at the left."""
        return [sign for sign in self.left if sign[0].isdigit()]

    def worth(self, read: dict[str, float] | None = None) -> float:
        """Reckon the left side; a number that stands in `read` counts as what it says there."""
        known = read or {}
        signs = [repr(known.get(s, float(s))) if s[0].isdigit() else s for s in self.left]
        value = float(eval(" ".join(signs), dict(ROOTS)))
        return 100 * value if self.in_percent else value


def places(text: str) -> int:
    """Count the decimals of a written number."""
    return len(text.partition(".")[2])


def sums(line: str) -> Iterator[Sum]:
    """Give every equation of a line whose left side can be reckoned."""
    words = [(m.lastgroup or "", m.group()) for m in TOKEN.finditer(line)]
    words = [one for one in words if one[0] not in {"blank", "unit"}]
    for at, (kind, _) in enumerate(words):
        if kind != "equals":
            continue
        start = at
        while start and words[start - 1][0] in {"number", "operator", "percent"}:
            start -= 1
        left: list[str] = []
        for one, text in words[start:at]:
            left += ["*", "0.01"] if one == "percent" else [SIGNS.get(text, text)]
        after = words[at + 1 : at + 3]
        if not after or after[0][0] != "number":
            continue
        in_percent = len(after) > 1 and after[1][0] == "percent" and left[-2:] != ["*", "100"]
        found = Sum(tuple(left), after[0][1], in_percent)
        try:
            found.worth()
        except (SyntaxError, TypeError):  # words stand between the signs
            continue
        yield found


def unrounded(lines: tuple[str, ...], told: str) -> list[tuple[str, float]]:
    """Follow a working and keep all digits: every result as written, beside what was kept for it.

    A number that the task tells is taken as told.
    """
    given = set(re.findall(r"\d+(?:\.\d+)?", told))
    kept: dict[str, float] = {}
    found = []
    for line in lines:
        for one in sums(line):
            has = one.worth(kept)
            found.append((one.right, has))
            if one.right not in given and len(one.numbers) > 1:
                kept[one.right] = has
    return found


def off_by(one: Sum) -> float:
    """Give how far a sum is off, in halves of the last place of its result.

    Nothing is forgiven for numbers that an earlier line rounded: who reckons with what is written
    has to come to what is written.
    """
    return abs(one.worth() - float(one.right)) / (0.5 / 10 ** places(one.right))


def followed(lines: tuple[str, ...]) -> list[tuple[str, float]]:
    """Follow a working, each step rounded as it is written there and carried on so.

    Gives every result as it is written, beside what the follower has.
    """
    read: dict[str, float] = {}
    found = []
    for line in lines:
        for one in sums(line):
            scale = 10 ** places(one.right)
            has = int(one.worth(read) * scale + 0.5 + 1e-9) / scale
            found.append((one.right, has))
            read[one.right] = has
    return found
