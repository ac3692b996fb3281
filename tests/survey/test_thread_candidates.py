"""Threads known by their readings: odds, look-alikes, wear, a wrong count, the next reading."""

from __future__ import annotations

import itertools

import pytest

from counterhoop.errors import BadInput
from counterhoop.standards.threads import Thread, all_threads, find_thread
from counterhoop.survey.thread_candidates import identify_thread
from counterhoop.survey.thread_next import next_reading, thread_words
from counterhoop.survey.thread_reading import PitchReading, ThreadReading


def read_off(
    thread: Thread, *, worn: float = 0.01, crests_off: int = 0, flanks: bool = False
) -> ThreadReading:
    """A careful reading of a worn thread; ``crests_off`` -1 is nine threads taken for ten."""
    return ThreadReading(
        outside_mm=thread.major_mm * (1 - worn),
        pitch=PitchReading(length_mm=(10 + crests_off) * thread.pitch_mm, doubt_mm=0.05),
        angle_deg=thread.angle_deg if flanks else None,
    )


def names(reading: ThreadReading) -> list[str]:
    return [c.thread.designation for c in identify_thread(reading).alike]


@pytest.mark.parametrize("worn", [0.0, 0.005, 0.01, 0.019])
@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_every_thread_is_among_its_own_candidates(thread: Thread, worn: float) -> None:
    """External threads measure up to 2 per cent under (a published tapping guide)."""
    assert thread.designation in names(read_off(thread, worn=worn))
    assert thread.designation in names(read_off(thread, worn=worn, flanks=True))


@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_odds_make_one(thread: Thread) -> None:
    found = identify_thread(read_off(thread))
    whole = found.unlisted_odds + sum(c.odds for c in found.candidates)
    assert 0.97 < whole <= 1 + 1e-9
    assert [c.odds for c in found.candidates] == sorted(
        (c.odds for c in found.candidates), reverse=True
    )


@pytest.mark.parametrize(
    ("name", "others", "kind"),
    [
        ("1/4-20", {"1/4 BSW"}, "flanks"),
        ("M6", {"0BA"}, "flanks"),
        ("7/32 BSW", {"7/32-24"}, "flanks"),
        ("3/16 BSW", {"3/16-24"}, "flanks"),
    ],
)
def test_look_alikes_and_the_reading_that_tells(name: str, others: set[str], kind: str) -> None:
    """Groups of equal pitch and size within wear, by hand from BS 84, BS 93, ASME B1.1."""
    thread = find_thread(name)
    found = identify_thread(read_off(thread))
    assert others <= {c.thread.designation for c in found.alike}
    reading = next_reading(found)
    assert reading is not None
    assert reading.kind == kind
    assert others.isdisjoint(names(read_off(thread, flanks=True)))


def test_without_a_pitch_the_length_is_asked_for() -> None:
    found = identify_thread(ThreadReading(outside_mm=5.45))
    assert {"12-24 UNC", "12-28 UNF"} <= {c.thread.designation for c in found.alike}
    reading = next_reading(found)
    assert reading is not None
    assert "threads with the caliper" in reading.says


def test_same_profile_and_pitch_within_wear() -> None:
    """12-24 and 7/32-24: 0.070 mm apart, less than 2 per cent of either."""
    found = identify_thread(read_off(find_thread("7/32-24"), worn=0.018, flanks=True))
    assert {c.thread.designation for c in found.alike} == {"12-24 UNC", "7/32-24"}
    reading = next_reading(found)
    assert reading is None or reading.kind == "largest rod"


def test_a_new_7_32_is_no_12() -> None:
    """0.066 mm over the basic major of No. 12: no screw grows."""
    assert "12-24 UNC" not in names(read_off(find_thread("7/32-24"), worn=0.0, flanks=True))


@pytest.mark.parametrize("name", ["12-24", "M5", "M6", "1/4-20", "10-32", "8-32", "2BA"])
def test_nine_counted_as_ten_is_caught(name: str) -> None:
    thread = find_thread(name)
    found = identify_thread(read_off(thread, crests_off=-1, flanks=True))
    assert found.miscounted
    assert found.candidates[0].threads_counted == 9
    assert thread.designation in {c.thread.designation for c in found.alike}
    assert "crest 11" in thread_words(found)[0]


@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_a_right_count_is_believed(thread: Thread) -> None:
    assert not identify_thread(read_off(thread, flanks=True)).miscounted


def test_a_gauge_is_not_counted() -> None:
    blade = PitchReading(length_mm=0.95, doubt_mm=0.01, threads=1, by_gauge=True)
    found = identify_thread(ThreadReading(outside_mm=5.45, pitch=blade))
    assert not found.miscounted
    assert found.unlisted_odds > 0.99
    assert "no thread of the tables" in thread_words(found)[0]


def test_nothing_is_to_be_made_to_fit() -> None:
    for thread, worn in itertools.product(all_threads(), (0.0, 0.01, 0.02)):
        said = " ".join(thread_words(identify_thread(read_off(thread, worn=worn)))).lower()
        for word in ("force", "re-tap", "retap", "run a tap", "chase", "tap it"):
            assert word not in said
        assert "change both" in said


@pytest.mark.parametrize(
    ("outside_mm", "angle_deg"), [(0.0, None), (-1.0, None), (float("nan"), None), (5.0, 5.0)]
)
def test_readings_that_cannot_be(outside_mm: float, angle_deg: float | None) -> None:
    with pytest.raises(BadInput):
        ThreadReading(outside_mm=outside_mm, angle_deg=angle_deg)


@pytest.mark.parametrize(("length_mm", "threads"), [(0.0, 10), (10.0, 0), (float("inf"), 10)])
def test_lengths_that_cannot_be(length_mm: float, threads: int) -> None:
    with pytest.raises(BadInput):
        PitchReading(length_mm=length_mm, threads=threads)
