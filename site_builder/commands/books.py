"""The commands of the books: what was made, what was tested, what stands on the label."""

from __future__ import annotations

import click

COMMANDS: tuple[click.Command, ...] = ()
