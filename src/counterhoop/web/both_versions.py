"""Two wrote the same sheet: both are shown, and the person chooses."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from starlette.requests import Request
from starlette.responses import HTMLResponse

from counterhoop.bench.folders.write_down import differences
from counterhoop.store.pointer import value_at
from counterhoop.store.save import Conflict
from counterhoop.web.answered_once import FIELD
from counterhoop.web.place_words import place_words, value_words
from counterhoop.web.render import is_part, page

KEEP = "keep"
"""The field by which the answer comes back: "mine" or "theirs"."""
MOST_ROWS = 40


def both_versions(
    request: Request,
    conflict: Conflict,
    *,
    kind: str,
    action: str,
    values: Mapping[str, str] | Iterable[tuple[str, str]],
    words_of: Callable[[str], str] | None = None,
) -> HTMLResponse:
    """Return the page (409) on which one of two versions is chosen.

    Parameters
    ----------
    conflict : Conflict
        As ``write_down`` answers it.
    kind : str
        Of the document: its places are called as in its forms.
    action : str
        The address that the form was sent to; it is sent there again with ``keep``. A handler
        goes back without writing when ``theirs_kept`` says so, else it writes as usual.
    values : mapping or pairs of str
        What was sent; ``based_on`` is put to their version, so that "mine" goes through.
    words_of : callable, optional
        What a place is called, where no form of ``web.forms`` knows it.
    """
    say = words_of or (lambda pointer: place_words(kind, pointer))
    theirs = conflict.theirs
    rows = [
        (say(pointer), value_words(mine), value_words(value_at(theirs.body, pointer) if pointer
         else theirs.body))
        for pointer, mine in differences(theirs.body, conflict.mine)
    ]  # fmt: skip
    pairs = values.items() if isinstance(values, Mapping) else values
    sent = {name: value for name, value in pairs if name not in ("based_on", KEEP, FIELD)}
    return page(
        request,
        "both_versions_part.html" if is_part(request) else "both_versions.html",
        status=409,
        rows=rows[:MOST_ROWS],
        unshown=len(rows[MOST_ROWS:]),
        action=action,
        values=sent | {"based_on": theirs.number},
        by=theirs.bench,
        when=theirs.made_at,
    )


def theirs_kept(given: Mapping[str, object]) -> bool:
    """Tell whether the person chose to leave the other version as it stands."""
    return given.get(KEEP) == "theirs"
