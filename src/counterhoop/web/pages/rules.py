"""The shop rules: limits, minutes, prices and stock, the workshop's own over the usual ones."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import RULES
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.folders.own_figures import FIGURES, own_figures
from counterhoop.bench.folders.write_own_figures import write_figures
from counterhoop.bench.rule_listing import hour_listed, limits_listed, operations_listed
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.resolve_shop import HOUR
from counterhoop.store.body import Json
from counterhoop.store.pointer import NOTHING, Nothing
from counterhoop.store.save import Conflict
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.forms import Form, fault_words, faults_under, make_form, offers_of, read_form
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import around_kept, both_of_workshop, workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
SHEET = "/workshop/rules"
LISTS: Final = ("prices", "stock")
PLAIN_NUMBERS = ("plug_factor", "engaged_diameters", "bed_ramp_factor")


@pages.get(SHEET)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show every figure, the workshop's own marked."""
    return shown(request, shop)


@pages.post(f"{SHEET}/figure")
def write_one(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write one limit, or the minutes and the waiting of one operation; empty is the usual."""
    ident = text_in(given, "ident")
    if theirs_kept(given):
        return RedirectResponse(f"{SHEET}#{ident}", status_code=303)
    usual = bool(text_in(given, "usual"))
    places = [name.split("/", 1) for name in given if "/" in name]
    typed = {(table, name): text_in(given, f"{table}/{name}") for table, name in places}
    for table, _ in typed:
        if table not in FIGURES or table == "stock":
            raise BadInput("no such figure", where="figure", given=table)
    values = {place: NOTHING if usual else _value(place[1], text) for place, text in typed.items()}
    return written(request, shop, values, given, ident=ident, typed=typed)


@pages.post(f"{SHEET}/list")
def write_list(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write the prices of parts, or what lies in the drawers, as a whole list."""
    table = text_in(given, "table")
    if table not in LISTS:
        raise BadInput("no such list", where="table", given=table or None)
    if theirs_kept(given):
        return RedirectResponse(f"{SHEET}#{table}", status_code=303)
    rows = read_form(table, given)
    lines = dict(rows) if isinstance(rows, dict) else {}
    if table == "prices":
        hour = _held(drawer(shop), "prices").get(HOUR)
        lines = ({HOUR: hour} if hour is not None else {}) | lines
    return written(request, shop, {(table, ""): lines}, given, ident=table, listed=lines)


def written(
    request: Request, shop: Workshop, values: Mapping[tuple[str, str], Json | Nothing],
    given: Any, *, ident: str, typed: Mapping[tuple[str, str], str] | None = None,
    listed: Mapping[str, Any] | None = None,
) -> Response:  # fmt: skip
    """Keep figures and go back to their line; what cannot be read is said at its field."""
    based_on = number_in(given, "based_on")
    try:
        done = write_figures(shop, values, based_on=based_on, by=bench_of(request))
    except BadInput as fault:
        wrong = {
            "ident": ident, "fault": fault, "typed": typed or {}, "listed": listed,
            "based_on": based_on,
        }  # fmt: skip
        return shown(request, shop, wrong=wrong, status=422)
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=RULES, given=given)
    return RedirectResponse(f"{SHEET}#{ident}", status_code=303)


def shown(
    request: Request, shop: Workshop, *, wrong: Mapping[str, Any] | None = None, status: int = 200
) -> Response:
    """Return the sheet; ``wrong`` is what was typed just now and why it cannot be kept."""
    held = drawer(shop)
    kept = held.get(RULES, Kept())
    units = mine_of(request).units
    said = wrong or {"ident": "", "fault": None, "typed": {}, "listed": None, "based_on": 0}
    parts = limits_listed(held, units=units)
    every = [line for part in parts for line in part.lines]
    steps = operations_listed(held)
    return page(
        request, "rules.html", status=status, index=workshop_index(SHEET), parts=parts,
        operations=steps, hour=hour_listed(held), own_limits=sum(line.own for line in every),
        own_steps=sum(line.own for line in steps), all_limits=len(every),
        wrong=said["ident"], typed=said["typed"], wrong_based_on=said["based_on"],
        wrong_says=_says(said["fault"]) if said["fault"] else "",
        wrong_at=_place(said["fault"], said["typed"]) if said["fault"] else ("", ""),
        lists={name: _list_form(held, name, said, units=units) for name in LISTS},
        left_out=[_left_out(one) for one in own_figures(held).faults],
        **around_kept(shop, kept),
    )  # fmt: skip


def _list_form(
    held: Mapping[str, Kept], table: str, said: Mapping[str, Any], *, units: Any
) -> Form:
    here = said["ident"] == table and said["listed"] is not None
    lines = said["listed"] if here else _held(held, table)
    item = {name: value for name, value in lines.items() if name != HOUR}
    found = (said["fault"],) if here else own_figures(held).faults
    faults = [bench_fault(one) for one in faults_under([_on_its_line(f) for f in found], table)]
    offers = offers_of(own_book(held).book)
    return make_form(table, item, ident=table, units=units, faults=faults, offers=offers)


def _on_its_line(fault: BadInput) -> BadInput:
    """Return a fault of a name that no book has, at that name's line."""
    if fault.where in LISTS and fault.given is not None:
        return BadInput(
            fault.what, where=f"{fault.where}.{fault.given}", given=fault.given,
            wanted=fault.wanted, step=fault.step,
        )  # fmt: skip
    return fault


def _held(held: Mapping[str, Kept], table: str) -> dict[str, Any]:
    lines = held.get(RULES, Kept()).table.get(table)
    return lines if isinstance(lines, dict) else {}


def _value(name: str, text: str) -> Json | Nothing:
    if not text:
        return NOTHING
    if name not in PLAIN_NUMBERS:
        return text
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return text


def _says(fault: BadInput) -> str:
    line = fault_words(bench_fault(fault))
    return line if line.endswith("?") else f"{line}."


def _place(fault: BadInput, typed: Mapping[tuple[str, str], str]) -> tuple[str, str]:
    """Return which of the typed figures a fault is of; the first where it does not say."""
    named = [place for place in typed if fault.where == ".".join(place)]
    return next(iter((*named, *typed)), ("", ""))


def _left_out(fault: BadInput) -> str:
    table, _, name = fault.where.partition(".")
    what = name or str(fault.given or "")
    said = {"rules": "the limit", "minutes": "the minutes of", "cure": "the waiting of",
            "prices": "the price of", "stock": "the stock of"}.get(table, table)  # fmt: skip
    return f"{said} {what}: {fault.what}".strip()
