"""Show an answer on a terminal: as text or as JSON, its cautions always on standard error."""

from __future__ import annotations

import importlib
import json
import sys

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.words import wrapped


def show(answer: Answer, catalog: Catalog, as_json: bool) -> None:
    """Print an answer, then its cautions on standard error, so that a pipe hides none.

    The text of a command stands in the module of its name in `site_builder.texts`.
    """
    if as_json:
        print(json.dumps(answer.as_json(), indent=2, ensure_ascii=False))
    else:
        texts = importlib.import_module(f"site_builder.texts.{answer.command.replace('-', '_')}")
        print("\n".join(texts.text(answer, catalog)))
    if answer.cautions:
        print("\n".join(cautions(answer)), file=sys.stderr)


def cautions(answer: Answer) -> list[str]:
    """Give the lines of an answer's cautions."""
    lines = ["", "CAUTION"]
    for caution in answer.cautions:
        codes = f" [{' '.join(caution.codes)}]" if caution.codes else ""
        lines.append(wrapped(f"! {caution.title}{codes}", "  "))
    lines.append("  What to do about each stands in the handbook's safety section.")
    return lines
