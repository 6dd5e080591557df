"""Exercises of a whole job with valves: two stocks on a slot, and the window of a slot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from formulas.practice.bench import between, number, over, percent, short, step
from formulas.practice.exercise import ABOVE, BELOW, WHOLE_JOB, Choice, Made, Silly, made
from formulas.practice.strip_words import (
    CHOKES,
    GAP_SAID,
    GRAVITY,
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
from formulas.valves.deciding import ONE_STOCK, decided, founds_of
from formulas.valves.flow import opening_ratio, swinging_area
from formulas.valves.judging import judged
from formulas.valves.settings import settings
from formulas.valves.strip import bending_length, droop, rigidity
from formulas.valves.window import window_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

NEITHER = "neither alone"
STOCKS = ("A", "B", NEITHER)
PASSES = ("it hangs within the window", "it is too limp", "it is too stiff")
THIN = 0.0005  # m: a thickness that nothing here is judged by
OTHERS_KEEP = 0.95  # of every limit that the task does not speak of
LEAST_WINDOW = 1.15  # of the most over the least


class Slotted(Frozen):
    """A slot and the valve over it in mm, the share of gravity that pulls it off, its sentences."""

    slot: tuple[float, float]
    free: float
    wide: float
    share: float
    note: float
    told: tuple[str, ...]

    @property
    def sizes(self) -> list[float]:
        """The sizes of the valve as the procedures ask for them; they use the last but one."""
        return [0.0, 0.0, 0.0, 0.0, self.free / 1000, self.wide / 1000, 0.0]

    @property
    def numbers(self) -> list[float]:
        """The slot as the procedures ask for it."""
        return [self.slot[0] / 1000, self.slot[1] / 1000, self.share, 1 / self.note, 0.0]


def _slotted(catalog: Catalog, draw: Draw) -> Slotted:
    note, *sides = slot_drawn(catalog, draw)
    slot = sides[0], sides[1]
    free = slot[0] + draw.ranged("valve-choice-tip")
    wide = slot[1] + 2 * draw.ranged("valve-choice-side")
    share, posture = hanging(catalog, draw)
    phi = settings(catalog).opening[0]
    told = (
        f"A slot is {slot[0]:g} × {slot[1]:g} mm; its tongue leaves {percent(phi):g} % of it open"
        f" on the mean. The valve over it is {free:g} mm long from the edge of the glue and"
        f" {wide:g} mm wide.",
        posture,
    )
    return Slotted(slot, free, wide, share, note, told)


def _stock(catalog: Catalog, mass: float, c: float) -> list[float]:
    """Give a measured leather as the procedures ask for it, from g/m**2 and mm."""
    across = catalog.figure("rigidity-across").typical or 0.0
    m, bend = mass / 1000, c / 1000
    return [m, bend, across / 100, THIN, 0.0, 0.0, m, m, bend, bend, 1.0, 1.0]


def which_stock(catalog: Catalog, draw: Draw) -> Made:
    """Ask which of two measured stocks serves a slot."""
    one, held = _slotted(catalog, draw), settings(catalog)
    outs = [draw.ranged("valve-choice-overhang") for _ in range(2)]
    masses = [draw.ranged("valve-choice-mass") for _ in range(2)]
    bends = [1000 * bending_length(out / 1000) for out in outs]
    stocks = [_stock(catalog, m, c) for m, c in zip(masses, bends, strict=True)]
    common = (one.sizes, one.numbers, held.opening, held.pressures, held.limits)
    serve = [_serves(judged(*common, stock)[3], held.limits) for stock in stocks]
    founds = founds_of(one.sizes, one.numbers, held.opening, held.pressures, stocks)
    kind, place, _ = decided(*common, stocks, founds, False)
    if all(serve) or (kind == ONE_STOCK) != any(serve):
        raise Silly
    right = STOCKS[place] if kind == ONE_STOCK else NEITHER
    gaps = [1000 * droop(one.share, one.free / 1000, c / 1000) for c in bends]
    stiff = [1e6 * rigidity(m / 1000, c / 1000) for m, c in zip(masses, bends, strict=True)]
    phi, asked, most = held.opening[0], opening_asked(catalog), gap_limit(catalog, one.free)
    area = 1e6 * swinging_area(phi, one.slot[0] / 1000, one.slot[1] / 1000)
    opens = [opening_ratio(one.free / 1000, one.wide / 1000, D / 1e6, area / 1e6) for D in stiff]
    for gap, k in zip(gaps, opens, strict=True):
        over(gap, most)
        over(k, asked)
        between(gap, 0.1, one.free / 2)
    names = STOCKS[:2]
    return made(
        (
            *one.told,
            *(
                f"Stock {name} hangs out {out:g} mm on the usual ramp, where half of that is the"
                f" bending length, and weighs {m:g} g a square metre."
                for name, out, m in zip(names, outs, masses, strict=True)
            ),
            GAP_SAID,
            gap_limit_said(catalog),
            RIGID_SAID,
            OPENS_SAID,
            f"{opening_said(asked)} Both are flat, and all other limits are kept.",
            "How far do the tips stand off at rest, and which stock serves?",
        ),
        (
            number("Gap of A", gaps[0], "mm", 2, WHOLE_JOB),
            number("Gap of B", gaps[1], "mm", 2, WHOLE_JOB),
            Choice("The stock", right, STOCKS),
        ),
        (
            *(
                step(f"Bending length {name}", f"{out:g} / 2", c, "mm")
                for name, out, c in zip(names, outs, bends, strict=True)
            ),
            *(
                step(
                    f"Gap {name}", f"{one.share:g} × {fourth(one.free)} / (8 × {third(c)})",
                    gap, "mm",
                )
                for name, c, gap in zip(names, bends, gaps, strict=True)
            ),
            *gap_steps(catalog, one.free),
            *(
                step(
                    f"Rigidity {name}", f"{m:g} × {GRAVITY:g} × {third(c)} / 1000000", D, "µN*m"
                )
                for name, m, c, D in zip(names, masses, bends, stiff, strict=True)
            ),
            step("Open area", f"{phi:g} × {one.slot[0]:g} × {one.slot[1]:g}", area, "mm**2"),
            *(
                step(
                    f"Openings {name}",
                    f"(0.8 × {one.free:g} + {one.wide:g}) × {fourth(one.free)}"
                    f" / (8 × {short(D)} × {short(area)} × 1000)",
                    k,
                )
                for name, D, k in zip(names, stiff, opens, strict=True)
            ),
            f"A gap of {short(most)} mm and {asked:g} openings are the limits: {right}.",
        ),
        {
            "variant": "which-stock", "slot_mm": list(one.slot), "free_mm": one.free,
            "width_mm": one.wide, "share": one.share, "overhangs_mm": outs,
            "masses_g_m2": masses, "open_share": phi, "asked": asked,
            **gap_limit_given(catalog), "gravity": GRAVITY,
        },
    )  # fmt: skip


def _serves(ratios: list[float], limits: list[list[float]]) -> bool:
    """Tell whether gap and choke are kept. Raises Silly where another limit has a say."""
    for place, ratio in enumerate(ratios):
        if place != 0 and place not in CHOKES and limits[place][2] > 0:
            # The delay follows the gap: it has a say of its own only where the gap is kept.
            follows = place == 6 and ratios[0] > 1
            if ratio > OTHERS_KEEP and not follows:
                raise Silly
    return max(ratios[0], *(ratios[place] for place in CHOKES)) <= 1


def window(catalog: Catalog, draw: Draw) -> Made:
    """Ask for the overhangs between which a strip of a mass serves a slot."""
    one, held = _slotted(catalog, draw), settings(catalog)
    mass, out = draw.ranged("valve-choice-mass"), draw.ranged("valve-choice-overhang")
    least, most, gap, D = window_of(
        one.sizes, one.numbers, held.opening, held.pressures, held.limits, mass / 1000
    )
    least, most, gap, D = 1000 * least, 1000 * most, 1000 * gap, 1e6 * D
    if abs(gap - gap_limit(catalog, one.free)) > 1e-6 or most < LEAST_WINDOW * least:
        raise Silly
    between(least, 10, 90)
    between(most, 10, 90)
    limp, stiff = not over(out, 2 * least), over(out, 2 * most)
    right = PASSES[1] if limp else PASSES[2] if stiff else PASSES[0]
    phi, asked = held.opening[0], opening_asked(catalog)
    area = 1e6 * swinging_area(phi, one.slot[0] / 1000, one.slot[1] / 1000)
    return made(
        (
            *one.told,
            f"The stock weighs {mass:g} g a square metre and lies flat.",
            GAP_SAID,
            gap_limit_said(catalog),
            RIGID_SAID,
            OPENS_SAID,
            opening_said(asked),
            "Half the overhang on the usual ramp is the bending length. Between which overhangs"
            f" does a strip serve, and what of one that hangs out {out:g} mm?",
        ),
        (
            number("Least overhang", 2 * least, "mm", 0, WHOLE_JOB, ABOVE),
            number("Most overhang", 2 * most, "mm", 0, WHOLE_JOB, BELOW),
            Choice("The strip", right, PASSES),
        ),
        (
            *gap_steps(catalog, one.free),
            step(
                "Least bending length",
                f"∛({one.share:g} × {fourth(one.free)} / (8 × {short(gap)}))", least, "mm",
            ),
            step("Open area", f"{phi:g} × {one.slot[0]:g} × {one.slot[1]:g}", area, "mm**2"),
            step(
                "Most rigidity",
                f"(0.8 × {one.free:g} + {one.wide:g}) × {fourth(one.free)}"
                f" / (8 × {asked:g} × {short(area)} × 1000)",
                D, "µN*m",
            ),
            step(
                "Most bending length", f"∛({short(D)} × 1000000 / ({mass:g} × {GRAVITY:g}))",
                most, "mm",
            ),
            step("Least overhang", f"2 × {short(least)}", 2 * least, "mm"),
            step("Most overhang", f"2 × {short(most)}", 2 * most, "mm"),
            f"{out:g} mm against them: {right}.",
        ),
        {
            "variant": "window", "slot_mm": list(one.slot), "free_mm": one.free,
            "width_mm": one.wide, "share": one.share, "mass_g_m2": mass, "open_share": phi,
            "asked": asked, **gap_limit_given(catalog), "gravity": GRAVITY,
            "overhang_mm": out,
        },
    )  # fmt: skip
