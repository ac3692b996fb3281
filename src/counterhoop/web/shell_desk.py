"""A drum on the bench, as one request for its survey finds it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.requests import Request

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.history import before, versions
from counterhoop.bench.folders.kinds import JOB, SURVEY, WISH
from counterhoop.bench.folders.look_over import LookedOver
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.workshop import Workshop
from counterhoop.store.as_found import Correction
from counterhoop.web.focus_first import focus_first
from counterhoop.web.folder_index import drum_address, folder_index
from counterhoop.web.forms import offers_of
from counterhoop.web.look.mine import Mine, mine_of
from counterhoop.web.place_words import place_words, value_words
from counterhoop.web.render import is_part
from counterhoop.web.shell_drawn import drawn, looked_over
from counterhoop.web.shell_lines import Entry
from counterhoop.web.shell_page import page_data

if TYPE_CHECKING:
    from counterhoop.web.shell_view import ShellView


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """A drum on the bench, as one request finds it."""

    shop: Workshop
    job: KeptJob
    drum: KeptDrum
    mine: Mine
    drawer: dict[str, Kept]
    part: bool

    @property
    def address(self) -> str:
        """Of its sheet."""
        return f"{drum_address(self.job, self.drum)}/shell"

    @property
    def looked(self) -> LookedOver:
        """What is known of the drum by now."""
        return looked_over(self.job, self.drum, shop=self.drawer)

    @property
    def view(self) -> ShellView:
        """The shell laid flat, as far as it can be drawn."""
        return drawn(self.job, self.drum, self.looked, shop=self.drawer, units=self.mine.units)

    def entry(self, *, open: str = "") -> Entry:
        """Return what the lines of the sheet are made from."""
        opened = self.looked.so_far.opened
        return Entry(
            drum=self.drum,
            looked=self.looked,
            units=self.mine.units,
            offers=lambda: offers_of(
                opened.shop.book if opened else own_book(self.drawer).book,
                survey=self.drum.kept(SURVEY).table,
                job=self.job.kept(JOB).table,
            ),
            open=open,
        )


def desk_of(request: Request, shop: Workshop, job: str, drum: str) -> Desk:
    """Return a drum on the bench."""
    kept = kept_job(shop, job)
    return Desk(
        shop=shop, job=kept, drum=kept.drum(drum), mine=mine_of(request),
        drawer=dict(drawer(shop)), part=is_part(request),
    )  # fmt: skip


def everything(desk: Desk, *, open: str = "") -> dict[str, Any]:
    """Return what the whole sheet shows."""
    entry = desk.entry(open=open)
    return {
        **shared(desk, entry),
        "index": folder_index(desk.job, here=desk.address, drum=desk.drum),
        "sheets": entry.sheets(),
        "open": open,
        "corrected": corrected(desk),
    }


def shared(desk: Desk, entry: Entry) -> dict[str, Any]:
    """Return what the sheet and every part of it that is sent again show."""
    data = page_data(desk.job, desk.drum, desk.looked, entry, view=desk.view, shop=desk.drawer)
    return {**data, **around(desk)}


def around(desk: Desk) -> dict[str, Any]:
    """Return what stands round every form: where it is sent, what is saved, what undo does."""
    survey, wish = desk.drum.kept(SURVEY), desk.drum.kept(WISH)
    saved = max(
        (one for one in (survey, wish) if one.made_at), key=lambda one: str(one.made_at),
        default=survey,
    )  # fmt: skip
    kind = WISH if saved is wish else SURVEY
    return {
        "address": desk.address,
        "job": desk.job,
        "drum": desk.drum,
        "survey": survey,
        "wish": wish,
        "settled": survey.as_found is not None,
        "saved": saved,
        "focused": focus_first,
        "reach": "data-reach" if desk.part else "autofocus",
        "undo_kind": kind,
        "undo_to": before(saved, desk.shop),
    }


def corrected(desk: Desk) -> list[tuple[str, str, str, Correction]]:
    """Return what was corrected of the drum as found: the place, the old, the new, and why."""
    kept = desk.drum.kept(SURVEY)
    if kept.as_found is None or kept.number == kept.as_found:
        return []
    return [
        (place_words(SURVEY, one.pointer), value_words(one.old), value_words(one.new), one)
        for version in versions(desk.shop, kept.document_id)
        if (one := version.correction) is not None
    ]
