"""The work of a job on its leaves: order and hold points, batch sheets, records of each block."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import convert, printed, spoken_unit
from formulas.wax.batch import mass_of, shares_of, steps_of, weigh_out
from site_builder.markup.elements import Cell, element, paragraph, table
from site_builder.parts.bench_parts import cautions, inline_figure
from site_builder.parts.form_parts import BETWEEN
from site_builder.parts.handbook_leaves import leaf_number
from site_builder.parts.job_parts import NO_WAX, at_work, said_blend, seating_said
from site_builder.texts.job_words import amount_said

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.job import JobBlock, Pot, StepNeed, Whole

BATCH_SHEET = "F-04"
WHOLE_JOB = "Job"
BEFORE_HEAT = (
    "Hot wax ages, so each pot is for one session. Read these boxes before the pot is switched on,"
    " and tick them on the sheet of each pot."
)
MOST_BLOCKS = 12  # columns of one chart; more blocks go on a chart of their own
BOX, NONE = "☐", "–"
INITIALS = (
    "Put your initials over each box when the step is done on that block."
    " A dash says that the step is not done there."
)
MOST_KEPT = 24  # plates of a block whose test form is kept on one page


def form_line(label: str) -> Element:
    """Rule one line to write on."""
    return element("formline", label=label)


def form_table(rows: int, *heads: str) -> Element:
    """Rule a table to write in."""
    return element("formtable", heads=BETWEEN.join(heads), rows=str(rows))


def chart_table(
    name: str,
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    ticked: int = 0,
    row_mm: str = "",
) -> Element:
    """Rule a chart: the cells of its rows are printed, the rest of its columns are to write in."""
    told = len(rows[0]) if rows else 1
    made = element(
        "charttable",
        heads=BETWEEN.join(heads),
        told=str(told),
        ticked=str(ticked),
        name=name,
        row=row_mm,
    )
    made.extend(element("tr", *(element("td", cell) for cell in row)) for row in rows)
    return made


def own_page(*content: Element) -> Element:
    """Give what begins a page of its own, to be taken out."""
    return element("ownpage", *content)


def kept(*content: Element) -> Element:
    """Give what is kept on one page, beside others where there is room."""
    return element("ownpage", *content, kept="yes")


def by_step(whole: Whole) -> dict[str, list[StepNeed]]:
    """Give what is needed for each step, in the order of work."""
    found: dict[str, list[StepNeed]] = {}
    for one in sorted(whole.steps, key=lambda one: one.step.place):
        found.setdefault(one.step.id, []).append(one)
    return found


def order_of_work(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the steps in order, with their time and how to tell that they are done."""
    whole = at_work(catalog)
    rows: list[list[Cell]] = []
    for at, ones in enumerate(by_step(whole).values(), 1):
        step = ones[0].step
        low, high = sum(one.low for one in ones), sum(one.high for one in ones)
        count = sum(one.count for one in ones)
        changed = sorted({name for one in ones for name in one.changed_by})
        told = step.done_when.rstrip(".")
        if changed:
            told = f"{told}. Longer or shorter for: {', '.join(changed)}"
        name = f"HOLD: {step.name}" if step.hold_point else step.name
        leaf = leaf_number(catalog, step.leaf)
        rows.append(
            [
                str(at),
                element("strong", name) if step.hold_point else name,
                f"{count} × {step.per}",
                _time(low, high),
                told,
                leaf,
            ]
        )
    return [table(["No.", "Step", "For", "Hours", "Done when", "Leaf"], rows)]


def _time(low: float, high: float) -> str:
    """Give hours; a step that only waits takes no hand."""
    if high <= 0:
        return "rest"
    first, last = printed(low / 60, 1), printed(high / 60, 1)
    return first if first == last else f"{first} to {last}"


def progress(catalog: Catalog, _: str) -> list[Element]:
    """Rule a chart of steps against blocks, to be initialled; what does not apply is struck."""
    whole = at_work(catalog)
    names = [one.block for one in whole.job.blocks]
    groups = [names[at : at + MOST_BLOCKS] for at in range(0, len(names), MOST_BLOCKS)]
    found = []
    for at, group in enumerate(groups):
        of_blocks = "" if len(groups) == 1 else f", blocks {group[0]} to {group[-1]}"
        heading = element("h2", f"Step by block{of_blocks}")
        columns = [WHOLE_JOB, *group] if at == 0 else group
        found.append(own_page(heading, paragraph(INITIALS), _steps_by(whole, columns)))
    return found


def _steps_by(whole: Whole, columns: Sequence[str]) -> Element:
    """Rule the steps against some blocks."""
    rows: list[list[str]] = []
    for at, ones in enumerate(by_step(whole).values(), 1):
        step = ones[0].step
        asked = {one.block or WHOLE_JOB for one in ones}
        hold = "HOLD: " if step.hold_point else ""
        boxes = (BOX if one in asked else NONE for one in columns)
        rows.append([str(at), hold + step.name, *boxes])
    return table(["No.", "Step", *columns], rows)


def hold_points(catalog: Catalog, _: str) -> list[Element]:
    """Give each hold point with a line to sign for each block."""
    whole = at_work(catalog)
    found: list[Element] = []
    for at, ones in enumerate(by_step(whole).values(), 1):
        step = ones[0].step
        if step.hold_point:
            found.append(element("h3", f"{at} {step.name}"))
            found.append(paragraph(step.done_when))
            rows = [[f"Block {one.block}" if one.block else "The whole job"] for one in ones]
            heads = ["Block", "Checked by", "On", "What was put right"]
            found.append(chart_table(f"hold point {at}", heads, rows))
    return found or [paragraph("No step of this job is a hold point.")]


def batch_sheets(catalog: Catalog, _: str) -> list[Element]:
    """Give a sheet for each pot of the job: what to weigh out, and what to write down."""
    whole = at_work(catalog)
    if not whole.pots:
        return [paragraph(f"{NO_WAX} There is no pot to melt.")]
    boxes = [paragraph(BEFORE_HEAT), *cautions(catalog, BATCH_SHEET)]
    return boxes + [own_page(*_batch_sheet(catalog, whole, pot)) for pot in whole.pots]


def _batch_sheet(catalog: Catalog, whole: Whole, pot: Pot) -> Iterator[Element]:
    job = whole.job
    yield element("h2", f"Pot {pot.number} of {len(whole.pots)}, job {job.job}")
    grams = amount_said(catalog, pot.grams, "g")
    blocks = ", ".join(pot.blocks)
    yield paragraph(
        f"For {pot.plates} plates of block {blocks}: {pot.when}."
        f" {grams}, losses and the high end of the range included."
    )
    yield paragraph(said_blend(catalog, job))
    yield element("ticks", *(element("li", one.title) for one in catalog.cautions_for(BATCH_SHEET)))
    rows = [*weighed(catalog, job.blend, pot.grams), ["Old wax, if any", ""]]
    heads = ["Material", "Weigh", "Really weighed", "Lot, or old batch", "Checked by"]
    yield chart_table(f"pot {pot.number}, weighed", heads, rows, row_mm="9")
    yield paragraph(
        "Bedding at ",
        inline_figure(catalog, "holding-window"),
        "; the pot never above ",
        inline_figure(catalog, "over-temperature-ceiling"),
        ".",
    )
    yield form_table(
        1, "Batch number", "Date", "Hottest in the wax", "Minutes at make-up", "Hours hot", "Left"
    )
    yield form_table(3, "Used on block, plates", "Date", "How much", "By")
    yield form_line("Made by, checked by")


def weighed(catalog: Catalog, blend: str, grams: float) -> list[list[str]]:
    """Give what of each material is weighed out, in whole steps of the shop's scale."""
    shares = shares_of(catalog.blend(blend).parts)
    step, unit = catalog.shop.scale_step, catalog.shop.scale_unit
    counts = weigh_out(list(shares.values()), steps_of(convert(grams, "g", unit), step))
    places = max(0, len(f"{step:g}".partition(".")[2]))
    return [
        [catalog.material(name).name, f"{printed(mass_of(n, step), places)} {spoken_unit(unit)}"]
        for name, n in zip(shares, counts, strict=True)
    ]


FOUND_ITEMS = (
    "Seat: dry or bedded, and with what",
    "Wax: colour, smell, cracks, gaps",
    "Valves: stock, face to the plate, glue",
    "Plates: metal, rust, bent tongues, earlier filing",
    "Block: wood, cracks, cell walls, foot",
    "Gasket, pins, hooks, screws",
    "Earlier repairs, other hands",
    "Photographs: numbers",
    "Envelope: a valve, a crumb of wax",
)


def as_found(catalog: Catalog, _: str) -> list[Element]:
    """Give a record for each block: what the job file says, and what is found when it is open."""
    return [kept(*_found(catalog, block)) for block in at_work(catalog).job.blocks]


def _found(catalog: Catalog, block: JobBlock) -> Iterator[Element]:
    yield element("h2", f"Block {block.block}: {block.name}")
    said = ", ".join(f"{what} {_grade(catalog, name)}" for what, name in block.found.items())
    kept = f" Kept: {', '.join(block.keep)}." if block.keep else ""
    yield paragraph(
        f"The job file says: {said or 'nothing graded yet'}. Seat named: "
        f"{seating_said(catalog, block)}.{kept}"
    )
    heads = ["Of block " + block.block, "As it was found", "By, on"]
    yield chart_table(f"block {block.block}, as found", heads, [[one] for one in FOUND_ITEMS])


def _grade(catalog: Catalog, name: str) -> str:
    """Give the word of a grade of the survey, as it is written on the form."""
    known = catalog.survey_grades.get(name)
    return known.grade if known else name


def tests(catalog: Catalog, _: str) -> list[Element]:
    """Give a chart for each block of the tests of its valves and of its bedding, plate by plate."""
    whole = at_work(catalog)
    found: list[Element] = []
    for block in whole.job.blocks:
        rows = [[one.mark, one.note] for one in whole.plates if one.block == block.block]
        form = (
            element("h3", f"Block {block.block}: {block.name}"),
            chart_table(f"block {block.block}, tests", TEST_HEADS, rows, ticked=len(TEST_TICKS)),
            form_line("Compared with which good block; tested by, on"),
        )
        found += [kept(*form)] if len(rows) <= MOST_KEPT else form
    return found


TEST_TICKS = (
    "Inside falls",
    "Inside seals",
    "Outside falls",
    "Outside seals",
    "Tap",
    "Thumb",
    "Tissue",
    "Buzz, press",
    "Buzz, draw",
)
TEST_HEADS = ("Plate", "Note", *TEST_TICKS, "Gaps", "Suction, s", "What was put right")


def seats_by_block(catalog: Catalog, _: str) -> list[Element]:
    """Rule the record of what each block was seated with, to be filled in at the end."""
    whole = at_work(catalog)
    rows = [[one.block, f"{one.count}", seating_said(catalog, one)] for one in whole.job.blocks]
    heads = ["Block", "Plates", "Seat as planned", "Seat as done", "Batch of wax", "Done on"]
    return [chart_table("seats", heads, rows)]


def materials_used(catalog: Catalog, _: str) -> list[Element]:
    """Rule the record of what went into the instrument, planned and done."""
    whole = at_work(catalog)
    job = whole.job
    stocks = list(dict.fromkeys(one.stock for one in whole.chosen if one.stock))
    glue = catalog.glues[job.glue].name if job.glue in catalog.glues else "not named"
    rows = [["Wax", said_blend(catalog, job)]] if whole.pots else []
    rows += [["Valves", f"{catalog.valve_stock[one].name} ({one})"] for one in stocks]
    rows += [["Glue of the valves", glue]] if stocks else []
    rows += [
        ["Gasket", catalog.gasket_materials[one].name]
        for one in dict.fromkeys(block.gasket for block in job.blocks if block.gasket)
    ]
    rows += [["Other", ""]]
    return [chart_table("materials", ["What", "Planned", "Really used", "Lot, skin, tin"], rows)]
