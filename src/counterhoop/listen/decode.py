"""One gate for sound: the bytes of any usual recording become one channel of samples."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.blocks import Opened, Progress, Stop, read_blocks, too_long
from counterhoop.listen.clipping import flat_tops, joined
from counterhoop.listen.file_guard import breaks_off
from counterhoop.listen.sound import Sound
from counterhoop.listen.thinned import Thinned

Floats = NDArray[np.float64]

LONGEST_S = 600.0
MOST_SAMPLES = 1 << 24
"""What is kept: 134 MB. What is longer is kept at a lower rate."""
LEAST_RATE_HZ = 16_000
_BLOCK = 1 << 16
_ALIKE, _ALIKE_DB = 0.98, 1.0
_SOFTER_BUT_WHOLE = 1e-3
_OFFSET = 0.01
_CUT_SHORT = 0.98


@dataclass(slots=True)
class _Measured:
    """What one reading of the file tells of its channels."""

    opened: Opened = field(default_factory=Opened)
    samples: int = 0
    sums: Floats = field(default_factory=lambda: np.zeros(0))
    products: Floats = field(default_factory=lambda: np.zeros(0))
    highest: Floats = field(default_factory=lambda: np.zeros(0))
    lowest: Floats = field(default_factory=lambda: np.zeros(0))

    def add(self, block: Floats) -> None:
        if not self.samples:
            count = block.shape[1]
            self.sums, self.products = np.zeros(count), np.zeros((count, count))
            self.highest, self.lowest = np.full(count, -np.inf), np.full(count, np.inf)
        self.samples += len(block)
        self.sums += block.sum(axis=0)
        self.products += block.T @ block
        self.highest = np.maximum(self.highest, block.max(axis=0))
        self.lowest = np.minimum(self.lowest, block.min(axis=0))

    @property
    def seconds(self) -> float:
        return self.samples / self.opened.rate_hz

    @property
    def offsets(self) -> Floats:
        return np.asarray(self.sums / self.samples)

    @property
    def covariance(self) -> Floats:
        return np.asarray(self.products / self.samples - np.outer(self.offsets, self.offsets))


def decode(
    data: bytes,
    *,
    name: str = "",
    longest_s: float = LONGEST_S,
    on_progress: Progress | None = None,
    stop: Stop | None = None,
) -> Sound:
    """Read a recording: WAV, FLAC, Ogg, Opus, MP3, M4A, AAC or the sound of a film.

    Parameters
    ----------
    data : bytes
        The whole file. What it is is told by its content, not by its name.
    name : str
        What to call it in complaints.
    longest_s : float
        A longer one is refused.
    on_progress : callable, optional
        Told the share that is done, 0 to 1.
    stop : callable, optional
        Asked now and then; reading ends where it answers true.

    Returns
    -------
    Sound
        One channel at the rate of the file, or at a whole part of it where it would not fit
        ``MOST_SAMPLES``; its mean is taken off.

    Raises
    ------
    BadInput
        There is nothing that can be used, in one sentence.
    CannotDo
        ``stop`` said so.

    Notes
    -----
    The file is read twice: first to find its length, its channels and its top, then to keep one
    channel; never more than one block of it is decoded at a time.
    """
    where = name or "recording"
    found = _Measured()
    for block in _chunks(data, where, longest_s, found.opened, _half(on_progress, 0.0), stop):
        found.add(block)
    step = thinning(found.samples, rate_hz=found.opened.rate_hz)
    if found.samples // step > 2 * MOST_SAMPLES:
        raise too_long(2 * MOST_SAMPLES / found.opened.rate_hz, where=where)
    return _kept(data, where, found, step, longest_s, _half(on_progress, 0.5), stop)


def can_be_heard(data: bytes, *, name: str = "") -> None:
    """Refuse a file of which not even the first piece of sound can be read.

    Raises
    ------
    BadInput
        As ``decode``; what it says of the rest of a file is not found out here.
    """
    where = name or "recording"
    blocks = read_blocks(data, where=where, longest_s=LONGEST_S, opened=Opened())
    with closing(blocks):
        next(blocks)


def thinning(samples: int, *, rate_hz: int) -> int:
    """Return of how many samples one is kept: a whole part of the rate, 1 where all fit.

    Examples
    --------
    >>> thinning(44_100 * 60, rate_hz=44_100), thinning(192_000 * 600, rate_hz=192_000)
    (1, 8)
    """
    whole = [step for step in range(1, rate_hz // LEAST_RATE_HZ + 1) if rate_hz % step == 0] or [1]
    return next((step for step in whole if samples <= step * MOST_SAMPLES), whole[-1])


def _kept(
    data: bytes,
    where: str,
    found: _Measured,
    step: int,
    longest_s: float,
    on_progress: Progress | None,
    stop: Stop | None,
) -> Sound:
    weights, channel_says = _choice(found)
    used = np.flatnonzero(weights)
    rate = found.opened.rate_hz
    samples = np.empty(-(-found.samples // step))
    thinned = Thinned(step)
    spans: list[tuple[float, float]] = []
    filled = read = 0

    def keep(part: Floats) -> None:
        nonlocal filled
        part = part[: len(samples) - filled]
        samples[filled : filled + len(part)] = part
        filled += len(part)

    again = Opened()
    for block in _chunks(data, where, longest_s, again, on_progress, stop):
        for one in used:
            spans += flat_tops(
                block[:, one],
                rate_hz=rate,
                highest=float(found.highest[one]),
                lowest=float(found.lowest[one]),
                coarse=again.coarse,
                topless=again.topless,
                starts_s=read / rate,
            )
        keep(thinned.of((block - found.offsets) @ weights))
        read += len(block)
        spans = list(joined(spans))
    keep(thinned.rest())
    clipped = joined(spans)
    return Sound(
        samples=samples[:filled],
        rate_hz=rate // step,
        clipped=clipped,
        says=(*channel_says, *_says(found, clipped, rate // step, breaks_off(data))),
    )


def _chunks(
    data: bytes,
    where: str,
    longest_s: float,
    opened: Opened,
    on_progress: Progress | None,
    stop: Stop | None,
) -> Iterator[Floats]:
    """Yield blocks of a good size: what is packed comes in pieces of a few milliseconds."""
    waiting: list[Floats] = []
    count = 0
    blocks = read_blocks(
        data, where=where, longest_s=longest_s, opened=opened, on_progress=on_progress, stop=stop
    )
    for block in blocks:
        waiting.append(block)
        count += len(block)
        if count >= _BLOCK:
            yield np.concatenate(waiting)
            waiting, count = [], 0
    if count:
        yield np.concatenate(waiting)


def _half(on_progress: Progress | None, done: float) -> Progress | None:
    return None if on_progress is None else lambda share: on_progress(done + share / 2.0)


def _choice(found: _Measured) -> tuple[Floats, tuple[str, ...]]:
    """Return how much of each channel is used, and why.

    Two microphones are never mixed: what they hear of one mode may cancel.
    """
    count = len(found.sums)
    power = np.diag(found.covariance)
    weights = np.zeros(count)
    if count == 1:
        weights[0] = 1.0
        return weights, ()
    if power.min() > 0.0:
        like = found.covariance / np.sqrt(np.outer(power, power))
        if like.min() > _ALIKE and 10.0 * math.log10(power.max() / power.min()) < _ALIKE_DB:
            weights[:] = 1.0 / count
            return weights, (f"All {count} channels are alike: their mean is used.",)
    best = int(np.argmax(power))
    weights[best] = 1.0
    if count == 2:
        return weights, (f"The {('left', 'right')[best]} channel is used: it is the louder one.",)
    return weights, (f"Channel {best + 1} of {count} is used: it is the loudest.",)


def _says(
    found: _Measured, clipped: tuple[tuple[float, float], ...], rate_hz: int, broken: bool
) -> list[str]:
    opened = found.opened
    says = list(opened.says)
    if float(np.abs(found.offsets).max()) > _OFFSET:
        says.append("The recorder adds a steady offset: it is taken off.")
    if clipped:
        places = "1 place" if len(clipped) == 1 else f"{len(clipped)} places"
        says.append(f"The recorder could not follow at {places}: tap softer or move it away.")
    promised = opened.promised_s
    if promised and found.seconds < min(_CUT_SHORT * promised, promised - 0.1):
        says.append(
            f"The file is cut short: {found.seconds:.1f} s of {promised:.1f} s are there, and used."
        )
    elif broken:
        says.append(f"The file is cut short: {found.seconds:.1f} s are there, and used.")
    elif opened.unread:
        says.append("Part of the file is damaged and left out.")
    if rate_hz != opened.rate_hz:
        says.append(f"It is long, and kept at {rate_hz} samples a second.")
    return says
