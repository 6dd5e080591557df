"""What a test of a stock still lacks, in the order in which it tells most."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.valves.ramp import UNLIKE

ALL_READ = 0
FIRST_STRIP = 1
OTHER_WAY = 2
SORT = 3
SOFT_FACE = 4
OTHER_END = 5
MORE_STRIPS = 6
WEIGH = 7
WEIGH_MORE = 8
ACROSS = 9
THICKNESS = 10
"""The codes of `next_reading`."""


@procedure("The reading to make next")
def next_reading(
    test_verdicts: Sequence[int],
    strips_read: int,
    both_faces: int,
    both_ends: bool,
    strips_asked: int,
    mass_error: float,
    mass_asked: float,
    across: bool,
    thickness: bool,
) -> int:
    """Give the code of what to do next. `mass_error` is the half band as a share, below nought
    where nothing was weighed; `strips_read` is nought where no strip was pushed.
    """
    if strips_read == 0:
        return FIRST_STRIP
    if len([one for one in test_verdicts if one != UNLIKE]) > 0:
        return OTHER_WAY
    if len(test_verdicts) > 0:
        return SORT
    if both_faces == 0:
        return SOFT_FACE
    if not both_ends:
        return OTHER_END
    if mass_error < 0:
        return WEIGH
    if mass_error > mass_asked:
        return WEIGH_MORE
    if strips_read < strips_asked:
        return MORE_STRIPS
    if not across:
        return ACROSS
    return ALL_READ if thickness else THICKNESS
