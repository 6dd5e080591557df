"""What a book of leaves is called, and what stands on its title page."""

from __future__ import annotations

from formulas.frozen import Frozen

ABOUT = (
    "A bench handbook for the repair of free-reed instruments: what the materials are, what can "
    "go wrong with them, and how to reckon a batch.",
    "Each leaf does one job and carries its own number, and its pages are counted inside the "
    "leaf. Every leaf starts on a right-hand page: take one out, put its new print in, and no "
    "other leaf changes.",
)
DEFERRAL = (
    "The law where you work, the safety data sheet of the material in your hand and a doctor's "
    "advice come before anything printed here. Where one of them says otherwise, follow it.",
    "This book certifies nothing and replaces no training.",
)


class Cover(Frozen):
    """The words on and around a book: its name, its title page, its front leaf, its menu.

    `about` stands on the title page, `under` below its name, `headed` over the front page on
    screen. `searched` is a book with an index to search and one file of everything. A book of
    one side is small: its title and its contents share a page. `paper` is the file to print that
    the front page on screen names. `marked` is a book whose numbers carry the mark of their basis;
    `mark` stands in the keywords of a book of one file, which is then known as ours.
    """

    book: str = "Shop handbook"
    front: str = "What this handbook is for"
    under: str = ""
    headed: str = ""
    about: tuple[str, ...] = ABOUT
    deferral: tuple[str, ...] = DEFERRAL
    revision: str = ""
    menu: str = "Sections and leaves"
    searched: bool = True
    sides: int = 2
    paper: str = ""
    marked: bool = True
    mark: str = ""
