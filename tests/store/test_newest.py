"""Many documents in one query: held against asking for them one by one."""

from __future__ import annotations

import pytest
from sqlalchemy import event
from store_samples import fill, saved, stamp

from counterhoop.store.hide import Thing, bring_back, hide
from counterhoop.store.job_folder import job_folders, open_job
from counterhoop.store.newest import Newest, folder_documents, newest_bodies
from counterhoop.store.revision import documents_of, newest
from counterhoop.store.save import save
from counterhoop.store.store import Store


def told(found: tuple[Newest, ...]) -> list[tuple[str, str, object, bool]]:
    return [(one.document.kind, one.document.name, one.revision.body, one.hidden) for one in found]


def test_a_folder_says_what_its_documents_say_one_by_one(store: Store) -> None:
    """Independent: each document looked up by itself."""
    fill(store)
    with store.reading() as r:
        for job_id in [None, *(one.id for one in job_folders(r, with_hidden=True))]:
            found = folder_documents(r, job_id)
            assert [one.document for one in found] == list(documents_of(r, job_id=job_id))
            assert [one.revision for one in found] == [newest(r, one.document) for one in found]
            assert found
        assert folder_documents(r, "no such folder") == ()


def test_one_query_each(store: Store) -> None:
    job = fill(store)
    asked: list[str] = []
    with store.reading() as r:
        event.listen(r, "before_cursor_execute", lambda *said: asked.append(said[2]))
        folder_documents(r, job)
        newest_bodies(r, kinds=("label", "survey"))
        newest_bodies(r, kinds=("label",), job_ids=(job,))
    assert sum(one.startswith("SELECT") for one in asked) == 3


def test_kinds_over_all_folders_that_are_not_hidden(store: Store) -> None:
    job = fill(store)
    with store.reading() as r:
        found = newest_bodies(r, kinds=("label", "notes", "shop rules"))
        other = next(one for one in job_folders(r, with_hidden=True) if one.hidden)
        named = newest_bodies(r, kinds=("label",), job_ids=(other.id,))
        assert newest_bodies(r, kinds=()) == newest_bodies(r, kinds=("label",), job_ids=()) == ()
    assert told(found) == [
        ("label", "", {"title": "Corvane kit, ½ done – “quick”"}, False),
        ("notes", "", "lugs off", False),
    ]
    assert {one.document.job_id for one in found} == {job}
    assert told(named) == [("label", "", {"title": "Hallmere snare"}, False)]


def test_a_hidden_document_is_there_and_says_so(store: Store) -> None:
    with store.writing() as w:
        job = open_job(w, title="Corvane kit", stamp=stamp())
        notes = saved(save(w, job_id=job, kind="notes", body="x", based_on=0, stamp=stamp()))
        its = {"thing": Thing.DOCUMENT, "thing_id": notes.document_id}
        hide(w, stamp=stamp(1), **its)
        bring_back(w, stamp=stamp(2), **its)
        hide(w, stamp=stamp(3), **its)
    with store.reading() as r:
        assert [one.hidden for one in folder_documents(r, job)] == [False, True]
        assert [one.hidden for one in newest_bodies(r, kinds=("notes",))] == [True]
    with store.writing() as w:
        bring_back(w, stamp=stamp(4), **its)
    with store.reading() as r:
        assert [one.hidden for one in folder_documents(r, job)] == [False, False]


@pytest.mark.parametrize("kind", ["notes", "survey"])
def test_order_is_the_same_on_both_databases(store: Store, kind: str) -> None:
    """Exact law: by the signs' numbers, which no collation of a database decides."""
    names = ["small tom", "Small tom", "a1", "Z9", "é", "", "_", "a-1"]
    with store.writing() as w:
        job = open_job(w, title="Corvane kit", stamp=stamp())
        for name in names:
            save(w, job_id=job, kind=kind, name=name, body=name, based_on=0, stamp=stamp())
    with store.reading() as r:
        found = newest_bodies(r, kinds=(kind,))
    assert [one.document.name for one in found] == sorted(names)
