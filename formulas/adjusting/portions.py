"""What goes into a pot or may be added: a material, a blend, a batch, a ratio, or old wax."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from formulas.adjusting.old_wax import old_wax_shares
from formulas.answer import Basis
from formulas.books.records import ancestors, weighed_shares
from formulas.catalog import Catalog
from formulas.fault import FormulasError, OutOfRange, UnknownName
from formulas.frozen import Frozen
from formulas.ratio import parts_read
from formulas.wax.batch import shares_of

SOLVENTS = frozenset(
    {
        *("acetone", "alcohol", "benzine", "ethanol", "ether", "heptane", "hexane", "isopropanol"),
        *("limonene", "methanol", "naphtha", "petrol", "solvent", "spirit", "spirits", "thinner"),
        *("toluene", "turpentine", "turps", "xylene"),
    }
)


class SolventRefused(FormulasError, ValueError):
    """A solvent where wax is meant: nothing that holds one is warmed."""

    def __init__(self, found: str) -> None:
        self.found = found
        super().__init__(
            f"found '{found}', accepted: a wax, resin, oil or fat of materials.csv; a pot that"
            " holds solvent is never heated, and none is thinned with it"
        )


class Portion(Frozen):
    """Something with a known make-up, by mass. `grams` is how much there is, None: no limit."""

    id: str
    name: str
    shares: Mapping[str, float]
    grams: float | None = None
    wax: str = "fresh"
    basis: Basis | None = None


@dataclass(frozen=True)
class OldWax:
    """Reclaimed wax: what is known is a lowest and a highest share of some materials.

    The rest is one material. Materials are taken to be low together and high together.
    """

    grams: float
    held: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    rest: str = "beeswax-yellow"

    def shares(self, height: float) -> dict[str, float]:
        """Give its make-up: at the low end by 0, at the high end by 1, in the middle by 1/2."""
        lows, highs = (
            [low for low, _ in self.held.values()],
            [high for _, high in self.held.values()],
        )
        return dict(zip([self.rest, *self.held], old_wax_shares(lows, highs, height), strict=True))


def old_wax(
    catalog: Catalog, grams: float, held: Mapping[str, tuple[float, float]], rest: str
) -> OldWax:
    """Give reclaimed wax after a look at its shares.

    Raises UnknownName, or OutOfRange where a share is none or they are more than the whole.
    """
    catalog.material(rest)
    if not held:
        accepted = "one or more, each with its lowest and highest share"
        raise OutOfRange("materials that old wax holds", 0, accepted, "old wax")
    for name, (low, high) in held.items():
        catalog.material(name)
        if name == rest:
            raise UnknownName(
                "material beside the rest of old wax", name, set(catalog.materials) - {rest}
            )
        if not 0 <= low <= high <= 1:
            raise OutOfRange(
                f"share of {name} in old wax", 100 * (high if 0 <= low <= high else low),
                "a lowest and a highest share from 0 to 100 %", "old wax",
            )  # fmt: skip
    most = sum(high for _, high in held.values())
    if most > 1:
        raise OutOfRange(
            "highest shares of old wax together", 100 * most, "100 % at most", "old wax"
        )
    return OldWax(grams, dict(held), rest)


def portion(catalog: Catalog, text: str, grams: float | None = None, name: str = "") -> Portion:
    """Read a material, a blend, a batch of the pot book, or "beeswax-yellow 4; gum-rosin 1".

    A batch counts as it was weighed, old wax in it included. Raises UnknownName with the nearest
    name, UnitFault for a ratio that cannot be read, NotKnown for a batch whose make-up is not.
    """
    if text in catalog.materials:
        return Portion(text, name or catalog.materials[text].name, {text: 1.0}, grams)
    if text in catalog.blends:
        blend = catalog.blends[text]
        basis = Basis(f"parts by mass of {text}", blend.basis, blend.source)
        return Portion(text, name or blend.name, shares_of(blend.parts), grams, basis=basis)
    if text in catalog.pot_book:
        batch = catalog.pot_book[text]
        shares = weighed_shares(catalog, text)
        basis = Basis(f"what was weighed into {text}", batch.basis)
        return Portion(text, name or f"batch {text}", shares, grams, _wax(catalog, text), basis)
    if any(sign.isdigit() for sign in text) and " " in text.strip():
        parts = parts_read(text)
        for material in parts:
            portion(catalog, material)
        return Portion(text, name or text, shares_of(parts), grams)
    if any(word in SOLVENTS for word in text.lower().replace("-", " ").split()):
        raise SolventRefused(text)
    accepted = {*catalog.materials, *catalog.blends, *catalog.pot_book}
    raise UnknownName("material, blend or batch", text, accepted)


def _wax(catalog: Catalog, batch: str) -> str:
    """Give "fresh" only where nothing inside a batch is old wax."""
    inside = [
        catalog.pot_book[name]
        for name in {batch, *ancestors(catalog, batch)}
        if name in catalog.pot_book
    ]
    return "fresh" if all(one.wax == "fresh" for one in inside) else "mixed"
