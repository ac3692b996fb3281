"""A stroke that swells because its two pitches beat is one of the drum's.

Truth: sounds of which it is known what is in them.
"""

from __future__ import annotations

import numpy as np

from counterhoop.listen.same_drum import with_beats
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import CLIPPED, NO_DECAY, Stroke

RATE = 16_000


def sound_of(*each: np.ndarray) -> tuple[Sound, list[Stroke]]:
    strokes = [
        Stroke(number=number, starts_s=float(number - 1), ends_s=float(number))
        for number in range(1, len(each) + 1)
    ]
    return Sound(samples=np.concatenate(each), rate_hz=RATE), strokes


def tones(*hz: float, turned: bool = False) -> np.ndarray:
    t = np.arange(RATE) / RATE
    signs = [-1.0 if turned and place % 2 else 1.0 for place in range(len(hz))]
    return sum(
        s * np.exp(-5 * t) * np.cos(2 * np.pi * f * t) for s, f in zip(signs, hz, strict=True)
    )


def dropped(strokes: list[Stroke], *numbers: int) -> list[Stroke]:
    return [
        Stroke(number=s.number, starts_s=s.starts_s, ends_s=s.ends_s,
               dropped=NO_DECAY if s.number in numbers else "")
        for s in strokes
    ]  # fmt: skip


def test_a_swelling_stroke_of_the_same_drum_is_taken_in() -> None:
    sound, strokes = sound_of(tones(212), tones(215), tones(212, 215, turned=True))
    assert [one.dropped for one in with_beats(sound, dropped(strokes, 3))] == ["", "", ""]


def test_what_rings_otherwise_stays_out() -> None:
    sound, strokes = sound_of(tones(212), tones(215), tones(340, 512))
    assert with_beats(sound, dropped(strokes, 3))[2].dropped == NO_DECAY


def test_where_most_do_not_die_away_none_is_taken_in() -> None:
    sound, strokes = sound_of(tones(212), tones(212), tones(212))
    assert [one.dropped for one in with_beats(sound, dropped(strokes, 2, 3))][1:] == [NO_DECAY] * 2


def test_other_reasons_stand() -> None:
    sound, strokes = sound_of(tones(212), tones(212))
    clipped = Stroke(number=2, starts_s=1.0, ends_s=2.0, dropped=CLIPPED)
    assert with_beats(sound, [strokes[0], clipped])[1].dropped == CLIPPED
