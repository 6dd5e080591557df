"""Pages that are read from a distance, as the file draws them: words and heights of letters."""

from __future__ import annotations

import dataclasses

import pypdfium2 as pdfium

from site_builder import content
from site_builder.paper import binder

POINTS_A_MM = 72 / 25.4
PLAIN = "EFHILTZ"  # capitals with flat ends: their box is the height of a capital


def printed_leaf(catalog, number):
    """Print one leaf and give its pages."""
    made = content.read(catalog)
    (leaf,) = [one for one in made.leaves if one.number == number]
    alone = dataclasses.replace(leaf.section, leaves=[leaf])
    book = dataclasses.replace(made, sections=[alone])
    first, last = binder.page_ranges(book)[number]
    document = pdfium.PdfDocument(binder.pdf(binder.written(book)))
    return [document[place] for place in range(first - 1, last)]


def page_with(pages, words):
    """Give the place and the words of the one page that holds some words."""
    read = [" ".join(page.get_textpage().get_text_range().split()) for page in pages]
    (at,) = [place for place, text in enumerate(read) if words in text]
    return at, read[at]


def capitals(page):
    """Give the height of every flat capital of a page in mm, without its running head and foot."""
    text = page.get_textpage()
    top, foot = page.get_height() - 22 * POINTS_A_MM, 20 * POINTS_A_MM
    heights = []
    for place, letter in enumerate(text.get_text_range()):
        if letter in PLAIN:
            _, low, _, high = text.get_charbox(place)
            if foot < low and high < top:
                heights.append((high - low) / POINTS_A_MM)
    return heights
