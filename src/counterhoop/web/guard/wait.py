"""The answer to somebody who tries again too soon."""

from __future__ import annotations

import math

from starlette.types import Scope, Send

from counterhoop.web.guard.answer import answer


def place_of(scope: Scope) -> str:
    """Return where a request comes from, for counting wrong tries."""
    client = scope.get("client")
    return str(client[0]) if client else ""


async def tell_to_wait(send: Send, *, wait_s: float) -> None:
    """Answer 429; the try itself was not looked at."""
    whole_s = math.ceil(wait_s)
    await answer(
        send,
        429,
        says=f"Too many wrong tries. Wait {whole_s} s and try once more.\n",
        headers=[(b"retry-after", str(whole_s).encode())],
    )
