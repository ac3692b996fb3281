"""The drills of a thread: to tap it and to let its screw pass, in every set of drills."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.standards.clearance import clearance_hole_mm
from counterhoop.standards.drills import Drill, System, all_drills
from counterhoop.standards.thread_geometry import (
    internal_minor_mm,
    tap_drill_mm,
    thread_percent,
)
from counterhoop.standards.threads import Thread

SETS: tuple[System, ...] = ("metric", "number", "letter", "fraction")
PERCENT = 75.0
LEAST_PERCENT = 50.0
"""A drill that leaves less thread than this is none for tapping: common practice, no source."""
OFF_MM = 0.25
"""A drill further than this from a clearance hole is another hole: common practice, no source."""
ROOM_MM = 0.5
"""Added to a screw whose clearance hole no table lists: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TapDrill:
    """A drill for tapping, and how much thread it leaves by both conventions.

    ``trade_percent`` counts three quarters of the sharp triangle on each side as 100 (American and
    most workshop tables), ``iso_percent`` the overlap of ISO 68-1; they are one for Whitworth and
    BA.
    """

    drill: Drill
    trade_percent: float
    iso_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadDrills:
    """What to drill for a thread.

    Attributes
    ----------
    thread : Thread
        Which.
    tap_mm : float
        Hole that leaves ``percent`` of thread by the trade's convention.
    tap : tuple of TapDrill
        Nearest of each set, never below the basic minor diameter of the nut.
    clearance_mm : float
        Hole for the screw to pass.
    clearance_listed : bool
        Whether a table says so; otherwise it is the screw and half a millimetre.
    clearance : tuple of Drill
        Nearest of each set, never below the screw.
    """

    thread: Thread
    percent: float
    tap_mm: float
    tap: tuple[TapDrill, ...]
    clearance_mm: float
    clearance_listed: bool
    clearance: tuple[Drill, ...]

    def tap_in(self, system: System) -> TapDrill | None:
        """Return the drill for tapping of one set; None where the set has none."""
        return next((tap for tap in self.tap if tap.drill.system == system), None)

    def clearance_in(self, system: System) -> Drill | None:
        """Return the clearance drill of one set; None where the set has none."""
        return next((drill for drill in self.clearance if drill.system == system), None)


def thread_drills(thread: Thread, *, percent: float = PERCENT) -> ThreadDrills:
    """Return the drills of a thread.

    Parameters
    ----------
    thread : Thread
        What is tapped, or passes.
    percent : float
        Of thread, by the trade's convention.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> drills = thread_drills(find_thread("12-24"))
    >>> [tap.drill.name for tap in drills.tap], round(drills.tap_in("number").trade_percent)
    (['4.5 mm', 'No. 16', '11/64 in'], 72)
    >>> [drill.name for drill in drills.clearance]
    ['5.8 mm', 'No. 1', 'A', '15/64 in']
    """
    tap_mm = tap_drill_mm(thread, percent=percent)
    clearance_mm, listed = _clearance_mm(thread)
    passes = [_near(clearance_mm, system, least_mm=thread.major_mm) for system in SETS]
    taps = [_near(tap_mm, system, least_mm=internal_minor_mm(thread)) for system in SETS]
    return ThreadDrills(
        thread=thread,
        percent=percent,
        tap_mm=tap_mm,
        tap=tuple(
            tap
            for drill in taps
            if drill is not None
            for tap in (_tap(thread, drill),)
            if tap.trade_percent >= LEAST_PERCENT
        ),
        clearance_mm=clearance_mm,
        clearance_listed=listed,
        clearance=tuple(
            drill
            for drill in passes
            if drill is not None and abs(drill.diameter_mm - clearance_mm) <= OFF_MM
        ),
    )


def _clearance_mm(thread: Thread) -> tuple[float, bool]:
    try:
        return clearance_hole_mm(thread), True
    except BadInput:
        return thread.major_mm + ROOM_MM, False


def _tap(thread: Thread, drill: Drill) -> TapDrill:
    return TapDrill(
        drill=drill,
        trade_percent=thread_percent(thread, drill_mm=drill.diameter_mm),
        iso_percent=thread_percent(thread, drill_mm=drill.diameter_mm, convention="iso"),
    )


def _near(size_mm: float, system: System, *, least_mm: float) -> Drill | None:
    """Return the drill of a set nearest to a size and not below ``least_mm``."""
    allowed = (d for d in all_drills(system=system) if d.diameter_mm >= least_mm - 1e-9)
    return min(allowed, key=lambda drill: abs(drill.diameter_mm - size_mm), default=None)
