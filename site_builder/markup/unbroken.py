"""What stays in one line on every face: a number with its unit, and a range with both its ends."""

from __future__ import annotations

import re

UNITS = (
    "°C|°F|%|ppm|mg/g|m?g/m[²³]?|g/cm³|kg/m³|kJ/|[mk]?J|[mkµ]?g|fl|oz|lb|[mkGM]?Pa|[mk]?L|[mµkc]?m[²³]?"
    "|[µmk]?N|k?W|Hz|min|h|s|EUR|mil|in|inches|days?|cents?"
)
BEFORE_A_UNIT = re.compile(rf"(?<=[0-9]) (?=(?:{UNITS})(?![\w]))")
RANGE = re.compile(rf"([0-9][0-9.]*–[0-9][0-9.]*(?:\N{{NO-BREAK SPACE}}(?:{UNITS})(?![\w]))?)")

IN_ONE_LINE = rf"[0-9][0-9.]*(?:–[0-9][0-9.]*)? (?:{UNITS})(?![\w])|[0-9][0-9.]*–[0-9][0-9.]*"
"""The same for what a page's script writes: it keeps each piece in one line, and its blank."""


def held(text: str) -> str:
    r"""Keep a number and the unit behind it in one line.

    >>> held("at 120 °C for 5 minutes")
    'at 120\xa0°C for 5 minutes'
    """
    return BEFORE_A_UNIT.sub("\N{NO-BREAK SPACE}", text) if " " in text else text


def ranges(text: str) -> list[str]:
    r"""Part a text at its ranges; each second piece is one, with its unit.

    >>> ranges("holds at 57–68\xa0°C, not above")
    ['holds at ', '57–68\xa0°C', ', not above']
    """
    return RANGE.split(text) if "–" in text else [text]
