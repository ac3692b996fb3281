"""Slips with a dial or a bar: a turn miscounted, a station missed, one reading astray."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.round_across import Diameters
from counterhoop.survey.round_stations import equal_steps
from counterhoop.survey.round_stray import LEAST_STATIONS, Stray, worst_stray
from counterhoop.survey.slips import any_of, slip_between
from counterhoop.survey.uncertainty import combine, from_resolution

DIAL_STEP_MM = 0.1
"""What reads in finer steps than this is a dial; coarser is a bar, a card or a rule."""
TURN_MM, INCH_TURN_MM = 1.0, 2.54
"""One turn of a dial in hundredths of a millimetre, and of one in thousandths of an inch (common
practice, no source)."""
INCH_DIALS_MM = (0.0254, 0.0127)
LEAST_DIRECTIONS = 4
SURE_STATIONS = 12
"""At fewer an honest edge often has one station that its neighbours do not foretell: of edges made
up with a tenth of a millimetre of roughness, 4 in 100 at eight stations and 4 in 1000 at twelve."""
MENDED = 0.25
"""A run is named when mending it leaves no more of the roughness than this."""


def dial_turn_mm(resolution_mm: float) -> float:
    """Return what one turn of the dial with this smallest step measures.

    Examples
    --------
    >>> dial_turn_mm(0.01), dial_turn_mm(0.0254)
    (1.0, 2.54)
    """
    inches = any(math.isclose(resolution_mm, step, rel_tol=0.01) for step in INCH_DIALS_MM)
    return INCH_TURN_MM if inches else TURN_MM


def dial_turns_missed(
    readings: RadialReadings, *, end_says: str = "", near_mm: float = 0.15
) -> tuple[Finding, ...]:
    """Name stations, alone or in a run, that lie a whole turn of the dial off their neighbours.

    A shell does not step by a millimetre and back, but a turn that was lost stays lost until the
    dial comes round again. Needs eight equally spaced stations or more, and a dial.
    """
    count = len(readings.radius_mm)
    if (
        count < LEAST_STATIONS
        or readings.resolution_mm >= DIAL_STEP_MM
        or not equal_steps(readings.along_deg)
    ):
        return ()
    turn_mm = dial_turn_mm(readings.resolution_mm)
    values = list(readings.radius_mm)
    found: list[Finding] = []
    for _ in range(count // 4):
        stray = worst_stray(values, longest=count // 2)
        if stray is None or stray.left > MENDED:
            break
        turns = round(stray.step_mm / turn_mm)
        if turns == 0 or abs(stray.step_mm - turns * turn_mm) > near_mm:
            break
        for k in range(stray.count):
            values[(stray.first + k) % count] -= turns * turn_mm
        found.append(_turn(readings, stray, turns, end_says=end_says, off_mm=turns * turn_mm))
    return tuple(replace(one, doubt=near_mm) for one in found)


def _turn(
    readings: RadialReadings, stray: Stray, turns: int, *, end_says: str, off_mm: float
) -> Finding:
    first = readings.names[stray.first]
    last = readings.names[(stray.first + stray.count - 1) % len(readings.names)]
    where = first if stray.count == 1 else f"{first} to {last}"
    way = "out" if turns > 0 else "in"
    counted = "a turn of the dial was" if abs(turns) == 1 else f"{abs(turns)} turns were"
    return Finding(
        code="dial-turn-missed",
        grade=Grade.TAKE_CARE,
        says=(
            f"{_up(where)}{_of(end_says)} {'reads' if stray.count == 1 else 'read'} "
            f"{print_mm(abs(off_mm), resolution_mm=CALIPER_MM)} too far {way} against the stations "
            f"beside: most likely {counted} miscounted."
        ),
        where=_where(end_says, where),
        along_deg=readings.along_deg[stray.first],
        measured=stray.step_mm,
        limit=0.0,
        rule="a shell does not step and back",
        remedy=f"Read {where} again, from {readings.names[stray.first - 1]} on.",
    )


def reading_astray(
    along_deg: Sequence[float],
    values_mm: Sequence[float],
    *,
    names: Sequence[str],
    of: str,
    least_mm: float,
    step_mm: float,
) -> Finding | None:
    """Name the one reading that does not lie with its neighbours, and the slip that explains it.

    Parameters
    ----------
    along_deg, values_mm : sequence of float
        Equally spaced stations, at least eight, else nothing is said.
    names : sequence of str
        Of the stations.
    of : str
        What was read where ("edge heights of the batter end").
    least_mm : float
        A step smaller than this may well be the drum.
    step_mm : float
        The instrument's smallest step.
    """
    if len(values_mm) < LEAST_STATIONS or not equal_steps(along_deg):
        return None
    stray = worst_stray(values_mm, longest=1)
    if stray is None or stray.left > MENDED / 2.0:
        return None
    read = values_mm[stray.first]
    right = read - stray.step_mm
    # What its neighbours make of it is no surer than they are rough.
    rough_mm = abs(stray.step_mm) * math.sqrt(stray.left) + step_mm
    # A slip leaves a gap a gap: what would have to change its side of the plate is no slip.
    right = max(0.0, right) if read > 0.0 else min(0.0, right)
    slip = slip_between(abs(read), abs(right), within_mm=rough_mm, least_mm=step_mm)
    if not slip or len(values_mm) < SURE_STATIONS:
        enough_mm = least_mm
    else:
        enough_mm = max(4.0 * step_mm, 2.0 * rough_mm)
    if abs(stray.step_mm) < enough_mm:
        return None
    name = names[stray.first]
    shown = print_mm(abs(stray.step_mm), resolution_mm=max(step_mm, CALIPER_MM))
    return Finding(
        code="reading-astray",
        grade=Grade.TAKE_CARE,
        says=f"{_up(name)} of the {of} lies {shown} off the stations beside it"
        + (f": most likely it was written {slip}." if slip else ": a slip, or damage there."),
        where=f"{of}, {name}",
        along_deg=along_deg[stray.first],
        measured=stray.step_mm,
        limit=0.0,
        doubt=rough_mm,
        rule="the line of the stations beside",
        remedy=f"Read {name} again.",
    )


def station_missed(
    readings: RadialReadings,
    diameters: Diameters,
    *,
    end_says: str = "",
    least_gain: float = 3.0,
) -> Finding | None:
    """Say after which station one was left out, so that all later readings stand one place early.

    Diameters do not depend on where the bar stood. If the radii as written make them badly, and
    make them well once every reading from some station on is moved along by one, that station was
    missed. None when the radii agree with the diameters, or no such place explains it.

    Parameters
    ----------
    readings : RadialReadings
        An even number of equally spaced stations; the last is then one read twice or made up.
    diameters : Diameters
        At the directions of the same stations, four of them or more.
    least_gain : float
        How many times better the moved readings must agree.
    """
    radii = np.asarray(readings.radius_mm)
    count = len(radii)
    if count % 2 or count < LEAST_STATIONS or not equal_steps(readings.along_deg):
        return None
    spacing = 360.0 / count
    across: dict[int, float] = {}
    for angle, size in zip(diameters.along_deg, diameters.diameter_mm, strict=True):
        steps = ((angle - readings.along_deg[0]) % 180.0) / spacing
        if abs(steps - round(steps)) < 0.1:
            across[round(steps) % (count // 2)] = size
    one = combine(
        (from_resolution(diameters.resolution_mm), from_resolution(readings.resolution_mm)),
        sensitivities=(1.0, math.sqrt(2.0)),
    )
    doubt = 4.0 * one
    if len(across) < LEAST_DIRECTIONS:
        return None
    misfit_as_read, tried = _misfits(radii, across)
    best = int(np.argmin(tried))
    as_read = float(misfit_as_read[best])
    if as_read <= doubt or tried[best] * least_gain > as_read:
        return None
    # Where neighbours read alike, nobody can say which of them was missed.
    near = np.flatnonzero(tried <= max(1.5 * float(tried[best]), 2.0 * one)) + 1
    name = any_of(readings.names[m] for m in near)
    return Finding(
        code="station-missed",
        grade=Grade.TAKE_CARE,
        says=(
            f"The radii{_of(end_says)} do not make the diameters, but would if {name} had been "
            "missed and every later reading written one place early."
        ),
        where=_where(end_says, name),
        along_deg=readings.along_deg[near[0]],
        measured=as_read,
        limit=doubt,
        doubt=float(tried[best]),
        rule="two radii make a diameter",
        remedy=f"Read the radii again from {readings.names[near[0] - 1]} on.",
    )


def _misfits(
    radii: NDArray[np.float64], across: dict[int, float]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return how badly radii make diameters, for each station that may have been missed.

    As read, and with every later reading moved along by one: roots of mean squares, the mean
    apart, as a zero of the dial that is wrong makes every diameter wrong alike. Both are over the
    same diameters, without the one at the station missed: leaving out a diameter that is wrong
    would mend things too.
    """
    count = len(radii)
    missed = np.arange(1, count)[:, None]
    moved = radii[np.arange(count) - (np.arange(count) > missed)]
    at, sizes = np.array(list(across)), np.array(list(across.values()))
    kept = (at != missed % (count // 2)).astype(float)
    found = []
    for made in (np.broadcast_to(radii, moved.shape), moved):
        off = sizes - made[:, at] - made[:, at + count // 2]
        mean = (kept * off).sum(axis=1) / kept.sum(axis=1)
        squares = kept * (off - mean[:, None]) ** 2
        found.append(np.sqrt(squares.sum(axis=1) / kept.sum(axis=1)))
    return found[0], found[1]


def _of(end_says: str) -> str:
    return f" of the {end_says}" if end_says else ""


def _where(end_says: str, where: str) -> str:
    return f"{end_says}, {where}" if end_says else where


def _up(text: str) -> str:
    return text[:1].upper() + text[1:]
