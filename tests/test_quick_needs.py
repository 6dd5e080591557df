"""The quick needs list: counts, ranges, what is kept, what each seating takes, what is refused."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from formulas.catalog import load
from formulas.fault import OutOfRange, UnitFault, UnknownName
from formulas.jobs.fillet import wax_to_have
from formulas.jobs.job import Job, JobRank
from formulas.jobs.job_file import SESSION_S as JOB_SESSION_S
from formulas.jobs.quick import SESSION_S, quick, ranks_of_layout
from formulas.jobs.quick_steps import (
    class_ranges,
    glue_range,
    half_shares,
    hours_by_group,
    melted,
    plate_by_slot,
    pots_range,
    tongue_of_note,
)
from formulas.jobs.quick_tables import SEAMS, quick_tables, shortened, step_rows
from formulas.jobs.quick_words import (
    count_said,
    ends_said,
    hangs_said,
    masses_said,
    ranks_said,
    volumes_said,
)
from formulas.valves.notes import note_name
from site_builder.commands.read_quick import asked_for, quick_options, rank
from site_builder.places import DEMO_SHOP
from site_builder.texts import job_quick

CATALOG = load(None)
LARGE = "forty-one-key"


def rows_of(answer):
    """Give the rows of needs by their first words."""
    return {row[0]: row[1] for row in job_quick.need_rows(answer, CATALOG)}


# Counts


@pytest.mark.parametrize("layout", list(CATALOG.layouts))
def test_every_layout_gives_a_whole_list(layout):
    """Plates are those of its ranks, tongues and seating those of its row, and it can be told."""
    row = CATALOG.layouts[layout]
    ranks = [one for one in CATALOG.ranks if one.instrument == layout]
    found = quick(CATALOG, layout=layout)
    assert found.answer["plates"] == sum(one.plates for one in ranks)
    assert found.answer["tongues"] == row.tongues_per_plate * found.answer["plates"]
    assert found.inputs["seating"] == row.seating
    assert job_quick.text(found, CATALOG)
    assert json.dumps(found.as_json())


# Plates by the layouts' own names: keys by treble ranks, 12 by bass ranks; buttons by directions.
COUNTED = [
    ("forty-one-key", 4 * 41 + 5 * 12),
    ("thirty-seven-key", 4 * 37 + 5 * 12),
    ("thirty-four-key", 3 * 34 + 4 * 12),
    ("twenty-six-key", 2 * 26 + 4 * 12),
    ("button-fifty-two", 3 * 52 + 5 * 12),
    ("diatonic-two-row", 2 * 21 + 2 * 4 + 4 * 3),
    ("concertina-48", 48 * 2),
    ("concertina-30", 30),
    ("harmonium-49", 49),
]


@pytest.mark.parametrize(("layout", "plates"), COUNTED)
def test_a_layout_counts_as_its_name_says(layout, plates):
    """The ranks of the table add up to what the name of the layout leads to expect."""
    assert quick(CATALOG, layout=layout).answer["plates"] == plates


def test_typed_ranks_are_the_layouts():
    """Typed with its lowest notes and counts, an instrument needs what its layout needs."""
    ranks = [(note_name(one.lowest), one.plates) for one in ranks_of_layout(CATALOG, LARGE)]
    typed, named = quick(CATALOG, ranks=ranks), quick(CATALOG, layout=LARGE)
    assert typed.answer["numbers"] == named.answer["numbers"]


def test_the_edges_of_a_class_by_hand():
    """Tongues 10, 12, 14 mm and an edge at 12.5 mm: two below, one above; a band moves them."""
    line = quick_tables(CATALOG).lines[0][0]
    notes = [float(midi) for midi in range(60, 108)]
    lengths = [tongue_of_note(midi, 440, line) for midi in notes]
    (least, likely, most), above = class_ranges(notes, 2, 440, line, [[0, 0.0125], [0.0125, 0]], 5)
    assert likely == 2 * sum(length < 0.0125 for length in lengths)
    assert (least, most) == (likely - 10, likely + 10)  # five semitones of two tongues
    assert above == [96 - most, 96 - likely, 96 - least]


def test_classes_cover_every_tongue_once():
    """The likely counts of all classes add up to the tongues."""
    found = quick(CATALOG, layout=LARGE).answer
    assert sum(one["tongues"].estimate for one in found["classes"]) == found["tongues"]
    for one in found["classes"]:
        assert one["tongues"].low <= one["tongues"].estimate <= one["tongues"].high
    bare = found["classes"][0]["tongues"]
    assert found["valves"].low == found["tongues"] - bare.high
    assert found["valves"].high == found["tongues"] - bare.low


# Wax


def test_the_wax_is_that_of_a_job_file_where_nothing_was_measured():
    """A job of the same layout with a block a rank needs the same wax, to the last digits."""
    from formulas.jobs.instrument import plates_of, with_job
    from formulas.jobs.job import JobBlock
    from formulas.jobs.wax_needs import wax_needs

    ranks = tuple(
        JobRank(one.rank, one.name, one.lowest, one.plates, one.posture, 2)
        for one in CATALOG.ranks
        if one.instrument == LARGE
    )
    blocks = tuple(
        JobBlock(
            one.rank, one.name, one.rank, 1, one.plates, None, None, None, "wax-fillet", "", "",
            (), {},
        )
        for one in ranks
    )  # fmt: skip
    job = Job(
        job="1", about="", layout=LARGE, measured="", opened="", blend="", valve_kind="leather",
        glue="", reclaimed=False, session_s=SESSION_S, invented=True, ranks=ranks, blocks=blocks,
        plates=(), file="",
    )  # fmt: skip
    catalog = with_job(CATALOG, job)
    found = wax_needs(catalog, job, plates_of(catalog, job), None)
    wax = quick(CATALOG, layout=LARGE).answer["wax"]
    assert wax["by_plates"].low == pytest.approx(found.need.low, rel=1e-9)
    assert wax["by_plates"].high == pytest.approx(found.need.high, rel=1e-9)
    assert wax["by_rule"].high == pytest.approx(found.by_rule.high, rel=1e-12)
    assert wax["stays"].value == pytest.approx(found.stays, rel=1e-9)


def test_the_usual_session_is_that_of_a_job_file():
    """Who names no time at the bench means the same here and there."""
    assert SESSION_S == JOB_SESSION_S


def test_a_bed_takes_more_wax():
    """With wax under the plates there is as much in the fillets, and the beds beside."""
    dry, bedded = (quick(CATALOG, layout=LARGE, seating=one) for one in ("wax-fillet", "wax-bed"))
    assert bedded.answer["wax"]["stays"].value > dry.answer["wax"]["stays"].value


def test_the_rule_of_thumb_by_hand():
    """224 plates of 0.6 to 1.5 g, 3 to 10 % left in the cloth and 2 to 5 % in the pot."""
    found = quick(CATALOG, layout=LARGE).answer["wax"]["by_rule"]
    assert found.low == pytest.approx(224 * 0.6 / 0.97 / 0.98, rel=1e-12)
    assert found.high == pytest.approx(224 * 1.5 / 0.90 / 0.95, rel=1e-12)
    assert melted(224, [0.6, 1.5], [[0.03, 0.1], [0.02, 0.05]]) == [found.low, found.high]


def test_what_the_range_hangs_on_adds_up():
    """The shares are all of it, and those told are the largest."""
    hangs = quick(CATALOG, layout=LARGE).answer["wax"]["hangs_on"]
    shares = [one["share"] for one in hangs]
    assert sum(shares) == pytest.approx(1)
    assert half_shares([3.0, 4.0], 1) == pytest.approx([9 / 25, 16 / 25])
    assert half_shares([0.0, 0.0], 1) == [0, 0]
    said = hangs_said([0.2, 0.5, 0.3], ["a", "b", "c"], 2)
    assert said == "b 50 %, c 30 %"


def test_the_shop_s_own_jobs_stand_beside():
    """Where the books of a shop tell what its jobs took, that is a row of its own."""
    demo = load(DEMO_SHOP)
    answer = quick(demo, layout=LARGE)
    own = answer.answer["wax"]["by_own"]
    assert own is not None
    told = {row[0] for row in job_quick.need_rows(answer, demo)}
    assert {"Wax to melt, your own jobs", "Wax to melt, rule of thumb"} <= told
    assert quick(CATALOG, layout=LARGE).answer["wax"]["by_own"] is None


@pytest.mark.parametrize("seating", ["gasket-hooks", "dovetail", "long-plate-screws"])
def test_a_seating_without_wax_melts_none(seating):
    """No wax, no pots, and the answer says where its own needs stand."""
    found = quick(CATALOG, layout=LARGE, seating=seating)
    assert found.answer["wax"] is None
    assert found.answer["pots"] is None
    assert "No wax is melted for this seating." in " ".join(found.notes)


def test_a_last_resort_is_called_one_and_a_refused_seat_refused():
    """A sealant is told as what it is, whatever it would take."""
    last = quick(CATALOG, layout=LARGE, seating="neutral-silicone").notes
    assert any("last resort" in note for note in last)
    refused = quick(CATALOG, layout=LARGE, seating="hot-melt").notes
    assert refused[0].startswith("Refused under any plate: ")


# Valves, glue, hours, pots


def test_kept_valves_are_tested_and_none_is_cut():
    """The same number stands there, no glue is taken, and the work on them is less."""
    new, kept = (quick(CATALOG, layout=LARGE, keep=keep) for keep in ((), ("valves",)))
    assert kept.answer["valves"] == new.answer["valves"]
    assert kept.answer["glue"] is None
    assert "Valves kept" in rows_of(kept)
    assert "Valves to cut" in rows_of(new)
    assert kept.answer["hours_in_all"].high < new.answer["hours_in_all"].high
    assert kept.answer["hours_in_all"].low < new.answer["hours_in_all"].low


def test_reed_organs_have_no_valves():
    """Tongues that speak one way have none, and none of the work on them."""
    found = quick(CATALOG, layout="harmonium-49")
    assert rows_of(found)["Valves"] == "none"
    assert found.answer["valves"].high == 0
    assert found.answer["classes"] == []
    groups = {one["group"]: one["hours"].high for one in found.answer["hours"]}
    assert groups["Valves"] == 0 < groups["Seat"]


def test_glue_by_hand():
    """One tongue: width by land by film by density, times what is taken for it."""
    tables = quick_tables(CATALOG)
    line, wide = tables.lines[0][0], tables.lines[1][0]
    asked = ([50.0], 1, 440, line, wide, 0.0125, 5, tables.walls, tables.rules)
    one = glue_range(*asked, [1e-4, 2e-4, 1000, 1200, 2, 5])
    more = glue_range(*asked, [2e-4, 2e-4, 1000, 1200, 2, 10])
    assert more == pytest.approx([2 * one[0], 2 * one[1]])
    assert one[1] / one[0] == pytest.approx(2 * 1.2 * 2.5)
    assert 1e-6 < one[0] < 20e-6  # kg: 5 by 6 mm, a tenth thick, twice taken: 6 mg


def test_a_tongue_that_may_be_bare_counts_at_the_high_end_alone():
    """Glue for a valve that may not be there is in the upper end only."""
    tables = quick_tables(CATALOG)
    line, wide = tables.lines[0][0], tables.lines[1][0]
    edge = tongue_of_note(90, 440, line)
    rest = (1, 440, line, wide, edge, 5, tables.walls, tables.rules, tables.glue)
    assert glue_range([92.0], *rest)[0] == 0 < glue_range([92.0], *rest)[1]
    assert glue_range([99.0], *rest) == [0, 0]


def test_hours_by_hand():
    """Ten plates at 3 to 6 minutes, and half of eight to ten valves at 6 to 12: two groups."""
    steps = [[0.0, 0.0, 3.0, 6.0, 0.0], [1.0, 2.0, 6.0, 12.0, 1.0]]
    found = hours_by_group(steps, 2, [10, 20, 8, 1, 1, 1], [10, 20, 10, 1, 1, 1])
    assert found == [
        pytest.approx([0.5, 1.0]), pytest.approx([0.4, 1.0]), pytest.approx([0.9, 2.0]),
    ]  # fmt: skip


def test_every_step_has_its_group():
    """The groups begin with steps that are there, in the order of work."""
    places = [CATALOG.work_steps[name].place for _, name in SEAMS]
    assert places == sorted(places)
    assert places[0] == min(step.place for step in CATALOG.work_steps.values())
    rows = step_rows(CATALOG, "wax", kept=False, valved=True)
    assert {int(row[0]) for row in rows} == set(range(len(SEAMS)))


def test_hours_are_the_steps_of_the_order_of_work():
    """All hours together are the minutes of the steps that apply, counted by hand."""
    from formulas.jobs.order import order_of_work

    found = quick(CATALOG, layout=LARGE)
    pots, valves = found.answer["pots"], found.answer["valves"]
    counts = {"plate": 224, "tongue": 448, "block": 9, "job": 1}
    minutes = 0.0
    for step in order_of_work(CATALOG, ["wax"]):
        many = {**counts, "valve": valves.high, "batch": pots.high}[step.per]
        faced = 2 if step.per == "valve" and step.face else 1
        minutes += many / faced * step.minutes_high
    assert found.answer["hours_in_all"].high == pytest.approx(minutes / 60, rel=1e-12)


def test_pots_by_hand():
    """90 plates at 10 to 30 an hour and 3 h: three pots to one; each holds its part of the wax.

    A session of 30 plates takes a third of the 180 g to have ready, one of 90 all of it.
    """
    rates = [10 / 3600, 30 / 3600]
    found = pots_range(90, 3 * 3600.0, rates, 0.18)
    assert found == pytest.approx([1, 3, 0.06, 0.18])
    assert pots_range(5, 3 * 3600.0, rates, 0.18) == pytest.approx([1, 1, 0.18, 0.18])


def test_the_quick_list_and_the_folder_fill_their_pots_by_one_rule():
    """Pots go by the highest end of geometry and practice, on the leaf as in a job's folder."""
    wax = quick(load(DEMO_SHOP), layout="forty-one-key").answer
    told = wax["wax"]
    practice = told["by_own"] or told["by_rule"]
    assert told["to_have"].high == max(told["by_plates"].high, practice.high)
    assert told["to_have"].low == min(told["by_plates"].low, practice.low)
    # No pot holds more than all, and the pots of the longest sessions hold all together.
    assert wax["pot_wax"].high <= told["to_have"].high
    assert wax["pot_wax"].high * wax["pots"].low >= told["to_have"].high * (1 - 1e-9)


def test_practice_is_the_shops_own_where_it_is_known():
    """Without own jobs the rule of thumb speaks, with them it is silent."""
    assert wax_to_have([0.07, 0.13], [0.14, 0.39], []) == [0.07, 0.39]
    assert wax_to_have([0.07, 0.13], [0.14, 0.39], [0.16, 0.36]) == [0.07, 0.36]
    assert wax_to_have([0.07, 0.43], [0.05, 0.39], []) == [0.05, 0.43]


def test_a_likely_plate_by_hand():
    """A slot of 22.5 by 3.1 mm: 1.05 by 22.5 and 12.5 more, two slots and 8.75 mm of metal."""
    rule = [1.05, 0.0125, 0.008, 0.0095, 784, 131, 0.002, 0.0025, 0.0023, 0.003, 0.0028, 0.004]
    sharp = [[0.0225] * 3, [0.0031] * 3]
    found = plate_by_slot(440, *sharp, 2, rule)
    assert found == pytest.approx([0.036125, 0.01495, 0.00265, 0, 0.00075, 0.00035])
    assert plate_by_slot(440, *sharp, 1, rule)[1] == pytest.approx(found[1] / 2)
    assert plate_by_slot(900, *sharp, 2, rule)[2] == pytest.approx(0.00225)
    assert plate_by_slot(100, *sharp, 2, rule)[2] == pytest.approx(0.0034)


# Words


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (count_said(3, 3), "3"),
        (count_said(382, 430), "382 to 430"),
        (ends_said(6.4, 20.2, "h"), "6 to 20 h"),
        (ends_said(0.6, 1.5, "g"), "0.6 to 1.5 g"),
        (ends_said(0.18, 1.32, "g"), "0.18 to 1.32 g"),
        (masses_said(0.0565, 0.1134, us=True), "2.0 to 4.0 oz"),
        (masses_said(0.058, 0.122, us=False), "58 to 122 g"),
        (volumes_said(0.000112, 0.000448, us=False), "112 to 448 mL"),
        (volumes_said(0.0000591, 0.0001183, us=True), "2.0 to 4.0 fl oz"),
        (ranks_said([41, 41, 41, 41, 12, 12, 12, 12, 12]), "4 × 41 + 5 × 12"),
        (ranks_said([41, 12, 41]), "41 + 12 + 41"),
        (shortened("No valve: the trade leaves it off, and so does most"), "no valve"),
    ],
)
def test_amounts_in_words(said, words):
    """Ends are as coarse as the upper one, and counts without a range are one number."""
    assert said == words


# Faults


FAULTS = [
    ({}, OutOfRange, "ways to say which plates"),
    ({"layout": LARGE, "ranks": [("F2", 41)]}, OutOfRange, "ways to say which plates"),
    ({"layout": "forty-one"}, UnknownName, "did you mean 'forty-one-key'"),
    ({"layout": LARGE, "seating": "wax-filet"}, UnknownName, "did you mean 'wax-fillet'"),
    ({"layout": LARGE, "keep": ["wax"]}, UnknownName, "kept in a quick needs list"),
    ({"layout": LARGE, "tongues": 3}, OutOfRange, "tongues on a plate"),
    ({"layout": LARGE, "session_s": 60.0}, OutOfRange, "session in h"),
    ({"layout": LARGE, "session_s": 9 * 3600.0}, OutOfRange, "session in h"),
    ({"ranks": [("F2", 0)]}, OutOfRange, "plates of a rank"),
    ({"ranks": [("F2", 62)]}, OutOfRange, "plates of a rank"),
    ({"ranks": [("C7", 41)]}, OutOfRange, "no higher than C8"),
    ({"ranks": [("H2", 41)]}, UnitFault, "German H"),
    ({"ranks": [("F2", 12)] * 10}, OutOfRange, "ranks"),
]


@pytest.mark.parametrize(("asked", "fault", "told"), FAULTS)
def test_what_cannot_be_counted_is_refused(asked, fault, told):
    """Each fault says what was found and what is accepted."""
    with pytest.raises(fault, match=told):
        quick(CATALOG, **asked)


def test_the_options_of_the_command():
    """What is typed is read as it says; a rank without its count is told."""
    import click

    read = {}

    @click.command()
    @quick_options
    def command(**typed):
        read.update(typed)

    words = ["--rank", "F2=41", "--rank", "C1=12", "--keep", "valves", "--session", "2h"]
    assert CliRunner().invoke(command, words).exit_code == 0
    assert asked_for(read) == ["rank", "keep", "session"]
    assert [rank(text) for text in read["rank"]] == [("F2", 41), ("C1", 12)]
    for text in ("F2", "=41", "F2=x", "F2=-3", "F2=4.5"):
        with pytest.raises(click.UsageError, match="F2=41"):
            rank(text)
