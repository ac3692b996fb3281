"""Screw threads by name, from the packaged table."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.quantities.length import MM_PER_INCH, parse_length
from counterhoop.quantities.nearest import nearest
from counterhoop.quantities.thread_name import parse_thread_name
from counterhoop.sources import Row, Source, load_table
from counterhoop.standards.thread_form import FORMS, ThreadForm


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """One thread as the standard lists it.

    Attributes
    ----------
    designation : str
        Its one name here ("12-24 UNC", "M6", "7/32-24", "3/16 BSW", "2BA").
    form : ThreadForm
        The profile.
    major_mm, pitch_mm : float
        Basic major diameter and pitch; for BA as the standard rounds them, to two figures.
    threads_per_inch : int or None
        For inch threads.
    also : tuple of str
        Other names of the same thread.
    note : str
        "coarse", "fine", "special, obsolete" or "obsolete" (Whitworth and BA).
    source : Source
        Where the row comes from.
    """

    designation: str
    form: ThreadForm
    major_mm: float
    pitch_mm: float
    threads_per_inch: int | None
    also: tuple[str, ...]
    note: str
    source: Source

    @property
    def angle_deg(self) -> float:
        """Angle between the flanks."""
        return self.form.angle_deg


@cache
def all_threads() -> tuple[Thread, ...]:
    """Return every thread of the table, in its order."""
    return tuple(_thread(row) for row in load_table("counterhoop.standards", "threads.toml"))


def _thread(row: Row) -> Thread:
    values: dict[str, Any] = row.values
    name = values["designation"]
    per_inch: int | None = values.get("threads_per_inch")
    pitch_mm = (
        float(MM_PER_INCH / per_inch) if per_inch else parse_length(values["pitch"], where=name).mm
    )
    return Thread(
        designation=name,
        form=FORMS[values["form"]],
        major_mm=parse_length(values["major"], where=name).mm,
        pitch_mm=pitch_mm,
        threads_per_inch=per_inch,
        also=tuple(values["also"]),
        note=values["note"],
        source=row.source,
    )


@cache
def _by_name() -> dict[str, Thread]:
    return {name: thread for thread in all_threads() for name in (thread.designation, *thread.also)}


def find_thread(name: object, *, where: str = "") -> Thread:
    """Return the thread of that name.

    Parameters
    ----------
    name : object
        In any spelling that :func:`counterhoop.quantities.thread_name.parse_thread_name` reads.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        When the name cannot be read or is not in the table; names the nearest that is.

    Examples
    --------
    >>> find_thread("#12-24").designation, find_thread("m6 x 1").designation
    ('12-24 UNC', 'M6')
    >>> find_thread("12-26", where="rod.thread")
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: rod.thread: this thread is not in the table: found '12-26', \
wanted one of 12-24 UNC, 12-28 UNF
    """
    spelt = parse_thread_name(name, where=where)
    known = _by_name()
    if spelt in known:
        return known[spelt]
    same_size = [
        thread.designation for thread in all_threads() if _size(thread.designation) == _size(spelt)
    ]
    near = nearest(spelt, known)
    raise BadInput(
        "this thread is not in the table",
        where=where,
        given=name,
        wanted=f"one of {', '.join(same_size)}" if same_size else "",
        step=f'Did you mean "{near}"?' if near and not same_size else "",
    )


def _size(designation: str) -> str:
    return re.split("x" if designation[0] == "M" else "[- ]", designation)[0]
