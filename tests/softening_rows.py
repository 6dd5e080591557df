"""Rows of softening_tests.csv, and a catalog that holds them."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from formulas.book_entries import SofteningTest
from formulas.catalog import Catalog

BLANK = SofteningTest(
    test="t",
    date="2026-03-02",
    session="s1",
    rig="",
    checked=False,
    method="drop-point",
    result="reading",
    sample="beeswax-rosin-4-1",
    other="",
    low=None,
    high=None,
    unit="degC",
    plate="",
    own_stress=None,
    load=None,
    lots="",
    tested_by="",
    left_out="",
    basis="invented",
    note="",
)


def shop_with(catalog: Catalog, rows: Sequence[SofteningTest]) -> Catalog:
    """Give the tables of a shop that made these tests."""
    return dataclasses.replace(catalog, softening_tests=list(rows))


def read(
    test: str, sample: str, value: float, *, unit: str = "degC", session: str = "s1"
) -> SofteningTest:
    """Make a drop point."""
    return dataclasses.replace(
        BLANK, test=test, sample=sample, low=value, unit=unit, session=session
    )


def creep(
    test: str,
    sample: str,
    low: float | None,
    high: float | None,
    *,
    own_stress: float = 250,
    load: float = 1,
    session: str = "s1",
) -> SofteningTest:
    """Make a step creep: the step held, the step that moved."""
    return dataclasses.replace(
        BLANK,
        test=test,
        sample=sample,
        method="step-creep",
        result="bounds",
        low=low,
        high=high,
        plate="aluminium",
        own_stress=own_stress,
        load=load,
        session=session,
    )


def firmer(test: str, sample: str, other: str, *, session: str = "s1") -> SofteningTest:
    """Make a side by side: `sample` outlasted `other`."""
    return dataclasses.replace(
        BLANK,
        test=test,
        method="step-creep",
        result="firmer",
        sample=sample,
        other=other,
        plate="aluminium",
        own_stress=250,
        load=1,
        session=session,
    )
