"""A job file is read whole, and every fault of it is told at once, with the line it stands on."""

from __future__ import annotations

import pytest

from formulas.catalog import load
from formulas.fault import Faults
from formulas.jobs import job_file
from site_builder.places import DEMO_SHOP

SMALL = """\
job = "26-100"
blend = "beeswax-rosin-4-1"

[[rank]]
rank = "one"
lowest = "C4"
plates = 12

[[block]]
block = "A"
rank = "one"
plates = "1-6"
face = "60 mm"
seating = "wax-fillet"

[[block]]
block = "B"
rank = "one"
plates = "7-12"
seating = "gasket-screws"
gasket = "cork"

[[plate]]
rank = "one"
note = "D4"
length = "41 mm"
width = "0.6 in"
slot = "27,5x3,3mm"
"""


@pytest.fixture(scope="module")
def catalog():
    """The demo shop's catalog."""
    return load(DEMO_SHOP)


def faults(catalog, text):
    """Give the faults of a job file, as (line, column, found)."""
    with pytest.raises(Faults) as caught:
        job_file.read(catalog, text, "job.toml")
    return [(one.row, one.column, one.found) for one in caught.value.faults]


def test_a_small_job_is_read(catalog):
    """Ranks, blocks and plates come out as they were typed, lengths in metres."""
    job = job_file.read(catalog, SMALL, "job.toml")
    assert [(one.block, one.first, one.last, one.count) for one in job.blocks] == [
        ("A", 1, 6, 6), ("B", 7, 12, 6),
    ]  # fmt: skip
    (plate,) = job.plates
    assert plate.length_m == pytest.approx(0.041, rel=1e-12)  # the last bits of a conversion
    assert plate.width_m == pytest.approx(0.01524, rel=1e-12)
    assert (plate.slot_length_m, plate.slot_width_m) == pytest.approx((0.0275, 0.0033), rel=1e-12)


def test_a_layout_gives_its_ranks_and_a_block_each(catalog):
    """A file that names a layout only has every rank of it in a block of its own."""
    job = job_file.read(catalog, 'job = "1"\nlayout = "forty-one-key"\n', "job.toml")
    assert sum(block.count for block in job.blocks) == 4 * 41 + 5 * 12
    assert {block.seating for block in job.blocks} == {catalog.layouts["forty-one-key"].seating}


def test_the_four_faults_of_a_careless_file_are_told_together(catalog):
    """Unknown rank, negative keys, a plate longer than its block, a note twice: all at once."""
    text = (
        SMALL.replace('rank = "one"\nplates = "7-12"', 'rank = "won"\nplates = "7-12"').replace(
            'length = "41 mm"', 'length = "61 mm"'
        )
        + '\n[[plate]]\nrank = "one"\nnote = "D4"\n'
        + '\n[[rank]]\nrank = "two"\nlowest = "C4"\nplates = -12\n'
    )
    assert faults(catalog, text) == [
        (18, "block.rank", "won"),
        (26, "plate.length", "61 mm"),
        (32, "plate.note", "D4"),
        (37, "rank.plates", "-12"),
    ]


WRONG = [
    ('job = "26-100"', "job = 26", (1, "job", "26")),
    ('blend = "beeswax-rosin-4-1"', 'blend = "beeswax-rosin-41"', (2, "blend", "beeswax-rosin-41")),
    ('lowest = "C4"', 'lowest = "H4"', (6, "rank.lowest", "H4")),
    ("plates = 12", "plates = 12.5", (7, "rank.plates", "12.5")),
    ("plates = 12", 'notes = "C4 D4 D4"', (7, "rank.notes", "C4 D4 D4")),
    ('plates = "1-6"', 'plates = "1-7"', (19, "block.plates", "7-12")),
    ('plates = "1-6"', 'plates = "1-5"', (19, "block.plates", "")),
    ('plates = "1-6"', 'plates = "6-1"', (12, "block.plates", "6-1")),
    ('plates = "7-12"', 'plates = "7-13"', (19, "block.plates", "7-13")),
    ('face = "60 mm"', 'face = "60"', (13, "block.face", "60")),
    ('face = "60 mm"', 'fase = "60 mm"', (13, "block.fase", "fase")),
    ('seating = "wax-fillet"', 'seating = "wax"', (14, "block.seating", "wax")),
    ('gasket = "cork"', "", (16, "block.gasket", "")),
    ('seating = "wax-fillet"', 'seating = "wax-fillet"\ngasket = "cork"',
     (15, "block.gasket", "cork")),
    ('gasket = "cork"', 'gasket = "cork"\nfound = { wax = "broken", door = "shut" }',
     (22, "block.found", "wax = broken")),
    ('gasket = "cork"', 'gasket = "cork"\nfound = { wax = "sound", door = "shut" }',
     (22, "block.found", "door = shut")),
    ('gasket = "cork"', 'gasket = "cork"\nkeep = ["reeds"]', (22, "block.keep", "['reeds']")),
    ('block = "B"', 'block = "A"', (17, "block.block", "A")),
    ('note = "D4"', 'note = "D5"', (25, "plate.note", "D5")),
    ('slot = "27,5x3,3mm"', 'slot = "42x3.3mm"', (28, "plate.slot", "42 mm long")),
    ('slot = "27,5x3,3mm"', 'slot = "27x8mm"', (28, "plate.slot", "8 mm wide")),
    ('face = "60 mm"', 'row = "12 mm"', (13, "block.row", "12 mm")),
]  # fmt: skip


@pytest.mark.parametrize(("right", "wrong", "told"), WRONG)
def test_each_fault_is_told_at_its_line(catalog, right, wrong, told):
    """One thing made wrong is told with its line, its key and what was found."""
    assert right in SMALL
    assert told in faults(catalog, SMALL.replace(right, wrong, 1))


def test_a_text_that_is_no_toml_names_its_line(catalog):
    """A line that is no TOML is one fault, at that line."""
    assert faults(catalog, 'job = "1"\nrank = [[\n')[0][:2] == (2, "(line)")


def test_a_plate_of_plates_csv_longer_than_its_block_is_told(catalog):
    """A plate that the shop measured does not fit on a block narrower than it is long."""
    text = (
        'job = "1"\nlayout = "forty-one-key"\nmeasured = "forty-one-key"\n'
        + "".join(
            f'[[block]]\nblock = "{rank}"\nrank = "{rank}"\nface = "50 mm"\n'
            for rank in ("low", "middle", "middle-second", "high", "bass-1", "bass-2", "bass-3",
                         "bass-4", "bass-5")
        )
    )  # fmt: skip
    # plates.csv of the demo shop: L-01 is 62.8 mm long, M-01 49.6 mm.
    found = faults(catalog, text)
    assert found == [(7, "block.face", "50 mm")]
