"""Where the method of each task of the practice sheets is taught: a leaf, and words of its text."""

from __future__ import annotations

UNITS, MIX, MELT, HEAT, STICKS, POT = (
    "basis", "mix-a-batch", "weigh-and-melt", "heat-and-time", "sticks-sessions-storage",
    "adjust-a-pot",
)  # fmt: skip
SOFTEN, WHICH, ONE, RAMP, LIMITS, CUT = (
    "estimate-softening", "which-test", "one-valve", "ruler-and-ramp", "limits", "cut-valves",
)  # fmt: skip
NEEDS, AIR = "what-a-job-needs", "room-air"

CROSS = (POT, "Take the differences along the cross")
THE_LEFT_OVER = (MIX, "Give the missing steps")
SHORT = (MIX, "divide what there is of each by its parts")
PLATES = (MIX, "/// formula | total_for_plates")
BATCH = (MIX, "Multiply each share by that mass")
POT_SIZE = (MELT, "/// formula | pot_volume")
STICK = (STICKS, "/// formula | stick_count")
BY_HAND = (POT, "Multiply that mass by the parts of each other material")
RIGHTED = (WHICH, "/// formula | corrected_reading")
SERVICE = (SOFTEN, "Only step creep answers it")
QUADRATURE = (SOFTEN, "squared, added, and the root is taken")
GAP, OPENING = (ONE, "/// formula | rest_gap"), (LIMITS, "/// formula | opening_ratio")
TURNED = (UNITS, "/// unit-factors")
LAID = (NEEDS, "valves with spares, side by side")
TO_BUY = (NEEDS, "kept for no other job; rounded up")
LEVEL = (AIR, "/// formula | level_during")
FIRST = (AIR, "## First: what can light it")
PARTS = (AIR, "/// formula | share_in_air")
EXPLOSIVE = (AIR, "The share of the lower explosive limit is the level divided by that limit")

TAUGHT = {
    "units": {
        "difference": TURNED, "one-unit": TURNED, "heat": TURNED, "film-on-leather": TURNED,
        "after-a-change": TURNED, "heat-log": TURNED, "kilograms-to-ounces": TURNED,
        "mass-to-volume": (UNITS, "From a mass to a volume: divided by the density"),
        "oil-by-volume": (UNITS, "From a volume to a mass: times the density"),
        "parts-to-percent": (UNITS, "A share in percent: the part, divided by all of it"),
        "pounds-and-ounces": (UNITS, "turn the pounds into ounces first"),
        "sticks-in-inches": STICK,
        "recipe-in-pounds": (UNITS, "have the same parts"),
        "recipe-in-kilograms": (UNITS, "have the same parts"),
        "recipe-by-volume": (UNITS, "each volume is turned into its own mass first"),
    },
    "ratios": {
        "share-of-ratio": (MIX, "Divide the parts of each material by that sum"),
        "part-of-batch": BATCH, "to-a-total": BATCH, "wax-to-rosin": SHORT,
        "runs-out-first": SHORT, "what-is-left-over": SHORT, "wax-on-plates": PLATES,
        "plates-with-losses": PLATES, "batch-for-plates": PLATES,
        "batch-for-a-session": (MIX, "plates an hour times hours"),
        "really-weighed": THE_LEFT_OVER, "three-to-a-total": THE_LEFT_OVER,
    },
    "hot-volume": {
        "volume": (MELT, "/// formula | melt_volume"),
        "blend-volume": (MELT, "/// formula | melt_volume"),
        "brim": POT_SIZE, "fits": POT_SIZE, "for-plates": POT_SIZE,
        "largest": (MELT, "For the most wax that a pot takes, go back"),
        "stick": STICK, "sticks": STICK, "batch-to-sticks": STICK,
        "top-up": (HEAT, "/// formula | top_up_mass"),
        "sunk-block": (HEAT, "/// formula | surface_sink"),
        "session": (STICKS, "/// formula | session_wax"),
    },
    "alligation": {
        "lot-to-a-lot": CROSS, "all-of-a-lot": CROSS, "two-lots-to-a-total": CROSS,
        "lots-told-as-ratios": CROSS, "ratios-to-a-total": CROSS,
        "share-of-the-first": (POT, "are its share of the mixture"),
        "share-of-a-mixture": (POT, "add what each brings of the rosin"),
        "thinned-to": (POT, "the rosin stays what it is"),
        "plain-wax-to-old-wax": (POT, "the rosin stays what it is"),
        "old-wax-between-ends": (POT, "The range of the result"),
        "three-lots": (POT, "If all of a third lot has to go in"),
        "as-much-as-there-is": (POT, "If there is only so much of each lot"),
    },
    "adjusting": {
        "what-is-missing": (POT, "Divide the mass of each material by its parts"),
        "pure-addition": BY_HAND, "ratio-to-ratio": BY_HAND, "is-it-enough": BY_HAND,
        "three-in-a-pot": BY_HAND,
        "one-lot-at-hand": (POT, "If the wanted share does not lie between the two, stop"),
        "two-lots-at-hand": (POT, "If the wanted share does not lie between the two, stop"),
        "lot-to-a-pot": (POT, "A pot and one lot go the same way"),
        "both-to-a-total": (POT, "If the pot is to weigh a certain total"),
        "pot-with-a-limit": (POT, "If the pot may hold only so much"),
        "only-what-is-left": (POT, "So much of the pot comes right with it"),
    },
    "softening-band": {
        "half-width": (SOFTEN, "is the half width"),
        "tables-alone": (SOFTEN, "is the half width"),
        "two-bands": (SOFTEN, "Results of two methods do not compare"),
        "words-of-it": (SOFTEN, "only where the odds are four in five or better"),
        "firmer": QUADRATURE, "next-lots": QUADRATURE,
        "what-follows": SERVICE, "drop-and-service": SERVICE,
        "put-right": RIGHTED, "reading-and-band": RIGHTED,
        "from-a-reading": (WHICH, "/// formula | boiling_at_height"),
    },
    "valve-choice": {
        "by-the-ramp": (RAMP, "half the overhang is the bending length"),
        "rigidity": (RAMP, "/// formula | rigidity"),
        "ramp-and-scale": (RAMP, "/// formula | mass_per_area"),
        "lift": (LIMITS, "/// formula | lift"),
        "rest-gap": GAP, "gap-kept": GAP, "opens-enough": OPENING, "which-stock": OPENING,
        "window": (ONE, "round the least up and the most down"),
        "no-valve": (LIMITS, "/// formula | wasted_area"),
        "length-to-cut": (CUT, "/// formula | cut_length"),
        "blank": (CUT, "/// formula | valve_width"),
        "blank-by-table": (CUT, "/// figures | valve-side-overlap"),
    },
    "needs-list": {
        "plates": (NEEDS, "| Plates | ranks, and notes in each |"),
        "valves": (NEEDS, "a tongue each, less those that get none"),
        "wax": (NEEDS, "/// formula | total_for_plates"),
        "wax-less-sticks": (NEEDS, "/// formula | total_for_plates"),
        "pots": (NEEDS, "one pot a session"),
        "strips": LAID, "stock-to-buy": LAID, "to-buy": TO_BUY, "wax-to-buy": TO_BUY,
        "supplies-to-buy": TO_BUY,
        "glue": (NEEDS, "/// formula | glue_mass"),
    },
    "room-air": {
        "grams": (AIR, "its millilitres times its density"),
        "parts-in-a-million": PARTS,
        "closed-room": (AIR, "in a closed room all of it, divided by the room, is the level"),
        "of-the-explosive-limit": EXPLOSIVE, "bigger-rag": EXPLOSIVE,
        "kept-under": (AIR, "is kept under [[figure:explosive-share-kept]]"),
        "half-gone": (AIR, "/// formula | time_to_clear"),
        "cleared": (AIR, "[[figure:air-mixing-worst]] times as long"),
        "what-goes-first": FIRST, "first-things": FIRST,
        "whole-day": (AIR, "/// formula | settled_level"),
        "wet-rag": LEVEL,
        "second-rag": (AIR, "/// formula | level_after"),
        "air-needed": (AIR, "/// formula | air_changes_for"),
    },
}  # fmt: skip
"""By topic and task: the leaf, that of the topic or one it links, and what stands there."""
