"""Gets the recordings of real drums that the tests listen to; run it on Debian 12.

Two data packages, checked and unpacked, not installed. They lie in the folder that
COUNTERHOOP_RECORDINGS names, else in the user's cache: never in this project. Needs nothing but
Python, apt-get and dpkg.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

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
    "The recordings of real drums are not here: run `python tests/listen/get_recordings.py` on "
    "Debian 12 to get them (31 MB, kept outside the project)."
)


class NotHere(Exception):
    """The packages are not in the folder, or not those that were measured."""


def folder() -> Path:
    named = os.environ.get(FOLDER_NAMED_BY)
    cached = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return Path(named) if named else cached / "counterhoop" / "recordings"


def unpack(folder: Path) -> None:
    """Check the packages in a folder and unpack those that are not."""
    for package, (name, sha256) in PACKED.items():
        packed = folder / name
        if not packed.is_file():
            raise NotHere(MISSING)
        if hashlib.sha256(packed.read_bytes()).hexdigest() != sha256:
            raise NotHere(f"{package} is not the one that was measured: its SHA-256 is another.")
        if not (folder / package).is_dir():
            subprocess.run(["dpkg", "-x", packed, folder / package], check=True)


def get(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    wanted = [package for package, (name, _) in PACKED.items() if not (folder / name).is_file()]
    if wanted:
        subprocess.run(["apt-get", "download", "-q", *wanted], cwd=folder, check=True)
    unpack(folder)


if __name__ == "__main__":
    try:
        get(folder())
    except (NotHere, subprocess.CalledProcessError, OSError) as error:
        sys.exit(f"The recordings could not be got: {error}")
