"""The gentlest way that takes something off: dry first, then solvents in order, with reasons.

A solvent is refused where it eats what stands near, where there is heat in the room and it burns,
or where it does not take off what is asked. A blank of the table is never a yes.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.air.over_a_jar import REACHES, flash_and_room
from formulas.air.solvents import bench_solvents
from formulas.fault import UnknownName
from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.air_entries import CleaningTask, Solvent
    from formulas.catalog import Catalog

NEAR = {
    "leather": "leather_finish",
    "shellac": "shellac",
    "celluloid": "celluloid",
    "wax": "wax",
    "rosin": "rosin",
}
"""What may stand near, with the column that answers for it."""
NEAR_WORDS = {
    "leather": "the finish of leather",
    "shellac": "shellac",
    "celluloid": "celluloid",
    "wax": "wax that is to stay",
    "rosin": "rosin that is to stay",
}
STEPS = ("wax", "rosin", "shellac")
"""Tasks that are themselves a column: where the table says some, it works slowly."""

MAY, WITH_CARE, TRY_FIRST, REFUSED = range(4)
SAID = ("may", "may, with care", "not known: try it where it is not seen", "refused")


class Way(Frozen):
    """A solvent for a task: its verdict, a place of SAID, and every reason."""

    solvent: Solvent
    verdict: int
    reasons: tuple[str, ...]

    @property
    def said(self) -> str:
        """The verdict in words."""
        return SAID[self.verdict]


def task_of(catalog: Catalog, name: str) -> CleaningTask:
    """Give a task by its id. Raises UnknownName with the nearest."""
    if name not in catalog.cleaning_tasks:
        raise UnknownName("task", name, catalog.cleaning_tasks)
    return catalog.cleaning_tasks[name]


def gentler(
    catalog: Catalog, task: str, near: Sequence[str] = (), heat: bool = False, celsius: float = 20
) -> list[Way]:
    """Give every solvent of the bench for a task: the gentlest first, the refused ones last.

    Raises UnknownName for a task or a neighbour that is not there.
    """
    task_of(catalog, task)
    for one in near:
        if one not in NEAR:
            raise UnknownName("what stands near", one, NEAR)
    ways = [_way(catalog, one, task, near, heat, celsius) for one in bench_solvents(catalog)]
    return sorted(ways, key=lambda way: (way.verdict == REFUSED, way.solvent.gentle))


def _way(
    catalog: Catalog, one: Solvent, task: str, near: Sequence[str], heat: bool, celsius: float
) -> Way:
    if task not in one.tasks:
        return Way(one, REFUSED, (f"does not take off: {catalog.cleaning_tasks[task].name}",))
    found = [_beside(one, name) for name in near if name != task]
    if heat and one.kind != "water":
        found.append((REFUSED, "there is heat in the room, and it burns"))
    if "celluloid" in near and one.kind != "water":
        found.append((WITH_CARE, "none of it on the celluloid itself, which burns like film"))
    if task in STEPS and getattr(one, NEAR[task]) == "some":
        found.append((WITH_CARE, f"works slowly on {task}"))
    if one.kind != "water" and flash_and_room(catalog, one.id, celsius).verdict == REACHES:
        found.append((WITH_CARE, f"its vapour can burn at {celsius:g} °C"))
    verdict = max((weight for weight, _ in found), default=MAY)
    kept = [words for weight, words in found if weight == REFUSED or verdict != REFUSED]
    return Way(one, verdict, tuple(words for words in kept if words))


def _beside(one: Solvent, name: str) -> tuple[int, str]:
    """Give what the table says of a neighbour, as a weight and a reason."""
    answer = getattr(one, NEAR[name])
    if answer == "yes" or (answer == "some" and name == "celluloid"):
        return REFUSED, f"attacks {NEAR_WORDS[name]}"
    if answer == "some":
        return WITH_CARE, f"attacks {NEAR_WORDS[name]} in part: mask it"
    if answer == "no":
        return MAY, f"leaves {NEAR_WORDS[name]} alone, by the table"
    return TRY_FIRST, f"not known what it does to {NEAR_WORDS[name]}"
