"""`valves` as a repairer types it: a rank, a note, a slot, and what is refused."""

from __future__ import annotations

import json
import re

import pytest
from click.testing import CliRunner

from site_builder.commands import main

RANKS = ["low", "middle", "middle-second", "high", *(f"bass-{n}" for n in range(1, 6))]


def run(*words):
    """Run `valves` and give its result."""
    return CliRunner().invoke(main, ["valves", *words])


@pytest.mark.parametrize("rank", RANKS)
def test_every_rank_of_the_instrument_is_answered(rank):
    """Each rank gives a line a plate or a slot, and says how the two valves share a note."""
    found = run("--rank", rank)
    assert found.exit_code == 0
    plates = 12 if rank.startswith("bass") else 41
    lines = re.findall(r"^  ([A-G][#b]?\d) +(both|in|out) ", found.stdout, re.M)
    assert sum(2 if face == "both" else 1 for _, face in lines) == 2 * plates
    assert "Two valves decide each note" in " ".join(found.stdout.split())


def test_a_few_slots_come_with_their_reasons():
    """One note of a rank shows what was found beside each limit, for both valves of its plate."""
    text = " ".join(run("--rank", "middle", "--note", "C4").stdout.split())
    assert "C4, inside:" in text
    assert "C4, outside:" in text
    assert "nearest limit:" in text
    assert "gap at rest as played:" in text


def test_one_slot_is_answered_in_inches_as_in_millimetres():
    """The same slot typed in either unit gets the same stock."""
    metric, us = (
        json.loads(run("--slot", size, "--sounds", "A3", "--json").stdout)["answer"]["reeds"][0]
        for size in ("30.48x3.81mm", "1.2x0.15in")
    )
    assert metric["choice"] == us["choice"]
    assert metric["droop"]["estimate"] == pytest.approx(us["droop"]["estimate"], rel=1e-9)


WRONG = [
    (("--rank", "middle", "--slot", "30x3mm"), "say what in one way"),
    ((), "say what in one way"),
    (("--slot", "30x3mm"), "--sounds C4"),
    (("--slot", "30 by 3", "--sounds", "A3"), "length and width with one unit"),
    (("--slot", "30x3mm", "--sounds", "H3"), "German H"),
    (("--slot", "3x30mm", "--sounds", "A3"), "slot"),
    (("--slot", "30x3mm", "--sounds", "A3", "--droop", "2mm"), "name its --stock"),
    (("--rank", "midle"), "did you mean 'middle'"),
    (("--rank", "middle", "--droop", "2mm"), "--droop goes with --slot"),
    (("--slot", "30x3mm", "--sounds", "A3", "--note", "A3"), "--note goes with --rank"),
    (("--rank", "middle", "--kind", "lether"), "did you mean 'leather'"),
]


@pytest.mark.parametrize(("words", "said"), WRONG)
def test_what_cannot_be_answered_is_refused_and_says_why(words, said):
    """A wrong call leaves with 2 and names what is accepted."""
    found = run(*words)
    assert found.exit_code == 2
    assert said in " ".join(found.stderr.split())


def test_the_kind_of_stock_can_be_chosen():
    """Asked for film, only film is named; asked for any, at least as wide a margin is kept."""
    by_kind = {
        kind: json.loads(run("--rank", "middle", "--kind", kind, "--json").stdout)["answer"][
            "reeds"
        ]
        for kind in ("leather", "film", "any")
    }
    for leather, film, best in zip(*by_kind.values(), strict=True):
        assert not (film["choice"] or "").startswith("sheep")
        if leather["choice"] and best["choice"] and leather["kind"] == best["kind"]:
            assert best["margin"] >= leather["margin"] * (1 - 1e-12)
