"""The leaves on a whole job, J-01 to J-05: words, forms, drawings, parts; words to ring."""

from __future__ import annotations

import itertools

import pytest
from html_reading import Reading
from leaf_reading import leaf_of, leaves_of, placed
from test_paper import POINTS_A_MM, handbook, positions, read
from test_screen import written

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.jobs.order import in_order, order_of_work
from site_builder.markup.elements import plain
from site_builder.paper import binder
from site_builder.parts import registry, survey_drawings
from site_builder.parts.job_survey_parts import changes_words, grade_word, steps_list
from site_builder.screen.html_writer import UNKEPT

CATALOG = load(None)
LEAVES = [f"J-0{number}" for number in range(1, 6)]
PARTS = ("wax", "leather", "plates", "tongues", "block", "gasket")


@pytest.fixture(scope="module")
def leaves():
    """The leaves of this subject by number."""
    return leaves_of(*LEAVES)


# What the leaves say


def test_the_survey_comes_before_the_price_on_both_leaves(leaves):
    """The survey says so itself, and the talk with the owner begins with it."""
    assert "before any price" in plain(leaves["J-02"].tree).lower()
    talk = plain(leaves["J-05"].tree)
    assert talk.index("not before the survey") < talk.index("Say the money as a range")


def test_pitch_is_never_promised(leaves):
    """It stands in the order of work, among what is not promised, and on the owner's sheet."""
    assert "never promise a pitch" in plain(leaves["J-01"].tree)
    (refused,) = [one for one in leaves["J-05"].tree.findall("ul") if "A pitch" in plain(one)]
    assert "parked car" in plain(refused)
    assert "Pitch. It was not promised" in plain(leaves["J-05"].tree)


def test_air_is_looked_for_in_the_order_of_the_trade(leaves):
    """Bellows, box gasket, key pads, block feet, plate, valve."""
    (order,) = [one for one in leaves["J-04"].tree.iter("table") if "Mistaken for it" in plain(one)]
    first = [plain(row[0]).lower() for row in order.find("tbody")]
    wanted = ["bellows", "gasket of the box", "key pads", "foot of the block", "plate", "valve"]
    assert len(first) == len(wanted)
    for cell, word in zip(first, wanted, strict=True):
        assert word in cell


def test_the_order_of_finding_is_that_of_the_valve_tests(leaves):
    """The leaf of valve tests names the same places in the same order."""
    text = plain(leaf_of("V-12").tree)
    line = text[text.index("because each hides the next:") :]
    places = [line.index(word) for word in ("bellows", "gasket", "key pads", "foot", "plate")]
    assert places == sorted(places)


def test_a_good_drop_time_is_not_made_up(leaves):
    """Nobody measured one: the leaf says that it is not known, and how to find out."""
    assert CATALOG.figures["drop-time-good"].low is None
    assert "not known" in plain(leaves["J-04"].tree)


FORMS = {
    "J-03": "photograph picture marks envelope thickness changed mark whole valve gasket helpers",
    "J-04": "before after weight draw press temperature run found mended",
    "J-05": "hours money material batch glue stop promised owner undoes original seated",
}


@pytest.mark.parametrize("number", FORMS)
def test_the_forms_ask_for_what_is_needed(leaves, number):
    """Each word has a line or a column, or stands beside one."""
    told = plain(leaves[number].tree).lower()
    for kind, name in (("formline", "label"), ("formtable", "heads")):
        told += " ".join(one.get(name, "") for one in leaves[number].tree.iter(kind)).lower()
    for word in FORMS[number].split():
        assert word in told, word


# Parts


def test_the_list_holds_every_step_in_order(leaves):
    """Boxes for the steps, a line to sign for each hold point, nothing left out."""
    tree = leaves["J-01"].tree
    text = plain(tree)
    steps = in_order(CATALOG)
    places = [text.index(f"{step.name}. {step.done_when}.") for step in steps]
    assert places == sorted(places)
    assert sum(len(one) for one in tree.iter("ticks")) == len(steps) - 4
    signed = [one for one in tree.iter("formline") if "Signed by" in one.get("label")]
    assert len(signed) == 4


def test_a_list_for_one_seat_holds_its_steps_only():
    """As the part draws it for wax, and as a job's folder draws it without links."""
    drawn = registry.place(CATALOG, "order-of-work", "wax")
    text = " ".join(plain(one) for one in drawn)
    assert "Bed the plate in wax" in text
    assert "Screw the plate down" not in text
    bare = steps_list(order_of_work(CATALOG, {"wax"}))
    assert [one for made in bare for one in made.iter("a")] == []
    assert " ".join(plain(one) for one in bare) == text


def test_a_list_that_begins_with_a_hold_point_has_no_empty_box():
    """Steps without a list before the first signature."""
    hold = CATALOG.work_steps["agree-work"]
    assert [one.tag for one in steps_list([hold])] == ["p", "formline"]


def test_the_times_stand_with_their_basis():
    """A row a step; a rest has no time."""
    (made,) = registry.place(CATALOG, "step-times", "")
    rows = {plain(row[0]): row for row in made.find("tbody")}
    steps = in_order(CATALOG)
    assert list(rows) == [step.name for step in steps]
    bed, rest = (rows[CATALOG.work_steps[name].name] for name in ("bed-plate", "rest-wax"))
    assert [plain(cell) for cell in bed][1:4] == ["plate", "2\N{EN DASH}6 min", "wax"]
    assert plain(rest[2]) == "none"
    assert all(len(list(row.iter("basis"))) == 1 for row in rows.values())


@pytest.mark.parametrize("part", PARTS)
def test_the_grades_of_a_part_stand_from_good_to_bad(part):
    """Each with how to tell it, what it implies, and whether it may be kept."""
    made, rests = registry.place(CATALOG, "survey-grades", part)
    own = [one for one in CATALOG.survey_grades.values() if one.what == part]
    rows = [[plain(cell) for cell in row] for row in made.find("tbody")]
    assert [row[0] for row in rows] == [grade_word(one) for one in own]
    for row, one in zip(rows, own, strict=True):
        assert row[2] == one.how_to_tell
        assert one.implies in row[3]
    assert "from memory" in plain(rests)


def test_changes_are_said_in_words():
    """Times, shares and added steps, each in its own way."""
    said = {name: changes_words(CATALOG, CATALOG.survey_grades[name]) for name in (
        "wax-sound", "wax-wrong-material", "plates-corroded", "plates-cracked", "tongues-pitted"
    )}  # fmt: skip
    assert said["wax-sound"] == "nothing"
    assert (
        "“Lift the plate out of its wax or sealant”: times 1.5 to 4" in said["wax-wrong-material"]
    )
    assert said["plates-corroded"].endswith("adds “Take corrosion off the plate”")
    assert said["plates-cracked"] == "adds “Replace a plate” for 5\N{EN DASH}20 % of them"
    assert "adds “Take the film of rust off the tongue”, times 1.3 to 2" in said["tongues-pitted"]


def test_a_part_that_is_not_graded_is_refused():
    """A near name is there to be offered."""
    with pytest.raises(UnknownName) as caught:
        registry.place(CATALOG, "survey-grades", "plate")
    assert "plates" in caught.value.accepted


def test_the_form_of_a_block_has_every_word_to_ring():
    """One line a part, its words as the table has them; and what is kept."""
    form = registry.place(CATALOG, "survey-form", "")
    lines = {
        one.get("label"): one.get("options").split("; ") for one in form if one.tag == "formchoice"
    }
    assert list(lines) == [*(part.capitalize() for part in PARTS), "Owner keeps"]
    for part in PARTS:
        own = [one for one in CATALOG.survey_grades.values() if one.what == part]
        assert lines[part.capitalize()] == [grade_word(one) for one in own]
    assert {"valves", "wax", "plates"} < set(lines["Owner keeps"])


# Words to ring, on screen and on paper


def test_a_choice_is_read_from_its_argument():
    """A label, a colon, words."""
    (made,) = registry.place(CATALOG, "form-choice", "Keep: valves;  wax ; plates")
    assert (made.get("label"), made.get("options")) == ("Keep", "valves; wax; plates")


@pytest.mark.parametrize(
    "argument", ["", "Keep", "Keep:", "Keep: one", ": a; b", "K: a; a", "K: a;"]
)
def test_what_is_no_choice_is_refused(argument):
    """No label, no two words, a word twice."""
    with pytest.raises(UnknownName, match="such as Wax: sound; cracked"):
        registry.place(CATALOG, "form-choice", argument)


CHOICES = (
    "<formchoice label='Wax' options='sound; cracked'/>"
    "<formchoice label='Block' options='sound; warped'/>"
)


def test_a_choice_on_screen_takes_one_word_a_line():
    """Buttons of one line share a name, those of another do not; a note stands behind each."""
    made = written(CHOICES)
    fields = Reading(made).named("input")
    buttons = [one for one in fields if one["type"] == "radio"]
    names = [one["name"] for one in buttons]
    assert [one["value"] for one in buttons] == ["sound", "cracked", "sound", "warped"]
    assert names[0] == names[1] != names[2] == names[3]
    notes = [one["aria-label"] for one in fields if one["type"] == "text"]
    assert notes == ["Wax, note", "Block, note"]
    assert made.count(UNKEPT) == 1


def test_hostile_words_of_a_choice_stay_words():
    """A label and a word are text, in the page and in the field's value."""
    made = written("<formchoice label='&lt;b&gt;' options='a&quot; onfocus=&quot;x; c'/>")
    assert "<b>" not in made
    assert not [one for one in Reading(made).named("input") if "onfocus" in one]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_words_to_ring_stand_in_one_line_and_apart(paper, tmp_path):
    """All words of the longest line fit beside their label, with room for a ring round each."""
    options = "sound; curled; hard; mouldy or eaten; gone"
    made = handbook(
        f"<formchoice label='Leather' options='{options}'/>"
        "<formchoice label='Tongues' options='clean; rust film'/><p>Below.</p>",
        paper_name=paper,
    )
    first, _ = binder.page_ranges(made)["T-01"]
    found = positions(read(made, tmp_path).pages[first - 1])
    starts = [next((x, y) for text, x, y in found if text.startswith(word)) for word in
              ("Leather", "sound", "curled", "hard", "mouldy", "gone")]  # fmt: skip
    assert all(abs(y - starts[0][1]) < 1 for _, y in starts)
    assert all(b[0] - a[0] > 8 * POINTS_A_MM for a, b in itertools.pairwise(starts))
    next_line = next(y for text, _, y in found if text.startswith("Tongues"))
    assert starts[0][1] - next_line > 9 * POINTS_A_MM


# Drawings


def test_the_sound_valve_lies_and_the_others_do_not():
    """Right: on the plate to its tip. Curled and hard: tip off it. Eaten: in pieces."""
    drawn = survey_drawings
    assert {y for _, y in drawn.FLAT} == {drawn.FACE - 3}
    assert drawn.FLAT[-1][0] > drawn.SLOT_END
    for name in ("CURLED", "HARD"):
        assert getattr(drawn, name)[-1][1] < drawn.FACE - 12
    ends = [(piece[0][0], piece[-1][0]) for piece in drawn.EATEN]
    assert all(a[1] < b[0] for a, b in itertools.pairwise(ends))


def test_six_ways_of_the_air_are_numbered_once():
    """Three that are always open, three behind the pad, each with its number in the section."""
    svg = survey_drawings.air(CATALOG)
    texts = [one.text for one, _, _ in placed(svg)]
    assert sorted(text for text in texts if text.isdigit()) == list("123456")
    told = " ".join(texts)
    assert told.index("3 key pad") < told.index("4 foot")


def test_a_new_page_begins_one_on_paper(tmp_path):
    """What follows stands on the next page; nothing of it is to be read."""
    (made,) = registry.place(CATALOG, "new-page", "")
    assert (made.tag, plain(made)) == ("ownpage", "")
    book = handbook("<p>Above.</p><ownpage/><p>Below.</p>")
    first, last = binder.page_ranges(book)["T-01"]
    assert last == first + 1
    pages = read(book, tmp_path).pages
    assert "Above" in pages[first - 1].extract_text()
    assert "Below" in pages[last - 1].extract_text()
