"""One step of undo, or any earlier version chosen again: the same for every document."""

from __future__ import annotations

from starlette.datastructures import FormData
from starlette.requests import Request

from counterhoop.bench.folders.history import choose_version
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.store.save import Conflict
from counterhoop.web.given_form import number_in
from counterhoop.web.who import bench_of


def go_back(request: Request, shop: Workshop, document_id: str, given: FormData) -> None:
    """Make the version that a form names the newest again.

    Raises
    ------
    CannotDo
        When somebody saved since the page was made: it said something else of what is taken back.
    """
    done = choose_version(
        shop, document_id, number=number_in(given, "number"),
        based_on=number_in(given, "based_on"), by=bench_of(request),
    )  # fmt: skip
    if isinstance(done, Conflict):
        raise CannotDo(
            "Somebody saved it since you looked: open the page again to see what going back would "
            "take away now."
        )
