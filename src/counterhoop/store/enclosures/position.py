"""Take out of a photograph where it was taken: that is the client's home, or the workshop."""

from __future__ import annotations

import re

from counterhoop.errors import BadInput
from counterhoop.store.enclosures.picture import open_picture
from counterhoop.store.enclosures.png_position import blank_png
from counterhoop.store.enclosures.tiff_position import blank_position
from counterhoop.store.enclosures.written_position import blank_written

_MARK = b"Exif\x00\x00"
_MOST_BLOCKS = 200
_POSITIONS = 0x8825
_VERSION_ONLY = {0}


def take_out_position(data: bytearray, *, media_type: str) -> bool:
    """Blank the position in a file, in place; tell whether there was one.

    Nothing else changes, not even the length: the picture is not packed anew. What a maker hides in
    notes of its own, or what the picture itself shows, is not found.

    Parameters
    ----------
    data : bytearray
        The whole file.
    media_type : str
        From ``media_type_of``.

    Raises
    ------
    BadInput
        When it is a photograph that cannot be read, or still tells its position afterwards.
    """
    if media_type == "image/png":
        blanked = blank_png(data)
    elif media_type in ("image/jpeg", "image/heic", "audio/mp4", "video/mp4"):
        blanked = _blank_blocks(data)
        blanked = blank_written(data) or blanked
        if media_type == "image/heic":
            blanked = _blank_unmarked(data) or blanked
    else:
        return False
    if media_type.startswith("image/") and _still_tells(data):
        raise BadInput(
            "where it was taken cannot be taken out of this photograph",
            where="file",
            step="Save it as a JPEG without its place, or photograph the screen",
        )
    return blanked


def _blank_blocks(data: bytearray) -> bool:
    """Blank every marked block: those of previews and second pictures too."""
    places = [match.end() for match in re.finditer(re.escape(_MARK), data)]
    if len(places) > _MOST_BLOCKS:
        raise BadInput("more camera notes than a photograph has", where="file")
    blanked = [blank_position(data, place) for place in places]
    return any(blanked)


def _blank_unmarked(data: bytearray) -> bool:
    with open_picture(bytes(data)) as picture:
        block = bytes(picture.info.get("exif") or b"").removeprefix(_MARK)
    place = data.find(block) if block else -1
    return place >= 0 and blank_position(data, place)


def _still_tells(data: bytearray) -> bool:
    from PIL.Image import Exif

    notes = Exif()
    with open_picture(bytes(data)) as picture:
        # What the head of the file holds: asking the picture itself would unpack it.
        notes.load(bytes(picture.info.get("exif") or b""))
        positions = notes.get_ifd(_POSITIONS)
        packet = picture.info.get("xmp") or b""
    text = packet if isinstance(packet, bytes) else str(packet).encode()
    return bool(set(positions) - _VERSION_ONLY) or b"GPSL" in text
