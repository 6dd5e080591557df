"""Eight processes record into one shop and are killed at random: nothing acknowledged is lost.

The processes run the real command on a disk that is slow and says when it writes: every other
kill is aimed at that moment, the rest fall anywhere. A number on their standard output is the
acknowledgement, read by another process, so that it cannot be taken back. What lands is judged
by what was sent, row for row, and by `check`.
"""

from __future__ import annotations

import hashlib
import random
import re
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from click.testing import CliRunner

from formulas.catalog import load
from site_builder.commands import main
from site_builder.start import lay_down

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is not known there")

PROCESSES = 8
LIVES = (0, 40)
"""From how few to how many records a process lives."""
ACKNOWLEDGED = re.compile(r"^Recorded ([WT]-26-\d+)\b.*\n")
WRITE_S = 0.006  # the disk sleeps for most of it
LONG_ONES = {"00", "20", "40", "80", "a0", "c0"}
LOTS = (
    "lot,material,bought,amount,unit,basis,note\n"
    "BW-1,beeswax-yellow,,900,kg,measured,\nGR-1,gum-rosin,,900,kg,measured,\n"
)

WORKER = """
import os, sys, time
sys.path.insert(0, sys.argv[1])
from test_record_kills import words
from site_builder.commands import main
shop, name = sys.argv[2:]
print('ready')

synced = os.fsync
def slow(handle):  # a slow disk, which tells when it is at work
    print('writing')
    time.sleep(0.004)
    synced(handle)
os.fsync = slow

for count in range(10**6):
    main.main([*words(name, count), "--shop", shop], standalone_mode=False)
"""


def words(name: str, count: int) -> list[str]:
    """Give the count-th command of one process; its note tells whose it is and whether it tore."""
    note = ["--date", "2026-05-04", "--note", noted(name, count)]
    if count % 4 == 1:
        return ["record", "use", "W-26-001", "--job", f"{name}-{count}", "--amount", "1g", *note]
    if count % 4 == 3:
        test = ["record", "test", "gum-rosin", "--method", "drop-point", "--reading", "80.5C"]
        return [*test, *note]
    lots = ["--lot", "beeswax-yellow=BW-1:80.5g", "--lot", "gum-rosin=GR-1:20g"]
    return ["record", "batch", "beeswax-rosin-4-1", *lots, *note]


def noted(name: str, count: int) -> str:
    """Give a note of which no piece can stand for the whole; one in 43 is of 39,000 signs."""
    digest = hashlib.sha256(f"{name} {count}".encode()).hexdigest()
    times = 600 if digest[:2] in LONG_ONES else 1
    return f'{name} {count} "{digest}"; ' + f"{digest}," * times + "end"


def in_dialect(folder: Path, separator: str, newline: str, mark: str) -> None:
    """Write the books of a shop anew in another hand."""
    for name in ("pot_book", "pot_lots", "pot_uses", "softening_tests"):
        path = folder / f"{name}.csv"
        header = path.read_text("utf-8").splitlines()[0].replace(",", separator)
        remark = f"# kept by hand{newline}{newline}"
        path.write_bytes(f"{mark}{header}{newline}{remark}".encode())


class Bench:
    """The processes, what each has acknowledged, and how many were killed."""

    def __init__(self, shop: Path, wanted: int) -> None:
        self.shop, self.wanted = shop, wanted
        self.heard: dict[str, list[str]] = {}
        self.kills = 0
        self.chance = random.Random(20260504)

    def count(self) -> int:
        """Give the number of acknowledged records."""
        return sum(len(numbers) for numbers in self.heard.values())

    def work(self, place: int) -> None:
        """Start one process after the other in one place, and kill each at a random moment."""
        life = 0
        while self.count() < self.wanted:
            aim = self.chance.randint(1, 4) if life % 2 else 0
            self._live(f"p{place}-{life}", self.chance.randint(*LIVES), aim, self.chance.random())
            life += 1

    def _live(self, name: str, records: int, aim: int, moment: float) -> None:
        """Hear a number of records, then kill within the next one: anywhere, or in a write.

        Counted in records and not in seconds: a busy machine gets as far as an idle one.
        """
        here = str(Path(__file__).parent)
        numbers = self.heard[name] = []
        with subprocess.Popen(
            [sys.executable, "-u", "-c", WORKER, here, str(self.shop), name],
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            encoding="utf-8",
        ) as process:
            assert process.stdout is not None
            began = time.monotonic()
            writes = 0
            for line in process.stdout:
                numbers += ACKNOWLEDGED.findall(line)
                if len(numbers) >= records:
                    writes += line == "writing\n"
                    if writes == aim:
                        break
            each = (time.monotonic() - began) / (records + 1)
            time.sleep(moment * (WRITE_S if aim else each))
            process.kill()
            for line in process.stdout:
                numbers += ACKNOWLEDGED.findall(line)
        assert process.returncode == -signal.SIGKILL
        self.kills += 1


def run(shop: Path, wanted: int) -> Bench:
    """Let eight processes record until enough is acknowledged."""
    bench = Bench(shop, wanted)
    failed: list[BaseException] = []

    def guarded(place: int) -> None:
        try:
            bench.work(place)
        except BaseException as error:
            failed.append(error)
            raise

    threads = [threading.Thread(target=guarded, args=(place,)) for place in range(PROCESSES)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert failed == []
    return bench


@pytest.mark.parametrize(
    ("wanted", "separator", "newline", "mark"),
    [(1000, ";", "\r\n", "\ufeff"), (60, ",", "\n", ""), (60, "\t", "\n", "\ufeff")],
    ids=["semicolons", "commas", "tabs"],
)
def test_nothing_acknowledged_is_lost(tmp_path, wanted, separator, newline, mark):
    """Every acknowledged row stands once and whole, `check` accepts, the hand is the file's own."""
    shop = tmp_path / "shop"
    lay_down(shop)
    (shop / "lots.csv").write_text(LOTS, encoding="utf-8")
    in_dialect(shop, separator, newline, mark)
    CliRunner().invoke(main, [*words("first", 0), "--shop", str(shop)], catch_exceptions=False)
    bench = run(shop, wanted)
    assert bench.count() >= wanted
    assert bench.kills >= PROCESSES
    done = CliRunner().invoke(main, ["check", "--shop", str(shop)])
    assert done.exit_code == 0, done.output
    _compare(bench)
    for name in ("pot_book", "pot_lots", "pot_uses", "softening_tests"):
        raw = (shop / f"{name}.csv").read_bytes().decode("utf-8")
        assert raw.startswith(mark)
        assert raw.endswith(newline)
        assert raw.count("\n") == raw.count(newline)
        assert f"# kept by hand{newline}{newline}" in raw


def _compare(bench: Bench) -> None:
    """Compare what landed with what was sent and acknowledged, row for row."""
    found = load(bench.shop)
    landed = {
        **{name: made.note for name, made in found.pot_book.items()},
        **{test.test: test.note for test in found.softening_tests},
    }
    uses = {use.job: use.note for use in found.pot_uses}
    assert len(uses) == len(found.pot_uses)
    numbers = set()
    for name, heard in bench.heard.items():
        for count, number in enumerate(heard):
            if count % 4 == 1:
                assert uses[f"{name}-{count}"] == noted(name, count)
                continue
            assert number not in numbers
            numbers.add(number)
            assert landed[number] == noted(name, count)
            if number.startswith("W"):
                parts = [(part.lot, part.actual) for part in found.lots_by_batch[number]]
                assert parts == [("BW-1", 80.5), ("GR-1", 20)]
    notes = [*landed.values(), *uses.values()]
    assert len(set(notes)) == len(notes)
    for note in notes:
        name, count, _ = note.split(" ", 2)
        assert note == noted(name, int(count))
    for batch in found.pot_book:
        assert len(found.lots_by_batch[batch]) == 2
