"""Style sheets, scripts and fonts: kept by a browser for as long as their content is the same."""

from __future__ import annotations

import hashlib
from functools import lru_cache
from pathlib import Path
from urllib.parse import parse_qs

from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

FOLDER = Path(__file__).parents[1] / "static"
FOR_GOOD = "public, max-age=31536000, immutable"
ASK_AGAIN = "no-cache"
KEY_LENGTH = 16


@lru_cache
def content_key(name: str) -> str:
    """Return the beginning of the hash of a file's content; it is read once."""
    return hashlib.sha256((FOLDER / name).read_bytes()).hexdigest()[:KEY_LENGTH]


def static(name: str) -> str:
    """Return the address of a file, with its content's key in it.

    Examples
    --------
    >>> static("paper.css").startswith("/static/paper.css?v=")
    True
    """
    return f"/static/{name}?v={content_key(name)}"


class KeptFiles(StaticFiles):
    """Files that may be kept for good when they are asked for by the key of their content."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Return a file; one that was asked for by no key, or an old one, is asked for again."""
        response = await super().get_response(path, scope)
        keys = parse_qs(scope["query_string"].decode("latin-1")).get("v", [])
        known = response.status_code in (200, 304) and (FOLDER / path).is_file()
        kept = known and keys == [content_key(path)]
        response.headers["cache-control"] = FOR_GOOD if kept else ASK_AGAIN
        return response
