"""What a blend's label must say of its hazards, from the shares of what is in it.

A mixture rule of the UN GHS as far as the tables hold it: one component at or above a share makes
the blend carry its statement; shares of several components are not added. A material without a
row is not known, never harmless.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from formulas.answer import Basis
from formulas.catalog import Catalog
from formulas.fault import UnknownName
from formulas.frozen import Frozen
from formulas.hazard_entries import MixtureRule
from formulas.units import spoken_unit

SENSITISER = "(name of sensitising substance)"  # what a statement leaves to be named
AS_IF_RECLAIMED = "H317"
RECLAIMED = "wax out of older work nearly always holds rosin, and how much is not known"
NEARLY = 1e-12  # one part in a hundred is one percent, whatever a float makes of it


class Carried(Frozen):
    """A statement that a label carries, or leaves out, with the reason."""

    code: str
    text: str
    because: str

    def as_json(self) -> dict[str, str]:
        """Give code, words and reason under their names."""
        return {"code": self.code, "text": self.text, "because": self.because}


class HazardClass(Frozen):
    """The hazard elements of a label; `not_known` names materials that no row tells of.

    `precautions` stand in our own order of importance and are no more than a label may carry;
    `left_out` holds the rest of those that belong to the hazard, each with the reason.
    """

    signal: str
    pictograms: tuple[str, ...]
    hazards: tuple[Carried, ...]
    supplements: tuple[Carried, ...]
    precautions: tuple[Carried, ...]
    left_out: tuple[Carried, ...]
    not_known: tuple[str, ...]
    basis: tuple[Basis, ...]

    def elements(self) -> dict[str, Any]:
        """Give the elements that the answer of every label has, under their names there."""
        return {
            "signal_word": self.signal,
            "pictograms": list(self.pictograms),
            "hazard_statements": list(self.hazards),
            "supplemental": list(self.supplements),
            "precautionary_statements": list(self.precautions),
            "statements_left_out": list(self.left_out),
        }


def classify(
    catalog: Catalog, shares: Mapping[str, float], *, reclaimed: bool = False
) -> HazardClass:
    """Classify a blend by the shares by mass of its materials.

    Reclaimed wax is labelled as a skin sensitiser whatever its shares say. Raises UnknownName for
    a material of no table.
    """
    met = [rule_met for name in shares for rule_met in _met(catalog, name, shares[name])]
    named: dict[str, list[str]] = {}
    for rule, name in met:
        for code in rule.gives:
            named.setdefault(code, []).append(name.lower())
    carried = {code: _carried(catalog, code, names) for code, names in named.items()}
    basis = [_basis(catalog, rule) for rule, _ in met]
    if reclaimed and AS_IF_RECLAIMED not in carried:
        text = catalog.statements[AS_IF_RECLAIMED].text
        carried[AS_IF_RECLAIMED] = Carried(AS_IF_RECLAIMED, text, RECLAIMED)
        basis.append(Basis(RECLAIMED, "practice"))
    hazards = any(code.startswith("H") for code in carried)
    kept = {code: one for code, one in carried.items() if code.startswith("H") or not hazards}
    return _classed(catalog, kept, basis, tuple(_not_known(catalog, shares)))


def of_codes(catalog: Catalog, codes: Iterable[str], name: str, because: Basis) -> HazardClass:
    """Give the hazard elements that statements ask for: those of a data sheet, or of a table.

    `name` stands where a statement leaves the substance to be named. Raises UnknownName for a
    code of no table.
    """
    carried = {}
    for code in sorted(set(codes), key=lambda code: (code.startswith("EUH"), code)):
        if code not in catalog.statements:
            raise UnknownName("statement", code, catalog.statements)
        text = catalog.statements[code].text.replace(SENSITISER, name)
        carried[code] = Carried(code, text, because.what)
    return _classed(catalog, carried, [because], ())


def _classed(
    catalog: Catalog,
    carried: Mapping[str, Carried],
    basis: Sequence[Basis],
    not_known: tuple[str, ...],
) -> HazardClass:
    """Give signal word, pictograms and precautions of the statements that are carried."""
    hazards = tuple(one for code, one in carried.items() if code.startswith("H"))
    supplements = tuple(one for code, one in carried.items() if not code.startswith("H"))
    precautions, left_out = _precautions(catalog, [one.code for one in hazards])
    words = [
        Basis(f"words of {one.code}", statement.basis, statement.source)
        for one in (*hazards, *supplements, *precautions)
        for statement in [catalog.statements[one.code]]
    ]
    signals = {catalog.statements[one.code].signal for one in hazards}
    signs = [catalog.statements[one.code].pictogram for one in hazards]
    return HazardClass(
        next((word for word in ("Danger", "Warning") if word in signals), ""),
        tuple(dict.fromkeys(sign for sign in signs if sign)),
        hazards,
        supplements,
        precautions,
        left_out,
        not_known,
        tuple(dict.fromkeys([*basis, *words])),
    )


def _met(catalog: Catalog, material: str, share: float) -> Iterable[tuple[MixtureRule, str]]:
    """Give, for each statement of a material, the rule of the highest share that it reaches."""
    name = catalog.material(material).name
    for hazard in (row for row in catalog.hazards if row.material == material):
        limits = {
            catalog.span(rule.figure, "dimensionless")[0]: rule
            for rule in catalog.mixture_rules
            if rule.hazard == hazard.code
        }
        reached = [limit for limit in limits if share >= limit - NEARLY]
        if reached:
            yield limits[max(reached)], name


def _carried(catalog: Catalog, code: str, names: list[str]) -> Carried:
    held = " and ".join(names)
    return Carried(code, catalog.statements[code].text.replace(SENSITISER, held), f"holds {held}")


def _basis(catalog: Catalog, rule: MixtureRule) -> Basis:
    """Give the rule; where the share is from memory, so is what rests on it."""
    figure = catalog.figure(rule.figure)
    weaker = figure if figure.basis == "memory" else rule
    share = f"{figure.low:g} {spoken_unit(figure.unit)}"
    return Basis(f"{figure.what}: {share}", weaker.basis, weaker.source)


def _precautions(
    catalog: Catalog, hazards: list[str]
) -> tuple[tuple[Carried, ...], tuple[Carried, ...]]:
    """Give the precautions that a label carries, and those it does without, with the reason."""
    rows = sorted(
        (row for row in catalog.hazard_precautions if row.hazard in hazards),
        key=lambda row: row.place,
    )
    most = int(catalog.figure("precautions-at-most").high)
    used: list[Carried] = []
    left_out: list[Carried] = []
    for row in rows:
        text = row.on_label or catalog.statements[row.precaution].text
        if row.precaution in {one.code for one in (*used, *left_out)}:
            continue
        if not row.used:
            left_out.append(Carried(row.precaution, text, row.note))
        elif len(used) == most:
            why = f"a label carries {most} precautionary statements at most"
            left_out.append(Carried(row.precaution, text, why))
        else:
            used.append(Carried(row.precaution, text, f"it goes with {row.hazard}"))
    return tuple(used), tuple(left_out)


def _not_known(catalog: Catalog, shares: Mapping[str, float]) -> Iterable[str]:
    """Name each material without a hazard row, and each hazard that no rule covers."""
    ruled = {rule.hazard for rule in catalog.mixture_rules}
    for material in shares:
        name = catalog.material(material).name
        codes = [row.code for row in catalog.hazards if row.material == material]
        if not codes:
            yield name
        yield from (f"{name} ({code} in a blend)" for code in codes if code not in ruled)
