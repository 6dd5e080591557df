"""What a pot is refused for, and the words that say why."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from formulas.catalog import Catalog
from formulas.fault import FormulasError
from formulas.formula import procedure

HEATERS = ("bath", "thermostat", "hot-plate", "flame")

SOLVENTS = tuple(
    re.findall(
        r"\w+",
        """acetone alcohol benzine butanol ethanol ether gasoline heptane hexane isopropanol
        kerosene limonene methanol naphtha petrol propanol solvent spirit spirits thinner
        toluene turpentine turps xylene""",
    )
)
BALSAMS = ("venice-turpentine", "larch-turpentine", "strasbourg-turpentine")

REASONS = {
    "solvent": "{what} is a solvent. {caution}",
    "flame": (
        "a bare flame under wax has no limit, and lights what runs over. Use a water bath on an"
        " electric heater, or a pot with a thermostat and a separate cut-out."
    ),
    "hot-plate": (
        "a hot plate without a thermostat has no limit: the wax at the bottom is far hotter than"
        " the thermometer shows. Use a water bath, or a pot with a thermostat and a separate"
        " cut-out."
    ),
    "wet": (
        "the pot, or what goes into it, is wet. Water under hot wax turns to steam all at once,"
        " and the pot erupts. Dry it first, inside and out."
    ),
    "from-bath": (
        "a pot from the water bath does not go onto direct heat as it is. Water on it or under"
        " the wax turns to steam all at once, and the pot erupts. Wipe it dry outside and inside"
        " the rim, then say so."
    ),
    "bath": (
        "{to} cannot be reached in a water bath, which stays below {limit}. Sieve crushed rosin in"
        " small lots into the wax at holding heat, {holding}, and stir each lot clear: that takes"
        " longer. Or use a pot with a thermostat and a separate cut-out."
    ),
    "ceiling": "{to} lies above {what}, {limit}{also}. The windows are: {windows}.",
    "floor": "{to} lies below the floor of {what}, {limit}. The windows are: {windows}.",
    "empty": (
        "nothing keeps this blend molten below {what}, {limit}: by the tables its floor lies at"
        " {floor}. The windows are: {windows}."
    ),
}
"""Why a pot is refused, by the key of the reason; the page says the same words."""


class HeatRefused(FormulasError, ValueError):
    """A pot that is not to be heated as asked, with the key of the reason and its words."""

    def __init__(self, reason: str, **facts: str) -> None:
        self.reason, self.facts = reason, facts
        super().__init__(f"Refused: {said(reason, facts)}")


ALSO = ", and above {what}, {limit}"
"""Added for each further ceiling that a heat lies above."""


def said(reason: str, facts: Mapping[str, str]) -> str:
    """Give the words of a reason with its facts put in."""
    words = REASONS[reason]
    for name, text in facts.items():
        words = words.replace(f"{{{name}}}", text)
    return words


@procedure("What a heat is refused for")
def heat_verdict(
    goal: float,
    floor: float,
    ceiling: float,
    bath: bool,
    bath_ceiling: float,
) -> str:
    """Give the key of the reason, or nothing. A bath stays below its ceiling, not at it."""
    if floor > ceiling + 1e-9:
        return "bath" if bath and ceiling >= bath_ceiling - 1e-9 else "empty"
    if bath and goal >= bath_ceiling - 1e-9:
        return "bath"
    if goal > ceiling + 1e-9:
        return "ceiling"
    return "floor" if goal < floor - 1e-9 else ""


@procedure("Whether a heat lies above a limit")
def lies_above(goal: float, limit: float) -> bool:
    """Say so, past what a change of scale leaves."""
    return goal > limit + 1e-9


def refuse_solvents(catalog: Catalog, names: Sequence[str]) -> None:
    """Raise HeatRefused where a name is a solvent's; a balsam called turpentine is none."""
    for name in names:
        words = set(name.lower().replace("_", "-").replace(" ", "-").split("-"))
        if name.lower() not in BALSAMS and words.intersection(SOLVENTS):
            caution = catalog.cautions["solvent-and-heat"]
            raise HeatRefused("solvent", what=name, caution=f"{caution.title} {caution.text}")
