"""The folder of a job: booked in, photographed, its drums, and what leaves it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.booking_in import booking_in_paper
from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.drum_state import state_of_drum, what_says
from counterhoop.bench.folders.figures_of_job import figures_of_job
from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.folders.hand_over import handed_says
from counterhoop.bench.folders.kinds import ARRIVAL, HANDOVER, JOB, WISH
from counterhoop.bench.folders.out_of_sight import is_away, put_away
from counterhoop.bench.folders.survey_file import survey_files
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.long_work.zipped import zipped
from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.hide import Thing
from counterhoop.store.save import Conflict
from counterhoop.web.album_words import MOST_SHOWN, Shown, listed, missing_in_short, shown
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.faults import no_paper
from counterhoop.web.folder_index import SHEETS_OF_A_DRUM, drum_address, folder_index, job_address
from counterhoop.web.forms import Form, faults_in, item_at, make_form, read_form, with_item
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.look.mine import mine_of
from counterhoop.web.paper_asked import printing_for
from counterhoop.web.plain_sheet import Group, Lines, Part, Question
from counterhoop.web.plain_write import Sheet, undo_sheet, write_sheet, written
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
FOLDER = "/jobs/{job}"

LOOKED_FOR: Final = (("", "not looked for yet"), ("no", "no"), ("yes", "yes"))


def _pest(name: str, label: str) -> Group:
    return Group(
        name=name,
        label=label,
        of=(
            Question(name="found", label="Found", kind="choice", choices=LOOKED_FOR),
            Question(name="says", label="Where, and how bad"),
        ),
    )


COMING_IN: Final[tuple[Part, ...]] = (
    Question(
        name="came_on", label="Came in on", kind="day", help="Year first, such as 2026-11-02."
    ),
    Question(
        name="wanted", label="What is asked for", kind="note", help="In the client's own words."
    ),
    Lines(
        name="things",
        label="What came, and what is missing",
        one="Thing",
        help="One line each. An empty line is there as soon as the last one is written.",
        of=(
            Question(name="what", label="What"),
            Question(name="whose", label="Whose it is"),
            Question(name="state", label="How it came, or who finds it"),
            Question(name="drum", label="Of which drum"),
            Question(name="missing", label="Missing", kind="yes"),
        ),
    ),
    Question(
        name="proof", label="How it was shown whose it is",
        help="Such as a bill of sale, or the letter of a band's secretary.",
    ),
    Question(
        name="value", label="Declared value", kind="money",
        help="As the client put it, such as 1200; without a currency it is in that of the job.",
    ),
    Question(name="insured_here", label="Who insures it here"),
    Question(name="insured_on_road", label="Who insures it on the road"),
    _pest("woodworm", "Woodworm"),
    _pest("mould", "Mould"),
    _pest("smell", "Smell"),
    Question(
        name="never_sand", label="Stamps and labels: never sand, never coat", kind="note",
        help="One to a line, with where it is.",
    ),
    Question(
        name="fetched_by", label="To be fetched", help="When, and by whom if not the client."
    ),
    Question(
        name="uncollected", label="What becomes of it if nobody fetches it",
        help="Empty says what your terms say. Local law applies: ask before you write a term.",
    ),
    Question(
        name="reached", label="How the client is reached", kind="note",
        help="Address and telephone, for the head of the booking-in sheet.",
    ),
    Question(name="notes", label="Notes", kind="note"),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumLine:
    """A drum as its folder lists it."""

    name: str
    address: str
    what: str
    state: str
    sheets: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AlbumInShort:
    """The photographs of a folder in short."""

    says: str
    pictures: tuple[Shown, ...]
    missing: tuple[str, ...]


# --- looking --------------------------------------------------------------------------------------


@pages.get(FOLDER)
def look(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Show a folder; who opens one will soon look at schemes, so the planner gets ready."""
    found = kept_job(shop, job)
    shop.works.warm()
    return folder(request, shop, found)


def folder(
    request: Request, shop: Workshop, job: KeptJob, *, label: dict[str, Any] | None = None,
    based_on: int = 0,
) -> Response:  # fmt: skip
    """Return the page of a folder.

    ``label`` is what was typed there and cannot be read, ``based_on`` the version that it is for.
    """
    address = job_address(job)
    faults = faults_in("job", label) if label is not None else ()
    return page(
        request,
        "job.html",
        status=422 if faults else 200,
        job=job,
        job_address=address,
        away=is_away(shop, thing=Thing.JOB, thing_id=job.id),
        index=folder_index(job, here=address),
        label=label_of(request, job, typed=label, based_on=based_on),
        label_open=label is not None or not job.job.get("number"),
        label_wrong=str(faults[0]) if faults else "",
        arrival=written(shop, arrival_of(shop, job)),
        album=album_in_short(shop, job),
        drums=[drum_line(job, drum) for drum in job.drums],
        wrap_says=wrap_says(job),
        handed_says=handed_says(job.kept(HANDOVER).table),
    )


@pages.get(FOLDER + "/survey-file")
def carry_away(shop: GivenWorkshop, job: str) -> Response:
    """Send the folder as a survey file; with its fittings books in one archive."""
    kept = kept_job(shop, job)
    files = survey_files(shop, job)
    name = shown_name(f"{kept.title} survey".replace("/", "-"), otherwise="survey")
    if len(files) == 1:
        (content,) = files.values()
        headers = upload_headers(kind="application/toml", name=f"{name}.toml")
        return Response(content, headers=headers)
    headers = upload_headers(kind="application/zip", name=f"{name}.zip")
    return Response(zipped(files), headers=headers)


@pages.get(FOLDER + "/booking-in-sheet.pdf")
def booking_in_sheet(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Send the sheet that both sign when drums are handed in."""
    kept = kept_job(shop, job)
    try:
        content = booking_in_paper(shop, kept, paper=printing_for(shop, paper="").paper)
    except BadInput as fault:
        back = (f"{job_address(kept)}#booked-in", "Back to what was booked in")
        return no_paper(request, fault, back=back)
    name = plain_name(f"{kept.job.get('number') or ''} booking-in sheet".strip())
    return Response(
        content, media_type="application/pdf",
        headers={"content-disposition": f'attachment; filename="{name}.pdf"'},
    )  # fmt: skip


# --- writing --------------------------------------------------------------------------------------


@pages.post(FOLDER + "/arrival")
def book_in(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down how a job came in."""
    sheet = arrival_of(shop, kept_job(shop, job), valued=bool(text_in(given, "value")))
    return write_sheet(request, shop, sheet, given)


@pages.post(FOLDER + "/arrival/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back."""
    return undo_sheet(request, shop, arrival_of(shop, kept_job(shop, job)), given)


@pages.post(FOLDER + "/label")
def write_label(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write number, client and units anew."""
    kept = kept_job(shop, job)
    if theirs_kept(given):
        return RedirectResponse(job_address(kept), status_code=303)
    item, based_on = read_form("job", given), number_in(given, "based_on")
    if not isinstance(item, dict) or faults_in("job", item):
        typed = item if isinstance(item, dict) else {}
        return folder(request, shop, kept, label=typed, based_on=based_on)

    def same(seen: Any, newest: Any) -> bool:
        return bool(item_at("job", seen, None) == item_at("job", newest, None))

    def put(_seen: Any, base: Any) -> Any:
        return with_item("job", base, item, None)

    change = ThingChange(kind=JOB, drum="", based_on=based_on, same=same, put=put)
    done = write_thing(shop, job, change, by=bench_of(request))
    if isinstance(done, Conflict):
        return both_versions(
            request, done, kind=JOB, action=request.url.path, values=pairs_in(given)
        )
    return RedirectResponse(job_address(kept), status_code=303)


@pages.post(FOLDER + "/away")
def away(request: Request, pen: GivenPen, shop: GivenWorkshop, job: str) -> Response:
    """Put a folder out of sight."""
    put_away(shop, thing=Thing.JOB, thing_id=kept_job(shop, job).id, by=bench_of(request))
    return RedirectResponse("/", status_code=303)


# --- what the page says ---------------------------------------------------------------------------


def arrival_of(shop: Workshop, job: KeptJob, *, valued: bool = False) -> Sheet:
    """Return the sheet on which a job is booked in.

    Parameters
    ----------
    valued : bool
        Whether a value is declared just now; else only what is written already counts.
    """
    # Asked for only where there is an amount: it opens the survey.
    valued = valued or bool(job.kept(ARRIVAL).table.get("value"))
    currency = figures_of_job(shop, job).currency if valued else ""
    parts = [
        replace(one, currency=currency)
        if isinstance(one, Question) and one.kind == "money"
        else one
        for one in COMING_IN
    ]
    address = job_address(job)
    return Sheet(
        ident="arrival", job=job.id, kind=ARRIVAL, parts=tuple(parts), action=f"{address}/arrival",
        back=f"{address}#booked-in",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What stands on a folder."""

    owner: str
    story: str
    form: Form
    number: int


def label_of(
    request: Request, job: KeptJob, *, typed: dict[str, Any] | None, based_on: int
) -> Label:
    """Return what stands on a folder, and the form to change it."""
    item = job.job if typed is None else typed
    form = make_form(
        "job", item, ident="job", units=mine_of(request).units, faults=faults_in("job", item)
    )
    owner, story = (job.job.get(name) for name in ("owner", "story"))
    return Label(
        owner=f"Whose it is: {owner}" if isinstance(owner, str) and owner else "",
        story=story.strip() if isinstance(story, str) else "",
        form=replace(form, title="What stands on the folder"),
        number=job.kept(JOB).number if typed is None else based_on,
    )


def drum_line(job: KeptJob, drum: KeptDrum) -> DrumLine:
    """Return a drum as its folder lists it."""
    address = drum_address(job, drum)
    return DrumLine(
        name=drum.name,
        address=address,
        what=what_says(drum),
        state=state_of_drum(drum).says,
        sheets=tuple((address + end, says) for end, says in SHEETS_OF_A_DRUM),
    )


def album_in_short(shop: Workshop, job: KeptJob) -> AlbumInShort:
    """Return how many photographs there are, the first of them, and what is missing."""
    found = photographs_of(shop, job)
    return AlbumInShort(
        says=f"{len(found)} in the folder" if found else "",
        pictures=shown(found)[:MOST_SHOWN],
        missing=missing_in_short(found, job),
    )


def wrap_says(job: KeptJob) -> str:
    """Return which drums are to get a new wrap."""
    named = []
    for drum in job.drums:
        plan = drum.kept(WISH).table.get("finish_plan")
        if isinstance(plan, dict) and plan.get("kind") == "new wrap":
            named.append(f"the {drum.name}")
    if not named:
        return "No drum of this job is to get a new wrap."
    return f"A new wrap is wanted for {listed(named)}."
