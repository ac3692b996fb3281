"""A store as it is after years: many jobs, most of their documents changed more than once.

The same every time. The rows are put in at once, not saved one by one, which would take minutes;
``test_large_store.py`` holds that looking the store over finds nothing wrong with them.
"""

from __future__ import annotations

import datetime as dt
import random
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from sqlalchemy import Connection, Table, insert
from store_samples import photograph, stamp

from counterhoop.quantities.length import parse_length
from counterhoop.quantities.nanometres import whole_nm
from counterhoop.store.body import hash_of, write_body
from counterhoop.store.enclosures.keep import keep_file
from counterhoop.store.stamp import write_time
from counterhoop.store.store import Store
from counterhoop.store.tables import document, drum, enclosure, hiding, job, kept_file, revision

BENCHES = ("window bench", "phone", "laptop")
CODE = "TVK6-H94E"
ROWS_AT_ONCE = 500
WEIGHTS = {"survey": 6, "ticks": 3, "wish": 2}
"""A survey is typed field by field, so it has the most versions."""
SURNAMES = ("Dunmarrow", "Corvane", "Hallmere", "Quennick")


@dataclass(slots=True, kw_only=True)
class Written:
    """One document before it is put in."""

    id: str
    job_id: str | None
    kind: str
    name: str
    body: Any
    revisions: int = 1
    changed_at: str = ""


def fill_large_store(
    store: Store, *, jobs: int = 300, drums: int = 1500, revisions: int = 20_000
) -> tuple[str, ...]:
    """Fill an empty store and return the folders' names, the oldest first.

    Surveys are those of the demonstration's drums, over and over; earlier versions lack what was
    typed later. The first drum of the first folder has by far the longest history. The last
    twelfth of the folders is on the bench, the others are handed over. Every thirtieth folder is
    hidden and every fiftieth survey; each folder has two photographs.
    """
    chance = random.Random(20_000)
    written = [*_documents(jobs, drums)]
    _share_out(written, revisions=revisions, chance=chance)
    kept = [keep_file(store, [photograph(shade=40 * shade)]) for shade in range(5)]
    with store.writing() as w:
        names = [f"{number:016x}" for number in range(jobs)]
        opened = {"opened_at": stamp().written, "opened_by": "window bench"}
        _put(w, job, ({"id": name, **opened} for name in names))
        _put(w, drum, _tabs(written))
        rows = [*_revision_rows(written, chance)]
        _put(w, document, (_document_row(one) for one in written))
        _put(w, revision, iter(rows))
        _put(w, hiding, _hidden_rows(names, written))
        kinds = (
            {"sha256": one.sha256, "size": one.size, "media_type": "image/jpeg"} for one in kept
        )
        _put(w, kept_file, kinds)
        _put(w, enclosure, _enclosed_rows(names, [one.sha256 for one in kept]))
    return tuple(names)


def _documents(jobs: int, drums: int) -> Iterator[Written]:
    file = files("counterhoop.bench") / "demonstration" / "survey.toml"
    tables = tomllib.loads(file.read_text(encoding="utf-8"))
    pattern = [*_plain(tables["drums"]).items()]
    number = iter(range(10**9))

    def new(job_id: str | None, kind: str, name: str, body: Any) -> Written:
        return Written(id=f"{next(number):016x}", job_id=job_id, kind=kind, name=name, body=body)

    shared = {name: _plain(tables[name]) for name in ("rules", "prices", "minutes", "stock")}
    yield new(None, "rules", "", shared)
    yield new(
        None,
        "printer",
        "",
        {"paper": "A4", "measured": "179.6 mm, 249.5 mm", "thickness": "0.1 mm"},
    )
    for place in range(jobs):
        job_id = f"{place:016x}"
        named = [
            {
                "id": f"{which:04x}",
                "name": f"{pattern[which % len(pattern)][0]} {which // jobs + 1}",
            }
            for which in range(place, drums, jobs)
        ]
        client = f"{SURNAMES[place % len(SURNAMES)]} band {place}"
        head = {
            **_plain(tables["job"]),
            "number": f"{20 + place // 60}-{place % 60:03}",
            "client": client,
        }
        yield new(job_id, "label", "", {"title": f"{head['number']}, {client}"})
        yield new(
            job_id, "job", "", {"job": head, "drums": named, "wraps": _plain(tables["wraps"])}
        )
        yield new(job_id, "arrival", "", {"came": ["shell", "both heads"], "missing": ["a T-rod"]})
        if place < jobs - max(1, jobs // 12):
            yield new(job_id, "handover", "", {"handed_over": "2026-03-30", "kept": "in a bag"})
        for one in named:
            which, key = int(one["id"], 16), one["id"]
            table = dict(pattern[which % len(pattern)][1])
            wished = {name: table.pop(name) for name in ("wish", "finish_plan") if name in table}
            table.pop("chosen", None)
            yield new(job_id, "survey", key, table)
            yield new(job_id, "wish", key, wished)
            yield new(job_id, "facts", key, {"badge": "oval, brass", "who says so": "the shop"})
            yield new(job_id, "choice", key, {"scheme": CODE, "moved": []})
            if which % 2:
                yes = {"who": client, "when": "2026-03-21", "how": "by letter", "covers": CODE}
                yield new(job_id, "approval", key, [yes])
                done = {str(hole): {"when": "2026-03-22", "by": "phone"} for hole in range(1, 25)}
                yield new(job_id, "ticks", key, {"code": CODE, "done": done})


def _share_out(written: list[Written], *, revisions: int, chance: random.Random) -> None:
    left = revisions - len(written)
    assert left >= 0, f"{len(written)} documents need as many revisions"
    first = next(one for one in written if one.kind == "survey")
    first.revisions += left // 50
    chosen = chance.choices(
        written, [WEIGHTS.get(one.kind, 1) for one in written], k=left - left // 50
    )
    for one in chosen:
        one.revisions += 1


def _so_far(body: Any, number: int, of: int) -> Any:
    """Return what had been written of a body by one of its versions."""
    if not isinstance(body, dict) or not body:
        return body
    return dict([*body.items()][: -(-len(body) * number // of)])


def _document_row(one: Written) -> dict[str, Any]:
    row = {"id": one.id, "job_id": one.job_id, "kind": one.kind, "name": one.name}
    return {**row, "head": one.revisions, "as_found": None, "changed_at": one.changed_at}


def _revision_rows(written: list[Written], chance: random.Random) -> Iterator[dict[str, Any]]:
    for one in written:
        day = chance.randrange(2000)
        for number in range(1, one.revisions + 1):
            text = write_body(_so_far(one.body, number, one.revisions))
            when = stamp(minutes=day * 1440 + number).when + dt.timedelta(seconds=chance.random())
            one.changed_at = write_time(when)
            yield {
                "document_id": one.id,
                "number": number,
                "made_at": one.changed_at,
                "bench": chance.choice(BENCHES),
                "based_on": number - 1,
                "chosen_from": None,
                "body": text,
                "original": None,
                "sha256": hash_of(text, None),
            }


def _tabs(written: list[Written]) -> Iterator[dict[str, Any]]:
    surveys = {one.name: one.body for one in written if one.kind == "survey"}
    for one in written:
        if one.kind != "job":
            continue
        for place, named in enumerate(one.body["drums"]):
            size = re.fullmatch(r"(.+) dia x (.+) deep", surveys[named["id"]]["size"])
            assert size
            across, deep = parse_length(size[1]), parse_length(size[2])
            yield {
                "job_id": one.job_id,
                "name": named["name"],
                "place": place,
                "diameter_nm": whole_nm(across),
                "diameter_written": across.as_written,
                "depth_nm": whole_nm(deep),
                "depth_written": deep.as_written,
            }


def _hidden_rows(names: list[str], written: list[Written]) -> Iterator[dict[str, Any]]:
    things = [("job", name) for name in names[29::30]]
    surveys = [one.id for one in written if one.kind == "survey"]
    things += [("document", document_id) for document_id in surveys[49::50]]
    for thing, thing_id in things:
        both = {"thing": thing, "thing_id": thing_id, "hidden_by": "laptop"}
        back = {"back_at": stamp(1).written, "back_by": "phone"}
        yield {**both, "turn": 1, "hidden_at": stamp().written, **back}
        yield {**both, "turn": 2, "hidden_at": stamp(2).written, "back_at": None, "back_by": None}


def _enclosed_rows(names: list[str], hashes: list[str]) -> Iterator[dict[str, Any]]:
    for place, job_id in enumerate(names):
        for which in range(2):
            yield {
                "id": f"{2 * place + which:016x}",
                "job_id": job_id,
                "drum": "",
                "sha256": hashes[(place + which) % len(hashes)],
                "name_given": f"front {which}.jpg",
                "position_removed": 1,
                "added_at": stamp(place).written,
                "bench": "phone",
            }


def _put(connection: Connection, table: Table, rows: Iterator[dict[str, Any]]) -> None:
    held: list[dict[str, Any]] = []
    for row in rows:
        held.append(row)
        if len(held) == ROWS_AT_ONCE:
            connection.execute(insert(table), held)
            held = []
    if held:
        connection.execute(insert(table), held)


def _plain(value: Any) -> Any:
    """Return a table as a document keeps it: days as text."""
    if isinstance(value, dict):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [_plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, dt.date) else value
