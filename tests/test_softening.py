"""The softening estimate before any test: wide enough to be honest, and laws it keeps."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulas.answer import Band, Unknown
from formulas.catalog import load
from formulas.fault import NotKnown, OutOfRange, UnknownName
from formulas.softening.estimate import cut, estimate, fit_method, model
from formulas.softening.mixture import blend_terms, too_much
from formulas.softening.soften import soften
from formulas.softening.to_test_next import share_to_test
from site_builder.texts import soften as said

TRADE = load(None)
METHODS = ("drop-point", "congealing-point", "ring-and-ball")


def with_rosin(share):
    """Give a blend of beeswax with a share of rosin."""
    return {"beeswax-yellow": 1 - share, "gum-rosin": share}


# The two statements about rosin in beeswax, as the tables hold them. Trade: rosin raises the
# softening point, so at least to the straight line between wax and rosin (common practice).
# Theory: the wax crystals melt earlier, by 3.0 to 4.1 degC at 20 % and 7.7 to 10.7 at 50 %
# (derived: ideal solution, Schroeder and van Laar).
@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize(
    ("share", "shift"), [(0.2, "liquidus-shift-20"), (0.5, "liquidus-shift-50")]
)
def test_the_band_holds_the_trade_s_rise_and_theory_s_fall(method, share, shift):
    """Both opposed statements lie inside the 95 % band, by each method."""
    wax = TRADE.known("beeswax-yellow", "softening-point", method).middle
    rosin = TRADE.known("gum-rosin", "softening-point", method).middle
    straight = (1 - share) * wax + share * rosin
    falls = [wax + end for end in TRADE.span(shift, "delta_degC")]
    found = estimate(TRADE, with_rosin(share), method)
    assert found.low < min(falls)
    assert found.high > straight > wax


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("material", ["beeswax-yellow", "gum-rosin"])
def test_a_blend_of_one_is_that_one(method, material):
    """Alone, a material's band is the range its table holds for the method."""
    found = estimate(TRADE, {material: 1.0}, method)
    held = TRADE.known(material, "softening-point", method)
    assert (found.low, found.high) == pytest.approx((held.low, held.high))


@given(st.floats(0, 1))
def test_a_band_has_its_estimate_in_the_middle(share):
    """The band reaches as far down as up, and never has no width."""
    found = estimate(TRADE, with_rosin(share), "drop-point")
    assert found.estimate - found.low == pytest.approx(found.high - found.estimate)
    assert found.high - found.low > 1


def test_oil_lowers_by_its_slope_and_widens_the_band():
    """Two percent of oil take two degrees off the middle, from memory, and add doubt."""
    dry = estimate(TRADE, with_rosin(0.2), "drop-point")
    oiled = {name: share * 0.98 for name, share in with_rosin(0.2).items()}
    oily = estimate(TRADE, {**oiled, "raw-linseed-oil": 0.02}, "drop-point")
    assert oily.estimate == pytest.approx(dry.estimate - 2)
    assert oily.high - oily.low > dry.high - dry.low


def test_much_oil_is_not_known():
    """Above the limit of the slope there is no estimate, and the way to find out is said."""
    found = estimate(TRADE, {"beeswax-yellow": 0.85, "tallow": 0.15}, "drop-point")
    assert isinstance(found, Unknown)
    assert "test the blend itself" in found.find_out


def test_an_end_that_no_table_holds_is_not_known():
    """Dammar has no softening point by a usable method, so its blends have no estimate."""
    found = estimate(TRADE, {"beeswax-yellow": 0.9, "dammar": 0.1}, "drop-point")
    assert isinstance(found, Unknown)
    assert "Dammar" in found.what


def test_a_laboratory_method_is_not_estimated():
    """Only the methods a shop can make are estimated, and methods never meet."""
    with pytest.raises(UnknownName, match="congealing-point"):
        model(TRADE, "dsc-onset")


@pytest.mark.parametrize(
    ("share", "method"), [(0.2, "drop-point"), (0.5, "drop-point"), (0.6, "ring-and-ball")]
)
def test_ring_and_ball_only_for_the_rosin_rich(share, method):
    """A wax-rich blend is never answered by ring and ball of itself."""
    assert fit_method(TRADE, with_rosin(share)) == method


@pytest.mark.parametrize(
    ("share", "method", "of"),
    [
        (0.2, "ring-and-ball", "wax"),
        (0.5, "ring-and-ball", "wax"),
        (0.6, "ring-and-ball", ""),
        (0.6, "drop-point", "rosin"),
        (0.6, "congealing-point", "rosin"),
        (0.5, "drop-point", ""),
        (0.2, "step-creep", ""),
        (0.6, "step-creep", ""),
    ],
)
def test_no_test_is_proposed_that_the_blend_does_not_stand(share, method, of):
    """Wax leaves the ring and rosin draws a thread: then no test, no reference, no count."""
    found = soften(TRADE, with_rosin(share), method=method, width=3).answer
    assert found["too_much"] == of
    assert (found["next_test"] is None) == bool(of)
    assert ("tests_until" in found) == (not of)


def test_the_terminal_says_by_which_test_to_ask():
    """A wax-rich blend is sent from the ring to the drop."""
    answer = soften(TRADE, with_rosin(0.2), method="ring-and-ball")
    shown = " ".join(" ".join(said.text(answer, TRADE)).split())
    assert (
        "Test next: none by ring and ball softening point: too much wax for this test."
        " Ask by drop point." in shown
    )


@pytest.mark.parametrize(("share", "method"), [(0.51, "ring-and-ball"), (0.49, "drop-point")])
def test_the_test_proposed_is_one_that_its_own_blend_stands(share, method):
    """With the covariance tilted to the far half, the share to test stays in the near one."""
    terms = [1 - share, share]
    resins, far = [0, 1], [0.0, 1.0] if method == "drop-point" else [1.0, 0.0]
    covariance = [[0.01] * 6 for _ in range(6)]
    for place in range(2):
        covariance[place][place] = 0.01 + 900 * far[place]
    chosen, _ = share_to_test(terms, 1, 2, 0.1, covariance, 1.0, 1.0, resins, method)
    free, _ = share_to_test(terms, 1, 2, 0.1, covariance, 1.0, 1.0, resins, "step-creep")
    assert too_much(method, free)
    assert not too_much(method, chosen)


def test_a_target_without_tests_leaves_a_range_open():
    """While the shop has no test there is no crossing, only shares that cannot be ruled out."""
    found = soften(TRADE, with_rosin(0.2), target=66).answer
    assert found["crossings"] == []
    assert found["tests_used"] == 0
    assert found["not_ruled_out"]


@given(st.floats(40, 110))
@settings(max_examples=20)
def test_open_shares_are_those_whose_band_holds_the_target(target):
    """A share is left open exactly where its band holds the target."""
    held = model(TRADE, "drop-point")
    ranges = soften(TRADE, with_rosin(0.2), target=target).answer["not_ruled_out"]
    for step in range(1, 50):
        share = step / 50 - 0.003
        found = cut(TRADE, held, with_rosin(share)).band("drop-point")
        near = min(abs(target - found.low), abs(target - found.high)) < 1e-6
        inside = any(r["low"] <= share <= r["high"] for r in ranges)
        assert near or inside == (found.low <= target <= found.high)


def test_the_next_test_would_shrink_the_band():
    """The proposed test leaves a narrower band than there is now, and no share leaves less."""
    found = soften(TRADE, with_rosin(0.2)).answer["next_test"]
    assert 0 < found["half_width_after"] < found["half_width_now"]


def test_the_terms_are_shares_pairs_skews_and_softener():
    """The order of terms is the one the covariance has: 0.5 x 0.3 x (0.5 - 0.3) = 0.03."""
    pairs, skewed = [0.15, 0.1, 0.06], [0.03, 0.03, 0.006]
    assert blend_terms([0.5, 0.3, 0.2], 0.04) == pytest.approx(
        [0.5, 0.3, 0.2, *pairs, *skewed, 0.04]
    )


def test_the_answer_says_that_the_ratio_does_not_decide():
    """Without tests the first thing said is that the ratio does not decide this."""
    notes = soften(TRADE, with_rosin(0.2)).notes
    assert "the ratio does not decide" in notes[0]
    assert any("not a service temperature" in note for note in notes)


def test_other_methods_stand_beside_and_apart():
    """Each estimated method has its own band, under its own name."""
    found = soften(TRADE, with_rosin(0.2)).answer["by_method"]
    assert set(found) == {*METHODS, "step-creep", "step-creep-zinc"}
    assert all(isinstance(b, Band) and b.method == name for name, b in found.items())


def test_a_target_no_wax_can_meet_is_refused():
    """A target outside anything a wax does is refused, naming what is accepted."""
    with pytest.raises(OutOfRange, match="degC from -20 to 200"):
        soften(TRADE, with_rosin(0.2), target=900)


def test_softeners_alone_have_no_estimate():
    """A blend of nothing but oil is not known."""
    with pytest.raises(NotKnown):
        cut(TRADE, model(TRADE, "drop-point"), {"raw-linseed-oil": 1.0})
