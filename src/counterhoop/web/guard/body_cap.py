"""No request is longer than its page allows, whether it says how long it is or not."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.answer import answer
from counterhoop.web.guard.cut_short import CutShort, run_unless_cut
from counterhoop.web.guard.one_header import header_lines

MOST_BYTES = 1_000_000
# Several photographs at once; how large a single one may be is the affair of what keeps it.
UPLOAD_BYTES = 64_000_000
TOO_LONG = (
    "That is more than this page takes. Nothing was kept. "
    "Choose a smaller file, or send fewer at a time.\n"
)


def begins_with(path: str, beginning: str) -> bool:
    """Tell whether a path begins so, part by part; ``*`` in the beginning stands for one part.

    Examples
    --------
    >>> begins_with("/jobs/7/photographs", "/jobs/*/photographs")
    True
    >>> begins_with("/jobs/7/notes/photographs", "/jobs/*/photographs")
    False
    """
    parts, wanted = path.split("/"), beginning.rstrip("/").split("/")
    return len(parts) >= len(wanted) and all(
        one in ("*", part) for part, one in zip(parts, wanted, strict=False)
    )


def declared_bytes(scope: Scope) -> int:
    """Return how long a body says it is; nothing said is 0."""
    return max((int(line) for line in header_lines(scope, b"content-length")), default=0)


class BodyCap:
    """Answer 413 to a longer body: at once when it is declared, else when the cap is passed.

    Parameters
    ----------
    app : ASGIApp
        What is guarded.
    most_bytes : int
        Cap of every page that is not named in ``at``.
    at : mapping of str to int
        Caps of all paths that begin so, as ``begins_with`` tells; the longest beginning decides.
    """

    def __init__(
        self, app: ASGIApp, *, most_bytes: int = MOST_BYTES, at: Mapping[str, int] | None = None
    ) -> None:
        self.app = app
        self.most_bytes = most_bytes
        self.at = dict(at or {})

    def cap(self, path: str) -> int:
        """Return the cap of a path in bytes."""
        found = [start for start in self.at if begins_with(path, start)]
        return self.at[max(found, key=len)] if found else self.most_bytes

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse one request or pass it on, counting what comes in."""
        most = self.cap(scope["path"])
        if declared_bytes(scope) > most:
            await answer(send, 413, says=TOO_LONG)
            return
        counted = 0

        async def counting() -> Message:
            nonlocal counted
            message = await receive()
            counted += len(message.get("body", b""))
            if counted > most:
                raise CutShort(413, says=TOO_LONG)
            return message

        await run_unless_cut(self.app, scope, counting, send)
