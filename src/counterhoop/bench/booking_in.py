"""The booking-in sheet of a folder: what came, how it looked, and what is signed for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from counterhoop.bench.folders.album import Photograph as Put
from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.drum_state import what_says
from counterhoop.bench.folders.figures_of_job import figures_of_job
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import ARRIVAL
from counterhoop.bench.folders.photographs import small_picture
from counterhoop.bench.folders.views import WANTED, view_says
from counterhoop.bench.price.papers import NO_NAME
from counterhoop.bench.price.terms import Terms, terms_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.booking_in import APART, BookingIn, DrumIn, Item, booking_in_pdf
from counterhoop.papers.letter_head import LetterHead
from counterhoop.papers.photograph import Photograph
from counterhoop.quantities.money import Money, parse_money

LONGEST_PX: Final = 480
"""Of a photograph 31 mm high: more than a printer of 300 dots to the inch shows."""
TOGETHER: Final = "With all of them"
FOUND: Final = {"no": "none seen", "yes": "found"}


def booking_in_of(shop: Workshop, job: KeptJob) -> BookingIn:
    """Return what the booking-in sheet of a folder says, with its photographs.

    A thing of which no drum is named stands with the only drum, or with all of them. What the
    workshop's terms say of drums that nobody fetches holds where the folder says nothing.

    Raises
    ------
    BadInput
        Where the workshop's terms or the declared value cannot be read.
    """
    table, terms = job.kept(ARRIVAL).table, terms_of(shop)
    album = photographs_of(shop, job)
    things = [one for one in table.get("things") or () if isinstance(one, dict)]
    lone = len(job.drums) == 1
    drums = tuple(
        DrumIn(
            drum=drum.name,
            what=what_says(drum),
            **_things(things, of=drum, lone=lone),
            apart=_apart(table) if lone else None,
            photographs=_photographs(shop, drum, album),
        )
        for drum in job.drums
    )
    rest = _things([one for one in things if not _of_a_drum(one, job)], of=None, lone=True)
    together = DrumIn(drum=TOGETHER, apart=_apart(table), **rest)
    return BookingIn(
        head=_head(job, table, terms),
        drums=drums,
        together=None if lone else together,
        owner=_line(job.job, "owner"),
        proof=_line(table, "proof"),
        wanted=_line(table, "wanted"),
        value=_value(table, currency=figures_of_job(shop, job).currency),
        insured_here=_line(table, "insured_here"),
        insured_on_the_road=_line(table, "insured_on_road"),
        notes=(
            *(f"Never sanded, never coated: {line}" for line in _lines(table, "never_sand")),
            *_lines(table, "notes"),
        ),
        fetched_by=_line(table, "fetched_by"),
        uncollected=_line(table, "uncollected") or terms.uncollected,
    )


def booking_in_paper(shop: Workshop, job: KeptJob, *, paper: str = "A4") -> bytes:
    """Set the booking-in sheet of a folder; the rest as for ``booking_in_of``."""
    return booking_in_pdf(booking_in_of(shop, job), paper=paper)


def client_reached(job: KeptJob) -> tuple[str, ...]:
    """Return where the client is found, a line each, as it was written when the job came in."""
    return _lines(job.kept(ARRIVAL).table, "reached")


def _head(job: KeptJob, table: Mapping[str, Any], terms: Terms) -> LetterHead:
    return LetterHead(
        shop=terms.shop or NO_NAME,
        shop_lines=terms.shop_lines,
        client=_line(job.job, "client"),
        client_lines=_lines(table, "reached"),
        job=_line(job.job, "number") or job.title,
        drums=tuple(drum.name for drum in job.drums),
        date=day_written(table.get("came_on")),
    )


def _things(
    things: Sequence[Mapping[str, Any]], *, of: KeptDrum | None, lone: bool
) -> dict[str, Any]:
    own = [
        one
        for one in things
        if (of is None or _is_of(one, of) or (lone and not _line(one, "drum")))
        and _line(one, "what")
    ]
    return {
        "came": tuple(_item(one) for one in own if one.get("missing") is not True),
        "missing": tuple(_item(one) for one in own if one.get("missing") is True),
    }


def _is_of(thing: Mapping[str, Any], drum: KeptDrum) -> bool:
    named = _line(thing, "drum").casefold().removeprefix("the ")
    return bool(named) and named == drum.name.casefold()


def _of_a_drum(thing: Mapping[str, Any], job: KeptJob) -> bool:
    return any(_is_of(thing, drum) for drum in job.drums)


def _item(thing: Mapping[str, Any]) -> Item:
    return Item(
        what=_line(thing, "what"), count=0, whose=_line(thing, "whose"), says=_line(thing, "state")
    )


def _apart(table: Mapping[str, Any]) -> dict[str, str]:
    said = {}
    for what in APART:
        held = table.get(what)
        if isinstance(held, dict):
            words = (FOUND.get(_line(held, "found"), ""), _line(held, "says"))
            said[what] = ", ".join(one for one in words if one)
    return {what: words for what, words in said.items() if words}


def _photographs(
    shop: Workshop, drum: KeptDrum, album: Sequence[Put]
) -> dict[str, Photograph | None]:
    """Return every view that is wanted, and after them what else was photographed as it came."""
    own = [one for one in album if one.drum is not None and one.drum.id == drum.id]
    before = [one for one in own if not one.after]
    shown: dict[str, Photograph | None] = {view.says: None for view in WANTED}
    for name, one in _called(before):
        shown[name] = Photograph(
            jpeg=small_picture(shop, one.lies, longest_px=LONGEST_PX), shows=f"{drum.name}, {name}"
        )
    return shown


def _called(photographs: Sequence[Put]) -> Iterator[tuple[str, Put]]:
    """Yield photographs by what they show; of several of one view the last stands in its frame."""
    wanted = {view.name: view.says for view in WANTED}
    last = {one.view: one for one in photographs if one.view in wanted}
    others = 0
    for one in photographs:
        if last.get(one.view) is one:
            yield wanted[one.view], one
        else:
            others += 1
            yield f"{one.says or view_says(one.view) or 'another view'} ({others})", one


def _value(table: Mapping[str, Any], *, currency: str) -> Money | None:
    typed = _line(table, "value")
    if not typed:
        return None
    try:
        return parse_money(typed, where="value", otherwise=currency)
    except BadInput as fault:
        raise BadInput(
            "the declared value cannot be read", where="value", given=typed, wanted=fault.wanted,
            step="Change what was booked in, then print the sheet",
        ) from fault  # fmt: skip


def _line(table: Mapping[str, Any], name: str) -> str:
    held = table.get(name)
    return " ".join(held.split()) if isinstance(held, str) else ""


def _lines(table: Mapping[str, Any], name: str) -> tuple[str, ...]:
    held = table.get(name)
    rows = held.splitlines() if isinstance(held, str) else []
    return tuple(row.strip() for row in rows if row.strip())
