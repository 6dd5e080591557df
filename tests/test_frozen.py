"""What a frozen thing is: in all that is asked of it, the library's own frozen dataclass."""

from __future__ import annotations

import copy
import dataclasses
import functools
import pickle
from dataclasses import FrozenInstanceError, dataclass, field
from typing import Any

import pytest

from formulas.frozen import Frozen


class Lot(Frozen):
    """A lot of wax, as we write such things."""

    lot: str
    grams: float
    note: str = ""
    weights: list[float] = field(default_factory=list)

    @functools.cached_property
    def kilograms(self) -> float:
        """A value that is no field."""
        return self.grams / 1000


@dataclass(frozen=True)
class LibraryLot:
    """The same lot, as the library makes it."""

    lot: str
    grams: float
    note: str = ""
    weights: list[float] = field(default_factory=list)


WAYS: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    (("BW-1", 400.0, "from the north", [1.0]), {}),
    (("BW-1", 400.0), {}),
    (("BW-1",), {"grams": 400.0}),
    ((), {"grams": 400.0, "lot": "BW-1", "weights": [2.0]}),
    ((), {"weights": [2.0], "note": "n", "grams": 400.0, "lot": "BW-1"}),
]
WRONG: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    ((), {}),
    (("BW-1",), {}),
    (("BW-1",), {"lot": "BW-2", "grams": 1.0}),
    (("BW-1", 1.0, "", [], 5), {}),
    (("BW-1", 1.0), {"gram": 1.0}),
]


@pytest.mark.parametrize("way", range(len(WAYS)))
def test_it_is_made_shown_and_taken_apart_as_the_librarys(way):
    """Values by place, by name and by default stand in the same fields, in the same order."""
    args, values = WAYS[way]
    ours, theirs = Lot(*args, **values), LibraryLot(*args, **values)
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
    assert list(dataclasses.asdict(ours)) == list(dataclasses.asdict(theirs))
    assert dataclasses.astuple(ours) == dataclasses.astuple(theirs)
    assert repr(ours) == repr(theirs).removeprefix("Library")
    changed = dataclasses.replace(ours, grams=1.5), dataclasses.replace(theirs, grams=1.5)
    assert dataclasses.astuple(changed[0]) == dataclasses.astuple(changed[1])


@pytest.mark.parametrize("way", range(len(WRONG)))
def test_what_the_library_refuses_is_refused(way):
    """A value too many, one too few, one twice, and a name that is no field."""
    args, values = WRONG[way]
    for kind in (LibraryLot, Lot):
        with pytest.raises(TypeError):
            kind(*args, **values)


def test_two_are_equal_where_class_and_values_are():
    """Equal ones have one hash; another class with the same values is another thing."""

    class Other(Frozen):
        """As many values as a lot."""

        lot: str
        grams: float

    class Bare(Frozen):
        """Two values that can be told apart by hash."""

        lot: str
        grams: float

    assert Bare("a", 1.0) == Bare("a", 1.0)
    assert hash(Bare("a", 1.0)) == hash(Bare("a", 1.0))
    assert Bare("a", 1.0) != Bare("a", 2.0)
    assert Bare("a", 1.0) != Other("a", 1.0)
    assert len({Bare("a", 1.0), Bare("a", 1.0), Bare("b", 1.0)}) == 2
    with pytest.raises(TypeError):
        hash(Lot("a", 1.0))  # it holds a list, which has none


def test_a_value_that_was_worked_out_makes_no_difference():
    """It is kept, and is no field: neither equality nor hash nor print ask for it."""
    plain, asked = Lot("a", 1.0), Lot("a", 1.0)
    assert asked.kilograms == 0.001
    assert plain == asked
    assert asked == plain
    assert repr(plain) == repr(asked)
    assert asked != Lot("a", 2.0)
    assert dataclasses.replace(asked, grams=2.0).kilograms == 0.002


def test_nothing_of_it_is_changed_or_taken_away():
    """Neither a field nor anything else."""
    lot = Lot("a", 1.0)
    for name in ("lot", "kilograms", "new"):
        with pytest.raises(FrozenInstanceError):
            setattr(lot, name, 2.0)
    with pytest.raises(FrozenInstanceError):
        del lot.lot
    assert lot == Lot("a", 1.0)


def test_a_default_that_is_made_is_made_for_each():
    """Two lots never share a list."""
    first, second = Lot("a", 1.0), Lot("a", 1.0)
    assert first.weights == second.weights == []
    assert first.weights is not second.weights


@pytest.mark.parametrize("asked", ["repr", "compare", "init", "hash", "kw_only", "post_init"])
def test_a_class_that_asks_for_more_is_refused(asked):
    """Nothing that a dataclass may ask for is passed over in silence."""
    body: dict[str, Any] = {"__annotations__": {"lot": str}}
    if asked == "post_init":
        body["__post_init__"] = lambda _: None
    else:
        body["lot"] = field(**{asked: asked in {"hash", "kw_only"}})
    with pytest.raises(TypeError, match="use @dataclass"):
        type("Wanting", (Frozen,), body)


def test_a_copy_is_an_equal():
    """Whether copied in memory or written and read."""
    lot = Lot("a", 1.0, weights=[1.0])
    assert copy.deepcopy(lot) == copy.copy(lot) == pickle.loads(pickle.dumps(lot)) == lot
    assert copy.deepcopy(lot).weights is not lot.weights
