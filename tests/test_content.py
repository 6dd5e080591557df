"""The handbook's files: sections, leaves, the shop's own pages, and every fault of them at once."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from markdown import Markdown
from small_catalog import catalog

from formulas.catalog import load
from formulas.fault import Faults
from site_builder import content

FILES = {
    "front.md": "title: Trial\n\nSee [pots](pots.md#lid).\n",
    "10-heat/section.md": "title: Heat first\nletter: H\nsummary: What burns.\n",
    "10-heat/10-pots.md": "leaf: H-02\ntitle: Pots\nsummary: The pot.\n\n## Lid\n\nOn.\n",
    "10-heat/20-irons.md": "leaf: H-01\ntitle: Irons\nsummary: The iron.\n\n[Lid](pots.md#lid)\n",
    "20-wax/section.md": "title: Wax\nletter: W\nsummary: What holds.\n",
    "20-wax/10-blends.md": "leaf: W-01\ntitle: Blends\nsummary: Ratios.\n\n/// blends\n///\n",
    "demo-shop/shop.toml": 'name = "no section"\n',
}
OWN = "section: H\nleaf: H-90\ntitle: Our pot\nsummary: Ours.\n\nBack to [irons](irons.md).\n"


def lay(folder: Path, files: dict[str, str]) -> Path:
    """Write files below a folder."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def told(folder: Path, shop: Path | None = None) -> list[str]:
    """Read a handbook that has faults and give them, one a line."""
    with pytest.raises(Faults) as caught:
        content.read(catalog(shop), folder)
    return [str(fault) for fault in caught.value.faults]


def test_a_handbook_is_read_in_the_order_of_its_numbers(tmp_path: Path) -> None:
    """Sections come in folder order, leaves by number, the shop's own among them."""
    shop = lay(tmp_path / "shop", {"pages/our-pot.md": OWN})
    handbook = content.read(catalog(shop), lay(tmp_path / "text", FILES))
    assert [
        (one.letter, one.title, one.summary, one.folder, [leaf.number for leaf in one.leaves])
        for one in handbook.sections
    ] == [
        ("H", "Heat first", "What burns.", "10-heat", ["H-01", "H-02", "H-90"]),
        ("W", "Wax", "What holds.", "20-wax", ["W-01"]),
    ]
    assert [
        (leaf.slug, leaf.title, leaf.summary, leaf.section.letter, leaf.file)
        for leaf in handbook.leaves
    ] == [
        ("irons", "Irons", "The iron.", "H", "content/10-heat/20-irons.md"),
        ("pots", "Pots", "The pot.", "H", "content/10-heat/10-pots.md"),
        ("our-pot", "Our pot", "Ours.", "H", "pages/our-pot.md"),
        ("blends", "Blends", "Ratios.", "W", "content/20-wax/10-blends.md"),
    ]
    assert ElementTree.tostring(handbook.leaves[1].tree) == (
        b'<div><h2 id="lid">Lid</h2><p>On.</p></div>'
    )
    assert ElementTree.tostring(handbook.front) == (
        b'<div><p>See <a href="pots.md#lid">pots</a>.</p></div>'
    )


def test_each_text_is_parsed_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Five texts, one of them the front page, are five parses by one reader."""
    parsed: list[Markdown] = []
    convert = Markdown.convert

    def counted(self: Markdown, source: str) -> str:
        parsed.append(self)
        return convert(self, source)

    monkeypatch.setattr(Markdown, "convert", counted)
    shop = lay(tmp_path / "shop", {"pages/our-pot.md": OWN})
    content.read(catalog(shop), lay(tmp_path / "text", FILES))
    assert len(parsed) == 5
    assert len(set(map(id, parsed))) == 1


def test_a_byte_order_mark_and_windows_line_ends_change_nothing(tmp_path: Path) -> None:
    """A text saved by another editor gives the same tree."""
    plain = content.read(catalog(), lay(tmp_path / "a", FILES))
    folder = lay(tmp_path / "b", FILES)
    for path in folder.rglob("*.md"):
        path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    other = content.read(catalog(), folder)
    assert [ElementTree.tostring(one.tree) for one in plain.leaves] == [
        ElementTree.tostring(one.tree) for one in other.leaves
    ]


def test_all_faults_of_all_files_are_told_at_once_in_file_order(tmp_path: Path) -> None:
    """Head, text and link faults of front page, leaves and shop pages come together."""
    shop = lay(
        tmp_path / "shop",
        {
            "pages/a.md": "section: Q\nleaf: Q-01\ntitle: A\nsummary: A.\n\n[x](javascript:y)\n",
            "pages/pots.md": "section: H\nleaf: H-02\ntitle: B\nsummary: B.\n",
        },
    )
    files = FILES | {
        "front.md": "title: Trial\n\nSee [pots](pot.md).\n",
        "10-heat/10-pots.md": (
            "leaf: W-02\ntitel: Pots\nsummary: x\nsummary: y\n\n## Lid\n\n[[wax]]\n"
        ),
        "10-heat/20-irons.md": "leaf: H-02\ntitle: Irons\nsummary:\n\n\n/// caution | hott\n///\n",
    }
    assert told(lay(tmp_path / "text", files), shop) == [
        "content/front.md:3: link: found 'pot.md', accepted: a leaf, a heading of one, or an "
        "http, https or mailto address; did you mean 'pots.md'?",
        "content/10-heat/10-pots.md:1: title: found nothing, accepted: a head line that gives "
        "the title",
        "content/10-heat/10-pots.md:1: leaf: found 'W-02', accepted: a number such as H-07",
        "content/10-heat/10-pots.md:2: head: found 'titel: Pots', accepted: head lines (leaf, "
        "title, summary), then a blank line",
        "content/10-heat/10-pots.md:4: summary: found 'y', accepted: one summary in a head",
        "content/10-heat/10-pots.md:8: value: found 'wax', accepted: material:property, "
        "material:property@method, figure:id",
        "content/10-heat/20-irons.md:1: summary: found nothing, accepted: a head line that gives "
        "the summary",
        "content/10-heat/20-irons.md:6: part: found 'hott', accepted: an id of cautions.csv; "
        "did you mean 'hot'?",
        "pages/a.md:1: section: found 'Q', accepted: the letter of a section (H, W)",
        "pages/a.md:6: link: found 'javascript:y', accepted: a leaf, a heading of one, or an "
        "http, https or mailto address",
        "pages/pots.md:1: (file): found 'pots', accepted: a name of its own, "
        "content/10-heat/10-pots.md has it",
        "pages/pots.md:2: leaf: found 'H-02', accepted: a number of its own, "
        "content/10-heat/20-irons.md has it",
    ]


@pytest.mark.parametrize(
    ("name", "text", "fault"),
    [
        (
            "20-wax/section.md",
            "title: Wax\nletter: H\nsummary: x\n",
            "content/20-wax/section.md:2: letter: found 'H', accepted: a letter of its own, "
            "10-heat has it",
        ),
        (
            "20-wax/section.md",
            "title: Wax\nletter: wax\nsummary: x\n",
            "content/20-wax/section.md:2: letter: found 'wax', accepted: one capital letter",
        ),
        (
            "20-wax/section.md",
            "title: Wax\nletter: W\nsummary: x\n\nMore.\n",
            "content/20-wax/section.md:5: text: found 'More.', accepted: head lines only",
        ),
        (
            "30-more/10-x.md",
            "leaf: M-01\n",
            "content/30-more/section.md:1: (file): found nothing, accepted: this file, with its "
            "head lines",
        ),
        (
            "20-wax/notes.md",
            "leaf: W-09\ntitle: N\nsummary: N.\n",
            "content/20-wax/notes.md:1: (file): found 'notes.md', accepted: a name such as "
            "30-wax-blends.md",
        ),
        (
            "20-wax/30-index.md",
            "leaf: W-09\ntitle: N\nsummary: N.\n",
            "content/20-wax/30-index.md:1: (file): found 'index', accepted: a name of its own, "
            "a page of the build has it",
        ),
    ],
)
def test_a_fault_in_the_frame_of_the_handbook(
    tmp_path: Path, name: str, text: str, fault: str
) -> None:
    """A section, a file name or a number that does not fit is told with its file and line."""
    assert told(lay(tmp_path, FILES | {name: text})) == [fault]


def test_bytes_that_are_no_text_are_told_with_their_line(tmp_path: Path) -> None:
    """A file in another encoding is a fault on the line of its first wrong byte."""
    folder = lay(tmp_path, FILES)
    (folder / "20-wax/10-blends.md").write_bytes(b"leaf: W-01\ntitle: Gr\xfcn\n")
    assert told(folder) == [
        "content/20-wax/10-blends.md:2: (file): found 'bytes that are no text', "
        "accepted: UTF-8 text"
    ]


def test_the_handbook_of_the_trade_has_no_fault() -> None:
    """Every name, value and link of the real text is there, and every leaf says something."""
    handbook = content.read(load())
    assert len(handbook.leaves) >= 10
    for leaf in handbook.leaves:
        assert len(leaf.tree), leaf.file
        assert re.fullmatch(rf"{leaf.section.letter}-\d\d", leaf.number)


def test_every_caution_and_every_material_of_the_trade_has_its_place() -> None:
    """No caution stays in its table unread, and no material without its facts."""
    real = load()
    handbook = content.read(real)
    boxed = {one.get("id") for leaf in handbook.leaves for one in leaf.tree.iter("caution")}
    assert boxed == set(real.cautions)
    text = " ".join("".join(leaf.tree.itertext()) for leaf in handbook.leaves)
    assert [one.name for one in real.materials.values() if one.about not in text] == []
