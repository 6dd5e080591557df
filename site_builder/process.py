"""How a process of ours runs, whichever command it was started for."""

from __future__ import annotations

import gc
import os

NEW_OBJECTS = 100_000


def settle() -> None:
    """Ask for one thread for matrices, and for a seldom search of what is out of reach.

    To be called before anything imports numpy: its matrices are small here, and a thread for each
    core makes them slower. One also keeps the last digit from hanging on how many cores there are.

    Python looks for cycles of objects after every 700 new ones, which took a tenth of each
    command and of a build. There are hardly any cycles here, and a command is soon over.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.set_threshold(NEW_OBJECTS)
