"""What was found of a gasket, in words: the same on terminal, page and paper."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.units import printed
from formulas.valves.typed import lengths_printed

GASKET_ROWS = (
    "Squeezed by",
    "Thick under the plate",
    "Pressure on it",
    "Force on the whole plate",
    "From one to the next",
    "How many",
    "Each would have to pull",
    "One of them pulls",
    "So they squeeze it by",
    "Room",
    "Loud bellows pull with",
)
"""What each text of `gasket_said` is about."""
NEWTONS_OF_A_POUND = 4.4482216152605
PASCALS_OF_A_PSI = 6894.757293168

TOO_THIN = "; a plate this thin rises too far even there: a thicker or a softer gasket"
THEY_REACH = "they pull hard enough at both ends of what is known"
THEY_MAY = "they may: it hangs on the sheet and on the wood, so try it on scrap"
THEY_DO_NOT = "they do not, even at their best: take a softer gasket, or fasteners that pull harder"


@procedure("A force in words, without its unit")
def force_digits(force: float) -> str:
    """Write two figures: what a fastener pulls is known from memory only.

    >>> force_digits(0.214), force_digits(4.24), force_digits(31.4), force_digits(45630)
    ('0.21', '4.2', '31', '46000')
    """
    if force < 0.995:
        return printed(force, 2)
    left = force
    noughts = ""
    while left >= 99.5:
        left = left / 10
        noughts = noughts + "0"
    return printed(left, 1 if left < 9.95 else 0) + noughts


@procedure("A range of forces in words")
def forces_said(low: float, high: float, us: bool) -> str:
    """Write newtons or pounds of force.

    >>> forces_said(4.24, 31, False)
    '4.2 to 31 N'
    """
    each = NEWTONS_OF_A_POUND if us else 1.0
    return force_digits(low / each) + " to " + force_digits(high / each) + (" lbf" if us else " N")


@procedure("A range of pressures on a gasket in words")
def gasket_pressures_said(low: float, high: float, us: bool) -> str:
    """Write megapascals, or pounds to the square inch."""
    each = PASCALS_OF_A_PSI if us else 1e6
    places = 0 if us else 2
    ends = printed(low / each, places) + " to " + printed(high / each, places)
    return ends + (" psi" if us else " MPa")


@procedure("A thickness in words")
def thickness_said(metres: float, us: bool) -> str:
    """Write hundredths of a millimetre, or thousandths of an inch."""
    if us:
        return printed(metres / 0.0254, 3) + " in"
    return printed(1000 * metres, 2) + " mm"


@procedure("A range of thicknesses in words")
def thicknesses_said(low: float, high: float, us: bool) -> str:
    """Write a range as `thickness_said` writes one."""
    least = printed(low / 0.0254, 3) if us else printed(1000 * low, 2)
    return least + " to " + thickness_said(high, us)


@procedure("A range of squeezes in words")
def squeezes_said(low: float, high: float) -> str:
    """Write percent; what would be the whole thickness and more is only said to be so."""
    least = "100" if low >= 1 else printed(100 * low, 1 if low < 0.0995 else 0)
    if high >= 1:
        return least + " % up to flat" if low < 1 else "more than there is"
    return least + " to " + printed(100 * high, 1 if high < 0.0995 else 0) + " %"


@procedure("A range of counts in words")
def counts_said(low: float, high: float) -> str:
    """Write one number where both ends are the same.

    >>> counts_said(4, 4), counts_said(18, 24)
    ('4', '18 to 24')
    """
    least = int(low)
    most = int(high)
    return str(least) if least == most else str(least) + " to " + str(most)


@procedure("Whether fasteners reach the squeeze, in words")
def reach_said(reached_low: float, reached_high: float, least: float) -> str:
    """Say it of both ends of what is known."""
    if reached_low >= least:
        return THEY_REACH
    return THEY_MAY if reached_high >= least else THEY_DO_NOT


@procedure("How a gasket moves the plate, in words")
def raised_said(low: float, high: float, us: bool) -> str:
    """Say what an inside valve gains or loses by it, and an outside one the other way round."""
    if low >= 0:
        return (
            "the plate stands "
            + thicknesses_said(low, high, us)
            + " farther from the wood: the inside valve gains that room, the outside one loses it"
        )
    if high <= 0:
        return (
            "the plate stands "
            + thicknesses_said(-high, -low, us)
            + " nearer to the wood: the inside valve loses that room, the outside one gains it"
        )
    return (
        "the plate may stand "
        + thickness_said(-low, us)
        + " nearer to the wood or "
        + thickness_said(high, us)
        + " farther from it: measure the room over both valves again"
    )


@procedure("What was found of a gasket, in words")
def gasket_said(
    gasket_ranges: Sequence[Sequence[float]], fastener_rule: Sequence[float], us: bool
) -> list[str]:
    """Give the texts of GASKET_ROWS, from the ranges of `gasket_found`."""
    squeeze, left, pressure = gasket_ranges[0], gasket_ranges[1], gasket_ranges[3]
    force, span, apart = gasket_ranges[5], gasket_ranges[6], gasket_ranges[7]
    rows, along, count = gasket_ranges[8], gasket_ranges[9], gasket_ranges[10]
    each, reached, raised = gasket_ranges[11], gasket_ranges[12], gasket_ranges[13]
    loud = gasket_ranges[14]
    spacing = lengths_printed(apart[0], apart[1], us)
    if span[0] < fastener_rule[1]:
        spacing = spacing + TOO_THIN
    return [
        squeezes_said(squeeze[0], squeeze[1]),
        thicknesses_said(left[0], left[1], us),
        gasket_pressures_said(pressure[0], pressure[1], us),
        forces_said(force[0], force[1], us),
        spacing,
        counts_said(count[0], count[1])
        + ": "
        + counts_said(rows[0], rows[1])
        + " rows of "
        + counts_said(along[0], along[1]),
        forces_said(each[0], each[1], us),
        forces_said(fastener_rule[3], fastener_rule[4], us),
        squeezes_said(reached[0], reached[1])
        + ": "
        + reach_said(reached[0], reached[1], squeeze[0]),
        raised_said(raised[0], raised[1], us),
        forces_said(loud[0], loud[1], us),
    ]
