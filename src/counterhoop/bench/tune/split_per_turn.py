"""How many cents a pattern of turns moves the split: at most by the film, and as it was heard."""

from __future__ import annotations

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.turns_heard import turns_heard
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.heads.hoop import edge_factor
from counterhoop.heads.tension import tension_from_pitch
from counterhoop.heads.turns import turn_bound
from counterhoop.heads.uneven import CENTS_PER_UNIT
from counterhoop.listen.calibration import Calibration

LOBES = 2


def at_most_cents_per_turn(tune: DrumToTune, end: End, *, hz: float) -> float | None:
    """Return what a turn would do to the split by the film's stiffness alone; it does less.

    Parameters
    ----------
    hz : float
        Pitch of that head near the rim.

    Returns
    -------
    float or None
        For two lobes of turns a whole turn high. None for calf and where the film, the rods or
        the tension is not known.

    Notes
    -----
    A hoop drawn down by ``P cos 2 th`` puts two lobes of ``Y P / a`` times ``edge_factor(2)`` on
    the tension T, and these split the (1,1) by half their height over T. That the hoop bends
    less than the rods would have it is left out, which is the safe side.
    """
    rods, taken = tune.rods(end), tune.batter if end == "batter" else tune.resonant
    head = taken.head
    if rods is None or head is None or head.stiffness_n_per_m is None:
        return None
    try:
        tension = tension_from_pitch(
            hz, radius_m=tune.radius_m, depth_m=tune.depth_m, head=head,
            end="muted" if tune.heads_then > 1 else "open",
        ).n_per_m  # fmt: skip
    except BadInput:
        return None
    drawn = rods.thread.pitch_mm / 1000.0 / tune.radius_m
    high = head.stiffness_n_per_m * drawn * edge_factor(LOBES, poisson=head.poisson, edge="stuck")
    return high / tension / 2.0 * CENTS_PER_UNIT


def calibration_of(tune: DrumToTune, end: End, *, hz: float) -> Calibration | None:
    """Return what a turn does to the split of this drum, once turns were heard on it.

    What a turn of every rod lost of what the film would give, a pattern of turns is taken to lose
    as well.
    """
    gain, most = turns_heard(tune, end), at_most_cents_per_turn(tune, end, hz=hz)
    rods = tune.rods(end)
    if gain is None or most is None or rods is None:
        return None
    bound = turn_bound(tune.head(end), radius_m=tune.radius_m, thread=rods.thread)
    share = min(gain.n_per_m / bound.n_per_m, 1.0)
    return Calibration(cents_per_turn=share * most)
