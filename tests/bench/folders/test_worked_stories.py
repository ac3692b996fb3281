"""The stories that the demonstration was made to tell come out as told.

Truth: the odds and the years are proved elsewhere (tests/parts, tests/evidence); here stands by
hand what each story is, and the real functions must tell it.
"""

from __future__ import annotations

import json

import pytest

from counterhoop.bench.evidence.dating import Dating, dating_of, reference_of
from counterhoop.bench.folders.folder import KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import CHOICE, FACTS
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.folders.worked_job import put_worked_job
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.open_job import opened_tables
from counterhoop.bench.parts.from_the_shelf import in_words, served
from counterhoop.bench.parts.set_aside import Overtaken, ToTake, choose_and_set_aside
from counterhoop.bench.parts.shelf_stock import shelf_stock
from counterhoop.bench.plan_job import plan_job
from counterhoop.bench.shelf.known import known_pieces
from counterhoop.bench.shelf.unknown import it_is, what_is_it
from counterhoop.bench.workshop import Workshop
from counterhoop.evidence.reference import SerialExample
from counterhoop.parts.dimension import Dimension, read_measured
from counterhoop.parts.unknown.odds import Seen
from counterhoop.scheme.plan import Scheme
from counterhoop.store.job_folder import job_folders
from counterhoop.store.save import Saved
from counterhoop.store.shelf.look_up import Kept

STRAINER = "Corvane lever strainer"


@pytest.fixture
def both(shop: Workshop) -> tuple[KeptJob, KeptJob]:
    """The worked job and the small one."""
    worked = put_worked_job(shop, by="window bench")
    with shop.store.reading() as connection:
        (small,) = (one.id for one in job_folders(connection) if one.id != worked)
    return kept_job(shop, worked), kept_job(shop, small)


def test_three_measurements_name_the_unknown_casting_and_a_fourth_confirms(
    shop: Workshop, both: tuple[KeptJob, KeptJob]
) -> None:
    casting = next(one.piece for one in known_pieces(shop) if one.piece.number == "W-007")
    taken = list(casting.measured)
    assert {one.dimension for one in taken} == {Dimension.HOLE_COUNT, Dimension.HOLES_APART}
    two = what_is_it(shop, taken, seen=Seen(kind=casting.kind), without=casting.id)
    assert two.odds.word == "could be"
    assert two.odds.ranked[0].candidate.name != STRAINER
    # What stands on its card as not entered yet is what is asked for first.
    assert two.offered[0].dimension is Dimension.BASE_WIDE
    noted = casting.condition[-1]
    odds_of_it = []
    for what, text in ((Dimension.BASE_WIDE, "31.8 mm"), (Dimension.BASE_HIGH, "71.7 mm")):
        assert f"{what.value} {text}" in noted
        taken.append(read_measured(what, text))
        told = what_is_it(shop, taken, seen=Seen(kind=casting.kind), without=casting.id).odds
        assert (told.word, told.ranked[0].candidate.name) == ("almost sure", STRAINER)
        odds_of_it.append(told.ranked[0].odds)
    assert odds_of_it[0] < odds_of_it[1]
    job = both[1]
    assert shelf_stock(shop, job, held=drawer(shop))[STRAINER] == 1
    named = it_is(
        shop, casting.id, name=told.ranked[0].candidate.name, measured=taken, based_on=1, by="x"
    )
    assert isinstance(named, Kept)
    assert (named.piece.kind, named.piece.fitting) == ("strainer", STRAINER)
    # Now neither job goes without.
    assert shelf_stock(shop, job, held=drawer(shop))[STRAINER] == 2


def dated(shop: Workshop, job: KeptJob, drum: str) -> Dating:
    found = dating_of(shop, job, next(one for one in job.drums if one.name == drum))
    assert found is not None
    assert not found.left_out
    return found


def test_the_school_snare_s_strainer_is_later_and_the_rest_agrees(
    shop: Workshop, both: tuple[KeptJob, KeptJob]
) -> None:
    found = dated(shop, both[1], "school snare").found
    assert [one.part for one in found.later_parts] == ["strainer and butt"]
    assert {one.word for one in found.origins} == {"original", "later"}
    assert found.conflict is None
    # "In the school's list since 1956": it was made by then.
    assert found.spans[0.8].last <= 1956


def test_the_large_tom_s_number_lies_between_two_dated_ones(
    shop: Workshop, both: tuple[KeptJob, KeptJob]
) -> None:
    found = dated(shop, both[0], "large tom").found
    assert found.serial is not None
    assert found.serial.beyond == ""
    numbers = [one.number for one in both_sides(found.serial.number, shop)]
    assert numbers == [22_034, 27_610]
    span = found.serial.spans[0.8]
    assert span.first < 1960 < span.last
    assert span.first < 1962 <= span.last
    assert [one.written for one in found.serial.out_of_order] == ["15 220"]


def both_sides(number: int, shop: Workshop) -> tuple[SerialExample, SerialExample]:
    examples = sorted(reference_of(shop).serials, key=lambda one: one.number)
    return (
        [one for one in examples if one.number < number][-1],
        next(one for one in examples if one.number > number),
    )


def test_the_low_tom_has_two_readings_and_the_next_look_leaves_one(
    shop: Workshop, both: tuple[KeptJob, KeptJob]
) -> None:
    found = dated(shop, both[0], "low tom").found
    assert found.conflict is not None
    told = {(one.part, one.is_) for one in found.conflict.readings if one.part}
    assert told == {("lugs", "later"), ("hoops", "earlier")}
    assert found.next_features[0].feature == "shell make-up"
    drum = next(one for one in both[0].drums if one.name == "low tom")
    facts = drum.kept(FACTS)
    plies = {"value": "three plies with rings", "sure": "seen"}
    change = Change(
        kind=FACTS, name=drum.id, value={**facts.table, "plies": plies}, based_on=facts.number
    )
    write_down(shop, both[0].id, change, by="window bench")
    after = dated(shop, kept_job(shop, both[0].id), "low tom").found
    assert after.conflict is None
    assert [one.part for one in after.later_parts] == ["lugs"]


def test_the_old_snare_s_strainer_stands_in_no_row(
    shop: Workshop, both: tuple[KeptJob, KeptJob]
) -> None:
    assert dated(shop, both[0], "old snare").found.unlisted == ("strainer",)


def the_scheme(shop: Workshop, job: KeptJob, drum: str) -> Scheme:
    """Plan one drum of a folder as the worker would, with the shelf as its stock."""
    held = drawer(shop)
    source = to_plan(job, shop=held, on_shelf=shelf_stock(shop, job, held=held)).source
    assert isinstance(source, JobSource)
    tables = json.loads(source.tables_json)
    tables["drums"] = {drum: tables["drums"][drum]}
    for whole in ("match", "kit", "approval"):
        tables.pop(whole, None)
    chosen = plan_job(opened_tables(tables, name="", books={})).drum(drum).chosen
    assert chosen is not None
    return chosen


def test_two_jobs_want_the_last_strainer_and_one_gets_it(
    shop: Workshop, both: tuple[KeptJob, KeptJob]
) -> None:
    takes = []
    for job, name in zip(both, ("old snare", "school snare"), strict=True):
        scheme = the_scheme(shop, job, name)
        (line,) = (one for one in scheme.parts if one.name == STRAINER)
        # Before either is taken, each plan counts on it.
        assert (line.count, line.bought) == (1, 0)
        take = ToTake(
            code=scheme.code, moved=[], based_on=0, parts=scheme.parts, seen={STRAINER: 1}
        )
        takes.append((job, next(one for one in job.drums if one.name == name), take, scheme))
    job, drum, take, _ = takes[0]
    assert isinstance(choose_and_set_aside(shop, job, drum, take, by="window bench"), Saved)
    job, drum, take, scheme = takes[1]
    late = choose_and_set_aside(shop, job, drum, take, by="phone")
    assert isinstance(late, Overtaken)
    assert "set aside for job 26-031, old snare by window bench" in late.says[0]
    assert kept_job(shop, job.id).drum(drum.id).kept(CHOICE).number == 0
    (shelf,) = (one for one in served(shop, scheme, job=job) if one.part.name == STRAINER)
    assert shelf.short == 1
    assert "1 set aside for job 26-031, old snare" in in_words(shop, shelf)
    assert the_scheme(shop, job, drum.name).parts[0].bought == 1
