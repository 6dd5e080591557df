"""The typesetter at the edge: one way to compile, and the characters no font of it has.

Only the fonts inside the typesetter's own package are used, so that a binder is the same on
every machine.
"""

from __future__ import annotations

import contextlib
import json
import re
import tempfile
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import typst

from formulas.fault import FormulasError

PROBED_LINE = re.compile(r"\.typ:(\d+):")
BEFORE_PROBE = '#set document(title: "probe")\n#{\n'


class PaperFault(FormulasError, RuntimeError):
    """The typesetter refused the binder, or warned of something in it."""

    def __init__(self, found: str) -> None:
        self.found = found
        super().__init__(f"binder: {found}")


class Desk:
    """A typesetter that keeps what it has set: what is the same the next time is not set again."""

    def __init__(self, folder: Path) -> None:
        self.file = folder / "book.typ"
        self.file.touch()
        self.typesetter = typst.Compiler(self.file, ignore_system_fonts=True)

    def compiled(self, source: str) -> bytes:
        """Set Typst code under PDF/UA-1; any warning is a fault. Raises PaperFault."""
        self.file.write_bytes(source.encode())
        try:
            data, warnings = self.typesetter.compile_with_warnings(
                format="pdf", timestamp=0, pdf_standards=["ua-1"]
            )
        except typst.TypstError as error:
            raise PaperFault(error.diagnostic or error.message) from error
        if warnings:
            raise PaperFault("\n".join(warning.diagnostic for warning in warnings))
        assert isinstance(data, bytes)
        return data

    def told(self, source: str, asked: str) -> Any:
        """Lay Typst code out, and give what an expression finds in it. Raises PaperFault."""
        self.file.write_bytes(source.encode())
        try:
            return json.loads(self.typesetter.eval(asked))
        except RuntimeError as error:
            raise PaperFault(str(error)) from error


@contextlib.contextmanager
def desk() -> Iterator[Desk]:
    """Give a typesetter for the time of one task."""
    with tempfile.TemporaryDirectory() as folder:
        yield Desk(Path(folder))


def compiled(source: str) -> bytes:
    """Set Typst code under PDF/UA-1; any warning is a fault. Raises PaperFault."""
    with desk() as one:
        return one.compiled(source)


def quoted(text: str) -> str:
    r"""Write text as a string literal, white space as it is.

    >>> print(quoted('a "b" \\ #c'))
    "a \"b\" \\ #c"
    """
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def visible(code: str) -> str:
    """Put [U+4E2D] in code where its strings hold a character that cannot be set."""
    return code.translate({ord(char): f"[U+{ord(char):04X}]" for char in missing(code)})


def missing(code: str, font: str = "") -> list[str]:
    """List the characters that cannot be set, in one font where one is named.

    Those are the ones no font has, found by setting each on a line of its own in one compile,
    and the marks that no one character joins to its letter: whether a font can place such a
    mark depends on its neighbours.
    """
    chars = sorted(char for char in set(code) if not char.isascii())
    before = BEFORE_PROBE
    if font:
        only = f"#set text(font: {quoted(font)}, fallback: false)\n#{{"
        before = BEFORE_PROBE.replace("#{", only)
    lines = [f"text({quoted(char)}) + parbreak()" for char in chars]
    bad = {char for char in chars if unicodedata.category(char).startswith("M")}
    try:
        compiled(before + "\n".join([*lines, "}"]))
    except PaperFault as fault:
        first = before.count("\n") + 1
        bad |= {chars[int(line) - first] for line in PROBED_LINE.findall(fault.found)}
    return sorted(bad)
