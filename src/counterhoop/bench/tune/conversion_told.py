"""What a second head does to a drum's sound, or what taking one off does."""

from __future__ import annotations

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.settled import USUAL_N_PER_M, settled_n_per_m
from counterhoop.heads.conversion import Conversion, conversion
from counterhoop.quantities.pitch import A4_HZ


def conversion_told(
    tune: DrumToTune,
    *,
    batter_n_per_m: float | None = None,
    bottom_cents: float = 0.0,
    a4_hz: float = A4_HZ,
) -> Conversion | None:
    """Return what changes when the chosen scheme gives a drum its second head, or takes it.

    Parameters
    ----------
    batter_n_per_m : float, optional
        Of the batter head, the same before and after. If left out, both heads are as tight as
        *Hear it* plays them: by their settled pitches, else as drums are usually tuned.
    bottom_cents : float
        How far the other head's pitch lies above the batter's, where that one's tension is given.

    Returns
    -------
    Conversion or None
        None where it keeps as many heads as it has, and for calf that nobody weighed.
    """
    if tune.heads_now == tune.heads_then:
        return None
    if tune.batter.head is None or tune.resonant.head is None:
        return None
    resonant_n_per_m = None
    if batter_n_per_m is None:
        batter_n_per_m = settled_n_per_m(tune) or USUAL_N_PER_M
        resonant_n_per_m = settled_n_per_m(tune, "resonant") or USUAL_N_PER_M
    return conversion(
        radius_m=tune.radius_m,
        depth_m=tune.depth_m,
        batter=tune.batter.head,
        batter_n_per_m=batter_n_per_m,
        resonant=tune.resonant.head,
        resonant_n_per_m=resonant_n_per_m,
        bottom_cents=bottom_cents,
        adds=tune.heads_then > tune.heads_now,
        a4_hz=a4_hz,
    )
