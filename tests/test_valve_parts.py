"""The limits of valves on a leaf: each with its value, what it does and what it rests on."""

from __future__ import annotations

import dataclasses

import pytest

from formulas.catalog import load
from formulas.fault import UnknownName
from site_builder.markup.elements import plain
from site_builder.parts.registry import inline, place
from site_builder.parts.valve_parts import limit_words


def test_every_limit_is_tabled_with_its_basis():
    """A limit that is not named is not left out, and none stands without a basis."""
    catalog = load()
    (table,) = place(catalog, "limits", "all")
    rows = table.findall(".//tr")[1:]
    assert len(rows) == len(catalog.valve_limits)
    for row, limit in zip(rows, catalog.valve_limits.values(), strict=True):
        assert limit.what in plain(row)
        assert row.find(".//basis") is not None


# A limit of two parts says which counts; a share of periods is counted, not in percent.
WORDS = [
    ("gap-playing", "0.5 mm or 2 % of the free length, whichever is more"),
    ("choke-soft", "25 % at 50 Pa"),
    ("delay", "10 ms or 3 periods of the note, whichever is more"),
    ("shut-pressure", "20 % of the softest pressure"),
    ("slap", "2 times that of a good example"),
    ("free-space", "80 % of the room over it at 1000 Pa"),
    ("no-valve-gap", "3 mm²"),
]


@pytest.mark.parametrize(("name", "words"), WORDS)
def test_a_limit_is_worded_as_it_counts(name, words):
    """The words of a limit follow from its row."""
    assert limit_words(load().limit(name)) == words


def test_a_limit_from_an_instrument_names_it():
    """A shop's own limit shows the instrument it was taken from."""
    catalog = load()
    own = dataclasses.replace(
        catalog.limit("gap-playing"), basis="measured", instrument="concert organ of the shop"
    )
    changed = dataclasses.replace(catalog, valve_limits={own.id: own})
    (table,) = place(changed, "limits", "gap-playing")
    assert "concert organ of the shop" in plain(table)


def test_a_limit_stands_in_running_text():
    """A sentence places a limit by its id, and a wrong id names those near."""
    catalog = load()
    assert plain(inline(catalog, "limit:bulge")) == "0.1 mm at 1500 Pa"
    with pytest.raises(UnknownName, match="bulge"):
        inline(catalog, "limit:bulg")
    with pytest.raises(UnknownName):
        place(catalog, "limits", "no-such-limit")


def test_postures_are_tabled_by_face():
    """Each posture has its share for the inside and the outside valve."""
    catalog = load()
    (table,) = place(catalog, "postures", "")
    assert len(table.findall(".//tr")) == 1 + len(catalog.postures)
