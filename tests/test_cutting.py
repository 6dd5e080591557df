"""Cutting: outlines by an outside geometry library, layouts by an independent checker, the list."""

from __future__ import annotations

import itertools
import math
import random
import time

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.cutting.blanks import (
    GRAIN,
    cut_list,
    laid_size,
    long_strips,
    spare_strips,
    steps_up,
)
from formulas.cutting.cut import cut, turns
from formulas.cutting.laying import best_way, laid_on_pieces
from formulas.cutting.plan import SKIN, Sheet, outline_of
from formulas.cutting.polygon import Usable, inside, self_touching, signed_area, spans
from formulas.cutting.rules import cut_rules
from formulas.cutting.skins import Outline, Sizes, laid_on_skin
from formulas.cutting.wanted import Typed
from formulas.fault import OutOfRange, UnknownName
from site_builder.places import DEMO_SHOP
from site_builder.texts import cut as texts

# The right triangle of sides 3, 4 and 5 has half of 3 times 4; the L is 4 by 4 less 2 by 2.
TRIANGLE = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)]
L_SHAPE = [(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0)]


def test_area_of_known_shapes():
    """A triangle and an L have the areas that school gives them; with the clock it is negative."""
    assert signed_area(TRIANGLE) == 6
    assert signed_area(L_SHAPE) == 12
    assert signed_area(L_SHAPE[::-1]) == -12


def star(
    chance: random.Random, centre: tuple[float, float], size: float
) -> list[tuple[float, float]]:
    """Draw a ring without crossings: corners at growing angles round a centre."""
    count = chance.randint(3, 14)
    turns_at = sorted(2 * math.pi * (n + chance.uniform(0.05, 0.95)) / count for n in range(count))
    return [
        (centre[0] + far * math.cos(turn), centre[1] + far * math.sin(turn))
        for turn in turns_at
        for far in [chance.uniform(0.3, 1) * size]
    ]


def drawn(chance: random.Random, size: float = 30_000) -> Outline:
    """Draw a skin in hundredths of a millimetre, with up to three zones, which may overlap."""
    while True:
        ring = star(chance, (size, size), size)
        zones = [
            star(
                chance, (chance.uniform(0.3, 1.7) * size, chance.uniform(0.3, 1.7) * size), size / 5
            )
            for _ in range(chance.randint(0, 3))
        ]
        if signed_area(ring) > 0 and shapely.Polygon(ring).is_valid:
            return Outline("drawn", ring, tuple(zones))


def outside_shape(skin: Outline) -> shapely.Geometry:
    """Give a skin as the outside library has it."""
    return shapely.Polygon(skin.ring).difference(
        shapely.union_all([shapely.Polygon(zone) for zone in skin.zones])
    )


@pytest.mark.parametrize("seed", range(40))
def test_usable_area_is_the_outside_librarys(seed):
    """Area of the whole and below any height agree with shapely, zones overlapping or not."""
    chance = random.Random(seed)
    skin = drawn(chance)
    shape, usable = outside_shape(skin), Usable(skin.ring, skin.zones)
    assert usable.whole == pytest.approx(shape.area, rel=1e-9)
    for _ in range(5):
        y = chance.uniform(-1000, 62_000)
        below = shape.intersection(shapely.box(-1e6, -1e6, 1e6, y)).area
        assert usable.up_to(y) == pytest.approx(below, rel=1e-9, abs=1e-3)


@pytest.mark.parametrize("seed", range(40))
def test_spans_are_exact(seed):
    """A box over each span lies inside, and a hair wider at either end it does not."""
    chance = random.Random(seed)
    skin = drawn(chance)
    shape = outside_shape(skin)
    for _ in range(6):
        low = chance.uniform(0, 50_000)
        high = low + chance.uniform(200, 8000)
        found = spans(skin.ring, skin.zones, low, high)
        free = sum(right - left for left, right in found)
        for left, right in found:
            assert shape.buffer(1e-3).contains(shapely.box(left, low, right, high))
            if right - left > 1:
                assert not shape.contains(shapely.box(left - 0.5, low, right, high))
                assert not shape.contains(shapely.box(left, low, right + 0.5, high))
        # a hundredth of a millimetre, the grain that strips are laid in
        assert free == pytest.approx(_free(shape, low, high), abs=1)


def stairs(chance: random.Random) -> Outline:
    """Draw a skin of level and upright edges only, on round numbers, with a square hole."""
    rising = sorted(chance.sample(range(1, 30), 4))
    right = [chance.randint(20, 40) * 1000 for _ in range(4)]
    ring = [(0.0, 0.0)]
    low = 0
    for top, end in zip(rising, right, strict=True):
        ring += [(float(end), low * 1000.0), (float(end), top * 1000.0)]
        low = top
    ring.append((0.0, low * 1000.0))
    hole = [(5000.0, 300.0), (7000.0, 300.0), (7000.0, 900.0), (5000.0, 900.0)]
    return Outline("stairs", ring, (hole,))


@pytest.mark.parametrize("seed", range(20))
def test_level_edges_block_their_whole_length(seed):
    """On outlines of level edges, bands that begin on, under or over one are measured right."""
    chance = random.Random(seed)
    skin = stairs(chance)
    shape = outside_shape(skin)
    for _ in range(12):
        low = chance.randint(-2, 28) * 500.0
        high = low + chance.randint(1, 12) * 500.0
        found = sum(right - left for left, right in spans(skin.ring, skin.zones, low, high))
        # a hundredth of a millimetre, the grain that strips are laid in
        assert found == pytest.approx(_free(shape, low, high), abs=1)


def _free(shape: shapely.Geometry, low: float, high: float) -> float:
    """Give the width of the band over which its whole height is inside, by taking shadows off."""
    band = shapely.box(-1e5, low, 2e5, high).difference(shape)
    shadows = []
    for part in getattr(band, "geoms", [band]):
        if part.area > 0:
            shadows.append(shapely.box(part.bounds[0], 0, part.bounds[2], 1))
    return 3e5 - shapely.union_all(shadows).area


def test_scaling_an_outline_scales_its_area_by_the_square():
    """Doubling every length makes four times the area; the way back is the identity."""
    chance = random.Random(5)
    skin = drawn(chance)
    twice = [(2 * x, 2 * y) for x, y in skin.ring]
    assert signed_area(twice) == pytest.approx(4 * signed_area(skin.ring))


def test_inside_is_the_outside_librarys():
    """Points are inside or not as shapely has it."""
    chance = random.Random(9)
    skin = drawn(chance)
    shape = shapely.Polygon(skin.ring)
    for _ in range(400):
        point = (chance.uniform(0, 60_000), chance.uniform(0, 60_000))
        assert inside(skin.ring, point) == shape.contains(shapely.Point(point))


@pytest.mark.parametrize("seed", range(60))
def test_crossings_are_found_as_by_the_outside_library(seed):
    """A ring of random points is called crossing where shapely calls it not simple."""
    chance = random.Random(seed)
    ring = [(chance.randint(0, 9), chance.randint(0, 9)) for _ in range(chance.randint(3, 7))]
    assume_ring = all(a != b for a, b in itertools.pairwise([*ring, ring[0]]))
    if assume_ring:
        assert (self_touching(ring) >= 0) == (not shapely.LinearRing(ring).is_simple)


# Layouts


def judged(sheet: Sheet, margin: float, gap: float) -> list[str]:
    """Give every fault of a layout, found by shapely alone; lengths in m."""
    hair = 1e-8
    if sheet.outline:
        usable = shapely.Polygon(sheet.outline)
        for zone in sheet.zones:
            usable = usable.difference(shapely.Polygon(zone))
    else:
        wide, long = (sheet.length, sheet.width) if sheet.turned else (sheet.width, sheet.length)
        usable = shapely.box(0, 0, wide, long)
    boxes = [shapely.box(s.x, s.y, s.x + s.width, s.y + s.length) for s in sheet.strips]
    faults = [
        f"strip {strip.number} leaves the margin"
        for strip, box in zip(sheet.strips, boxes, strict=True)
        if not usable.buffer(hair).contains(box.buffer(margin - 2 * hair, join_style="mitre"))
    ]
    tree = shapely.STRtree(boxes)
    for n, box in enumerate(boxes):
        near = tree.query(box.buffer(gap - 2 * hair, join_style="mitre"))
        faults += [
            f"strips {n} and {m} are too near" for m in near if m > n and _near(box, boxes[m], gap)
        ]
    return faults


def _near(one: shapely.Geometry, other: shapely.Geometry, gap: float) -> bool:
    """Whether two boxes are nearer than the gap both across and along."""
    a, b = one.bounds, other.bounds
    across = max(a[0], b[0]) - min(a[2], b[2])
    along = max(a[1], b[1]) - min(a[3], b[3])
    return max(across, along) < gap - 1e-8


def test_the_checker_finds_faults():
    """Strips that overlap, leave the skin or lie in a hole are found: the checker can fail."""
    from formulas.cutting.plan import Strip

    sheet = Sheet("x", SKIN, "", 0.1, 0.1, outline=((0, 0), (0.1, 0), (0.1, 0.1), (0, 0.1)),
                  zones=(((0.05, 0.05), (0.06, 0.05), (0.06, 0.06), (0.05, 0.06)),))  # fmt: skip
    sheet.strips = [Strip(1, 0, 0.01, 0.01, 0.006, 0.03), Strip(2, 0, 0.0165, 0.01, 0.006, 0.03)]
    assert judged(sheet, 0.002, 0.0004) == []
    assert judged(sheet, 0.011, 0.0004) == [f"strip {n} leaves the margin" for n in (1, 2)]
    assert judged(sheet, 0.002, 0.001) == ["strips 0 and 1 are too near"]
    sheet.strips = [Strip(1, 0, 0.052, 0.04, 0.006, 0.03)]
    assert judged(sheet, 0.0, 0.0) == ["strip 1 leaves the margin"]


@pytest.mark.parametrize("seed", range(12))
def test_strips_on_random_skins_lie_right(seed):
    """On random skins with holes no strip overlaps, leaves the margin or is counted twice."""
    chance = random.Random(seed)
    skin = drawn(chance)
    kinds = sorted(
        {(chance.randint(6, 20) * 50, chance.randint(15, 80) * 100) for _ in range(25)},
        reverse=True,
    )
    gap, margin = chance.choice([0, 20, 50]), chance.choice([0, 300, 500])
    sizes = Sizes([w + gap for w, _ in kinds], [n + gap for _, n in kinds],
                  [chance.randint(1, 30) for _ in kinds])  # fmt: skip
    made = laid_on_skin(skin, sizes, margin, gap)
    assert made.strips
    sheet = Sheet("drawn", SKIN, "", 1, 1)
    sheet.outline = tuple((x * GRAIN, y * GRAIN) for x, y in skin.ring)
    sheet.zones = tuple(tuple((x * GRAIN, y * GRAIN) for x, y in zone) for zone in skin.zones)
    from formulas.cutting.plan import Strip

    sheet.strips = [
        Strip(n, i, x * GRAIN, y * GRAIN, kinds[i][0] * GRAIN, kinds[i][1] * GRAIN)
        for n, (i, x, y) in enumerate(made.strips)
    ]
    assert judged(sheet, margin * GRAIN, gap * GRAIN) == []
    for place, count in enumerate(sizes.counts):
        assert sum(1 for i, _, _ in made.strips if i == place) <= count
    assert 0 < made.area <= made.cut_into * (1 + 1e-9) or gap
    whole = Usable(skin.ring, skin.zones).whole
    assert made.cut_into <= whole * (1 + 1e-9)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(4, 40), st.integers(15, 90), st.integers(1, 40)),
        min_size=1, max_size=12, unique_by=lambda one: one[:2],
    ),
    st.integers(60, 400),
    st.integers(95, 400),
    st.sampled_from([0, 20, 50]),
)  # fmt: skip
def test_strips_on_rectangles_lie_right(rows, wide, high, gap):
    """On rectangles every strip is laid once, none overlaps, and the longest has its place."""
    kinds = sorted(((w * 50, n * 100, c) for w, n, c in rows), reverse=True)
    widths, lengths, counts = (list(one) for one in zip(*kinds, strict=True))
    which = [w + gap for w in widths], [n + gap for n in lengths], counts
    room = wide * 100 + gap, high * 100 + gap
    way = best_way(*room, 0, [100, 200], *which)
    laid = laid_on_pieces(*room, 0, way, *which)
    for place, count in enumerate(counts):
        assert sum(1 for one in laid if one[1] == place) == count
    by_piece: dict[int, list[tuple[float, float, float, float]]] = {}
    for piece, i, x, y, _ in laid:
        assert x >= 0
        assert y >= 0
        assert x + widths[i] <= wide * 100
        assert y + lengths[i] <= high * 100
        by_piece.setdefault(piece, []).append((x, y, x + which[0][i], y + which[1][i]))
    for boxes in by_piece.values():
        for a, b in itertools.combinations(boxes, 2):
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


@given(st.floats(0.001, 0.2), st.sampled_from([0.0005, 0.001, 0.0002, 0.000396875]))
def test_sizes_go_up_and_never_down(size, step):
    """A size on the list is never under what was asked, and less than a step over it."""
    steps = steps_up(size, step)
    assert steps * step >= size - 1.1e-6 * step
    assert steps * step < size + step
    assert laid_size(steps, step) * GRAIN >= steps * step - 1.1e-6 * GRAIN


def test_a_size_on_a_step_stays():
    """24 strips of 38 by 6.5 mm stay that size: no rounding error makes them larger."""
    assert cut_list([0.038], [0.0065], [24], 0.001, 0.0005) == [[13, 38, 24]]
    for n in range(1, 400):
        assert steps_up(n * 0.0005, 0.0005) == n
        assert steps_up(float(f"{n * 0.5 / 1000:.12g}"), 0.0005) == n


def test_spares_by_the_share_and_one_at_least():
    """Ten percent of 24 are 3, of 4 one; without a share there are none."""
    assert [spare_strips(count, 0.1, 1) for count in (24, 20, 4, 1)] == [3, 2, 1, 1]
    assert spare_strips(24, 0, 1) == 0


def test_the_list_keeps_count_and_length():
    """Sizes put together keep the count; long strips keep count and length."""
    rows = cut_list([0.038, 0.0377, 0.03], [0.0065, 0.0062, 0.0065], [2, 3, 4], 0.001, 0.0005)
    assert rows == [[13, 38, 5], [13, 30, 4]]
    assert long_strips(rows) == [[13, 9, 5 * 38 + 4 * 30]]


# The answer


@pytest.fixture(scope="module")
def demo():
    """Give the demo shop."""
    return load(DEMO_SHOP)


def test_typed_sizes_on_pieces(demo):
    """24 strips with 3 spares lie on one piece; every strip is on the plan once."""
    found = cut(demo, typed=[Typed(0.038, 0.0065, 24)], piece_m=(0.297, 0.210))
    (blank,) = found.answer["blanks"]
    assert (blank["count"], blank["spares"], blank["cut"]) == (24, 3, 27)
    (sheet,) = found.answer["sheets"]
    assert len(sheet["strips"]) == 27
    assert found.answer["to_buy"] == []
    area = 27 * 0.038 * 0.0065
    assert sheet["used"] == pytest.approx(area / sheet["cut_into"].value)


def test_an_instrument_on_two_skins_within_two_seconds(demo):
    """The whole demo instrument is chosen, listed and laid in under 2 s, direction kept."""
    demo.memo.clear()
    start = time.process_time()
    found = cut(demo)
    assert time.process_time() - start < 2  # of this process: other work on the machine is not ours
    rules = cut_rules(demo)
    plans = found.answer["plans"]
    slots = sum(one.count for plan in plans for one in plan.blanks)
    toppers = sum(w.topper for plan in plans for one in plan.blanks for w in one.wanted)
    without = found.answer["slots_without"] + found.answer["slots_undecided"]
    assert slots - toppers + without == 448
    skins = [sheet for plan in plans for sheet in plan.sheets if sheet.kind == SKIN]
    assert {one.name for one in skins} == {"kid-A", "sheep-B"}
    for sheet in (sheet for plan in plans for sheet in plan.sheets):
        assert judged(sheet, rules.margin, rules.gap) == []
        if not turns(demo, sheet.stock):
            assert not sheet.turned
    for plan in plans:
        for place, blank in enumerate(plan.blanks):
            laid = sum(s.blank == place for sheet in plan.sheets for s in sheet.strips)
            assert laid + plan.missing[place] == blank.cut == blank.count + blank.spares
            for wanted in blank.wanted:
                assert 0 <= blank.length - wanted.length_m < rules.length_step + 1e-9
                assert 0 <= blank.width - wanted.width_m + 1e-9 < rules.width_step + 2e-9


def test_only_film_without_direction_is_turned(demo):
    """Polyester may be turned; leather, microfibre and a laminate with microfibre never."""
    assert turns(demo, "pet-50")
    assert not any(turns(demo, name) for name in ("kid-38", "suede-50", "suede-pet", ""))


def test_turned_film_uses_no_more(demo):
    """A piece too short for the strips serves once it is turned."""
    typed = [Typed(0.08, 0.01, 10)]
    along = cut(demo, typed=typed, piece_m=(0.06, 0.3))
    turned = cut(demo, typed=typed, piece_m=(0.06, 0.3), may_turn=True)
    assert along.answer["to_buy"][0]["strips"] == 11
    assert turned.answer["to_buy"] == []
    assert turned.answer["sheets"][0]["turned"]


def test_what_has_no_place_is_to_buy_with_its_allowance(demo):
    """Area to buy is the strips' area over the used share reckoned with, both ends."""
    found = cut(demo, typed=[Typed(0.05, 0.01, 100)])
    (bought,) = found.answer["to_buy"]
    least, most = demo.span("skin-used-share", "dimensionless")
    area = 110 * 0.05 * 0.01
    assert bought["strips"] == 110
    assert (bought["area"].low, bought["area"].high) == pytest.approx((area / most, area / least))


def test_pieces_of_the_shop_then_pieces_to_buy(demo):
    """Beyond the pieces on the shelf the rest is laid on pieces to buy, and counted."""
    found = cut(demo, typed=[Typed(0.08, 0.02, 200)], stock="pet-50")
    kinds = [sheet["kind"] for sheet in found.answer["sheets"]]
    assert kinds.count("piece") == 4
    assert found.answer["to_buy"][0]["pieces"] == kinds.count("piece to buy") > 0


def test_refusals_name_what_is_accepted(demo):
    """Names that are not there and sizes nobody cuts are refused in words."""
    with pytest.raises(UnknownName, match="kid-A, sheep-B"):
        cut(demo, typed=[Typed(0.03, 0.005, 1)], skins=["kid-B"])
    with pytest.raises(UnknownName, match="did you mean 'kid-38'"):
        cut(demo, typed=[Typed(0.03, 0.005, 1)], stock="kid-83")
    with pytest.raises(UnknownName, match="rank"):
        cut(demo, ranks=["tenor"])
    with pytest.raises(OutOfRange, match="2 to 500 mm"):
        cut(demo, typed=[Typed(3.8, 0.0065, 1)])
    with pytest.raises(OutOfRange, match="Spare valves"):
        cut_rules(demo, spares=7)


def test_the_text_names_every_size_and_skin(demo):
    """The terminal lists each size with its count, each skin, and what to buy."""
    found = cut(demo, ranks=["low"])
    said = "\n".join(texts.text(found, demo))
    for plan in found.answer["plans"]:
        assert plan.stock in said
        for sheet in plan.sheets:
            assert f"On {sheet.name}" in said
    assert "from memory" in said


def test_demo_outlines_are_read_in_order(demo):
    """The demo's skins come in hundredths of a millimetre, holes and zones beside the outline."""
    skin = outline_of(demo, "kid-A")
    assert skin.ring[0] == (9500, 0)
    assert len(skin.zones) == 4
