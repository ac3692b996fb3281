"""The cookie by which a browser is known again."""

from __future__ import annotations

from starlette.types import Scope

from counterhoop.web.guard.door import Door
from counterhoop.web.guard.one_header import header_lines

YEAR_S = 365 * 24 * 3600
# More of one name than this come from no browser of ours.
MOST_OF_ONE_NAME = 4


def cookie_name(door: Door) -> str:
    """Return the name, with the port in it: cookies are shared by all ports of a host.

    Examples
    --------
    >>> cookie_name(Door(port=8377)), cookie_name(Door(port=8377, scheme="https"))
    ('counterhoop-8377', '__Host-counterhoop-8377')
    """
    start = "__Host-" if door.scheme == "https" else ""
    return f"{start}counterhoop-{door.port}"


def cookie_line(door: Door, *, secret: str) -> bytes:
    """Return the Set-Cookie line that gives a browser its secret."""
    secure = "; Secure" if door.scheme == "https" else ""
    line = f"{cookie_name(door)}={secret}; Path=/; Max-Age={YEAR_S}; HttpOnly; SameSite=Strict"
    return (line + secure).encode()


def secrets_in(scope: Scope, door: Door) -> list[str]:
    """Return the values of our cookie; another program on this host may have set a second one."""
    name = cookie_name(door)
    pairs = [
        pair.strip().partition("=")
        for line in header_lines(scope, b"cookie")
        for pair in line.split(";")
    ]
    return [value for key, _, value in pairs if key == name][:MOST_OF_ONE_NAME]
