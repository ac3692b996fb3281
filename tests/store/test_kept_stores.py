"""Stores that older Counterhoops wrote are opened, migrated and read; see data/README.md."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from zipfile import ZipFile

import pytest
from running_samples import holds_the_running_books
from shelf_samples import holds_the_shelf, holds_what_was_put_away
from store_samples import SURVEY, stamp

from counterhoop.store.address import Address, address_of
from counterhoop.store.as_found import corrections_of
from counterhoop.store.copies.restore import restore
from counterhoop.store.copies.verify import verify
from counterhoop.store.copy_database import faults_of_file
from counterhoop.store.drum_tab import tabs_by_job
from counterhoop.store.enclosures.enclose import enclosures_of
from counterhoop.store.enclosures.keep import place_of
from counterhoop.store.enclosures.picture import preview
from counterhoop.store.job_folder import job_folders
from counterhoop.store.migrate import NEWEST
from counterhoop.store.plain_folder.layout import VERSION
from counterhoop.store.plain_folder.read import read_folder
from counterhoop.store.revision import find_document, history_of, newest
from counterhoop.store.store import Store, open_store

DATA = Path(__file__).parent / "data"


def holds_what_was_written(store: Store, *, with_files: bool) -> None:
    """Hold a store against what was typed into it when it was made."""
    assert verify(store).sound
    with store.reading() as r:
        first, second = sorted(job_folders(r, with_hidden=True), key=lambda one: one.title)
        assert (first.title, first.hidden) == ("Corvane kit, ½ done – “quick”", False)
        assert (second.title, second.hidden) == ("Hallmere snare", True)
        assert (second.opened_by, second.opened_at) == ("phone", stamp(1).when)
        survey = find_document(r, job_id=first.id, kind="survey")
        notes = find_document(r, job_id=first.id, kind="notes")
        rules = find_document(r, job_id=None, kind="shop rules")
        assert survey is not None
        assert notes is not None
        assert rules is not None
        found, corrected = history_of(r, survey.id)
        assert (found.original, survey.as_found) == (SURVEY, 1)
        assert corrected.body == {
            "name": "small tom", "depth": "5 9/16 in", "holes": [1, 2.5, None, True],
        }  # fmt: skip
        (one,) = corrections_of(r, survey.id)
        assert (one.old, one.why) == ("5 1/2 in", "read off the wrong edge of the rule")
        assert [one.body for one in history_of(r, notes.id)] == [
            "lugs off", "lugs off, \udc80 odd \x00 signs", "é", "third", "lugs off",
        ]  # fmt: skip
        assert newest(r, rules).original == b"flat = '0.1 mm'\n\xff"
        tom, bass = tabs_by_job(r)[first.id]
        assert (str(tom.depth), str(bass.depth)) == ("5 1/2 in", "14 1/64 in")
        enclosed = enclosures_of(r, job_id=first.id, with_hidden=True)
    if not with_files:
        assert enclosed == ()
        return
    assert sorted(one.file.media_type for one in enclosed) == [
        "audio/wav", "image/heic", "image/jpeg", "image/png",
    ]  # fmt: skip
    for one in enclosed:
        content = place_of(store.address.files, one.file.sha256).read_bytes()
        if one.file.media_type.startswith("image/"):
            assert preview(content, longest_px=16).startswith(b"\xff\xd8")


def test_a_store_of_the_first_shape_is_migrated(tmp_path: Path) -> None:
    address = address_of(data=tmp_path / "store")
    address.folder.mkdir()
    shutil.copyfile(DATA / "shape-0001.sqlite3", address.file)
    with open_store(address) as store:
        holds_what_was_written(store, with_files=False)
    (copy,) = (address.folder / "before-migration").iterdir()
    assert faults_of_file(copy) == []


BACKUPS = sorted(DATA.glob("backup-shape-*.zip"))
FOLDERS = sorted(DATA.glob("folder-version-*.zip"))


@pytest.mark.parametrize("archive", BACKUPS, ids=lambda file: file.stem)
def test_a_kept_backup_is_restored(archive: Path, new_address: Callable[[str], Address]) -> None:
    to = new_address("store")
    restore(archive, to=to)
    with open_store(to) as store:
        holds_what_was_written(store, with_files=True)
        holds_the_shelf(store, there=archive.stem > "backup-shape-0003")
        holds_the_running_books(store, there=archive.stem > "backup-shape-0007")
        if archive.stem > "backup-shape-0004":
            holds_what_was_put_away(store)


@pytest.mark.parametrize("packed", FOLDERS, ids=lambda file: file.stem)
def test_a_kept_folder_is_read(packed: Path, store: Store, tmp_path: Path) -> None:
    with ZipFile(packed) as opened:
        opened.extractall(tmp_path / "drums")
    read_folder(store, tmp_path / "drums")
    holds_what_was_written(store, with_files=True)
    holds_the_shelf(store, there=packed.stem > "folder-version-1")
    holds_the_running_books(store, there=packed.stem > "folder-version-3")
    if packed.stem > "folder-version-2":
        holds_what_was_put_away(store)


def test_every_shape_and_every_layout_is_kept() -> None:
    """Fails when a migration is added and no store of its shape is kept."""
    assert BACKUPS[-1].stem.endswith(NEWEST)
    assert FOLDERS[-1].stem.endswith(f"-{VERSION}")
    page = (DATA / "README.md").read_text()
    assert [file.name for file in DATA.iterdir() if file.name not in page] == ["README.md"]
