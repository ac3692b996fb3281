"""How the workshop prices: tax, rounding, ceiling, deposit, letter head."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import TERMS
from counterhoop.bench.price.example import Example, example
from counterhoop.bench.price.terms import Terms, read_terms, write_terms
from counterhoop.bench.promise.promises import today_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.forms import fault_words
from counterhoop.web.given_form import GivenForm, number_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.plain_sheet import AskedPart, asked, read_answers
from counterhoop.web.render import is_part, page
from counterhoop.web.terms_words import TERMS_ASKED, TermsPart
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import around_kept, both_of_workshop, workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
SHEET: Final = "/workshop/terms"
EVERY: Final = tuple(one for part in TERMS_ASKED for one in part.of)


@dataclass(frozen=True, slots=True, kw_only=True)
class TermsDesk:
    """The sheet of terms.

    Attributes
    ----------
    parts : tuple of (TermsPart, tuple of AskedPart)
        Each sheet with its questions, as typed, a fault beside its field.
    example : Example or None
        None while the terms cannot be read; ``wrong`` says why.
    wrong : str
    tried, tried_wrong : str
        The amount that was typed to be tried, and why it cannot be.
    based_on : int
        The version that the form is for.
    written : bool
        Whether anything is written down yet.
    """

    parts: tuple[tuple[TermsPart, tuple[AskedPart, ...]], ...]
    example: Example | None
    wrong: str
    tried: str
    tried_wrong: str
    based_on: int
    written: bool


@pages.get(SHEET)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show the terms, and what they make of a price."""
    kept = drawer(shop).get(TERMS, Kept())
    return shown(request, shop, kept, kept.table, based_on=kept.number)


@pages.post(SHEET)
def write(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write the terms down; what cannot be read comes back beside its field."""
    if theirs_kept(given):
        return RedirectResponse(SHEET, status_code=303)
    typed, based_on = read_answers(EVERY, given), number_in(given, "based_on")
    try:
        done = write_terms(shop, typed, based_on=based_on, by=bench_of(request))
    except BadInput as fault:
        kept = drawer(shop).get(TERMS, Kept())
        return shown(request, shop, kept, typed, based_on=based_on, fault=fault)
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=TERMS, given=given)
    if not is_part(request):
        return RedirectResponse(SHEET, status_code=303)
    kept = drawer(shop).get(TERMS, Kept())
    return shown(request, shop, kept, kept.table, based_on=kept.number)


def shown(
    request: Request, shop: Workshop, kept: Kept, table: Mapping[str, Any], *, based_on: int,
    fault: BadInput | None = None,
) -> Response:  # fmt: skip
    """Return the sheet, or while one types the parts of it that follow what was typed."""
    name = "terms_kept.html" if is_part(request) else "terms.html"
    desk = terms_desk(
        shop, kept, table, based_on=based_on, fault=fault, tried=request.query_params.get("try", "")
    )
    return page(
        request, name, status=422 if fault else 200, desk=desk, not_kept=fault is not None,
        index=workshop_index(SHEET), **around_kept(shop, kept),
    )  # fmt: skip


def terms_desk(
    shop: Workshop, kept: Kept, table: Mapping[str, Any], *, based_on: int,
    fault: BadInput | None = None, tried: str = "",
) -> TermsDesk:  # fmt: skip
    """Gather the sheet; a fault that is not of the form is one of what was kept before."""
    today, made, tried_wrong = today_of(shop), None, ""
    try:
        made, tried_wrong = _tried(shop, read_terms(kept.table), typed=tried)
    except BadInput as unread:
        fault = fault or unread
    return TermsDesk(
        parts=tuple(
            (part, _faulted(asked(part.of, table, ident="terms", today=today), fault))
            for part in TERMS_ASKED
        ),
        example=made,
        wrong=_says(fault) if fault and all(one.name != fault.where for one in EVERY) else "",
        tried=tried,
        tried_wrong=tried_wrong,
        based_on=based_on,
        written=bool(kept.number),
    )


def _tried(shop: Workshop, terms: Terms, *, typed: str) -> tuple[Example, str]:
    today = today_of(shop)
    try:
        return example(shop, terms, typed=typed, day=today), ""
    except BadInput as fault:
        if fault.where != "try":
            raise
        return example(shop, terms, day=today), _says(fault)


def _faulted(parts: tuple[AskedPart, ...], fault: BadInput | None) -> tuple[AskedPart, ...]:
    if fault is None:
        return parts
    return tuple(
        replace(
            part,
            lines=tuple(
                (line, tuple(
                    replace(one, fault=_says(fault)) if one.name == fault.where else one
                    for one in of
                ))
                for line, of in part.lines
            ),
        )
        for part in parts
    )  # fmt: skip


def _says(fault: BadInput) -> str:
    line = fault_words(fault)
    return line if line[-1] in ".?" else f"{line}."
