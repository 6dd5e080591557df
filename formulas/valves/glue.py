"""Which glue may hold a valve: each is weighed by the stock it wets and the metal it lies on.

The answers rest on the rows of glues.csv. A blank there is not known, and what is not known is
tried on scrap first: it never passes as no.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.fault import UnknownName
from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import Glue

MAY, SCRAP, MAY_NOT = "may", "scrap test first", "may not"
TOLD = "told"
"""The weight of a reason that lowers nothing."""
HEAVIEST_FIRST = (MAY_NOT, SCRAP, TOLD)

KINDS = ("leather", "film", "microfibre", "woven", "card")
METALS = ("aluminium", "zinc", "brass", "steel")
SMOOTH = ("film",)
"""Stock that takes in no water and gives glue no hold; all the rest drinks."""
ATTACKED = ("aluminium", "zinc", "steel")
"""Plates that weak acid eats. On brass too what is sour is refused: the tongues are of steel."""
NOT_KNOWN = ""


class Reason(Frozen):
    """One thing that speaks for a verdict: its words, and how heavy it is."""

    weight: str
    words: str


class Verdict(Frozen):
    """A glue for one kind of stock on one metal; the heaviest reason decides."""

    glue: Glue
    reasons: tuple[Reason, ...]

    @property
    def verdict(self) -> str:
        """Give `MAY`, `SCRAP` or `MAY_NOT`."""
        heavy = [one.weight for one in self.reasons if one.weight != TOLD]
        return min(heavy, key=HEAVIEST_FIRST.index, default=MAY)


def glue_verdict(catalog: Catalog, kind: str, metal: str) -> list[Verdict]:
    """Give for every glue whether it may hold this kind of stock on this metal, with reasons.

    Those that may come first. Raises UnknownName for a kind or a metal that is not there.
    """
    for what, name, names in (("kind of stock", kind, KINDS), ("metal", metal, METALS)):
        if name not in names:
            raise UnknownName(what, name, names)
    found = [_weighed(glue, kind, metal) for glue in catalog.glues.values()]
    return sorted(found, key=lambda one: (MAY, SCRAP, MAY_NOT).index(one.verdict))


def _weighed(glue: Glue, kind: str, metal: str) -> Verdict:
    reasons = [
        _hold(glue) if kind in SMOOTH else _wet(glue),
        _acid(glue, metal),
        _fume(glue),
        _warm(glue),
        _back(glue),
    ]
    told = [one for one in reasons if one.words]
    return Verdict(glue, tuple(sorted(told, key=lambda one: HEAVIEST_FIRST.index(one.weight))))


SILENT = Reason(TOLD, "")


def _wet(glue: Glue) -> Reason:
    return {
        "yes": Reason(SCRAP, "wets the stock, which can curl: little glue, a flat weight"),
        "some": Reason(TOLD, "runs up the stock if it is thin"),
        "no": SILENT,
    }.get(glue.wets_leather, Reason(SCRAP, "not known whether it wets the stock"))


def _hold(glue: Glue) -> Reason:
    return {
        "yes": SILENT,
        "some": Reason(SCRAP, "holds smooth film only if its land is made matt"),
        "no": Reason(MAY_NOT, "lets go of smooth film"),
    }.get(glue.bonds_film, Reason(SCRAP, "not known whether it holds smooth film"))


def _acid(glue: Glue, metal: str) -> Reason:
    attacked = metal in ATTACKED
    eats = "sour: it eats plate and tongues" if attacked else "sour: it eats the steel tongues"
    return {
        "yes": Reason(MAY_NOT, eats),
        "some": Reason(SCRAP if attacked else TOLD, "a little sour"),
        "no": SILENT,
    }.get(glue.acid_on_metal, Reason(SCRAP, "not known whether it is sour"))


def _fume(glue: Glue) -> Reason:
    return {
        "yes": Reason(MAY_NOT, "its vapour settles on the tongues"),
        "some": Reason(SCRAP, "its vapour may reach the tongues"),
        "no": SILENT,
    }.get(glue.fume_on_steel, Reason(SCRAP, "not known whether its vapour settles on steel"))


def _warm(glue: Glue) -> Reason:
    return {
        "yes": Reason(TOLD, "gives way on a warm plate: keep wax and iron short"),
        "some": Reason(TOLD, "gives way where it is damp and warm"),
        "no": SILENT,
    }.get(glue.creeps_warm, Reason(SCRAP, "not known whether it creeps when warm"))


def _back(glue: Glue) -> Reason:
    return {
        "yes": SILENT,
        "some": Reason(TOLD, f"comes off with effort, undone by {glue.reversed_by}"),
        "no": Reason(TOLD, f"does not come off whole, undone by {glue.reversed_by}"),
    }.get(glue.reversible, Reason(SCRAP, "not known whether it comes off again"))
