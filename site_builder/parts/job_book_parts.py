"""What the leaf on the books of jobs places: the shop's own figures, and its jobs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.jobs import job_list
from formulas.units import printed
from site_builder.markup.elements import Cell, basis, day, paragraph, span, table
from site_builder.texts.book_words import kept, weighed
from site_builder.texts.record_figures import WAX, middle, rests_on, spread

if TYPE_CHECKING:
    from formulas.answer import Answer, Band
    from formulas.catalog import Catalog
    from formulas.jobs.own_figures import OwnFigure

NO_FIGURES = (
    "This shop has written no hours yet, and no job of it that is done says how many plates its"
    " wax went to: the ranges of the trade stand."
)
NO_JOBS = "No job stands in the books of this shop yet."
SHOWN = 30  # of the newest jobs; the whole book is jobs.csv
FIGURE_HEADS = ["What", "The trade", "Basis", "This shop", "One more job", "Rests on", "Counts"]
JOB_HEADS = ["Job", "Stands", "Since", "Kept back", "Plates", "Wax", "Hours"]
COUNTS = {"own": "this shop's", "trade": "the trade's"}


def own_figures(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what the shop really uses beside the trade's range, and which of the two counts."""
    answer = job_list.figures(catalog)
    found = answer.answer
    told = [(WAX, found["grams_per_plate"])] if found["grams_per_plate"]["own"] else []
    told += [(f"{one['name']}, each {one['per']}", one) for one in found["minutes_by_step"]]
    if not told:
        return [paragraph(NO_FIGURES)]
    rows = [_figure(what, one) for what, one in told]
    shop = next(one for one in answer.basis if one.what == job_list.OWN_ROWS)
    rests = paragraph("The shop's own rows: ", *basis(shop.basis), ".")
    return [table(FIGURE_HEADS, rows), rests, *_silent(answer)]


def _figure(what: str, told: dict[str, Any]) -> list[Cell]:
    own: OwnFigure = told["own"]
    trade: Band = told["trade"]
    return [
        what,
        span(trade.low, trade.high, trade.unit),
        basis(trade.method),
        middle(own),
        spread(own),
        rests_on(own),
        COUNTS[told["counts"]],
    ]


def _silent(answer: Answer) -> list[Element]:
    """Say which jobs tell nothing of the wax, and what is missing in them."""
    silent = answer.answer["jobs_that_tell_nothing"]
    said = "; ".join(f"{one['job']}: {one['why']}" for one in silent)
    return [paragraph(f"These jobs tell nothing of the wax on a plate. {said}.")] if said else []


def shop_jobs(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the jobs of the shop, the newest first, with what is kept back for each."""
    listed = job_list.jobs(catalog).answer["jobs"]
    if not listed:
        return [paragraph(NO_JOBS)]
    newest = sorted(listed, key=lambda one: (one["since"], one["job"]))[::-1]
    shown = table(JOB_HEADS, [_job(one) for one in newest[:SHOWN]], right=[4, 5, 6])
    if len(newest) <= SHOWN:
        return [shown]
    return [shown, paragraph(f"The newest {SHOWN} of {len(newest)} jobs.")]


def _job(one: dict[str, Any]) -> list[Cell]:
    return [
        f"{one['job']}, {one['instrument']}" if one["instrument"] else one["job"],
        one["state"],
        day(one["since"]),
        ", ".join(kept(each) for each in one["kept_back"]) or "nothing",
        "" if one["plates"] is None else str(one["plates"]),
        weighed(one["wax"]) if one["wax"] else "",
        printed(one["hours"].value, 1) if one["hours"] else "",
    ]
