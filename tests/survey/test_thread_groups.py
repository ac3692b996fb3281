"""Threads that pass for each other, and slips in counting, from what the survey holds.

The groups are worked by hand from sizes and pitches of ISO 261, ASME B1.1, BS 84 and BS 93.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.surface import Skin
from counterhoop.quantities.length import parse_length
from counterhoop.shell.drum import Circumference, Drum
from counterhoop.shell.readings import Readings, ThreadRead
from counterhoop.standards.threads import Thread, all_threads, find_thread
from counterhoop.standards.unlike_threads import unlike
from counterhoop.survey.drum_survey import threads_of
from counterhoop.survey.thread_candidates import ThreadOdds, identify_thread
from counterhoop.survey.thread_next import next_reading, thread_words
from counterhoop.survey.thread_odds import odds_words
from counterhoop.survey.thread_reading import PitchReading, ThreadReading

WANTED = [
    *("M3", "M4", "M5", "M6", "M6x0.75", "M8", "M8x1", "0BA", "2BA", "4BA"),
    *("8-32", "10-24", "10-32", "12-24", "12-28", "1/4-20", "1/4-28", "7/32-24", "7/32-32"),
    *("5/32 BSW", "3/16 BSW", "7/32 BSW", "1/4 BSW", "5/16 BSW"),
    *("3/16 BSF", "7/32 BSF", "1/4 BSF", "5/16 BSF"),
]
GROUPS = (
    ("12-24", "7/32-24", "7/32 BSW"),
    ("M5", "10-32", "3/16 BSF", "2BA"),
    ("10-24", "3/16 BSW", "3/16-24"),
    ("1/4-20", "1/4 BSW"),
    ("M6", "0BA", "1/4 BSF"),
    ("12-28", "7/32 BSF"),
)
ALIKE = [pair for group in GROUPS for pair in combinations(group, 2)]
TWISTED = [t for t in all_threads() if t.designation not in ("5/16-24 UNF", "5/16 BSF")]
"""5/16-24 and 5/16 BSF pass for each other's slips: 11 x 1.058 is 11.64, 10 x 1.155 is 11.55."""


def found(read: ThreadRead) -> ThreadOdds:
    """What a drum's survey makes of one thread that was read."""
    girth = Circumference(skin=Skin.OLD, mean_mm=1110.0)
    drum = Drum(key="tom", circumference=girth, wall_mm=5.0, depth_mm=200.0)
    [one] = threads_of(replace(drum, readings=Readings(threads=(read,))))
    assert one.read is read
    return one.odds


def worn(thread: Thread, *, over: int, **more: object) -> ThreadRead:
    """Read a rod one per cent worn, its ten threads really being ``over``."""
    return ThreadRead(
        of="batter rods",
        head="batter",
        outside_mm=0.99 * thread.major_mm,
        over_mm=over * thread.pitch_mm,
        over_doubt_mm=0.05,
        **more,
    )


def named(odds: ThreadOdds) -> set[str]:
    return {candidate.thread.designation for candidate in odds.alike}


@pytest.mark.parametrize("name", WANTED)
def test_every_thread_that_old_drums_have_is_known_by_name_and_by_reading(name: str) -> None:
    thread = find_thread(name)
    assert thread.designation in named(found(worn(thread, over=10)))
    assert thread.designation in named(found(worn(thread, over=10, flanks_deg=thread.angle_deg)))


@pytest.mark.parametrize(("one", "other"), ALIKE)
def test_look_alikes_start_into_each_other(one: str, other: str) -> None:
    assert unlike(find_thread(one), find_thread(other)).verdict == "look-alike"


@pytest.mark.parametrize(
    ("one", "other"), [("12-24", "12-28"), ("M5", "10-24"), ("M6", "1/4-20"), ("M6", "M6x0.75")]
)
def test_threads_of_another_pitch_do_not(one: str, other: str) -> None:
    assert unlike(find_thread(one), find_thread(other)).verdict == "different"


@pytest.mark.parametrize(("one", "other"), ALIKE)
def test_what_a_reading_cannot_tell_apart_gets_one_more_reading(one: str, other: str) -> None:
    """As far as wear and doubt leave both in question; flanks of 55 or 47.5 always decide."""
    first, second = find_thread(one), find_thread(other)
    odds = found(worn(first, over=10))
    if second.designation not in named(odds):
        assert first.designation in named(odds)
        return
    said = " ".join(thread_words(odds))
    assert first.designation in said
    assert second.designation in said
    reading = next_reading(odds)
    if first.angle_deg != second.angle_deg:
        assert reading is not None
        told = found(worn(first, over=10, flanks_deg=first.angle_deg))
        assert second.designation not in named(told)


@pytest.mark.parametrize("flanks", [False, True])
@pytest.mark.parametrize("over", [9, 11])
@pytest.mark.parametrize("thread", TWISTED, ids=lambda thread: thread.designation)
def test_a_thread_too_few_or_too_many_is_caught_and_named(
    thread: Thread, over: int, flanks: bool
) -> None:
    angle = thread.angle_deg if flanks else None
    odds = found(worn(thread, over=over, flanks_deg=angle))
    assert odds.miscounted
    assert odds.candidates[0].threads_counted == over
    assert thread.designation in named(odds)
    first, *_ = thread_words(odds)
    assert first.startswith(f"Count again: as 10 threads the length fits little, as {over} it fits")


@pytest.mark.parametrize(
    ("name", "other"), [("5/16-24", "5/16 BSF"), ("5/16 BSF", "5/16 BSW"), ("8-32", "8-36 UNF")]
)
def test_where_a_slip_passes_for_another_thread_the_suspect_is_named(name: str, other: str) -> None:
    """11 x 1.0583 = 11.64 for 10 x 1.1545 = 11.55; 11 x 1.1545 = 12.70 for 9 x 1.4111 = 12.70;
    9 x 0.79375 = 7.14 for 10 x 0.7056 = 7.06."""
    thread = find_thread(name)
    read = worn(thread, over=9 if name == "8-32" else 11)
    odds = found(replace(read, over_doubt_mm=0.1))
    assert {thread.designation, other} <= named(odds)
    said = " ".join(thread_words(odds))
    assert "were taken for 10)" in said or said.startswith("Count again")
    assert odds_words(odds.candidates[0].odds) != "almost sure"
    reading = next_reading(odds)
    assert reading is not None
    assert reading.kind in ("count", "length")


def test_the_sentence_when_a_slip_is_the_less_likely_reading() -> None:
    read = replace(worn(find_thread("8-32"), over=9), over_doubt_mm=0.1)
    assert thread_words(found(read))[:2] == (
        "It is likely 8-36 UNF; it could be 8-32 UNC (if 9 threads were taken for 10).",
        "Count again, each crest marked with a pen: from the first crest, 10 threads end on"
        " crest 11.",
    )


def test_a_blade_and_a_length_say_the_same_thread() -> None:
    blade = ThreadRead(
        of="rods", outside_mm=4.95, over_mm=0.8, over_doubt_mm=0.01, threads=1, by_gauge=True
    )
    ruled = ThreadRead(of="rods", outside_mm=4.95, over_mm=8.0)
    first = [found(read).candidates[0].thread.designation for read in (blade, ruled)]
    assert first == ["M5", "M5"]


@given(
    outside=st.integers(80, 280),
    over=st.integers(150, 500),
    flanks=st.sampled_from([None, 47.5, 55.0, 60.0]),
)
def test_inches_and_millimetres_name_the_same_threads_in_the_same_order(
    outside: int, over: int, flanks: float | None
) -> None:
    """Exact law: a thousandth of an inch is 0.0254 mm, whichever it is written in."""

    def ranked(out: str, length: str) -> list[tuple[str, int | None]]:
        reading = ThreadReading(
            outside_mm=parse_length(out).mm,
            pitch=PitchReading(length_mm=parse_length(length).mm),
            angle_deg=flanks,
        )
        return [
            (c.thread.designation, c.threads_counted) for c in identify_thread(reading).candidates
        ]

    inches = ranked(f"{outside} thou", f"{over / 1000:.3f} in")
    assert inches == ranked(f"{outside * 254 / 1e4:.4f} mm", f"{over * 254 / 1e4:.4f} mm")


@given(st.permutations(all_threads()))
def test_the_order_of_the_tables_changes_no_odds(order: list[Thread]) -> None:
    """Exact law: Bayes' rule over a set does not ask in which order it is gone through."""
    reading = ThreadReading(outside_mm=5.44, pitch=PitchReading(length_mm=10.6))
    shares = identify_thread(reading, threads=tuple(order)).shares
    assert shares == pytest.approx(identify_thread(reading).shares)
