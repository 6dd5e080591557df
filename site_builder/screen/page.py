"""What the template of a page shows: it loops over these and reckons nothing."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup


@dataclass(frozen=True)
class Link:
    """A leaf as a link names it."""

    href: str
    number: str
    title: str
    summary: str = ""
    current: bool = False


@dataclass(frozen=True)
class Divider:
    """A section as a divider of the binder, with its leaves where they are to be shown."""

    letter: str
    title: str
    summary: str
    href: str
    links: list[Link]
    current: bool = False


@dataclass(frozen=True)
class Sheet:
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


@dataclass(frozen=True)
class Script:
    """A script by its address, or with its text."""

    address: str
    text: Markup


@dataclass(frozen=True)
class Page:
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
