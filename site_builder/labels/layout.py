"""One label laid out in millimetres: its pieces fill it from the top, column by column.

Every letter of the label's type is equally wide, so that lines are broken here and no word can
run over the edge. Type is never made smaller: what has no room is said to have none.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from formulas.frozen import Frozen
from site_builder.labels.piece import BOLD, HELD, TO_WRITE, Piece
from site_builder.labels.sheets import Sizes

# Of the type that labels are set in, DejaVu Sans Mono, in parts of its size.
ADVANCE, ABOVE_BASELINE = 1233 / 2048, 0.78
LARGE = 1.3  # name and signal word, in sizes of the rest
COLUMN_MM, BETWEEN_COLUMNS_MM = 60.0, 3.0  # a line of more letters than a column's is hard to read
BESIDE_MM = 1.5  # between a pictogram and the words beside it
NARROWEST_MM = 26.0  # beside pictograms; where less is left the words begin below them
GAP_MM = 0.4  # between paragraphs
AIR_MM = (1.0, 0.5)  # more below lines to write on, as much of it as a label has room for
SHORTEST_RULE_MM = 14.0  # less is no room to write in
NEARLY_MM = 1e-9

# Kinds that share a paragraph, with what stands between them.
TOGETHER = {
    **dict.fromkeys(("batch", "date", "wax", "amount", "filled", "use-by", "place"), "id"),
    "hazard": "hazard",
    "supplement": "supplement",
    "precaution": "precaution",
}
BETWEEN = {"id": "·", "hazard": "", "supplement": "", "precaution": ""}
Run = tuple[str, bool]


class Words(Frozen):
    """Lines of one paragraph in one column: the first baseline, the size and the pitch."""

    x: float
    y: float
    size: float
    pitch: float
    lines: tuple[tuple[Run, ...], ...]


class Rule(Frozen):
    """A line to write on."""

    x: float
    y: float
    width: float


class Sign(Frozen):
    """A pictogram: its box from tip to tip."""

    name: str
    x: float
    y: float
    width: float


@dataclass
class Laid:
    """A label laid out, from its upper left corner, and the pieces that were left off."""

    width: float
    height: float
    words: list[Words] = field(default_factory=list)
    rules: list[Rule] = field(default_factory=list)
    signs: list[Sign] = field(default_factory=list)
    left_off: list[Piece] = field(default_factory=list)


class _Full(Exception):
    """No room is left on the label."""


@dataclass
class _Filling:
    """A label being filled from the top, column by column."""

    made: Laid
    kept: Sizes
    columns: list[tuple[float, float]]
    beside: tuple[float, float]  # the width that the pictograms take, and where they end
    air: float = 0.0
    column: int = 0
    y: float = 0.0

    def line(self, height: float) -> tuple[float, float, float]:
        """Take a line: give its left end, its upper edge and its width."""
        if self.y + height > self.made.height - self.kept.rim + NEARLY_MM:
            self.column, self.y = self.column + 1, self.kept.rim
        if self.column == len(self.columns) or height > self.made.height - 2 * self.kept.rim:
            raise _Full
        x, width = self.columns[self.column]
        taken, end = self.beside
        free = width - taken if self.column == 0 and self.y < end else width
        top = self.y
        self.y += height
        return x, top, free

    def gap(self) -> None:
        """Leave a little room before the next paragraph, but none at the head of a column."""
        if self.y > self.kept.rim:
            self.y += GAP_MM


def tried(
    pieces: Sequence[Piece],
    signs: Sequence[str],
    size: tuple[float, float],
    kept: Sizes,
    air: float = 0.0,
) -> Laid | None:
    """Lay out just these pieces, with more air below lines to write on; None without room."""
    width, height = size
    made = Laid(width, height)
    filling = _Filling(made, kept, _columns(width, kept.rim), (0.0, 0.0), air, y=kept.rim)
    try:
        _set_signs(filling, signs)
        for block in _blocks(pieces):
            _whole(filling, block)
    except _Full:
        return None
    return made


def _columns(width: float, rim: float) -> list[tuple[float, float]]:
    inner = width - 2 * rim
    count = max(1, int(inner // COLUMN_MM))
    each = (inner - (count - 1) * BETWEEN_COLUMNS_MM) / count
    return [(rim + place * (each + BETWEEN_COLUMNS_MM), each) for place in range(count)]


def _set_signs(filling: _Filling, signs: Sequence[str]) -> None:
    """Set the pictograms side by side into the upper right corner of the first column."""
    if not signs:
        return
    made, kept = filling.made, filling.kept
    wide = kept.pictogram(made.width, made.height)
    x, width = filling.columns[0]
    if len(signs) * wide > width or wide > made.height - 2 * kept.rim + NEARLY_MM:
        raise _Full
    for place, name in enumerate(reversed(signs), start=1):
        made.signs.append(Sign(name, x + width - place * wide, kept.rim, wide))
    taken = len(signs) * wide + BESIDE_MM
    if width - taken < NARROWEST_MM:
        filling.y = kept.rim + wide + GAP_MM
    else:
        filling.beside = (taken, kept.rim + wide)


def _paragraphs(pieces: Sequence[Piece]) -> Iterator[list[Piece]]:
    """Give the pieces that stand together; lines to write on stand apart from words."""

    def shared(piece: Piece) -> tuple[str, bool]:
        return TOGETHER.get(piece.kind, f"{piece.kind} {piece.text}"), piece.style == TO_WRITE

    for _, group in itertools.groupby(pieces, key=shared):
        yield list(group)


def _blocks(pieces: Sequence[Piece]) -> Iterator[list[list[Piece]]]:
    """Give the paragraphs that stay together: the signal word with the hazard below it."""
    waiting: list[list[Piece]] = []
    for group in _paragraphs(pieces):
        waiting.append(group)
        if group[0].kind != "signal":
            yield waiting
            waiting = []
    if waiting:
        yield waiting


def _whole(filling: _Filling, block: Sequence[Sequence[Piece]]) -> None:
    """Set a block into one column where a column holds it, else over two."""
    made, column, y = filling.made, filling.column, filling.y
    counts = len(made.words), len(made.rules)
    _set(filling, block)
    if filling.column == column or y == filling.kept.rim:
        return
    if filling.column > column + 1 or column + 1 == len(filling.columns):
        return
    del made.words[counts[0] :], made.rules[counts[1] :]
    filling.column, filling.y = column + 1, filling.kept.rim
    _set(filling, block)


def _set(filling: _Filling, block: Sequence[Sequence[Piece]]) -> None:
    for group in block:
        filling.gap()
        if any(piece.style == TO_WRITE for piece in group):
            _ruled(filling, group)
            filling.y += filling.air
        else:
            _worded(filling, group)


def _ruled(filling: _Filling, group: Sequence[Piece]) -> None:
    """Rule a line to write on behind each piece's words, side by side where there is room."""
    waiting = list(group)
    size, height = filling.kept.type_size, filling.kept.writing
    while waiting:
        x, top, width = filling.line(height)
        each = width / len(waiting)
        if min(each - _wide(piece.text, size) for piece in waiting) < SHORTEST_RULE_MM:
            row, each = [waiting.pop(0)], width
        else:
            row, waiting = waiting, []
        for place, piece in enumerate(row):
            start, words = x + place * each, _wide(f"{piece.text} ", size)
            if each - words < SHORTEST_RULE_MM:
                raise _Full
            base = top + height - 0.6
            runs = ((piece.text, False),)
            filling.made.words.append(Words(start, base, size, height, (runs,)))
            filling.made.rules.append(Rule(start + words, base, each - words - 1.0))


def _worded(filling: _Filling, group: Sequence[Piece]) -> None:
    """Break the words of a paragraph into lines, each as wide as its place allows."""
    large = group[0].kind in {"name", "signal"}
    scale = LARGE if large else 1.0
    size, pitch = filling.kept.type_size * scale, filling.kept.line * scale
    between = BETWEEN.get(TOGETHER.get(group[0].kind, ""), " ")
    waiting = _words(group, between)
    block: list[tuple[Run, ...]] = []
    start = (0.0, 0.0)
    while waiting:
        x, top, width = filling.line(pitch)
        line = _taken(waiting, int((width + NEARLY_MM) / (ADVANCE * size)))
        base = top + (pitch - size) / 2 + ABOVE_BASELINE * size
        if block and x != start[0]:
            filling.made.words.append(Words(*start, size, pitch, tuple(block)))
            block = []
        if not block:
            start = (x, base)
        block.append(line)
    filling.made.words.append(Words(*start, size, pitch, tuple(block)))


def _words(group: Sequence[Piece], between: str) -> list[Run]:
    """Give the words of a paragraph with what follows each, bold or not."""
    found: list[Run] = []
    for place, piece in enumerate(group):
        if place and between:
            word, bold = found.pop()
            found.append((f"{word}{HELD}{between}", bold))
        found += [(word, piece.style == BOLD) for word in piece.text.split(" ") if word]
    return found


def _taken(waiting: list[Run], letters: int) -> tuple[Run, ...]:
    """Take as many words off the list as a line of so many letters holds.

    A word longer than the line is broken where the line ends.
    """
    if letters < 2:
        raise _Full
    runs: list[Run] = []
    used = 0
    while waiting:
        word, bold = waiting[0]
        needed = len(word) + (1 if runs else 0)
        if used + needed > letters:
            break
        waiting.pop(0)
        _add(runs, f" {word}" if runs else word, bold)
        used += needed
    if not runs:
        word, bold = waiting[0]
        waiting[0] = (word[letters:], bold)
        runs.append((word[:letters], bold))
    return tuple(runs)


def _add(runs: list[Run], text: str, bold: bool) -> None:
    if runs and runs[-1][1] == bold:
        text = runs.pop()[0] + text
    runs.append((text, bold))


def _wide(text: str, size: float) -> float:
    return len(text) * ADVANCE * size


def extent(made: Laid) -> Iterable[tuple[float, float, float, float]]:
    """Give the box of every line of words: left, top, right and bottom, in millimetres."""
    for words in made.words:
        for place, runs in enumerate(words.lines):
            base = words.y + place * words.pitch
            wide = sum(_wide(text, words.size) for text, _ in runs)
            top = base - ABOVE_BASELINE * words.size
            yield words.x, top, words.x + wide, top + words.size
