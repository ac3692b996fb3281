"""A recording listened to with a drum of a job beside it.

Truth: the recordings are made by the forward model, with a split and an axis that are known.
"""

from __future__ import annotations

import numpy as np
import pytest
from small_kits import drum, tune
from tapped import tapped

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.heard import Heard
from counterhoop.bench.tune.listened import LEFT_OUT, listened
from counterhoop.bench.tune.split_per_turn import at_most_cents_per_turn, calibration_of
from counterhoop.errors import BadInput
from counterhoop.heads.strike import Lobes
from counterhoop.heads.wav import wav_bytes

UNEVEN = Lobes(split_cents=30.0, axis_deg=70.0)


@pytest.fixture(scope="module")
def tom() -> DrumToTune:
    return tune(drum("tom", girth=955, depth=203))


@pytest.fixture(scope="module")
def recording(tom: DrumToTune) -> bytes:
    return tapped(tom, lobes=UNEVEN)


@pytest.fixture(scope="module")
def heard(tom: DrumToTune, recording: bytes) -> Heard:
    return listened(recording, tune=tom)


def test_taps_are_matched_to_rods_and_read_together(heard: Heard):
    assert heard.kind == "round the rim"
    assert [one.rod for one in heard.strokes if not one.dropped] == [1, 2, 3, 4, 5, 6]
    rim = heard.rim
    assert rim is not None
    assert rim.split_cents == pytest.approx(30.0, abs=2.0)
    assert rim.axis_deg is not None
    assert abs((rim.axis_deg - 70.0 + 90.0) % 180.0 - 90.0) < 5.0


def test_advice_is_a_pattern_over_all_rods(heard: Heard):
    assert heard.advice is not None
    assert [one.rod for one in heard.advice.pattern] == [1, 2, 3, 4, 5, 6]
    # The tightest rod nearest to the axis at 70 degrees is rod 2 at 90, and rod 5 across from it.
    down = sorted(heard.advice.pattern, key=lambda one: one.share)[:2]
    assert {one.rod for one in down} == {2, 5}


def test_a_workshop_that_stops_earlier_is_told_to_stop(tom: DrumToTune, recording: bytes):
    found = listened(recording, tune=tom, even_enough_cents=40.0)
    assert found.advice is not None
    assert found.advice.stop
    assert found.even_enough_cents == 40.0


def test_what_a_drawing_shows_has_its_peak_where_the_head_rings(heard: Heard):
    assert heard.spectrum is not None
    assert heard.hz is not None
    peak = heard.spectrum.db.index(max(heard.spectrum.db)) * heard.spectrum.step_hz
    assert abs(peak - heard.hz) < 8.0
    assert heard.fade is not None
    assert heard.fade.db[-1] < -20.0


def test_without_a_drum_there_are_strokes_and_pitches(recording: bytes):
    found = listened(recording)
    assert found.kind == "single"
    assert found.rim is None
    assert found.advice is None
    assert found.rods == ()
    assert sum(one.hz is not None for one in found.strokes) >= 3


def test_strokes_may_be_left_out_and_given_other_rods(tom: DrumToTune, recording: bytes):
    found = listened(recording, tune=tom, rods=[1, None, 3, 4, 0, 6])
    assert [one.rod for one in found.strokes] == [1, 0, 3, 4, 0, 6]
    assert [one.dropped for one in found.strokes].count(LEFT_OUT) == 2
    assert found.rim is not None
    assert len(found.rim.taps) == 4


def test_nothing_but_silence_is_refused_in_a_sentence(tom: DrumToTune):
    found = listened(wav_bytes(np.zeros(44_100)), tune=tom)
    assert "silence" in found.refusal
    assert found.strokes == ()


def test_a_file_that_is_no_sound_is_refused():
    with pytest.raises(BadInput, match=r"taps\.txt"):
        listened(b"not a sound", name="taps.txt")


def test_a_rod_that_is_not_there_is_refused(tom: DrumToTune, recording: bytes):
    with pytest.raises(BadInput, match="no such rod"):
        listened(recording, tune=tom, rods=[7])
    with pytest.raises(BadInput, match="rods for 40 strokes"):
        listened(recording, tune=tom, rods=[1] * 40)


def test_taps_that_do_not_come_out_even_with_the_rods_turn_nothing(tom: DrumToTune):
    """One rod passed over: every tap after it would be taken for its neighbour's."""
    data = tapped(tom, lobes=UNEVEN, rods=(1, 2, 4, 5, 6))
    found = listened(data, tune=tom)
    assert found.rim is None
    assert found.advice is not None
    assert found.advice.pattern == ()
    assert found.advice.sentences[0].startswith("There are 5 taps and 6 rods")
    # The pitch near the rim is heard all the same, and with the rods said so is the rest.
    said = listened(data, tune=tom, rods=[1, 2, 4, 5, 6])
    assert said.rim is not None
    assert found.hz == pytest.approx(said.hz, rel=0.02)
    assert said.rim.split_cents == pytest.approx(30.0, abs=2.0)
    assert said.advice is not None
    assert said.advice.pattern != ()


def test_rods_that_are_said_wrongly_are_seen_by_how_the_taps_turn(tom: DrumToTune):
    data = tapped(tom, lobes=UNEVEN, rods=(1, 2, 4, 5, 6))
    found = listened(data, tune=tom, rods=[1, 2, 3, 4, 5])
    assert found.advice is not None
    assert found.advice.pattern == ()
    assert any("passed over or tapped twice" in one for one in found.advice.sentences)


def test_a_turn_moves_the_split_most_where_the_head_is_slack():
    one = tune(drum("tom", girth=955, depth=203))
    slack, tight = (at_most_cents_per_turn(one, "batter", hz=hz) for hz in (180.0, 250.0))
    assert slack is not None
    assert tight is not None
    assert slack > tight > 0.0


def test_a_drum_on_which_turns_were_heard_is_calibrated_and_another_is_not():
    said = 'turns = [{ head = "batter", from = "190 Hz", to = "205 Hz", turns = "1/8" }]'
    plain, told = (tune(drum("tom", girth=955, depth=203, tuning=lines)) for lines in ("", said))
    assert calibration_of(plain, "batter", hz=200.0) is None
    found = calibration_of(told, "batter", hz=200.0)
    most = at_most_cents_per_turn(told, "batter", hz=200.0)
    assert found is not None
    assert most is not None
    assert 0.0 < found.cents_per_turn < most


def test_heights_of_the_hoop_come_into_the_advice(recording: bytes):
    said = 'heights = [{ hoop_flat = true, at = "9.6, 9, 9, 8.4, 9, 9 mm" }]'
    found = listened(recording, tune=tune(drum("tom", girth=955, depth=203, tuning=said)))
    assert found.advice is not None
    said_of_it = (*found.advice.sentences, *found.advice.later)
    assert any("1.2 mm higher at rod 1 than at rod 4" in one for one in said_of_it)
