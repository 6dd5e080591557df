"""Wax for a session at the pot, and the sticks of a batch."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.melting.thermal import thermal
from formulas.wax import session

TRADE = load(None)


def test_a_session_wants_its_plates_and_its_losses():
    """20 plates an hour for 4 hours at 1 g, a tenth strained off, a twentieth left in the pot."""
    # 80 g / (0.9 * 0.95) = 93.567 g
    made = session.session_wax(20 / 3600, 4 * 3600, 0.001, 0.1, 0.05)
    assert made * 0.9 * 0.95 == pytest.approx(0.08)


def test_the_figure_of_an_hour_is_worked_out_from_its_rows():
    """The derived row is what its own rows give, rounded outward to 0.1 g."""
    shares = [TRADE.span(name, "dimensionless") for name in ("straining-loss", "pot-loss")]
    rate, grams = TRADE.span("plates-an-hour", "dimensionless"), TRADE.span("wax-per-plate", "kg")
    low, high = (
        1000 * session.session_wax(rate[i] / 3600, 3600, grams[i], shares[0][i], shares[1][i])
        for i in (0, 1)
    )
    printed = TRADE.span("session-wax-hour", "g")
    assert printed[0] <= low < printed[0] + 0.1
    assert printed[1] - 0.1 < high <= printed[1]


def test_sticks_of_a_batch():
    """A mould of 100 by 10 by 10 mm holds 10 mL; 400 g of 950 kg/m3 fill 42 and a bit."""
    hollow = session.stick_volume(0.1, 0.01, 0.01)
    assert hollow == pytest.approx(1e-5)
    assert session.stick_mass(hollow, 950) == pytest.approx(0.0095)
    assert session.stick_count(0.4, hollow, 950) == 42  # 400 / 9.5 = 42.1


@given(st.floats(0.01, 5), st.floats(1e-6, 1e-4), st.floats(800, 1100))
def test_what_is_left_over_is_less_than_a_stick(mass, hollow, density):
    """Whole sticks never weigh more than the batch, and one more would."""
    count, each = session.stick_count(mass, hollow, density), session.stick_mass(hollow, density)
    assert count * each <= mass * (1 + 1e-9)
    assert (count + 1) * each > mass * (1 - 1e-9)


def test_the_figure_of_a_stick_is_worked_out_from_its_rows():
    """The mould of the figures and the cold density of beeswax give the printed grams."""
    sides = [TRADE.span(f"stick-mould-{one}", "m")[0] for one in ("length", "width", "depth")]
    low, high = (
        1000 * session.stick_mass(session.stick_volume(*sides), density)
        for density in thermal(TRADE, "beeswax-yellow").density
    )
    assert TRADE.span("stick-wax", "g") == pytest.approx((low, high))
