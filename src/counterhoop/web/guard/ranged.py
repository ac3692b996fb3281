"""Send a sound as players ask for it: whole, or from one byte to another."""

from __future__ import annotations

import re
from collections.abc import Mapping

from starlette.responses import Response

_RANGE = re.compile(r"bytes=(\d{0,15})-(\d{0,15})")


def span_of(asked: str, *, size: int) -> tuple[int, int] | None:
    """Return the first byte that is asked for and the one behind the last; None for all of it.

    Several spans at once are answered by all of it, as RFC 9110, 14.2 allows.

    Examples
    --------
    >>> span_of("bytes=0-1", size=100), span_of("bytes=90-", size=100)
    ((0, 2), (90, 100))
    >>> span_of("bytes=-5", size=100), span_of("bytes=7-500", size=100)
    ((95, 100), (7, 100))
    >>> span_of("bytes=100-", size=100), span_of("bytes=0-1,5-6", size=100)
    ((100, 100), None)
    """
    found = _RANGE.fullmatch(asked.strip())
    if found is None or not any(found.groups()):
        return None
    first, last = found.groups()
    if not first:
        return max(size - int(last), 0), size
    begins = min(int(first), size)
    return begins, max(min(int(last) + 1, size) if last else size, begins)


def ranged(content: bytes, *, asked: str, headers: Mapping[str, str]) -> Response:
    """Return a sound, or the part of it that a player asks for.

    Parameters
    ----------
    content : bytes
        The whole of it.
    asked : str
        The request's Range line; empty for none.
    """
    said = {**headers, "Accept-Ranges": "bytes"}
    size = len(content)
    span = span_of(asked, size=size) if asked else None
    if span is None:
        return Response(content, headers=said)
    first, behind = span
    if first == behind:
        return Response(status_code=416, headers={**said, "Content-Range": f"bytes */{size}"})
    said["Content-Range"] = f"bytes {first}-{behind - 1}/{size}"
    return Response(content[first:behind], status_code=206, headers=said)
