"""The terminal text of `seat`: what was asked, the seats in order with their reasons, a gasket."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from formulas.answer import Unknown
from formulas.valves.typed import length_printed
from site_builder.texts.words import foot, plain_unknown, shop_line, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the seats, then the gasket, then the basis."""
    us = catalog.shop.units == "US"
    lines = [shop_line(catalog)]
    if answer.inputs["plate"]:
        lines += ["", *seats_lines(answer)]
    if answer.inputs["gasket"]:
        lines += ["", *gasket_lines(answer, catalog, us)]
    return [*lines, *foot(answer)]


def seats_lines(answer: Answer) -> Iterator[str]:
    """Say what was asked, then each seat in order."""
    yield wrapped(f"Seats for {plate_said(answer.inputs['plate'])}", "  ")
    yield wrapped(answer.answer["summary"], "  ")
    yield ""
    for one in answer.answer["methods"]:
        yield wrapped(one["said"], "    ")
        for reason in one["reasons"]:
            yield wrapped(f"    {reason['kind'] + ':':<11}{reason['words']}", " " * 15)


def plate_said(asked: dict[str, Any]) -> str:
    """Say what was asked of the plate."""
    found = asked["found"] or "not known"
    failed = ", which failed" if asked["failed"] else ""
    wishes = [
        words
        for wish, words in (
            (asked["keep_original"], "the original is to stay"),
            (asked["later_wax"], "it may want wax later on"),
        )
        if wish
    ]
    return "; ".join(
        [
            f"a plate of the form {asked['form']}, {asked['metal']}, on {asked['block']}",
            f"played {asked['service']}" if asked["service"] == "indoors"
            else f"service: {asked['service']}",
            f"found: {found}{failed}",
            *wishes,
        ]
    )  # fmt: skip


def gasket_lines(answer: Answer, catalog: Catalog, us: bool) -> Iterator[str]:
    """Say what a gasket asks for."""
    asked, found = answer.inputs["gasket"], answer.answer["gasket"]
    name = catalog.gasket_materials[asked["material"]].name
    sizes = [length_printed(asked[one].value, us) for one in ("length", "width", "plate_thickness")]
    yield wrapped(
        f"{name}, {length_printed(asked['thickness'].value, us)} thick, under a plate of"
        f" {asked['metal']} of {sizes[0]} by {sizes[1]}, {sizes[2]} thick, on {asked['fasteners']}",
        "  ",
    )
    if isinstance(found, Unknown):
        yield wrapped(plain_unknown(found), "  ")
        return
    for about, said in found["said"].items():
        yield wrapped(f"  {about + ':':<26}{said}", " " * 28)
