"""The shelf: one line to find a piece by, the newest pieces, the bins."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import Response

from counterhoop.bench.demonstration.worked_shelf import demo_in_sight
from counterhoop.bench.shelf.bins import bin_of, bins_of
from counterhoop.bench.shelf.cards import MOST_SHOWN, find_pieces
from counterhoop.bench.shelf.nothing_found import found_instead, found_without
from counterhoop.bench.shelf.said import example_of
from counterhoop.errors import BadInput
from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.render import page
from counterhoop.web.shelf_index import shelf_index
from counterhoop.web.shelf_words import bin_address, fault_says, found_line, line_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
SHELF = "/shelf"
NEWEST = 8


@pages.get(SHELF)
def look(
    request: Request, shop: GivenWorkshop, find: Annotated[str, Query(max_length=1000)] = "",
    free: Annotated[str, Query(max_length=3)] = "",
) -> Response:  # fmt: skip
    """Show what a search found; without one, the newest pieces and the bins."""
    line, only_free = find.strip(), free == "yes"
    units, fault, result = mine_of(request).units, "", None
    try:
        result = find_pieces(
            shop, line, units=units, only_free=only_free, limit=MOST_SHOWN if line else NEWEST
        )
    except BadInput as wrong:
        fault = fault_says(wrong)
    searched = bool(line) and result is not None
    lines = [found_line(one) for one in result.found] if result else []
    without: tuple[str, ...] = ()
    instead: dict[str, str] = {}
    if searched and result is not None and not lines:
        without = found_without(shop, result.asked, only_free=only_free)
        instead = found_instead(shop, result.asked, only_free=only_free)
    newest = [one.kept.piece for one in result.found] if result and not line else []
    return page(
        request, "shelf.html", status=422 if fault else 200, index=shelf_index(SHELF),
        find=line, free=only_free, fault=fault, searched=searched, lines=lines,
        asked=result.asked if result else None, without=without, most=MOST_SHOWN,
        instead=instead, example=example_of(newest),
        worked=0 if line else demo_in_sight(shop),
        bins=[] if line else [(name, count, bin_address(name)) for name, count in
                              bins_of(shop).items()],
    )  # fmt: skip


@pages.get(SHELF + "/bins/{name:path}")
def look_into_bin(request: Request, shop: GivenWorkshop, name: str) -> Response:
    """Show what lies in a bin."""
    pieces = bin_of(shop, name)
    return page(
        request, "shelf_bin.html", status=200 if pieces else 404, index=shelf_index(SHELF),
        bin_name=name, lines=[line_of(one, with_bin=False) for one in pieces],
    )  # fmt: skip
