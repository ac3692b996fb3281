"""The shelf: find pieces, put them on it, move them, print their labels."""

from __future__ import annotations

import typer

shelf_app = typer.Typer(
    help="The shelf of parts: find, show, put on, move, labels.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip
