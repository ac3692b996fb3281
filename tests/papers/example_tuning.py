"""Two drums with their pitches planned, and a head that was heard before and after."""

from __future__ import annotations

import datetime as dt
import math
from functools import cache

from counterhoop.heads.head import film_head
from counterhoop.heads.kit import KitDrum, KitPlan
from counterhoop.heads.kit_plan import kit_plan
from counterhoop.heads.mode import Mode, Standing
from counterhoop.listen.advice import advise
from counterhoop.listen.round_rim import RimReading, TapReading
from counterhoop.listen.strokes import CLIPPED
from counterhoop.papers.tuned_sheet import HeadTuned, ReadingShown, SoundShown
from counterhoop.papers.tuning_sheet import DrumToPitch, HeadToTune
from counterhoop.shell.tuning import HoopHeights, Stage
from counterhoop.standards.threads import find_thread

SIXES = tuple((at + 1, 30.0 + 60.0 * at) for at in range(6))
EIGHTS = tuple((at + 1, 45.0 * at) for at in range(8))
MEAN_HZ, DECAY_PER_S = 213.0, 5.0


@cache
def kit() -> KitPlan:
    thick, thin = film_head(254e-6), film_head(190.5e-6)
    return kit_plan([
        KitDrum(
            name="small tom", radius_m=0.1504, depth_m=0.2032, batter=thick, resonant=thin,
            rods=6, resonant_rods=8, thread=find_thread("12-24"), most_per_rod_n=700.0,
        ),
        KitDrum(name="open tom", radius_m=0.2012, depth_m=0.4064, batter=thick, rods=8),
    ])  # fmt: skip


def drums() -> tuple[DrumToPitch, ...]:
    planned = {one.name: one for one in kit().drums}
    return (
        DrumToPitch(
            key="open tom", what="16 x 16 in", planned=planned["open tom"],
            heads=(
                HeadToTune(head="batter", film="one ply of 10 mil film", assumed=True, rods=EIGHTS),
            ),
            assumed=("The edge is taken as it is drawn.",),
        ),
        DrumToPitch(
            key="small tom", what="12 x 8 in", planned=planned["small tom"], limit_n=700.0,
            heads=(
                HeadToTune(head="batter", film="one ply of 10 mil film", assumed=False, rods=SIXES),
                HeadToTune(head="resonant", film="7.5 mil film", assumed=False, rods=EIGHTS),
            ),
            says=("It sounds higher with the second head on.",),
        ),
        DrumToPitch(key="calf drum", what="14 x 5 in", planned=None, refusal="Calf: by ear."),
    )  # fmt: skip


def rim(split: float, *, axis: float = 75.0, left_out: tuple[int, ...] = ()) -> RimReading:
    half = split / 2.0
    taps = tuple(
        TapReading(rod=rod, along_deg=deg, says=CLIPPED) if rod in left_out else TapReading(
            rod=rod, along_deg=deg, hz=MEAN_HZ,
            cents=half * math.cos(2.0 * math.radians(deg - axis)),
        )
        for rod, deg in EIGHTS
    )  # fmt: skip
    return RimReading(
        mean_hz=MEAN_HZ, mean_doubt_hz=0.1, split_cents=split, split_doubt_cents=0.8,
        axis_deg=axis, axis_doubt_deg=3.0, taps=taps, quality="good",
    )  # fmt: skip


def sound() -> SoundShown:
    """A stroke that is one tone on a floor of noise, dying as exactly as it is said to."""
    spectrum = tuple(
        max(-55.0, -10.0 * math.log10(1.0 + ((2.0 * at - MEAN_HZ) / 2.0) ** 2)) for at in range(401)
    )
    slope_db = 20.0 * DECAY_PER_S / math.log(10.0)
    fade = tuple(max(-45.0, -slope_db * 0.02 * at) for at in range(80))
    mode = Mode(
        around=1, circles=1, family="alone", hz=MEAN_HZ, batter_share=1.0, batter_shape=(1.0,),
        resonant_shape=(), standing=Standing.UNCHECKED,
    )  # fmt: skip
    return SoundShown(
        spectrum_db=spectrum, from_hz=0.0, step_hz=2.0, tones=((MEAN_HZ, 0.0), (303.0, -12.0)),
        modes=(mode,), fade_db=fade, fade_step_s=0.02, hz=MEAN_HZ, decay_per_s=DECAY_PER_S,
    )  # fmt: skip


def read(
    stage: Stage, split: float, *, day: dt.date, left_out: tuple[int, ...] = ()
) -> ReadingShown:
    heard = rim(split, left_out=left_out)
    return ReadingShown(
        stage=stage, day=day, hz=MEAN_HZ, used=8 - len(left_out), taken=8, rim=heard, rods=EIGHTS,
        advice=advise(
            heard, rods=8, rod_deg=[deg for _, deg in EIGHTS], oval_mm=2.0, diameter_mm=300.0
        ),
        sound=sound(),
    )  # fmt: skip


def head() -> HeadTuned:
    return HeadTuned(
        head="batter", film="one ply of 10 mil film", wished_hz=214.0,
        readings=(
            read("before", 34.0, day=dt.date(2026, 5, 2), left_out=(5,)),
            read("after", 4.0, day=dt.date(2026, 5, 3)),
        ),
        heights=(
            HoopHeights(
                head="batter", stage="before", hoop_flat=True,
                at_mm=(9.1, 9.3, 9.0, 9.2, 9.4, 9.1, 9.0, 9.2),
            ),
        ),
    )  # fmt: skip
