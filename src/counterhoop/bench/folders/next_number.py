"""The number that the next job gets while nobody has given it one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from counterhoop.bench.folders.kinds import JOB
from counterhoop.bench.workshop import Workshop
from counterhoop.store.mark import store_mark
from counterhoop.store.newest import newest_bodies
from counterhoop.store.store import Connection

_LAST = re.compile(r"^(.*?)(\d{1,9})$")


def next_number(shop: Workshop) -> str:
    """Return the number after that of the job that was labelled last; 1 in an empty workshop."""
    with shop.store.reading() as connection:
        key = ("next number", store_mark(connection))
        number: str = shop.remembered.get(key, lambda: number_after(_taken(connection)))
    return number


def _taken(connection: Connection) -> Iterator[str]:
    """Yield the number of each job, the one that was labelled last at the end."""
    found = newest_bodies(connection, kinds=(JOB,))
    for one in sorted(found, key=lambda one: one.revision.made_at):
        table = one.revision.body.get("job") if isinstance(one.revision.body, dict) else None
        number = table.get("number") if isinstance(table, dict) else None
        if isinstance(number, str) and number:
            yield number


def number_after(taken: Iterable[str]) -> str:
    """Return the number that follows the last one and that no other job has.

    Parameters
    ----------
    taken : iterable of str
        Numbers as people write them, the last one last.

    Examples
    --------
    >>> number_after([]), number_after(["31"]), number_after(["30-009", "29-120", "26-099"])
    ('1', '32', '26-100')
    >>> number_after(["8", "the old one", "7"])
    '9'
    """
    numbers = [number.strip() for number in taken]
    counted = [found for number in numbers if (found := _LAST.match(number))]
    if not counted:
        return "1"
    front, last = counted[-1].groups()
    at = int(last) + 1
    while (new := f"{front}{at:0{len(last)}}") in numbers:
        at += 1
    return new
