"""The arithmetic of a batch: shares, totals, whole steps of the scale, volume, pot and cost."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Annotated

from formulas.fault import OutOfRange
from formulas.formula import Q, formula, procedure

POT_STEP_ML = 50  # pots are sold in steps; a smaller one would not be found
TELLING_DRIFT = 0.002  # a ratio moved by less is lost in the weighing


@formula("Share of a component by mass", symbol="w", unit="1", source="definition")
def share_by_mass(
    p: Annotated[float, Q("1", "parts of the component")],
    P: Annotated[float, Q("1", "parts of all components together")],
) -> float:
    """Give the share of one component. Parts are by mass, never by volume or by lumps."""
    return p / P


@formula("Mass of a component", symbol="m", unit="kg", source="definition")
def component_mass(
    M: Annotated[float, Q("kg", "mass of the whole batch")],
    w: Annotated[float, Q("1", "share of the component by mass")],
) -> float:
    """Give the mass of one component, before the scale rounds it."""
    return M * w


@formula("Batch that a limited component allows", symbol="M", unit="kg", source="definition")
def limited_total(
    h: Annotated[float, Q("kg", "mass of the component at hand")],
    w: Annotated[float, Q("1", "its share by mass")],
) -> float:
    """Give the largest batch that what is at hand allows. The share must be above nought."""
    return h / w


@formula("Wax to weigh out for a number of plates", symbol="M", unit="kg", source="definition")
def total_for_plates(
    n: Annotated[float, Q("1", "number of plates")],
    g: Annotated[float, Q("kg", "wax that one plate takes")],
    l_s: Annotated[float, Q("1", "share lost in straining")],
    l_p: Annotated[float, Q("1", "share left in the pot")],
) -> float:
    """Give the mass to weigh out so that after both losses the plates get theirs."""
    return n * g / ((1 - l_s) * (1 - l_p))


@formula("Volume of a melt", symbol="V", unit="m**3", source="definition")
def melt_volume(
    m: Annotated[Sequence[float], Q("kg", "mass of each component")],
    rho: Annotated[Sequence[float], Q("kg/m**3", "its density", "ρ")],
) -> float:
    """Give the volume by ideal mixing: the components' own volumes added, no shrinking."""
    return sum(m[i] / rho[i] for i in range(len(m)))


@formula("Smallest pot that leaves headroom", symbol="V_pot", unit="m**3", source="definition")
def pot_volume(
    V: Annotated[float, Q("m**3", "volume of the melt")],
    f: Annotated[float, Q("1", "largest share of the pot that may be filled")],
) -> float:
    """Give the brim volume of the smallest pot."""
    return V / f


@formula("Cost of a batch", symbol="C", unit="money", source="definition")
def batch_cost(
    m: Annotated[Sequence[float], Q("kg", "mass of each component")],
    c: Annotated[Sequence[float], Q("money/kg", "its price per mass")],
) -> float:
    """Give what the raw materials cost, in the currency of the prices."""
    return sum(m[i] * c[i] for i in range(len(m)))


@procedure("How many steps of the scale a mass is")
def steps_of(mass: float, step: float) -> int:
    """Round a mass to whole steps of the scale, halves up."""
    return math.floor(mass / step + 0.5)


@procedure("Weights in steps of the scale that keep the ratio and the total")
def weigh_out(shares: Sequence[float], steps: int) -> list[int]:
    """Share out whole steps by the largest remainder.

    The steps add up to the total exactly, and none is more than one step from its share.
    """
    counts = []
    rest = []
    given = 0
    for share in shares:
        whole = math.floor(share * steps + 1e-9)
        counts.append(whole)
        rest.append(share * steps - whole)
        given += whole
    order = sorted(range(len(shares)), key=lambda i: -rest[i])
    for k in range(steps - given):
        counts[order[k]] += 1
    return counts


@procedure("Mass of a number of steps of the scale")
def mass_of(count: int, step: float) -> float:
    """Give count times step with no digit that the scale does not show.

    >>> mass_of(3, 0.1)
    0.3
    """
    per = math.floor(1 / step + 0.5)
    return count / per if abs(per * step - 1) < 1e-9 else count * step


@procedure("Decimals that a scale shows")
def decimals_of(step: float) -> int:
    """Give how many decimals a step needs: 1 for 0.1, 2 for 0.05, 0 for 5."""
    decimals = 0
    scaled = step
    while abs(scaled - math.floor(scaled + 0.5)) > 1e-9 and decimals < 6:
        decimals += 1
        scaled *= 10
    return decimals


@procedure("Shares by mass of the parts of a blend")
def part_shares(parts: Sequence[float]) -> list[float]:
    """Give each part's share of the whole."""
    whole = sum(parts)
    return [share_by_mass(part, whole) for part in parts]


@procedure("Steps of the scale that a limited component allows")
def steps_within(shares: Sequence[float], steps: int, of: int, held: float, step: float) -> int:
    """Take steps off a total until the component asks for no more than the mass held."""
    left = steps
    while left > 0 and weigh_out(shares, left)[of] > held / step + 1e-9:
        left -= 1
    return left


@procedure("Wax for a number of plates in the unit of the scale")
def plates_total(plates: float, each: float, strained: float, potted: float, grams: float) -> float:
    """Give the mass to weigh out; `each` in kilograms, `grams` is one unit of the scale."""
    return 1000 * total_for_plates(plates, each, strained, potted) / grams


@procedure("Masses of a batch in kilograms")
def batch_masses(counts: Sequence[int], step: float, kilograms: float) -> list[float]:
    """Give each component's mass; `kilograms` is what one unit of the scale weighs."""
    return [mass_of(count, step) * kilograms for count in counts]


@procedure("Volume of a melt in millilitres")
def melt_millilitres(masses: Sequence[float], densities: Sequence[float]) -> float:
    """Give the volume by ideal mixing from kilograms and kilograms per cubic metre."""
    return melt_volume(masses, densities) * 1e6


@procedure("Smallest pot to be found")
def pot_millilitres(volume: float, filled: float) -> float:
    """Give the pot, in whole steps of size, that a melt fills up to the share `filled` at most."""
    return -math.floor(-(pot_volume(volume, filled) / POT_STEP_ML - 1e-9)) * POT_STEP_ML


@procedure("What is left of a batch after its losses")
def left_after_losses(total: float, strained: float, potted: float) -> float:
    """Give what remains when shares of it stay in the strainer and in the pot."""
    return total * (1 - strained) * (1 - potted)


@procedure("How far the scale moves the ratio, where that is worth telling")
def telling_drift(shares: Sequence[float], counts: Sequence[int]) -> float:
    """Give the largest change of a share, or nought where it is lost in the weighing."""
    whole = sum(counts)
    drift = max(abs(counts[i] / whole - shares[i]) for i in range(len(shares)))
    return drift if drift > TELLING_DRIFT else 0.0


def shares_of(parts: Mapping[str, float]) -> dict[str, float]:
    """Give the shares by mass of the parts of a blend. Raises OutOfRange for no parts above 0."""
    for material, part in parts.items():
        if not part > 0:
            raise OutOfRange(f"parts of {material}", part, "numbers above 0", "a blend's parts")
    if not parts:
        raise OutOfRange("components", 0, "one or more", "a blend's parts")
    whole = sum(parts.values())
    return {material: share_by_mass(part, whole) for material, part in parts.items()}
