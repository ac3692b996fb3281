"""The bench in dated sentences: in hand, late, waiting for glue, client or part, promised."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.what_waits import Bench, Line, what_waits
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.quantities.day import say_weekday

TODAY = "/today"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """One sentence on a job: where it leads, the words of the link, and the rest."""

    href: str
    job: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Sentences that answer one question."""

    ident: str
    heading: str
    lines: tuple[Sentence, ...]


def waits_data(shop: Workshop) -> dict[str, Any]:
    """Return what the sheet shows."""
    wrong, bench = "", Bench()
    try:
        bench = what_waits(shop)
    except BadInput as fault:
        wrong = str(fault)
    return {
        "today": say_weekday(clock_of(shop).date()),
        "groups": groups_of(bench),
        "working": bench.working,
        "failed": bench.failed,
        "hours_wrong": wrong,
    }


def groups_of(bench: Bench) -> tuple[Group, ...]:
    """Return the groups that have anything to say; what is late is not said twice."""
    late = set(bench.late)
    every = (
        ("now", "In hand", bench.now, TODAY),
        ("late", "Late, or likely to be", bench.late, "/price"),
        ("glue", "Waits on glue and paint", bench.waits_on_glue, ""),
        ("client", "Waits on a client", bench.waits_on_client, "/price"),
        ("part", "Waits on a part", bench.waits_on_part, "/parts"),
        ("unread", "Not known yet", bench.unread, ""),
        ("promised", "Promised", [one for one in bench.promised if one not in late], "/price"),
    )
    return tuple(
        Group(ident=ident, heading=heading, lines=tuple(_sentences(lines, end)))
        for ident, heading, lines, end in every
        if lines
    )


def _sentences(lines: Iterable[Line], end: str) -> Iterator[Sentence]:
    for one in lines:
        rest = one.says.removeprefix(one.title)
        yield Sentence(
            href=TODAY if end == TODAY or not one.job else f"/jobs/{one.job}{end}",
            job=one.title or "The workshop",
            says=rest if one.title and rest != one.says else f": {one.says}",
        )
