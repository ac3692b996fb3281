"""Running numbers: one after the other, none twice, none left out, and papers that stay."""

from __future__ import annotations

import datetime as dt
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from running_samples import (
    BY_YEAR,
    DAY,
    PLAIN,
    fill_running,
    given_out,
    holds_the_running_books,
    says_its_number,
)
from sqlalchemy import delete, text, update
from sqlalchemy.exc import DBAPIError
from store_samples import START, files_of, fill, rows_of, stamp

from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.address import Address, address_of
from counterhoop.store.body import Json
from counterhoop.store.copies.verify import verify
from counterhoop.store.job_folder import open_job
from counterhoop.store.mark import store_mark
from counterhoop.store.plain_folder.read import read_folder
from counterhoop.store.plain_folder.write import write_folder
from counterhoop.store.running.issue import issue
from counterhoop.store.running.issued import issued_in_job, issued_in_series, issued_paper
from counterhoop.store.running.style import NumberStyle
from counterhoop.store.store import Store, open_store
from counterhoop.store.tables import METADATA, issued


def test_each_series_counts_by_itself_and_by_year_where_it_should(store: Store) -> None:
    """Hand-worked."""
    days = [dt.date(2025, 12, 30), dt.date(2025, 12, 31), dt.date(2026, 1, 2)]
    with store.writing() as w:
        plain = [given_out(w, day=day).number for day in days]
        by_year = [given_out(w, series="receipt", style=BY_YEAR, day=day).number for day in days]
    assert plain == ["1", "2", "3"]
    assert by_year == ["2025-0001", "2025-0002", "2026-0001"]
    with store.reading() as r:
        one = issued_paper(r, series="receipt", number="2026-0001")
        assert (one.day, one.body) == (days[2], says_its_number("2026-0001"))
        assert (one.made_at, one.bench) == (stamp().when, stamp().bench)
        with pytest.raises(BadInput, match="none of this number"):
            issued_paper(r, series="receipt", number="3")


def test_a_paper_that_fails_takes_no_number(store: Store) -> None:
    def fails(_number: str) -> Json:
        raise BadInput("the bill is above the ceiling")

    with store.writing() as w:
        given_out(w)
    with pytest.raises(BadInput, match="ceiling"), store.writing() as w:
        issue(
            w, series="invoice", style=PLAIN, kind="invoice", job_id=None, day=DAY, body=fails,
            stamp=stamp(),
        )  # fmt: skip
    # Also where whoever wrote went on inside the same block.
    with store.writing() as w:
        with suppress(BadInput):
            issue(
                w, series="invoice", style=PLAIN, kind="invoice", job_id=None, day=DAY, body=fails,
                stamp=stamp(),
            )  # fmt: skip
        assert given_out(w).number == "2"
    assert verify(store).sound


def test_a_day_goes_back_only_when_it_is_said_why(file_store: Store) -> None:
    later, earlier = DAY, DAY - dt.timedelta(days=1)
    with file_store.writing() as w:
        given_out(w, day=later)
        given_out(w, series="quote", day=earlier)  # another series knows nothing of it
    says = "dated before invoice 1.*found '3 March 2026', wanted 4 March 2026 or later"
    with pytest.raises(BadInput, match=says), file_store.writing() as w:
        given_out(w, day=earlier)
    with file_store.writing() as w:
        assert given_out(w, day=earlier, why_earlier="the bank had it then").number == "2"
    # What was said once holds for that paper alone.
    with pytest.raises(BadInput, match="dated before invoice 1"), file_store.writing() as w:
        given_out(w, day=earlier)
    assert verify(file_store).sound


def test_the_same_form_sent_twice_is_one_paper(file_store: Store) -> None:
    with file_store.writing() as w:
        first = given_out(w, mark="a")
    with file_store.writing() as w:
        assert given_out(w, mark="a") == first
        assert given_out(w, mark="b").number == "2"
        assert [given_out(w).number for _ in "cd"] == ["3", "4"]


def test_what_hangs_on_no_job_is_turned_away(file_store: Store) -> None:
    with pytest.raises(BadInput, match="no such job"), file_store.writing() as w:
        given_out(w, job_id="x")
    job = fill(file_store)
    with file_store.writing() as w:
        one = given_out(w, job_id=job)
    with file_store.reading() as r:
        assert issued_in_job(r, job) == (one,)


@pytest.mark.parametrize("digits", [0, 10])
def test_digits_that_nobody_writes(digits: int) -> None:
    with pytest.raises(BadInput, match="1 to 9"):
        NumberStyle(digits=digits)


def test_the_mark_of_a_store_tells_a_paper(store: Store) -> None:
    with store.writing() as w:
        before = store_mark(w)
        given_out(w)
        assert store_mark(w) != before


def test_a_paper_that_is_out_is_never_changed(store: Store) -> None:
    """Also by the one statement on PostgreSQL that takes rows out without a look at them."""
    with store.writing() as w:
        given_out(w)
    before = rows_of(store)
    on_postgresql = store.engine.dialect.name == "postgresql"
    for deed in (
        update(issued).values(day="2026-01-01"),
        update(issued).where(issued.c.number == 1).values(body="{}"),
        delete(issued),
        text("TRUNCATE issued" if on_postgresql else "DELETE FROM issued"),
    ):
        with pytest.raises(DBAPIError, match="stays as it is"), store.writing() as w:
            w.execute(deed)
    assert rows_of(store) == before


PAPERS = st.tuples(st.sampled_from("abc"), st.booleans(), st.integers(0, 800), st.booleans())


@given(st.lists(PAPERS, max_size=12))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=10)
def test_any_order_of_papers_leaves_no_gap(
    file_store: Store, papers: list[tuple[str, bool, int, bool]]
) -> None:
    """Exact law: numbers of a series and a year are one to their count, in order of writing.

    Each example goes on in the books of the one before.
    """
    for series, by_year, later, said in papers:
        with suppress(BadInput), file_store.writing() as w:
            given_out(
                w, series=series, style=BY_YEAR if by_year else PLAIN,
                day=DAY + dt.timedelta(days=later), why_earlier="said" if said else "",
            )  # fmt: skip
    with file_store.reading() as r:
        for series in "abc":
            found: dict[str, list[int]] = {}
            for one in issued_in_series(r, series):
                year, _, number = one.number.rpartition("-")
                found.setdefault(year, []).append(int(number))
            for numbers in found.values():
                assert numbers == [*range(1, len(numbers) + 1)]
    assert verify(file_store).sound


def test_both_books_survive_the_folder(
    store: Store, new_address: Callable[[str], Address], tmp_path: Path
) -> None:
    """Exact law: the same rows again, and the same folder, byte for byte."""
    fill(store)
    fill_running(store)
    assert verify(store).sound
    write_folder(store, to=tmp_path / "drums", made_at=START)
    names = sorted(file.name for file in (tmp_path / "drums" / "issued").iterdir())
    assert names[2:4] == ["000003-quote-2026-0001.json", "000004-credit-note-1.json"]
    with open_store(new_address("again")) as again:
        read_folder(again, tmp_path / "drums")
        assert rows_of(again) == rows_of(store)
        holds_the_running_books(again, there=True)
        assert verify(again).sound
        # Numbers go on from there.
        with again.writing() as w:
            assert given_out(w, series="receipt").number == "2"
        assert verify(again).sound
    with open_store(new_address("twice")) as twice:
        read_folder(twice, tmp_path / "drums")
        write_folder(twice, to=tmp_path / "twice-written", made_at=START)
    assert files_of(tmp_path / "twice-written") == files_of(tmp_path / "drums")


@pytest.mark.parametrize(
    ("pattern", "old", "new"),
    [("issued/000003*", '"2026-03-04"', '"2026-03-05"'), ("work-log.jsonl", '"plug"', '"plugs"')],
)
def test_a_folder_whose_books_were_changed_is_turned_away(
    file_store: Store, tmp_path: Path, pattern: str, old: str, new: str
) -> None:
    """Somebody changes a file and the list of hashes with it."""
    from counterhoop.store.enclosures.keep import hash_of_file

    with file_store.writing() as w:
        open_job(w, title="Hallmere snare", stamp=stamp())
    fill_running(file_store)
    folder = tmp_path / "drums"
    write_folder(file_store, to=folder, made_at=START)
    file = next(folder.glob(pattern))
    before = (hash_of_file(file), file.stat().st_size)
    changed = file.read_text().replace(old, new)
    assert changed != file.read_text()
    file.write_text(changed)
    hashes = (folder / "hashes.csv").read_text().replace(before[0], hash_of_file(file))
    (folder / "hashes.csv").write_text(hashes)
    with open_store(address_of(data=tmp_path / "again")) as again:
        with pytest.raises(CannotDo, match="is not what was written"):
            read_folder(again, folder)
        assert all(rows == [] for rows in rows_of(again).values())


DAMAGE = [
    ("UPDATE issued SET day = '2026-01-01' WHERE entry = 3", "quote 2026-0001 is not what was"),
    ("UPDATE issued SET called = '9' WHERE entry = 3", "quote 9 is not what was given out"),
    ("UPDATE issued SET body = 'x' WHERE entry = 3", "quote 2026-0001 can no longer be read"),
    ("DELETE FROM issued WHERE entry = 1", "there is a gap before quote 2025-0002"),
    ("DELETE FROM issued WHERE entry = 4", "issued paper 4 is lost"),
    ("DELETE FROM issued WHERE entry = 5", "issued paper 5 is lost"),
    ("DELETE FROM turn", "5 papers were issued, and only 0 counted"),
    ("UPDATE work_log SET count = 9 WHERE entry = 8", "row 8 of the work log is not what was"),
    ("UPDATE work_log SET took = 'x' WHERE entry = 9", "the work log can no longer be read"),
    ("DELETE FROM work_log WHERE entry = 11", "row 11 of the work log is lost"),
    ("DELETE FROM work_log WHERE entry = 8", "row 9 of the work log says more of one"),
    ("UPDATE in_hand SET working = NULL", "at phone something else is in hand"),
    ("DELETE FROM in_hand", "at window bench something else is in hand"),
]


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Fill a store once, for all that is done to copies of its file."""
    address = address_of(data=tmp_path_factory.mktemp("filled"))
    with open_store(address) as store:
        with store.writing() as w:
            open_job(w, title="Hallmere snare", stamp=stamp())
        fill_running(store)
        assert verify(store).sound
    return address.file


@pytest.mark.parametrize(("deed", "says"), DAMAGE)
def test_damaged_books_are_seen(filled: Path, tmp_path: Path, deed: str, says: str) -> None:
    address = address_of(data=tmp_path)
    shutil.copyfile(filled, address.file)
    with closing(sqlite3.connect(address.file)) as editor, editor:
        # Without the triggers, as somebody with an editor for databases would go about it.
        guards = editor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for (name,) in guards:
            editor.execute(f"DROP TRIGGER {name}")
        editor.execute(deed)
    with open_store(address) as store:
        faults = verify(store).faults
    assert any(says in fault for fault in faults), faults


def test_the_samples_fill_every_table(file_store: Store) -> None:
    fill(file_store)
    fill_running(file_store)
    holds_the_running_books(file_store, there=True)
    rows = rows_of(file_store)
    assert all(rows[name] for name in ("issued", "work_log", "in_hand", "turn"))
    assert set(rows) == set(METADATA.tables)
