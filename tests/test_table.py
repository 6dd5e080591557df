"""The reader of tables: what spreadsheets write is read, and every fault names its cell."""

from __future__ import annotations

import pytest

from formulas import table

SCHEMA = {
    "schema": {
        "fields": [
            {"name": "blend", "type": "string", "constraints": {"required": True}},
            {"name": "material", "type": "string", "constraints": {"required": True}},
            {"name": "parts", "type": "number", "constraints": {"required": True, "minimum": 0}},
            {"name": "basis", "type": "string", "constraints": {"enum": ["measured", "memory"]}},
            {"name": "made", "type": "date"},
        ],
        "primaryKey": ["blend", "material"],
    }
}

PLAIN = "blend,material,parts,basis,made\nours,wax,4.5,measured,2026-01-31\nours,rosin,1,,\n"
EUROPEAN = (
    "\ufeffblend;material;parts;basis;made\r\n"
    "\r\n"
    ' ours ;"wax";4,5; measured;2026-01-31\r\n'
    ";;;;\r\n"
    "ours;rosin;1;;\r\n"
    "\r\n"
)
TABBED = (
    "# a remark\nblend\tmaterial\tparts\tbasis\tmade\n"
    "ours\twax\t4,5\tmeasured\t2026-01-31\nours\trosin\t1"
)


def read(tmp_path, text):
    """Read a text as a table and give its rows' cells and its faults as texts."""
    path = tmp_path / "blend_parts.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    faults = []
    rows = table.read(path, SCHEMA, faults)
    return [dict(row.cells) for row in rows], [str(fault) for fault in faults]


@pytest.mark.parametrize("text", [EUROPEAN, TABBED])
def test_a_spreadsheet_file_reads_as_the_plain_one(tmp_path, text):
    """Separator, decimal comma, byte order mark, line ends and blank lines make no difference."""
    assert read(tmp_path, text) == read(tmp_path, PLAIN)
    assert read(tmp_path, PLAIN)[1] == []
    assert read(tmp_path, PLAIN)[0][0]["parts"] == 4.5


def test_a_blank_cell_is_unknown(tmp_path):
    """A blank cell is None, never nought and never an empty text."""
    assert read(tmp_path, PLAIN)[0][1]["basis"] is None


FAULTS = [
    ("ours,wax,4;1,,", "parts: found '4;1', accepted: a number, 0 or more"),
    ("ours,wax,-1,,", "parts: found '-1', accepted: a number, 0 or more"),
    ("ours,wax,nan,,", "parts: found 'nan', accepted: a number, 0 or more"),
    ("ours,wax,1_0,,", "parts: found '1_0', accepted: a number, 0 or more"),
    ("ours,,1,,", "material: found nothing, accepted: a text"),
    (
        "ours,wax,1,mesured,",
        "basis: found 'mesured', accepted: one of measured, memory; did you mean 'measured'?",
    ),
    ("ours,wax,1,,31.1.2026", "made: found '31.1.2026', accepted: a date such as 2026-03-31"),
    ("ours,wax,1,,2026-02-30", "made: found '2026-02-30', accepted: a date such as 2026-03-31"),
    ("ours,wax,1,,,more", "(line): found 'more', accepted: 5 cells, as the header has"),
]


@pytest.mark.parametrize(("row", "said"), FAULTS)
def test_a_fault_names_its_cell(tmp_path, row, said):
    """The message has file, line, column, what was found and what is accepted."""
    _, faults = read(tmp_path, f"blend,material,parts,basis,made\n{row}\n")
    assert faults == [f"blend_parts.csv:2: {said}"]


def test_all_faults_come_together(tmp_path):
    """Nine faults in one file give nine messages, each with its own line."""
    rows = "\n".join(row.replace("ours", f"ours-{n}") for n, (row, _) in enumerate(FAULTS))
    _, faults = read(tmp_path, f"blend,material,parts,basis,made\n{rows}\n")
    assert faults == [
        f"blend_parts.csv:{line}: {said}" for line, (_, said) in enumerate(FAULTS, start=2)
    ]


def test_a_row_that_stands_twice(tmp_path):
    """A second row with the same key names the line of the first."""
    _, faults = read(tmp_path, PLAIN + "ours,wax,2,,\n")
    assert faults == [
        "blend_parts.csv:4: material: found 'wax', accepted: each once;"
        " 'wax' stands already on line 2"
    ]


def test_a_misspelt_column(tmp_path):
    """A column that is not ours is named with the one that is meant, and so is the lost one."""
    _, faults = read(tmp_path, "blend,materiel,parts\nours,wax,1\n")
    assert faults == [
        "blend_parts.csv:1: (header): found 'materiel', accepted: the columns blend, material,"
        " parts, basis, made; did you mean 'material'?",
        "blend_parts.csv:1: (header): found nothing, accepted: a column 'material'",
    ]


def test_an_empty_file(tmp_path):
    """A file with no header says which columns it wants."""
    assert read(tmp_path, "\n\n")[1] == [
        "blend_parts.csv:1: (header): found nothing, accepted: the columns blend, material, parts,"
        " basis, made"
    ]


def test_a_quote_left_open(tmp_path):
    """A quote that never closes is one fault on the line where it opens."""
    _, faults = read(tmp_path, PLAIN + 'ours,"oil,1\n')
    assert len(faults) == 1
    assert faults[0].startswith("blend_parts.csv:4: (line): ")


def test_a_file_that_is_no_text(tmp_path):
    """Bytes that are no UTF-8 are reported on their line, and nothing is guessed."""
    _, faults = read(tmp_path, b"blend,material,parts\nours,w\xe4x,1\n")
    assert faults == [
        "blend_parts.csv:2: (file): found 'bytes that are no text', accepted: UTF-8 text"
    ]


def test_the_line_is_the_one_an_editor_shows(tmp_path):
    """Blank lines, remarks and a cell over two lines are counted as an editor counts them."""
    text = '# remark\n\nblend,material,parts\n"ours\ntwice",wax,1\n\nours,wax,x\n'
    assert read(tmp_path, text)[1] == [
        "blend_parts.csv:7: parts: found 'x', accepted: a number, 0 or more"
    ]
