"""How a drum was found is corrected, never overwritten."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import update
from store_samples import conflict, saved, stamp

from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.as_found import (
    correct,
    corrections_of,
    moved_without_correction,
    settle_as_found,
)
from counterhoop.store.body import Json, hash_of, new_id, write_body
from counterhoop.store.pointer import (
    NOTHING,
    Nothing,
    read_pointer,
    value_at,
    with_value,
    write_pointer,
)
from counterhoop.store.revision import document_by_id, history_of, newest, revision_of
from counterhoop.store.save import save
from counterhoop.store.store import Store
from counterhoop.store.tables import revision
from counterhoop.store.undo import choose_revision

FOUND: Json = {"depth": "5 1/2 in", "holes": [{"down": "1 in"}, {"down": "2 in"}], "odd": None}


def settled(store: Store, *, name: str = "") -> str:
    with store.writing() as w:
        first = saved(
            save(
                w, job_id=None, kind="survey", name=name, body=FOUND, based_on=0, stamp=stamp(),
                original=b"as it came",
            )
        )  # fmt: skip
        settle_as_found(w, document_id=first.document_id, number=1)
    return first.document_id


def test_a_correction_keeps_the_old_value_and_the_reason(store: Store) -> None:
    survey = settled(store)
    with store.writing() as w:
        done = correct(
            w, document_id=survey, pointer="/holes/1/down", new="2 1/8 in",
            why="rule read from its end", based_on=1, stamp=stamp(60, "phone"),
        )  # fmt: skip
    assert saved(done).body == {
        "depth": "5 1/2 in",
        "holes": [{"down": "1 in"}, {"down": "2 1/8 in"}],
        "odd": None,
    }
    with store.reading() as r:
        (one,) = corrections_of(r, survey)
        as_found = revision_of(r, document_id=survey, number=1)
        assert not moved_without_correction(r, document_by_id(r, survey))
    assert (one.old, one.new, one.why) == ("2 in", "2 1/8 in", "rule read from its end")
    assert (one.made_at, one.bench, one.number) == (stamp(60).when, "phone", 2)
    assert (as_found.body, as_found.original) == (FOUND, b"as it came")


def test_what_is_settled_is_neither_saved_over_nor_undone(store: Store) -> None:
    survey = settled(store)
    with store.writing() as w:
        with pytest.raises(CannotDo, match="Write a correction"):
            save(w, job_id=None, kind="survey", body={}, based_on=1, stamp=stamp())
        with pytest.raises(CannotDo, match="another correction"):
            choose_revision(w, document_id=survey, number=1, based_on=1, stamp=stamp())
        with pytest.raises(CannotDo, match="settled already"):
            settle_as_found(w, document_id=survey, number=1)
    with store.reading() as r:
        assert len(history_of(r, survey)) == 1


def test_only_the_newest_can_be_settled_and_only_the_settled_corrected(store: Store) -> None:
    with store.writing() as w:
        first = saved(save(w, job_id=None, kind="survey", body=1, based_on=0, stamp=stamp()))
        save(w, job_id=None, kind="survey", body=2, based_on=1, stamp=stamp())
        with pytest.raises(BadInput, match="not the newest"):
            settle_as_found(w, document_id=first.document_id, number=1)
        with pytest.raises(CannotDo, match="change it and save"):
            correct(
                w, document_id=first.document_id, pointer="/a", new=1, why="x", based_on=2,
                stamp=stamp(),
            )  # fmt: skip


@pytest.mark.parametrize(
    ("pointer", "new", "why", "says"),
    [
        ("/depth", "5 1/2 in", "x", "what stands there"),
        ("/lugs/0/down", "1 in", "x", "put there"),
        ("/holes/3", "1 in", "x", "put there"),
        ("/holes/0", NOTHING, "x", "put there"),
        ("/lugs", NOTHING, "x", "what stands there"),
        ("depth", "1 in", "x", "as a place"),
        ("/depth", "1 in", " ", "why"),
    ],
)
def test_a_correction_that_says_nothing_is_turned_away(
    file_store: Store, pointer: str, new: Json | Nothing, why: str, says: str
) -> None:
    survey = settled(file_store)
    with pytest.raises(BadInput, match=says), file_store.writing() as w:
        correct(
            w, document_id=survey, pointer=pointer, new=new, why=why, based_on=1, stamp=stamp()
        )  # fmt: skip
    with file_store.reading() as r:
        assert len(history_of(r, survey)) == 1


def test_a_late_correction_is_shown_both_and_a_repeated_one_not_doubled(store: Store) -> None:
    survey = settled(store)

    def shorten(to: str, bench: str) -> object:
        with store.writing() as w:
            return correct(
                w, document_id=survey, pointer="/depth", new=to, why="x", based_on=1,
                stamp=stamp(1, bench),
            )  # fmt: skip

    first = shorten("5 in", "laptop")
    assert shorten("5 in", "laptop") == first
    late = conflict(shorten("6 in", "phone"))
    assert isinstance(late.mine, dict)
    assert late.mine["depth"] == "6 in"
    with store.reading() as r:
        assert len(corrections_of(r, survey)) == 1


def test_a_change_that_goes_round_the_corrections_is_found(store: Store) -> None:
    survey = settled(store)
    with store.writing() as w:
        correct(w, document_id=survey, pointer="/odd", new=1, why="x", based_on=1, stamp=stamp())
        body = write_body({"depth": "9 in"})
        w.execute(
            update(revision)
            .where(revision.c.document_id == survey, revision.c.number == 2)
            .values(body=body, sha256=hash_of(body, None))
        )
    with store.reading() as r:
        assert moved_without_correction(r, document_by_id(r, survey))


KEYS = st.sampled_from(["a", "b/c", "~d", "0", ""])
VALUES = st.none() | st.integers(0, 3) | st.lists(st.integers(0, 3), max_size=2)
CHANGES = st.lists(st.tuples(KEYS, VALUES | st.just(NOTHING)), max_size=8)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(CHANGES)
def test_corrections_lead_from_what_was_found_to_what_is_said(
    file_store: Store, changes: list[tuple[str, Json | Nothing]]
) -> None:
    """Exact law: the old value of each correction is what the ones before it left."""
    survey = settled(file_store, name=new_id())
    number, expected = 1, dict(FOUND)
    with file_store.writing() as w:
        for key, value in changes:
            if (
                write_body(expected.get(key)) == write_body(value)
                if key in expected and not (isinstance(value, Nothing))
                else (key not in expected and isinstance(value, Nothing))
            ):
                continue
            correct(
                w, document_id=survey, pointer=write_pointer([key]), new=value, why="x",
                based_on=number, stamp=stamp(),
            )  # fmt: skip
            number += 1
            if isinstance(value, Nothing):
                del expected[key]
            else:
                expected[key] = value
    with file_store.reading() as r:
        found = document_by_id(r, survey)
        assert newest(r, found).body == expected
        assert not moved_without_correction(r, found)


@given(st.lists(st.text(max_size=4), min_size=1, max_size=4))
def test_a_place_reads_back(parts: list[str]) -> None:
    assert read_pointer(write_pointer(parts)) == parts


def test_places_in_lists() -> None:
    body: Json = [1, [2, 3]]
    assert value_at(body, "/1/0") == 2
    assert value_at(body, "/1/00") is NOTHING
    assert value_at(body, "/1/-1") is NOTHING
    assert with_value(body, "/1/2", 4) == [1, [2, 3, 4]]
    assert with_value(body, "/1", NOTHING) == [1]
    assert body == [1, [2, 3]]
