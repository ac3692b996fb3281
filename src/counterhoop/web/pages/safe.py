"""Safe keeping: backups, a look over the store, plain files, and where everything lies."""

from __future__ import annotations

import os
import shlex
from collections.abc import Callable
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import FileResponse, RedirectResponse, Response

from counterhoop.bench.chores import Outcome, Share
from counterhoop.bench.copies import (
    BACKUPS,
    copies,
    copy_file,
    look_over,
    make_copy,
    plain_folders,
    write_plain,
)
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.guard.paired_in_file import NAME as LET_IN
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
SHEET = "/workshop/safe"
WAIT_S = 0.4
"""A small store is copied while the browser waits for the next page."""
CHORES: Final[dict[str, tuple[str, Callable[[Workshop, Share], Outcome]]]] = {
    "backup": ("The backup is being made", make_copy),
    "look-over": ("The store is being looked over", look_over),
    "plain": ("The plain files are being written", write_plain),
}


@pages.get(SHEET)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show the backups, what the last chore came to, and where things lie."""
    made = copies(shop)
    address = shop.store.address
    chore = shop.chores.state()
    newest = address.folder / BACKUPS / made[0].name if made else None
    places = [
        ("Jobs, fittings book, rules", address.words),
        ("Photographs and sounds", str(address.files)),
        ("Backups", str(address.folder / BACKUPS)),
        ("Who is let in (in no backup)", str(address.folder / LET_IN)),
    ]
    return page(
        request, "safe.html", index=workshop_index(SHEET), copies=made, chore=chore,
        under_way=chore is not None and chore.ended is None, places=places,
        restore=f"counterhoop restore {typed(str(newest or 'BACKUP.zip'))} --data NEW-FOLDER",
        shared=not address.in_a_file, plain=[str(one) for one in plain_folders(shop)],
    )  # fmt: skip


def typed(path: str) -> str:
    """Return a path as it is typed at a command line of this machine."""
    return f'"{path}"' if os.name == "nt" else shlex.quote(path)


@pages.post(SHEET)
def begin(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Begin a backup, a look over the store, or the plain files."""
    wanted = text_in(given, "chore")
    if wanted not in CHORES:
        raise BadInput("no such chore", where="chore", given=wanted or None)
    says, work = CHORES[wanted]
    shop.chores.start(says, lambda share: work(shop, share), now=shop.now, by=bench_of(request))
    shop.chores.wait(WAIT_S)
    return RedirectResponse(f"{SHEET}#chore", status_code=303)


@pages.post(f"{SHEET}/stop")
def stop(pen: GivenPen, shop: GivenWorkshop) -> Response:
    """Stop what is under way."""
    shop.chores.stop()
    shop.chores.wait(WAIT_S)
    return RedirectResponse(f"{SHEET}#chore", status_code=303)


@pages.get(SHEET + "/backups/{name}")
def hand_out(shop: GivenWorkshop, name: str) -> Response:
    """Hand a backup out, to be carried away."""
    file = copy_file(shop, name)
    return FileResponse(file, headers=upload_headers(kind="application/zip", name=name))
