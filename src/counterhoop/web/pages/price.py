"""Price and date of a job: what it is offered at, the client's yes, what differs since."""

from __future__ import annotations

from collections.abc import Callable

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.decide import take_back
from counterhoop.bench.price import write_quote
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.offers import accept, offer
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.price.line import Kind, QuoteLine
from counterhoop.papers.facts import Lengths
from counterhoop.quantities.money import print_money
from counterhoop.store.save import Conflict, Saved
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.date_desk import date_desk
from counterhoop.web.date_told import ready_told
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.price_desk import SENT_S, PriceDesk, price_desk
from counterhoop.web.price_page import price_data
from counterhoop.web.price_papers import approval_file, offer_file, quote_file
from counterhoop.web.price_typed import NOTHING, Typed
from counterhoop.web.price_versions import both_quotes
from counterhoop.web.render import page
from counterhoop.web.scheme_desk import scheme_desk
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop
from counterhoop.web.yes_given import ANOTHER_YES, write_yes

pages = APIRouter(route_class=PageRoute)
PRICE = "/jobs/{job}/price"
OF_A_DRUM = PRICE + "/drums/{drum}"
CHANGED_SINCE = BadInput(
    "somebody changed this quote at the same time",
    step="Look at it; what you typed stands below",
)
YES_BACK = BadInput(
    "somebody wrote on this drum's yes at the same time",
    step="Look at it; what you typed stands below",
)
Write = Callable[[JobQuote], Saved | Conflict]


@pages.get(PRICE)
def look(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Show price and date of a job, or how far its schemes are."""
    return _shown(request, price_desk(request, shop, job))


def _shown(
    request: Request, desk: PriceDesk, *, typed: Typed = NOTHING, status: int = 200
) -> Response:
    date = date_desk(request, desk.shop, desk.job)
    data = price_data(desk, typed=typed)
    return page(request, "price.html", status=status, date=date, **data)


# --- lines and what is asked for the whole --------------------------------------------------------


@pages.post(PRICE + "/line")
def change_line(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write on a line, leave lines out, put one back, or drop what was changed."""
    keys = [key for key in given.getlist("key") if isinstance(key, str)]

    def write(now: JobQuote) -> Saved | Conflict:
        lines = [now.line(key) for key in keys]
        return _done(shop, job, now, lines, given, by=bench_of(request))

    return _written(request, shop, job, given, write, keys=keys)


def _done(
    shop: Workshop, job: str, now: JobQuote, lines: list[QuoteLine], given: FormData, *, by: str
) -> Saved | Conflict:
    based_on, do = number_in(given, "based_on"), text_in(given, "do")
    if not lines:
        raise BadInput("no line is named", where="line")
    match do:
        case "leave out":
            return write_quote.strike(shop, job, lines, based_on=based_on, by=by)
        case "put back":
            return write_quote.put_back(shop, job, lines, based_on=based_on, by=by)
        case "as it came":
            return write_quote.as_it_came(shop, job, lines[0], based_on=based_on, by=by)
        case "keep over":
            return write_quote.keep_over(shop, job, lines[0], based_on=based_on, by=by)
    line = lines[0]
    stands = line.stands
    amount = "" if stands.amount is None else print_money(stands.amount)
    return write_quote.write_line(
        shop, job, line, says=_other(given, "says", stands.says),
        amount=_other(given, "amount", amount), count=_other(given, "count", str(stands.count)),
        currency=now.currency, based_on=based_on, by=by,
    )  # fmt: skip


def _other(given: FormData, name: str, was: str) -> str | None:
    """Return what was typed, where it is not what stood there."""
    if name not in given or text_in(given, name) == was:
        return None
    return text_in(given, name)


@pages.post(PRICE + "/add")
def add_line(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Add a line."""

    def write(now: JobQuote) -> Saved | Conflict:
        kind = text_in(given, "kind")
        return write_quote.type_line(
            shop, job, now.lines, says=text_in(given, "says"), amount=text_in(given, "amount"),
            count=text_in(given, "count") or "1",
            kind=Kind(kind) if kind in list(Kind) else Kind.OTHER,
            currency=now.currency, based_on=number_in(given, "based_on"), by=bench_of(request),
        )  # fmt: skip

    return _written(request, shop, job, given, write)


@pages.post(PRICE + "/asked")
def ask_price(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Ask a price for the whole instead of what the lines come to."""

    def write(now: JobQuote) -> Saved | Conflict:
        return write_quote.type_price(
            shop, job, text_in(given, "price"), currency=now.currency,
            based_on=number_in(given, "based_on"), by=bench_of(request),
        )  # fmt: skip

    return _written(request, shop, job, given, write)


@pages.post(PRICE + "/discount")
def give_discount(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Take something off."""

    def write(now: JobQuote) -> Saved | Conflict:
        return write_quote.type_discount(
            shop, job, text_in(given, "discount"), says=text_in(given, "says") or "discount",
            currency=now.currency, based_on=number_in(given, "based_on"), by=bench_of(request),
        )  # fmt: skip

    return _written(request, shop, job, given, write)


@pages.post(PRICE + "/bought-for")
def write_bought_for(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down what second-hand goods were bought for."""

    def write(now: JobQuote) -> Saved | Conflict:
        return write_quote.type_bought_for(
            shop, job, text_in(given, "bought_for"), currency=now.currency,
            based_on=number_in(given, "based_on"), by=bench_of(request),
        )  # fmt: skip

    return _written(request, shop, job, given, write)


def _written(
    request: Request, shop: Workshop, job: str, given: FormData, write: Write, *,
    keys: list[str] | None = None,
) -> Response:  # fmt: skip
    """Write on the quote and come back to where the form stood; else show what was typed."""
    desk = price_desk(request, shop, job, wait_s=SENT_S)
    back = RedirectResponse(f"{desk.address}#{text_in(given, 'at') or 'price'}", status_code=303)
    if theirs_kept(given):
        return back
    now = desk.need_quote()
    try:
        done = write(now)
    except BadInput as fault:
        return _shown(request, desk, typed=_typed(given, fault), status=422)
    if isinstance(done, Conflict):
        return both_quotes(request, done, now, given, keys=keys or [])
    return back


def _typed(given: FormData, fault: BadInput) -> Typed:
    values = {name: text_in(given, name) for name in given}
    return Typed(form=text_in(given, "at"), values=values, fault=fault)


@pages.post(PRICE + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back; what was handed out stays handed out."""
    desk = price_desk(request, shop, job)
    go_back(request, shop, desk.document.document_id, given)
    return RedirectResponse(f"{desk.address}#price", status_code=303)


# --- offers ---------------------------------------------------------------------------------------


@pages.post(PRICE + "/offer")
def hand_out(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Keep the quote as it is handed to the client."""
    desk = price_desk(request, shop, job, wait_s=SENT_S)
    now = desk.need_quote()
    say = Lengths(desk.need_plan().opened.job.units)
    try:
        done = offer(
            shop, desk.job, now, seen=text_in(given, "seen"), day=text_in(given, "day"),
            to=text_in(given, "to"), say=say,
            ready=ready_told(date_desk(request, shop, desk.job)), by=bench_of(request),
        )  # fmt: skip
    except BadInput as fault:
        return _shown(request, desk, typed=_typed(given, fault), status=422)
    return _kept(request, desk, done, given, at="offers")


@pages.post(PRICE + "/accept")
def write_accepted(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down who said yes to the price of an offer, when and how."""
    desk = price_desk(request, shop, job)
    try:
        done = accept(
            shop, desk.job, number_in(given, "offer"), who=text_in(given, "who"),
            when=text_in(given, "when"), how=text_in(given, "how"),
            based_on=number_in(given, "based_on"), by=bench_of(request),
        )  # fmt: skip
    except BadInput as fault:
        return _shown(request, desk, typed=_typed(given, fault), status=422)
    return _kept(request, desk, done, given, at="offers")


def _kept(
    request: Request, desk: PriceDesk, done: Saved | Conflict, given: FormData, *, at: str,
    fault: BadInput = CHANGED_SINCE,
) -> Response:  # fmt: skip
    if isinstance(done, Conflict):
        now = price_desk(request, desk.shop, desk.job.id)
        return _shown(request, now, typed=_typed(given, fault), status=409)
    return RedirectResponse(f"{desk.address}#{at}", status_code=303)


# --- a drum's yes ---------------------------------------------------------------------------------


@pages.post(OF_A_DRUM + "/yes")
def say_yes(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down who said yes to what cannot be undone on a drum, when and how."""
    refused = write_yes(scheme_desk(request, shop, job, drum), given, by=bench_of(request))
    desk = price_desk(request, shop, job)
    if refused is None:
        return RedirectResponse(f"{desk.address}#agreed-{drum}", status_code=303)
    values = {"who": refused.yes.who, "when": refused.yes.when, "how": refused.yes.how}
    typed = Typed(form=f"yes-{drum}", values=values, fault=refused.fault)
    status = 409 if refused.fault is ANOTHER_YES else 422
    return _shown(request, desk, typed=typed, status=status)


@pages.post(OF_A_DRUM + "/take-back")
def take_yes_back(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down that the client takes a yes back."""
    desk = price_desk(request, shop, job)
    try:
        done = take_back(
            shop, job, desk.job.drum(drum), code=text_in(given, "code"),
            when=text_in(given, "when"), how=text_in(given, "how"), by=bench_of(request),
        )  # fmt: skip
    except BadInput as fault:
        return _shown(request, desk, typed=_typed(given, fault), status=422)
    return _kept(request, desk, done, given, at=f"agreed-{drum}", fault=YES_BACK)


# --- papers ---------------------------------------------------------------------------------------


@pages.get(PRICE + "/quote.pdf")
def quote_pdf(request: Request, shop: GivenWorkshop, job: str, ways: str = "") -> Response:
    """Hand out the quote as it stands; ``ways``: the drum whose other ways stand beside it."""
    desk = price_desk(request, shop, job, wait_s=SENT_S)
    return quote_file(desk, date_desk(request, shop, desk.job), ways_with=ways)


@pages.get(PRICE + "/offers/{number}.pdf")
def offer_pdf(request: Request, shop: GivenWorkshop, job: str, number: int) -> Response:
    """Hand out an offer as it was made."""
    return offer_file(price_desk(request, shop, job), number)


@pages.get(OF_A_DRUM + "/approval.pdf")
def approval_pdf(request: Request, shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Hand out the sheet on which the client says yes to what cannot be undone."""
    return approval_file(price_desk(request, shop, job, wait_s=SENT_S), drum)
