"""The kept list does what the list in memory does; truth for the rest: rule 4, and the file."""

from __future__ import annotations

import datetime as dt
import json
import os
import tempfile
from pathlib import Path
from zipfile import ZipFile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.address import address_of
from counterhoop.store.copies.backup import back_up
from counterhoop.store.plain_folder.write import write_folder
from counterhoop.store.store import open_store
from counterhoop.web.guard.paired_in_file import PairedInFile
from counterhoop.web.guard.pairing import PairedInMemory, digest_of, holder, let_in

NOON = dt.datetime(2030, 5, 17, 12, 0, tzinfo=dt.UTC)
SAME = "Sec-Fetch-Site: same-origin"

adds = st.tuples(
    st.text(max_size=40),
    st.sampled_from(["browser", "program"]),
    st.binary(min_size=32, max_size=32),
)
steps = st.lists(st.one_of(adds, st.integers(1, 12), st.just("restart")), max_size=25)


@settings(max_examples=60, deadline=None)
@given(steps)
def test_it_is_the_same_list_whenever_the_program_is_started_again(steps):
    """Names are any text that UTF-8 can hold; ``shown_name`` lets through no other."""
    with tempfile.TemporaryDirectory() as folder:
        memory, kept = PairedInMemory(), PairedInFile(Path(folder))
        for step in steps:
            if step == "restart":
                kept = PairedInFile(Path(folder))
            elif isinstance(step, tuple):
                name, kind, digest = step
                for paired in (memory, kept):
                    paired.add(name=name, kind=kind, digest=digest, since=NOON)
            elif step in {device.number for device in memory.listed()}:
                memory.strike_off(step)
                kept.strike_off(step)
            else:
                for paired in (memory, kept):
                    with pytest.raises(BadInput):
                        paired.strike_off(step)
            assert kept.listed() == memory.listed()


def test_no_secret_stands_in_the_file_and_nobody_else_reads_it(tmp_path):
    paired = PairedInFile(tmp_path)
    secret = let_in(paired, name="bench", kind="browser", now=NOON)
    file = tmp_path / "let-in.json"
    assert secret not in file.read_text()
    assert digest_of(secret).hex() in file.read_text()
    assert os.stat(file).st_mode & 0o777 == 0o600
    assert list(tmp_path.iterdir()) == [file]
    # Neither does whoever reads the file get in with what stands there.
    assert holder(paired, secret=digest_of(secret).hex(), kind="browser") is None
    assert holder(PairedInFile(tmp_path), secret=secret, kind="browser").name == "bench"


def test_a_file_that_was_open_to_others_is_closed_by_the_next_change(tmp_path):
    paired = PairedInFile(tmp_path)
    let_in(paired, name="bench", kind="browser", now=NOON)
    (tmp_path / "let-in.json").chmod(0o644)
    let_in(paired, name="phone", kind="browser", now=NOON)
    assert os.stat(tmp_path / "let-in.json").st_mode & 0o777 == 0o600


def test_another_list_of_the_same_folder_sees_what_was_struck_off(tmp_path):
    one, other = PairedInFile(tmp_path), PairedInFile(tmp_path)
    let_in(one, name="bench", kind="browser", now=NOON)
    assert [device.name for device in other.listed()] == ["bench"]
    other.strike_off(1)
    assert one.listed() == ()


def test_who_deletes_the_file_strikes_all_off_and_no_number_comes_twice(tmp_path):
    paired = PairedInFile(tmp_path)
    secret = let_in(paired, name="bench", kind="browser", now=NOON)
    (tmp_path / "let-in.json").unlink()
    assert holder(paired, secret=secret, kind="browser") is None
    let_in(paired, name="phone", kind="browser", now=NOON)
    assert [device.number for device in paired.listed()] == [2]


def line(**change):
    whole = {
        "number": 1,
        "name": "bench",
        "kind": "browser",
        "digest": "0" * 64,
        "since": "2030-05-17T12:00:00Z",
    }
    return whole | change


@pytest.mark.parametrize(
    "content",
    [
        "",
        "[]",
        '{"form": 1, "next": 2, "let_in": [',
        json.dumps({"form": 2, "next": 1, "let_in": []}),
        json.dumps({"form": 1, "next": 2, "let_in": [line(digest="0" * 63)]}),
        json.dumps({"form": 1, "next": 2, "let_in": [line(digest="")]}),
        json.dumps({"form": 1, "next": 2, "let_in": [line(kind="anybody")]}),
        json.dumps({"form": 1, "next": 2, "let_in": [line(since="2030-05-17T12:00:00")]}),
        json.dumps({"form": 1, "next": 2, "let_in": [line(owner=True)]}),
    ],
)
def test_a_file_that_is_not_ours_lets_nobody_in_and_the_program_says_so(tmp_path, content):
    file = tmp_path / "let-in.json"
    paired = PairedInFile(tmp_path)
    secret = let_in(paired, name="bench", kind="browser", now=NOON)
    file.unlink()
    file.write_text(content)
    with pytest.raises(CannotDo, match="nobody is let in"):
        PairedInFile(tmp_path)
    with pytest.raises(CannotDo, match="nobody is let in"):
        holder(paired, secret=secret, kind="browser")
    with pytest.raises(CannotDo):
        let_in(paired, name="phone", kind="browser", now=NOON)
    assert file.read_text() == content


def test_while_the_file_is_harmed_the_door_lets_nobody_in(open_door, tmp_path):
    door = open_door(paired=PairedInFile(tmp_path))
    mine = door.pair()
    assert door.ask("GET /", mine).status == 200
    (tmp_path / "let-in.json").write_text("{")
    assert door.ask("GET /", mine).status == 500
    assert door.ask("GET /enter").status == 200
    assert door.reached == [("GET", "/")]


def test_a_disk_that_takes_nothing_lets_nobody_in_and_keeps_the_old_list(tmp_path, monkeypatch):
    paired = PairedInFile(tmp_path)
    let_in(paired, name="bench", kind="browser", now=NOON)

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(CannotDo, match="No space left"):
        let_in(paired, name="phone", kind="browser", now=NOON)
    monkeypatch.undo()
    assert [device.name for device in paired.listed()] == ["bench"]
    assert [file.name for file in tmp_path.iterdir()] == ["let-in.json"]


def test_neither_a_backup_nor_the_plain_folder_carries_it_away(tmp_path):
    data = tmp_path / "data"
    with open_store(address_of(data=data)) as store:
        secret = let_in(PairedInFile(data), name="bench", kind="browser", now=NOON)
        back_up(store, to=tmp_path / "copy.zip", made_at=NOON)
        write_folder(store, to=tmp_path / "plain", made_at=NOON)
    digest = digest_of(secret).hex()
    with ZipFile(tmp_path / "copy.zip") as archive:
        contents = {name: archive.read(name) for name in archive.namelist()}
    contents |= {
        str(file): file.read_bytes() for file in (tmp_path / "plain").rglob("*") if file.is_file()
    }
    assert len(contents) > 2
    assert not [name for name in contents if "let-in" in name or "https" in name]
    assert not [name for name, content in contents.items() if digest.encode() in content]
