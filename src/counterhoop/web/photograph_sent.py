"""A photograph of a folder or of a piece as it is sent: a small JPEG, or the file as it came."""

from __future__ import annotations

from typing import Literal, TypeAlias

from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from counterhoop.bench.folders.photographs import pieces_of, small_picture
from counterhoop.bench.remembered import Remembered
from counterhoop.bench.workshop import Workshop
from counterhoop.store.enclosures.enclose import Enclosure
from counterhoop.store.shelf.photographs import Photograph
from counterhoop.web.guard.served_upload import upload_headers

Size: TypeAlias = Literal["small", "large"]
_LONGEST_PX = {"small": 400, "large": 1600}
# Asked again each time, so that a phone that was struck off is not shown them any more.
_KEPT = {"Cache-Control": "private, no-cache"}
_SMALL = Remembered(most=300)


def sent_small(
    request: Request, shop: Workshop, one: Enclosure | Photograph, *, size: Size
) -> Response:
    """Send a photograph as a small JPEG; one that the browser has is not sent again."""
    tag = f'"{one.file.sha256}-{size}"'
    headers = upload_headers(kind="image/jpeg", name=f"{size}.jpg") | _KEPT | {"ETag": tag}
    if tag in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers=headers)

    def made() -> bytes:
        return small_picture(shop, one, longest_px=_LONGEST_PX[size])

    data = _SMALL.get((one.file.sha256, size), made) if size == "small" else made()
    return Response(data, headers=headers)


def sent_whole(shop: Workshop, one: Enclosure | Photograph) -> Response:
    """Send the file as it came, but for the place where it was taken."""
    headers = upload_headers(kind=one.file.media_type, name=one.name_given)
    headers["Content-Length"] = str(one.file.size)
    return StreamingResponse(pieces_of(shop, one), headers=headers)
