"""One file written where the user says, never over a file that is not ours."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from formulas.fault import FormulasError

PDF = b"%PDF-"
HTML = b"<!DOCTYPE html>"


class NotOurFile(FormulasError, FileExistsError):
    """A file in the way that carries no mark of ours."""

    def __init__(self, path: Path, what: str, accepted: str) -> None:
        self.path = path
        super().__init__(
            f"found '{path}', which is no {what} of ours, accepted: a new name, or {accepted};"
            " nothing was changed."
        )


def write(data: bytes, path: Path, mark: str, what: str) -> None:
    """Write a PDF or an HTML file beside its place and move it there.

    `mark` stands in every such file, `what` names the kind. Raises NotOurFile where another
    file stands: only one of the same form that carries the mark is replaced.
    """
    if path.exists() and not (path.is_file() and is_ours(path.read_bytes(), mark, _form(data))):
        shown = "a PDF" if _form(data) == PDF else "a page"
        raise NotOurFile(path, what, f"{shown} whose keywords hold '{mark}'")
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, beside = tempfile.mkstemp(prefix=".written-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(beside).chmod(0o644)
        os.replace(beside, path)  # noqa: PTH105 - the name says what it does
    except OSError:
        Path(beside).unlink(missing_ok=True)
        raise


def _form(data: bytes) -> bytes:
    return PDF if data.startswith(PDF) else HTML


def is_ours(data: bytes, mark: str, form: bytes = PDF) -> bool:
    """Whether a file has the form and carries the mark."""
    return data.startswith(form) and mark.encode() in data
