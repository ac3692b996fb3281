"""Write a sheet of plain questions down, and tell the page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import Kept, kept_job
from counterhoop.bench.folders.history import before
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.given_form import number_in
from counterhoop.web.go_back import go_back
from counterhoop.web.plain_sheet import (
    AskedPart,
    Part,
    answers_say,
    asked,
    read_answers,
    sent_again,
)
from counterhoop.web.render import is_part, page
from counterhoop.web.who import bench_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A document that is written by plain questions.

    Attributes
    ----------
    ident : str
        Before every id on the page.
    job, drum : str
        Whose document it is; no drum for one of the job as a whole.
    kind : str
        Of the document.
    parts : tuple of Part
        What is asked.
    action : str
        Where the form is sent; ``action + "/undo"`` takes the last save back.
    back : str
        The page that it stands on.
    """

    ident: str
    job: str
    drum: str = ""
    kind: str
    parts: tuple[Part, ...]
    action: str
    back: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A sheet as it stands now, for the macros of ``plain_pieces.html``."""

    sheet: Sheet
    kept: Kept
    says: list[tuple[str, tuple[str, ...]]]
    form: tuple[AskedPart, ...]
    undo_to: int | None

    @property
    def has_fault(self) -> bool:
        """Whether a field holds what cannot be read: its form is shown open then."""
        return any(one.fault for part in self.form for _, of in part.lines for one in of)

    @property
    def history(self) -> str:
        """Where its earlier versions are."""
        return f"/jobs/{self.sheet.job}/history/{self.kept.document_id}"


def written(shop: Workshop, sheet: Sheet) -> Written:
    """Return a sheet as it stands now."""
    kept = _kept(shop, sheet)
    today = shop.now().date()
    return Written(
        sheet=sheet,
        kept=kept,
        says=answers_say(sheet.parts, kept.table, today=today),
        form=asked(sheet.parts, kept.table, ident=sheet.ident, today=today),
        undo_to=before(kept, shop),
    )


def write_sheet(
    request: Request, shop: Workshop, sheet: Sheet, given: FormData, *,
    answer: Callable[[], Response] | None = None,
) -> Response:  # fmt: skip
    """Keep what a form sent; other fields that somebody else changed meanwhile stay theirs.

    Parameters
    ----------
    answer : callable, optional
        What is sent back while one types, where more than the sheet itself changes.
    """
    if theirs_kept(given):
        return RedirectResponse(sheet.back, status_code=303)
    answers = read_answers(sheet.parts, given, today=shop.now().date())
    change = _change(sheet, answers, based_on=number_in(given, "based_on"))
    done = write_thing(shop, sheet.job, change, by=bench_of(request))
    if isinstance(done, Conflict):
        return _both(request, shop, sheet, done)
    if not is_part(request):
        return RedirectResponse(sheet.back, status_code=303)
    return answer() if answer else page(request, "plain_kept.html", written=written(shop, sheet))


def undo_sheet(request: Request, shop: Workshop, sheet: Sheet, given: FormData) -> Response:
    """Go back to an earlier save."""
    kept = _kept(shop, sheet)
    go_back(request, shop, kept.document_id, given)
    return RedirectResponse(sheet.back, status_code=303)


def _kept(shop: Workshop, sheet: Sheet) -> Kept:
    job = kept_job(shop, sheet.job)
    return (job.drum(sheet.drum) if sheet.drum else job).kept(sheet.kind)


def _change(sheet: Sheet, mine: dict[str, Json], *, based_on: int) -> ThingChange:
    names = [part.name for part in sheet.parts]

    def changed(seen: Any) -> list[str]:
        return [name for name in names if _table(seen).get(name) != mine.get(name)]

    def same(seen: Any, newest: Any) -> bool:
        return all(_table(seen).get(name) == _table(newest).get(name) for name in changed(seen))

    def put(seen: Any, base: Any) -> Any:
        after = dict(_table(base))
        for name in changed(seen):
            if name in mine:
                after[name] = mine[name]
            else:
                after.pop(name, None)
        return after

    return ThingChange(kind=sheet.kind, drum=sheet.drum, based_on=based_on, same=same, put=put)


def _both(request: Request, shop: Workshop, sheet: Sheet, conflict: Conflict) -> Response:
    """Show only what both changed: in the rest theirs is taken over before one chooses."""
    seen = conflict.base.body if conflict.base else {}
    names = [part.name for part in sheet.parts]
    theirs, mine, before_both = (_table(b) for b in (conflict.theirs.body, conflict.mine, seen))
    merged = dict(theirs)
    for name in names:
        if mine.get(name) != before_both.get(name):
            merged.pop(name, None)
            if name in mine:
                merged[name] = mine[name]
    values = sent_again(sheet.parts, merged, today=shop.now().date())
    return both_versions(
        request, replace(conflict, mine=merged), kind=sheet.kind, action=sheet.action,
        values=values, words_of=lambda pointer: _words(sheet.parts, pointer),
    )  # fmt: skip


def _words(parts: tuple[Part, ...], pointer: str) -> str:
    first, *rest = pointer.split("/")[1:] or [""]
    label = next((part.label for part in parts if part.name == first), first.replace("_", " "))
    return ", ".join([label, *(str(int(s) + 1) if s.isdigit() else s for s in rest[:1])])


def _table(body: Any) -> dict[str, Any]:
    return body if isinstance(body, dict) else {}
