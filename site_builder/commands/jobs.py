"""The commands of a whole instrument: what a job needs, and its own folder to print."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from site_builder.commands.options import answers, loaded, shop_folder, show

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.job import Job

FOLDER = "jobs"
NO_FILE = "found '{found}', accepted: a job of the shop's folder jobs ({known}), or a file"


@click.command(epilog="Example: benchbinder job 26-021 --out job-26-021")
@click.argument("job", required=False)
@click.option("--trace", default="", metavar="ITEM", help="The rows of one total: wax, sheep-55.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    help="Write the job folder there: to print, and to read on screen.",
)
@click.option("--layout", metavar="LAYOUT", help="No job file yet: a layout of layouts.csv.")
@answers
def job(
    job: str | None,
    trace: str,
    out: Path | None,
    layout: str | None,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Work out what a whole instrument needs: valves, wax, hours, what to buy, what it costs.

    JOB is the number of a job file in the shop's folder jobs, or the path of one.
    """
    if (job is None) == (layout is None):
        fault = "name a job, or a layout with --layout"
        raise click.UsageError(fault)
    from formulas.jobs.job_answer import job_answer
    from formulas.jobs.needs import whole

    catalog = loaded(shop)
    found = whole(catalog, read_job(catalog, job or "", shop))
    show(job_answer(catalog, found, trace), catalog, as_json)
    if out:
        from site_builder.job_folder.writing import write

        click.echo(write(found, out), err=as_json)


def read_job(catalog: Catalog, job: str, shop: Path | None) -> Job:
    """Read a job file by the job's number or by its path. Raises UsageError where there is none."""
    from formulas.jobs import job_file

    folder = shop_folder(shop) / FOLDER
    named = folder / f"{job}.toml"
    path = named if named.is_file() else Path(job)
    if not path.is_file():
        known = ", ".join(sorted(one.stem for one in folder.glob("*.toml"))) or "none yet"
        raise click.UsageError(NO_FILE.format(found=job, known=known))
    shown = f"{FOLDER}/{path.name}" if path == named else str(path)
    return job_file.read(catalog, _text(path, shown), shown)


def _text(path: Path, shown: str) -> str:
    from formulas.fault import CellFault, Faults

    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        fault = CellFault(shown, line, "(file)", "bytes that are no text", "UTF-8 text")
        raise Faults([fault]) from error


COMMANDS = (job,)
