"""All codes that a finding can have, with what they mean."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from counterhoop.errors import Grade
from counterhoop.sources import Source, load_table


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueEntry:
    """One code of the catalogue.

    Attributes
    ----------
    code : str
        As it stands in a finding.
    says : str
        What it means, in one sentence.
    grades : tuple of Grade
        Grades that it can have, gravest first.
    rule : str
        Shop rule that decides, where one does.
    """

    code: str
    says: str
    grades: tuple[Grade, ...]
    rule: str
    source: Source


@cache
def catalogue() -> tuple[CatalogueEntry, ...]:
    """Return all codes, in the order in which the job meets them."""
    return codes_in("counterhoop.scheme")


def codes_in(package: str) -> tuple[CatalogueEntry, ...]:
    """Return the codes that a package's own table of findings lists."""
    words = {grade.words: grade for grade in Grade}
    return tuple(
        CatalogueEntry(
            code=row.values["code"],
            says=row.values["says"],
            grades=tuple(words[word] for word in row.values["grades"]),
            rule=row.values.get("rule", ""),
            source=row.source,
        )
        for row in load_table(package, "findings.toml")
    )
