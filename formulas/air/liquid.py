"""A liquid as vapour in a room: what evaporates of each part, and the most that air can hold.

`vapour` is one part of a liquid: mass that evaporates in one task, molar mass, vapour pressure,
lower explosive limit, each low and high; nought where it is not known. `air_room` is volume, air
changes low and high, absolute heat, pressure of the air low and high. A pair is low and high.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.air.conversion import mass_in_air, saturated_share, share_in_air
from formulas.air.evaporation import liquid_mass, vapour_given_off
from formulas.formula import procedure


@procedure("Range of saturated vapour as a share of the air")
def saturated_range(vapour: Sequence[float], air_room: Sequence[float]) -> list[float]:
    """Give the most that air can hold beside the liquid; [1, 1] where it is not known.

    Where only the most is known, the low end is left as high as that: it caps nothing more.
    """
    if vapour[5] <= 0:
        return [1, 1]
    least = vapour[4] if vapour[4] > 0 else vapour[5]
    return [saturated_share(least, air_room[5]), saturated_share(vapour[5], air_room[4])]


@procedure("Range of saturated vapour as a mass")
def saturated_mass(vapour: Sequence[float], air_room: Sequence[float]) -> list[float]:
    """Give the same as a mass in a volume of air."""
    shares = saturated_range(vapour, air_room)
    return [
        mass_in_air(shares[0], vapour[2], air_room[4], air_room[3]),
        mass_in_air(shares[1], vapour[3], air_room[5], air_room[3]),
    ]


@procedure("Vapour that a wet face gives off, low and high")
def given_off(
    liquid: Sequence[float],
    vapour: Sequence[float],
    air_room: Sequence[float],
    speed: Sequence[float],
    face: float,
    seconds: float,
) -> list[float]:
    """Give the mass from a wet face; all of it where no face is told or its vapour not known."""
    if face <= 0 or vapour[5] <= 0:
        return [liquid[0], liquid[1]]
    over = saturated_mass(vapour, air_room)
    return [
        vapour_given_off(liquid[0], speed[0], over[0], face, seconds),
        vapour_given_off(liquid[1], speed[1], over[1], face, seconds),
    ]


@procedure("One part of a liquid as vapour in a room")
def vapour_of(
    liquid_part: Sequence[float],
    pressure: Sequence[float],
    volume: Sequence[float],
    air_room: Sequence[float],
    speed: Sequence[float],
    face: float,
    seconds: float,
) -> list[float]:
    """Give the row of a part: two each of its share, density, molar mass and explosive limit.

    `volume` is that of the whole liquid, low and high, `face` nought where all of it evaporates.
    """
    liquid = [
        liquid_mass(volume[0] * liquid_part[0], liquid_part[2]),
        liquid_mass(volume[1] * liquid_part[1], liquid_part[3]),
    ]
    vapour = [
        0.0,
        0.0,
        liquid_part[4],
        liquid_part[5],
        pressure[0],
        pressure[1],
        liquid_part[6],
        liquid_part[7],
    ]
    mass = given_off(liquid, vapour, air_room, speed, face, seconds)
    vapour[0] = mass[0]
    vapour[1] = mass[1]
    return vapour


@procedure("The level at the start, by parts")
def start_shares(vapours: Sequence[Sequence[float]], start: float) -> list[float]:
    """Give each part the share of the level at the start that it has in what evaporates."""
    moles = [(vapour[0] + vapour[1]) / (vapour[2] + vapour[3]) for vapour in vapours]
    return [start * one / sum(moles) for one in moles]


@procedure("Range of a share that a mass of vapour gives a room")
def share_loads(vapour: Sequence[float], air_room: Sequence[float]) -> list[float]:
    """Give the share of the air that the vapour of one task would be without change of air."""
    return [
        share_in_air(vapour[0] / air_room[0], vapour[3], air_room[5], air_room[3]),
        share_in_air(vapour[1] / air_room[0], vapour[2], air_room[4], air_room[3]),
    ]


@procedure("Saturated vapour of a liquid")
def saturated_all(vapours: Sequence[Sequence[float]], air_room: Sequence[float]) -> list[float]:
    """Give the least and the most of its parts, as a share; [1, 0] where one is not known."""
    low = 1e9
    high = 0.0
    for vapour in vapours:
        if vapour[5] <= 0:
            return [1, 0]
        share = saturated_range(vapour, air_room)
        low = min(low, share[0])
        high = max(high, share[1])
    return [low, high]


@procedure("Saturated vapour by the lower explosive limit")
def saturated_ratio(vapours: Sequence[Sequence[float]], air_room: Sequence[float]) -> list[float]:
    """Give the least and the most that any mixture of the vapours can have; [1, 0] is not known.

    The most of any part stands over the lowest limit of any, the least over the highest.
    """
    share = saturated_all(vapours, air_room)
    lowest = vapours[0][6]
    highest = 0.0
    for vapour in vapours:
        lowest = min(lowest, vapour[6])
        highest = max(highest, vapour[7])
    if share[0] > share[1] or lowest <= 0:
        return [1, 0]
    return [share[0] / highest, share[1] / lowest]
