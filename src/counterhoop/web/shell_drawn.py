"""A drum looked over and drawn, once for each version of what is written."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from typing import TYPE_CHECKING, Literal, TypeVar

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import APPROVAL, BOOK, JOB, RULES, SURVEY, WISH
from counterhoop.bench.folders.look_over import LookedOver, look_over
from counterhoop.bench.remembered import Remembered
from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length

if TYPE_CHECKING:
    from counterhoop.web.shell_view import ShellView

IDENT = "flat"
"""Before every id of the drawing on this page."""

Units = Literal["mm", "in"]
T = TypeVar("T")


_REMEMBERED = Remembered()


def looked_over(job: KeptJob, drum: KeptDrum, *, shop: Mapping[str, Kept]) -> LookedOver:
    """Return a drum looked over."""
    return once("looked", job, drum, shop=shop, make=lambda: look_over(job, drum, shop=shop))


def drawn(
    job: KeptJob, drum: KeptDrum, looked: LookedOver, *, shop: Mapping[str, Kept], units: Units
) -> ShellView:
    """Return the shell laid flat as far as it can be drawn.

    It is drawn anew only when something changed that is seen on it.
    """
    one = looked.surveyed
    if one is None:
        return draw(looked, drum, units=units)
    seen = (one.drum, looked.findings, _tape_mm(drum), *_books(job, shop))
    view: ShellView = _REMEMBERED.get(
        ("drawn", units, *seen), lambda: draw(looked, drum, units=units)
    )
    return view


def once(
    what: str, job: KeptJob, drum: KeptDrum, *, shop: Mapping[str, Kept], make: Callable[[], T],
    units: Units = "mm",
) -> T:  # fmt: skip
    """Return what is made of the documents as they are now; made once for each version of them."""
    made: T = _REMEMBERED.get((what, units, *_versions(job, drum, shop)), make)
    return made


def draw(looked: LookedOver, drum: KeptDrum, *, units: Units) -> ShellView:
    """Draw what can be read; a bare outline while that is too little."""
    from counterhoop.web.shell_view import blank_view, found_view

    one, opened = looked.surveyed, looked.so_far.opened
    if one is None or opened is None:
        table = drum.kept(SURVEY).table
        return blank_view(
            ident=IDENT, units=units, around_mm=_tape_mm(drum),
            depth_mm=_mm(table.get("depth")),
        )  # fmt: skip
    return found_view(
        one.drum, ident=IDENT, units=units, book=opened.shop.book, findings=looked.findings,
        tape_mm=_tape_mm(drum),
    )  # fmt: skip


def _versions(job: KeptJob, drum: KeptDrum, shop: Mapping[str, Kept]) -> tuple[Hashable, ...]:
    of_drum = tuple(drum.kept(kind).number for kind in (SURVEY, WISH, APPROVAL))
    rules = shop.get(RULES, Kept()).number
    return (
        *(job.id, drum.id, drum.name, job.kept(JOB).number, *of_drum, rules),
        *_books(job, shop),
    )


def _books(job: KeptJob, shop: Mapping[str, Kept]) -> tuple[Hashable, ...]:
    own = shop.get(BOOK, Kept())
    return (own.document_id, own.number, *job.books.items())


def _tape_mm(drum: KeptDrum) -> float | None:
    """Return what the tape itself read once round, on average where it was read more than once."""
    written = drum.kept(SURVEY).table.get("circumference")
    listed = written.values() if isinstance(written, dict) else written
    several = list(listed) if isinstance(listed, list | type({}.values())) else [listed]
    read = [mm for one in several if (mm := _mm(one)) is not None]
    return sum(read) / len(read) if read else None


def _mm(written: object) -> float | None:
    try:
        value = parse_length(written).mm if isinstance(written, str) else 0.0
    except BadInput:
        return None
    return value or None
