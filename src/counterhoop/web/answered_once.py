"""A form that is sent twice is answered as it was at first: an answer lost, a button hit twice."""

from __future__ import annotations

import asyncio
import hashlib
import re
import secrets
from collections import OrderedDict
from dataclasses import dataclass, field

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.safe_methods import is_safe
from counterhoop.web.guard.visitor import visitor_of

HEADER = b"x-sent-once"
"""What keep.js marks each sending with: a sending that is tried again keeps its mark."""
FIELD = "sent_once"
"""What a page marks its form with for a browser that sends it without a script."""
MOST_ANSWERS, MOST_BYTES, LONGEST_MARK, LONGEST_FORM = 64, 300_000, 64, 64_000
Key = tuple[object, ...]
_MARKED = re.compile(rb"(?:^|&)%s=[\w-]+(?:&|$)" % FIELD.encode())


def new_mark() -> str:
    """Return a mark that no other form has."""
    return secrets.token_urlsafe(6)


@dataclass(slots=True)
class _Answer:
    """One answer as it was sent; empty while it is made, and where it is too long to keep."""

    lock: asyncio.Lock = field(default_factory=asyncio.Lock)
    messages: tuple[Message, ...] = ()


class AnsweredOnce:
    """Keep the last answers to marked forms, and give them again to the same mark.

    What was refused or broke is not kept: it wrote nothing, and may go better the second time.
    """

    def __init__(self, app: ASGIApp) -> None:
        self.app = app
        self._answers: OrderedDict[Key, _Answer] = OrderedDict()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        key = None
        if scope["type"] == "http" and not is_safe(scope["method"]):
            key = _key_of(scope)
            if key is None and _sent_by_browser(scope):
                body, receive = await _read_whole(receive)
                # The same page may be sent once more with other words in it: that is another form.
                key = _key(scope, hashlib.sha256(body).digest()) if _MARKED.search(body) else None
        if key is None:
            await self.app(scope, receive, send)
            return
        answer = self._answers.setdefault(key, _Answer())
        while len(self._answers) > MOST_ANSWERS:
            self._answers.popitem(last=False)
        # The second may come while the first is still being worked on.
        async with answer.lock:
            if not answer.messages:
                answer.messages = await self._made(scope, receive, send)
                return
        for message in answer.messages:
            await send(message)

    async def _made(self, scope: Scope, receive: Receive, send: Send) -> tuple[Message, ...]:
        sent: list[Message] = []

        async def note(message: Message) -> None:
            sent.append(message)
            try:
                await send(message)
            except OSError:
                # Nobody is there any more to take it: that is when it will be asked for again.
                return

        await self.app(scope, receive, note)
        length = sum(len(message.get("body", b"")) for message in sent)
        kept = bool(sent) and sent[0].get("status", 500) < 400 and length <= MOST_BYTES
        return tuple(sent) if kept else ()


def _key_of(scope: Scope) -> Key | None:
    mark = dict(scope["headers"]).get(HEADER, b"")
    return _key(scope, mark) if 0 < len(mark) <= LONGEST_MARK else None


def _key(scope: Scope, mark: bytes) -> Key:
    visitor = visitor_of(scope)
    return (repr(visitor), scope["method"], scope["path"], scope["query_string"], mark)


def _sent_by_browser(scope: Scope) -> bool:
    """Tell whether this is a short form without files that no script has sent."""
    told = dict(scope["headers"])
    length = told.get(b"content-length", b"")
    return (
        told.get(b"content-type", b"").startswith(b"application/x-www-form-urlencoded")
        and b"hx-request" not in told
        and length.isdigit()
        and int(length) <= LONGEST_FORM
    )


async def _read_whole(receive: Receive) -> tuple[bytes, Receive]:
    """Return what a form says, and what gives it to the page all the same."""
    came: list[Message] = []
    while not came or came[-1].get("more_body", False):
        came.append(await receive())
    body = b"".join(message.get("body", b"") for message in came)

    async def again() -> Message:
        return came.pop(0) if came else await receive()

    return body, again
