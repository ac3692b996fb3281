"""Tape, caliper and dial held against each other, and the reading that is most likely wrong."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import print_mm
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.round_across import Diameters
from counterhoop.survey.round_stations import equal_stations_deg

SLIPS = (
    (25.4, "an inch"),
    (10.0, "a centimetre"),
    (100.0, "ten centimetres"),
)
"""What a tape or caliper is misread by (common practice, no source)."""
DIAL_TURN_MM = 1.0


def girth_against_diameters(
    girth_mm: float, diameters: Diameters, *, girth_doubt_mm: float = 0.5, oval_mm: float = 6.0
) -> Finding | None:
    """Hold a tape's girth against pi times the mean diameter; None when they agree.

    Parameters
    ----------
    girth_mm : float
        From the tape, corrected for its thickness, on the same skin.
    girth_doubt_mm : float
        Half-width of its doubt.
    oval_mm : float
        Largest minus smallest diameter still thought real; with few directions it moves the mean
        diameter by up to half of that over their number.
    """
    sizes = diameters.diameter_mm
    allowed = (
        girth_doubt_mm
        + math.pi * diameters.resolution_mm
        + math.pi * oval_mm / (2.0 * len(sizes) ** 2)
    )
    off = girth_mm - math.pi * sum(sizes) / len(sizes)
    if abs(off) <= allowed:
        return None
    suspects = [*_girth_suspects(girth_mm, sizes, allowed)]
    for number, (angle, size) in enumerate(zip(diameters.along_deg, sizes, strict=True)):
        others = [*sizes[:number], *sizes[number + 1 :]]
        for right, why in _readings_meant(size):
            mended = [*others, right]
            left = girth_mm - math.pi * sum(mended) / len(mended)
            calmer = max(mended) - min(mended) <= max(oval_mm, 0.0)
            wilder = max(sizes) - min(sizes) > oval_mm
            if abs(left) <= allowed and calmer and wilder:
                suspects.append(f"the diameter at {angle:.0f} degrees, {why}")
    says = (
        f"the tape and the caliper disagree by {print_mm(abs(off), resolution_mm=0.5)} on the girth"
    )
    if suspects:
        says += "; most likely " + ", or ".join(suspects)
    return Finding(
        code="readings-disagree",
        grade=Grade.TAKE_CARE,
        says=says,
        where="girth and diameters",
        measured=off,
        limit=0.0,
        doubt=allowed,
        rule="girth is pi times the mean diameter",
        remedy="measure "
        + (suspects[0].split(",")[0] if len(suspects) == 1 else "girth and diameters")
        + " again",
    )


def _girth_suspects(girth_mm: float, sizes: Sequence[float], allowed: float) -> list[str]:
    expected = math.pi * sum(sizes) / len(sizes)
    return [
        f"the girth, {why}"
        for right, why in _readings_meant(girth_mm)
        if abs(right - expected) <= allowed
    ]


def _readings_meant(read: float) -> list[tuple[float, str]]:
    """Return what may have been meant by a reading, and the slip."""
    meant = [(read * 25.4, "in inches and not mm"), (read / 25.4, "in mm and taken for inches")]
    for size, name in SLIPS:
        meant += [(read - size, f"{name} too much"), (read + size, f"{name} too little")]
    return meant


def dial_turns_missed(readings: RadialReadings, *, near_mm: float = 0.15) -> tuple[Finding, ...]:
    """Name stations that lie a whole turn of the dial off the line of their neighbours.

    Each is held against the cubic through the two stations on either side; a shell does not step
    by a millimetre and back at one station. Needs eight equally spaced stations or more.
    """
    count = len(readings.radius_mm)
    equal = equal_stations_deg(count)
    if count < 8 or any(
        abs((a - b + 180.0) % 360.0 - 180.0) > 0.01
        for a, b in zip(readings.along_deg, equal, strict=True)
    ):
        return ()
    r = readings.radius_mm
    found = []
    steps = [
        r[i] - (4 * (r[i - 1] + r[(i + 1) % count]) - r[i - 2] - r[(i + 2) % count]) / 6.0
        for i in range(count)
    ]
    for i, step in enumerate(steps):
        turns = round(step / DIAL_TURN_MM)
        if turns == 0 or abs(step - turns * DIAL_TURN_MM) > near_mm:
            continue
        # The neighbours of a wrong reading look wrong too, by 4/6 of it: the worst is the one.
        around = [abs(steps[(i + k) % count]) for k in (-2, -1, 1, 2)]
        if abs(step) < max(around):
            continue
        way = "too far out" if turns > 0 else "too far in"
        found.append(
            Finding(
                code="dial-turn-missed",
                grade=Grade.TAKE_CARE,
                says=(
                    f"{readings.names[i]} reads {abs(turns)} mm {way} against its neighbours: "
                    "most likely a turn of the dial was miscounted"
                ),
                where=readings.names[i],
                along_deg=readings.along_deg[i],
                measured=step,
                limit=0.0,
                doubt=near_mm,
                remedy=f"read {readings.names[i]} again",
            )
        )
    return tuple(found)


def station_missed(
    readings: RadialReadings, diameters: Diameters, *, least_gain: float = 4.0
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
        At the directions of the same stations.
    least_gain : float
        How many times better the moved readings must agree.
    """
    radii = list(readings.radius_mm)
    count = len(radii)
    if count % 2 or count < 8:
        return None
    spacing = 360.0 / count
    across = {
        round((angle % 180.0) / spacing) % (count // 2): size
        for angle, size in zip(diameters.along_deg, diameters.diameter_mm, strict=True)
    }
    doubt = 3.0 * (diameters.resolution_mm + 2.0 * readings.resolution_mm)
    as_read = _misfit(radii, across)
    if as_read <= doubt or len(across) < 4:
        return None
    tried = {
        missed: _misfit([*radii[:missed], None, *radii[missed : count - 1]], across)
        for missed in range(1, count)
    }
    best = min(tried, key=lambda m: tried[m])
    if tried[best] * least_gain > as_read:
        return None
    return Finding(
        code="station-missed",
        grade=Grade.TAKE_CARE,
        says=(
            f"the radii do not make the diameters, but would if {readings.names[best]} had been "
            "missed and every later reading written one place early"
        ),
        where=readings.names[best],
        along_deg=readings.along_deg[best],
        measured=as_read,
        limit=doubt,
        doubt=tried[best],
        remedy=f"read the dial again from {readings.names[best - 1]} on",
    )


def _misfit(radii: Sequence[float | None], across: dict[int, float]) -> float:
    """Return the root mean square of diameters less what radii make of them."""
    half = len(radii) // 2
    off = []
    for number, size in across.items():
        first, second = radii[number], radii[number + half]
        if first is not None and second is not None:
            off.append(size - first - second)
    return math.sqrt(sum(o * o for o in off) / len(off))
