"""What is heard of a head, held against its plan and against what its rods may pull."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.kit_pitches import KitPitches, wished_of
from counterhoop.bench.tune.rods_at import RodsOfHead
from counterhoop.bench.tune.turns_heard import turns_heard
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.heads.rods import print_n, rod_force
from counterhoop.heads.tension import tension_from_pitch
from counterhoop.heads.turns import in_turns, turn_bound, turns_between
from counterhoop.listen.pitch_said import PitchSaid
from counterhoop.quantities.pitch import A4_HZ
from counterhoop.quantities.print_pitch import cents, print_note, print_semitones
from counterhoop.shell.tuning import Stage

THERE_CENTS = 15.0
"""Nearer to the pitch that is planned no player asks for more. Common practice, no source."""
FAR_CENTS = 100.0
"""Evening lasts no further than a semitone: a head is brought to pitch before. Common practice."""
OTHER_DRUM_M = 0.005
"""A shell that is cut by more has other pitches than it had."""
SIXTEENTHS = "a sixteenth at a time in the order of the tuning sheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class PitchPlanned:
    """What a head is to sound like near a rod, the other head muted.

    Attributes
    ----------
    hz : float
    n_per_m : float
        Its tension then.
    a4_hz : float
        What notes are named by.
    wished : bool
        Whether anybody wished anything of these pitches; else the plan chose all by itself.
    """

    hz: float
    n_per_m: float
    a4_hz: float = A4_HZ
    wished: bool = True


def pitch_planned(pitches: KitPitches, tune: DrumToTune, *, head: End) -> PitchPlanned | None:
    """Return what is planned for one head of a drum; None where there is no plan for it."""
    one = pitches.drum(tune.key)
    if one is None or one.planned is None:
        return None
    plan = next((plan for plan in one.planned.heads if plan.head == head), None)
    if plan is None:
        return None
    return PitchPlanned(
        hz=plan.rim_hz,
        n_per_m=plan.n_per_m,
        a4_hz=pitches.wish.a4_hz,
        wished=wished_of(tune, pitches.wish),
    )


def to_be_compared(tune: DrumToTune, *, stage: Stage, wished: bool) -> bool:
    """Tell whether a plan says anything of the drum at that stage.

    Before the work it does where the drum stays as it is and somebody wished something of it.
    """
    if stage != "before":
        return True
    if not wished:
        return False
    cut_m = abs(tune.depth_m - tune.depth_now_m)
    return tune.heads_now == tune.heads_then and cut_m <= OTHER_DRUM_M


def against_plan(
    hz: float,
    *,
    doubt_hz: float = 0.0,
    tune: DrumToTune,
    rods: RodsOfHead,
    planned: PitchPlanned | None,
    even_enough_cents: float,
) -> PitchSaid:
    """Return how a pitch heard near the rods stands to the plan and to the restorer's limit.

    Parameters
    ----------
    hz, doubt_hz : float
        Heard with the other head muted.
    tune : DrumToTune
        As the drum was then.
    rods : RodsOfHead
        Those of the head that was tapped.
    planned : PitchPlanned or None
        None where no pitch is planned for that head as it is.
    even_enough_cents : float
        What the workshop lets differ round a rim it lets differ from a plan.
    """
    n_per_m = _tension(tune, rods.head, hz)
    limit, over = _limit(tune, rods, n_per_m)
    if planned is None:
        return PitchSaid(limit=limit, slack=over)
    off = cents(hz, above_hz=planned.hz)
    note = print_note(planned.hz, a4_hz=planned.a4_hz)
    doubt = abs(cents(hz + doubt_hz, above_hz=hz))
    if abs(off) <= max(even_enough_cents, THERE_CENTS, 2.0 * doubt):
        return PitchSaid(limit=limit, slack=over, says=f"It is there: {note} is planned for it.")
    way = "above" if off > 0.0 else "below"
    if not planned.wished:
        lies = "lower" if off > 0.0 else "higher"
        return PitchSaid(
            limit=limit,
            slack=over,
            says=f"Nobody wished a pitch for it; the tuning sheet has {note} near each rod, "
            f"{print_semitones(off)} {lies}.",
        )
    do = "slacken" if off > 0.0 else "tighten"
    turns = "" if n_per_m is None else _turns(tune, rods, n_per_m, planned.n_per_m)
    return PitchSaid(
        limit=limit,
        slack=over,
        says=f"It is {print_semitones(off)} {way} the pitch planned for it, {note} near each rod: "
        f"{do} all rods alike, {turns or SIXTEENTHS}; then tap round again.",
        turns=True,
        first=abs(off) > FAR_CENTS,
    )


def _tension(tune: DrumToTune, end: End, hz: float) -> float | None:
    head = tune.taken(end).head
    if head is None:
        return None
    try:
        return tension_from_pitch(
            hz, radius_m=tune.radius_m, depth_m=tune.depth_m, head=head,
            end="muted" if tune.heads_then > 1 else "open",
        ).n_per_m  # fmt: skip
    except BadInput:
        return None


def _limit(tune: DrumToTune, rods: RodsOfHead, n_per_m: float | None) -> tuple[str, bool]:
    """Say that the rods pull more than the restorer allows, and whether none may be tightened."""
    most_n = tune.most_per_rod_n
    if most_n is None or n_per_m is None:
        return "", False
    force = rod_force(n_per_m, radius_m=tune.radius_m, rods=len(rods.rods))
    if force.n > most_n:
        return (
            f"At this pitch the rods pull about {print_n(force.n)} each, above your limit of "
            f"{print_n(most_n)}: slacken all rods alike before anything else."
        ), True
    if force.most_n > most_n:
        return (
            f"Tightened at this pitch the rods pull up to {print_n(force.most_n)} each, above your "
            f"limit of {print_n(most_n)}: tighten none."
        ), True
    return "", False


def _turns(tune: DrumToTune, rods: RodsOfHead, from_n_per_m: float, to_n_per_m: float) -> str:
    """Say how far every rod is to be turned; "" where nothing bounds it."""
    gain = turns_heard(tune, rods.head)
    head = tune.taken(rods.head).head
    if head is None:
        return ""
    try:
        gain = gain or turn_bound(head, radius_m=tune.radius_m, thread=rods.thread)
        guide = turns_between(from_n_per_m, to_n_per_m, gain=gain, thread=rods.thread)
    except BadInput:
        return ""
    turns = in_turns(guide.turns)
    if not guide.at_least:
        return f"about {turns} each by what a turn did on this drum, {SIXTEENTHS}"
    if turns.startswith("less"):
        return "a hair at a time in the order of the tuning sheet"
    return f"by the film's stiffness {turns} each or more, {SIXTEENTHS}"
