"""What was read off the rods against the thread that the lugs take by the book."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import either, first_up
from counterhoop.scheme.heads import LUGS
from counterhoop.scheme.threading import goes_into
from counterhoop.survey.drum_survey import ThreadFound, threads_of
from counterhoop.survey.thread_next import next_reading

FORCE_NOTHING = (
    "Try the first turns by the fingers only and force nothing: old castings crack, and what is"
    " cracked or torn goes to somebody who mends castings."
)
_OWN = f"Keep each rod with its own insert. {FORCE_NOTHING}"


def check_threads_read(after: Afterwards, tally: Tally) -> None:
    """Hold the threads that were read against those of the lugs that stay, head by head."""
    for found in threads_of(after.layout.drum):
        head = found.read.head
        if head:
            names = dict.fromkeys(
                lug.fitting.thread
                for lug in after.layout.lugs(head)
                if lug.fitting.kind in LUGS and lug.status == "stays" and lug.fitting.thread
            )
            if names:
                _hold(tally, found, tuple(names))


def belonging(found: ThreadFound, lugs: tuple[str, ...]) -> tuple[list[str], list[str]]:
    """Part the likely threads of a reading into those that go into the lugs and those that do not.

    Parameters
    ----------
    found : ThreadFound
        A reading and its odds.
    lugs : tuple of str
        Threads that the lugs take.
    """
    shares = found.odds.shares
    goes = {name: any(goes_into(name, lug).goes for lug in lugs) for name in shares}
    return [n for n in shares if goes[n]], [n for n in shares if not goes[n]]


def _hold(tally: Tally, found: ThreadFound, lugs: tuple[str, ...]) -> None:
    odds, of = found.odds, found.read.of or f"{found.read.head} rods"
    take = either(lugs)
    reading = next_reading(odds)
    remedy = f"{reading.says} {_OWN}" if reading else _OWN
    if odds.miscounted:
        remedy = f"{_recount(found)} {remedy}"
    if odds.unknown:
        _say(
            tally,
            "thread-not-told",
            Grade.NOTE,
            of,
            says=f"what was read off the {of} fits no thread of the tables; the lugs take {take}",
            remedy=f"Measure over ten threads, on clean crests. {_OWN}",
        )
        return
    ours, others = belonging(found, lugs)
    if ours and others:
        _say(
            tally,
            "thread-not-told",
            Grade.NOTE,
            of,
            says=(
                f"what was read off the {of} may be {either((*ours, *others))}; the lugs take"
                f" {take} by the book, and only {either(ours)} goes into that"
            ),
            remedy=remedy,
        )
    elif others:
        alike = any(goes_into(name, lug).alike for name in others for lug in lugs)
        after = (
            "they look alike, start by hand and then spoil the lug's thread"
            if alike
            else "they do not go together"
        )
        _say(
            tally,
            "thread-look-alike" if alike else "thread-not-the-lugs",
            Grade.TAKE_CARE,
            of,
            says=(
                f"the {of} measure as {either(others)} and the lugs take {take} by the book:"
                f" {after}"
            ),
            remedy=f"Look whether the book has the right lug. {remedy}",
        )


def _recount(found: ThreadFound) -> str:
    return f"Count the threads again: the length fits {found.odds.candidates[0].threads_counted}."


def _say(tally: Tally, code: str, grade: Grade, of: str, *, says: str, remedy: str) -> None:
    tally.say(
        Finding(
            code=code,
            grade=grade,
            says=first_up(f"{says}."),
            where=of,
            unit="",
            rule="rod and lug have one thread",
            remedy=remedy,
        )
    )
