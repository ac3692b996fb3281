"""Take out of a photograph where it was taken: that is the client's home, or the workshop."""

from __future__ import annotations

import re
from itertools import islice

from counterhoop.errors import BadInput
from counterhoop.store.enclosures.media_type import IMAGES
from counterhoop.store.enclosures.picture import open_picture
from counterhoop.store.enclosures.png_position import blank_png
from counterhoop.store.enclosures.tiff_position import blank_position
from counterhoop.store.enclosures.written_position import blank_written

_NOTES = re.compile(rb"II\*\x00|MM\x00\*")
_MOST_BLOCKS = 50
_POSITIONS = 0x8825
_VERSION_ONLY = {0}


def take_out_position(data: bytearray, *, media_type: str) -> bool:
    """Blank the position in a file, in place; tell whether there was one.

    The maker's own notes, which nobody else can read and some of which name places, are blanked
    with it; having had only these does not count as having told. Nothing else changes, not even
    the length: the picture is not packed anew.

    Not found: what the picture itself shows; a place that a person typed into a caption, or that
    an album program wrote there; a position in an encrypted or packed part, and one that an action
    camera records along a film; anything in a PDF, a WebM film, or a sound that is not M4A.

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
    elif media_type in IMAGES or media_type in ("audio/mp4", "video/mp4"):
        blanked = _blank_blocks(data)
        blanked = blank_written(data) or blanked
    else:
        return False
    if media_type in IMAGES and _still_tells(data):
        raise BadInput(
            "where it was taken cannot be taken out of this photograph",
            where="file",
            step="Save it as a JPEG without its place, or photograph the screen",
        )
    return blanked


def _blank_blocks(data: bytearray) -> bool:
    """Blank every camera's block, by its first bytes: those of previews and second pictures too."""
    places = [match.start() for match in islice(_NOTES.finditer(data), _MOST_BLOCKS + 1)]
    if len(places) > _MOST_BLOCKS:
        raise BadInput("more camera notes than a photograph has", where="file")
    blanked = [blank_position(data, place) for place in places]
    return any(blanked)


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
