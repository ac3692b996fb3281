"""The approval sheet: every change apart, with its place on the picture, and a box to sign."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import Any, Final

from counterhoop.errors import Grade
from counterhoop.job.yes.change import Change, Sort, gathered
from counterhoop.job.yes.changes import changes_of
from counterhoop.job.yes.undone import removed
from counterhoop.papers.client_picture import after_picture, client_legend, common_frame
from counterhoop.papers.drawing.pens import COLOUR_PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.facts import (
    Fact,
    Lengths,
    facts_of,
    foot_facts,
    holes_said,
    labels,
    sheet_for,
)
from counterhoop.papers.letter_head import shop_data
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.svg import to_svg
from counterhoop.scheme.findings.gathered import gathered as findings_gathered
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job

HEADINGS: Final[dict[Sort, tuple[str, str, str]]] = {
    "permanent": (
        "Cannot be undone",
        "Cut, closed or taken off for good; to be seen from outside or with a part taken off.",
        "Nothing.",
    ),
    "hidden": (
        "Cannot be undone, and is not seen from outside",
        "It can be found by whoever looks inside the shell.",
        "Nothing.",
    ),
    "reversible": (
        "Can be undone",
        "Bolted on or taken off; the drum can be put back from it.",
        "Nothing is bolted on or taken off.",
    ),
}


def approval_sheet_pdf(
    job: Job, scheme: Scheme, *, shop: Sequence[str] = (), paper: str = "A4"
) -> bytes:
    """Set the sheet on which a client says yes to what cannot be undone.

    Parameters
    ----------
    job : Job
        Whose client and units are printed.
    scheme : Scheme
        What is asked for; once it carries a recorded approval, the sheet says whose.
    shop : sequence of str
        Name of the workshop, then where to find it, a line each.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet, say = sheet_for(paper), Lengths(job.units)
    changes = changes_of(scheme, say=say)
    numbered = {spot.number for change in changes for spot in change.spots if spot.number}
    images, pictures = numbered_pictures(
        scheme, numbered, wide_mm=sheet.short_mm - 2 * MARGIN_MM, title="as it would be"
    )
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="approval sheet", drum=scheme.drum),
        "shop": shop_data(shop),
        "block": client_block(job, scheme),
        **asked_for(scheme),
        **pictures,
        "parts": [_part(sort, changes) for sort in HEADINGS],
        "originals": [
            {"count": one.count, "name": one.name, "origin": str(one.origin)}
            for one in removed(scheme.layout)
        ],
    }
    title = f"What you say yes to: {scheme.drum}"
    return set_readable("approval_sheet", data, title=title, images=images)


def client_block(job: Job, scheme: Scheme, *more: Fact) -> tuple[Fact, ...]:
    """Return the cells of the title block of a sheet that a client signs."""
    facts = facts_of(job, drum=scheme.drum)
    return (
        ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
        ("drum", scheme.drum),
        ("surveyed", facts.date or "not written down"),
        ("scheme", f"{scheme.number}. {scheme.title}"),
        *more,
        *((("code of the permanent changes", scheme.code),) if scheme.permanent else ()),
        ("agreed", scheme.approval or "not yet"),
    )


def asked_for(scheme: Scheme) -> dict[str, Any]:
    """Return what the box to sign says of a scheme."""
    found = findings_gathered(scheme.findings)
    return {
        "stops": [finding.says for finding in found if finding.grade is Grade.STOP],
        "approved": scheme.approved,
        "permanent": scheme.permanent,
        "code": scheme.code,
    }


def numbered_pictures(
    scheme: Scheme, numbered: Collection[int], *, wide_mm: float, title: str, harm: bool = False
) -> tuple[dict[str, str], dict[str, Any]]:
    """Return the drum as a scheme leaves it with its legend, as drawings and in words."""
    layout = scheme.layout
    frame = common_frame([layout], wide_mm=wide_mm)
    picture = after_picture(
        layout, frame=frame, title=f"The {scheme.drum} {title}", numbered=numbered, harm=harm
    )
    legend = client_legend([layout], wide_mm=wide_mm)
    images = {
        name: to_svg(one, palette=COLOUR_PRINT, ident=f"{name}-")
        for name, one in (("after", picture), ("legend", legend))
    }
    return images, {"picture": _shown(picture), "legend": _shown(legend)}


def _shown(picture: Drawing) -> dict[str, Any]:
    return {"alt": f"{picture.title}. {picture.says}", "wide": picture.width_mm * picture.scale}


def _part(sort: Sort, changes: Iterable[Change]) -> dict[str, Any]:
    heading, says, nothing = HEADINGS[sort]
    rows = [
        {"where": where_said(change), "does": change.does}
        for change in gathered(one for one in changes if one.sort == sort)
    ]
    return {"heading": heading, "says": says if rows else nothing, "rows": rows}


def where_said(change: Change) -> str:
    """Return where a change is: its holes and fittings by name, else in words."""
    holes = [spot.number for spot in change.spots if spot.number]
    others = [spot.called for spot in change.spots if not spot.number]
    said = [holes_said(holes)] if holes else []
    said += [labels(others)] if others else []
    return ", ".join([*said, *([change.where] if change.where else [])])
