"""Heads, tuning and the kit's pitches, as they are read from a survey file."""

from __future__ import annotations

import datetime as dt

import pytest
from survey_text import read, survey

from counterhoop.errors import BadInput
from counterhoop.shell.tuning import BOTTOM_CENTS, HeadSaid, KitWish, SoundKept, Tuning, TurnHeard


def tuning(lines: str, *, kit: str = "") -> Tuning | None:
    more = f"[drums.tom.tuning]\n{lines}" if lines else ""
    return read(survey(more=f"{more}\n{kit}")).job.drums[0].tuning


def kit(lines: str) -> KitWish | None:
    return read(survey(more=f"[kit]\n{lines}")).job.kit


def test_nothing_written_is_nothing():
    assert tuning("") is None
    assert read(survey()).job.kit is None


def test_a_mil_is_a_thousandth_of_an_inch():
    # Hand-worked: 10 x 25.4 um, and two plies of 7 mil.
    found = tuning('batter = { film = "10 mil" }\nresonant = { films = ["7 mil", "7 mil"] }')
    assert found is not None
    assert found.head("batter") == HeadSaid(films_m=(0.000254,))
    assert found.head("resonant") == HeadSaid(films_m=(0.0001778, 0.0001778))


def test_calf_is_weighed():
    found = tuning('batter = { calf = true, weight = "41 g", says = "old" }')
    assert found is not None
    assert found.batter == HeadSaid(weight_kg=0.041, calf=True, says="old")


def test_a_head_may_weigh_a_little_less_than_its_film_is_sold_as():
    # A gram less is refused below.
    found = tuning('batter = { film = "10 mil", weight = "42 g", across = "16 in" }')
    assert found.batter.weight_kg == 0.042


def test_a_weighed_head_is_measured_across():
    # Exact: an inch is 25.4 mm.
    found = tuning('batter = { weight = "33 g", across = "16 in" }')
    assert found is not None
    assert found.batter == HeadSaid(weight_kg=0.033, across_m=0.4064)


def test_notes_are_read_by_the_band_s_own_a():
    # Hand-worked: A2 is two octaves below A4.
    lines = 'pitch = { batter = "A2", resonant = "98 Hz" }'
    plain, sharp = tuning(lines), tuning(lines, kit='[kit]\na4 = "444 Hz"')
    assert plain is not None
    assert sharp is not None
    assert [tone.hz for tone in (plain.batter_tone, sharp.batter_tone) if tone] == [110.0, 111.0]
    assert [tone.hz for tone in (plain.resonant_tone, sharp.resonant_tone) if tone] == [98.0] * 2


def test_turns_take_the_thread_that_is_written_for_the_drum():
    found = tuning('rod = "12-24 unc"\nturns = [{ from = "190 Hz", to = "205 Hz", turns = "1/8" }]')
    assert found is not None
    assert found.turns == (
        TurnHeard(head="batter", rod="12-24 UNC", from_hz=190.0, to_hz=205.0, turns=0.125),
    )


def test_heights_and_kept_readings_are_read():
    found = tuning(
        'heights = [{ hoop_flat = true, at = "4, 4.1, 4.2, 4, 4, 3.9 mm" }]\n'
        "[drums.tom.tuning.readings.1]\nwhen = 2026-05-02T10:12:00\nrods = [1, 0, 2]\n"
        "result = { version = 1, mean = 201.5 }"
    )
    assert found is not None
    assert found.heights[0].at_mm == (4.0, 4.1, 4.2, 4.0, 4.0, 3.9)
    (one,) = found.readings
    assert (one.number, one.when, one.rods) == ("1", dt.datetime(2026, 5, 2, 10, 12), (1, 0, 2))
    assert one.result == {"version": 1, "mean": 201.5}


def test_a_reading_of_two_recordings_names_both_and_one_of_before_names_its_own():
    found = tuning(
        '[drums.tom.tuning.readings.1]\nwhen = 2026-05-02T10:12:00\nsound = "a1"\nresult = {}\n'
        '[drums.tom.tuning.readings.2]\nwhen = 2026-05-02T10:31:00\nsound = "b2"\nresult = {}\n'
        'also = [{ sound = "c3", file = "second.wav", rods = [1, 0, 2] }]'
    )
    assert found is not None
    before, both = found.readings
    assert (before.also, before.sounds) == ((), ("a1",))
    assert both.also == (SoundKept(sound="c3", file="second.wav", rods=(1, 0, 2)),)
    assert both.sounds == ("b2", "c3")


def test_the_kit_s_wish_is_read():
    found = kit('lowest = { drum = "tom", pitch = "E2" }\nbottom = "a third higher"')
    assert found is not None
    assert found.lowest is not None
    assert found.lowest.drum == "tom"
    # Equal temperament: E2 is 29 semitones below A4.
    assert found.lowest.tone.hz == pytest.approx(440.0 * 2 ** (-29 / 12))
    assert BOTTOM_CENTS[found.bottom] == 400.0


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ('batter = { film = "10" }', "no unit"),
        ('batter = { film = "10 mm" }', "so thick"),
        ('batter = { film = "10 mil", films = ["7 mil"] }', "film and films both"),
        ('batter = { film = "10 mil", calf = true }', "calf, and film too"),
        ('batter = { weight = "4.1 kg" }', "no head of this size"),
        ('batter = { weight = "41" }', "no unit"),
        ('batter = { film = "10 mil", across = "328 mm" }', "and no weight"),
        ('batter = { weight = "33 g", across = "200 mm" }', "no head for this drum"),
        ('batter = { weight = "33 g", across = "3280 mm" }', "no head for this drum"),
        ('batter = { weight = "33 g", across = "33" }', "no unit"),
        # By hand: pi / 4 * 0.4064^2 m2 * 254e-6 m * 1390 kg/m3 = 45.8 g; a tenth less is 41.2 g.
        (
            'batter = { film = "10 mil", weight = "41 g", across = "16 in" }',
            "less than its own film: .*42 g or more",
        ),
        ('most_per_rod = "400 kg"', "is a weight"),
        ('rod = "12/24"', "stroke where a dash belongs"),
        ('pitch = { batter = "A" }', "without its octave"),
        ('turns = [{ from = "190 Hz", to = "185 Hz", turns = "1/8" }]', "no higher pitch"),
        ('turns = [{ from = "190 Hz", to = "195 Hz", turns = "-1/8" }]', "no lower pitch"),
        ('turns = [{ from = "190 Hz", to = "195 Hz", turns = "0" }]', "nothing was turned"),
        ('heights = [{ at = "4, 4, 4 mm" }]', "one at each of the 6 rods"),
        ('heights = [{ at = "4, 4, 4, 400, 4, 4 mm" }]', "no hoop stands so high"),
        ("heads = 2", "heads"),
        ('[drums.tom.tuning.readings.1]\nwhen = "noon"\nresult = {}', "day with its time"),
        ("[drums.tom.tuning.readings.1]\nwhen = 2026-05-02T10:12:00\nresult = 3", "a table"),
        (
            "[drums.tom.tuning.readings.1]\nwhen = 2026-05-02T10:12:00\nresult = { a = [nan] }",
            "not as it was kept",
        ),
    ],
)
def test_a_slip_is_one_line_that_says_where(lines, says):
    with pytest.raises(BadInput, match=says) as caught:
        tuning(lines)
    assert "tuning" in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ('lowest = { drum = "bass", pitch = "E2" }', "no such drum"),
        ('bottom = "much higher"', "not one of the words"),
        ('a4 = "220 Hz"', "no band tunes"),
        (
            'as_heard = [{ drum = "tom", pitch = "E2" }, { drum = "tom", pitch = "F2" }]',
            "the same drum twice",
        ),
        ('highest = { drum = "tom" }', "pitch"),
    ],
)
def test_a_slip_in_the_kit_s_wish_is_one_line(lines, says):
    with pytest.raises(BadInput, match=says) as caught:
        kit(lines)
    assert "kit" in str(caught.value)
    assert "\n" not in str(caught.value)
