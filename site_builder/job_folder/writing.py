"""Write the folder of a job: pages, PDF and tables beside, then file by file into its place."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from site_builder import publish
from site_builder.job_folder import reading, tables
from site_builder.job_folder.reading import PAPER

if TYPE_CHECKING:
    from formulas.jobs.job import Whole

MADE_BY = "benchbinder job"


def write(whole: Whole, out: Path) -> str:
    """Write the folder of a job and say what was done.

    Everything is made before anything is touched. Raises Faults for a fault of a leaf, NotOurs
    for a folder that this did not make or that holds another job.
    """
    before = publish.manifest_of(out, MADE_BY)
    if before and before.get("job") != whole.job.job:
        raise publish.NotOurs(out / publish.MANIFEST)
    made = files(whole)
    publish.put(out, made, before, {"made_by": MADE_BY, "job": whole.job.job})
    return f"{out / 'index.html'}: job {whole.job.job}, {len(made)} files; {out / PAPER}"


def files(whole: Whole) -> dict[str, bytes]:
    """Give every file of the folder by its name; the paper is set while the pages are made."""
    from concurrent.futures import ThreadPoolExecutor

    from site_builder.paper import binder
    from site_builder.screen import site

    book = reading.read(whole)
    with ThreadPoolExecutor(1) as beside:
        paper = beside.submit(binder.pdf, binder.written(book))
        made = {name: text.encode() for name, text in site.plain_files(book).items()}
        made["needs.csv"] = tables.needs_csv(whole).encode()
        made["plates.csv"] = tables.plates_csv(whole).encode()
        made[PAPER] = paper.result()
    return made
