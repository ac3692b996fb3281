"""Write in the workshop's own fittings book: an entry, put away, taken out again."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.kinds import BOOK, JOB, SURVEY, WISH
from counterhoop.bench.folders.own_book import AWAY, ENTRIES, own_book
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.fittings.book import name_key
from counterhoop.fittings.read_book import packaged_book
from counterhoop.store.body import Json
from counterhoop.store.job_folder import job_folders
from counterhoop.store.newest import newest_bodies
from counterhoop.store.save import Conflict, Saved

MOST_NAMED = 3


def write_entry(
    shop: Workshop, at: int | None, item: Json, *, based_on: int, by: str
) -> Saved | Conflict:
    """Write an entry of the own book, whole or half.

    Parameters
    ----------
    at : int or None
        Its place in the book, from 0; None for one more.

    Raises
    ------
    CannotDo
        When it is to be called otherwise and a job names it.
    """
    known = own_book(drawer(shop)).entries
    if at is not None and at < len(known):
        new = item.get("name") if isinstance(item, dict) else None
        if known[at].name and name_key(str(new or "")) != name_key(known[at].name):
            _unnamed(shop, known[at].name, otherwise="write the other one as an entry of its own")

    def put(seen: Json, body: dict[str, Any]) -> dict[str, Any]:
        listed = list(body.get(ENTRIES, []))
        if at is None:
            # One that came behind those that the writer saw was sent twice.
            known = _listed(seen, ENTRIES)
            listed += [] if item in listed[len(known) :] else [item]
        elif at < len(listed):
            listed[at] = item
        return {**body, ENTRIES: listed}

    return _write_in_book(shop, put, at=at, based_on=based_on, by=by)


def put_entry_away(shop: Workshop, at: int, *, based_on: int, by: str) -> Saved | Conflict:
    """Put an entry of the own book away, where it can be taken out again.

    Raises
    ------
    CannotDo
        When a job names it.
    """
    known = own_book(drawer(shop)).entries
    if at < len(known) and known[at].name:
        _unnamed(shop, known[at].name, otherwise="choose another fitting there first")

    def put(_seen: Json, body: dict[str, Any]) -> dict[str, Any]:
        listed = list(body.get(ENTRIES, []))
        gone = listed[at : at + 1]
        return {**body, ENTRIES: listed[:at] + listed[at + 1 :], AWAY: [*body.get(AWAY, []), *gone]}

    return _write_in_book(shop, put, at=at, based_on=based_on, by=by)


def take_entry_out(shop: Workshop, at: int, *, based_on: int, by: str) -> Saved | Conflict:
    """Take an entry out again that was put away; ``at`` is its place among those."""

    def put(_seen: Json, body: dict[str, Any]) -> dict[str, Any]:
        away = list(body.get(AWAY, []))
        back = away[at : at + 1]
        return {
            **body, ENTRIES: [*body.get(ENTRIES, []), *back], AWAY: away[:at] + away[at + 1 :]
        }  # fmt: skip

    return _write_in_book(shop, put, at=at, place=AWAY, based_on=based_on, by=by)


def _write_in_book(
    shop: Workshop, put: Callable[[Json, dict[str, Any]], dict[str, Any]], *, at: int | None,
    place: str = ENTRIES, based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    def same(seen: Json, newest: Json) -> bool:
        return at is None or _first(seen, place, at) == _first(newest, place, at)

    change = ThingChange(
        kind=BOOK, drum="", based_on=based_on, same=same,
        put=lambda seen, base: put(seen, base if isinstance(base, dict) else {}),
    )  # fmt: skip
    return write_thing(shop, None, change, by=by)


def _first(body: Json, place: str, at: int) -> list[Any]:
    """Return a list up to an entry: only then it is still the same one at that place."""
    return _listed(body, place)[: at + 1]


def _listed(body: Json, place: str) -> list[Any]:
    held = body.get(place, []) if isinstance(body, dict) else []
    return held if isinstance(held, list) else []


def _unnamed(shop: Workshop, name: str, *, otherwise: str) -> None:
    packaged = any(name_key(entry.name) == name_key(name) for entry in packaged_book())
    titles = () if packaged else named_in(shop, name)
    if titles:
        said = ", ".join(titles[:MOST_NAMED]) + (" and others" if titles[MOST_NAMED:] else "")
        raise CannotDo(f"“{name}” stands in a job ({said}): {otherwise}.")


def named_in(shop: Workshop, name: str) -> tuple[str, ...]:
    """Return the titles of the folders in sight that name a fitting."""
    wanted = name_key(name)
    with shop.store.reading() as connection:
        found = newest_bodies(connection, kinds=(SURVEY, WISH, JOB))
        titles = {one.id: str(one.label.get("title", "")) for one in job_folders(connection)}
    ids = [
        one.document.job_id for one in found if wanted in map(name_key, _texts(one.revision.body))
    ]
    return tuple(titles.get(str(job_id), "") for job_id in dict.fromkeys(ids))


def _texts(body: Json) -> Iterator[str]:
    if isinstance(body, str):
        yield body
    elif isinstance(body, Mapping):
        for name, inner in body.items():
            yield name
            yield from _texts(inner)
    elif isinstance(body, list):
        for inner in body:
            yield from _texts(inner)
