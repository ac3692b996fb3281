"""The rods of a head: where they are, how they are counted, which thread they have."""

from __future__ import annotations

import re
from dataclasses import dataclass

from counterhoop.development.flat import End
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.shell.tuning import Tuning
from counterhoop.standards.threads import Thread, find_thread

USUAL_THREAD = "12-24 UNC"
"""What most drum rods have now. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RodAt:
    """A rod: its number, and where it is along the shell."""

    number: int
    along_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RodsOfHead:
    """The rods of one head.

    Attributes
    ----------
    head : End
    rods : tuple of RodAt
        By number.
    thread : Thread
    thread_from : str
        Who says so, in a sentence.
    thread_assumed : bool
        Nobody does.
    """

    head: End
    rods: tuple[RodAt, ...]
    thread: Thread
    thread_from: str
    thread_assumed: bool = False

    @property
    def along_deg(self) -> tuple[float, ...]:
        """Where they are, by number."""
        return tuple(rod.along_deg for rod in self.rods)


def rods_of(layout: Layout, head: End, *, tuning: Tuning | None) -> RodsOfHead | None:
    """Return the rods of a head; None where nothing holds one.

    Rods go by the numbers of their lugs. What is written of their thread goes before the book.
    """
    lugs = [lug for lug in layout.lugs(head) if lug.fitting.kind in (Kind.LUG, Kind.LONG_LUG)]
    if not lugs:
        return None
    thread, who, assumed = _thread(lugs, tuning)
    numbers = _numbers(lugs)
    rods = sorted(
        (
            RodAt(number=number, along_deg=lug.place.along_deg)
            for number, lug in zip(numbers, lugs, strict=True)
        ),
        key=lambda rod: rod.number,
    )
    return RodsOfHead(
        head=head, rods=tuple(rods), thread=thread, thread_from=who, thread_assumed=assumed
    )


def _numbers(lugs: list[FittingPlan]) -> list[int]:
    """Return the lugs' own numbers where they have them, else count them along."""
    found = [re.search(r"(\d+)$", lug.label) for lug in lugs]
    numbers = [int(one[1]) for one in found if one]
    plain = list(range(1, len(lugs) + 1))
    return numbers if sorted(numbers) == plain else plain


def _thread(lugs: list[FittingPlan], tuning: Tuning | None) -> tuple[Thread, str, bool]:
    if tuning is not None and tuning.rod:
        thread = find_thread(tuning.rod)
        return thread, f"The rods are {thread.designation}, as written down for this drum.", False
    named = {lug.fitting.thread for lug in lugs if lug.fitting.thread}
    if len(named) == 1:
        thread = find_thread(named.pop())
        return thread, f"The rods are {thread.designation}, as the fittings book says.", False
    thread = find_thread(USUAL_THREAD)
    says = f"The rods are taken to be {thread.designation}: hold a gauge against one."
    return thread, says, True
