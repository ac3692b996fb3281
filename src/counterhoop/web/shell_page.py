"""What stands above the lines of a survey: the drawing, what does not add up, what is guessed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import BOOK, SURVEY
from counterhoop.bench.folders.look_over import LookedOver
from counterhoop.bench.own_lug import guessed_in
from counterhoop.errors import BadInput
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.folder_index import job_address
from counterhoop.web.shell_drawn import IDENT, once
from counterhoop.web.shell_lines import Entry, ident_of

if TYPE_CHECKING:
    from counterhoop.web.end_view import EndView
    from counterhoop.web.shell_view import ShellView

EndsOf: TypeAlias = "Callable[[], tuple[EndView, ...]]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unread:
    """Something that cannot be read yet: what it is about, why not, and where to put it right."""

    name: str
    says: str
    href: str


def page_data(
    job: KeptJob, drum: KeptDrum, looked: LookedOver, entry: Entry, *, view: ShellView,
    shop: Mapping[str, Kept],
) -> dict[str, Any]:  # fmt: skip
    """Return what every answer about a drum's survey may show."""
    return {
        "view": view,
        "findings": looked.findings,
        "unread": unread(job, looked, entry),
        "left_out": bool(looked.so_far.left_out),
        "guessed": guessed_in(shop.get(BOOK, Kept()).table, lug_names(drum)),
        "ends": ends_of(job, drum, entry, shop),
        "whole": whole_of(looked, entry),
        "unknown_lugs": unknown_lugs(entry),
    }


def unread(job: KeptJob, looked: LookedOver, entry: Entry) -> list[Unread]:
    """Return every fault with the form that it belongs to."""
    found = []
    for fault in looked.faults:
        spot, said = entry.spot(fault), bench_fault(fault)
        if spot is None:
            line = str(said)
            found.append(Unread(name="The job", says=line, href=job_address(job)))
            continue
        line = str(BadInput(said.what, given=said.given, wanted=said.wanted, step=said.step))
        ident = ident_of(spot.thing, spot.at)
        name = entry.name(spot.thing, spot.at)
        found.append(Unread(name=name, says=line, href=f"?open={ident}#{ident}"))
    return found


def lug_names(drum: KeptDrum) -> tuple[str, ...]:
    """Return the lugs that the drum's rows name."""
    rows = drum.kept(SURVEY).table.get("rows")
    listed = rows if isinstance(rows, list) else []
    named = [row.get("fitting") for row in listed if isinstance(row, dict)]
    return tuple(name for name in named if isinstance(name, str))


def unknown_lugs(entry: Entry) -> frozenset[str]:
    """Return the lines of the rows whose lug no book has, or nobody has named."""
    found = set()
    for fault in entry.looked.faults:
        spot = entry.spot(fault)
        if spot is not None and spot.thing == "row" and spot.where == "fitting":
            found.add(ident_of("row", spot.at))
    return frozenset(found)


def ends_of(job: KeptJob, drum: KeptDrum, entry: Entry, shop: Mapping[str, Kept]) -> EndsOf:
    """Return what makes the strips and sentences of both ends, for who shows them."""
    looked = entry.looked
    one, opened = looked.surveyed, looked.so_far.opened

    def ends() -> tuple[EndView, ...]:
        from counterhoop.web.end_view import end_views

        if one is None or opened is None:
            return ()
        return end_views(
            one.drum, one.survey, book=opened.shop.book, units=entry.units, ident=f"{IDENT}-end"
        )

    return lambda: once("ends", job, drum, shop=shop, units=entry.units, make=ends)


def whole_of(looked: LookedOver, entry: Entry) -> list[tuple[str, list[str]]]:
    """Return girth and depth in sentences, once they can be read."""
    from counterhoop.papers.facts import Lengths
    from counterhoop.papers.survey_words import depth_words, girth_words

    one = looked.surveyed
    if one is None:
        return []
    say = Lengths(entry.units)
    return [
        ("Once round", girth_words(one.drum, say=say)),
        ("Depth", depth_words(one.drum, say=say)),
    ]
