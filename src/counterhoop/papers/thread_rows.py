"""The rows of the thread list as plain data."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

from counterhoop.papers.facts import Lengths, listed
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.scheme.findings.threads_read import belonging
from counterhoop.scheme.rod_states import RodState
from counterhoop.standards.thread_drills import SETS, thread_drills
from counterhoop.standards.threads import Thread
from counterhoop.survey.drum_survey import ThreadFound
from counterhoop.survey.thread_next import next_reading
from counterhoop.survey.thread_odds import LIKELY, odds_words

NO_THREAD = "no thread of the tables"
NONE = "–"


def thread_rows(
    threads: Sequence[ThreadFound], *, takes: Callable[[str], tuple[str, ...]]
) -> list[dict[str, Any]]:
    """Return a line for each screw that was read.

    Parameters
    ----------
    threads : sequence of ThreadFound
        As the survey found them.
    takes : callable
        The threads that the lugs of a head take, by the head's name.
    """
    return [_thread(found, lugs=takes(found.read.head)) for found in threads]


def _thread(found: ThreadFound, *, lugs: tuple[str, ...]) -> dict[str, Any]:
    shares = {} if found.odds.unknown else found.odds.shares
    lead = next(iter(shares.values()), 0.0)
    may_be = [{"name": name, "odds": odds_words(share)} for name, share in shares.items()]
    return {
        "of": found.read.of,
        "read": list(found.read.as_written) or [f"outside {_size(found.read.outside_mm)}"],
        "can-tell": lead >= LIKELY,
        "may-be": may_be or [{"name": NO_THREAD, "odds": ""}],
        "lugs": listed(lugs) or NONE,
        "goes": _goes(found, lugs),
        "next": _next(found),
    }


def _size(value_mm: float) -> str:
    return print_mm(value_mm, resolution_mm=CALIPER_MM)


def _goes(found: ThreadFound, lugs: tuple[str, ...]) -> str:
    """Say whether what was read goes into the lugs."""
    if not lugs:
        return NONE if found.read.head else "no rod"
    if found.odds.unknown:
        return "can't tell"
    ours, others = belonging(found, lugs)
    if ours and others:
        return f"only if it is {listed(ours)}"
    return "yes" if ours else "no: do not try"


def _next(found: ThreadFound) -> str:
    """Say which reading to take next."""
    odds = found.odds
    if odds.unknown:
        return "Measure again, over ten threads and on clean crests."
    says = []
    if odds.miscounted:
        lead = odds.candidates[0]
        says.append(f"Count again: the length is that of {lead.threads_counted} threads.")
    reading = next_reading(odds)
    if reading is not None:
        says.append(reading.says)
    elif len(odds.shares) > 1:
        says.append("Lay a known screw of each beside it and compare the crests.")
    elif odds.reading.pitch is None:
        says.append("Measure over ten threads too.")
    return " ".join(says) or "None is needed."


def rod_rows_before_and_after(states: Sequence[RodState], *, say: Lengths) -> list[dict[str, Any]]:
    """Return a line for the rods of each head; lengths are under the rod's head."""
    return [_rods(state, say=say) for state in states]


def _rods(state: RodState, *, say: Lengths) -> dict[str, Any]:
    stand = state.stand
    return {
        "head": state.head,
        "count": state.count,
        "thread": state.thread or "not known",
        "unknown": state.unknown,
        "before": _span(state.before_mm, say=say),
        "after": _span(state.after_mm, say=say),
        "take": _take(state, say=say),
        "finger": NONE if stand is None else _engaged(stand.finger_mm, say=say),
        "pitch": NONE if stand is None else _engaged(stand.pitch_mm, say=say),
        "room": NONE if stand is None else _room(stand.room_mm, say=say),
        "splay": _splay(state, say=say),
    }


def _span(span: tuple[float, float] | None, *, say: Lengths) -> list[str]:
    """Print the lengths that serve, the inches on a line of their own."""
    if span is None:
        return [NONE]
    least, most = span
    one, one_in = say.cell(least)
    if math.isinf(most):
        return [f"{one} mm or more", *([one_in] if one_in else [])]
    other, other_in = say.cell(most)
    if most < least:
        return ["no length:", f"{one} mm to engage, {other} mm to stay off the bottom"]
    inches = [f"{one_in.removesuffix(' in')} to {other_in}"] if one_in else []
    return [f"{one} to {other} mm", *inches]


def _engaged(engaged_mm: float, *, say: Lengths) -> str:
    return say.length(engaged_mm) if engaged_mm >= 0.25 else "none"


def _room(room_mm: float, *, say: Lengths) -> str:
    if math.isinf(room_mm):
        return "not known"
    return f"bottoms {say.length(-room_mm)} early" if room_mm < 0.0 else say.length(room_mm)


def _take(state: RodState, *, say: Lengths) -> list[str]:
    """Say which rods to take: the one chosen or the nearest, then what lies on the shelf."""
    if state.rod is None:
        return ["none of this thread in the book: have them cut to length"]
    stock = f", {state.in_stock} in stock" if state.in_stock else ""
    if state.serves:
        says = [f"{state.rod.name}{stock}"]
    else:
        says = [f"none serves; nearest is {state.rod.name}{_off(state, say=say)}"]
    if state.rod_before is not None and state.rod_before.name != state.rod.name:
        says.append(f"before truing it was {state.rod_before.name}")
    says += [f"{name} would do too, {there} in stock" for name, there in state.also]
    return says


def _off(state: RodState, *, say: Lengths) -> str:
    if state.after_mm is None or state.rod is None or state.rod.rod_length_mm is None:
        return ""
    length, (least, most) = state.rod.rod_length_mm, state.after_mm
    if length < least:
        return f", {say.length(least - length)} short"
    return f", {say.length(length - most)} too long" if length > most else ", its shank in the way"


def _splay(state: RodState, *, say: Lengths) -> str:
    if state.splay_mm is None:
        return "not known"
    if abs(state.splay_mm) < 0.25:
        return "none"
    side = "out" if state.splay_mm > 0.0 else "in"
    lean = "" if state.splay_deg is None else f", leans {state.splay_deg:.0f}°"
    if state.splay_deg is not None and state.splay_deg < 0.5:
        lean = ", the ear's play takes it"
    return f"{say.length(abs(state.splay_mm))} {side}{lean}"


def drill_rows(threads: Sequence[Thread]) -> list[dict[str, Any]]:
    """Return a line for each thread: its size and its drills, set by set."""
    rows = []
    for thread in threads:
        drills = thread_drills(thread)
        taps = [drills.tap_in(system) for system in SETS]
        passes = [drills.clearance_in(system) for system in SETS]
        pitch = f"{thread.threads_per_inch} tpi" if thread.threads_per_inch else ""
        rows.append(
            {
                "thread": thread.designation,
                "across": _size(thread.major_mm),
                "pitch": pitch or f"{thread.pitch_mm:g} mm",
                "flanks": f"{thread.angle_deg:g}°",
                "tap": [NONE if t is None else _short(t.drill.name) for t in taps],
                "percent": ["" if t is None else f"{t.trade_percent:.0f} %" for t in taps],
                "clear": [NONE if d is None else _short(d.name) for d in passes],
                "listed": drills.clearance_listed,
            }
        )
    return rows


def _short(name: str) -> str:
    """Name a drill without what the head of its column says."""
    return name.removesuffix(" in").removesuffix(" mm").removeprefix("No. ")
