"""Timbers, ornaments and skins that a border may ask about, found by the words one uses."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from counterhoop.errors import Finding, Grade
from counterhoop.job.trade.features import same_word
from counterhoop.sources import Source, load_table

CHECK = "Lists change and each country has its own: check what applies."
KINDS = ("timber", "ornament", "skin")
_SEVERAL = re.compile(r"\s*(?:[,;/+&]|\b(?:and|or|over|with|under)\b)\s*")
_GRADES = {grade.words: grade for grade in Grade}


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """One row of what a border may ask about; ``grade`` None for a word that is not listed."""

    kind: str
    names: tuple[str, ...]
    grade: Grade | None
    says: str
    remedy: str
    source: Source


@cache
def listed() -> tuple[Listed, ...]:
    """Return the packaged rows."""
    return tuple(
        Listed(
            kind=row.values["kind"],
            names=tuple(row.values["names"]),
            grade=_GRADES[row.values["grade"]] if row.values["grade"] else None,
            says=row.values["says"],
            remedy=row.values["remedy"],
            source=row.source,
        )
        for row in load_table("counterhoop.job.trade", "abroad.toml")
    )


def about(words: str, *, kind: str) -> tuple[Finding, ...]:
    """Return what a border may ask about a timber, ornament or skin.

    Each of several is looked up for itself, by the longest name in it: "African mahogany" is not
    taken for mahogany. One in which nothing is known is told too: no list here is whole.

    Parameters
    ----------
    words : str
        "maple and Indian rosewood", as written in the record.
    kind : str
        "timber", "ornament" or "skin".

    Examples
    --------
    >>> [(found.code, found.grade.words) for found in about("African mahogany", kind="timber")]
    [('abroad-timber', 'take care')]
    >>> about("birch", kind="timber")
    ()
    """
    each = (part for part in _SEVERAL.split(same_word(words)) if part)
    found = [one for part in each for one in _about_one(part, kind)]
    return tuple(sorted(found, key=lambda one: (-one.grade, one.says)))


def _about_one(part: str, kind: str) -> list[Finding]:
    rest, hits = part, list[Listed]()
    known = [(same_word(name), row) for row in listed() if row.kind == kind for name in row.names]
    for name, row in sorted(known, key=lambda one: (-len(one[0]), one[0])):
        rest, times = re.subn(rf"\b{re.escape(name)}s?\b", "|", rest)
        if times and row not in hits:
            hits.append(row)
    if hits:
        return [_finding(part, row, row.grade) for row in hits if row.grade is not None]
    return [
        Finding(
            code=f"abroad-{kind}-unknown",
            grade=Grade.TAKE_CARE,
            says=f"The {kind} {part} is in no row here; that says nothing of whether it is listed.",
            where=part,
            unit="",
            rule="the shop's table of what is listed",
            remedy=f"Find its botanical or animal name. {CHECK}",
        )
    ]


def _finding(part: str, row: Listed, grade: Grade) -> Finding:
    return Finding(
        code=f"abroad-{row.kind}",
        grade=grade,
        says=f"{part.capitalize()}: {row.says}.",
        where=part,
        unit="",
        rule=str(row.source),
        remedy=f"{row.remedy} {CHECK}",
    )
