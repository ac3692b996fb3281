"""What every paper says about itself: the cells of its title block."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from counterhoop.development.flat import Development
from counterhoop.quantities.day import say_day
from counterhoop.quantities.print_length import print_mm

NOT_WRITTEN = "not written down"


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFacts:
    """What the papers of a job share.

    Attributes
    ----------
    job, client : str
        The job's number and whose drum it is.
    drum : str
        The drum in words ("small tom, 12 dia x 8 deep").
    date, measured_by : str
        When and by whom the shell was measured.
    units : str
        What the person works in; drawings are in millimetres.
    rules_version : str
        Which shop rules the limits come from.
    approved : str
        Who said yes and when; empty: not approved.
    not_checked : tuple of str
        What nobody has looked at yet, one sentence each.
    """

    job: str
    client: str = ""
    drum: str = ""
    date: str = ""
    measured_by: str = ""
    units: Literal["mm", "in"] = "mm"
    rules_version: str = ""
    approved: str = ""
    not_checked: tuple[str, ...] = ()


def dated(facts: JobFacts, counted_on: dt.date | None) -> tuple[str, str]:
    """Return the cell of a title block that says of when a count is, or the survey before it.

    Examples
    --------
    >>> dated(JobFacts(job="17", date="4 March 2026"), dt.date(2026, 5, 9))
    ('counted up to', '9 May 2026')
    >>> dated(JobFacts(job="17", date="4 March 2026"), None)
    ('surveyed', '4 March 2026')
    """
    if counted_on is None:
        return ("surveyed", facts.date or NOT_WRITTEN)
    return ("counted up to", say_day(counted_on))


def title_facts(
    facts: JobFacts, *, flat: Development, what: str, scale: str = "", code: str = ""
) -> tuple[tuple[str, str], ...]:
    """Return the cells of a title block, (label, value), in the order in which they are read."""
    heights = "after truing" if flat.after_truing else "before truing"
    units = "mm" if facts.units == "mm" else "mm, inches beside"
    cells = (
        ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
        ("drum", facts.drum),
        ("paper", what),
        ("surface", flat.surface.skin.value),
        ("once round", print_mm(flat.surface.circumference_mm)),
        ("heights", heights),
        ("scale · units", f"{scale} · {units}") if scale else ("units", units),
        ("date", facts.date or NOT_WRITTEN),
        ("measured by", facts.measured_by or NOT_WRITTEN),
        ("shop rules", facts.rules_version or NOT_WRITTEN),
        ("approval", facts.approved or "not approved"),
        ("code of changes", code),
    )
    return tuple(cell for cell in cells if cell[1])
