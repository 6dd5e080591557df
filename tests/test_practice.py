"""Ten thousand exercises: sensible numbers, keys as told, the same by the same seed."""

from __future__ import annotations

import dataclasses
import functools
import itertools
import json
import math
import re
import subprocess
import sys

import pytest
from pencil import followed, off_by, sums, unrounded

from formulas import catalog as catalogs
from formulas import units
from formulas.fault import UnknownName
from formulas.practice import sheet
from formulas.practice.carried import settled
from formulas.practice.checking import answer_right
from formulas.practice.draw import Draw
from formulas.practice.exercise import (
    ABOVE,
    BELOW,
    BOTH,
    GRADES,
    ONE_STEP,
    WHOLE_JOB,
    Choice,
    Exercise,
    Made,
    Silly,
    Wanted,
    number_asked,
    rounded,
    rounding_said,
)
from site_builder.places import CONTENT

DEMO = catalogs.load(CONTENT / "demo-shop")
# A shop in ounces, and one with a scale of whole grams: both bring other numbers.
OUNCES = dataclasses.replace(
    DEMO, shop=dataclasses.replace(DEMO.shop, units="US", scale_step=0.05, scale_unit="oz")
)
TOPICS = list(DEMO.practice_topics)
CASES = list(itertools.product(TOPICS, GRADES))
SEEDS, NUMBERS = range(1, 26), range(1, 11)  # of the demo shop; half as many in ounces
STEPS = {1: (1, 1), 2: (2, 3), 3: (4, 12)}  # lines of working by grade

WINDOWS = {
    "g": (0.05, 5000),
    "oz": (0.02, 180),
    "lb": (0.01, 12),
    "percent": (0, 100),
    "degC": (-20, 140),
    "degF": (-4, 284),
    "delta_degC": (0.1, 100),
    "delta_degF": (0.1, 180),
    "mm": (0.02, 2000),
    "mil": (0.5, 1000),
    "leather_ounce": (0.5, 20),
    "mL": (0.1, 5000),
    "floz": (0.01, 170),
    "Pa": (0.1, 5000),
    "inH2O": (0.005, 20),
    "ppm": (0.01, 1e5),
    "mg/m**3": (0.001, 1e6),
    "mm**2": (1, 1e6),
    "m**3": (1, 5000),
    "h": (0.01, 500),
    "min": (0.1, 5000),
    "s": (0.1, 1e5),
    "ms": (0.1, 1e4),
    "1/h": (0.1, 1000),
    "g/m**2": (1, 5000),
    "µN*m": (0.1, 1e5),
    "": (0.001, 10000),
    "1": (0.001, 10000),
}
"""Between which ends an answer in a unit makes sense at a bench."""


@functools.cache
def some(topic: str, grade: int) -> list[Exercise]:
    """Make the exercises of a case: 250 of the demo shop, 125 of the shop in ounces."""
    return [
        sheet.one(catalog, topic, grade, seed, number)
        for catalog, seeds in ((DEMO, SEEDS), (OUNCES, SEEDS[: len(SEEDS) // 2 + 1]))
        for seed in seeds
        for number in NUMBERS
    ]


def numbers(exercise: Exercise) -> list[Wanted]:
    """Give the numbers that an exercise asks for."""
    return [one for one in exercise.made.wanted if isinstance(one, Wanted)]


def choices(exercise: Exercise) -> list[Choice]:
    """Give the words that an exercise asks for."""
    return [one for one in exercise.made.wanted if isinstance(one, Choice)]


def test_ten_thousand_are_looked_at():
    """The cases below are ten thousand exercises."""
    per_case = len(NUMBERS) * (len(SEEDS) + len(SEEDS) // 2 + 1)
    assert per_case * len(CASES) >= 10_000


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_every_answer_lies_where_a_bench_has_it(topic, grade):
    """Numbers are finite, above nought and of a size that a bench sees, in a known unit."""
    for exercise in some(topic, grade):
        assert 1 <= len(exercise.made.wanted) <= 3, exercise
        for one in numbers(exercise):
            assert math.isfinite(one.value), exercise
            low, high = WINDOWS[one.unit]
            assert low <= one.value <= high, exercise
            assert one.value > 0 or one.unit in {"degC", "degF"}, exercise
            if one.unit:
                units.registry().Unit("dimensionless" if one.unit == "1" else one.unit)


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_every_key_is_rounded_as_it_is_told(topic, grade):
    """A key has no more decimals than are asked, and its tolerance half of the last or more."""
    for exercise in some(topic, grade):
        for one in numbers(exercise):
            assert one.value == float(units.printed(one.value, one.places)), exercise
            assert one.tolerance >= 0.5 / 10**one.places * (1 - 1e-9), exercise
            assert one.tolerance < 0.1 * abs(one.value) + 1 / 10**one.places, exercise
        assert bool(exercise.made.rounding) == bool(numbers(exercise)), exercise


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_a_working_has_the_steps_of_its_grade(topic, grade):
    """One line for one step, two or three for some, four and more for a whole job."""
    low, high = STEPS[grade]
    for exercise in some(topic, grade):
        assert low <= len(exercise.made.working) <= high, exercise
        assert all(line.strip() for line in exercise.made.working), exercise


def written(text: str) -> set[str]:
    """Give the numbers that stand in a text."""
    return set(re.findall(r"\d+(?:\.\d+)?", text))


@pytest.mark.parametrize("topic", TOPICS)
def test_a_whole_job_takes_up_what_it_found(topic):
    """In a whole job later steps work on the results of earlier ones."""
    for exercise in some(topic, WHOLE_JOB):
        told = written(" ".join(exercise.made.told))
        found: set[str] = set()
        taken = 0
        for line in exercise.made.working:
            taken += bool(found & written(line))
            found |= written(line) - told
        assert taken >= 1, exercise


def given_numbers(made: Made) -> list[float]:
    """Give all numbers of a task."""
    found: list[float] = []
    for value in made.given.values():
        if not isinstance(value, str):
            found += value if isinstance(value, list) else [value]
    return found


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_the_task_tells_every_number_it_works_on(topic, grade):
    """What is given stands in the sentences, a share also as a percentage."""
    for exercise in some(topic, grade):
        told = {float(text) for text in re.findall(r"\d+(?:\.\d+)?", " ".join(exercise.made.told))}
        for value in given_numbers(exercise.made):
            assert any(
                math.isclose(abs(value) * times, one, rel_tol=1e-6)
                for one in told
                for times in (1, 100)
            ), (value, exercise)


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_a_task_is_told_in_whole_sentences(topic, grade):
    """Sentences begin with a capital or a number, end, hold no blank that is left open."""
    for exercise in some(topic, grade):
        for text in (*exercise.made.told, *exercise.made.working):
            assert text[0].isupper() or text[0].isdigit() or text[0] == "(", exercise
            assert "  " not in text, exercise
            assert not re.search(r"\b(None|nan|inf)\b|[{}_]|\d{8}|\.\d{7}", text), exercise
        assert all(text[-1] in ".?:" for text in exercise.made.told), exercise


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_no_task_tells_its_answer(topic, grade):
    """No number asked for is one of those given."""
    for exercise in some(topic, grade):
        assert not {one.value for one in numbers(exercise)} & set(given_numbers(exercise.made))


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_every_sum_of_a_working_comes_out(topic, grade):
    """Reckoned with what is written, each sum is right to half of its own last place."""
    seen = 0
    for exercise in some(topic, grade):
        for line in exercise.made.working:
            assert line.count("=") == len(list(sums(line))), line
            for one in sums(line):
                seen += 1
                assert off_by(one) <= 1 + 1e-9, (line, one, exercise)
    assert seen > 50, topic


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_the_last_line_comes_to_the_key(topic, grade):
    """A result that is what is asked for, as far as its digits tell, rounds to the key."""
    seen = 0
    for exercise in some(topic, grade):
        written = [one.right for line in exercise.made.working for one in sums(line)]
        for key in numbers(exercise):
            step = 10.0**-key.places
            near = step / 2 if key.side == BOTH else step
            for text in written:
                if abs(float(text) - key.value) < near * 0.999:
                    seen += 1
                    assert rounded(float(text), key.places, key.side) == key.value, (text, exercise)
    asked = sum(len(numbers(exercise)) for exercise in some(topic, grade))
    assert seen >= 0.5 * asked, (seen, asked)


# Their keys are whole steps of the scale that add up to a total, and the working says so.
ON_THE_SCALE = {"to-a-total", "three-to-a-total"}


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_somebody_who_rounds_only_at_the_end_has_the_key(topic, grade):
    """All digits kept, with the factors as printed: the last one is rounded to the printed key."""
    seen = 0
    for exercise in some(topic, grade):
        if exercise.made.given["variant"] in ON_THE_SCALE:
            seen += len(numbers(exercise))
            continue
        results = unrounded(exercise.made.working, " ".join(exercise.made.told))
        for key in numbers(exercise):
            step = 10.0**-key.places
            near = (step / 2 if key.side == BOTH else step) * 0.999
            for text, has in results:
                if abs(float(text) - key.value) < near:
                    seen += 1
                    assert rounded(has, key.places, key.side) == key.value, (text, has, exercise)
    asked = sum(len(numbers(exercise)) for exercise in some(topic, grade))
    assert seen >= 0.5 * asked, (seen, asked)


def test_a_batch_and_its_parts_add_up():
    """What is asked in all is, as printed, the sum of the masses that are asked with it."""
    met = set()
    for exercise in itertools.chain(some("ratios", WHOLE_JOB), some("units", WHOLE_JOB)):
        keys = {one.what: one for one in numbers(exercise)}
        if {"Wax in all", "Mass of beeswax", "Mass of rosin"} == keys.keys():
            met.add(exercise.made.given["variant"])
            parts = keys["Mass of beeswax"].value + keys["Mass of rosin"].value
            assert math.isclose(parts, keys["Wax in all"].value), exercise
    assert len(met) == 4


def test_the_line_that_was_wrong_once_is_right():
    """10.5 fluid ounces: with the factor as it is written they are 310.485 mL, not 310.52."""
    exercise = next(
        one for one in some("units", WHOLE_JOB)
        if any(re.search(r" 10\.5 × 29\.57 ", line) for line in one.made.working)
    )  # fmt: skip
    line = next(text for text in exercise.made.working if "10.5 × 29.57" in text)
    result = re.search(r"= ([\d.]+) mL", line)
    assert result
    assert abs(float(result[1]) - 310.485) <= 0.005 + 1e-9


def test_what_a_line_gives_the_next_one_takes_up():
    """A result that was reckoned again stands so in every later line, and the key is the formula's.

    A third of 100 g is 33.3 g, and 10 times that is 333 g; the key of 333.33 is 333.3, so the
    first line gets decimals until the second comes to it.
    """
    key = number_asked("Ten", 1000 / 3, "g", 1)
    told = Made(
        ("100 g in 3 parts. What are 10 parts?",), (key,), "",
        ("One: 100 g / 3 = 33.3 g.", "Ten: 10 × 33.3 g = 333.3 g."), {},
    )  # fmt: skip
    assert settled(told).working == ("One: 100 g / 3 = 33.33 g.", "Ten: 10 × 33.33 g = 333.3 g.")
    with pytest.raises(Silly):  # the factor as it is written never comes to it
        settled(dataclasses.replace(told, working=("Ten: 10 × 33.2 g = 333.3 g.",)))
    twice = ("One: 100 g / 3 = 33.4 g.", "Ten: 33.4 g + 300 g = 333.4 g.")
    with pytest.raises(Silly):  # a number of the task would change with a result
        settled(Made(("33.4 g, 100 g, 3.",), (), "", twice, {}))


# Limits


def test_a_limit_is_rounded_to_its_cautious_side():
    """Down where something is kept under it, up where it is waited or bought for."""
    below = number_asked("Most wax", 783.74, "g", 0, 1.2, BELOW)
    above = number_asked("Time", 13.2, "min", 0, 0.0, ABOVE)
    assert (below.value, below.tolerance, below.side) == (783, 2.0, BELOW)
    assert (above.value, above.tolerance, above.side) == (14, 0.5, ABOVE)
    assert number_asked("Pot", 700, "mL", 0, 0.0, ABOVE).value == 700
    assert number_asked("Pot", 700 - 1e-10, "mL", 0, 0.0, BELOW).value == 700
    with pytest.raises(Silly):  # the last digit of a machine would turn it
        number_asked("Pot", 700.00003, "mL", 0, 0.0, ABOVE)


def test_the_other_side_of_a_limit_is_refused():
    """Below counts to the end of the tolerance, above not by a hair, and the other way round."""
    for typed, side, right in [
        (783, BELOW, True), (781, BELOW, True), (780.99, BELOW, False), (783.001, BELOW, False),
        (784, BELOW, False), (783, ABOVE, True), (785, ABOVE, True), (785.01, ABOVE, False),
        (782.999, ABOVE, False), (782, ABOVE, False), (781, BOTH, True), (785, BOTH, True),
    ]:  # fmt: skip
        assert answer_right(typed, 783, 2, side) is right, (typed, side)


def test_the_side_of_a_limit_is_said():
    """Round down, round up; where a task has several sides each answer is named."""
    one = number_asked("Most wax", 783.74, "g", 0, 0.0, BELOW)
    other = number_asked("Ends at", 61.2, "degC", 1)
    assert rounding_said([one]) == "Round down to 1 g."
    assert rounding_said([one, other]) == ("Most wax: round down to 1 g. Ends at: round to 0.1 °C.")


# The answers that are limits, by task: something is kept under them, waited for, or bought.
LIMITS = {
    "largest": {"Most wax": BELOW},
    "brim": {"Pot to its brim": ABOVE},
    "pot-with-a-limit": {"Ladled out": ABOVE, "Rosin to add": BELOW},
    "volume": {"Hot volume": ABOVE},
    "blend-volume": {"Hot volume": ABOVE},
    "fits": {"Hot volume": ABOVE},
    "for-plates": {"Wax to weigh out": ABOVE, "Hot volume": ABOVE},
    "session": {"Wax to melt": ABOVE, "Hot volume": ABOVE},
    "plates-with-losses": {"Wax to weigh out": ABOVE},
    "batch-for-plates": {"Wax in all": ABOVE},
    "batch-for-a-session": {"Wax in all": ABOVE},
    "wax": {"Wax to weigh out": ABOVE},
    "window": {"Least overhang": ABOVE, "Most overhang": BELOW},
    "to-buy": {"To buy": ABOVE},
    "wax-to-buy": {"Wax to weigh out": ABOVE, "To buy": ABOVE},
    "supplies-to-buy": {"Solvent to buy": ABOVE},
    "bigger-rag": {"Reached from": BELOW},
    "air-needed": {"The limit": BELOW, "Air changes": ABOVE},
    "half-gone": {"Time to half": ABOVE},
    "cleared": {"Well stirred": ABOVE, "Badly stirred": ABOVE},
}


def test_every_limit_has_its_side():
    """What is a limit has one side, in every exercise; a level in a room is rounded up as well."""
    met = set()
    for topic, grade in CASES:
        for exercise in some(topic, grade):
            variant = str(exercise.made.given["variant"])
            wanted = LIMITS.get(variant, {})
            met |= {variant} & LIMITS.keys()
            for one in numbers(exercise):
                if one.what in wanted:
                    assert one.side == wanted[one.what], exercise
                elif topic == "room-air" and one.unit in {"ppm", "mg/m**3", "percent"}:
                    assert one.side == ABOVE, exercise
                else:
                    assert one.side == BOTH, exercise
            if any(one.side == BELOW for one in numbers(exercise)):
                assert "ound down" in exercise.made.rounding, exercise
            if any(one.side == ABOVE for one in numbers(exercise)):
                assert "ound up" in exercise.made.rounding, exercise
    assert met == LIMITS.keys()


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_somebody_who_rounds_each_step_is_right(topic, grade):
    """Who follows the working and rounds as it does comes to within the tolerance."""
    seen = 0
    for exercise in some(topic, grade):
        results = followed(exercise.made.working)
        for one in numbers(exercise):
            near = [has for text, has in results if abs(float(text) - one.value) <= one.tolerance]
            if near:
                seen += 1
                off = min(abs(has - one.value) for has in near)
                assert off <= one.tolerance * (1 + 1e-9), (exercise, results)
    asked = sum(len(numbers(exercise)) for exercise in some(topic, grade))
    assert seen >= 0.5 * asked, (seen, asked)


@pytest.mark.parametrize("topic", TOPICS)
def test_each_choice_is_the_right_one_now_and_then(topic):
    """The right word stands among the words, and no word of a question is never right."""
    right: dict[tuple[str, str], int] = {}
    for exercise in itertools.chain.from_iterable(some(topic, grade) for grade in GRADES):
        for one in choices(exercise):
            assert one.of.count(one.right) == 1, exercise
            assert len(set(one.of)) == len(one.of) > 1, exercise
            key = str(exercise.made.given.get("variant", "")) + one.what
            for word in one.of:
                drawn = re.search(r"\d", "".join(one.of))  # words that are drawn: by their place
                name = str(one.of.index(word)) if drawn else word
                right[key, name] = right.get((key, name), 0) + (word == one.right)
    assert not [key for key, times in right.items() if times == 0], right


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_few_draws_make_an_exercise(topic, grade, monkeypatch):
    """Numbers make sense after 15 draws on the mean, 150 at most."""
    draws: list[str] = []

    class Counted(Draw):
        def __init__(self, catalog: catalogs.Catalog, key: str, turn: int = 0) -> None:
            draws.append(key.rsplit(" ", 1)[0])
            super().__init__(catalog, key, turn)

    monkeypatch.setattr(sheet, "Draw", Counted)
    fresh = dataclasses.replace(DEMO)
    for seed in range(100, 108):
        for number in NUMBERS:
            sheet.one(fresh, topic, grade, seed, number)
    each = [draws.count(key) for key in set(draws)]
    assert len(each) == 8 * len(NUMBERS)
    assert sum(each) / len(each) < 15
    assert max(each) < 150


@pytest.mark.parametrize(("topic", "grade"), CASES)
def test_no_two_exercises_of_a_sheet_are_alike(topic, grade):
    """Within a seed no task is told twice."""
    told = [one.made.told for one in sheet.exercises(DEMO, topic, 30, 7, [grade])]
    assert len(set(told)) == 30


@pytest.mark.parametrize("topic", TOPICS)
def test_other_seeds_give_other_exercises(topic):
    """Of two seeds hardly a task is the same."""
    first, second = (
        {one.made.told for one in sheet.exercises(DEMO, topic, 12, seed)} for seed in (1, 2)
    )
    assert len(first & second) <= 2


@pytest.mark.parametrize("topic", TOPICS)
def test_a_sheet_begins_with_the_easy_ones(topic):
    """Grades rise over a sheet, numbers count from one, and each can be had alone."""
    found = sheet.exercises(DEMO, topic, 6, 3)
    assert [one.grade for one in found] == [1, 1, 2, 2, 3, 3]
    assert [one.number for one in found] == [1, 2, 3, 4, 5, 6]
    fresh = dataclasses.replace(DEMO)
    assert sheet.one(fresh, topic, 2, 3, 4) == found[3]


SHOW = """
import json, sys
from formulas import catalog
from formulas.practice import sheet
from site_builder.places import CONTENT
demo = catalog.load(CONTENT / "demo-shop")
print(json.dumps([
    [one.made.told, one.made.working, [str(w) for w in one.made.wanted]]
    for topic in demo.practice_topics for one in sheet.exercises(demo, topic, 6, 11)
]))
"""


def test_a_seed_gives_the_same_in_another_process():
    """Another process with another hash seed makes the same exercises."""
    run = subprocess.run(
        [sys.executable, "-c", SHOW],
        capture_output=True, text=True, check=True, env={"PYTHONHASHSEED": "4711"},
    )  # fmt: skip
    here = [
        [list(one.made.told), list(one.made.working), [str(w) for w in one.made.wanted]]
        for topic in TOPICS
        for one in sheet.exercises(DEMO, topic, 6, 11)
    ]
    assert json.loads(run.stdout) == here


@pytest.mark.parametrize("topic", TOPICS)
def test_a_topic_has_four_tasks_and_more(topic):
    """At least four kinds of task, by their first sentences without the numbers."""
    kinds = {
        re.sub(r"\d+(\.\d+)?", "#", one.made.told[-1])
        for grade in GRADES
        for one in some(topic, grade)
    }
    assert len(kinds) >= 4


@pytest.mark.parametrize(
    ("step", "unit"), [(0.01, "g"), (0.2, "g"), (1, "g"), (50, "g"), (0.002, "oz"), (1, "oz")]
)
def test_any_scale_has_its_exercises(step, unit):
    """A scale that is finer or coarser than those of a bench still gives a sheet."""
    shop = dataclasses.replace(DEMO.shop, scale_step=step, scale_unit=unit)
    catalog = dataclasses.replace(DEMO, shop=shop)
    for topic in ("ratios", "alligation", "adjusting", "units"):
        for grade in GRADES:
            found = sheet.exercises(catalog, topic, 4, 1, [grade])
            assert len(found) == 4
            for exercise in found:
                own = topic == "units" or exercise.made.given["variant"] == "really-weighed"
                least = 0.0 if own else Draw(catalog, "").scale.step / 2
                for one in numbers(exercise):
                    assert one.unit != unit or one.tolerance >= least * (1 - 1e-9), exercise


def test_a_task_without_sense_is_drawn_again():
    """An answer of nought, below nought, of no size or told already is silly."""
    for value in (0.0, 0.004, -1.0, math.inf, math.nan):
        with pytest.raises(Silly):
            number_asked("Rosin", value, "g", 1)
    told = Made(("5 g",), (number_asked("Rosin", 5, "g", 1),), "", ("",), {"mass": [5.0]})
    with pytest.raises(Silly):
        sheet.refuse_silly(told)


def test_ranges_that_give_nothing_are_told(monkeypatch):
    """Where no draw makes sense the topic and the grade are named."""

    def never(*_: object) -> Made:
        raise Silly

    monkeypatch.setattr(sheet, "maker", lambda _topic: never)
    with pytest.raises(sheet.NoExercise, match=r"ratios, grade 1: no sensible numbers in 200"):
        sheet.one(dataclasses.replace(DEMO), "ratios", ONE_STEP, 1, 1)


def test_an_unknown_topic_is_named():
    """A topic that is not there is told with the nearest."""
    with pytest.raises(UnknownName, match="ratios"):
        sheet.exercises(DEMO, "ratio", 3, 1)


def test_a_tolerance_is_written_in_halves_of_the_last_place():
    """Half a place alone, and with room whole halves above it."""
    assert number_asked("a", 3.14159, "g", 1) == Wanted("a", 3.1, "g", 1, 0.05)
    assert number_asked("a", 3.14159, "g", 1, 0.04).tolerance == 0.1
    assert number_asked("a", 3.14159, "g", 1, 0.05).tolerance == 0.1
    assert number_asked("a", 314, "g", 0, 0.6).tolerance == 1.5


def test_what_is_rounded_to_is_said():
    """Each step is said once, a bare number as a whole one, and nothing without a number."""
    asked = [number_asked("a", 2, "g", 1), number_asked("b", 3, "g", 1)]
    asked += [number_asked("c", 4, "percent", 0), number_asked("d", 5, "", 0)]
    assert rounding_said(asked) == "Round to 0.1 g and to 1 %. d: a whole number."
    assert rounding_said([Choice("a", "b", ("b", "c"))]) == ""


def test_a_pencil_reads_a_line():
    """Sums are found between the words, with signs, percentages and chains."""
    line = "Rosin: (30 − 25) / (30 − 10) = 0.25 = 25.0 %. So 2 × 3.5 g = 7.0 g, less 1 g."
    found = list(sums(line))
    assert [one.right for one in found] == ["0.25", "25.0", "7.0"]
    assert [one.worth() for one in found] == [0.25, 25.0, 7.0]
    assert followed(("One: 10 g / 3 = 3.33 g.", "Three: 3 × 3.33 g = 10.0 g."))[-1] == ("10.0", 10)
