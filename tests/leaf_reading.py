"""Reading a leaf as a person does: from the top down."""

from __future__ import annotations

from site_builder.content import Leaf
from site_builder.markup.elements import plain

READ = ("p", "li", "h2", "th")


def stands_before(leaf: Leaf, caution: str, words: str) -> bool:
    """Say whether a caution's box comes before the first place that holds these words."""
    order = list(leaf.tree.iter())
    box = next(place for place, one in enumerate(order) if one.get("id") == caution)
    steps = [
        place
        for place, one in enumerate(order)
        if one.tag in READ and words.lower() in plain(one).lower()
    ]
    assert steps, words
    return box < steps[0]
