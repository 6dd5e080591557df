"""The terminal text of `label --jar`: that of any label."""

from site_builder.texts.label import text as text
