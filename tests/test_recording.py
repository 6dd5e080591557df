"""What `record` writes into a shop folder, what it refuses, and what a kill leaves."""

from __future__ import annotations

import datetime
import json
import os
import stat
import threading

import book_trials
import pytest
from book_trials import POT, run

from formulas.books.records import next_number, notices, weighed_shares
from formulas.catalog import load
from formulas.ratio import revision_of
from site_builder import books as writing
from site_builder.places import DEMO_SHOP

YELLOW, ROSIN = "beeswax-yellow", "gum-rosin"


@pytest.fixture
def shop(tmp_path):
    """A new shop with three lots."""
    return book_trials.shop(tmp_path / "shop")


def texts(folder):
    """Give the bytes of every table."""
    return {path.name: path.read_bytes() for path in folder.glob("*.csv")}


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        (("batch", "beeswax-rosin-4-1", "--lot", "gum-rosin=GR-7:5g"), "lot: found 'GR-7'"),
        (("batch", *POT, "--retest", "2026-13-01"), "--retest: found"),
        (("batch", *POT, "--top", "108"), "a number with a unit"),
        (("batch", *POT, "--lot", "gum-rosin"), "--lot: found 'gum-rosin'"),
        (("batch", "no-blend", "--lot", "gum-rosin=5g"), "blend: found 'no-blend'"),
        (("test", "W-7", "--method", "drop-point", "--reading", "60C"), "sample: found 'W-7'"),
        (("test", YELLOW, "--method", "drop-point"), "in one way"),
        (("test", YELLOW, "--method", "drop-point", "--held", "60C", "--moved", "59C"), "high: fo"),
        (("test", YELLOW, "--method", "step-creep", "--held", "45C"), "plate: found nothing"),
        (("use", "W-7", "--job", "1"), "batch: found 'W-7'"),
    ],
)  # fmt: skip
def test_a_record_that_would_be_a_fault_changes_nothing(shop, words, fault):
    """It is refused with the cell or the option at fault, and every file is as it was."""
    before = texts(shop)
    done = run(*words, shop=shop)
    assert done.exit_code in {1, 2}
    assert fault in done.stderr
    assert texts(shop) == before


def test_a_fault_elsewhere_in_the_shop_keeps_a_record_out(shop):
    """Nothing is added to books of which the check does not approve."""
    (shop / "prices.csv").write_text("item,price\ngold,1\n", encoding="utf-8")
    before = texts(shop)
    done = run("batch", *POT, shop=shop)
    assert done.exit_code == 1
    assert "prices.csv" in done.stderr
    assert texts(shop) == before


def test_a_missing_table_is_made_with_its_header(shop):
    """A book that was deleted begins again, explained as in a new shop."""
    whole = (shop / "pot_book.csv").read_text("utf-8")
    (shop / "pot_book.csv").unlink()
    assert run("batch", *POT, shop=shop).exit_code == 0
    assert (shop / "pot_book.csv").read_text("utf-8").startswith(whole)


@pytest.mark.parametrize("mark", [".~lock.{}#", "~${}"])
@pytest.mark.parametrize("table", ["pot_book.csv", "pot_lots.csv"])
def test_a_table_open_in_a_spreadsheet_is_left_alone(shop, mark, table):
    """Beside a spreadsheet's own lock nothing is written, into neither of the two tables."""
    (shop / mark.format(table)).write_text("", encoding="utf-8")
    before = texts(shop)
    done = run("batch", *POT, shop=shop)
    assert done.exit_code == 2
    assert table in done.stderr
    assert "nothing was changed" in done.stderr
    assert texts(shop) == before


def test_mode_and_link_of_a_file_are_kept(shop, tmp_path):
    """The file behind a link is replaced, the link stays, and so does who may read it."""
    real = tmp_path / "elsewhere.csv"
    (shop / "pot_book.csv").rename(real)
    (shop / "pot_book.csv").symlink_to(real)
    real.chmod(0o640)
    assert run("batch", *POT, shop=shop).exit_code == 0
    assert (shop / "pot_book.csv").is_symlink()
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert "W-" in real.read_text("utf-8")


def test_a_disk_that_does_not_take_it_leaves_the_books_as_they_were(shop, monkeypatch):
    """Where the new file cannot be written out, one message says so and the old one stands."""

    def full(_handle):
        raise OSError(28, "No space left on device")

    before = texts(shop)
    monkeypatch.setattr(os, "fsync", full)
    done = run("batch", *POT, shop=shop)
    assert done.exit_code == 2
    assert "No space left" in done.stderr
    assert texts(shop) == before


def test_the_lots_are_written_before_their_batch(shop, monkeypatch):
    """The row of the batch is the acknowledgement: cut off before it, the draws are told."""
    real = os.replace

    def cut_off(source, target):
        if target.name == "pot_book.csv":
            raise OSError(5, "cut off")
        real(source, target)

    monkeypatch.setattr(os, "replace", cut_off)
    assert run("batch", *POT, "--date", "2026-01-02", shop=shop).exit_code == 2
    monkeypatch.undo()
    assert "stock drawn for no batch: W-26-001" in " ".join(notices(load(shop)))
    assert "Recorded W-26-002" in run("batch", *POT, "--date", "2026-01-02", shop=shop).stdout


def test_two_at_once_both_land(shop):
    """Threads that record at the same moment get numbers of their own, and all rows stand."""
    seen = []

    def once():
        answer, _ = writing.record(shop, _made)
        seen.append(answer)

    threads = [threading.Thread(target=once) for _ in range(8)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert sorted(seen) == [f"W-26-{i:03d}" for i in range(1, 9)] == sorted(load(shop).pot_book)


def _made(catalog):
    number = next_number("W", "2026-01-01", catalog.pot_book)
    row = {"batch": number, "date": "2026-01-01", "parts": "gum-rosin 1", "basis": "measured"}
    return number, {"pot_book.csv": [row]}


def test_the_lock_is_waited_for_and_then_told(shop, monkeypatch):
    """A lock that is not given up is told in one message, and nothing is changed."""
    from filelock import FileLock

    monkeypatch.setattr(writing, "PATIENCE", 0.05)
    before = texts(shop)
    with FileLock(shop / writing.LOCK):
        done = run("batch", *POT, shop=shop)
    assert done.exit_code == 2
    assert "another command of this program" in done.stderr
    assert texts(shop) == before


def test_the_demo_shop_is_not_written_into():
    """Without a shop folder there is no book to write into."""
    before = texts(DEMO_SHOP)
    for named in (None, DEMO_SHOP):
        done = run("batch", *POT, shop=named)
        assert done.exit_code == 2
        assert "--shop" in done.stderr
    assert texts(DEMO_SHOP) == before


def test_what_an_invented_shop_records_is_invented(tmp_path):
    """The basis of a row follows the shop: measured, or invented where the shop is."""
    folder = book_trials.shop(tmp_path / "shop")
    run("batch", *POT, shop=folder)
    settings = folder / "shop.toml"
    settings.write_text(settings.read_text("utf-8") + "invented = true\n", encoding="utf-8")
    run("batch", *POT, shop=folder)
    assert [made.basis for made in load(folder).pot_book.values()] == ["measured", "invented"]


def test_without_a_date_it_is_today(shop):
    """The command reads the clock; nothing else does."""
    before = datetime.date.today().isoformat()
    run("batch", *POT, shop=shop)
    (made,) = load(shop).pot_book.values()
    assert before <= made.date <= datetime.date.today().isoformat()
    assert made.batch == f"W-{made.date[2:4]}-001"


def test_the_book_holds_what_was_typed(shop):
    """Numbers stay in the units they were read in; the whole sheet stands in the row."""
    done = run(
        *("batch", *POT, "--top", "226F", "--make-up", "0.5h", "--held", "90min"),
        *("--yield", "3.4oz", "--retest", "2027-01-02", "--wax", "fresh", "--note", "a; b, #c"),
        *("--made-by", "A", "--checked-by", "B", "--date", "2026-01-02"),
        shop=shop,
    )
    assert done.exit_code == 0
    (made,) = load(shop).pot_book.values()
    assert (made.top_temperature, made.temperature_unit) == (226, "degF")
    assert (made.make_up_minutes, made.held_hours) == (30, 1.5)
    assert (made.yielded, made.unit, made.retest_by) == (3.4, "oz", "2027-01-02")
    assert (made.wax, made.note, made.scale) == ("fresh", "a; b, #c", "0.1 g")
    assert (made.made_by, made.checked_by, made.blend) == ("A", "B", "beeswax-rosin-4-1")
    assert made.revision == revision_of({YELLOW: 4, ROSIN: 1})


def test_answers_as_json_carry_number_and_cautions(shop):
    """Another program finds the number, the shares and the cautions by name."""
    found = json.loads(run("batch", *POT, "--json", "--date", "2026-01-02", shop=shop).stdout)
    assert found["answer"]["batch"] == "W-26-001"
    assert found["answer"]["weighed_shares"] == {YELLOW: 0.8, ROSIN: 0.2}
    assert "hot-wax-burn" in {caution["id"] for caution in found["cautions"]}


def test_record_imports_no_pandas_and_other_commands_no_lock(shop):
    """The lock is loaded by `record` alone, the big library by none of them."""
    import subprocess
    import sys

    code = (
        "import sys; from site_builder.commands import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        "print('loaded', *({'filelock', 'pandas'} & sys.modules.keys()))"
    )

    def loaded(*words):
        done = subprocess.run(
            [sys.executable, "-c", code, *words], capture_output=True, text=True, check=True
        )
        return done.stdout.splitlines()[-1].split()[1:]

    assert loaded("record", "batch", *POT, "--shop", str(shop)) == ["filelock"]
    assert loaded("record", "find", "BW-1", "--shop", str(shop)) == []


def test_the_demo_books_are_whole():
    """The demo shop's books have no fault and no notice, and each batch has its shares."""
    demo = load(DEMO_SHOP)
    assert notices(demo) == []
    assert len(demo.pot_book) >= 3
    assert all(made.basis == "invented" for made in demo.pot_book.values())
    for name in demo.pot_book:
        assert sum(weighed_shares(demo, name).values()) == pytest.approx(1)


def test_a_disk_that_cannot_lock_is_told(tmp_path, monkeypatch):
    """Where the disk knows no lock nothing is written, and the message says what to do."""
    from filelock import FileLock

    def unfit(*_args, **_kwargs):
        raise NotImplementedError

    monkeypatch.setattr(FileLock, "acquire", unfit)
    with pytest.raises(writing.NotWritten, match="keep the shop on a local disk"):
        writing.record(tmp_path, lambda _catalog: (None, {}))
