"""What a job is and what it needs, from the job at work: instrument, blocks, wax, hours, cost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.jobs.job import AT_WORK, Whole
from formulas.units import printed
from site_builder.markup.elements import Cell, basis, element, number, paragraph, table, unknown
from site_builder.parts.bench_parts import caution
from site_builder.texts.job_words import amount_said, band_said, middle_of
from site_builder.texts.words import so_many

if TYPE_CHECKING:
    from formulas.answer import Band
    from formulas.catalog import Catalog
    from formulas.jobs.job import Bought, Job, JobBlock, Line

NO_JOB = "a job at work: this part stands in a job folder only"
GROUPS = {
    "plates": "Plates and tongues",
    "valves": "Valves",
    "wax": "Wax",
    "glue": "Glue",
    "solvent": "Solvent",
    "gaskets": "Gaskets",
    "fasteners": "Pins, hooks, screws",
    "hours": "Hours",
}
WIDEST = 5
NO_WAX = "No block of this job takes new wax."
GOES_BY = "pots and shopping go by it"
ALL_WAX = "All the wax of this job: what F-01 says to have ready. The pots take its high end"
SHARED_OUT = "in the rows of wax below, which add up to it at the high end"
HEAVIEST = 3
DO_NOT_MEET = (
    "The three ways rest on different things. Where they do not meet, measure a row of plates and"
    " a fillet before the wax is melted."
)
NO_PRICE = "put its price into prices.csv"


def at_work(catalog: Catalog) -> Whole:
    """Give the job whose folder is written. Raises UnknownName where none is."""
    found = catalog.memo.get(AT_WORK)
    if not isinstance(found, Whole):
        raise UnknownName(NO_JOB, "no job", [])
    return found


def seating_said(catalog: Catalog, block: JobBlock) -> str:
    """Name how the plates of a block are seated."""
    name = catalog.seating_methods[block.seating].name
    if not block.gasket:
        return name
    return f"{name}, {catalog.gasket_materials[block.gasket].name.lower()}"


def said_blend(catalog: Catalog, job: Job) -> str:
    """Name the blend of a job with its parts by mass."""
    blend = catalog.blends[job.blend]
    parts = "; ".join(
        f"{number(amount)} of {catalog.materials[name].name}"
        for name, amount in blend.parts.items()
    )
    return f"{job.blend}: {parts} (parts by mass)"


def instrument(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what the job file says of the whole instrument, and what was counted."""
    whole = at_work(catalog)
    job = whole.job
    measured = sum(one.measured for one in whole.plates)
    cut = sum(1 for one in whole.chosen if one.stock)
    glue = catalog.glues[job.glue].name if job.glue in catalog.glues else job.glue
    rows: list[list[Cell]] = [
        ["Instrument", job.about],
        ["Opened", job.opened],
        ["Blocks and plates", f"{len(job.blocks)} blocks, {len(whole.plates)} plates"],
        ["Tongues", str(sum(one.tongues for one in whole.plates))],
        ["Measured whole", f"{measured} of {len(whole.plates)} plates"],
        ["Valves to cut", str(cut)],
        ["Valves kept", f"on {sum(one.keeps_valves for one in whole.plates)} plates"],
        ["Wax", said_blend(catalog, job) if wax_line(whole) else NO_WAX],
        ["Valve stock", job.valve_kind or "any kind"],
        ["Glue of the valves", glue or unknown("name one in the job file")],
        ["Time at the bench on a day", f"{printed(job.session_s / 3600, 1)} hours"],
    ]
    return [table(["What", "This job"], [row for row in rows if row[1]])]


def blocks(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the blocks: their plates, their seat, their metal, what is kept."""
    whole = at_work(catalog)
    notes: dict[str, list[str]] = {}
    for plate in whole.plates:
        notes.setdefault(plate.block, []).append(plate.note)
    rows = [
        [
            one.block,
            one.name,
            f"{one.count}, {_ends(notes.get(one.block, []))}",
            seating_said(catalog, one),
            one.metal,
            ", ".join(one.keep) or "nothing",
        ]
        for one in whole.job.blocks
    ]
    return [table(["Block", "Name", "Plates", "Seat", "Metal", "Kept"], rows)]


def _ends(notes: list[str]) -> str:
    return f"{notes[0]} to {notes[-1]}" if notes else ""


def wax_ways(catalog: Catalog, _: str) -> list[Element]:
    """Set three ways to reckon the wax side by side: geometry, rule of thumb, the shop's own."""
    whole = at_work(catalog)
    line = wax_line(whole)
    if line is None:
        return [paragraph(NO_WAX)]
    own = whole.wax_own
    rows: list[list[Cell]] = [
        ["By the fillets of these plates", band_said(catalog, line.amount), line.amount.method],
        ["By the rule of thumb", band_said(catalog, whole.wax_by_rule), whole.wax_by_rule.method],
        [
            "By what this shop's jobs took",
            band_said(catalog, own)
            if own
            else unknown("finish two jobs with their wax and their plates written down"),
            own.method if own else "",
        ],
    ]
    if whole.wax_to_have is not None:
        ready = whole.wax_to_have
        rows.append(
            [
                element("strong", "To have ready"),
                band_said(catalog, ready),
                f"{ready.method}; {GOES_BY}",
            ]
        )
    side_by_side = table(["Wax to melt, losses included", "Range", "How"], rows)
    return [side_by_side, paragraph(DO_NOT_MEET), *caution(catalog, "estimate-not-a-limit")]


def step_cautions(catalog: Catalog, argument: str) -> list[Element]:
    """Box those of the named cautions that a step of this job asks for."""
    asked = {name for one in at_work(catalog).steps for name in one.step.cautions}
    boxes = {name: caution(catalog, name) for name in argument.split()}
    return [box for name, made in boxes.items() if name in asked for box in made]


def wax_line(whole: Whole) -> Line | None:
    """Give the line of the wax, None where the job takes none."""
    return next((line for line in whole.lines if line.group == "wax"), None)


def time_and_cost(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the band of the hours and that of the cost."""
    whole = at_work(catalog)
    without = sum(1 for one in whole.bought if one.buy.high > 0 and one.cost is None)
    have = "has no price and is" if without == 1 else "have no price and are"
    things = so_many(without, "thing to buy", "things to buy")
    missing = f"; {things} {have} not in it" if without else ""
    known = whole.cost is not None and whole.cost.high > 0
    cost: Cell = (
        band_said(catalog, whole.cost) + missing
        if whole.cost is not None and known
        else unknown("put prices and the price of a bench hour into prices.csv")
    )
    rows: list[list[Cell]] = [
        ["Hours at the bench", band_said(catalog, whole.hours), whole.hours.method],
        ["Cost to the shop", cost, whole.cost.method if whole.cost is not None and known else ""],
    ]
    return [table(["What", "Range", "How"], rows)]


def uncertain(catalog: Catalog, _: str) -> list[Element]:
    """List the totals whose ends lie farthest apart, in proportion."""
    whole = at_work(catalog)
    wide = [(share_apart(line.amount), line) for line in whole.lines if line.group != "hours"]
    wide.append((share_apart(whole.hours), hours_line(whole)))
    found = sorted((one for one in wide if one[0] > 0), key=lambda one: -one[0])[:WIDEST]
    rows: list[list[Cell]] = [
        [line.name, band_said(catalog, line.amount), f"± {printed(100 * share, 0)} %"]
        for share, line in found
    ]
    widest = table(["Total", "Range", "Of its middle"], rows)
    hangs = [
        f"{catalog.figures[name].what if name in catalog.figures else name}"
        f" ({printed(100 * share, 0)} %)"
        for name, share in whole.wax_weight[:HEAVIEST]
    ]
    if not hangs:
        return [widest]
    told = f"Of the width of the wax by its geometry most hangs on: {'; '.join(hangs)}."
    return [widest, paragraph(told)]


def share_apart(band: Band) -> float:
    """Give the half width of a band as a share of its middle."""
    middle = (band.low + band.high) / 2
    return (band.high - band.low) / 2 / middle if middle > 0 else 0.0


def hours_line(whole: Whole) -> Line:
    """Give the hours of the whole job as a line."""
    from formulas.jobs.job import Line

    return Line("hours", "hours", "Hours at the bench", whole.hours, (), "derived")


def must_buy(catalog: Catalog, _: str) -> list[Element]:
    """List in one paragraph each what has to be bought."""
    found = [one for one in at_work(catalog).bought if one.buy.high > 0]
    if not found:
        return [paragraph("Nothing has to be bought: the shop has it.")]
    return [element("ul", *(element("li", bought_said(catalog, one)) for one in found))]


def bought_said(catalog: Catalog, one: Bought) -> str:
    """Say what has to be bought of one thing."""
    return f"{one.name}: {band_said(catalog, one.buy)}"


def shopping(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate everything that the job takes: need, at hand and from where, to buy, price."""
    whole = at_work(catalog)
    rows: list[list[Cell]] = []
    if whole.wax_to_have is not None:
        rows.append([ALL_WAX, band_said(catalog, whole.wax_to_have), SHARED_OUT, "", "", ""])
    for one in whole.bought:
        held = "; ".join(
            f"{each.of}: {amount_said(catalog, each.amount.value, each.amount.unit)}"
            f"{f', {each.note}' if each.note else ''}"
            for each in one.at_hand
        )
        buy = band_said(catalog, one.buy) if one.buy.high > 0 else "nothing"
        cost: Cell = ""
        if one.buy.high > 0:
            cost = band_said(catalog, one.cost) if one.cost else unknown(NO_PRICE)
        name = f"{one.name}. {one.note}" if one.note else one.name
        rows.append([name, band_said(catalog, one.need), held or "nothing", buy, cost, ""])
    heads = ["What", "Need", "At hand, from", "To buy", "Price", "Got on"]
    return [table(heads, rows)]


def notes(catalog: Catalog, _: str) -> list[Element]:
    """List what has to be known beside the totals."""
    found = at_work(catalog).notes
    return [element("ul", *(element("li", one) for one in found))] if found else []


def lines_and_parts(catalog: Catalog, _: str) -> list[Element]:
    """Show every total with the rows that it is the sum of, group by group."""
    return list(_groups(catalog, at_work(catalog)))


def _groups(catalog: Catalog, whole: Whole) -> Iterator[Element]:
    for group in dict.fromkeys(line.group for line in whole.lines):
        yield element("h2", GROUPS.get(group, group.capitalize()))
        lines = [line for line in whole.lines if line.group == group]
        rows: list[list[Cell]] = []
        for line in lines:
            total = amount_said(catalog, middle_of(line), line.amount.unit)
            said = "; ".join(
                f"{part.where}: {amount_said(catalog, part.amount, line.amount.unit)}"
                for part in line.parts
            )
            ends = band_said(catalog, line.amount)
            name = f"{line.name}. {line.note}" if line.note else line.name
            rows.append([name, ends, f"{said}. Sum: {total}.", basis(line.basis)])
        yield table(["Total", "Range", "The rows it is the sum of", "Basis"], rows)


def from_memory(catalog: Catalog, _: str) -> list[Element]:
    """List what of the job rests on memory alone, and what on common practice."""
    whole = at_work(catalog)
    steps = {one.step.id: one.basis for one in whole.steps}
    lines = [line for line in whole.lines if line.group != "hours"]
    items = []
    for kind, words in (("memory", "From memory, to be checked"), ("practice", "Common practice")):
        names = [line.name for line in lines if line.basis == kind]
        timed = sum(held == kind for held in steps.values())
        if timed:
            names.append(f"the time of {timed} of {len(steps)} steps")
        if names:
            items.append(element("li", f"{words}: {'; '.join(names)}."))
    plan = [one.what for one in whole.plan.basis if one.basis == "memory"]
    if plan:
        items.append(element("li", f"Of the cutting, from memory: {'; '.join(plan)}."))
    return [element("ul", *items)] if items else []
