"""Saving: revisions, both versions at a conflict, corrections of what was settled, undo."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest

from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import Kept, kept_job
from counterhoop.bench.folders.history import before, choose_version, settle, versions
from counterhoop.bench.folders.kinds import JOB, SURVEY, WISH
from counterhoop.bench.folders.open_folder import add_drum, call_drum, open_folder
from counterhoop.bench.folders.out_of_sight import (
    put_away,
    put_drum_away,
    take_out_again,
    what_is_away,
)
from counterhoop.bench.folders.tables import drum_table
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.hide import Thing
from counterhoop.store.pointer import NOTHING
from counterhoop.store.save import Conflict, Saved, save


@pytest.fixture
def tom(shop: Workshop) -> tuple[str, str]:
    job = open_folder(shop, job={"number": "30-001", "client": "a school"}, by="bench")
    return job, add_drum(shop, job, name="tom", survey={"wall": "5 mm"}, by="bench")


def survey(shop: Workshop, tom: tuple[str, str]) -> Kept:
    return kept_job(shop, tom[0]).drum(tom[1]).kept(SURVEY)


def write(shop: Workshop, tom: tuple[str, str], pointer: str, value, **more) -> Saved | Conflict:
    more = {"based_on": survey(shop, tom).number, "by": "bench", **more}
    by = more.pop("by")
    change = Change(kind=SURVEY, name=tom[1], pointer=pointer, value=value, **more)
    return write_down(shop, tom[0], change, by=by)


def test_lists_and_tables_are_made_on_the_way(shop: Workshop, tom: tuple[str, str]) -> None:
    write(shop, tom, "/holes/0", {"dia": "6 mm"})
    write(shop, tom, "/edges/batter/gaps", "0 mm")
    write(shop, tom, "/holes/1", {"dia": "7 mm"})
    assert survey(shop, tom).body == {
        "wall": "5 mm",
        "holes": [{"dia": "6 mm"}, {"dia": "7 mm"}],
        "edges": {"batter": {"gaps": "0 mm"}},
    }
    write(shop, tom, "/holes/0", NOTHING)
    assert survey(shop, tom).table["holes"] == [{"dia": "7 mm"}]
    write(shop, tom, "/holes/0", NOTHING)
    assert "holes" not in survey(shop, tom).table


def test_the_same_again_makes_no_revision(shop: Workshop, tom: tuple[str, str]) -> None:
    write(shop, tom, "/wall", "5 mm")
    assert survey(shop, tom).number == 1


def test_the_second_of_two_is_shown_both(shop: Workshop, tom: tuple[str, str]) -> None:
    write(shop, tom, "/wall", "6 mm", based_on=1, by="phone")
    done = write(shop, tom, "/wall", "7 mm", based_on=1, by="laptop")
    assert isinstance(done, Conflict)
    assert (done.mine, done.theirs.body, done.theirs.bench) == (
        {"wall": "7 mm"}, {"wall": "6 mm"}, "phone"
    )  # fmt: skip
    assert survey(shop, tom).body == {"wall": "6 mm"}


def test_what_is_settled_is_corrected_with_a_reason(shop: Workshop, tom: tuple[str, str]) -> None:
    settle(shop, survey(shop, tom))
    with pytest.raises(BadInput, match="reason"):
        write(shop, tom, "/wall", "6 mm")
    body = {"wall": "6 mm", "holes": [{"dia": "6 mm"}]}
    write(shop, tom, "", body, why="read the caliper again")
    assert survey(shop, tom).body == body
    said = [one.correction for one in versions(shop, survey(shop, tom).document_id)]
    assert [(c.pointer, c.old, c.new) for c in said if c] == [
        ("/holes", NOTHING, [{"dia": "6 mm"}]),
        ("/wall", "5 mm", "6 mm"),
    ]
    assert survey(shop, tom).as_found == 1
    again = write(shop, tom, "", body, why="read the caliper again", based_on=1)
    assert isinstance(again, Saved)
    assert survey(shop, tom).number == 3
    other = write(shop, tom, "", {"wall": "7 mm"}, why="read it too", based_on=1, by="phone")
    assert isinstance(other, Conflict)


def test_undo_goes_back_step_by_step(shop: Workshop, tom: tuple[str, str]) -> None:
    for wall in ("6 mm", "7 mm"):
        write(shop, tom, "/wall", wall)
    seen = []
    while (back := before(survey(shop, tom), shop)) is not None:
        kept = survey(shop, tom)
        choose_version(shop, kept.document_id, number=back, based_on=kept.number, by="bench")
        seen.append(survey(shop, tom).table["wall"])
    assert seen == ["6 mm", "5 mm"]
    assert len(versions(shop, survey(shop, tom).document_id)) == 5


def test_what_was_taken_back_does_not_come_again(shop: Workshop, tom: tuple[str, str]) -> None:
    write(shop, tom, "/wall", "6 mm")
    kept = survey(shop, tom)
    choose_version(shop, kept.document_id, number=1, based_on=2, by="bench")
    write(shop, tom, "/wall", "7 mm")
    # Before the 7 mm stood the 5 mm; the 6 mm had been taken back.
    assert before(survey(shop, tom), shop) == 1


def test_going_back_in_the_job_loses_no_drum(shop: Workshop, tom: tuple[str, str]) -> None:
    job = kept_job(shop, tom[0]).kept(JOB)
    change = Change(kind=JOB, pointer="/job/client", value="a band", based_on=job.number)
    write_down(shop, tom[0], change, by="bench")
    snare = add_drum(shop, tom[0], name="snare", survey={"wall": "4 mm"}, by="bench")
    job = kept_job(shop, tom[0]).kept(JOB)
    assert before(job, shop) == 2
    choose_version(shop, job.document_id, number=1, based_on=job.number, by="bench")
    after = kept_job(shop, tom[0])
    assert [drum.id for drum in after.drums] == [tom[1], snare]
    assert after.job["client"] == "a school"
    assert after.title == "30-001, a school"
    # Only the list of drums differs from what is left: there is nothing to go back to.
    assert before(after.kept(JOB), shop) is None


@pytest.mark.parametrize(
    ("before_it", "after_it"),
    [
        ({"stock": {"a": 1, "b": 2}}, {"stock": {"b": 2, "a": 1}}),
        ({"plies": 1}, {"plies": True}),
    ],
)
def test_what_python_calls_equal_is_kept_all_the_same(
    shop: Workshop, tom: tuple[str, str], before_it: dict, after_it: dict
) -> None:
    write(shop, tom, "", before_it)
    write(shop, tom, "", after_it)
    assert str(survey(shop, tom).body) == str(after_it)
    assert survey(shop, tom).number == 3


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        (SURVEY, {"says": None}),
        (SURVEY, {"holes": [{"dia": None}]}),
        (SURVEY, {"says": "half \ud800"}),
        (SURVEY, {"wish": []}),
        (SURVEY, {"chosen": {"scheme": "ABCD-EFGH"}}),
        (WISH, {"holes": []}),
        (WISH, {"depth": "100 mm"}),
    ],
)
def test_what_belongs_nowhere_is_refused(
    shop: Workshop, tom: tuple[str, str], kind: str, body: dict
) -> None:
    number = kept_job(shop, tom[0]).drum(tom[1]).kept(kind).number
    with pytest.raises(BadInput):
        write_down(
            shop, tom[0], Change(kind=kind, name=tom[1], value=body, based_on=number), by="phone"
        )
    if kind == SURVEY:
        with pytest.raises(BadInput):
            add_drum(shop, tom[0], name="snare", survey=body, by="phone")
    assert [one.name for one in kept_job(shop, tom[0]).drums] == ["tom"]


def test_a_wish_from_elsewhere_does_not_hide_what_was_found(
    shop: Workshop, tom: tuple[str, str]
) -> None:
    # As a plain folder that somebody edited could bring it in.
    with shop.store.writing() as connection:
        save(
            connection, job_id=tom[0], kind=WISH, name=tom[1],
            body={"wall": "9 mm", "wish": [{"truing": "both"}]}, based_on=0,
            stamp=shop.stamp("plain folder"),
        )  # fmt: skip
    drum = kept_job(shop, tom[0]).drum(tom[1])
    assert drum_table(drum) == {"wall": "5 mm", "wish": [{"truing": "both"}]}


@pytest.mark.parametrize("name", ["a\u200bb", "\ud800", " \t", "x" * 41])
def test_a_name_that_no_survey_file_can_hold(
    shop: Workshop, tom: tuple[str, str], name: str
) -> None:
    number = kept_job(shop, tom[0]).kept(JOB).number
    with pytest.raises(BadInput):
        add_drum(shop, tom[0], name=name, survey={}, by="bench")
    with pytest.raises(BadInput):
        call_drum(shop, *tom, name=name, based_on=number, by="bench")


def test_a_name_is_one_line_with_single_spaces(shop: Workshop, tom: tuple[str, str]) -> None:
    add_drum(shop, tom[0], name=" a\nb  c ", survey={}, by="bench")
    assert kept_job(shop, tom[0]).drums[1].name == "a b c"


def test_a_job_holds_as_many_drums_as_its_file(shop: Workshop, tom: tuple[str, str]) -> None:
    for number in range(2, 41):
        add_drum(shop, tom[0], name=f"drum {number}", survey={}, by="bench")
    with pytest.raises(BadInput, match="at most 40"):
        add_drum(shop, tom[0], name="one more", survey={}, by="bench")
    put_drum_away(shop, kept_job(shop, tom[0]).drums[0], by="bench")
    add_drum(shop, tom[0], name="one more", survey={}, by="bench")


def test_two_benches_put_drums_in_at_once_and_none_is_lost(
    shop: Workshop, tom: tuple[str, str]
) -> None:
    with ThreadPoolExecutor(max_workers=4) as benches:
        made = list(
            benches.map(
                lambda n: add_drum(shop, tom[0], name=f"drum {n}", survey={}, by=f"bench {n}"),
                range(12),
            )
        )
    assert {drum.id for drum in kept_job(shop, tom[0]).drums} == {tom[1], *made}


def test_a_drum_keeps_everything_when_it_is_called_otherwise(
    shop: Workshop, tom: tuple[str, str]
) -> None:
    add_drum(shop, tom[0], name="snare", survey={}, by="bench")
    number = kept_job(shop, tom[0]).kept(JOB).number
    with pytest.raises(BadInput, match="called so"):
        call_drum(shop, *tom, name="Snare", based_on=number, by="bench")
    call_drum(shop, *tom, name="floor tom", based_on=number, by="bench")
    job = kept_job(shop, tom[0])
    assert [drum.name for drum in job.drums] == ["floor tom", "snare"]
    assert job.drum(tom[1]).kept(SURVEY).table == {"wall": "5 mm"}


def test_a_new_client_stands_on_the_folder(shop: Workshop, tom: tuple[str, str]) -> None:
    job = kept_job(shop, tom[0]).kept(JOB)
    change = Change(kind=JOB, pointer="/job/client", value="a band", based_on=job.number)
    write_down(shop, tom[0], change, by="bench")
    assert [one.title for one in on_the_bench(shop)] == ["30-001, a band"]


def test_out_of_sight_and_back(shop: Workshop, tom: tuple[str, str]) -> None:
    put_drum_away(shop, kept_job(shop, tom[0]).drums[0], by="bench")
    assert kept_job(shop, tom[0]).drums == ()
    assert [one.says for one in what_is_away(shop)] == ["the tom of 30-001, a school"]
    put_away(shop, thing=Thing.JOB, thing_id=tom[0], by="bench")
    assert on_the_bench(shop) == ()
    for one in what_is_away(shop):
        take_out_again(shop, thing=one.thing, thing_id=one.thing_id, by="bench")
    assert [one.drums for one in on_the_bench(shop)] == [("tom",)]
    assert what_is_away(shop) == ()
