"""The commands of a whole instrument: what a job needs, and its own folder to print."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from site_builder.commands.options import answers, loaded, shop_folder, show
from site_builder.commands.read_quick import answered, asked_for, quick_options

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
@quick_options
@answers
def job(
    job: str | None,
    trace: str,
    out: Path | None,
    shop: Path | None,
    as_json: bool,
    **quick: Any,
) -> None:
    """Work out what a whole instrument needs: valves, wax, hours, what to buy, what it costs.

    JOB is the number of a job file in the shop's folder jobs, or the path of one. Without a job
    file a layout, or ranks, give a first needs list.
    """
    asked = asked_for(quick)
    if job is None:
        if not {"layout", "rank"} & {*asked}:
            fault = "name a job, or a layout with --layout, or ranks with --rank"
            raise click.UsageError(fault)
        if trace or out:
            fault = "--trace and --out are of a job file; none is named"
            raise click.UsageError(fault)
        catalog = loaded(shop)
        show(answered(catalog, quick), catalog, as_json)
        return
    if asked:
        fault = f"--{asked[0]}: found beside a job file, accepted: one or the other"
        raise click.UsageError(fault)
    _whole(job, trace, out, shop, as_json)


def _whole(job: str, trace: str, out: Path | None, shop: Path | None, as_json: bool) -> None:
    from formulas.jobs.job_answer import job_answer
    from formulas.jobs.needs import whole

    catalog = loaded(shop)
    found = whole(catalog, read_job(catalog, job, shop))
    answer = job_answer(catalog, found, trace)
    written = ""
    if out:
        from site_builder.job_folder.writing import write

        written = write(found, out)
    show(answer, catalog, as_json)
    if written:
        click.echo(written, err=as_json)


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
