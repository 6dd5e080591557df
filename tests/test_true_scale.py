"""Templates at true size, measured in the PDF by another program; bytes, tags, what they hold."""

from __future__ import annotations

import dataclasses
import io
import math

import pypdf
import pypdfium2 as pdfium
import pytest
from drawn_paths import rectangles

from formulas.catalog import Catalog, load
from formulas.checks import PAPERS
from formulas.cutting.cut import cut
from formulas.valves.valves import chosen
from site_builder.places import DEMO_SHOP
from site_builder.true_scale import document
from site_builder.true_scale.cutting_pages import templates
from site_builder.true_scale.marks import room_of

NEAR_MM = 0.1  # what the templates are to be exact to
BAR = 100  # mm


def on(paper: str) -> Catalog:
    """Give the demo shop's catalog for a paper."""
    catalog = load(DEMO_SHOP)
    return dataclasses.replace(catalog, shop=dataclasses.replace(catalog.shop, paper=paper))


@pytest.fixture(scope="module", params=["a4", "letter"])
def printed(request):
    """Give a catalog, its pages of templates, and their PDF."""
    catalog = on(request.param)
    every = list(document.pages(catalog))
    return catalog, every, document.compiled(document.code(catalog, every))


def near(one, other) -> bool:
    """Whether two boxes agree within what is asked."""
    return all(abs(a - b) < NEAR_MM for a, b in zip(one, other, strict=True))


def test_every_page_is_exactly_the_paper(printed):
    """Width and height of every page are those of the sheet."""
    catalog, every, data = printed
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    assert len(pages) == len(every)
    for page in pages:
        size = [float(side) * 25.4 / 72 for side in page.mediabox[2:]]
        assert size == pytest.approx(PAPERS[catalog.shop.paper], abs=0.01)


def test_both_bars_of_each_page_are_a_hundred_millimetres(printed):
    """A page at true size has a bar across and one down; a plan has none, and says so."""
    _, every, data = printed
    for number, page in enumerate(every):
        boxes = rectangles(data, number)
        across = [box for box in boxes if abs(box[2] - BAR) < NEAR_MM and abs(box[3] - 3) < NEAR_MM]
        down = [box for box in boxes if abs(box[3] - BAR) < NEAR_MM and abs(box[2] - 3) < NEAR_MM]
        assert (len(across), len(down)) == ((1, 1) if page.true else (0, 0))


def test_every_page_at_true_size_warns_against_scaling(printed):
    """The warning stands on each of those pages, in words."""
    _, every, data = printed
    for page, shown in zip(every, pypdf.PdfReader(io.BytesIO(data)).pages, strict=True):
        text = shown.extract_text()
        assert ("Print unscaled: actual size, 100 %" in text) == page.true
        assert ("not at true size" in text) != page.true
        assert "invented" in text


def test_the_slope_of_the_ramp_has_its_angle(printed):
    """The cheek's corners in the PDF give the angle of the test to a fiftieth of a degree."""
    _, every, data = printed
    cheek = next(line for line in every[0].lines if line.closed)
    found = next(box for box in rectangles(data, 0) if near(box, _box(cheek.points)))
    (_, edge, foot, _) = cheek.points
    angle = math.degrees(math.atan2(foot[1] - edge[1], foot[0] - edge[0]))
    # 0.1 mm in 100 mm of fall is 0.03 degrees
    assert angle == pytest.approx(41.5, abs=0.03)
    assert found[3] == pytest.approx(foot[1] - edge[1], abs=NEAR_MM)


def _box(points) -> tuple[float, float, float, float]:
    across, down = zip(*points, strict=True)
    return min(across), min(down), max(across) - min(across), max(down) - min(down)


def test_the_ruler_has_a_mark_each_millimetre(printed):
    """Marks stand a millimetre apart from nought on, none of them adding up its error."""
    _, _, data = printed
    marks = sorted(box[0] for box in rectangles(data, 0) if box[2] < NEAR_MM and 2.9 < box[3] < 6.1)
    assert len(marks) == 171  # 0 to 170
    for place, mark in enumerate(marks):
        assert mark - marks[0] == pytest.approx(place, abs=NEAR_MM)


def test_each_size_of_the_cut_list_has_its_template(printed):
    """Every size has an outline as long and wide as it is cut, with its glue land below."""
    catalog, every, data = printed
    plans = cut(catalog).answer["plans"]
    wanted = [(1000 * one.width, 1000 * one.length) for plan in plans for one in plan.blanks]
    assert wanted
    shown = [
        (box[2], box[3])
        for number, page in enumerate(every)
        if page.title.startswith("Cutting templates")
        for box in rectangles(data, number)
    ]
    for width, length in wanted:
        assert any(abs(width - w) < NEAR_MM and abs(length - h) < NEAR_MM for w, h in shown)
    for one in templates(catalog, plans):
        assert 0 < one.land < one.length
        assert any(abs(one.width - w) < NEAR_MM and abs(one.land - h) < NEAR_MM for w, h in shown)


def test_each_length_and_width_has_its_gauge(printed):
    """The gauges hold every length from the stop line, and every width as a step."""
    catalog, every, data = printed
    number = next(n for n, page in enumerate(every) if page.title == "Trimming gauges")
    boxes = rectangles(data, number)
    left = room_of(catalog.shop.paper).left
    blanks = [one for plan in cut(catalog).answer["plans"] for one in plan.blanks]
    for one in blanks:
        assert any(
            abs(box[0] - left) < NEAR_MM and abs(box[2] - 1000 * one.length) < NEAR_MM
            for box in boxes
        )
        assert any(abs(box[3] - 1000 * one.width) < NEAR_MM for box in boxes)


def test_there_is_a_label_for_each_plate(printed):
    """224 plates: each has a label with its note and both its valves, or why it has none."""
    catalog, every, _ = printed
    said = [words.text for page in every if page.title.startswith("Labels") for words in page.words]
    plates = len(chosen(catalog, catalog.shop.instrument)) // 2
    assert plates == 224
    assert sum(text.startswith("inside: ") for text in said) == plates
    assert sum(text.startswith("outside: ") for text in said) == plates
    assert any("no valve" in text for text in said)


def test_a_plan_shows_every_strip_inside_its_skin(printed):
    """Each strip of the layout is drawn, and nothing of it lies outside the outline's box."""
    catalog, every, _ = printed
    sheets = [sheet for plan in cut(catalog).answer["plans"] for sheet in plan.sheets]
    plans = [page for page in every if not page.true]
    assert len(plans) == len(sheets)
    for page, sheet in zip(plans, sheets, strict=True):
        outline, *others = [line for line in page.lines if line.closed]
        left, top, width, height = _box(outline.points)
        strips = [line for line in others if line.fill == 1.0]
        assert len(strips) == len(sheet.strips)
        for strip in strips:
            x, y, wide, high = _box(strip.points)
            assert left - NEAR_MM <= x
            assert x + wide <= left + width + NEAR_MM
            assert top - NEAR_MM <= y
            assert y + high <= top + height + NEAR_MM


def test_nothing_leaves_the_paper(printed):
    """Every line and word stays four millimetres inside the sheet, where printers print."""
    catalog, every, data = printed
    width, height = PAPERS[catalog.shop.paper]
    held = pdfium.PdfDocument(data)
    for number in range(len(every)):
        for one in held[number].get_objects(max_depth=4):
            left, bottom, right, top = (side * 25.4 / 72 for side in one.get_bounds())
            assert left > 4
            assert bottom > 4
            assert right < width - 4
            assert top < height - 4
    held.close()


def test_the_same_shop_gives_the_same_bytes():
    """Two runs give the same file: no date, no font of the machine."""
    assert document.pdf(on("a4")) == document.pdf(on("a4"))


def test_hostile_names_arrive_as_they_are_written():
    """A shop's name with marks of every script is set or told, and stops nothing."""
    catalog = on("a4")
    named = dataclasses.replace(catalog.shop, name='Bench "№ 1" #[x] \\ 中')
    data = document.pdf(dataclasses.replace(catalog, shop=named))
    assert "[U+4E2D]" in pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()


def test_a_shop_without_measured_stock_still_gets_its_ramp():
    """Before anything is measured the ramp is what is needed, and the labels say so."""
    every = list(document.pages(load()))
    assert every[0].title.startswith("Ramp")
    assert not any(page.title.startswith("Cutting") for page in every)
    assert any("not decided" in words.text for words in every[-1].words)


def test_a_build_lays_the_templates_beside_the_binder(built):
    """The build writes templates.pdf, the same that the shop's catalog gives."""
    assert (built / "templates.pdf").read_bytes() == document.pdf(load(DEMO_SHOP))
