"""What fits a place on a drum, worked out beside the pages; see ``tasks`` for how it is called."""

from __future__ import annotations

import json
from dataclasses import dataclass

from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.open_job import OpenJob, opened_tables
from counterhoop.bench.parts.place_asked import OnDrum, PlaceAsked, may_be_fixed, place_on
from counterhoop.bench.plan_job import Progress
from counterhoop.errors import BadInput
from counterhoop.parts.piece import Piece
from counterhoop.parts.places.serves import Serves, what_serves
from counterhoop.parts.places.shelved import shelved

LOOKED = "fittings are held against the place"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceTold:
    """What serves at a place.

    Attributes
    ----------
    on : OnDrum
        The place.
    serves : tuple of Serves
        Entries of the book and pieces that were only measured, the best first.
    """

    on: OnDrum
    serves: tuple[Serves, ...]


def fits(
    source: JobSource, drum: str, asked: PlaceAsked, pieces: tuple[Piece, ...], *,
    planned: bytes | None, progress: Progress,
) -> PlaceTold:  # fmt: skip
    """Hold the book and pieces of the shelf against a place of a drum."""
    tables = json.loads(source.tables_json)
    opened = opened_tables(tables, name=source.name, books=dict(source.books))
    return what_fits(opened, drum, asked, pieces, progress=progress)


def what_fits(
    opened: OpenJob, drum: str, asked: PlaceAsked, pieces: tuple[Piece, ...] = (), *,
    progress: Progress = lambda _says, _share: None,
) -> PlaceTold:  # fmt: skip
    """Hold the book and pieces of the shelf against a place of a drum.

    Parameters
    ----------
    drum : str
        Its name in the job.
    pieces : tuple of Piece
        Those that may be offered to this job; what is an entry of the book is looked at once.

    Raises
    ------
    BadInput
        When the job has no such drum, or the drum no such place.
    """
    found = next((one.drum for one in opened.job.drums if one.drum.key == drum), None)
    if found is None:
        names = ", ".join(f'"{one.drum.key}"' for one in opened.job.drums)
        raise BadInput("no drum of that name in the job", given=drum, wanted=f"one of {names}")
    book = opened.shop.book
    on = place_on(found, asked, book=book)
    measured = [
        one.fitting
        for one in shelved(pieces, book=book)
        if one.fitting is not None and one.piece.fitting != one.fitting.name
    ]
    serves = what_serves(
        on.place, (*may_be_fixed(book), *measured), rules=opened.shop.rules, turn=asked.turn,
        mirror=asked.mirror, progress=lambda share: progress(LOOKED, share),
    )  # fmt: skip
    return PlaceTold(on=on, serves=serves)
