"""Read what can be read of a survey that is half done, and say what cannot."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import KIT, TUNING
from counterhoop.bench.folders.own_book import own_books
from counterhoop.bench.folders.tables import tables_of
from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.faults import BadSurvey

if TYPE_CHECKING:
    from counterhoop.bench.open_job import OpenJob

MOST_TRIES = 40
_STEP = re.compile(r"\.?([^.\[\]]+)|\[(\d+)\]")


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar:
    """A drum as far as it can be read.

    Attributes
    ----------
    opened : OpenJob or None
        A job of this drum alone, without what cannot be read; None while too little is written
        to draw anything.
    faults : tuple of BadInput
        What cannot be read; ``where`` is the path in the drum's own table ("holes[3].near").
    left_out : tuple of str
        The places that the drawing does without.
    """

    opened: OpenJob | None
    faults: tuple[BadInput, ...] = ()
    left_out: tuple[str, ...] = ()

    @property
    def whole(self) -> bool:
        """Whether all that is written can be read."""
        return self.opened is not None and not self.faults


def read_so_far(job: KeptJob, drum: KeptDrum, *, shop: Mapping[str, Kept]) -> SoFar:
    """Read one drum; what cannot be read is said and left out, piece by piece.

    A drum with faults can be drawn but is never planned: a hole that is left out could be drilled
    into.
    """
    from counterhoop.bench.open_job import opened_tables

    tables = tables_of(job, shop=shop, drums=[drum])
    tables["job"].setdefault("number", "-")
    books = own_books(job, shop)
    front = f"drums.{drum.name}"
    faults: dict[str, BadInput] = {}
    left_out: list[str] = []
    for _ in range(MOST_TRIES):
        try:
            opened = opened_tables(tables, books=books)
        except BadInput as found:
            # Later rounds only say what comes of leaving things out: the person did not write it.
            new = found.faults if isinstance(found, BadSurvey) else (found,)
            if not left_out:
                faults |= {str(one): _inside(one, front) for one in new}
            elif not isinstance(found, BadSurvey):
                faults[str(found)] = _inside(found, front)
            gone = _leave_out(tables, [one.where for one in new], front)
            if not gone:
                faults |= {str(one): _inside(one, front) for one in new}
                return SoFar(opened=None, faults=tuple(faults.values()), left_out=tuple(left_out))
            left_out += gone
        else:
            return SoFar(opened=opened, faults=tuple(faults.values()), left_out=tuple(left_out))
    return SoFar(opened=None, faults=tuple(faults.values()), left_out=tuple(left_out))


def _inside(fault: BadInput, front: str) -> BadInput:
    """Return a fault with its place in the drum's own table."""
    where = fault.where.removeprefix(front).removeprefix(".")
    return BadInput(
        fault.what, where=where, given=fault.given, wanted=fault.wanted, step=fault.step
    )


def _leave_out(tables: dict[str, Any], faulty: Iterable[str], front: str) -> list[str]:
    """Take the pieces out of the tables that faults lie in, each once; return their places."""
    found = [piece for where in faulty if (piece := _piece(tables, where, front))]
    places: dict[str, tuple[Any, str | int]] = {
        said: (holder, step) for said, holder, step in found
    }
    # The last of a list first, so that those before it keep their numbers.
    gone = sorted(places, key=lambda said: [_order(step) for step in _steps(said)], reverse=True)
    for said in gone:
        holder, step = places[said]
        del holder[step]
    return gone


def _order(step: str | int) -> tuple[int, str]:
    return (step, "") if isinstance(step, int) else (0, step)


def _piece(tables: dict[str, Any], where: str, front: str) -> tuple[str, Any, str | int] | None:
    """Return the place of the piece that a fault lies in, what holds it, and by which step."""
    steps = _steps(where.removeprefix(front)) if where.startswith(front) else _steps(where)
    here: Any = tables["drums"][front.removeprefix("drums.")] if where.startswith(front) else tables
    if not where.startswith(front) and steps[:1] == ["drums"]:
        return None
    said = ""
    for depth, step in enumerate(steps):
        if isinstance(here, list):
            # One of several: it goes whole, for half a hole is none.
            if not (isinstance(step, int) and step < len(here)):
                return None
            return f"{said}[{step + 1}]", here, step
        if not isinstance(here, dict) or step not in here:
            return None
        said = f"{said}.{step}" if said else str(step)
        inner = here[step]
        deeper = steps[depth + 1 : depth + 2]
        holds = isinstance(inner, dict) and deeper and deeper[0] in inner
        if not holds and not (isinstance(inner, list) and deeper):
            return said, here, step
        here = inner
    return None


def _steps(where: str) -> list[str | int]:
    return [int(n) - 1 if n else name for name, n in _STEP.findall(where)]


def tables_to_plan(
    job: KeptJob, *, shop: Mapping[str, Kept]
) -> tuple[dict[str, Any], dict[str, tuple[BadInput, ...]]]:
    """Return the tables of all drums that can be read whole, and what is wrong with the others.

    What cannot be read of heads, tuning and the kit's pitches keeps no drum out, for nothing is
    drilled by it: it is left out of the tables.

    Returns
    -------
    tables : dict
        Empty when there is no drum that can be planned.
    faults : dict of str to tuple of BadInput
        By the drum's name for programs.
    """
    read = {drum.id: read_so_far(job, drum, shop=shop) for drum in job.drums}
    faults = {key: grave for key, one in read.items() if (grave := _grave(one))}
    whole = [drum for drum in job.drums if drum.id not in faults]
    if not whole:
        return {}, faults
    tables = tables_of(job, shop=shop, drums=whole)
    tables["job"].setdefault("number", "-")
    for drum in whole:
        front = f"drums.{drum.name}"
        for place in read[drum.id].left_out:
            if _is_of(TUNING, place):
                _leave_out(tables, [f"{front}.{place}"], front)
    if any(_is_of(KIT, one.where) for drum in whole for one in read[drum.id].faults):
        tables.pop(KIT, None)
    return tables, faults


def _grave(read: SoFar) -> tuple[BadInput, ...]:
    """Return what keeps a drum out of the plan: all of it, once a hole may have been left out."""
    beside = all(_is_of(TUNING, place) or _is_of(KIT, place) for place in read.left_out)
    return () if read.opened is not None and beside else read.faults


def _is_of(table: str, where: str) -> bool:
    return re.match(rf"{table}(?![^.\[])", where) is not None
