"""Measure each figure of speed as a ratio to a floor of the same run, and print the table.

Floors and goals stand beside each other, because machines differ and ratios do not. Runs of a
pair alternate, and the minimum of each counts: the rest is noise of the machine.

    python tests/benchmarks/run.py
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROUNDS = 11
HERE = Path(__file__).parent


def alternating(rounds: int, *runs: Callable[[], None]) -> list[float]:
    """Give the least time of each run in seconds, the runs taking turns."""
    least = [float("inf")] * len(runs)
    for _ in range(rounds):
        for place, run in enumerate(runs):
            start = time.perf_counter()
            run()
            least[place] = min(least[place], time.perf_counter() - start)
    return least


def python(*words: str) -> Callable[[], None]:
    """Give a run of a fresh Python."""
    return lambda: (
        subprocess.run(
            [sys.executable, *words],
            check=True,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        and None
    )


def command(*words: str) -> Callable[[], None]:
    """Give a run of one of our commands in a fresh Python."""
    return python("-c", "from site_builder.commands import main; main()", *words)


def answers() -> list[tuple[str, float, float, float]]:
    """Compare one command's answer with importing the two libraries it cannot do without."""
    rows = []
    for words in (
        ("mix", "beeswax-rosin-4-1", "--total", "400g"),
        ("soften", "beeswax-rosin-4-1"),
        ("valves", "--rank", "low"),
        ("cut",),
    ):
        floor, ours = alternating(ROUNDS, python("-c", "import click, pint"), command(*words))
        rows.append((f"one answer: {words[0]}", floor, ours, 1.5))
    return rows


def unchanged(folder: str) -> tuple[str, float, float, float]:
    """Compare a build with nothing changed with click and a hash of the same files."""
    hashing = (
        "import click, hashlib, pathlib, formulas, site_builder;"
        "[hashlib.sha256(p.read_bytes()) for m in (formulas, site_builder)"
        " for p in pathlib.Path(m.__path__[0]).rglob('*') if p.is_file()]"
    )
    build = command("build", "--out", folder)
    build()
    floor, ours = alternating(ROUNDS, python("-c", hashing), build)
    return ("build, nothing changed", floor, ours, 1.5)


def screen_and_paper() -> list[tuple[str, float, float, float]]:
    """Compare each face with the bare libraries over the same leaves."""
    floors = json.loads(
        subprocess.run(
            [sys.executable, str(HERE / "floors.py")], check=True, capture_output=True, text=True
        ).stdout
    )
    return [
        ("screen", floors["bare_screen"], floors["screen"], 3.0),
        ("paper", floors["bare_paper"], floors["paper"], 1.3),
    ]


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as folder:
        rows = [*answers(), unchanged(folder), *screen_and_paper()]
    print(f"{'what':<28}{'floor, s':>10}{'ours, s':>10}{'ratio':>8}{'goal':>7}")
    for what, floor, ours, goal in rows:
        print(f"{what:<28}{floor:>10.3f}{ours:>10.3f}{ours / floor:>8.2f}{goal:>7.1f}")


if __name__ == "__main__":
    main()
