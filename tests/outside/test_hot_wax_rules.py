"""The margin of a US rule and the published burn times, as their pages print them."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from scipy import constants

from formulas.catalog import load
from formulas.fault import OutOfRange
from formulas.melting.burns import burn_rows, burn_seconds
from formulas.melting.melt import melt
from formulas.melting.pot import Heating
from formulas.melting.windows import below_flash

TRADE = load(None)

# Source cfr-1910-106, 29 CFR 1910.106(a)(19)(iii)-(iv): the margin stands there in both units,
# 30 degrees Fahrenheit and 16.7 of Celsius, for liquids that flash between 37.8 and 93 degC.
PRINTED_MARGIN = (30.0, 16.7)
PRINTED_ENDS = ("37.8", "93")
HALF_A_DIGIT = 0.05  # the page prints tenths of a degree Celsius


def test_the_margin_is_the_same_in_both_units():
    """30 degrees Fahrenheit of difference are 16.7 of Celsius; both rows hold what is printed."""
    fahrenheit, celsius = PRINTED_MARGIN
    in_kelvin = fahrenheit * constants.degree_Fahrenheit
    assert in_kelvin == pytest.approx(celsius, abs=HALF_A_DIGIT)
    for name, printed in (("flash-margin", celsius), ("flash-margin-fahrenheit", fahrenheit)):
        row = TRADE.figures[name]
        assert {row.low, row.high} == {printed}
        assert (row.basis, row.source) == ("published", "cfr-1910-106")


def test_the_margin_says_what_it_is_not():
    """The note names the flash points between which the rule holds, and that it is no margin."""
    note = TRADE.figures["flash-margin"].note
    assert all(f" {end} " in note for end in PRINTED_ENDS)
    assert "not a safe margin for a pot" in note


def test_the_margin_never_lifts_the_ceiling():
    """Beeswax is held under the over-temperature ceiling, though its flash point lies far above."""
    flash = TRADE.known("beeswax-yellow", "flash-point").low
    cap = below_flash(flash, TRADE.span("flash-margin", "delta_degC")[1])
    ceiling = TRADE.span("over-temperature-ceiling", "degC")[1]
    assert cap > ceiling
    found = melt(
        TRADE, {"beeswax-yellow": 1.0}, purpose="make-up", heating=Heating("thermostat")
    ).answer
    governing = next(one for one in found["ceilings"] if one["governs"])
    assert governing["limit"].value <= ceiling


# Source burn-times-1999, a table attributed to a burn institute and read on a mailing list: over
# 5 min at 49 °C, 1.5 to 2 min at 52, about 30 s at 54.4, about 10 s at 57, under 5 s at 60, under
# 3 s at 63, about 1.5 s at 66, 1 s at 68. Of a range the shorter end stands here. Source
# moritz-henriques-1947, as quoted in another work: harm after about 6 h at 44 °C.
PRINTED_TIMES = [
    (44, 6 * 3600), (49, 300), (52, 90), (54.4, 30), (57, 10), (60, 5), (63, 3), (66, 1.5), (68, 1),
]  # fmt: skip


@pytest.mark.parametrize(("heat", "seconds"), PRINTED_TIMES)
def test_a_printed_burn_time_comes_out(heat, seconds):
    """At a row of the table the answer is that row, to the last digit."""
    # To four roundings of a double: the answer may go through a logarithm and back.
    assert burn_seconds(TRADE, heat) == pytest.approx(seconds, rel=1e-15, abs=0)


def test_the_table_holds_those_rows_and_no_other():
    """Nobody added a row that no source prints, and each names its source."""
    assert burn_rows(TRADE) == [pytest.approx(row) for row in PRINTED_TIMES]
    sources = {(one.basis, one.source) for one in TRADE.burns}
    assert sources == {("published", "burn-times-1999"), ("published", "moritz-henriques-1947")}


def test_hotter_burns_faster():
    """Over the whole table the time never grows with the heat, and each row is shorter."""
    fine = [burn_seconds(TRADE, heat) for heat in np.linspace(44, 68, 2401)]
    assert all(one >= after for one, after in itertools.pairwise(fine))
    assert all(one > after for (_, one), (_, after) in itertools.pairwise(PRINTED_TIMES))


def test_between_rows_the_time_is_never_longer_than_a_line_through_them():
    """Neither a straight line nor one in the logarithm gives less time than the answer."""
    heats, times = zip(*PRINTED_TIMES, strict=True)
    for heat in np.linspace(44, 68, 481):
        found = burn_seconds(TRADE, heat)
        assert found <= np.interp(heat, heats, times) * (1 + 1e-9)
        assert found <= np.exp(np.interp(heat, heats, np.log(times))) * (1 + 1e-9)


@pytest.mark.parametrize("heat", [43.9, 68.1, 75.0, 120.0])
def test_outside_the_table_nothing_is_said(heat):
    """Below the first row there is no promise, above the last no number."""
    with pytest.raises(OutOfRange, match=r"44 to 68, the ends of the table \(burns.csv\)"):
        burn_seconds(TRADE, heat)
