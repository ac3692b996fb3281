"""Files that belong to nothing: found, and put away without being lost."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from store_samples import START, fill, photograph, rows_of, saved, sound, stamp

from counterhoop.errors import CannotDo
from counterhoop.store.address import Address
from counterhoop.store.copies.orphans import put_away_orphans
from counterhoop.store.copies.verify import verify
from counterhoop.store.enclosures.enclose import enclose
from counterhoop.store.enclosures.keep import INCOMING, keep_file, place_of
from counterhoop.store.job_folder import open_job
from counterhoop.store.save import save
from counterhoop.store.store import Store, open_store

HOUR = dt.timedelta(hours=1)


def written_at(file: Path, when: dt.datetime) -> None:
    os.utime(file, (when.timestamp(), when.timestamp()))


def broken_off(store: Store) -> list[Path]:
    """Leave what a crash between a file and its row leaves, and what a broken upload leaves."""
    kept = keep_file(store, [photograph(shade=200)])
    orphan = place_of(store.address.files, kept.sha256)
    half = store.address.files / INCOMING / "ab12.part"
    half.parent.mkdir(exist_ok=True)
    half.write_bytes(photograph()[:200])
    astray = store.address.files / "zz" / "cover.jpg"
    astray.parent.mkdir()
    astray.write_bytes(b"copied here by hand")
    for file in (orphan, half, astray):
        written_at(file, START - HOUR)
    return [orphan, half, astray]


def test_what_belongs_to_nothing_is_listed_and_put_away(store: Store) -> None:
    fill(store)
    before = rows_of(store)
    orphan, half, astray = left = broken_off(store)
    content = [file.read_bytes() for file in left]
    assert sorted(verify(store).leftovers) == [
        "half-written: incoming/ab12.part",
        f"orphaned: {orphan.parent.name}/{orphan.name}",
        "orphaned: zz/cover.jpg",
    ]
    away = put_away_orphans(store, older_than=START)
    assert {file.parent for file in away} == {store.address.folder / "orphans"}
    assert not any(file.exists() for file in left)
    by_name = {file.name: file.read_bytes() for file in away}
    assert [by_name[file.name] for file in (orphan, half, astray)] == content
    verdict = verify(store)
    assert (verdict.sound, verdict.leftovers, verdict.files) == (True, (), 4)
    assert rows_of(store) == before
    assert put_away_orphans(store, older_than=START) == ()


def test_what_is_new_may_be_about_to_be_enclosed(file_store: Store) -> None:
    orphan, half, _ = broken_off(file_store)
    written_at(orphan, START)
    written_at(half, START + HOUR)
    assert [file.name for file in put_away_orphans(file_store, older_than=START)] == ["cover.jpg"]
    assert orphan.exists()
    assert half.exists()


def test_what_was_put_away_before_is_not_overwritten(file_store: Store) -> None:
    first = broken_off(file_store)[2]
    put_away_orphans(file_store, older_than=START)
    first.write_bytes(b"another of that name")
    written_at(first, START - HOUR)
    (second,) = put_away_orphans(file_store, older_than=START)
    assert (second.name, second.read_bytes()) == ("cover.jpg-2", b"another of that name")
    assert (second.parent / "cover.jpg").read_bytes() == b"copied here by hand"


def test_a_photograph_that_was_put_away_can_be_sent_again(file_store: Store) -> None:
    orphan = broken_off(file_store)[0]
    put_away_orphans(file_store, older_than=START)
    kept = keep_file(file_store, [photograph(shade=200)])
    with file_store.writing() as w:
        job = open_job(w, title="Corvane kit", stamp=stamp())
        enclose(w, job_id=job, file=kept, name_given="front.jpg", stamp=stamp())
    assert orphan.exists()
    assert (verify(file_store).sound, verify(file_store).leftovers) == (True, ())


def test_enclosed_while_somebody_puts_away(new_address: Callable[[str], Address]) -> None:
    """A photograph that came a moment ago stays, also when it was an old orphan before."""
    with open_store(new_address("store")) as store:
        with store.writing() as w:
            job = open_job(w, title="Corvane kit", stamp=stamp())
        old = place_of(store.address.files, keep_file(store, [sound()]).sha256)
        written_at(old, START - HOUR)
        kept = keep_file(store, [sound()])
        assert put_away_orphans(store, older_than=START) == ()
        with store.writing() as w:
            enclose(w, job_id=job, file=kept, name_given="tap.wav", stamp=stamp())
            saved(save(w, job_id=job, kind="notes", body="x", based_on=0, stamp=stamp()))
        assert verify(store).sound


def test_a_folder_that_cannot_be_made_is_said(file_store: Store) -> None:
    left = broken_off(file_store)
    (file_store.address.folder / "orphans").write_text("a file in its place")
    with pytest.raises(CannotDo, match="cannot be used"):
        put_away_orphans(file_store, older_than=START)
    assert all(file.exists() for file in left)
