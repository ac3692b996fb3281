"""Arguments in, text out: the commands of Counterhoop."""

from __future__ import annotations

from counterhoop.cli.commands import main

__all__ = ["main"]
