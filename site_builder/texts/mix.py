"""The terminal text of `mix`."""

from __future__ import annotations

from formulas.answer import Answer, Quantity, Unknown
from formulas.catalog import Catalog
from formulas.units import printed
from formulas.wax.batch import decimals_of
from site_builder.texts.words import amount, foot, head, softening, span, unknown


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what to weigh, what is left, the pot, the cost and how it may soften."""
    found = answer.answer
    decimals = decimals_of(answer.inputs["scale"].value)
    lines = head(answer, catalog)
    if "needed" in found:
        need = found["needed"]
        lines += [f"{need.method}: {span(need)}", ""]
    for component in found["components"]:
        lines.append(
            f"  {catalog.material(component['material']).name:<24}"
            f"{amount(component['mass'], decimals):>12}"
            f"{printed(100 * component['share'], 2):>9} %"
            f"   weighed {printed(100 * component['weighed_share'], 2)} %"
        )
    lines.append(f"  {'Total':<24}{amount(found['total'], decimals):>12}")
    lines += ["", f"Left {found['usable'].method}: {span(found['usable'])}"]
    lines.append(
        f"Hot volume {span(found['hot_volume'])}; smallest pot {amount(found['pot'])} to the brim"
    )
    lines += [_cost(found["cost"]), softening(found["softening"], catalog, found["tests_used"])]
    return [*lines, *foot(answer)]


def _cost(cost: Quantity | Unknown) -> str:
    if isinstance(cost, Unknown):
        return unknown(cost)
    return f"Cost {amount(cost, 2)} by the shop's prices"
