"""The holes that are done: what was cut stays cut when the scheme changes around it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.kinds import APPROVAL, TICKS
from counterhoop.job.yes.changes import lines_of

if TYPE_CHECKING:
    from counterhoop.scheme.plan import Scheme


def ticks_of(drum: KeptDrum, *, scheme: Scheme) -> Mapping[str, Any]:
    """Return the holes of a scheme that are done, by number: {"when": ..., "by": ...}.

    Ticks belong to the code that they were given under. Under another code one counts for a hole
    of which the very same is done: verdict, size and place, to the tenth of a millimetre that a
    code tells apart. Its number may be another.
    """
    done, before = _ticked(drum, scheme=scheme)
    if before is None:
        return done
    now = {line: number for number, line in _holes(lines_of(scheme)).items()}
    return {now[before[n]]: mark for n, mark in done.items() if before.get(n) in now}


def ticked_otherwise(drum: KeptDrum, *, scheme: Scheme) -> tuple[str, ...]:
    """Return what was ticked under another code and is done otherwise by this scheme, or not.

    Each by the number that it had then.
    """
    done, before = _ticked(drum, scheme=scheme)
    if before is None:
        return ()
    now = {*_holes(lines_of(scheme)).values()}
    return tuple(number for number in done if before.get(number) not in now)


def _ticked(
    drum: KeptDrum, *, scheme: Scheme
) -> tuple[Mapping[str, Any], Mapping[str, str] | None]:
    """Return all ticks, and what each was given for; None where this scheme has their code."""
    table = drum.kept(TICKS).table
    done, code = table.get("done"), table.get("code")
    if not isinstance(done, dict) or code == scheme.code:
        return done if isinstance(done, dict) else {}, None
    for row in drum.kept(APPROVAL).rows:
        if isinstance(row, dict) and row.get("covers") == code:
            lines = row.get("lines")
            return done, _holes(str(one) for one in lines) if isinstance(lines, list) else {}
    return done, {}


def _holes(lines: Iterable[str]) -> dict[str, str]:
    """Return the lines of a code that are of holes, by number."""
    parted = (line.partition(" ") for line in lines)
    return {number: rest for number, _, rest in parted if number.isdigit()}
