"""Exercises of a whole job: whether a small slot gets a valve, and what is cut for another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.cutting.blanks import steps_up
from formulas.practice.bench import between, ends_of, number, over, percent, short, step
from formulas.practice.exercise import WHOLE_JOB, Choice, Made, Silly, made, number_asked
from formulas.practice.strip_words import WIDTHS_MM, reed_size, slot_drawn
from formulas.valves.blank import valve_sizes
from formulas.valves.no_valve import goes_without, wasted_area
from formulas.valves.settings import settings

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

TONGUES_MM = 0.5  # on which the lengths of small tongues are written
WITHOUT = ("no valve", "a valve")
ON_THE_STEP = 0.02  # of a step of the knife: so near it nobody knows which one counts


def no_valve(catalog: Catalog, draw: Draw) -> Made:
    """Ask whether a small slot goes without a valve."""
    note = draw.ranged("valve-choice-high-note")
    long = reed_size(catalog, draw, "length", note, TONGUES_MM)
    wide = reed_size(catalog, draw, "width", note, WIDTHS_MM)
    up, clear = draw.ranged("valve-choice-tongue-height"), draw.ranged("valve-choice-clearance")
    taken = draw.ranged("valve-choice-taken")
    rule = settings(catalog).no_valve
    area = 1e6 * wasted_area(long / 1000, wide / 1000, up / 1000, clear / 1000)
    for value, limit in (
        (long, 1000 * rule[0]), (note, rule[1]), (area, 1e6 * rule[2]), (taken, 100 * rule[3]),
    ):  # fmt: skip
        over(value, limit)
    spoke = goes_without(long / 1000, note, area / 1e6, taken / 100, False, rule)
    right = WITHOUT[sum(spoke) < 3]
    said = ["yes" if one else "no" for one in spoke]
    most = f"{1e6 * rule[2]:g}"
    return made(
        (
            f"A tongue is {long:g} × {wide:g} mm and sounds at {note:g} Hz. Its tip stands"
            f" {up:g} mm over the plate, and {clear:g} mm is open at each side.",
            f"The lightest stock would take {taken:g} % of the pressure there. The plate had"
            " valves.",
            f"The book leaves a valve off where three things speak for it: the tongue is shorter"
            f" than {1000 * rule[0]:g} mm or sounds above {rule[1]:g} Hz; less than {most} mm² is"
            f" open round it at rest; the lightest stock takes more than {percent(rule[3]):g} %.",
            "Open at rest is 0.8 L h + W h + (2 L + W) x, where L and W are the length and the"
            " width"
            " of the tongue, h is how high its tip stands and x what is open at each side.",
            "How much is open at rest, and what does the slot get?",
        ),
        (
            number("Open at rest", area, "mm**2", 2, WHOLE_JOB),
            Choice("The slot gets", right, WITHOUT),
        ),
        (
            f"{long:g} mm and {note:g} Hz, small or high: {said[0]}.",
            step(
                "Open",
                f"0.8 × {long:g} × {up:g} + {wide:g} × {up:g}"
                f" + (2 × {long:g} + {wide:g}) × {clear:g}",
                area, "mm**2",
            ),
            f"{short(area)} mm² against {most} mm², tight: {said[1]}.",
            f"{taken:g} % against {percent(rule[3]):g} %, choked: {said[2]}.",
            f"So the slot gets: {right}.",
        ),
        {
            "variant": "no-valve", "tongue_mm": [long, wide], "height_mm": up,
            "clearance_mm": clear, "note_hz": note, "taken_percent": taken,
            "rule": [1000 * rule[0], rule[1], 1e6 * rule[2], 100 * rule[3]],
        },
    )  # fmt: skip


def blank_by_table(catalog: Catalog, draw: Draw) -> Made:
    """Ask for the strip to cut, its overlaps by straight line between the ends of a table."""
    _, slot, wide = slot_drawn(catalog, draw)
    rules = settings(catalog).rules
    mm = [1000 * one for one in rules]
    steps = [ends_of(catalog, f"cut-{of}-step", "mm")[0] for of in ("width", "length")]
    side, tip, root, land, free, across, cut = (
        1000 * one for one in valve_sizes(slot / 1000, wide / 1000, 0.0, 0.0, rules)
    )
    for size, by in ((across, steps[0]), (cut, steps[1])):
        rest = size / by - int(size / by)
        if not ON_THE_STEP < rest < 1 - ON_THE_STEP:
            raise Silly
    found = [
        by * steps_up(size / 1000, by / 1000) for size, by in ((across, steps[0]), (cut, steps[1]))
    ]
    share = (slot - mm[7]) / (mm[8] - mm[7])
    between(share, 0.02, 0.98)
    ends = [f"{mm[i]:g} to {mm[i + 1]:g} mm" for i in (0, 2, 4)]
    return made(
        (
            f"A slot is {slot:g} × {wide:g} mm, and there is room at all sides.",
            f"From a slot of {mm[7]:g} mm to one of {mm[8]:g} mm the overlap at each side grows"
            f" from {ends[0]}, that at the tip from {ends[1]}, the glue land from {ends[2]}, all by"
            " straight line.",
            f"The edge of the glue stays {mm[6]:g} mm clear of the slot.",
            f"The knife goes by {steps[0]:g} mm in width and {steps[1]:g} mm in length, always up.",
            "What is cut?",
        ),
        (
            number_asked("Width to cut", found[0], "mm", 1),
            number_asked("Length to cut", found[1], "mm", 0),
        ),
        (
            step("Way along the table", f"({slot:g} − {mm[7]:g}) / ({mm[8]:g} − {mm[7]:g})", share),
            *(
                step(name, f"{mm[i]:g} + ({mm[i + 1]:g} − {mm[i]:g}) × {short(share)}", value, "mm")
                for name, i, value in (("Side", 0, side), ("Tip", 2, tip), ("Land", 4, land))
            ),
            step("Width", f"{wide:g} + 2 × {short(side)}", across, "mm"),
            step("Free length", f"{root:g} + {slot:g} + {short(tip)}", free, "mm"),
            step("Length", f"{short(land)} + {short(free)}", cut, "mm"),
            f"Up to the steps of the knife: {found[0]:g} × {found[1]:g} mm.",
        ),
        {
            "variant": "blank-by-table", "slot_mm": [slot, wide], "rules_mm": mm[:9],
            "steps_mm": steps,
        },
    )  # fmt: skip
