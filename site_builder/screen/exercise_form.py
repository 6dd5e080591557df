"""An exercise as a form of plain HTML elements; the page's script checks what is typed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.practice.checking import spellings
from formulas.practice.exercise import ABOVE, BELOW, BOTH, Wanted
from formulas.units import NUMBER
from site_builder.markup.elements import Content, element, paragraph
from site_builder.markup.unbroken import held
from site_builder.parts.practice_parts import asked_for, by_name, near, shown
from site_builder.screen.html_text import Html, tag

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from site_builder.screen.html_text import RunningText

VARIANTS = 6  # of an exercise, the one that is shown first among them
SAME = "The same numbers from the command line: "
PAST = {
    BOTH: "",
    BELOW: "Not right: it is past the limit. Round down, never up.",
    ABOVE: "Not right: it is too little. Round up, never down.",
}
"""What is said of an answer that would be near enough, but lies to the wrong side of its key."""
NO_SCRIPT = (
    "Checking needs the page's script. Work it on paper: the key with the working stands on the "
    "leaf Practice: the key, or comes behind the questions with the command below and --key."
)


def variants(name: str) -> list[str]:
    """Name an exercise and the ones that its button shows after it: of the seeds that follow.

    Those of one sheet begin each with another.
    """
    topic, grade, seed, place = name.split()
    others = [f"{topic} {grade} {int(seed) + step} 1" for step in range(1, VARIANTS)]
    first = (int(place) - 1) % len(others)
    return [name, *others[first:], *others[:first]]


def written(writer: RunningText, exercise: Element) -> Html:
    """Write an exercise as a form."""
    with writer.set(in_working=True):
        form = writer.element(exercise_form(exercise, writer.catalog))
    return tag("div", form, {"class": "working exercise"})


def exercise_form(exercise: Element, catalog: Catalog) -> Element:
    """Draw one exercise: its task, a field for each answer, what the script fills in."""
    name = exercise.get("name", "")
    own = f"exercise-{name.replace(' ', '-')}"
    asked = [_asked(own, place, wanted) for place, wanted in enumerate(exercise.iterfind("wanted"))]
    return element(
        "form",
        element("p", element("strong", exercise.get("title", "")), **{"class": "named"}),
        element("div", *exercise.findall("p"), **{"class": "task"}),
        element("p", exercise.get("rounding", ""), **{"class": "rounding"}),
        element("div", *asked, **{"class": "asked"}),
        element("noscript", paragraph(NO_SCRIPT)),
        element(
            "p",
            element("button", "Check", type="submit"),
            " ",
            element("button", "Other numbers", type="button", **{"data-other": "yes"}),
            hidden="hidden",
            **{"class": "buttons"},
        ),
        element("p", role="status", **{"class": "message"}),
        element(
            "details",
            element("summary", "Show the way"),
            element("div"),
            hidden="hidden",
            **{"class": "way"},
        ),
        element(
            "p", SAME, element("code", asked_for(by_name(catalog, name))), **{"class": "again"}
        ),
        id=own,
        novalidate="novalidate",
        autocomplete="off",
        **{
            "aria-label": exercise.get("about", ""),
            "data-exercise": "; ".join(variants(name)),
        },
    )


def _asked(own: str, place: int, wanted: Element) -> Element:
    """Draw one answer's field, or its words to choose from, with room for what is said of it."""
    name, what = f"{own}-{place}", wanted.get("what", "")
    words = [word.text or "" for word in wanted.iterfind("word")]
    said = element("p", id=f"{name}-said", **{"class": "said"})
    if words:
        radios = (
            element(
                "label",
                element("input", type="radio", name=name, value=word),
                element("span", word),
            )
            for word in words
        )
        legend = element("legend", what)
        described = {"aria-describedby": f"{name}-said"}
        return element(
            "div",
            element("fieldset", legend, *radios, **{"class": "formchoice", **described}),
            said,
        )
    inner: list[Content] = [
        element("label", what, **{"for": name}),
        " ",
        element(
            "input",
            type="text",
            inputmode="decimal",
            size="7",
            id=name,
            **{"aria-describedby": f"{name}-unit {name}-said"},
        ),
        " ",
        element("span", wanted.get("unit", ""), id=f"{name}-unit", **{"class": "unit"}),
    ]
    return element("div", element("p", *inner, **{"class": "field"}), said)


def page_data(catalog: Catalog, exercises: Iterable[Element]) -> dict[str, Any]:
    """Give what `window.bench_practice` holds: each exercise that can be shown, with its key."""
    names = dict.fromkeys(name for one in exercises for name in variants(one.get("name", "")))
    made = {name: by_name(catalog, name) for name in names}
    units = {
        each.unit for one in made.values() for each in one.made.wanted if isinstance(each, Wanted)
    }
    return {
        "number": NUMBER.pattern,
        "units": {unit: spellings(unit) for unit in sorted(units)},
        "exercises": {
            name: {
                "task": held(" ".join(one.made.told)),
                "rounding": held(one.made.rounding),
                "asked": [_told(each) for each in one.made.wanted],
                "way": [held(line) for line in one.made.working],
                "again": asked_for(one),
                "seed": one.seed,
            }
            for name, one in made.items()
        },
    }


def _told(one: Any) -> dict[str, str | float | Sequence[str]]:
    if not isinstance(one, Wanted):
        return {"what": one.what, "right": one.right, "of": list(one.of)}
    return {
        "what": one.what,
        "unit": one.unit,
        "shown": shown(one).partition(" ")[2],
        "value": one.value,
        "tolerance": one.tolerance,
        "side": one.side,
        "past": PAST[one.side],
        "key": held(shown(one)),
        "near": held(near(one)),
    }
