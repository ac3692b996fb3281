"""A sound file read block by block, whatever it calls itself."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, cast

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput, CannotDo
from counterhoop.listen.file_guard import (
    CODINGS,
    KINDS,
    MOST_TRACKS,
    hold_to_reason,
    hold_to_size,
)

if TYPE_CHECKING:
    from av import AudioFrame, AudioStream, Packet
    from av.container import InputContainer

Floats = NDArray[np.float64]
Progress = Callable[[float], None]
Stop = Callable[[], bool]

_MOST_PACKETS_A_SECOND = 2_000
_EMPTY_IN_A_ROW = 2_000
_LOUDEST = 8.0
_TRIES = "Export it as WAV, M4A or MP3, or record again."


@dataclass(slots=True, kw_only=True)
class Opened:
    """A file that is being read.

    Attributes
    ----------
    rate_hz, channels : int
        As they were found, not as the file promised; 0 before the first block.
    promised_s : float or None
        How long the file says that it is.
    coarse : bool
        It has 8 bits a sample only.
    topless : bool
        Its samples are written as they came, as floats: one beyond full scale was not cut off.
    unread : int
        Pieces that could not be decoded.
    says : list of str
        What was noticed.
    """

    rate_hz: int = 0
    channels: int = 0
    promised_s: float | None = None
    coarse: bool = False
    topless: bool = False
    unread: int = 0
    says: list[str] = field(default_factory=list)


class _Held:
    """Bytes that can be read like a file, which says how far it was read."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.at = 0

    def read(self, count: int = -1) -> bytes:
        end = len(self.data) if count < 0 else self.at + count
        part = self.data[self.at : end]
        self.at += len(part)
        return part

    def seek(self, offset: int, whence: int = 0) -> int:
        self.at = max(0, offset + (0, self.at, len(self.data))[whence])
        return self.at

    def tell(self) -> int:
        return self.at


def read_blocks(
    data: bytes,
    *,
    where: str,
    longest_s: float,
    opened: Opened,
    on_progress: Progress | None = None,
    stop: Stop | None = None,
) -> Generator[Floats, None, None]:
    """Yield the sound of a file as blocks of samples, full scale 1.

    Parameters
    ----------
    data : bytes
        The whole file; what it is is told by its content.
    where : str
        What to call it.
    longest_s : float
        Refused as soon as more than this was decoded.
    opened : Opened
        Filled in on the way.
    on_progress, stop : callable, optional
        Told the share that was read; asked whether to give up.

    Yields
    ------
    ndarray of float, shape (n, channels)

    Raises
    ------
    BadInput
        There is no sound in it that can be read, or more of it than makes sense.
    CannotDo
        ``stop`` said so.
    """
    import av

    if not data:
        raise BadInput("the file is empty", where=where, step="Record again.")
    hold_to_size(data, where=where)
    held = _Held(data)
    with _open(held, where=where) as container:
        stream = _sound_of(container, where=where, opened=opened)
        decoded = packets = empty = 0
        for packet in _packets(container, opened):
            packets += 1
            if stop is not None and stop():
                raise CannotDo("reading the recording was stopped")
            if packets > longest_s * _MOST_PACKETS_A_SECOND or empty > _EMPTY_IN_A_ROW:
                break
            if packet.stream_index != stream.index:
                continue
            try:
                frames = cast("list[AudioFrame]", packet.decode())
            except (av.FFmpegError, ValueError, MemoryError, OverflowError):
                opened.unread += 1
                empty += 1
                continue
            empty = 0 if frames else empty + 1
            for frame in frames:
                block = _samples(frame)
                if not _same(frame, opened, where=where):
                    opened.says.append(
                        "The recording changes its rate or channels on the way: only what comes "
                        "before is used."
                    )
                    return
                decoded += len(block)
                if decoded > longest_s * opened.rate_hz:
                    raise too_long(longest_s, where=where)
                yield block
            if on_progress is not None:
                on_progress(min(1.0, held.at / len(data)))
        if not decoded:
            raise BadInput(
                "there is a sound track, but no sound can be read from it", where=where, step=_TRIES
            )


def too_long(longest_s: float, *, where: str) -> BadInput:
    """Return the complaint of a recording that never ends."""
    return BadInput(
        f"the recording is longer than {longest_s / 60:.3g} minutes",
        where=where,
        step="Cut out the part with the taps; one round of a drum takes less than a minute.",
    )


@contextmanager
def _open(held: _Held, *, where: str) -> Iterator[InputContainer]:
    import av

    options = {
        "format_whitelist": KINDS,
        "protocol_whitelist": "none",
        "max_streams": str(2 * MOST_TRACKS),
    }
    try:
        container = av.open(held, "r", container_options=options, metadata_errors="replace")
    except (av.FFmpegError, ValueError, MemoryError, OverflowError) as error:
        raise _unreadable(held.data, where=where) from error
    with container:
        yield container


def _unreadable(data: bytes, *, where: str) -> BadInput:
    if data[4:8] == b"ftyp" and b"moov" not in data:
        return BadInput(
            "the recording was cut off before its table of contents was written",
            where=where,
            step="Stop the recorder before the file is taken from it, or record again.",
        )
    return BadInput("this is no sound file that can be read", where=where, step=_TRIES)


def _sound_of(container: InputContainer, *, where: str, opened: Opened) -> AudioStream:
    tracks = len(container.streams)
    if tracks > MOST_TRACKS:
        raise BadInput(
            "no recording has so many tracks", where=where, given=tracks,
            wanted=f"at most {MOST_TRACKS}", step=_TRIES,
        )  # fmt: skip
    sounding = list(container.streams.audio)
    if not sounding:
        kind = "a film without sound" if container.streams.video else "a file without sound"
        raise BadInput(f"this is {kind}", where=where, step="Record again with the microphone on.")
    readable = [track for track in sounding if _readable(track)]
    if not readable:
        raise BadInput("the sound is written in a way that cannot be read here", where=where,
                       step=_TRIES)  # fmt: skip
    stream = readable[0]
    if len(sounding) > 1:
        opened.says.append(f"The first of {len(sounding)} sound tracks is used.")
    hold_to_reason(rate_hz=stream.rate, channels=stream.channels, where=where)
    opened.topless = stream.codec_context.name.startswith("pcm_f")
    if stream.duration and stream.time_base:
        opened.promised_s = float(stream.duration * stream.time_base)
    return stream


def _readable(track: AudioStream) -> bool:
    context = track.codec_context
    # A track in an unknown coding has no context, or one without a rate.
    return context is not None and bool(context.rate) and _known(context.name)


def _known(coding: str) -> bool:
    return coding in CODINGS or coding.startswith("pcm_")


def _packets(container: InputContainer, opened: Opened) -> Iterator[Packet[Any]]:
    """Yield packets of all tracks: one that is left out might never end."""
    import av

    try:
        yield from container.demux()
    except (av.FFmpegError, ValueError, MemoryError, OverflowError):
        opened.unread += 1


def _same(frame: AudioFrame, opened: Opened, *, where: str) -> bool:
    found = (frame.sample_rate, frame.layout.nb_channels)
    if not opened.rate_hz:
        hold_to_reason(rate_hz=found[0], channels=found[1], where=where)
        opened.rate_hz, opened.channels = found
        opened.coarse = frame.format.name.startswith("u8")
    return found == (opened.rate_hz, opened.channels)


def _samples(frame: AudioFrame) -> Floats:
    """Return a frame as floats, shape (n, channels), full scale 1."""
    raw: NDArray[Any] = frame.to_ndarray()
    rows = raw.T if frame.format.is_planar else raw.reshape(-1, frame.layout.nb_channels)
    if rows.dtype.kind == "u":
        return np.asarray((rows.astype(np.float64) - 128.0) / 128.0)
    if rows.dtype.kind == "i":
        return np.asarray(rows.astype(np.float64) / 2.0 ** (8 * rows.dtype.itemsize - 1))
    finite = np.nan_to_num(rows.astype(np.float64), nan=0.0, posinf=0.0, neginf=0.0)
    return np.clip(finite, -_LOUDEST, _LOUDEST)
