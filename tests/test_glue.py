"""Which glue may hold a valve: what forbids, what asks for a scrap test, and how it is shown."""

from __future__ import annotations

import dataclasses
import itertools

import pytest

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.valves.glue import KINDS, MAY, MAY_NOT, METALS, SCRAP, TOLD, glue_verdict
from site_builder.markup.elements import plain
from site_builder.parts import registry

CATALOG = load(None)
HARMLESS = {
    "reversible": "yes",
    "wets_leather": "no",
    "bonds_film": "yes",
    "acid_on_metal": "no",
    "creeps_warm": "no",
    "fume_on_steel": "no",
}


def alone(**answers):
    """Give the trade's tables with one glue that harms nothing but what is named here."""
    glue = dataclasses.replace(CATALOG.glues["shellac"], id="one", **{**HARMLESS, **answers})
    return dataclasses.replace(CATALOG, glues={"one": glue})


def verdict(kind, metal, **answers):
    """Give the verdict on that one glue."""
    (found,) = glue_verdict(alone(**answers), kind, metal)
    return found.verdict


@pytest.mark.parametrize(("kind", "metal"), list(itertools.product(KINDS, METALS)))
def test_a_glue_without_a_fault_may(kind, metal):
    """Where nothing is against it, nothing is made up."""
    (found,) = glue_verdict(alone(), kind, metal)
    assert (found.verdict, found.reasons) == (MAY, ())


# What is not known is never taken for no: without any one answer there is a scrap test.
@pytest.mark.parametrize("name", HARMLESS)
def test_what_is_not_known_goes_to_scrap_first(name):
    """A blank asks for the test, on the stock that the answer is about."""
    kind = "film" if name == "bonds_film" else "leather"
    assert verdict(kind, "aluminium", **{name: ""}) == SCRAP


FORBIDDEN = [
    ("film", "brass", {"bonds_film": "no"}),
    *(("leather", metal, {"acid_on_metal": "yes"}) for metal in METALS),
    *(("leather", metal, {"fume_on_steel": "yes"}) for metal in METALS),
]


@pytest.mark.parametrize(("kind", "metal", "answers"), FORBIDDEN)
def test_what_harms_is_forbidden(kind, metal, answers):
    """Acid and fume reach the steel of the tongues, whatever the plate is of."""
    assert verdict(kind, metal, **answers) == MAY_NOT


def test_a_little_acid_asks_less_of_brass():
    """Zinc, aluminium and steel are tried; on brass it is told."""
    for metal in METALS:
        assert verdict("leather", metal, acid_on_metal="some") == (
            MAY if metal == "brass" else SCRAP
        )


def test_water_speaks_against_leather_and_not_against_film():
    """What wets curls a skin; film asks whether the glue holds at all."""
    assert verdict("leather", "zinc", wets_leather="yes") == SCRAP
    assert verdict("film", "zinc", wets_leather="yes") == MAY
    assert verdict("leather", "zinc", bonds_film="no") == MAY


def test_what_creeps_or_stays_is_told_and_lowers_nothing():
    """Warmth and a glue that does not come off are said beside the verdict."""
    (found,) = glue_verdict(alone(creeps_warm="yes", reversible="no"), "leather", "zinc")
    assert found.verdict == MAY
    assert [one.weight for one in found.reasons] == [TOLD, TOLD]


@pytest.mark.parametrize(
    ("reversible", "told"),
    [("some", "comes off with effort, undone by "), ("no", "does not come off whole, undone by ")],
)
def test_what_undoes_a_glue_is_told_as_what_undoes_it(reversible, told):
    """A glue that stays in part says so, and then by what the rest of it is undone."""
    (found,) = glue_verdict(alone(reversible=reversible), "leather", "zinc")
    assert [one.words for one in found.reasons] == [told + found.glue.reversed_by]


def test_the_heaviest_reason_decides_and_stands_first():
    """One thing that forbids outweighs all the rest."""
    (found,) = glue_verdict(alone(acid_on_metal="yes", wets_leather="yes"), "leather", "zinc")
    assert (found.verdict, found.reasons[0].weight) == (MAY_NOT, MAY_NOT)
    assert {one.weight for one in found.reasons} == {MAY_NOT, SCRAP}


def test_the_glues_of_the_trade_come_out_as_the_bench_says():
    """Vinegar and fume stay off every plate, animal glue off film, and some glue may be used."""
    for kind, metal in itertools.product(KINDS, METALS):
        found = {one.glue.id: one.verdict for one in glue_verdict(CATALOG, kind, metal)}
        assert set(found) == set(CATALOG.glues)
        assert {found["pva"], found["cyanoacrylate"], found["acetic-silicone"]} == {MAY_NOT}
        assert (found["hide-hot"] == MAY_NOT) == (kind == "film")
        assert {MAY, SCRAP} & set(found.values())


def test_those_that_may_come_first():
    """May, then scrap test, then may not."""
    order = [one.verdict for one in glue_verdict(CATALOG, "leather", "zinc")]
    assert order == sorted(order, key=(MAY, SCRAP, MAY_NOT).index)


@pytest.mark.parametrize(("kind", "metal", "near"), [("leder", "zinc", "leather"),
                                                     ("film", "zink", "zinc")])  # fmt: skip
def test_a_kind_or_a_metal_that_is_not_there_is_refused(kind, metal, near):
    """A near name is offered."""
    with pytest.raises(UnknownName, match=near):
        glue_verdict(CATALOG, kind, metal)


# What the tables demand of each other


def test_no_glue_of_the_trade_claims_a_source_it_does_not_name():
    """Each row rests on practice or memory: its times and its answers have no one work."""
    assert {glue.basis for glue in CATALOG.glues.values()} <= {"practice", "memory"}


@pytest.mark.parametrize("name", CATALOG.glues)
def test_each_glue_says_how_it_is_tried_and_undone(name):
    """No glue without a scrap test, what undoes it, and a time to wait."""
    glue = CATALOG.glues[name]
    assert glue.scrap_test
    assert glue.reversed_by
    assert glue.solvent
    assert glue.wait_low is not None
    assert glue.wait_low <= glue.wait_high
    assert (glue.open_low is None) == (glue.open_unit == "")


# Parts


def test_the_table_of_glues_says_not_known_where_it_is_blank():
    """As many marks as there are blanks, each with the way to find out."""
    known, times, tried = registry.place(CATALOG, "glues", "")
    blanks = sum(not getattr(glue, name) for glue in CATALOG.glues.values() for name in HARMLESS)
    marks = list(known.iter("unknown"))
    assert len(marks) == blanks > 0
    assert all(one.get("reason") for one in marks)
    for made in (known, times, tried):
        assert len(list(made.iter("tr"))) == 1 + len(CATALOG.glues)


def test_metals_that_come_out_alike_share_a_column():
    """Of the trade's glues all four do; a glue a little sour parts brass from the rest."""
    (made,) = registry.place(CATALOG, "glue-choice", "leather")
    assert [plain(one) for one in made.iter("th")][1] == "On any plate"
    (parted,) = registry.place(alone(acid_on_metal="some"), "glue-choice", "leather")
    heads = [plain(one) for one in parted.iter("th")]
    assert heads == [
        "Glue for leather",
        "On aluminium, zinc, steel",
        "On brass",
        "Why",
        "Mind as well",
    ]
    assert [plain(one) for one in parted.iter("td")][1:3] == [SCRAP, MAY]


def test_a_kind_that_is_not_there_is_refused_on_a_leaf():
    """With a near name."""
    with pytest.raises(UnknownName, match="leather"):
        registry.place(CATALOG, "glue-choice", "leathers")
