"""A plain sentence as an answer, for everything that the guard turns away."""

from __future__ import annotations

from starlette.types import Send

Headers = list[tuple[bytes, bytes]]


async def answer(
    send: Send, status: int, *, says: str, kind: str = "text/plain", headers: Headers | None = None
) -> None:
    """Send one whole answer; ``says`` never repeats what the asker wrote unless it is escaped."""
    body = says.encode()
    lines = [
        (b"content-type", f"{kind}; charset=utf-8".encode()),
        (b"content-length", str(len(body)).encode()),
        *(headers or []),
    ]
    await send({"type": "http.response.start", "status": status, "headers": lines})
    await send({"type": "http.response.body", "body": body, "more_body": False})
