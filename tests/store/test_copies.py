"""Backups, looking a store over, and the way back."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import sqlite3
import threading
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from zipfile import ZipFile

import pytest
from sqlalchemy import update
from store_samples import (
    START,
    files_of,
    fill,
    note_in_first_shape,
    photograph,
    rows_of,
    saved,
    stamp,
)

from counterhoop.errors import CannotDo
from counterhoop.store import migrate
from counterhoop.store.address import Address, address_of
from counterhoop.store.copies.backup import Backup, back_up
from counterhoop.store.copies.manifest import DATABASE, MANIFEST, Piece, write_manifest
from counterhoop.store.copies.restore import restore
from counterhoop.store.copies.verify import verify
from counterhoop.store.copy_database import copy_database
from counterhoop.store.enclosures.keep import keep_file
from counterhoop.store.save import save
from counterhoop.store.store import Store, open_store
from counterhoop.store.tables import document, kept_file, revision

LATER = START + dt.timedelta(days=1)


def made(store: Store, folder: Path) -> Backup:
    return back_up(store, to=folder / "drums.zip", made_at=LATER)


@pytest.fixture
def archive(file_store: Store, tmp_path: Path) -> Path:
    fill(file_store)
    return made(file_store, tmp_path).archive


def test_a_filled_store_is_sound(store: Store) -> None:
    fill(store)
    verdict = verify(store)
    assert (verdict.faults, verdict.leftovers, verdict.sound) == ((), (), True)
    assert (verdict.revisions, verdict.files) == (10, 4)


def test_everything_comes_back_from_a_backup(
    store: Store, new_address: Callable[[str], Address], tmp_path: Path
) -> None:
    """Exact law: every row and every file is what it was."""
    fill(store)
    backup = made(store, tmp_path)
    assert (backup.files, backup.missing, backup.changed) == (4, (), ())
    to = new_address("again")
    restore(backup.archive, to=to)
    with open_store(to) as again:
        assert rows_of(again) == rows_of(store)
        assert files_of(to.files) == {
            name: content
            for name, content in files_of(store.address.files).items()
            if not name.startswith("incoming")
        }
        assert verify(again) == verify(store)
        # And it goes on from there.
        with again.writing() as w:
            saved(save(w, job_id=None, kind="notes", body=1, based_on=0, stamp=stamp()))
    assert not list(tmp_path.glob(".*"))


def test_a_backup_goes_from_either_database_into_the_other(
    store: Store, new_address: Callable[[str], Address], tmp_path: Path
) -> None:
    fill(store)
    archive = made(store, tmp_path).archive
    as_file = address_of(data=tmp_path / "as-file")
    restore(archive, to=as_file)
    with open_store(as_file) as again:
        assert rows_of(again) == rows_of(store)
        back = back_up(again, to=tmp_path / "back.zip", made_at=LATER).archive
    to = new_address("back")
    restore(back, to=to)
    with open_store(to) as again:
        assert rows_of(again) == rows_of(store)


def test_a_backup_of_an_older_store_is_restored_and_then_migrated(
    new_address: Callable[[str], Address], tmp_path: Path
) -> None:
    with open_store(new_address("old"), shape="0001") as store:
        with store.writing() as w:
            note_in_first_shape(w, "mine")
        copy_database(store.engine, to=tmp_path / "copy")
    content = (tmp_path / "copy").read_bytes()
    piece = Piece(name=DATABASE, size=len(content), sha256=hashlib.sha256(content).hexdigest())
    with ZipFile(tmp_path / "drums.zip", "w") as out:
        out.writestr(DATABASE, content)
        out.writestr(MANIFEST, write_manifest([piece], made_at="", shape="0001"))
    to = new_address("again")
    restore(tmp_path / "drums.zip", to=to)
    with open_store(to) as again:
        assert verify(again).sound
        assert [row[6] for row in rows_of(again)["revision"]] == ['"mine"']
    assert len(list((to.folder / "before-migration").iterdir())) == 1


def test_one_backup_holds_one_state_while_saving_goes_on(store: Store, tmp_path: Path) -> None:
    """Exact law: two documents that are always saved together stand at the same number in it."""
    stop = threading.Event()

    def keep_saving() -> None:
        turn = 0
        with open_store(store.address) as mine:
            while not stop.is_set():
                with mine.writing() as w:
                    for kind in ("left", "right"):
                        save(w, job_id=None, kind=kind, body=turn, based_on=turn, stamp=stamp())
                turn += 1

    writer = threading.Thread(target=keep_saving)
    writer.start()
    try:
        for number in range(5):
            to = tmp_path / f"{number}.zip"
            back_up(store, to=to, made_at=LATER)
            again = address_of(data=tmp_path / str(number))
            restore(to, to=again)
            with open_store(again) as opened, opened.reading() as r:
                heads = list(r.execute(document.select()).mappings())
                assert len({row["head"] for row in heads}) <= 1
            with open_store(again) as opened:
                assert verify(opened).sound
    finally:
        stop.set()
        writer.join()


def test_a_restore_overwrites_nothing(archive: Path, file_store: Store, tmp_path: Path) -> None:
    before = rows_of(file_store)
    with pytest.raises(CannotDo, match="overwrites nothing"):
        restore(archive, to=file_store.address)
    assert rows_of(file_store) == before
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "diary.txt").write_text("dear")
    with pytest.raises(CannotDo, match="overwrites nothing"):
        restore(archive, to=address_of(data=tmp_path / "mine"))
    assert files_of(tmp_path / "mine") == {"diary.txt": b"dear"}


def test_a_restore_overwrites_no_database(
    store: Store, new_address: Callable[[str], Address], tmp_path: Path
) -> None:
    fill(store)
    archive = made(store, tmp_path).archive
    taken = Address(database=store.address.database, folder=tmp_path / "empty")
    if store.address.in_a_file:
        taken = store.address
    with pytest.raises(CannotDo, match="overwrites nothing"):
        restore(archive, to=taken)


def test_a_backup_overwrites_nothing(archive: Path, file_store: Store) -> None:
    before = archive.read_bytes()
    with pytest.raises(CannotDo, match="nothing is overwritten"):
        back_up(file_store, to=archive, made_at=LATER)
    assert archive.read_bytes() == before


@pytest.mark.parametrize("part", [0, 0.1, 0.5, 0.9, 0.999])
def test_a_half_written_archive_is_turned_away(archive: Path, tmp_path: Path, part: float) -> None:
    content = archive.read_bytes()
    archive.write_bytes(content[: int(part * len(content))])
    with pytest.raises(CannotDo, match="not whole"):
        restore(archive, to=address_of(data=tmp_path / "again"))
    assert not (tmp_path / "again").exists()
    assert not list(tmp_path.glob(".*"))


def test_no_changed_byte_goes_unseen(archive: Path, tmp_path: Path) -> None:
    """Brute force: bytes all through the archive are turned over, one at a time.

    What a byte of padding or of a time stamp says does not matter; then the store is the same.
    """
    content = archive.read_bytes()
    restore(archive, to=address_of(data=tmp_path / "right"))
    right = files_of(tmp_path / "right")
    turned_away = 0
    places = range(0, len(content), max(1, len(content) // 150))
    for at in places:
        archive.write_bytes(content[:at] + bytes([content[at] ^ 0xFF]) + content[at + 1 :])
        to = address_of(data=tmp_path / f"again-{at}")
        try:
            restore(archive, to=to)
        except CannotDo:
            turned_away += 1
            assert not to.folder.exists()
        else:
            assert files_of(to.folder) == right
    assert turned_away > 0.9 * len(places)


def repacked(archive: Path, **changes: object) -> Path:
    """Return the archive with another manifest, or with a piece more."""
    to = archive.with_name("repacked.zip")
    with ZipFile(archive) as source, ZipFile(to, "w") as out:
        for name in source.namelist():
            content = source.read(name)
            if name == "manifest.json":
                content = json.dumps({**json.loads(content), **changes}).encode()
            out.writestr(name, content)
    return to


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"version": 99}, "newer Counterhoop"),
        ({"format": "recipes"}, "not a Counterhoop backup"),
        ({"pieces": {}}, "no database"),
        ({"pieces": {"../outside": {"size": 1, "sha256": "0" * 64}}}, "names files"),
        ({"pieces": {"/outside": {"size": 1, "sha256": "0" * 64}}}, "names files"),
        ({"pieces": ["counterhoop.sqlite3"]}, "cannot be read"),
        ({"pieces": {"counterhoop.sqlite3": {"size": 1, "sha256": "0" * 64}}}, "not whole"),
    ],
)
def test_an_archive_of_something_else_is_turned_away(
    archive: Path, tmp_path: Path, changes: dict[str, object], says: str
) -> None:
    with pytest.raises(CannotDo, match=says):
        restore(repacked(archive, **changes), to=address_of(data=tmp_path / "again"))
    assert not (tmp_path / "again").exists()
    assert not (tmp_path / "outside").exists()


def test_an_archive_that_unpacks_to_more_than_it_lists_is_cut_off(
    archive: Path, tmp_path: Path
) -> None:
    from zipfile import ZIP_DEFLATED

    with ZipFile(archive) as source:
        listed = json.loads(source.read("manifest.json"))
        others = {name: source.read(name) for name in source.namelist()}
    with ZipFile(archive, "w", ZIP_DEFLATED) as out:
        for name, content in others.items():
            big = bytes(200_000_000) if name == "counterhoop.sqlite3" else content
            out.writestr(name, big)
    assert listed["pieces"]["counterhoop.sqlite3"]["size"] < 1_000_000
    with pytest.raises(CannotDo, match="not whole"):
        restore(archive, to=address_of(data=tmp_path / "again"))


def test_a_backup_of_a_newer_store_is_turned_away(
    archive: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(migrate, "NEWEST", "0001")
    with pytest.raises(CannotDo, match="newer Counterhoop"):
        restore(archive, to=address_of(data=tmp_path / "again"))
    assert not (tmp_path / "again").exists()


def test_an_archive_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(CannotDo, match="No such file"):
        restore(tmp_path / "none.zip", to=address_of(data=tmp_path / "again"))


def test_lost_changed_and_stray_files_are_named(store: Store, tmp_path: Path) -> None:
    fill(store)
    with store.reading() as r:
        lost, changed, *_ = sorted(row.sha256 for row in r.execute(kept_file.select()))
    files = store.address.files
    (files / lost[:2] / lost).unlink()
    (files / changed[:2] / changed).write_bytes(b"something else")
    (files / "incoming" / "x.part").write_bytes(b"half")
    (files / "ab").mkdir(exist_ok=True)
    (files / "ab" / "stray").write_bytes(b"x")
    keep_file(store, [photograph(shade=7)])  # kept, but put into no folder
    verdict = verify(store)
    assert not verdict.sound
    assert sorted(verdict.faults) == [f"changed file: {changed}", f"missing file: {lost}"]
    assert sorted(line.split(":")[0] for line in verdict.leftovers) == [
        "half-written", "orphaned", "orphaned",
    ]  # fmt: skip
    # A backup is made all the same, and says so.
    backup = made(store, tmp_path)
    assert (backup.files, backup.missing, backup.changed) == (3, (lost,), (changed,))


def test_a_revision_that_was_tampered_with_is_named(store: Store) -> None:
    fill(store)
    with store.writing() as w:
        w.execute(update(revision).where(revision.c.body == '"third"').values(body='"3rd"'))
    (fault,) = verify(store).faults
    assert "revision 4 of document" in fault


def test_a_revision_that_is_gone_is_named(store: Store) -> None:
    fill(store)
    with store.writing() as w:
        w.execute(revision.delete().where(revision.c.body == '"third"'))
    (fault,) = verify(store).faults
    assert fault.endswith("has 4 of its 5 revisions")


def test_a_damaged_file_is_named(file_store: Store) -> None:
    with file_store.writing() as w:
        for turn in range(60):
            save(w, job_id=None, kind="notes", body="x" * 900, based_on=turn, stamp=stamp())
    with closing(sqlite3.connect(file_store.address.file)) as c:
        c.execute("PRAGMA writable_schema = ON")
        c.execute("DELETE FROM sqlite_schema WHERE name = 'ix_document_of_job'")
        c.commit()
    file_store.close()
    assert any(line.startswith("database: ") for line in verify(file_store).faults)
