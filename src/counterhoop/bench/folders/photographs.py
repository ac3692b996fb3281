"""Photographs, sounds and papers that are put into a folder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.enclosures.enclose import Enclosure, enclose, enclosures_of
from counterhoop.store.enclosures.keep import KeptFile, keep_file, place_of, read_pieces
from counterhoop.store.enclosures.picture import preview
from counterhoop.store.shelf.photographs import Photograph

PICTURES = frozenset(
    {"image/jpeg", "image/png", "image/webp", "image/heic", "image/heif", "image/avif"}
)


def put_photograph_in(
    shop: Workshop, job_id: str, *, drum: str = "", name: str, pieces: Iterable[bytes], by: str
) -> str:
    """Put a photograph into a folder: what no picture is, is refused.

    Raises
    ------
    BadInput
        For a file that is no picture that can be read.
    """
    file = kept_picture(shop, name=name, pieces=pieces)
    with shop.store.writing() as connection:
        return enclose(
            connection, job_id=job_id, drum=drum, file=file, name_given=name,
            stamp=shop.stamp(by),
        )  # fmt: skip


def kept_picture(shop: Workshop, *, name: str, pieces: Iterable[bytes]) -> KeptFile:
    """Keep a file that is a picture; what is none is refused.

    Raises
    ------
    BadInput
        For a file that is no picture that can be read.
    """
    file = keep_file(shop.store, pieces)
    if file.media_type not in PICTURES:
        raise BadInput(
            "this is no photograph that can be read", where=name or "photograph",
            given=file.media_type, wanted="JPEG, PNG, WebP, HEIC or AVIF, as phones make them",
        )  # fmt: skip
    # Looked at before it counts: half a picture is said while the phone is still in the hand.
    preview(place_of(shop.store.address.files, file.sha256).read_bytes(), longest_px=64)
    return file


def lying_in(shop: Workshop, job_id: str, *, with_hidden: bool = False) -> tuple[Enclosure, ...]:
    """Return what lies in a folder, in the order in which it was put there."""
    with shop.store.reading() as connection:
        return enclosures_of(connection, job_id=job_id, with_hidden=with_hidden)


def enclosed(shop: Workshop, job_id: str, enclosure_id: str) -> Enclosure:
    """Return one of them, hidden or not.

    Raises
    ------
    BadInput
        When there is none of that name in the folder.
    """
    for one in lying_in(shop, job_id, with_hidden=True):
        if one.id == enclosure_id:
            return one
    raise BadInput("no such file in this job", where="file", given=enclosure_id)


def pieces_of(shop: Workshop, one: Enclosure | Photograph) -> Iterator[bytes]:
    """Return a file as it was brought in, but for the place where it was taken."""
    return read_pieces(place_of(shop.store.address.files, one.file.sha256))


def small_picture(shop: Workshop, one: Enclosure | Photograph, *, longest_px: int) -> bytes:
    """Return a photograph as a JPEG of at most that size, upright.

    Raises
    ------
    BadInput
        When it cannot be read as a picture.
    """
    file = place_of(shop.store.address.files, one.file.sha256)
    return preview(file.read_bytes(), longest_px=longest_px)
