"""Measure each figure of speed as a ratio to a floor of the same run, and print the table.

Floors and goals stand beside each other, because machines differ and ratios do not. Runs of a
pair alternate, and the minimum of each counts: the rest is noise of the machine. Where the machine
changes its speed by the minute the two minima may be of different minutes; the median of the ratios
of neighbouring runs tells.

    python tests/benchmarks/run.py
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

ROUNDS = 11
HERE = Path(__file__).parent
COMPARED = [
    ("screen, leaves as written", "screen", "bare-screen-written", 3.0),
    ("screen, leaves as read", "screen", "bare-screen-read", 3.0),
    ("paper, typesetting alone", "typesetting", "bare-paper", 1.3),
    ("paper, its code as well", "paper", "bare-paper", 1.3),
    ("build, leaves as written", "build", "bare-build-written", 1.5),
    ("build, leaves as read", "build", "bare-build-read", 1.5),
]
WORKS = list(dict.fromkeys(name for _, *works, _ in COMPARED for name in works))
COMPILED = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
COMPILED["OPENBLAS_NUM_THREADS"] = "1"  # as the command sets it
"""Our modules are kept compiled after their first use, as those of the libraries are."""


class Compared(NamedTuple):
    """A floor and ours in seconds, the least of each, and the middle of their ratios."""

    what: str
    floor: float
    ours: float
    middle: float
    goal: float


Times = dict[str, list[float]]
"""The seconds of each piece of work, round by round."""


def compared(what: str, times: Times, floor: str, ours: str, goal: float) -> Compared:
    """Compare two pieces of work of the same rounds."""
    return Compared(
        what,
        min(times[floor]),
        min(times[ours]),
        statistics.median(b / a for a, b in zip(times[floor], times[ours], strict=True)),
        goal,
    )


def alternating(what: str, floor: Callable[[], None], ours: Callable[[], None]) -> Compared:
    """Compare two runs that take turns."""
    times: Times = {"floor": [], "ours": []}
    for _ in range(ROUNDS):
        for name, run in (("floor", floor), ("ours", ours)):
            start = time.perf_counter()
            run()
            times[name].append(time.perf_counter() - start)
    return compared(what, times, "floor", "ours", 1.5)


def python(*words: str) -> Callable[[], None]:
    """Give a run of a fresh Python."""

    def run() -> None:
        subprocess.run([sys.executable, *words], check=True, capture_output=True, env=COMPILED)

    return run


def command(*words: str) -> Callable[[], None]:
    """Give a run of one of our commands in a fresh Python."""
    return python("-c", "from site_builder.commands import main; main()", *words)


def answers() -> list[Compared]:
    """Compare one command's answer with importing the two libraries it cannot do without."""
    bare = python("-c", "import click, pint")
    return [
        alternating(f"one answer: {words[0]}", bare, command(*words))
        for words in (
            ("mix", "beeswax-rosin-4-1", "--total", "400g"),
            ("soften", "beeswax-rosin-4-1"),
            ("valves", "--rank", "low"),
            ("cut",),
        )
    ]


def unchanged(folder: str) -> Compared:
    """Compare a build with nothing changed with click and a hash of the same files."""
    hashing = (
        "import click, hashlib, pathlib, formulas, site_builder;"
        "[hashlib.sha256(p.read_bytes()) for m in (formulas, site_builder)"
        " for p in pathlib.Path(m.__path__[0]).rglob('*') if p.is_file()]"
    )
    build = command("build", "--out", folder)
    build()
    return alternating("build, nothing changed", python("-c", hashing), build)


def faces(folder: Path) -> list[Compared]:
    """Compare each face, and both together, with the bare libraries over the same leaves.

    Every piece of work is done in a process of its own, because the typesetter keeps what it has
    set. The screen and the whole have two floors: the leaves as they are written, and as they are
    read, with the tables that their parts place.
    """
    times: Times = {work: [] for work in WORKS}
    timed(folder, "lay")
    for _ in range(ROUNDS):
        for work in WORKS:
            times[work].append(timed(folder, work))
    return [compared(what, times, floor, ours, goal) for what, ours, floor, goal in COMPARED]


def timed(folder: Path, work: str) -> float:
    """Give the seconds that one piece of work took in a fresh Python."""
    said = subprocess.run(
        [sys.executable, str(HERE / "floors.py"), work, str(folder)],
        check=True,
        capture_output=True,
        text=True,
        env=COMPILED,
    ).stdout
    return float(said or 0)


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as folder, tempfile.TemporaryDirectory() as laid:
        rows = [*answers(), unchanged(folder), *faces(Path(laid))]
    print(f"{'what':<28}{'floor, s':>10}{'ours, s':>10}{'ratio':>8}{'middle':>8}{'goal':>7}")
    for one in rows:
        print(
            f"{one.what:<28}{one.floor:>10.3f}{one.ours:>10.3f}{one.ours / one.floor:>8.2f}"
            f"{one.middle:>8.2f}{one.goal:>7.1f}"
        )


if __name__ == "__main__":
    main()
