"""What is known of a solvent, whether its jar can burn, the gentlest for a task, their tables."""

from __future__ import annotations

import dataclasses
import itertools
import json

import pytest
from click.testing import CliRunner

from formulas.air.gentler import MAY, NEAR, REFUSED, TRY_FIRST, WITH_CARE, gentler
from formulas.air.over_a_jar import (
    BURNS_NOT,
    MAY_REACH,
    NOBODY_KNOWS,
    REACHES,
    curve_pressure,
    flash_and_room,
    vapour_pressure,
)
from formulas.air.solvent_answer import solvent_answer
from formulas.air.solvent_checks import solvent_faults
from formulas.air.solvents import (
    bench_solvents,
    hazards_of,
    known,
    known_or_unknown,
    limits_of,
    parts_of,
    solvent,
)
from formulas.answer import Unknown
from formulas.catalog import load, opened
from formulas.fault import NotKnown, OutOfRange, UnknownName
from site_builder.commands import main
from site_builder.markup.elements import plain
from site_builder.parts import registry
from site_builder.parts.solvent_memory import remembered_solvents

CATALOG, ROWS = opened(None)
NAMES = list(CATALOG.solvents)
BENCH = [one.id for one in bench_solvents(CATALOG)]
TASKS = list(CATALOG.cleaning_tasks)


def with_facts(facts):
    """Give the trade's tables with other rows of values."""
    return dataclasses.replace(CATALOG, solvent_facts=facts)


def without(name, prop):
    """Give the trade's tables without a solvent's rows of one property."""
    kept = [row for row in CATALOG.solvent_facts if (row.solvent, row.property) != (name, prop)]
    return with_facts(kept)


def changed(name, **cells):
    """Give the trade's tables with some cells of one solvent replaced."""
    other = dataclasses.replace(CATALOG.solvents[name], **cells)
    return dataclasses.replace(CATALOG, solvents={**CATALOG.solvents, name: other})


# Known values


def test_two_sources_give_their_union():
    """IEC prints 400, NFPA 363 degC for ethanol: the range goes from one to the other."""
    found = known(CATALOG, "ethanol", "autoignition")
    assert (found.low, found.high, found.unit, found.basis) == (363, 400, "degC", "published")
    assert {row.source for row in found.rows} == {"iec-60079-20-1-2010", "nfpa-497-2008"}


def test_the_order_of_the_rows_does_not_matter():
    """Every known value has the same ends when the file is read backwards."""
    other = with_facts(CATALOG.solvent_facts[::-1])
    for name, prop in itertools.product(NAMES, ("flash-point", "density", "vapour-pressure")):
        one, two = known_or_unknown(CATALOG, name, prop), known_or_unknown(other, name, prop)
        assert isinstance(one, Unknown) == isinstance(two, Unknown)
        if not isinstance(one, Unknown):
            assert two.ends(one.unit) == pytest.approx((one.low, one.high), abs=1e-9)


def test_a_row_of_better_basis_stands_alone():
    """A measured flash point of the shop's own can outranks all that is printed."""
    row = next(r for r in CATALOG.solvent_facts if r.solvent == "white-spirit")
    own = dataclasses.replace(row, low=62.0, high=62.0, basis="measured")
    found = known(with_facts([*CATALOG.solvent_facts, own]), "white-spirit", "flash-point")
    assert (found.low, found.high, found.basis) == (62, 62, "measured")


def test_fahrenheit_and_celsius_meet_in_one_range():
    """Isopropanol: 12 degC twice and 53 degF, which is 11.67 degC, the lower end."""
    low, high = known(CATALOG, "isopropanol", "flash-point").ends("degC")
    assert (low, high) == pytest.approx((11.6667, 12), abs=1e-4)


def test_a_mixture_lies_between_its_parts_and_says_so():
    """Denatured spirit goes from ethanol to methanol, derived, with both names."""
    found = known(CATALOG, "denatured-spirit", "molar-mass")
    assert (found.low, found.high) == (32.042, 46.068)
    assert found.basis == "derived"
    assert "ethanol" in found.how
    assert "methanol" in found.how
    shares = [(part.id, part.low, part.high) for part in parts_of(CATALOG, "denatured-spirit")]
    assert shares == [("ethanol", 0.90, 0.96), ("methanol", 0.04, 0.10)]


def test_a_mixture_is_not_known_where_one_of_its_parts_is_not():
    """Without methanol's flash point nobody knows that of the spirit."""
    with pytest.raises(NotKnown, match="Methanol: flash point"):
        known(without("methanol", "flash-point"), "denatured-spirit", "flash-point")


def test_a_stand_in_lends_mass_and_vapour_and_says_so():
    """Light naphtha without a molar mass of its own takes that of heptane."""
    found = known(without("light-naphtha", "molar-mass"), "light-naphtha", "molar-mass")
    assert (found.low, found.basis) == (100.202, "derived")
    assert "Heptane, which stands in" in found.how


@pytest.mark.parametrize("prop", ["flash-point", "explosive-lower", "autoignition", "density"])
def test_a_stand_in_never_lends_what_a_fire_hangs_on(prop):
    """Without its own row it is not known, with the way to find out."""
    with pytest.raises(NotKnown, match="safety data sheet"):
        known(without("light-naphtha", prop), "light-naphtha", prop)


def test_an_unknown_solvent_is_told_with_a_near_name():
    """The nearest name is offered."""
    with pytest.raises(UnknownName, match="did you mean 'acetone'"):
        solvent(CATALOG, "aceton")


# Over an open jar


def test_acetone_reaches_its_limit_at_20_and_turpentine_does_not():
    """24 percent of vapour against 2.5, and half a percent against 0.8."""
    acetone, turpentine = (flash_and_room(CATALOG, n, 20) for n in ("acetone", "gum-turpentine"))
    assert acetone.verdict == acetone.by_vapour == acetone.by_flash == REACHES
    assert turpentine.verdict == turpentine.by_vapour == turpentine.by_flash == BURNS_NOT
    assert acetone.share.low == pytest.approx(24.4, abs=0.05)  # 24.7 kPa of 101.325
    assert turpentine.share.high == pytest.approx(0.526, abs=0.001)  # 4 mmHg of 760


def test_white_spirit_is_in_doubt_on_a_warm_day():
    """Grades that flash at 21 degC are sold: from there on nobody knows which can it is."""
    assert flash_and_room(CATALOG, "white-spirit", 20).verdict == BURNS_NOT
    warm = flash_and_room(CATALOG, "white-spirit", 25)
    assert warm.by_vapour == NOBODY_KNOWS
    assert warm.by_flash == warm.verdict == MAY_REACH


@pytest.mark.parametrize("name", NAMES)
def test_warmer_is_never_better(name):
    """The verdict does not fall as the room warms, where it is known at both heats.

    From 5 degC on: colder than that the alcohols' constants end, and the row of 20 degC holds.
    """
    heats = range(5, 61, 5)
    found = [flash_and_room(CATALOG, name, heat).verdict for heat in heats]
    spoken = [one for one in found if one != NOBODY_KNOWS]
    assert spoken == sorted(spoken)


@pytest.mark.parametrize("name", [n for n in BENCH if n != "water"])
def test_the_worse_of_two_ways_counts(name):
    """At no heat is the verdict milder than vapour or flash point alone."""
    for heat in range(-20, 61, 4):
        found = flash_and_room(CATALOG, name, heat)
        spoken = {found.by_vapour, found.by_flash} - {NOBODY_KNOWS}
        assert found.verdict == max(spoken)


def test_thin_air_makes_it_worse():
    """On a mountain at 70 kPa the same vapour is a larger share of the air."""
    low = flash_and_room(CATALOG, "gum-turpentine", 20, 70e3).share
    assert low.high / flash_and_room(CATALOG, "gum-turpentine", 20).share.high == pytest.approx(
        101325 / 70e3
    )


def test_a_stand_in_starts_from_the_solvent_s_own_pressure():
    """Turpentine a hair above 20 degC is where its own row stands, not where alpha-pinene is."""
    own = vapour_pressure(CATALOG, "gum-turpentine", 20).ends("Pa")
    raised = vapour_pressure(CATALOG, "gum-turpentine", 20.01)
    assert raised.ends("Pa") == pytest.approx(own, rel=1e-3)
    assert raised.basis == "derived"
    assert "alpha-Pinene" in raised.how
    assert curve_pressure(CATALOG, "alpha-pinene", 20).low < 0.9 * own[0]


def test_constants_are_not_used_outside_their_range():
    """Nonane's begin at 46 degC, d-limonene's at 17: below, only rows and their ends speak."""
    assert curve_pressure(CATALOG, "nonane", 25) is None
    with pytest.raises(NotKnown, match="vapour pressure at 25 degC"):
        vapour_pressure(CATALOG, "nonane", 25)
    cold = vapour_pressure(CATALOG, "d-limonene", 10)
    assert (cold.low, cold.high, cold.basis) == (0.0, 0.199, "derived")
    assert "no more than at 20 °C" in cold.how


def test_without_constants_only_the_heat_of_a_row_is_known():
    """Acetone at 20 degC has its row; warmer, nobody knows."""
    kept = [row for row in CATALOG.solvent_facts if not row.property.startswith("antoine")]
    assert vapour_pressure(with_facts(kept), "acetone", 20).ends("kPa") == (24.7, 24.7)
    with pytest.raises(NotKnown, match="Acetone: vapour pressure at 25 degC"):
        vapour_pressure(with_facts(kept), "acetone", 25)


@pytest.mark.parametrize("heat", [-21, 61])
def test_a_heat_at_which_no_bench_works_is_refused(heat):
    """The range is named."""
    with pytest.raises(OutOfRange, match="-20 to 60"):
        flash_and_room(CATALOG, "ethanol", heat)


def test_water_does_not_burn_and_a_blank_is_not_water():
    """A solvent without a row on fire is not known, never harmless."""
    assert flash_and_room(CATALOG, "water", 60).verdict == BURNS_NOT
    bare = with_facts([row for row in CATALOG.solvent_facts if row.solvent != "acetone"])
    assert flash_and_room(bare, "acetone", 20).verdict == NOBODY_KNOWS


# Limits and hazards


@pytest.mark.parametrize("name", [n for n in BENCH if n not in {"water", "denatured-spirit"}])
def test_every_solvent_has_a_word_of_three_bodies(name):
    """A limit for 8 hours, or that none is set, of OSHA, NIOSH and the UK."""
    found = {row.body for row in limits_of(CATALOG, name) if row.kind == "8h"}
    assert {"OSHA", "NIOSH", "UK"} <= found


def test_a_mixture_has_the_limits_of_its_parts():
    """Denatured spirit is held to those of ethanol and to those of methanol."""
    found = {row.solvent for row in limits_of(CATALOG, "denatured-spirit")}
    assert found == {"ethanol", "methanol"}


def test_none_set_is_a_row_and_not_a_nought():
    """Light naphtha: OSHA and the UK have set none, and the row holds no number."""
    rows = [row for row in limits_of(CATALOG, "light-naphtha") if row.none_set]
    assert {row.body for row in rows} == {"OSHA", "UK"}
    assert {row.value for row in rows} == {None}


def test_no_short_limit_is_below_the_long_one():
    """Of one body, in one unit, the 15 minutes and the ceiling stand above the 8 hours."""
    rows = [row for row in CATALOG.exposure_limits if row.value is not None]
    pairs = [
        (long, short)
        for long, short in itertools.product(rows, rows)
        if (long.solvent, long.body, long.unit) == (short.solvent, short.body, short.unit)
        and long.kind == "8h"
        and short.kind != "8h"
    ]
    assert len(pairs) > 6
    assert all(short.value > long.value for long, short in pairs)


def test_rosin_fume_has_one_statement_only():
    """Its limits are bench figures; the table of limits does not say them a second time."""
    assert not [row for row in CATALOG.exposure_limits if row.solvent == "rosin-fume"]
    assert {"rosin-fume-limit-8h", "rosin-fume-limit-15min"} <= CATALOG.figures.keys()


@pytest.mark.parametrize("name", [n for n in BENCH if n != "water"])
def test_every_solvent_that_burns_says_so_by_code(name):
    """H225 where it flashes below 23 degC, H226 up to 60: the UN GHS classes, from memory.

    White spirit is sold on both sides of 23; its row is that of the usual grade.
    """
    codes = {row.code for row in hazards_of(CATALOG, name)}
    flash = known(CATALOG, name, "flash-point").ends("degC")[1]
    assert codes & {"H225", "H226"} == {"H225" if flash < 23 else "H226"}


# The gentlest way


def told(task, **asked):
    """Give verdicts by solvent, in order."""
    return {way.solvent.id: way.verdict for way in gentler(CATALOG, task, **asked)}


@pytest.mark.parametrize("task", TASKS)
def test_the_gentlest_stands_first_and_the_refused_last(task):
    """Within what is left, and within what is refused, the order is that of the table."""
    for near in [(), ("celluloid",), ("leather", "shellac")]:
        ways = gentler(CATALOG, task, near)
        assert {way.solvent.id for way in ways} == set(BENCH)
        keys = [(way.verdict == REFUSED, way.solvent.gentle) for way in ways]
        assert keys == sorted(keys)
        assert all(way.reasons for way in ways if way.verdict != MAY)


@pytest.mark.parametrize("task", TASKS)
def test_acetone_never_stands_beside_celluloid(task):
    """It is refused, whatever is to come off."""
    assert told(task, near=("celluloid",))["acetone"] == REFUSED


def test_acetone_is_the_last_of_all():
    """No solvent of the bench stands below it."""
    assert BENCH[0] == "water"
    assert BENCH[-1] == "acetone"


@pytest.mark.parametrize("task", TASKS)
def test_heat_in_the_room_refuses_all_that_burns(task):
    """Water alone may be left."""
    ways = gentler(CATALOG, task, heat=True)
    assert {way.solvent.id for way in ways if way.verdict != REFUSED} <= {"water"}


@pytest.mark.parametrize("task", TASKS)
def test_a_neighbour_or_heat_never_makes_a_verdict_milder(task):
    """What is refused stays refused, what wants care still does."""
    plainly = told(task)
    for near in itertools.combinations(NEAR, 2):
        if task in near:
            continue
        for heat in (False, True):
            found = told(task, near=near, heat=heat)
            assert all(found[name] >= plainly[name] for name in BENCH)


def test_the_reason_of_a_refusal_is_said():
    """Spirit beside shellac: it attacks it. Turpentine and heat: it burns."""
    ways = {way.solvent.id: way for way in gentler(CATALOG, "rosin", ("shellac",), heat=False)}
    assert ways["ethanol"].verdict == REFUSED
    assert "attacks shellac" in ways["ethanol"].reasons
    hot = {way.solvent.id: way for way in gentler(CATALOG, "wax", heat=True)}
    assert "there is heat in the room, and it burns" in hot["gum-turpentine"].reasons


def test_a_blank_beside_a_neighbour_is_no_yes():
    """What d-limonene does to shellac nobody here knows: try it first."""
    way = next(w for w in gentler(CATALOG, "wax", ("shellac",)) if w.solvent.id == "d-limonene")
    assert way.verdict == TRY_FIRST
    known_one = changed("d-limonene", shellac="no")
    way = next(w for w in gentler(known_one, "wax", ("shellac",)) if w.solvent.id == "d-limonene")
    assert way.verdict == MAY


def test_a_part_attack_on_celluloid_is_a_refusal_and_elsewhere_wants_care():
    """One is burnt plastic, the other is masked."""
    assert told("gum", near=("celluloid",))["isopropanol"] == REFUSED
    assert told("gum", near=("leather",))["heptane"] == WITH_CARE


@pytest.mark.parametrize(
    ("task", "near", "said"),
    [("greese", (), "did you mean 'grease'"), ("wax", ("celuloid",), "did you mean 'celluloid'")],
)
def test_a_task_or_a_neighbour_that_is_not_there(task, near, said):
    """It is told with the nearest."""
    with pytest.raises(UnknownName, match=said):
        gentler(CATALOG, task, near)


def test_what_dissolves_a_thing_serves_to_take_it_off():
    """No solvent is offered for wax, rosin or shellac that the table says leaves it alone."""
    for one in bench_solvents(CATALOG):
        for task in ("wax", "rosin", "shellac"):
            if task in one.tasks:
                assert getattr(one, task) in {"yes", "some"}


def test_parts_and_stand_ins_are_never_offered():
    """Methanol, nonane and alpha-pinene stand in the tables and on no list of the bench."""
    assert set(NAMES) - set(BENCH) == {"methanol", "nonane", "alpha-pinene"}


# Faults


def spoiled(table, place, **cells):
    """Give the rows of all tables with some cells of one row replaced."""
    rows = list(ROWS[table])
    rows[place] = dataclasses.replace(rows[place], cells={**rows[place].cells, **cells})
    return {**ROWS, table: rows}


def place_of(table, **cells):
    """Find the first row with these cells."""
    return next(
        place
        for place, row in enumerate(ROWS[table])
        if all(row[column] == value for column, value in cells.items())
    )


FLASH = ("solvent_facts.csv", {"solvent": "ethanol", "property": "flash-point"})
VAPOUR = ("solvent_facts.csv", {"solvent": "ethanol", "property": "vapour-pressure"})
CURVE = ("solvent_facts.csv", {"solvent": "ethanol", "property": "antoine-b"})
SPIRIT = ("solvents.csv", {"id": "denatured-spirit"})
ACETONE = ("solvents.csv", {"id": "acetone"})
LIMIT = ("exposure_limits.csv", {"solvent": "acetone", "body": "OSHA"})
CODE = ("solvent_hazards.csv", {"solvent": "acetone", "code": "H319"})
FAULTS = [
    (FLASH, {"high": 2.0}, "high", "12 or more"),
    (FLASH, {"high": None}, "high", "a number, where the low end stands"),
    (FLASH, {"unit": "percent"}, "unit", "same kind as degC"),
    (FLASH, {"unit": None}, "unit", "same kind as degC"),
    (FLASH, {"method": None}, "method", "the cup: closed-cup"),
    (VAPOUR, {"unit": "g/mol"}, "unit", "same kind as kPa"),
    (VAPOUR, {"condition": "warm"}, "condition", "such as 20 degC"),
    (CURVE, {"unit": "degC"}, "unit", "same kind as K"),
    (CURVE, {"method": "log2 of Pa"}, "method", "log10 of Pa or ln of Pa"),
    (CURVE, {"condition": "any heat"}, "condition", "277 to 370 K"),
    (CURVE, {"source": "landolt-antoine"}, "property", "each of the three constants once"),
    (CURVE, {"property": "antoine-a"}, "property", "each of the three constants once"),
    (SPIRIT, {"parts": "ethanol 96"}, "parts", "such as ethanol:90-96"),
    (SPIRIT, {"parts": "ethanal:90-96 methanol:4-10"}, "parts", "did you mean 'ethanol'"),
    (SPIRIT, {"parts": "ethanol:96-90 methanol:4-10"}, "parts", "low end of a share before"),
    (SPIRIT, {"parts": "ethanol:50-60 methanol:4-10"}, "parts", "add up to 100 percent"),
    (SPIRIT, {"parts": "denatured-spirit:100-100"}, "parts", "do not lead back"),
    (ACETONE, {"stands_in": "aceton"}, "stands_in", "did you mean 'acetone'"),
    (ACETONE, {"stands_in": "acetone"}, "stands_in", "do not lead back"),
    (ACETONE, {"tasks": "rosin gleu"}, "tasks", "did you mean 'glue'"),
    (LIMIT, {"value": None}, "value", "none where none_set is yes"),
    (LIMIT, {"none_set": "yes"}, "value", "none where none_set is yes"),
    (LIMIT, {"unit": None}, "unit", "ppm or mg/m"),
    (LIMIT, {"year": None}, "year", "the year of the list"),
    (LIMIT, {"solvent": "aceton"}, "solvent", "did you mean 'acetone'"),
    (LIMIT, {"body": "NIOSH"}, "kind", "once"),
    (CODE, {"code": "H225"}, "code", "once"),
]


@pytest.mark.parametrize(("where", "cells", "column", "accepted"), FAULTS)
def test_a_spoiled_cell_is_told(where, cells, column, accepted):
    """File, row and column are named, with what is accepted."""
    table, found = where
    place = place_of(table, **found)
    told_of = list(solvent_faults(spoiled(table, place, **cells)))
    told_here = [one for one in told_of if one.column == column]
    assert told_here, [str(one) for one in told_of]
    assert told_here[0].file == table
    assert any(accepted in f"{one.accepted}{one.also}" for one in told_here)


def test_the_trade_s_tables_have_no_fault():
    """So that the faults above mean something."""
    assert list(solvent_faults(ROWS)) == []


def test_a_ring_of_two_is_told_on_both():
    """White spirit that leads to nonane that leads back."""
    place = place_of("solvents.csv", id="nonane")
    found = list(solvent_faults(spoiled("solvents.csv", place, stands_in="white-spirit")))
    assert {one.column for one in found} == {"stands_in"}
    assert len(found) == 2


def test_a_shop_s_own_can_joins_the_table(tmp_path):
    """A measured row in the shop folder is taken over the printed ones."""
    (tmp_path / "shop.toml").write_text('name = "Shop"\n', "utf-8")
    head = "solvent,property,low,high,unit,method,condition,basis,source,where,note\n"
    row = "white-spirit,flash-point,62,62,degC,closed-cup,,measured,,,\n"
    (tmp_path / "solvent_facts.csv").write_text(head + row, "utf-8")
    found = known(load(tmp_path), "white-spirit", "flash-point")
    assert (found.low, found.basis) == (62, "measured")


# The command


def run(*words):
    """Run the command and give its result."""
    return CliRunner().invoke(main, ["solvent", *words])


def test_the_command_tells_fire_limits_hazards_and_attacks():
    """With every caution on standard error."""
    result = run("acetone")
    assert result.exit_code == 0
    for said in (
        "flash point:",
        "-20 to -17.8 °C",
        "At 20 °C the air over an open jar can burn.",
        "OSHA PEL of 1993, 8 hours, acetone: 1000 ppm (published)",
        "H225    Danger: Highly flammable liquid and vapour. [flame] (memory)",
        "celluloid:              yes",
    ):
        assert said in result.stdout
    said = " ".join(result.stderr.split())
    wanted = CATALOG.cautions_for("solvent")
    assert len(wanted) > 8
    assert all(one.title in said for one in wanted)


def test_the_command_ranks_and_refuses():
    """The dry way first, then the list, then the refused with reasons."""
    words = " ".join(run("--task", "grease", "--near", "celluloid").stdout.split())
    dry, water, spirit, refused = (
        words.index(one)
        for one in ("Dry first:", "1. Water", "2. White spirit", "Isopropanol: refused: attacks")
    )
    assert dry < water < spirit < refused


def test_nothing_is_left_beside_heat():
    """No solvent for wax in a room with a hot pot, and that is said."""
    words = " ".join(run("--task", "wax", "--heat").stdout.split())
    assert "No solvent: none of the table goes together with what was asked." in words


def test_json_has_values_with_their_basis():
    """A range with unit, basis and sources; what is blank says how to find out."""
    found = json.loads(run("light-naphtha", "--json").stdout)
    values = found["answer"]["solvent"]["values"]
    assert values["explosive-lower"]["low"] == 1.2
    assert values["explosive-lower"]["sources"] == ["niosh-npg-0664"]
    assert values["autoignition"]["known"] is False
    assert found["inputs"]["room"] == {"value": 20.0, "unit": "degC"}
    assert {one["id"] for one in found["cautions"]} == {
        one.id for one in CATALOG.cautions_for("solvent")
    }


def test_without_a_name_the_command_lists_the_bench():
    """The gentlest first."""
    listed = run().stdout
    places = [listed.index(f"    {name} ") for name in BENCH]
    assert places == sorted(places)


def test_a_us_shop_reads_fahrenheit(tmp_path):
    """Temperatures in degrees Fahrenheit, pressure in millimetres of mercury."""
    (tmp_path / "shop.toml").write_text('name = "Shop"\nunits = "US"\n', "utf-8")
    words = run("isopropanol", "--room", "77F", "--shop", str(tmp_path)).stdout
    assert "53.0–53.6 °F" in words  # 53 degF as NIOSH prints it, 12 degC as IEC does
    assert "vapour pressure, 68 °F:   33" in words
    assert "At 77 °F the air over an open jar can burn." in words


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("acetne",), "did you mean 'acetone'"),
        (("--near", "shellac"), "belong to --task"),
        (("acetone", "--room", "20"), "such as 62 °C or 144 °F"),
        (("acetone", "--room", "400 C"), "-20 to 60"),
    ],
)
def test_a_wrong_call_says_what_is_accepted(words, said):
    """Exit code 2, one message, no answer."""
    result = run(*words)
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""


def test_nothing_is_called_safe():
    """No word of the answers or of the tables of solvents promises safety."""
    for name in NAMES:
        answer = solvent_answer(CATALOG, name, "wax", ["shellac"]).as_json()
        answer["cautions"] = []
        assert "safe" not in json.dumps(answer).lower().replace("safety data sheet", "")


# What the leaf places


def rows_of(name, argument=""):
    """Give the rows of a placed part as words, one list a table."""
    made = registry.place(CATALOG, name, argument)
    return [
        [[plain(cell) for cell in row] for row in one.iter("tr")]
        for one in made
        if one.tag == "table"
    ]


@pytest.mark.parametrize("part", ["solvents", "solvent-fire", "solvent-hazards", "solvent-attacks"])
def test_every_solvent_of_the_bench_has_its_row(part):
    """In the order of gentleness; water stands in no table of fire."""
    shown = [row[0] for row in rows_of(part)[0][1:]]
    dry = {"water"} if part == "solvent-fire" else set()
    wanted = [CATALOG.solvents[name].name for name in BENCH if name not in dry]
    assert [name.partition(" (")[0] for name in shown] == wanted


def test_limits_stand_with_their_year():
    """Each cell that holds a limit, or that none is set, names a year in brackets."""
    table = rows_of("solvent-limits")[0]
    names = [row[0] for row in table[1:]]
    assert "Methanol" in names
    cells = [cell for row in table[1:] for cell in row[1:] if cell and cell != "not known"]
    assert len(cells) > 30
    for cell in cells:
        assert all("(" in one and one.count("(19") + one.count("(20") == 1
                   for one in cell.split("; "))  # fmt: skip


def test_other_bodies_stand_below_the_limits():
    """A limit of a body without a column is said in a sentence, with its mean and its year."""
    said = " ".join(plain(one) for one in registry.place(CATALOG, "solvent-limits", "")[1:])
    others = [row for row in CATALOG.exposure_limits if row.body not in {"OSHA", "NIOSH", "UK"}]
    assert others
    for row in others:
        assert f"{row.body} {row.name}, 8 hours: " in said
        assert f"({row.year})" in said


def test_blanks_are_said_to_be_blanks():
    """d-Limonene on shellac, turpentine's upper limit and water's codes are not known."""
    attacks = {row[0]: row for row in rows_of("solvent-attacks")[0]}
    assert attacks["d-Limonene"][2] == "not known"
    fire = {row[0]: row for row in rows_of("solvent-fire")[0]}
    assert fire["Gum turpentine"][3] == "not known"
    assert fire["Acetone"][-1] == "can burn"
    assert fire["Gum turpentine"][-1] == "too lean, by these figures"


def test_every_code_in_use_is_put_into_words():
    """No code stands in the first table that the second does not explain."""
    first, second = rows_of("solvent-hazards")
    used = {code for row in first[1:] for code in row[2].split() if code[0] in "HE"}
    assert used - {"not", "known"} == {row[0] for row in second[1:]}


def test_values_stand_as_each_source_prints_them():
    """All sources of a value in one cell, Fahrenheit as it was printed."""
    told_of = {row[0]: row[2] for row in rows_of("solvent-values", "flash-point")[0]}
    assert told_of["Heptane"].split("; ")[0].startswith("-7 °C, closed cup")
    assert told_of["Heptane"].split("; ")[1].startswith("-4 °C, closed cup")
    assert "95 °F (35 °C), cup not stated" in told_of["Gum turpentine"]
    with pytest.raises(UnknownName, match="flash-point"):
        registry.place(CATALOG, "solvent-values", "flash-pont")


def test_memory_is_listed_as_such():
    """The UK limits and the hazard codes are on the list of values from memory."""
    found = list(remembered_solvents(CATALOG))
    tables = {one[0] for one in found}
    assert tables == {"solvents", "solvent facts", "exposure limits", "solvent hazards"}
    assert ("exposure limits", "Acetone, UK WEL of 2020, 8 hours", "500 ppm", "eh40-2020",
            "Table 1") in found  # fmt: skip
