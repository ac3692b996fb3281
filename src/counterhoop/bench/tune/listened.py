"""A recording listened to: its strokes, which rod each was near, what they say, what to turn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from counterhoop.bench.tune.advice_on import advice_on
from counterhoop.bench.tune.advice_on_strokes import advice_on_strokes
from counterhoop.bench.tune.against_plan import PitchPlanned
from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.heard import AlsoHeard, Heard, StrokeHeard, ToneHeard
from counterhoop.bench.tune.phone_places import (
    OTHER_PITCH,
    Also,
    PhonePlace,
    another_place,
    belongs,
    read_from,
)
from counterhoop.bench.tune.rods_tapped import matched, miscounted, struck_again
from counterhoop.bench.tune.sound_shown import fade_of, spectrum_of
from counterhoop.bench.tune.way_round import way_doubted
from counterhoop.development.flat import End
from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, Advice, Way
from counterhoop.listen.advice_words import NOT_READ
from counterhoop.listen.decode import decode
from counterhoop.listen.read_stroke import StrokeReading, read_stroke
from counterhoop.listen.refuse import refuse
from counterhoop.listen.round_rim import RimReading
from counterhoop.listen.same_drum import with_beats
from counterhoop.listen.strokes import Stroke, find_strokes
from counterhoop.shell.tuning import Stage

Progress = Callable[[str, float], None]
Stop = Callable[[], bool]

FEWEST_RODS = 3
LEFT_OUT = "Left out by hand."
MOST_READ = 60
"""Strokes that are read singly; more than that nobody looks at."""


def listened(
    data: bytes,
    *,
    name: str = "",
    tune: DrumToTune | None = None,
    head: End = "batter",
    stage: Stage = "before",
    muted: bool = True,
    rods: Sequence[int | None] | None = None,
    first_rod: int = 1,
    back: bool = False,
    near_hz: float | None = None,
    phone_deg: float | None = None,
    also: Sequence[Also] = (),
    planned: PitchPlanned | None = None,
    even_enough_cents: float = EVEN_ENOUGH_CENTS,
    way: Way = "both",
    progress: Progress = lambda _says, _share: None,
    stop: Stop | None = None,
) -> Heard:
    """Listen to a recording.

    Parameters
    ----------
    data : bytes
        The file, of any usual kind.
    name : str
        What it is called, for messages.
    tune : DrumToTune, optional
        The drum; without one, strokes and their pitches are all there is to say.
    head, stage, muted :
        Which head was struck, when in the work, and whether the other one was muted.
    rods : sequence of int or None, optional
        The rod of each stroke, those that cannot be used counted too; None or 0 leaves it out.
        If left out, taps are taken in order along, from ``first_rod``, as long as they come out
        even with the rods; else nothing is said of what to turn, and why.
    back : bool
        Taps that are taken in order went against the numbers of the rods.
    near_hz : float, optional
        Where the pitch near the rim is to be sought.
    phone_deg : float, optional
        Where along the shell the phone lay.
    also : sequence of Also, optional
        The same taps with the phone in other places. One that is of no use is left out, and why is
        said of it.
    planned : PitchPlanned, optional
        What that head is to sound like.
    even_enough_cents, way :
        As in ``advise``.
    progress : callable
        Told a sentence and the share that is done.
    stop : callable, optional
        Asked now and then.

    Raises
    ------
    BadInput
        For a file that cannot be read, a rod that is not there.
    CannotDo
        ``stop`` said so.
    """
    sound = decode(data, name=name, on_progress=_in_steps(progress), stop=stop)
    progress("strokes", 0.4)
    strokes = with_beats(sound, find_strokes(sound))
    its_rods = None if tune is None else tune.at(stage).rods(head)
    count = len(its_rods.rods) if its_rods else 0
    near = matched(strokes, count=count, rods=rods, first_rod=first_rod, back=back)
    again = struck_again(strokes, count=count) if count and rods is None else ""
    heard = Heard(
        head=head,
        stage=stage,
        muted=muted,
        seconds=sound.seconds,
        rate_hz=sound.rate_hz,
        sound_says=(*sound.says, *((again,) if again else ())),
        rods=its_rods.rods if its_rods else (),
        even_enough_cents=even_enough_cents,
        strokes=tuple(_plain(stroke, rod) for stroke, rod in zip(strokes, near, strict=True)),
    )
    refusal = refuse(sound, strokes)
    if refusal:
        return replace(heard, refusal=refusal)
    first = PhonePlace(sound=sound, strokes=strokes, near=tuple(near), phone_deg=phone_deg)
    used = first.used
    if not used:
        return replace(heard, refusal="All strokes are left out: choose a rod for some of them.")
    rim, others = None, [_taken(one, count=count, stop=stop) for one in also] if count else []
    if its_rods is not None and len({rod for _, rod in used}) >= FEWEST_RODS:
        progress("taps round the rim", 0.5)
        rim = read_from([first], rods=its_rods.rods, near_hz=near_hz)
        others = [
            one if one.refusal or belongs(rim, one, rods=its_rods.rods)
            else replace(one, refusal=OTHER_PITCH)
            for one in others
        ]  # fmt: skip
        joined = [one for one in others if not one.refusal]
        if joined:
            progress("taps from all places of the phone", 0.55)
            rim = read_from([first, *joined], rods=its_rods.rods, near_hz=near_hz)
    expected = near_hz or (rim.mean_hz if rim is not None else None)
    every = sum(len(one.used[:MOST_READ]) for one in (first, *others))

    def single(place: PhonePlace, before: int) -> tuple[StrokeHeard, ...]:
        return _singly(
            place, near_hz=expected,
            told=lambda number, at: progress(
                f"stroke {number}", 0.6 + 0.35 * (before + at) / every
            ),
        )  # fmt: skip

    read, done = single(first, 0), len(used[:MOST_READ])
    further = []
    for one, given in zip(others, also, strict=False):
        further.append(
            AlsoHeard(
                name=given.name, seconds=one.sound.seconds, rate_hz=one.sound.rate_hz,
                sound_says=one.sound.says, strokes=single(one, done), refusal=one.refusal,
            )
        )  # fmt: skip
        done += len(one.used[:MOST_READ])
    advice, along = None, not muted and tune is not None and tune.at(stage).heads_then > 1
    odd = miscounted(strokes, count=count) if count and rods is None else ""
    if rim is not None and odd:
        # How far apart its two pitches are was heard well, but not at which rods.
        rim, advice = None, Advice(sentences=(odd, NOT_READ))
    elif rim is not None and tune is not None and its_rods is not None:
        advice = advice_on(
            rim, tune=tune, rods=its_rods, stage=stage, muted=muted, planned=planned,
            even_enough_cents=even_enough_cents, way=way,
        )  # fmt: skip
    elif tune is not None and its_rods is not None and planned is not None and not along:
        advice = advice_on_strokes(
            [one.hz for one in read if one.hz is not None], tune=tune, rods=its_rods, stage=stage,
            planned=planned, even_enough_cents=even_enough_cents,
        )  # fmt: skip
    loudest = max((stroke for stroke, _ in used), key=lambda one: one.level_db)
    progress("done", 1.0)
    return replace(
        heard,
        kind="round the rim" if rim is not None else "single",
        strokes=read,
        rim=rim,
        also=tuple(further),
        way_doubt=way_doubted(
            rim,
            first_rod=used[0][1],
            rods=its_rods.rods,
            phone_deg=[one.phone_deg for one in (first, *others) if not one.refusal],
        )
        if rim is not None and its_rods is not None
        else "",
        advice=advice,
        refusal=_nothing(rim, read),
        spectrum=spectrum_of(sound, [stroke for stroke, _ in used]),
        fade=fade_of(sound, loudest),
    )


def _in_steps(progress: Progress) -> Callable[[float], None]:
    """Return what passes on how much of the recording is read, a tenth at a time."""
    told = [0]

    def read(share: float) -> None:
        tenths = int(10.0 * share)
        if tenths > told[0]:
            told[0] = tenths
            progress("the recording", 0.4 * share)

    return read


def _taken(also: Also, *, count: int, stop: Stop | None) -> PhonePlace:
    sound = decode(also.data, name=also.name, stop=stop)
    strokes = with_beats(sound, find_strokes(sound))
    return another_place(also, sound=sound, strokes=strokes, count=count)


def _singly(
    place: PhonePlace, *, near_hz: float | None, told: Callable[[int, int], None]
) -> tuple[StrokeHeard, ...]:
    """Return the strokes of a place, each read for itself."""
    singles: dict[int, StrokeReading] = {}
    for at, (stroke, _) in enumerate(place.used[:MOST_READ]):
        told(stroke.number, at)
        singles[stroke.number] = read_stroke(place.sound, stroke, near_hz=near_hz)
    return tuple(
        _with_reading(_plain(stroke, rod), singles.get(stroke.number))
        for stroke, rod in zip(place.strokes, place.near, strict=True)
    )


def _nothing(rim: RimReading | None, strokes: Sequence[StrokeHeard]) -> str:
    """Say why nothing was read, where nothing was."""
    if rim is not None and rim.mean_hz is not None:
        return ""
    if any(one.hz is not None for one in strokes):
        return ""
    asked = [*(rim.ask if rim is not None else ()), *(said for one in strokes for said in one.says)]
    return asked[0] if asked else "No tone in it is clear enough to be a drum's."


def _plain(stroke: Stroke, rod: int | None) -> StrokeHeard:
    return StrokeHeard(
        number=stroke.number,
        starts_s=stroke.starts_s,
        ends_s=stroke.ends_s,
        rod=rod or 0,
        dropped=stroke.dropped or (LEFT_OUT if rod is None else ""),
    )


def _with_reading(heard: StrokeHeard, read: StrokeReading | None) -> StrokeHeard:
    if read is None:
        return heard
    settled = read.settled
    return replace(
        heard,
        hz=settled.hz if settled else None,
        doubt_hz=settled.hz_doubt if settled else 0.0,
        glide_cents=read.glide.cents if read.glide else 0.0,
        quality=read.quality,
        tones=tuple(
            ToneHeard(
                hz=one.hz,
                doubt_hz=one.hz_doubt,
                decay_per_s=one.decay_per_s,
                level_db=one.level_db,
            )
            for one in read.partials
        ),
        says=(*read.says, *((read.refusal,) if read.refusal else ())),
    )
