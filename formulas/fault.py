"""Errors that carry their facts and build their own text from them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


class FormulasError(Exception):
    """Base of every error this package raises on purpose."""


def nearest(found: str, accepted: Iterable[str]) -> str | None:
    """Give the accepted name closest to what was found, or None where none is close.

    >>> nearest("gum-rosn", ["gum-rosin", "tallow"])
    'gum-rosin'
    >>> nearest("granite", ["gum-rosin", "tallow"]) is None
    True
    """
    import difflib

    close = difflib.get_close_matches(found, list(accepted), n=1, cutoff=0.7)
    return close[0] if close else None


def hint(found: str, accepted: Iterable[str]) -> str:
    """Give "; did you mean '…'?" where an accepted name is close, else nothing."""
    name = nearest(found, accepted)
    return f"; did you mean '{name}'?" if name else ""


class CellFault(FormulasError, ValueError):
    """One fault in one cell of somebody's file, with the line an editor shows."""

    def __init__(
        self, file: str, row: int, column: str, found: str, accepted: str, also: str = ""
    ) -> None:
        self.file, self.row, self.column = file, row, column
        self.found, self.accepted, self.also = found, accepted, also
        super().__init__(
            f"{file}:{row}: {column}: found '{found}', accepted: {accepted}{also}"
            if found
            else f"{file}:{row}: {column}: found nothing, accepted: {accepted}{also}"
        )


class Faults(FormulasError, ValueError):
    """All faults of all files together, in file order."""

    def __init__(self, faults: Sequence[CellFault]) -> None:
        self.faults = list(faults)
        files = len({fault.file for fault in self.faults})
        count = len(self.faults)
        closing = (
            f"{count} fault{'' if count == 1 else 's'} in {files} file{'' if files == 1 else 's'}"
            "; nothing was changed."
        )
        super().__init__("\n".join([*map(str, self.faults), closing]))


class UnknownName(FormulasError, LookupError):
    """A name that stands in no table, with the nearest one that does."""

    def __init__(self, kind: str, found: str, accepted: Iterable[str]) -> None:
        self.kind, self.found, self.accepted = kind, found, sorted(accepted)
        super().__init__(
            f"{kind}: found '{found}', accepted: {', '.join(self.accepted) or 'none yet'}"
            f"{hint(found, self.accepted)}"
        )


class UnitFault(FormulasError, ValueError):
    """A quantity that cannot be read, or that has the wrong dimension."""

    def __init__(self, found: str, accepted: str) -> None:
        self.found, self.accepted = found, accepted
        super().__init__(f"found '{found}', accepted: {accepted}")


class OutOfRange(FormulasError, ValueError):
    """A value outside the range in which a statement holds, naming range and source."""

    def __init__(self, what: str, value: float, accepted: str, source: str) -> None:
        self.what, self.value, self.accepted, self.source = what, value, accepted, source
        super().__init__(f"{what}: found {value:g}, accepted: {accepted} ({source})")


class NotKnown(FormulasError, LookupError):
    """Something no table holds, and how a shop can find it out."""

    def __init__(self, what: str, find_out: str) -> None:
        self.what, self.find_out = what, find_out
        super().__init__(f"{what} is not known. To find out: {find_out}")


class Refused(FormulasError, ValueError):
    """Source code the formula writers do not translate, with its file and line."""

    def __init__(self, file: str, line: int, found: str, accepted: str) -> None:
        self.file, self.line, self.found, self.accepted = file, line, found, accepted
        super().__init__(f"{file}:{line}: found {found}, accepted: {accepted}")
