"""How tight a head is to be: by the pitch that was settled for it, else as drums usually are."""

from __future__ import annotations

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.heads.tension import tension_from_pitch

USUAL_N_PER_M = 2000.0
"""Neither slack nor tight: what lets a tom sing. Common practice, no source."""


def settled_n_per_m(tune: DrumToTune, end: End = "batter") -> float | None:
    """Return the tension of a head by the pitch near its rods that was settled by hand.

    None where none was settled, for calf that nobody weighed, and for a pitch at which no head of
    this size is played: the plan of the kit refuses that one by name.
    """
    tone, head = tune.tuning.tone(end), tune.taken(end).head
    if tone is None or head is None:
        return None
    try:
        heard = tension_from_pitch(
            tone.hz,
            radius_m=tune.radius_m,
            depth_m=tune.depth_m,
            head=head,
            end="muted" if tune.heads_then > 1 else "open",
        )
    except BadInput:
        return None
    return heard.n_per_m if heard.usual else None
