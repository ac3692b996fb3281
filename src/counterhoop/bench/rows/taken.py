"""What files were taken, and how their columns were read: kept in the workshop's drawer."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from typing import Any, Final

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import ROWS
from counterhoop.bench.rows.waiting import Waiting
from counterhoop.bench.workshop import Workshop
from counterhoop.store.revision import find_document, newest
from counterhoop.store.save import Conflict, save
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection

MOST_TAKEN: Final = 50
MOST_HEADERS: Final = 30
_TAKEN, _COLUMNS = "taken", "columns"
Body = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A file whose rows were taken.

    Attributes
    ----------
    id : str
        Its name for programs while it waited.
    sort, file : str
        What its rows are, and how the file was called.
    new, changed, left, refused : int
        Rows of each.
    at, by : str
        When and at which bench.
    """

    id: str
    sort: str
    file: str
    new: int
    changed: int
    left: int
    refused: int
    at: str
    by: str


def taken_files(shop: Workshop) -> tuple[Taken, ...]:
    """Return the files that were taken lately, the last one first."""
    return tuple(Taken(**one) for one in drawer(shop).get(ROWS, Kept()).table.get(_TAKEN, ()))


def find_taken(shop: Workshop, id_: str) -> Taken | None:
    """Return a file that was taken, or None."""
    return next((one for one in taken_files(shop) if one.id == id_), None)


def record_taken(connection: Connection, taken: Taken, *, stamp: Stamp) -> bool:
    """Write down that a file was taken, inside the block that takes it.

    Returns
    -------
    bool
        False when it was taken before: then its rows are there and must not come twice.
    """
    before = _body(connection).get(_TAKEN, [])
    if any(one["id"] == taken.id for one in before):
        return False
    _write(
        connection,
        lambda body: {**body, _TAKEN: [asdict(taken), *body.get(_TAKEN, [])][:MOST_TAKEN]},
        stamp=stamp,
    )
    return True


def remember_columns(shop: Workshop, one: Waiting, header: tuple[str, ...], *, by: str) -> None:
    """Write down how the columns of a file were chosen, for the next one with the same headers."""
    said: Body = {
        "sort": one.sort,
        "header": list(header),
        "fields": [one.chosen.get(at, "") for at in range(len(header))],
        "units": {str(at): unit for at, unit in one.units.items()},
    }

    def put(body: Body) -> Body:
        before = [each for each in body.get(_COLUMNS, []) if not _same(each, one.sort, header)]
        return {**body, _COLUMNS: [said, *before][:MOST_HEADERS]}

    if said not in drawer(shop).get(ROWS, Kept()).table.get(_COLUMNS, []):
        with shop.store.writing() as connection:
            _write(connection, put, stamp=shop.stamp(by))


def columns_before(
    shop: Workshop, sort: str, header: tuple[str, ...]
) -> tuple[dict[int, str], dict[int, str]] | None:
    """Return the fields and units that were chosen for the same headers, or None."""
    for each in drawer(shop).get(ROWS, Kept()).table.get(_COLUMNS, ()):
        if _same(each, sort, header):
            units = {int(at): unit for at, unit in each["units"].items()}
            return dict(enumerate(each["fields"])), units
    return None


def _same(each: Mapping[str, Any], sort: str, header: tuple[str, ...]) -> bool:
    return each["sort"] == sort and tuple(each["header"]) == header


def _body(connection: Connection) -> Body:
    found = find_document(connection, job_id=None, kind=ROWS)
    body = newest(connection, found).body if found is not None and found.head else None
    return body if isinstance(body, dict) else {}


def _write(connection: Connection, put: Callable[[Body], Body], *, stamp: Stamp) -> None:
    # Whoever was faster is built upon: two benches add to the list, neither takes anything out.
    while True:
        found = find_document(connection, job_id=None, kind=ROWS)
        done = save(
            connection, job_id=None, kind=ROWS, body=put(_body(connection)),
            based_on=found.head if found else 0, stamp=stamp,
        )  # fmt: skip
        if not isinstance(done, Conflict):
            return
