"""Exercises of a whole job with hot wax: from plates to a pot, from a batch to sticks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.melting.heat import (
    blend_shrinkage,
    cold_volumes,
    sink_millimetres,
    top_up_amount,
    warm_volume,
)
from formulas.practice.bench import (
    between,
    counted,
    fine,
    number,
    over,
    percent,
    short,
    step,
)
from formulas.practice.exercise import ABOVE, WHOLE_JOB, Choice, Made, Silly, made
from formulas.practice.hot_wax import (
    FITS,
    Two,
    cast_sticks,
    drawn_blend,
    filled_said,
    filled_share,
    losses,
)
from formulas.wax.batch import left_after_losses, plates_total, pot_volume
from formulas.wax.session import session_wax

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def for_plates(catalog: Catalog, draw: Draw) -> Made:
    """Go from plates to a pot."""
    wax, plates = drawn_blend(catalog, draw), draw.ranged("hot-volume-plates")
    each = draw.ranged("hot-volume-plate-wax")
    strain, left = losses(catalog)
    pots = sorted({draw.ranged("hot-volume-pot") for _ in range(3)})
    filled = filled_share(catalog)
    total = plates_total(plates, each / 1000, strain, left, 1.0)
    volume = wax.millilitres(wax.masses(total))
    brim = 1e6 * pot_volume(volume / 1e6, filled)
    serve = [pot for pot in pots if not over(brim, pot)]
    if len(pots) < 3 or not serve:
        raise Silly
    names = tuple(f"{pot:g} mL" for pot in pots)
    return made(
        (
            f"{plates:g} plates are to be bedded, each with {each:g} g of wax.",
            f"The straining cloth keeps {percent(strain):g} % of the batch, pot and stirrer"
            f" {percent(left):g} % of what is left.",
            f"The wax is {wax.said}.",
            wax.hot_said,
            f"{filled_said(filled)} On the shelf stand pots of {', '.join(names)}.",
            "How much wax is weighed out in all?",
            "How much room does it take hot?",
            "Which is the smallest pot that will do?",
        ),
        (
            number("Wax to weigh out", total, "g", 0, WHOLE_JOB, ABOVE),
            number("Hot volume", volume, "mL", 0, WHOLE_JOB, ABOVE),
            Choice("Pot", f"{serve[0]:g} mL", names),
        ),
        (
            step("On the plates", f"{plates:g} × {each:g}", plates * each, "g"),
            step(
                "To weigh out",
                f"{short(plates * each)} / ((1 − {strain:g}) × (1 − {left:g}))",
                total,
                "g",
            ),
            *wax.shared(total),
            *wax.warmed(total),
            step("To the brim", f"{short(volume)} / {filled:g}", brim, "mL"),
            f"The smallest pot above that: {serve[0]:g} mL.",
        ),
        {
            "variant": "for-plates",
            "plates": plates,
            "plate_wax_g": each,
            "strained": strain,
            "left_in_pot": left,
            "parts": list(wax.parts),
            "hot_g_ml": list(wax.hot),
            "filled": filled,
            "pots_ml": pots,
        },
    )


def batch_to_sticks(catalog: Catalog, draw: Draw) -> Made:
    """Go from a batch to its sticks."""
    wax, total = drawn_blend(catalog, draw), draw.ranged("hot-volume-cast")
    strain, left = losses(catalog)
    hundred = wax.masses(100)
    cold = 1e6 * sum(cold_volumes([m / 1000 for m in hundred], [1000 * rho for rho in wax.cold]))
    density = 100 / cold
    usable = left_after_losses(total, strain, left)
    cast = cast_sticks(draw, usable, density)
    return made(
        (
            f"A batch of {total:g} g is {wax.said}.",
            f"The straining cloth keeps {percent(strain):g} %, pot and stirrer {percent(left):g} %"
            " of what is left. The rest is cast into sticks.",
            cast.told,
            f"Cold, {wax.names[0]} weighs {wax.cold[0]:g} g a mL and {wax.names[1]}"
            f" {wax.cold[1]:g} g a mL; their volumes add up. 1 mL is 1000 mm³.",
            "How much strained wax is there to cast?",
            "What does a full stick weigh?",
            "How many whole sticks are there?",
        ),
        (
            number("Wax to cast", usable, "g", 0, WHOLE_JOB),
            number("A full stick", cast.each, "g", 1, WHOLE_JOB),
            counted("Whole sticks", cast.found),
        ),
        (
            step("To cast", f"{total:g} × (1 − {strain:g}) × (1 − {left:g})", usable, "g"),
            *wax.shared(100),
            step("Cold, 100 g take", _cold(wax, hundred), cold, "mL"),
            step("One mL weighs", f"100 / {short(cold)}", density, "g"),
            *cast.steps(short(usable), short(density)),
        ),
        {
            "variant": "batch-to-sticks",
            "mass_g": total,
            "parts": list(wax.parts),
            "cold_g_ml": list(wax.cold),
            "strained": strain,
            "left_in_pot": left,
            "hollow_mm": cast.sides,
        },
    )


def sunk_block(catalog: Catalog, draw: Draw) -> Made:
    """Ask how far a block sinks, and what fills it again."""
    wax, total = drawn_blend(catalog, draw), draw.ranged("hot-volume-batch")
    lost = [draw.ranged(f"hot-volume-{of}-loss") / 100 for of in ("wax", "rosin")]
    width = draw.ranged("hot-volume-pot-width")
    masses = wax.masses(total)
    cold = cold_volumes([m / 1000 for m in masses], [1000 * rho for rho in wax.cold])
    hot = warm_volume(cold, lost)
    each = [1e6 * warm_volume([v], [s]) for v, s in zip(cold, lost, strict=True)]
    share = blend_shrinkage(cold, lost)
    more = top_up_amount(total, share)
    sink = sink_millimetres(share, hot, width / 1000, 1.0)
    between(sink, 1, 20)
    all_cold, all_hot = fine(1e6 * sum(cold)), fine(1e6 * hot)
    return made(
        (
            f"A batch of {total:g} g, {wax.said}, sets in a round pot {width:g} mm wide inside.",
            f"Cold, {wax.names[0]} weighs {wax.cold[0]:g} g a mL and {wax.names[1]}"
            f" {wax.cold[1]:g} g a mL.",
            f"When they set, {wax.names[0]} loses {percent(lost[0]):g} % of its hot volume and"
            f" {wax.names[1]} {percent(lost[1]):g} %. Volumes add up, hot and cold.",
            "What share of its hot volume does the batch lose?",
            "How much wax brings the block up to the hot level?",
            "How far does the surface sink on the mean?",
        ),
        (
            number("Share lost", 100 * share, "percent", 1,
                   WHOLE_JOB),
            number("Wax to top up", more, "g", 0, WHOLE_JOB),
            number("Mean sink", sink, "mm", 1, WHOLE_JOB),
        ),
        (
            *wax.shared(total),
            f"Cold: {_cold(wax, masses)} = {all_cold} mL.",
            *(
                f"Hot {name}: {short(m)} / {rho:g} / (1 − {s:g}) = {fine(v)} mL."
                for name, m, rho, s, v in zip(wax.names, masses, wax.cold, lost, each, strict=True)
            ),
            f"Hot together: {fine(each[0])} + {fine(each[1])} = {all_hot} mL.",
            f"Share lost: ({all_hot} − {all_cold}) / {all_hot} × 100 = {fine(100 * share)} %.",
            step(
                "Topped up", f"{total:g} × {fine(100 * share)} / (100 − {fine(100 * share)})",
                more, "g",
            ),
            step(
                "Sink", f"({all_hot} − {all_cold}) × 1000 × 4 / (3.1416 × {width:g} × {width:g})",
                sink, "mm",
            ),
        ),
        {
            "variant": "sunk-block",
            "mass_g": total,
            "parts": list(wax.parts),
            "cold_g_ml": list(wax.cold),
            "lost": lost,
            "width_mm": width,
        },
    )  # fmt: skip


def session(catalog: Catalog, draw: Draw) -> Made:
    """Make the wax of a session at the pot, and ask whether it fits."""
    wax, rate = drawn_blend(catalog, draw), draw.ranged("hot-volume-plates-hour")
    hours, each = draw.ranged("hot-volume-hours"), draw.ranged("hot-volume-plate-wax")
    pot, filled = draw.ranged("hot-volume-pot"), filled_share(catalog)
    _, left = losses(catalog)
    total = 1000 * session_wax(rate / 3600, hours * 3600, each / 1000, 0.0, left)
    volume = wax.millilitres(wax.masses(total))
    right = FITS[over(volume, pot * filled)]
    between(volume / (pot * filled), 0.4, 1.8)
    return made(
        (
            f"For {hours:g} hours at the bench, {rate:g} plates an hour, sticks are melted that"
            f" were strained before. Each plate takes {each:g} g; pot and stirrer keep"
            f" {percent(left):g} % of what is melted.",
            f"The wax is {wax.said}.",
            wax.hot_said,
            f"The pot holds {pot:g} mL. {filled_said(filled)}",
            "How much wax is melted for the session?",
            "How much room does it take hot?",
            "Does it leave the height free that the book asks for?",
        ),
        (
            number("Wax to melt", total, "g", 0, WHOLE_JOB, ABOVE),
            number("Hot volume", volume, "mL", 0, WHOLE_JOB, ABOVE),
            Choice("Free height", right, FITS),
        ),
        (
            step("On the plates", f"{rate:g} × {hours:g} × {each:g}", rate * hours * each, "g"),
            step("To melt", f"{short(rate * hours * each)} / (1 − {left:g})", total, "g"),
            *wax.shared(total),
            *wax.warmed(total),
            step("May be filled", f"{pot:g} × {filled:g}", pot * filled, "mL"),
            f"{short(volume)} mL against {short(pot * filled)} mL: {right}.",
        ),
        {
            "variant": "session",
            "plates_hour": rate,
            "hours": hours,
            "plate_wax_g": each,
            "left_in_pot": left,
            "parts": list(wax.parts),
            "hot_g_ml": list(wax.hot),
            "pot_ml": pot,
            "filled": filled,
        },
    )


def _cold(wax: Two, masses: list[float]) -> str:
    (one, other), (first, second) = masses, wax.cold
    return f"{short(one)} / {first:g} + {short(other)} / {second:g}"
