"""Taps near the rods read together: two pitches that they share, and which way the head is tight.

Not a mean pitch for each rod: near most rods both pitches sound at once, and what an ear or a
spectrum makes of such a mixture goes with where the phone lies.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.listen import rim_words
from counterhoop.listen.heterodyne import Band, band_around
from counterhoop.listen.joint_fit import JointFit
from counterhoop.listen.rim_axis import AxisFit, fit_axis
from counterhoop.listen.rim_band import rim_pitches
from counterhoop.listen.round_rim import Quality, RimReading, Tap, TapReading
from counterhoop.listen.shared_tones import (
    best_fit,
    mean_doubt,
    more,
    partials,
    split_of,
    turns_round,
    two_there,
    weak,
)
from counterhoop.listen.sound import Sound
from counterhoop.listen.split_bound import split_below

FEWEST_TAPS = 3
SINCE_S, LONGEST_S, SHORTEST_S = 0.01, 2.0, 0.25
HALF_WIDTH, EDGE, LEAST_HZ = 0.1, 0.2, 12.0
FEWEST_SAMPLES = 12
RINGS = 0.5
AXIS_LOST_DEG = 20.0
FAINT_CENTS = 50.0
"""Two pitches further apart than this are two even to the ear: a bound above it says nothing."""
TRIED = 3
"""Pitches that may be (1,1): the loudest may be (0,1), and another of two heads."""
TURNS_WELL, ASTRAY = 2.5, 4.5
"""What the turning round the rim may leave over of taps, against their doubts [computed].

Sounds of 5 to 12 taps, 20 to 50 dB over the noise, the phone 20 to 70 degrees beside the axis: a
hand that errs by 3 degrees at each rod leaves 1.5 at most (95 of them), one that errs by 6 mostly
less than 4. Where one rod is passed over 91 of 96 leave more than 4.5, their axis being off by up
to 40 degrees, that of the other five by less than 3.
"""

Recording = tuple[Sound, Sequence[Tap]]


def read_round_rim(
    sound: Sound,
    taps: Sequence[Tap],
    *,
    also: Sequence[Recording] = (),
    near_hz: float | None = None,
    phone_deg: Sequence[float | None] = (),
) -> RimReading:
    """Read taps round the rim.

    Parameters
    ----------
    sound : Sound
        The recording, the phone in one place off the centre.
    taps : sequence of Tap
        Where the head was tapped, and when; strokes that were dropped are passed over.
    also : sequence of (Sound, sequence of Tap), optional
        The same with the phone in other places.
    near_hz : float, optional
        Where the (1,1) pitch should be, to a sixth; without it, it is sought.
    phone_deg : sequence of float or None, optional
        Where along the shell the phone lay, a place each. Only ever chooses between two axes that
        taps a quarter of a turn apart cannot tell from one another.

    Returns
    -------
    RimReading
        With quality "none" where there is no reading; then ``ask`` says what would give one.
    """
    recordings = [(sound, taps), *also]
    laid = [(place, heard, tap) for place, (heard, its) in enumerate(recordings) for tap in its]
    if not laid:
        raise BadInput("no taps", where="taps", wanted="a tap near every rod, in order")
    cut = [_window(heard, tap) for _, heard, tap in laid]
    usable = [at for at, part in enumerate(cut) if part is not None]
    readings = [
        TapReading(rod=tap.rod, along_deg=tap.along_deg, place=place, says=tap.stroke.dropped)
        for place, _, tap in laid
    ]
    if len(usable) < FEWEST_TAPS:
        return RimReading(taps=tuple(readings), ask=(rim_words.too_few(len(usable)),))
    rate = Counter(laid[at][1].rate_hz for at in usable).most_common(1)[0][0]
    parts = [
        part for at in usable if laid[at][1].rate_hz == rate for part in [cut[at]]
        if part is not None
    ]  # fmt: skip
    centres = rim_pitches(parts, rate_hz=rate, near_hz=near_hz)
    if not centres:
        return RimReading(taps=tuple(readings), ask=(rim_words.nothing_rings(near_hz),))
    for turn, centre in enumerate(centres[:TRIED]):
        read = _read_about(
            centre, laid, usable, list(readings), phone_deg, near_hz, second_best=turn > 0
        )
        if read is not None:
            return read
    return RimReading(taps=tuple(readings), ask=(rim_words.LOWEST_ONLY,))


def _read_about(
    centre: float, laid: Sequence[tuple[int, Sound, Tap]], usable: Sequence[int],
    readings: list[TapReading], phone_deg: Sequence[float | None], near_hz: float | None,
    *, second_best: bool,
) -> RimReading | None:  # fmt: skip
    """Return what is read about one pitch; None where it does not turn round the rim."""
    bands, kept = [], []
    for at in usable:
        band = _band(laid[at][1], laid[at][2], centre)
        if len(band.values) >= FEWEST_SAMPLES:
            bands.append(band)
            kept.append(at)
        else:
            readings[at] = replace(readings[at], says=rim_words.TOO_SHORT)
    if len(kept) < FEWEST_TAPS:
        return RimReading(taps=tuple(readings), ask=(rim_words.too_few(len(kept)),))
    return _read(bands, readings, kept, phone_deg, near_hz, second_best=second_best)


def _window(sound: Sound, tap: Tap) -> np.ndarray[tuple[int], np.dtype[np.float64]] | None:
    if tap.stroke.dropped:
        return None
    start, end = _ends(sound, tap)
    part = sound.samples[start:end]
    return part if len(part) >= SHORTEST_S * sound.rate_hz and np.any(part) else None


def _ends(sound: Sound, tap: Tap) -> tuple[int, int]:
    starts, ends = (at - sound.starts_s for at in (tap.stroke.starts_s, tap.stroke.ends_s))
    start = math.ceil((starts + SINCE_S) * sound.rate_hz)
    return max(start, 0), max(int(min(ends, starts + LONGEST_S) * sound.rate_hz), 0)


def _band(sound: Sound, tap: Tap, centre: float) -> Band:
    start, end = _ends(sound, tap)
    return band_around(
        sound.samples[start:end], rate_hz=sound.rate_hz, centre_hz=centre,
        half_width_hz=_half_width(centre), edge_hz=max(LEAST_HZ, EDGE * centre),
        starts_s=start / sound.rate_hz + sound.starts_s - tap.stroke.starts_s,
    )  # fmt: skip


def _read(
    bands: list[Band], readings: list[TapReading], kept: list[int],
    phone_deg: Sequence[float | None], near_hz: float | None, *, second_best: bool,
) -> RimReading | None:  # fmt: skip
    one = best_fit(bands, 1)
    two = best_fit(bands, 2, beside=one)
    if min(one.left, two.left) > RINGS:
        return RimReading(taps=tuple(readings), ask=(rim_words.nothing_rings(near_hz),))
    evidence = two_there(one, two)
    if _beside(one if evidence == "no" else two, bands[0].centre_hz):
        return None
    here = [readings[at] for at in kept]
    if evidence == "no":
        return _one_pitch(one, bands, readings, kept)
    axis = fit_axis(
        two.amplitudes, two.spread, nudges=two.nudges, along_deg=[tap.along_deg for tap in here],
        place=_renumbered([tap.place for tap in here]), phone_deg=phone_deg,
    )  # fmt: skip
    # In noise the second pitch must turn round the rim as it should, or chance made it.
    if evidence == "perhaps" and (
        axis.turning > TURNS_WELL or axis.still < 2.0 or axis.axis_doubt_deg > AXIS_LOST_DEG
    ):
        return _one_pitch(one, bands, readings, kept)
    split, doubt = split_of(two)
    coupled = axis.still < 0.5 * axis.turning
    several = more(bands, two)
    unsure = axis.axis_doubt_deg > AXIS_LOST_DEG
    astray = axis.turning > ASTRAY
    if astray and second_best and not coupled:
        return None
    lost = coupled or unsure or astray
    faint = weak(two)
    mean = float(np.sqrt(two.hz[0] * two.hz[1]))
    for at, tap in zip(kept, _taps(two, axis, here, split, mean), strict=True):
        readings[at] = tap
    ask: list[str] = []
    if coupled:
        ask.append(rim_words.mute(split))
    elif several:
        ask.append(rim_words.MORE_LINES)
    elif faint:
        ask.append(rim_words.second_place(here[0].place))
    elif axis.mirrored and not astray:
        ask.append(rim_words.BETWEEN_RODS)
    quality = _quality(axis, doubt, bad=lost or several or faint)
    return RimReading(
        mean_hz=mean,
        mean_doubt_hz=mean_doubt(two),
        split_cents=split,
        split_doubt_cents=doubt,
        axis_deg=None if lost else axis.axis_deg,
        axis_doubt_deg=None if lost else axis.axis_doubt_deg,
        mirror_deg=axis.mirror_deg if axis.mirrored and not lost else None,
        poles=partials(two),
        taps=tuple(readings),
        coupled_pair=coupled,
        ask=tuple(ask),
        # What is left of a pitch that is hardly heard is no sign of a rod passed over.
        says=tuple(rim_words.noticed(readings, unsure=unsure, astray=astray and not faint)),
        quality=quality,
    )


def _beside(fit: JointFit, centre: float) -> bool:
    """Tell whether what was fitted lies where the band no longer passes sound whole."""
    return abs(float(fit.hz.mean()) - centre) > _half_width(centre)


def _half_width(centre: float) -> float:
    return max(LEAST_HZ, HALF_WIDTH * centre)


def _renumbered(places: list[int]) -> list[int]:
    order = sorted(set(places))
    return [order.index(place) for place in places]


def _one_pitch(
    one: JointFit, bands: list[Band], readings: list[TapReading], kept: list[int]
) -> RimReading | None:
    here = [readings[at] for at in kept]
    # Where no glide is to be heard, noise makes one: once settled the phase is what it was.
    settled = np.exp(2j * np.pi * one.hz[0] * one.shares * one.tau_s)
    if not turns_round(
        one.amplitudes[:, 0] * settled, along_deg=[tap.along_deg for tap in here],
        place=[tap.place for tap in here],
    ):  # fmt: skip
        return None
    moved = len({tap.place for tap in here}) > 1
    below = split_below(one, bands, along_deg=[tap.along_deg for tap in here]) if moved else None
    faint = below is not None and below > FAINT_CENTS
    ask = (rim_words.FAINT,) if faint else () if moved else (rim_words.second_place(here[0].place),)
    mean = float(one.hz[0])
    for at, amplitude in zip(kept, one.amplitudes[:, 0], strict=True):
        readings[at] = replace(readings[at], hz=mean, cents=0.0, low=complex(amplitude))
    return RimReading(
        mean_hz=mean,
        mean_doubt_hz=mean_doubt(one),
        split_below_cents=below,
        poles=partials(one),
        taps=tuple(readings),
        ask=ask,
        says=(rim_words.one_pitch(below), *rim_words.noticed(readings)),
        quality="poor" if ask else "fair",
    )


def _taps(
    fit: JointFit, axis: AxisFit, taps: list[TapReading], split: float, mean: float
) -> list[TapReading]:
    places = _renumbered([tap.place for tap in taps])
    read = []
    for tap, place, (low, high) in zip(taps, places, fit.amplitudes, strict=True):
        # What the phone favoured is taken out again.
        up = abs(high) * math.sin(axis.heard[place])
        down = abs(low) * math.cos(axis.heard[place])
        share = up**2 / (up**2 + down**2) if up + down > 0.0 else 0.5
        cents = float(split * (share - 0.5))
        read.append(
            replace(tap, hz=mean * 2.0 ** (cents / 1200.0), cents=cents, low=complex(low),
                    high=complex(high))
        )  # fmt: skip
    return read


def _quality(axis: AxisFit, doubt: float, *, bad: bool) -> Quality:
    if bad or doubt > 4.0:
        return "poor"
    return "good" if doubt < 1.0 and axis.axis_doubt_deg < 6.0 else "fair"
