"""Open a photograph that anybody may have sent, and make a small one of it to show."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from PIL.Image import Image

_FORMATS = ("JPEG", "PNG", "HEIF", "WEBP", "AVIF")

MOST_PIXELS = 220_000_000
"""What the largest telephones take; a small file can claim far more."""

MOST_UNPACKED = 64_000_000
"""What may be unpacked at full size to make a small picture of it: 200 MB of memory."""


@contextmanager
def open_picture(data: bytes) -> Iterator[Image]:
    """Open a photograph without unpacking it.

    Raises
    ------
    BadInput
        When it is none, is damaged, or claims to be larger than any camera's.
    """
    import warnings

    import PIL.Image
    import pillow_heif

    pillow_heif.register_heif_opener()
    unreadable = BadInput(
        "begins like a photograph but cannot be read as one",
        where="file",
        step="Open it on the machine that took it, save it again and send that",
    )
    # Pillow's own limit, which is lower, would call the pictures of large telephones unreadable.
    PIL.Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", PIL.Image.DecompressionBombWarning)
            picture = PIL.Image.open(io.BytesIO(data), formats=_FORMATS)
    except PIL.Image.DecompressionBombError as fault:
        raise _too_many_dots() from fault
    except Exception as fault:  # Decoders fail on planted bytes in ways of their own.
        raise unreadable from fault
    with picture:
        if picture.width * picture.height > MOST_PIXELS:
            raise _too_many_dots()
        try:
            yield picture
        except BadInput:
            raise
        except Exception as fault:
            raise unreadable from fault


def _too_many_dots() -> BadInput:
    return BadInput(
        "a photograph with more dots than any camera takes",
        where="file",
        wanted=f"at most {MOST_PIXELS // 10**6} million",
    )


def preview(data: bytes, *, longest_px: int) -> bytes:
    """Return a small JPEG of a photograph, the right way up and without its camera's notes.

    Parameters
    ----------
    data : bytes
        A photograph of a type that is kept.
    longest_px : int
        Length of the longer side; a smaller picture is not made larger.

    Raises
    ------
    BadInput
        As ``open_picture``, and when it would have to be unpacked at a size that fills the memory.
    """
    from PIL import ImageOps

    with open_picture(data) as picture:
        # Plain JPEGs unpack at an eighth of their size when that is enough.
        plain = picture.format in ("JPEG", "MPO") and "progressive" not in picture.info
        if not plain and picture.width * picture.height > MOST_UNPACKED:
            raise BadInput("too large to show small; it is kept as it is", where="file")
        picture.draft("RGB", (longest_px, longest_px))
        upright = ImageOps.exif_transpose(picture)
        upright.thumbnail((longest_px, longest_px))
        if upright.has_transparency_data:
            from PIL import Image

            paper = Image.new("RGBA", upright.size, "white")
            upright = Image.alpha_composite(paper, upright.convert("RGBA"))
        out = io.BytesIO()
        clean = upright.convert("RGB")
        clean.info.clear()
        clean.save(out, "JPEG", quality=85)
    return out.getvalue()
