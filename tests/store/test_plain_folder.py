"""The folder that needs no program to be read, and the store that is made of it again."""

from __future__ import annotations

import csv
import datetime as dt
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store_samples import START, SURVEY, files_of, fill, rows_of, stamp

from counterhoop.errors import CannotDo
from counterhoop.store.address import Address, address_of
from counterhoop.store.body import Json, new_id
from counterhoop.store.copies.verify import verify
from counterhoop.store.plain_folder.layout import VERSION
from counterhoop.store.plain_folder.read import read_folder
from counterhoop.store.plain_folder.write import write_folder
from counterhoop.store.save import save
from counterhoop.store.store import Store, open_store

LATER = START + dt.timedelta(days=1)


@pytest.fixture
def folder(file_store: Store, tmp_path: Path) -> Path:
    fill(file_store)
    write_folder(file_store, to=tmp_path / "drums", made_at=LATER)
    return tmp_path / "drums"


def test_an_empty_store_rebuilds_everything(
    store: Store, new_address: Callable[[str], Address], tmp_path: Path
) -> None:
    """Exact law: the same rows and files, and the same folder again, byte for byte."""
    fill(store)
    write_folder(store, to=tmp_path / "drums", made_at=LATER)
    to = new_address("again")
    with open_store(to) as again:
        read_folder(again, tmp_path / "drums")
        assert rows_of(again) == rows_of(store)
        assert files_of(to.files) == files_of(store.address.files)
        assert verify(again).sound
        write_folder(again, to=tmp_path / "twice", made_at=LATER)
    assert files_of(tmp_path / "twice") == files_of(tmp_path / "drums")


def test_both_databases_write_the_same_folder(store: Store, tmp_path: Path) -> None:
    fill(store)
    write_folder(store, to=tmp_path / "drums", made_at=LATER)
    with open_store(address_of(data=tmp_path / "as-file")) as again:
        read_folder(again, tmp_path / "drums")
        write_folder(again, to=tmp_path / "twice", made_at=LATER)
    assert files_of(tmp_path / "twice") == files_of(tmp_path / "drums")


def test_a_person_can_read_it(folder: Path) -> None:
    assert "needs no program" in (folder / "READ-ME.txt").read_text()
    with (folder / "hashes.csv").open(newline="") as opened:
        listed = {row["path"] for row in csv.DictReader(opened)}
    assert listed == set(files_of(folder)) - {"hashes.csv"}
    (survey,) = folder.glob("jobs/*/documents/survey-*")
    assert (survey / "0001.original.toml").read_bytes() == SURVEY
    second = json.loads((survey / "0002.json").read_text())
    assert second["correction"] == {
        "pointer": "/depth",
        "old": "5 1/2 in",
        "new": "5 9/16 in",
        "why": "read off the wrong edge of the rule",
    }
    assert second["body"]["depth"] == "5 9/16 in"
    labels = [file.read_text() for file in folder.glob("jobs/*/documents/label-*/0001.json")]
    assert any("½ done – “quick”" in text for text in labels)
    assert sorted(file.suffix for file in (folder / "files").iterdir()) == [
        ".heic", ".jpg", ".png", ".wav",
    ]  # fmt: skip


def test_every_record_is_explained(folder: Path) -> None:
    """The page in the folder names every sort of file, and every name in a revision."""
    page = (folder / "READ-ME.txt").read_text()
    for path in files_of(folder):
        name = path.split("/")[-1]
        if path.startswith(("files/", "READ-ME")) or ".original" in name:
            continue
        assert ("0001.json" if name[:4].isdigit() else name) in page, path
    for file in folder.glob("jobs/*/documents/*/0*.json"):
        for key in json.loads(file.read_text()).keys() - {"number"}:
            assert f'"{key}"' in page


BODIES: st.SearchStrategy[Json] = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=()), max_size=9),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=8,
)  # fmt: skip


# Few: each makes two stores. That any body reads back is held with full counts in test_save.py.
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=12)
@given(st.lists(st.tuples(BODIES, st.none() | st.binary(max_size=20)), min_size=1, max_size=4))
def test_any_body_survives_the_folder(
    tmp_path: Path, versions: list[tuple[Json, bytes | None]]
) -> None:
    place = tmp_path / new_id()
    with open_store(address_of(data=place / "first")) as store:
        with store.writing() as w:
            for turn, (body, original) in enumerate(versions):
                save(
                    w, job_id=None, kind="notes", body=body, based_on=turn, stamp=stamp(),
                    original=original,
                )  # fmt: skip
        write_folder(store, to=place / "drums", made_at=LATER)
        with open_store(address_of(data=place / "again")) as again:
            read_folder(again, place / "drums")
            assert rows_of(again) == rows_of(store)


def turned_away(folder: Path, says: str, tmp_path: Path) -> None:
    with open_store(address_of(data=tmp_path / "again")) as again:
        with pytest.raises(CannotDo, match=says):
            read_folder(again, folder)
        assert all(rows == [] for rows in rows_of(again).values())


def test_a_changed_missing_or_added_file_is_seen(folder: Path, tmp_path: Path) -> None:
    for file in sorted(folder.rglob("*")):
        if not file.is_file() or file.name in ("export.json", "hashes.csv"):
            continue
        content = file.read_bytes()
        file.write_bytes(content + b" ")
        turned_away(folder, "was changed", tmp_path)
        file.unlink()
        turned_away(folder, "is missing", tmp_path)
        file.write_bytes(content)
    (folder / "more.txt").touch()
    turned_away(folder, "not on its list", tmp_path)


def edited(folder: Path, pattern: str, change: Callable[[str], str]) -> None:
    """Change a file and its hash with it, as somebody with a purpose would."""
    from counterhoop.store.enclosures.keep import hash_of_file

    file = next(folder.glob(pattern))
    old = hash_of_file(file)
    file.write_text(change(file.read_text()))
    listed = folder / "hashes.csv"
    listed.write_text(listed.read_text().replace(old, hash_of_file(file)))


@pytest.mark.parametrize(
    ("pattern", "old", "new", "says"),
    [
        ("jobs/*/documents/survey-*/0002.json", "9/16", "3/16", "not what was saved"),
        ("export.json", f'"version": {VERSION}', '"version": 9', "newer Counterhoop"),
        ("export.json", "counterhoop folder", "recipes", "no Counterhoop export"),
        ("jobs/*/documents/survey-*/document.json", '"head": 2', '"head": 3', "No such file"),
        ("jobs/*/job.json", '"opened_by"', '"opened_bye"', "knows no opened_bye"),
        ("jobs/*/documents/survey-*/0001.json", '"body"', '"bodies"', "body"),
    ],
)
def test_a_folder_that_was_edited_is_turned_away(
    folder: Path, tmp_path: Path, pattern: str, old: str, new: str, says: str
) -> None:
    edited(folder, pattern, lambda text: text.replace(old, new))
    turned_away(folder, says, tmp_path)


def test_no_path_in_a_record_leads_out_of_the_folder(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "secret").write_bytes(b"mine")
    edited(
        folder,
        "jobs/*/documents/survey-*/0001.json",
        lambda text: text.replace("0001.original.toml", "../../../../../secret"),
    )
    turned_away(folder, "No such file", tmp_path)


def test_nothing_is_overwritten_either_way(folder: Path, file_store: Store, tmp_path: Path) -> None:
    before = rows_of(file_store)
    with pytest.raises(CannotDo, match="overwrites nothing"):
        read_folder(file_store, folder)
    assert rows_of(file_store) == before
    with pytest.raises(CannotDo, match="nothing is overwritten"):
        write_folder(file_store, to=folder, made_at=LATER)
    with pytest.raises(CannotDo, match="no Counterhoop export"):
        read_folder(file_store, tmp_path)


def test_a_store_that_lost_a_file_is_not_exported_as_if_it_had_not(
    file_store: Store, tmp_path: Path
) -> None:
    fill(file_store)
    next(file for file in file_store.address.files.glob("??/*")).unlink()
    with pytest.raises(CannotDo, match="has lost a file"):
        write_folder(file_store, to=tmp_path / "drums", made_at=LATER)
    assert not (tmp_path / "drums").exists()
    assert not list(tmp_path.glob(".drums*"))
