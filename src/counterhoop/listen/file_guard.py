"""What a sound file says of itself, held against its size before anything is set aside for it."""

from __future__ import annotations

from collections.abc import Iterator

from counterhoop.errors import BadInput

KINDS = "wav,flac,ogg,mp3,aac,mov,mp4,m4a,3gp,3g2,mj2,matroska,webm"
"""Containers that are read, by the names that the decoder has for them.

Lists of other files (playlists and the like) are not among them: nothing but what is given here
is ever opened.
"""
CODINGS = frozenset(
    {"aac", "alac", "flac", "mp3", "mp3float", "opus", "libopus", "vorbis", "libvorbis"}
)
RATES_HZ = (8_000, 192_000)
MOST_CHANNELS = 8
MOST_TRACKS = 32
_SIZE_UNKNOWN = 2**31 - 65_536
_COUNTED_ANYWAY = 1_000_000
_HOLD_OTHERS = frozenset({b"moov", b"trak", b"mdia", b"minf", b"stbl", b"moof", b"traf"})
_COUNT_AT = {b"stsz": 8, b"stz2": 8, b"trun": 4}


def hold_to_size(data: bytes, *, where: str) -> None:
    """Refuse a film or phone recording that counts more pieces of sound than it can hold.

    Tables in such files may say "a thousand million pieces of no size" in a few bytes, and room
    would be made for every one of them.

    Notes
    -----
    Boxes of ISO/IEC 14496-12 (from memory): size, name, content; ``stsz``, ``stz2`` and ``trun``
    hold a count of pieces.
    """
    if data[4:8] not in {b"ftyp", b"moov", b"wide", b"mdat", b"free", b"skip", b"moof"}:
        return
    pieces = sum(_pieces(data, 0, len(data)))
    if pieces > max(_COUNTED_ANYWAY, len(data)):
        raise BadInput(
            "this file says that it holds more pieces of sound than it has room for",
            where=where,
            step="It is damaged or no recording; record again.",
        )


def breaks_off(data: bytes) -> bool:
    """Tell whether a WAV file is shorter than its first bytes say.

    A recorder that cannot go back writes the largest size there is: that says nothing.

    Examples
    --------
    >>> breaks_off(b"RIFF" + (100).to_bytes(4, "little") + b"WAVE" + bytes(50))
    True
    """
    if data[:4] != b"RIFF":
        return False
    size = int.from_bytes(data[4:8], "little")
    return len(data) < size + 8 and size < _SIZE_UNKNOWN


def _pieces(data: bytes, at: int, end: int) -> Iterator[int]:
    while at + 8 <= end:
        size, name = int.from_bytes(data[at : at + 4]), data[at + 4 : at + 8]
        head = 8
        if size == 1:
            size, head = int.from_bytes(data[at + 8 : at + 16]), 16
        last = end if size == 0 else min(end, at + size)
        if name in _HOLD_OTHERS:
            yield from _pieces(data, at + head, last)
        elif name in _COUNT_AT:
            count = at + head + _COUNT_AT[name]
            yield int.from_bytes(data[count : count + 4])
        if last < at + head:
            return
        at = last


def hold_to_reason(*, rate_hz: int, channels: int, where: str) -> None:
    """Refuse a rate or a number of channels that no recorder of sound has."""
    low, high = RATES_HZ
    if not low <= rate_hz <= high:
        raise BadInput(
            "this rate is not one at which a drum is recorded",
            where=where,
            given=f"{rate_hz} samples a second",
            wanted=f"{low} to {high}",
            step="Record at 44100 or 48000.",
        )
    if not 1 <= channels <= MOST_CHANNELS:
        raise BadInput(
            "too many channels",
            where=where,
            given=channels,
            wanted=f"1 to {MOST_CHANNELS}",
            step="Save one or two of them by themselves.",
        )
