"""Killed, stopped, or out of room in the middle of saving: what was said to be kept is there."""

from __future__ import annotations

import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from store_samples import saved, stamp

from counterhoop.errors import CannotDo
from counterhoop.store import engine
from counterhoop.store.address import Address, address_of
from counterhoop.store.copies.verify import verify
from counterhoop.store.enclosures.keep import place_of
from counterhoop.store.job_folder import job_folders, open_job
from counterhoop.store.revision import documents_of, find_document, history_of
from counterhoop.store.save import save
from counterhoop.store.store import Store, open_store
from counterhoop.store.tables import enclosure
from store_postgres import Cluster

PROGRAM = Path(__file__).parent / "stream_of_saves.py"
Lines = list[str]


def begin(address: Address) -> None:
    with open_store(address) as store, store.writing() as w:
        open_job(w, title="Corvane kit", stamp=stamp())


def stream(
    address: Address, *, seed: int, before: Callable[[], None] | None = None
) -> subprocess.Popen[str]:
    words = [str(address.folder), address.database, "phone", str(seed)]
    return subprocess.Popen(
        [sys.executable, str(PROGRAM), *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        preexec_fn=before,
    )


def kept_lines(lines: Lines) -> Lines:
    """Return the lines that say something was kept; one that broke off says nothing yet."""
    return [line for line in lines if line.endswith("\n") and line[0].isdigit()]


def nothing_said_is_lost(address: Address, lines: Lines) -> int:
    """Open the store again, hold it against what was said, and return the newest number."""
    said = [line.split() for line in kept_lines(lines)]
    with open_store(address) as store:
        verdict = verify(store)
        assert verdict.sound, verdict.faults
        with store.reading() as r:
            (job,) = job_folders(r)
            found = find_document(r, job_id=job.id, kind="notes", name="phone")
            numbers = [one.number for one in history_of(r, found.id)] if found else []
            enclosed = {row.sha256 for row in r.execute(enclosure.select())}
        assert numbers == list(range(1, len(numbers) + 1))
        assert {int(number) for number, _ in said} <= set(numbers)
        files = {sha256 for _, sha256 in said if sha256 != "-"}
        assert files <= enclosed
        assert all(place_of(address.files, sha256).is_file() for sha256 in files)
        # The store still takes what comes.
        with store.writing() as w:
            going_on = len(numbers)
            saved(
                save(
                    w, job_id=job.id, kind="notes", name="phone", body={"number": going_on + 1},
                    based_on=going_on, stamp=stamp(),
                )
            )  # fmt: skip
    return len(numbers)


def kill_while_saving(address: Address, *, seed: int) -> Lines:
    chance = random.Random(seed)
    process = stream(address, seed=seed)
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    time.sleep(chance.uniform(0.0, 0.25))
    os.kill(process.pid, signal.SIGKILL)
    lines = process.stdout.readlines()
    assert process.wait() == -signal.SIGKILL, lines
    return lines


def kill_often(address: Address, times: int) -> None:
    begin(address)
    kept = [
        nothing_said_is_lost(address, kill_while_saving(address, seed=seed))
        for seed in range(times)
    ]
    assert kept == sorted(kept)
    assert kept[-1] > 2 * times, "the program was killed before it saved anything"


def test_killed_while_saving(new_address: Callable[[str], Address]) -> None:
    """Brute force: kill -9 at random moments; 200 times in the full run."""
    kill_often(new_address("store"), 4)


@pytest.mark.full
def test_killed_while_saving_200_times(new_address: Callable[[str], Address]) -> None:
    kill_often(new_address("store"), 200)


@pytest.mark.parametrize("times", [2, pytest.param(40, marks=pytest.mark.full)])
def test_a_server_that_falls_over_is_said_and_loses_nothing(
    cluster: Cluster, tmp_path: Path, times: int
) -> None:
    address = address_of(cluster.new_database(), data=tmp_path / "store")
    begin(address)
    kept = 0
    for seed in range(times):
        process = stream(address, seed=seed)
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(random.Random(seed).uniform(0.05, 0.5))
        cluster.stop()
        try:
            lines = process.stdout.readlines()
            assert process.wait(timeout=60) == 2, lines
            assert lines[-1].startswith("told: The database does not answer")
        finally:
            cluster.start()
        kept += len(kept_lines(lines))
        nothing_said_is_lost(address, lines)
    assert kept >= times, "the server was stopped before anything was saved"


def test_an_open_store_goes_on_when_the_server_is_there_again(
    cluster: Cluster, tmp_path: Path
) -> None:
    """The pages hold one store open for days: a server that restarts must not need them to."""

    def note(store: Store, number: int) -> int:
        with store.writing() as w:
            body = {"number": number + 1}
            done = save(
                w, job_id=None, kind="notes", body=body, based_on=number, stamp=stamp(number)
            )
        return saved(done).number

    with open_store(address_of(cluster.new_database(), data=tmp_path / "store")) as store:
        assert note(store, 0) == 1
        cluster.stop()
        try:
            with pytest.raises(CannotDo, match="does not answer"):
                note(store, 1)
            with pytest.raises(CannotDo, match="does not answer"), store.reading() as r:
                job_folders(r)
        finally:
            cluster.start()
        assert note(store, 1) == 2
        assert verify(store).sound

        # In the middle of a block: nothing of it is kept, and the next one goes through.
        def cut_off() -> None:
            with store.writing() as w:
                save(w, job_id=None, kind="notes", body="half", based_on=2, stamp=stamp())
                cluster.stop()
                save(w, job_id=None, kind="other", body="half", based_on=0, stamp=stamp())

        try:
            with pytest.raises(CannotDo, match="does not answer"):
                cut_off()
        finally:
            cluster.start()
        assert note(store, 2) == 3
        with store.reading() as r:
            assert [one.kind for one in documents_of(r, job_id=None)] == ["notes"]


def test_what_is_lost_would_be_seen(new_address: Callable[[str], Address]) -> None:
    """The comparison can fail: one revision and one file that are said and not there."""
    address = new_address("store")
    begin(address)
    nothing_said_is_lost(address, [])
    nothing_said_is_lost(address, ["1 -\n"])
    with pytest.raises(AssertionError):
        nothing_said_is_lost(address, ["99 -\n"])
    with pytest.raises(AssertionError):
        nothing_said_is_lost(address, [f"1 {'a' * 64}\n"])


def limit_files(size: int) -> Callable[[], None]:
    """Return what makes every file larger than so many bytes impossible to write."""

    def limit() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))

    return limit


def mount(folder: Path) -> bool:
    """Mount a disk of 3 MB on a folder; tell whether this machine allows it."""
    words = ["mount", "-t", "tmpfs", "-o", "size=3m", "tmpfs", str(folder)]
    try:
        return subprocess.run(words, capture_output=True, check=False).returncode == 0
    except OSError:
        return False


def may_mount() -> bool:
    with tempfile.TemporaryDirectory() as folder:
        allowed = mount(Path(folder))
        if allowed:
            subprocess.run(["umount", folder], check=True)
    return allowed


# The system itself refuses every byte beyond a limit, in the database and in its journal. Where a
# disk may be mounted (by root, outside most containers), a small one is filled to the brim as well.
WAYS = ["files of 500000", "files of 1500000", *(["a disk of 3 MB"] if may_mount() else [])]


@pytest.mark.parametrize("way", WAYS)
def test_no_room_is_said_and_loses_nothing(tmp_path: Path, way: str) -> None:
    disk = tmp_path / "disk"
    disk.mkdir()
    on_disk = way == "a disk of 3 MB"
    assert not on_disk or mount(disk)
    try:
        address = address_of(data=disk / "store")
        begin(address)
        limit = None if on_disk else limit_files(int(way.split()[-1]))
        process = stream(address, seed=len(way), before=limit)
        lines = process.communicate(timeout=120)[0].splitlines(keepends=True)
        assert process.returncode == 2, lines
        assert "told: The disk did not take it" in lines[-1] or "no room left" in lines[-1]
        assert len(kept_lines(lines)) > 10
        # What was kept can be read although nothing more can be written.
        with open_store(address) as store:
            assert verify(store).sound
        shutil.copytree(disk / "store", tmp_path / "roomy")
    finally:
        if on_disk:
            subprocess.run(["umount", str(disk)], check=True)
    nothing_said_is_lost(address_of(data=tmp_path / "roomy"), lines)


def test_a_database_that_is_full_is_said(
    file_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """SQLite's own word for a full disk, made by the most pages that it may use."""
    with file_store.reading() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
    pragmas = (*engine._PRAGMAS, f"PRAGMA max_page_count = {pages + 30}")
    monkeypatch.setattr(engine, "_PRAGMAS", pragmas)
    kept = 0

    def fill_up(full: Store) -> None:
        nonlocal kept
        while kept < 100:
            body = "x" * 9000
            with full.writing() as w:
                save(w, job_id=None, kind="notes", body=body, based_on=kept, stamp=stamp())
            kept += 1

    with open_store(file_store.address) as full:
        with pytest.raises(CannotDo, match="no room left on the disk"):
            fill_up(full)
        assert verify(full).sound
        assert verify(full).revisions == kept > 0


def test_an_upload_that_finds_no_room_leaves_nothing_behind(tmp_path: Path) -> None:
    program = (
        "import resource, signal, sys; from pathlib import Path\n"
        "from counterhoop.store.address import address_of\n"
        "from counterhoop.store.store import open_store\n"
        "from counterhoop.store.enclosures.keep import keep_file\n"
        "from counterhoop.errors import CannotDo\n"
        "with open_store(address_of(data=Path(sys.argv[1]))) as store:\n"
        "    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "    resource.setrlimit(resource.RLIMIT_FSIZE, (300_000, 300_000))\n"
        "    try:\n"
        "        keep_file(store, [b'fLaC'] + [bytes(100_000)] * 9)\n"
        "    except CannotDo as fault:\n"
        "        print(fault)\n"
    )
    words = [sys.executable, "-c", program, str(tmp_path / "store")]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    assert "There is no room left on the disk" in done.stdout
    with open_store(address_of(data=tmp_path / "store")) as store:
        assert verify(store).leftovers == ()
