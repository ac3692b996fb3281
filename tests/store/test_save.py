"""Saving: every version stays, and nobody writes over what they have not seen."""

from __future__ import annotations

import datetime as dt
import threading

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store_samples import SURVEY, conflict, rows_of, saved, stamp

from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.body import Json, new_id, read_body, write_body
from counterhoop.store.revision import (
    document_by_id,
    documents_of,
    find_document,
    history_of,
    newest,
    revision_of,
)
from counterhoop.store.save import Conflict, Saved, save
from counterhoop.store.stamp import Stamp, read_time, write_time
from counterhoop.store.store import Store, open_store
from counterhoop.store.undo import choose_revision

TEXTS = st.text(st.characters(exclude_categories=()), max_size=12)  # half surrogate pairs too
BODIES: st.SearchStrategy[Json] = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=12,
)
TIMES = st.datetimes(
    min_value=dt.datetime(1900, 1, 2), max_value=dt.datetime(9999, 1, 1), timezones=st.timezones()
)
SHARED = settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])


def put(store: Store, body: Json, *, based_on: int, at: Stamp | None = None) -> Saved | Conflict:
    with store.writing() as connection:
        return save(
            connection, job_id=None, kind="notes", body=body, based_on=based_on, stamp=at or stamp()
        )


@SHARED
@given(bodies=st.lists(BODIES, min_size=1, max_size=4), original=st.none() | st.binary(max_size=50))
def test_what_was_saved_comes_back(
    store: Store, bodies: list[Json], original: bytes | None
) -> None:
    """Exact law: each revision reads back as it was written, types, key order and bytes."""
    name = new_id()
    with store.writing() as connection:
        for turn, body in enumerate(bodies):
            save(
                connection,
                job_id=None,
                kind="notes",
                name=name,
                body=body,
                based_on=turn,
                stamp=stamp(turn),
                original=original,
            )
    with store.reading() as connection:
        found = find_document(connection, job_id=None, kind="notes", name=name)
        assert found is not None
        history = history_of(connection, found.id)
        assert newest(connection, found) == history[-1]
    assert [repr(one.body) for one in history] == [repr(body) for body in bodies]
    assert {one.original for one in history} == {original}
    assert [one.number for one in history] == list(range(1, len(bodies) + 1))
    assert [one.made_at for one in history] == [stamp(turn).when for turn in range(len(bodies))]


@given(BODIES)
def test_a_body_reads_back_the_same(body: Json) -> None:
    assert repr(read_body(write_body(body))) == repr(body)
    assert write_body(read_body(write_body(body))) == write_body(body)


@given(TIMES, TIMES)
def test_times_read_back_and_sort_as_texts(one: dt.datetime, other: dt.datetime) -> None:
    assert read_time(write_time(one)) == one
    assert (write_time(one) < write_time(other)) == (
        one.astimezone(dt.UTC) < other.astimezone(dt.UTC)
    )


@pytest.mark.parametrize(
    "body",
    [
        float("nan"),
        float("inf"),
        {1: "a"},
        ("a",),
        b"bytes",
        dt.date(2026, 3, 4),
        {"a": {"b": {1}}},
    ],
)
def test_what_would_not_come_back_is_turned_away(file_store: Store, body: Json) -> None:
    with pytest.raises(BadInput):
        put(file_store, body, based_on=0)
    assert rows_of(file_store)["revision"] == []


def test_the_second_of_two_writers_is_shown_both(store: Store) -> None:
    put(store, {"depth": 1}, based_on=0)
    first = saved(put(store, {"depth": 2}, based_on=1, at=stamp(1, "laptop")))
    second = conflict(put(store, {"depth": 3}, based_on=1, at=stamp(2, "phone")))
    assert second.mine == {"depth": 3}
    assert second.theirs == first
    assert second.base is not None
    assert second.base.body == {"depth": 1}
    assert len(rows_of(store)["revision"]) == 2
    again = put(store, {"depth": 3}, based_on=second.theirs.number, at=stamp(3, "phone"))
    assert saved(again).number == 3


def test_two_who_begin_the_same_document_are_told(store: Store) -> None:
    mine = saved(put(store, "a", based_on=0, at=stamp(0, "laptop")))
    second = conflict(put(store, "b", based_on=0, at=stamp(0, "phone")))
    assert (second.theirs, second.base) == (mine, None)


def test_a_save_whose_answer_was_lost_is_not_doubled(store: Store) -> None:
    first = saved(put(store, "a", based_on=0))
    assert saved(put(store, "a", based_on=0, at=stamp(1))) == first
    # From another bench, or with other words, it is another save.
    conflict(put(store, "a", based_on=0, at=stamp(1, "phone")))
    conflict(put(store, "b", based_on=0))
    assert len(rows_of(store)["revision"]) == 1


@pytest.mark.parametrize("based_on", [-1, 2, 7])
def test_nobody_builds_on_a_revision_that_is_not_there(store: Store, based_on: int) -> None:
    put(store, "a", based_on=0)
    with pytest.raises(BadInput, match="no such revision"):
        put(store, "b", based_on=based_on)


def test_undo_is_an_earlier_revision_chosen_again(store: Store) -> None:
    for turn, text in enumerate("abc"):
        put(store, text, based_on=turn)
    with store.writing() as connection:
        (found,) = documents_of(connection, job_id=None)
        undone = choose_revision(
            connection, document_id=found.id, number=1, based_on=3, stamp=stamp(5)
        )
        late = choose_revision(
            connection, document_id=found.id, number=2, based_on=3, stamp=stamp(6)
        )
    assert (saved(undone).body, saved(undone).chosen_from, saved(undone).number) == ("a", 1, 4)
    assert conflict(late).theirs == saved(undone)
    with store.reading() as connection:
        assert [one.body for one in history_of(connection, found.id)] == ["a", "b", "c", "a"]


def test_the_file_behind_a_body_comes_back_byte_for_byte(store: Store) -> None:
    with store.writing() as connection:
        save(
            connection, job_id=None, kind="survey", body={}, based_on=0, stamp=stamp(),
            original=SURVEY,
        )  # fmt: skip
    with store.reading() as connection:
        (found,) = documents_of(connection, job_id=None)
        assert newest(connection, found).original == SURVEY


@pytest.mark.parametrize("name", ["two\nlines", "zero\x00", "\ud800", "x" * 201])
def test_names_that_one_line_cannot_hold_are_turned_away(file_store: Store, name: str) -> None:
    with pytest.raises(BadInput, match="name"), file_store.writing() as connection:
        save(
            connection, job_id=None, kind="notes", name=name, body=1, based_on=0, stamp=stamp()
        )  # fmt: skip


def test_a_time_needs_its_zone_and_a_bench_its_name() -> None:
    with pytest.raises(BadInput, match="zone"):
        Stamp(when=dt.datetime(2026, 3, 4), bench="window bench")
    with pytest.raises(BadInput, match="bench"):
        stamp(bench="  ")


def test_what_is_not_there_is_said(store: Store) -> None:
    with store.reading() as connection:
        assert find_document(connection, job_id="x", kind="notes") is None
        with pytest.raises(BadInput, match="no such document"):
            document_by_id(connection, "x")
        with pytest.raises(BadInput, match="no such revision"):
            revision_of(connection, document_id="x", number=1)


def write_many(store: Store, bench: str, times: int, kept: list[int]) -> None:
    """Save so many words of one's own into a shared list, choosing both on every conflict."""
    with open_store(store.address) as mine:
        based_on, body = 0, [f"{bench} 0"]
        while len(kept) < times:
            outcome = put(mine, list(body), based_on=based_on, at=stamp(0, bench))
            if isinstance(outcome, Saved):
                based_on = outcome.revision.number
                kept.append(based_on)
                body = [*body, f"{bench} {len(kept)}"]
            else:
                theirs = outcome.theirs.body
                assert isinstance(theirs, list)
                based_on, body = outcome.theirs.number, [*theirs, body[-1]]


def test_two_writers_at_once_lose_nothing(store: Store) -> None:
    """Exact law: every save is one revision, and the last holds the words of all."""
    times = 15
    kept: dict[str, list[int]] = {"laptop": [], "phone": []}
    threads = [
        threading.Thread(target=write_many, args=(store, bench, times, numbers))
        for bench, numbers in kept.items()
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert sorted(kept["laptop"] + kept["phone"]) == list(range(1, 2 * times + 1))
    with store.reading() as connection:
        (found,) = documents_of(connection, job_id=None)
        last = newest(connection, found).body
    assert isinstance(last, list)
    assert set(last) == {f"{bench} {turn}" for bench in kept for turn in range(times)}


def test_a_writer_that_waits_too_long_is_told(
    file_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("counterhoop.store.engine.WAIT_SECONDS", 0)
    monkeypatch.setattr("counterhoop.store.engine._PRAGMAS", ("PRAGMA busy_timeout = 0",))
    with open_store(file_store.address) as other, file_store.writing():
        with pytest.raises(CannotDo, match="Someone else is writing"):
            put(other, "b", based_on=0)
        with other.reading() as connection:  # reading goes on meanwhile
            assert documents_of(connection, job_id=None) == ()
