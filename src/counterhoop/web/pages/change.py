"""What was found in mid-work: what it changes, and the note on it for the client."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Annotated

from fastapi import APIRouter, File, Form, UploadFile
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.change.answer import write_answer
from counterhoop.bench.change.on_top import SORTS as ON_TOP
from counterhoop.bench.change.on_top import write_on_top
from counterhoop.bench.change.typed import LONGEST, FoundTyped, faults_of
from counterhoop.bench.change.write_found import settle_found, take_found_back, write_found
from counterhoop.bench.folders.album import tell_photographs, words_of
from counterhoop.bench.folders.decide import Yes
from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.kinds import PHOTOGRAPHS
from counterhoop.bench.folders.photographs import lying_in, put_photograph_in
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.body import Json
from counterhoop.web.change_desk import ChangeDesk, change_desk
from counterhoop.web.change_form import FoundForm, found_form, sorts_to_choose
from counterhoop.web.change_note import note_file
from counterhoop.web.change_shown import change_data
from counterhoop.web.change_taken import as_it_stands_now, take_anew
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.not_kept import why_not_kept
from counterhoop.web.price_typed import NOTHING, Typed
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
FOUND = "/jobs/{job}/drums/{drum}/found"
ANSWER_S = 20.0
"""What is typed is lost with a refusal: rather wait for a plan that somebody set going."""
PIECE = 1 << 20
NO_PICTURE = "this is no photograph that can be read: JPEG, PNG, WebP, HEIC and AVIF can"
Said = Annotated[str, Form(max_length=LONGEST + 200)]


# --- looking ------------------------------------------------------------------------------------


@pages.get(FOUND)
def look(
    request: Request, shop: GivenWorkshop, job: str, drum: str, what: str = "", stays: str = ""
) -> Response:
    """Show what was found on a drum and what it changes, with the form for one more thing."""
    desk = change_desk(request, shop, job, drum)
    return shown(request, desk, form=found_form(what), stays=stays == "yes")


@pages.get(FOUND + "/note.pdf")
def note(request: Request, shop: GivenWorkshop, job: str, drum: str, answer: int = 0) -> Response:
    """Hand out the change note, or again the one that had an answer."""
    return note_file(change_desk(request, shop, job, drum, wait_s=ANSWER_S), answer=answer)


def shown(
    request: Request, desk: ChangeDesk, *, form: FoundForm | None = None, typed: Typed = NOTHING,
    stays: bool = False, status: int = 200,
) -> Response:  # fmt: skip
    """Return the page.

    Parameters
    ----------
    form : FoundForm, optional
        For one thing more.
    typed : Typed
        Another form as it was refused.
    stays : bool
        What was taken back stays in the survey, for somebody changed it there.
    """
    return page(
        request, "change.html", status=status, form=form, typed=typed, stays=stays,
        sorts=sorts_to_choose(), on_top=tuple(ON_TOP.items()), **change_data(request, desk),
    )  # fmt: skip


# --- writing it down ------------------------------------------------------------------------------


@pages.post(FOUND)
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str,
    sort: Said = "", along: Said = "", start: Annotated[str, Form(alias="from")] = "",
    to: Said = "", near: Said = "", dia: Said = "", origin: Said = "", where: Said = "",
    size: Said = "", means: Annotated[str, Form(max_length=4000)] = "",
    kept: Annotated[list[str] | None, Form()] = None,
    files: Annotated[list[UploadFile] | None, File()] = None,
) -> Response:  # fmt: skip
    """Write down what was found, with its photographs."""
    held, by = kept_job(shop, job), bench_of(request)
    words = {
        "along": along, "from": start, "to": to, "near": near, "dia": dia, "origin": origin,
        "where": where, "size": size, "means": means,
    }  # fmt: skip
    put, refused = _put_in(shop, job, drum, files or [], says=means.strip(), by=by)
    pictures = (*_in_the_folder(shop, job, kept or []), *put)
    typed = FoundTyped(sort=sort, words=words, photographs=pictures)
    faults = faults_of(held, held.drum(drum), typed, held=drawer(shop))
    if refused:
        faults = {**faults, "photograph": refused}
    if faults:
        form = found_form(sort, typed=words, faults=faults, photographs=pictures)
        desk = change_desk(request, shop, job, drum)
        return shown(request, desk, form=form, status=422)
    number = write_found(shop, job, drum, typed, by=by)
    return RedirectResponse(f"/jobs/{job}/drums/{drum}/found#found-{number}", status_code=303)


def _put_in(
    shop: Workshop, job: str, drum: str, files: list[UploadFile], *, says: str, by: str
) -> tuple[tuple[str, ...], str]:
    """Put photographs into the folder; they stay there whatever is wrong with the rest."""
    made: dict[str, Json] = {}
    refused = []
    for one in files:
        if not one.filename:
            continue
        name = shown_name(one.filename, otherwise="photograph")
        try:
            lies = put_photograph_in(
                shop, job, drum=drum, name=name, by=by,
                pieces=iter(partial(one.file.read, PIECE), b""),
            )  # fmt: skip
        except (BadInput, CannotDo) as fault:
            why = why_not_kept(fault, other=NO_PICTURE) if isinstance(fault, BadInput) else fault
            refused.append(f"{name}: {why}")
            continue
        made[lies] = words_of(drum=drum, says=f"Found on the way: {says}" if says else "")
    if made:
        album = kept_job(shop, job).kept(PHOTOGRAPHS)
        tell_photographs(shop, job, made, based_on=album.number, by=by)
    return tuple(made), "; ".join(refused)


def _in_the_folder(shop: Workshop, job: str, names: list[str]) -> tuple[str, ...]:
    there = {one.id for one in lying_in(shop, job)}
    return tuple(name for name in dict.fromkeys(names) if name in there)


# --- what becomes of it ---------------------------------------------------------------------------


@pages.post(FOUND + "/{number}/back")
def take_back(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, number: int,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Take back what was no such thing."""

    def done() -> str:
        gone = take_found_back(
            shop, job, drum, number, why=text_in(given, "why"), by=bench_of(request)
        )
        return "" if gone else "?stays=yes"

    return _written(request, shop, job, drum, done, given=given, form=f"found-{number}-back")


@pages.post(FOUND + "/{number}/settle")
def settle(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, number: int,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Say that the client need not be asked, and why."""

    def done() -> str:
        why = text_in(given, "because")
        settle_found(shop, job, drum, number, why=why, by=bench_of(request))
        return ""

    return _written(request, shop, job, drum, done, given=given, form=f"found-{number}-settle")


@pages.post(FOUND + "/{number}/price")
def price(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, number: int,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Write what it costs on top of the work that its scheme asks for."""

    def done() -> str:
        desk = change_desk(request, shop, job, drum, wait_s=ANSWER_S)
        if desk.quote is None:
            raise CannotDo("The price is still being worked out, so nothing was written.")
        write_on_top(
            shop, desk.job, desk.quote, drum_id=drum, number=number, says=text_in(given, "says"),
            amount=text_in(given, "amount"), sort=text_in(given, "sort"),
            based_on=number_in(given, "based_on"), by=bench_of(request),
        )  # fmt: skip
        return ""

    return _written(request, shop, job, drum, done, given=given, form=f"found-{number}-price")


@pages.post(FOUND + "/take")
def take(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Take the scheme of the same heading as it stands now."""
    desk = change_desk(request, shop, job, drum, wait_s=ANSWER_S)
    scheme = as_it_stands_now(desk.drum, desk.planned)
    if scheme is None or scheme.code != text_in(given, "code"):
        raise CannotDo("The schemes have changed since you looked: open the page again.")
    take_anew(
        shop, desk.job, desk.drum, scheme, based_on=number_in(given, "based_on"),
        by=bench_of(request),
    )  # fmt: skip
    return RedirectResponse(f"{desk.address}#changes", status_code=303)


@pages.post(FOUND + "/answer")
def answer(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down what the client said to the change note."""

    def done() -> str:
        desk = change_desk(request, shop, job, drum, wait_s=ANSWER_S)
        changed, scheme = desk.changed(), desk.scheme
        if changed is None or scheme is None:
            raise CannotDo("Nothing is asked of the client here just now: look at it again.")
        said = Yes(**{name: text_in(given, name) for name in ("who", "when", "how")})
        if text_in(given, "said") not in ("yes", "no"):
            raise BadInput("yes or no?", where="said")
        write_answer(
            shop, desk.job, desk.drum, changed, scheme=scheme, seen=text_in(given, "seen"),
            said_yes=text_in(given, "said") == "yes", said=said, by=bench_of(request),
        )  # fmt: skip
        return ""

    return _written(request, shop, job, drum, done, given=given, form="answer")


def _written(
    request: Request, shop: Workshop, job: str, drum: str, done: Callable[[], str], *,
    given: FormData, form: str,
) -> Response:  # fmt: skip
    """Write, and go back to the page; what was refused comes back beside its field."""
    try:
        query = done()
    except BadInput as fault:
        typed = Typed(form=form, values=dict(pairs_in(given)), fault=fault)
        return shown(request, change_desk(request, shop, job, drum), typed=typed, status=422)
    place = "answers" if form == "answer" else form.rpartition("-")[0]
    return RedirectResponse(f"/jobs/{job}/drums/{drum}/found{query}#{place}", status_code=303)
