"""The scheme sheet for the client, to choose by: before, after, what is for good, other ways."""

from __future__ import annotations

from typing import Any

from counterhoop.errors import Grade
from counterhoop.papers.client_picture import (
    after_picture,
    before_picture,
    client_legend,
    common_frame,
)
from counterhoop.papers.client_words import (
    can_be_undone,
    cut_for_good,
    hidden,
    holes_added,
    in_a_line,
    not_in_the_price,
    seen_afterwards,
)
from counterhoop.papers.drawing.pens import COLOUR_PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.facts import (
    Lengths,
    count,
    facts_of,
    foot_facts,
    listed,
    say_money,
    sheet_for,
)
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.duration import print_minutes
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job
from counterhoop.shell.shop_rules import ShopFigures

MOST_OTHERS = 3


def scheme_sheet_pdf(
    job: Job, scheme: Scheme, *, found: Layout, others: tuple[Scheme, ...] = (), paper: str = "A4"
) -> bytes:
    """Set the sheet that the client chooses by; what is signed is on the approval sheet.

    Parameters
    ----------
    job : Job
        Whose client, units and money are printed.
    scheme : Scheme
        What is proposed.
    found : Layout
        The drum as it is now.
    others : tuple of Scheme
        Other ways; the first three are shown, all at one scale.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet, say = sheet_for(paper), Lengths(job.units)
    ways = tuple(other for other in others if other.number != scheme.number)[:MOST_OTHERS]
    wide = sheet.short_mm - 2 * MARGIN_MM
    frame = common_frame([found, scheme.layout, *(w.layout for w in ways)], wide_mm=wide)
    pictures = {
        "before": before_picture(found, frame=frame),
        "after": after_picture(scheme.layout, frame=frame),
        "legend": client_legend([scheme.layout, *(w.layout for w in ways)], wide_mm=wide),
    }
    for way in ways:
        title = f"Another way, scheme {way.number}: {way.title}"
        pictures[f"way-{way.number}"] = after_picture(way.layout, frame=frame, title=title)
    images = {
        name: to_svg(picture, palette=COLOUR_PRINT, ident=f"{name}-")
        for name, picture in pictures.items()
    }
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="scheme sheet for the client", drum=scheme.drum),
        **client_data(job, scheme, ways=ways, say=say),
        "pictures": {name: _shown(picture) for name, picture in pictures.items()},
    }
    return set_readable(
        "scheme_sheet", data, title=f"What we propose: {scheme.drum}", images=images
    )


def client_data(
    job: Job, scheme: Scheme, *, ways: tuple[Scheme, ...], say: Lengths
) -> dict[str, Any]:
    """Return what the sheet says, as plain data."""
    facts = facts_of(job, drum=scheme.drum)
    figures = job.figures
    stops = [f.says for f in gathered(scheme.findings) if f.grade is Grade.STOP]
    care = sum(f.grade is Grade.TAKE_CARE for f in gathered(scheme.findings))
    return {
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("drum", scheme.drum),
            ("date", facts.date or "not written down"),
            ("proposed", f"scheme {scheme.number}: {scheme.title}"),
            *((("code of the permanent changes", scheme.code),) if scheme.permanent else ()),
            ("agreed", scheme.approval or "not yet"),
        ),
        "stops": stops,
        "care": f"{count(care, 'point')} that we take care of on the bench" if care else "",
        "cut": cut_for_good(scheme, say=say),
        "shows": seen_afterwards(scheme, say=say),
        "extra": holes_added(scheme),
        "undone": can_be_undone(scheme),
        "hidden": hidden(scheme),
        "parts": part_rows(scheme, figures=figures),
        "work": print_minutes(scheme.minutes),
        "work-money": say_money(work_minor(scheme), currency=figures.currency),
        "total": say_money(scheme.criteria.money_minor, currency=figures.currency),
        "not-in-price": not_in_the_price(scheme),
        "unpriced": any(p.bought and p.each_minor is None for p in scheme.parts),
        "ways": [
            {
                "number": way.number,
                "title": way.title,
                "says": in_a_line(way, say=say),
                "total": say_money(way.criteria.money_minor, currency=figures.currency),
                "stopped": listed([f.says for f in way.findings if f.grade is Grade.STOP][:1]),
            }
            for way in ways
        ],
        "approved": scheme.approved,
        "code": scheme.code,
        "permanent": scheme.permanent,
        "changes": listed(cut_for_good(scheme, say=say)),
    }


def part_rows(scheme: Scheme, *, figures: ShopFigures) -> list[dict[str, Any]]:
    """Return a line for each sort of part: how many, what must be bought, what that comes to."""
    rows = []
    for line in scheme.parts:
        sum_minor = None if line.each_minor is None else line.bought * line.each_minor
        rows.append(
            {
                "name": line.name,
                "count": line.count,
                "where": _where_from(line.bought, of=line.count),
                "sum": say_money(sum_minor if line.bought else 0, currency=figures.currency),
            }
        )
    return rows


def _where_from(bought: int, *, of: int) -> str:
    if not bought:
        return "from our stock"
    return "to buy" if bought == of else f"{bought} of them to buy"


def work_minor(scheme: Scheme) -> int:
    """Return what the bench time comes to: the price less the parts bought, so that it adds up."""
    parts = sum(line.bought * (line.each_minor or 0) for line in scheme.parts)
    return scheme.criteria.money_minor - parts


def _shown(picture: Drawing) -> dict[str, Any]:
    return {"alt": f"{picture.title}. {picture.says}", "wide": picture.width_mm * picture.scale}
