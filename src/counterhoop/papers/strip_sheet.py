"""The strip-down sheet of a drum: what should come off it, to be counted and ticked."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

from counterhoop.papers.facts import count, facts_of, foot_facts, sheet_for
from counterhoop.papers.facts import labels as places_said
from counterhoop.papers.job_facts import dated
from counterhoop.papers.printable import set_readable
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.rows_of_places import rows_of_places
from counterhoop.parts.spares import Spare
from counterhoop.parts.strip_down import StripDown
from counterhoop.parts.ticked import Counted, count_off
from counterhoop.shell.job import Job


def strip_sheet_pdf(
    job: Job, stripped: StripDown, *, counted: Sequence[Counted] | None = None,
    spares: Sequence[Spare] = (), counted_on: dt.date | None = None, paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the strip-down sheet of a drum.

    Parameters
    ----------
    job : Job
        Whose names are printed.
    stripped : StripDown
        What should come off.
    counted : sequence of Counted, optional
        What was ticked already is printed; otherwise all boxes are empty.
    spares : sequence of Spare
        What goes with the drum in a bag.
    counted_on : date, optional
        The day of the latest tick; without one the sheet bears the survey's date.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="strip-down sheet", drum=stripped.drum),
        **strip_data(job, stripped, counted=counted, spares=spares, counted_on=counted_on),
    }
    return set_readable("strip_sheet", data, title=f"Strip-down of the {stripped.drum}")


def strip_data(
    job: Job, stripped: StripDown, *, counted: Sequence[Counted] | None = None,
    spares: Sequence[Spare] = (), counted_on: dt.date | None = None,
) -> dict[str, Any]:  # fmt: skip
    """Return what the sheet says, as plain data."""
    facts = facts_of(job)
    lines = tuple(counted) if counted is not None else count_off(stripped, ())
    pieces = sum(line.count for line in stripped.lines)
    return {
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("drum", stripped.drum),
            ("paper", "strip-down sheet"),
            ("should come off", count(pieces, "piece")),
            dated(facts, counted_on),
        ),
        "sorts": [_sort(sort, lines) for sort in stripped.sorts()],
        "places": _places(lines),
        "unsaid": stripped.unsaid,
        "spares": [{"count": one.count, "piece": one.sort.piece} for one in spares],
    }


def _sort(sort: Sort, lines: Sequence[Counted]) -> dict[str, Any]:
    """Return a row of the table by sorts; a count of nothing leaves its box empty."""
    alike = [one for one in lines if one.expected.sort == sort]
    whole = all(one.found is not None for one in alike)
    gone = sum(one.expected.count for one in alike if one.expected.lost)
    figures = (
        sum(one.found or 0 for one in alike) if whole and not (gone and _untouched(alike)) else "",
        sum(one.spoilt for one in alike) or "",
        sum(one.soaked for one in alike) or "",
        sum(one.dry for one in alike) or "",
        sum(one.refitted for one in alike) or "",
    )
    return {
        "count": sum(one.expected.count for one in alike),
        "piece": sort.piece,
        "note": f"{gone} gone, the survey says" if gone else "",
        "ticked": [str(figure) for figure in figures],
    }


def _untouched(lines: Sequence[Counted]) -> bool:
    return all(not one.found for one in lines)


def _places(lines: Sequence[Counted]) -> list[dict[str, Any]]:
    """Return the places in the order of the work, the lugs of a row in one line with a box each."""
    return [
        {
            "places": places_said(place for place, _ in row),
            "each": [
                {"count": o.expected.count, "piece": o.expected.sort.piece} for o in row[0][1]
            ],
            "gone": all(one.expected.lost for _, of in row for one in of),
            "boxes": [
                {
                    "name": place.rpartition(" ")[2] if len(row) > 1 else "",
                    "done": all(one.found is not None and not one.missing for one in of),
                }
                for place, of in row
            ],
        }
        for row in rows_of_places(lines)
    ]
