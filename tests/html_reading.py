"""Reads a page as a browser's parser would: its elements, its text, its ids and its addresses."""

from __future__ import annotations

from html.parser import HTMLParser

VOID = {"br", "hr", "input", "link", "meta", "wbr"}
NAMING = ("for", "list", "headers", "aria-labelledby", "aria-describedby", "aria-controls")


class Reading(HTMLParser):
    """The elements of a page in order, what is open, and the text outside scripts and styles."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.open: list[str] = []
        self.texts: list[str] = []
        self.scripts: list[str] = []
        self.faults: list[str] = []
        self.feed(text)
        self.close()
        self.faults += [f"<{tag}> is never closed" for tag in self.open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.elements.append((tag, {name: value or "" for name, value in attrs}))
        if len({name for name, _ in attrs}) != len(attrs):
            self.faults.append(f"<{tag}> has an attribute twice")
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Close an element; one that does not fit is a fault."""
        if not self.open or self.open[-1] != tag:
            self.faults.append(f"</{tag}> closes {self.open[-1:]}")
        else:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        """Note a text."""
        inside = self.open[-1] if self.open else ""
        if inside == "script":
            self.scripts.append(data)
        elif inside != "style":
            self.texts.append(data)

    @property
    def text(self) -> str:
        """The text of the page."""
        return "".join(self.texts)

    @property
    def tags(self) -> set[str]:
        """The names of the elements."""
        return {tag for tag, _ in self.elements}

    def values(self, name: str) -> list[str]:
        """Give every value of one attribute."""
        return [attributes[name] for _, attributes in self.elements if name in attributes]

    def named(self, tag: str) -> list[dict[str, str]]:
        """Give the attributes of every element of one name."""
        return [attributes for found, attributes in self.elements if found == tag]

    @property
    def references(self) -> list[str]:
        """Every id that some element names as belonging to it."""
        return [one for name in NAMING for value in self.values(name) for one in value.split()]
