"""One thing of a survey written down, and what the page is told of it."""

from __future__ import annotations

from typing import Any

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from counterhoop.bench.folders.write_down import differences
from counterhoop.bench.folders.write_thing import ThingChange, body_seen
from counterhoop.store.pointer import value_at
from counterhoop.store.save import Saved
from counterhoop.web.forms import THINGS, item_at, with_item, without_item
from counterhoop.web.given_form import pairs_in
from counterhoop.web.place_words import place_words, value_words
from counterhoop.web.render import is_part, page
from counterhoop.web.shell_desk import Desk, around, shared
from counterhoop.web.shell_lines import NEW, At, ident_of


def change_of(
    desk: Desk, thing: str, at: At, item: Any, *, based_on: int, why: str = "",
    taken: bool = False, by: str = "",
) -> ThingChange:  # fmt: skip
    """Return the change of one thing, wherever it stands by the time that it is written.

    A new thing that lies where the writer would have put it was sent twice, because the answer to
    the first was lost: it is not added again. Nor is one that its writer (``by``) went on typing
    meanwhile, unless another bench has written since: its half a hole may be another hole.
    """
    what = THINGS[thing].place
    mine = bool(by) and desk.drum.kept(THINGS[thing].document).bench == by

    def same(seen: Any, newest: Any) -> bool:
        if at == NEW:
            return True
        if isinstance(at, int):
            lists = [_listed(body, what)[: at + 1] for body in (seen, newest)]
            return lists[0] == lists[1]
        return bool(item_at(thing, seen, at) == item_at(thing, newest, at))

    def put(seen: Any, base: Any) -> Any:
        body = base if isinstance(base, dict) else {}
        if taken:
            return without_item(thing, body, at)
        if at != NEW:
            return with_item(thing, body, item, at)
        held, first = _listed(body, what), len(_listed(seen, what))
        if item in held[first:]:
            return body
        half = mine and len(held) == first + 1 and _begins(held[first], item)
        return with_item(thing, body, item, first if half else len(held))

    return ThingChange(
        kind=THINGS[thing].document, drum=desk.drum.id, based_on=based_on, same=same, put=put,
        why=why,
    )  # fmt: skip


def ask_why(
    request: Request, desk: Desk, change: ThingChange, given: FormData
) -> HTMLResponse | None:
    """Return the question why a drum as found is corrected, old beside new; None for no change."""
    kept = desk.drum.kept(change.kind)
    seen = body_seen(desk.shop, desk.job.id, change)
    alike = change.same(seen, kept.body)
    rows = [
        (
            place_words(change.kind, pointer),
            value_words(value_at(kept.body, pointer)),
            value_words(new),
        )
        for pointer, new in differences(kept.body, change.put(seen, kept.body if alike else seen))
    ]
    if not rows:
        return None
    return page(
        request, "correction_part.html" if is_part(request) else "correction.html",
        rows=rows, action=request.url.path, values=dict(pairs_in(given)), **around(desk),
    )  # fmt: skip


def answer(
    request: Request, desk: Desk, thing: str, at: At, *, done: bool, was_new: bool = False
) -> Response:
    """Answer a form: by the parts of the page that changed, or by the whole page."""
    listed = THINGS[thing].lies == "list"
    following = ident_of(thing, NEW if listed else at)
    wrong = bool(desk.entry().faults(thing, at)) if at != NEW else False
    opened = ident_of(thing, at) if wrong else following if listed else ""
    if not is_part(request):
        return RedirectResponse(
            f"{desk.address}?open={opened}" if opened else f"{desk.address}#{following}",
            status_code=303,
        )
    entry = desk.entry(open=opened if done else "")
    if done:
        return page(
            request, "shell_done.html", part=entry.part(thing), open=opened or following,
            **shared(desk, entry),
        )  # fmt: skip
    item = item_at(thing, entry.body(thing), at) if at != NEW else {}
    sent = ident_of(thing, NEW) if was_new else ident_of(thing, at)
    return page(
        request, "shell_kept.html", line=entry.line(thing, at), sent=sent,
        form=entry.form(thing, at, item=item, hushed=True, ident=sent), **shared(desk, entry),
    )  # fmt: skip


def place_of_new(thing: str, item: Any, saved: Saved) -> int:
    """Return where a thing lies that was put behind the others: the last that is alike."""
    held = _listed(saved.revision.body, THINGS[thing].place)
    return len(held) - 1 - held[::-1].index(item)


def _begins(half: Any, whole: Any) -> bool:
    """Tell whether a thing holds all that was typed of another, and more."""
    if not (isinstance(half, dict) and isinstance(whole, dict)):
        return False
    return all(name in whole and whole[name] == value for name, value in half.items())


def _listed(body: Any, place: str) -> list[Any]:
    held = body.get(place) if isinstance(body, dict) else None
    if isinstance(held, list):
        return held
    return [held] if isinstance(held, dict) else []
