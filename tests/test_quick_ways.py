"""What is remembered, sorted once or asked once to be quick gives what the plain way gives."""

from __future__ import annotations

import csv
import dataclasses
import itertools
import random
from collections.abc import Iterator
from typing import Any

import pint
import pytest

from formulas.catalog import TABLES, Catalog, load, opened
from formulas.cutting import polygon
from formulas.cutting.cut import cut
from formulas.cutting.polygon import Edges, inside
from formulas.units import convert, registry
from formulas.valves.at_hand import at_hand, considered
from formulas.valves.choosing import Choosing, choice_alone, choose
from formulas.valves.one_slot import measured_slot
from formulas.valves.rank import Size, Slot, rank_slots, ranks_of
from formulas.valves.valves import chosen
from site_builder.places import DEMO_SHOP


@pytest.fixture(scope="module")
def demo() -> Catalog:
    """Give the demo shop."""
    return load(DEMO_SHOP)


def pairs_of(catalog: Catalog) -> Iterator[tuple[Slot, Slot]]:
    """Give every slot of the shop's instrument with its partner."""
    instrument = catalog.shop.instrument
    for rank in ranks_of(catalog, instrument):
        slots = rank_slots(catalog, instrument, rank.rank)
        for inside_slot, outside_slot in zip(slots[::2], slots[1::2], strict=True):
            yield inside_slot, outside_slot
            yield outside_slot, inside_slot


def measured_by_chance(catalog: Catalog, chance: random.Random) -> Catalog:
    """Give the shop with other plates measured: as many as chance has it, some of them alike."""
    instrument = catalog.shop.instrument
    one = catalog.plates[0]
    plates = []
    for rank in ranks_of(catalog, instrument):
        slots = rank_slots(catalog, instrument, rank.rank)[::2]
        for slot in chance.sample(slots, chance.randint(0, 12)):
            size = {
                "slot_length": round(1000 * slot.slot_length.estimate * chance.uniform(0.9, 1.1)),
                "slot_width": round(1000 * slot.slot_width.estimate * chance.uniform(0.9, 1.1), 1),
                "wall": chance.choice([None, 2, 2.5]),
                "edge_land": chance.choice([None, 3]),
                "cell_depth": chance.choice([None, 6, 12]),
            }
            name = f"{rank.rank} {slot.midi}"
            place = {"rank": rank.rank, "plate": name, "sounds": slot.sounds, "unit": "mm"}
            plates.append(dataclasses.replace(one, instrument=instrument, **place, **size))
    return dataclasses.replace(catalog, plates=plates, slots=[])


@pytest.mark.parametrize("seed", [None, 1, 2, 3])
def test_a_choice_remembered_is_the_choice_made_anew(demo: Catalog, seed: int | None) -> None:
    """For the demo's plates and for plates measured at random, slot by slot."""
    catalog = measured_by_chance(demo, random.Random(seed)) if seed else demo
    stocks = at_hand(catalog, considered(catalog))
    anew = [Choosing(catalog, *pair, stocks).alone() for pair in pairs_of(catalog)]
    assert [choice_alone(catalog, *pair, stocks) for pair in pairs_of(catalog)] == anew
    listed = [(one.length_m, one.width_m, one.free_m, one.kind) for one in
              chosen(catalog, catalog.shop.instrument)]  # fmt: skip
    assert listed == [(sizes[6], sizes[5], sizes[4], kind) for sizes, kind, *_ in anew]


def changed(slot: Slot) -> list[Slot]:
    """Give the slot, and slots that differ from it in one thing each."""
    changes: list[dict[str, Any]] = [
        {},
        {"slot_length": wider(slot.slot_length, 1.5, 1)},
        {"slot_width": wider(slot.slot_width, 1.3, 1)},
        {"slot_length": wider(slot.slot_length, 1, 1.4)},
        {"slot_width": wider(slot.slot_width, 1, 1.4)},
        {"frequency": slot.frequency * 8},
        {"hanging": -slot.hanging - 0.5},
        {"wall": 0.0012},
        {"edge_land": 0.0012},
        {"outside_space": 0.0011},
        {"valved": "no"},
        {"measured": False},
    ]
    return [dataclasses.replace(slot, **change) for change in changes]


def wider(size: Size, times: float, band: float) -> Size:
    """Give a size that many times as large, its band wider as well."""
    estimate = size.estimate * times
    return Size(estimate / band, estimate, estimate * band)


@pytest.mark.parametrize("length", [0.0115, 0.031, 0.05])
def test_slots_that_differ_in_one_thing_are_not_taken_for_alike(
    demo: Catalog, length: float
) -> None:
    """Asked one after the other of one shop, each gets its own answer, its ends with it."""
    known = measured_slot(demo, length, length / 9, "A3", wall=0.003, edge=0.003)
    first = dataclasses.replace(known, measured=False)
    stocks = at_hand(demo, considered(demo))
    plain = changed(first)
    partners = [first, dataclasses.replace(first, frequency=2 * first.frequency)]
    for slot, partner in itertools.product(plain, partners):
        anew = Choosing(demo, slot, partner, stocks).choice()
        found = choose(demo, slot, partner, stocks)
        assert found == anew
        assert found.at_ends == anew.at_ends
        assert found.runners_up == anew.runners_up
        alone = Choosing(demo, slot, partner, stocks).alone()
        assert choice_alone(demo, slot, partner, stocks) == alone
    answers = {str((one.sizes, one.kind, one.found)) for one in
               (choose(demo, slot, first, stocks) for slot in plain)}  # fmt: skip
    assert len(answers) > 4  # the changes do change something


def plain_spans(self: Edges, low: float, high: float) -> list[polygon.Span]:
    """Give the spans as they are defined, ring by ring and edge by edge."""
    rings: dict[int, list[polygon.Edge]] = {}
    for _, _, number, a, b in self.edges:
        rings.setdefault(number, []).append((a, b))
    blocked = []
    for a, b in itertools.chain(*rings.values()):
        if min(a[1], b[1]) < high and max(a[1], b[1]) > low:
            ends = [crossing(a, b, min(max(y, low), high)) if a[1] != b[1] else x
                    for x, y in (a, b)]  # fmt: skip
            blocked.append((min(ends), max(ends)))
    found = []
    reached = min(blocked)[0] if blocked else 0.0
    for left, right in sorted(blocked):
        if left > reached:
            x, y = (reached + left) / 2, (low + high) / 2
            over = {
                number: sum((a[1] > y) != (b[1] > y) and x < crossing(a, b, y) for a, b in ring) % 2
                for number, ring in rings.items()
            }
            if over.pop(0) and not any(over.values()):
                found.append((reached, left))
        reached = max(reached, right)
    return found


def crossing(a: polygon.Point, b: polygon.Point, y: float) -> float:
    """Give x of an edge at a height."""
    if y in (a[1], b[1]):
        return a[0] if y == a[1] else b[0]
    return a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1])


def plans_of(catalog: Catalog) -> list[Any]:
    """Give every strip at its place, with what is missing."""
    return [
        (plan.stock, plan.missing, [(one.name, one.cut_into, one.strips) for one in plan.sheets])
        for plan in cut(catalog, ranks=["low"]).answer["plans"]
    ]


def test_edges_sorted_once_give_the_same_plans(
    demo: Catalog, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A rank lies on the skins strip for strip as with edges gone through in turn."""
    quick = plans_of(demo)
    assert sum(len(sheet[2]) for plan in quick for sheet in plan[2]) > 50
    asked = []
    monkeypatch.setattr(Edges, "spans", lambda *given: asked.append(given) or plain_spans(*given))
    assert plans_of(demo) == quick
    assert len(asked) > 1000


def test_a_point_is_inside_as_an_odd_number_of_edges_says(demo: Catalog) -> None:
    """What a band of no height lets through is what lies inside the outline."""
    chance = random.Random(9)
    ring = [(0.0, 0.0), (90.0, 10.0), (70.0, 80.0), (40.0, 30.0), (10.0, 90.0)]
    for _ in range(300):
        x, y = chance.uniform(-5, 95), chance.uniform(1, 89)
        spans = Edges(ring, []).spans(y - 1e-9, y + 1e-9)
        assert any(left < x < right for left, right in spans) == inside(ring, (x, y))


def units_of_the_tables() -> set[str]:
    """Give every unit that stands in a table of the trade."""
    found: set[str] = set()
    for path in TABLES.glob("*.csv"):
        for row in csv.DictReader(path.read_text("utf-8").splitlines()):
            found |= {text for name, text in row.items() if name and "unit" in name and text}
    return found


def test_a_conversion_is_the_registry_s_own() -> None:
    """Between all units of the tables, to the last bit, temperatures with their noughts."""
    chance = random.Random(4)
    compared = set()
    for one, other in itertools.permutations(sorted(units_of_the_tables() | {"m", "K", "Pa"}), 2):
        for value in (0.0, 1.0, -1.5, chance.uniform(-1e6, 1e6), chance.uniform(-1e-6, 1e-6)):
            try:
                asked = registry().Quantity(value, one).to(other).magnitude
            except (pint.PintError, ValueError):
                break
            assert convert(value, one, other) == round(float(asked), 12), (value, one, other)
            compared.add((one, other))
    assert {("degF", "K"), ("mm", "m"), ("degC", "degF")} <= compared
    assert len(compared) > 60


def test_the_trade_s_rows_are_nobody_s_to_change() -> None:
    """Rows read once stay whole when one who was given them adds to his own."""
    _, rows = opened(None)
    before = len(rows["sources.csv"])
    rows["sources.csv"].clear()
    _, again = opened(None)
    assert len(again["sources.csv"]) == before > 0
