"""Heat to warm and melt a pot, the time it takes, and the sink of what has set."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure


@formula("Heat to warm a body", symbol="Q", unit="J", source="definition")
def sensible_heat(
    m: Annotated[float, Q("kg", "its mass")],
    c: Annotated[float, Q("J/(kg*K)", "its specific heat")],
    T_1: Annotated[float, Q("degC", "temperature at the start")],
    T_2: Annotated[float, Q("degC", "temperature at the end")],
) -> float:
    """Give the heat that a body takes up without melting. As good as its specific heat."""
    return m * c * (T_2 - T_1)


@formula("Heat to warm a wax before it melts", symbol="Q_s", unit="J", source="definition")
def solid_heat(
    m: Annotated[float, Q("kg", "mass of the wax")],
    c: Annotated[float, Q("J/(kg*K)", "its specific heat")],
    T_1: Annotated[float, Q("degC", "temperature at the start")],
    T_2: Annotated[float, Q("degC", "temperature wanted")],
    T_m: Annotated[float, Q("degC", "upper end of its melting range")],
) -> float:
    """Give the heat up to the upper end of the melting range, nought where it is molten."""
    return m * c * max(0, min(T_2, T_m) - T_1)


@formula("Heat to melt a wax", symbol="Q_l", unit="J", source="definition")
def latent_heat(
    m: Annotated[float, Q("kg", "mass of the wax")],
    L: Annotated[float, Q("J/kg", "its latent heat of melting")],
) -> float:
    """Give the heat that melting takes beside warming. Rosin is a glass and has none."""
    return m * L


@formula("Heat to warm the melt", symbol="Q_m", unit="J", source="definition")
def melt_heat(
    m: Annotated[float, Q("kg", "mass of the melt")],
    c: Annotated[float, Q("J/(kg*K)", "its specific heat")],
    T_1: Annotated[float, Q("degC", "temperature at the start")],
    T_2: Annotated[float, Q("degC", "temperature wanted")],
    T_m: Annotated[float, Q("degC", "upper end of its melting range")],
) -> float:
    """Give the heat above the upper end of the melting range."""
    return m * c * max(0, T_2 - max(T_1, T_m))


@formula("Heat of all together", symbol="Q", unit="J", source="definition")
def heat_together(
    Q_each: Annotated[Sequence[float], Q("J", "heat of each part: waxes, vessel, bath", "q")],
) -> float:
    """Give the sum. What is lost to the room is not in it."""
    return sum(Q_each[i] for i in range(len(Q_each)))


@formula("Time at the heater", symbol="t", unit="s", source="definition")
def heater_time(
    Q_all: Annotated[float, Q("J", "heat of all together", "Q")],
    P: Annotated[float, Q("W", "power of the heater")],
    l: Annotated[float, Q("1", "share of it that is lost to the room")],  # noqa: E741
) -> float:
    """Give the time at full power. A thermostat that pauses, or a lump, makes it longer."""
    return Q_all / (P * (1 - l))


@formula("Power for a wanted time", symbol="P", unit="W", source="definition")
def heater_power(
    Q_all: Annotated[float, Q("J", "heat of all together", "Q")],
    t: Annotated[float, Q("s", "wanted time")],
    l: Annotated[float, Q("1", "share of the power that is lost to the room")],  # noqa: E741
) -> float:
    """Give the power that does it. More power at a bare bottom scorches before it melts."""
    return Q_all / (t * (1 - l))


@formula("Share of its volume that a melt loses", symbol="s", unit="1", source="definition")
def shrinkage(
    rho_l: Annotated[float, Q("kg/m**3", "density of the melt", "ρ_l")],
    rho_s: Annotated[float, Q("kg/m**3", "density of the cold wax", "ρ_s")],
) -> float:
    """Give the loss from the melt to the cold wax, as a share of the hot volume."""
    return 1 - rho_l / rho_s


@formula("The same from the gain on melting", symbol="s", unit="1", source="definition")
def shrinkage_of_gain(
    g: Annotated[float, Q("1", "share of its cold volume that it gains on melting")],
) -> float:
    """Give the loss on setting as a share of the hot volume."""
    return g / (1 + g)


@formula("Share of its volume that a blend loses", symbol="s", unit="1", source="definition")
def blend_shrinkage(
    v: Annotated[Sequence[float], Q("m**3", "cold volume of each component")],
    s: Annotated[Sequence[float], Q("1", "share of its hot volume that it loses")],
) -> float:
    """Give the loss by ideal mixing: hot volumes add up, and so do the cold ones."""
    return 1 - sum(v[i] for i in range(len(v))) / sum(v[i] / (1 - s[i]) for i in range(len(v)))


@formula("Sink of the surface in a round pot", symbol="h", unit="m", source="definition")
def surface_sink(
    s: Annotated[float, Q("1", "share of its volume that the melt loses")],
    V: Annotated[float, Q("m**3", "volume of the melt")],
    w: Annotated[float, Q("m", "inner width of the pot")],
) -> float:
    """Give the mean sink, walls straight. The rim sets first, so the middle sinks deepest."""
    return 4 * s * V / (math.pi * w**2)


@formula("Wax that fills the sink again", symbol="m_t", unit="kg", source="definition")
def top_up_mass(
    M: Annotated[float, Q("kg", "mass of the melt")],
    s: Annotated[float, Q("1", "share of its volume that it loses")],
) -> float:
    """Give the wax, itself shrinking, that brings the cold block up to the hot level."""
    return M * s / (1 - s)


@procedure("Latent heat that is surely taken up")
def latent_least(latent: float, start: float, goal: float, low: float, high: float) -> float:
    """Give it whole where the wax is all solid at the start and all molten at the end."""
    return latent if start <= low and goal >= high and start < goal else 0.0


@procedure("Latent heat that may be taken up")
def latent_most(latent: float, start: float, goal: float, low: float, high: float) -> float:
    """Give it whole unless the wax is molten at the start or does not begin to melt."""
    return latent if start < high and goal > low and start < goal else 0.0


@procedure("Heat of a component: solid, latent, melt")
def component_heat(
    mass: float, heat: float, latent: float, start: float, goal: float, high: float
) -> list[float]:
    """Give three parts in joules; `latent` is already the one that counts."""
    return [
        solid_heat(mass, heat, start, goal, high),
        latent_heat(mass, latent),
        melt_heat(mass, heat, start, goal, high),
    ]


@procedure("Heat of a pot, its vessels and its bath")
def pot_heat(
    masses: Sequence[float],
    heats: Sequence[float],
    latents: Sequence[float],
    lows: Sequence[float],
    highs: Sequence[float],
    start: float,
    goal: float,
    vessels: Sequence[float],
    capacities: Sequence[float],
    water: float,
    water_heat: float,
    water_goal: float,
    most: bool,
) -> list[float]:
    """Give joules: solid, latent and melt of the wax, vessels, bath, and all together.

    The vessels follow the wax, or the bath where there is one. `most` counts latent heat
    wherever it may be taken up, else only where it surely is.
    """
    sums = [0.0, 0.0, 0.0]
    for i in range(len(masses)):
        if most:
            counted = latent_most(latents[i], start, goal, lows[i], highs[i])
        else:
            counted = latent_least(latents[i], start, goal, lows[i], highs[i])
        parts = component_heat(masses[i], heats[i], counted, start, goal, highs[i])
        for k in range(3):
            sums[k] += parts[k]
    outer = water_goal if water > 0 else goal
    vessel = 0.0
    for j in range(len(vessels)):
        vessel += sensible_heat(vessels[j], capacities[j], start, outer)
    bath = sensible_heat(water, water_heat, start, outer)
    whole = heat_together([sums[0], sums[1], sums[2], vessel, bath])
    return [sums[0], sums[1], sums[2], vessel, bath, whole]


@procedure("Heat to which a bath rises")
def bath_goal(goal: float, lead: float, ceiling: float) -> float:
    """Give the heat of the bath that holds a pot: a little above the wax, never above boiling."""
    return min(goal + lead, ceiling)


@procedure("Minutes at the heater")
def heater_minutes(joules: float, watts: float, lost: float) -> float:
    """Give the time at full power in minutes."""
    return heater_time(joules, watts, lost) / 60


@procedure("Kilojoules")
def kilojoules(joules: float) -> float:
    """Give joules in thousands."""
    return joules / 1000


@procedure("Masses of the components in kilograms")
def component_kilograms(total: float, shares: Sequence[float], kilograms: float) -> list[float]:
    """Give each component's mass; `kilograms` is what one unit of the total weighs."""
    return [total * kilograms * share for share in shares]


@procedure("Water of a bath in kilograms")
def bath_kilograms(volume: float, each: float, density: float) -> float:
    """Give the mass of a volume; `each` is how many cubic metres one of its units is."""
    return volume * each * density


@procedure("An amount in another unit")
def in_unit(amount: float, each: float) -> float:
    """Give an amount; `each` is how many of the other unit one of its own is."""
    return amount * each


@procedure("Cold volumes of the components")
def cold_volumes(masses: Sequence[float], densities: Sequence[float]) -> list[float]:
    """Give each component's volume in cubic metres."""
    return [masses[i] / densities[i] for i in range(len(masses))]


@procedure("Volume of the melt from the cold volumes and what they lose")
def warm_volume(volumes: Sequence[float], shrinks: Sequence[float]) -> float:
    """Give the hot volume in cubic metres."""
    whole = 0.0
    for i in range(len(volumes)):
        whole += volumes[i] / (1 - shrinks[i])
    return whole


@procedure("Sink of a block in millimetres")
def sink_millimetres(shrink: float, volume: float, width: float, deeper: float) -> float:
    """Give the sink of a surface, `deeper` times its mean; the width is in metres."""
    return 1000 * deeper * surface_sink(shrink, volume, width)


@procedure("Wax to top up, in the unit of the scale")
def top_up_amount(total: float, shrink: float) -> float:
    """Give what fills the sink again, in the unit of the total."""
    return top_up_mass(total, shrink)
