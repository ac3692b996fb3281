"""The workshop's own limits, minutes, prices and stock: what can be read serves, line by line."""

from __future__ import annotations

import copy
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final

from counterhoop.bench.folders.folder import Kept
from counterhoop.bench.folders.kinds import RULES
from counterhoop.bench.folders.own_book import TITLE, own_book
from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.faults import BadSurvey
from counterhoop.shell.survey_file.lines import path_of

if TYPE_CHECKING:
    from counterhoop.bench.open_job import OpenJob

FIGURES: Final = ("rules", "minutes", "cure", "prices", "stock")
MOST_TRIES = 40
ANY_DRUM: Final = {"-": {"circumference": "951 mm", "depth": "203 mm", "wall": "5 mm"}}
"""Figures are read as those of a job, and a job has a drum."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnFigures:
    """What the workshop says of its own figures.

    Attributes
    ----------
    table : dict
        Those that can be read, by table and name, as typed.
    faults : tuple of BadInput
        Why others cannot; ``where`` is table and name ("rules.web").
    """

    table: dict[str, Any] = field(default_factory=dict)
    faults: tuple[BadInput, ...] = ()


def own_figures(shop: Mapping[str, Kept], *, books: Mapping[str, str] | None = None) -> OwnFigures:
    """Return the workshop's own figures out of its drawer.

    Parameters
    ----------
    shop : mapping of str to Kept
        The workshop's own documents.
    books : mapping of str to str
        Fittings books that a job brings along; prices and stock may name their entries.
    """
    own = own_book(shop).text
    every = ({TITLE: own} if own else {}) | dict(books or {})
    found = _read(json.dumps(shop.get(RULES, Kept()).table), tuple(every.items()))
    # The caller may write into it.
    return OwnFigures(table=copy.deepcopy(found.table), faults=found.faults)


def faults_in_figures(body: Mapping[str, Any], *, shop: Mapping[str, Kept]) -> tuple[BadInput, ...]:
    """Return what cannot be read of a body that is to be kept."""
    return own_figures({**shop, RULES: Kept(body=dict(body))}).faults


def open_with(shop: Mapping[str, Kept]) -> OpenJob:
    """Return a job of any drum, opened with the figures and the book that serve now."""
    from counterhoop.bench.open_job import opened_tables

    own = own_book(shop).text
    return opened_tables(_tables(own_figures(shop).table), books={TITLE: own} if own else {})


def _tables(own: Mapping[str, Any]) -> dict[str, Any]:
    return {"format": 1, "job": {"number": "-"}, "drums": copy.deepcopy(ANY_DRUM), **own}


@lru_cache(maxsize=32)
def _read(body: str, books: tuple[tuple[str, str], ...]) -> OwnFigures:
    from counterhoop.bench.open_job import opened_tables

    written = json.loads(body)
    own: dict[str, Any] = {name: written[name] for name in FIGURES if written.get(name)}
    faults: dict[str, BadInput] = {}
    for _ in range(MOST_TRIES):
        if not own:
            break
        try:
            opened_tables(_tables(copy.deepcopy(own)), books=dict(books))
        except BadInput as found:
            new = found.faults if isinstance(found, BadSurvey) else (found,)
            gone = [one for one in new if _leave_out(own, one)]
            faults |= {str(one): one for one in gone}
            if not gone:
                # A book that a job brought along: the job says so itself.
                break
        else:
            break
    return OwnFigures(table=own, faults=tuple(faults.values()))


def _leave_out(own: dict[str, Any], fault: BadInput) -> bool:
    """Take the line out that a fault speaks of, or its table; tell whether there was one."""
    table = fault.where.partition(".")[0].partition("[")[0]
    if table not in own:
        return False
    lines = own[table]
    named = [
        name
        for name in (lines if isinstance(lines, dict) else {})
        if fault.where == path_of((table, name)) or (fault.where == table and fault.given == name)
    ]
    for name in named:
        del lines[name]
    if not named or not lines:
        del own[table]
    return True
