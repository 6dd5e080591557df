"""The text of a leaf while it still has lines: where its faults are found and placed."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from formulas.fault import CellFault

FENCE = re.compile(r"^(?P<fence>~{3,}|`{3,})[^\n`]*\n.*?(?<=\n)(?P=fence) *$", re.M | re.S)
SPAN = re.compile(r"(?<![\\`])(?P<ticks>`+)(?!`)(?:(?!\n[ >]*\n).)+?(?<!`)(?P=ticks)(?!`)", re.S)
OPENER = re.compile(r"^[ >]*(?P<slashes>/{3,}) *(?P<name>[\w-]+) *(?:\| *(?P<argument>.*?) *)?$")
CLOSER = re.compile(r"^[ >]*(?P<slashes>/{3,}) *$")
HEADING = re.compile(r"^(?P<marks>#{1,6})(?P<words>.*)$", re.M)
IMAGE = re.compile(r"(?<!\\)!\[[^\]\n]*\]\([^)\n]*\)?")
NOTE = re.compile(r"(?<![!\\])\[\^(?P<name>[^\]\n]+)\](?P<defines>:?)")
ITEM = re.compile(r"^ *(?:[-*+]|\d+\.) +\S")
HEAD_LINE = re.compile(r"(?P<key>[A-Za-z][\w-]*): *(?P<words>.*)")
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
DEEPEST = 4


@dataclass
class Placed:
    """A part as it stands in the text: its name, its argument, its first line, what it holds."""

    name: str
    argument: str
    line: int
    slashes: int
    inside: list[str] = field(default_factory=list)


@dataclass
class SourceText:
    """A text of a handbook file with its code blanked out, and the faults found in it so far."""

    file: str
    raw: str
    faults: list[CellFault] = field(default_factory=list)
    text: str = ""

    def __post_init__(self) -> None:
        text = self.raw.replace("\r\n", "\n").replace("\r", "\n").expandtabs(4)
        self.raw = CONTROL.sub("", text)
        self.text = SPAN.sub(_blank, FENCE.sub(_blank, self.raw))

    def fault(self, line: int, column: str, found: str, accepted: str, also: str = "") -> None:
        """Note one fault; the same fault twice on one line counts once."""
        made = CellFault(self.file, line, column, found, accepted, also)
        if str(made) not in map(str, self.faults):
            self.faults.append(made)

    def line(self, position: int) -> int:
        """Give the line an editor shows for a position in the text."""
        return self.text.count("\n", 0, position) + 1

    def lines_of(self, words: str) -> list[int]:
        """Give every line on which these words stand by themselves, or at least the first one."""
        alone = re.compile(rf"(?<![\w.#/:-]){re.escape(words)}(?![\w.#/:-])")
        found = [self.line(match.start()) for match in alone.finditer(self.text)] if words else []
        return found or [self.line(max(0, self.text.find(words or "]()")))]

    def line_with(self, words: str) -> int:
        """Give the first line that holds these words, code or not."""
        lines = self.raw.split("\n")
        return next((line for line, text in enumerate(lines, start=1) if words in text), 1)

    def check(self) -> None:
        """Check what needs no table: headings, footnotes, pictures."""
        self._check_headings()
        self._check_notes()
        for match in IMAGE.finditer(self.text):
            self.fault(self.line(match.start()), "link", match[0], "a part that draws the picture")

    def _check_headings(self) -> None:
        above = 1
        for match in HEADING.finditer(self.text):
            level, words = len(match["marks"]), match["words"].strip("# ")
            line = self.line(match.start())
            if not words:
                self.fault(line, "heading", match[0], "## and the words of the heading")
            elif not 2 <= level <= min(DEEPEST, above + 1):  # the head gives 1
                marks = " or ".join("#" * deep for deep in range(2, min(DEEPEST, above + 1) + 1))
                self.fault(line, "heading", f"{match['marks']} {words}", f"{marks} here")
            above = max(2, min(level, DEEPEST))

    def _check_notes(self) -> None:
        found = NOTE.finditer(self.text)
        marks = [(match["name"], match["defines"], match.start()) for match in found]
        defined = {name for name, defines, _ in marks if defines}
        used = {name for name, defines, _ in marks if not defines}
        for name, defines, position in marks:
            if not re.fullmatch(r"[\w-]+", name):
                self.fault(self.line(position), "footnote", name, "a name of letters and digits")
            elif not defines and name not in defined:
                self.fault(
                    self.line(position),
                    "footnote",
                    f"[^{name}]",
                    f"a mark with its [^{name}]: text",
                )
            elif defines and name not in used:
                self.fault(
                    self.line(position),
                    "footnote",
                    f"[^{name}]:",
                    f"a note that [^{name}] in the text points at",
                )

    def placed(self) -> list[Placed]:
        """Give every part placed in the text, in order; note those left open or closed twice."""
        found: list[Placed] = []
        opened: list[Placed] = []
        for line, words in enumerate(self.text.split("\n"), start=1):
            opener, closer = OPENER.match(words), CLOSER.match(words)
            if opener:
                argument = opener["argument"] or ""
                made = Placed(opener["name"].lower(), argument, line, len(opener["slashes"]))
                self._check_nesting(made, opened)
                found.append(made)
                opened.append(made)
            elif closer and opened and opened[-1].slashes == len(closer["slashes"]):
                opened.pop()
            elif closer:
                self.fault(line, "part", closer["slashes"], "this many slashes after an open part")
            elif opened and words.strip():
                opened[-1].inside.append(words)
        for left in opened:
            self.fault(left.line, "part", left.name, f"a part closed by {'/' * left.slashes}")
        return found

    def _check_nesting(self, inner: Placed, opened: list[Placed]) -> None:
        if opened and opened[-1].slashes <= inner.slashes:
            outer = opened[-1]
            self.fault(outer.line, "part", outer.name, f"a part closed by {'/' * outer.slashes}")
            opened.pop()


def _blank(match: re.Match[str]) -> str:
    return re.sub(r"[^\n]", " ", match[0])


def head(
    text: str, source: SourceText, needed: tuple[str, ...], also: tuple[str, ...] = ()
) -> tuple[dict[str, str], str]:
    """Split the head lines off a file; the text keeps its lines, the head's are left blank.

    The head is every line down to the first blank one, each `key: words`.
    """
    lines = text.split("\n")
    end = next((count for count, words in enumerate(lines) if not words.strip()), len(lines))
    found: dict[str, str] = {}
    keys = ", ".join([*needed, *also])
    for line, words in enumerate(lines[:end], start=1):
        match = HEAD_LINE.fullmatch(words.strip())
        key = match["key"].lower() if match else ""
        if not match or key not in (*needed, *also):
            source.fault(line, "head", words.strip(), f"head lines ({keys}), then a blank line")
        elif key in found:
            source.fault(line, key, match["words"], f"one {key} in a head")
        else:
            found[key] = match["words"].strip()
    for key in needed:
        if not found.get(key):
            source.fault(1, key, "", f"a head line that gives the {key}")
    return found, "\n".join([""] * end + lines[end:])
