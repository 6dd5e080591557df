"""The practice leaf and its key: every topic, the same exercises, data that stay small."""

from __future__ import annotations

import dataclasses
import json
import re

import pytest
from leaf_reading import handbook, trade
from practice_taught import TAUGHT

from formulas.fault import UnknownName
from formulas.practice import sheet
from formulas.practice.exercise import GRADES
from formulas.practice.practice import in_order, practice
from formulas.units import convert
from site_builder.parts import practice_parts, registry
from site_builder.places import CONTENT, TEMPLATES
from site_builder.screen import exercise_form, site

LARGEST = 250_000  # bytes of the data of the exercises


def leaf(number):
    """Give a leaf of the handbook."""
    return next(one for one in handbook().leaves if one.number == number)


def placed():
    """Give the exercises of the practice leaf."""
    return list(leaf("A-06").tree.iter("exercise"))


def words(tree):
    """Give the text of a tree in one line."""
    return " ".join(" ".join(tree.itertext()).split())


def test_every_topic_has_an_exercise_of_each_grade_in_order():
    """The leaf shows them in the order of learning, each of number one of its seed."""
    names = [one.get("name").split() for one in placed()]
    assert [(topic, int(grade)) for topic, grade, _, _ in names] == [
        (topic, grade) for topic in in_order(trade()) for grade in GRADES
    ]
    assert {number for *_, number in names} == {"1"}


def test_the_key_leaf_keys_those_exercises():
    """Each answer and each line of the way stands on the key leaf, and none on the other."""
    asked, keyed = words(leaf("A-06").tree), words(leaf("A-07").tree)
    for one in placed():
        made = practice_parts.by_name(trade(), one.get("name")).made
        for line in made.working:
            assert " ".join(line.split()) in keyed
            assert " ".join(line.split()) not in asked
        assert " ".join(" ".join(made.told).split()) in asked


def test_the_command_that_is_shown_gives_the_same_exercise():
    """Every variant that the page can show comes from the command beside it."""
    data = exercise_form.page_data(trade(), placed())
    for name, one in data["exercises"].items():
        topic, grade, seed, number = name.split()
        assert number == "1"
        assert one["again"] == (
            f"benchbinder practice --topic {topic} --grade {grade} --count 1 --seed {seed}"
        )
        (made,) = practice(trade(), [topic], 1, int(seed), [int(grade)]).answer["exercises"]
        assert " ".join(made["told"]) == one["task"].replace("\N{NO-BREAK SPACE}", " ")
        assert [practice_parts.held(line) for line in made["working"]] == one["way"]


def test_the_variants_are_six_and_unlike():
    """Six tasks for each topic and grade, no two of them the same."""
    data = exercise_form.page_data(trade(), placed())["exercises"]
    for one in placed():
        names = exercise_form.variants(one.get("name"))
        assert len(names) == exercise_form.VARIANTS == 6
        assert len({data[name]["task"] for name in names}) == 6, one.get("name")


def test_the_data_are_small_and_stand_only_where_exercises_are():
    """The file is under 250 kB; only the practice leaf and the whole handbook load it."""
    files = site.files(handbook())
    assert len(files["assets/practice-data.js"].encode()) < LARGEST
    loading = {name for name, text in files.items() if "bench_practice" in text}
    assert loading == {"assets/practice-data.js", "assets/practice.js", "handbook.html"}
    asking = {name for name, text in files.items() if "assets/practice.js" in text}
    assert asking == {"practice.html"}
    text = files["assets/practice-data.js"]
    assert json.loads(text.partition(" = ")[2].rstrip(";\n"))["exercises"]


def test_on_a_sheet_the_variants_begin_at_different_places():
    """Two exercises of one topic and grade do not show the same numbers next."""
    first, second = (exercise_form.variants(f"ratios 1 7 {number}") for number in (1, 2))
    assert first[0] != second[0]
    assert first[1] != second[1]
    assert set(first[1:]) == set(second[1:])


@pytest.mark.parametrize("argument", ["", "ratios", "ratio 1", "ratios one", "ratios -1"])
@pytest.mark.parametrize("part", ["exercises", "exercise-keys"])
def test_a_wrong_argument_is_told(part, argument):
    """A part asks for a topic with its seed."""
    with pytest.raises(UnknownName, match=r"a topic of practice_topics\.csv with its seed"):
        registry.place(trade(), part, argument)


def test_nothing_recalls_a_quiz():
    """Neither the leaf's own words nor its script speak of score, points, levels or the like."""
    own = (CONTENT / "15-apprentice" / "60-practice.md").read_text("utf-8")
    script = (TEMPLATES / "practice.js").read_text("utf-8")
    said = set(re.findall(r"[a-z]+", f"{own} {script}".lower()))
    assert "exercise" in said
    assert not said & {"score", "scores", "points", "level", "levels", "badge", "streak", "grade"}


# Where it is taught


def by_slug(slug):
    """Give a leaf by its name in links."""
    return next(one for one in handbook().leaves if one.slug == slug)


def linked(tree):
    """Give the leaves that a text links to, by their names in links."""
    return {one.get("href", "").partition(".md")[0] for one in tree.iter("a")}


@pytest.mark.parametrize("topic", in_order(trade()))
def test_the_leaf_of_a_topic_teaches_each_of_its_tasks(topic):
    """The method of each task stands on the topic's leaf, or on one that this leaf links."""
    own = by_slug(trade().practice_topics[topic].leaf)
    reached = {own.slug} | linked(own.tree)
    ounces = dataclasses.replace(trade().shop, units="US", scale_step=0.05, scale_unit="oz")
    shops = [trade(), dataclasses.replace(trade(), shop=ounces)]
    made = {
        sheet.one(shop, topic, grade, seed, number).made.given["variant"]
        for shop in shops for grade in GRADES for seed in range(1, 7) for number in range(1, 11)
    }  # fmt: skip
    assert made == TAUGHT[topic].keys()
    for slug, words_of_it in TAUGHT[topic].values():
        assert slug in reached, slug
        text = next(CONTENT.rglob(by_slug(slug).file.rpartition("/")[2])).read_text("utf-8")
        assert words_of_it in text, (slug, words_of_it)


def test_the_practice_leaf_names_the_leaf_of_each_topic():
    """Under each topic stands the leaf that the table names for it, in the order of learning."""
    text = (CONTENT / "15-apprentice" / "60-practice.md").read_text("utf-8")
    named = re.findall(r"\]\(([a-z-]+)\.md[#a-z-]*\) teaches it\.", text)
    assert named == [trade().practice_topics[topic].leaf for topic in in_order(trade())]


def test_every_factor_of_an_exercise_stands_on_the_leaf():
    """What a task tells of one unit in another stands in the table, from the registry of units."""
    (factors, heats) = registry.place(trade(), "unit-factors", "")
    rows = [[words(cell) for cell in row] for row in factors.iter("tr")][1:]
    on_leaf = {(one, is_it.removeprefix("about ")) for one, is_it, _, _ in rows}
    for one, is_it in on_leaf:
        large = {"leather ounce": "leather_ounce", "inch of water": "inH2O", "fl oz": "floz",
                 "cubic inch": "in**3"}.get(one, one)  # fmt: skip
        factor, unit = is_it.split(" ", 1)
        places = len(factor.partition(".")[2])
        assert abs(float(factor) - convert(1, large, unit)) <= 0.5 / 10**places, one
    told = {
        (unit.lower().removeprefix("a ").removeprefix("1 "), f"{factor} {of}")
        for topic_grade in GRADES for seed in range(1, 12) for number in range(1, 11)
        for unit, factor, of in re.findall(
            r"\b([Aa1] [a-z ]*?[a-z]) (?:is|has) ([\d.]+) (mm|mL|g|oz|Pa)\b",
            " ".join(sheet.one(trade(), "units", topic_grade, seed, number).made.told),
        )
    }  # fmt: skip
    named = {"pound": "lb"}
    assert len(told) >= 7
    assert {(named.get(unit, unit), is_it) for unit, is_it in told} <= on_leaf
    said = words(heats)
    assert "times 9 / 5, then plus 32" in said
    assert "less 32, then times 5 / 9" in said
    assert said.count("without 32") == 2
