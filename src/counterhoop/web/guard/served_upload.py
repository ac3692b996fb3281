"""How a file that somebody brought in is handed out again: as a file, never as a page of ours."""

from __future__ import annotations

from urllib.parse import quote

from counterhoop.web.guard.shown_name import shown_name

# Only these are shown in a page. SVG is none of them: it can hold scripts, and we draw our own.
SHOWN = frozenset({"image/jpeg", "image/png", "image/webp"})
HEARD = frozenset(
    {
        *("audio/wav", "audio/mpeg", "audio/mp4", "audio/ogg", "audio/flac"),
        # Browsers record into such files, phones film into them: played for their sound.
        *("video/mp4", "video/webm"),
    }
)


def upload_headers(*, kind: str, name: str) -> dict[str, str]:
    """Return the headers of an upload, by the type that its content was found to have.

    Parameters
    ----------
    kind : str
        Media type found from the content, never the one that the sender claimed.
    name : str
        The name it was brought in under; it is cleaned here.

    Examples
    --------
    >>> upload_headers(kind="image/svg+xml", name="x.svg")["Content-Type"]
    'application/octet-stream'
    """
    known = kind in SHOWN | HEARD
    shown = shown_name(name, otherwise="file")
    plain = "".join(c if c.isascii() and (c.isalnum() or c in " .-_") else "_" for c in shown)
    way = "inline" if known else "attachment"
    true = quote(shown, safe="")
    return {
        "Content-Type": kind if known else "application/octet-stream",
        # RFC 6266: the plain name for old readers, the true one in UTF-8.
        "Content-Disposition": f"{way}; filename=\"{plain}\"; filename*=UTF-8''{true}",
        "X-Content-Type-Options": "nosniff",
        "Content-Security-Policy": "default-src 'none'; sandbox",
    }
