"""The page of a new drum, or the parts of it that change while one types."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Final

from starlette.requests import Request
from starlette.responses import Response

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, drawer
from counterhoop.bench.folders.kinds import JOB, SURVEY
from counterhoop.bench.folders.look_over import LookedOver, look_over
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.own_lug import lug_called
from counterhoop.bench.workshop import Workshop
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.forms import Form, make_form, offers_of
from counterhoop.web.forms.fields import Group, Item
from counterhoop.web.look.mine import mine_of
from counterhoop.web.recognised import recognised
from counterhoop.web.render import is_part, page
from counterhoop.web.shell_drawn import draw

THING: Final = "eight numbers"
IDENT: Final = "eight"
LABEL: Final = ("number", "client", "date", "measured_by")
"""What is asked of a folder beside its first drum."""
OTHER_ROW: Final = "row-not-written"
"""Not said of a drum with one row so far: the other row comes after it."""
NO_JOB: Final = KeptJob(id="", title="A new folder", documents={}, drums=())
NOT_IN_BOOK: Final = "not in the book yet"
"""The first of all lugs that are offered: no wrong one is suggested."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What stands in the form.

    Attributes
    ----------
    drum : str
        The drum's name for programs; nothing while it is not kept.
    name : str
        What it is called.
    item : dict
        The eight numbers, and what is asked once it is recognised.
    label : dict
        Number and client of the folder, day of the survey and who measured, where they are asked.
    """

    drum: str = ""
    name: str = ""
    item: dict[str, Any] = field(default_factory=dict)
    label: dict[str, Any] = field(default_factory=dict)

    def with_item(self, item: dict[str, Any]) -> Typed:
        """Return the same with other numbers."""
        return replace(self, item=item)

    def kept_as(self, drum: str) -> Typed:
        """Return the same, kept."""
        return replace(self, drum=drum)


def call_it(job: KeptJob) -> str:
    """Return what a drum is called that nobody has named yet.

    Examples
    --------
    >>> call_it(NO_JOB)
    'drum 1'
    """
    taken = {drum.name.casefold() for drum in (*job.drums, *job.hidden_drums)}
    at = len(taken) + 1
    while f"drum {at}" in taken:
        at += 1
    return f"drum {at}"


def shown(
    request: Request, shop: Workshop, job: KeptJob, typed: Typed, *, wrong: str = "",
    wrong_at: str = "",
) -> Response:  # fmt: skip
    """Return the page, or its parts."""
    units, part, drum = mine_of(request).units, is_part(request), typed.drum
    own = KeptDrum(id=drum, name=typed.name, documents={SURVEY: Kept(body=typed.item)})
    if drum:
        own = replace(own, documents=job.drum(drum).documents)
    held = drawer(shop)
    looked = look_over(job, own, shop=held)
    saved = job.drum(drum).kept(SURVEY) if drum else Kept()
    suspects = looked.surveyed.suspects if looked.surveyed else ()
    # A folder with other drums has its label already.
    labelled = bool(job.id) and any(one.id != drum for one in job.drums)
    return page(
        request,
        "new_drum_kept.html" if part else "new_drum.html",
        status=422 if wrong and not part else 200,
        job=job,
        drum=drum,
        goes_on=f"{job_address(job)}/drums/new?drum={drum}" if drum else "",
        sheet=f"{drum_address(job, job.drum(drum))}/shell" if drum else "",
        called=typed.name,
        label=None if labelled else typed.label or dict(job.job),
        label_based_on=job.kept(JOB).number,
        today=shop.now().astimezone().date().isoformat(),
        wrong=wrong,
        wrong_at=wrong_at,
        form=eight(looked, typed.item, units=units, shop=held),
        view=draw(looked, own, units=units),
        told_back=told_back(looked, typed.name, units=units),
        # Which numbers contradict each other; all else is said on the sheet of the shell.
        findings=[one for one in suspects if one.code != OTHER_ROW],
        saved=saved,
        job_address=job_address(job) if job.id else "/",
        index=folder_index(job, here=request.url.path) if job.id else [],
        address=request.url.path,
    )


def told_back(looked: LookedOver, name: str, *, units: Any) -> str:
    """Return the drum in words, once there is one to tell of."""
    if looked.surveyed is None:
        return ""
    return recognised(looked.surveyed.drum, units=units, unnamed=lug_called(name))


def eight(
    looked: LookedOver, item: dict[str, Any], *, units: Any, shop: Mapping[str, Kept]
) -> Form:
    """Return the form; what is not there yet is not held against it."""
    faults = [bench_fault(fault) for fault in looked.faults if fault.given is not None]
    opened = looked.so_far.opened
    book = opened.shop.book if opened else own_book(shop).book
    offers = {**offers_of(book), "lugs": (NOT_IN_BOOK, *offers_of(book)["lugs"])}
    form = make_form(THING, item, ident=IDENT, units=units, faults=faults, offers=offers)
    return replace(form, parts=tuple(_no_spare(one) for one in form.parts))


def _no_spare(one: Item) -> Item:
    """Return a list of holes without the empty line behind two that are written."""
    if not isinstance(one, Group) or one.layout != "several":
        return one
    last = max((at for at, part in enumerate(one.parts) if part.speaks), default=0)
    return replace(one, parts=one.parts[: max(2, last + 1)])
