"""What must not share a room with solvent vapour, and the words that say why."""

from __future__ import annotations

HEATS = {
    "hot-plate": (
        "a hot plate",
        "its face is far hotter than many vapours need to light of themselves, and it stays so long"
        " after it is off.",
    ),
    "iron": (
        "a wax iron or soldering iron",
        "its tip is hot enough to light vapour of itself, and its switch makes a spark.",
    ),
    "heat-gun": (
        "a heat gun",
        "its wire glows, and it draws the vapour of the room over that wire.",
    ),
    "flame": (
        "a flame, a pilot light or a cigarette",
        "vapour runs along the floor to it and the fire runs back to the jar.",
    ),
    "pot": (
        "a pot of wax on heat",
        "its heater and its switch light vapour, and solvent never goes into hot wax: a pot with"
        " solvent in it is not heated at all.",
    ),
    "ultrasonic-bath": (
        "an ultrasonic bath",
        "it makes mist and warmth, and its works are not built for vapour: nothing that burns goes"
        " into it or beside it.",
    ),
    "static": (
        "static: a nylon smock, a carpet, film pulled off a roll, a plastic jug",
        "a spark that nobody feels is enough for vapour at its worst.",
    ),
    "switch": (
        "a switch, a motor, a fan or a charger that is not built for vapour",
        "each switching makes a spark, and a fan draws the vapour over it.",
    ),
}
"""What lights vapour: its name, and why it does, by its id."""

NO_FIGURE = (
    "Take it out of the room, switch it off outside, let it go cold, and clear the room first."
    " The figures below lift nothing of this."
)
ASKED = (
    "No source of heat or sparks was named. Look for them all the same: {names}. Name what is"
    " there, and it is refused."
)


REFUSED = f"Refused: {{what}} and solvent vapour do not share a room: {{why}} {NO_FIGURE}"


def refusal(name: str) -> str:
    """Say why solvent is refused while this stands in the room."""
    what, why = HEATS[name]
    return REFUSED.replace("{what}", what).replace("{why}", why)


def asked_for() -> str:
    """Say what was not named and has to be looked for."""
    return ASKED.replace("{names}", "; ".join(what for what, _ in HEATS.values()))
