"""The terminal text of `record batch`: first the number, which says that it is written."""

from __future__ import annotations

from typing import Any

from formulas.answer import Answer, Quantity, Unknown
from formulas.catalog import Catalog
from formulas.units import printed
from site_builder.texts.book_words import weighed
from site_builder.texts.words import foot, head, unknown, wrapped


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the number, target and actual of each lot, the ratio weighed and what is left."""
    found = answer.answer
    lines = [f"Recorded {found['batch']}, {found['date']}", *head(answer, catalog)]
    lines.append(f"  {'Material':<24}{'Lot':<14}{'Target':>12}{'Actual':>12}   Left of the lot")
    lines += [_lot(lot, catalog) for lot in found["lots"]]
    lines += [f"  {'Total':<38}{'':>12}{weighed(found['total']):>12}", ""]
    lines.append(_ratio(found["weighed_shares"], catalog))
    if found["yield"]:
        lines.append(f"Yield {weighed(found['yield'])}")
    if found["retest_by"]:
        lines.append(f"Test the kept stick again by {found['retest_by']}.")
    lines.append(wrapped(f"Write {found['batch']} on every stick, tin and pot of it."))
    return [*lines, *foot(answer)]


def _lot(lot: dict[str, Any], catalog: Catalog) -> str:
    material = catalog.materials.get(lot["material"])
    name = material.name if material else "Old wax"
    target: Quantity | None = lot["target"]
    left: Quantity | None = lot["left"]
    return (
        f"  {name:<24}{lot['lot'] or 'not known':<14}"
        f"{weighed(target) if target else 'not known':>12}{weighed(lot['actual']):>12}"
        f"   {weighed(left) if left else 'not known'}"
    )


def _ratio(shares: dict[str, float] | Unknown, catalog: Catalog) -> str:
    if isinstance(shares, Unknown):
        return unknown(shares)
    said = ", ".join(
        f"{printed(100 * share, 2)} % {catalog.materials[name].name}"
        for name, share in shares.items()
    )
    return wrapped(f"Really weighed, by mass: {said}", "  ")
