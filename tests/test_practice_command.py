"""The command of the practice sheets: questions, the key apart, seeds, faults, the files."""

from __future__ import annotations

import dataclasses
import json
import re

import pypdf
import pytest
from click.testing import CliRunner
from leaf_reading import trade

from formulas.fault import OutOfRange, UnknownName
from formulas.practice.checking import answer_right, spellings
from formulas.practice.exercise import GRADES
from formulas.practice.practice import in_order, practice
from site_builder.commands import main
from site_builder.practice_sheet import on_paper, on_screen
from site_builder.texts.practice import command_line, key_said, text

TOPICS = in_order(trade())


def run(*words):
    """Run the command."""
    return CliRunner().invoke(main, ["practice", *words])


def in_one_line(words):
    """Fold a text into one line."""
    return " ".join(words.split())


# The answer


def test_the_topics_come_in_the_order_of_learning():
    """Without a topic all are asked, `count` of each, the easier exercises first."""
    found = practice(trade(), count=4, seed=3)
    asked = [(one["topic"], one["number"]) for one in found.answer["exercises"]]
    assert asked == [(topic, number) for topic in TOPICS for number in (1, 2, 3, 4)]
    places = [trade().practice_topics[topic].place for topic in TOPICS]
    assert places == sorted(places)
    for topic in TOPICS:
        grades = [one["grade"] for one in found.answer["exercises"] if one["topic"] == topic]
        assert grades == sorted(grades)


def test_the_grades_asked_for_are_the_only_ones():
    """One grade gives that many steps only."""
    found = practice(trade(), [TOPICS[1]], count=3, seed=1, grades=[2])
    assert {one["grade"] for one in found.answer["exercises"]} == {2}
    assert found.inputs == {
        "topics": [TOPICS[1]], "every_topic": False, "count": 3, "seed": 1, "grades": [2],
    }  # fmt: skip


def test_every_range_of_the_topic_is_in_the_basis():
    """The basis names each row a number may be drawn from, with what it rests on."""
    found = practice(trade(), ["alligation"], seed=2)
    rows = [row for row in trade().practice_ranges.values() if row.topic == "alligation"]
    assert len(rows) > 2
    assert [one.basis for one in found.basis] == [row.basis for row in rows]
    assert all(row.what in one.what for one, row in zip(found.basis, rows, strict=True))


def test_bad_calls_are_refused():
    """A topic, a count, a seed and a grade that are none are each told."""
    with pytest.raises(UnknownName, match="did you mean 'alligation'"):
        practice(trade(), ["aligation"])
    with pytest.raises(OutOfRange, match="1 to 100"):
        practice(trade(), count=101)
    with pytest.raises(OutOfRange, match="seed"):
        practice(trade(), seed=-1)
    with pytest.raises(OutOfRange, match=r"grade: found 4, accepted: 1 to 3"):
        practice(trade(), grades=[4])


def test_cautions_belong_to_the_topics():
    """Vapour is warned of where a room is reckoned, hot wax where wax is; `defer` always."""
    room = {one.id for one in practice(trade(), ["room-air"]).cautions}
    wax = {one.id for one in practice(trade(), ["alligation"]).cautions}
    assert {"vapour-not-safe", "solvent-and-heat", "defer"} <= room
    assert {"hot-wax-burn", "wax-fire", "never-alone", "defer"} <= wax
    assert "vapour-not-safe" not in wax
    assert "hot-wax-burn" not in room
    for topic in TOPICS:
        assert "defer" in {one.id for one in practice(trade(), [topic]).cautions}


def test_every_topic_names_a_command_that_is_there():
    """The command of a topic is one of the command line, so that its cautions can be found."""
    assert {one.command for one in trade().practice_topics.values()} <= main.commands.keys()


# When an answer is right


def test_the_ends_of_the_tolerance_count():
    """12.45 lies 0.05 beside 12.5 though the binary numbers say a little more."""
    assert abs(12.45 - 12.5) > 0.05
    for side, under, over in (("both", True, True), ("below", True, False), ("above", False, True)):
        assert answer_right(12.5, 12.5, 0.05, side)
        assert answer_right(12.45, 12.5, 0.05, side) is under
        assert answer_right(12.55, 12.5, 0.05, side) is over
        assert not answer_right(12.449, 12.5, 0.05, side)
        assert not answer_right(12.551, 12.5, 0.05, side)
        assert not answer_right(-12.5, 12.5, 0.05, side)


def test_the_side_of_a_limit_stands_in_json_and_in_the_key():
    """A limit says on which side alone an answer counts; another number says within what."""
    found = practice(trade(), ["hot-volume"], 8, 3, [2])
    (most,) = {
        json.dumps(one["side"]) for exercise in found.answer["exercises"]
        for one in exercise["wanted"] if one["what"] == "Most wax"
    }  # fmt: skip
    assert json.loads(most) == "below"
    said = "\n".join(
        text(dataclasses.replace(found, inputs={**found.inputs, "key": True}), trade())
    )
    assert re.search(r"Most wax: \d+ g \(right up to [\d.]+ g below, never above\)", said)
    assert re.search(r"A full stick: [\d.]+ g \(right within [\d.]+ g\)", said)
    assert re.search(r"Hot volume: \d+ mL \(right up to [\d.]+ mL above, never below\)", said)
    assert re.search(r"Whole sticks: \d+ \(right exactly\)", said)
    assert "Round down to 1 g." in said


def test_units_are_read_as_people_write_them():
    """Each unit that is asked for has its own name and its printed one among its spellings."""
    assert spellings("g") == ["g", "gramme", "grammes", "grams"]
    assert "°f" in spellings("degF")
    assert "m³" in spellings("m**3")
    assert spellings("1") == []


# The terminal


def test_the_key_stands_apart_after_all_questions():
    """Without --key no key and no working; with it both stand after the last question."""
    words = ["--topic", "ratios", "--count", "5", "--seed", "7"]
    bare, keyed = run(*words), run(*words, "--key")
    assert bare.exit_code == keyed.exit_code == 0
    found = practice(trade(), ["ratios"], 5, 7)
    questions, key = keyed.stdout.split("KEY AND WORKING")
    for one in found.answer["exercises"]:
        for line in one["working"]:
            assert in_one_line(line) not in in_one_line(bare.stdout + questions)
            assert in_one_line(line) in in_one_line(key)
        for wanted in one["wanted"]:
            assert in_one_line(f"{wanted['what']}: {key_said(wanted)}") in in_one_line(key)
        assert in_one_line(" ".join(one["told"])) in in_one_line(questions)
    assert "KEY" not in bare.stdout


def test_the_same_seed_gives_the_same_sheet():
    """Run twice it is the same to the last byte; another seed is another sheet."""
    words = ["--topic", "alligation", "--count", "6"]
    first, again = (run(*words, "--seed", "7", "--json").stdout for _ in range(2))
    assert first == again
    assert run(*words, "--seed", "8", "--json").stdout != first


def test_a_seed_that_was_chosen_is_printed_and_gives_the_sheet_again():
    """Without --seed the line to have it again is printed, and it does give it again."""
    first = run("--topic", "ratios", "--count", "2", "--grade", "3", "--key").stdout
    (line,) = re.findall(r"benchbinder practice (.*)", first)
    assert run(*line.split(), "--key").stdout == first
    assert "--grade 3" in line


def test_json_holds_all_of_it():
    """Each answer has value and unit, each exercise its working and its numbers."""
    found = json.loads(run("--topic", "ratios", "--count", "3", "--seed", "7", "--json").stdout)
    assert [one["topic"] for one in found["answer"]["topics"]] == ["ratios"]
    for one in found["answer"]["exercises"]:
        assert one["told"]
        assert one["working"]
        assert one["given"]
        for wanted in one["wanted"]:
            if "of" in wanted:
                assert wanted["right"] in wanted["of"]
            else:
                assert set(wanted["value"]) == {"value", "unit"}
                assert wanted["side"] in {"both", "below", "above"}
                assert wanted["tolerance"] >= 0.5 * 10 ** -wanted["places"] * (1 - 1e-9)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--topic", "aligation"], "did you mean 'alligation'?"),
        (["--count", "0"], "1<=x<=100"),
        (["--count", "101"], "1<=x<=100"),
        (["--grade", "4"], "1<=x<=3"),
        (["--seed", "-1"], "x>=0"),
        (["--out", "sheet.txt"], "a name that ends in .pdf or .html"),
    ],
)
def test_a_wrong_call_ends_with_two_and_says_what_is_accepted(words, told):
    """What cannot be made is refused, and nothing is written."""
    done = run(*words)
    assert done.exit_code == 2
    assert told in done.stderr


def test_the_line_to_have_it_again_names_what_was_asked():
    """All topics and all grades are not spelt out; some of them are."""
    whole = practice(trade(), count=2, seed=5)
    some = practice(trade(), ["units", "ratios"], 2, 5, [1, 3])
    assert command_line(whole) == "benchbinder practice --count 2 --seed 5"
    assert command_line(some) == (
        "benchbinder practice --topic units --topic ratios --count 2 --seed 5 --grade 1 --grade 3"
    )


# The files


@pytest.mark.parametrize("name", ["sheet.pdf", "sheet.html"])
def test_a_file_that_is_not_ours_is_left_alone(name, tmp_path):
    """A stranger's file is refused and stays; one of ours is written over, same bytes again."""
    words = ["--topic", "ratios", "--count", "2", "--seed", "4", "--out"]
    other = tmp_path / f"other-{name}"
    other.write_bytes(
        b"<!DOCTYPE html><p>a letter" if name.endswith("html") else b"%PDF-1.7 letter"
    )
    before = other.read_bytes()
    refused = run(*words, str(other))
    assert refused.exit_code == 2
    assert "no practice sheet of ours" in refused.stderr
    assert other.read_bytes() == before
    ours = tmp_path / name
    assert run(*words, str(ours)).exit_code == 0
    first = ours.read_bytes()
    assert run(*words, str(ours)).exit_code == 0
    assert ours.read_bytes() == first
    assert str(ours) in run(*words, str(ours)).stdout
    assert {path.name for path in tmp_path.iterdir()} == {other.name, ours.name}


def sides(answer, tmp_path):
    """Give the text of each side of the sheet on paper, as one line."""
    path = tmp_path / "sheet.pdf"
    path.write_bytes(on_paper.pdf(answer, trade()))
    return [in_one_line(one.extract_text()) for one in pypdf.PdfReader(path).pages]


def squeezed(words):
    """Take the blanks out: a PDF has its own."""
    return re.sub(r"\s", "", words)


@pytest.mark.parametrize("topic", TOPICS)
def test_on_paper_the_key_stands_on_sheets_of_its_own(topic, tmp_path):
    """The key begins on a right-hand side; no side of the questions holds a line of a working."""
    answer = practice(trade(), [topic], 5, 7)
    found = sides(answer, tmp_path)
    first = next(place for place, side in enumerate(found) if "key and working" in side)
    assert first % 2 == 0  # counted from nought: sides 1, 3, 5 are fronts of sheets
    questions = [squeezed(one) for one in found[:first]]
    keys = squeezed(" ".join(re.sub(r"Three Lanterns.*?of \d+", "", one) for one in found[first:]))
    for one in answer.answer["exercises"]:
        for line in one["working"]:
            assert not any(squeezed(line) in side for side in questions)
        for wanted in one["wanted"]:
            key = key_said(wanted).partition(" (")[0]
            assert squeezed(key) in keys
        assert any(squeezed(" ".join(one["told"])) in side for side in questions)
    for side in found[:first]:
        assert {"Name", "Date", "Seed 7"} <= {
            word for word in ("Name", "Date", "Seed 7") if word in side
        }
    assert all("Seed 7" in side and "Key" in side for side in found[first:])


def test_all_topics_fit_one_sheet(tmp_path):
    """Every topic has its heading in the questions and in the key."""
    found = " ".join(sides(practice(trade(), (), 1, 2), tmp_path))
    for topic in trade().practice_topics.values():
        assert found.count(topic.name) >= 2


def test_on_a_shop_that_reads_letter_the_paper_is_letter(tmp_path):
    """The paper is that of the shop."""
    own = dataclasses.replace(trade().shop, paper="letter")
    catalog = dataclasses.replace(trade(), shop=own)
    path = tmp_path / "letter.pdf"
    path.write_bytes(on_paper.pdf(practice(catalog, ["ratios"], 1, 1), catalog))
    assert float(pypdf.PdfReader(path).pages[0].mediabox.width) == pytest.approx(612)


def test_the_page_stands_alone():
    """The page of one file names no other file, and holds no working outside its data."""
    answer = practice(trade(), ["ratios"], 4, 7)
    made = on_screen.page(answer, trade()).decode()
    assert not re.findall(r'(?:src|href)="(?!#|data:)[^"]*"', made)
    shown = made.partition("<script>")[0]
    for one in answer.answer["exercises"]:
        assert not [line for line in one["working"] if line in shown]
    assert made == on_screen.page(answer, trade()).decode()


def test_words_of_steps_are_said_not_numbered():
    """The terminal says how many steps an exercise takes."""
    said = "\n".join(text(practice(trade(), ["ratios"], 3, 1), trade()))
    assert all(f"({words})" in said for words in GRADES.values())
