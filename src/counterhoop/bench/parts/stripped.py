"""What came off a drum: the count that its survey lets one expect, with what was ticked."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, drawer
from counterhoop.bench.folders.kinds import BOOK, JOB, RULES, STRIPPED, SURVEY
from counterhoop.bench.folders.look_over import look_over
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.strip_down import Expected, StripDown
from counterhoop.parts.ticked import Counted, Stage, Tick, count_off

if TYPE_CHECKING:
    from counterhoop.bench.plan_job import JobPlan

COUNTED = "counted"
"""The table of a drum's document: place, piece, and how many at each stage."""
KIND = "kind"
"""Beside the counts: by it they find their line again when a piece is called otherwise."""
NOTHING_YET = StripDown(drum="", lines=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Stripped:
    """A drum's strip-down as it stands.

    Attributes
    ----------
    expected : StripDown
        What its survey lets one expect; without lines while too little is written.
    counted : tuple of Counted
        Its lines with what was ticked, in the same order.
    carried : mapping of (place, piece) to (place, piece)
        Lines whose ticks were made under another name, by the name of today.
    strays : tuple of str
        What was ticked and stands on the list no more, a few words each.
    faults : tuple of BadInput
        Ticks that contradict each other; the line counts as not counted.
    """

    expected: StripDown
    counted: tuple[Counted, ...]
    carried: Mapping[tuple[str, str], tuple[str, str]] = field(default_factory=dict)
    strays: tuple[str, ...] = ()
    faults: tuple[BadInput, ...] = ()


def stripped_of(
    shop: Workshop, job: KeptJob, drum: KeptDrum, plan: JobPlan | None = None,
    *, held: Mapping[str, Kept] | None = None,
) -> Stripped:  # fmt: skip
    """Return what should come off a drum, and what has been ticked of it.

    Parameters
    ----------
    plan : JobPlan, optional
        Of the job: what it has read of the drum need not be read again. A drum that it has not got
        is read as far as its survey goes.
    held : mapping of str to Kept, optional
        What the workshop's drawer holds, where a page has it at hand already.
    """
    own = drawer(shop) if held is None else held
    key: Hashable = (
        "strip-down", job.id, job.title, drum.id, drum.name, drum.kept(SURVEY).number,
        job.kept(JOB).number, tuple(job.books.items()),
        *(own.get(kind, Kept()).number for kind in (RULES, BOOK)),
    )  # fmt: skip
    expected: StripDown = shop.remembered.get(
        key, lambda: _planned(drum, plan) or _as_far_as_read(job, drum, own)
    )
    ticks = drum.kept(STRIPPED)
    counted: Stripped = shop.remembered.get(
        ("ticked", key, ticks.document_id, ticks.number),
        lambda: counted_of(expected, ticks.table),
    )
    return counted


def _planned(drum: KeptDrum, plan: JobPlan | None) -> StripDown | None:
    one = next((d for d in plan.drums if d.key == drum.name), None) if plan else None
    if plan is None or one is None:
        return None
    return expected_of(one.wanted.drum, one.found, shop=plan.opened.shop)


def _as_far_as_read(job: KeptJob, drum: KeptDrum, own: Mapping[str, Kept]) -> StripDown:
    looked = look_over(job, drum, shop=own)
    opened, surveyed = looked.so_far.opened, looked.surveyed
    if opened is None or surveyed is None:
        return NOTHING_YET
    try:
        return expected_of(surveyed.drum, surveyed.found, shop=opened.shop)
    except BadInput:
        return NOTHING_YET


def expected_of(drum: Any, found: Any, *, shop: Any) -> StripDown:
    """Return what should come off a drum as it was found, its rods named by their length.

    Parameters
    ----------
    drum : Drum
    found : Layout
        The drum as it stands.
    shop : scheme.schemes.Shop
        Whose book and rules.
    """
    from counterhoop.parts.strip_down import strip_down
    from counterhoop.scheme.rods import plan_rods

    return strip_down(drum, book=shop.book, rods=plan_rods(found, book=shop.book, rules=shop.rules))


def counted_of(expected: StripDown, table: Mapping[str, Any]) -> Stripped:
    """Return a strip-down with the ticks of a drum's document.

    Ticks of a piece that is called otherwise now (rods, where the shell was measured again) go to
    the one line of their kind at that place that has none.
    """
    ticks = ticks_in(table)
    lines = {(line.place, line.sort.piece): line for line in expected.lines}
    moved: dict[tuple[str, str], tuple[str, str]] = {}
    strays = []
    for key in ticks:
        if key in lines:
            continue
        home = _one_of_the_kind(key, kind=_kind_in(table, key), ticked=ticks, lines=lines)
        if home is None or home in moved.values():
            strays.append(f"{key[1]} at {key[0]}")
        else:
            moved[key] = home
    ticked: dict[tuple[str, str], Mapping[Stage, int]] = {
        moved.get(key, key): counts for key, counts in ticks.items() if key in lines or key in moved
    }
    counted: list[Counted] = []
    faults: list[BadInput] = []
    for key, line in lines.items():
        one, fault = _count_line(line, ticked.get(key, {}))
        counted.append(one)
        faults += [fault] if fault else []
    return Stripped(
        expected=expected, counted=tuple(counted),
        carried={home: key for key, home in moved.items()},
        strays=tuple(strays), faults=tuple(faults),
    )  # fmt: skip


def _count_line(line: Expected, counts: Mapping[Stage, int]) -> tuple[Counted, BadInput | None]:
    alone = StripDown(drum="", lines=(line,))
    ticks = [
        Tick(place=line.place, piece=line.sort.piece, stage=stage, count=count)
        for stage, count in counts.items()
    ]
    try:
        return count_off(alone, ticks)[0], None
    except BadInput as fault:
        return count_off(alone, ())[0], fault


def ticks_in(table: Mapping[str, Any]) -> dict[tuple[str, str], dict[Stage, int]]:
    """Return the counts of a document by place and piece; what cannot be read counts as none."""
    found: dict[tuple[str, str], dict[Stage, int]] = {}
    places = table.get(COUNTED)
    for place, pieces in places.items() if isinstance(places, dict) else ():
        for piece, counts in pieces.items() if isinstance(pieces, dict) else ():
            if isinstance(counts, dict):
                read = {stage: counts.get(stage.value) for stage in Stage}
                found[place, piece] = {
                    stage: count
                    for stage, count in read.items()
                    if isinstance(count, int) and not isinstance(count, bool)
                }
    return found


def _kind_in(table: Mapping[str, Any], key: tuple[str, str]) -> str:
    return str(table[COUNTED][key[0]][key[1]].get(KIND, ""))


def _one_of_the_kind(
    key: tuple[str, str], *, kind: str, ticked: Iterable[tuple[str, str]],
    lines: Mapping[tuple[str, str], Expected],
) -> tuple[str, str] | None:  # fmt: skip
    taken = set(ticked)
    free = [
        other
        for other, line in lines.items()
        if other[0] == key[0] and line.sort.kind == kind and other not in taken
    ]
    return free[0] if len(free) == 1 else None
