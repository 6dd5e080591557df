"""Label elements against what the EU's regulation prints of the UN GHS."""

from __future__ import annotations

import math

import pytest

from formulas.books.hazard_class import classify
from formulas.catalog import load
from formulas.wax.batch import shares_of
from site_builder.labels.sheets import sheet, sizes

TRADE = load(None)

# Source clp-1272-2008, Annex I, Table 3.4.7 (state of September 2025), column skin
# sensitisation: typed as printed.
SIGNAL = "Warning"
STATEMENT = "H317: May cause an allergic skin reaction"
PRECAUTIONS = {"P261", "P272", "P280", "P302+P352", "P333+P313", "P321", "P362+P364", "P501"}

# The same, Annex II, 2.8 and 2.10: typed as printed.
EUH208 = "Contains (name of sensitising substance). May produce an allergic reaction"
EUH210 = "Safety data sheet available on request"


def shares(rosin: float) -> dict[str, float]:
    """Give a blend of beeswax with a share of gum rosin."""
    return {"beeswax-yellow": 1 - rosin, "gum-rosin": rosin}


def test_the_statement_is_the_printed_one():
    """Code, words and signal word are those of the table."""
    found = classify(TRADE, shares(0.2))
    assert [f"{one.code}: {one.text.rstrip('.')}" for one in found.hazards] == [STATEMENT]
    assert found.signal == SIGNAL


def test_the_precautions_are_the_printed_ones():
    """Those on the label and those left off are together the eight of the table."""
    found = classify(TRADE, shares(0.2))
    codes = [one.code for one in (*found.precautions, *found.left_out)]
    assert sorted(codes) == sorted(PRECAUTIONS)


def test_a_label_carries_six_precautions_at_most():
    """Article 28(3) prints "not more than six"; what is left out says why."""
    found = classify(TRADE, shares(0.2))
    assert len(found.precautions) == 6
    assert all(one.because for one in found.left_out)


def test_one_precaution_addresses_disposal():
    """Article 28(2): one statement on disposal stands on a label for the general public."""
    found = classify(TRADE, shares(0.2))
    assert "P501" in {one.code for one in found.precautions}


@pytest.mark.parametrize(("code", "printed"), [("EUH208", EUH208), ("EUH210", EUH210)])
def test_supplemental_statements_are_the_printed_ones(code, printed):
    """The table holds the words of the annex, with a full stop behind."""
    assert TRADE.statements[code].text == f"{printed}."


# Annex II, 2.10 prints "≥ 0,1 % of a substance classified as skin sensitiser category 1, 1B".
# The share of 1 % is not in a text that was read (basis memory in figures.csv): what is tested
# of it is that its own share belongs to it. 3.4.3.3.1 prints "at or above".
@pytest.mark.parametrize(
    ("rosin", "codes"),
    [
        (0.000999, []),
        (0.001, ["EUH208", "EUH210"]),
        (0.009999, ["EUH208", "EUH210"]),
        (0.01, ["H317"]),
        (1.0, ["H317"]),
    ],
)
def test_shares_at_the_limits_belong_to_the_stricter_side(rosin, codes):
    """A share equal to a limit carries what the limit brings."""
    found = classify(TRADE, {"gum-rosin": 1.0} if rosin == 1 else shares(rosin))
    assert [one.code for one in (*found.hazards, *found.supplements)] == codes


def test_parts_of_a_hundred_meet_the_limit():
    """One part of rosin in a hundred is one percent, whatever a float makes of it."""
    for tenths in range(1, 500):
        parts = {"beeswax-yellow": 99 * (tenths / 10), "gum-rosin": tenths / 10}
        assert classify(TRADE, shares_of(parts)).hazards


def test_the_name_of_the_sensitiser_is_filled_in():
    """EUH208 names the rosin in place of its brackets."""
    found = classify(TRADE, shares(0.005))
    (text,) = [one.text for one in found.supplements if one.code == "EUH208"]
    assert text == "Contains gum rosin. May produce an allergic reaction."


# Annex I, Table 1.3, packages up to 3 litres: pictograms "not smaller than 10 x 10", "if
# possible, at least 16 x 16" mm; 1.2.1.3: at least one fifteenth of the label, 1 cm2 at least.
# The sizes are of the square's sides. Tolerance: a hundredth of a millimetre.
@pytest.mark.parametrize("name", list(TRADE.label_stock))
def test_pictograms_are_as_large_as_the_table_asks(name):
    """The square's side is 10 mm or more, and covers a fifteenth of all but a large label."""
    width, height = sheet(TRADE, name).label
    side = sizes(TRADE).pictogram(width, height) / math.sqrt(2)
    assert side >= 10 - 0.01
    assert side**2 >= min(width * height / 15, 16**2) - 0.01
