"""Recordings of taps that are put into a folder, each with the drum that it is of."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain
from pathlib import Path
from typing import Final

from counterhoop.bench.folders.photographs import lying_in
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.listen.decode import can_be_heard
from counterhoop.store.enclosures.enclose import Enclosure, enclose
from counterhoop.store.enclosures.keep import keep_file, place_of
from counterhoop.store.enclosures.media_type import ENOUGH, media_type_of

SOUNDS: Final = frozenset(
    {
        *("audio/wav", "audio/flac", "audio/ogg", "audio/mpeg", "audio/mp4"),
        *("video/mp4", "video/webm"),
    }
)
"""By content: recordings as phones and browsers make them, and films for their sound."""


def put_recording_in(
    shop: Workshop, job_id: str, *, drum: str, name: str, pieces: Iterable[bytes], by: str
) -> str:
    """Put a recording into a folder; what it says is another matter.

    The same file of the same drum a second time is the one that lies there already.

    Raises
    ------
    BadInput
        For a file that is no sound, by its first bytes or the first piece of its sound.
    """
    coming = iter(pieces)
    first = next(coming, b"")
    # Before it is kept: what is no photograph either would be called a bad one.
    if first and media_type_of(first[:ENOUGH]) not in SOUNDS:
        raise BadInput(
            "this is no recording", where=name or "recording",
            wanted="WAV, FLAC, Ogg, MP3, M4A or a film, as phones make them",
        )  # fmt: skip
    file = keep_file(shop.store, chain([first], coming))
    # Opened before it counts, as photographs are: a film without sound is said at once.
    can_be_heard(place_of(shop.store.address.files, file.sha256).read_bytes(), name=name)
    there = recordings_of(shop, job_id, drum=drum)
    same = next((one for one in there if one.file.sha256 == file.sha256), None)
    if same is not None:
        return same.id
    with shop.store.writing() as connection:
        return enclose(
            connection, job_id=job_id, drum=drum, file=file, name_given=name,
            stamp=shop.stamp(by),
        )  # fmt: skip


def recordings_of(
    shop: Workshop, job_id: str, *, drum: str, with_hidden: bool = False
) -> tuple[Enclosure, ...]:
    """Return the recordings of a drum, in the order in which they were put in."""
    return tuple(
        one
        for one in lying_in(shop, job_id, with_hidden=with_hidden)
        if one.drum == drum and one.file.media_type in SOUNDS
    )


def recording(shop: Workshop, job_id: str, *, drum: str, recording_id: str) -> Enclosure:
    """Return one recording of a drum, put away or not.

    Raises
    ------
    BadInput
        When there is none of that name.
    """
    for one in recordings_of(shop, job_id, drum=drum, with_hidden=True):
        if one.id == recording_id:
            return one
    raise BadInput("no such recording of this drum", where="recording", given=recording_id)


def file_of(shop: Workshop, one: Enclosure) -> Path:
    """Return where a recording lies on the disk."""
    return place_of(shop.store.address.files, one.file.sha256)
