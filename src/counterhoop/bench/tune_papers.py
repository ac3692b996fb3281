"""The papers of heads and tuning: the kit's pitches, and a drum before and after."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.bench.paper_sorts import TUNED_SHEET, TUNING_SHEET, Maker
from counterhoop.bench.plan_job import DrumPlan, JobPlan
from counterhoop.bench.tune.conversion_told import conversion_told
from counterhoop.bench.tune.drum_to_tune import DrumToTune, drum_to_tune
from counterhoop.bench.tune.heard import Heard, StrokeHeard, ToneHeard
from counterhoop.bench.tune.kept_reading import from_json
from counterhoop.bench.tune.kit_pitches import DrumPitches, KitPitches, kit_pitches
from counterhoop.bench.tune.modes_beneath import modes_beneath
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind
from counterhoop.papers.tuned_sheet import HeadTuned, ReadingShown, SoundShown, tuned_sheet_pdf
from counterhoop.papers.tuning_sheet import DrumToPitch, HeadToTune, tuning_sheet_pdf
from counterhoop.quantities.pitch import A4_HZ
from counterhoop.quantities.print_pitch import cents
from counterhoop.shell.job import Job
from counterhoop.shell.tuning import STAGES, ReadingKept

ENDS: tuple[End, End] = ("batter", "resonant")
TOLD = 2
"""Sentences on a second head that a sheet has room for: what the client hears, what to tune by."""

KNOCK_PER_S = 25.0
"""What dies faster than this is no tone that anybody hears."""


def tuning_papers(plan: JobPlan, *, paper: str) -> dict[str, Maker]:
    """Return the tuning sheet of a kit; none where no drum has a lug for a rod."""
    if not any(_has_rods(drum) for drum in plan.drums):
        return {}

    def tuning_sheet() -> bytes:
        pitches = kit_pitches(plan)
        return tuning_sheet_pdf(
            plan.opened.job,
            [_to_pitch(one, pitches) for one in pitches.drums],
            says=pitches.says,
            a4_hz=pitches.wish.a4_hz,
            paper=paper,
        )

    return {TUNING_SHEET.named(): tuning_sheet}


def tuned_papers(job: Job, plan: DrumPlan, *, paper: str) -> dict[str, Maker]:
    """Return the tuned sheet of a drum of which a reading is kept."""
    tuning = plan.wanted.tuning
    if tuning is None or not tuning.readings:
        return {}

    def tuned_sheet() -> bytes:
        tune = drum_to_tune(plan)
        heads = [head for end in ENDS if (head := _tuned(tune, end)) is not None]
        a4_hz = job.kit.a4_hz if job.kit is not None else A4_HZ
        return tuned_sheet_pdf(
            job, drum=tune.key, what=tune.what, heads=heads, a4_hz=a4_hz, paper=paper
        )

    return {TUNED_SHEET.named(): tuned_sheet}


def _has_rods(plan: DrumPlan) -> bool:
    layout = plan.chosen.layout if plan.chosen is not None else plan.found
    return any(
        lug.fitting.kind in (Kind.LUG, Kind.LONG_LUG) for end in ENDS for lug in layout.lugs(end)
    )


def _to_pitch(one: DrumPitches, pitches: KitPitches) -> DrumToPitch:
    tune = one.tune
    heads = []
    for end in ENDS[: tune.heads_then]:
        taken, rods = tune.batter if end == "batter" else tune.resonant, tune.rods(end)
        heads.append(
            HeadToTune(
                head=end,
                film=taken.head.says if taken.head is not None else "calf, not weighed",
                assumed=bool(taken.assumed) and taken.head is not None,
                rods=tuple((rod.number, rod.along_deg) for rod in rods.rods) if rods else (),
            )
        )
    of_heads = (tune.batter.assumed, tune.resonant.assumed)
    return DrumToPitch(
        key=one.key,
        what=tune.what,
        planned=one.planned,
        refusal=_sentence(one.refusal.removeprefix(f"{one.key}: ")),
        heads=tuple(heads),
        limit_n=tune.most_per_rod_n,
        says=_conversion(one, pitches),
        assumed=tuple(said for said in tune.assumed if said not in of_heads),
    )


def _sentence(said: str) -> str:
    return said[:1].upper() + said[1:]


def _conversion(one: DrumPitches, pitches: KitPitches) -> tuple[str, ...]:
    if one.planned is None:
        return ()
    batter, resonant = one.planned.batter, one.planned.resonant
    told = conversion_told(
        one.tune,
        batter_n_per_m=batter.n_per_m,
        bottom_cents=cents(resonant.rim_hz, above_hz=batter.rim_hz) if resonant else 0.0,
        a4_hz=pitches.wish.a4_hz,
    )
    return () if told is None else told.says[:TOLD]


def _tuned(tune: DrumToTune, end: End) -> HeadTuned | None:
    """Return what was heard of one head, the last reading of each stage; None without one."""
    kept = [reading for reading in tune.tuning.readings if reading.head == end]
    last = [
        stage[-1]
        for name in STAGES
        if (stage := sorted((one for one in kept if one.stage == name), key=lambda one: one.when))
    ]
    if not last:
        return None
    taken, tone = tune.batter if end == "batter" else tune.resonant, tune.tuning.tone(end)
    return HeadTuned(
        head=end,
        film=taken.head.says if taken.head is not None else "calf, not weighed",
        wished_hz=tone.hz if tone is not None else None,
        readings=tuple(_shown(one, tune) for one in last),
        heights=tuple(one for one in tune.tuning.heights if one.head == end),
    )


def _shown(kept: ReadingKept, tune: DrumToTune) -> ReadingShown:
    day = kept.when.date()
    try:
        heard = from_json(kept.result, where=f"{tune.key}, reading {kept.number}")
    except BadInput as fault:
        # Written by hand perhaps: the sheet says so and shows the others.
        return ReadingShown(stage=kept.stage, day=day, by=kept.by, refusal=str(fault))
    return ReadingShown(
        stage=kept.stage,
        day=day,
        by=kept.by,
        muted=kept.muted,
        hz=heard.hz,
        refusal=heard.refusal,
        used=sum(not stroke.dropped for stroke in heard.strokes),
        taken=len(heard.strokes),
        rim=heard.rim,
        rods=tuple((rod.number, rod.along_deg) for rod in heard.rods),
        advice=heard.advice,
        even_enough_cents=heard.even_enough_cents,
        sound=sound_of(heard, tune),
    )


def sound_of(heard: Heard, tune: DrumToTune) -> SoundShown:
    """Return what rang and how it died, as it is drawn, the model's modes beneath."""
    if heard.spectrum is None:
        return SoundShown()
    tones = _tones(heard.strokes)
    decay = _decay(heard, tones)
    return SoundShown(
        spectrum_db=heard.spectrum.db,
        from_hz=heard.spectrum.from_hz,
        step_hz=heard.spectrum.step_hz,
        tones=tuple((tone.hz, tone.level_db) for tone in tones),
        modes=modes_beneath(heard, tune),
        fade_db=heard.fade.db if heard.fade is not None else (),
        fade_step_s=heard.fade.step_s if heard.fade is not None else 1.0,
        hz=heard.hz,
        decay_per_s=decay,
    )


def _tones(strokes: Sequence[StrokeHeard]) -> tuple[ToneHeard, ...]:
    """Return the tones of the stroke in which most were found, the stick's own knock left out."""
    every = [
        tuple(tone for tone in stroke.tones if tone.decay_per_s < KNOCK_PER_S)
        for stroke in strokes
        if stroke.hz is not None
    ]
    return max(every, key=len, default=())


def _decay(heard: Heard, tones: Sequence[ToneHeard]) -> float | None:
    """Return how fast the pitch of the head dies: the mean of its two where there are two."""
    poles = heard.rim.poles if heard.rim is not None else ()
    if poles:
        return sum(pole.decay_per_s for pole in poles) / len(poles)
    if heard.hz is None or not tones:
        return None
    hz = heard.hz
    return min(tones, key=lambda tone: abs(tone.hz - hz)).decay_per_s
