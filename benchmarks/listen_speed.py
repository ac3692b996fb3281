"""Speed of listening: what one waits for after tapping round a drum.

Each part prints its own rows; ``main`` joins them.
"""

from __future__ import annotations

import time

import numpy as np
from _timing import Table, peak_mb, timed

from counterhoop.heads.wav import wav_bytes
from counterhoop.listen.decode import decode
from counterhoop.listen.read_round_rim import Recording, read_round_rim
from counterhoop.listen.read_stroke import read_stroke
from counterhoop.listen.round_rim import Tap
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke, find_strokes

RATE_HZ, EVERY_S, TAPS = 44_100, 1.6, 8


def taps_of_an_uneven_head(*, phone_deg: float, split_cents: float) -> Recording:
    """Return eight taps of 1.6 s: two pitches round 220 Hz, (0,1), (2,1), a glide, 30 dB noise."""
    t = np.arange(round(EVERY_S * RATE_HZ)) / RATE_HZ
    ahead = t + 0.03 * 0.12 * -np.expm1(-t / 0.12)
    parts = []
    for number in range(TAPS):
        tap, phone = np.radians([45.0 * number - 35.0, phone_deg - 35.0])
        half = 2.0 ** (split_cents / 2400.0)
        tones = [
            (220.0 / half, np.sin(tap) * np.sin(phone), 4.0),
            (220.0 * half, np.cos(tap) * np.cos(phone), 4.0),
            (118.0, 0.3, 8.0),
            (306.0, 0.6, 5.0),
        ]
        parts.append(sum(a * np.exp(-d * t) * np.cos(2 * np.pi * hz * ahead) for hz, a, d in tones))
    samples = np.concatenate(parts)
    noise = np.random.default_rng(1).standard_normal(len(samples))
    spread = np.sqrt(0.5e-3 * RATE_HZ / 2000.0)
    taps = [
        Tap(
            rod=at + 1,
            along_deg=45.0 * at,
            stroke=Stroke(number=at + 1, starts_s=at * EVERY_S, ends_s=(at + 1) * EVERY_S - 0.02),
        )
        for at in range(TAPS)
    ]
    return Sound(samples=samples + spread * noise, rate_hz=RATE_HZ), taps


def round_rim_rows(table: Table) -> None:
    """Taps round the rim, read together."""
    uneven = taps_of_an_uneven_head(phone_deg=70.0, split_cents=25.0)
    one = taps_of_an_uneven_head(phone_deg=70.0, split_cents=0.0)
    two = taps_of_an_uneven_head(phone_deg=115.0, split_cents=0.0)
    read_round_rim(*uneven)
    rows = {
        "eight taps of an uneven head": lambda: read_round_rim(*uneven),
        "eight taps, the pitch said beforehand": lambda: read_round_rim(*uneven, near_hz=220.0),
        "eight taps of an even head": lambda: read_round_rim(*one),
        "twice eight taps of an even head, two places": lambda: read_round_rim(*one, also=[two]),
    }
    for what, work in rows.items():
        table.row(what, timed(work, times=7), limit_s=2.0)


def ten_minutes_rows(table: Table) -> None:
    """Ten minutes of taps, the longest that is taken: read, and searched for strokes."""
    rate_hz, limit_mb = 48_000, 450.0
    t = np.arange(2 * rate_hz) / rate_hz
    tap = 0.4 * np.exp(-5.0 * t) * np.sin(2 * np.pi * 210.0 * t)
    noise = 1e-3 * np.random.default_rng(2).standard_normal(len(t))
    one = wav_bytes(tap + noise, rate_hz=rate_hz)
    size = 300 * len(one[44:])
    head = one[:4] + (size + 36).to_bytes(4, "little") + one[8:40] + size.to_bytes(4, "little")
    data = head + 300 * one[44:]
    before = peak_mb()
    kept: list[Sound] = []

    def read() -> None:
        kept.clear()
        kept.append(decode(data))

    table.row("ten minutes at 48 kHz read", timed(read, times=3), limit_s=20.0)
    found = timed(lambda: find_strokes(kept[0]), times=3)
    table.row("its 300 strokes found", found, limit_s=10.0)
    assert len(find_strokes(kept[0])) == 300
    peak = peak_mb()
    table.broken |= peak > limit_mb
    print(f"most memory: {peak:.0f} MB, {before:.0f} before, limit {limit_mb:.0f}")


def stroke_rows(table: Table) -> None:
    """One stroke of a drum with seven tones that glide, two of which beat."""
    t = np.arange(2 * RATE_HZ) / RATE_HZ
    ahead = t + 0.06 * 0.15 * -np.expm1(-t / 0.15)
    tones = [
        (69.0, 1.0, 2.5),
        (110.0, 0.5, 3.3),
        (114.0, 0.4, 3.3),
        (155.0, 0.3, 4.0),
        (201.0, 0.3, 5.0),
        (253.0, 0.2, 6.0),
        (334.0, 0.2, 7.0),
    ]
    sound = sum(a * np.exp(-d * t) * np.cos(2 * np.pi * hz * ahead) for hz, a, d in tones)
    noise = 2e-3 * np.random.default_rng(3).standard_normal(len(t))
    heard = Sound(samples=sound + noise, rate_hz=RATE_HZ)
    stroke = Stroke(number=1, starts_s=0.0, ends_s=2.0)
    read_stroke(heard, stroke)
    seconds = []
    for _ in range(25):
        began = time.process_time()
        read_stroke(heard, stroke)
        seconds.append(time.process_time() - began)
    table.row("one stroke read, the processor's own time", seconds, limit_s=0.15)


def main() -> None:
    """Print the table."""
    table = Table("Listening")
    ten_minutes_rows(table)
    round_rim_rows(table)
    stroke_rows(table)
    table.close()


if __name__ == "__main__":
    main()
