"""What the template of a page shows: it loops over these and reckons nothing."""

from __future__ import annotations

from markupsafe import Markup

from formulas.frozen import Frozen


class Link(Frozen):
    """A leaf as a link names it."""

    href: str
    number: str
    title: str
    summary: str = ""
    current: bool = False


class Divider(Frozen):
    """A section as a divider of the binder, with its leaves where they are to be shown."""

    letter: str
    title: str
    summary: str
    href: str
    links: list[Link]
    current: bool = False


class Sheet(Frozen):
    """One leaf as the template shows it; after the opening words of the front come the contents."""

    anchor: str
    number: str
    place: str
    title: str
    summary: str
    revision: str
    level: int
    body: Markup
    opening: Markup | None = None
    previous: Link | None = None
    next: Link | None = None


class Script(Frozen):
    """A script by its address, or with its text."""

    address: str
    text: Markup


class Page(Frozen):
    """One file as the template shows it."""

    title: str
    book: str
    listed: str
    searched: bool
    paper: str
    shop: str
    notice: str
    home: str
    number: str
    key: str
    whole: bool
    mark: str
    style: Markup
    marks: list[tuple[str, str]]
    menu: list[Divider]
    contents: list[Divider]
    sheets: list[Sheet]
    scripts: list[Script]
