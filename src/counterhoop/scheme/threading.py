"""Threads of rods and lugs by name: how wide they are, and whether one goes into the other."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from counterhoop.errors import BadInput
from counterhoop.standards.threads import Thread, find_thread
from counterhoop.standards.unlike_threads import unlike


@dataclass(frozen=True, slots=True, kw_only=True)
class Going:
    """Whether a screw goes into a thread, and why not."""

    goes: bool
    alike: bool = False
    says: str = ""


@lru_cache(maxsize=512)
def listed(name: str) -> Thread | None:
    """Return the thread of that name where the tables have it; a book may name others."""
    try:
        return find_thread(name)
    except BadInput:
        return None


def major_mm(name: str) -> float | None:
    """Return the major diameter of a thread, where the tables have it."""
    thread = listed(name)
    return None if thread is None else thread.major_mm


@lru_cache(maxsize=2048)
def goes_into(screw: str, nut: str) -> Going:
    """Say whether a screw goes into a nut by the names of their threads.

    Names that no table has go together only when they are the same.

    Examples
    --------
    >>> goes_into("12-24", "12-24 UNC").goes, goes_into("12-24", "7/32-24").alike
    (True, True)
    """
    first, second = listed(screw), listed(nut)
    if first is None or second is None:
        same = screw.strip().casefold() == nut.strip().casefold()
        return Going(goes=same, says="" if same else f"{screw} does not go into {nut}")
    compared = unlike(first, second)
    return Going(
        goes=compared.verdict == "same",
        alike=compared.verdict == "look-alike",
        # Without the figures: no rule at the bench tells 5.49 from 5.56.
        says=compared.says.split(":")[0],
    )
