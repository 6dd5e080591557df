"""The names of elements and attributes that a page may hold; whatever is not here is refused."""

from __future__ import annotations


def _names(text: str) -> frozenset[str]:
    return frozenset(text.split())


EMPTY = _names("br hr input")
BLOCKS = _names("p ul ol dl table pre div blockquote figure caution math working")

# Written as they stand; what a working's form is made of stands among them.
PLAIN = _names(
    "em strong sub span small abbr var kbd br hr ul ol dl dt blockquote section caption noscript "
    "form fieldset legend label input select optgroup option button output textarea details summary"
)

DRAWN = _names(
    "svg g path line polyline polygon rect circle ellipse text tspan title desc "
    "defs pattern clipPath marker linearGradient stop"
)

# Attributes that hold ids of the same leaf.
REFERENCES = _names("for list headers aria-labelledby aria-describedby aria-controls aria-details")

ATTRIBUTES = REFERENCES | _names(
    # of text and tables
    "id class title lang start role tabindex colspan rowspan scope align "
    # of forms
    "value name type placeholder size rows cols inputmode autocomplete spellcheck checked selected "
    "disabled readonly required multiple hidden label open maxlength novalidate "
    # of drawings
    "viewBox x y x1 y1 x2 y2 cx cy r rx ry d dx dy points width height fill fill-opacity fill-rule "
    "stroke stroke-width stroke-dasharray stroke-linecap stroke-linejoin stroke-opacity opacity "
    "transform text-anchor dominant-baseline font-size font-family font-weight font-style "
    "clip-path offset stop-color stop-opacity patternUnits patternTransform gradientUnits "
    "markerWidth markerHeight refX refY orient marker-end marker-start paint-order"
)
