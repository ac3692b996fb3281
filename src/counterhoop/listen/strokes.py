"""Where the strokes are in a recording, and why some of them cannot be used."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterhoop.listen.loudness import Band, Loudness, loudness
from counterhoop.listen.onsets import onsets
from counterhoop.listen.sound import Sound

LONGEST_S = 8.0
TOO_CLOSE_S = 0.25
FLAM_S = 0.1
ATTACK_S = 0.02
_RINGS_S, _STRIKES_S = (0.06, 0.12), (0.0, 0.02)
_EARLY_S, _SOON_S, _LATER_S = (0.0, 0.04), (0.05, 0.1), (0.12, 0.2)
_SOON_FALL_DB, _LATER_FALL_DB, _MOST_FALL_DB = 1.5, 5.0, 35.0
_LEAST_OVER_NOISE_DB, _LEAST_RING_DB = 14.0, 6.0
_NOISE_AGAIN_DB, _NOISE_FRAMES = 3.0, 25

CLIPPED = "It is too loud for the recorder (clipped): tap softer, or move the phone away."
FLAM = "Two strokes fall together: let each die away for 2 seconds."
TOO_CLOSE = "The next stroke comes too soon: let each die away for 2 seconds."
TOO_SHORT = "The recording ends too soon after it: let it run on for 2 seconds."
TOO_SOFT = "It is hardly louder than the room: tap a little harder, or bring the phone nearer."
NO_RING = "It does not ring: a click, a knock on the hoop, or a head that is damped."
NO_DECAY = "It does not die away as a struck drum does: a voice, music, or something handled."


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One stroke on the drum.

    Attributes
    ----------
    number : int
        In the order of the recording, from 1; dropped ones count.
    starts_s, ends_s : float
        From when the stick lands to the next stroke, or to when nothing but noise is left.
    peak : float
        Its largest sample, full scale 1.
    level_db : float
        Of its first fiftieth of a second, over full scale.
    dropped : str
        Why it is not used, a sentence; "" where it is.
    """

    number: int
    starts_s: float
    ends_s: float
    peak: float = 0.0
    level_db: float = 0.0
    dropped: str = ""


def find_strokes(sound: Sound) -> tuple[Stroke, ...]:
    """Return every stroke of a recording, those that cannot be used with the reason.

    Parameters
    ----------
    sound : Sound
        The recording.

    Notes
    -----
    Measured a few seconds at a time; what is kept of ten minutes is 7 MB. A stroke whose first
    ``ATTACK_S`` alone is clipped is used: what rings afterwards is whole.

    Examples
    --------
    >>> find_strokes(Sound(samples=np.zeros(44_100), rate_hz=44_100))
    ()
    """
    heard = loudness(sound)
    starts = onsets(sound, heard)
    nexts = (*starts[1:], sound.seconds)[: len(starts)]
    return tuple(
        _stroke(sound, heard, number, starts[number - 2] if number > 1 else None, start, after,
                last=number == len(starts))
        for number, (start, after) in enumerate(zip(starts, nexts, strict=True), 1)
    )  # fmt: skip


def _stroke(
    sound: Sound,
    heard: Loudness,
    number: int,
    before_s: float | None,
    start_s: float,
    next_s: float,
    *,
    last: bool,
) -> Stroke:
    end_s = _end(heard, start_s, min(next_s, start_s + LONGEST_S))
    offset = sound.starts_s
    struck = sound.between(offset + start_s, offset + min(end_s, start_s + 0.2))
    first = sound.between(offset + start_s, offset + start_s + 0.02)
    if _clipped(sound, start_s + offset, end_s + offset):
        why = CLIPPED
    elif (not last and next_s - start_s < FLAM_S) or (
        before_s is not None and start_s - before_s < FLAM_S
    ):
        why = FLAM
    elif next_s - start_s < TOO_CLOSE_S:
        why = TOO_SHORT if last else TOO_CLOSE
    else:
        why = _unlike_a_drum(heard, start_s)
    return Stroke(
        number=number,
        starts_s=offset + start_s,
        ends_s=offset + end_s,
        peak=float(np.abs(struck).max(initial=0.0)),
        level_db=float(10.0 * np.log10(np.mean(first**2) + 1e-12)) if len(first) else -120.0,
        dropped=why,
    )


def _clipped(sound: Sound, start_s: float, end_s: float) -> bool:
    return any(
        span_end > start_s + ATTACK_S and span_start < end_s
        for span_start, span_end in sound.clipped
        if span_start >= start_s or span_end > start_s + ATTACK_S
    )


def _unlike_a_drum(heard: Loudness, start_s: float) -> str:
    def level(band: Band, span: tuple[float, float]) -> float:
        return heard.mean_db(band, start_s + span[0], start_s + span[1])

    def over(band: Band, span: tuple[float, float]) -> float:
        return heard.over_floor_db(band, start_s + span[0], start_s + span[1])

    if max(over("low", _STRIKES_S), over("mid", _STRIKES_S)) < _LEAST_OVER_NOISE_DB:
        return TOO_SOFT
    rings = max(over("low", _RINGS_S), over("mid", _RINGS_S))
    fall = level("low", _STRIKES_S) - level("low", _RINGS_S)
    if rings < _LEAST_RING_DB or fall > _MOST_FALL_DB:
        return NO_RING
    sounding: list[Band] = [b for b in ("mid", "high") if over(b, _EARLY_S) > 10.0]
    dies = any(
        level(b, _EARLY_S) - level(b, _SOON_S) > _SOON_FALL_DB
        and level(b, _EARLY_S) - level(b, _LATER_S) > _LATER_FALL_DB
        for b in sounding
    )
    return "" if dies or not sounding else NO_DECAY


def _end(heard: Loudness, start_s: float, latest_s: float) -> float:
    """Return when nothing but noise is left, or the latest time."""
    first, last = heard.frame_at(start_s), heard.frame_at(latest_s)
    if last - first <= _NOISE_FRAMES:
        return latest_s
    noise = np.ones(last - first - _NOISE_FRAMES + 1, dtype=bool)
    for band in ("low", "mid"):
        part = np.convolve(heard.power[band][first:last], np.full(_NOISE_FRAMES, 1 / _NOISE_FRAMES),
                           mode="valid")  # fmt: skip
        noise &= part < heard.floor[band] * 10.0 ** (_NOISE_AGAIN_DB / 10.0)
    quiet = np.flatnonzero(noise)
    return min(latest_s, (first + int(quiet[0])) * heard.frame_s) if len(quiet) else latest_s
