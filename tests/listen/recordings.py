"""Real drums from two Debian packages, take by take.

The packages are free data (the first GPL-2+, the second CC-BY-SA-3.0), never part of this project:
``get_recordings.py`` gets them. A take is named by package, set and number only: files are counted
in the order of their names from 0, and so are the samples of a sound font.
"""

from __future__ import annotations

import struct
import wave
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from get_recordings import FILES, FONTS, NotHere, unpack
from numpy.typing import NDArray


@dataclass(frozen=True, kw_only=True)
class Drum:
    """Takes of one drum, softest first; the same take sold twice is left out."""

    package: str
    set: int
    numbers: tuple[int, ...]


# Which number is which drum: as published with the packages; heard, and measured here.
DRUMS = {
    "rack tom 1": Drum(package=FILES, set=1, numbers=(75, 74, 73, 71)),
    "rack tom 2": Drum(package=FILES, set=1, numbers=(80, 79, 78, 76, 77)),
    "floor tom": Drum(package=FILES, set=1, numbers=(85, 84, 83, 81, 82)),
    "snare, wires on": Drum(package=FILES, set=1, numbers=(60, 59, 58, 56, 57)),
    "snare rim, wires on": Drum(package=FILES, set=1, numbers=(65, 64, 63, 61, 62)),
    "16 in floor tom, centre": Drum(package=FONTS, set=0, numbers=(25, 26, 27, 28, 29)),
    "16 in floor tom, edge": Drum(package=FONTS, set=0, numbers=(35, 36, 37, 38, 39)),
    "12 in tom, centre": Drum(package=FONTS, set=0, numbers=(45, 46, 47, 48, 49)),
    "12 in tom, edge": Drum(package=FONTS, set=0, numbers=(55, 56, 57, 58, 59)),
    "snare, centre, wires on": Drum(package=FONTS, set=0, numbers=(10, 11, 12, 13, 14)),
    "snare, edge, wires on": Drum(package=FONTS, set=0, numbers=(20, 21, 22, 23, 24)),
}
SAME_TAKE = (FILES, 1, 73, 72)
"""A package sells one take at two strengths, the second clipped: the first is in the table."""


@dataclass(frozen=True, kw_only=True)
class Take:
    """One stroke as it was recorded, one channel, full scale 1."""

    samples: NDArray[np.float64]
    rate_hz: int


class Recordings:
    """The two packages, unpacked."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def take(self, package: str, *, set: int, number: int) -> Take:
        if package == FILES:
            return _wave(_sorted_files(self.folder / package, "*.wav")[set][number])
        (fonts,) = _sorted_files(self.folder / package, "*.sf2")
        return _font_sample(fonts[set], number)

    def takes(self, drum: str) -> list[Take]:
        """Return all takes of a drum in the table, softest first."""
        row = DRUMS[drum]
        return [self.take(row.package, set=row.set, number=number) for number in row.numbers]


@cache
def recordings_in(folder: Path) -> Recordings:
    """Return what is in a folder, checked and unpacked."""
    unpack(folder)
    return Recordings(folder)


@cache
def _sorted_files(folder: Path, pattern: str) -> list[list[Path]]:
    """Return the sets below a folder in the order of their names, and their files likewise."""
    files = sorted(path for path in folder.rglob(pattern) if not path.is_symlink())
    return [[f for f in files if f.parent == set] for set in sorted({f.parent for f in files})]


@cache
def _wave(path: Path) -> Take:
    with wave.open(str(path)) as file:
        if (file.getnchannels(), file.getsampwidth()) != (1, 2):
            raise NotHere(f"{path.name} is not one channel of 16 bits.")
        data = file.readframes(file.getnframes())
        return Take(samples=_sixteen_bits(data), rate_hz=file.getframerate())


@cache
def _font_sample(path: Path, number: int) -> Take:
    """Return one sample of a sound font, by its place among the sample headers.

    Layout: the SoundFont 2.01 technical specification (from memory): a RIFF file whose list
    "sdta" holds all samples in "smpl" as 16 bits, and whose list "pdta" holds in "shdr" 46 bytes
    a sample: 20 of name, then start, end, two loop points and the rate as 4 bytes each.
    """
    chunks = _riff_chunks(path.read_bytes())
    start, end, _, _, rate = struct.unpack_from("<5I", chunks[b"shdr"], 46 * number + 20)
    return Take(samples=_sixteen_bits(chunks[b"smpl"][2 * start : 2 * end]), rate_hz=rate)


def _riff_chunks(data: bytes) -> dict[bytes, bytes]:
    found: dict[bytes, bytes] = {}
    at = 12
    while at + 8 <= len(data):
        name, size = struct.unpack_from("<4sI", data, at)
        at += 8
        if name == b"LIST":
            at += 4
            continue
        found[name] = data[at : at + size]
        at += size + size % 2
    return found


def _sixteen_bits(data: bytes) -> NDArray[np.float64]:
    return np.frombuffer(data, dtype="<i2").astype(np.float64) / 32768.0
