"""Phones, computers and programs that have been let in, and how each is known again."""

from __future__ import annotations

import hashlib
import hmac
import secrets
import threading
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Literal, Protocol

from counterhoop.errors import BadInput

Kind = Literal["browser", "program"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """One that has been let in. When it last called is not kept: looking must not write.

    Attributes
    ----------
    number : int
        Its number on the list.
    name : str
        What the person called it.
    kind : str
        "browser" for one with a cookie, "program" for one with a bearer token.
    digest : bytes
        SHA-256 of its secret; the secret itself is kept nowhere.
    since : datetime
        When it was let in.
    """

    number: int
    name: str
    kind: Kind
    digest: bytes
    since: datetime


class Paired(Protocol):
    """The list of all that have been let in; the store keeps it between two starts."""

    def listed(self) -> tuple[Device, ...]:
        """Return all that are let in, oldest first."""
        ...

    def add(self, *, name: str, kind: Kind, digest: bytes, since: datetime) -> Device:
        """Put one on the list and return it with its number."""
        ...

    def strike_off(self, number: int) -> None:
        """Take one off the list; BadInput when there is none of that number."""
        ...


class PairedInMemory:
    """The list for as long as the program runs."""

    def __init__(self) -> None:
        self._devices: dict[int, Device] = {}
        self._next = 1
        self._lock = threading.Lock()

    def listed(self) -> tuple[Device, ...]:
        """Return all that are let in, oldest first."""
        with self._lock:
            return tuple(self._devices.values())

    def add(self, *, name: str, kind: Kind, digest: bytes, since: datetime) -> Device:
        """Put one on the list and return it with its number."""
        # Numbers are not used again: a struck number in an old window must not hit a new phone.
        with self._lock:
            device = Device(number=self._next, name=name, kind=kind, digest=digest, since=since)
            self._next += 1
            self._devices[device.number] = device
        return device

    def strike_off(self, number: int) -> None:
        """Take one off the list; BadInput when there is none of that number."""
        with self._lock:
            gone = self._devices.pop(number, None)
        if gone is None:
            raise BadInput("nothing of that number is let in", where="number", given=number)


def digest_of(secret: str) -> bytes:
    """Return what is kept of a secret. It is random and long, so one round of SHA-256 is enough."""
    return hashlib.sha256(secret.encode()).digest()


def let_in(paired: Paired, *, name: str, kind: Kind, now: datetime) -> str:
    """Put one more on the list and return its secret, which is shown this once."""
    secret = secrets.token_urlsafe(32)
    paired.add(name=name, kind=kind, digest=digest_of(secret), since=now)
    return secret


def same_digest(wanted: bytes, digests: Iterable[bytes]) -> int | None:
    """Return the place of a digest among others, in a time that does not tell where it stood."""
    found = None
    for place, digest in enumerate(digests):
        if hmac.compare_digest(wanted, digest):
            found = place
    return found


def holder(paired: Paired, *, secret: str, kind: Kind) -> Device | None:
    """Return whoever holds a secret, or nothing."""
    devices = [device for device in paired.listed() if device.kind == kind]
    place = same_digest(digest_of(secret), [device.digest for device in devices])
    return None if place is None else devices[place]
