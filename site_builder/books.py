"""Write into the tables of a shop folder: under a lock, a whole new file at a time.

A kill at any moment leaves each file as it was or as it is to be, never between.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TypeVar

from formulas import collector
from formulas.books import appending
from formulas.books.appending import Addition, Cell
from formulas.catalog import Catalog, all_schemas, opened
from formulas.fault import FormulasError
from site_builder.start import headed

T = TypeVar("T")

LOCK = ".benchbinder.lock"
PATIENCE = 60.0  # seconds; another command holds the lock for about one
LOOKS = 0.01  # seconds between two looks whether it is free

Rows = Mapping[str, Sequence[Mapping[str, Cell]]]
"""The new rows of each table by its file name, in the order in which they are written."""


class InUse(FormulasError, OSError):
    """A table, or the whole folder, that another program holds."""

    def __init__(self, path: Path, holder: str) -> None:
        self.path, self.holder = path, holder
        super().__init__(
            f"found '{path}' held by {holder}, accepted: a table that nobody else has open."
            " Save and close it there, then record again; nothing was changed."
        )


class NotWritten(FormulasError, OSError):
    """A table that could not be replaced."""

    def __init__(self, path: Path, error: OSError) -> None:
        self.path, self.error = path, error
        reason = error.strerror or str(error)
        super().__init__(f"could not write '{path}': {reason}; it stands as it was.")


def record(shop: Path, made: Callable[[Catalog], tuple[T, Rows]]) -> tuple[T, Catalog]:
    """Read the shop, let `made` say what to add, check all with it, then write.

    The lock is held from the reading to the writing, so that two at once both land and none
    takes the other's number. The last table written is the acknowledgement.
    Gives the answer with the catalog as it was before.
    Raises Faults, InUse or NotWritten; a fault leaves every file as it was.
    """
    with _locked(shop), collector.paused():
        catalog, tables = opened(shop)
        answer, rows = made(catalog)
        for name in rows:
            _refuse_spreadsheet(shop / name)
        additions = [
            appending.appended(name, _text(shop / name), all_schemas()[name], new)
            for name, new in rows.items()
        ]
        appending.check(tables, additions)
        for added in additions:
            _replace(shop / added.name, added)
    return answer, catalog


@contextlib.contextmanager
def _locked(shop: Path) -> Iterator[None]:
    """Hold the folder's lock. The kernel frees it when its holder dies."""
    from filelock import FileLock, Timeout

    lock = FileLock(shop / LOCK, timeout=PATIENCE, fallback_to_soft=False)
    try:
        lock.acquire(poll_interval=LOOKS)
    except Timeout as error:
        raise InUse(shop / LOCK, "another command of this program") from error
    except NotImplementedError as error:
        unfit = OSError("this folder's disk cannot lock a file; keep the shop on a local disk")
        raise NotWritten(shop / LOCK, unfit) from error
    except OSError as error:
        raise NotWritten(shop / LOCK, error) from error
    try:
        yield
    finally:
        lock.release()


def _refuse_spreadsheet(path: Path) -> None:
    for mark in (f".~lock.{path.name}#", f"~${path.name}"):
        if (path.parent / mark).exists():
            raise InUse(path, f"a spreadsheet (its mark {mark} stands beside)")


def _text(path: Path) -> str:
    """Give a table's text as it is, or that of an empty one."""
    if not path.exists():
        return headed(all_schemas()[path.name])
    return path.read_bytes().decode("utf-8")


def _replace(path: Path, added: Addition) -> None:
    """Write the whole new file beside, then put it in the place of the old one.

    A link stays a link, and the file keeps its mode. What a kill left beside is written over.
    """
    target = path.resolve()
    beside = target.with_name(f".{target.name}.new")
    try:
        with beside.open("wb") as file:
            file.write(added.text.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            beside.chmod(target.stat().st_mode & 0o7777)
        os.replace(beside, target)  # noqa: PTH105 - the name says what it does
        _settle(target.parent)
    except OSError as error:
        raise NotWritten(path, error) from error


def _settle(folder: Path) -> None:
    """Have the folder itself written, where the system can open one."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
