"""Rows of a quote put together, so that a paper is read and not searched."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from counterhoop.job.price.in_one import OF_RULES
from counterhoop.job.price.line import Kind
from counterhoop.job.price.sums import Row, Sums

Naming = Callable[[Row], str]
"""What a row is put under; empty leaves it as it is."""
OTHERS = "the other drums"


def rows_gathered(sums: Sums, under: Naming) -> Sums:
    """Return sums whose rows are put together by what they are put under.

    The rows of one name become one row at the place of the first, net, tax and gross added in
    whole coins: the sums stay what they were.
    """
    rows: dict[str, Row] = {}
    for row in sums.rows:
        name = under(row)
        key = f"together: {name}" if name else row.key
        kept = rows.get(key)
        if kept is not None:
            rows[key] = replace(kept, figures=kept.figures + row.figures)
        else:
            rows[key] = replace(row, key=key, says=name, count=1) if name else row
    return replace(sums, rows=tuple(rows.values()))


def one_drum(drum_id: str, *, name: str, others: set[str]) -> Naming:
    """Put the work of one drum together, and everything of the others; its parts stay apart.

    What is put on all work differs by way only for the work of this drum, and stands with it.
    """
    work = f"{name}: work" if others else "work"

    def under(row: Row) -> str:
        if _drum(row) in others:
            return OTHERS
        if row.key.startswith(OF_RULES):
            return work
        return work if _drum(row) == drum_id and row.kind is Kind.WORK else ""

    return under


def _drum(row: Row) -> str:
    drum, slash, _ = row.key.partition("/")
    return drum if slash else ""
