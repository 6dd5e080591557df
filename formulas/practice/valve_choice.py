"""Exercises on valves: from ruler and ramp to a stock that serves, or to none."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from formulas.practice.bench import between, ends_of, finished, number, over, percent, short, step
from formulas.practice.blank_jobs import blank_by_table, no_valve
from formulas.practice.exercise import ONE_STEP, SOME_STEPS, WHOLE_JOB, Choice, Made, made
from formulas.practice.strip_words import (
    GAP_KEPT,
    GAP_SAID,
    GRAVITY,
    LIFT_SAID,
    OPENS,
    OPENS_SAID,
    RIGID_SAID,
    fourth,
    gap_limit,
    gap_limit_given,
    gap_limit_said,
    gap_steps,
    hanging,
    opening_asked,
    opening_said,
    slot_drawn,
    third,
)
from formulas.practice.valve_jobs import which_stock, window
from formulas.valves.blank import cut_length, free_length, valve_width
from formulas.valves.flow import opening_ratio, swinging_area
from formulas.valves.settings import settings
from formulas.valves.strip import bending_length, droop, lift, rigidity
from formulas.valves.weighing import mass_per_area

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def exercise(catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on a valve for a slot."""
    return finished(draw.in_turn([partial(task, catalog) for task in VARIANTS[grade]]))


def _by_the_ramp(catalog: Catalog, draw: Draw) -> Made:
    out, angle = draw.ranged("valve-choice-overhang"), ends_of(catalog, "ramp-angle", "deg")
    c = 1000 * bending_length(out / 1000)
    return made(
        (
            f"On the ramp of {angle[0]:g} degrees a strip hangs out {out:g} mm when its tip touches"
            " the line.",
            "What is its bending length?",
        ),
        (number("Bending length", c, "mm", 1, ONE_STEP),),
        (step("Bending length", f"{out:g} / 2", c, "mm"),),
        {"variant": "by-the-ramp", "overhang_mm": out},
    )


def _rest_gap(catalog: Catalog, draw: Draw) -> Made:
    n, said = hanging(catalog, draw)
    long, c = draw.ranged("valve-choice-free"), draw.ranged("valve-choice-bending")
    gap = 1000 * droop(n, long / 1000, c / 1000)
    between(gap, 0.1, long / 4)
    return made(
        (
            f"A flat valve is {long:g} mm long from the edge of its glue to the tip. Its stock has"
            f" a bending length of {c:g} mm.",
            said,
            GAP_SAID,
            "How far does the tip stand off at rest?",
        ),
        (number("Gap at rest", gap, "mm", 2, ONE_STEP),),
        (step("Gap", f"{n:g} × {fourth(long)} / (8 × {third(c)})", gap, "mm"),),
        {"variant": "rest-gap", "share": n, "free_mm": long, "bending_mm": c},
    )


def _rigidity(_catalog: Catalog, draw: Draw) -> Made:
    mass, c = draw.ranged("valve-choice-mass"), draw.ranged("valve-choice-bending")
    stiff = 1e6 * rigidity(mass / 1000, c / 1000)
    return made(
        (
            f"A stock weighs {mass:g} g a square metre and has a bending length of {c:g} mm.",
            RIGID_SAID,
            "What is its rigidity?",
        ),
        (number("Rigidity", stiff, "µN*m", 0, ONE_STEP),),
        (step("Rigidity", f"{mass:g} × {GRAVITY:g} × {third(c)} / 1000000", stiff, "µN*m"),),
        {"variant": "rigidity", "mass_g_m2": mass, "bending_mm": c, "gravity": GRAVITY},
    )


def _lift(_catalog: Catalog, draw: Draw) -> Made:
    press, long = draw.ranged("valve-choice-own-pressure"), draw.ranged("valve-choice-free")
    stiff = draw.ranged("valve-choice-rigidity")
    up = 1000 * lift(press, stiff / 1e6, long / 1000)
    between(up, 0.3, long / 4)
    return made(
        (
            f"A valve is {long:g} mm long from the edge of its glue to the tip. Its rigidity is"
            f" {stiff:g} µN·m. Of the pressure in the bellows it takes {press:g} Pa"
            " itself.",
            LIFT_SAID,
            "How far does its tip lift?",
        ),
        (number("Lift of the tip", up, "mm", 1, ONE_STEP),),
        (step("Lift", f"{press:g} × {fourth(long)} / (8 × {stiff:g} × 1000)", up, "mm"),),
        {"variant": "lift", "pressure_pa": press, "free_mm": long, "rigidity_un_m": stiff},
    )


def _length_to_cut(catalog: Catalog, draw: Draw) -> Made:
    (_, slot, _), root = slot_drawn(catalog, draw), 1000 * settings(catalog).rules[6]
    land, tip = draw.ranged("valve-choice-land"), draw.ranged("valve-choice-tip")
    long = 1000 * cut_length(land / 1000, free_length(root / 1000, slot / 1000, tip / 1000))
    return made(
        (
            f"A slot is {slot:g} mm long. The glue land is {land:g} mm, the edge of the glue stays"
            f" {root:g} mm clear of the slot, and the valve goes {tip:g} mm beyond its tip end.",
            "How long is the strip that is cut?",
        ),
        (number("Length to cut", long, "mm", 1, ONE_STEP),),
        (step("Length", f"{land:g} + {root:g} + {slot:g} + {tip:g}", long, "mm"),),
        {
            "variant": "length-to-cut", "slot_mm": slot, "land_mm": land, "root_mm": root,
            "tip_mm": tip,
        },
    )  # fmt: skip


def _ramp_and_scale(_catalog: Catalog, draw: Draw) -> Made:
    out, pieces = draw.ranged("valve-choice-overhang"), draw.ranged("valve-choice-pieces")
    weight = draw.ranged("valve-choice-weight")
    long, wide = draw.ranged("valve-choice-piece-long"), draw.ranged("valve-choice-piece-wide")
    mass = 1000 * mass_per_area(weight / 1000, pieces, long / 1000, wide / 1000)
    draw.within("valve-choice-mass", mass)
    c = 1000 * bending_length(out / 1000)
    stiff = 1e6 * rigidity(mass / 1000, c / 1000)
    return made(
        (
            f"A strip hangs out {out:g} mm on the usual ramp, where half of that is the bending"
            " length.",
            f"{pieces:g} pieces of the stock, {long:g} × {wide:g} mm each, weigh {weight:g} g"
            " together.",
            RIGID_SAID,
            "What does a square metre weigh, and what is the rigidity?",
        ),
        (
            number("Mass per area", mass, "g/m**2", 0, SOME_STEPS),
            number("Rigidity", stiff, "µN*m", 0, SOME_STEPS),
        ),
        (
            step(
                "Mass per area", f"{weight:g} / ({pieces:g} × {long:g} × {wide:g}) × 1000000",
                mass, "g/m**2",
            ),
            step("Bending length", f"{out:g} / 2", c, "mm"),
            step(
                "Rigidity", f"{short(mass)} × {GRAVITY:g} × {third(c)} / 1000000", stiff, "µN*m"
            ),
        ),
        {
            "variant": "ramp-and-scale", "overhang_mm": out, "pieces": pieces,
            "piece_mm": [long, wide], "weight_g": weight, "gravity": GRAVITY,
        },
    )  # fmt: skip


def _gap_kept(catalog: Catalog, draw: Draw) -> Made:
    n, said = hanging(catalog, draw)
    long, c = draw.ranged("valve-choice-free"), draw.ranged("valve-choice-bending")
    gap = 1000 * droop(n, long / 1000, c / 1000)
    most = gap_limit(catalog, long)
    right = GAP_KEPT[over(gap, most)]
    between(gap, most / 4, 4 * most)
    return made(
        (
            f"A flat valve is {long:g} mm long from the edge of its glue to the tip. Its stock has"
            f" a bending length of {c:g} mm.",
            said,
            GAP_SAID,
            gap_limit_said(catalog),
            "How far does the tip stand off at rest, and does that keep the limit?",
        ),
        (
            number("Gap at rest", gap, "mm", 2, SOME_STEPS),
            Choice("The limit", right, GAP_KEPT),
        ),
        (
            step("Gap", f"{n:g} × {fourth(long)} / (8 × {third(c)})", gap, "mm"),
            *gap_steps(catalog, long),
            f"{short(gap)} mm against {short(most)} mm: {right}.",
        ),
        {
            "variant": "gap-kept", "share": n, "free_mm": long, "bending_mm": c,
            **gap_limit_given(catalog),
        },
    )  # fmt: skip


def _blank(catalog: Catalog, draw: Draw) -> Made:
    _, slot, wide = slot_drawn(catalog, draw)
    side, tip = draw.ranged("valve-choice-side"), draw.ranged("valve-choice-tip")
    land, root = draw.ranged("valve-choice-land"), 1000 * settings(catalog).rules[6]
    across = 1000 * valve_width(wide / 1000, side / 1000)
    free = 1000 * free_length(root / 1000, slot / 1000, tip / 1000)
    long = 1000 * cut_length(land / 1000, free / 1000)
    return made(
        (
            f"A slot is {slot:g} × {wide:g} mm. The valve goes {side:g} mm over it at each side"
            f" and {tip:g} mm beyond its tip end.",
            f"The edge of the glue stays {root:g} mm clear of the slot; the land is {land:g} mm.",
            "How wide, how long from the edge of the glue, and how long in all is the strip?",
        ),
        (
            number("Width", across, "mm", 1, ONE_STEP),
            number("Free length", free, "mm", 1, ONE_STEP),
            number("Length to cut", long, "mm", 1, ONE_STEP),
        ),
        (
            step("Width", f"{wide:g} + 2 × {side:g}", across, "mm"),
            step("Free length", f"{root:g} + {slot:g} + {tip:g}", free, "mm"),
            step("Length", f"{land:g} + {short(free)}", long, "mm"),
        ),
        {
            "variant": "blank", "slot_mm": [slot, wide], "side_mm": side, "tip_mm": tip,
            "root_mm": root, "land_mm": land,
        },
    )  # fmt: skip


def _opens_enough(catalog: Catalog, draw: Draw) -> Made:
    _, slot, wide = slot_drawn(catalog, draw)
    side, more = draw.ranged("valve-choice-side"), draw.ranged("valve-choice-tip")
    stiff = draw.ranged("valve-choice-rigidity")
    long, across = slot + more, wide + 2 * side
    phi, asked = settings(catalog).opening[0], opening_asked(catalog)
    area = 1e6 * swinging_area(phi, slot / 1000, wide / 1000)
    k = opening_ratio(long / 1000, across / 1000, stiff / 1e6, area / 1e6)
    right = OPENS[not over(k, asked)]
    between(k, asked / 4, 5 * asked)
    return made(
        (
            f"A slot is {slot:g} × {wide:g} mm; its tongue leaves {percent(phi):g} % of it open on"
            " the mean.",
            f"The valve over it is {long:g} mm long from the edge of the glue and {across:g} mm"
            f" wide. Its rigidity is {stiff:g} µN·m.",
            OPENS_SAID,
            opening_said(asked),
            "What does each pascal open, and is that enough?",
        ),
        (
            number("Openings for each pascal", k, "", 3, SOME_STEPS),
            Choice("The limits on choke", right, OPENS),
        ),
        (
            step("Open area", f"{phi:g} × {slot:g} × {wide:g}", area, "mm**2"),
            step(
                "Openings",
                f"(0.8 × {long:g} + {across:g}) × {fourth(long)}"
                f" / (8 × {stiff:g} × {short(area)} × 1000)",
                k,
            ),
            f"{short(k)} against {asked:g}: {right}.",
        ),
        {
            "variant": "opens-enough", "slot_mm": [slot, wide], "free_mm": long,
            "width_mm": across, "rigidity_un_m": stiff, "open_share": phi, "asked": asked,
        },
    )  # fmt: skip


VARIANTS = {
    ONE_STEP: (_by_the_ramp, _rest_gap, _length_to_cut, _rigidity, _lift),
    SOME_STEPS: (_ramp_and_scale, _gap_kept, _blank, _opens_enough),
    WHOLE_JOB: (which_stock, window, no_valve, blank_by_table),
}
