"""What a stock is to a valve: what was measured outranks a table, and what is missing is said."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from formulas import catalog as catalogs
from formulas.answer import Unknown
from formulas.catalog import Catalog
from formulas.fault import Faults
from formulas.valve_entries import CurlTest, RampTest, StockWeighing, ValveStock
from formulas.valves import stock as subject
from formulas.valves.curl import face_by_curl
from formulas.valves.one_valve import STOCK
from formulas.valves.strip import rigidity, rigidity_of
from site_builder.places import DEMO_SHOP

BLANK: dict[str, Any] = {
    "material": "hair-sheep", "layers": (), "bond": "", "thickness_low": None,
    "thickness_high": None, "thickness_unit": "", "gauge": "", "mass_low": None, "mass_high": None,
    "mass_unit": "", "length": None, "width": None, "unit": "", "pieces": None, "soft_face": "",
    "basis": "measured", "source": "", "where": "", "note": "",
}  # fmt: skip
THICK = {"thickness_low": 0.5, "thickness_high": 0.6, "thickness_unit": "mm"}


@pytest.fixture(scope="module")
def trade() -> Catalog:
    """The trade's tables alone."""
    return catalogs.load(None)


def row(name: str = "mine", **changed: Any) -> ValveStock:
    """Make a row of valve_stock.csv."""
    return ValveStock(stock=name, name=name, **{**BLANK, **changed})


def overhang(stock: str, value: float, strip: str = "1", **changed: Any) -> RampTest:
    """Make a row of ramp_tests.csv, in millimetres."""
    given = {"direction": "along", "down": "smooth", "end": "a", "angle": None, "left_out": "",
             "humidity": 50.0, "unit": "mm", **changed}  # fmt: skip
    return RampTest(
        stock=stock, date="2026-01-02", strip=strip, overhang=value, air_temperature=None,
        temperature_unit="", tested_by="", basis="measured", note="", **given,
    )  # fmt: skip


def weighing(stock: str, grams: float, pieces: int = 4) -> StockWeighing:
    """Make a row of stock_weighings.csv: pieces of 100 by 50 mm on a scale of 0.1 g."""
    return StockWeighing(
        stock, "2026-01-02", 100, 50, "mm", pieces, grams, "g", 0.1, "measured", ""
    )


def curl(stock: str, rise: float, toward: str, humidity: float | None = 50.0) -> CurlTest:
    """Make a row of curl_tests.csv over a chord of 80 mm."""
    return CurlTest(stock, "2026-01-02", 80, rise, "mm", toward, humidity, "measured", "")


def one(trade: Catalog, *rows: ValveStock, **tables: Any) -> subject.Stock:
    """Give the first of these rows as a stock, with these readings."""
    known = {**trade.valve_stock, **{each.stock: each for each in rows}}
    face = tables.pop("face", "smooth")
    shop = dataclasses.replace(trade.shop, face_to_plate=face)
    catalog = dataclasses.replace(trade, valve_stock=known, shop=shop, **tables)
    found = subject.stock_or_unknown(catalog, rows[0].stock)
    assert isinstance(found, subject.Stock), found
    return found


def test_ramp_and_scale_outrank_the_table(trade):
    """A stock with both readings has their numbers and may be chosen, whatever its thickness."""
    tests = [overhang("mine", 80), overhang("mine", 84, "2")]
    found = one(trade, row(**THICK), ramp_tests=tests, stock_weighings=[weighing("mine", 7.0)])
    assert found.measured and found.how == "ramp"  # noqa: PT018
    assert found.bending_length[1] == pytest.approx(0.041)
    assert found.mass[1] == pytest.approx(0.35)
    assert found.mass[0] < 0.35 < found.mass[2]


def test_the_numbers_stand_in_the_order_that_valves_ask_for(trade):
    """The first six are those of `one_valve.STOCK`; then ends of mass and length, two flags."""
    found = one(
        trade, row(**THICK), ramp_tests=[overhang("mine", 80)],
        stock_weighings=[weighing("mine", 7.0)], curl_tests=[curl("mine", 0.8, "soft")],
    )  # fmt: skip
    named = dict(zip(STOCK, found.numbers, strict=False))
    assert named["mass"] == found.mass[1]
    assert named["bending_length"] == found.bending_length[1]
    assert named["thickness"] == pytest.approx(0.55e-3)
    assert named["curvature"] == pytest.approx(1.0)  # 8 x 0.8/80^2 per mm, away from the plate
    assert named["film"] == 0
    ends = [found.mass[0], found.mass[2], found.bending_length[0], found.bending_length[2]]
    assert found.numbers[6:] == [*ends, 1, 1]


def test_a_table_alone_gives_ends_and_no_choice(trade):
    """Leather of a thickness has the ends of its modulus and density, and is not measured."""
    found = one(trade, row(**THICK))
    assert not found.measured
    # E t^2/(12 rho g): 3 MPa, 0.5 mm, 800 kg/m3 and 60 MPa, 0.6 mm, 450 kg/m3; cube roots
    low = (3e6 * 0.5e-3**2 / (12 * 800 * 9.80665)) ** (1 / 3)
    high = (60e6 * 0.6e-3**2 / (12 * 450 * 9.80665)) ** (1 / 3)
    assert found.bending_length[0] == pytest.approx(low)
    assert found.bending_length[2] == pytest.approx(high)


def test_polyester_film_bends_as_its_modulus_says(trade):
    """Film of 0.1 mm and 4500 MPa has the rigidity E t^3/12 = 375 uN m."""
    found = next(each for each in subject.stocks(trade) if each.id == "film-100")
    stiff = rigidity(found.mass[1], found.bending_length[1])
    assert stiff == pytest.approx(rigidity_of(4.5e9, 1e-4))
    assert not found.measured


def test_nothing_known_is_said_with_the_way_to_find_out(trade):
    """A stock without thickness, mass and ramp is none of the stocks, and says what to do."""
    catalog = dataclasses.replace(trade, valve_stock={"bare": row("bare")})
    assert subject.stocks(catalog) == []
    gone = subject.missing(catalog)["bare"]
    assert isinstance(gone, Unknown)
    assert "mass per area and bending length" in gone.what
    assert "ramp_tests.csv" in gone.find_out
    assert "stock_weighings.csv" in gone.find_out


def test_a_reading_left_out_does_not_count(trade):
    """What was left out with a reason moves nothing."""
    tests = [overhang("mine", 80), overhang("mine", 40, "2", left_out="torn")]
    found = one(trade, row(), ramp_tests=tests, stock_weighings=[weighing("mine", 7.0)])
    assert found.bending_length[1] == pytest.approx(0.040)


@pytest.mark.parametrize(
    "tests",
    [[overhang("mine", 12)], [overhang("mine", 90), overhang("mine", 60, down="soft")]],
    ids=["limp", "curls"],
)
def test_a_test_that_does_not_count_does_not_let_it_be_chosen(trade, tests):
    """Too limp to be read, or hanging by its curl: the stock stays unmeasured."""
    found = one(trade, row(), ramp_tests=tests, stock_weighings=[weighing("mine", 7.0)])
    assert not found.measured


def test_a_ramp_of_another_angle_tells_the_same_stock(trade):
    """An overhang on a steeper ramp counts as the shorter one it would be on the usual ramp."""
    usual = one(trade, row(), ramp_tests=[overhang("mine", 80)],
                stock_weighings=[weighing("mine", 7.0)])  # fmt: skip
    steep = one(trade, row(), ramp_tests=[overhang("mine", 80, angle=45)],
                stock_weighings=[weighing("mine", 7.0)])  # fmt: skip
    assert steep.bending_length[1] < usual.bending_length[1]


def test_across_comes_from_its_own_strips(trade):
    """With strips across, the rigidity that way is the cube of the ratio."""
    tests = [overhang("mine", 80), overhang("mine", 64, "x", direction="across")]
    found = one(trade, row(), ramp_tests=tests, stock_weighings=[weighing("mine", 7.0)])
    assert found.across == pytest.approx(0.8**3)


def test_curl_counts_by_the_face_on_the_plate(trade):
    """A curl toward the smooth face holds a smooth-down valve shut and a soft-down one open."""
    readings = {"ramp_tests": [overhang("mine", 80)], "stock_weighings": [weighing("mine", 7.0)]}
    tests = [curl("mine", 0.8, "smooth"), curl("mine", 3.0, "soft", 20)]
    smooth = one(trade, row(), curl_tests=tests, **readings)
    soft = one(trade, row(), curl_tests=tests, face="soft", **readings)
    marked = one(trade, row(soft_face="yes"), curl_tests=tests, **readings)
    assert smooth.curvature == pytest.approx(-1.0)  # the test in dry air is not the usual one
    assert soft.curvature == marked.curvature == pytest.approx(1.0)
    assert (smooth.face, soft.face, marked.face) == ("smooth", "soft", "soft")


def test_the_face_is_a_setting_of_the_shop(tmp_path):
    """The setting is read from shop.toml; another word is a fault that names both faces."""
    (tmp_path / "shop.toml").write_text('name = "A"\nface_to_plate = "soft"\n')
    assert catalogs.load(tmp_path).shop.face_to_plate == "soft"
    (tmp_path / "shop.toml").write_text('name = "A"\nface_to_plate = "rough"\n')
    with pytest.raises(Faults, match="'smooth' or 'soft'"):
        catalogs.load(tmp_path)


def test_the_face_that_dry_air_curls_toward():
    """Two airs decide; one air does not; no change does not."""
    dry, damp = curl("a", 1.4, "smooth", 35), curl("a", 0.6, "soft", 75)
    assert face_by_curl([damp, dry]) == "smooth"
    assert face_by_curl([curl("a", 1.4, "soft", 35), damp]) == "soft"
    assert face_by_curl([curl("a", 0.2, "smooth", 35), curl("a", 0.9, "smooth", 75)]) == "soft"
    assert face_by_curl([dry]) == face_by_curl([dry, dry]) == ""


def laminate(trade: Catalog, bond: str, **tables: Any) -> subject.Stock:
    """Give two equal layers of one stock, 0.1 mm each, 82 mm of overhang."""
    sheet = {"material": "polyester-film", "thickness_low": 100, "thickness_high": 100,
             "thickness_unit": "um"}  # fmt: skip
    stack = row("pair", material="", layers=("sheet", "sheet"), bond=bond)
    tests = [overhang("sheet", 82)]
    return one(trade, stack, row("sheet", **sheet), ramp_tests=tests,
               stock_weighings=[weighing("sheet", 2.8)], **tables)  # fmt: skip


def test_two_equal_layers_bonded_and_loose(trade):
    """Bonded they are eight times as stiff as one and twice as heavy, loose twice and twice."""
    bonded, loose = laminate(trade, "bonded"), laminate(trade, "loose")
    assert bonded.bending_length[1] == pytest.approx(0.041 * 4 ** (1 / 3))
    assert loose.bending_length[1] == pytest.approx(0.041)
    assert bonded.mass[1] == pytest.approx(0.28)
    assert loose.measured  # of measured layers nothing but slip is assumed
    assert not bonded.measured  # the glue was not on the ramp


def test_a_bare_thick_film_is_a_topper_only(trade):
    """Thin film lies on a plate by itself, thick film not, unless its face is soft."""
    every = {each.id: each for each in subject.stocks(trade)}
    assert every["film-50"].alone
    assert not every["film-190"].alone
    film = {"material": "polyester-film", "thickness_low": 0.19, "thickness_high": 0.19,
            "thickness_unit": "mm", "soft_face": "yes"}  # fmt: skip
    assert one(trade, row(**film)).alone


def test_ounces_mils_and_leather_ounces(trade):
    """US units give the same stock as metric ones."""
    metric = one(trade, row(thickness_low=0.5953125, thickness_high=0.5953125,
                            thickness_unit="mm", mass_low=339.057, mass_high=339.057,
                            mass_unit="g/m**2"))  # fmt: skip
    american = one(trade, row(thickness_low=1.5, thickness_high=1.5,
                              thickness_unit="leather_ounce", mass_low=10, mass_high=10,
                              mass_unit="oz/yd**2"))  # fmt: skip
    # 1.5/64 in = 0.5953125 mm; 10 oz/yd2 = 283.495 g/0.83612736 m2 = 339.057 g/m2
    assert american.mass[1] == pytest.approx(metric.mass[1], rel=1e-5)
    assert american.bending_length == pytest.approx(metric.bending_length, rel=1e-5)


def test_the_demo_shop_is_as_a_bench_has_it():
    """Thin, middle and thick leather in their order, all measured; the gift is not."""
    found = {each.id: each for each in subject.stocks(catalogs.load(DEMO_SHOP))}
    thin, middle, thick = (
        found[name].bending_length[1] for name in ("kid-38", "sheep-55", "sheep-88")
    )
    assert 0.028 < thin < 0.034 < 0.038 < middle < 0.048 < 0.050 < thick < 0.065
    assert all(found[name].measured for name in ("kid-38", "sheep-55", "sheep-88", "suede-pet"))
    assert not found["goat-gift"].measured
