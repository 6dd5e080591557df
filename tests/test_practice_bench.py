"""Exercises of the bench: hot volume, softening bands, valves, needs lists, vapour in a room."""

from __future__ import annotations

import dataclasses
import functools
import importlib
import itertools
import re

import pytest
from leaf_reading import trade
from test_promises import PROMISE

from formulas.air.asked import AirTask, air_solvents
from formulas.air.heats import HEATS
from formulas.air.reckoned import reckoned
from formulas.answer import Band
from formulas.practice import sheet
from formulas.practice.band_words import (
    CANNOT_TELL,
    FIRMER,
    HOLDS,
    MOVES,
    DrawnBand,
    firmer_of,
    follows,
    telling_share,
)
from formulas.practice.bench import (
    CLEAR,
    finished,
    number,
    over,
    short,
    step,
    whole_down,
    whole_up,
)
from formulas.practice.draw import Draw
from formulas.practice.exercise import (
    GRADES,
    ONE_STEP,
    Choice,
    Exercise,
    Made,
    Silly,
    Wanted,
    number_asked,
)
from formulas.practice.needs_words import side_by_side
from formulas.practice.vapour_words import FIRST, LOOK_FIRST, TAKE_AWAY
from formulas.softening.estimate import CREEP, estimate
from formulas.wax.batch import shares_of
from formulas.wax.mix import mix

TOPICS = ("hot-volume", "softening-band", "valve-choice", "needs-list", "room-air")
SEEDS, NUMBERS = range(1, 13), range(1, 11)


@functools.cache
def all_of(topic: str) -> list[Exercise]:
    """Make 120 exercises of each grade."""
    cases = itertools.product(GRADES, SEEDS, NUMBERS)
    return [sheet.one(trade(), topic, grade, seed, count) for grade, seed, count in cases]


def of_variant(topic: str, *names: str) -> list[Exercise]:
    """Give the exercises of some tasks; that there are any is part of the test."""
    found = [one for one in all_of(topic) if one.made.given["variant"] in names]
    assert len(found) > 5, names
    return found


def right_of(exercise: Exercise, what: str) -> str:
    """Give the right word of a question."""
    return next(
        one.right for one in exercise.made.wanted if isinstance(one, Choice) and one.what == what
    )


def value_of(exercise: Exercise, what: str) -> Wanted:
    """Give a number that is asked for."""
    return next(one for one in exercise.made.wanted if isinstance(one, Wanted) and one.what == what)


@pytest.mark.parametrize("topic", TOPICS)
def test_every_task_of_a_topic_comes_up(topic):
    """Each grade has three tasks and more, each belongs to that grade alone, and each is met."""
    variants = importlib.import_module(f"formulas.practice.{topic.replace('-', '_')}").VARIANTS
    met = {
        grade: {one.made.given["variant"] for one in all_of(topic) if one.grade == grade}
        for grade in GRADES
    }
    for grade in GRADES:
        assert len(variants[grade]) == len(met[grade]) >= 3
    assert sum(map(len, met.values())) == len(set.union(*met.values()))


@pytest.mark.parametrize("topic", TOPICS)
def test_every_range_of_a_topic_is_drawn_from(topic, monkeypatch):
    """No row of the ranges lies idle, and none of another topic is used."""
    drawn = set()
    row = Draw._row

    def noted(self: Draw, name: str) -> object:
        drawn.add(name)
        return row(self, name)

    monkeypatch.setattr(Draw, "_row", noted)
    fresh = dataclasses.replace(trade())
    for grade, seed, count in itertools.product(GRADES, SEEDS, NUMBERS):
        sheet.one(fresh, topic, grade, seed, count)
    assert drawn == {one.id for one in fresh.practice_ranges.values() if one.topic == topic}


@pytest.mark.parametrize("topic", TOPICS)
def test_no_exercise_promises_anything(topic):
    """No sentence, no word to choose and no line of working calls a result safe."""
    for exercise in all_of(topic):
        made = exercise.made
        words = [word for one in made.wanted if isinstance(one, Choice) for word in one.of]
        for text in (*made.told, *made.working, *words, made.rounding):
            assert not PROMISE.search(text), text


# Room air


def heat_told(exercise: Exercise) -> bool:
    """Tell whether a task names something hot or that sparks, by its sentences."""
    told = " ".join(exercise.made.told)
    return any(what in told for what, _ in HEATS.values())


def test_where_heat_is_named_it_goes_first():
    """With heat or sparks in the room the right word is to take them away; else to look."""
    asked = of_variant("room-air", "wet-rag", "second-rag", "first-things")
    named = [heat_told(one) for one in asked]
    assert 20 < sum(named) < len(named) - 20
    for one, hot in zip(asked, named, strict=True):
        assert right_of(one, "What comes first") == (TAKE_AWAY if hot else LOOK_FIRST), one


def test_no_word_of_room_air_lets_anybody_go_on():
    """Where heat may be about, no word to choose is to go on."""
    assert len(FIRST) == 2
    for exercise in all_of("room-air"):
        for one in exercise.made.wanted:
            if isinstance(one, Choice):
                assert not re.search(r"\bgo on\b|\bmay\b|\bwork\b|\ballowed\b", " ".join(one.of))


def test_a_limit_that_is_not_passed_is_only_reckoned():
    """A word that denies says by what: by this reckoning."""
    words = {
        word
        for exercise in all_of("room-air")
        for one in exercise.made.wanted
        if isinstance(one, Choice)
        for word in one.of
        if word.startswith("not ") or " not " in word
    }
    assert words
    assert all("by this reckoning" in word for word in words)


def test_the_level_after_a_rag_is_that_of_the_command():
    """The key lies in what `air` finds for the task at low and high air pressure."""
    solvents = {one.name.lower(): one.id for one in air_solvents(trade())}
    for exercise in of_variant("room-air", "wet-rag"):
        told, given = exercise.made.told[0], exercise.made.given
        name = next(name for name in solvents if f"ml of {name} dry" in told.lower())
        task = AirTask(
            solvents[name],
            60 * given["minutes"],
            amount=given["amount_ml"] / 1e6,
            room=given["room_m3"],
            changes=given["changes_h"],
            celsius=given["celsius"],
        )
        low, high = (1e6 * end for end in reckoned(trade(), task).found[0][0])
        key = value_of(exercise, "Level at the end")
        assert low - 0.5 <= key.value <= high + 1, exercise  # it is rounded up


def test_a_limit_stands_with_its_body_and_its_year():
    """Every limit told names who set it and when."""
    for exercise in of_variant("room-air", "whole-day", "air-needed"):
        told = next(text for text in exercise.made.told if text.startswith("A limit: "))
        assert re.search(r"^A limit: [A-Z]{2,}.* ppm \((19|20)\d\d(, from memory)?\)\.$", told)


# Hot volume


def test_a_hot_volume_is_that_of_mix():
    """The key of a batch is the high end of what `mix` answers for those masses."""
    names = {"yellow beeswax": "beeswax-yellow", "gum rosin": "gum-rosin", "dammar": "dammar"}
    for exercise in of_variant("hot-volume", "blend-volume"):
        masses = exercise.made.given["masses_g"]
        told = re.findall(r"g of ([a-z ]+?)(?: and|\.)", exercise.made.told[0])
        parts = dict(zip((names[one] for one in told), masses, strict=True))
        answer = mix(trade(), parts, total_g=sum(masses)).answer["hot_volume"]
        key = value_of(exercise, "Hot volume")
        assert -1e-3 * answer.high <= key.value - answer.high <= 1 + 1e-3 * answer.high


# Softening bands


def test_only_step_creep_speaks_of_service():
    """By any other method nothing follows, whatever band and temperature."""
    for asked in (10, 40, 55, 100):
        assert follows("drop-point", 50, 60, asked) == CANNOT_TELL
    for method in CREEP:
        assert follows(method, 45, 55, 40) == HOLDS
        assert follows(method, 45, 55, 50) == CANNOT_TELL
        assert follows(method, 45, 55, 60) == MOVES


def test_methods_never_mix():
    """Bands of two methods tell nothing of two blends, however far they lie apart."""
    seen = 0
    for exercise in of_variant("softening-band", "two-bands"):
        first, second = str(exercise.made.given["methods"]).split()
        if first != second:
            seen += 1
            assert right_of(exercise, "The firmer") == CANNOT_TELL
    assert seen > 5


def test_untested_nothing_is_said_of_service():
    """Where the shop hung no plate, the right word is that nobody can tell."""
    for variant in ("tables-alone", "drop-and-service", "from-a-reading"):
        answers: dict[str, set[str]] = {"no": set(), "yes": set()}
        for exercise in of_variant("softening-band", variant):
            answers[str(exercise.made.given["tested"])].add(right_of(exercise, "What follows"))
        assert answers["no"] == {CANNOT_TELL}
        assert answers["yes"] == {CANNOT_TELL, HOLDS, MOVES}


def test_no_method_is_reckoned_into_another():
    """Nothing of the distance between two methods is told, and no working takes it off a reading.

    W-03, W-06 and T-01 forbid it; what speaks of service is step creep, in every task.
    """
    ends = {f"{end:g}" for end in trade().span("drop-above-creep", "delta_degC")}
    for exercise in all_of("softening-band"):
        given = exercise.made.given
        assert "above" not in given
        told = " ".join(exercise.made.told)
        assert not re.search(r"drop point \d+ to \d+ °C above", told), told
        for line in exercise.made.working:
            assert not re.search(rf"− ({'|'.join(ends)}) = ", line), line
        words = {one.right for one in exercise.made.wanted if isinstance(one, Choice)}
        if words & {HOLDS, MOVES}:
            assert "step creep" in told, exercise


def test_the_band_of_the_tables_is_the_estimate():
    """The band told of an untested blend is what the model gives for it."""
    blends = [one for one in trade().blends.values() if len(one.parts) == 2]
    for exercise in of_variant("softening-band", "tables-alone"):
        given, told = exercise.made.given, exercise.made.told[0]
        method = "drop-point" if "drop point" in told else "congealing-point"
        found = [
            estimate(trade(), shares_of(one.parts), method)
            for one in blends
            if list(one.parts.values()) == given["parts"]
        ]
        ends = [(one.low, one.high) for one in found if isinstance(one, Band)]
        # Half of the one decimal that a band is told with, and a hair for a tie.
        assert any(given["band"] == pytest.approx(end, abs=0.0501) for end in ends)


def test_firmer_is_said_as_the_book_says_it():
    """Four in five is 0.84 standard deviations, and the sides are even."""
    # The normal table: 80 of 100 lie below 0.8416; a half width is 1.96. Half of its last digit.
    assert telling_share() == pytest.approx(0.8416 / 1.96, abs=5e-5)
    high, low = DrawnBand("drop-point", 60, 64), DrawnBand("drop-point", 50, 54)
    assert (firmer_of(high, low), firmer_of(low, high)) == FIRMER[:2]
    assert firmer_of(high, high) == CANNOT_TELL


# What decides is clear

# What is held against what, of the answers by their place and of what is given.
HELD = {
    "fits": lambda found, g: (found[0], g["pot_ml"] * g["filled"]),
    "session": lambda found, g: (found[1], g["pot_ml"] * g["filled"]),
    "gap-kept": lambda found, g: (found[0], max(g["limit_mm"], g["limit_share"] * g["free_mm"])),
    "opens-enough": lambda found, g: (found[0], g["asked"]),
    "window": lambda found, g: (found[0], g["overhang_mm"]),
    "no-valve": lambda found, g: (found[0], g["rule"][2]),
    "kept-under": lambda found, g: (found[0], g["kept_percent"]),
    "whole-day": lambda found, g: (found[0], g["limit_ppm"]),
    "bigger-rag": lambda found, g: (found[1], g["bigger_ml"]),
    "air-needed": lambda found, g: (found[1], g["window_h"]),
}


def test_no_choice_hangs_on_the_last_digit():
    """What decides lies a twentieth and more from what it is held against."""
    met = set()
    for exercise in itertools.chain.from_iterable(map(all_of, TOPICS)):
        given = exercise.made.given
        if given["variant"] not in HELD:
            continue
        asked = [one for one in exercise.made.wanted if isinstance(one, Wanted)]
        value, limit = HELD[given["variant"]]([one.value for one in asked], given)
        last = max(10.0**-one.places / one.value for one in asked)
        assert abs(value - limit) / max(value, limit) > 0.95 * CLEAR - last, exercise
        met.add(given["variant"])
    assert met == set(HELD)


# Helpers


def test_near_a_limit_is_silly():
    """A twentieth to either side no choice is asked; farther off it is one or the other."""
    assert over(106, 100)
    assert not over(94, 100)
    for value in (95.1, 100, 104.9):
        with pytest.raises(Silly):
            over(value, 100)


def test_near_a_whole_number_nothing_is_counted():
    """A count that a rounded step could turn is drawn again."""
    assert (whole_up(4.3), whole_down(4.7)) == (5, 4)
    for value in (4.0, 4.97, 40.3):
        with pytest.raises(Silly):
            whole_up(value)
        with pytest.raises(Silly):
            whole_down(value)


def test_strips_side_by_side():
    """As many as fit with the gap between each two, none for what does not fit once."""
    assert side_by_side(100, 24.85, 0.2) == 4  # 4 x 24.85 + 3 x 0.2 = 100
    assert side_by_side(99.9, 24.85, 0.2) == 3
    assert side_by_side(20, 24.85, 0.2) == 0


def test_a_line_of_working():
    """Words, what is reckoned, the result to four figures; a sum as fine as its largest number."""
    assert step("Wax", "957 × 0.81", 775.17, "g") == "Wax: 957 × 0.81 = 775.2 g."
    assert step("To buy", "214 − 130", 83.966, "g") == "To buy: 214 − 130 = 84 g."
    assert step("Share", "1 / 3", 1 / 3) == "Share: 1 / 3 = 0.3333."
    assert short(0) == "0"


def test_a_tolerance_grows_with_the_steps():
    """Who rounds three steps has more room than who rounds one."""
    rooms = [number("Wax", 400, "g", 0, grade).tolerance for grade in GRADES]
    assert rooms[0] < rooms[1] < rooms[2] < 10


def test_an_answer_that_is_told_is_drawn_again():
    """A key that stands among the numbers of the task, to its last place, is silly."""
    asked = number("Wax", 41.96, "g", 1, ONE_STEP)
    with pytest.raises(Silly):
        finished(Made(("42 g.",), (asked,), "", ("",), {"mass": 42.0}))
    with pytest.raises(Silly):
        finished(Made(("1 g.",), (number_asked("Wax", 5e6, "g", 0),), "", ("",), {}))
    assert finished(Made(("43 g.",), (asked,), "", ("",), {"mass": [43.0], "of": "wax"}))
