"""Real drums from two Debian packages: where they are kept, checked, unpacked and read.

The packages are free data (the first GPL-2+, the second CC-BY-SA-3.0), never part of this project.
They lie in the folder named by COUNTERHOOP_RECORDINGS, else in the user's cache; this file, run as
a program on Debian 12, gets them. A take is named by package, set and number only: files are
counted in the order of their names from 0, and so are the samples of a sound font.
"""

from __future__ import annotations

import hashlib
import os
import struct
import subprocess
import sys
import wave
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

FOLDER_NAMED_BY = "COUNTERHOOP_RECORDINGS"
FILES, FONTS = "hydrogen-data", "avldrums.lv2-soundfont"
PACKED = {
    FILES: (
        "hydrogen-data_1.2.0~beta1+dfsg-1_all.deb",
        "d2cc3f281c02efb71f132bd173e95a958d3fede7c5aefcaba6547baf918cff2a",
    ),
    FONTS: (
        "avldrums.lv2-soundfont_0.5.2-2_all.deb",
        "436813f10c950324f28cb6a71e922f153084b6ed00049cd47da3f0f055f3ffc5",
    ),
}
MISSING = (
    "The recordings of real drums are not here: run `python tests/listen/recordings.py` on "
    "Debian 12 to get them (31 MB, kept outside the project)."
)


class NotHere(Exception):
    """The packages are not in the folder, or not those that were measured."""


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


def folder() -> Path:
    named = os.environ.get(FOLDER_NAMED_BY)
    cached = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return Path(named) if named else cached / "counterhoop" / "recordings"


@cache
def recordings_in(folder: Path) -> Recordings:
    """Return what is in a folder, checked and unpacked."""
    for package, (name, sha256) in PACKED.items():
        packed = folder / name
        if not packed.is_file():
            raise NotHere(MISSING)
        if hashlib.sha256(packed.read_bytes()).hexdigest() != sha256:
            raise NotHere(f"{package} is not the one that was measured: its SHA-256 is another.")
        if not (folder / package).is_dir():
            subprocess.run(["dpkg", "-x", packed, folder / package], check=True)
    return Recordings(folder)


def get(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    wanted = [package for package, (name, _) in PACKED.items() if not (folder / name).is_file()]
    if wanted:
        subprocess.run(["apt-get", "download", "-q", *wanted], cwd=folder, check=True)
    recordings_in(folder)


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


if __name__ == "__main__":
    try:
        get(folder())
    except (NotHere, subprocess.CalledProcessError, FileNotFoundError) as error:
        sys.exit(f"The recordings could not be got: {error}")
