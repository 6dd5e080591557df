"""The leaves of a job folder read: the words of `content/job-folder`, with the job in them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from formulas.jobs.job import AT_WORK
from site_builder.content import Handbook, Reader, bound
from site_builder.cover import Cover
from site_builder.job_folder.shelf import SHELF
from site_builder.places import CONTENT

if TYPE_CHECKING:
    from formulas.jobs.job import Whole

FOLDER = "job-folder"
PAPER = "job-folder.pdf"
ABOUT = (
    "What this job needs, in which order it is done, and the sheets to write on at the bench, "
    "worked out from the job file and from what the shop had on the day of the print.",
    "Print it on one side of the paper, unscaled. Each leaf starts on a page of its own: take it "
    "to the bench, write on it, and put it back.",
)
NO_PROMISE = (
    "Nothing in this folder is a promise: no price, no day, no pitch, no temperature the wax will "
    "stand. A range says how far the sources leave it open.",
    "The law where you work, the safety data sheet of the material in your hand and a doctor's "
    "advice come before anything printed here.",
)


def cover_of(whole: Whole) -> Cover:
    """Give the words on the cover of a job's folder."""
    job = whole.job
    return Cover(
        book=f"Job {job.job}",
        front="What this folder is for",
        under=job.about,
        headed=f"Job {job.job}: {job.about}",
        about=ABOUT,
        deferral=NO_PROMISE,
        revision=f"job {job.job}",
        menu="Leaves of this job",
        searched=False,
        sides=1,
        paper=PAPER,
    )


def read(whole: Whole) -> Handbook:
    """Read the leaves of a job. Raises Faults with every fault of every file, in file order."""
    whole.catalog.memo[AT_WORK] = whole
    reader = Reader(whole.catalog, CONTENT, SHELF)
    front = reader.front(f"{FOLDER}/front.md")
    sections = reader.sections(re.compile(FOLDER))
    leaves = list(reader.given_leaves(sections))
    return bound(reader, front, sections, leaves, cover_of(whole))
