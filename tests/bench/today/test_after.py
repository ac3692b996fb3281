"""Times typed after, lines of the log put right, and what is asked about.

Truth: worked by hand from the operations book (12 minutes a plug, 12 hours its cure at 20 degrees).
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from small_shop import TUESDAY, Clock

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.promise.bench_now import bench_now
from counterhoop.bench.today.after import (
    LineTyped,
    as_typed,
    go_back_to,
    line_of,
    put_right,
    say_it_stands,
    strike,
    write_after,
)
from counterhoop.bench.today.asks import Ask, asks_of
from counterhoop.bench.today.hands import Down, lay_down, take_in_hand
from counterhoop.bench.today.what import belief_of, what_was
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.work_log.working import Working

PLUG = "plug a hole"


def typed(shop: Workshop, job: str, **more: str) -> LineTyped:
    drum = kept_job(shop, job).drums[0].id
    usual = {"operation": PLUG, "day": "2030-05-14", "took": "25 min", "count": "2"}
    return LineTyped(job=job, drum=drum, **usual | more)


def asks(shop: Workshop, clock: Clock) -> tuple[Ask, ...]:
    return asks_of(bench_now(shop), now=clock.at)


def usual_min(shop: Workshop, line: Working) -> float:
    bench = bench_now(shop)
    what = what_was(bench, line)
    assert what is not None
    return belief_of(bench, what.operation).median_min


def test_a_time_with_its_beginning_cures_from_its_end(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    clock.at = TUESDAY + dt.timedelta(hours=5)
    line = write_after(shop, typed(shop, allowed, begun="9.40", took="25 min"), by="bench")
    assert line.stretch is not None
    assert line.stretch.put_down == TUESDAY + dt.timedelta(minutes=65)
    ((_, cures),) = bench_now(shop).cures
    assert cures.until == TUESDAY + dt.timedelta(hours=13, minutes=5)
    assert line_of(shop, line.entry)[0].kind == "typed"


UNREADABLE = (
    ({"took": ""}, "took"),
    ({"took": "25 x"}, "took"),
    ({"took": "0 min"}, "took"),
    ({"count": "some"}, "count"),
    ({"count": "0"}, "count"),
    ({"day": "2030-05-15"}, "day"),
    ({"day": "last week"}, "day"),
    ({"begun": "25:00"}, "begun"),
    ({"begun": "8:50"}, "took"),
    ({"operation": "whistle"}, "operation"),
)


def test_what_cannot_be_written_names_its_field(shop: Workshop, allowed: str) -> None:
    """It is nine o'clock: 25 minutes from 8:50 on are not over."""
    for more, where in UNREADABLE:
        with pytest.raises(BadInput) as fault:
            write_after(shop, typed(shop, allowed, **more), by="bench")
        assert fault.value.where == where, more
    assert bench_now(shop).log.workings == ()


def test_three_hours_for_one_hole_are_asked_about_and_count_as_three_times(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    """15 times the book's 12 minutes: it counts as three times, also when somebody says so."""
    line = write_after(shop, typed(shop, allowed, took="3 h", count="1"), by="bench")
    (ask,) = asks(shop, clock)
    assert ask.says == "3 h for one hole, where 12 min is usual: was that one hole or 15?"
    assert (ask.kind, ask.likely) == ("wild", 15)
    clipped = usual_min(shop, line)
    assert clipped == pytest.approx(12.0 * 3.0 ** (1 / 3))
    seen = line_of(shop, line.entry)[-1].entry
    say_it_stands(shop, line.entry, seen=seen, by="phone")
    assert asks(shop, clock) == ()
    assert usual_min(shop, line) == pytest.approx(12.0 * 3.0 ** (1 / 3))


def test_a_strip_finished_by_mistake_moves_no_figure(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    """Twenty seconds for a drum that usually takes three quarters of an hour, and a yes to it."""
    drum = kept_job(shop, allowed).drums[0].id
    held = take_in_hand(shop, job=allowed, drum=drum, operation="strip a drum", by="bench").working
    before = usual_min(shop, held)
    clock.at = TUESDAY + dt.timedelta(seconds=20)
    line = lay_down(shop, entry=held.entry, down=Down(done=True), by="bench")
    (ask,) = asks(shop, clock)
    assert (ask.kind, ask.likely) == ("took", 0)
    assert ask.says.endswith("how long was it?")
    say_it_stands(shop, line.entry, seen=0, by="bench")
    assert usual_min(shop, line) == before
    right = replace(as_typed(line), begun="", ended="", took="35 min", count="1")
    put_right(shop, line.entry, right, seen=0, why="", by="bench")
    assert bench_now(shop).log.worked[0].minutes == 35.0
    assert usual_min(shop, line) < before


def test_the_other_answer_corrects_the_count(shop: Workshop, allowed: str, clock: Clock) -> None:
    line = write_after(shop, typed(shop, allowed, took="3 h", count="1"), by="bench")
    seen = line_of(shop, line.entry)[-1].entry
    say_it_stands(shop, line.entry, seen=seen, count=15, by="phone")
    assert asks(shop, clock) == ()
    assert usual_min(shop, line) == pytest.approx(12.0)
    assert line_of(shop, line.entry)[-1].why == "asked about, and it was 15"


def test_what_was_never_put_down_is_asked_the_next_day(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    drum = kept_job(shop, allowed).drums[0].id
    held = take_in_hand(shop, job=allowed, drum=drum, operation=PLUG, by="bench").working
    assert asks(shop, clock) == ()
    clock.at = TUESDAY + dt.timedelta(days=1)
    (ask,) = asks(shop, clock)
    assert (ask.kind, ask.line.entry) == ("when", held.entry)
    right = replace(as_typed(held), ended="9:25", count="2")
    put_right(shop, held.entry, right, seen=0, why="", by="bench")
    assert asks(shop, clock) == ()
    assert bench_now(shop).log.worked[0].minutes == 25.0


def test_work_through_the_night_is_asked_about_and_may_stand(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    """22 hours for two plugs: first whether that was the time at all."""
    drum = kept_job(shop, allowed).drums[0].id
    held = take_in_hand(shop, job=allowed, drum=drum, operation=PLUG, by="bench").working
    clock.at = TUESDAY + dt.timedelta(hours=22)
    lay_down(shop, entry=held.entry, down=Down(done=True), by="bench")
    (ask,) = asks(shop, clock)
    assert ask.kind == "when"
    assert ask.says.endswith("put down 22 h later: is that right?")
    say_it_stands(shop, held.entry, seen=0, by="bench")
    assert asks(shop, clock) == ()


def test_every_change_of_a_line_is_kept(shop: Workshop, allowed: str) -> None:
    line = write_after(shop, typed(shop, allowed), by="bench")
    seen = line_of(shop, line.entry)[-1].entry
    right = replace(as_typed(line), took="35 min", note="soft ply")
    put_right(shop, line.entry, right, seen=seen, why="the clock was stopped", by="phone")
    versions = line_of(shop, line.entry)
    assert [(one.kind, str(one.working.took), one.bench) for one in versions] == [
        ("typed", "25 min", "bench"),
        ("corrected", "35 min", "phone"),
    ]
    assert versions[-1].why == "the clock was stopped"
    back = go_back_to(shop, line.entry, version=seen, seen=versions[-1].entry, by="bench")
    assert (str(back.took), back.note) == ("25 min", "")
    versions = line_of(shop, line.entry)
    assert versions[-1].why.startswith("back to how it stood on ")
    with pytest.raises(CannotDo, match="since you looked"):
        put_right(shop, line.entry, as_typed(line), seen=seen, why="", by="bench")
    strike(shop, line.entry, seen=versions[-1].entry, why="", by="bench")
    assert bench_now(shop).log.workings == ()
    assert len(line_of(shop, line.entry)) == 4
    with pytest.raises(BadInput, match="was struck"):
        put_right(shop, line.entry, right, seen=0, why="", by="bench")


def test_what_a_day_and_two_times_cannot_say_is_left_as_it_was(
    shop: Workshop, allowed: str, clock: Clock
) -> None:
    """From 22:00 to 1:00: a note put right does not turn the night round."""
    drum = kept_job(shop, allowed).drums[0].id
    clock.at = dt.datetime(2030, 5, 14, 22, 0)
    held = take_in_hand(shop, job=allowed, drum=drum, operation=PLUG, by="bench").working
    clock.at = dt.datetime(2030, 5, 15, 1, 0)
    line = lay_down(shop, entry=held.entry, down=Down(done=True), by="bench")
    noted = put_right(
        shop, line.entry, replace(as_typed(line), note="by lamp"), seen=0, why="", by="b"
    )
    assert (noted.stretch, noted.note) == (line.stretch, "by lamp")
    with pytest.raises(BadInput, match="put down before it was picked up"):
        put_right(shop, line.entry, replace(as_typed(line), ended="1:10"), seen=0, why="", by="b")


def test_a_line_moves_to_the_work_that_it_was(shop: Workshop, allowed: str) -> None:
    line = write_after(shop, typed(shop, allowed), by="bench")
    right = replace(as_typed(line), operation="clean a hoop")
    put_right(shop, line.entry, right, seen=0, why="", by="bench")
    left = {one.operation: one.times for one in bench_now(shop).jobs[0].work.work}
    assert left[PLUG] == 2
    assert "clean a hoop" not in left
