"""What is said of a plan for a kit, and why there is none."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.heads.conversion import semitones
from counterhoop.heads.kit import HeardAs, KitDrum
from counterhoop.heads.mode import Standing
from counterhoop.heads.rods import rod_force
from counterhoop.heads.tension import SLACKEST_N_PER_M
from counterhoop.heads.working_range import Voice
from counterhoop.quantities.print_pitch import print_pitch, print_semitones

NOTHING_TO_PLAN = "There is calf on every drum of this kit: there is no plan to make."
CALF = (
    "Calf goes with the weather: tune it on the day and by ear, on a dry day if you can; slack it "
    "off after use. Lapping a skin on its flesh-hoop is best sent out or left to one who knows."
)
CASTINGS = (
    "Old castings crack without warning, and what yours stand is not known here: stop at your own "
    "limit, and sooner if anything creaks, leans or opens."
)
GUIDES_MEAN = (
    "Torque is how hard the key turns: 0.1 N m is a weight of 100 g on an arm of 10 cm. Turns at "
    "the least are what the film alone would take: creases, collar and hoop take more, so go on by "
    "the ear."
)
_EVEN_CENTS = 10


def calf_left_out(drum: KitDrum) -> str:
    """Say why a drum with calf on it gets no plan."""
    return f"{drum.name}: no pitches are planned and no turns given. {CALF}"


def no_range(voice: Voice) -> str:
    """Say why there is no tension at which a drum can be played."""
    drum = voice.drum
    fewest = min(drum.rods, drum.resonant_rods or drum.rods)
    force = rod_force(
        SLACKEST_N_PER_M, radius_m=drum.radius_m, rods=fewest, edge_friction=drum.edge_friction
    )
    limit = drum.most_per_rod_n
    if limit is not None and force.most_n > limit:
        return (
            f"{drum.name}: its slackest playable head already pulls up to {force.most_n:.0f} N on "
            f"each rod, above your limit of {limit:.0f} N. A limit above that or more rods would "
            "do; do not force these castings."
        )
    return (
        f"{drum.name}: no tension suits both heads with the bottom one "
        f"{semitones(voice.bottom_cents)}. Set it nearer to the top head"
        f"{', or raise your limit for a rod' if limit is not None else ''}."
    )


def wished_twice(name: str, one_hz: float, other_hz: float, *, a4_hz: float) -> str:
    """Say that two pitches were wished for one drum."""
    return (
        f"{name}: two pitches are wished for it, {print_pitch(one_hz, a4_hz=a4_hz)} and "
        f"{print_pitch(other_hz, a4_hz=a4_hz)}. Leave one out."
    )


def out_of_reach(
    voice: Voice, hz: float, *, low_hz: float, high_hz: float, a4_hz: float
) -> str:  # fmt: skip
    """Say that a drum cannot have the pitch that is wished, and what it can have."""
    wished, low, high = (print_pitch(one, a4_hz=a4_hz) for one in (hz, low_hz, high_hz))
    # What it can do is said in the terms of the wish.
    wished, low, high = (f"{one} {_struck(voice.heard)}" for one in (wished, low, high))
    if hz < low_hz:
        return (
            f"{voice.drum.name}: {wished} is too low, its head would hang slack. It goes down to "
            f"{low}; wish that or more, or put a heavier head on."
        )
    why = "its head would be tighter than heads are played"
    limit = voice.drum.most_per_rod_n
    if limit is not None:
        why = f"its rods would pull more than your limit of {limit:.0f} N, or its head too much"
    return (
        f"{voice.drum.name}: {wished} is too high, {why}. It goes up to {high}; wish that or less, "
        "or put a lighter head on."
    )


def too_close(
    upper: str, lower: str, *, steps: int, least_cents: int, upper_hz: float, lower_hz: float,
    upper_wished: bool, lower_wished: bool, heard: HeardAs, a4_hz: float,
) -> str:  # fmt: skip
    """Say which two drums leave no room between them; both pitches as ``heard``."""
    high, low = (print_pitch(hz, a4_hz=a4_hz) for hz in (upper_hz, lower_hz))
    between = "" if steps == 1 else f" with {steps - 1} more between them"
    apart = semitones(float(steps * least_cents)) if least_cents else "no lower"
    up = f"is wished at {high}" if upper_wished else f"goes up to {high} only"
    down = f"is wished at {low}" if lower_wished else f"goes down to {low} only"
    ways = [
        f"wish {upper} higher" if upper_wished else f"give {upper} a lighter head",
        f"wish {lower} lower" if lower_wished else f"give {lower} a heavier head",
    ]
    return (
        f"{upper} {up} and {lower} {down}, both {_struck(heard)}, but {upper} has to be at least "
        f"{apart} than {lower}{between}. Either {ways[0]} or {ways[1]}."
    )


def of_plan(
    steps: Sequence[int], *, heard: HeardAs, out_of_order: Sequence[tuple[str, str]] = ()
) -> list[str]:
    """Return what holds for the whole plan; ``out_of_order``: lower and upper drum of a pair."""
    says = [
        f"{lower} is lower than {upper} here, which could go lower: that is how the wishes and "
        "limits leave room."
        for lower, upper in out_of_order
    ]
    named = _struck(heard)
    if len(steps) > 1:
        low, high = min(steps), max(steps)
        if high - low <= _EVEN_CENTS:
            says.append(f"From drum to drum, {named}, the pitch rises by even steps.")
        else:
            says.append(
                f"From drum to drum, {named}, the pitch rises by {print_semitones(low)} to "
                f"{print_semitones(high)}: no choice within these limits is more even."
            )
    says.append(
        "Tune each head by ear near its rods, the other head muted. Force, torque and turns are "
        "guides: friction alone makes them differ by a third."
    )
    says.append(CASTINGS)
    return says


def of_drum(note: str, *, two: bool, standing: Standing) -> list[str]:
    """Return what holds for one drum."""
    says = [f"Struck in the middle: {note}."]
    if not two:
        says.append("The open end is reckoned only: nothing published was found to check it.")
    elif standing is Standing.CHECKED:
        says.append("Computed, by a reckoning that gives published pitches of drums again.")
    return [*says, GUIDES_MEAN]


def _struck(heard: HeardAs) -> str:
    """Say where a drum is struck at the pitches that are named."""
    return "near a rod" if heard == "rim" else "struck in the middle"
