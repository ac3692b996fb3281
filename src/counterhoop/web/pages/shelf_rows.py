"""Sheets of rows in and out: the shelf's, and those of the workshop's dated features."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, File, Form, Query, UploadFile
from starlette.requests import Request
from starlette.responses import FileResponse, RedirectResponse, Response

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.rows_tasks import ask_opened, ask_rows_out, ask_tried
from counterhoop.bench.rows.opened import Opened
from counterhoop.bench.rows.row_sorts import row_sort
from counterhoop.bench.rows.take_rows import begin_taking, being_taken, settled, taken_says
from counterhoop.bench.rows.taken import (
    Taken,
    columns_before,
    find_taken,
    remember_columns,
    taken_files,
)
from counterhoop.bench.rows.try_rows import last_try
from counterhoop.bench.rows.waiting import (
    Reading,
    Waiting,
    find_waiting,
    need_waiting,
    put_aside,
    put_rows_in,
    read_anew,
    waiting_files,
)
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.web.folder_index import Sheet
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.look.mine import mine_of
from counterhoop.web.render import page
from counterhoop.web.rows_shown import (
    COMMAS,
    DELIMITERS,
    ENCODINGS,
    ColumnsShown,
    columns_in,
    field_choices,
    guessed_columns,
    shown_columns,
)
from counterhoop.web.shelf_index import shelf_index
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

PIECE = 1 << 20
WAIT_S, OUT_WAIT_S, TAKING_WAIT_S = 1.5, 3.0, 0.6
Words = Annotated[str, Query(max_length=200)]
Short = Annotated[str, Form(max_length=40)]
NOTHING_CHOSEN = "No file was chosen."


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where sheets of some sorts go in and out.

    Attributes
    ----------
    root : str
        Its address.
    sorts : tuple of (str, str)
        The sorts of rows, and how each is called there.
    title, leads : str, tuple
        Its heading; where one looks at what came in.
    index : callable
        The lines of its margin.
    """

    root: str
    sorts: tuple[tuple[str, str], ...]
    title: str
    leads: tuple[str, str]
    index: Callable[[str], list[Sheet]]

    def about(self, **data: Any) -> dict[str, Any]:
        """Return what every page of it names."""
        return {
            "root": self.root, "index": self.index(self.root), "title_says": self.title,
            "leads": self.leads, "sorts": self.sorts, **data,
        }  # fmt: skip


SHELF = Place(
    root="/shelf/rows", sorts=(("shelf", "Pieces of the shelf"),), title="Rows in and out",
    leads=("/shelf", "To the shelf"), index=shelf_index,
)  # fmt: skip
DATED = Place(
    root="/workshop/dated/rows",
    sorts=(("forms", "Forms of features, with their years"), ("serials", "Dated serial numbers")),
    title="Dated features in and out", leads=("/workshop/dated", "To the dated features"),
    index=workshop_index,
)  # fmt: skip


def rows_pages(place: Place) -> APIRouter:
    """Return the pages of one place."""
    pages = APIRouter(route_class=PageRoute)
    root, names = place.root, tuple(name for name, _ in place.sorts)

    def waits(shop: Workshop, file: str) -> Waiting:
        one = need_waiting(shop, file)
        if one.sort not in names:
            raise BadInput("no such file waits here", where="file", given=file)
        return one

    def front(request: Request, shop: Workshop, *, status: int = 200, **said: Any) -> Response:
        files = [
            {"one": each, "address": f"{root}/{each.id}"}
            for each in waiting_files(shop, sorts=names)
        ]
        done = [
            (each, taken_says(each), dt.datetime.fromisoformat(each.at))
            for each in taken_files(shop)
            if each.sort in names
        ]
        shown = {"fault": "", "out_fault": "", "find": "", "sort": names[0], **said}
        return page(
            request, "rows.html", status=status, **place.about(waiting=files, taken=done, **shown)
        )

    # --- out -----------------------------------------------------------------------------------

    @pages.get(root)
    def look(request: Request, shop: GivenWorkshop, find: Words = "") -> Response:
        """Show what can be handed out, what waits and what was taken lately."""
        return front(request, shop, find=find)

    @pages.get(f"{root}/out")
    def out(
        request: Request, shop: GivenWorkshop, form: Words = "csv", find: Words = "",
        sort: Words = names[0],
    ) -> Response:  # fmt: skip
        """Hand rows out as a file; a page that waits for it where that takes a while."""
        if sort not in names:
            raise BadInput("no such sort of rows", where="sort", given=sort)
        asked = ask_rows_out(shop, sort, form=form, find=find, units=mine_of(request).units)
        match answer := shop.works.wait(asked.id, OUT_WAIT_S):
            case Done():
                paper = answer.value
                headers = upload_headers(kind="", name=paper.name)
                return Response(paper.content, headers=headers)
            case Failed(why="refused"):
                said = answer.says
                return front(request, shop, status=422, find=find, out_fault=said, sort=sort)
        return page(request, "rows_out.html", **place.about(**_work(answer)))

    # --- in ------------------------------------------------------------------------------------

    @pages.post(root)
    def put_in(
        request: Request, pen: GivenPen, shop: GivenWorkshop,
        file: Annotated[UploadFile | None, File()] = None, sort: Short = names[0],
    ) -> Response:  # fmt: skip
        """Keep a file, and go on to its columns."""
        if sort not in names:
            raise BadInput("no such sort of rows", where="sort", given=sort)
        fault = NOTHING_CHOSEN
        if file is not None and file.filename:
            name = shown_name(file.filename, otherwise="rows")
            pieces = iter(partial(file.file.read, PIECE), b"")
            try:
                one = put_rows_in(shop, sort=sort, name=name, pieces=pieces, by=bench_of(request))
            except (BadInput, CannotDo) as complaint:
                fault = str(complaint)
            else:
                return RedirectResponse(f"{root}/{one.id}", status_code=303)
        return front(request, shop, status=422, fault=fault, sort=sort)

    @pages.get(root + "/{file}")
    def columns(request: Request, shop: GivenWorkshop, file: str) -> Response:
        """Show the columns of a file, each with its first values and what it is taken for."""
        one = became(shop, file)
        if isinstance(one, Taken):
            return done_page(request, one)
        if being_taken(shop, one):
            return RedirectResponse(f"{root}/{file}/tried", status_code=303)
        answer = _waited(shop, ask_opened(shop, one))
        shown = _columns(shop, one, answer.value) if isinstance(answer, Done) else None
        return columns_page(request, one, answer, shown)

    @pages.post(root + "/{file}/reading")
    def reading(
        request: Request, pen: GivenPen, shop: GivenWorkshop, file: str, given: GivenForm
    ) -> Response:
        """Read a file in another way."""
        one = waits(shop, file)
        # A tab is white space, and would be trimmed away.
        tab = given.get("delimiter") == "\t"
        anew = Reading(
            sheet=text_in(given, "sheet"), header_row=number_in(given, "header_row"),
            delimiter="\t" if tab else _one_of(text_in(given, "delimiter"), DELIMITERS),
            encoding=_one_of(text_in(given, "encoding"), ENCODINGS), comma=one.reading.comma,
        )  # fmt: skip
        read_anew(one, reading=anew, chosen={}, units={}, mapped=False)
        return RedirectResponse(f"{root}/{file}", status_code=303)

    @pages.post(root + "/{file}/columns")
    def choose(
        request: Request, pen: GivenPen, shop: GivenWorkshop, file: str, given: GivenForm
    ) -> Response:
        """Take down what the columns are, and go on to the dry run."""
        one = waits(shop, file)
        answer = _waited(shop, ask_opened(shop, one))
        if not isinstance(answer, Done):
            return RedirectResponse(f"{root}/{file}", status_code=303)
        comma = _one_of(text_in(given, "comma"), COMMAS)
        anew = replace(one.reading, comma=comma)
        sort = row_sort(one.sort)
        chosen, units, wrong = columns_in(given, answer.value, sort, reading=anew)
        if wrong is not None:
            one = replace(one, reading=anew)
            return columns_page(request, one, answer, wrong, status=422)
        one = read_anew(one, chosen=chosen, units=units, mapped=True, reading=anew)
        remember_columns(shop, one, answer.value.header, by=bench_of(request))
        return RedirectResponse(f"{root}/{file}/tried", status_code=303)

    @pages.get(root + "/{file}/tried")
    def tried(request: Request, shop: GivenWorkshop, file: str) -> Response:
        """Show what the rows would change."""
        one = became(shop, file)
        if isinstance(one, Taken):
            return done_page(request, one)
        if not one.mapped:
            return RedirectResponse(f"{root}/{file}", status_code=303)
        found = last_try(one)
        work: dict[str, Any] = {"working": None, "failed": None}
        if found is None:
            work = _work(_waited(shop, ask_tried(shop, one)))
            found = last_try(one)
        sort = row_sort(one.sort)
        return page(
            request, "rows_tried.html",
            **place.about(
                one=one, address=f"{root}/{file}", tried=found, taking=being_taken(shop, one),
                row_sort=sort,   **work,
            ),
        )  # fmt: skip

    @pages.get(root + "/{file}/list")
    def listed(shop: GivenWorkshop, file: str) -> Response:
        """Hand out everything that the rows would change, as a sheet."""
        one = waits(shop, file)
        if last_try(one) is None:
            raise BadInput("these rows were not tried yet", where="file", given=file)
        headers = upload_headers(kind="", name=f"{one.name} tried.csv")
        return FileResponse(one.list_file, headers=headers)

    @pages.post(root + "/{file}/again")
    def again(pen: GivenPen, shop: GivenWorkshop, file: str) -> Response:
        """Try the rows once more, against the shelf as it is now."""
        one = waits(shop, file)
        if not being_taken(shop, one):
            read_anew(one)
        return RedirectResponse(f"{root}/{file}/tried", status_code=303)

    @pages.post(root + "/{file}/take")
    def take(request: Request, pen: GivenPen, shop: GivenWorkshop, file: str) -> Response:
        """Begin to take the rows."""
        one = became(shop, file)
        if isinstance(one, Waiting) and not being_taken(shop, one):
            begin_taking(shop, one, by=bench_of(request))
            shop.chores.wait(TAKING_WAIT_S)
        return RedirectResponse(f"{root}/{file}/tried", status_code=303)

    @pages.post(root + "/{file}/stop")
    def stop(pen: GivenPen, shop: GivenWorkshop, file: str) -> Response:
        """Stop taking the rows: none of them is there then."""
        one = became(shop, file)
        if isinstance(one, Waiting) and being_taken(shop, one):
            shop.chores.stop()
            shop.chores.wait(TAKING_WAIT_S)
        return RedirectResponse(f"{root}/{file}/tried", status_code=303)

    @pages.post(root + "/{file}/aside")
    def aside(pen: GivenPen, shop: GivenWorkshop, file: str) -> Response:
        """Put a file aside: it is deleted, and nothing of it is taken."""
        one = waits(shop, file)
        if being_taken(shop, one):
            raise CannotDo("Its rows are being taken just now: stop that first.")
        put_aside(one)
        return RedirectResponse(f"{root}#waiting", status_code=303)

    # --- between -------------------------------------------------------------------------------

    def became(shop: Workshop, file: str) -> Waiting | Taken:
        one = find_waiting(shop, file)
        if one is not None and one.sort in names:
            return settled(shop, one)
        taken = find_taken(shop, file)
        return taken if taken is not None and taken.sort in names else waits(shop, file)

    def done_page(request: Request, taken: Taken) -> Response:
        return page(request, "rows_taken.html", **place.about(taken=taken, says=taken_says(taken)))

    def columns_page(
        request: Request, one: Waiting, answer: Answer[Opened], shown: ColumnsShown | None, *,
        status: int = 200,
    ) -> Response:  # fmt: skip
        opened = answer.value if isinstance(answer, Done) else None
        return page(
            request, "rows_columns.html", status=status,
            **place.about(
                one=one, address=f"{root}/{one.id}", opened=opened, shown=shown,
                fields=field_choices(row_sort(one.sort).layout()), row_sort=row_sort(one.sort),
                commas=COMMAS, delimiters=DELIMITERS, encodings=ENCODINGS, **_work(answer),
            ),
        )  # fmt: skip

    return pages


def _waited(shop: Workshop, asked: Answer[Any]) -> Answer[Any]:
    return shop.works.wait(asked.id, WAIT_S) if isinstance(asked, Working) else asked


def _work(answer: Answer[Any]) -> dict[str, Any]:
    return {
        "working": answer if isinstance(answer, Working) else None,
        "failed": answer if isinstance(answer, Failed) else None,
    }


def _columns(shop: Workshop, one: Waiting, opened: Opened) -> ColumnsShown:
    sort = row_sort(one.sort)
    if one.mapped:
        return shown_columns(opened, sort, chosen=one.chosen, units=one.units)
    before = columns_before(shop, one.sort, opened.header)
    if before is not None:
        chosen, units = before
        return shown_columns(opened, sort, chosen=chosen, units=units)
    return guessed_columns(opened, sort)


def _one_of(said: str, choices: tuple[tuple[str, str], ...]) -> str:
    return said if said in dict(choices) else ""


shelf = rows_pages(SHELF)
dated = rows_pages(DATED)
