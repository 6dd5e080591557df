"""Which seat a plate may have, what a gasket asks for, and what their tables demand."""

from __future__ import annotations

import dataclasses
import itertools
import json

import book_trials
import pytest
from click.testing import CliRunner

from formulas import table
from formulas.answer import Unknown
from formulas.catalog import TABLES, load
from formulas.fault import Faults, OutOfRange, UnknownName
from formulas.seat_checks import seat_faults
from formulas.seating.asked import (
    BLOCKS,
    FASTENERS,
    FORMS,
    METALS,
    SERVES,
    SERVICES,
    Gasket,
    Plate,
    asked_row,
    facts_row,
    gasket_ends,
    words_row,
)
from formulas.seating.fasteners import GASKET_FOUND, fasteners_along
from formulas.seating.gasket import (
    bearing_area,
    fastener_span,
    gasket_force,
    gasket_pressure,
    rise_between,
    rise_filled,
    squeeze_reached,
    squeezed_thickness,
)
from formulas.seating.gasket_words import (
    GASKET_ROWS,
    THEY_DO_NOT,
    THEY_MAY,
    THEY_REACH,
    counts_said,
    forces_said,
    raised_said,
    reach_said,
    squeezes_said,
)
from formulas.seating.seat import UNITS, methods_for, seat
from formulas.seating.which_seat import (
    KEEP_IT,
    SEAT_ASKED,
    SEAT_FACTS,
    SEAT_LAST,
    SEAT_MAY,
    SEAT_NOT_HERE,
    SEAT_TRY_FIRST,
    SEAT_WITH_CARE,
    SEAT_WORDS,
)
from site_builder.commands import main
from site_builder.markup.elements import plain
from site_builder.parts import registry
from site_builder.workings.seat_form import BLOCK_WORDS, FORM_WORDS

CATALOG = load(None)
METHODS = CATALOG.seating_methods
REFUSED = {"acetic-silicone", "hot-melt", "contact-cement", "putty"}
BY_WAX = ("wax-fillet", "wax-bed", "wax-leather")
EVERY = [
    Plate(form, metal, block, service)
    for form, metal, block, service in itertools.product(FORMS, METALS, BLOCKS, SERVICES)
]
CORK = Gasket("cork", 0.0012, 0.3, 0.06, 0.0028)


def codes(plate, catalog=CATALOG):
    """Give the verdict on every seat, by its id, in order."""
    return {one["id"]: one["code"] for one in methods_for(catalog, plate)}


def changed(name, **cells):
    """Give the trade's tables with some cells of one seat replaced."""
    other = dataclasses.replace(METHODS[name], **cells)
    return dataclasses.replace(CATALOG, seating_methods={**METHODS, name: other})


# The choice


def test_the_rows_of_the_choice_are_as_long_as_their_names():
    """Facts, questions and words stand in the order that is written down."""
    plate = Plate("single")
    for method in METHODS.values():
        assert len(facts_row(method, plate)) == len(SEAT_FACTS)
        assert len(words_row(method, plate)) == len(SEAT_WORDS)
    assert len(asked_row(plate)) == len(SEAT_ASKED)
    assert len(SERVICES) == len(SERVES)
    assert set(FORM_WORDS) == set(FORMS)
    assert set(BLOCK_WORDS) == set(BLOCKS)


def test_what_is_refused_is_refused_everywhere():
    """No plate, metal, seat or service makes one of the four sealants thinkable."""
    for plate in EVERY:
        found = codes(plate)
        assert {found[name] for name in REFUSED} == {SEAT_NOT_HERE}, plate
        assert list(found.values()) == sorted(found.values())
        assert set(found) == set(METHODS)


@pytest.mark.parametrize("name", sorted(set(METHODS) - REFUSED - {"neutral-silicone"}))
def test_what_was_there_and_held_stands_first(name):
    """Whatever it is and wherever it is played, as long as the plate is one of its own."""
    method = METHODS[name]
    form, metal = method.plate_forms[0], (*method.metals, "aluminium")[0]
    for service in SERVICES:
        plate = Plate(form, metal, (*method.blocks, "softwood")[0], service, found=name)
        assert next(iter(codes(plate).items())) == (name, KEEP_IT)
        assert codes(dataclasses.replace(plate, failed=True))[name] != KEEP_IT


def test_a_repairers_sealant_is_never_kept_because_it_was_found():
    """Neither the one that is a last resort nor one that is refused."""
    for name in (*REFUSED, "neutral-silicone"):
        found = codes(Plate("single", found=name))
        assert KEEP_IT not in found.values()
        assert found[name] in (SEAT_LAST, SEAT_NOT_HERE)


def test_to_keep_the_original_speaks_against_all_that_is_not_it():
    """Every other seat that would do goes down to care, a last resort out."""
    plate = Plate("single", found="wax-fillet")
    before, after = codes(plate), codes(dataclasses.replace(plate, keep_original=True))
    for name, code in before.items():
        if code == SEAT_MAY:
            assert after[name] == SEAT_WITH_CARE
    assert before["neutral-silicone"] == SEAT_LAST
    assert after["neutral-silicone"] == SEAT_NOT_HERE


def test_a_wish_for_later_wax_forbids_what_keeps_it_off():
    """Silicone is a last resort without the wish, and never with it."""
    assert codes(Plate("single"))["neutral-silicone"] == SEAT_LAST
    assert codes(Plate("single", later_wax=True))["neutral-silicone"] == SEAT_NOT_HERE


@pytest.mark.parametrize("name", BY_WAX)
def test_a_heavy_metal_asks_for_a_firmer_wax(name):
    """Zinc, brass and steel say so at every seat of wax; aluminium does not."""
    for metal in METALS:
        (one,) = [
            each for each in methods_for(CATALOG, Plate("single", metal)) if each["id"] == name
        ]
        told = " ".join(reason["words"] for reason in one["reasons"])
        assert ("firmer wax" in told) == (metal != "aluminium")


BLANKS = [
    ({"tight": None}, Plate("single"), "how tight it is"),
    ({"holding": None}, Plate("single"), "how well it holds"),
    ({"reversible": ""}, Plate("single"), "comes out without harm"),
    ({"later_wax": ""}, Plate("single", later_wax=True), "wax can go there later"),
    ({"in_heat": ""}, Plate("single", service="hot"), "serves in heat"),
    ({"in_cold": ""}, Plate("single", service="cold"), "serves in the cold"),
    ({"in_damp": ""}, Plate("single", service="damp"), "serves in damp and dry"),
    ({"in_travel": ""}, Plate("single", service="travel"), "serves where it is carried"),
]


@pytest.mark.parametrize(("cells", "plate", "about"), BLANKS)
def test_what_is_blank_is_not_known(cells, plate, about):
    """A blank that was asked for is never taken for yes or no."""
    catalog = changed("gasket-screws", **cells)
    (one,) = [each for each in methods_for(catalog, plate) if each["id"] == "gasket-screws"]
    assert one["code"] == SEAT_TRY_FIRST
    assert any(r["kind"] == "not known" and about in r["words"] for r in one["reasons"])


def test_a_blank_that_nobody_asked_for_does_no_harm():
    """Indoors it does not matter that nobody knows how a seat does in heat."""
    plate = Plate("single", service="indoors")
    assert codes(plate, changed("gasket-screws", in_heat="")) == codes(plate)


def test_a_no_in_the_service_asked_for_is_never():
    """A seat that does not stand damp is out where it gets damp, and stays in elsewhere."""
    catalog = changed("gasket-screws", in_damp="no")
    assert codes(Plate("single", service="damp"), catalog)["gasket-screws"] == SEAT_NOT_HERE
    assert codes(Plate("single"), catalog)["gasket-screws"] != SEAT_NOT_HERE


def test_more_for_it_stands_before_less_within_one_verdict():
    """The order within a verdict is by reasons for less reasons against, as counted here anew."""
    for plate in EVERY[::7]:
        found = methods_for(CATALOG, plate)
        points = []
        for one in found:
            kinds = [reason["kind"] for reason in one["reasons"]]
            if one["code"] in (SEAT_MAY, SEAT_WITH_CARE):
                points.append((one["code"], kinds.count("against") - kinds.count("for")))
        assert points == sorted(points)


def test_no_seat_is_called_safe():
    """Neither in the tables nor in the answer."""
    answer = seat(CATALOG, Plate("single"), CORK)
    words = json.dumps(answer.answer, default=str) + " ".join(answer.notes)
    assert "safe" not in words.lower()
    for method in METHODS.values():
        assert "safe" not in " ".join(map(str, dataclasses.astuple(method))).lower()


def test_where_nothing_fits_it_is_said():
    """A harmonium reed of zinc on metal goes with no seat of the table."""
    answer = seat(CATALOG, Plate("harmonium", "zinc", "metal"))
    assert answer.answer["first"] is None
    assert answer.answer["summary"].startswith("None of them")


@pytest.mark.parametrize(
    ("plate", "near"),
    [
        (Plate("singel"), "single"),
        (Plate("single", metal="zink"), "zinc"),
        (Plate("single", block="softwod"), "softwood"),
        (Plate("single", service="travl"), "travel"),
        (Plate("single", found="wax-filet"), "wax-fillet"),
    ],
)
def test_a_name_that_is_not_there_is_refused(plate, near):
    """A near name is offered."""
    with pytest.raises(UnknownName, match=near):
        seat(CATALOG, plate)


# The gasket


def test_pressure_force_and_squeeze_close_the_circle():
    """The force that a squeeze asks for, shared among n, squeezes it by just that."""
    area = bearing_area(0.3, 0.06, 0.4)
    assert area == pytest.approx(0.3 * 0.06 * 0.6)
    force = gasket_force(gasket_pressure(5e6, 0.2), area)
    for n in (1, 4, 26):
        assert squeeze_reached(n, force / n, 5e6, area) == pytest.approx(0.2)
    assert squeezed_thickness(0.001, 0.2) == pytest.approx(0.0008)


def test_half_the_spacing_is_a_sixteenth_of_the_rise():
    """The rise goes with the fourth power of the span, against the cube of the thickness."""
    here = rise_between(1e6, 0.04, 70e9, 0.0025)
    assert rise_between(1e6, 0.02, 70e9, 0.0025) == pytest.approx(here / 16)
    assert rise_between(1e6, 0.04, 70e9, 0.005) == pytest.approx(here / 8)
    assert fastener_span(here, 1e6, 70e9, 0.0025) == pytest.approx(0.04)


# 300 mm less 5 mm at each end leave 290; at 29 mm that is ten spaces, so eleven fasteners.
@pytest.mark.parametrize(
    ("length", "edge", "span", "count"),
    [(0.3, 0.005, 0.029, 11), (0.3, 0.005, 0.0291, 11), (0.3, 0.005, 0.0289, 12),
     (0.02, 0.005, 0.05, 2), (0.008, 0.005, 0.03, 2)],
)  # fmt: skip
def test_fasteners_are_counted_with_both_ends(length, edge, span, count):
    """Spaces rounded up, and one more; two at least, however short."""
    assert fasteners_along(length, edge, span) == count


def ranges(gasket):
    """Give the ranges of a gasket by their names."""
    found = seat(CATALOG, gasket=gasket).answer["gasket"]
    return {name: (found[name].low, found[name].high) for name in GASKET_FOUND}


@pytest.mark.parametrize("material", CATALOG.gasket_materials)
@pytest.mark.parametrize("fasteners", FASTENERS)
def test_every_range_has_its_ends_the_right_way_round(material, fasteners):
    """Low is low, and nothing but the room is below nought."""
    for thickness, length, width in ((0.0008, 0.04, 0.014), (0.002, 0.4, 0.07)):
        gasket = Gasket(material, thickness, length, width, 0.0025, "zinc", fasteners, was=0.001)
        for name, (low, high) in ranges(gasket).items():
            assert low <= high, name
            assert low > 0 or name == "raised", name


def test_the_widest_spacing_still_fills_the_rise():
    """At the spacing by the plate, softest metal and hardest gasket, the rise is just filled."""
    found = ranges(CORK)
    soft, _ = CATALOG.span("aluminium-modulus", "Pa")
    least, most, _, hard = gasket_ends(CATALOG.gasket_materials["cork"])
    rise = rise_between(gasket_pressure(hard, most), found["span"][0], soft, CORK.plate_thickness)
    assert rise == pytest.approx(rise_filled(CORK.thickness, most, least))
    assert found["rise_filled"] == (pytest.approx(rise), pytest.approx(rise))


def test_a_thicker_plate_needs_no_more_fasteners():
    """Nor does a stiffer metal, and a harder gasket needs no fewer."""
    counts = [
        ranges(dataclasses.replace(CORK, plate_thickness=one))["fasteners"]
        for one in (0.0015, 0.002, 0.003, 0.004)
    ]
    assert counts == sorted(counts, reverse=True)
    assert counts[0] > counts[-1]
    steel = ranges(dataclasses.replace(CORK, metal="steel"))["fasteners"]
    assert steel <= ranges(CORK)["fasteners"]
    felt = ranges(dataclasses.replace(CORK, material="wool-felt"))["fasteners"]
    assert felt <= ranges(CORK)["fasteners"]


def test_the_room_is_reckoned_from_what_lay_there():
    """As thick as it was before: the plate stands where it stood, within the squeeze."""
    bare, left = ranges(CORK)["raised"], ranges(CORK)["thickness"]
    assert bare == left
    lower = ranges(dataclasses.replace(CORK, was=left[1]))["raised"]
    assert lower == (pytest.approx(left[0] - left[1]), pytest.approx(0))


def test_a_measured_share_of_cells_takes_the_place_of_the_table():
    """It narrows the force, and the table's figure is no longer named as a basis."""
    answer = seat(CATALOG, gasket=dataclasses.replace(CORK, cells=0.4))
    assert answer.answer["gasket"]["area"].low == answer.answer["gasket"]["area"].high
    told = CATALOG.figure("cell-opening-share").what
    assert told not in [one.what for one in answer.basis]
    assert told in [one.what for one in seat(CATALOG, gasket=CORK).basis]


def test_a_material_without_its_modulus_is_not_known():
    """It says what is missing and how to find it out; nothing is made up."""
    cork = dataclasses.replace(CATALOG.gasket_materials["cork"], modulus_low=None)
    materials = {**CATALOG.gasket_materials, "cork": cork}
    found = seat(dataclasses.replace(CATALOG, gasket_materials=materials), gasket=CORK)
    assert isinstance(found.answer["gasket"], Unknown)
    assert "known weight" in found.answer["gasket"].find_out


@pytest.mark.parametrize(
    ("cells", "error", "near"),
    [
        ({"material": "korc"}, UnknownName, "cork"),
        ({"fasteners": "nail"}, UnknownName, "pins"),
        ({"metal": "tin"}, UnknownName, "metal"),
        ({"thickness": 0.03}, OutOfRange, "thickness of the gasket"),
        ({"length": 3.0}, OutOfRange, "length of the plate"),
        ({"width": 0.001}, OutOfRange, "width of the plate"),
        ({"plate_thickness": 0.02}, OutOfRange, "thickness of the plate"),
        ({"was": -0.001}, OutOfRange, "was there"),
        ({"cells": 1.2}, OutOfRange, "cells"),
    ],
)
def test_a_gasket_nobody_cuts_is_refused(cells, error, near):
    """Names and sizes alike."""
    with pytest.raises(error, match=near):
        seat(CATALOG, gasket=dataclasses.replace(CORK, **cells))


def test_the_ranges_of_an_answer_are_named_and_have_units():
    """Each has its unit, and each text its head."""
    found = seat(CATALOG, gasket=CORK).answer["gasket"]
    assert set(UNITS) == set(GASKET_FOUND)
    assert set(found) == {*GASKET_FOUND, "said"}
    assert list(found["said"]) == list(GASKET_ROWS)


# Words


def test_ranges_are_printed_as_they_are():
    """Forces, squeezes and counts, at the edges of their rounding."""
    assert forces_said(0.994, 9.94, us=False) == "0.99 to 9.9 N"
    assert forces_said(4.4482216152605, 44.482216152605, us=True) == "1.0 to 10 lbf"
    assert squeezes_said(0.009, 0.44) == "0.9 to 44 %"
    assert squeezes_said(0.2, 1.0) == "20 % up to flat"
    assert squeezes_said(1.5, 2.0) == "more than there is"
    assert counts_said(4, 4) == "4"


def test_a_gasket_that_is_reached_perhaps_is_said_so():
    """Both ends, one of them, none."""
    assert reach_said(0.1, 0.5, 0.1) == THEY_REACH
    assert reach_said(0.05, 0.5, 0.1) == THEY_MAY
    assert reach_said(0.01, 0.05, 0.1) == THEY_DO_NOT


def test_the_room_is_said_to_the_side_it_goes():
    """Farther, nearer, or perhaps either."""
    assert raised_said(0.001, 0.002, us=False).startswith(
        "the plate stands 1.00 to 2.00 mm farther"
    )
    assert raised_said(-0.002, -0.001, us=False).startswith("the plate stands 1.00 to 2.00 mm near")
    assert "0.50 mm nearer to the wood or 0.25 mm farther" in raised_said(
        -0.0005, 0.00025, us=False
    )


# The command


def run(*words):
    """Run the command on the trade's tables and the demo shop."""
    return CliRunner().invoke(main, ["seat", *words])


SIZES = ("--thickness", "1.2mm", "--size", "300x60mm", "--plate-thickness", "2.8mm")


def test_the_command_says_seats_and_gasket():
    """Both in one text, with the cautions on standard error."""
    done = run("--plate", "single", "--found", "gasket-screws", "--gasket", "cork", *SIZES)
    assert done.exit_code == 0, done.stderr
    assert "1. Gasket and screws: keep it" in done.stdout
    assert "Cork sheet, 1.2 mm thick" in done.stdout
    assert CATALOG.cautions["acetic-on-metal"].title in " ".join(done.stderr.split())


def test_inches_and_millimetres_ask_the_same():
    """Three hundredths of an inch are 0.762 mm, whichever way they are typed."""
    metric, inches = (
        json.loads(run("--gasket", "cork", "--thickness", thick, "--size", size,
                       "--plate-thickness", plate, "--json").stdout)["answer"]["gasket"]
        for thick, size, plate in (
            ("0.762mm", "254x50.8mm", "2.54mm"),
            ("0.03in", "10x2in", "0.1in"),
        )
    )  # fmt: skip
    assert metric == inches


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "--plate for the seats"),
        (("--gasket", "cork"), "--gasket asks for --thickness"),
        (("--plate", "single", "--was", "1mm"), "sizes belong to --gasket"),
        (("--plate", "single", "--failed"), "--found"),
        (("--gasket", "cork", *SIZES[:2], "--size", "300mm", *SIZES[4:]), "a size as 300x60mm"),
        (("--gasket", "cork", *SIZES, "--cells", "0.4"), "a share as 40%"),
        (("--gasket", "cork", "--thickness", "1.2", *SIZES[2:]), "a number with a unit"),
        (("--plate", "singel"), "did you mean 'single'"),
    ],
)
def test_a_question_that_is_none_is_refused(words, said):
    """The message says what is accepted, and the exit code that the call was wrong."""
    done = run(*words)
    assert done.exit_code == 2
    assert said in done.stderr


# The tables


def test_every_seat_says_how_it_works_and_how_it_comes_out():
    """No cell says that it is to be written; what is blank is a number or an answer."""
    for method in METHODS.values():
        words = (method.seal, method.hold, method.tools, method.leak_paths, method.found_in)
        assert all("to be written" not in one for one in words)
        assert method.reversed_by
        assert method.never
        assert method.cautions
        assert bool(method.refused) == (method.id in REFUSED)
    for one in CATALOG.gasket_materials.values():
        assert "to be written" not in one.about


def test_no_row_of_seating_claims_a_source_it_does_not_name():
    """They rest on practice or memory."""
    rows = (*METHODS.values(), *CATALOG.gasket_materials.values())
    assert {one.basis for one in rows} <= {"practice", "memory"}


def rows_of_tables():
    """Give the rows of the trade's tables that the checks of seating read."""
    schemas = table.schemas(TABLES / "datapackage.json")
    names = ("seating_methods.csv", "gasket_materials.csv", "cautions.csv")
    return {name: table.read(TABLES / name, schemas[name], []) for name in names}


SPOILED = [
    ("seating_methods.csv", "wax-fillet", {"takes": "fillet nails"}, "takes", "screws"),
    ("seating_methods.csv", "wax-fillet", {"takes": "bed"}, "takes", "fillet among them"),
    ("seating_methods.csv", "wax-fillet", {"plate_forms": "singel"}, "plate_forms", "single"),
    ("seating_methods.csv", "groove", {"metals": "bras"}, "metals", "brass"),
    ("seating_methods.csv", "groove", {"blocks": "pin"}, "blocks", "pan"),
    ("seating_methods.csv", "groove", {"cautions": "old-dusts"}, "cautions", "ids of cautions.csv"),
    ("seating_methods.csv", "groove", {"minutes_low": 9}, "minutes_high", "9 or more"),
    ("seating_methods.csv", "groove", {"minutes_low": None}, "minutes_high", "where minutes_low"),
    ("seating_methods.csv", "groove", {"service_low": 5.0}, "service_high", "where service_low"),
    ("seating_methods.csv", "groove", {"service_unit": "degC"}, "service_unit", "else blank"),
    ("seating_methods.csv", "putty", {"last_resort": "no"}, "last_resort", "yes, where"),
    ("gasket_materials.csv", "cork", {"thickness_low": 3.0}, "thickness_high", "3 or more"),
    ("gasket_materials.csv", "cork", {"squeeze_high": 2.0}, "squeeze_high", "10 or more"),
    ("gasket_materials.csv", "cork", {"squeeze_high": 10.0}, "squeeze_high", "more than 10"),
    ("gasket_materials.csv", "cork", {"modulus_low": 99.0}, "modulus_high", "99 or more"),
]


def test_the_tables_of_seating_are_without_a_fault():
    """What the spoiled rows below are compared with."""
    assert list(seat_faults(rows_of_tables())) == []


@pytest.mark.parametrize(("name", "of", "cells", "column", "accepted"), SPOILED)
def test_a_spoiled_row_is_told_by_its_cell(name, of, cells, column, accepted):
    """Each fault names file, line, column and what is accepted."""
    rows = rows_of_tables()
    place = next(n for n, row in enumerate(rows[name]) if row["id"] == of)
    row = rows[name][place]
    rows[name][place] = dataclasses.replace(row, cells={**row.cells, **cells})
    found = [one for one in seat_faults(rows) if one.column == column]
    assert found
    assert found[0].file.endswith(name)
    assert found[0].row == row.line
    assert accepted in str(found[0])


def test_a_gasket_of_the_shops_own_is_checked_and_used(tmp_path):
    """A row of a shop's folder takes its place beside those of the trade."""
    head = "id,name,thickness_low,thickness_high,squeeze_low,squeeze_high,modulus_low,modulus_high,"
    row = "kid,Kid,0.5,0.7,{},25,0.5,2,some,Thin.,measured\n"
    text = head + "takes_set,about,basis\n" + row
    shop = book_trials.shop(tmp_path / "good", gasket_materials=text.format(10))
    found = seat(load(shop), gasket=dataclasses.replace(CORK, material="kid"))
    assert found.answer["gasket"]["squeeze"].high == pytest.approx(0.25)
    other = book_trials.shop(tmp_path / "bad", gasket_materials=text.format(40))
    with pytest.raises(Faults, match="squeeze_high: found '25"):
        load(other)


# Parts


def rows_of(name, argument=""):
    """Give the rows of the tables of a part, as words."""
    made = registry.place(CATALOG, name, argument)
    return [[plain(cell) for cell in row] for one in made for row in one.iter("tr")]


def test_the_parts_show_every_seat_in_its_place():
    """Those that are refused stand with the refused alone."""
    kept = {one.name for one in METHODS.values() if not one.refused}
    refused = {one.name for one in METHODS.values() if one.refused}
    assert {row[0] for row in rows_of("seats-by-service")[1:]} == kept
    assert {row[0] for row in rows_of("seat-leaks")[1:]} == kept
    assert {row[0] for row in rows_of("seats-refused")[1:]} == refused
    shown = {row[0] for group in {one.group for one in METHODS.values()}
             for row in rows_of("seats", group)}  # fmt: skip
    assert shown - {"Seat"} == kept


def test_a_group_that_is_not_there_is_refused_on_a_leaf():
    """With a near name."""
    with pytest.raises(UnknownName, match="gasket"):
        registry.place(CATALOG, "seats", "gaskets")


def test_every_gasket_stands_with_every_fastener():
    """A row each; what it comes to stands below, of each pair once."""
    found = rows_of("gasket-fasteners")[1:]
    below = [plain(one) for one in registry.place(CATALOG, "gasket-fasteners", "")]
    told = [
        one for one in below if one.endswith((f"{THEY_REACH}.", f"{THEY_MAY}.", f"{THEY_DO_NOT}."))
    ]
    assert len(found) == len(CATALOG.gasket_materials) * len(FASTENERS)
    assert 1 <= len(told) <= 3
    assert told[-1].startswith("All others: " if len(told) > 1 else "All of them: ")
    named = [pair for one in told[:-1] for pair in one.split(": ")[0].split("; ")]
    assert set(named) < {row[0] for row in found}
    assert len(rows_of("gaskets")) == 2 * (1 + len(CATALOG.gasket_materials))
