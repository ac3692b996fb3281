"""The large store that speeds are measured on is a store like any other, the same every time."""

from __future__ import annotations

from pathlib import Path

from large_store import fill_large_store
from sqlalchemy import func, select
from store_samples import rows_of

from counterhoop.store.address import address_of
from counterhoop.store.copies.verify import verify
from counterhoop.store.job_folder import job_folders
from counterhoop.store.newest import newest_bodies
from counterhoop.store.store import Store, open_store
from counterhoop.store.tables import document, drum, revision

SMALL = {"jobs": 31, "drums": 120, "revisions": 1000}


def test_a_large_store_is_sound_and_as_large_as_it_should_be(store: Store) -> None:
    names = fill_large_store(store, **SMALL)
    verdict = verify(store)
    assert (verdict.faults, verdict.leftovers) == ((), ())
    with store.reading() as r:
        counted = [
            r.execute(select(func.count()).select_from(t)).scalar_one() for t in (drum, revision)
        ]
        folders = job_folders(r, with_hidden=True)
        surveys = newest_bodies(r, kinds=("survey",), job_ids=names)
        longest = r.execute(select(func.max(document.c.head))).scalar_one()
    assert counted == [120, 1000]
    assert {one.id for one in folders} == set(names)
    assert sum(one.hidden for one in folders) == 1
    assert len(surveys) == 120
    assert sum(one.hidden for one in surveys) == 2
    assert longest >= 4


def test_a_large_store_is_the_same_every_time(tmp_path: Path) -> None:
    found = []
    for name in ("one", "other"):
        with open_store(address_of(data=tmp_path / name)) as store:
            fill_large_store(store, **SMALL)
            found.append(rows_of(store))
    assert found[0] == found[1]
