"""What a turn did on this drum, by what somebody heard and wrote down."""

from __future__ import annotations

import math

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.heads.turns import TurnGain, calibrate_turns
from counterhoop.standards.threads import find_thread


def turns_heard(tune: DrumToTune, end: End) -> TurnGain | None:
    """Return what a turn of every rod of a head does, by the last that was written down.

    Turns on rods of another pitch than it has now are passed over, and so are those whose pitch
    says nothing of this head.
    """
    rods, head = tune.rods(end), tune.taken(end).head
    if rods is None or head is None:
        return None
    for heard in reversed(tune.tuning.turns):
        thread = find_thread(heard.rod) if heard.rod else rods.thread
        if heard.head != end or not math.isclose(thread.pitch_mm, rods.thread.pitch_mm):
            continue
        try:
            return calibrate_turns(
                heard.from_hz,
                heard.to_hz,
                turns=heard.turns,
                thread=rods.thread,
                radius_m=tune.radius_m,
                depth_m=tune.depth_m,
                head=head,
                end="muted" if tune.heads_then > 1 else "open",
            )
        except BadInput:
            continue
    return None
