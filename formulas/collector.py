"""Python's collector of rings, paused while a large book is read."""

from __future__ import annotations

import contextlib
import gc
from collections.abc import Iterator


@contextlib.contextmanager
def paused() -> Iterator[None]:
    """Keep the collector from walking every row again and again: rows and entries hold no ring.

    Measured on 155,000 rows: a quarter of the time of reading them.
    """
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()
