"""The list of all that are let in, kept in a file between two starts.

It lies in the data folder beside the database, not in it: a backup that is carried away, or brought
back years later, must let nobody in.
"""

from __future__ import annotations

import threading
from datetime import datetime
from pathlib import Path
from typing import Literal

from pydantic import AwareDatetime, BaseModel, ConfigDict, Field, ValidationError

from counterhoop.errors import BadInput, CannotDo
from counterhoop.web.guard.pairing import Device, Kind
from counterhoop.web.guard.private_file import write_private

NAME = "let-in.json"


class _Line(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)

    number: int = Field(ge=1)
    name: str
    kind: Kind
    digest: str = Field(pattern="^[0-9a-f]{64}$")
    since: AwareDatetime


class _Sheet(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)

    form: Literal[1] = 1
    next: int = Field(default=1, ge=1)
    let_in: tuple[_Line, ...] = ()


class PairedInFile:
    """The list in a file of the data folder, for one running program at a time.

    Whoever deletes the file strikes all off, at once.

    Parameters
    ----------
    folder : pathlib.Path
        The data folder.

    Raises
    ------
    CannotDo
        When the file cannot be read or is not what this program wrote. Nobody is let in then.
    """

    def __init__(self, folder: Path) -> None:
        self._file = folder / NAME
        self._lock = threading.Lock()
        self._seen: tuple[int, int, int] | None = None
        self._devices: tuple[Device, ...] = ()
        self._next = 1
        self._look()

    def listed(self) -> tuple[Device, ...]:
        """Return all that are let in, oldest first."""
        with self._lock:
            self._look()
            return self._devices

    def add(self, *, name: str, kind: Kind, digest: bytes, since: datetime) -> Device:
        """Put one on the list and return it with its number; it is on the disk by then."""
        with self._lock:
            self._look()
            device = Device(number=self._next, name=name, kind=kind, digest=digest, since=since)
            self._write((*self._devices, device), following=device.number + 1)
        return device

    def strike_off(self, number: int) -> None:
        """Take one off the list; BadInput when there is none of that number."""
        with self._lock:
            self._look()
            left = tuple(device for device in self._devices if device.number != number)
            if len(left) == len(self._devices):
                raise BadInput("nothing of that number is let in", where="number", given=number)
            self._write(left, following=self._next)

    def _mark(self) -> tuple[int, int, int] | None:
        try:
            found = self._file.stat()
        except FileNotFoundError:
            return None
        return found.st_ino, found.st_mtime_ns, found.st_size

    def _look(self) -> None:
        """Read the file when it is no longer the one that was read last."""
        try:
            mark = self._mark()
            if mark == self._seen:
                return
            sheet = (
                _Sheet() if mark is None else _Sheet.model_validate_json(self._file.read_bytes())
            )
        except (OSError, ValidationError) as fault:
            raise CannotDo(
                f"{self._file} cannot be read, so nobody is let in. "
                "Delete it and let each phone and computer in anew."
            ) from fault
        self._devices = tuple(
            Device(
                number=line.number,
                name=line.name,
                kind=line.kind,
                digest=bytes.fromhex(line.digest),
                since=line.since,
            )
            for line in sheet.let_in
        )
        # Numbers are not used again, not even when the file was deleted under us.
        self._next = max(self._next, sheet.next, *(one.number + 1 for one in self._devices), 1)
        self._seen = mark

    def _write(self, devices: tuple[Device, ...], *, following: int) -> None:
        lines = tuple(
            _Line(
                number=device.number,
                name=device.name,
                kind=device.kind,
                digest=device.digest.hex(),
                since=device.since,
            )
            for device in devices
        )
        sheet = _Sheet(next=following, let_in=lines)
        write_private(self._file, sheet.model_dump_json(indent=1).encode())
        self._devices, self._next, self._seen = devices, following, self._mark()
