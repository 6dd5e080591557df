"""The answer of `stiffness`, as JSON, as text and as refusals."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from formulas import catalog as catalogs
from formulas.fault import OutOfRange, UnitFault, UnknownName
from formulas.valves.stiffness import stiffness
from formulas.valves.typed_readings import Typed, Weighed
from site_builder.commands import main
from site_builder.commands.read_stiffness import strip, weighing
from site_builder.places import DEMO_SHOP


@pytest.fixture(scope="module")
def demo():
    """The demo shop."""
    return catalogs.load(DEMO_SHOP)


def run(*words: str, shop: Path | None = None, code: int = 0) -> str:
    """Run the command and give what it says."""
    ran = CliRunner().invoke(main, ["stiffness", *words, *(["--shop", str(shop)] if shop else [])])
    assert ran.exit_code == code, ran.output
    return " ".join(ran.output.split())


def test_typed_readings_by_hand(demo):
    """One strip of 60 mm, four pieces of 100 by 50 mm that weigh 6 g: worked out on paper."""
    typed = Typed([[0.06, 0.06, 0.06, 0.06]], weighings=[Weighed(0.006, 4, 0.1, 0.05, 0.0001)],
                  thickness=(0.0005, 0.0005))  # fmt: skip
    found = stiffness(demo, "", typed).answer
    assert found["bending_length"].estimate == pytest.approx(0.03)
    assert found["mass_per_area"].estimate == pytest.approx(0.3)
    # 0.3 x 9.80665 x 2.7e-5 = 7.9434e-5 N m; 12 x 7.9434e-5/1.25e-10 = 7.6257e6 Pa
    assert found["rigidity"].estimate == pytest.approx(7.9434e-5, rel=1e-4)
    assert found["modulus"].estimate == pytest.approx(7.6257e6, rel=1e-4)
    for name in ("bending_length", "mass_per_area", "rigidity", "modulus"):
        assert found[name].low < found[name].estimate < found[name].high


def test_json_has_the_keys_by_name():
    """Other programs find bending_length, rigidity, mass_per_area and what to do next."""
    said = CliRunner().invoke(main, ["stiffness", "sheep-55", "--json", "--shop", str(DEMO_SHOP)])
    answer = json.loads(said.stdout)["answer"]
    assert answer["bending_length"]["unit"] == "m"
    assert answer["rigidity"]["unit"] == "N*m"
    assert answer["mass_per_area"]["unit"] == "kg/m**2"
    assert answer["strips"] == 4
    assert answer["readings"] == 16
    assert answer["verdicts"] == []
    assert answer["face_by_curl"] == "smooth"


def test_the_same_in_inches_and_ounces(tmp_path):
    """A US shop types inches and ounces and reads them back."""
    (tmp_path / "shop.toml").write_text('name = "A"\nunits = "US"\nscale = "0.01 oz"\n')
    text = run("--overhang", "2.4in", "--piece", "4x2in=0.17oz", "--pieces", "4", shop=tmp_path)
    assert "Mean overhang 2.400 in" in text
    assert "Bending length 1.200 in" in text
    assert "oz/yd²" in text


def test_a_stock_of_the_table_gives_no_middle(demo):
    """An unmeasured leather has ends only, and the first strip is what comes next."""
    found = stiffness(demo, "goat-gift").answer
    assert found["bending_length"].estimate is None
    assert found["rigidity"].estimate is None
    assert found["modulus"].low == pytest.approx(3e6)
    assert found["modulus"].high == pytest.approx(60e6)
    assert found["next"].startswith("Cut a strip of 25.0 mm")
    assert any("Only a table" in note for note in stiffness(demo, "goat-gift").notes)


def test_a_kitchen_scale_is_told_how_much_to_lay_on_it():
    """Three grams on a scale of whole grams: ten are asked for, as an area of this stock."""
    text = run("--overhang", "60/61/59/60mm", "--piece", "100x50mm=3g", "--pieces", "2",
               "--scale", "1g")  # fmt: skip
    # 3 g on 0.01 m2 is 300 g/m2; 10 g are 333 cm2
    assert "with this scale 333 cm² of the stock, 10.0 g or more, are known to 5 %" in text


@pytest.mark.parametrize(
    ("strips", "said"),
    [
        (["15/16/15/16mm"], "Too limp: It hangs 15.5 mm, less than 20.0 mm"),
        (["190/195/188/192mm"], "Too stiff: It hangs farther than 180.0 mm"),
        (["70/71/50/51mm"], "Curls: The two faces differ by 33 % of their mean, more than 15 %"),
        (["40mm", "60mm", "50mm"], "Strips unlike: The strips spread by 20 %"),
    ],
)
def test_what_speaks_against_a_test_is_said_with_the_other_way(strips, said):
    """Each verdict carries its numbers, and says another way to the number."""
    text = run(*(word for one in strips for word in ("--overhang", one)))
    assert said in text


def test_air_outside_the_standard_is_noted(demo):
    """Readings in a dry room are told to be comparable only among themselves."""
    dry = [
        one if one.stock != "kid-38" else type(one)(**{**vars(one), "humidity": 30.0})
        for one in demo.ramp_tests
    ]
    import dataclasses

    notes = stiffness(dataclasses.replace(demo, ramp_tests=dry), "kid-38").notes
    assert any("30 to 30 % humidity" in note for note in notes)
    assert not any("humidity" in note for note in stiffness(demo, "kid-38").notes)


def test_typed_readings_replace_those_of_the_shop(demo):
    """A stock named with readings typed keeps its thickness and takes the readings."""
    found = stiffness(demo, "kid-38", Typed([[0.1, 0, 0, 0]])).answer
    assert found["bending_length"].estimate == pytest.approx(0.05)
    assert found["mass_per_area"].estimate == pytest.approx(0.235)
    assert found["strips"] == 1


def test_strips_as_they_are_typed():
    """Slashes part the places; one left empty was not read; points and commas both serve."""
    assert strip("52mm") == [0.052]
    assert strip("52/53,5//51 mm") == [0.052, 0.0535, 0.0, 0.051]
    assert weighing("100x50mm=2.1g", 4, 0.0001) == Weighed(0.0021, 4, 0.1, 0.05, 0.0001)
    for text in ("52", "1/2/3/4/5mm", "long", "5//g", ""):
        with pytest.raises(UnitFault, match="accepted"):
            strip(text)
    with pytest.raises(UnitFault, match="100x50mm"):
        weighing("100mm=2.1g", 1, 0.1)


@pytest.mark.parametrize(
    "typed",
    [
        Typed([[3.0]]),
        Typed([[0.06]], angle=20),
        Typed(weighings=[Weighed(0.0004, 1, 0.1, 0.05, 0.001)]),
        Typed(weighings=[Weighed(0.004, 0, 0.1, 0.05, 0.001)]),
        Typed(weighings=[Weighed(0.004, 1, 5.0, 0.05, 0.001)]),
        Typed([[0.06]], thickness=(0.05, 0.05)),
    ],
    ids=["overhang", "angle", "scale", "pieces", "side", "thickness"],
)
def test_what_no_bench_has_is_refused(demo, typed):
    """A reading out of range is refused with what is accepted."""
    with pytest.raises(OutOfRange, match="accepted"):
        stiffness(demo, "", typed)


def test_a_stock_that_is_not_there_is_named_back(demo):
    """A slip of the pen gets the nearest name."""
    with pytest.raises(UnknownName, match="sheep-55"):
        stiffness(demo, "sheep-5")
    assert "name a stock" in run(code=2)


def test_every_stock_of_trade_and_demo_answers(demo):
    """No row of the tables breaks the command."""
    for name in demo.valve_stock:
        stiffness(demo, name)
        run(name, shop=DEMO_SHOP)
