"""What papers between a workshop and its client say at their head and at their foot."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.papers.facts import Fact, listed, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.photograph import Photograph, photograph_svg
from counterhoop.quantities.day import say_day

MOST_DRUMS_NAMED = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class LetterHead:
    """Who writes to whom, about which job.

    Attributes
    ----------
    shop, client : str
        The names of both.
    shop_lines, client_lines : tuple of str
        Where to find them, a line each.
    job : str
        The job's number.
    drums : tuple of str
        What it is about.
    date : date, optional
        Of this paper.
    """

    shop: str
    job: str
    client: str
    shop_lines: tuple[str, ...] = ()
    client_lines: tuple[str, ...] = ()
    drums: tuple[str, ...] = ()
    date: dt.date | None = None


def head_data(
    head: LetterHead, *, what: str, more: Sequence[Fact] = (), paper: str = "A4",
    lying: bool = False,
) -> dict[str, Any]:  # fmt: skip
    """Return what every such paper shares, as plain data.

    Parameters
    ----------
    head : LetterHead
        Who and what.
    what : str
        Name of the paper, for the foot of every sheet.
    more : sequence of (str, str)
        Cells of the title block after job, client, drums and date; empty ones are left out.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    lying : bool
        Whether the sheet lies on its long side.
    """
    sheet = sheet_for(paper)
    wide, high = (sheet.short_mm, sheet.long_mm)[:: -1 if lying else 1]
    return {
        "wide": wide,
        "high": high,
        "facts": (("Job", f"job {head.job}"), ("Paper", what)),
        "shop": shop_data((head.shop, *head.shop_lines)),
        "client": {"name": head.client, "lines": list(head.client_lines)},
        "block": [
            cell
            for cell in (
                ("job", head.job),
                ("client", head.client),
                ("drums" if len(head.drums) > 1 else "drum", drums_said(head.drums)),
                ("date", say_day(head.date) or NOT_WRITTEN),
                *more,
            )
            if cell[1]
        ],
    }


def shop_data(shop: Sequence[str]) -> dict[str, Any]:
    """Return a workshop at the head of a paper: its name, then a line each of where it is."""
    return {"name": shop[0] if shop else "", "lines": list(shop[1:])}


def kept_data(head: LetterHead, *, what: str) -> dict[str, Any]:
    """Return what a paper that is kept must have beside: its day, which the file carries too.

    Raises
    ------
    BadInput
        Without a day.
    """
    if head.date is None:
        raise BadInput("no day", where=what, wanted="the day that it is dated")
    return {"kept-on": (head.date.year, head.date.month, head.date.day)}


def drums_said(drums: Sequence[str]) -> str:
    """Name the drums of a job; of many the first few.

    Examples
    --------
    >>> drums_said(["old snare", "small tom"]), drums_said("abcdef")
    ('old snare and small tom', 'a, b, c and 3 more')
    """
    if len(drums) <= MOST_DRUMS_NAMED:
        return listed(list(drums))
    named = drums[: MOST_DRUMS_NAMED - 1]
    return f"{', '.join(named)} and {len(drums) - len(named)} more"


def photographs_shown(
    photographs: Mapping[str, Photograph | None],
) -> tuple[dict[str, str], dict[str, dict[str, str]]]:
    """Return photographs as drawings by name, and what a template must know of each.

    A name without a photograph is left out of both: the template leaves room for it.
    """
    there = {name: photo for name, photo in photographs.items() if photo is not None}
    images = {name: photograph_svg(photo) for name, photo in there.items()}
    return images, {name: {"name": name, "alt": photo.shows} for name, photo in there.items()}
