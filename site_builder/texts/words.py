"""How amounts, bands and heads are worded on a terminal."""

from __future__ import annotations

import textwrap

from formulas.answer import Answer, Band, Quantity, Unknown
from formulas.catalog import Catalog
from formulas.units import fahrenheit, printed, spoken_unit

WIDTH = 88


def amount(quantity: Quantity, decimals: int = 0) -> str:
    """Give a quantity as it is printed."""
    return f"{printed(quantity.value, decimals)} {spoken_unit(quantity.unit)}"


def span(band: Band, decimals: int = 0) -> str:
    """Give the ends of a band as they are printed."""
    low, high = printed(band.low, decimals), printed(band.high, decimals)
    return f"{low} to {high} {spoken_unit(band.unit)}"


def wrapped(text: str, indent: str = "") -> str:
    """Fold a line to the width of a terminal."""
    return textwrap.fill(
        text, WIDTH, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )


def head(answer: Answer, catalog: Catalog) -> list[str]:
    """Name the blend with its parts by mass, and the shop."""
    parts = ", ".join(
        f"{part:g} {catalog.material(name).name}" for name, part in answer.inputs["parts"].items()
    )
    title = f"{answer.inputs['blend'] or 'Own ratio'}, parts by mass: {parts}"
    return [title, shop_line(catalog), ""]


def shop_line(catalog: Catalog) -> str:
    """Name the shop, and say so where it is invented."""
    return f"Shop: {catalog.shop.name}{' (invented demo shop)' if catalog.shop.invented else ''}"


def foot(answer: Answer) -> list[str]:
    """Give the notes and what the answer rests on."""
    lines = ["", *(wrapped(note, "  ") for note in answer.notes), "", "Basis"]
    for basis in answer.basis:
        source = f" ({basis.source})" if basis.source else ""
        said = {"practice": "common practice", "memory": "from memory: check before relying on it"}
        lines.append(
            wrapped(f"  {basis.what}: {said.get(basis.basis, basis.basis)}{source}", "    ")
        )
    return lines


def unknown(missing: Unknown) -> str:
    """Say what is not known and how to find it out."""
    return wrapped(plain_unknown(missing), "  ")


def plain_unknown(missing: Unknown) -> str:
    """Say the same in one line, unfolded."""
    return f"Not known: {missing.what}. To find out: {missing.find_out}"


def softening(band: Band | Unknown, catalog: Catalog, tests: int) -> str:
    """Say the band of an estimate, its method and the number of tests behind it."""
    if isinstance(band, Unknown):
        return unknown(band)
    shown = band_shown(band, catalog)
    return wrapped(
        f"Softens somewhere from {span(shown)} by {catalog.methods[band.method].name.lower()}"
        f" (95 % band, resting on {counted(tests)}).",
        "  ",
    )


def counted(tests: int) -> str:
    """Count the tests of a shop in words."""
    return f"{tests} {'test' if tests == 1 else 'tests'} of this shop"


def asked(celsius: float, catalog: Catalog) -> str:
    """Give a temperature that was asked for, in the unit the shop reads, as it was typed."""
    if catalog.shop.units == "US":
        return f"{fahrenheit(celsius):.6g} °F"
    return f"{celsius:.6g} °C"


def band_shown(band: Band, catalog: Catalog) -> Band:
    """Give a temperature band in the unit the shop reads."""
    if catalog.shop.units != "US":
        return band
    from formulas.units import convert

    low, high = (convert(end, band.unit, "degF") for end in (band.low, band.high))
    middle = None if band.estimate is None else convert(band.estimate, band.unit, "degF")
    return Band(low, middle, high, "degF", band.method)


def so_many(count: int, one: str, many: str = "") -> str:
    """Write a count with its noun, in the singular where it is one.

    >>> so_many(1, "size"), so_many(3, "size"), so_many(2, "thing to buy", "things to buy")
    ('1 size', '3 sizes', '2 things to buy')
    """
    return f"{count} {one}" if count == 1 else f"{count} {many or one + 's'}"
