"""Where the package's own files stand, in a wheel and in a checkout alike."""

from __future__ import annotations

from pathlib import Path

import formulas

HERE = Path(__file__).parent
TEMPLATES = HERE / "templates"
FORMULAS = Path(formulas.__path__[0])
TABLES = FORMULAS / "tables"

# A wheel carries the words inside the package; a checkout has them beside it.
CONTENT = next(
    (path for path in (HERE / "content", HERE.parent / "content") if (path / "front.md").is_file()),
    HERE.parent / "content",
)
DEMO_SHOP = CONTENT / "demo-shop"
INVENTED = "Demonstration shop: its name, people, stock, prices and records are invented."
