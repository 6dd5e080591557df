"""The arithmetic of the quick needs list: plates of ranks, valves by class, glue, hours, pots.

Nothing was measured: sizes come from the generic lines, and every range says how little that is.
All of this is procedures on plain lists, so that the page runs the same source.
"""

from __future__ import annotations

import math
from typing import Annotated

from formulas.formula import Q, formula, procedure
from formulas.jobs.fillet import FREE_SIDE, USUAL
from formulas.jobs.supplies import glue_mass
from formulas.valves.blank import valve_sizes
from formulas.valves.measured_plates import sizes_of_rank
from formulas.valves.notes import frequency
from formulas.valves.reed_sizes import generic_size, plate_length, plate_width
from formulas.wax.batch import total_for_plates
from formulas.wax.session import session_wax

PLATE_RULE = (
    "share of the tongue",
    "what a plate is longer",
    "metal beside the slots, low",
    "metal beside the slots, high",
    "pitch of high plates",
    "pitch of bass plates",
    "high, low",
    "high, high",
    "middle, low",
    "middle, high",
    "bass, low",
    "bass, high",
)
"""What `plate_rule` holds, in SI units; the last six are thicknesses."""
PERS = ("plate", "tongue", "valve", "block", "job", "batch")
"""What a step is counted by, in the order of `unit_counts_low`. A step on one face counts half of
the valves."""


@formula("Work on so many", symbol="t", unit="s", source="definition")
def work_time(
    n: Annotated[float, Q("1", "how many there are")],
    t_1: Annotated[float, Q("s", "time for one")],
) -> float:
    """Give the time of one step. Ends of steps are added, for one hand does them all."""
    return n * t_1


@procedure("Likely size of a plate by its slot")
def plate_by_slot(
    sounds: float,
    slot_long: list[float],
    slot_wide: list[float],
    tongues: int,
    plate_rule: list[float],
) -> list[float]:
    """Give length, width and thickness, then their half widths, in m.

    `sounds` is the pitch in Hz, `slot_long` and `slot_wide` low, middle and high. A plate of one
    tongue is about half as wide as one of two.
    """
    long = [plate_length(end, plate_rule[0], plate_rule[1]) for end in slot_long]
    part = 0.5 if tongues == 1 else 1
    middle = (plate_rule[2] + plate_rule[3]) / 2
    wide = [
        part * plate_width(slot_wide[0], plate_rule[2]),
        part * plate_width(slot_wide[1], middle),
        part * plate_width(slot_wide[2], plate_rule[3]),
    ]
    place = 8
    if sounds >= plate_rule[4]:
        place = 6
    if sounds < plate_rule[5]:
        place = 10
    thin = plate_rule[place]
    thick = plate_rule[place + 1]
    halves = [(long[2] - long[0]) / 2, (wide[2] - wide[0]) / 2, (thick - thin) / 2]
    return [long[1], wide[1], (thin + thick) / 2, halves[0], halves[1], halves[2]]


@procedure("Plates of a rank as rows of the wax")
def rank_wax_rows(
    group: float,
    midis: list[float],
    tongues: int,
    bedded: float,
    pitch_of_a: float,
    length_line: list[float],
    length_spreads: list[float],
    width_line: list[float],
    width_spreads: list[float],
    plate_rule: list[float],
) -> list[list[float]]:
    """Give a row of `fillet.WAX_ROW` a plate, a rank being one row of plates side by side.

    Gaps and openings are the usual ones; the first and the last plate have a free side.
    """
    long = sizes_of_rank(midis, pitch_of_a, length_line, length_spreads, [], [])
    wide = sizes_of_rank(midis, pitch_of_a, width_line, width_spreads, [], [])
    rows = []
    for place in range(len(midis)):
        sounds = frequency(midis[place], pitch_of_a)
        row = [group]
        for each_size in plate_by_slot(sounds, long[place], wide[place], tongues, plate_rule):
            row.append(each_size)  # noqa: PERF402
        row.append(FREE_SIDE if place == 0 else USUAL)
        row.append(FREE_SIDE if place == len(midis) - 1 else USUAL)
        row.append(bedded)
        row.append(USUAL)
        rows.append(row)
    return rows


@procedure("Generic length of the tongue of a note")
def tongue_of_note(midi: float, pitch_of_a: float, length_line: list[float]) -> float:
    """Give the middle of a tongue's length in m: the slot less its gap."""
    return generic_size(frequency(midi, pitch_of_a), length_line) - length_line[3]


@procedure("Tongues by class of valve")
def class_ranges(
    midis: list[float],
    tongues: int,
    pitch_of_a: float,
    length_line: list[float],
    class_edges: list[list[float]],
    edge_band: float,
) -> list[list[float]]:
    """Give least, likely and most tongues of each class; its edges move by so many semitones.

    `class_edges` are the shortest and the longest tongue in m, nought where there is none. Each
    edge moves for itself, so the ends of the classes do not add up to the tongues.
    """
    found = []
    for edges in class_edges:
        counts = [0.0, 0.0, 0.0]
        for midi in midis:
            low = tongue_of_note(midi + edge_band, pitch_of_a, length_line)
            mid = tongue_of_note(midi, pitch_of_a, length_line)
            high = tongue_of_note(midi - edge_band, pitch_of_a, length_line)
            if low >= edges[0] and (edges[1] == 0 or high < edges[1]):
                counts[0] += tongues
            if mid >= edges[0] and (edges[1] == 0 or mid < edges[1]):
                counts[1] += tongues
            if high >= edges[0] and (edges[1] == 0 or low < edges[1]):
                counts[2] += tongues
        found.append(counts)
    return found


@procedure("Valves of tongues less those left bare")
def valves_range(all_tongues: float, bare_counts: list[float]) -> list[float]:
    """Give least, likely and most valves; `bare_counts` are those of the class without one."""
    return [
        all_tongues - bare_counts[2],
        all_tongues - bare_counts[1],
        all_tongues - bare_counts[0],
    ]


@procedure("Glue for the valves of an instrument")
def glue_range(
    midis: list[float],
    tongues: int,
    pitch_of_a: float,
    length_line: list[float],
    width_line: list[float],
    bare_below: float,
    edge_band: float,
    walls: list[float],
    rules: list[float],
    glue_rule: list[float],
) -> list[float]:
    """Give least and most glue to take, in kg: land times width times film of each valve.

    `walls` are the wall between slots and the land beside them; `glue_rule` the film, the
    density and what is taken for what stays, each low end first. A tongue that may be left bare
    counts at the high end alone.
    """
    found = [0.0, 0.0]
    for midi in midis:
        f = frequency(midi, pitch_of_a)
        long = generic_size(f, length_line)
        wide = generic_size(f, width_line)
        sizes = valve_sizes(long, wide, walls[0], walls[1], rules)
        if tongue_of_note(midi + edge_band, pitch_of_a, length_line) >= bare_below:
            stays = glue_mass(sizes[5], sizes[3], glue_rule[0], glue_rule[2])
            found[0] += tongues * glue_rule[4] * stays
        if tongue_of_note(midi - edge_band, pitch_of_a, length_line) >= bare_below:
            stays = glue_mass(sizes[5], sizes[3], glue_rule[1], glue_rule[3])
            found[1] += tongues * glue_rule[5] * stays
    return found


@procedure("How many a step is done for")
def step_counts(step_row: list[float], unit_counts: list[float]) -> float:
    """Give the count; `step_row` holds group, place in `PERS`, minutes low and high, one face."""
    counted = unit_counts[math.floor(step_row[1])]
    return counted / 2 if step_row[4] > 0 else counted


@procedure("Hours by group of steps")
def hours_by_group(
    step_rows: list[list[float]],
    group_count: int,
    unit_counts_low: list[float],
    unit_counts_high: list[float],
) -> list[list[float]]:
    """Give the ends of each group in hours, then those of all together."""
    found = [[0.0, 0.0] for _ in range(group_count + 1)]
    for step_row in step_rows:
        low = work_time(step_counts(step_row, unit_counts_low), step_row[2] / 60)
        high = work_time(step_counts(step_row, unit_counts_high), step_row[3] / 60)
        for place in (math.floor(step_row[0]), group_count):
            found[place][0] += low
            found[place][1] += high
    return found


@procedure("Pots by session")
def pots_range(
    plate_count: float, session: float, bed_rates: list[float], wax_ready: float
) -> list[float]:
    """Give least and most pots, then least and most wax for one in kg, losses included.

    `session` is the time at the bench in s, `bed_rates` plates a second, the low end first,
    `wax_ready` all the wax to have ready at its high end, so that no pot runs dry inside a block.
    No pot holds more than that.
    """
    most = -math.floor(1e-9 - plate_count / (bed_rates[0] * session))
    least = -math.floor(1e-9 - plate_count / (bed_rates[1] * session))
    each = [
        min(wax_ready, session_wax(rate, session, wax_ready / plate_count, 0, 0))
        for rate in bed_rates
    ]
    return [max(1, least), max(1, most), each[0], each[1]]


@procedure("What the half width hangs on")
def half_shares(half_widths: list[float], figure_count: int) -> list[float]:
    """Give the share of the squared half width of each figure, then of the sizes of all groups."""
    whole = sum(each * each for each in half_widths)
    if whole == 0:
        return [0.0 for _ in range(figure_count + 1)]
    shares = [half_widths[place] ** 2 / whole for place in range(figure_count)]
    shares.append(max(0, 1 - sum(shares)))
    return shares


@procedure("Wax to melt by what one plate takes")
def melted(plate_count: float, each_ends: list[float], loss_ends: list[list[float]]) -> list[float]:
    """Give both ends in kg; `loss_ends` are those of the straining loss and of the pot loss."""
    return [
        total_for_plates(plate_count, each_ends[end], loss_ends[0][end], loss_ends[1][end])
        for end in range(2)
    ]
