"""Where a key stands in a TOML text: the line that an editor shows, for a fault to name."""

from __future__ import annotations

import re

HEAD = re.compile(r"^\s*\[\[?\s*([A-Za-z0-9_-]+)\s*\]?\]")
KEY = re.compile(r"^\s*\"?([A-Za-z0-9_-]+)\"?\s*=")


class Lines:
    r"""The lines of tables and of their keys: table "" is what stands before the first head.

    >>> lines = Lines('job = "1"\n[[rank]]\nrank = "low"\n[[rank]]\nplates = 3\n')
    >>> lines.of("", 0, "job"), lines.of("rank", 1, "plates"), lines.of("rank", 0, "plates")
    (1, 5, 2)
    """

    def __init__(self, text: str) -> None:
        self._keys: dict[tuple[str, int, str], int] = {}
        self._heads: dict[tuple[str, int], int] = {("", 0): 1}
        counts: dict[str, int] = {}
        table, index = "", 0
        for number, line in enumerate(text.splitlines(), 1):
            head, key = HEAD.match(line), KEY.match(line)
            if head:
                table = head.group(1)
                index = counts.get(table, 0)
                counts[table] = index + 1
                self._heads[table, index] = number
            elif key:
                self._keys.setdefault((table, index, key.group(1)), number)

    def of(self, table: str, index: int, key: str = "") -> int:
        """Give the line of a key, or that of its table's head where the key is missing."""
        at_head = self._heads.get((table, index), 1)
        return self._keys.get((table, index, key), at_head)
