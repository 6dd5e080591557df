"""Which seat for a plate: every reason for and against each, the verdict, the order.

One reason counts one. The heaviest decides the verdict; within a verdict the order is by reasons
for less reasons against. There are no other weights.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formulas.formula import procedure

SEAT_WAS_THERE = 2
SEAT_FOR = 1
SEAT_TOLD = 0
SEAT_AGAINST = -1
SEAT_NOT_KNOWN = -2
SEAT_NEVER = -3

KEEP_IT = 0
SEAT_MAY = 1
SEAT_WITH_CARE = 2
SEAT_TRY_FIRST = 3
SEAT_LAST = 4
SEAT_NOT_HERE = 5

NOT_KNOWN_CODE = -1
ANSWER_NO = 0
ANSWER_SOME = 1
ANSWER_YES = 2

SEAT_FACTS = (
    "fits the form",
    "suits the metal",
    "suits the block",
    "in heat",
    "in cold",
    "in damp",
    "in travel",
    "reversible",
    "later wax",
    "tight",
    "holding",
    "last resort",
    "refused",
    "of wax",
    "found here",
)
"""The order of a row of facts. The first three and the last three are 0 or 1, and so are last
resort and refused; answers are -1 not known, 0 no, 1 some, 2 yes; grades run from 1 to 3, 0 is not
known."""
SEAT_ASKED = ("service", "keep", "later wax", "heavy", "found")
"""What is asked: service 0 indoors, 1 hot, 2 cold, 3 damp, 4 travel; wishes 0 or 1; whether the
metal is a heavy one; found 0 not known, 1 and it held, 2 and it failed."""
SEAT_WORDS = (
    "forms",
    "metals",
    "blocks",
    "refused",
    "form asked",
    "metal asked",
    "block asked",
    "service asked",
    "never",
    "undone by",
)
"""The words that go with a row: what it takes, why it is refused, what was asked."""


@procedure("Whether a word stands among others; none means any")
def named_among(word: str, names: Sequence[str]) -> int:
    """Give 1 where it does, or where there are none, and 0 where it does not.

    >>> named_among("zinc", ["brass", "zinc"]), named_among("zinc", []), named_among("a", ["b"])
    (1, 1, 0)
    """
    if len(names) == 0:
        return 1
    return 1 if sum(1 for one in names if one == word) > 0 else 0


@procedure("Words joined with commas")
def listed_words(names: Sequence[str]) -> str:
    """Join names.

    >>> listed_words(["brass", "steel"])
    'brass, steel'
    """
    said = ""
    for one in names:
        said = one if said == "" else said + ", " + one
    return said


@procedure("Whether the seat goes with plate, metal and block")
def fitting_reasons(seat_row: Sequence[float], seat_said: Sequence[str]) -> list[list[Any]]:
    """Give what forbids it: another form, metal or block than it takes, or that it is refused."""
    found: list[list[Any]] = []
    if seat_row[12] > 0:
        found.append([SEAT_NEVER, "refused under any plate: " + seat_said[3]])
    if seat_row[0] < 1:
        found.append(
            [SEAT_NEVER, "made for a plate of the form " + seat_said[0] + ", not " + seat_said[4]]
        )
    if seat_row[1] < 1:
        found.append([SEAT_NEVER, "found with " + seat_said[1] + ", not with " + seat_said[5]])
    if seat_row[2] < 1:
        found.append([SEAT_NEVER, "needs a seat of " + seat_said[2] + ", not of " + seat_said[6]])
    return found


@procedure("What was found, as a reason")
def found_reasons(seat_row: Sequence[float], seat_asked: Sequence[float]) -> list[list[Any]]:
    """Keep the maker's method unless it failed; what is only a repairer's is told as such."""
    found: list[list[Any]] = []
    here = seat_row[14] > 0
    if seat_row[11] > 0 and seat_asked[1] > 0:
        found.append([SEAT_NEVER, "a last resort, and the original is to stay"])
    if here and seat_row[11] > 0:
        found.append(
            [SEAT_AGAINST, "found here, but no maker used it: look for marks of the seat before it"]
        )
    elif here and seat_asked[4] == 1:
        found.append([SEAT_WAS_THERE, "it was there and it held: keep the maker's method"])
    elif here:
        found.append([SEAT_AGAINST, "it was there and it failed: find out why before it goes back"])
    elif seat_asked[1] > 0 and seat_asked[4] == 1:
        found.append([SEAT_AGAINST, "not what was there, and the original is to stay"])
    elif seat_asked[1] > 0 and seat_asked[4] == 0:
        found.append([SEAT_TOLD, "what was there is not said: look for it first"])
    return found


@procedure("An answer of the table, as a reason")
def answer_reason(table_answer: float, about: str, no_weight: int) -> list[Any]:
    """Give the reason of a yes, a partly, a no or a blank."""
    if table_answer == NOT_KNOWN_CODE:
        return [SEAT_NOT_KNOWN, "not known: " + about]
    if table_answer == ANSWER_YES:
        return [SEAT_FOR, about + ": yes"]
    if table_answer == ANSWER_SOME:
        return [SEAT_AGAINST, about + ": only in part"]
    return [no_weight, about + ": no"]


@procedure("Service and wishes, as reasons")
def wish_reasons(
    seat_row: Sequence[float], seat_asked: Sequence[float], seat_said: Sequence[str]
) -> list[list[Any]]:
    """Give what service, wax later on and undoing say."""
    found: list[list[Any]] = []
    service = int(seat_asked[0])
    if service > 0:
        found.append(answer_reason(seat_row[2 + service], "serves " + seat_said[7], SEAT_NEVER))
    if seat_row[13] > 0 and service == 1:
        found.append([SEAT_TOLD, "its wax decides: creep test before it goes there"])
    if seat_row[13] > 0 and seat_asked[3] > 0:
        found.append([SEAT_AGAINST, "a plate of this metal is heavy and asks for a firmer wax"])
    if seat_asked[2] > 0:
        found.append(answer_reason(seat_row[8], "wax can go there later", SEAT_NEVER))
    elif seat_row[8] == ANSWER_NO:
        found.append([SEAT_AGAINST, "wax will not grip there again"])
    about = "comes out without harm (" + seat_said[9] + ")"
    found.append(answer_reason(seat_row[7], about, SEAT_NEVER if seat_asked[1] > 0 else -1))
    return found


@procedure("A grade of the table, as a reason")
def grade_reason(table_grade: float, good: str, fair: str, poor: str, about: str) -> list[Any]:
    """Give the reason of a grade from 1 to 3, or of none."""
    if table_grade == 3:
        return [SEAT_FOR, good]
    if table_grade == 2:
        return [SEAT_TOLD, fair]
    if table_grade == 1:
        return [SEAT_AGAINST, poor]
    return [SEAT_NOT_KNOWN, "not known: " + about]


@procedure("What speaks for a seat and against it")
def seat_reasons(
    seat_row: Sequence[float], seat_asked: Sequence[float], seat_said: Sequence[str]
) -> list[list[Any]]:
    """Give weight and words of each reason, in the order SEAT_FACTS, SEAT_ASKED, SEAT_WORDS.

    Of a seat that is refused, or is for another plate, only that is said.
    """
    found = fitting_reasons(seat_row, seat_said)
    if len(found) > 0:
        return found
    for one in found_reasons(seat_row, seat_asked):
        found.append(one)
    for one in wish_reasons(seat_row, seat_asked, seat_said):
        found.append(one)
    found.append(
        grade_reason(
            seat_row[9],
            "as tight as wax",
            "tight while it is new",
            "always leaks a little",
            "how tight it is",
        )
    )
    found.append(
        grade_reason(
            seat_row[10],
            "holds against blows",
            "holds a plate of usual weight",
            "hardly holds a plate",
            "how well it holds",
        )
    )
    if seat_said[8] != "":
        found.append([SEAT_TOLD, "never for " + seat_said[8]])
    return found


@procedure("Verdict on a seat")
def seat_verdict(seat_weights: Sequence[float], last_resort: float) -> int:
    """Give the verdict that the heaviest reason asks for."""
    if sum(1 for one in seat_weights if one == SEAT_NEVER) > 0:
        return SEAT_NOT_HERE
    if sum(1 for one in seat_weights if one == SEAT_WAS_THERE) > 0:
        return KEEP_IT
    if last_resort > 0:
        return SEAT_LAST
    if sum(1 for one in seat_weights if one == SEAT_NOT_KNOWN) > 0:
        return SEAT_TRY_FIRST
    against = sum(1 for one in seat_weights if one == SEAT_AGAINST)
    return SEAT_WITH_CARE if against > 0 else SEAT_MAY


@procedure("Reasons of one weight, counted")
def reasons_counted(seat_weights: Sequence[float], reason_weight: float) -> int:
    """Count them.

    >>> reasons_counted([1, -1, 1], 1)
    2
    """
    count = 0
    for one in seat_weights:
        if one == reason_weight:
            count += 1
    return count


@procedure("Points of a seat")
def seat_points(seat_weights: Sequence[float]) -> int:
    """Give reasons for less reasons against.

    >>> seat_points([1, 1, -1, 0])
    1
    """
    return reasons_counted(seat_weights, SEAT_FOR) - reasons_counted(seat_weights, SEAT_AGAINST)


@procedure("Seats in order")
def seats_in_order(seat_codes: Sequence[int], seat_sums: Sequence[int]) -> list[int]:
    """Give the places by verdict, then by reasons for less reasons against, then as they stand."""
    places = [place for place in range(len(seat_codes))]  # noqa: C416 - the page's script has it too
    by_points = sorted(places, key=lambda place: -seat_sums[place])
    return sorted(by_points, key=lambda place: seat_codes[place])
