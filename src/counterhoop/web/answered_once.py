"""A form that is sent twice, because the first answer was lost, is answered as it was at first."""

from __future__ import annotations

import asyncio
from collections import OrderedDict
from dataclasses import dataclass, field

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.safe_methods import is_safe
from counterhoop.web.guard.visitor import visitor_of

HEADER = b"x-sent-once"
"""What keep.js marks each sending with: a sending that is tried again keeps its mark."""
MOST_ANSWERS, MOST_BYTES, LONGEST_MARK = 64, 300_000, 64
Key = tuple[object, ...]


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
        key = _key_of(scope) if scope["type"] == "http" else None
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
    if is_safe(scope["method"]):
        return None
    mark = dict(scope["headers"]).get(HEADER, b"")
    if not mark or len(mark) > LONGEST_MARK:
        return None
    visitor = visitor_of(scope)
    return (repr(visitor), scope["method"], scope["path"], scope["query_string"], mark)
