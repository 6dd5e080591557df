"""A small catalog made by hand for the tests of the handbook; every value in it is made up."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

from formulas.catalog import Catalog
from formulas.entries import (
    Blend,
    Burn,
    Caution,
    Fact,
    FaultAndCure,
    Figure,
    Material,
    Method,
    PairEffect,
    Shop,
    Source,
)
from formulas.hazard_entries import Hazard, Statement


def fact(
    material: str, prop: str, low: float | None, high: float | None, unit: str, **more: str
) -> Fact:
    """Make a row on a material; what is left out is blank."""
    blank = dict.fromkeys(("method", "condition", "basis", "source", "where", "note"), "")
    return Fact(material, prop, low, high, unit, **{**blank, "basis": "practice", **more})


def method(name: str, words: str, *, estimated: bool, spread: float | None, basis: str) -> Method:
    """Make a test method."""
    told = ("Waxes.", "The first drop.", "A service temperature.", "Standard 1")
    return Method(name, words, estimated, *told, spread, None, "degC", basis, "", "")


def catalog(folder: Path | None = None, **changed: Any) -> Catalog:
    """Give the small catalog, some of its tables changed."""
    made = Catalog(
        shop=Shop(name="Trial shop", invented=True, folder=folder),
        sources={
            "old-book-1900": Source(
                "old-book-1900", "Old book", "A body", "1900", "handbook", "no", ""
            ),
            "big-list-2001": Source(
                "big-list-2001", "Big list", "An agency", "", "data-sheet", "part", "Table 1 only."
            ),
        },
        materials={
            "wax": Material(
                "wax", "Trial wax", "test wax; TW", "wax", "body", "1-2-3 4-5-6", "Soft."
            ),
            "oil": Material("oil", "Trial oil", "", "oil", "softener", "", ""),
        },
        methods={
            "drop-point": method(
                "drop-point", "Drop point", estimated=True, spread=0.8, basis="memory"
            ),
            "hand": method("hand", "By hand", estimated=False, spread=None, basis="practice"),
        },
        facts=[
            fact("wax", "density-solid", 958, 970.5, "kg/m**3", condition="15 °C", note="Dense."),
            fact("wax", "flash-point", 204, None, "degC", method="closed-cup", basis="memory"),
            fact("wax", "softening-point", 35, 35, "degC", method="hand"),
            fact(
                "wax",
                "softening-point",
                62,
                65,
                "degC",
                method="drop-point",
                basis="published",
                source="big-list-2001",
                where="table 1",
            ),
            fact("wax", "latent-heat", 170, 170, "kJ/kg", basis="memory", source="old-book-1900"),
            fact("oil", "state", None, None, "", note="Liquid."),
        ],
        blends={
            "four-one": Blend(
                "four-one",
                "Four to one",
                "Trials.",
                None,
                None,
                "practice",
                75,
                90,
                "memory",
                "degC",
                "Weigh it.",
                "practice",
                "",
                {"wax": 4.0, "oil": 0.5},
            )
        },
        figures={
            "loss": Figure("loss", "lost in the pot", 2, 5, 3, "percent", "practice", "", "", ""),
            "shift": Figure(
                "shift", "shift", -3, 0, None, "degC", "memory", "old-book-1900", "p. 5", "Wide."
            ),
        },
        pair_effects=[PairEffect("wax", "*", -20, 40.5, "1", "memory", "old-book-1900", "")],
        cautions={
            "hot": Caution(
                "hot",
                "burns",
                "Hot wax burns.",
                "Cover your arms.\nCool a burn at once.",
                ("H300",),
                ("mix", "soften"),
                "memory",
                "old-book-1900",
                "",
            ),
            "wet": Caution("wet", "jet", "Dry pot.", "Dry it.", (), ("mix",), "practice", "", ""),
        },
        statements={
            "H300": Statement("H300", "Bad.", "Danger", "health-hazard", "memory", "old-book-1900"),
            "P999": Statement("P999", "In no use.", "", "", "practice", ""),
        },
        hazards=[Hazard("wax", "H300", "published", "big-list-2001", "row 3", "")],
        mixture_rules=[],
        hazard_precautions=[],
        pictograms={},
        label_stock={},
        burns=[
            Burn(60, 5, "degC", "s", "published", "big-list-2001", "table 2", ""),
            Burn(49, 5, "degC", "min", "memory", "", "", "About."),
        ],
        faults_and_cures={
            "rings": FaultAndCure(
                "rings", "joint", "It rings", "Tap it", "Open edge", "Warm it", "", "practice"
            ),
            "hazy": FaultAndCure(
                "hazy", "joint", "It is hazy", "It wipes off", "Bloom", "None", "Wait", "memory"
            ),
            "bent": FaultAndCure(
                "bent", "mistake", "Bent", "It stands high", "Haste", "Ask", "", "practice"
            ),
            "dark": FaultAndCure(
                "dark", "first-year", "Dark", "It smokes", "Haste", "Off", "None", "practice", True
            ),
        },
        prices={},
        cleaning_tasks={},
        solvents={},
        solvent_facts=[],
        exposure_limits=[],
        solvent_hazards=[],
        incompatible=[],
        protection={},
        chemicals={},
        terms={},
        first_year_stages={},
        first_year_steps={},
        practice_topics={},
        practice_ranges={},
        people={},
        signoffs=[],
        printed=[],
        lots={},
        pot_book={},
        pot_lots=[],
        pot_uses=[],
        softening_tests=[],
        valve_materials={},
        valve_facts=[],
        valve_stock={},
        valve_limits={},
        valve_classes={},
        postures={},
        ranks=[],
        glues={},
        ramp_tests=[],
        stock_weighings=[],
        curl_tests=[],
        plates=[],
        slots=[],
        valve_tests=[],
        skins={},
        skin_outlines=[],
        seating_methods={},
        gasket_materials={},
        work_steps={},
        survey_grades={},
        layouts={},
        jobs=[],
        reservations=[],
        stock_uses=[],
        hours=[],
    )
    return dataclasses.replace(made, **changed)
