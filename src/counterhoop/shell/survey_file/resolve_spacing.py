"""Where the lugs of a row stand along: equally, by the gaps between them, or each by its place."""

from __future__ import annotations

import math
from functools import cache
from itertools import accumulate, pairwise

from counterhoop.development.chord import arc_mm
from counterhoop.development.tape import Closing, close_gaps
from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.models_hole import RowWritten
from counterhoop.shell.survey_file.resolve_along import Angle, PlaceFinder


def lug_angles(
    written: RowWritten, *, finder: PlaceFinder, where: str
) -> tuple[list[Angle], Closing | None]:
    """Return where the row puts each lug, to be worked out when asked for, and how gaps close.

    Gaps are shared out over a full turn in proportion, so that neither the tape's thickness nor a
    small misfit drifts from lug to lug; gaps that close only as chords are first taken along the
    skin.
    """
    if written.along is not None:
        return _listed(written, finder=finder, where=where), None
    if written.first is None:
        raise BadInput(
            "where along is lug 1?",
            where=where,
            wanted='first = "22.5 deg", or along, a list of every lug\'s place',
        )
    if written.gaps is None:
        shares = [index / written.lugs for index in range(written.lugs)]
        closing = None
    else:
        closing = _close(written, finder=finder, where=where)
        shares = _shares([gap.mm for gap in written.gaps], closing=closing)

    first = written.first

    @cache
    def start() -> float:
        return finder.find(first, where=f"{where}.first")

    return [_further(start, 360.0 * share) for share in shares], closing


def _further(start: Angle, by_deg: float) -> Angle:
    return lambda: (start() + by_deg) % 360.0


def _close(written: RowWritten, *, finder: PlaceFinder, where: str) -> Closing:
    gaps = written.gaps or ()
    if len(gaps) != written.lugs:
        raise BadInput(
            f"{len(gaps)} gaps between {written.lugs} lugs",
            where=f"{where}.gaps",
            wanted=f"{written.lugs} gaps, the last one back to lug 1",
        )
    return close_gaps([gap.mm for gap in gaps], girth_mm=finder.read_girth_mm)


def _shares(gaps_mm: list[float], *, closing: Closing) -> list[float]:
    if closing.cause == "chords":
        radius_mm = closing.girth_mm / (2.0 * math.pi)
        gaps_mm = [arc_mm(gap, radius_mm=radius_mm) for gap in gaps_mm]
    if closing.suspect is not None and closing.corrected_mm and closing.corrected_mm > 0.0:
        gaps_mm = list(gaps_mm)
        gaps_mm[closing.suspect] = closing.corrected_mm
    total = sum(gaps_mm)
    return [0.0, *(so_far / total for so_far in list(accumulate(gaps_mm))[:-1])]


def _listed(written: RowWritten, *, finder: PlaceFinder, where: str) -> list[Angle]:
    places = written.along or ()
    if written.first is not None or written.gaps is not None:
        name = "first" if written.first is not None else "gaps"
        raise BadInput(
            f"every lug's place and {name} are both written",
            where=f"{where}.{name}",
            wanted="along for every lug, or first with equal spacing, or first with gaps",
        )
    if len(places) != written.lugs:
        raise BadInput(
            f"{len(places)} places for {written.lugs} lugs",
            where=f"{where}.along",
            wanted=f"{written.lugs} places along",
        )

    @cache
    def all_deg() -> tuple[float, ...]:
        found = tuple(
            finder.find(place, where=f"{where}.along[{index}]")
            for index, place in enumerate(places, 1)
        )
        steps = [(b - a) % 360.0 for a, b in pairwise((*found, found[0]))]
        if len(found) > 1 and (min(steps) == 0.0 or abs(sum(steps) - 360.0) > 1e-6):
            raise BadInput(
                "the lugs do not follow each other along",
                where=f"{where}.along",
                given=", ".join(place.as_written for place in places),
                wanted="lugs numbered along, each further than the one before",
            )
        return found

    def nth(index: int) -> Angle:
        return lambda: all_deg()[index]

    return [nth(index) for index in range(written.lugs)]
