"""The tables of a survey file from the documents of a folder, and back."""

from __future__ import annotations

import copy
import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Any

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import (
    APPROVAL,
    CHOICE,
    CHOSEN,
    JOB,
    KEPT_APART,
    KIT,
    SURVEY,
    TUNING,
    WISH,
    WISHED,
)
from counterhoop.bench.folders.own_figures import own_figures
from counterhoop.fittings.book import name_key
from counterhoop.store.body import Json, new_id

SHARED = ("rules", "prices", "minutes", "cure", "stock", "wraps")
"""Tables that the workshop has too; what the job says goes over them."""
FORMAT = 1


def tables_of(
    job: KeptJob, *, shop: Mapping[str, Kept], drums: Iterable[KeptDrum] | None = None
) -> dict[str, Any]:
    """Return the tables of a survey file that says what a folder says.

    Parameters
    ----------
    job : KeptJob
        The folder.
    shop : mapping of str to Kept
        The workshop's own documents; ``{}`` leaves its figures out. What cannot be read in them is
        left out too, so that one slip there does not stop every job.
    drums : iterable of KeptDrum, optional
        Only these; all in sight where none are named.
    """
    wanted = tuple(job.drums if drums is None else drums)
    written = job.kept(JOB).table
    names = {drum.id: drum.name for drum in wanted}
    tables: dict[str, Any] = {"format": FORMAT, "job": dict(job.job)}
    if job.books:
        tables["job"]["book"] = list(job.books)
    rules = own_figures(shop, books=job.books).table
    for name in SHARED:
        own = written.get(name, {})
        # What is no table is handed on as it is: the reader says so.
        both = _over(_table(rules.get(name)), own) if isinstance(own, dict) else own
        if both:
            tables[name] = both
    match = _matching(written.get("match", []), names)
    if match:
        tables["match"] = match
    kit = _kit_of(job.kept(KIT).table, names.values())
    if kit:
        tables["kit"] = kit
    approvals = [{"drum": drum.name, **yes} for drum in wanted for yes in drum.kept(APPROVAL).rows]
    if approvals:
        tables["approval"] = approvals
    tables["drums"] = {drum.name: drum_table(drum) for drum in wanted}
    return copy.deepcopy(tables)


def drum_table(drum: KeptDrum) -> dict[str, Any]:
    """Return one drum as a survey file has it.

    Nothing that is written as a wish stands in for what the survey says: a drum as found would
    change without a correction.
    """
    found, wished = drum.kept(SURVEY).table, drum.kept(WISH).table
    table = found | {name: wished[name] for name in WISHED if name in wished}
    for name, kind in ((CHOSEN, CHOICE), (TUNING, TUNING)):
        if drum.kept(kind).table:
            table[name] = drum.kept(kind).table
    return table


def documents_in(tables: Mapping[str, Any]) -> dict[tuple[str, str], Json]:
    """Return the documents that the tables of a survey file come to, by kind and drum.

    Drums get names for programs here; the names that people use stay in the job's list.
    """
    plain = _plain(tables)
    assert isinstance(plain, dict)
    ids = {name: new_id() for name in plain.get("drums", {})}
    job: dict[str, Any] = {"job": {k: v for k, v in plain["job"].items() if k != "book"}}
    job |= {name: plain[name] for name in SHARED if plain.get(name)}
    if plain.get("match"):
        job["match"] = [
            {"drums": [ids[_named(name)] for name in group["drums"]]} for group in plain["match"]
        ]
    job["drums"] = [{"id": ids[name], "name": name} for name in ids]
    made: dict[tuple[str, str], Json] = {(JOB, ""): job}
    if plain.get("kit"):
        made[KIT, ""] = plain["kit"]
    for name, drum in plain.get("drums", {}).items():
        key = ids[name]
        found = {k: v for k, v in drum.items() if k not in KEPT_APART}
        made[SURVEY, key] = found
        wished = {k: drum[k] for k in WISHED if drum.get(k)}
        if wished:
            made[WISH, key] = wished
        for part, kind in ((CHOSEN, CHOICE), (TUNING, TUNING)):
            if drum.get(part):
                made[kind, key] = drum[part]
        yes: list[Json] = [
            {k: v for k, v in one.items() if k != "drum"}
            for one in plain.get("approval", ())
            if _named(one["drum"]) == name
        ]
        if yes:
            made[APPROVAL, key] = yes
    return made


def same_tables(one: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    """Tell whether two sets of tables say the same.

    Aside from the order of names, the sort of days, tables with nothing in them, and the order of
    approvals of different drums.
    """
    return bool(_bare(one) == _bare(other))


def _bare(tables: Mapping[str, Any]) -> Any:
    plain = _plain(tables)
    for drum in plain.get("drums", {}).values():
        for name in KEPT_APART:
            if name in drum and not drum[name]:
                del drum[name]
    by_drum: dict[str, list[Any]] = {}
    for one in plain.pop("approval", ()):
        by_drum.setdefault(_named(one["drum"]), []).append({**one, "drum": ""})
    ids = {name: name for name in plain.get("drums", {})}
    plain["match"] = _matching(plain.get("match", []), ids)
    return {name: value for name, value in plain.items() if value}, by_drum


def _named(drum: str) -> str:
    """Return a drum's name as the reader of survey files takes it where others are named."""
    return drum.strip()


def _plain(value: Any) -> Any:
    """Return a value with days and times as texts, as JSON has them."""
    if isinstance(value, Mapping):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    return value


def _matching(written: Any, names: Mapping[str, str]) -> Any:
    """Return the groups of drums that must match, by the names that people use."""
    if not isinstance(written, list):
        return written
    groups = []
    for group in written:
        listed = group.get("drums") if isinstance(group, dict) else None
        if not isinstance(listed, list):
            groups.append(group)
            continue
        known = (_named(drum) for drum in listed if isinstance(drum, str))
        drums = [names[drum] for drum in known if drum in names]
        # A group of which one drum is left, the others not being looked at, asks for nothing.
        if len(drums) > 1:
            groups.append({**group, "drums": drums})
    return groups


def _kit_of(written: dict[str, Any], drums: Iterable[str]) -> dict[str, Any]:
    """Return the wish for the kit's pitches without drums that are not being looked at."""
    here = set(drums)

    def is_here(one: Any) -> bool:
        named = one.get("drum") if isinstance(one, dict) else None
        return not isinstance(named, str) or _named(named) in here

    kit = {
        name: [one for one in held if is_here(one)] if isinstance(held, list) else held
        for name, held in written.items()
        if isinstance(held, list) or is_here(held)
    }
    return {name: held for name, held in kit.items() if held != []}


def _over(shop: dict[str, Any], own: dict[str, Any]) -> dict[str, Any]:
    """Return the workshop's table with the job's own lines over it, whatever their capitals."""
    said = {name_key(name) for name in own}
    left = {name: v for name, v in shop.items() if name in own or name_key(name) not in said}
    return {**left, **own}


def _table(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}
