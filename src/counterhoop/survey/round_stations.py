"""Stations round the rim: what readings taken there must satisfy."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.errors import BadInput

LEAST_STATIONS = 4
LEAST_APART_DEG = 0.01


def equal_stations_deg(count: int) -> tuple[float, ...]:
    """Return the angles of equally spaced stations; station 1 lies at the datum.

    Examples
    --------
    >>> equal_stations_deg(4)
    (0.0, 90.0, 180.0, 270.0)
    """
    return tuple(360.0 * i / count for i in range(count))


def equal_steps(along_deg: Sequence[float]) -> bool:
    """Tell whether stations follow each other at equal steps, from any first one."""
    apart = [
        (here - there - along_deg[0] + 180.0) % 360.0 - 180.0
        for here, there in zip(along_deg, equal_stations_deg(len(along_deg)), strict=True)
    ]
    return max(abs(a) for a in apart) <= LEAST_APART_DEG


def station_names(count: int) -> tuple[str, ...]:
    """Return "station 1", "station 2" and so on."""
    return tuple(f"station {i}" for i in range(1, count + 1))


def gaps_deg(along_deg: Sequence[float]) -> tuple[float, ...]:
    """Return the steps from each station, in order of angle, to the next one round the rim."""
    turned = sorted(a % 360.0 for a in along_deg)
    ends = [*turned[1:], turned[0] + 360.0]
    return tuple(after - before for before, after in zip(turned, ends, strict=True))


def shares(along_deg: Sequence[float]) -> tuple[float, ...]:
    """Return the share of the rim that each station stands for; they add up to 1.

    A station reaches half way to each neighbour.

    Examples
    --------
    >>> shares((0.0, 90.0, 180.0))
    (0.375, 0.25, 0.375)
    """
    order = sorted(range(len(along_deg)), key=lambda i: along_deg[i] % 360.0)
    steps = gaps_deg(along_deg)
    found = [0.0] * len(order)
    for rank, index in enumerate(order):
        found[index] = (steps[rank - 1] + steps[rank]) / 720.0
    return tuple(found)


def check_stations(along_deg: Sequence[float], values: Sequence[float], *, where: str) -> None:
    """Refuse readings that do not belong to at least four different places.

    Raises
    ------
    BadInput
        Fewer than four stations, not one reading for each, a reading that is no number, or two
        stations less than 0.01 degrees apart.
    """
    if len(along_deg) != len(values):
        raise BadInput(
            "not one reading for each station",
            where=where,
            given=f"{len(values)} readings at {len(along_deg)} stations",
            wanted="as many readings as stations",
            step="see whether a station was missed or read twice",
        )
    if len(values) < LEAST_STATIONS:
        raise BadInput(
            "too few stations",
            where=where,
            given=len(values),
            wanted="at least 4, better 16 or more",
            step="read more places round the rim",
        )
    for i, (angle, value) in enumerate(zip(along_deg, values, strict=True), 1):
        if not (math.isfinite(angle) and math.isfinite(value)):
            raise BadInput(
                f"the reading of station {i} is no number",
                where=where,
                given=(angle, value),
                wanted="an angle and a reading in mm",
            )
    if min(gaps_deg(along_deg)) < LEAST_APART_DEG:
        raise BadInput(
            "two stations lie at the same place",
            where=where,
            given=f"{min(gaps_deg(along_deg)):.4f} degrees apart",
            wanted="every station once",
            step="keep one of the two readings, or their mean",
        )
