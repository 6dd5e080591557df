"""The answer of `seat`: which seats a plate may have, with every reason, and what a gasket asks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Band, Basis, Quantity, Unknown
from formulas.seating.asked import (
    Gasket,
    Plate,
    asked_row,
    checked_gasket,
    checked_plate,
    facts_row,
    fastener_rule,
    gasket_bases,
    gasket_ends,
    gasket_sizes,
    words_row,
)
from formulas.seating.fasteners import GASKET_FOUND, gasket_found
from formulas.seating.gasket_words import GASKET_ROWS, gasket_said
from formulas.seating.seat_words import (
    first_seat_said,
    reason_kind,
    seat_head_said,
    seat_points_said,
    seat_verdict_said,
)
from formulas.seating.which_seat import (
    SEAT_NOT_HERE,
    seat_points,
    seat_reasons,
    seat_verdict,
    seats_in_order,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

UNITS = {
    "squeeze": "dimensionless", "thickness": "m", "rise_filled": "m", "pressure": "Pa",
    "area": "m**2", "force": "N", "span": "m", "spacing": "m", "rows": "dimensionless",
    "along": "dimensionless", "fasteners": "dimensionless", "force_each": "N",
    "squeeze_reached": "dimensionless", "raised": "m", "loud": "N",
}  # fmt: skip
RULE = (
    "Each reason counts one. One never is enough to put a seat last. What was there and held"
    " stands first; a last resort stays one; what is not known is tried on scrap. Within a verdict"
    " the order is by reasons for less reasons against, then as in the table."
)
NO_PROMISE = (
    "A place in this list is no promise: no seat is called right before it was tried on one plate "
    "and tested."
)
MAKERS = (
    "Keep the maker's method unless it failed. Before anything comes off, write down and photograph"
    " what holds each plate."
)
CAUTIOUS = (
    "The plate between two fasteners is taken as free to turn at both, the pressure as if it did "
    "not ease, the metal over the cells as nothing: the spacing errs to the close side."
)
BOTH_ENDS = (
    "The ends are those of the table, most of it from memory: press a scrap of your own sheet "
    "between two blocks under a known weight, and read the gap."
)


def seat(catalog: Catalog, plate: Plate | None = None, gasket: Gasket | None = None) -> Answer:
    """Answer which seats a plate may have, or what a gasket asks for, or both.

    Raises UnknownName for a name that is not there and OutOfRange for a size nobody cuts.
    """
    if plate is not None:
        checked_plate(catalog, plate)
    if gasket is not None:
        checked_gasket(catalog, gasket)
    methods = [] if plate is None else methods_for(catalog, plate)
    found = None if gasket is None else gasket_answer(catalog, gasket)
    bases = [] if plate is None else _bases(catalog)
    notes = [] if plate is None else [MAKERS, RULE, NO_PROMISE]
    if gasket is not None:
        bases = [*bases, *gasket_bases(catalog, gasket)]
        notes = [*notes, CAUTIOUS, BOTH_ENDS]
    return Answer(
        "seat",
        {
            "first": methods[0]["id"] if methods and methods[0]["code"] != SEAT_NOT_HERE else None,
            "summary": _summary(methods),
            "methods": methods,
            "gasket": found,
        },
        {"plate": _plate_inputs(plate), "gasket": _gasket_inputs(gasket)},
        bases,
        catalog.warned("seat"),
        notes,
    )


def methods_for(catalog: Catalog, plate: Plate) -> list[dict[str, Any]]:
    """Give every method with verdict and reasons, in order."""
    asked = asked_row(plate)
    methods = list(catalog.seating_methods.values())
    reasons = [seat_reasons(facts_row(one, plate), asked, words_row(one, plate)) for one in methods]
    weights = [[one[0] for one in of] for of in reasons]
    verdicts = [
        seat_verdict(each, int(one.last_resort)) for each, one in zip(weights, methods, strict=True)
    ]
    points = [seat_points(each) for each in weights]
    return [
        {
            "id": methods[place].id,
            "name": methods[place].name,
            "verdict": seat_verdict_said(verdicts[place]),
            "code": verdicts[place],
            "points": seat_points_said(weights[place]),
            "said": seat_head_said(
                rank, methods[place].name, verdicts[place], seat_points_said(weights[place])
            ),
            "reasons": [
                {"kind": reason_kind(weight), "words": words} for weight, words in reasons[place]
            ],
        }
        for rank, place in enumerate(seats_in_order(verdicts, points), 1)
    ]


def _summary(methods: list[dict[str, Any]]) -> str:
    if not methods:
        return ""
    first = methods[0]
    return first_seat_said(first["name"], first["code"], first["points"])


def gasket_answer(catalog: Catalog, gasket: Gasket) -> dict[str, Any] | Unknown:
    """Give the ranges of a gasket, with the texts that every face prints."""
    material = catalog.gasket_materials[gasket.material]
    ends = gasket_ends(material)
    if ends is None:
        return Unknown(
            f"squeeze or modulus of {material.name}",
            "press a scrap between two blocks under a known weight, read the gap, and put it into"
            " gasket_materials.csv",
        )
    rule = fastener_rule(catalog, gasket.fasteners)
    ranges = gasket_found(
        gasket_sizes(catalog, gasket),
        ends,
        list(catalog.span(f"{gasket.metal}-modulus", "Pa")),
        rule,
        list(catalog.span("pressure-range-loud", "Pa")),
    )
    us = catalog.shop.units == "US"
    return {
        **{
            name: Band(low, None, high, UNITS[name], "table")
            for name, (low, high) in zip(GASKET_FOUND, ranges, strict=True)
        },
        "said": dict(zip(GASKET_ROWS, gasket_said(ranges, rule, us), strict=True)),
    }


def _bases(catalog: Catalog) -> list[Basis]:
    kinds = {one.basis for one in catalog.seating_methods.values()}
    return [
        Basis("What each seat is, where it is found, how it comes out", kind)
        for kind in ("measured", "published", "practice", "memory", "invented")
        if kind in kinds
    ]


def _plate_inputs(plate: Plate | None) -> dict[str, Any] | None:
    if plate is None:
        return None
    return {
        "form": plate.form,
        "metal": plate.metal,
        "block": plate.block,
        "service": plate.service,
        "found": plate.found,
        "failed": plate.failed,
        "keep_original": plate.keep_original,
        "later_wax": plate.later_wax,
    }


def _gasket_inputs(gasket: Gasket | None) -> dict[str, Any] | None:
    if gasket is None:
        return None
    return {
        "material": gasket.material,
        "thickness": Quantity(gasket.thickness, "m"),
        "length": Quantity(gasket.length, "m"),
        "width": Quantity(gasket.width, "m"),
        "plate_thickness": Quantity(gasket.plate_thickness, "m"),
        "metal": gasket.metal,
        "fasteners": gasket.fasteners,
        "was": Quantity(gasket.was, "m"),
        "cells": gasket.cells,
    }
