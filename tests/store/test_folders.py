"""Job folders, their tabs, hiding and bringing back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from running_samples import fill_running
from shelf_samples import fill_shelf, put_some_away
from store_samples import fill, rows_of, saved, stamp

from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.nanometres import length_of_nm, whole_nm
from counterhoop.store.drum_tab import tabs_by_job
from counterhoop.store.hide import Thing, bring_back, hidden_things, hide
from counterhoop.store.job_folder import LABEL, job_folder, job_folders, open_job
from counterhoop.store.save import save
from counterhoop.store.store import Store
from counterhoop.store.tables import METADATA


def test_folders_stand_with_the_last_changed_first(store: Store) -> None:
    with store.writing() as w:
        first = open_job(w, title="Corvane kit", stamp=stamp())
        second = open_job(w, title="Hallmere snare", stamp=stamp(1))
        save(w, job_id=first, kind="notes", body="x", based_on=0, stamp=stamp(2, "phone"))
    with store.reading() as r:
        folders = job_folders(r)
        assert job_folder(r, second) == folders[1]
        with pytest.raises(BadInput, match="no such job"):
            job_folder(r, "x")
    assert [one.title for one in folders] == ["Corvane kit", "Hallmere snare"]
    assert (folders[0].opened_at, folders[0].changed_at) == (stamp().when, stamp(2).when)


def test_a_new_title_keeps_the_old_one_in_its_history(store: Store) -> None:
    with store.writing() as w:
        job = open_job(w, title="Corvan kit", stamp=stamp())
        new = save(
            w, job_id=job, kind=LABEL, body={"title": "Corvane kit"}, based_on=1, stamp=stamp(1)
        )
    with store.reading() as r:
        assert job_folder(r, job).title == "Corvane kit"
    assert saved(new).number == 2


def test_hidden_and_brought_back_as_it_was(store: Store) -> None:
    with store.writing() as w:
        job = open_job(w, title="Corvane kit", stamp=stamp())
    before = rows_of(store)
    with store.writing() as w:
        hide(w, thing=Thing.JOB, thing_id=job, stamp=stamp(1))
        hide(w, thing=Thing.JOB, thing_id=job, stamp=stamp(2, "phone"))
    with store.reading() as r:
        assert job_folders(r) == ()
        assert [one.hidden for one in job_folders(r, with_hidden=True)] == [True]
        (one,) = hidden_things(r)
    assert (one.thing_id, one.hidden_at, one.hidden_by) == (job, stamp(1).when, "window bench")
    with store.writing() as w:
        bring_back(w, thing=Thing.JOB, thing_id=job, stamp=stamp(3))
        bring_back(w, thing=Thing.JOB, thing_id=job, stamp=stamp(4))
    with store.reading() as r:
        assert [one.id for one in job_folders(r)] == [job]
        assert hidden_things(r) == ()
    after = rows_of(store)
    assert len(after.pop("hiding")) == 1  # who hid it, and who brought it back, stays on record
    assert after == {name: rows for name, rows in before.items() if name in after}


def test_only_what_is_there_can_be_hidden(store: Store) -> None:
    for thing in Thing:
        with pytest.raises(BadInput, match=f"no such {thing.value}"), store.writing() as w:
            hide(w, thing=thing, thing_id="x", stamp=stamp())


def test_nothing_is_deleted_by_anything_that_a_person_does(store: Store) -> None:
    """Only what repeats is ever taken out: tabs of a survey, words and sizes of a piece."""
    fill(store)
    fill_shelf(store)
    put_some_away(store)
    fill_running(store)
    assert all(rows_of(store)[table.name] for table in METADATA.sorted_tables)


def test_tabs_keep_what_was_written_and_the_exact_length(store: Store) -> None:
    job = fill(store)
    with store.reading() as r:
        tom, bass = tabs_by_job(r)[job]
    assert (tom.name, str(tom.diameter), str(tom.depth)) == ("small tom", "12 in", "5 1/2 in")
    # By hand: 14 1/64 in = 897/64 in = 897 x 396 875 nm.
    assert bass.depth.exact_mm * 10**6 == 897 * 396_875
    assert bass.depth == parse_length("14 1/64 in")


@given(st.integers(0, 100), st.integers(0, 63))
def test_every_64th_of_an_inch_is_kept_exactly(whole: int, top: int) -> None:
    """Exact law: 25.4 mm / 64 is a whole number of nanometres."""
    length = parse_length(f"{whole} {top}/64 in")
    assert whole_nm(length) == (64 * whole + top) * 396_875
    assert length_of_nm(whole_nm(length)) == length


@given(st.integers(-(10**12), 10**12))
def test_a_whole_number_of_nanometres_comes_back(nm: int) -> None:
    assert whole_nm(length_of_nm(nm)) == nm
