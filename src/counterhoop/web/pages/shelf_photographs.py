"""Photographs of a piece: put in, shown small and large, put away."""

from __future__ import annotations

from functools import partial
from typing import Annotated, Final

from fastapi import APIRouter, File, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.shelf.cards import card_of
from counterhoop.bench.shelf.out_of_sight import put_photograph_away, take_photograph_out
from counterhoop.bench.shelf.photographs import photograph_piece, piece_photograph
from counterhoop.errors import BadInput, CannotDo
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.not_kept import why_not_kept
from counterhoop.web.pages.photographs import NO_PICTURE, PIECE
from counterhoop.web.pages.shelf_piece import CARD, shown
from counterhoop.web.photograph_sent import Size, sent_small, sent_whole
from counterhoop.web.shelf_words import address
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
ALBUM: Final = CARD + "/photographs"
ONE: Final = ALBUM + "/{photograph_id}"


@pages.post(ALBUM)
def put_in(
    request: Request, pen: GivenPen, shop: GivenWorkshop, piece: str,
    files: Annotated[list[UploadFile] | None, File()] = None,
) -> Response:  # fmt: skip
    """Put photographs beside a piece; what is none is said, and the others are kept."""
    refused: list[tuple[str, str]] = []
    # A field in which nothing was chosen sends a file without a name.
    chosen = [one for one in files or [] if one.filename]
    for one in chosen:
        name = shown_name(one.filename or "", otherwise="photograph")
        try:
            photograph_piece(
                shop, piece, name=name, pieces=iter(partial(one.file.read, PIECE), b""),
                by=bench_of(request),
            )  # fmt: skip
        except BadInput as fault:
            refused.append((name, why_not_kept(fault, other=NO_PICTURE)))
        except CannotDo as fault:
            refused.append((name, str(fault)))
    if refused or not chosen:
        return shown(
            request, shop, card_of(shop, piece),
            refused=refused or [("", "No photograph was chosen.")],
        )  # fmt: skip
    return RedirectResponse(f"{address(piece)}#photographs", status_code=303)


@pages.get(ONE + "/{size}.jpg")
def picture(
    request: Request, shop: GivenWorkshop, piece: str, photograph_id: str,
    size: Size,
) -> Response:  # fmt: skip
    """Send a photograph as a small JPEG."""
    return sent_small(request, shop, piece_photograph(shop, piece, photograph_id), size=size)


@pages.get(ONE + "/original")
def original(shop: GivenWorkshop, piece: str, photograph_id: str) -> Response:
    """Send the file as it came, but for the place where it was taken."""
    return sent_whole(shop, piece_photograph(shop, piece, photograph_id))


@pages.post(ONE + "/away")
def put_away(
    request: Request, pen: GivenPen, shop: GivenWorkshop, piece: str, photograph_id: str
) -> Response:
    """Put a photograph out of sight."""
    one = piece_photograph(shop, piece, photograph_id)
    put_photograph_away(shop, one.id, by=bench_of(request))
    return RedirectResponse(f"{address(piece)}#photographs", status_code=303)


@pages.post(ONE + "/back")
def take_out(
    request: Request, pen: GivenPen, shop: GivenWorkshop, piece: str, photograph_id: str
) -> Response:
    """Bring a photograph back."""
    one = piece_photograph(shop, piece, photograph_id)
    take_photograph_out(shop, one.id, by=bench_of(request))
    return RedirectResponse(f"{address(piece)}#photographs", status_code=303)
