"""All the rules of the guard in the order in which they look at a request."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime

from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.body_cap import MOST_BYTES, BodyCap
from counterhoop.web.guard.certificate import Certificate
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.enter import Enter
from counterhoop.web.guard.host_check import HostCheck
from counterhoop.web.guard.one_time_links import OneTimeLinks
from counterhoop.web.guard.page_headers import PageHeaders
from counterhoop.web.guard.pairing import Paired, PairedInMemory
from counterhoop.web.guard.path_check import PathCheck
from counterhoop.web.guard.pen import WhoMayWrite
from counterhoop.web.guard.private import Private
from counterhoop.web.guard.public import PUBLIC
from counterhoop.web.guard.quiet_log import QuietLog
from counterhoop.web.guard.same_origin import SameOrigin
from counterhoop.web.guard.slow_body import Patience, SlowBody
from counterhoop.web.guard.still_let_in import StillLetIn
from counterhoop.web.guard.unread_body import UnreadBody
from counterhoop.web.guard.visitor import WhoAsks
from counterhoop.web.guard.wrong_tries import WrongTries

KEY = "counterhoop.guard"


def utc_now() -> datetime:
    """Return the time of day, with its zone."""
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What the guard needs to know; every part but the door has a sound default.

    Attributes
    ----------
    door : Door
        Where the server really listens.
    certificate : Certificate or None
        Seals what travels; the scheme of the door is https then, and only then.
    paired, links, tries
        Who is let in, which links are out, who must wait.
    public : tuple of str
        Beginnings of paths that strangers may read.
    most_bytes, most_bytes_at
        Caps of bodies, in general and by the beginning of the path; ``BodyCap`` says how.
    patience : Patience
        How slow a body may be.
    now : callable
        The time of day.
    lands : str
        The page that a browser comes to when it has been let in.
    verbose : bool
        Whether the log says more.
    """

    door: Door
    certificate: Certificate | None = None
    paired: Paired = field(default_factory=PairedInMemory)
    links: OneTimeLinks = field(default_factory=OneTimeLinks)
    tries: WrongTries = field(default_factory=lambda: WrongTries(clock=time.monotonic))
    public: tuple[str, ...] = PUBLIC
    most_bytes: int = MOST_BYTES
    most_bytes_at: Mapping[str, int] = field(default_factory=dict)
    patience: Patience = field(default_factory=Patience)
    now: Callable[[], datetime] = utc_now
    lands: str = "/"
    verbose: bool = False


def settings_of(scope: Scope) -> Settings | None:
    """Return the settings of the guard before a page, or nothing where none stands before it."""
    found = scope.get(KEY)
    return found if isinstance(found, Settings) else None


class Guard:
    """An app behind all rules. Nothing but plain requests passes; there are no websockets."""

    def __init__(self, app: ASGIApp, *, settings: Settings) -> None:
        s = settings
        self.app = app
        self.settings = s
        # Written from the inside out: the last one looks first.
        inner: ASGIApp = WhoMayWrite(app)
        inner = StillLetIn(inner, paired=s.paired)
        inner = Private(inner, public=s.public)
        inner = Enter(
            inner, door=s.door, paired=s.paired, links=s.links, tries=s.tries, now=s.now,
            lands=s.lands,
        )  # fmt: skip
        inner = SameOrigin(inner)
        inner = WhoAsks(inner, door=s.door, paired=s.paired, tries=s.tries)
        inner = SlowBody(inner, patience=s.patience)
        inner = BodyCap(inner, most_bytes=s.most_bytes, at=s.most_bytes_at)
        inner = PathCheck(inner)
        inner = HostCheck(inner, door=s.door)
        inner = QuietLog(inner, verbose=s.verbose)
        inner = PageHeaders(inner, public=s.public)
        self.requests = UnreadBody(inner)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Guard a request; let the start and the stop of the app through; refuse the rest."""
        if scope["type"] == "http":
            scope[KEY] = self.settings
            await self.requests(scope, receive, send)
        elif scope["type"] == "lifespan":
            await self.app(scope, receive, send)
        elif scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
