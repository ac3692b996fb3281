"""What to turn after taps round the rim, by all that is known of the drum."""

from __future__ import annotations

from typing import Final

from counterhoop.bench.tune.against_plan import PitchPlanned, against_plan, to_be_compared
from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.rods_at import RodsOfHead
from counterhoop.bench.tune.split_per_turn import at_most_cents_per_turn, calibration_of
from counterhoop.development.flat import End
from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, Advice, Way, advise
from counterhoop.listen.advice_words import HOOP_HEIGHTS
from counterhoop.listen.hoop_heights import HoopHeights, read_hoop_heights
from counterhoop.listen.round_rim import RimReading
from counterhoop.shell.tuning import Stage

MUTE_FIRST = (
    "The other head was not muted, and it sounds along: mute it with a folded cloth and tap round "
    "again before anything is turned."
)

SITTINGS: Final[dict[Stage, str]] = {
    "before": "before anything was turned",
    "between": "on the way",
    "after": "after the work",
}


def advice_on(
    rim: RimReading,
    *,
    tune: DrumToTune,
    rods: RodsOfHead,
    stage: Stage,
    muted: bool = True,
    planned: PitchPlanned | None = None,
    even_enough_cents: float = EVEN_ENOUGH_CENTS,
    way: Way = "both",
) -> Advice:
    """Return what to turn, with all that is known of the drum beside the taps.

    Parameters
    ----------
    muted : bool
        Whether the other head was: while it rings along nothing is to be turned.
    planned : PitchPlanned, optional
        What that head is to sound like.
    """
    if rim.coupled_pair:
        return Advice(sentences=rim.ask)
    if tune.at(stage).heads_then > 1 and not muted:
        return Advice(sentences=(MUTE_FIRST,))
    head, hz = rods.head, rim.mean_hz
    wished = planned is not None and planned.wished
    compared = planned if to_be_compared(tune, stage=stage, wished=wished) else None
    tune = tune.at(stage)
    pitch = None
    if hz:
        pitch = against_plan(
            hz,
            doubt_hz=rim.mean_doubt_hz or 0.0,
            tune=tune,
            rods=rods,
            planned=compared,
            even_enough_cents=even_enough_cents,
        )
    return advise(
        rim,
        rods=len(rods.rods),
        rod_deg=rods.along_deg,
        calibration=calibration_of(tune, head, hz=hz) if hz else None,
        at_most_cents_per_turn=at_most_cents_per_turn(tune, head, hz=hz) if hz else None,
        oval_mm=tune.oval(head),
        diameter_mm=tune.diameter_mm,
        film=not tune.taken(head).calf,
        hoop=hoop_heights_of(tune, rods, stage=stage),
        no_hoop=_no_hoop(tune, head),
        pitch=pitch,
        way=way,
        even_enough_cents=even_enough_cents,
    )


def hoop_heights_of(tune: DrumToTune, rods: RodsOfHead, *, stage: Stage) -> HoopHeights | None:
    """Return what the last heights of the hoop say that were read at that stage; None without."""
    for heights in reversed(tune.tuning.heights):
        at_hand = heights.head == rods.head and heights.stage == stage
        if at_hand and len(heights.at_mm) == len(rods.rods):
            return read_hoop_heights(
                heights.at_mm,
                along_deg=rods.along_deg,
                hoop_flat=heights.hoop_flat or None,
                thread_pitch_mm=rods.thread.pitch_mm,
            )
    return None


def _no_hoop(tune: DrumToTune, head: End) -> str:
    """Say which sitting the heights of the hoop belong to that are written, where not to this."""
    stages = [one.stage for one in tune.tuning.heights if one.head == head]
    if not stages:
        return HOOP_HEIGHTS
    return (
        f"The heights of the hoop that are written were read {SITTINGS[stages[-1]]}, and say "
        "nothing of how it stands now: read them again at every rod."
    )
