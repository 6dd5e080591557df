"""The work of a job on its leaves: order and hold points, batch sheets, records of each block."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import convert, printed, spoken_unit
from formulas.valves.deciding import WITH_HELPER
from formulas.wax.batch import mass_of, shares_of, steps_of, weigh_out
from site_builder.markup.elements import Cell, element, paragraph, table
from site_builder.parts.bench_parts import cautions, inline_figure
from site_builder.parts.form_parts import BETWEEN
from site_builder.parts.handbook_leaves import leaf_number
from site_builder.parts.job_parts import NO_WAX, at_work, said_blend, seating_said
from site_builder.parts.job_survey_parts import grade_word
from site_builder.texts.job_words import amount_said
from site_builder.texts.words import so_many

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.job import JobBlock, Pot, StepNeed, Whole

BATCH_SHEET = "F-04"
WHOLE_JOB = "Job"
BEFORE_HEAT = (
    "Hot wax ages, so each pot is for one session. Read these boxes before the pot is switched on,"
    " and tick them on the sheet of each pot."
)
MELT_FIRST = (
    "Melt the ready wax first, then add what is weighed out fresh. The sheets of all pots together"
    " take what the shopping list takes, and no more."
)
MOST_BLOCKS = 12  # columns of one chart; more blocks go on a chart of their own
EN_DASH = "\N{EN DASH}"
BOX, NONE = "☐", "–"
INITIALS = (
    "Put your initials over each box when the step is done on that block."
    " A dash says that the step is not done there."
)
MOST_KEPT = 24  # rows of a form that are kept on one page with what belongs to them
UNDER_GLUE = "what undoes its glue"
SIGNED_MM = "8.5"  # of a row to write words in


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
    broad: str = "",
) -> Element:
    """Rule a chart: the cells of its rows are printed, the rest of its columns are to write in.

    `broad` is the place of a column, counted over all heads, that is twice as wide as its like.
    """
    told = len(rows[0]) if rows else 1
    made = element(
        "charttable",
        heads=BETWEEN.join(heads),
        told=str(told),
        ticked=str(ticked),
        name=name,
        row=row_mm,
        broad=broad,
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
            grades = ", ".join(_graded(catalog, one) for one in changed)
            told = f"{told}. Longer or shorter for: {grades}"
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


def _graded(catalog: Catalog, name: str) -> str:
    """Name a grade of the survey with the part it is of, in words."""
    known = catalog.survey_grades[name]
    return f"{known.what} {grade_word(known)}"


def _time(low: float, high: float) -> str:
    """Give hours; a step that only waits takes no hand."""
    if high <= 0:
        return "rest"
    first, last = printed(low / 60, 1), printed(high / 60, 1)
    return first if first == last else f"{first}{EN_DASH}{last}"


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
            rows = [[f"Block {one.block}" if one.block else "The whole job"] for one in ones]
            heads = ["Block", "Checked by", "On", "What was put right"]
            form = (
                element("h3", f"{at} {step.name}"),
                paragraph(step.done_when),
                chart_table(f"hold point {at}", heads, rows, row_mm=SIGNED_MM),
            )
            found += [kept(*form)] if len(rows) <= MOST_KEPT else form
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
    if pot.ready:
        yield paragraph(MELT_FIRST)
    rows = [*ready_rows(catalog, pot), *fresh_rows(catalog, job.blend, pot)]
    heads = ["What", "Weigh", "Really weighed", "Lot, or batch", "Checked by"]
    yield chart_table(f"pot {pot.number}, weighed", heads, rows, row_mm="9")
    notes = [f"{held.of}: {held.note}" for held in pot.ready if held.note]
    if notes:
        yield paragraph(f"Of the ready wax, before it is melted. {'. '.join(notes)}.")
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


def ready_rows(catalog: Catalog, pot: Pot) -> list[list[str]]:
    """Give what of each ready batch goes into a pot, in whole steps of the shop's scale."""
    return [
        [f"Ready wax {held.of}", _on_the_scale(catalog, _steps(catalog, held.amount.value))]
        for held in pot.ready
    ]


def fresh_rows(catalog: Catalog, blend: str, pot: Pot) -> list[list[str]]:
    """Give what of each material is weighed out beside the ready wax; nothing where that does."""
    return weighed(catalog, blend, pot.fresh) if pot.fresh else []


def weighed(catalog: Catalog, blend: str, grams: float) -> list[list[str]]:
    """Give what of each material is weighed out, in whole steps of the shop's scale."""
    shares = shares_of(catalog.blend(blend).parts)
    counts = weigh_out(list(shares.values()), _steps(catalog, grams))
    return [
        [catalog.material(name).name, _on_the_scale(catalog, n)]
        for name, n in zip(shares, counts, strict=True)
    ]


def _steps(catalog: Catalog, grams: float) -> int:
    return steps_of(convert(grams, "g", catalog.shop.scale_unit), catalog.shop.scale_step)


def _on_the_scale(catalog: Catalog, steps: int) -> str:
    step, unit = catalog.shop.scale_step, catalog.shop.scale_unit
    places = max(0, len(f"{step:g}".partition(".")[2]))
    return f"{printed(mass_of(steps, step), places)} {spoken_unit(unit)}"


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
    rows = [[one] for one in FOUND_ITEMS]
    yield chart_table(f"block {block.block}, as found", heads, rows, row_mm=SIGNED_MM, broad="1")


def _grade(catalog: Catalog, name: str) -> str:
    """Give the word of a grade of the survey, as it is written on the form."""
    known = catalog.survey_grades.get(name)
    return grade_word(known) if known else name


def tests(catalog: Catalog, _: str) -> list[Element]:
    """Give a sheet for each block of the tests of its valves and of its bedding, plate by plate.

    A long block has several, each with its own line to sign.
    """
    whole = at_work(catalog)
    found: list[Element] = []
    for block in whole.job.blocks:
        rows = [[one.mark, one.note] for one in whole.plates if one.block == block.block]
        sheets = in_sheets(rows)
        for at, sheet in enumerate(sheets, 1):
            head = f"Block {block.block}: {block.name}"
            part = f", {sheet[0][0]} to {sheet[-1][0]}" if len(sheets) > 1 else ""
            name = f"block {block.block}, tests" + (f", sheet {at}" if part else "")
            chart = chart_table(name, TEST_HEADS, sheet, ticked=len(TEST_TICKS))
            sign = form_line("Compared with which good block; tested by, on")
            found.append(own_page(element("h3", head + part), chart, sign))
    return found


def in_sheets(rows: Sequence[list[str]]) -> list[Sequence[list[str]]]:
    """Part rows among as few sheets as hold them, as evenly as may be."""
    sheets = max(1, math.ceil(len(rows) / MOST_KEPT))
    each = math.ceil(len(rows) / sheets)
    return [rows[at : at + each] for at in range(0, len(rows), each)]


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
    """Rule the record of what went into the instrument, planned and done, and what undoes it."""
    rows = list(_materials(catalog, at_work(catalog)))
    heads = ["What", "Planned", "What undoes it", "Really used", "Lot, skin, tin"]
    return [chart_table("materials", heads, rows, row_mm=SIGNED_MM)]


def _materials(catalog: Catalog, whole: Whole) -> Iterator[list[str]]:
    job = whole.job
    if whole.pots:
        seats = dict.fromkeys(block.seating for block in job.blocks)
        methods = [catalog.seating_methods[one] for one in seats]
        undone = "; ".join(one.reversed_by for one in methods if one.group == "wax")
        yield ["Wax", said_blend(catalog, job), undone]
    with_stock = [one for one in whole.chosen if one.stock]
    for stock in dict.fromkeys(one.stock for one in with_stock):
        yield ["Valves", _named_stock(catalog, stock), UNDER_GLUE]
    for topper in dict.fromkeys(one.topper for one in with_stock if one.topper):
        yield ["Film over the valve", _named_stock(catalog, topper), UNDER_GLUE]
    helped = sum(one.kind == WITH_HELPER for one in with_stock)
    if helped:
        yield ["Helper springs", f"on {so_many(helped, 'valve')}", ""]
    if with_stock:
        glue = catalog.glues.get(job.glue)
        told = (glue.name, glue.reversed_by) if glue else ("not named", "")
        yield ["Glue of the valves", *told]
    for material in dict.fromkeys(block.gasket for block in job.blocks if block.gasket):
        yield ["Gasket", catalog.gasket_materials[material].name, ""]
    yield ["Other", "", ""]


def _named_stock(catalog: Catalog, stock: str) -> str:
    return f"{catalog.valve_stock[stock].name} ({stock})"
