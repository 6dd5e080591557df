"""What must be read with the figures of a room's air."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.air.reckoned import GIVEN

if TYPE_CHECKING:
    from formulas.air.asked import AirTask
    from formulas.air.reckoned import Reckoned
    from formulas.catalog import Catalog

NO_MEASUREMENT = (
    "This reckons one well-stirred room; a nose over the bench breathes more, which is what the"
    " second figure is for. It measures nothing: neither figure is a clearance to work."
)
ALL_OF_IT = (
    "All that was used is taken as evaporated evenly within the time. Poured out and wiped at"
    " once, the first minutes are worse than this."
)
BY_THE_FACE = (
    "What evaporates is reckoned from the wet face, and is never more than what was used. A rag"
    " has many times the face of what it wipes: count it, or leave the face out."
)
ONE_AFTER_ANOTHER = (
    "The tasks are taken one right after another, which fills the room most; --every spaces them."
)
STILL_WET = "Time to clear counts from when jar, rag and wet face are shut away or dry."
NOBODYS_LIMIT = (
    "Limits are for grown and healthy people at work. They are those of the year beside them; the"
    " safety data sheet and whoever is answerable for safety where you are stand above them."
)
FROM_MEMORY = "Limits marked as from memory were not read in the list named: look them up there."
ALIKE = (
    "Where parts of a mixture have a limit each, they are also added up as if all did the same"
    " harm, which is the cautious side."
)
HOW_MUCH_AIR = (
    "Nobody measured the air changes of this room. To find them: read a carbon dioxide meter in"
    " the closed room right after several people have left it, and again every ten minutes; the"
    " logarithm of how much of what it stands above outdoors is gone, by the hours, is the air"
    " changes. A smoke pen shows where air goes and where it stands, and not how much."
)
NO_ROOM = (
    "Without the volume of the room there is no level: measure length, width and height, take off"
    " what large furniture fills, and write it into shop.toml."
)
LENT = "{name}: {how}."


def notes(catalog: Catalog, task: AirTask, found: Reckoned) -> list[str]:
    """Give the notes of an answer, what it is not first."""
    said = [NO_MEASUREMENT, BY_THE_FACE if task.face else ALL_OF_IT]
    if not found.known_room:
        said.append(NO_ROOM)
    if found.changes_by != GIVEN:
        said.append(HOW_MUCH_AIR)
    if task.times > 1 and task.every is None:
        said.append(ONE_AFTER_ANOTHER)
    said += [STILL_WET, NOBODYS_LIMIT]
    if any(one.basis == "memory" for one in found.limits):
        said.append(FROM_MEMORY)
    if len(found.parts) > 1:
        said.append(ALIKE)
    for part in found.parts:
        name = catalog.solvents[part.id].name
        said += [LENT.replace("{name}", name).replace("{how}", how) for how in part.told]
    return said
