"""Open the invented job that comes with the program."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from counterhoop.bench.open_job import OpenJob

DEMO = "survey.toml"


def open_demo() -> OpenJob:
    """Open the demonstration: seven drums of one client.

    It is read as a file of a user's own would be; the same file lies under ``examples/``.
    """
    from counterhoop.bench.open_job import opened

    content = files("counterhoop.bench").joinpath("demonstration", DEMO).read_bytes()
    return opened(content, name=f"demonstration {DEMO}", book_of=no_book)


def no_book(name: str) -> bytes:
    """Refuse a fittings book: the demonstration names none."""
    raise BadInput(
        "the demonstration has no fittings book of its own",
        where="job.book",
        given=name,
        wanted="fittings of the packaged book only",
    )
