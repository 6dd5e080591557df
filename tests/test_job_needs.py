"""A whole job: totals that can be traced to their rows, stock drawn once, what one change moves."""

from __future__ import annotations

import dataclasses
import math

import pytest

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.job_entries import JobEvent, Reservation
from formulas.jobs import job_file
from formulas.jobs.job_answer import job_answer, line_of
from formulas.jobs.needs import whole
from formulas.wax.batch import shares_of
from site_builder.places import DEMO_SHOP

SUM_MISS = 1e-9  # of a total: what adding some hundred floats in another order leaves
TWO = """\
job = "26-100"
blend = "beeswax-rosin-4-1"
reclaimed = true
invented = true

[[rank]]
rank = "one"
lowest = "C4"
plates = 4

[[rank]]
rank = "two"
lowest = "C3"
plates = 3

[[block]]
block = "A"
rank = "one"
seating = "wax-fillet"
found = { wax = "cracked" }

[[block]]
block = "B"
rank = "two"
seating = "gasket-screws"
gasket = "cork"
"""
PLATE = '\n[[plate]]\nrank = "one"\nnote = "D4"\nlength = "%s mm"\nwidth = "15 mm"\n'


@pytest.fixture(scope="module")
def catalog():
    """The demo shop without a job in its books."""
    found = load(DEMO_SHOP)
    return dataclasses.replace(found, jobs=[], reservations=[], stock_uses=[], hours=[])


def worked(catalog, text):
    """Give a job worked out of a text."""
    return whole(catalog, job_file.read(catalog, text, "job.toml"))


@pytest.fixture(scope="module")
def demo(catalog):
    """The demo accordion, worked out."""
    return worked(catalog, (DEMO_SHOP / "jobs" / "26-021.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def two(catalog):
    """Four plates in wax and three on cork."""
    return worked(catalog, TWO)


def test_plates_and_tongues_of_the_demo_are_counted(demo):
    """Four treble ranks of 41 and five bass ranks of 12 are 224 plates and 448 tongues."""
    assert sum(part.count for part in line_of(demo, "plates").parts) == 224
    assert sum(part.count for part in line_of(demo, "tongues").parts) == 448


def test_every_total_is_the_sum_of_its_rows(demo, two):
    """The rows of each line add up to its middle."""
    for found in (demo, two):
        for line in found.lines:
            middle = (line.amount.low + line.amount.high) / 2
            rows = math.fsum(part.amount for part in line.parts)
            assert rows == pytest.approx(middle, rel=SUM_MISS), line.item


def test_valves_are_those_not_kept(demo):
    """The block whose valves are kept is in no row of valves, all others are."""
    kept = {block.block for block in demo.job.blocks if "valves" in block.keep}
    rows = {part.where for line in demo.lines if line.group == "valves" for part in line.parts}
    assert kept == {"5"}
    assert not any(row.startswith("block 5,") for row in rows)
    assert len({row.split(",")[0] for row in rows}) == len(demo.job.blocks) - 1


def test_hours_are_minutes_times_counts(catalog, two):
    """A step's time is its minutes times how many, times what the survey's grade says."""
    lift = catalog.work_steps["lift-plate"]
    (need,) = [one for one in two.steps if one.step.id == "lift-plate"]
    (text,) = [one for one in catalog.survey_grades["wax-cracked"].steps if "lift-plate" in one]
    low, high = (float(end) for end in text.split(":")[1].split("-"))
    assert (need.block, need.count, need.changed_by) == ("A", 4, ("wax-cracked",))
    assert need.low == pytest.approx(4 * lift.minutes_low * low, rel=SUM_MISS)
    assert need.high == pytest.approx(4 * lift.minutes_high * high, rel=SUM_MISS)
    total = math.fsum(one.high for one in two.steps) / 60
    assert two.hours.high == pytest.approx(total, rel=SUM_MISS)


def test_steps_follow_the_seat(two):
    """Wax steps stand on the block in wax only, screws on the one with screws only."""
    blocks = {}
    for one in two.steps:
        blocks.setdefault(one.step.id, set()).add(one.block)
    assert blocks["bed-plate"] == {"A"}
    assert "B" in blocks["cut-gasket"]
    assert "A" not in blocks["cut-gasket"]


def moved(before, after):
    """Give the items of the needs list whose amounts differ."""
    was = {line.item: (line.amount.low, line.amount.high) for line in before.lines}
    now = {line.item: (line.amount.low, line.amount.high) for line in after.lines}
    return {item for item in was.keys() | now.keys() if was.get(item) != now.get(item)}


def test_one_measured_plate_moves_its_own_totals_only(catalog):
    """A longer plate moves the wax, and its own block's row of it; no valve and no hour."""
    short, long = worked(catalog, TWO + PLATE % "40"), worked(catalog, TWO + PLATE % "44")
    assert moved(short, long) == {"wax"}
    grams = [line_of(one, "wax").parts[0].amount for one in (short, long)]
    assert grams[1] > grams[0]


def test_a_measured_slot_moves_valves(catalog):
    """A wider slot asks for more glue and other strips, not for more wax."""
    narrow = worked(catalog, TWO + PLATE % "40" + 'slot = "26x2.6mm"\n')
    wide = worked(catalog, TWO + PLATE % "40" + 'slot = "26x4.4mm"\n')
    assert "glue" in moved(narrow, wide)
    widths = [
        [one.width_m for one in found.chosen if (one.rank, one.note) == ("one", "D4")]
        for found in (narrow, wide)
    ]
    assert all(more > less for less, more in zip(*widths, strict=True))


def test_measuring_narrows_the_wax(catalog, two):
    """A plate that was measured takes its own width out of the band."""
    plates = "".join(
        f'\n[[plate]]\nrank = "one"\nnote = "{note}"\nlength = "{size.length.estimate * 1000:.3f}'
        f' mm"\nwidth = "{size.width.estimate * 1000:.3f} mm"\nthickness ='
        f' "{size.thickness.estimate * 1000:.3f} mm"\n'
        for note, size in ((one.note, one) for one in two.plates if one.rank == "one")
    )
    measured = worked(catalog, TWO + plates)
    before, after = (line_of(one, "wax").amount for one in (two, measured))
    assert after.high - after.low < before.high - before.low


def test_nothing_is_bought_twice(demo, two):
    """What is taken from the shelf and what is bought are together the need, item by item."""
    for found in (demo, two):
        items = [one.item for one in found.bought]
        assert len(items) == len(set(items))
        for one in found.bought:
            if one.need.unit == "g" and one.at_hand:
                taken = math.fsum(held.amount.value for held in one.at_hand)
                assert taken + one.buy.high == pytest.approx(one.need.high, rel=SUM_MISS)


def wax_taken(found):
    """Give grams taken of each batch and lot."""
    return {
        held.of: held.amount.value
        for one in found.bought
        for held in one.at_hand
        if held.kind in {"batch", "lot"}
    }


def test_reclaimed_wax_counts_where_the_job_allows_it(catalog):
    """The mixed batch of the demo shop is drawn on only where the file says so."""
    text = (DEMO_SHOP / "jobs" / "26-021.toml").read_text(encoding="utf-8")
    allowed = worked(catalog, text)
    refused = worked(catalog, text.replace("reclaimed = true", "reclaimed = false"))
    assert "W-26-003" in wax_taken(allowed)
    assert "W-26-003" not in wax_taken(refused)
    assert sum(wax_taken(refused).values()) <= refused.wax_to_have.high + SUM_MISS


def with_books(catalog, *, what, amount):
    """Give the catalog with another job that keeps back wax of W-26-001."""
    events = [JobEvent("26-050", "2026-11-01", "opened", "", "", None, None, "invented", "")]
    if what:
        events.append(JobEvent("26-050", "2026-11-03", what, "", "", None, None, "invented", ""))
    kept = Reservation("26-050", "2026-11-02", "batch", "W-26-001", amount, "g", "invented", "")
    return dataclasses.replace(catalog, jobs=events, reservations=[kept])


def test_what_another_job_keeps_back_is_not_at_hand(catalog):
    """Wax kept for an open job is left to it; a job that was dropped frees it again."""
    text = (DEMO_SHOP / "jobs" / "26-021.toml").read_text(encoding="utf-8")
    alone = wax_taken(worked(catalog, text))["W-26-001"]
    beside = wax_taken(worked(with_books(catalog, what="", amount=10), text))["W-26-001"]
    dropped = wax_taken(worked(with_books(catalog, what="dropped", amount=10), text))["W-26-001"]
    assert beside == pytest.approx(alone - 10, rel=SUM_MISS)
    assert dropped == pytest.approx(alone, rel=SUM_MISS)


def test_raw_lots_are_drawn_by_the_ratio(catalog):
    """What no ready batch covers is drawn as beeswax and rosin, four to one."""
    bare = dataclasses.replace(catalog, pot_book={})
    text = (DEMO_SHOP / "jobs" / "26-021.toml").read_text(encoding="utf-8")
    found = worked(bare, text)
    needs = {one.item: one.need.high for one in found.bought if one.need.unit == "g"}
    shares = shares_of(catalog.blend("beeswax-rosin-4-1").parts)
    for material, share in shares.items():
        assert needs[material] == pytest.approx(share * found.wax_to_have.high, rel=SUM_MISS)


def test_kept_wax_is_in_no_total(catalog, two):
    """A block whose wax is kept takes no wax, and its inside valves stay as they are."""
    kept = worked(catalog, TWO.replace('found = { wax = "cracked" }', 'keep = ["wax"]'))
    assert "wax" not in {line.item for line in kept.lines}
    assert kept.pots == ()
    assert {one.face for one in kept.chosen if one.rank == "one"} == {"outside"}
    assert {one.face for one in two.chosen if one.rank == "one"} == {"inside", "outside"}


def test_long_plates_count_as_plates(catalog, two):
    """Three notes on one long plate are one plate and six tongues."""
    seat = 'seating = "gasket-screws"'
    long = worked(catalog, TWO.replace(seat, 'seating = "long-plate-screws"'))
    counts = [sum(part.count for part in line_of(one, "plates").parts) for one in (two, long)]
    assert counts == [7, 5]
    assert sum(part.count for part in line_of(long, "tongues").parts) == 14


def test_pots_go_by_the_session(demo):
    """No pot holds more plates than a session beds; every waxed plate is in one pot."""
    seats = demo.catalog.seating_methods
    waxed = [one for one in demo.plates if seats[one.seating].group == "wax"]
    assert sum(pot.plates for pot in demo.pots) == len(waxed)
    total = math.fsum(pot.grams for pot in demo.pots)
    assert total == pytest.approx(demo.wax_to_have.high, rel=SUM_MISS)


def test_the_trace_gives_the_rows_of_a_total(catalog, demo):
    """`--trace` gives the line with its rows; a line that is not there is refused by name."""
    answer = job_answer(catalog, demo, "wax").answer
    rows = [part["amount"] for part in answer["trace"]["parts"]]
    middle = (answer["wax"].low + answer["wax"].high) / 2
    assert math.fsum(rows) == pytest.approx(middle, rel=SUM_MISS)
    with pytest.raises(UnknownName, match="waxx"):
        job_answer(catalog, demo, "waxx")
