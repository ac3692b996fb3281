"""The change note: what was found on the way, what is other than agreed, its price and its day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.job.yes.differences import How, together
from counterhoop.job.yes.note import ChangeNote
from counterhoop.job.yes.note_said import NoteSaid
from counterhoop.papers.approval_sheet import (
    asked_for,
    client_block,
    numbered_pictures,
)
from counterhoop.papers.drawing.marks import HARM
from counterhoop.papers.facts import Fact, facts_of, foot_facts, holes_said, sheet_for
from counterhoop.papers.letter_head import shop_data
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job

WORDS: Final[dict[How, str]] = {
    "altered": "done otherwise",
    "added": "not agreed yet",
    "gone": "no longer done",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """The yes or no that a note was given, and the code of what was cut for good by it."""

    words: str
    code: str


def change_note_pdf(
    job: Job, scheme: Scheme, note: ChangeNote, *, shop: Sequence[str] = (), paper: str = "A4"
) -> bytes:
    """Set the note on which a client agrees to what has changed since the last yes.

    Parameters
    ----------
    job : Job
        Whose client and units are printed.
    scheme : Scheme
        As it is worked out now.
    note : ChangeNote
        What differs from what was agreed, what it costs and when the drum is ready.
    shop : sequence of str
        Name of the workshop, then where to find it, a line each.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    return said_note_pdf(job, scheme, words_of(note), shop=shop, paper=paper)


def said_note_pdf(
    job: Job, scheme: Scheme, said: NoteSaid, *, answered: Answered | None = None,
    shop: Sequence[str] = (), paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set a note by its words; as ``change_note_pdf``.

    Parameters
    ----------
    answered : Answered, optional
        The answer to it, for a note that is printed again. Its picture is left out where the
        drum is cut by another code by now.
    """
    sheet = sheet_for(paper)
    same = answered is None or answered.code == (scheme.code if scheme.permanent else "")
    images, pictures = numbered_pictures(
        scheme, said.holes, wide_mm=sheet.short_mm - 2 * MARGIN_MM, title="as it would be now",
        harm=True,
    ) if same else ({}, {"picture": None, "legend": None})  # fmt: skip
    asked = asked_for(scheme)
    if answered is not None:
        asked |= {"approved": answered.words, "code": answered.code, "stops": []}
        asked["permanent"] = bool(answered.code)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="change note", drum=scheme.drum),
        "shop": shop_data(shop),
        "block": client_block(job, scheme) if answered is None else answered_block(
            job, scheme, answered
        ),
        **asked,
        **pictures,
        "harm": any(line.kind in HARM for line in scheme.layout.drum.lines),
        "found": said.found,
        "work": said.work,
        "agreed": said.agreed,
        "was-code": said.was_code,
        "differs": [{"how": how, "says": says} for how, says in said.differs],
        "cuts": said.cuts,
        "price": said.price,
        "day": said.day,
        "answered": answered.words if answered else "",
    }  # fmt: skip
    title = f"What has changed: {scheme.drum}"
    return set_readable("change_note", data, title=title, images=images)


def answered_block(job: Job, scheme: Scheme, answered: Answered) -> tuple[Fact, ...]:
    """Return the cells of the title block of a note that had its answer."""
    facts = facts_of(job, drum=scheme.drum)
    return (
        ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
        ("drum", scheme.drum),
        *((("code of the permanent changes", answered.code),) if answered.code else ()),
        ("answered", answered.words),
    )


def words_of(note: ChangeNote) -> NoteSaid:
    """Return a note in words."""
    return NoteSaid(
        found=note.found,
        work=note.work,
        agreed=note.agreed.words,
        was_code=note.agreed.covers,
        differs=tuple((row["how"], row["says"]) for row in difference_rows(note)),
        holes=tuple(sorted({one.hole for one in note.differs if one.hole and one.now})),
        price=f"{note.price_says} {note.beside_says}".strip(),
        day=note.day.says if note.day else "",
        cuts=note.cuts,
    )


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
