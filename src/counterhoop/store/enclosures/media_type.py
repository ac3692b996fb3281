"""What a file is, by its first bytes and not by its name."""

from __future__ import annotations

from counterhoop.errors import BadInput

ENOUGH = 64
"""So many bytes from the start of a file tell what it is."""

SUFFIXES = {
    "image/jpeg": ".jpg",
    "image/png": ".png",
    "image/heic": ".heic",
    "image/webp": ".webp",
    "image/avif": ".avif",
    "audio/wav": ".wav",
    "audio/flac": ".flac",
    "audio/ogg": ".ogg",
    "audio/mpeg": ".mp3",
    "audio/mp4": ".m4a",
    "video/mp4": ".mp4",
    "video/webm": ".webm",
    "application/pdf": ".pdf",
}
"""Every type that is kept, and the end that a file of it has when it is handed out."""

IMAGES = frozenset(kind for kind in SUFFIXES if kind.startswith("image/"))

# First bytes as the formats' own specifications give them (from memory).
_STARTS = (
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"fLaC", "audio/flac"),
    (b"OggS", "audio/ogg"),
    (b"ID3", "audio/mpeg"),
    (b"\x1a\x45\xdf\xa3", "video/webm"),
    (b"%PDF-", "application/pdf"),
)
_IN_RIFF = {b"WAVE": "audio/wav", b"WEBP": "image/webp"}
_HEIC = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx"}
_AVIF = {b"avif", b"avis"}
_FILM = {b"isom", b"iso2", b"iso4", b"iso5", b"iso6", b"mp41", b"mp42", b"qt  ", b"3gp4", b"3gp5"}


def media_type_of(start: bytes) -> str:
    """Return the type of a file from its first bytes.

    Raises
    ------
    BadInput
        For everything that is no photograph, sound, film or PDF.

    Examples
    --------
    >>> media_type_of(b"RIFF\\x24\\x00\\x00\\x00WAVEfmt ")
    'audio/wav'
    """
    for mark, kind in _STARTS:
        if start.startswith(mark):
            return kind
    if start[:4] == b"RIFF" and start[8:12] in _IN_RIFF:
        return _IN_RIFF[start[8:12]]
    if start[4:8] == b"ftyp":
        kind = _box_type(start)
        if kind:
            return kind
    if len(start) > 2 and start[0] == 0xFF and start[1] & 0xE6 == 0xE2:
        return "audio/mpeg"
    raise BadInput(
        "neither a photograph nor a sound that can be kept",
        where="file",
        wanted="JPEG, PNG, HEIC, WebP, AVIF, WAV, FLAC, OGG, MP3, M4A, MP4, WebM or PDF",
        step="The name of a file says nothing: its content is looked at",
    )


def _box_type(start: bytes) -> str:
    size = min(int.from_bytes(start[:4], "big"), len(start))
    brands = [start[8:12], *(start[place : place + 4] for place in range(16, size - 3, 4))]
    if brands[0].startswith(b"M4A"):
        return "audio/mp4"
    if brands[0] in _FILM:
        return "video/mp4"
    if _HEIC.intersection(brands):
        return "image/heic"
    return "image/avif" if _AVIF.intersection(brands) else ""
