"""Work picked up and put down by one pair of hands, whatever bench says so.

Truth: worked by hand for the snare (two holes to plug, 16 lugs to soak), and a law that holds for
any order of presses: never two things in hand, no minute counted twice.
"""

from __future__ import annotations

import datetime as dt
import random
from itertools import pairwise

import pytest
from small_shop import TUESDAY, Clock

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.promise.bench_now import bench_now
from counterhoop.bench.today.hands import Down, lay_down, never_picked_up, take_in_hand
from counterhoop.bench.today.on_the_day import could_begin, cures_under, held_now, lines_of_day
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.work_log.read_log import all_workings, in_hand_now
from counterhoop.store.work_log.working import Working

PLUG, SOAK = "plug a hole", "soak and clean a lug"


def take(shop: Workshop, job: str, operation: str, *, by: str = "bench", mark: str = "") -> int:
    drum = kept_job(shop, job).drums[0].id
    taken = take_in_hand(shop, job=job, drum=drum, operation=operation, by=by, mark=mark)
    return taken.working.entry


def log(shop: Workshop) -> tuple[Working, ...]:
    with shop.store.reading() as connection:
        return all_workings(connection)


def in_hand(shop: Workshop) -> list[int]:
    with shop.store.reading() as connection:
        return [one.entry for one in in_hand_now(connection)]


def test_what_is_picked_up_on_the_phone_is_put_down_at_the_bench(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    drum = kept_job(shop, allowed).drums[0].id
    first = take(shop, allowed, SOAK, by="phone")
    clock.at = TUESDAY + dt.timedelta(minutes=20)
    taken = take_in_hand(shop, job=allowed, drum=drum, operation=PLUG, by="bench")
    assert in_hand(shop) == [taken.working.entry]
    assert taken.put_down is not None
    assert (taken.put_down.entry, taken.put_down.count) == (first, 0)
    assert taken.put_down.stretch is not None
    assert taken.put_down.stretch.put_down == clock.at
    clock.at = TUESDAY + dt.timedelta(minutes=40)
    lay_down(shop, entry=taken.working.entry, down=Down(count=1), by="phone")
    assert in_hand(shop) == []


def test_a_form_sent_twice_picks_up_once_and_lets_later_work_be(
    shop: Workshop, allowed: str
) -> None:
    first = take(shop, allowed, SOAK, mark="a")
    second = take(shop, allowed, PLUG, by="phone", mark="b")
    assert take(shop, allowed, SOAK, mark="a") == first
    assert in_hand(shop) == [second]
    done = lay_down(shop, entry=second, down=Down(count=1), by="phone", mark="c")
    assert lay_down(shop, entry=second, down=Down(count=1), by="phone", mark="c") == done
    assert len(log(shop)) == 2
    with pytest.raises(BadInput, match="not in hand any more"):
        lay_down(shop, entry=second, down=Down(count=1), by="bench", mark="d")


def test_finished_means_the_piece_that_was_planned(shop: Workshop, allowed: str) -> None:
    """Two plugs in one go; 16 lugs need no clamps, so that they are one go as well."""
    entry = take(shop, allowed, PLUG)
    with pytest.raises(BadInput, match="1 of 2 are done"):
        lay_down(shop, entry=entry, down=Down(count=1, done=True), by="bench")
    assert in_hand(shop) == [entry]
    assert lay_down(shop, entry=entry, down=Down(done=True), by="bench").count == 2
    entry = take(shop, allowed, SOAK)
    short = lay_down(
        shop, entry=entry, down=Down(count=15, done=True, nothing_more=True), by="bench"
    )
    assert (short.count, short.finished) == (15, True)
    left = {work.operation for one in bench_now(shop).jobs for work in one.work.work}
    assert not {PLUG, SOAK} & left


def test_work_that_the_scheme_does_not_ask_for_wants_its_count(
    shop: Workshop, allowed: str
) -> None:
    entry = take(shop, allowed, "polish a lug")
    with pytest.raises(BadInput, match="how many were done"):
        lay_down(shop, entry=entry, down=Down(done=True), by="bench")
    assert lay_down(shop, entry=entry, down=Down(count=3, done=True), by="bench").count == 3


def test_nothing_that_cannot_be_undone_is_picked_up_before_a_yes(shop: Workshop, job: str) -> None:
    for operation in (PLUG, "drill a hole", "true an edge", "tune a drum", SOAK):
        with pytest.raises(BadInput, match="waits for a yes to the scheme"):
            take(shop, job, operation)
    assert log(shop) == ()
    entries = [take(shop, job, "strip a drum")]
    quote = {"accepted": {"offer": 1, "who": "Nell", "when": "2030-05-14", "how": "by letter"}}
    write_down(shop, job, Change(kind=QUOTE, value=quote, based_on=0), by="bench")
    # A price is agreed: cleaning needs no yes to the holes.
    entries.append(take(shop, job, SOAK))
    assert [one.entry for one in log(shop)] == entries


def test_picked_up_by_mistake_leaves_no_time(shop: Workshop, allowed: str, clock: Clock) -> None:
    entry = take(shop, allowed, PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=4)
    never_picked_up(shop, entry=entry, by="bench")
    assert (in_hand(shop), log(shop)) == ([], ())


def test_what_it_took_is_told_to_the_minute(shop: Workshop, allowed: str, clock: Clock) -> None:
    """25 minutes, uncounted; an hour later 10 more: a plan holds for an hour, hands do not."""
    entry = take(shop, allowed, PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=25)
    lay_down(shop, entry=entry, down=Down(), by="bench")
    clock.at = TUESDAY + dt.timedelta(minutes=85)
    take(shop, allowed, PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=95)
    (held,) = held_now(bench_now(shop), now=clock.at)
    assert (held.so_far_min, held.before_min) == (10.0, 25.0)
    # Two plugs of 12 minutes by the book; none was counted, so that nothing was learned.
    assert (held.usual_min, held.whose) == (pytest.approx(24.0), "the book's")
    clock.at = TUESDAY + dt.timedelta(minutes=195)
    (held,) = held_now(bench_now(shop), now=clock.at)
    assert (held.so_far_min, held.before_min) == (110.0, 25.0)


def test_what_could_begin_waits_for_nothing(shop: Workshop, allowed: str) -> None:
    assert [one.work.operation for one in could_begin(bench_now(shop))] == ["strip a drum"]
    entry = take(shop, allowed, "strip a drum")
    lay_down(shop, entry=entry, down=Down(done=True), by="bench")
    assert {one.work.operation for one in could_begin(bench_now(shop))} == {
        SOAK, "clean a hoop", PLUG,
    }  # fmt: skip


def test_what_is_glued_is_left_alone_until_it_has_cured(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    """Both plugs at 9:00, cured at 21:00: what is fitted waits, lugs and hoops do not."""
    entry = take(shop, allowed, PLUG)
    lay_down(shop, entry=entry, down=Down(done=True), by="bench")
    bench = bench_now(shop)
    by_key = {work.task.key: work.operation for one in bench.jobs for work in one.work.work}
    found = {by_key[key]: cures.until for key, cures in cures_under(bench).items()}
    assert {*by_key.values()} - {*found} == {SOAK, "clean a hoop"}
    assert {*found.values()} == {TUESDAY + dt.timedelta(hours=12)}
    take(shop, allowed, "refit a lug")
    (held,) = held_now(bench_now(shop), now=clock.at)
    assert [one.says for one in held.cures] == [PLUG]
    clock.at = TUESDAY + dt.timedelta(hours=13)
    assert cures_under(bench_now(shop)) == {}


def test_any_presses_leave_one_thing_in_hand_and_no_minute_twice(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    luck, names = random.Random(7), (PLUG, SOAK, "clean a hoop")
    for _ in range(24):
        clock.at += dt.timedelta(minutes=luck.randint(0, 9))
        by, held = luck.choice(("bench", "phone")), in_hand(shop)
        if held and luck.random() < 0.4:
            lay_down(shop, entry=held[0], down=Down(count=luck.randint(0, 2)), by=by)
        else:
            take(shop, allowed, luck.choice(names), by=by)
        assert len(in_hand(shop)) <= 1
    spans = sorted(
        (one.stretch.picked_up, one.stretch.put_down or clock.at)
        for one in log(shop)
        if one.stretch is not None
    )
    assert len(spans) > 8
    assert all(ends <= begins for (_, ends), (begins, _) in pairwise(spans))


def test_a_day_has_what_was_put_down_in_its_order(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    first = take(shop, allowed, SOAK)
    clock.at += dt.timedelta(hours=1)
    second = take(shop, allowed, PLUG)
    clock.at += dt.timedelta(days=1)
    lay_down(shop, entry=second, down=Down(count=1), by="bench")
    bench = bench_now(shop)
    days = (TUESDAY.date(), TUESDAY.date() + dt.timedelta(days=1))
    assert [[one.entry for one in lines_of_day(bench, day)] for day in days] == [[first], [second]]
