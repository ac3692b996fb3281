"""Two wrote on the same place of a quote: both said in words, and one is chosen."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import (
    BOUGHT_FOR,
    DISCOUNT,
    LINES,
    PRICE,
    line_read,
)
from counterhoop.store.body import Json
from counterhoop.store.pointer import read_pointer
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions
from counterhoop.web.given_form import pairs_in
from counterhoop.web.price_words import line_says

WHOLE = {
    PRICE: "the price asked for the whole",
    DISCOUNT: "what comes off",
    BOUGHT_FOR: "what the goods were bought for",
}
NOT_CHANGED = "as it comes by itself"


def both_quotes(
    request: Request, conflict: Conflict, now: JobQuote, given: FormData, *, keys: Iterable[str]
) -> Response:
    """Return the page on which one of two versions of what was written is chosen."""
    called = {line.key: line.stands.says for line in now.lines}
    mine, theirs = conflict.mine, conflict.theirs.body
    names = [key for key in keys if _line(mine, key) != _line(theirs, key)]
    told = {
        called.get(key, key): (_line(mine, key) or NOT_CHANGED, _line(theirs, key) or NOT_CHANGED)
        for key in names
    }
    if not told:
        told = {
            words: (_said(mine, name), _said(theirs, name))
            for name, words in WHOLE.items()
            if _said(mine, name) != _said(theirs, name)
        }
    said = replace(
        conflict,
        mine={name: both[0] for name, both in told.items()},
        theirs=replace(conflict.theirs, body={name: both[1] for name, both in told.items()}),
    )
    return both_versions(
        request, said, kind=QUOTE, action=request.url.path, values=pairs_in(given),
        words_of=lambda pointer: read_pointer(pointer)[0] if pointer else "the quote",
    )  # fmt: skip


def _line(body: Json, key: str) -> str:
    held = _table(body).get(LINES)
    line = held.get(key) if isinstance(held, dict) else None
    return line_says(line_read(line)) if line else ""


def _said(body: Json, name: str) -> str:
    value = _table(body).get(name)
    if isinstance(value, dict):
        return ", ".join(str(one) for one in (value.get("says"), value.get("off")) if one)
    return str(value or "nothing is written")


def _table(body: Any) -> dict[str, Any]:
    return body if isinstance(body, dict) else {}
