"""What is asked of a seat, and the rows of the tables as the shared procedures take them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.answer import Basis
from formulas.fault import OutOfRange, UnknownName
from formulas.frozen import Frozen
from formulas.seating.which_seat import (
    ANSWER_NO,
    ANSWER_SOME,
    ANSWER_YES,
    NOT_KNOWN_CODE,
    listed_words,
    named_among,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.job_entries import GasketMaterial, SeatingMethod

FORMS = ("single", "long", "frame", "shoe", "harmonium")
METALS = ("aluminium", "zinc", "brass", "steel")
HEAVY = ("zinc", "brass", "steel")
"""Metals two and a half times as heavy as aluminium and more: they ask for a firmer wax."""
BLOCKS = ("softwood", "hardwood", "pan", "metal")
SERVICES = ("indoors", "hot", "cold", "damp", "travel")
SERVES = ("indoors", "in heat", "in the cold", "in damp and dry", "where it is carried")
FASTENERS = ("pins", "hooks", "screws")
PULLS = {"pins": "pin-pull", "hooks": "hook-pull", "screws": "screw-pull"}

GASKETS_M = (0.0002, 0.006)
PLATE_LENGTHS_M = (0.01, 1.2)
PLATE_WIDTHS_M = (0.006, 0.2)
PLATE_THICK_M = (0.0008, 0.008)
WAS_M = (0.0, 0.006)

CODES = {"yes": ANSWER_YES, "some": ANSWER_SOME, "no": ANSWER_NO, "": NOT_KNOWN_CODE}


class Plate(Frozen):
    """A plate that is to be seated, what was found and what is wished.

    `found` is an id of seating_methods.csv, or blank where nobody knows.
    """

    form: str
    metal: str = "aluminium"
    block: str = "softwood"
    service: str = "indoors"
    found: str = ""
    failed: bool = False
    keep_original: bool = False
    later_wax: bool = False


class Gasket(Frozen):
    """A gasket of a material of gasket_materials.csv under a plate, in m; `was` lay there before.

    The cells' share of the face is that of the table where it is not measured.
    """

    material: str
    thickness: float
    length: float
    width: float
    plate_thickness: float
    metal: str = "aluminium"
    fasteners: str = "screws"
    was: float = 0.0
    cells: float | None = None


def checked_plate(catalog: Catalog, plate: Plate) -> None:
    """Raise UnknownName for a name that is not there."""
    for what, name, names in (
        ("form of plate", plate.form, FORMS),
        ("metal", plate.metal, METALS),
        ("seat for the plate", plate.block, BLOCKS),
        ("service", plate.service, SERVICES),
    ):
        if name not in names:
            raise UnknownName(what, name, names)
    if plate.found and plate.found not in catalog.seating_methods:
        raise UnknownName("seating method", plate.found, catalog.seating_methods)


def checked_gasket(catalog: Catalog, gasket: Gasket) -> None:
    """Raise UnknownName for a name that is not there, OutOfRange for a size nobody cuts."""
    for what, name, names in (
        ("gasket material", gasket.material, tuple(catalog.gasket_materials)),
        ("metal", gasket.metal, METALS),
        ("kind of fastener", gasket.fasteners, FASTENERS),
    ):
        if name not in names:
            raise UnknownName(what, name, names)
    for what, value, ends in (
        ("thickness of the gasket", gasket.thickness, GASKETS_M),
        ("length of the plate", gasket.length, PLATE_LENGTHS_M),
        ("width of the plate", gasket.width, PLATE_WIDTHS_M),
        ("thickness of the plate", gasket.plate_thickness, PLATE_THICK_M),
        ("gasket that was there", gasket.was, WAS_M),
    ):
        if not ends[0] <= value <= ends[1]:
            said = f"{1000 * ends[0]:g} to {1000 * ends[1]:g} mm"
            raise OutOfRange(what, 1000 * value, said, "seat")
    if gasket.cells is not None and not 0 <= gasket.cells <= CELLS[1]:
        raise OutOfRange("share of the face over the cells", gasket.cells, "0 to 0.95", "seat")


CELLS = (0.0, 0.95)


def asked_row(plate: Plate) -> list[float]:
    """Give what is asked in the order of SEAT_ASKED."""
    found = (2 if plate.failed else 1) if plate.found else 0
    return [
        SERVICES.index(plate.service),
        int(plate.keep_original),
        int(plate.later_wax),
        int(plate.metal in HEAVY),
        found,
    ]


def fixed_facts(method: SeatingMethod) -> list[float]:
    """Give the facts of a method that hang on no question, from SEAT_FACTS: 3 to 13."""
    answers = ("in_heat", "in_cold", "in_damp", "in_travel", "reversible", "later_wax")
    return [
        *(CODES[getattr(method, name)] for name in answers),
        method.tight or 0,
        method.holding or 0,
        int(method.last_resort),
        int(bool(method.refused)),
        int(method.group == "wax"),
    ]


def facts_row(method: SeatingMethod, plate: Plate) -> list[float]:
    """Give the facts of a method for a plate in the order of SEAT_FACTS."""
    return [
        named_among(plate.form, method.plate_forms),
        named_among(plate.metal, method.metals),
        named_among(plate.block, method.blocks),
        *fixed_facts(method),
        int(plate.found == method.id),
    ]


def words_row(method: SeatingMethod, plate: Plate) -> list[str]:
    """Give the words of a method for a plate in the order of SEAT_WORDS."""
    return [
        listed_words(method.plate_forms),
        listed_words(method.metals),
        listed_words(method.blocks),
        method.refused,
        plate.form,
        plate.metal,
        plate.block,
        SERVES[SERVICES.index(plate.service)],
        method.never,
        method.reversed_by,
    ]


def gasket_sizes(catalog: Catalog, gasket: Gasket) -> list[float]:
    """Give the sizes as `gasket_found` takes them."""
    low, high = catalog.span("cell-opening-share", "dimensionless")
    cells = (low, high) if gasket.cells is None else (gasket.cells, gasket.cells)
    return [
        gasket.thickness,
        gasket.length,
        gasket.width,
        gasket.plate_thickness,
        *cells,
        gasket.was,
    ]


def gasket_ends(material: GasketMaterial) -> list[float] | None:
    """Give squeeze and modulus of a material in SI, or None where one of them is not known."""
    ends = (
        material.squeeze_low,
        material.squeeze_high,
        material.modulus_low,
        material.modulus_high,
    )
    squeeze_low, squeeze_high, soft, hard = ends
    if squeeze_low is None or squeeze_high is None or soft is None or hard is None:
        return None
    return [squeeze_low / 100, squeeze_high / 100, 1e6 * soft, 1e6 * hard]


def fastener_rule(catalog: Catalog, kind: str) -> list[float]:
    """Give edge, closest, farthest and the pull of one, as `gasket_found` takes them."""
    edge = catalog.figure("fastener-edge").typical
    assert edge is not None
    return [
        edge / 1000,
        *catalog.span("fastener-spacing", "m"),
        *catalog.span(PULLS[kind], "N"),
    ]


def gasket_bases(catalog: Catalog, gasket: Gasket) -> list[Basis]:
    """Give what the ranges rest on."""
    material = catalog.gasket_materials[gasket.material]
    names = (
        *(() if gasket.cells is not None else ("cell-opening-share",)),
        f"{gasket.metal}-modulus",
        "fastener-edge",
        "fastener-spacing",
        PULLS[gasket.fasteners],
        "pressure-range-loud",
    )
    rows = [catalog.figure(name) for name in names]
    return [
        Basis(f"{material.name}: squeeze and modulus", material.basis, material.source),
        *(Basis(one.what, one.basis, one.source) for one in rows),
    ]
