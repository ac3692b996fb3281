"""What the workshop's printer does to lengths, read off its check sheet."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import PRINTER
from counterhoop.bench.folders.source import printing_of
from counterhoop.bench.folders.write_printer import write_printer
from counterhoop.bench.printer_says import measured_first, printer_says
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.forms import fault_words
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import around_kept, both_of_workshop, workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
SHEET = "/workshop/printer"
SIZES = ("A4", "A3", "Letter")
PAPERS = (("A4", "A4"), ("A3", "A3"), ("Letter", "Letter"), ("roll", "from a roll, by a copy shop"))
FIELDS = ("short", "long", "thickness", "paper", "called")


@pages.get(SHEET)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show what the printer does, and the form for the two bars."""
    kept = drawer(shop).get(PRINTER, Kept())
    short, _, long = str(kept.table.get("measured") or "").partition("; ")
    typed = {"short": short, "long": long} | {
        name: str(kept.table.get(name) or "") for name in ("thickness", "paper", "called")
    }
    return shown(request, shop, kept, typed=typed, based_on=kept.number)


@pages.post(SHEET)
def write(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write down what the bars read; a printer more than 2 % off is refused."""
    if theirs_kept(given):
        return RedirectResponse(SHEET, status_code=303)
    typed, based_on = {name: text_in(given, name) for name in FIELDS}, number_in(given, "based_on")
    if text_in(given, "forget"):
        typed |= {"short": "", "long": "", "called": ""}
    try:
        done = write_printer(shop, **typed, based_on=based_on, by=bench_of(request))
    except BadInput as fault:
        kept = drawer(shop).get(PRINTER, Kept())
        return shown(request, shop, kept, typed=typed, based_on=based_on, fault=fault)
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=PRINTER, given=given)
    return RedirectResponse(f"{SHEET}#does", status_code=303)


def shown(
    request: Request, shop: Workshop, kept: Kept, *, typed: dict[str, Any], based_on: int,
    fault: BadInput | None = None,
) -> Response:  # fmt: skip
    """Return the sheet; what was typed goes on being based on what its writer saw."""
    try:
        says = printer_says(printing_of(kept), units=mine_of(request).units)
    except BadInput as found:
        # Kept by hand, or by an older program: said here and beside every list of papers.
        says, fault = None, fault or found
    return page(
        request, "printer.html", status=422 if fault and request.method == "POST" else 200,
        index=workshop_index(SHEET), typed=typed, based_on=based_on, sizes=SIZES, papers=PAPERS,
        does=says if kept.table.get("measured") else None, first=measured_first(shop, kept),
        faults={_field(fault): _says(fault)} if fault else {}, **around_kept(shop, kept),
    )  # fmt: skip


def _field(fault: BadInput) -> str:
    if fault.where == "paper" and isinstance(fault.given, float):
        return "thickness"
    return next((name for name in FIELDS if name in fault.where), "short")


def _says(fault: BadInput) -> str:
    line = fault_words(fault)
    return line if line[-1] in ".?" else f"{line}."
