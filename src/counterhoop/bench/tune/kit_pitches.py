"""The pitches of the drums of a job: the plan, drum by drum, or why there is none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.tune.drum_to_tune import DrumToTune, drum_to_tune
from counterhoop.bench.tune.turns_heard import turns_heard
from counterhoop.errors import BadInput
from counterhoop.heads.head import Head
from counterhoop.heads.kit import HeardAs, KitDrum, KitPlan, PitchWish, PlannedDrum, WishedPitch
from counterhoop.heads.kit_plan import kit_plan
from counterhoop.quantities.print_pitch import cents
from counterhoop.shell.drum import DrumKind
from counterhoop.shell.tuning import BOTTOM_CENTS, DrumTone, KitWish

BY_THEMSELVES = (DrumKind.SNARE, DrumKind.MARCHING_SNARE)
"""A snare drum is no step of a kit. Common practice, no source."""
_CALF = Head(mass_kg_per_m2=0.3, calf=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumPitches:
    """One drum of the plan, with what was reckoned with.

    Attributes
    ----------
    tune : DrumToTune
    planned : PlannedDrum or None
        None where there is no plan for it: ``refusal`` says why.
    refusal : str
    in_steps : bool
        Whether it is a step of the kit; a snare drum stands by itself.
    """

    tune: DrumToTune
    planned: PlannedDrum | None
    refusal: str = ""
    in_steps: bool = True

    @property
    def key(self) -> str:
        """The drum's name in the job."""
        return self.tune.key


@dataclass(frozen=True, slots=True, kw_only=True)
class KitPitches:
    """The plan of a job's pitches.

    Attributes
    ----------
    wish : KitWish
        What was wished; the usual where nothing was.
    wished : bool
        Whether anything was.
    drums : tuple of DrumPitches
        The kit by rising pitch, then drums by themselves, then those without a plan.
    steps_cents : tuple of int
        From each drum of the kit to the next.
    refusals : tuple of str
        Why the kit, or a drum, has no plan; what would do.
    says : tuple of str
        Of the plan as a whole.
    """

    wish: KitWish
    wished: bool = True
    drums: tuple[DrumPitches, ...]
    steps_cents: tuple[int, ...] = ()
    refusals: tuple[str, ...] = ()
    says: tuple[str, ...] = ()

    def drum(self, key: str) -> DrumPitches | None:
        """Return one drum's part, by its name in the job."""
        plain = key.strip().casefold()
        return next((one for one in self.drums if one.key.casefold() == plain), None)


def kit_pitches(plan: JobPlan) -> KitPitches:
    """Plan the pitches of all drums of a job.

    Parameters
    ----------
    plan : JobPlan
        Of the job: drums sound as their chosen schemes leave them.
    """
    return pitches_of(
        {drum.key: drum_to_tune(drum) for drum in plan.drums},
        kinds={drum.key: drum.wanted.drum.kind for drum in plan.drums},
        wish=plan.opened.job.kit,
    )


def wished_in(wish: KitWish | None) -> bool:
    """Tell whether anything is wished of the pitches; what A is, is no wish."""
    return wish is not None and wish != KitWish(a4_hz=wish.a4_hz)


def wished_of(tune: DrumToTune, wish: KitWish | None) -> bool:
    """Tell whether anything is wished of the pitch of a drum, with its kit or by itself."""
    return wished_in(wish) or tune.tuning.tone("batter") is not None


def sounding_together(kinds: Mapping[str, DrumKind]) -> list[list[str]]:
    """Return the drums of the kit, perhaps none, then each that is planned by itself."""
    alone = [key for key, kind in kinds.items() if kind in BY_THEMSELVES]
    return [[key for key in kinds if key not in alone], *([key] for key in alone)]


def pitches_of(
    tunes: Mapping[str, DrumToTune], *, kinds: Mapping[str, DrumKind], wish: KitWish | None
) -> KitPitches:
    """Plan the pitches of drums.

    Parameters
    ----------
    tunes : mapping of str to DrumToTune
        By their names in the job.
    kinds : mapping of str to DrumKind
        What sort of drum each is.
    wish : KitWish or None
        What the player wishes of the whole job.
    """
    wish = wish or KitWish()
    groups = sounding_together(kinds)
    found: list[DrumPitches] = []
    refusals: list[str] = []
    says: list[str] = []
    steps: tuple[int, ...] = ()
    for number, keys in enumerate(groups):
        if not keys:
            continue
        made = _planned([tunes[key] for key in keys], wish)
        # Of one drum alone that is left out its own sentence says why.
        alone_out = len(keys) == 1 and made.left_out
        refusals += [made.refusal] if made.refusal and not alone_out else []
        refusals += made.left_out
        if number == 0:
            steps, says = made.steps_cents, list(made.says)
        elif not says:
            says = list(made.says)
        by_name = {one.name: one for one in made.drums}
        order = [*by_name, *(key for key in keys if key not in by_name)]
        found += [
            DrumPitches(
                tune=tunes[key],
                planned=by_name.get(key),
                refusal="" if key in by_name else _why_not(key, made, keys),
                in_steps=number == 0,
            )
            for key in order
        ]
    return KitPitches(
        wish=wish,
        wished=wished_in(wish),
        drums=tuple(sorted(found, key=lambda one: one.planned is None)),
        steps_cents=steps,
        refusals=tuple(refusals),
        says=tuple(says),
    )


def _planned(tunes: Sequence[DrumToTune], wish: KitWish) -> KitPlan:
    drums = [_kit_drum(tune, wish) for tune in tunes]
    try:
        return kit_plan(drums, _pitch_wish(tunes, drums, wish))
    except BadInput as fault:
        return KitPlan(refusal=str(fault))


def _why_not(key: str, plan: KitPlan, keys: Sequence[str]) -> str:
    """Say why a drum has no plan; what is wrong with another is said there."""
    own = [said for said in plan.left_out if said.startswith(f"{key}:")]
    if own:
        return own[0]
    about = [one for one in keys if plan.refusal.startswith((f"{one}:", f"{one} "))]
    whose = max(about, key=len, default=keys[0])
    return plan.refusal if whose == key else f"{key}: no plan before there is one for the {whose}."


def _kit_drum(tune: DrumToTune, wish: KitWish) -> KitDrum:
    batter, resonant = tune.rods("batter"), tune.rods("resonant")
    two = tune.heads_then > 1
    tones = [tune.tuning.tone(end) for end in ("batter", "resonant")]
    own = None
    if tones[0] is not None and tones[1] is not None:
        own = cents(tones[1].hz, above_hz=tones[0].hz)
    rods = batter or resonant
    return KitDrum(
        name=tune.key,
        radius_m=tune.radius_m,
        depth_m=tune.depth_m,
        batter=tune.batter.head or _CALF,
        resonant=(tune.resonant.head or _CALF) if two else None,
        rods=len(rods.rods) if rods else 0,
        resonant_rods=len(resonant.rods) if two and resonant else None,
        thread=rods.thread if rods else None,
        most_per_rod_n=tune.most_per_rod_n,
        bottom_cents=own,
        batter_gain=turns_heard(tune, "batter"),
        resonant_gain=turns_heard(tune, "resonant") if two else None,
    )


def _pitch_wish(tunes: Sequence[DrumToTune], drums: Sequence[KitDrum], wish: KitWish) -> PitchWish:
    names = {drum.name.casefold(): drum.name for drum in drums}
    heard: HeardAs = "middle" if wish.heard == "in the middle" else "rim"

    def asked(one: DrumTone | None) -> WishedPitch | None:
        name = names.get(one.drum.casefold()) if one is not None else None
        return WishedPitch(hz=one.tone.hz, drum=name) if one is not None and name else None

    ends = (asked(wish.lowest), asked(wish.highest))
    kept = [pitch for one in wish.as_heard if (pitch := asked(one)) is not None]
    if len(drums) == 1:
        # By itself a drum is neither lowest nor highest: its pitch is just wished.
        kept += [pitch for pitch in ends if pitch is not None]
        ends = (None, None)
    taken = {pitch.drum for pitch in (*ends, *kept) if pitch is not None}
    # What was settled by hand was heard near the rim, whatever the kit's own pitches name.
    kept += [
        WishedPitch(hz=tone.hz, drum=drum.name, heard="rim")
        for tune, drum in zip(tunes, drums, strict=True)
        if drum.name not in taken and (tone := tune.tuning.tone("batter")) is not None
    ]
    return PitchWish(
        lowest=ends[0],
        highest=ends[1],
        as_heard=tuple(kept),
        bottom_cents=BOTTOM_CENTS[wish.bottom],
        heard=heard,
        a4_hz=wish.a4_hz,
    )
