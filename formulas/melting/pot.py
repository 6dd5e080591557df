"""A pot on its heater: energy and time, how much it shrinks, its sink and its top-up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from formulas.answer import Band, Quantity, Unknown
from formulas.catalog import Catalog
from formulas.fault import UnknownName
from formulas.frozen import Frozen
from formulas.melting.heat import (
    bath_goal,
    bath_kilograms,
    blend_shrinkage,
    cold_volumes,
    component_heat,
    component_kilograms,
    heater_minutes,
    kilojoules,
    latent_least,
    latent_most,
    pot_heat,
    sink_millimetres,
    top_up_amount,
    warm_volume,
)
from formulas.melting.thermal import Thermal
from formulas.wax import mix
from formulas.wax.batch import pot_millilitres

PARTS_OF_HEAT = ("solid", "latent", "melt", "vessel", "bath", "together")
NO_POWER = Unknown("how long it takes, without the heater's power", "it stands on its plate.")
NO_WIDTH = Unknown("how far the surface sinks", "measure the pot's inner width.")
NO_LOSS = "without what is lost"


class Heating(Frozen):
    """How a pot is heated: heater, power, vessels, bath, start and goal; masses in grams."""

    heater: str = ""
    power_w: float | None = None
    vessels: Sequence[tuple[str, float]] = ()
    bath_l: float | None = None
    start: float | None = None
    wet: bool = False
    from_bath: bool = False
    dried: bool = False

    @property
    def bath(self) -> bool:
        """Whether the pot hangs in a water bath."""
        return self.heater == "bath"


def pot_answer(
    catalog: Catalog,
    known: Sequence[Thermal],
    shares: Mapping[str, float],
    total_g: float,
    given: Heating,
    start: float,
    goal: float,
    width_mm: float | None,
) -> dict[str, Any]:
    """Give energy, time, pot, sink and top-up of the wax in one pot."""
    masses = component_kilograms(total_g, list(shares.values()), 0.001)
    ends = [_pot_ends(catalog, known, masses, given, start, goal, end) for end in (0, 1)]
    volume, _ = mix.hot_volume(catalog, dict(zip(shares, masses, strict=True)))
    filled = catalog.span("pot-headroom", "dimensionless")[1]
    shrink = [_shrink(known, masses, end) for end in (0, 1)]
    return {
        "energy": {
            **_energy(ends),
            "components": _components(known, masses, start, goal),
        },
        "time": _time(catalog, ends, given),
        "hot_volume": volume,
        "pot": Quantity(pot_millilitres(volume.high, filled), "mL"),
        "contraction": Band(
            100 * shrink[0][0], None, 100 * shrink[1][0], "percent", "of the hot volume, on setting"
        ),
        "sink": _sink(catalog, shrink, width_mm),
        "top_up": Band(
            top_up_amount(total_g, shrink[0][0]),
            None,
            top_up_amount(total_g, shrink[1][0]),
            "g",
            "to bring the cold block to the hot level",
        ),
    }


def _pot_ends(
    catalog: Catalog,
    known: Sequence[Thermal],
    masses: Sequence[float],
    given: Heating,
    start: float,
    goal: float,
    end: int,
) -> list[float]:
    """Give the least (end 0) or the most (end 1) heat of each part and of all, in joules."""
    water = _water(catalog, given)
    lead = catalog.span("bath-lead", "delta_degC")[end]
    return pot_heat(
        masses,
        [one.heat[end] for one in known],
        [one.latent[end] for one in known],
        [one.melting[0] for one in known],
        [one.melting[1] for one in known],
        start,
        goal,
        [mass / 1000 for _, mass in given.vessels],
        [vessel_heat(catalog, name) for name, _ in given.vessels],
        water,
        catalog.span("water-heat", "J/(kg*K)")[end],
        bath_goal(goal, lead, catalog.span("water-bath-ceiling", "degC")[0]),
        end == 1,
    )


def vessel_heat(catalog: Catalog, name: str) -> float:
    """Give the specific heat of a vessel's material in J/(kg K). Raises UnknownName."""
    names = vessel_materials(catalog)
    if name not in names:
        raise UnknownName("vessel", name, names)
    return catalog.span(f"vessel-heat-{name}", "J/(kg*K)")[0]


def vessel_materials(catalog: Catalog) -> list[str]:
    """Give the materials of vessels whose specific heat stands in the figures."""
    mark = "vessel-heat-"
    return [name.removeprefix(mark) for name in catalog.figures if name.startswith(mark)]


def _water(catalog: Catalog, given: Heating) -> float:
    litres = given.bath_l if given.bath and given.bath_l else 0.0
    return bath_kilograms(litres, 0.001, catalog.span("water-density", "kg/m**3")[1])


def _energy(ends: list[list[float]]) -> dict[str, Band]:
    return {
        name: Band(kilojoules(least), None, kilojoules(most), "kJ", NO_LOSS)
        for name, least, most in zip(PARTS_OF_HEAT, *ends, strict=True)
    }


def _components(
    known: Sequence[Thermal], masses: Sequence[float], start: float, goal: float
) -> list[dict[str, Any]]:
    """Give the heat of each component: solid, latent and melt, least and most."""
    found = []
    for one, mass in zip(known, masses, strict=True):
        counted = (latent_least, latent_most)
        least, most = (
            component_heat(
                mass,
                one.heat[end],
                counted[end](one.latent[end], start, goal, *one.melting),
                start,
                goal,
                one.melting[1],
            )
            for end in (0, 1)
        )
        row: dict[str, Any] = {"material": one.material, "glass": one.glass}
        for place, name in enumerate(PARTS_OF_HEAT[:3]):
            ends = (kilojoules(least[place]), kilojoules(most[place]))
            row[name] = Band(ends[0], None, ends[1], "kJ", NO_LOSS)
        found.append(row)
    return found


def lost_share(catalog: Catalog, *, bath: bool) -> tuple[float, float]:
    """Give the share of the power that is lost to the room, and as steam of an open bath."""
    return catalog.span(f"heat-lost-{'bath' if bath else 'thermostat'}", "dimensionless")


def _time(catalog: Catalog, ends: list[list[float]], given: Heating) -> Band | Unknown:
    if given.power_w is None:
        return NO_POWER
    lost = lost_share(catalog, bath=given.bath)
    least, most = (heater_minutes(ends[k][-1], given.power_w, lost[k]) for k in (0, 1))
    return Band(least, None, most, "min", "at full power, less the share that is lost")


def _shrink(known: Sequence[Thermal], masses: Sequence[float], end: int) -> tuple[float, float]:
    """Give the share that a blend loses, and its hot volume in m3, at one end."""
    volumes = cold_volumes(masses, [one.density[1 - end] for one in known])
    shrinks = [one.shrink[end] for one in known]
    return blend_shrinkage(volumes, shrinks), warm_volume(volumes, shrinks)


def _sink(
    catalog: Catalog, shrink: list[tuple[float, float]], width_mm: float | None
) -> dict[str, Band] | Unknown:
    """Give the mean sink of the surface, and that of the middle, which sets last."""
    if width_mm is None:
        return NO_WIDTH
    deeper = catalog.span("sink-middle", "dimensionless")
    width = width_mm / 1000
    mean = [sink_millimetres(*shrink[end], width, 1.0) for end in (0, 1)]
    middle = [sink_millimetres(*shrink[end], width, deeper[end]) for end in (0, 1)]
    return {
        "mean": Band(mean[0], None, mean[1], "mm", "in a round pot with straight walls"),
        "middle": Band(middle[0], None, middle[1], "mm", "from level to a cone"),
    }
