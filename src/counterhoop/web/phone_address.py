"""The address by which a phone reaches these pages: what a code on paper opens."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request

from counterhoop.web.guard.stack import settings_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PhoneAddress:
    """What stands before the path, and whether another machine can open it."""

    address: str
    reachable: bool


def phone_address(request: Request) -> PhoneAddress:
    """Return the address for codes on paper.

    Served for the network it is the name that phones were given; else only this machine opens it.
    """
    settings = settings_of(request.scope)
    if settings is None:
        return PhoneAddress(address=str(request.base_url).rstrip("/"), reachable=False)
    door = settings.door
    if door.on_network and door.names:
        return PhoneAddress(address=door.address(door.names[0]), reachable=True)
    return PhoneAddress(address=door.address(), reachable=False)
