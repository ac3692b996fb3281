"""Whether a job is handed over: it is from the day that its hand-over names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from counterhoop.bench.folders.days import day_written
from counterhoop.quantities.day import say_day


def is_handed_over(table: Mapping[str, Any]) -> bool:
    """Tell whether the hand-over names a day."""
    return day_written(table.get("handed_over")) is not None


def handed_says(table: Mapping[str, Any]) -> str:
    """Return when a job was handed over, and to whom.

    Examples
    --------
    >>> handed_says({"handed_over": "2030-05-17", "to": "Nell"}), handed_says({})
    ('Handed over on 17 May 2030 to Nell.', 'Not handed over yet.')
    >>> handed_says({"handed_over": "next week"})
    'Not handed over yet: “next week” is no day that has been.'
    """
    typed, to = table.get("handed_over"), table.get("to")
    day = day_written(typed)
    if day is None:
        wrong = f": “{typed}” is no day that has been" if isinstance(typed, str) and typed else ""
        return f"Not handed over yet{wrong}."
    return f"Handed over on {say_day(day)}{f' to {to}' if isinstance(to, str) and to else ''}."
