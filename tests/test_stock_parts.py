"""What the stock leaves show: materials, facts, grades, the shop's stocks, how many strips."""

from __future__ import annotations

import dataclasses

import pytest

from formulas import catalog as catalogs
from formulas.fault import UnknownName
from site_builder.parts import registry
from site_builder.places import DEMO_SHOP

TRADE = catalogs.load(None)
DEMO = catalogs.load(DEMO_SHOP)


def rows(name, argument="", catalog=TRADE):
    """Give the rows of the tables of one placed part as texts."""
    return [
        ["".join(cell.itertext()) for cell in row]
        for one in registry.place(catalog, name, argument)
        for row in one.iter("tr")
    ]


def test_every_material_is_listed_with_the_way_it_is_cut():
    """Each valve material has a row, leather along the backbone."""
    found = rows("valve-materials")
    assert len(found) == len(TRADE.valve_materials) + 1
    assert found[1][:3] == ["Hair sheep, kid or cabretta skin", "leather", "along the backbone"]


def test_facts_of_several_materials_stand_in_their_tables():
    """Each material named has its table, called by its name; a slip is refused."""
    made = registry.place(TRADE, "valve-facts", "polyester-film chamois")
    names = [one.findtext("caption") for one in made]
    assert names == ["Polyester film (PET)", "Chamois, oil tanned"]
    found = rows("valve-facts", "polyester-film chamois")
    assert found[0][0] == "Property"
    assert found[1][:3] == [
        "modulus in pulling", "4500 MPa", "ISO 527; 23 °C, 50 % RH, 1 %/min, both directions"
    ]  # fmt: skip
    with pytest.raises(UnknownName, match="chamois"):
        registry.place(TRADE, "valve-facts", "chamoi")


def test_grades_say_thickness_and_the_ends_only():
    """A grade of leather has a range four times as wide as it is low, from memory."""
    found = {row[0]: row for row in rows("stock-grades")}
    thin = found["Valve leather, thin grade"]
    assert thin[1] == "0.25–0.45 mm"
    low, high = (float(part) for part in thin[3].removesuffix(" mm").split(" to "))
    assert high > 4 * low


def test_the_shops_stocks_show_what_was_measured():
    """A measured stock has its middle, an unmeasured one its ends only."""
    found = {row[0]: row for row in rows("own-stocks", catalog=DEMO)}
    assert found["Kid, thin lot"][2].startswith("31.7 mm, ")
    assert found["Goat, a gift, not tested"][2] == "22.6 to 89.8 mm"
    assert found["Goat, a gift, not tested"][3] == ""
    american = dataclasses.replace(DEMO, shop=dataclasses.replace(DEMO.shop, units="US"))
    inches = {row[0]: row for row in rows("own-stocks", catalog=american)}
    assert inches["Kid, thin lot"][2].startswith("1.248 in, ")  # 31.7 mm over 25.4


def test_a_shop_without_stock_is_told_where_to_write_it():
    """The trade alone has no stock of its own."""
    (said,) = registry.place(TRADE, "own-stocks", "")
    assert "valve_stock.csv" in "".join(said.itertext())


def test_more_strips_narrow_the_stock_and_hardly_the_next_strip():
    """The band of the mean falls toward nought, that of one more strip toward the spread."""
    found = rows("strips-needed")[1:]
    of_stock, of_next = ([float(row[at].split()[0]) for row in found] for at in (1, 2))
    assert of_stock == sorted(of_stock, reverse=True)
    assert of_next == sorted(of_next, reverse=True)
    assert of_stock[-1] < 5 < of_next[-1]
