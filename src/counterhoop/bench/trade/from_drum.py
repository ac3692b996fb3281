"""A drum of a job as its folder lets one type it for sale: what it is like, what it brought."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import KeptDrum, KeptJob, drawer, job_of
from counterhoop.bench.folders.kinds import ARRIVAL, FACTS, HANDOVER, JOB, SURVEY
from counterhoop.bench.folders.read_so_far import read_so_far
from counterhoop.bench.record.sure import dated
from counterhoop.bench.shelf.whose import called, client_of, key_of
from counterhoop.bench.trade.drum_told import WIDE_YEARS, finish_said, kind_called, line_said
from counterhoop.bench.trade.own_sales import OwnSales
from counterhoop.bench.trade.parts_told import parts_told
from counterhoop.bench.workshop import Workshop
from counterhoop.job.trade.facts import CHANGED
from counterhoop.shell.drum import Drum
from counterhoop.shell.hole import Origin
from counterhoop.store.job_folder import LABEL
from counterhoop.store.mark import store_mark
from counterhoop.store.newest import Newest, newest_bodies


@dataclass(frozen=True, slots=True, kw_only=True)
class NotWritten:
    """A drum of the shop's own that was handed over and stands among no sales yet."""

    job: str
    drum: str
    says: str


def drum_typed(shop: Workshop, job: KeptJob, drum: KeptDrum) -> dict[str, str]:
    """Return the features of a drum as one would type them; what nobody looked at stays empty."""
    table, facts = drum.kept(SURVEY).table, drum.kept(FACTS).table
    opened = read_so_far(job, drum, shop=drawer(shop)).opened
    found = opened.job.drums[0].drum if opened else None
    dating = dated(shop, job, drum)
    span = dating.found.spans[0.8] if dating else None
    parts = parts_told(found, dating, ())
    changed = [one.name for one in parts if one.state in CHANGED and one.state != "missing"]
    settled = drum.kept(SURVEY).as_found is not None
    typed = {
        "size": str(table.get("size") or ""),
        "kind": kind_called(table),
        "line": line_said(facts),
        "made": f"{span.first} to {span.last}" if span and span.wide <= WIDE_YEARS else "",
        # Finishes are likened word by word: what stands behind a comma is about this one alone.
        "finish": finish_said(found, facts).partition(",")[0].strip(),
        "condition": ", ".join(_faults(found)),
        "extra_holes": _extra(found, settled=settled),
        "changed": ", ".join(changed) or ("none" if parts and settled else ""),
    }
    return {name: text for name, text in typed.items() if text}


def sale_typed_of(shop: Workshop, job: KeptJob, drum: KeptDrum) -> dict[str, str]:
    """Return the sale of a drum that left the bench, as far as its folder says it.

    What it brought is asked: an invoice of the job is of work.
    """
    handed, came = (
        day_written(job.kept(kind).table.get(name))
        for kind, name in ((HANDOVER, "handed_over"), (ARRIVAL, "came_on"))
    )
    typed = drum_typed(shop, job, drum) | {"what": called(job, drum.id)}
    # What was wrong with it as it came is not what it was sold with.
    typed.pop("condition", None)
    if handed:
        typed["sold_on"] = handed.isoformat()
    if handed and came and handed >= came:
        typed["days"] = str((handed - came).days)
    return typed


def not_written(shop: Workshop, own: OwnSales) -> tuple[NotWritten, ...]:
    """Return drums of jobs without a client that were handed over and are no sale yet."""
    with shop.store.reading() as connection:
        key = ("handed over, the shop's own", store_mark(connection))
    every: tuple[NotWritten, ...] = shop.remembered.get(key, lambda: _handed_over(shop))
    taken = {one.came_from for one in own.rows}
    return tuple(one for one in every if key_of(one.job, one.drum) not in taken)


def _handed_over(shop: Workshop) -> tuple[NotWritten, ...]:
    ids = [one.id for one in on_the_bench(shop) if one.state == "handed over"]
    by_job: dict[str, list[Newest]] = defaultdict(list)
    with shop.store.reading() as connection:
        for one in newest_bodies(connection, kinds=(LABEL, JOB), job_ids=ids):
            by_job[one.document.job_id or ""].append(one)
    jobs = (job_of(job_id, by_job[job_id]) for job_id in ids)
    return tuple(
        NotWritten(job=job.id, drum=drum.id, says=called(job, drum.id))
        for job in jobs
        if not client_of(job)
        for drum in job.drums
    )


def _faults(found: Drum | None) -> Iterable[str]:
    for kind in dict.fromkeys(line.kind for line in found.lines) if found else ():
        if kind in ("crack", "lifted ply"):
            yield kind


def _extra(found: Drum | None, *, settled: bool) -> str:
    """Count the extra holes; "none" only where the shell was gone over hole by hole."""
    if found is None:
        return ""
    many = sum(hole.origin is Origin.EXTRA for hole in found.holes)
    return str(many) if many else "none" if settled else ""
