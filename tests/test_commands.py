"""The commands as a person types them: answers, faults, exit codes, cautions."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from formulas.catalog import load
from site_builder.commands import main
from site_builder.places import CONTENT


def run(*words):
    """Run a command and give its result."""
    return CliRunner().invoke(main, list(words))


WAYS = [("--total", "400g"), ("--have", "gum-rosin=85g"), ("--plates", "224")]


@pytest.mark.parametrize("way", WAYS)
def test_mix_answers_in_three_ways(way):
    """The weights of each way add up to the total that is printed."""
    found = json.loads(run("mix", "beeswax-rosin-4-1", *way, "--json").stdout)["answer"]
    weights = [part["mass"]["value"] for part in found["components"]]
    assert round(sum(weights), 1) == found["total"]["value"]
    assert {"total", "components", "softening", "hot_volume", "pot", "cost"} <= set(found)
    assert set(found["softening"]) == {"low", "estimate", "high", "unit", "method"}


def test_mix_prints_what_to_weigh():
    """The text has each weight, the share really weighed and the shop it is for."""
    text = run("mix", "beeswax-rosin-4-1", "--total", "400g").stdout
    assert "Gum rosin" in text
    assert "80.0 g" in text
    assert "weighed 20.00 %" in text
    assert "Three Lanterns Bench (invented demo shop)" in text


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("form", [(), ("--json",)])
def test_cautions_are_never_hidden_by_a_pipe(way, form):
    """Standard error has every caution of the command, whatever becomes of the answer."""
    error = run("mix", "beeswax-rosin-4-1", *way, *form).stderr
    wanted = load(CONTENT / "demo-shop").cautions_for("mix")
    assert len(wanted) > 10
    said = " ".join(error.split())
    assert all(caution.title in said for caution in wanted)


def test_json_carries_the_cautions_in_full():
    """A program that reads the answer gets the words of each caution too."""
    found = json.loads(run("soften", "beeswax-rosin-4-1", "--json").stdout)
    assert {"answer", "inputs", "basis", "cautions"} <= set(found)
    assert all(caution["text"] for caution in found["cautions"])


def test_a_ratio_of_one_s_own():
    """Parts given one by one stand for a blend of no name."""
    words = ("--parts", "beeswax-white=9", "--parts", "gum-rosin=1", "--total", "100 g")
    found = json.loads(run("mix", *words, "--json").stdout)
    assert [part["mass"]["value"] for part in found["answer"]["components"]] == [90, 10]


WRONG = [
    (("mix", "beeswax-rosn-4-1", "--total", "400g"), "did you mean 'beeswax-rosin-4-1'?"),
    (("mix", "beeswax-rosin-4-1", "--total", "400"), "accepted: a number with a unit"),
    (("mix", "beeswax-rosin-4-1", "--total", "4 furlongs"), "found '4 furlongs'"),
    (("mix", "beeswax-rosin-4-1"), "say how much in one way"),
    (("mix", "beeswax-rosin-4-1", "--total", "1g", "--plates", "3"), "say how much in one way"),
    (("mix", "--total", "400g"), "name one blend"),
    (("mix", "beeswax-rosin-4-1", "--have", "gum-rosin"), "as gum-rosin=85g"),
    (("soften", "beeswax-rosin-4-1", "--method", "drop-pont"), "did you mean 'drop-point'?"),
    (("soften", "beeswax-rosin-4-1", "--target", "62 g"), "such as 62 °C or 144 °F"),
    (("build", "--shop", "no-such-folder"), "does not exist"),
]


@pytest.mark.parametrize(("words", "said"), WRONG)
def test_a_wrong_call_says_what_is_accepted(words, said):
    """A call that cannot be taken ends with 2, one message and no answer."""
    result = run(*words)
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""


@pytest.mark.parametrize("command", ["start", "check", "build", "mix", "soften"])
def test_every_command_shows_an_example(command):
    """The help of each command ends with a line to copy."""
    assert f"Example: benchbinder {command}" in run(command, "--help").stdout


def test_check_reports_faults_as_json(tmp_path):
    """`check --json` gives each fault by file, row, column, what was found and accepted."""
    run("start", str(tmp_path / "shop"))
    with (tmp_path / "shop" / "prices.csv").open("a") as file:
        file.write("gum-rosn,9,1,kg,,measured,\n")
    result = run("check", "--shop", str(tmp_path / "shop"), "--json")
    assert result.exit_code == 1
    fault = json.loads(result.stdout)["answer"]["faults"][0]
    assert (fault["file"], fault["column"], fault["found"]) == ("prices.csv", "item", "gum-rosn")
    assert set(fault) == {"file", "row", "column", "found", "accepted"}


def test_check_finds_no_fault_in_the_demo_shop():
    """The demo shop and the handbook's own words are without fault."""
    result = run("check")
    assert result.exit_code == 0
    assert "no fault" in result.stdout


def test_us_shops_read_ounces_and_fahrenheit(tmp_path):
    """A shop with an ounce scale is answered in ounces, and in degrees Fahrenheit."""
    run("start", str(tmp_path / "shop"))
    settings = tmp_path / "shop" / "shop.toml"
    text = settings.read_text().replace('"metric"', '"US"').replace('"0.1 g"', '"0.05 oz"')
    settings.write_text(text)
    text = run(
        "mix", "beeswax-rosin-4-1", "--total", "14oz", "--shop", str(tmp_path / "shop")
    ).stdout
    assert "14.00 oz" in text
    assert "11.20 oz" in text
    assert "°F by drop point" in text
