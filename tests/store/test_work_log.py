"""The work log: picked up and put down, typed after, corrected; no row is ever lost."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from running_samples import DAY, clock
from sqlalchemy import delete, func, select, update
from sqlalchemy.exc import DBAPIError
from store_samples import fill, rows_of, stamp

from counterhoop.errors import BadInput
from counterhoop.job.hours.stretches import Stretch
from counterhoop.job.hours.worked import Worked
from counterhoop.quantities.duration import parse_duration
from counterhoop.store.copies.verify import verify
from counterhoop.store.mark import store_mark
from counterhoop.store.store import Connection, Store
from counterhoop.store.tables import work_log
from counterhoop.store.work_log.learned import from_log
from counterhoop.store.work_log.read_log import (
    all_workings,
    in_hand_now,
    working_at,
    workings_of_job,
    workings_of_operation,
)
from counterhoop.store.work_log.working import Working
from counterhoop.store.work_log.write_log import (
    PickedUp,
    correct_working,
    pick_up,
    put_down,
    type_after,
)

HERE, PHONE = stamp(), stamp(0, "phone")


def taken(
    connection: Connection, operation: str, hour: int, minute: int = 0, *, bench: str = HERE.bench,
    mark: str = "", drum: str = "small tom",
) -> PickedUp:  # fmt: skip
    return pick_up(
        connection, job_id=None, drum=drum, operation=operation, at=clock(hour, minute),
        stamp=stamp(0, bench), mark=mark,
    )  # fmt: skip


def typed(connection: Connection, took: str, *, count: int = 1, mark: str = "") -> Working:
    return type_after(
        connection, job_id=None, drum="small tom", operation="plug", count=count,
        took=parse_duration(took), day=DAY, stamp=HERE, mark=mark,
    )  # fmt: skip


def test_one_thing_in_hand_at_a_bench(store: Store) -> None:
    """Hand-worked: picking up another puts the first down, and says so."""
    with store.writing() as w:
        first = taken(w, "plug", 9)
        assert first.put_down is None
        other = taken(w, "soak", 9, bench="phone")
        second = taken(w, "drill", 9, 50)
    assert second.put_down is not None
    assert second.put_down.operation == "plug"
    assert second.put_down.stretch == Stretch(picked_up=clock(9), put_down=clock(9, 50))
    with store.reading() as r:
        assert in_hand_now(r) == (other.working, second.working)
        assert working_at(r, HERE.bench) == second.working
        assert working_at(r, "laptop") is None
    with store.writing() as w:
        down = put_down(w, at=clock(10), stamp=HERE, count=2, finished=True, note="tight")
    assert (down.count, down.finished, down.note, down.is_open) == (2, True, "tight", False)
    with store.reading() as r:
        assert in_hand_now(r) == (other.working,)
        assert all_workings(r) == (second.put_down, other.working, down)
    with pytest.raises(BadInput, match="nothing is in hand here"), store.writing() as w:
        put_down(w, at=clock(10), stamp=HERE)
    assert verify(store).sound


def test_what_is_in_hand_already_stays_in_hand(file_store: Store) -> None:
    with file_store.writing() as w:
        first = taken(w, "plug", 9)
        assert taken(w, "plug", 10) == PickedUp(working=first.working)
        assert taken(w, "plug", 11, drum="bass").put_down is not None


def test_a_form_sent_twice_writes_once(file_store: Store) -> None:
    """Also when something else was picked up meanwhile."""
    with file_store.writing() as w:
        first = taken(w, "plug", 9, mark="a")
        taken(w, "drill", 10, mark="b")
        again = taken(w, "plug", 9, mark="a")
        assert again.working.entry == first.working.entry
        down = put_down(w, at=clock(11), stamp=HERE, count=1, mark="c")
        assert put_down(w, at=clock(12), stamp=HERE, count=1, mark="c") == down
        assert typed(w, "5 min", mark="d") == typed(w, "5 min", mark="d")
        struck = replace(down, struck=True)
        for _ in "ef":
            correct_working(w, struck, why="not this one", stamp=HERE, mark="e")
        # Picked up twice, put down twice, typed, struck.
        assert w.execute(select(func.count()).select_from(work_log)).scalar_one() == 6


def test_times_that_cannot_be(file_store: Store) -> None:
    with file_store.writing() as w:
        taken(w, "plug", 9)
    with (
        pytest.raises(BadInput, match="put down before it was picked up"),
        file_store.writing() as w,
    ):
        put_down(w, at=clock(8), stamp=HERE)
    with (
        pytest.raises(BadInput, match="put down before it was picked up"),
        file_store.writing() as w,
    ):
        taken(w, "drill", 8)
    with pytest.raises(BadInput, match="workshop's own clock"), file_store.writing() as w:
        put_down(w, at=clock(10).replace(tzinfo=dt.UTC), stamp=HERE)
    for took, count in (("0 min", 1), ("5 min", 0), ("5 min", -1)):
        with pytest.raises(BadInput), file_store.writing() as w:
            typed(w, took, count=count)
    with pytest.raises(BadInput, match="no such job"), file_store.writing() as w:
        pick_up(w, job_id="x", drum="", operation="plug", at=clock(9), stamp=HERE)
    with file_store.reading() as r:
        assert [one.is_open for one in all_workings(r)] == [True]


def test_a_correction_names_its_row_and_takes_nothing_away(store: Store) -> None:
    job = fill(store)
    with store.writing() as w:
        typed(w, "5 min")
        one = typed(w, "1 h 20", count=8)
        mended = correct_working(w, replace(one, job_id=job, count=6), why="counted", stamp=PHONE)
        with pytest.raises(BadInput, match="not said why"):
            correct_working(w, mended, why=" ", stamp=PHONE)
    with store.reading() as r:
        assert workings_of_job(r, job) == (mended,)
        assert (str(mended.took), mended.bench) == ("1 h 20", HERE.bench)
        rows = r.execute(select(work_log).order_by(work_log.c.entry)).mappings().all()
    assert [(row["kind"], row["working"], row["count"], row["bench"]) for row in rows] == [
        ("typed", 1, 1, HERE.bench), ("typed", 2, 8, HERE.bench), ("corrected", 2, 6, "phone"),
    ]  # fmt: skip
    with store.writing() as w:
        correct_working(w, replace(mended, struck=True), why="other drum", stamp=PHONE)
    with store.reading() as r:
        assert workings_of_job(r, job) == ()
    with pytest.raises(BadInput, match="no such row"), store.writing() as w:
        correct_working(w, replace(mended, entry=9), why="after all", stamp=PHONE)
    with pytest.raises(BadInput, match="row was struck"), store.writing() as w:
        correct_working(w, mended, why="after all", stamp=PHONE)


def test_what_nobody_put_down_is_answered_later(file_store: Store) -> None:
    with file_store.writing() as w:
        one = taken(w, "plug", 9).working
        assert one.stretch is not None
        there = replace(one, stretch=replace(one.stretch, put_down=clock(12)), count=4)
        correct_working(w, there, why="forgot to put it down", stamp=PHONE)
    with file_store.reading() as r:
        assert in_hand_now(r) == ()
        assert from_log(all_workings(r)).worked == (
            Worked(operation="plug", count=4, minutes=180.0, when=DAY, drum="small tom"),
        )
    with pytest.raises(BadInput, match="cannot be in hand again"), file_store.writing() as w:
        correct_working(w, one, why="not yet", stamp=PHONE)
    assert verify(file_store).sound


def test_an_operation_is_found_by_what_it_says_now(file_store: Store) -> None:
    """Corrected to another operation, it is no longer found under the first."""
    with file_store.writing() as w:
        one = typed(w, "5 min")
        moved = correct_working(w, replace(one, operation="drill"), why="slip", stamp=HERE)
    with file_store.reading() as r:
        assert workings_of_operation(r, "plug") == ()
        assert workings_of_operation(r, "drill") == (moved,)


def test_stretches_go_to_the_next_count_of_the_same_work(file_store: Store) -> None:
    """Hand-worked: 30 and 20 min for three plugs; then 15 for two; what is open waits."""
    with file_store.writing() as w:
        taken(w, "plug", 9)
        taken(w, "sweep", 9, 30)
        taken(w, "plug", 10)
        put_down(w, at=clock(10, 20), stamp=HERE, count=3, note="soft ply")
        taken(w, "plug", 11)
        put_down(w, at=clock(11, 15), stamp=HERE, count=2, answered=True)
        taken(w, "plug", 12)
    with file_store.reading() as r:
        found = from_log(all_workings(r))
    plugs = Worked(operation="plug", count=1, minutes=1.0, when=DAY, drum="small tom")
    assert found.asks == ()
    assert found.worked == (
        replace(plugs, count=3, minutes=50.0, note="soft ply"),
        replace(plugs, count=2, minutes=15.0, answered=True),
    )


def test_times_that_must_be_asked_about(file_store: Store) -> None:
    with file_store.writing() as w:
        taken(w, "plug", 9)
        put_down(w, at=clock(21), stamp=HERE, count=1)
        taken(w, "drill", 22)
        put_down(w, at=clock(22), stamp=HERE, count=2)
    with file_store.reading() as r:
        long, none = from_log(all_workings(r)).asks
    assert long == (
        "plug, picked up on 4 March 2026 at 9:00 and put down 12 h later: is that right?"
    )
    assert none == "drill, 2 done in no time: how long did it take?"


def test_the_log_is_never_changed(store: Store) -> None:
    with store.writing() as w:
        taken(w, "plug", 9)
        before = store_mark(w)
        taken(w, "drill", 10)
        assert store_mark(w) != before
    there = rows_of(store)
    for deed in (update(work_log).values(count=2), delete(work_log)):
        with pytest.raises(DBAPIError, match="stays as it is"), store.writing() as w:
            w.execute(deed)
    assert rows_of(store) == there
