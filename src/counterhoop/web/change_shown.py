"""What the page of things found on the way shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from starlette.requests import Request

from counterhoop.bench.change.found import Answer, Found
from counterhoop.bench.change.on_top import line_of
from counterhoop.bench.folders.album import Photograph
from counterhoop.bench.folders.kinds import CHOICE, FOUND, QUOTE
from counterhoop.bench.price.since import since_accepted
from counterhoop.bench.promise.promises import today_of
from counterhoop.job.price.line import QuoteLine
from counterhoop.papers.facts import Lengths
from counterhoop.web.change_desk import ChangeDesk
from counterhoop.web.change_taken import as_it_stands_now
from counterhoop.web.folder_index import drum_address, folder_index, job_address


@dataclass(frozen=True, slots=True, kw_only=True)
class ThingShown:
    """One thing that was found.

    Attributes
    ----------
    thing : Found
    waits, said_no : bool
        Whether it waits for an answer; whether the client said no and it stands all the same.
    answer : Answer or None
    pictures : tuple of Photograph
    line : QuoteLine or None
        What it costs on top, as it is typed.
    """

    thing: Found
    waits: bool
    said_no: bool
    answer: Answer | None
    pictures: tuple[Photograph, ...]
    line: QuoteLine | None


def change_data(request: Request, desk: ChangeDesk) -> dict[str, Any]:
    """Return what the page shows."""
    changed, scheme = desk.changed(), desk.scheme
    kept = desk.drum.kept(FOUND)
    return {
        "job": desk.job,
        "drum": desk.drum,
        "job_address": job_address(desk.job),
        "drum_address": drum_address(desk.job, desk.drum),
        "address": desk.address,
        "index": folder_index(desk.job, here=desk.address, drum=desk.drum),
        "planned": desk.planned,
        "found": desk.found,
        "things": _things(desk),
        "face": _face(desk),
        "changed": changed,
        "differs": [one.says for one in changed.note.differs] if changed else [],
        "why_no_note": desk.why_no_note,
        "day": desk.day,
        "day_working": desk.day_working,
        "why_no_day": desk.why_no_day,
        "scheme": scheme,
        "gone": desk.gone,
        "anew": as_it_stands_now(desk.drum, desk.planned) if desk.gone else None,
        "choice": desk.drum.kept(CHOICE),
        "quote_number": desk.job.kept(QUOTE).number,
        "currency": desk.quote.currency if desk.quote else "",
        "since": _since(desk),
        "kept": kept,
        "history": f"{job_address(desk.job)}/history/{kept.document_id}" if kept.number else "",
        "today": today_of(desk.shop).isoformat(),
    }


def _things(desk: ChangeDesk) -> list[ThingShown]:
    waits = {one.number for one in desk.found.open}
    said_no = {one.number for one in desk.found.said_no}
    pictures = desk.pictures() if desk.found.every else {}
    return [
        ThingShown(
            thing=one,
            waits=one.number in waits,
            said_no=one.number in said_no,
            answer=desk.found.answer_to(one),
            pictures=tuple(pictures[name] for name in one.photographs if name in pictures),
            line=line_of(desk.job, desk.drum.id, one.number),
        )
        for one in reversed(desk.found.every)
    ]


def _face(desk: ChangeDesk) -> str:
    waits, stands = len(desk.found.open), len(desk.found.stands)
    if not stands:
        return "Nothing was found on the way."
    if not waits:
        return "Everything that was found is answered."
    return "One thing waits for an answer." if waits == 1 else f"{waits} things wait for an answer."


def _since(desk: ChangeDesk) -> tuple[str, ...]:
    if desk.quote is None:
        return ()
    return since_accepted(desk.quote, say=Lengths(desk.mine.units)).price
