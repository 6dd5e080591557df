"""`adjust` against published exercises in mixing, and its programme against SciPy's.

The exercises are of alcohols, ointments, alloys and feeds. What is counted there stands in for
gum rosin, the rest for beeswax; volumes are taken as masses, as the exercises themselves add
them up. Each was read at the address beside it; an address alone is no judge, so every answer is
also held against the balance of the mixture, and several published answers do not hold.
"""

from __future__ import annotations

import dataclasses
import random

import pytest
from scipy.optimize import linprog

from formulas import catalog as catalogs
from formulas.adjusting.adjust import adjust
from formulas.adjusting.alligation import NOTHING, least_additions, shares_with
from formulas.adjusting.linear import least_in_turn
from formulas.adjusting.portions import Portion
from formulas.adjusting.within_reach import nearest_additions, part_additions, solved

TRADE = catalogs.load(None)
STEP = 0.0001  # g; a scale that rounds less than the exercises print
FINE = dataclasses.replace(TRADE, shop=dataclasses.replace(TRADE.shop, scale_step=STEP))
HALF = STEP / 2  # what is weighed lies at most half a step from what was reckoned
SOLVER = 1e-9  # of programmes of the order of 1, where either solver may stop that far off
COUNTED, REST = "gum-rosin", "beeswax-yellow"


def of(percent: float, grams: float | None = None) -> Portion:
    """Give a lot that holds so much of what is counted."""
    shares = {COUNTED: percent / 100, REST: 1 - percent / 100}
    return Portion(f"{percent:g}", f"{percent:g} %", shares, grams)


def parts(percent: float) -> dict[str, float]:
    """Give a wanted strength as parts by mass; none has no part, as in a ratio."""
    wanted = {COUNTED: percent, REST: 100 - percent}
    return {name: part for name, part in wanted.items() if part > 0}


def weighed(answer: dict, *percents: float) -> list[float]:
    """Give what is weighed of each lot, nought where none is."""
    found = {one["material"]: one["mass"].value for one in answer["additions"]}
    return [found.get(f"{percent:g}", 0.0) for percent in percents]


# Two lots to a total: strengths, wanted, total; how much of each was printed, half a last digit.
TWO_LOTS = [
    # pharmacy lecture notes on alligation: 0.1 % and 0.5 % cream to 100 g of 0.2 %, parts 3 to 1
    ((0.1, 0.5), 0.2, 100, (75, 25), 0.5),
    # wyzant.com/resources/answers/929842: 20 mL of 70 % acid
    ((50, 100), 70, 20, (12, 8), 0.5),
    # wyzant.com/resources/answers/880363: 260 mL of 95 % alcohol
    ((35, 100), 95, 260, (20, 240), 0.5),
    # wyzant.com/resources/answers/21505: 90 ounces of an alloy with 18.3 % copper
    ((15, 24), 18.3, 90, (57, 33), 0.5),
    # a chemistry question and its answer, 583b4f3c7c0149349bff43b7: 6 L of 70 % alcohol
    ((80, 20), 70, 6, (5, 1), 0.05),
    # jiskha.com, 1329416166: 70 % alcohol, 25 parts of 30 % to 40 parts of 95 %
    ((30, 95), 70, 65, (25, 40), 0.5),
    # algebra.com, question 544050: 20 ounces of 50 % alcohol
    ((70, 20), 50, 20, (12, 8), 0.5),
    # algebra.com, question 1143954: 100 g of silver alloy, 82 %
    ((86, 76), 82, 100, (60, 40), 0.5),
    # algebra.com, question 1060821: 5 cups of 12 % alcohol
    ((10, 20), 12, 5, (4, 1), 0.05),
    # justaaa.com, statistics 538196: 50 g of 15 % zinc oxide; the second follows from the total
    ((50, 5), 15, 50, (11.11, 38.89), 0.005),
    # Montana State University Extension, Pearson squares, example one: 11 % protein, percent
    ((12.25, 10.8), 11, 100, (13.8, 86.2), 0.05),
    # the same, example two: 9.8 % protein
    ((8.95, 40), 9.8, 100, (97.3, 2.7), 0.05),
    # a slide set on balancing a ration (scribd.com, 442731571): 18 % protein, percent
    ((8.9, 44.4), 18, 100, (74.4, 25.6), 0.05),
]


@pytest.mark.parametrize(("strengths", "wanted", "total", "printed", "half"), TWO_LOTS)
def test_two_lots_to_a_total(strengths, wanted, total, printed, half):
    """Each lot is weighed as the exercise prints it, to half of its last digit."""
    answer = adjust(FINE, parts(wanted), add=[of(one) for one in strengths], total_g=total).answer
    assert answer["reachable"]
    assert weighed(answer, *strengths) == pytest.approx(printed, abs=half)
    reached = answer["result"]["shares"][0]["share"]
    assert reached == pytest.approx(wanted / 100, abs=HALF / total)  # the scale's rounding
    assert any(step.startswith("  A") for step in answer["working"])


# A mass at one strength, what is added, wanted; how much to add as printed, half a last digit.
ONE_ADDED = [
    # rxcal.org, practice 92-rxcal-141, an exercise with five sets of figures: base to an ointment
    (120, 95, 0, 22, 398.18, 0.005),
    (960, 95, 0, 81, 165.93, 0.005),
    (400, 75, 0, 12, 2100, 0.5),
    (420, 60, 0, 14, 1380, 0.5),
    (1100, 50, 0, 43, 179.07, 0.005),
    # algebra.com, question 1036653: pure antifreeze to 12 gallons of 10 %
    (12, 10, 100, 40, 6, 0.05),
    # sciemce.com, 3fhdAP9x2KWK: 2.5 % ointment to 240 g of 0.25 % for 1 %
    (240, 0.25, 2.5, 1, 120, 0.5),
]


@pytest.mark.parametrize(("mass", "held", "added", "wanted", "printed", "half"), ONE_ADDED)
def test_one_addition_to_a_pot(mass, held, added, wanted, printed, half):
    """The least addition to a pot is what the exercise prints, to half of its last digit."""
    answer = adjust(FINE, parts(wanted), pot=[of(held, mass)], add=[of(added)]).answer
    assert weighed(answer, added) == [pytest.approx(printed, abs=half)]
    reached = answer["result"]["shares"][0]["share"]
    assert reached == pytest.approx(wanted / 100, abs=HALF / mass)  # the scale's rounding


# A full vessel at one strength, wanted at the same fill with pure matter: how much is exchanged.
EXCHANGED = [
    # algebra.com, question 121689: 70 litres of 20 %, wanted 40 %
    (70, 20, 40, 17.5),
    # gauthmath.com, 1812632250469637: 50 litres of 20 %, wanted 40 %
    (50, 20, 40, 12.5),
    # forums.mixedmartialarts.com, t/504534: 20 litres of 20 %, wanted 40 %
    (20, 20, 40, 5),
    # questionai.com, tanAG3vQ1A, its reckoning: 16 litres of 52 %, wanted 70 %
    (16, 52, 70, 6),
]


@pytest.mark.parametrize(("mass", "held", "wanted", "printed"), EXCHANGED)
def test_a_full_vessel_is_told_what_to_keep(mass, held, wanted, printed):
    """At the same fill not all of the pot comes right; the part to keep and its addition do."""
    answer = adjust(FINE, parts(wanted), pot=[of(held, mass)], add=[of(100)], total_g=mass).answer
    assert not answer["reachable"]
    assert answer["part"]["of_pot"].value == pytest.approx(mass - printed, abs=HALF)
    assert weighed(answer["part"], 100) == [pytest.approx(printed, abs=HALF)]


def balance(lots: list[tuple[float, float]]) -> float:
    """Give the strength of masses put together, by nothing but the balance."""
    return sum(mass * percent for mass, percent in lots) / sum(mass for mass, _ in lots)


# University of Houston, pharmacy module on three strengths: 50, 20 and 5 % to 10 %, 1 : 1 : 10.
# A page elsewhere has 3 : 1 : 14, which is 13.3 %.
def test_three_strengths():
    """The published 1 : 1 : 10 is the ratio; what is found for those lots is one as well."""
    assert balance([(1, 50), (1, 20), (10, 5)]) == pytest.approx(10)
    assert balance([(3, 50), (1, 20), (14, 5)]) == pytest.approx(13.3, abs=0.05)
    lots = [of(50, 10), of(20, 10), of(5, 100)]
    answer = adjust(FINE, parts(10), add=lots, total_g=120).answer
    assert weighed(answer, 50, 20, 5) == pytest.approx([10, 10, 100])
    free = adjust(FINE, parts(10), add=[of(50), of(20), of(5)], total_g=120).answer
    masses = weighed(free, 50, 20, 5)
    strength = balance(list(zip(masses, (50, 20, 5), strict=True)))
    # Three weights are rounded by HALF g at most, each pulling by its distance from 10 %.
    pull = sum(abs(percent - 10) for percent in (50, 20, 5))
    assert strength == pytest.approx(10, abs=HALF * pull / (120 - 3 * HALF))
    wrong = adjust(FINE, parts(10), add=[of(50, 30), of(20, 10), of(5, 140)], total_g=180).answer
    assert not wrong["reachable"]  # with just what 3 : 1 : 14 takes there is no 10 %


# Published, and wrong: the lots, wanted, total, and the masses that were printed.
WRONG = [
    # brightpharma.in, 2023/04: 300 mL of 70 % alcohol out of 95 % and 70 %
    ((95, 70), 70, 300, (138.46, 161.54)),
    # qammunity.org, 18890640: 2000 lb of feed with 18 % protein
    ((8.9, 44.4), 18, 2000, (1200, 800)),
    # the three strengths above, as 3 : 1 : 14
    ((50, 20, 5), 10, 180, (30, 10, 140)),
]


@pytest.mark.parametrize(("strengths", "wanted", "total", "printed"), WRONG)
def test_a_wrong_published_mixture_is_not_found(strengths, wanted, total, printed):
    """What was printed misses the strength by far; what is found has it and differs."""
    assert abs(balance(list(zip(printed, strengths, strict=True))) - wanted) > 3
    answer = adjust(FINE, parts(wanted), add=[of(one) for one in strengths], total_g=total).answer
    found = weighed(answer, *strengths)
    off = max(strengths) * len(strengths) * HALF / total  # each lot rounded, the strongest most
    assert balance(list(zip(found, strengths, strict=True))) == pytest.approx(wanted, abs=off)
    assert max(abs(a - b) for a, b in zip(found, printed, strict=True)) > total / 100


# Published, and wrong: the mass exchanged in a full vessel.
WRONG_EXCHANGED = [
    # askanewquestion.com, 2086013: 18 litres of 10 %, wanted 40 %
    (18, 10, 40, 3.857),
    # questionai.com, tanAG3vQ1A, its headline: 16 litres of 52 %, wanted 70 %
    (16, 52, 70, 8),
]


@pytest.mark.parametrize(("mass", "held", "wanted", "printed"), WRONG_EXCHANGED)
def test_a_wrong_published_exchange_is_not_found(mass, held, wanted, printed):
    """What was printed misses the strength; what is found has it and differs."""
    assert abs(balance([(mass - printed, held), (printed, 100)]) - wanted) > 3
    part = adjust(FINE, parts(wanted), pot=[of(held, mass)], add=[of(100)], total_g=mass).answer[
        "part"
    ]
    kept, added = part["of_pot"].value, weighed(part, 100)[0]
    off = 100 * 2 * HALF / mass  # both masses rounded, the stronger one pure
    assert balance([(kept, held), (added, 100)]) == pytest.approx(wanted, abs=off)
    assert abs(added - printed) > 1


def test_a_published_answer_to_what_cannot_be():
    """4 % added to 17 % never makes 20 %, whatever a page says (dailymathguide.com, 2020/04)."""
    answer = adjust(FINE, parts(20), pot=[of(17, 1)], add=[of(4)]).answer
    assert not answer["reachable"]
    assert answer["why"] == ["Gum rosin: 20.00 % wanted, and nothing here holds more than 17.00 %."]
    assert answer["nearest"]["additions"] == []


# From here on: against another solver.


def some_programme(chance: random.Random) -> tuple[list, list, list]:
    """Draw a bounded programme: free, degenerate with equations twice, or without a solution."""
    count, width = chance.randint(1, 6), chance.randint(1, 9)
    rows = [
        [
            chance.choice([0, 0, 1, -1, chance.uniform(-1, 1), chance.randint(0, 100) / 100])
            for _ in range(width)
        ]
        for _ in range(count)
    ]
    kind = chance.choice(["solvable", "degenerate", "any"])
    point = [chance.choice([0, chance.random()]) for _ in range(width)]
    rights = [sum(a * x for a, x in zip(row, point, strict=True)) for row in rows]
    if kind == "any":
        rights = [chance.uniform(-1, 1) for _ in rows]
    if kind == "degenerate":
        rows.append(rows[0])
        rights.append(rights[0])
        rows.append([2 * value for value in rows[0]])
        rights.append(2 * rights[0])
    rows = [[*row, 0] for row in rows] + [[1] * (width + 1)]
    costs = [chance.choice([0, 1, -1, chance.uniform(-1, 1)]) for _ in range(width)]
    return [*costs, 0], rows, [*rights, float(width)]


def test_the_programme_agrees_with_scipy():
    """On 1200 random programmes the verdict is the same, and the least sum to 1e-9."""
    chance = random.Random(20261125)
    solved_ones = 0
    for _ in range(1200):
        costs, rows, rights = some_programme(chance)
        found = least_in_turn([costs], rows, rights)
        other = linprog(costs, A_eq=rows, b_eq=rights, method="highs")
        assert bool(found) == (other.status == 0), (costs, rows, rights)
        if found:
            solved_ones += 1
            least = sum(c * x for c, x in zip(costs, found, strict=True))
            assert least == pytest.approx(other.fun, rel=SOLVER, abs=SOLVER)
            for row, right in zip(rows, rights, strict=True):
                there = sum(a * x for a, x in zip(row, found, strict=True))
                assert there == pytest.approx(right, abs=SOLVER)
    assert 300 < solved_ones < 1100


@dataclasses.dataclass
class Case:
    """One correction in lists; the mass in the end is `total`, or open where that is nought."""

    pot: list[float]
    blends: list[list[float]]
    stocks: list[float]
    shares: list[float]
    total: float
    most: float = 1e6

    @property
    def whole(self) -> float:
        """The mass of the pot."""
        return sum(self.pot)

    def arguments(self) -> tuple:
        """Give what the procedures take."""
        return self.pot, self.blends, self.stocks, self.shares, self.total, self.most


def some_shares(chance: random.Random, count: int) -> list[float]:
    """Draw shares: even, small whole parts, one alone, or with noughts in them."""
    drawn = [chance.choice([0, 0, 1, 2, 3, 5, chance.random()]) for _ in range(count)]
    if sum(drawn) == 0:
        drawn[chance.randrange(count)] = 1
    return [one / sum(drawn) for one in drawn]


def some_case(chance: random.Random) -> Case:
    """Draw a correction: with and without a pot, total and stock; often one that works out."""
    count, many = chance.randint(2, 5), chance.randint(1, 6)
    blends = [some_shares(chance, count) for _ in range(many)]
    if chance.random() < 0.4:
        for j in range(min(many, count)):
            blends[j] = [float(i == j) for i in range(count)]
    if chance.random() < 0.1:
        blends[-1] = blends[0]
    size = 10 ** chance.uniform(0, 5)
    pot = [share * size for share in some_shares(chance, count)]
    pot = pot if chance.random() < 0.75 else [0.0] * count
    stocks = [chance.choice([0, 0, size * chance.uniform(0.05, 2)]) for _ in blends]
    shares = some_shares(chance, count)
    total = 0.0
    if not sum(pot) or chance.random() < 0.3:
        total = size * chance.uniform(0.5, 4)
    if chance.random() < 0.6:  # what can be made: of this pot and some of the lots
        some = [chance.choice([0, size * chance.random()]) for _ in blends]
        some = [min(a, s) if s else a for a, s in zip(some, stocks, strict=True)]
        if sum(some) + sum(pot) > 0:
            shares = shares_with(pot, blends, some)
            total = sum(some) + sum(pot) if total else 0.0
    return Case(pot, blends, stocks, shares, total)


def by_scipy(case: Case):
    """Give the least additions by masses and equations, written down apart from ours."""
    count = len(case.blends)
    unit = case.whole or case.total
    equations = [
        [
            *(blend[i] - case.shares[i] for blend in case.blends),
        ]
        for i in range(len(case.pot))
    ]
    rights = [(case.shares[i] * case.whole - case.pot[i]) / unit for i in range(len(case.pot))]
    costs = [1.0] * count
    if case.total:
        equations.append([1.0] * count)
        rights.append((case.total - case.whole) / unit)
        costs = [j + 1.0 for j in range(count)]
    bounds = [(0, stock / unit if stock else None) for stock in case.stocks]
    limit = ([[1.0] * count], [(case.most - case.whole) / unit])
    return unit, linprog(
        costs, A_ub=limit[0], b_ub=limit[1], A_eq=equations, b_eq=rights, bounds=bounds,
        method="highs",
    )  # fmt: skip


def nearest_by_scipy(case: Case, end: float):
    """Give the least distance of the farthest share, over the shares in the end."""
    count, whole = len(case.blends), case.whole
    inner = [share / whole if whole else 0.0 for share in case.pot]
    lines, rights = [], []
    for i, share in enumerate(case.shares):
        line = [*(blend[i] for blend in case.blends), inner[i]]
        lines += [[*line, -1.0], [*(-value for value in line), -1.0]]
        rights += [share, -share]
    for j, stock in enumerate(case.stocks):
        if stock:
            own = [float(k == j) for k in range(count)]
            if case.total:
                lines.append([*own, 0.0, 0.0])
                rights.append(stock / case.total)
            else:
                lines.append([*own, -stock / whole, 0.0])
                rights.append(0.0)
    q = (whole / case.total,) * 2 if case.total else (whole / end, 1)
    bounds = [*[(0, 1)] * count, q if whole else (0, 0), (0, 1)]
    return linprog(
        [0.0] * (count + 1) + [1.0], A_ub=lines, b_ub=rights,
        A_eq=[[1.0] * (count + 1) + [0.0]], b_eq=[1.0], bounds=bounds, method="highs",
    )  # fmt: skip


def test_corrections_agree_with_scipy():
    """On 1500 random corrections: the same verdict, the same least addition, stock kept."""
    chance = random.Random(1125)
    verdicts = {True: 0, False: 0}
    for _ in range(1500):
        case = some_case(chance)
        found = least_additions(*case.arguments())
        unit, other = by_scipy(case)
        assert bool(found) == (other.status == 0), case
        verdicts[bool(found)] += 1
        if found:
            costs = [j + 1.0 if case.total else 1.0 for j in range(len(found))]
            least = sum(c * mass for c, mass in zip(costs, found, strict=True)) / unit
            assert least == pytest.approx(other.fun, rel=SOLVER, abs=SOLVER), case
            assert shares_with(case.pot, case.blends, found) == pytest.approx(
                case.shares, abs=SOLVER
            )
            for mass, stock in zip(found, case.stocks, strict=True):
                assert not stock or mass <= stock * (1 + 1e-9)
            if case.total:
                assert case.whole + sum(found) == pytest.approx(case.total)
    assert min(verdicts.values()) > 300, verdicts


def test_the_nearest_agrees_with_scipy():
    """On 600 corrections out of reach the farthest share is off as little as SciPy finds."""
    chance = random.Random(2511)
    seen = none = 0
    while seen + none < 600:
        case = some_case(chance)
        if least_additions(*case.arguments()) or (case.total and case.total < case.whole):
            continue
        case.most = 2 * case.whole or case.most
        found = nearest_additions(*case.arguments())
        other = nearest_by_scipy(case, case.most)
        assert bool(found) == (other.status == 0), case
        if not found:
            none += 1
            continue
        seen += 1
        reached = shares_with(case.pot, case.blends, found)
        miss = max(abs(a - b) for a, b in zip(reached, case.shares, strict=True))
        assert miss == pytest.approx(other.fun, abs=SOLVER), case
        for mass, stock in zip(found, case.stocks, strict=True):
            assert not stock or mass <= stock * (1 + 1e-9)
    assert seen > 400
    assert none > 8


def test_the_part_of_a_pot_agrees_with_scipy():
    """On 500 corrections as much of the pot comes right as SciPy finds."""
    chance = random.Random(7)
    seen = 0
    while seen < 500:
        case = some_case(chance)
        if not case.whole:
            continue
        seen += 1
        found = part_additions(*case.arguments())
        end = case.total or case.most
        # columns: additions and the kept part of the pot, in masses of the pot
        lines = [
            [
                *(blend[i] - case.shares[i] for blend in case.blends),
                case.pot[i] / case.whole - case.shares[i],
            ]
            for i in range(len(case.pot))
        ]
        bounds = [(0, stock / case.whole if stock else None) for stock in case.stocks]
        other = linprog(
            [0.0] * len(case.blends) + [-1.0], A_ub=[[1.0] * len(lines[0])],
            b_ub=[end / case.whole], A_eq=lines, b_eq=[0.0] * len(lines),
            bounds=[*bounds, (0, 1)], method="highs",
        )  # fmt: skip
        assert other.status == 0
        assert found[0] == pytest.approx(-other.fun, abs=SOLVER), case
        if found[0] > NOTHING:
            kept = [found[0] * mass for mass in case.pot]
            assert shares_with(kept, case.blends, found[1:]) == pytest.approx(
                case.shares, abs=SOLVER / found[0]
            )


def test_a_pot_within_reach_comes_right_as_a_whole():
    """What is within reach has no part, and what is not never has all of its pot come right."""
    chance = random.Random(3)
    for _ in range(500):
        case = some_case(chance)
        added, nearest, part = solved(*case.arguments(), 2.0)
        assert bool(added) != bool(nearest or part)
        if part and case.whole and not case.total:
            assert part[0] < 1 - NOTHING
