"""A stroke or two, each read for itself: how their pitch stands to the plan."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.bench.tune.against_plan import PitchPlanned, against_plan, to_be_compared
from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.rods_at import RodsOfHead
from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, Advice
from counterhoop.quantities.print_pitch import cents, print_note, print_semitones
from counterhoop.shell.tuning import Stage

FARTHEST_CENTS = 400.0
"""Who is further off than that did hardly tap near a rod: common practice, no source.

In the middle an ideal film sounds 807 cents lower than near its rim; a drum's air lifts that.
"""
WHERE = "Whether it was near a rod: in the middle a drum has another pitch."
HOW_EVEN = "How even it is: taps near three rods or more tell that, one after another."


def advice_on_strokes(
    hz: Sequence[float],
    *,
    tune: DrumToTune,
    rods: RodsOfHead,
    stage: Stage,
    planned: PitchPlanned,
    even_enough_cents: float = EVEN_ENOUGH_CENTS,
) -> Advice | None:
    """Return how strokes near a rod, the other head muted, stand to what is planned.

    Parameters
    ----------
    hz : sequence of float
        The lowest tone of each stroke.
    tune, rods, stage, planned, even_enough_cents :
        As for ``advice_on``.

    Returns
    -------
    Advice or None
        None where no stroke was read, or a plan says nothing of the drum as it was then.
    """
    if not hz or not to_be_compared(tune, stage=stage, wished=planned.wished):
        return None
    middle = sorted(hz)[len(hz) // 2]
    off = cents(middle, above_hz=planned.hz)
    if abs(off) > FARTHEST_CENTS:
        return Advice(sentences=(_too_far(off, planned),), unknown=(WHERE, HOW_EVEN))
    said = against_plan(
        middle,
        doubt_hz=(max(hz) - min(hz)) / 2.0,
        tune=tune.at(stage),
        rods=rods,
        planned=planned,
        even_enough_cents=even_enough_cents,
    )
    told = tuple(line for line in (said.limit, said.says) if line)
    return Advice(sentences=told, unknown=(WHERE, HOW_EVEN))


def _too_far(off_cents: float, planned: PitchPlanned) -> str:
    way = "above" if off_cents > 0.0 else "below"
    note = print_note(planned.hz, a4_hz=planned.a4_hz)
    return (
        f"It is {print_semitones(off_cents)} {way} {note}, which is planned near each rod. Turn "
        "nothing by that: struck in the middle, or on the other head, a drum has another pitch. "
        "Tap two fingers from the edge near a rod, and listen again."
    )
