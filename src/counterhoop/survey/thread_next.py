"""The one more reading that would tell look-alike threads apart, and what to say of them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from counterhoop.survey.thread_candidates import Candidate, ThreadOdds
from counterhoop.survey.thread_odds import ALMOST_SURE, odds_words

Kind = Literal["count", "length", "twice the length", "flanks", "largest rod"]
DECIDES = 0.25
"""A reading that leaves no more confusion than this settles the matter."""
TELLS_NOTHING = 0.8
"""A reading that leaves more than this is not worth taking."""
_ROOT_3 = math.sqrt(3.0)
_TEN_DOUBT_MM = 0.05
_FLANK_DOUBT_DEG = 2.0
_LARGEST_SHARE = 0.01
"""Of several rods the largest lies within this of the basic size. Common practice, no source."""
_RECOUNT_WRONG = 0.01
"""A count over crests marked one by one is wrong this often. Common practice, no source."""
_OVER_TEN = "measure over ten threads too."
KEEP_PAIRS = (
    "Keep each rod with the insert it came from; where they do not run together by the fingers, "
    "change both for a pair of one standard."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class NextReading:
    """One further reading.

    Attributes
    ----------
    kind : str
        "count", "length", "twice the length", "flanks" or "largest rod".
    says : str
        How to take it.
    leaves : float
        Confusion left, 0 to 1: the Bhattacharyya overlap of what the candidates would show,
        weighted by their odds, against that before.
    """

    kind: Kind
    says: str
    leaves: float

    @property
    def decides(self) -> bool:
        """It settles the matter; otherwise it only narrows it."""
        return self.leaves <= DECIDES


def next_reading(found: ThreadOdds) -> NextReading | None:
    """Return the reading that tells the look-alikes apart; None when there are none.

    The easiest of those that settle it, else the one that tells most. Also None when no reading
    here does: two threads of one profile and pitch whose sizes lie within wear of each other.
    """
    alike = found.alike
    if len({candidate.thread.designation for candidate in alike}) < 2:
        return None
    readings = (*_recounts(found), *_readings(found))
    easiest = next((reading for reading in readings if reading.decides), None)
    best = easiest or min(readings, key=lambda reading: reading.leaves)
    return best if best.leaves <= TELLS_NOTHING else None


def _recounts(found: ThreadOdds) -> list[NextReading]:
    """Offer to count again, where candidates differ in how many threads were measured over."""
    pitch = found.reading.pitch
    if pitch is None or len({c.threads_counted for c in found.alike}) < 2:
        return []
    confused = 2 * math.sqrt(_RECOUNT_WRONG * (1 - _RECOUNT_WRONG))
    return [
        NextReading(
            kind="count",
            says=f"Count again, each crest marked with a pen: from the first crest, {pitch.threads}"
            f" threads end on crest {pitch.threads + 1}.",
            leaves=_left(
                found.alike,
                lambda one, other: (
                    1.0
                    if found.alike[one].threads_counted == found.alike[other].threads_counted
                    else confused
                ),
            ),
        )
    ]


def _readings(found: ThreadOdds) -> list[NextReading]:
    alike, pitch = found.alike, found.reading.pitch
    wide_mm = pitch.doubt_mm / pitch.threads if pitch else math.inf
    over: list[tuple[Kind, int]] = [("length", 10), ("twice the length", 20)]
    readings = [
        NextReading(
            kind=kind,
            says=f"Measure over {threads} threads with the caliper, crest to crest: that is "
            f"{threads + 1} crests, to {_TEN_DOUBT_MM:g} mm.",
            leaves=_bells(
                alike,
                [(c.thread.pitch_mm, _TEN_DOUBT_MM / threads / _ROOT_3) for c in alike],
            ),
        )
        for kind, threads in over
        if _TEN_DOUBT_MM / threads < 0.75 * wide_mm
    ]
    readings.append(
        NextReading(
            kind="flanks",
            says="Hold the blades of thread gauges against it and against the light: 60 degrees "
            "(metric, Unified), 55 (Whitworth) or 47.5 (BA); the blade that shows no light is it.",
            leaves=_bells(alike, [(c.thread.angle_deg, _FLANK_DOUBT_DEG / _ROOT_3) for c in alike]),
        )
    )
    readings.append(
        NextReading(
            kind="largest rod",
            says="Measure all the rods of the drum with the finest caliper you have, close under "
            "the head where the thread never ran, and take the largest: it is the least worn.",
            leaves=_bells(
                alike,
                [
                    (
                        c.thread.major_mm * (1 - _LARGEST_SHARE / 2),
                        c.thread.major_mm * _LARGEST_SHARE / 2 / _ROOT_3,
                    )
                    for c in alike
                ],
            ),
        )
    )
    return readings


def _bells(alike: tuple[Candidate, ...], shown: list[tuple[float, float]]) -> float:
    """Confusion left after a reading that each would show as (value, u)."""

    def overlap(one: int, other: int) -> float:
        (value, u), (its_value, its_u) = shown[one], shown[other]
        spread = u * u + its_u * its_u
        return math.sqrt(2 * u * its_u / spread) * math.exp(
            -((value - its_value) ** 2) / (4 * spread)
        )

    return _left(alike, overlap)


def _left(alike: tuple[Candidate, ...], overlap: Callable[[int, int], float]) -> float:
    """Confusion of the pairs after a reading, as a share of that before."""
    before = after = 0.0
    for one, other in combinations(range(len(alike)), 2):
        if alike[one].thread is alike[other].thread:
            continue
        weight = math.sqrt(alike[one].odds * alike[other].odds)
        before += weight
        after += weight * overlap(one, other)
    return after / before if before else 0.0


def thread_words(found: ThreadOdds) -> tuple[str, ...]:
    """Return what a colleague would say of a reading, one sentence or two to an item."""
    if found.unknown:
        return (
            "Fits no thread of the tables: measure again, over ten threads and on clean crests.",
            KEEP_PAIRS,
        )
    says = []
    lead, pitch = found.candidates[0], found.reading.pitch
    if found.miscounted and pitch is not None:
        says.append(
            f"Count again: as {pitch.threads} threads the length fits little, as "
            f"{lead.threads_counted} it fits {lead.thread.designation}. From the first crest, "
            f"{pitch.threads} threads end on crest {pitch.threads + 1}."
        )
    shares = found.shares
    first, *rest = (_named(name, found) for name in shares)
    odds = next(iter(shares.values()))
    if not rest and pitch is None:
        return (f"It is likely {first}. A diameter alone names no thread: {_OVER_TEN}", KEEP_PAIRS)
    if not rest:
        sure = "almost surely" if odds >= ALMOST_SURE else "likely"
        return (*says, f"It is {sure} {first}.", KEEP_PAIRS)
    if odds_words(odds) == "likely":
        says.append(f"It is likely {first}; it could be {_either(rest)}.")
    else:
        says.append(
            f"This reading cannot tell {', '.join([first, *rest[:-1]])} and {rest[-1]} apart."
        )
    reading = next_reading(found)
    says.append(
        reading.says + ("" if reading.decides else " It narrows them; some may stay alike.")
        if reading
        else "No one reading on the screw tells them apart: lay a known screw of each beside "
        "it and compare the crests."
    )
    return (*says, KEEP_PAIRS)


def _named(name: str, found: ThreadOdds) -> str:
    """Name a candidate, and the slip in counting that it would take."""
    pitch = found.reading.pitch
    counted = [c.threads_counted for c in found.alike if c.thread.designation == name]
    if pitch is None or found.miscounted or pitch.threads in counted:
        return name
    return f"{name} (if {counted[0]} threads were taken for {pitch.threads})"


def _either(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
