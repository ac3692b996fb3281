"""Small files with secrets in them: whole or not at all, and for nobody else on this machine."""

from __future__ import annotations

import os
import secrets
import stat
from pathlib import Path

from counterhoop.errors import CannotDo
from counterhoop.store.to_disk import move_into_place

OWNER_ONLY = 0o600


def write_private(file: Path, content: bytes) -> None:
    """Write a file whole, in place of what was there.

    Raises
    ------
    CannotDo
        When the folder does not take it; what was there before is still there.
    """
    part = file.with_name(f".{file.name}.{secrets.token_hex(4)}.part")
    try:
        # Closed to others from its first byte on: a change afterwards would leave a gap.
        held = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, OWNER_ONLY)
        try:
            with os.fdopen(held, "wb") as out:
                out.write(content)
            move_into_place(part, to=file)
        finally:
            part.unlink(missing_ok=True)
    except OSError as fault:
        said = fault.strerror or fault
        raise CannotDo(f"{file.name} cannot be written in {file.parent}: {said}.") from fault


def is_private(file: Path) -> bool:
    """Tell whether only its owner can read a file; on Windows the folder of the user sees to it."""
    return os.name == "nt" or not stat.S_IMODE(file.stat().st_mode) & 0o077
