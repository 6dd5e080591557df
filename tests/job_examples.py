"""The jobs of the demo shop worked out, once a run, and read back as a job folder shows them."""

from __future__ import annotations

import dataclasses
import functools

from formulas.catalog import load
from formulas.jobs import job_file
from formulas.jobs.job import Whole
from formulas.jobs.needs import whole
from site_builder.places import DEMO_SHOP

JOBS = ("26-021", "26-022", "26-023")


@functools.cache
def worked_out(number: str = "26-021") -> Whole:
    """Work out a job of the demo shop."""
    path = DEMO_SHOP / "jobs" / f"{number}.toml"
    catalog = load(DEMO_SHOP)
    return whole(catalog, job_file.read(catalog, path.read_text("utf-8"), path.name))


def in_a_shop(found: Whole, **settings: str) -> Whole:
    """Give a job as a shop with other settings prints it."""
    shop = dataclasses.replace(found.catalog.shop, **settings)
    return dataclasses.replace(found, catalog=dataclasses.replace(found.catalog, shop=shop))
