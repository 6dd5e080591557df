"""The folder of a job: all its leaves, every plate once, the same totals on paper and screen."""

from __future__ import annotations

import csv
import dataclasses
import functools
import io
import itertools
import json
import re

import pypdf
import pytest
from html_reading import Reading
from job_examples import JOBS, in_a_shop, worked_out

from formulas.catalog import load
from formulas.fault import Faults, UnknownName
from formulas.jobs.job import AT_WORK
from site_builder import publish
from site_builder.job_folder import reading, shelf, tables, writing
from site_builder.paper import binder
from site_builder.parts import block_charts, handbook_leaves, job_parts, job_work_parts, registry
from site_builder.places import CONTENT
from site_builder.publish import NotOurs
from site_builder.texts.job_words import amount_said, band_said, middle_of

LEAVES = [f"F-{number:02}" for number in range(1, 12)]
HEAT = (
    "hot-wax-burn burn-first-aid wax-fire water-and-hot-wax wet-pot-direct-heat never-alone"
    " thermostat-and-cut-out rosin-sensitiser rosin-dust rosin-fume solvent-and-heat defer"
)

# What must stand on a leaf before the stove, the knife or the dust, kept apart from the table.
DEMANDED = {
    "F-01": "estimate-not-a-limit",
    "F-02": (
        "old-dust rosin-sensitiser leather-dust solvent-and-heat celluloid-near-heat hot-wax-burn"
        " burn-first-aid wax-fire never-alone defer"
    ),
    "F-04": HEAT,
    "F-05": "sharp-tool leather-dust",
    "F-06": "old-dust film-and-hot-wax touch-up-iron",
    "F-07": "old-dust",
    "F-08": "old-dust",
    "F-09": "hot-car",
}


@functools.cache
def book(number="26-021"):
    """Read the leaves of a job once."""
    return reading.read(worked_out(number))


@functools.cache
def made(number="26-021"):
    """Make the files of a job once."""
    return writing.files(worked_out(number))


@functools.cache
def paper(number="26-021"):
    """Open the PDF of a job."""
    return pypdf.PdfReader(io.BytesIO(made(number)[reading.PAPER]))


def leaf(number, job="26-021"):
    """Give one leaf by its number."""
    return next(one for one in book(job).leaves if one.number == number)


def words(tree):
    """Give what stands in a tree, charts among it."""
    return " ".join(" ".join(tree.itertext()).split())


def told(number="26-021"):
    """Give the words of the whole PDF, without line ends and hyphens at them."""
    return " ".join(" ".join(page.extract_text() for page in paper(number).pages).split())


@pytest.mark.parametrize("job", JOBS)
def test_every_leaf_is_there(job):
    """Each job has its eleven leaves in order, and each is a page and stands in the menu."""
    assert [one.number for one in book(job).leaves] == LEAVES
    front = made(job)["index.html"].decode()
    for one in book(job).leaves:
        assert f"{one.slug}.html" in made(job)
        assert f'href="{one.slug}.html"' in front


def test_the_folder_holds_what_it_should_and_no_more():
    """Beside the pages: one style sheet, the PDF, two tables; no script and no search."""
    names = set(made())
    assert {name for name in names if not name.endswith(".html")} == {
        "assets/look.css",
        "job-folder.pdf",
        "needs.csv",
        "plates.csv",
    }
    assert not [name for name in names if name.endswith(".html") and b"<script" in made()[name]]


@pytest.mark.parametrize("job", JOBS)
def test_every_plate_stands_once_in_the_block_charts(job):
    """The mark of each plate is on one row of one chart, under its block, in its order."""
    rows = [row[0].text for row in leaf("F-06", job).tree.iter("tr")]
    assert rows == [plate.mark for plate in worked_out(job).plates]
    assert len(set(rows)) == len(rows)


def test_a_drawn_block_keeps_the_widths_in_proportion():
    """Each plate is drawn as wide as it is, in one scale a block, side by side without overlap."""
    found = worked_out()
    for block in found.job.blocks:
        plates = [one for one in found.plates if one.block == block.block]
        rects = list(block_charts.drawn(block, plates).iter("rect"))
        assert len(rects) == len(plates)
        scales = [
            float(rect.get("width")) / plate.width.estimate
            for rect, plate in zip(rects, plates, strict=True)
        ]
        # A width is drawn to a hundredth of a unit; the narrowest is about 7 units wide.
        assert max(scales) / min(scales) == pytest.approx(1, abs=0.01 / 5)
        ends = [(float(rect.get("x")), float(rect.get("width"))) for rect in rects]
        assert all(x + wide <= after + 0.02 for (x, wide), (after, _) in itertools.pairwise(ends))
        assert ends[0][0] >= 0
        assert ends[-1][0] + ends[-1][1] <= block_charts.ACROSS


@pytest.mark.parametrize("job", JOBS)
def test_what_is_written_on_a_drawn_plate_stays_on_it(job):
    """Number, note and dot lie within the plate, each clear of the other."""
    found = worked_out(job)
    for block in found.job.blocks:
        plates = [one for one in found.plates if one.block == block.block]
        groups = [one for one in block_charts.drawn(block, plates).iter("g") if len(one) > 1]
        shown = [one for one in groups if one.find("rect") is not None]
        assert len(shown) == len(plates)
        for group, plate in zip(shown, plates, strict=True):
            rect, text, dot = (group.find(name) for name in ("rect", "text", "circle"))
            top, tall = float(rect.get("y")), float(rect.get("height"))
            size = float(text.get("font-size"))
            # Upright: it begins at its own height above the foot; a letter is 0.6 of the size.
            at = float(re.search(r"translate\(\S+ (\S+)\)", text.get("transform"))[1])
            upper = at - 0.6 * size * len(text.text)
            assert at <= top + tall
            assert upper >= top
            assert size <= float(rect.get("width"))
            assert text.text.split()[0] == f"{plate.position:02d}"
            assert (dot is not None) == plate.measured
            if dot is not None:
                middle, radius = float(dot.get("cy")), float(dot.get("r"))
                assert top <= middle - radius
                assert middle + radius <= upper


def test_a_row_too_short_for_its_plates_is_told():
    """Plates that do not fit their row are no silent drawing."""
    found = worked_out()
    block = next(one for one in found.job.blocks if one.row_m)
    plates = [one for one in found.plates if one.block == block.block]
    short = dataclasses.replace(block, row_m=block_charts.filled_m(block, plates) * 0.9)
    assert "measure them again" in block_charts.row_said(short, plates, False)
    assert "measure them again" not in block_charts.row_said(block, plates, False)


@pytest.mark.parametrize("job", JOBS)
def test_the_parts_of_every_total_add_up(job):
    """Each line's rows sum to its middle, in the table of the folder as in the answer."""
    for line in worked_out(job).lines:
        assert sum(part.amount for part in line.parts) == pytest.approx(
            middle_of(line), rel=1e-9, abs=1e-9
        )
    rows = list(csv.DictReader(io.StringIO(made(job)["needs.csv"].decode())))
    for line in worked_out(job).lines:
        own = [row for row in rows if (row["group"], row["item"]) == (line.group, line.item)]
        total, *parts = own
        assert total["row"] == tables.TOTAL
        # Half of the last printed digit for each row, and for the total.
        error = 0.0005 * (len(parts) + 1)
        assert sum(float(row["amount"]) for row in parts) == pytest.approx(
            float(total["amount"]), abs=error
        )


@pytest.mark.parametrize("job", JOBS)
def test_paper_and_screen_show_the_same_totals(job):
    """Each total is printed alike in the PDF and on its page, with its name."""
    page = " ".join(Reading(made(job)["where-numbers-come-from.html"].decode()).text.split())
    on_paper = told(job)
    for line in worked_out(job).lines:
        said = amount_said(worked_out(job).catalog, middle_of(line), line.amount.unit)
        for text in (page, on_paper):
            assert f"Sum: {said}." in text.replace("\u00a0", " ")
    hours = band_said(worked_out(job).catalog, worked_out(job).hours)
    assert hours in on_paper
    summary = Reading(made(job)["summary.html"].decode()).text.replace("\u00a0", " ")
    assert hours in " ".join(summary.split())


def test_every_plate_stands_in_the_table_of_plates():
    """plates.csv has a row a plate, its sizes in millimetres."""
    rows = list(csv.DictReader(io.StringIO(made()["plates.csv"].decode())))
    assert [row["mark"] for row in rows] == [one.mark for one in worked_out().plates]
    for row, plate in zip(rows, worked_out().plates, strict=True):
        # Half a hundredth of a millimetre: two decimals are printed.
        assert float(row["width_mid_mm"]) == pytest.approx(1000 * plate.width.estimate, abs=0.0051)


def on_the_sheet(job, number):
    """Give what a batch sheet weighs out, in g, by its words."""
    charts = {one.get("name"): one for one in leaf("F-04", job).tree.iter("charttable")}
    rows = [[cell.text for cell in row] for row in charts[f"pot {number}, weighed"]]
    assert all(mass.endswith(" g") for _, mass in rows)
    return {what: float(mass.split()[0]) for what, mass in rows}


def test_what_is_weighed_for_each_pot_is_its_mass():
    """Ready wax and materials of a batch sheet add up to its pot, to a step of the scale each."""
    found = worked_out()
    assert found.pots
    for pot in found.pots:
        # Half a step of the scale for each weighing that is rounded for itself.
        error = 0.5 * found.catalog.shop.scale_step * (len(pot.ready) + 1) + 1e-9
        assert sum(on_the_sheet("26-021", pot.number).values()) == pytest.approx(
            pot.grams, abs=error
        )
    sheets = words(leaf("F-04").tree)
    for pot in found.pots:
        assert f"Pot {pot.number} of {len(found.pots)}" in sheets


@pytest.mark.parametrize("job", ["26-021", "26-023"])
def test_the_batch_sheets_together_take_what_the_shopping_list_takes(job):
    """Over all sheets each ready batch and each material adds up to its line: no shelf runs dry."""
    found = worked_out(job)
    wax = [one for one in found.bought if one.item in {found.job.blend, *found.catalog.materials}]
    listed = {
        f"Ready wax {held.of}": held.amount.value
        for one in wax
        if one.item == found.job.blend
        for held in one.at_hand
    }
    listed |= {one.name: one.need.high for one in wax if one.item != found.job.blend}
    sheets = [on_the_sheet(job, pot.number) for pot in found.pots]
    assert {what for sheet in sheets for what in sheet} == set(listed)
    # A share of a pot is at most a step of the scale away from what it should be.
    error = found.catalog.shop.scale_step * len(sheets) + 1e-9
    for what, grams in listed.items():
        assert sum(sheet.get(what, 0.0) for sheet in sheets) == pytest.approx(grams, abs=error)
    whole = found.wax_to_have.high
    assert sum(pot.fresh for pot in found.pots) == pytest.approx(
        whole - sum(held.amount.value for pot in found.pots for held in pot.ready), rel=1e-9
    )
    assert sum(listed.values()) == pytest.approx(whole, rel=1e-9)


def test_every_pot_has_its_cautions_beside_it():
    """Each batch sheet can be taken out alone: the titles of all cautions are on it to tick."""
    titles = [one.title for one in worked_out().catalog.cautions_for("F-04")]
    sheets = list(leaf("F-04").tree.iter("ownpage"))
    assert len(sheets) == len(worked_out().pots)
    for sheet in sheets:
        assert [words(item) for item in sheet.iter("li")] == titles


def test_a_job_without_wax_has_no_pot():
    """The concertina on gaskets gets no batch sheet, and its folder says why."""
    assert worked_out("26-022").pots == ()
    assert job_parts.NO_WAX in words(leaf("F-04", "26-022").tree)
    assert job_parts.NO_WAX in words(leaf("F-01", "26-022").tree)


@pytest.mark.parametrize("job", JOBS)
def test_every_valve_is_on_the_charts(job):
    """Each tongue that gets a valve has its stock beside its plate, and as cut in the list."""
    charts = leaf("F-05", job).tree
    cells = [
        cell.text or "" for chart in charts.iter("charttable") for row in chart for cell in row
    ]
    for stock in {one.stock for one in worked_out(job).chosen if one.stock}:
        wanted = sum(one.stock == stock for one in worked_out(job).chosen)
        shown = sum(bool(re.search(rf" {re.escape(stock)}(\W|$)", cell)) for cell in cells)
        assert shown >= wanted


def test_hold_points_have_a_line_for_each_block():
    """Every step that is a hold point can be signed for each block it is done on."""
    tree = leaf("F-02").tree
    charts = {one.get("name"): one for one in tree.iter("charttable")}
    for at, ones in enumerate(job_work_parts.by_step(worked_out()).values(), 1):
        step = ones[0].step
        assert (f"hold point {at}" in charts) == step.hold_point
        if step.hold_point:
            rows = [words(row) for row in charts[f"hold point {at}"]]
            assert rows == [f"Block {one.block}" if one.block else "The whole job" for one in ones]
            assert f"HOLD: {step.name}" in words(tree)


def test_every_leaf_has_its_cautions():
    """What is demanded stands on the leaf, and the table names the leaf for it, and no other."""
    catalog = worked_out().catalog
    for one in book().leaves:
        shown = {box.get("id") for box in one.tree.iter("caution")}
        assert shown == set(DEMANDED.get(one.number, "").split())
        assert shown == {caution.id for caution in catalog.cautions_for(one.number)}


def test_a_job_without_wax_is_not_warned_of_it():
    """Where no step of the job goes to the heat, its order of work boxes no danger of the pot.

    Dust, leather and solvent are there on a gasket as well.
    """
    shown = [box.get("id") for box in leaf("F-02", "26-022").tree.iter("caution")]
    assert shown == ["defer", "old-dust", "rosin-sensitiser", "leather-dust", "solvent-and-heat"]


@pytest.mark.parametrize("job", JOBS)
def test_the_order_of_work_boxes_what_its_own_steps_ask_for(job):
    """Of the dangers that the leaf can box, those stand there that a step of this job names."""
    asked = {name for one in worked_out(job).steps for name in one.step.cautions}
    shown = {box.get("id") for box in leaf("F-02", job).tree.iter("caution")}
    assert shown == {"defer", *(asked & set(DEMANDED["F-02"].split()))}


@pytest.mark.parametrize(
    "name", sorted({one for text in DEMANDED.values() for one in text.split()})
)
def test_taking_a_caution_out_is_noticed(name):
    """Without any one caution a leaf is refused, or its boxes are fewer."""
    found = worked_out()
    left = {key: one for key, one in found.catalog.cautions.items() if key != name}
    spoiled = dataclasses.replace(found, catalog=dataclasses.replace(found.catalog, cautions=left))
    assert gaps(spoiled)


def gaps(found):
    """List what is demanded and not shown, or the faults of a folder that cannot be read."""
    try:
        leaves = reading.read(found).leaves
    except Faults as faults:
        return [str(fault) for fault in faults.faults]
    shown = {one.number: {box.get("id") for box in one.tree.iter("caution")} for one in leaves}
    return [
        f"{number}: {name}"
        for number, text in DEMANDED.items()
        for name in text.split()
        if name not in shown[number]
    ]


def test_no_caution_is_missing():
    """With the whole table nothing is missing."""
    assert gaps(worked_out()) == []


# ISO 216 A4: 210 x 297 mm; 210 / 25.4 * 72 = 595.276, 297 / 25.4 * 72 = 841.890.
# US Letter: 8.5 x 11 in; 8.5 * 72 = 612, 11 * 72 = 792. Tolerance: a hundredth of a point.
@pytest.mark.parametrize(
    ("name", "units", "width", "height"),
    [("a4", "metric", 595.276, 841.890), ("letter", "US", 612, 792)],
)
def test_every_page_is_exactly_the_paper(name, units, width, height):
    """Each page box is the paper that the shop set, in either system of units."""
    made_there = writing.files(in_a_shop(worked_out("26-022"), paper=name, units=units))
    pages = pypdf.PdfReader(io.BytesIO(made_there[reading.PAPER])).pages
    for page in pages:
        assert [float(side) for side in page.mediabox] == pytest.approx(
            [0, 0, width, height], abs=0.01
        )


def test_the_pdf_is_tagged_and_its_leaves_can_be_found():
    """The PDF claims PDF/UA-1, is tagged, and has a bookmark for each leaf at its page."""
    read = paper()
    root = read.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_object().get_data()
    marks = [mark for mark in read.outline if not isinstance(mark, list)]
    at = {mark.title.split()[0]: read.get_destination_page_number(mark) + 1 for mark in marks}
    ranges = binder.page_ranges(book())
    assert {number: at[number] for number in LEAVES} == {
        number: ranges[number][0] for number in LEAVES
    }


def test_each_leaf_starts_a_page_of_its_own():
    """No page holds two leaves, and the sheets for one hand-over keep to one page."""
    ranges = binder.page_ranges(book())
    firsts = [ranges[number][0] for number in LEAVES]
    lasts = [ranges[number][1] for number in LEAVES]
    assert all(last < first for last, first in zip(lasts, firsts[1:], strict=False))
    for job in JOBS:
        held = binder.page_ranges(book(job))
        for number in ("F-03", "F-09", "F-10"):
            assert held[number][0] == held[number][1]


def test_pages_name_the_job():
    """Head, foot, title and page titles carry the job's number."""
    assert paper().metadata.title.startswith("Job 26-021")
    for name, data in made().items():
        if name.endswith(".html"):
            assert "<title>" in data.decode()
            assert "Job 26-021" in re.search("<title>(.*)</title>", data.decode())[1]
    for page in paper().pages:
        assert "26-021" in page.extract_text()


def test_no_glyph_is_missing():
    """Every character of the folder can be printed."""
    for job in JOBS:
        assert binder.missing_glyphs(book(job)) == {}


def test_the_same_job_gives_the_same_bytes(tmp_path):
    """Written twice, in two places, every file is the same to the last byte."""
    for name in ("one", "two, é"):
        writing.write(worked_out(), tmp_path / name)
    for path in (tmp_path / "one").rglob("*"):
        if path.is_file():
            other = tmp_path / "two, é" / path.relative_to(tmp_path / "one")
            assert other.read_bytes() == path.read_bytes()


def test_a_folder_is_written_again_in_its_place(tmp_path):
    """A second print replaces the first, takes away what is no longer made, keeps a stranger's."""
    said = writing.write(worked_out("26-022"), tmp_path)
    assert "26-022" in said
    manifest = json.loads((tmp_path / "manifest.json").read_text())
    (tmp_path / "old.html").write_text("old")
    (tmp_path / "mine.txt").write_text("mine")
    manifest["files"].append("old.html")
    (tmp_path / "manifest.json").write_text(json.dumps(manifest))
    writing.write(worked_out("26-022"), tmp_path)
    assert not (tmp_path / "old.html").exists()
    assert (tmp_path / "mine.txt").read_text() == "mine"
    listed = json.loads((tmp_path / "manifest.json").read_text())["files"]
    assert sorted(listed) == listed == sorted(made("26-022"))


@pytest.mark.parametrize("stranger", ["index.html", "letters.txt", "manifest.json"])
def test_a_folder_that_it_did_not_make_is_refused(tmp_path, stranger):
    """A folder with anything of somebody's is refused, and stays as it was."""
    (tmp_path / stranger).write_text("{}")
    with pytest.raises(NotOurs, match=stranger):
        writing.write(worked_out("26-022"), tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [stranger]
    assert (tmp_path / stranger).read_text() == "{}"


def test_the_folder_of_another_job_is_refused(tmp_path):
    """One job is never written over another."""
    writing.write(worked_out("26-022"), tmp_path)
    before = (tmp_path / "index.html").read_bytes()
    with pytest.raises(NotOurs):
        writing.write(worked_out("26-023"), tmp_path)
    assert (tmp_path / "index.html").read_bytes() == before


def test_the_handbook_itself_is_no_place_for_a_job(tmp_path):
    """The folder of a build is refused."""
    manifest = {"made_by": publish.MADE_BY, "inputs": "", "files": ["index.html"]}
    (tmp_path / "manifest.json").write_text(json.dumps(manifest))
    (tmp_path / "index.html").write_text("the handbook")
    with pytest.raises(NotOurs):
        writing.write(worked_out("26-022"), tmp_path)
    assert (tmp_path / "index.html").read_text() == "the handbook"


def test_a_leaf_of_the_handbook_is_named_by_number_and_title():
    """`leaf:fit-valves` gives the words of that leaf's head."""
    made_there = shelf.inline(worked_out().catalog, "leaf:fit-valves")
    head = (CONTENT / "25-valves" / "82-fit-valves.md").read_text("utf-8").splitlines()
    assert (
        words(made_there) == f"{head[0].removeprefix('leaf: ')} {head[1].removeprefix('title: ')}"
    )


@pytest.mark.parametrize("name", ["leaf:fit-valve", "leaf:", "valves", "figure:nothing"])
def test_a_leaf_or_a_value_that_is_not_there_is_refused(name):
    """A name that leads nowhere is a fault, with the nearest names."""
    with pytest.raises(UnknownName):
        shelf.inline(worked_out().catalog, name)


def test_every_leaf_of_the_handbook_can_be_named():
    """The heads alone give the same numbers and titles as the whole reading."""
    found = handbook_leaves.leaves(load(None))
    files = list(CONTENT.glob("[0-9][0-9]-*/[0-9]*.md"))
    assert len(files) == sum(1 for number, _ in found.values() if number)


def test_the_parts_of_a_job_stand_in_no_other_book():
    """The handbook has no part of a job, and without a job at work they are refused."""
    ours = {name for name in shelf.PARTS if name.startswith(("job-", "block-"))}
    assert not ours & set(registry.PARTS)
    catalog = load(None)
    assert AT_WORK not in catalog.memo
    for name in ours:
        with pytest.raises(UnknownName):
            shelf.SHELF.place(catalog, name, "")


@pytest.mark.parametrize("job", JOBS)
def test_each_block_has_test_sheets_of_its_own_to_sign(job):
    """No sheet of tests holds two blocks or goes over its page, and each ends with its line."""
    found = worked_out(job)
    sheets = list(leaf("F-07", job).tree.iter("ownpage"))
    marks = []
    for sheet in sheets:
        rows = [row[0].text for row in sheet.iter("tr")]
        assert len({mark.rpartition("-")[0] for mark in rows}) == 1
        assert len(rows) <= job_work_parts.MOST_KEPT
        assert sheet[-1].tag == "formline"
        marks += rows
    assert marks == [one.mark for one in found.plates]
    first, last = binder.page_ranges(book(job))["F-07"]
    assert last - first == len(sheets)  # one page before them: the whole instrument


def test_no_id_of_a_grade_or_a_step_is_printed_as_a_word():
    """The order of work names grades of the survey in words."""
    text = words(leaf("F-02").tree)
    changed = {name for one in worked_out().steps for name in one.changed_by}
    assert changed
    for name in changed:
        assert name not in text


def test_the_material_record_names_films_helpers_and_what_undoes_them():
    """Whoever opens it next finds every stock, the film over it, the springs, and the way back."""
    found = worked_out()
    (chart,) = (
        one for one in leaf("F-10").tree.iter("charttable") if one.get("name") == "materials"
    )
    text = words(chart)
    toppers = {one.topper for one in found.chosen if one.topper}
    assert toppers
    for stock in toppers | {one.stock for one in found.chosen if one.stock}:
        assert f"({stock})" in text
    assert "Helper springs on " in text
    assert found.catalog.glues[found.job.glue].reversed_by in text
    assert found.catalog.seating_methods["wax-fillet"].reversed_by in text


def test_a_job_of_many_blocks_has_every_block_in_its_chart_of_steps():
    """Thirteen blocks stand on two charts, each of them once."""
    one = worked_out()
    (first, *_) = one.job.blocks
    blocks = tuple(dataclasses.replace(first, block=f"X{at}") for at in range(13))
    many = dataclasses.replace(one, job=dataclasses.replace(one.job, blocks=blocks))
    many.catalog.memo[AT_WORK] = many
    try:
        heads = [
            "".join(cell.itertext())
            for page in job_work_parts.progress(many.catalog, "")
            for cell in page.iter("th")
        ]
    finally:
        many.catalog.memo[AT_WORK] = one
    assert [head for head in heads if head.startswith("X")] == [f"X{at}" for at in range(13)]
