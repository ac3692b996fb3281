"""What truing by an edge's readings takes off, put into the finish plan before anything else."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.flat import End
from counterhoop.development.truing import Removal
from counterhoop.errors import BadInput
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import FinishPlan, KitSnare, Shorten
from counterhoop.survey.drum_survey import truing_of
from counterhoop.survey.truing_plan import TruingPlan


def trued(wanted: DrumWanted) -> DrumWanted:
    """Return the same wish with what the readings say in ``finish.truing``.

    An end that nothing is said of by readings keeps its plain length. Doing it twice changes
    nothing.

    Raises
    ------
    BadInput
        When an end is to be trued both by its readings and by a length, or has no readings.
    """
    plan = truing_plan(wanted)
    if plan is None:
        return wanted
    truing = wanted.finish.truing
    for end in _flattened(wanted):
        found = plan.truing.batter if end == "batter" else plan.truing.resonant
        _said_once(wanted, end, found)
        truing = replace(truing, **{end: found if _any(found) else Removal()})
    return replace(wanted, finish=replace(wanted.finish, truing=truing))


def truing_plan(wanted: DrumWanted) -> TruingPlan | None:
    """Return the planes that the edges are sanded to, station by station.

    None when no edge is trued by its readings. An edge that a wish cuts off is not trued.

    Raises
    ------
    BadInput
        When an edge to be trued has no readings.
    """
    ends = _flattened(wanted)
    flatten = wanted.finish.flatten
    if flatten is None or not ends:
        return None
    # A cut is made parallel to the edge that stays, whatever way that one lies.
    parallel = flatten.parallel and not _cut_ends(wanted)
    return truing_of(wanted.drum, replace(flatten, ends=ends, parallel=parallel))


def changes_anything(finish: FinishPlan) -> bool:
    """Whether a finish plan does anything to a drum of which nothing else is wished."""
    return finish.kind != "stays" or finish.truing.any or finish.flatten is not None


def _flattened(wanted: DrumWanted) -> tuple[End, ...]:
    if wanted.finish.flatten is None:
        return ()
    cut = _cut_ends(wanted)
    return tuple(end for end in wanted.finish.flatten.ends if end not in cut)


def _cut_ends(wanted: DrumWanted) -> tuple[End, ...]:
    return tuple(wish.end for wish in wanted.wishes if isinstance(wish, Shorten | KitSnare))


def _any(removal: Removal) -> bool:
    """Whether more comes off than the last digits of a calculation."""
    return abs(removal.mean_mm) + abs(removal.cos_mm) + abs(removal.sin_mm) > 1e-6


def _said_once(wanted: DrumWanted, end: End, found: Removal) -> None:
    said = wanted.finish.truing.batter if end == "batter" else wanted.finish.truing.resonant
    if said not in (Removal(), found):
        raise BadInput(
            "what comes off this edge is said twice",
            where=f"drums.{wanted.drum.key}.finish_plan",
            given=f"{said.mean_mm:.1f} mm and by its readings, {end} end",
            wanted="one of the two; wood to come off besides goes under fresh",
        )
