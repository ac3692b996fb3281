"""Say which thread a screw has, from what a caliper and a gauge say of it."""

from __future__ import annotations

import re

from counterhoop.errors import BadInput
from counterhoop.quantities.angle import parse_angle
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.quantities.thread_pitch import parse_thread_pitch
from counterhoop.scheme.findings.wording import both, either
from counterhoop.shell.readings import ThreadRead
from counterhoop.shell.survey_file.models_readings import ThreadWritten
from counterhoop.shell.survey_file.resolve_thread import resolve_threads
from counterhoop.standards.thread_drills import ThreadDrills, thread_drills
from counterhoop.standards.threads import Thread, all_threads
from counterhoop.standards.unlike_threads import unlike
from counterhoop.survey.drum_survey import ThreadFound, thread_found
from counterhoop.survey.thread_next import thread_words
from counterhoop.survey.thread_odds import LIKELY


def identify(
    outside: str, over: str = "", threads: int = 10, pitch: str = "", flanks: str = ""
) -> str:
    """Return what a colleague would say of a screw, a few lines.

    Parameters
    ----------
    outside : str
        Over the crests ("5.44 mm", "7/32 in").
    over : str
        Length over ``threads`` threads, from the first crest to the one after the last.
    threads : int
        How many threads that was.
    pitch : str
        By a gauge's blade instead ("24 tpi", "1 mm").
    flanks : str
        Whole angle between the flanks ("60", "47.5 deg").

    Raises
    ------
    BadInput
        For what cannot be read, or what no screw has.

    Examples
    --------
    >>> print(identify("5.40 mm", over="10.6 mm", flanks="60").splitlines()[1])
    It is almost surely 12-24 UNC.
    """
    found = thread_found(_read(outside, over, threads=threads, pitch=pitch, flanks=flanks))
    says = [f"Read: {', '.join(found.read.as_written)}.", *thread_words(found.odds)]
    lead = _lead(found)
    return "\n".join([*says, *(() if lead is None else _of(lead))])


def _read(outside: str, over: str, *, threads: int, pitch: str, flanks: str) -> ThreadRead:
    """Read what was typed, by the same limits as a survey file."""
    if threads < 1:
        raise BadInput("count the threads", where="threads", given=threads, wanted="10")
    whole = flanks.strip()
    bare = re.fullmatch(r"[0-9]+(?:[.,][0-9]+)?", whole)
    written = ThreadWritten.model_construct(
        of="screw",
        outside=parse_length(outside, where="outside", allow_zero=False),
        over=parse_length(over, where="over", allow_zero=False) if over.strip() else None,
        threads=threads if over.strip() else None,
        pitch=parse_thread_pitch(pitch, where="pitch") if pitch.strip() else None,
        flanks=parse_angle(f"{whole} deg" if bare else whole, where="flanks") if whole else None,
    )
    try:
        return resolve_threads([written], where="thread")[0]
    except BadInput as fault:
        raise BadInput(
            fault.what,
            where=fault.where.rpartition(".")[2],
            given=fault.given,
            wanted=fault.wanted,
            step=fault.step,
        ) from fault


def _lead(found: ThreadFound) -> Thread | None:
    """Return the thread that it is, almost surely or likely."""
    odds = found.odds
    name, share = next(iter(odds.shares.items()), ("", 0.0))
    if odds.unknown or share < LIKELY:
        return None
    return next(c.thread for c in odds.candidates if c.thread.designation == name)


def _of(thread: Thread) -> list[str]:
    """Say what is worth knowing of a thread: its size, what passes for it, its drills."""
    pitch = (
        f"{thread.threads_per_inch} to the inch"
        if thread.threads_per_inch
        else f"{thread.pitch_mm:g} mm from crest to crest"
    )
    across = print_mm(thread.major_mm, resolution_mm=CALIPER_MM)
    size = f"{thread.designation}: {across} over the crests, {pitch}, {thread.angle_deg:g} degrees."
    like = [t.designation for t in all_threads() if unlike(thread, t).verdict == "look-alike"]
    passes = [f"Looks like it and is not: {', '.join(like)}."] if like else []
    return [size, *passes, drill_words(thread_drills(thread))]


def drill_words(drills: ThreadDrills) -> str:
    """Say which drills go with a thread, and what its tables count as the whole of a thread."""
    taps = either(tap.drill.name for tap in drills.tap)
    shares = both(f"{tap.trade_percent:.0f}" for tap in drills.tap)
    screw = "" if drills.clearance_listed else " (in no table: the screw and half a millimetre)"
    return (
        f"New holes only: tap {taps} ({shares} % of thread; 100 % is {whole_thread(drills)});"
        f" clear {either(drill.name for drill in drills.clearance)}{screw}."
    )


def whole_thread(drills: ThreadDrills) -> str:
    """Say what counts as the whole of a thread: the trade's convention, by profile."""
    sharp = drills.thread.angle_deg == 60.0
    return "3/4 of the sharp V, as workshop tables count" if sharp else "its whole depth"
