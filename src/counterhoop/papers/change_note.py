"""The change note: what was found on the way, what is other than agreed, its price and its day."""

from __future__ import annotations

from typing import Any, Final

from counterhoop.job.yes.differences import How, together
from counterhoop.job.yes.note import ChangeNote
from counterhoop.papers.approval_sheet import asked_for, client_block, numbered_pictures
from counterhoop.papers.facts import foot_facts, holes_said, sheet_for
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job

WORDS: Final[dict[How, str]] = {
    "altered": "done otherwise",
    "added": "not agreed yet",
    "gone": "no longer done",
}


def change_note_pdf(job: Job, scheme: Scheme, note: ChangeNote, *, paper: str = "A4") -> bytes:
    """Set the note on which a client agrees to what has changed since the last yes.

    Parameters
    ----------
    job : Job
        Whose client and units are printed.
    scheme : Scheme
        As it is worked out now.
    note : ChangeNote
        What differs from what was agreed, what it costs and when the drum is ready.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    numbered = {one.hole for one in note.differs if one.hole and one.now}
    images, pictures = numbered_pictures(
        scheme, numbered, wide_mm=sheet.short_mm - 2 * MARGIN_MM, title="as it would be now"
    )
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="change note", drum=scheme.drum),
        "block": client_block(job, scheme),
        **asked_for(scheme),
        **pictures,
        "found": note.found,
        "agreed": note.agreed.words,
        "was-code": note.agreed.covers,
        "differs": difference_rows(note),
        "cuts": note.cuts,
        "price": note.price_says,
        "day": note.day.says if note.day else "",
    }
    title = f"What has changed: {scheme.drum}"
    return set_readable("change_note", data, title=title, images=images)


def difference_rows(note: ChangeNote) -> list[dict[str, Any]]:
    """Return the lines of the table: how each differs, and in what."""
    return [
        {"how": word, "says": _says(does, holes)}
        for how, word in WORDS.items()
        for does, holes in together(one for one in note.differs if one.how == how)
    ]


def _says(does: str, holes: tuple[int, ...]) -> str:
    if not holes:
        return f"{does}."
    said = holes_said(holes)
    return f"{said[0].upper()}{said[1:]}: {does}."
