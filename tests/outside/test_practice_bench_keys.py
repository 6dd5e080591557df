"""Keys of the bench's exercises, solved again from what is given, by other ways than the book's.

Named ways: beams by quadrature of their moment; two openings in a row by a root finder; a room by
`scipy.integrate.solve_ivp`; a hot volume, a batch with losses and a larger rag by `brentq`; chances
by `scipy.stats`; strips laid one after another; gases by the constant of `scipy.constants`.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest
from scipy import constants, stats
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from formulas import catalog as catalogs
from formulas.practice import sheet
from formulas.practice.exercise import GRADES, Exercise, Wanted

CATALOG = catalogs.load(None)
TOPICS = ("hot-volume", "softening-band", "valve-choice", "needs-list", "room-air")
SEEDS, NUMBERS = range(40, 52), range(1, 9)
# What is told as rounded, such as the litres of a mole, moves a key by no more than this share.
TOLD = 3e-4

Given = dict[str, Any]
Answers = list[float | str]


# Hot volume

FITS = ("it fits", "it is too much for the pot")


def litres_of(masses: Any, densities: Any) -> float:
    """Give the volumes of some masses, added."""
    return float(np.sum(np.asarray(masses) / np.asarray(densities)))


def parted(total: float, parts: Any) -> np.ndarray:
    """Part a total by a ratio."""
    return total * np.asarray(parts) / np.sum(parts)


def to_weigh_out(kept: float, *lost: float) -> float:
    """Find the mass of which so much is left after each loss."""
    return float(brentq(lambda m: m * float(np.prod(1 - np.asarray(lost))) - kept, 0, 1e6))


def topped(mass: float, lost: float) -> float:
    """Find what fills the dip when it has shrunk itself, in the same share."""
    return float(brentq(lambda more: more * (1 - lost) - mass * lost, 0, 1e6))


def whole_sticks(mass: float, one: float) -> int:
    """Cast one stick after another."""
    made = 0
    while mass >= one:
        mass -= one
        made += 1
    return made


def pot_for(volume: float, filled: float) -> float:
    """Find the pot that a volume fills to a share."""
    return float(brentq(lambda pot: pot * filled - volume, 0, 1e6))


def for_plates(g: Given) -> Answers:
    """Solve the task `for-plates`."""
    total = to_weigh_out(g["plates"] * g["plate_wax_g"], g["strained"], g["left_in_pot"])
    volume = litres_of(parted(total, g["parts"]), g["hot_g_ml"])
    serve = [pot for pot in g["pots_ml"] if pot * g["filled"] >= volume]
    return [total, volume, f"{min(serve):g} mL"]


def batch_to_sticks(g: Given) -> Answers:
    """Solve the task `batch-to-sticks`."""
    usable = g["mass_g"] * (1 - g["strained"]) * (1 - g["left_in_pot"])
    shares = parted(1.0, g["parts"])
    one = float(np.prod(g["hollow_mm"])) / 1000 / litres_of(shares, g["cold_g_ml"])
    return [usable, one, whole_sticks(usable, one)]


def sunk_block(g: Given) -> Answers:
    """Solve the task `sunk-block`."""
    cold = parted(g["mass_g"], g["parts"]) / np.asarray(g["cold_g_ml"])
    hot = cold / (1 - np.asarray(g["lost"]))
    lost = 1 - cold.sum() / hot.sum()
    base = math.pi * (g["width_mm"] / 2) ** 2
    return [100 * lost, topped(g["mass_g"], lost), 1000 * (hot.sum() - cold.sum()) / base]


def session(g: Given) -> Answers:
    """Solve the task `session`."""
    plates = g["plates_hour"] * g["hours"]
    total = to_weigh_out(plates * g["plate_wax_g"], g["left_in_pot"])
    volume = litres_of(parted(total, g["parts"]), g["hot_g_ml"])
    return [total, volume, FITS[volume > g["filled"] * g["pot_ml"]]]


def sticks(g: Given) -> Answers:
    """Solve the task `sticks`."""
    one = float(np.prod(g["hollow_mm"])) / 1000 * g["cold_g_ml"]
    return [one, whole_sticks(g["mass_g"], one)]


HOT_VOLUME: dict[str, Callable[[Given], Answers]] = {
    "volume": lambda g: [litres_of(g["mass_g"], g["hot_g_ml"])],
    "brim": lambda g: [pot_for(g["melt_ml"], g["filled"])],
    "stick": lambda g: [float(np.prod(g["hollow_mm"])) / 1000 * g["cold_g_ml"]],
    "top-up": lambda g: [topped(g["mass_g"], g["lost"])],
    "blend-volume": lambda g: [litres_of(g["masses_g"], g["hot_g_ml"])],
    "fits": lambda g: [
        (volume := litres_of(g["mass_g"], g["hot_g_ml"])),
        FITS[pot_for(volume, g["filled"]) > g["pot_ml"]],
    ],
    "largest": lambda g: [
        float(brentq(lambda m: m / g["hot_g_ml"] - g["filled"] * g["pot_ml"], 0, 1e5))
    ],
    "sticks": sticks,
    "for-plates": for_plates,
    "batch-to-sticks": batch_to_sticks,
    "sunk-block": sunk_block,
    "session": session,
}


# Softening band

HOLDS, MOVES, NOBODY = "likely to hold, no promise", "likely to move", "cannot tell"
CREEP = {"step-creep", "step-creep-zinc"}


def put_right(g: Given, read: float, water: float) -> float:
    """Read a temperature off the line through ice and boiling water."""
    slope, start = np.polyfit([g["ice"], g["boiling"]], [0.0, water], 1)
    return float(slope * read + start)


def said_of(low: float, high: float, asked: float) -> str:
    """Say what a band of step creep says of an hour at a temperature."""
    return HOLDS if asked < low else MOVES if asked > high else NOBODY


def firmer(first: list[float], second: list[float]) -> str:
    """Say which of two is the firmer, each a middle and a half width, by the chance."""
    spread = np.hypot(first[1], second[1]) / stats.norm.ppf(0.975)
    chance = stats.norm.sf(0, loc=first[0] - second[0], scale=spread)
    return "A" if chance >= 0.8 else "B" if chance <= 0.2 else NOBODY


def two_bands(g: Given) -> Answers:
    """Solve the task `two-bands`."""
    first, second = g["methods"].split()
    if first != second:
        return [NOBODY]
    return ["A" if g["first"][0] > g["second"][1] else "B"]


def of_service(g: Given) -> str:
    """Say what is known of service: what step creep says, where it was tested."""
    return said_of(*g["creep_band"], g["asked"]) if g["tested"] == "yes" else NOBODY


def drop_and_service(g: Given) -> Answers:
    """Solve the task `drop-and-service`."""
    return [put_right(g, g["read"], g["water"]), of_service(g)]


def reading_and_band(g: Given) -> Answers:
    """Solve the task `reading-and-band`."""
    true = put_right(g, g["read"], g["water"])
    place = int(np.searchsorted([g["low"], g["high"]], true))
    return [true, ("below the band", "inside the band", "above the band")[place]]


def from_a_reading(g: Given) -> Answers:
    """Solve the task `from-a-reading`."""
    water = g["sea"] - g["fall"] * g["height"] / 100
    return [water, put_right(g, g["drop"], water), of_service(g)]


def next_lots(g: Given) -> Answers:
    """Solve the task `next-lots`."""
    z = stats.norm.ppf(0.975)
    known = (g["high"] - g["low"]) / 2 / z
    shifted = np.linalg.norm([known, *(g["lot_spread"] * parted(1.0, g["parts"]))])
    middle = (g["low"] + g["high"]) / 2
    low, high = stats.norm.interval(0.95, loc=middle, scale=shifted)
    return [float(low), float(high), said_of(low, high, g["asked"])]


def tables_alone(g: Given) -> Answers:
    """Solve the task `tables-alone`."""
    half, middle = np.ptp(g["band"]) / 2, np.mean(g["band"])
    return [float(half), float(abs(g["read"] - middle) / half), of_service(g)]


SOFTENING: dict[str, Callable[[Given], Answers]] = {
    "half-width": lambda g: [float(np.ptp([g["low"], g["high"]])) / 2],
    "put-right": lambda g: [put_right(g, g["read"], g["water"])],
    "what-follows": lambda g: [
        said_of(g["low"], g["high"], g["asked"]) if g["method"] in CREEP else NOBODY
    ],
    "two-bands": two_bands,
    "words-of-it": lambda g: [
        "firmer" if g["chance"] > 80 else "softer" if g["chance"] < 20 else NOBODY
    ],
    "firmer": lambda g: [
        float(np.hypot(g["first"][1], g["second"][1])), firmer(g["first"], g["second"])
    ],
    "drop-and-service": drop_and_service,
    "reading-and-band": reading_and_band,
    "from-a-reading": from_a_reading,
    "next-lots": next_lots,
    "tables-alone": tables_alone,
}  # fmt: skip


# Valve choice: mm, g/m2, Pa and µN m as they are told; D by its width

PRESSURES = ((50, 0.25), (100, 0.15), (1000, 0.05))
"""Pa, and the share that a valve may take there, as valve_limits.csv has them."""


def shape(load: float, long: float, stiff: float) -> Callable[[float], float]:
    """Give the bend of a clamped strip under an even load, all in SI."""
    return lambda x: load * x**2 * (6 * long**2 - 4 * long * x + x**2) / (24 * stiff)


def tip(load: float, long: float, stiff: float) -> float:
    """Give the tip of a clamped strip by the quadrature of its moment over its rigidity."""
    return float(quad(lambda x: load * (long - x) ** 2 / 2 * (long - x) / stiff, 0, long)[0])


def gap_mm(share: float, free: float, bending: float) -> float:
    """Give the droop; mass and gravity fall out of load over rigidity."""
    return 1000 * tip(share, free / 1000, (bending / 1000) ** 3)


def stiffness(mass: float, bending: float) -> float:
    """Give the rigidity by width in N m."""
    return mass / 1000 * constants.g * (bending / 1000) ** 3


def opened(free: float, wide: float, stiff: float, area: float) -> float:
    """Give the openings of the slot that each pascal opens: both sides and the tip of the bend."""
    long = free / 1000
    bend = shape(1.0, long, stiff)
    sides = 2 * quad(bend, 0, long)[0]
    return float((sides + wide / 1000 * bend(long)) / (area / 1e6))


def taken(pressure: float, k: float) -> float:
    """Find the share that a valve takes: two openings in a row, the same air through both."""
    x = brentq(lambda v: v * (1 + (k * v) ** 2) - pressure, 0, pressure, xtol=1e-12)
    return float(x) / pressure


def chokes(k: float) -> bool:
    """Tell whether a valve takes more than its share at any of the three pressures."""
    return any(taken(pressure, k) > most for pressure, most in PRESSURES)


def allowed(g: Given) -> float:
    """Give the gap that a valve may have, in mm."""
    return max(g["limit_mm"], g["limit_share"] * g["free_mm"])


def area_of(g: Given) -> float:
    """Give what a swinging tongue leaves open, in mm2."""
    return float(g["open_share"] * np.prod(g["slot_mm"]))


def gap_kept(g: Given) -> Answers:
    """Solve the task `gap-kept`."""
    gap = gap_mm(g["share"], g["free_mm"], g["bending_mm"])
    return [gap, "it keeps the limit" if gap <= allowed(g) else "it stands too far off"]


def opens_enough(g: Given) -> Answers:
    """Solve the task `opens-enough`."""
    k = opened(g["free_mm"], g["width_mm"], g["rigidity_un_m"] / 1e6, area_of(g))
    return [k, "it chokes its own note" if chokes(k) else "it opens enough"]


def ramp_and_scale(g: Given) -> Answers:
    """Solve the task `ramp-and-scale`."""
    mass = g["weight_g"] / (g["pieces"] * np.prod(np.asarray(g["piece_mm"]) / 1000))
    return [float(mass), 1e6 * stiffness(mass, g["overhang_mm"] / 2)]


def which_stock(g: Given) -> Answers:
    """Solve the task `which-stock`."""
    gaps, serves = [], []
    for out, mass in zip(g["overhangs_mm"], g["masses_g_m2"], strict=True):
        gaps.append(gap_mm(g["share"], g["free_mm"], out / 2))
        k = opened(g["free_mm"], g["width_mm"], stiffness(mass, out / 2), area_of(g))
        serves.append(gaps[-1] <= allowed(g) and not chokes(k))
    return [*gaps, "A" if serves[0] else "B" if serves[1] else "neither alone"]


def window(g: Given) -> Answers:
    """Solve the task `window`."""
    free, mass = g["free_mm"], g["mass_g_m2"]

    def too_far(out: float) -> float:
        return gap_mm(g["share"], free, out / 2) - allowed(g)

    def too_much(out: float) -> float:
        k = opened(free, g["width_mm"], stiffness(mass, out / 2), area_of(g))
        return max(taken(pressure, k) - most for pressure, most in PRESSURES)

    least, most = brentq(too_far, 2, 500), brentq(too_much, 2, 500)
    place = int(np.searchsorted([least, most], g["overhang_mm"]))
    words = ("it is too limp", "it hangs within the window", "it is too stiff")
    return [float(least), float(most), words[place]]


def no_valve(g: Given) -> Answers:
    """Solve the task `no-valve`."""
    long, wide = g["tongue_mm"]
    up, clear = g["height_mm"], g["clearance_mm"]
    # Under a tongue bent like a strip: 0.4 of its tip on the mean, at both sides.
    area = 2 * 0.4 * long * up + wide * up + clear * (2 * long + wide)
    rule = g["rule"]
    small = long < rule[0] or g["note_hz"] > rule[1]
    bare = small and area < rule[2] and g["taken_percent"] > rule[3]
    return [area, "no valve" if bare else "a valve"]


def blank_by_table(g: Given) -> Answers:
    """Solve the task `blank-by-table`."""
    rules, steps = g["rules_mm"], g["steps_mm"]
    at = [np.interp(g["slot_mm"][0], rules[7:9], rules[i : i + 2]) for i in (0, 2, 4)]
    wide = g["slot_mm"][1] + 2 * at[0]
    long = at[2] + rules[6] + g["slot_mm"][0] + at[1]
    return [float(np.ceil(size / by) * by) for size, by in zip((wide, long), steps, strict=True)]


def blank(g: Given) -> Answers:
    """Solve the task `blank`."""
    free = g["root_mm"] + g["slot_mm"][0] + g["tip_mm"]
    return [g["slot_mm"][1] + 2 * g["side_mm"], free, free + g["land_mm"]]


VALVES: dict[str, Callable[[Given], Answers]] = {
    "by-the-ramp": lambda g: [g["overhang_mm"] / 2],
    "rest-gap": lambda g: [gap_mm(g["share"], g["free_mm"], g["bending_mm"])],
    "rigidity": lambda g: [1e6 * stiffness(g["mass_g_m2"], g["bending_mm"])],
    "lift": lambda g: [1000 * tip(g["pressure_pa"], g["free_mm"] / 1000, g["rigidity_un_m"] / 1e6)],
    "length-to-cut": lambda g: [sum(g[f"{of}_mm"] for of in ("land", "root", "slot", "tip"))],
    "ramp-and-scale": ramp_and_scale,
    "gap-kept": gap_kept,
    "blank": blank,
    "opens-enough": opens_enough,
    "which-stock": which_stock,
    "window": window,
    "no-valve": no_valve,
    "blank-by-table": blank_by_table,
}


# Needs list


def laid(room: float, size: float, gap: float) -> int:
    """Lay strips one after another, a gap before each but the first."""
    count, used = 0, size
    while used <= room + 1e-9:
        count += 1
        used += gap + size
    return count


def plates_of(g: Given) -> float:
    """Count the plates of an instrument."""
    return float(np.dot(g["ranks"][0::2], g["ranks"][1::2]))


def sessions(plates: float, each: float) -> int:
    """Take one session after another until every plate is bedded."""
    count = 0
    while plates > 1e-9:
        plates -= each
        count += 1
    return count


def glue_of(g: Given) -> float:
    """Give the glue under one valve in mg."""
    return float(np.prod([g["width_mm"], g["land_mm"], g["film_mm"], g["density_mg_mm3"]]))


def wax_to_buy(g: Given) -> Answers:
    """Solve the task `wax-to-buy`."""
    plates = plates_of(g)
    total = to_weigh_out(plates * g["plate_wax_g"], g["strained"], g["left_in_pot"])
    pots = sessions(plates, g["plates_hour"] * g["hours"])
    return [total, float(parted(total, g["parts"])[0]) - g["have_g"], pots]


def stock_to_buy(g: Given) -> Answers:
    """Solve the task `stock-to-buy`."""
    valves = 2 * g["plates"] - g["bare"]
    valves += math.ceil(valves * g["spare_share"] - 1e-9)
    strips = sessions(valves, laid(g["piece_mm"][0], g["strip_mm"][0], g["gap_mm"]))
    pieces = sessions(strips, laid(g["piece_mm"][1], g["strip_mm"][1], g["gap_mm"]))
    return [valves, strips, pieces - g["have"]]


def supplies(g: Given) -> Answers:
    """Solve the task `supplies-to-buy`."""
    valves = plates_of(g) * g["tongues"] - g["bare"]
    solvent = plates_of(g) * g["solvent_ml"] - g["bottle_ml"]
    return [valves, solvent, g["times"] * valves * glue_of(g) / 1000]


def strips(g: Given) -> Answers:
    """Solve the task `strips`."""
    each = laid(g["room_mm"], g["long_mm"], g["gap_mm"])
    return [each, sessions(g["wanted"], each)]


NEEDS: dict[str, Callable[[Given], Answers]] = {
    "plates": lambda g: [plates_of(g)],
    "wax": lambda g: [
        to_weigh_out(g["plates"] * g["plate_wax_g"], g["strained"], g["left_in_pot"])
    ],
    "pots": lambda g: [sessions(g["plates"], g["plates_hour"] * g["hours"])],
    "to-buy": lambda g: [float(parted(g["wax_g"], g["parts"])[0]) - g["have_g"]],
    "valves": lambda g: [
        plates_of(g) * g["tongues"], plates_of(g) * g["tongues"] - g["bare"]
    ],
    "wax-less-sticks": lambda g: [
        (total := to_weigh_out(g["plates"] * g["plate_wax_g"], g["left_in_pot"])),
        total - g["have_g"],
    ],
    "strips": strips,
    "glue": lambda g: [
        g["valves"] * glue_of(g) / 1000, g["times"] * g["valves"] * glue_of(g) / 1000
    ],
    "wax-to-buy": wax_to_buy,
    "stock-to-buy": stock_to_buy,
    "supplies-to-buy": supplies,
}  # fmt: skip


# Room air

AWAY = "take the heat away, let it go cold outside, and clear the room"
LOOK = "look for everything that is hot or can spark"
PASSED = ("it is passed", "it is not passed by this reckoning")
HOT = ("hot plate", "iron", "heat gun", "flame", "wax on heat", "ultrasonic", "static", "switch")


def in_ppm(milligrams: float, g: Given) -> float:
    """Turn mg in a cubic metre into ppm by the gas law, at the usual pressure."""
    moles = milligrams / 1000 / g["molar_g_mol"]
    air = constants.atm / (constants.R * (g["celsius"] + constants.zero_Celsius))
    return 1e6 * moles / air


def after(start: float, given_off: float, g: Given, minutes: float) -> float:
    """Integrate a room in mg/m3, with so many mg given off in an hour."""

    def change(_t: float, level: np.ndarray) -> np.ndarray:
        return given_off / g["room_m3"] - g["changes_h"] * level

    found = solve_ivp(change, (0, minutes / 60), [start], rtol=1e-10, atol=1e-12)
    return float(found.y[0, -1])


def falls_to(share: float, changes: float) -> float:
    """Find the hours until a share is left, by integrating the fall."""
    room = {"room_m3": 1.0, "changes_h": changes}
    return float(brentq(lambda h: after(1.0, 0.0, room, 60 * h) - share, 0, 50, xtol=1e-9))


def rag_level(g: Given, amount: float) -> float:
    """Give the level at the end of a task in ppm."""
    rate = 1000 * amount * g["density_g_ml"] / g["minutes"] * 60
    return in_ppm(after(0.0, rate, g, g["minutes"]), g)


def of_explosive(ppm: float, g: Given) -> float:
    """Give a level as a share of the lower explosive limit, in percent."""
    return ppm / 1e6 / (g["explosive_percent"] / 100) * 100


def first_of(g: Given) -> str:
    """Say what comes first: heat that is named goes, and else it is looked for."""
    return AWAY if g["heat"] else LOOK


def goes_first(g: Given) -> Answers:
    """Solve the task `what-goes-first`."""
    there = g["there"].split("|")
    hot = [any(word in one for word in HOT) for one in there]
    assert sum(hot) == 1, there
    return [("the first", "the second", "the third")[hot.index(True)]]


def closed_room(g: Given) -> Answers:
    """Solve the task `closed-room`."""
    level = 1000 * g["amount_ml"] * g["density_g_ml"] / g["room_m3"]
    return [level, in_ppm(level, g)]


def kept_under(g: Given) -> Answers:
    """Solve the task `kept-under`."""
    share = of_explosive(g["near"] * g["level_ppm"], g)
    return [share, PASSED[share < g["kept_percent"]]]


def whole_day(g: Given) -> Answers:
    """Solve the task `whole-day`."""
    # Long enough that the room has settled.
    ppm = in_ppm(after(0.0, 1000 * g["grams"] / g["hours"], g, 60 * 80), g)
    return [ppm, PASSED[ppm < g["limit_ppm"]]]


def wet_rag(g: Given) -> Answers:
    """Solve the task `wet-rag`."""
    ppm = rag_level(g, g["amount_ml"])
    return [ppm, of_explosive(ppm, g), first_of(g)]


def bigger_rag(g: Given) -> Answers:
    """Solve the task `bigger-rag`."""

    def near(amount: float) -> float:
        return of_explosive(g["near"] * rag_level(g, amount), g)

    most = float(brentq(lambda a: near(a) - g["kept_percent"], 0.1, 5000, xtol=1e-6))
    return [near(g["amount_ml"]), most, PASSED[g["bigger_ml"] < most]]


def air_needed(g: Given) -> Answers:
    """Solve the task `air-needed`."""
    day = 1000 * g["times"] * g["amount_ml"] * g["density_g_ml"]
    limit = g["limit_ppm"] / in_ppm(1.0, g)
    changes = day / g["hours"] / (g["room_m3"] * limit)
    words = ("not more, by this reckoning", "more than a window can be counted on for")
    return [limit, changes, words[changes > g["window_h"]]]


def second_rag(g: Given) -> Answers:
    """Solve the task `second-rag`."""
    left = after(g["level_ppm"], 0.0, g, g["pause_min"])
    spilt = in_ppm(1000 * g["amount_ml"] * g["density_g_ml"] / g["room_m3"], g)
    return [left, left + spilt, first_of(g)]


ROOM: dict[str, Callable[[Given], Answers]] = {
    "grams": lambda g: [g["amount_ml"] * g["density_g_ml"]],
    "parts-in-a-million": lambda g: [in_ppm(g["level_mg_m3"], g)],
    "half-gone": lambda g: [60 * falls_to(0.5, g["changes_h"])],
    "of-the-explosive-limit": lambda g: [of_explosive(g["level_ppm"], g)],
    "what-goes-first": goes_first,
    "closed-room": closed_room,
    "cleared": lambda g: [
        60 * falls_to(g["left"], g["changes_h"]),
        g["worst"] * falls_to(g["left"], g["changes_h"]),
    ],
    "kept-under": kept_under,
    "whole-day": whole_day,
    "first-things": lambda g: [of_explosive(g["level_ppm"], g), first_of(g)],
    "wet-rag": wet_rag,
    "bigger-rag": bigger_rag,
    "air-needed": air_needed,
    "second-rag": second_rag,
}

SOLVED = dict(zip(TOPICS, (HOT_VOLUME, SOFTENING, VALVES, NEEDS, ROOM), strict=True))


def made(topic: str) -> Iterator[Exercise]:
    """Make exercises of a topic, of every grade."""
    for grade, seed, number in itertools.product(GRADES, SEEDS, NUMBERS):
        yield sheet.one(CATALOG, topic, grade, seed, number)


def ends_of_key(one: Wanted) -> tuple[float, float]:
    """Give between which ends lies what rounds to a key, to its cautious side where it has one."""
    step = 10.0**-one.places
    under, over = {"both": (0.5, 0.5), "below": (0.0, 1.0), "above": (1.0, 0.0)}[one.side]
    return one.value - under * step, one.value + over * step


@pytest.mark.parametrize("topic", TOPICS)
def test_a_key_is_found_again_from_what_is_given(topic):
    """Every number agrees to half its last place, every word is the same, in every task."""
    met = set()
    for exercise in made(topic):
        given = exercise.made.given
        variant = str(given["variant"])
        met.add(variant)
        found = SOLVED[topic][variant](given)
        assert len(found) == len(exercise.made.wanted), variant
        for one, answer in zip(exercise.made.wanted, found, strict=True):
            if isinstance(one, Wanted):
                assert not isinstance(answer, str), exercise
                low, high = ends_of_key(one)
                room = 1e-6 / 10**one.places + TOLD * abs(answer)
                assert low - room <= answer <= high + room, (variant, one, answer, given)
            else:
                assert one.right == answer, (variant, one, given)
    assert met == set(SOLVED[topic])


def test_the_litres_of_a_mole_are_those_of_the_gas_law():
    """What a task tells of a mole is right to its last place."""
    seen = 0
    for exercise in made("room-air"):
        given = exercise.made.given
        if "litres_mol" in given:
            seen += 1
            kelvin = given["celsius"] + constants.zero_Celsius
            assert abs(given["litres_mol"] - 1000 * constants.R * kelvin / constants.atm) < 0.00501
    assert seen > 50
