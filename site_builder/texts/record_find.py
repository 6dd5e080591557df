"""The terminal text of `record find`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.book_words import kept, pieces, seen, weighed
from site_builder.texts.words import shop_line, wrapped


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the lots, the batches and the jobs that hang together with a name."""
    found = answer.answer
    kinds = " and ".join(found["kinds"])
    state = f", {found['state']}" if found["state"] else ""
    lines = [f"{found['name']}: {kinds}{state}", shop_line(catalog)]
    for head, rows in (
        ("Lots", (_lot(lot, catalog) for lot in found["lots"])),
        ("Batches", (line for batch in found["batches"] for line in _batch(batch, catalog))),
        ("Jobs", (_job(job) for job in found["jobs"])),
    ):
        lines += ["", head, *(list(rows) or ["  none in the books"])]
    for head, told in (
        ("Kept back", [f"  {kept(one)}, since {one['since']}" for one in found["kept_back"]]),
        ("Stock", [_stock(one) for one in found["stock"]]),
        ("Hours", [_hours(one) for one in found["hours"]]),
    ):
        lines += ["", head, *told] if told else []
    return lines


def _stock(one: dict[str, Any]) -> str:
    told = (
        f", skin {one['skin']}{', spent' if one['spent'] else ''}" if one["skin"] else "",
        f", {pieces(one['pieces'])}" if one["pieces"] is not None else "",
        f", {one['valves']} valves" if one["valves"] is not None else "",
        f", by {one['used_by']}" if one["used_by"] else "",
    )
    return f"  {one['date']}  {one['stock']}{''.join(told)}"


def _hours(one: dict[str, Any]) -> str:
    by = f", by {one['worked_by']}" if one["worked_by"] else ""
    minutes = f"{one['minutes'].value:g} min for {one['done']}"
    return wrapped(f"  {one['date']}  {one['name']}: {minutes}{by}", "      ")


def _lot(lot: dict[str, Any], catalog: Catalog) -> str:
    name = catalog.materials[lot["material"]].name
    batches = ", ".join(lot["batches"]) or "no batch"
    return wrapped(
        f"  {lot['lot']}  {name}: {weighed(lot['left'])} left of {weighed(lot['held'])} by the"
        f" books; drawn for {batches}",
        "      ",
    )


def _batch(batch: dict[str, Any], catalog: Catalog) -> Iterator[str]:
    if not batch["in_the_pot_book"]:
        yield f"  {batch['batch']}  stands not in pot_book.csv: stock drawn for no batch"
    else:
        left = f"; {weighed(batch['left'])} left" if batch["left"] else ""
        yield wrapped(
            f"  {batch['batch']}  {batch['date']}  {batch['blend'] or batch['parts']}"
            f"{_for(batch)}{_who(batch)}{left}{_end(batch)}",
            "      ",
        )
    for lot in batch["lots"]:
        material = catalog.materials.get(lot["material"])
        what = material.name if material else "Old wax"
        mass = weighed(lot["actual"]) if lot["actual"] else "mass not known"
        yield f"      holds {mass} {what}, lot {lot['lot'] or 'not known'}"
    for words, key in (("went into", "went_into_batches"), ("used in", "jobs")):
        if batch[key]:
            yield wrapped(f"      {words} {', '.join(batch[key])}", "        ")
    yield from _tests(batch["tests"], catalog)


def _for(batch: dict[str, Any]) -> str:
    return f"; melted for {batch['melted_for']}" if batch["melted_for"] else ""


def _who(batch: dict[str, Any]) -> str:
    made = f"; made by {batch['made_by']}" if batch["made_by"] else ""
    return made + (f", checked by {batch['checked_by']}" if batch["checked_by"] else "")


def _end(batch: dict[str, Any]) -> str:
    if batch["discarded"]:
        return f"; thrown out {batch['discarded']}"
    return f"; test again by {batch['retest_by']}" if batch["retest_by"] else ""


def _tests(tests: Iterable[dict[str, Any]], catalog: Catalog) -> Iterator[str]:
    for test in tests:
        method = catalog.methods[test["method"]].name.lower()
        out = f" (left out: {test['left_out']})" if test["left_out"] else ""
        yield wrapped(f"      {test['test']} {method}: {seen(test)}{out}", "        ")


def _job(job: dict[str, Any]) -> str:
    amount = f", {weighed(job['amount'])}" if job["amount"] else ""
    by = f", by {job['used_by']}" if job["used_by"] else ""
    return f"  {job['job']}: {job['batch']}{amount}{', ' + job['date'] if job['date'] else ''}{by}"
