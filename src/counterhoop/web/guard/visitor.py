"""Who is asking: a paired browser by its cookie, a program by its token, or a stranger."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.answer import answer
from counterhoop.web.guard.cookie import secrets_in
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.one_header import header_lines
from counterhoop.web.guard.pairing import Device, Paired, holder
from counterhoop.web.guard.wait import place_of, tell_to_wait
from counterhoop.web.guard.wrong_tries import WrongTries

KEY = "counterhoop.visitor"


@dataclass(frozen=True, slots=True, kw_only=True)
class Visitor:
    """A device that has proven who it is, and by what."""

    device: Device
    by: Literal["cookie", "bearer"]


def visitor_of(scope: Scope) -> Visitor | None:
    """Return who is asking, or nothing for a stranger."""
    found = scope.get(KEY)
    return found if isinstance(found, Visitor) else None


def bearer_in(scope: Scope) -> str | None:
    """Return the bearer token of a request that has no cookie at all, or nothing."""
    lines = header_lines(scope, b"authorization")
    if not lines or header_lines(scope, b"cookie"):
        return None
    kind, _, token = lines[0].partition(" ")
    return token.strip() if len(lines) == 1 and kind.lower() == "bearer" else ""


class WhoAsks:
    """Note who is asking; a wrong bearer token is answered with 401, and slowed.

    A wrong cookie is not slowed: a browser that was struck off sends its old one with every
    picture of a page, and at 256 random bits nothing is gained by guessing.
    """

    def __init__(self, app: ASGIApp, *, door: Door, paired: Paired, tries: WrongTries) -> None:
        self.app = app
        self.door = door
        self.paired = paired
        self.tries = tries

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse one request or pass it on with a note of who is asking."""
        token = bearer_in(scope)
        if token is None:
            scope[KEY] = self._by_cookie(scope)
        else:
            place = place_of(scope)
            wait_s = self.tries.wait_s(place)
            if wait_s > 0:
                await tell_to_wait(send, wait_s=wait_s)
                return
            device = holder(self.paired, secret=token, kind="program")
            if device is None:
                self.tries.wrong(place)
                headers = [(b"www-authenticate", b"Bearer")]
                await answer(send, 401, says="That token is not known here.\n", headers=headers)
                return
            scope[KEY] = Visitor(device=device, by="bearer")
        await self.app(scope, receive, send)

    def _by_cookie(self, scope: Scope) -> Visitor | None:
        for secret in secrets_in(scope, self.door):
            device = holder(self.paired, secret=secret, kind="browser")
            if device is not None:
                return Visitor(device=device, by="cookie")
        return None
