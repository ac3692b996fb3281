"""A reading that is kept and read again.

Truth: an exact law, there and back, to six figures; and whatever a hand changed in the file is
either still a reading or refused in one line.
"""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.tune.heard import Fade, Heard, Spectrum, StrokeHeard, ToneHeard
from counterhoop.bench.tune.kept_reading import from_json, to_json
from counterhoop.bench.tune.rods_at import RodAt
from counterhoop.errors import BadInput
from counterhoop.listen.advice import Advice, RodShare
from counterhoop.listen.partial import Partial
from counterhoop.listen.round_rim import RimReading, TapReading

POLE = Partial(
    hz=212.25, hz_doubt=0.0125, decay_per_s=4.5, decay_doubt=0.125, level_db=-1.5, amplitude=0.5,
    phase_rad=-0.25,
)  # fmt: skip
HEARD = Heard(
    head="resonant",
    stage="after",
    muted=False,
    kind="round the rim",
    seconds=15.25,
    rate_hz=44_100,
    sound_says=("The left channel is used: it is the louder one.",),
    rods=(RodAt(number=1, along_deg=30.0), RodAt(number=2, along_deg=150.0)),
    strokes=(
        StrokeHeard(number=1, starts_s=0.5, ends_s=2.0, dropped="It is clipped."),
        StrokeHeard(
            number=2, starts_s=2.5, ends_s=4.0, rod=1, hz=212.5, doubt_hz=0.015625,
            glide_cents=41.5, quality="good",
            tones=(ToneHeard(hz=212.5, doubt_hz=0.015625, decay_per_s=4.5, level_db=0.0),),
        ),
    ),
    rim=RimReading(
        mean_hz=213.0, mean_doubt_hz=0.015625, split_cents=34.0, split_doubt_cents=0.25,
        axis_deg=97.0, axis_doubt_deg=1.5, poles=(POLE, POLE),
        taps=(
            TapReading(rod=1, along_deg=30.0, hz=212.5, cents=-4.0, low=0.5 - 0.25j, high=0.125j),
        ),
        ask=("Tap again.",), quality="fair",
    ),
    advice=Advice(
        sentences=("Rods 1 and 5 a hair up.",), staying=("If it stays:", "A hair up."),
        later=("When it is even:", "Tighten."), because=("The grain.",), expected="10 cents.",
        pattern=(RodShare(rod=1, along_deg=30.0, share=1.0, cents=-17.0),),
    ),
    spectrum=Spectrum(from_hz=0.0, step_hz=2.0, db=(-60.0, -12.5, 0.0)),
    fade=Fade(step_s=0.02, db=(0.0, -3.5)),
)  # fmt: skip


def test_there_and_back_it_is_the_same():
    kept = json.loads(json.dumps(to_json(HEARD)))
    assert from_json(kept) == HEARD


def test_a_survey_file_can_hold_it():
    def nothing(value: Any) -> bool:
        if isinstance(value, dict):
            return any(nothing(one) for one in value.values())
        if isinstance(value, list):
            return any(nothing(one) for one in value)
        return value is None

    assert not nothing(to_json(HEARD))


finite = st.floats(min_value=1e-3, max_value=1e4)


@given(finite, finite, st.floats(0, 180))
def test_figures_are_kept_to_six_of_them(hz: float, cents: float, axis: float) -> None:
    rim = RimReading(mean_hz=hz, split_cents=cents, axis_deg=axis)
    back = from_json(to_json(Heard(seconds=1.0, rate_hz=8000, rim=rim))).rim
    assert back is not None
    assert back.mean_hz == pytest.approx(hz, rel=1e-5)
    assert back.split_cents == pytest.approx(cents, rel=1e-5)
    assert back.axis_deg == pytest.approx(axis, rel=1e-5, abs=1e-5)


def places(value: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    found = []
    for name, one in inner:
        found.append((*way, name))
        if isinstance(one, dict | list):
            found += places(one, (*way, name))
    return found


PLACES = places(to_json(HEARD))


@given(
    st.sampled_from(PLACES),
    st.sampled_from([None, "", "x", -1, 1.5, True, [], {}, [1], {"a": 1}, float("nan"), 10**400]),
)
def test_whatever_a_hand_changed_is_read_or_refused_in_a_line(
    place: tuple[Any, ...], value: object
) -> None:
    kept: Any = copy.deepcopy(to_json(HEARD))
    here = kept
    for step in place[:-1]:
        here = here[step]
    here[place[-1]] = value
    said = refusal_of(kept)
    assert "\n" not in said
    assert not said or said.startswith("result")


def refusal_of(kept: Any) -> str:
    try:
        from_json(kept)
    except BadInput as fault:
        return str(fault)
    return ""


@pytest.mark.parametrize(
    ("kept", "says"),
    [
        ([], "not a reading"),
        ({}, "another version"),
        ({"version": 2}, "another version"),
        ({"version": 1, "seconds": 1.0}, "rate_hz: is missing"),
        ({"version": 1, "seconds": 1.0, "rate_hz": 8000, "mood": "good"}, "mood"),
    ],
)
def test_what_is_no_reading_is_refused(kept: object, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        from_json(kept)
