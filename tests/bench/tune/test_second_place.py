"""The same taps from two places of the phone.

Truth: the recordings are made by the forward model, with a split, an axis and a place of the phone
that are known.
"""

from __future__ import annotations

import numpy as np
import pytest
from small_kits import drum, tune
from tapped import tapped

from counterhoop.bench.tune.advice_on import MUTE_FIRST
from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.kept_reading import from_json, to_json
from counterhoop.bench.tune.listened import listened
from counterhoop.bench.tune.phone_places import OTHER_PITCH, Also
from counterhoop.errors import BadInput
from counterhoop.heads.strike import Lobes
from counterhoop.heads.wav import wav_bytes
from counterhoop.listen.advice_words import EVEN

UNEVEN = Lobes(split_cents=30.0, axis_deg=70.0)


@pytest.fixture(autouse=True)
def together_only(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read no stroke singly but one: that takes longest, and nothing is asked of it here."""
    monkeypatch.setattr("counterhoop.bench.tune.listened.MOST_READ", 1)


@pytest.fixture(scope="module")
def tom() -> DrumToTune:
    return tune(drum("tom", girth=955, depth=203))


@pytest.fixture(scope="module")
def even(tom: DrumToTune) -> bytes:
    return tapped(tom, phone_deg=205.0)


def test_an_even_head_is_left_alone_after_two_places_and_not_after_one(
    tom: DrumToTune, even: bytes
):
    once = listened(even, tune=tom)
    assert once.advice is not None
    assert not once.advice.stop
    assert any("45 degrees" in said for said in once.advice.sentences)
    twice = listened(
        even, tune=tom, also=[Also(data=tapped(tom, phone_deg=250.0), name="b.wav", first_rod=1)]
    )
    assert twice.also[0].refusal == ""
    assert [one.rod for one in twice.also[0].strokes if not one.dropped] == [1, 2, 3, 4, 5, 6]
    assert twice.advice is not None
    assert twice.advice.stop
    assert EVEN in twice.advice.sentences
    kept = from_json(to_json(twice))
    assert [(one.name, len(one.strokes)) for one in kept.also] == [("b.wav", 6)]


def test_an_axis_through_the_phone_is_found_from_the_second_place(tom: DrumToTune):
    """The phone at 70 degrees lies where the lower pitch is still; at 115 it hears both."""
    still, moved = (tapped(tom, lobes=UNEVEN, phone_deg=deg) for deg in (70.0, 115.0))
    once = listened(still, tune=tom)
    assert once.advice is not None
    assert once.advice.pattern == ()
    twice = listened(still, tune=tom, also=[Also(data=moved)])
    assert twice.rim is not None
    assert twice.rim.split_cents == pytest.approx(30.0, abs=2.0)
    assert twice.rim.axis_deg is not None
    assert abs((twice.rim.axis_deg - 70.0 + 90.0) % 180.0 - 90.0) < 5.0
    assert {tap.place for tap in twice.rim.taps} == {0, 1}
    assert twice.advice is not None
    assert len(twice.advice.pattern) == 6


@pytest.mark.full
def test_a_second_round_may_begin_at_another_rod(tom: DrumToTune):
    still = tapped(tom, lobes=UNEVEN, phone_deg=70.0)
    moved = tapped(tom, lobes=UNEVEN, phone_deg=115.0, rods=(3, 4, 5, 6, 1, 2))
    found = listened(still, tune=tom, also=[Also(data=moved, first_rod=3)])
    assert found.rim is not None
    assert found.rim.axis_deg is not None
    assert abs((found.rim.axis_deg - 70.0 + 90.0) % 180.0 - 90.0) < 5.0


def test_a_second_recording_of_no_use_is_left_out_and_says_why(tom: DrumToTune, even: bytes):
    silence = wav_bytes(np.zeros(44_100))
    short = tapped(tom, phone_deg=250.0, rods=(1, 2, 4, 5, 6))
    tighter = tapped(tom, phone_deg=250.0, n_per_m=2600.0)
    found = listened(even, tune=tom, also=[Also(data=one) for one in (silence, short, tighter)])
    why = [one.refusal for one in found.also]
    assert "silence" in why[0]
    assert why[1].startswith("There are 5 taps and 6 rods")
    assert why[2] == OTHER_PITCH
    assert found.rim is not None
    assert {tap.place for tap in found.rim.taps} == {0}
    assert found.advice is not None
    assert not found.advice.stop
    with pytest.raises(BadInput, match=r"second\.txt"):
        listened(even, tune=tom, also=[Also(data=b"not a sound", name="second.txt")])


@pytest.mark.full
@pytest.mark.parametrize("heads", [1, 2])
def test_a_second_head_that_rings_along_is_to_be_muted_first(heads):
    one = tune(drum("tom", girth=955, depth=203, heads=heads))
    data = tapped(tune(drum("tom", girth=955, depth=203)), lobes=UNEVEN)
    found = listened(data, tune=one, muted=False)
    assert found.advice is not None
    assert (found.advice.sentences[0] == MUTE_FIRST) == (heads == 2)
