"""All codes that a finding before posting can have, with what they mean."""

from __future__ import annotations

from functools import cache

from counterhoop.errors import Grade
from counterhoop.scheme.findings.catalogue import CatalogueEntry
from counterhoop.sources import load_table


@cache
def posting_codes() -> tuple[CatalogueEntry, ...]:
    """Return all codes; no shop rule decides any of them."""
    words = {grade.words: grade for grade in Grade}
    return tuple(
        CatalogueEntry(
            code=row.values["code"],
            says=row.values["says"],
            grades=tuple(words[word] for word in row.values["grades"]),
            rule="",
            source=row.source,
        )
        for row in load_table("counterhoop.job.trade", "findings.toml")
    )
