"""The thread list of a job: threads as read, rods before and after truing, drills."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.development.flat import End
from counterhoop.fittings.book import Book
from counterhoop.papers.facts import Lengths, facts_of, foot_facts, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.printable import set_readable
from counterhoop.papers.thread_rows import (
    drill_rows,
    rod_rows_before_and_after,
    thread_rows,
)
from counterhoop.scheme.findings.threads_read import FORCE_NOTHING
from counterhoop.scheme.heads import heads_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.rod_states import BOTTOMING, STRIPPING, RodState, rod_states
from counterhoop.scheme.threading import listed
from counterhoop.shell.job import Job
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.standards.threads import Thread, all_threads
from counterhoop.survey.drum_survey import ThreadFound, threads_of
from counterhoop.survey.thread_next import KEEP_PAIRS


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumThreads:
    """Threads and rods of one drum.

    Attributes
    ----------
    drum : str
        Which.
    threads : tuple of ThreadFound
        What was read, and which thread it may be.
    lugs : tuple of (str, tuple of str)
        For each head the threads that its lugs take by the book, as found.
    rods : tuple of RodState
        Each head's rods before and after.
    """

    drum: str
    threads: tuple[ThreadFound, ...] = ()
    lugs: tuple[tuple[End, tuple[str, ...]], ...] = ()
    rods: tuple[RodState, ...] = ()

    def takes(self, head: str) -> tuple[str, ...]:
        """Return the threads that the lugs of a head take."""
        return next((threads for end, threads in self.lugs if end == head), ())


def drum_threads(
    found: Layout,
    after: Layout,
    *,
    book: Book,
    rules: ShopRules,
    stock: Mapping[str, int] | None = None,
) -> DrumThreads:
    """Gather what the list says of one drum, as found and as a scheme leaves it."""
    return DrumThreads(
        drum=found.drum.key,
        threads=threads_of(found.drum),
        lugs=tuple(
            (
                head.head,
                tuple(dict.fromkeys(lug.fitting.thread for lug in head.lugs if lug.fitting.thread)),
            )
            for head in heads_of(found)
        ),
        rods=rod_states(found, after, book=book, rules=rules, stock=stock),
    )


def thread_list_pdf(job: Job, drums: Sequence[DrumThreads], *, paper: str = "A4") -> bytes:
    """Set the list of a job's threads, rods and drills.

    Parameters
    ----------
    job : Job
        Whose units and names are printed.
    drums : sequence of DrumThreads
        In the order of the list; a drum with neither reading nor rods is left out.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    data = {
        "wide": sheet.long_mm,
        "high": sheet.short_mm,
        "facts": foot_facts(job, what="thread list"),
        **thread_list_data(job, drums),
    }
    return set_readable("thread_list", data, title=f"Threads and rods, job {job.number}")


def thread_list_data(job: Job, drums: Sequence[DrumThreads]) -> dict[str, Any]:
    """Return what the thread list says, as plain data."""
    facts, say = facts_of(job), Lengths(job.units)
    stretch = say.length(job.rules.head_stretch_mm)
    return {
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("paper", "thread list"),
            ("date", facts.date or NOT_WRITTEN),
            ("measured by", facts.measured_by or NOT_WRITTEN),
            ("shop rules", facts.rules_version),
        ),
        "drums": [
            {
                "drum": drum.drum,
                "threads": thread_rows(drum.threads, takes=drum.takes),
                "rods": rod_rows_before_and_after(drum.rods, say=say),
            }
            for drum in drums
            if drum.threads or drum.rods
        ],
        "drills": drill_rows(_threads_named(drums)),
        "says": (
            f"Lengths are under the rod's head. Finger-tight the hoop stands {stretch} higher than"
            f" at pitch; once there, {say.length(job.rules.bottom_clear_mm)} and more are wanted"
            " to the bottom of the lug, for the head goes on stretching. Stock is counted anew for"
            " each head: what one takes is gone for the next.",
            KEEP_PAIRS,
            FORCE_NOTHING,
            BOTTOMING,
            STRIPPING,
        ),
    }


def _threads_named(drums: Sequence[DrumThreads]) -> list[Thread]:
    """Return the threads of the list in the tables' order: those read, and those of the rods."""
    names = {state.thread for drum in drums for state in drum.rods}
    names |= {name for drum in drums for _, takes in drum.lugs for name in takes}
    found = {thread.designation for name in names if (thread := listed(name)) is not None}
    for drum in drums:
        for read in drum.threads:
            found |= set(read.odds.shares) if not read.odds.unknown else set()
    return [thread for thread in all_threads() if thread.designation in found]
