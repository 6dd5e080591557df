"""Answer for a pot on heat: its window and ceilings, energy and time, pot, sink and top-up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from formulas.answer import Answer, Basis, Quantity, Unknown
from formulas.catalog import Catalog
from formulas.entries import Figure
from formulas.fault import OutOfRange, UnknownName
from formulas.melting.pot import Heating, pot_answer
from formulas.melting.refusals import (
    ALSO,
    HEATERS,
    HeatRefused,
    heat_verdict,
    lies_above,
    refuse_solvents,
)
from formulas.melting.thermal import Thermal, thermal
from formulas.melting.windows import (
    POTS,
    PURPOSES,
    Window,
    degrees,
    floor_degrees,
    limits,
    quality_limit,
    spoken_window,
    spoken_windows,
    window,
)
from formulas.units import convert
from formulas.wax.batch import shares_of

TOTALS_G = (0.0, 20000.0)
STARTS = (-20.0, 150.0)  # degC
POWERS = (10.0, 5000.0)  # W
VESSELS_G = (0.0, 20000.0)
BATHS_L = (0.0, 50.0)
WIDTHS_MM = (20.0, 1000.0)
ONE_POT = "one pot at a bench"

STAY = "An estimate of time is no reason to leave the pot: stay from switching on to switching off."
BY_POWER = (
    "Counted at full power and stirred. A thermostat that pauses, a lump or a skin makes it longer;"
    " what decides is the thermometer in the wax and a clear drop on cold glass."
)
MELTS_SAME = "The melt is counted with the specific heat of the solid: no row of its own is known."
GLASS = "takes up heat to get warm and none to melt: it is a glass."
LIQUID = "takes up heat to get warm and none to melt: it is liquid already."
LIMIT_KINDS = (
    "Colour is a limit of quality and governs nothing here; over-temperature is a limit of safety."
)
NO_IRON = Unknown("the heat of an iron", "hold its tip by a thermostat and read it.")
HIGHER_UP = "Higher up in the hills water boils at less heat, and the bath ends lower."


def melt(
    catalog: Catalog,
    parts: Mapping[str, float],
    *,
    total_g: float | None = None,
    purpose: str = "",
    to: float | None = None,
    heating: Heating | None = None,
    width_mm: float | None = None,
    blend: str = "",
) -> Answer:
    """Give heat, time, window, pot, sink and top-up of a pot; temperatures in degC.

    Either `purpose` or `to` is given: a purpose without a heat goes to the floor of its window,
    a heat without a purpose belongs to holding up to the end of that window, else to make-up.
    Raises HeatRefused for a pot that is not to be heated so, OutOfRange for a figure of no use.
    """
    refuse_solvents(catalog, list(parts))
    known = [thermal(catalog, name) for name in parts]
    chosen = _purpose(catalog, purpose, to)
    given = heating if heating and chosen in POTS else Heating()
    _refuse_heater(chosen, given)
    _check(total_g, given, to, width_mm, chosen)
    found = window(catalog, known, chosen, bath=given.bath)
    goal = found.floor if to is None else to
    _refuse_heat(catalog, found, to, given)
    start = catalog.figure("room-heat").high if given.start is None else given.start
    if chosen in POTS and lies_above(start, goal):
        raise OutOfRange("start", start, f"degC up to the heat wanted, {goal:g}", "a pot on heat")
    answer: dict[str, Any] = {
        "purpose": chosen,
        "to": Quantity(goal, "degC"),
        "window": found,
        "ceilings": _ceilings(found),
        "quality_limit": quality_limit(catalog, known),
        "not_known": list(found.unknown),
    }
    basis = [_figure_basis(catalog.figure(PURPOSES[chosen][1]))]
    basis += [Basis(f"ceiling: {one.words}", one.basis, one.source) for one in found.ceilings]
    shares = shares_of(parts)
    if chosen in POTS and total_g is not None:
        answer |= pot_answer(catalog, known, shares, total_g, given, start, goal, width_mm)
        basis += _pot_basis(catalog, known, given)
    else:
        answer |= _no_pot(chosen)
    inputs: dict[str, Any] = {
        "blend": blend,
        "parts": dict(parts),
        "total_g": total_g,
        "purpose": purpose,
    }
    inputs |= {"to": to, "start": start, "heater": given.heater, "power_w": given.power_w}
    inputs |= {"vessels": [list(one) for one in given.vessels], "bath_l": given.bath_l}
    inputs |= {"width_mm": width_mm, "dried": given.dried}
    notes = _notes(catalog, known, given, chosen)
    return Answer("melt", answer, inputs, _once(basis), catalog.warned("melt"), notes)


def _purpose(catalog: Catalog, purpose: str, to: float | None) -> str:
    if purpose:
        if purpose not in PURPOSES:
            raise UnknownName("purpose", purpose, PURPOSES)
        return purpose
    if to is None:
        raise OutOfRange("heat", 0, "a heat to go to, or what it is for", "one of the two")
    return "holding" if to <= limits(catalog, "holding")[1] else "make-up"


def _refuse_heater(purpose: str, given: Heating) -> None:
    """Refuse what must not stand under wax, and a wet pot on direct heat."""
    if purpose not in POTS:
        return
    if given.heater not in HEATERS:
        raise UnknownName("heater", given.heater, HEATERS)
    if given.heater in {"flame", "hot-plate"}:
        raise HeatRefused(given.heater)
    if given.wet and not given.bath:
        raise HeatRefused("wet")
    if given.from_bath and not given.dried and not given.bath:
        raise HeatRefused("from-bath")


def _check(
    total_g: float | None,
    given: Heating,
    to: float | None,
    width_mm: float | None,
    purpose: str,
) -> None:
    """Raise OutOfRange for what no bench has."""
    _above("total", total_g, TOTALS_G, "g")
    _above("bath", given.bath_l, BATHS_L, "L")
    if given.bath and given.bath_l is None and purpose in POTS:
        raise OutOfRange("bath", 0, "how much water it holds, above 0 L", ONE_POT)
    for name, mass in given.vessels:
        _above(f"vessel of {name}", mass, VESSELS_G, "g")
    _within("power", given.power_w, POWERS, "W")
    _within("start", given.start, STARTS, "degC")
    _within("heat wanted", to, (-20.0, 400.0), "degC")
    _within("inner width", width_mm, WIDTHS_MM, "mm")


def _above(what: str, value: float | None, ends: tuple[float, float], unit: str) -> None:
    if value is not None and not ends[0] < value <= ends[1]:
        raise OutOfRange(what, value, f"{unit} above {ends[0]:g} up to {ends[1]:g}", ONE_POT)


def _within(what: str, value: float | None, ends: tuple[float, float], unit: str) -> None:
    if value is not None and not ends[0] <= value <= ends[1]:
        raise OutOfRange(what, value, f"{unit} from {ends[0]:g} to {ends[1]:g}", ONE_POT)


def _refuse_heat(catalog: Catalog, found: Window, to: float | None, given: Heating) -> None:
    """Refuse a heat outside the window or above a ceiling."""
    governing, goal = found.governing, found.floor if to is None else to
    bath_ceiling = catalog.span("water-bath-ceiling", "degC")[0]
    reason = heat_verdict(goal, found.floor, governing.limit, given.bath, bath_ceiling)
    if not reason:
        return
    low = reason == "floor"
    shown = floor_degrees(catalog, found.floor)
    limit = bath_ceiling if reason == "bath" else governing.limit
    raise HeatRefused(
        reason,
        to=shown if to is None else _as_asked(catalog, to),
        limit=shown if low else degrees(catalog, limit),
        what=PURPOSES[found.purpose][0] if low else governing.words,
        also=_also(catalog, found, goal),
        floor=shown,
        holding=spoken_window(catalog, "holding"),
        windows=spoken_windows(catalog),
    )


def _also(catalog: Catalog, found: Window, goal: float) -> str:
    """Name the further ceilings that a heat lies above."""
    above = [one for one in found.ceilings[1:] if lies_above(goal, one.limit)]
    return "".join(
        ALSO.replace("{what}", one.words).replace("{limit}", degrees(catalog, one.limit))
        for one in above
    )


def _as_asked(catalog: Catalog, celsius: float) -> str:
    """Give a heat as it was asked for, in the unit the shop reads."""
    us = catalog.shop.units == "US"
    return f"{convert(celsius, 'degC', 'degF'):.6g} °F" if us else f"{celsius:.6g} °C"


def _ceilings(found: Window) -> list[dict[str, Any]]:
    return [
        {
            "id": one.id,
            "what": one.words,
            "limit": Quantity(one.limit, "degC"),
            "basis": one.basis,
            "source": one.source,
            "note": one.note,
            "governs": one.id == found.governing.id,
        }
        for one in found.ceilings
    ]


def _no_pot(purpose: str) -> dict[str, Any]:
    if purpose in POTS:
        gone = Unknown("the heat it takes, without a mass", "say how much wax: 400 g, 14 oz.")
    else:
        gone = NO_IRON
    return dict.fromkeys(("energy", "time", "pot", "sink", "top_up"), gone)


def _pot_basis(catalog: Catalog, known: Sequence[Thermal], given: Heating) -> list[Basis]:
    names = ["water-heat", "water-density", "bath-lead"] if given.bath else []
    names += [f"vessel-heat-{name}" for name, _ in given.vessels]
    names += [f"heat-lost-{'bath' if given.bath else 'thermostat'}", "pot-headroom", "melt-margin"]
    return [
        *(basis for one in known for basis in one.basis),
        *(_figure_basis(catalog.figure(name)) for name in names),
    ]


def _figure_basis(figure: Figure) -> Basis:
    return Basis(figure.what, figure.basis, figure.source)


def _once(basis: list[Basis]) -> list[Basis]:
    return list(dict.fromkeys(basis))


def _notes(catalog: Catalog, known: Sequence[Thermal], given: Heating, purpose: str) -> list[str]:
    """Give what must be read with the figures; the safety of the pot stands in the cautions."""
    if purpose not in POTS:
        return [LIMIT_KINDS]
    notes = [STAY, BY_POWER, LIMIT_KINDS, MELTS_SAME]
    notes += [said for one in known if (said := no_melting(catalog, one))]
    notes += [told(catalog, one) for one in known if one.told]
    if given.bath:
        notes.append(HIGHER_UP)
    return notes


def no_melting(catalog: Catalog, one: Thermal) -> str:
    """Say why a material takes no heat to melt; nothing where it takes some."""
    words = LIQUID if one.liquid else GLASS if one.glass else ""
    return f"{catalog.material(one.material).name} {words}" if words else ""


def told(catalog: Catalog, one: Thermal) -> str:
    """Say what is not known of a material and how it was counted."""
    return f"Not known of {catalog.material(one.material).name}: {'; '.join(one.told)}."
